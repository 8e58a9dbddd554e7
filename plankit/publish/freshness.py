"""Whether a plan must be made again: one key for everything its pages depend on."""

import hashlib
import platform
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from plankit.publish import templates
from plankit.publish.notebook import Notebook, tags

_NOT_DATA = {".ipynb", ".pyc"}
_NOT_ENTERED = {"built", "public", "__pycache__", "node_modules"}


def key(path: Path, notebook: Notebook, around: str = "") -> str:
    """Return a text that changes when anything the plan's pages depend on changes.

    It covers the cells' sources (parameters among them), plankit's own files and templates, the versions of
    Python and of every installed package, and the files beside the notebook that it may read.

    around  whatever else the page shows that is not in the notebook
    """
    digest = hashlib.sha256()
    for text in _texts(path, notebook, around):
        digest.update(text.encode())
        digest.update(b"\0")
    return digest.hexdigest()


def _texts(path: Path, notebook: Notebook, around: str) -> Iterator[str]:
    yield around
    yield platform.python_version()
    yield platform.machine()
    yield from packages()
    yield from own_files()
    for cell in notebook.cells:
        yield f"{cell.cell_type} {tags(cell)} {cell.source}"
    for file in data_files(path.parent):
        yield f"{file.relative_to(path.parent).as_posix()} {_hash(file)}"


@cache
def packages() -> tuple[str, ...]:
    """Return the name and version of every package this Python finds."""
    found: set[str] = set()
    for folder in map(Path, sys.path):
        if folder.is_dir():
            found |= {info.name for info in folder.glob("*.dist-info")}
    return tuple(sorted(found))


@cache
def own_files() -> tuple[str, ...]:
    """Return plankit's own files, templates among them, with what is in them."""
    package = Path(__file__).resolve().parent.parent
    mine = [f for f in package.rglob("*") if f.is_file() and f.suffix != ".pyc"]
    named = {f.relative_to(package).as_posix(): f for f in mine}
    named |= {f"templates/{f.name}": f for f in templates.files()}
    return tuple(f"{name} {_hash(named[name])}" for name in sorted(named))


def data_files(folder: Path) -> tuple[Path, ...]:
    """Return the files beside a notebook that it may read, in order of name."""
    return tuple(sorted(_entered(folder)))


def _entered(folder: Path) -> Iterator[Path]:
    for path in folder.iterdir():
        if path.name.startswith("."):
            continue
        if path.is_dir() and path.name not in _NOT_ENTERED:
            yield from _entered(path)
        elif path.is_file() and path.suffix not in _NOT_DATA:
            yield path


def _hash(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
