"""Where the templates are: beside the sources in a checkout, else where the package installed them."""

from functools import cache
from importlib import metadata
from pathlib import Path

from plankit.errors import PlanError

NAME = "plankit"
_SHARED = Path("share/jupyter/nbconvert/templates")


@cache
def folders() -> tuple[Path, ...]:
    """Return the folders that hold plankit's templates, the one to look in first first.

    A checkout's own come first, so that an edited template is the one used. Jupyter's data folders need not
    be named: nbconvert looks there itself; but an installation outside them is found by its list of files.
    """
    checkout = Path(__file__).resolve().parent.parent.parent / "templates"
    places = [checkout, *_installed()]
    return tuple(place for place in places if (place / NAME / "conf.json").is_file())


def _installed() -> list[Path]:
    from jupyter_core.paths import jupyter_path

    places = [Path(path) for path in jupyter_path("nbconvert", "templates")]
    try:
        listed = metadata.files(NAME) or []
    except metadata.PackageNotFoundError:
        listed = []
    tail = str(_SHARED / NAME / "conf.json")
    places += [Path(str(f.locate())).resolve().parent.parent for f in listed if str(f).endswith(tail)]
    return places


def files() -> tuple[Path, ...]:
    """Return every file of the templates in use, in order of name."""
    if not folders():
        raise PlanError(
            "plankit's page templates are not installed", remedy="Install plankit again with pip."
        )
    folder = folders()[0] / NAME
    return tuple(sorted(path for path in folder.rglob("*") if path.is_file()))
