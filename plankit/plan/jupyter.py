"""How lengths, weights and prices look in a notebook: as the plan writes them."""

import sys
from typing import Any

from plankit.units import Angle, Length, Mass, Money, Notation


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


def _shell() -> Any:
    if "IPython" not in sys.modules:
        return None
    from IPython.core.getipython import get_ipython

    return get_ipython()
