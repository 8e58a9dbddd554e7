"""How far a run is, shown on a terminal's error stream and nowhere else."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from plankit.cutting.watch import Watch

type Progress = Callable[[int, int], None]
type Telling = Callable[[str], Progress]


@contextmanager
def shown_search(seconds: float | None, *, hidden: bool) -> Iterator[Watch]:
    """Give what a search tells how it goes; on a terminal a bar shows it, elsewhere nothing is printed.

    seconds  how long each group may take; None where no bar is worth showing
    """
    if hidden or seconds is None or not sys.stderr.isatty():
        yield Watch()
        return
    from rich.console import Console
    from rich.progress import BarColumn, Task, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bars
    from rich.progress_bar import ProgressBar

    class TimeBar(BarColumn):
        """As far as the time allowed has gone by: how much there is still to find, nobody knows."""

        def render(self, task: Task) -> ProgressBar:
            """Draw the bar."""
            task.completed = min(task.total or 0.0, task.elapsed or 0.0)
            return super().render(task)

    columns = (TextColumn("{task.description}"), TimeBar(), TimeElapsedColumn())
    with Bars(*columns, console=Console(stderr=True), transient=True) as bars:
        yield _Bar(bars, seconds)


class _Bar(Watch):
    """A bar as long as the time allowed, which says what the best answer so far needs."""

    def __init__(self, bars: Any, seconds: float) -> None:
        self._bars, self._seconds = bars, seconds
        self._task = bars.add_task("")
        self._group = ""

    def begin(self, group: int, groups: int) -> None:
        self._group = f"group {group} of {groups}" if groups > 1 else "cutting"
        self._bars.update(self._task, description=self._group, total=self._seconds * groups)

    def stopped(self) -> None:
        self._bars.print("stopped: this is the best answer so far")

    def better(self, used: int, least: int | None) -> None:
        known = "" if least is None else f", at least {least}"
        self._bars.update(self._task, description=f"{self._group}: {used} pieces of stock{known}")


@contextmanager
def shown_progress(*, hidden: bool) -> Iterator[Telling]:
    """Give what a run tells its progress to; on a terminal a bar shows it, elsewhere nothing is printed."""
    if hidden or not sys.stderr.isatty():
        yield lambda _: lambda done, of: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, TextColumn
    from rich.progress import Progress as Bars

    # Drawn only when told: a bar that redraws itself has a thread, and a process with threads is not forked.
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TextColumn("cells"))
    with Bars(*columns, console=Console(stderr=True), transient=True, auto_refresh=False) as bars:

        def begin(name: str) -> Progress:
            task = bars.add_task(name, total=None)

            def tell(done: int, of: int) -> None:
                bars.update(task, completed=done, total=of, refresh=True)

            return tell

        yield begin
