"""Pictures that lie beside a notebook, taken along so that its page stands alone."""

import base64
import mimetypes
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from plankit.publish.markdown import picture_names
from plankit.publish.notebook import Notebook
from plankit.publish.outputs import markdown_of


def take_along(notebook: Notebook, folder: Path) -> None:
    """Attach to each Markdown cell the pictures it names that lie in the notebook's folder, or below it.

    Those of Markdown that a cell displays are kept with the display.
    """
    for cell in notebook.cells:
        if cell.cell_type == "markdown":
            pictures = pictures_of(str(cell.source), folder)
            if pictures:
                cell.setdefault("attachments", {}).update(pictures)
    take_displayed_along(notebook.cells, folder)


def take_displayed_along(cells: Iterable[Mapping[str, Any]], folder: Path) -> None:
    """Keep with each display of Markdown the pictures it names that lie in the notebook's folder, or below it."""
    for cell in cells:
        for output in cell.get("outputs", ()):
            pictures = pictures_of(markdown_of(output), folder)
            if pictures:
                output["metadata"].setdefault("attachments", {}).update(pictures)


def pictures_of(source: str, folder: Path) -> dict[str, dict[str, str]]:
    """Return the pictures a Markdown text names that lie in a folder or below it, each by kind, in base64."""
    found = {name: _picture(folder, name) for name in picture_names(source)}
    return {name: picture for name, picture in found.items() if picture}


def _picture(folder: Path, name: str) -> dict[str, str]:
    path = (folder / unquote(name)).resolve()
    kind = mimetypes.guess_type(path.name)[0] or ""
    if not kind.startswith("image/") or not path.is_file() or not path.is_relative_to(folder.resolve()):
        return {}
    return {kind: base64.b64encode(path.read_bytes()).decode("ascii")}
