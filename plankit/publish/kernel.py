"""Running a notebook in a Jupyter kernel, values in prose included: on request, or where nothing forks."""

import re
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from nbclient.exceptions import CellExecutionError, DeadKernelError
from nbconvert.preprocessors import ExecutePreprocessor

from plankit.errors import PlanError
from plankit.publish.notebook import INJECTED, Notebook, cell_names, quoted, tags
from plankit.publish.pictures import take_displayed_along
from plankit.publish.printed import settle
from plankit.publish.values import Waiting, evaluate_cell, evaluate_waiting

_IN_CELL = re.compile(r"\b(?:Cell|Input) In ?\[\d+\], line (\d+)")
_COLOUR = re.compile(r"\x1b\[[0-9;]*m")
QUIETLY = ["--IPKernelApp.log_level=50"]


class PlanExecutePreprocessor(ExecutePreprocessor):
    """Runs every code cell of a notebook and evaluates the values its prose asks for.

    It takes the settings of nbconvert's `ExecutePreprocessor`, whose place it takes.
    """

    def preprocess(self, nb: Notebook, resources: Any = None, km: Any = None) -> tuple[Notebook, Any]:
        """Return the notebook with its outputs, the values in its prose kept in the cells' metadata."""
        self._waiting: Waiting = []
        self._names = cell_names(nb.cells)
        self._last = len(nb.cells) - 1
        return super().preprocess(nb, resources, km)

    def preprocess_cell(self, cell: Any, resources: Any, index: int) -> tuple[Any, Any]:
        """Run a code cell; evaluate the expressions of a Markdown cell."""
        self._check_assign_resources(resources)
        if cell.cell_type == "code":
            self.execute_cell(cell, index, store_history=INJECTED not in tags(cell))
            settle(cell.outputs)
        elif cell.cell_type == "markdown":
            evaluate_cell(cell, self._names[index], self._evaluate, self._waiting)
        if index == self._last:
            evaluate_waiting(self._waiting, self._evaluate)
        return cell, self.resources

    def _evaluate(self, wanted: Sequence[str]) -> Mapping[str, Mapping[str, Any]]:
        if self.kc is None:
            raise PlanError("the notebook's kernel is not there to evaluate the values in its prose")
        asked = self.kc.execute(
            "", silent=True, store_history=False, user_expressions={one: one for one in wanted}
        )
        reply = self.wait_for_reply(asked) or {"content": {}}
        results: Mapping[str, Mapping[str, Any]] = reply["content"].get("user_expressions", {})
        return results


def run_in_kernel(notebook: Notebook, folder: Path, progress: Callable[[int, int], None]) -> Notebook:
    """Return the notebook after all its cells have run in a kernel whose working folder is `folder`.

    raises  PlanError for a cell that raises
    """
    total = len(notebook.cells)
    names = cell_names(notebook.cells)
    runner = PlanExecutePreprocessor(timeout=None, kernel_name="python3", extra_arguments=QUIETLY)
    runner.on_cell_complete = lambda cell, cell_index: progress(cell_index + 1, total)
    try:
        runner.preprocess(notebook, {"metadata": {"path": str(folder)}})
    except CellExecutionError as error:
        raise _raised(notebook, names, error) from None
    except DeadKernelError as error:
        raise PlanError("the notebook's kernel ended before its last cell") from error
    take_displayed_along(notebook.cells, folder)
    return notebook


def _raised(notebook: Notebook, names: Sequence[str], error: CellExecutionError) -> PlanError:
    for cell, name in zip(notebook.cells, names, strict=True):
        if any(output.output_type == "error" for output in cell.get("outputs", ())):
            is_ours = error.ename in {"PlanError", "AskedWrongly"}
            what = error.evalue if is_ours else f"{error.ename}: {error.evalue}".rstrip(": ")
            return PlanError(what, where=name, remedy=quoted(str(cell.source), _line_in_cell(error)))
    return PlanError(f"{error.ename}: {error.evalue}")


def _line_in_cell(error: CellExecutionError) -> int | None:
    """The line that the last frame of the notebook's own stands on, as the kernel's traceback tells it."""
    lines = _IN_CELL.findall(_COLOUR.sub("", error.traceback))
    return int(lines[-1]) if lines else None
