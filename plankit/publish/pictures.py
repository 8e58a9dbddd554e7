"""Pictures that lie beside a notebook, taken along so that its page stands alone."""

import base64
import mimetypes
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from plankit.publish.markdown import picture_names
from plankit.publish.notebook import Notebook


def take_along(notebook: Notebook, folder: Path) -> None:
    """Attach to each Markdown cell the pictures it names that lie in the notebook's folder, or below it."""
    for cell in notebook.cells:
        if cell.cell_type == "markdown":
            for name in picture_names(str(cell.source)):
                picture = _picture(folder, name)
                if picture:
                    cell.setdefault("attachments", {})[name] = picture


def _picture(folder: Path, name: str) -> dict[str, Any]:
    path = (folder / unquote(name)).resolve()
    kind = mimetypes.guess_type(path.name)[0] or ""
    if not kind.startswith("image/") or not path.is_file() or not path.is_relative_to(folder.resolve()):
        return {}
    return {kind: base64.b64encode(path.read_bytes()).decode("ascii")}
