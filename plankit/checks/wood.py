"""How much wood there is round a point of a part, and whether a straight line runs into a cut. Exact."""

from fractions import Fraction

from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    OPPOSITE,
    Axis,
    Box,
    Face,
    Groove,
    Mitre,
    Notch,
    Part,
    Point,
    Taper,
)
from plankit.units import Length


def room(part: Part, at: Point, face: Face) -> Length:
    """Return how much wood lies between a point and a face, square to the face as it was before sawing.

    Below nothing where the point lies outside that face. Tapers and mitres are taken off.
    """
    return Length.of_mm(_room(part, at, face))


def _room(part: Part, at: Point, face: Face) -> Fraction:
    axis = AXIS_OF[face]
    plain = part.box.face(face).mm - at.along(axis).mm
    plain = plain if face == HIGH[axis] else -plain
    return plain - sum(_sawn_off(part, feature, at) for feature in _saw_cuts(part, face))


def _saw_cuts(part: Part, face: Face) -> list[Taper | Mitre]:
    return [
        one
        for one in part.features
        if (isinstance(one, Taper) and one.face == face) or (isinstance(one, Mitre) and one.end == face)
    ]


def _sawn_off(part: Part, cut: Taper | Mitre, at: Point) -> Fraction:
    """How deep a slanting cut goes at the height of a point."""
    if isinstance(cut, Taper):
        towards, amount, run = cut.narrow, cut.amount, cut.run.mm
    else:
        towards, amount = cut.short, cut.setback
        run = part.box.extent(AXIS_OF[cut.short]).mm
    axis = AXIS_OF[towards]
    from_narrow = abs(at.along(axis).mm - part.box.face(towards).mm)
    return amount.mm * max(Fraction(0), 1 - from_narrow / run)


def beside(part: Part, at: Point, axis: Axis, slack: Length) -> tuple[Face, Length] | None:
    """Return the face beside an axis that a point lies furthest out of, and by how much; None if within all.

    slack  how much wood there must be at least
    """
    rooms = {face: _room(part, at, face) - slack.mm for face in sides(axis)}
    face = min(rooms, key=lambda one: rooms[one])
    return (face, Length.of_mm(-rooms[face])) if rooms[face] < 0 else None


def in_a_cut(part: Part, start: Point, end: Point) -> str | None:
    """Return what cut a straight line between two points runs into ("notch" or "groove"); None for none."""
    corner = part.box.corner
    for feature in part.features:
        if isinstance(feature, Notch | Groove) and _crosses(feature.cut, corner, start, end):
            return "notch" if isinstance(feature, Notch) else "groove"
    return None


def _crosses(cut: Box, corner: Point, start: Point, end: Point) -> bool:
    """Whether a line runs through the inside of a box, by clipping it to the box one axis after another."""
    enter, leave = Fraction(0), Fraction(1)
    for axis in AXES:
        low, high = cut.low(axis).mm + corner.along(axis).mm, cut.high(axis).mm + corner.along(axis).mm
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
    """Return where a fastener's middle passes the plane of the face it enters a part by."""
    axis = AXIS_OF[heading]
    plane = part.box.face(OPPOSITE[heading]).mm
    start, way = head.along(axis).mm, tip.along(axis).mm - head.along(axis).mm
    share = (plane - start) / way
    x, y, z = (Length.of_mm(head.along(a).mm + (tip.along(a).mm - head.along(a).mm) * share) for a in AXES)
    return Point(x, y, z)


_SIDES: dict[Axis, tuple[Face, ...]] = {
    axis: tuple(face for face in FACES if AXIS_OF[face] != axis) for axis in AXES
}


def sides(axis: Axis) -> tuple[Face, ...]:
    """Return the four faces beside an axis."""
    return _SIDES[axis]
