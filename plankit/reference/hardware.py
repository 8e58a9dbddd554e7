"""Hinges, the 32 mm row, clearances: what the trade commonly does, read from the table's own words."""

import re
from dataclasses import dataclass
from fractions import Fraction

from plankit.reference.tables import rows
from plankit.units import L, Length

_NUMBER = r"(\d+(?:\.\d+)?(?:/\d+)?)"
_MEASURE = re.compile(rf"{_NUMBER}(?:\s*(?:-|or|to)\s*{_NUMBER})?\s*(mm|in)\b")
_UP_TO = re.compile(r"(?:under (\d+)(?: in)?|\d+-(\d+)|over \d+): (\d+)")


@dataclass(frozen=True, slots=True)
class Practice:
    """One row of the table: what is commonly done, in words, and the sizes these words name."""

    item: str
    value: str
    source: str
    status: str

    @property
    def sizes(self) -> tuple[Length, ...]:
        """Every length in the words, in their order: "3-7 mm …; 5 mm usual" gives 3, 7 and 5 mm."""
        found: list[Length] = []
        for low, high, unit in _MEASURE.findall(self.value):
            found += [L(f"{one} {unit}") for one in (low, high) if one]
        return tuple(found)


def practice(item: str) -> Practice:
    """Return a row of the hardware table by its name.

    raises  KeyError where there is none
    """
    for row in rows("hardware"):
        if row["item"] == item:
            return Practice(item, row["value"], row["source"], row["status"])
    raise KeyError(item)


@dataclass(frozen=True, slots=True)
class HingeClass:
    """A height of door and the hinges it takes.

    up_to     the greatest height; None for the tallest doors
    included  whether a door of just that height belongs here
    """

    up_to: Length | None
    count: int
    included: bool = True

    def holds(self, height: Length) -> bool:
        """Tell whether doors of this height, or lower ones, take so few hinges."""
        if self.up_to is None:
            return True
        return height <= self.up_to if self.included else height < self.up_to


def hinge_classes() -> tuple[HingeClass, ...]:
    """Return how many hinges a furniture door takes by its height, the lowest doors first (common practice)."""
    row = practice("furniture door hinges by height, common practice")
    return tuple(
        HingeClass(L(f"{first or then} in") if first or then else None, int(count), included=not first)
        for first, then, count in _UP_TO.findall(row.value.partition("(")[0])
    )


def door_kilograms_per_square_metre() -> tuple[Fraction, Fraction]:
    """Return what a square metre of the 19 mm door that the table assumes weighs: least and most, in kg."""
    least, most = re.findall(r"(\d+\.\d+)-(\d+\.\d+) kg/m2", practice("door weight").value)[0]
    return Fraction(least), Fraction(most)
