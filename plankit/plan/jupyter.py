"""What a plan asks of the notebook it is written in: numbers as the plan writes them, and every step shown."""

import sys
from collections.abc import Callable, Iterable
from typing import Any
from weakref import WeakMethod

from plankit.build import Hung, Item
from plankit.units import Angle, Length, Mass, Money, Notation


class Put(tuple[Item, ...]):
    """Hardware that was fitted; a notebook shows nothing of it by itself."""

    __slots__ = ()


def show_numbers_as(notation: Notation) -> None:
    """Let the notebook this runs in show every length in a plan's own notation; elsewhere do nothing.

    Displays and the MyST `eval` role both use it, in any Jupyter kernel.
    """
    shell = _shell()
    if shell is None:
        return
    writers: dict[type, Any] = {
        Length: notation.both,
        Mass: notation.mass,
        Money: notation.money,
        Angle: notation.angle,
    }
    plain = shell.display_formatter.formatters["text/plain"]
    for kind, write in writers.items():
        plain.for_type(kind, lambda value, printer, _cycle, write=write: printer.text(write(value)))
    for handed_back in (Hung, Put):
        shell.display_formatter.ipython_display_formatter.for_type(handed_back, _nothing)


def _nothing(_hardware: object) -> None:
    """Show nothing of what a line that fits hardware gives back: it is on the lists and in the drawings."""


def show_after_each_cell(left: Callable[[], Iterable[object]]) -> None:
    """Let the notebook this runs in show, at the end of each cell, what `left` gives; elsewhere do nothing.

    left  a method; nothing is asked of it once its object is gone
    """
    shell = _shell()
    if shell is None:
        return
    kept = WeakMethod(left)

    def look(result: Any) -> None:
        ask = kept()
        if ask is None:
            shell.events.unregister("post_run_cell", look)
        elif result.success:
            _show(ask())

    shell.events.register("post_run_cell", look)


def _show(displays: Iterable[object]) -> None:
    from IPython.display import display

    for one in displays:
        display(one)


def _shell() -> Any:
    if "IPython" not in sys.modules:
        return None
    from IPython.core.getipython import get_ipython

    return get_ipython()
