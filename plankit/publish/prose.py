"""Numbers typed in a notebook's prose that its build also computes: found when the whole notebook is there."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from plankit.finding import LEVELS
from plankit.plan.prose import typed_numbers
from plankit.publish.notebook import Notebook, cell_names
from plankit.units import Length, Notation, node_of


def with_typed_numbers(notebook: Notebook, document: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return the plan document with a finding for every number in prose that will go stale."""
    known = _known(document)
    notation = Notation(document["unit"], Fraction(document["mark"]), Fraction(document["metric_mark"]))
    found = [
        finding.as_data()
        for cell, where in zip(notebook.cells, cell_names(notebook.cells), strict=True)
        if cell.cell_type == "markdown"
        for finding in typed_numbers(cell.source, known, where, notation)
    ]
    return with_findings(document, found)


def with_findings(document: Mapping[str, Any], found: Sequence[Mapping[str, Any]]) -> Mapping[str, Any]:
    """Return the plan document with more findings, each with the reason its author gave for living with it."""
    if not found:
        return document
    reasons = {entry["check"]: entry["reason"] for entry in document["accepted"] if not entry["part"]}
    told = [{**finding, "accepted": reasons.get(finding["check"], "")} for finding in found]
    told = [finding for finding in told if finding not in document["findings"]]
    everything = sorted([*document["findings"], *told], key=lambda finding: LEVELS.index(finding["level"]))
    return {**document, "findings": everything}


def _known(document: Mapping[str, Any]) -> tuple[tuple[str, Length], ...]:
    values = {given["name"]: Fraction(given["mm"]) for given in document["given"] if "mm" in given}
    parameters = [(name, Length(node_of(["given", name], values))) for name in values]
    sizes = [(one["what"], Length(node_of(one["from"], values))) for one in document["computed"]]
    return (*parameters, *sizes)
