"""How far a run is, shown on a terminal's error stream and nowhere else."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

type Progress = Callable[[int, int], None]
type Telling = Callable[[str], Progress]


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
