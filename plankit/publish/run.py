"""Running a notebook from the top in a process of its own."""

import gc
import json
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Mapping
from importlib import import_module
from pathlib import Path
from types import TracebackType
from typing import IO, Any, Self

from plankit.errors import PlanError
from plankit.publish.markdown import parser
from plankit.publish.notebook import Notebook, read, with_parameters
from plankit.publish.pictures import take_along

_OF_PLANS = (
    "IPython.core.interactiveshell", "manifold3d", "packingsolver", "shapely", "plankit.drawing.merging",
    "plankit.drawing.regions", "plankit.drawing.scene", "plankit.plan", "plankit.plan.document", "plankit.plan.preview",
    "plankit.stock",
)  # fmt: skip
"""What the notebook of a plan imports, with all that these import in their turn."""

type Progress = Callable[[int, int], None]
"""Told how many cells are done, of how many."""


def _unheard(done: int, of: int) -> None:
    """Tell nobody."""


def run(
    path: Path,
    settings: Mapping[str, str] | None = None,
    *,
    kernel: bool = False,
    progress: Progress = _unheard,
) -> Notebook:
    """Return the notebook in a file as it stands after all its cells have run.

    settings  parameters to give other values, by name, as typed
    kernel    run in a Jupyter kernel even where a forked process would do
    progress  told how many cells are done, of how many
    raises    PlanError for a cell that raises; AskedWrongly for a parameter that is not there
    """
    with start(path, settings, kernel=kernel) as running:
        return running.notebook(progress)


def start(path: Path, settings: Mapping[str, str] | None = None, *, kernel: bool = False) -> "Running":
    """Start a notebook and return at once; see `run` for the arguments, `Running.notebook` for the result."""
    notebook = with_parameters(read(path), settings or {})
    folder = path.resolve().parent
    take_along(notebook, folder)
    if kernel or not can_fork():
        return InKernel(notebook, folder)
    if _threads() == 1:
        return InFork(notebook, folder)
    return InNewProcess(notebook, folder)


def can_fork() -> bool:
    """Say whether this system runs notebooks in forked processes (Linux does; macOS and Windows do not)."""
    return sys.platform.startswith("linux") and hasattr(os, "fork")


def _threads() -> int:
    try:
        return len(os.listdir("/proc/self/task"))  # noqa: PTH208 - counts threads, not files
    except OSError:
        return threading.active_count()


def warm() -> None:
    """Import what notebooks of plans use, so that every run forked from here starts at once."""
    for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
        os.environ.setdefault(name, "1")  # a process with threads of its own cannot be forked safely
    for module in _OF_PLANS:
        import_module(module)
    parser()


class Running:
    """A notebook on its way: ask for it with `notebook()`; leaving the `with` block ends what still runs."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()

    def notebook(self, progress: Progress = _unheard) -> Notebook:
        """Wait for the run to end and return the notebook with its outputs."""
        raise NotImplementedError

    def stop(self) -> None:
        """End the run, if it has not ended."""


class _Answering(Running):
    """A run in another process that answers line by line, as `child` says."""

    def __init__(self, notebook: Notebook) -> None:
        self._notebook = notebook
        self._lines: IO[str]

    def notebook(self, progress: Progress = _unheard) -> Notebook:
        import nbformat

        total = len(self._notebook.cells)
        for line in self._lines:
            said = json.loads(line)
            if "done" in said:
                progress(said["done"], total)
            elif "error" in said:
                raise PlanError(**said["error"])
            elif "cells" in said:
                self._notebook.cells = nbformat.from_dict(said["cells"])
                self._notebook.metadata["language_info"] = {"name": "python", "pygments_lexer": "ipython3"}
                return self._notebook
        raise PlanError(
            f"the notebook's process ended before its last cell ({self._end()})",
            remedy="Run the notebook in Jupyter to see which cell ends it.",
        )

    def _end(self) -> str:
        return "no reason given"


class InFork(_Answering):
    """A notebook running in a process forked from this one, which must have one thread only."""

    def __init__(self, notebook: Notebook, folder: Path) -> None:
        """Start the process."""
        super().__init__(notebook)
        cells = json.loads(json.dumps(notebook.cells))
        reading, writing = os.pipe()
        sys.stdout.flush()
        sys.stderr.flush()
        self._child = os.fork()
        if self._child == 0:  # pragma: no cover - another process
            os.close(reading)
            _be_the_child(cells, folder, writing)
        os.close(writing)
        self._lines = os.fdopen(reading, encoding="utf-8")
        self._status: int | None = None

    def stop(self) -> None:
        """End the process, if it has not ended, and wait for it."""
        self._lines.close()
        if self._status is None:
            os.kill(self._child, signal.SIGKILL)
            self._status = os.waitpid(self._child, 0)[1]

    def _end(self) -> str:
        self._status = os.waitpid(self._child, 0)[1]
        code = os.waitstatus_to_exitcode(self._status)
        return f"ended by signal {-code}" if code < 0 else f"exit code {code}"


def _be_the_child(cells: list[dict[str, Any]], folder: Path, writing: int) -> None:  # pragma: no cover
    status = 1
    try:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        gc.freeze()  # what was loaded before the fork stays; looking through it again and again costs a tenth
        gc.set_threshold(50_000, 20, 50)
        from plankit.publish.child import serve

        with os.fdopen(writing, "w", encoding="utf-8") as answer:
            serve(cells, str(folder), answer)
        status = 0
    finally:
        os._exit(status)


class InNewProcess(_Answering):
    """A notebook running in a new Python process: where this one has threads and must not be forked."""

    def __init__(self, notebook: Notebook, folder: Path) -> None:
        """Start the process."""
        super().__init__(notebook)
        root = str(Path(__file__).resolve().parent.parent.parent)
        paths = os.pathsep.join(p for p in (root, os.environ.get("PYTHONPATH", "")) if p)
        self._process = subprocess.Popen(
            [sys.executable, "-m", "plankit.publish.child"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            encoding="utf-8",
            env={**os.environ, "PYTHONPATH": paths},
        )
        if self._process.stdin is None or self._process.stdout is None:
            raise AssertionError
        with self._process.stdin as request:
            request.write(json.dumps({"cells": notebook.cells, "folder": str(folder)}))
        self._lines = self._process.stdout

    def stop(self) -> None:
        """End the process, if it has not ended, and wait for it."""
        self._lines.close()
        if self._process.poll() is None:
            self._process.kill()
        self._process.wait()

    def _end(self) -> str:
        return f"exit code {self._process.wait()}"


class InKernel(Running):
    """A notebook that will run in a Jupyter kernel, when it is asked for."""

    def __init__(self, notebook: Notebook, folder: Path) -> None:
        """Remember what to run and where."""
        self._notebook, self._folder = notebook, folder

    def notebook(self, progress: Progress = _unheard) -> Notebook:
        """Run it and return it with its outputs."""
        from plankit.publish.kernel import run_in_kernel

        return run_in_kernel(self._notebook, self._folder, progress)
