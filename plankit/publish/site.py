"""A site of plans: every notebook run on its own, pages built beside the old ones, then switched at once."""

import json
import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from plankit.errors import AskedWrongly, PlanError
from plankit.publish import figures, fonts, freshness, making
from plankit.publish.document import Document, find_document, refuse_unfinished
from plankit.publish.feed import atom
from plankit.publish.keep import copy_folder, staged, switch, write_all
from plankit.publish.markdown import plain_words, render
from plankit.publish.notebook import read
from plankit.publish.run import Progress, warm
from plankit.publish.settings import Settings

RECORD = ".built.json"

type Telling = Callable[[str], Progress]
"""Told the name of each notebook as it is begun; returns whom to tell how far it is."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one notebook.

    notebook  its file name
    slug      the folder of its plan; "" where there is none
    title     the plan's title; "" where there is none
    state     "made", "unchanged", "kept" (it failed, its last good page stays) or "missing" (it has none)
    error     why it failed; "" where it did not
    """

    notebook: str
    slug: str
    title: str
    state: str
    error: str = ""


@dataclass(frozen=True, slots=True)
class Published:
    """A site that was published: where, and what became of each notebook."""

    folder: Path
    outcomes: tuple[Outcome, ...]

    @property
    def failed(self) -> tuple[Outcome, ...]:
        """The notebooks that failed."""
        return tuple(outcome for outcome in self.outcomes if outcome.error)


@dataclass(slots=True)
class _Building:
    """A site on its way: what was there before, and what the new folder holds so far."""

    settings: Settings
    stage: Path
    kernel: bool
    before: Mapping[str, Mapping[str, str]]
    plans: dict[str, Document] = field(default_factory=dict)
    record: dict[str, dict[str, str]] = field(default_factory=dict)


def publish(settings: Settings, telling: Telling, *, kernel: bool = False) -> Published:
    """Build a site and put it in place at once.

    telling  told of each notebook as it is begun
    raises   PlanError where a page of the site's own cannot be made or the disk is full; nothing changes then
    """
    public = settings.public
    _refuse_foreign(public)
    with staged(public) as stage:
        building = _Building(settings, stage, kernel, _record(public))
        outcomes = tuple(_outcome(building, path, telling) for path in settings.notebooks)
        write_all(stage, _own_pages(building))
        switch(stage, public)
    return Published(public, outcomes)


def _refuse_foreign(public: Path) -> None:
    if public.is_dir() and any(public.iterdir()) and not (public / RECORD).is_file():
        raise AskedWrongly(
            "this folder holds files that plankit did not build, and building the site would take them away",
            given=str(public),
            remedy="Move them elsewhere, or empty the folder.",
        )


def _record(public: Path) -> Mapping[str, Mapping[str, str]]:
    try:
        known: Mapping[str, Mapping[str, str]] = json.loads((public / RECORD).read_text(encoding="utf-8"))[
            "plans"
        ]
    except (OSError, ValueError, KeyError, TypeError):
        return {}
    return known


def _outcome(building: _Building, path: Path, telling: Telling) -> Outcome:
    name = Path(os.path.relpath(path, building.settings.folder)).as_posix()
    known = building.before.get(name, {})
    try:
        notebook = read(path)
        key = freshness.key(path, notebook, around=building.settings.address)
        if known.get("key") == key and _keep(building, name, known):
            return Outcome(path.name, known["slug"], building.plans[known["slug"]]["title"], "unchanged")
        return _make(building, path, name, key, telling(path.name))
    except PlanError as error:
        kept = _keep(building, name, known)
        slug = known["slug"] if kept else ""
        title = building.plans[slug]["title"] if kept else ""
        return Outcome(path.name, slug, title, "kept" if kept else "missing", error.text())


def _make(building: _Building, path: Path, name: str, key: str, progress: Progress) -> Outcome:
    warm()
    ready = making.run_ready(path, {}, making.KINDS, kernel=building.kernel, progress=progress)
    document = find_document(ready)
    refuse_unfinished(document)
    slug = making.slug_of(document)
    _refuse_taken(building, slug)
    files = making.files_of(ready, document, making.KINDS, _around(building.settings, slug))
    write_all(building.stage / slug, files)
    building.plans[slug] = document
    building.record[name] = {"slug": slug, "key": key}
    return Outcome(path.name, slug, document["title"], "made")


def _keep(building: _Building, name: str, known: Mapping[str, str]) -> bool:
    """Take a plan's last good pages over into the new folder; say whether there were any."""
    slug = known.get("slug", "")
    old = building.settings.public / slug
    if not slug or slug in building.plans or not (old / making.FILES["json"]).is_file():
        return False
    building.plans[slug] = json.loads((old / making.FILES["json"]).read_text(encoding="utf-8"))
    building.record[name] = dict(known)
    copy_folder(old, building.stage / slug)
    return True


def _refuse_taken(building: _Building, slug: str) -> None:
    own = {page.stem for page in building.settings.pages}
    if slug in building.plans or slug in own:
        raise PlanError(
            "the site has another page of this address", given=slug, remedy="Give the plan another title."
        )


def _around(settings: Settings, slug: str) -> dict[str, Any]:
    links = [*making.beside(making.KINDS), {"href": "../index.html", "text": "All plans"}]
    links += [{"href": f"../{page.stem}/index.html", "text": _title(page)} for page in settings.pages]
    return {
        "home": "../index.html",
        "links": tuple(links),
        "figures": figures.FOLDER,
        "head_links": (
            {"rel": "canonical", "href": f"{settings.address}{slug}/"},
            {
                "rel": "alternate",
                "type": "application/atom+xml",
                "href": "../feed.xml",
                "title": settings.title,
            },
        ),
    }


def _own_pages(building: _Building) -> dict[str, bytes]:
    settings = building.settings
    plans = sorted(building.plans.values(), key=lambda plan: (plan["published"], plan["slug"]), reverse=True)
    files = {"index.html": _front(settings, plans).encode()}
    for page in settings.pages:
        files[f"{page.stem}/index.html"] = _prose_page(settings, page).encode()
    files["feed.xml"] = atom(settings.title, settings.subtitle, settings.address, settings.author, plans)
    record = {"plans": {name: building.record[name] for name in sorted(building.record)}}
    files[RECORD] = (json.dumps(record, indent=1) + "\n").encode()
    return files


def _template(name: str) -> Any:
    return making.html_exporter().environment.get_template(name)


def _front(settings: Settings, plans: Sequence[Document]) -> str:
    cards = tuple(_card(settings, plan) for plan in plans)
    text: str = _template("front.html.j2").render(
        site=settings, cards=cards, faces=fonts.page_faces(), links=_site_links(settings, "")
    )
    return text


def _card(settings: Settings, plan: Document) -> dict[str, Any]:
    facts = {fact["label"]: fact["value"] for fact in plan["glance"]}
    labels = [label for label in settings.card if label in facts] or list(facts)[:3]
    return {
        "title": plan["title"],
        "summary": plan["summary"],
        "address": f"{plan['slug']}/index.html",
        "picture": f"{plan['slug']}/figures/whole.svg" if "whole" in plan["figures"] else "",
        "facts": tuple((label, facts[label]) for label in labels),
        "updated": plan["updated"],
    }


def _prose_page(settings: Settings, page: Path) -> str:
    cell = {"source": page.read_text(encoding="utf-8"), "metadata": {}}
    prose = render(cell, page.name, top_level=2, before=1, anchors={"content"}, without_title=True)
    text: str = _template("prose.html.j2").render(
        site=settings,
        title=_title(page),
        html=prose.html,
        faces=fonts.page_faces(),
        links=_site_links(settings, "../"),
    )
    return text


def _title(page: Path) -> str:
    """Return a Markdown page's first heading, or the name of its file."""
    from plankit.publish.markdown import parser

    tokens = parser().parse(page.read_text(encoding="utf-8"))
    for i, token in enumerate(tokens):
        if token.type == "heading_open" and token.tag == "h1":
            return plain_words(tokens[i + 1])
    return page.stem.replace("-", " ").capitalize()


def _site_links(settings: Settings, up: str) -> tuple[dict[str, str], ...]:
    pages = [{"href": f"{up}{page.stem}/index.html", "text": _title(page)} for page in settings.pages]
    return (
        {"href": f"{up}index.html", "text": "All plans"},
        *pages,
        {"href": f"{up}feed.xml", "text": "Feed"},
    )
