"""The feed, held against the rules of RFC 4287 (Atom) and RFC 3339 (dates)."""

import re
from typing import Any
from xml.etree import ElementTree as ET

import pytest

from plankit.publish.feed import atom

ATOM = "{http://www.w3.org/2005/Atom}"
# RFC 3339 section 5.6, with the "T" and "Z" in capitals as RFC 4287 section 3.3 asks
DATE = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")
HOME = "https://example.org/plans/"


def plan(slug: str, updated: str, **more: str) -> dict[str, Any]:
    return {"slug": slug, "title": slug.title(), "summary": "A <b>bench</b> & more", "author": "R. T.",
            "published": "2026-11-01", "updated": updated, **more}  # fmt: skip


PLANS = [plan("boot-bench", "2026-11-24"), plan("shoe-rack", "2026-11-25"), plan("cart", "2026-10-02")]


@pytest.fixture
def feed() -> ET.Element:
    return ET.fromstring(atom("Tern Lane", "Plans & more", HOME, "Tern Lane (invented)", PLANS))


def only(parent: ET.Element, tag: str) -> str:
    found = parent.findall(ATOM + tag)
    assert len(found) == 1
    assert found[0].text
    return found[0].text


def test_a_feed_has_exactly_one_id_title_and_date(feed: ET.Element):
    # RFC 4287 section 4.1.1
    assert feed.tag == ATOM + "feed"
    assert only(feed, "id") == HOME
    assert only(feed, "title") == "Tern Lane"
    assert only(feed, "updated") == "2026-11-25T00:00:00Z"  # the latest of its entries


def test_a_feed_names_itself_and_its_author(feed: ET.Element):
    # RFC 4287 section 4.1.1: SHOULD hold a link rel="self"; an author unless every entry has one
    links = {link.get("rel"): link.get("href") for link in feed.findall(ATOM + "link")}
    assert links["self"] == HOME + "feed.xml"
    assert only(feed.find(ATOM + "author"), "name") == "Tern Lane (invented)"  # type: ignore[arg-type]


def test_no_two_alternate_links_have_the_same_type(feed: ET.Element):
    # RFC 4287 section 4.1.1
    for parent in [feed, *feed.findall(ATOM + "entry")]:
        kinds = [
            (a.get("type"), a.get("hreflang"))
            for a in parent.findall(ATOM + "link")
            if a.get("rel") == "alternate"
        ]
        assert len(kinds) == len(set(kinds)) == 1


def test_each_entry_has_what_an_entry_must_have(feed: ET.Element):
    # RFC 4287 section 4.1.2: one id, title, updated; content or an alternate link; at most one summary
    entries = feed.findall(ATOM + "entry")
    assert [only(entry, "title") for entry in entries] == [
        "Shoe-Rack",
        "Boot-Bench",
        "Cart",
    ]  # the latest first
    for entry in entries:
        assert only(entry, "id").startswith(HOME)
        assert only(entry, "summary") == "A <b>bench</b> & more"
        assert any(link.get("rel") == "alternate" for link in entry.findall(ATOM + "link"))
        assert only(entry.find(ATOM + "author"), "name") == "R. T."  # type: ignore[arg-type]
    ids = [only(entry, "id") for entry in entries]
    assert len(set(ids)) == len(ids)


def test_every_date_is_one(feed: ET.Element):
    dates = [one.text or "" for one in feed.iter() if one.tag in {ATOM + "updated", ATOM + "published"}]
    assert len(dates) == 1 + 2 * len(PLANS)
    assert all(DATE.fullmatch(date) for date in dates)


def test_every_link_of_an_enclosure_says_its_type(feed: ET.Element):
    links = [link for link in feed.iter(ATOM + "link") if link.get("rel") == "enclosure"]
    assert [link.get("type") for link in links] == ["application/pdf"] * 3


def test_an_empty_site_still_has_a_valid_feed():
    feed = ET.fromstring(atom("Tern Lane", "", HOME, "R. T.", []))
    assert DATE.fullmatch(only(feed, "updated"))
    assert feed.findall(ATOM + "subtitle") == feed.findall(ATOM + "entry") == []


def test_order_of_plans_changes_nothing():
    assert atom("T", "", HOME, "R. T.", PLANS) == atom("T", "", HOME, "R. T.", PLANS[::-1])
