"""The exact solid of a part, on demand, in millimetres and in the axes of the build.

Solids are for drawing and for finding overlaps. Lengths become floats here and nowhere before.
"""

import atexit
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from math import cos, pi, radians, sin, tan
from typing import TYPE_CHECKING

from plankit.parts.edge_features import Chamfer, Cove, Roundover
from plankit.parts.features import (
    POCKET_ANGLE,
    POCKET_DIAMETER,
    Banding,
    Bevel,
    Bore,
    CompoundMitre,
    Feature,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    PocketHoles,
    Taper,
    pocket_shoulder,
)
from plankit.parts.lean import Spot, turning
from plankit.parts.part import Part
from plankit.parts.sawn_solid import PAST, Vector, eased, sawn, sides
from plankit.parts.slants import Slant, slant_of, slants_of
from plankit.parts.space import AXES, AXIS_OF, HIGH, Axis, Box, Face, Point
from plankit.units import Length

if TYPE_CHECKING:
    from manifold3d import Manifold

_FINE = 10**6


def solid(part: Part) -> "Manifold":
    """Return the part as finished, where it stands in the build, in millimetres; banding is left out.

    A part that leans with its group is turned; see `lean`.
    """
    return _turned(part) if part.leans else _solid(part)


@lru_cache(maxsize=512)
def _turned(part: Part) -> "Manifold":
    import numpy as np

    return _solid(replace(part, leans=())).transform(np.array(turning(part.leans)))


def box_of(part: Part) -> Box:
    """Return the smallest box around a part where it stands; of one that leans, to a millionth of a millimetre."""
    if not part.leans:
        return part.box
    ends = solid(part).bounding_box()
    x, y, z, right, back, top = (Length.of_mm(Fraction(round(end * _FINE), _FINE)) for end in ends)
    return Box(x, right, y, back, z, top)


@lru_cache(maxsize=512)
def _solid(part: Part) -> "Manifold":
    from manifold3d import Manifold

    body = block(part.box)
    cuts = [cut.translate(_low(part)) for feature in part.features for cut in _cuts(part, feature)]
    return body - Manifold.batch_boolean(cuts, _add()) if cuts else body


for _kept in (_turned, _solid):
    atexit.register(_kept.cache_clear)  # manifold3d complains of solids that outlive it when Python ends


def block(box: Box) -> "Manifold":
    """Return the solid of a plain box."""
    from manifold3d import Manifold

    low, high = box.mm()
    return Manifold.cube([far - near for near, far in zip(low, high, strict=True)]).translate(low)


def _add() -> object:
    from manifold3d import OpType

    return OpType.Add


def _low(part: Part) -> Vector:
    return list(part.box.mm()[0])


def _size(part: Part) -> Vector:
    return [float(length.mm) for length in part.box.size]


def _cuts(part: Part, feature: Feature) -> "list[Manifold]":
    match feature:
        case Notch(cut=cut) | Groove(cut=cut):
            return [_block_past(cut, _size(part))]
        case Taper() | Mitre() | CompoundMitre() | Bevel():
            slant = slant_of(part.box.size, feature)
            assert slant is not None
            return [sawn(_size(part), slant)]
        case Chamfer() | Roundover() | Cove():
            return [eased(_size(part), feature)]
        case Bore():
            return _holes(part, feature)
        case PocketHoles():
            return [_pocket(part, feature, float(place.mm)) for place in feature.places]
        case Banding() | LeftOn():
            return []


def hollow(part: Part, hole: Bore | PocketHoles) -> "tuple[Manifold, ...]":
    """Return what a hole, or each of a row of pocket holes, takes out of a part, before the part leans with its group.

    It runs a little past the faces that it opens in.
    """
    from manifold3d import Manifold

    cuts = [cut.translate(_low(part)) for cut in _cuts(part, hole)]
    return tuple(cuts) if isinstance(hole, PocketHoles) else (Manifold.batch_boolean(cuts, _add()),)


def pocket_line(part: Part, holes: PocketHoles, place: Length) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the middle line of a pocket hole from its face to its bottom in millimetres, before its part leans."""
    start, inward = _pocket_way(part, holes, float(place.mm))
    deep = pocket_length(_size(part)[AXES.index(AXIS_OF[holes.face])])
    low = _low(part)
    mouth = tuple(corner + s for corner, s in zip(low, start, strict=True))
    return mouth, tuple(m + deep * i for m, i in zip(mouth, inward, strict=True))


def rod(line: tuple[tuple[float, ...], tuple[float, ...]], radius: float) -> "Manifold":
    """Return a round rod about a straight line, in the line's unit."""
    from manifold3d import Manifold

    way = _unit([end - start for start, end in zip(*line, strict=True)])
    least = min(range(3), key=lambda index: abs(way[index]))
    one = _unit(_square_to(way, [float(index == least) for index in range(3)]))
    ring = _circle(one, _square_to(way, one), radius)
    return Manifold.hull_points([[m + r for m, r in zip(end, rim, strict=True)] for end in line for rim in ring])


def _square_to(one: Vector, other: Vector) -> Vector:
    x, y, z = one
    a, b, c = other
    return [y * c - z * b, z * a - x * c, x * b - y * a]


def _unit(way: Vector) -> Vector:
    length = sum(one * one for one in way) ** 0.5
    return [one / length for one in way]


def _block_past(cut: Box, size: Vector) -> "Manifold":
    """A block, run past every face of the part that it reaches."""
    from manifold3d import Manifold

    low, high = cut.mm()
    start = [value - PAST if value <= 0 else value for value in low]
    end = [value + PAST if value >= whole else value for value, whole in zip(high, size, strict=True)]
    return Manifold.cube([e - s for s, e in zip(start, end, strict=True)]).translate(start)


def bore_line(part: Part, bore: Bore) -> tuple[Spot, Spot]:
    """Return the middle line of a bore from its mouth to its bottom in millimetres, before its part leans.

    One that is bored square to a slanting cut starts in that; any other at its face as it was before sawing.
    """
    axis = AXIS_OF[bore.face]
    index, outward = AXES.index(axis), 1.0 if bore.face == HIGH[axis] else -1.0
    mouth = [low + float(at.mm) for low, at in zip(_low(part), bore.at, strict=True)]
    mouth[index] = float(part.box.face(bore.face).mm)
    way = [0.0, 0.0, 0.0]
    way[index] = outward
    cut = _cut_at(part, bore) if bore.sawn else None
    if cut is not None:
        mouth[index] -= outward * float(cut.depth(part, _point(mouth)))
        for slope in cut.slopes:
            towards = AXIS_OF[slope.towards]
            way[AXES.index(towards)] += slope.tangent * (1.0 if slope.towards == HIGH[towards] else -1.0)
    deep = float(bore.reach(part.box.size).mm)
    x, y, z = mouth
    a, b, c = (start - deep * along for start, along in zip(mouth, _unit(way), strict=True))
    return (x, y, z), (a, b, c)


def _cut_at(part: Part, bore: Bore) -> Slant | None:
    """The slanting cut that a bore is square to: the one that takes off its face."""
    return next((slant for _, slant in slants_of(part) if slant.face == bore.face), None)


def _point(spot: Vector) -> Point:
    x, y, z = (Length.of_mm(Fraction(round(one * _FINE), _FINE)) for one in spot)
    return Point(x, y, z)


def _square_to_a_cut(part: Part, bore: Bore) -> "Manifold":
    """A round hole square to a slanting cut, from a little outside of it; measured from the part's corner."""
    mouth, bottom = bore_line(part, bore)
    past = [m + (m - b) * PAST / float(bore.reach(part.box.size).mm) for m, b in zip(mouth, bottom, strict=True)]
    low = [-one for one in _low(part)]
    return rod((tuple(past), bottom), float(bore.diameter.mm) / 2).translate(low)


def _holes(part: Part, bore: Bore) -> "list[Manifold]":
    if bore.sawn:
        return [_square_to_a_cut(part, bore)]
    size, axis = _size(part), AXIS_OF[bore.face]
    at = [float(length.mm) for length in bore.at]
    depth = float(bore.reach(part.box.size).mm) + (PAST if bore.depth is None else 0.0)
    made = [_slot(_rod(size, at, bore.face, depth, float(bore.diameter.mm) / 2, axis), bore)]
    if bore.countersink is not None:
        wide, narrow = float(bore.countersink.mm) / 2, float(bore.diameter.mm) / 2
        made.append(_slot(_rod(size, at, bore.face, wide - narrow, wide, axis, narrow), bore))
    return made


def _rod(  # noqa: PLR0917 - a place, a direction and three sizes
    size: Vector, at: Vector, face: Face, depth: float, radius: float, axis: Axis, end_radius: float = -1.0
) -> "Manifold":
    """A round cut from a face inwards; it starts a little outside where its sides are straight."""
    from manifold3d import Manifold

    past = PAST if end_radius < 0 else 0.0
    rod = Manifold.cylinder(depth + past, radius, end_radius, sides(2 * radius))
    inwards = rod.translate([0.0, 0.0, -past])
    turned = {"x": [0.0, 90.0, 0.0], "y": [-90.0, 0.0, 0.0], "z": [0.0, 0.0, 0.0]}[axis]
    standing = inwards.rotate(turned)
    place = list(at)
    index = AXES.index(axis)
    if face == HIGH[axis]:
        normal = [0.0, 0.0, 0.0]
        normal[index] = 1.0
        standing = standing.mirror(normal)
        place[index] = size[index]
    else:
        place[index] = 0.0
    return standing.translate(place)


def _slot(hole: "Manifold", bore: Bore) -> "Manifold":
    if bore.travel is None:
        return hole
    from manifold3d import Manifold

    half = [0.0, 0.0, 0.0]
    half[AXES.index(bore.along)] = float(bore.travel.mm) / 2
    return Manifold.batch_hull([hole.translate(half), hole.translate([-value for value in half])])


def pocket_entry(thickness: float) -> float:
    """Return how far from the end a pocket hole's middle meets the face, in millimetres."""
    return thickness / 2 / tan(radians(float(POCKET_ANGLE.degrees)))


def pocket_length(thickness: float) -> float:
    """Return how long the pocket is along its middle, from the face to the shoulder, in millimetres."""
    shoulder = pocket_shoulder(Length.of_mm(Fraction(thickness)))
    return thickness / 2 / sin(radians(float(POCKET_ANGLE.degrees))) - float(shoulder.mm)


def _pocket_way(part: Part, holes: PocketHoles, place: float) -> tuple[Vector, Vector]:
    """Where a pocket hole's middle meets its face, from the part's corner, and which way it runs into the part."""
    size = _size(part)
    axes = (AXIS_OF[holes.face], AXIS_OF[holes.end], holes.along)
    face_axis, end_axis, row = (AXES.index(axis) for axis in axes)
    thickness, lean = size[face_axis], radians(float(POCKET_ANGLE.degrees))
    inward = [0.0, 0.0, 0.0]
    inward[face_axis] = sin(lean) * (1 if holes.face != HIGH[AXIS_OF[holes.face]] else -1)
    inward[end_axis] = cos(lean) * (-1 if holes.end != HIGH[AXIS_OF[holes.end]] else 1)
    start = [0.0, 0.0, 0.0]
    start[face_axis] = 0.0 if holes.face != HIGH[AXIS_OF[holes.face]] else thickness
    entry = pocket_entry(thickness) + (float(holes.setback.mm) if holes.setback is not None else 0.0)
    start[end_axis] = entry if holes.end != HIGH[AXIS_OF[holes.end]] else size[end_axis] - entry
    start[row] = place
    return start, inward


def _pocket(part: Part, holes: PocketHoles, place: float) -> "Manifold":
    """A flat-bottomed hole that leaves the face at a shallow angle towards the end."""
    from manifold3d import Manifold

    start, inward = _pocket_way(part, holes, place)
    thickness = _size(part)[AXES.index(AXIS_OF[holes.face])]
    radius, outside = float(POCKET_DIAMETER.mm) / 2, float(POCKET_DIAMETER.mm) * 2.5
    ring = _circle_across(inward, AXES.index(holes.along), radius)
    ends = (-outside, pocket_length(thickness))
    middles = [[s + i * far for s, i in zip(start, inward, strict=True)] for far in ends]
    points = [[m + r for m, r in zip(middle, rim, strict=True)] for middle in middles for rim in ring]
    return Manifold.hull_points(points)


def _circle_across(direction: Vector, row: int, radius: float) -> list[Vector]:
    """Points of a circle square to a direction that lies across the axis `row`."""
    one = [0.0, 0.0, 0.0]
    one[row] = 1.0
    a, b = (index for index in range(3) if index != row)
    two = [0.0, 0.0, 0.0]
    two[a], two[b] = -direction[b], direction[a]
    return _circle(one, two, radius)


def _circle(one: Vector, two: Vector, radius: float) -> list[Vector]:
    """Points of a circle in the plane of two directions that are square to each other."""
    count = sides(2 * radius)
    turns = [2 * pi * step / count for step in range(count)]
    return [[radius * (cos(t) * p + sin(t) * q) for p, q in zip(one, two, strict=True)] for t in turns]
