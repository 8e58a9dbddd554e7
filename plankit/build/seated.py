"""A person who sits at a piece: the room that her knees and thighs take under it, and what there is."""

from dataclasses import dataclass
from fractions import Fraction

from plankit.parts import AXIS_OF, HIGH, LOW, Axis, Box, Face, Part, block, solid
from plankit.units import L, Length

KNEE_HEIGHT = L("24 in")
"""From the floor to what is over the thighs of a grown person on a common chair (common practice)."""
KNEE_WIDTH = L("20 in")
"""One sitter's place between legs (common practice)."""
KNEE_DEPTH = L("16 in")
"""How far knees reach in under the edge (common practice)."""
_FINE = 10**6
_TALL = L("100 in")


@dataclass(frozen=True, slots=True)
class Seated:
    """Somebody who sits at one side of a piece.

    box   the room for the knees: from the floor up to the height that is wanted
    side  the face of the piece that she sits at
    """

    name: str
    box: Box
    side: Face


def knees_at(  # noqa: PLR0917 - a side, and three sizes
    name: str, whole: Box, side: Face, wide: Length, deep: Length, high: Length
) -> Seated:
    """Return a sitter in the middle of one side of a piece, her knees reaching in under its edge."""
    axis = AXIS_OF[side]
    along: Axis = "y" if axis == "x" else "x"
    edge = whole.face(side)
    ends = (edge, edge + deep) if side == LOW[axis] else (edge - deep, edge)
    low = whole.middle(along) - wide.portion(2)
    box = Box(**{
        LOW[axis]: ends[0], HIGH[axis]: ends[1], LOW[along]: low, HIGH[along]: low + wide,
        "bottom": whole.bottom, "top": whole.bottom + high,
    })  # fmt: skip
    return Seated(name, box, side)


def knee_room(parts: tuple[Part, ...], seated: Seated) -> tuple[Length, Part | None]:
    """Return how high the knees have room, from the floor to the lowest part over them, and that part.

    As high as 100 in where nothing is over them.
    """
    box = seated.box
    column = Box(box.left, box.right, box.front, box.back, box.bottom, box.bottom + _TALL)
    found = [(low - box.bottom, part) for part in parts if (low := _lowest(part, column)) is not None]
    if not found:
        return _TALL, None
    return min(found, key=lambda one: (one[0].mm, one[1].id))


def _lowest(part: Part, column: Box) -> Length | None:
    """The lowest point of a part within a column; None where it is outside."""
    shared = solid(part) ^ block(column)
    if shared.volume() < 1.0:
        return None
    low = Length.of_mm(Fraction(round(float(shared.bounding_box()[2]) * _FINE), _FINE))
    return part.box.bottom if abs(low.mm - part.box.bottom.mm) * _FINE < _FINE // 1000 else low


