"""The demo plans, made by the code cells of their own notebooks with other parameter values."""

import contextlib
from functools import cache
from pathlib import Path

import nbformat

from plankit.plan import Plan

FOLDER = Path(__file__).parents[2] / "notebooks"
NOTEBOOK = FOLDER / "boot_bench.ipynb"


@cache
def _cells(notebook: Path) -> tuple[tuple[bool, str], ...]:
    read = nbformat.read(notebook, as_version=4)
    return tuple(
        ("parameters" in cell.metadata.get("tags", ()), cell.source)
        for cell in read.cells
        if cell.cell_type == "code"
    )


def names_in(notebook: str, **parameters: object) -> dict[str, object]:
    """Return what a demo notebook's cells made, after every cell but the last three, which only show things."""
    space: dict[str, object] = {}
    with contextlib.chdir(FOLDER):
        for is_parameters, source in _cells(FOLDER / f"{notebook}.ipynb")[:-3]:
            exec(source, space)
            if is_parameters:
                unknown = set(parameters) - set(space)
                assert not unknown, unknown
                space |= parameters
    return space


def demo(notebook: str, **parameters: object) -> Plan:
    """Return the plan of a demo notebook, made with other parameter values."""
    plan = names_in(notebook, **parameters)["plan"]
    assert isinstance(plan, Plan)
    return plan


def bench(**parameters: object) -> Plan:
    """Return the boot bench's plan."""
    return demo("boot_bench", **parameters)
