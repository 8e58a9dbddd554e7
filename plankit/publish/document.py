"""Finding the plan in a notebook that has run, and what its cells say belongs where."""

from collections.abc import Iterable, Mapping
from typing import Any

from plankit.errors import PlanError
from plankit.plan.media import FORMAT, PLAN_TYPE
from plankit.publish.notebook import Notebook, cell_names
from plankit.publish.prose import with_typed_numbers

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
        return with_typed_numbers(notebook, _known_format(shown[-1]))
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
        lines = "\n".join(finding_line(finding) for finding in stops)
        what = "1 finding must be fixed" if len(stops) == 1 else f"{len(stops)} findings must be fixed"
        raise PlanError(
            f"{what} before this plan is made:\n{lines}",
            where=document["title"],
            remedy="Correct the build, or accept a finding with a written reason.",
        )


def finding_line(finding: Mapping[str, Any]) -> str:
    """Return a finding as one or two lines of text."""
    about = f" {finding['part']}:" if finding["part"] else ""
    number = f" ({finding['number']})" if finding.get("number") else ""
    line = f"{finding['level']} · {finding['check']}:{about} {finding['what']}{number}"
    extras = [finding["remedy"]] if finding["remedy"] else []
    if finding["accepted"]:
        extras.append(f"Accepted: {finding['accepted']}")
    return "\n".join([line, *(f"    {extra}" for extra in extras)])
