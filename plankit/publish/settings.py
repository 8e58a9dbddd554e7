"""The settings of a site, read from `site.toml` in its folder."""

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plankit.errors import AskedWrongly, PlanError
from plankit.reference.tables import meant

FILE = "site.toml"
_WORDS = {"title", "subtitle", "address", "author", "language"}
_LISTS = {"notebooks", "card"}


@dataclass(frozen=True, slots=True)
class Settings:
    """What a site is called, where it is read, and what stands on it.

    folder     the site's folder
    title      its name, on every page of its own
    subtitle   one sentence under the name
    address    where it will be read, ending in "/": feeds and stable addresses need it
    author     who answers for it
    language   of its own pages
    notebooks  the notebooks of its plans, in order
    card       labels of the facts shown with each plan on the front page
    pages      its own pages in Markdown, in order
    """

    folder: Path
    title: str
    subtitle: str
    address: str
    author: str
    language: str
    notebooks: tuple[Path, ...]
    card: tuple[str, ...]
    pages: tuple[Path, ...]

    @property
    def public(self) -> Path:
        """Where the built site goes."""
        return self.folder / "public"


def read_settings(folder: Path) -> Settings:
    """Return the settings of a site.

    raises  AskedWrongly where the folder holds no site; PlanError where a setting cannot be used
    """
    path = folder / FILE
    if not path.is_file():
        raise AskedWrongly(
            "this folder holds no site: it has no site.toml",
            given=str(folder),
            remedy="Give the folder of a site.",
        )
    try:
        given = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise PlanError(f"site.toml cannot be read: {error}", where=FILE) from error
    _check(given)
    address = given["address"]
    return Settings(
        folder=folder,
        title=given["title"],
        subtitle=given.get("subtitle", ""),
        address=address if address.endswith("/") else f"{address}/",
        author=given["author"],
        language=given.get("language", "en-US"),
        notebooks=_notebooks(folder, given.get("notebooks", ["../notebooks/*.ipynb"])),
        card=tuple(given.get("card", ())),
        pages=tuple(sorted(folder.glob("*.md"))),
    )


def _check(given: dict[str, Any]) -> None:
    for name, value in given.items():
        if name in _WORDS and isinstance(value, str):
            continue
        if name in _LISTS and isinstance(value, list) and all(isinstance(one, str) for one in value):
            continue
        known = ", ".join(sorted(_WORDS | _LISTS))
        kind = "a list of texts" if name in _LISTS else "a text"
        what = f"{name} takes {kind}" if name in _WORDS | _LISTS else f"there is no setting called {name}"
        remedy = f"{meant(name, _WORDS | _LISTS)} The settings are: {known}.".strip()
        raise PlanError(what, where=FILE, given=f"{name} = {value!r}", remedy=remedy)
    for name in ("title", "address", "author"):
        if not given.get(name):
            raise PlanError(f"the site has no {name}", where=FILE, remedy=f'Add a line  {name} = "…"')


def _notebooks(folder: Path, patterns: list[str]) -> tuple[Path, ...]:
    found: dict[Path, None] = {}
    for given in patterns:
        base, pattern = folder, given
        while pattern.startswith("../"):
            base, pattern = base.resolve().parent, pattern.removeprefix("../")
        matches = sorted(
            path.resolve() for path in base.glob(pattern) if ".ipynb_checkpoints" not in path.parts
        )
        if not matches:
            raise PlanError("no notebook is found there", where=FILE, given=f"notebooks: {given}")
        found |= dict.fromkeys(matches)
    return tuple(found)
