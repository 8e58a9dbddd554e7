"""Where a view goes on the page, at which scale, and how finished drawings are trimmed to their paper.

Scales come from ISO 5455 (2, 5, 10, 20 …) for plans in millimetres; for plans in inches also those of an
architect's rule (4, 6, 8, 12, 16 …), which ISO 5455 leaves to custom.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from plankit.drawing.metrics import text_width
from plankit.drawing.primitives import Figure, Point, Primitive, Ring, Text, bounds, moved
from plankit.errors import PlanError

WIDEST, HIGHEST = 170.0, 200.0
"""The paper a figure may take on Letter and A4, in mm."""
EDGE = 1.5
"""Paper left free round a figure, in mm."""
_METRIC: Final = (1, 2, 5, 10, 20, 50, 100)
_INCH: Final = (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 48, 64, 96)


@dataclass(frozen=True, slots=True)
class Placing:
    """A view's scale (page mm for one mm of the build) and where the view's zero falls on the page."""

    scale: float
    right: float = 0.0
    down: float = 0.0

    def at(self, point: Sequence[float]) -> Point:
        """Where a point of the projection plane falls on the page."""
        return point[0] * self.scale + self.right, point[1] * self.scale + self.down

    def ring(self, points: Iterable[Sequence[float]]) -> Ring:
        """A ring or line of points on the page."""
        return tuple(self.at(point) for point in points)


def ratio(unit: str, wide: float, high: float, room_wide: float, room_high: float) -> int:
    """The smallest listed reduction, 1 : so many, at which wide × high mm fits into the room."""
    listed = _METRIC if unit == "mm" else _INCH
    for number in listed:
        if wide <= room_wide * number and high <= room_high * number:
            return number
    return math.ceil(max(wide / room_wide, high / room_high) / 100) * 100


def scale_words(number: int) -> str:
    """How a drawing states its scale: "Scale 1:8"."""
    return f"Scale 1:{number}" if number != 1 else "Full size (1:1) if printed at 100 %"


class TooLarge(PlanError):  # noqa: N818 - it reads as a sentence
    """A figure that does not fit the page even so small."""


def on_the_page(make: Callable[[float], Figure]) -> Figure:
    """The figure, drawn in as much room as the page has; with less where its words need more.

    make    draws it, given the share of its usual room that the view may take
    raises  PlanError where nothing helps
    """
    for room in (1.0, 0.85, 0.7, 0.55):
        try:
            return make(room)
        except TooLarge:
            continue
    return make(0.4)


def _scale_end(items: Iterable[Primitive]) -> float:
    """How far right words with a scale reach on paper, where "1:10" is printed as "1:11.4"."""
    ends = [bounds([item])[2] for item in items if isinstance(item, Text) and "Scale 1:" in item.text]
    return max(ends, default=-math.inf) + text_width("0.0", 8.0)


def framed(name: str, items: Iterable[Primitive], title: str, description: str) -> Figure:
    """A figure just large enough for its items, moved so that they lie on its paper.

    raises  PlanError where they take more than 170 × 200 mm
    """
    listed = tuple(items)
    left, top, right, bottom = bounds(listed)
    right = min(max(right, _scale_end(listed)), max(right, left + WIDEST - 2 * EDGE))
    wide, high = right - left + 2 * EDGE, bottom - top + 2 * EDGE
    if wide > WIDEST + 0.01 or high > HIGHEST + 0.01:
        raise TooLarge(
            "This figure is larger than the page takes.",
            where=title,
            given=f"{wide:.0f} × {high:.0f} mm",
            remedy=f"{WIDEST:.0f} × {HIGHEST:.0f} mm is the most: shorten its labels or split what it shows.",
        )
    placed = tuple(moved(item, EDGE - left, EDGE - top) for item in listed)
    return Figure(name, round(wide, 2), round(high, 2), title, description, placed)
