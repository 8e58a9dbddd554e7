"""The exact solid of a part, on demand, in millimetres and in the axes of the build.

Solids are for drawing and for finding overlaps. Lengths become floats here and nowhere before.
"""

from fractions import Fraction
from functools import lru_cache
from math import cos, pi, radians, sin, tan
from typing import TYPE_CHECKING

from plankit.parts.features import (
    POCKET_ANGLE,
    POCKET_DIAMETER,
    Banding,
    Bore,
    Feature,
    Groove,
    Mitre,
    Notch,
    PocketHoles,
    Taper,
    pocket_shoulder,
)
from plankit.parts.part import Part
from plankit.parts.space import AXES, AXIS_OF, HIGH, Axis, Box, Face
from plankit.units import Length

if TYPE_CHECKING:
    from manifold3d import Manifold

ROUND, SMALL_ROUND = 32, 16
"""Sides of the polygon that stands for a circle, and for one too small to tell on a page."""
SMALL = 15.0
"""Circles up to this wide, in millimetres, are small."""
PAST = 1.0
"""How far a cut runs past the face it opens, in millimetres, so that no film is left."""

type Vector = list[float]


def solid(part: Part) -> "Manifold":
    """Return the part as finished, in build millimetres; banding too thin to matter is left out."""
    return _solid(part)


@lru_cache(maxsize=512)
def _solid(part: Part) -> "Manifold":
    from manifold3d import Manifold

    body = block(part.box)
    cuts = [cut.translate(_low(part)) for feature in part.features for cut in _cuts(part, feature)]
    return body - Manifold.batch_boolean(cuts, _add()) if cuts else body


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
        case Taper(face=face, narrow=narrow, amount=amount, run=run):
            return [_wedge(_size(part), face, narrow, float(amount.mm), float(run.mm))]
        case Mitre(end=end, short=short, setback=setback):
            across = float(part.box.extent(AXIS_OF[short]).mm)
            return [_wedge(_size(part), end, short, float(setback.mm), across)]
        case Bore():
            return _holes(part, feature)
        case PocketHoles():
            return [_pocket(part, feature, float(place.mm)) for place in feature.places]
        case Banding():
            return []


def _block_past(cut: Box, size: Vector) -> "Manifold":
    """A block, run past every face of the part that it reaches."""
    from manifold3d import Manifold

    low, high = cut.mm()
    start = [value - PAST if value <= 0 else value for value in low]
    end = [value + PAST if value >= whole else value for value, whole in zip(high, size, strict=True)]
    return Manifold.cube([e - s for s, e in zip(start, end, strict=True)]).translate(start)


def _wedge(size: Vector, face: Face, towards: Face, amount: float, run: float) -> "Manifold":
    """What a saw takes off `face`: nothing at `run` from the end `towards`, `amount` at that end."""
    from manifold3d import Manifold

    depth_axis, run_axis = AXES.index(AXIS_OF[face]), AXES.index(AXIS_OF[towards])
    wide_axis = 3 - depth_axis - run_axis
    slope = amount / run
    profile = [(run, 0.0), (-PAST, 0.0), (run, -PAST), (-PAST, -PAST), (-PAST, amount + slope * PAST)]
    points = []
    for along, deep in profile:
        for wide in (-PAST, size[wide_axis] + PAST):
            point = [0.0, 0.0, 0.0]
            point[run_axis] = along if towards != HIGH[AXIS_OF[towards]] else size[run_axis] - along
            point[depth_axis] = deep if face != HIGH[AXIS_OF[face]] else size[depth_axis] - deep
            point[wide_axis] = wide
            points.append(point)
    return Manifold.hull_points(points)


def _holes(part: Part, bore: Bore) -> "list[Manifold]":
    size, axis = _size(part), AXIS_OF[bore.face]
    at = [float(length.mm) for length in bore.at]
    depth = float(bore.reach(part.box.size).mm) + (PAST if bore.depth is None else 0.0)
    made = [_slot(_rod(size, at, bore.face, depth, float(bore.diameter.mm) / 2, axis), bore)]
    if bore.countersink is not None:
        wide, narrow = float(bore.countersink.mm) / 2, float(bore.diameter.mm) / 2
        made.append(_slot(_rod(size, at, bore.face, wide - narrow, wide, axis, narrow), bore))
    return made


def sides(diameter: float) -> int:
    """Return how many sides stand for a circle of this diameter in millimetres."""
    return SMALL_ROUND if diameter <= SMALL else ROUND


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


def _pocket(part: Part, holes: PocketHoles, place: float) -> "Manifold":
    """A flat-bottomed hole that leaves the face at a shallow angle towards the end."""
    from manifold3d import Manifold

    size = _size(part)
    axes = (AXIS_OF[holes.face], AXIS_OF[holes.end], holes.along)
    face_axis, end_axis, row = (AXES.index(axis) for axis in axes)
    thickness, lean = size[face_axis], radians(float(POCKET_ANGLE.degrees))
    inward = [0.0, 0.0, 0.0]
    inward[face_axis] = sin(lean) * (1 if holes.face != HIGH[AXIS_OF[holes.face]] else -1)
    inward[end_axis] = cos(lean) * (-1 if holes.end != HIGH[AXIS_OF[holes.end]] else 1)
    start = [0.0, 0.0, 0.0]
    start[face_axis] = 0.0 if holes.face != HIGH[AXIS_OF[holes.face]] else thickness
    entry = pocket_entry(thickness)
    start[end_axis] = entry if holes.end != HIGH[AXIS_OF[holes.end]] else size[end_axis] - entry
    start[row] = place
    radius, outside = float(POCKET_DIAMETER.mm) / 2, float(POCKET_DIAMETER.mm) * 2.5
    ring = _circle_across(inward, row, radius)
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
    count = sides(2 * radius)
    turns = [2 * pi * step / count for step in range(count)]
    return [[radius * (cos(t) * p + sin(t) * q) for p, q in zip(one, two, strict=True)] for t in turns]
