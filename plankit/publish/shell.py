"""Running a notebook's cells in this very process: the side of the runner that may be thrown away after."""

import base64
import io
import os
import re
import sys
import tempfile
import traceback
import warnings
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from plankit.errors import PlanError, PlankitError
from plankit.publish.notebook import INJECTED, cell_names, is_blank, quoted, tags
from plankit.publish.printed import MOST, settle
from plankit.publish.values import Waiting, evaluate_cell, evaluate_waiting

INLINE_FIGURES = "module://matplotlib_inline.backend_inline"
FIXED_DATE = "315532800"  # 1980-01-01, for libraries that stamp what they write with a date


class Outputs:
    """Gathers what the running cell shows, in the form notebooks keep it."""

    def __init__(self) -> None:
        """Start with nothing shown."""
        self.of_cell: list[dict[str, Any]] = []
        self.error: BaseException | None = None
        self._named: dict[str, list[dict[str, Any]]] = {}
        self._printed = 0

    def begin(self) -> list[dict[str, Any]]:
        """Start a new cell and return the list its outputs will stand in."""
        self.of_cell = []
        self.error = None
        self._printed = 0
        return self.of_cell

    def end(self) -> None:
        """Close the cell: what it printed is one text a stream, and not endless."""
        settle(self.of_cell)

    def show(
        self, kind: str, data: Mapping[str, Any], metadata: Mapping[str, Any] | None, **more: Any
    ) -> None:
        """Add a display or a result."""
        output = {"output_type": kind, "data": _plain(data), "metadata": dict(metadata or {}), **more}
        self.of_cell.append(output)

    def name(self, name: str) -> None:
        """Remember the last display under the name its author may update it by."""
        self._named.setdefault(name, []).append(self.of_cell[-1])

    def update(self, name: str, data: Mapping[str, Any], metadata: Mapping[str, Any] | None) -> None:
        """Put other content into every display of that name."""
        for output in self._named.get(name, ()):
            output["data"], output["metadata"] = _plain(data), dict(metadata or {})

    def write(self, stream: str, text: str) -> None:
        """Add printed text to what the same stream printed just before; `end` joins it."""
        if not text or self._printed > MOST:
            return
        self._printed += len(text)
        last = self.of_cell[-1] if self.of_cell else None
        if last and last["output_type"] == "stream" and last["name"] == stream:
            last["text"].append(text)
        else:
            self.of_cell.append({"output_type": "stream", "name": stream, "text": [text]})


def _plain(data: Mapping[str, Any]) -> dict[str, Any]:
    return {k: base64.b64encode(v).decode("ascii") if isinstance(v, bytes) else v for k, v in data.items()}


class _Printed(io.TextIOBase):
    """A stream that writes into the running cell's outputs."""

    def __init__(self, outputs: Outputs, name: str) -> None:
        self._outputs, self._name = outputs, name

    encoding = "utf-8"

    def writable(self) -> bool:
        return True

    def write(self, text: str) -> int:
        self._outputs.write(self._name, text)
        return len(text)


class _Below:
    """Catches what is printed below Python (by a solver or a command) and hands it on as printed text."""

    def __init__(self, outputs: Outputs) -> None:
        self._outputs = outputs
        self._file = tempfile.TemporaryFile()  # noqa: SIM115 - lives as long as the process
        for stream in (1, 2):
            os.dup2(self._file.fileno(), stream)
        nothing = os.open(os.devnull, os.O_RDONLY)
        os.dup2(nothing, 0)

    def collect(self) -> None:
        self._file.seek(0)
        text = self._file.read(4 * MOST + 4).decode("utf-8", "replace")
        if text:
            self._outputs.write("stdout", text)
            self._file.seek(0)
            self._file.truncate()


def _make_shell(outputs: Outputs) -> Any:
    from IPython.core.displayhook import DisplayHook
    from IPython.core.displaypub import DisplayPublisher
    from IPython.core.interactiveshell import InteractiveShell
    from traitlets.config import Config

    class Publisher(DisplayPublisher):
        def publish(
            self,
            data: Any,
            metadata: Any = None,
            source: Any = None,
            *,
            transient: Any = None,
            update: bool = False,
            **_: Any,
        ) -> None:
            name = str((transient or {}).get("display_id") or "")
            if update and name:
                outputs.update(name, data, metadata)
                return
            outputs.show("display_data", data, metadata)
            if name:
                outputs.name(name)

        def clear_output(self, wait: bool = False) -> None:
            outputs.of_cell.clear()

    class Results(DisplayHook):
        def write_output_prompt(self) -> None:
            pass

        def finish_displayhook(self) -> None:
            self._is_active = False

        def write_format_data(self, format_dict: Any, md_dict: Any = None) -> None:
            outputs.show("execute_result", format_dict, md_dict, execution_count=self.prompt_count)

    class Shell(InteractiveShell):
        display_pub_class = Publisher
        displayhook_class = Results
        system = InteractiveShell.system_raw

        def _showtraceback(self, etype: Any, evalue: Any, stb: Any) -> None:
            outputs.error = evalue
            outputs.of_cell.append(
                {
                    "output_type": "error",
                    "ename": etype.__name__,
                    "evalue": str(evalue),
                    "traceback": list(stb),
                }
            )

        def ask_exit(self) -> None:
            raise PlanError(
                "this cell ends the notebook with exit() or quit(), and no cell after it would run",
                remedy="Take the call out.",
            )

        def enable_gui(self, gui: Any = None) -> None:
            pass

    config = Config()
    config.HistoryManager.enabled = False
    config.InteractiveShell.colors = "nocolor"
    config.InteractiveShell.xmode = "Minimal"
    InteractiveShell.clear_instance()
    shell: Any = Shell.instance(config=config)
    InteractiveShell._instance = shell
    return shell


def run_cells(cells: Sequence[dict[str, Any]], progress: Callable[[int], None] = lambda _: None) -> None:
    """Run the cells of a notebook here, writing outputs and the values in prose into them.

    progress  told how many cells are done
    raises    PlanError at the first cell that raises, or value that cannot be computed
    """
    _warn_as_python_does()
    os.environ.setdefault("MPLBACKEND", INLINE_FIGURES)
    os.environ.setdefault("SOURCE_DATE_EPOCH", FIXED_DATE)
    outputs = Outputs()
    shell = _make_shell(outputs)
    below = _Below(outputs)
    sys.stdout, sys.stderr = _Printed(outputs, "stdout"), _Printed(outputs, "stderr")
    waiting: Waiting = []
    for i, (cell, name) in enumerate(zip(cells, cell_names(cells), strict=True)):
        if cell["cell_type"] == "code":
            _run(cell, name, shell, outputs, below)
        elif cell["cell_type"] == "markdown":
            evaluate_cell(cell, name, lambda wanted: _evaluate(shell, wanted), waiting)
        progress(i + 1)
    evaluate_waiting(waiting, lambda wanted: _evaluate(shell, wanted))


def _warn_as_python_does() -> None:
    """Forget the warning filters of the process this one was forked from."""
    warnings.resetwarnings()
    for kind in (DeprecationWarning, PendingDeprecationWarning, ImportWarning, ResourceWarning):
        warnings.simplefilter("ignore", kind)
    warnings.filterwarnings("default", category=DeprecationWarning, module="__main__")


def _evaluate(shell: Any, wanted: Sequence[str]) -> Mapping[str, Mapping[str, Any]]:
    results: Mapping[str, Mapping[str, Any]] = shell.user_expressions({one: one for one in wanted})
    return results


def _run(cell: dict[str, Any], name: str, shell: Any, outputs: Outputs, below: _Below) -> None:
    shown = outputs.begin()
    cell["outputs"], cell["execution_count"] = shown, None
    if is_blank(cell):
        return
    counted = INJECTED not in tags(cell)
    if counted:
        cell["execution_count"] = shell.execution_count
    result = shell.run_cell(cell["source"], store_history=counted)
    below.collect()
    outputs.end()
    error = result.error_before_exec or result.error_in_exec or outputs.error
    if error is not None:
        raise raised(error, name, str(cell["source"]))


_REPEATED = re.compile(r"keyword argument repeated: (\w+)")
"""What Python says of a face, or anything else, that a line names twice."""


def raised(error: BaseException, name: str, source: str) -> PlanError:
    """Return what the author is told of a cell that raised: the cell, the reason, the line it stands on."""
    at = quoted(source, _line_in_cell(error))
    if isinstance(error, PlankitError):
        what = f"{error.where}: {error.what}" if error.where else error.what
        return PlanError(what, where=name, given=error.given, remedy=f"{error.remedy}\n{at}".lstrip("\n"))
    twice = _REPEATED.search(_message(error)) if isinstance(error, SyntaxError) else None
    if twice is not None:
        return PlanError(f"{twice[1]}= is given twice.", where=name, remedy=f"Keep one of the two.\n{at}")
    words = f"{type(error).__name__}: {_message(error)}".rstrip(": ")
    return PlanError(words, where=name, remedy=at)


def _message(error: BaseException) -> str:
    if isinstance(error, SyntaxError):
        return str(error.msg)
    return str(error)


def _line_in_cell(error: BaseException) -> int | None:
    if isinstance(error, SyntaxError):
        return error.lineno
    frames = traceback.extract_tb(error.__traceback__)
    mine = [f.lineno for f in frames if f.filename.startswith(("<ipython-input", "<string>"))]
    return mine[-1] if mine else None
