"""Lengths in what an author is told when something is refused: in her own unit, exact where that is short."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from plankit.units.length import Length, mixed
from plankit.units.notation import Notation, decimal

PLAIN = 64
"""Fractions of an inch are written out down to 64ths, millimeters down to hundredths."""
_INCHES = Notation()
_SPOKEN: ContextVar[Notation] = ContextVar("spoken", default=_INCHES)


@contextmanager
def speaking(notation: Notation) -> Iterator[None]:
    """Let `told` write as one plan does for as long as one of its verbs is at work; in inches elsewhere."""
    before = _SPOKEN.set(notation)
    try:
        yield
    finally:
        _SPOKEN.reset(before)


def told(length: Length, notation: Notation | None = None) -> str:
    """Write a length for its author: "3/8 in", "19.05 mm"; "≈17 1/16 in" where no short number says it exactly.

    notation  how her plan writes; that of the verb at work where it is left out
    """
    write = notation or _SPOKEN.get()
    inches = f"{mixed(length.inches)} in" if length.inches.denominator <= PLAIN else ""
    metric = f"{decimal(length.mm, 2)} mm" if (length.mm * 100).denominator == 1 else ""
    first, second = (inches, metric) if write.unit == "in" else (metric, "")
    return first or second or write.length(length).replace("\u00a0", " ")


def told_size(*lengths: Length, notation: Notation | None = None) -> str:
    """Write several lengths as one size, the unit once where they share it: "40 1/2 × 15 × 3/4 in"."""
    each = [told(length, notation) for length in lengths]
    units = {one.rpartition(" ")[2] for one in each}
    if len(units) > 1:
        return " × ".join(each)
    return f"{' × '.join(one.rpartition(' ')[0] for one in each)} {units.pop()}"
