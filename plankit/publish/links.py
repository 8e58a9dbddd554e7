"""Links in a notebook's prose that lead nowhere: to an address the page does not have, or a file it lacks."""

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from typing import Any
from urllib.parse import unquote, urlsplit

from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.publish.markdown import parser, render, walk
from plankit.publish.notebook import Notebook, cell_names
from plankit.publish.outputs import html_of, markdown_of

SECTION_NAMES = (
    ("glance", "At a glance"),
    ("cautions", "Before you start"),
    ("tools", "Tools"),
    ("shopping", "Shopping list"),
    ("time", "The work in its time"),
    ("parts", "Parts list"),
    ("hardware", "Hardware"),
    ("views", "Views with sizes"),
    ("cutting", "Cutting drawings"),
    ("drawings", "Part drawings"),
    ("build", "Building it"),
    ("opening", "How it opens"),
    ("finish", "Finish"),
    ("findings", "What was checked"),
    ("corrections", "Corrections"),
    ("about", "About this plan"),
)
CHECK = "links"
_HREF = re.compile(r"""\bhref\s*=\s*["']([^"']*)["']""", re.IGNORECASE)
_ID = re.compile(r"""\bid\s*=\s*["']?([^"'\s>]+)""", re.IGNORECASE)
_BESIDE = {"index.html", "plan.pdf", "plan.json", "figures"}


def addresses(plan: Mapping[str, Any]) -> set[str]:
    """Return the addresses on a plan's page that are not the author's own: sections, steps, sheets."""
    steps = {step["anchor"] for step in plan["steps"]}
    sheets = {sheet["id"] for sheet in plan["cutting"]}
    return {"plan", "contents", *steps, *sheets, *(address for address, _ in SECTION_NAMES)}


def dead_links(notebook: Notebook, plan: Mapping[str, Any]) -> tuple[Finding, ...]:
    """Return a finding for every link in a notebook's prose that leads nowhere from its page.

    Links to other places (`https:`, `mailto:`, `/…`) and out of the plan's folder (`../…`) are let be.
    """
    found = [(target, where) for source, where in _prose(notebook) for target in targets(source)]
    on_page = {target for target, _ in found if target.startswith("#")}
    there = _on_page(notebook, plan) if on_page else set()
    files = _BESIDE | {f"figures/{name}.svg" for name in plan["figures"]}
    return tuple(
        _finding(target, where)
        for target, where in dict.fromkeys(found)
        if (target in on_page and unquote(target[1:]) not in there) or _lacks(target, files)
    )


def targets(source: str) -> tuple[str, ...]:
    """Return where the links of a Markdown text lead, each once."""
    if "[" not in source and "href" not in source.lower():
        return ()
    found: list[str] = []
    for token in walk(parser().parse(source)):
        if token.type == "link_open":
            found.append(str(token.attrs.get("href", "")))
        elif token.type in {"html_block", "html_inline"}:
            found += _HREF.findall(token.content)
    return tuple(dict.fromkeys(found))


def local_path(target: str) -> str | None:
    """Return the path a link leads to below the folder of its page, or above it; None where it leads elsewhere."""
    try:
        parts = urlsplit(target)
    except ValueError:
        return None
    if parts.scheme or parts.netloc or parts.path.startswith("/") or target.startswith("#"):
        return None
    return posixpath.normpath(unquote(parts.path))


def _prose(notebook: Notebook) -> Iterator[tuple[str, str]]:
    for cell, where in zip(notebook.cells, cell_names(notebook.cells), strict=True):
        if cell["cell_type"] == "markdown":
            yield str(cell["source"]), where
        for output in cell.get("outputs", ()):
            if shown := markdown_of(output):
                yield shown, where


def _lacks(target: str, files: Iterable[str]) -> bool:
    path = local_path(target)
    return path is not None and not path.startswith("..") and path not in files


def _on_page(notebook: Notebook, plan: Mapping[str, Any]) -> set[str]:
    """Return every address on the page; where the page cannot be made, making it says why."""
    there, anchors = set(addresses(plan)), set(addresses(plan))
    titled = False
    with suppress(PlanError):
        for cell, where in zip(notebook.cells, cell_names(notebook.cells), strict=True):
            if cell["cell_type"] == "markdown":
                made = render(cell, where, top_level=3, before=6, anchors=anchors, without_title=not titled)
                there |= set(_ID.findall(made.html))
            titled = True
            for output in cell.get("outputs", ()):
                there |= set(_ID.findall(html_of(output)))
                if shown := markdown_of(output):
                    made = render(as_cell(output, shown), where, top_level=3, before=6, anchors=anchors)
                    there |= set(_ID.findall(made.html))
    return there | anchors


def as_cell(output: Mapping[str, Any], shown: str) -> dict[str, Any]:
    """Return Markdown that a cell displays as a Markdown cell, with the pictures taken along for it."""
    return {"source": shown, "metadata": {}, "attachments": output.get("metadata", {}).get("attachments", {})}


def _finding(target: str, where: str) -> Finding:
    what = f"The link to “{target}” in {where} leads nowhere."
    if target.startswith("#"):
        remedy = "Name a heading of the page: #the-words-of-the-heading, in small letters with hyphens."
    else:
        remedy = "A page carries no files but its PDF, its data and its drawings; give the full address (https://…)."
    return Finding("look at", CHECK, "", what, place=where, remedy=remedy)
