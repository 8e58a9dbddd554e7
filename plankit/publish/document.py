"""Finding the plan in a notebook that has run, and what its cells say belongs where."""

from collections.abc import Iterable, Mapping
from typing import Any

from plankit.errors import PlanError
from plankit.plan.media import FORMAT, PLAN_TYPE
from plankit.publish.characters import printable_data
from plankit.publish.findings import Told, told
from plankit.publish.links import dead_links
from plankit.publish.notebook import Notebook, cell_names
from plankit.publish.prose import with_findings, with_typed_numbers

type Document = Mapping[str, Any]
"""The plan document: plain data, every string already formatted."""


def bundles(cell: Mapping[str, Any]) -> Iterable[Mapping[str, Any]]:
    """Return what a cell shows, each display as its data by media type."""
    for output in cell.get("outputs", ()):
        if "data" in output:
            yield output["data"]


def find_document(notebook: Notebook) -> Document:
    """Return the plan document that a notebook shows; the last one, where it shows several.

    raises  PlanError where the notebook has not run, a cell of it raised, or it shows no plan
    """
    _refuse_raised(notebook)
    shown = [data[PLAN_TYPE] for cell in notebook.cells for data in bundles(cell) if PLAN_TYPE in data]
    if shown:
        document = _known_format(printable_data(shown[-1]))
        dead = [finding.as_data() for finding in dead_links(notebook, document)]
        return with_findings(with_typed_numbers(notebook, document), dead)
    code = [cell for cell in notebook.cells if cell.cell_type == "code" and str(cell.source).strip()]
    if code and not any(cell.get("execution_count") or cell.get("outputs") for cell in code):
        raise PlanError(
            "this notebook has not been run, so it holds no plan yet",
            remedy="Run it while publishing: plankit make NOTEBOOK, or jupyter nbconvert --execute --to …",
        )
    raise PlanError(
        "this notebook is not a plan: no cell of it shows one", remedy="End it with  plan.complete()"
    )


def _refuse_raised(notebook: Notebook) -> None:
    for cell, name in zip(notebook.cells, cell_names(notebook.cells), strict=True):
        for output in cell.get("outputs", ()):
            if output["output_type"] == "error":
                raise PlanError(
                    f"this cell has raised {output['ename']}: {output['evalue']}",
                    where=name,
                    remedy="Correct the cell and run the notebook again.",
                )


def _known_format(document: Document) -> Document:
    given = document.get("format") if isinstance(document, Mapping) else None
    if given != FORMAT:
        raise PlanError(
            "the plan in this notebook is of a form this plankit does not read",
            given=f"format {given!r}",
            remedy=f"Run the notebook again with this version, which writes {FORMAT!r}.",
        )
    return document


def stopping(document: Document) -> tuple[Mapping[str, Any], ...]:
    """Return the findings that must be fixed and that the author has not accepted."""
    return tuple(f for f in document["findings"] if f["level"] == "must fix" and not f["accepted"])


def refuse_unfinished(document: Document) -> None:
    """Raise a PlanError that lists the findings that must be fixed, where there are any."""
    stops = stopping(document)
    if stops:
        lines = told_lines(stops)
        what = "1 finding must be fixed" if len(lines) == 1 else f"{len(lines)} findings must be fixed"
        raise PlanError(
            "\n".join([f"{what} before this plan is made:", *lines]),
            where=document["title"],
            remedy="Correct the build, or accept a finding with a written reason.",
        )


def told_lines(findings: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Return findings as text, those that a page tells as one told as one here too."""
    return tuple(_line(one) for one in told(findings))


def _line(one: Told) -> str:
    about = f" {one.parts}:" if one.parts else ""
    extras = [f"Here: {one.here}."] if one.here else []
    extras += [one.remedy] if one.remedy else []
    extras += [f"Accepted: {one.accepted}"] if one.accepted else []
    first = f"{one.level} · {one.check}:{about} {one.what}"
    return "\n".join([first, *(f"    {extra}" for extra in extras)])
