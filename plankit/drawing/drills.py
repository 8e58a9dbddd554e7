"""Drill sizes as they are stamped: 64ths of an inch, or millimetres, whatever the mark of the plan's tape is."""

from fractions import Fraction

from plankit.units import Length, Notation, decimal, mixed

_STAMPED = 64
_METRIC_STEP = Fraction(1, 2)
"""Common drill sets go up by half a millimetre (common practice)."""


def drill_words(length: Length, notation: Notation, *, loose: bool = False) -> str:
    """Write a drill's size as on a drawing, without the plan's own unit: "11/64", "4.5"; "5 mm" in an inch plan.

    loose  whether what goes through must not bind, so that a metric drill is rather the next larger one
    """
    words, unit = _stamped(length, notation, loose=loose)
    return words if unit == notation.unit else f"{words}\u00a0{unit}"


def drill_named(length: Length, notation: Notation, *, loose: bool = False) -> str:
    """Write a drill's size with its unit, as in a sentence: "11/64 in", "4.5 mm"."""
    words, unit = _stamped(length, notation, loose=loose)
    return f"{words}\u00a0{unit}"


def depth_words(length: Length, notation: Notation) -> str:
    """Write how deep a hole is: to the plan's mark, or as its maker says it where that is in whole tenths of a mm.

    A cup that is 12.5 mm deep stays so in an inch plan: the nearest sixteenth is not what its hinge asks for.
    """
    metric = notation.unit == "in" and notation.rounds(length) and (length.mm * 10).denominator == 1
    return f"{decimal(length.mm, 1)}\u00a0mm" if metric else notation.bare(length)


def depth_named(length: Length, notation: Notation) -> str:
    """Write how deep a hole is with its unit, and in both systems where the plan's mark says it plainly."""
    words = depth_words(length, notation)
    return words if words.endswith("mm") else notation.both(length)


def _stamped(length: Length, notation: Notation, *, loose: bool) -> tuple[str, str]:
    """A size and the unit it is stamped in: its own where it has one, else the plan's nearest drill."""
    in_64ths = (length.inches * _STAMPED).denominator == 1
    in_mm = (length.mm * 100).denominator == 1
    if notation.unit == "in":
        if in_mm and not in_64ths:
            return decimal(length.mm, 2), "mm"
        return mixed(length.inches), "in"
    if in_mm:
        return decimal(length.mm, 2), "mm"
    steps = length.mm / _METRIC_STEP
    whole = -(-steps // 1) if loose else (steps + Fraction(1, 2)) // 1
    return decimal(whole * _METRIC_STEP, 1), "mm"
