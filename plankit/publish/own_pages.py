"""A site's own pages in Markdown: read once, each with its address, its title and its pictures."""

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import unquote

from plankit.errors import PlanError
from plankit.publish.links import local_path, targets
from plankit.publish.markdown import parser, plain_words
from plankit.publish.pictures import pictures_of
from plankit.stock import slug

_OUT = re.compile(r'\bhref="(\.\./[^"#?]*)')


@dataclass(frozen=True, slots=True)
class OwnPage:
    """A page of the site's own.

    name      its file
    address   its folder on the site
    title     its first heading, or the name of its file
    source    its Markdown
    pictures  the pictures it names that lie in the site's folder or below it, by name, each by kind, in base64
    """

    name: str
    address: str
    title: str
    source: str
    pictures: Mapping[str, Mapping[str, str]]


def own_pages(paths: Iterable[Path]) -> tuple[OwnPage, ...]:
    """Return the pages in Markdown files, in order.

    raises  PlanError where one cannot be read, or its name gives no address, or the address of another
    """
    pages: dict[str, OwnPage] = {}
    for path in paths:
        page = _page(path)
        other = pages.setdefault(page.address, page)
        if other is not page:
            raise PlanError(
                f"this page would have the address of {other.name}", where=page.name, given=page.address,
                remedy="Give the file another name.",
            )  # fmt: skip
    return tuple(pages.values())


def _page(path: Path) -> OwnPage:
    address = slug(path.stem)
    if not address:
        raise PlanError(
            "no address can be made from the name of this page", where=path.name, given=path.stem,
            remedy="Name the file in Latin letters or figures, for instance  about.md",
        )  # fmt: skip
    source = _text(path)
    return OwnPage(path.name, address, _title(path, source), source, pictures_of(source, path.parent))


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise PlanError("this page is not written in UTF-8", where=path.name, remedy="Save it as UTF-8.") from error
    except OSError as error:
        what = f"this page cannot be read: {error.strerror or error}"
        raise PlanError(what, where=path.name) from error


def _title(path: Path, source: str) -> str:
    tokens = parser().parse(source)
    for i, token in enumerate(tokens):
        if token.type == "heading_open" and token.tag == "h1":
            return plain_words(tokens[i + 1])
    return path.stem.replace("-", " ").capitalize()


def dead_links(stage: Path, pages: Iterable[OwnPage]) -> Iterator[str]:
    """Yield a sentence for each link of a site's own pages that leads to nothing on the site built in `stage`."""
    for page in pages:
        for target in targets(page.source):
            path = local_path(target)
            if target.startswith("#"):
                made = (stage / page.address / "index.html").read_text(encoding="utf-8")
                is_dead = f'id="{unquote(target[1:])}"' not in made
            else:
                is_dead = path is not None and not _is_there(stage, posixpath.join(page.address, path))
            if is_dead:
                yield f"{page.name}: the link to “{target}” leads nowhere on the site"


def dead_ways_out(stage: Path, slugs: Iterable[str]) -> Iterator[str]:
    """Yield a sentence for each link out of a plan's folder that leads to no file of the site built in `stage`."""
    for plan in sorted(slugs):
        page = (stage / plan / "index.html").read_text(encoding="utf-8")
        for target in dict.fromkeys(_OUT.findall(page)):
            if not _is_there(stage, posixpath.join(plan, unquote(target))):
                yield f"{plan}: the link to “{target}” leads nowhere on the site"


def _is_there(stage: Path, place: str) -> bool:
    place = posixpath.normpath(place)
    found = stage / place
    return not place.startswith("..") and (found.is_file() or (found / "index.html").is_file())
