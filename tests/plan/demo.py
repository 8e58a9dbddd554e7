"""The demo bench, made by the code cells of its own notebook with other parameter values."""

import contextlib
from functools import cache
from pathlib import Path

import nbformat

from plankit.plan import Plan

NOTEBOOK = Path(__file__).parents[2] / "notebooks" / "boot_bench.ipynb"


@cache
def _cells() -> tuple[tuple[bool, str], ...]:
    notebook = nbformat.read(NOTEBOOK, as_version=4)
    return tuple(
        ("parameters" in cell.metadata.get("tags", ()), cell.source)
        for cell in notebook.cells
        if cell.cell_type == "code"
    )


def bench(**parameters: object) -> Plan:
    """Return the bench's plan after every cell but the last three, which only show things."""
    space: dict[str, object] = {}
    with contextlib.chdir(NOTEBOOK.parent):
        for is_parameters, source in _cells()[:-3]:
            exec(source, space)
            if is_parameters:
                unknown = set(parameters) - set(space)
                assert not unknown, unknown
                space |= parameters
    plan = space["plan"]
    assert isinstance(plan, Plan)
    return plan
