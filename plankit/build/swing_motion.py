"""How each thing moves in a plane, how far, and whether it runs into another that stands open."""

from math import degrees
from typing import TYPE_CHECKING

from plankit.build.build import Build
from plankit.build.moving import Moving, Pivot
from plankit.build.swing_geometry import Motion, Outline, Sliding, Turning, first_meeting
from plankit.build.swing_outlines import PLANE, Slab, moving_bodies, spot_of
from plankit.parts import AXES, AXIS_OF, HIGH, Axis, block, box_of, solid

if TYPE_CHECKING:
    from manifold3d import Manifold

type Ends = tuple[float, float, float, float, float, float]
"""Lower and higher end along x, y and z, in that order, in millimetres."""

LEAST_SHARED = 20.0
"""Solids that share less than so many cubic millimetres are taken to touch."""
_STEPS = (0.25, 0.5, 0.75, 1.0)
"""Where no plane holds both motions, solids are looked at so far open, as shares of the whole way."""


def pivot_of(moving: Moving) -> Pivot:
    """Return what a moving part turns about; raises ValueError for a drawer, which does not turn."""
    if moving.pivot is None:
        raise ValueError(f"{moving.name} turns about nothing")
    return moving.pivot


def turning(pivot: Pivot, *, inwards: bool = False) -> Turning:
    """Return the motion of opening about a pivot in its plane; or of closing further than shut."""
    return Turning(spot_of(pivot.at.mm(), pivot.axis), -pivot.sense if inwards else pivot.sense)


def motion_in(moving: Moving, axis: Axis) -> Motion:
    """Return how something opens, seen along an axis: one that it turns about, or one across the way it slides."""
    if moving.slides is None:
        return turning(pivot_of(moving))
    along, ahead = _slides(moving)
    return Sliding((ahead, 0.0) if PLANE[axis][0] == along else (0.0, ahead))


def _slides(moving: Moving) -> tuple[Axis, float]:
    """The axis that a drawer slides along, and which way."""
    assert moving.slides is not None
    along = AXIS_OF[moving.slides[0]]
    return along, 1.0 if moving.slides[0] == HIGH[along] else -1.0


def common_axis(one: Moving, other: Moving) -> Axis | None:
    """Return the axis across the plane in which both move; None where there is no such plane."""
    both = _across(one) & _across(other)
    return next((axis for axis in ("z", "x", "y") if axis in both), None)


def _across(moving: Moving) -> set[Axis]:
    if moving.slides is None:
        return {pivot_of(moving).axis}
    return set(AXES) - {AXIS_OF[moving.slides[0]]}


def reach_of(build: Build, moving: Moving) -> Ends:
    """Return a block that something keeps to while it opens: all of its circle for what turns."""
    boxes = [box_of(build.part(one)).mm() for one in moving.parts]
    boxes += [item.box.mm() for item in build.items if item.on and set(item.on) <= set(moving.parts)]
    low = [min(box[0][index] for box in boxes) for index in range(3)]
    high = [max(box[1][index] for box in boxes) for index in range(3)]
    if moving.slides is not None:
        along, ahead = _slides(moving)
        ends = low if ahead < 0 else high
        ends[AXES.index(along)] += ahead * float(moving.slides[1].mm)
        return low[0], high[0], low[1], high[1], low[2], high[2]
    pivot = pivot_of(moving)
    at, plane = pivot.at.mm(), [AXES.index(one) for one in PLANE[pivot.axis]]
    away = sum(max(at[index] - low[index], high[index] - at[index]) ** 2 for index in plane) ** 0.5
    for index in plane:
        low[index], high[index] = at[index] - away, at[index] + away
    return low[0], high[0], low[1], high[1], low[2], high[2]


def may_meet(one: Ends, other: Ends) -> bool:
    """Tell whether two blocks share anything."""
    return all(one[i] < other[i + 1] and other[i] < one[i + 1] for i in (0, 2, 4))


def met_open(build: Build, own: tuple[Moving, float], other: tuple[Moving, float]) -> float | None:
    """Return how far something opens until it meets another that stands open; None where it does not.

    own, other  each with how far it opens: radians, or millimetres for a drawer
    source      solved for in the plane of both motions; where there is none, solids at four positions share space
    """
    axis = common_axis(own[0], other[0])
    if axis is None:
        steps = [own[1] * share for share in _STEPS]
        there = _solid_at(build, *other)
        return next((far for far in steps if _share(_solid_at(build, own[0], far), there)), None)
    motion = motion_in(own[0], axis)
    moved = [slab for body in moving_bodies(build, own[0], axis) for slab in body.slabs]
    found = [
        first[0]
        for there in _placed(build, *other, axis)
        for slab in moved
        if not slab.passes(there) and _nears(motion, slab, there)
        if (first := first_meeting(motion, slab.outline, there.outline, own[1])) is not None
    ]
    return min(found, default=None)


def _nears(motion: Motion, slab: Slab, other: Slab) -> bool:
    (near, far), (low, high) = motion.band(slab.outline), motion.band(other.outline)
    return high >= near and low <= far


def _placed(build: Build, moving: Moving, far: float, axis: Axis) -> list[Slab]:
    """The slabs of something where it stands so far open."""
    motion = motion_in(moving, axis)
    return [
        Slab(slab.low, slab.high, Outline([motion.placed(ring, far) for ring in slab.outline.rings]))
        for body in moving_bodies(build, moving, axis)
        for slab in body.slabs
    ]


def _solid_at(build: Build, moving: Moving, far: float) -> "Manifold":
    from manifold3d import Manifold, OpType

    pieces = [solid(build.part(one)) for one in moving.parts]
    pieces += [block(item.box) for item in build.items if item.on and set(item.on) <= set(moving.parts)]
    whole = Manifold.batch_boolean(pieces, OpType.Add)
    turn = [0.0, 0.0, 0.0]
    if moving.slides is not None:
        along, ahead = _slides(moving)
        turn[AXES.index(along)] = ahead * far
        return whole.translate(turn)
    pivot = pivot_of(moving)
    at = list(pivot.at.mm())
    turn[AXES.index(pivot.axis)] = degrees(far) * pivot.sense
    return whole.translate([-value for value in at]).rotate(turn).translate(at)


def _share(one: "Manifold", other: "Manifold") -> bool:
    return bool((one ^ other).volume() > LEAST_SHARED)

