"""Solids of what a saw or a router takes off a face or an edge, in millimetres from the part's corner."""

from math import cos, pi, sin
from typing import TYPE_CHECKING

from plankit.parts.edge_features import Chamfer, Cove, Eased, runs_along
from plankit.parts.slants import Slant
from plankit.parts.space import AXES, AXIS_OF, HIGH, Face

if TYPE_CHECKING:
    from manifold3d import Manifold

ROUND, SMALL_ROUND = 32, 16
"""Sides of the polygon that stands for a circle, and for one too small to tell on a page."""
SMALL = 15.0
"""Circles up to this wide, in millimetres, are small."""
PAST = 1.0
"""How far a cut runs past the face it opens, in millimetres, so that no film is left."""

type Vector = list[float]


def sides(diameter: float) -> int:
    """Return how many sides stand for a circle of this diameter in millimetres."""
    return SMALL_ROUND if diameter <= SMALL else ROUND


def sawn(size: Vector, slant: Slant) -> "Manifold":
    """Return what a slanting cut takes off a part of this size."""
    if len(slant.slopes) > 1:
        return _slanted(size, slant)
    (slope,) = slant.slopes
    return _wedge(size, slant.face, slope.towards, float(slope.amount.mm), float(slope.run.mm))


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
            point[run_axis] = _from(towards, along, size)
            point[depth_axis] = _from(face, deep, size)
            point[wide_axis] = wide
            points.append(point)
    return Manifold.hull_points(points)


def _slanted(size: Vector, slant: Slant) -> "Manifold":
    """What a cut that falls along two slopes takes off: everything between its plane and beyond its face."""
    from manifold3d import Manifold

    one, two = ((AXES.index(AXIS_OF[slope.towards]), slope) for slope in slant.slopes)
    depth_axis = AXES.index(AXIS_OF[slant.face])
    steep = max(one[1].tangent, two[1].tangent)
    points = []
    for first in (-PAST, size[one[0]] + PAST):
        for second in (-PAST, size[two[0]] + PAST):
            deep = one[1].tangent * (size[one[0]] - first) + two[1].tangent * (size[two[0]] - second)
            for depth in (deep, -PAST * (1 + 2 * steep)):
                point = [0.0, 0.0, 0.0]
                point[one[0]] = _from(one[1].towards, first, size)
                point[two[0]] = _from(two[1].towards, second, size)
                point[depth_axis] = _from(slant.face, depth, size)
                points.append(point)
    return Manifold.hull_points(points)


def _from(face: Face, far: float, size: Vector) -> float:
    """Where something lies that is so far inwards from a face."""
    axis = AXIS_OF[face]
    return size[AXES.index(axis)] - far if face == HIGH[axis] else far


def eased(size: Vector, feature: Eased) -> "Manifold":
    """Return what is taken off along an edge: a prism, a quarter of a rod, or what a rounding bit leaves no wood of."""
    from manifold3d import Manifold

    off = float(feature.size.mm)
    if isinstance(feature, Chamfer):
        corner = [(-PAST, -PAST), (-PAST, off + PAST), (off + PAST, -PAST)]
        return Manifold.hull_points(_along(size, feature, corner))
    square = [(-PAST, -PAST), (-PAST, off), (off, -PAST), (off, off)]
    quarter = sides(2 * off) // 4
    if isinstance(feature, Cove):
        return _hollow(size, feature, off, quarter)
    arc = [
        (off - off * sin(pi / 2 * step / quarter), off - off * cos(pi / 2 * step / quarter))
        for step in range(1, quarter)
    ]
    kept = [(0.0, off), *arc, (off, 0.0), (off + PAST, 0.0), (0.0, off + PAST), (off + PAST, off + PAST)]
    taken = Manifold.hull_points(_along(size, feature, square))
    return taken - Manifold.hull_points(_along(size, feature, kept, past=2 * PAST))


def _hollow(size: Vector, feature: Cove, off: float, quarter: int) -> "Manifold":
    """What a cove takes: a quarter of a rod about the corner, and what runs past the two faces."""
    from manifold3d import Manifold

    turns = [pi / 2 * step / quarter for step in range(quarter + 1)]
    arc = [(off * cos(turn), off * sin(turn)) for turn in turns]
    square = [(-PAST, -PAST), (off, -PAST), (-PAST, off)]
    return Manifold.hull_points(_along(size, feature, [*arc, *square]))


def _along(
    size: Vector, feature: Eased, outline: list[tuple[float, float]], past: float = PAST
) -> list[Vector]:
    """The corners of a prism the whole way along an edge; its outline is given inwards from both faces."""
    one, two = feature.edge
    run = AXES.index(runs_along(feature.edge))
    points = []
    for first, second in outline:
        for end in (-past, size[run] + past):
            point = [0.0, 0.0, 0.0]
            point[AXES.index(AXIS_OF[one])] = _from(one, first, size)
            point[AXES.index(AXIS_OF[two])] = _from(two, second, size)
            point[run] = end
            points.append(point)
    return points
