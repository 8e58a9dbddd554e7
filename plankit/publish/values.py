"""Values in prose: each expression evaluated where the notebook runs, its result kept with the cell."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from plankit.errors import PlanError
from plankit.publish.markdown import STORED, expressions, failed_expression, refuse_unknown_roles

type Evaluate = Callable[[Sequence[str]], Mapping[str, Mapping[str, Any]]]
"""Evaluates expressions in the running notebook; the results are in the form of Jupyter's messages."""

type Waiting = list[tuple[dict[str, Any], str]]
"""Markdown cells, each with its name, that speak of something no cell above them has made."""


def evaluate_cell(cell: dict[str, Any], where: str, evaluate: Evaluate, waiting: Waiting) -> None:
    """Evaluate the expressions of a Markdown cell and keep the results in its metadata.

    A cell that names what nothing above it has made joins `waiting`: an introduction may quote the build.
    """
    refuse_unknown_roles(str(cell["source"]), where)
    wanted = expressions(str(cell["source"]))
    if not wanted:
        cell.get("metadata", {}).pop(STORED, None)
        return
    results = evaluate(wanted)
    if any(_is_unknown(result) for result in results.values()):
        waiting.append((cell, where))
        return
    _keep(cell, where, results)


def evaluate_waiting(waiting: Waiting, evaluate: Evaluate) -> None:
    """Evaluate what stood above the cells it speaks of, now that every cell has run."""
    for cell, where in waiting:
        _keep(cell, where, evaluate(expressions(str(cell["source"]))))


def _is_unknown(result: Mapping[str, Any]) -> bool:
    return result.get("status") == "error" and result.get("ename") == "NameError"


def _keep(cell: dict[str, Any], where: str, results: Mapping[str, Mapping[str, Any]]) -> None:
    for expression, result in results.items():
        if result.get("status") != "ok":
            raise _failed(expression, result, where)
    cell["metadata"][STORED] = list(_entries(results))


def _entries(results: Mapping[str, Mapping[str, Any]]) -> Iterable[dict[str, Any]]:
    for expression, result in results.items():
        data = {kind: result["data"][kind] for kind in sorted(result["data"])}
        yield {"expression": expression, "result": {"status": "ok", "data": data, "metadata": {}}}


def _failed(expression: str, result: Mapping[str, Any], where: str) -> PlanError:
    return failed_expression(expression, str(result.get("ename", "")), str(result.get("evalue", "")), where)
