"""One plan made: a notebook in, its page, its PDF, its data and its drawings out."""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from plankit.errors import AskedWrongly, PlanError
from plankit.publish import figures, fonts
from plankit.publish.document import Document, find_document, refuse_unfinished
from plankit.publish.keep import place
from plankit.publish.notebook import Notebook
from plankit.publish.run import Progress, start

if TYPE_CHECKING:
    from plankit.publish.exporters import PlanHTMLExporter, PlanPDFExporter

FILES = {"html": "index.html", "pdf": "plan.pdf", "json": "plan.json"}
KINDS = tuple(FILES)
_SLUG = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


@dataclass(frozen=True, slots=True)
class Made:
    """A plan that was made.

    title     the plan's title
    slug      the name of its folder
    folder    where its files are
    files     their names in it
    findings  what the checks said, as in the plan document
    """

    title: str
    slug: str
    folder: Path
    files: tuple[str, ...]
    findings: tuple[Mapping[str, Any], ...]


@cache
def html_exporter() -> "PlanHTMLExporter":
    """Return the page exporter, made once."""
    from plankit.publish.exporters import PlanHTMLExporter

    return PlanHTMLExporter()


@cache
def pdf_exporter() -> "PlanPDFExporter":
    """Return the PDF exporter, made once."""
    from plankit.publish.exporters import PlanPDFExporter

    return PlanPDFExporter()


def get_ready(kinds: Iterable[str]) -> None:
    """Load what pages and PDFs need; done while a notebook runs in another process."""
    wanted = set(kinds)
    if "html" in wanted:
        _ = html_exporter().template
        fonts.page_faces()
    if "pdf" in wanted:
        import weasyprint  # noqa: F401 - loaded for what comes next

        _ = pdf_exporter().template


def known_kinds(kinds: Iterable[str]) -> tuple[str, ...]:
    """Return the kinds asked for, each once, in the usual order; all of them where none is named."""
    asked = [kind.strip().lower() for given in kinds for kind in given.split(",") if kind.strip()]
    for kind in asked:
        if kind not in FILES:
            raise AskedWrongly("a plan is made as html, pdf or json", given=kind)
    return tuple(kind for kind in KINDS if kind in asked) or KINDS


def run_ready(
    path: Path, settings: Mapping[str, str], kinds: Iterable[str], *, kernel: bool, progress: Progress
) -> Notebook:
    """Return a notebook that has run, having got ready for the kinds to make meanwhile."""
    with start(path, settings, kernel=kernel) as running:
        get_ready(kinds)
        return running.notebook(progress)


def make(
    path: Path,
    settings: Mapping[str, str],
    kinds: tuple[str, ...],
    into: Path,
    *,
    kernel: bool,
    progress: Progress,
) -> Made:
    """Run a notebook and put its plan into `into/<slug>/`.

    settings  parameters to give other values, by name, as typed
    kinds     of "html", "pdf", "json"; the drawings are always written
    raises    PlanError where a cell raises, a finding must be fixed or the disk is full; nothing changes
    """
    notebook = run_ready(path, settings, kinds, kernel=kernel, progress=progress)
    document = find_document(notebook)
    refuse_unfinished(document)
    contents = files_of(notebook, document, kinds, around_alone(kinds))
    folder = into / slug_of(document)
    place(folder, contents, stale=_earlier(folder))
    return Made(document["title"], document["slug"], folder, tuple(contents), tuple(document["findings"]))


def around_alone(kinds: Iterable[str]) -> dict[str, Any]:
    """Return what stands round a page that belongs to no site: links to what is made beside it."""
    return {"home": "", "head_links": (), "links": beside(kinds), "figures": figures.FOLDER}


def beside(kinds: Iterable[str]) -> tuple[dict[str, str], ...]:
    """Return the links to what stands beside a page."""
    words = {"pdf": "This plan as a PDF, to print", "json": "This plan as data"}
    return tuple({"href": FILES[kind], "text": words[kind]} for kind in kinds if kind in words)


def files_of(
    notebook: Notebook, document: Document, kinds: Iterable[str], around: Mapping[str, Any]
) -> dict[str, bytes]:
    """Return the files of one plan, by their path in its folder."""
    contents: dict[str, bytes] = {}
    for kind in kinds:
        if kind == "html":
            contents[FILES[kind]] = html_exporter().page(notebook, around).encode()
        elif kind == "pdf":
            contents[FILES[kind]] = pdf_exporter().pdf(notebook)
        else:
            contents[FILES[kind]] = as_json(document).encode()
    return contents | {f"{figures.FOLDER}{name}": svg for name, svg in figures.files(document).items()}


def as_json(document: Document) -> str:
    """Return a plan document as it is written to a file."""
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def slug_of(document: Document) -> str:
    """Return the name of a plan's folder.

    raises  PlanError where it could not be an address
    """
    slug = str(document["slug"])
    if not _SLUG.fullmatch(slug):
        raise PlanError(
            "a plan's address is small letters, figures and single hyphens",
            where=str(document["title"]),
            given=slug,
            remedy='For instance  "boot-bench"',
        )
    return slug


def _earlier(folder: Path) -> tuple[str, ...]:
    """Return the files an earlier plan wrote into a folder: these and no others may be taken away."""
    try:
        document = json.loads((folder / FILES["json"]).read_text(encoding="utf-8"))
        drawings = [f"{figures.FOLDER}{name}.svg" for name in document["figures"]]
    except (OSError, ValueError, KeyError, TypeError):
        return ()
    return (*FILES.values(), *drawings)
