"""The site's feed of plans: Atom, as RFC 4287 describes it."""

from collections.abc import Sequence
from typing import Any
from xml.etree import ElementTree as ET

from plankit.publish.document import Document

NAMESPACE = "http://www.w3.org/2005/Atom"


def atom(title: str, subtitle: str, address: str, author: str, plans: Sequence[Document]) -> bytes:
    """Return a feed with an entry for each plan, the latest first.

    address  where the site is read, ending in "/"; plans are found below it and named by it for good
    plans    plan documents; the feed's own date is the latest of theirs
    """
    ET.register_namespace("", NAMESPACE)
    feed = ET.Element(_name("feed"))
    newest = sorted(plans, key=lambda plan: (plan["updated"], plan["slug"]), reverse=True)
    updated = newest[0]["updated"] if newest else "1970-01-01"
    _text(feed, "id", address)
    _text(feed, "title", title)
    if subtitle:
        _text(feed, "subtitle", subtitle)
    _text(feed, "updated", moment(updated))
    _link(feed, rel="self", type="application/atom+xml", href=f"{address}feed.xml")
    _link(feed, rel="alternate", type="text/html", href=address)
    _text(ET.SubElement(feed, _name("author")), "name", author)
    for plan in newest:
        _entry(feed, address, plan)
    ET.indent(feed, " ")
    body: bytes = ET.tostring(feed, encoding="unicode").encode()
    return b'<?xml version="1.0" encoding="utf-8"?>\n' + body + b"\n"


def moment(date: str) -> str:
    """Return a day as RFC 3339 writes its first moment."""
    return date if "T" in date else f"{date}T00:00:00Z"


def _entry(feed: ET.Element, address: str, plan: Document) -> None:
    entry = ET.SubElement(feed, _name("entry"))
    here = f"{address}{plan['slug']}/"
    _text(entry, "id", here)
    _text(entry, "title", plan["title"])
    _text(entry, "updated", moment(plan["updated"]))
    _text(entry, "published", moment(plan["published"]))
    _text(ET.SubElement(entry, _name("author")), "name", plan["author"])
    _link(entry, rel="alternate", type="text/html", href=here)
    _link(entry, rel="enclosure", type="application/pdf", href=f"{here}plan.pdf")
    _text(entry, "summary", plan["summary"])


def _name(tag: str) -> str:
    return f"{{{NAMESPACE}}}{tag}"


def _text(parent: ET.Element, tag: str, words: Any) -> None:
    ET.SubElement(parent, _name(tag)).text = str(words)


def _link(parent: ET.Element, **attributes: str) -> None:
    ET.SubElement(parent, _name("link"), attributes)
