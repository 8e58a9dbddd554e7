"""The room about what moves: how wide it opens, what goes in and stays in, and the gaps."""

from dataclasses import dataclass
from fractions import Fraction
from math import isnan, radians

from plankit.build.build import Build, Thing
from plankit.build.moving import Moving
from plankit.build.near import near_to
from plankit.build.swing import (
    Meeting,
    length_of,
    outlines,
    pivot_of,
    turning,
)
from plankit.build.swing_geometry import Spot, swept
from plankit.build.swing_outlines import ALONG, PLANE, Body, standing_bodies
from plankit.parts import AXIS_OF, FACES, HIGH, LOW, OPPOSITE, Axis, Box, Face, Part, other_axes
from plankit.units import Angle, L, Length

NEAR = L("1 in")
"""Further apart than this, two faces are not taken for a gap that was meant."""
_AGREES = 1e-4
"""Angles that differ by less than this, in radians, are the same."""
_OUTSIDE = 1e4


@dataclass(frozen=True, slots=True)
class Clear:
    """How wide something stands open: from its free inner edge to the nearest thing that stays.

    past   what is nearest
    edge, other   the two places, in the plane of motion
    """

    width: Length
    past: str
    edge: Spot
    other: Spot


@dataclass(frozen=True, slots=True)
class Reveal:
    """The gap beside one edge of a front, shut: the edge's face, how wide, and what is beyond it."""

    face: Face
    gap: Length
    beside: str
    part: str


def outer_face(build: Build, moving: Moving) -> Face:
    """Return the face of the front that leads when it opens."""
    front, pivot = build.part(moving.parts[0]).box, pivot_of(moving)
    one, two = PLANE[pivot.axis]
    ways = {
        one: -(front.middle(two).mm - pivot.at.along(two).mm) * pivot.sense,
        two: (front.middle(one).mm - pivot.at.along(one).mm) * pivot.sense,
    }
    through = thin_axis(front, pivot.axis)
    return HIGH[through] if ways[through] > 0 else LOW[through]


def thin_axis(front: Box, axis: Axis) -> Axis:
    """Return the axis of the plane of motion along which a front is thinnest."""
    one, two = PLANE[axis]
    return one if front.extent(one).mm <= front.extent(two).mm else two


def free_face(build: Build, moving: Moving) -> Face:
    """Return the edge of the front that is furthest from what it turns about: a bin's top."""
    front, pivot = build.part(moving.parts[0]).box, pivot_of(moving)
    (along,) = (one for one in PLANE[pivot.axis] if one != thin_axis(front, pivot.axis))
    at = pivot.at.along(along).mm
    return HIGH[along] if front.high(along).mm - at > at - front.low(along).mm else LOW[along]


def edge_spot(build: Build, moving: Moving, *, inner: bool, angle: Angle | None = None) -> Spot:
    """Return the free edge of the front in the plane of motion, on its inner or outer face, turned by an angle."""
    import numpy as np

    front, pivot = build.part(moving.parts[0]).box, pivot_of(moving)
    outer, free = outer_face(build, moving), free_face(build, moving)
    places = {
        AXIS_OF[free]: front.face(free),
        AXIS_OF[outer]: front.face(OPPOSITE[outer] if inner else outer),
    }
    one, two = PLANE[pivot.axis]
    corner = np.array([[float(places[one].mm), float(places[two].mm)]])
    turn = radians(float(angle.degrees)) if angle else 0.0
    found = turning(pivot).placed(corner, turn)[0]
    return float(found[0]), float(found[1])


def clear_opening(build: Build, moving: Moving, angle: Angle) -> Clear | None:
    """Return how wide something that turns stands open at an angle; None where nothing stays beyond its free edge.

    That is the straight way from the inner edge of its front to the nearest part that stays where it is,
    among those beyond the middle of the front, on a section through the middle of it.
    """
    import shapely

    edge = edge_spot(build, moving, inner=True, angle=angle)
    best: tuple[float, str, Spot] | None = None
    for body in _beyond(build, moving):
        for slab in body.slabs:
            line = shapely.shortest_line(shapely.Point(edge), slab.outline.area)
            far, (x, y) = float(line.length), line.coords[-1]
            if best is None or round(far, 6) < round(best[0], 6):
                best = (far, body.name, (float(x), float(y)))
    return Clear(length_of(best[0]), best[1], edge, best[2]) if best else None


def _beyond(build: Build, moving: Moving) -> list[Body]:
    """What stays, beside the middle half of the front, and reaches past the middle of its height."""
    front, pivot = build.part(moving.parts[0]).box, pivot_of(moving)
    low, high = float(front.low(pivot.axis).mm), float(front.high(pivot.axis).mm)
    low, high = (3 * low + high) / 4, (low + 3 * high) / 4
    free = free_face(build, moving)
    index = PLANE[pivot.axis].index(AXIS_OF[free])
    sign = 1 if free == HIGH[AXIS_OF[free]] else -1
    middle = float(front.middle(AXIS_OF[free]).mm) * sign
    found = []
    for body in standing_bodies(build, moving, pivot.axis):
        slabs = tuple(
            slab
            for slab in body.slabs
            if min(high, slab.high) - max(low, slab.low) > ALONG
            and max(slab.outline.corners[:, index] * sign) > middle
        )
        if slabs and body.kind == "part":
            found.append(Body(body.key, body.name, body.kind, slabs))
    return found


def falls_out(build: Build, moving: Moving, thing: Thing, angle: Angle) -> bool:
    """Tell whether what a bin carries tips over the front's edge when it is open so far: an estimate.

    The thing is taken as one stiff block that has slid against the front. It tips where the middle of its
    weight lies further out than the inner edge of the front (statics of a block over an edge).
    """
    import numpy as np

    pivot, outer = pivot_of(moving), outer_face(build, moving)
    along = AXIS_OF[outer]
    inner = build.part(moving.parts[0]).box.face(OPPOSITE[outer])
    slid = thing.box.moved(along, inner - thing.box.face(outer))
    one, two = PLANE[pivot.axis]
    middle = np.array([[float(slid.middle(one).mm), float(slid.middle(two).mm)]])
    there = turning(pivot).placed(middle, radians(float(angle.degrees)))[0]
    edge = edge_spot(build, moving, inner=True, angle=angle)
    index, sign = (one, two).index(along), 1 if outer == HIGH[along] else -1
    return bool((there[index] - edge[index]) * sign > 0)


def missing_room(build: Build, moving: Moving, meeting: Meeting, angle: Angle) -> tuple[Axis, Length] | None:
    """Return along which axis, and by how much, what is met would have to give way for a turn of an angle.

    That is the shorter side of the rectangle about what the turn shares with it, arcs by chords of 2°.
    """
    import shapely

    pivot = pivot_of(moving)
    area = swept(turning(pivot), outlines(build, moving), radians(float(angle.degrees)))
    boxes = [
        shapely.bounds(shapely.intersection(area, slab.outline.area))
        for body in standing_bodies(build, moving, pivot.axis)
        if body.key == meeting.met
        for slab in body.slabs
    ]
    sides = [(x2 - x1, y2 - y1) for x1, y1, x2, y2 in boxes if not isnan(x1)]
    if not sides:
        return None
    wide, high = max(side[0] for side in sides), max(side[1] for side in sides)
    one, two = PLANE[pivot.axis]
    return (one, length_of(float(wide))) if wide <= high else (two, length_of(float(high)))


def reveals(build: Build, moving: Moving) -> tuple[Reveal, ...]:
    """Return the gaps round a front, shut: beside each edge, to the nearest part beyond it in its own thickness.

    Edges with nothing within an inch beyond them have none: the front overlays what it shuts.
    """
    front = build.part(moving.parts[0])
    near = _near(build, front)
    found = []
    for face in FACES:
        if AXIS_OF[face] == front.through or front.leans:
            continue
        gaps = [(apart, other) for other in near if (apart := _gap(front, face, other, moving)) is not None]
        if gaps:
            apart, other = min(gaps, key=lambda one: (one[0].mm, one[1].id))
            found.append(Reveal(face, apart, other.name, other.id))
    return tuple(found)


def _near(build: Build, part: Part) -> tuple[Part, ...]:
    """The parts that may lie within an inch of one."""
    places = near_to(part.box, [other.box for other in build.parts], float(NEAR.mm))
    return tuple(build.parts[place] for place in places)


def _gap(front: Part, face: Face, other: Part, moving: Moving) -> Length | None:
    axis = AXIS_OF[face]
    if other.id in moving.parts or other.leans:
        return None
    if any(_shared_mm(front.box, other.box, across) <= 0 for across in other_axes(axis)):
        return None
    if not 0 <= -_shared_mm(front.box, other.box, axis) < NEAR.mm:
        return None
    if face == HIGH[axis]:
        apart = other.box.low(axis) - front.box.high(axis)
    else:
        apart = front.box.low(axis) - other.box.high(axis)
    return apart if apart.mm >= 0 else None


def _shared_mm(one: Box, other: Box, axis: Axis) -> Fraction:
    """How much of an axis two boxes share; below nothing, how far apart they are."""
    return min(one.high(axis).mm, other.high(axis).mm) - max(one.low(axis).mm, other.low(axis).mm)


def side_gaps(build: Build, moving: Moving) -> tuple[tuple[Part, Reveal], ...]:
    """Return the gaps between what swings with a front and what it swings past, along the pivot, under an inch."""
    axis = pivot_of(moving).axis
    found = []
    for part in (build.part(one) for one in moving.parts[1:]):
        near = _near(build, part)
        for face in (LOW[axis], HIGH[axis]):
            gaps = [(apart, other) for other in near if (apart := _gap(part, face, other, moving)) is not None]
            if gaps:
                apart, other = min(gaps, key=lambda one: (one[0].mm, one[1].id))
                found.append((part, Reveal(face, apart, other.name, other.id)))
    return tuple(found)


def goes_in(thing: Thing, width: Length, axis: Axis) -> str:
    """Return how a thing goes through an opening across an axis: "upright", "lying", or "" where it does not.

    width  how wide the opening is; the thing's own extent along the axis is left to its place
    """
    one, two = other_axes(axis)
    level, other = (one, two) if two == "z" else (two, one)
    if thing.box.extent(level).mm <= width.mm:
        return "upright"
    return "lying" if thing.box.extent(other).mm <= width.mm else ""


__all__ = [
    "Clear", "Reveal", "clear_opening", "edge_spot", "falls_out", "free_face", "goes_in",
    "missing_room", "outer_face", "reveals", "side_gaps",
]  # fmt: skip
