"""How much wood there is round a point of a part, and whether a straight line runs into a cut. Exact."""

from fractions import Fraction
from functools import lru_cache

from plankit.build import Fastener
from plankit.build.surfaces import entry_plane, exit_plane, named_cuts, on_line
from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    Axis,
    Bevel,
    Box,
    CompoundMitre,
    Face,
    Mitre,
    Part,
    Point,
    Taper,
    slants_of,
)
from plankit.units import Length

SAWN_AT_A_SLANT = (Taper, Mitre, Bevel, CompoundMitre)
SLACK = 0.01
"""What floats may be off by, in millimetres, with room to spare."""

_slants = lru_cache(maxsize=256)(slants_of)
_cuts = lru_cache(maxsize=256)(named_cuts)
"""Remembered here for their millimetres only: equal parts may have been worked out in different ways."""


def room(part: Part, at: Point, face: Face) -> Length:
    """Return how much wood lies between a point and a face, square to the face as it was before sawing.

    Below nothing where the point lies outside that face. A notch or a groove on the way ends it. What is sawn
    off at a slant is taken off; eased edges are not.
    """
    return Length.of_mm(_room(part, at, face))


def _room(part: Part, at: Point, face: Face) -> Fraction:
    axis = AXIS_OF[face]
    end, here = part.box.face(face).mm, at.along(axis).mm
    plain = end - here if face == HIGH[axis] else here - end
    if not part.features:
        return plain
    if any(isinstance(feature, SAWN_AT_A_SLANT) for feature in part.features):
        plain -= sum(slant.depth(part, at) for _, slant in _slants(part) if slant.face == face)
    return min([plain, *_to_cuts(part, at, face)])


def _to_cuts(part: Part, at: Point, face: Face) -> list[Fraction]:
    """How far a point lies from each cut that is ahead of it, square to a face."""
    axis = AXIS_OF[face]
    found = []
    for _, cut in _cuts(part):
        if all(cut.low(a).mm < at.along(a).mm < cut.high(a).mm for a in AXES if a != axis):
            here = at.along(axis).mm
            away = cut.low(axis).mm - here if face == HIGH[axis] else here - cut.high(axis).mm
            found += [away] if away >= 0 else []
    return found


def beside(part: Part, at: Point, axis: Axis, slack: Length) -> tuple[Face, Length] | None:
    """Return the face beside an axis that a point lies furthest out of, and by how much; None if within all.

    slack  how much wood there must be at least
    """
    if _amid(part, at, axis, slack):
        return None
    rooms = {face: _room(part, at, face) - slack.mm for face in sides(axis)}
    face = min(rooms, key=lambda one: rooms[one])
    return (face, Length.of_mm(-rooms[face])) if rooms[face] < 0 else None


def _amid(part: Part, at: Point, axis: Axis, slack: Length) -> bool:
    """Whether a point is for sure well within a part that nothing is cut or sawn off; told by floats."""
    if any(isinstance(feature, SAWN_AT_A_SLANT) for feature in part.features) or _cuts(part):
        return False
    (low, high), here = part.box.mm(), at.mm()
    least = float(slack.mm) + SLACK
    return all(low[i] + least < here[i] < high[i] - least for i, other in enumerate(AXES) if other != axis)


def in_a_cut(part: Part, start: Point, end: Point) -> str | None:
    """Return what cut a straight line between two points runs into ("notch", "groove"); None for none."""
    return next((what for what, cut in _cuts(part) if _crosses(cut, start, end)), None)


def _crosses(cut: Box, start: Point, end: Point) -> bool:
    """Whether a line runs through the inside of a box, by clipping it to the box one axis after another."""
    enter, leave = Fraction(0), Fraction(1)
    for axis in AXES:
        low, high = cut.low(axis).mm, cut.high(axis).mm
        begin = start.along(axis).mm
        way = end.along(axis).mm - begin
        if way == 0:
            if not low < begin < high:
                return False
            continue
        one, two = sorted(((low - begin) / way, (high - begin) / way))
        enter, leave = max(enter, one), min(leave, two)
    return enter < leave


def where_it_enters(part: Part, heading: Face, head: Point, tip: Point) -> Point:
    """Return where a fastener's middle passes the plane of the face it enters a part by, inside a cut too."""
    return on_line(head, tip, AXIS_OF[heading], entry_plane(part, heading, head, tip))


def where_it_leaves(through: Part, into: Part, fastener: Fastener) -> Point:
    """Return where a fastener leaves the part it is driven through; where it enters the other, if that is one part."""
    heading, head, tip = fastener.heading, fastener.head, fastener.tip
    if through.id == into.id or fastener.leans != through.leans:
        return where_it_enters(into, heading, head, tip)
    plane = exit_plane(through, heading, head, tip)
    return on_line(head, tip, AXIS_OF[heading], plane)


_SIDES: dict[Axis, tuple[Face, ...]] = {
    axis: tuple(face for face in FACES if AXIS_OF[face] != axis) for axis in AXES
}


def sides(axis: Axis) -> tuple[Face, ...]:
    """Return the four faces beside an axis."""
    return _SIDES[axis]
