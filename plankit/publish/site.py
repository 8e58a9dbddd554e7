"""A site of plans: every notebook run on its own, pages built beside the old ones, then switched at once."""

import json
import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from plankit.errors import AskedWrongly, PlanError, PlankitError
from plankit.publish import figures, fonts, freshness, making
from plankit.publish.characters import printable
from plankit.publish.document import Document, find_document, refuse_unfinished
from plankit.publish.feed import atom
from plankit.publish.keep import copy_folder, staged, switch, write_all
from plankit.publish.markdown import render
from plankit.publish.notebook import Notebook, read
from plankit.publish.own_pages import OwnPage, dead_links, dead_ways_out, own_pages
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
    """A site that was published: where, what became of each notebook, and what its author may want to look at."""

    folder: Path
    outcomes: tuple[Outcome, ...]
    notes: tuple[str, ...] = ()

    @property
    def failed(self) -> tuple[Outcome, ...]:
        """The notebooks that failed."""
        return tuple(outcome for outcome in self.outcomes if outcome.error)


@dataclass(slots=True)
class _Building:
    """A site on its way: what was there before, and what the new folder holds so far."""

    settings: Settings
    pages: tuple[OwnPage, ...]
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
    pages = own_pages(settings.pages)
    with staged(public) as stage:
        building = _Building(settings, pages, stage, kernel, _record(public))
        outcomes = tuple(_outcome(building, path, telling) for path in settings.notebooks)
        write_all(stage, _own_files(building))
        notes = (*dead_links(stage, pages), *dead_ways_out(stage, building.plans))
        switch(stage, public)
    return Published(public, outcomes, notes)


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
    name = _name(building, path)
    known = building.before.get(name, {})
    try:
        notebook = read(path)
        key = _key(building, path, notebook)
        if known.get("key") == key and _keep(building, name, known):
            return Outcome(path.name, known["slug"], building.plans[known["slug"]]["title"], "unchanged")
        return _make(building, path, name, key, telling(path.name))
    except PlankitError as error:
        return _failed(building, path, known, error)
    except OSError:
        raise  # the site's own folder: the disk is full
    except Exception as error:
        words = f"this plan cannot be made: {type(error).__name__}: {error}"
        return _failed(building, path, known, PlanError(words))


def _name(building: _Building, path: Path) -> str:
    return Path(os.path.relpath(path, building.settings.folder)).as_posix()


def _key(building: _Building, path: Path, notebook: Notebook) -> str:
    pages = [f"{page.address} {page.title}" for page in building.pages]
    around = "\n".join([building.settings.address, building.settings.title, *pages])
    try:
        return freshness.key(path, notebook, around=around)
    except OSError as error:
        what = f"a file beside it cannot be read: {error.strerror or error}"
        raise PlanError(what, where=path.name, given=str(error.filename or "")) from error


def _failed(building: _Building, path: Path, known: Mapping[str, str], error: PlankitError) -> Outcome:
    kept = _keep(building, _name(building, path), known)
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
    files = making.files_of(ready, document, making.KINDS, _around(building, slug))
    write_all(building.stage / slug, files)
    building.plans[slug] = document
    building.record[name] = {"slug": slug, "key": key}
    return Outcome(path.name, slug, document["title"], "made")


def _keep(building: _Building, name: str, known: Mapping[str, str]) -> bool:
    """Take a plan's last good pages over into the new folder; say whether there were any.

    raises  PlanError where a page of the site's own has their address
    """
    slug = known.get("slug", "")
    old = building.settings.public / slug
    if not slug or slug in building.plans:
        return False
    page = next((page.name for page in building.pages if page.address == slug), "")
    if page:
        raise PlanError(
            "this page would take the place of the last good page of a plan", where=page, given=slug,
            remedy="Give the file another name.",
        )  # fmt: skip
    try:
        document = json.loads((old / making.FILES["json"]).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    building.plans[slug] = document
    building.record[name] = dict(known)
    copy_folder(old, building.stage / slug)
    return True


def _refuse_taken(building: _Building, slug: str) -> None:
    own = {page.address for page in building.pages}
    if slug in building.plans or slug in own:
        raise PlanError(
            "the site has another page of this address", given=slug, remedy="Give the plan another title."
        )


def _around(building: _Building, slug: str) -> dict[str, Any]:
    settings = building.settings
    links = [*making.beside(making.KINDS), {"href": "../index.html", "text": "All plans"}]
    links += [{"href": f"../{page.address}/index.html", "text": page.title} for page in building.pages]
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


def _own_files(building: _Building) -> dict[str, bytes]:
    settings = building.settings
    plans = sorted(building.plans.values(), key=lambda plan: (plan["published"], plan["slug"]), reverse=True)
    files = {"index.html": _front(building, plans).encode()}
    for page in building.pages:
        files[f"{page.address}/index.html"] = _prose_page(building, page).encode()
    files["feed.xml"] = atom(settings.title, settings.subtitle, settings.address, settings.author, plans)
    record = {"plans": {name: building.record[name] for name in sorted(building.record)}}
    files[RECORD] = (json.dumps(record, indent=1) + "\n").encode()
    return files


def _template(name: str) -> Any:
    return making.html_exporter().environment.get_template(name)


def _front(building: _Building, plans: Sequence[Document]) -> str:
    cards = tuple(_card(building.settings, plan) for plan in plans)
    text: str = _template("front.html.j2").render(
        site=building.settings, cards=cards, faces=fonts.page_faces(), links=_site_links(building.pages, "")
    )
    return printable(text)


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


def _prose_page(building: _Building, page: OwnPage) -> str:
    cell = {"source": page.source, "metadata": {}, "attachments": page.pictures}
    prose = render(cell, page.name, top_level=2, before=1, anchors={"content"}, without_title=True)
    text: str = _template("prose.html.j2").render(
        site=building.settings,
        title=page.title,
        html=prose.html,
        faces=fonts.page_faces(),
        links=_site_links(building.pages, "../"),
    )
    return printable(text)


def _site_links(pages: Sequence[OwnPage], up: str) -> tuple[dict[str, str], ...]:
    return (
        {"href": f"{up}index.html", "text": "All plans"},
        *({"href": f"{up}{page.address}/index.html", "text": page.title} for page in pages),
        {"href": f"{up}feed.xml", "text": "Feed"},
    )
