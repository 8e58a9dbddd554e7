"""Where a stop goes, so that what opens meets it at a wanted angle."""

from math import radians

from plankit.build.build import Build
from plankit.build.moving import Moving, Pivot
from plankit.build.swing import angle_of, length_of, outlines, pivot_of, turning
from plankit.build.swing_geometry import HAIR, Outline, first_meeting, rectangle
from plankit.build.swing_outlines import ALONG, PLANE, moving_bodies
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, FACES, HIGH, Axis, Face
from plankit.units import Angle, Length

_AGREES = 1e-4
"""Angles that differ by less than this, in radians, are the same."""
_OUTSIDE = 1e4


def stop_place(  # noqa: PLR0917 - a block's face, and where it stands across
    build: Build,
    moving: Moving,
    angle: Angle,
    face: Face,
    low: Length,
    high: Length,
    along: tuple[Length, Length] | None = None,
) -> Length:
    """Return where the face of a stop block must lie, so that what opens meets it at just this angle.

    face       the face of the block that is met: "back" for a block in front of what comes towards the back
    low, high  the block's extent along the other axis of the plane of motion
    along      its extent along the pivot; as wide as all that moves where it is left out
    raises     PlanError where nothing would meet it, or where it would be met before that angle

    Places outside the piece are left out; of several, the one nearest to its middle is meant.
    """
    pivot = pivot_of(moving)
    if AXIS_OF[face] == pivot.axis:
        raise PlanError(
            "a stop is met by a face across the way it turns.",
            where=moving.name,
            given=face,
            remedy=f"Use one of: {', '.join(one for one in FACES if AXIS_OF[one] != pivot.axis)}",
        )
    turn, shut = radians(float(angle.degrees)), _beside(build, moving, along)
    firsts, whole = [], build.box
    for at in _leading(shut, pivot, turn, face, (float(low.mm), float(high.mm))):
        first = _first(shut, pivot, turn, _block(at, face, low, high, pivot.axis))
        if first is not None and whole.low(AXIS_OF[face]).mm <= at <= whole.high(AXIS_OF[face]).mm:
            firsts.append((round(first, 6), at))
    if not firsts:
        raise _no_meeting(moving)
    middle = float(whole.middle(AXIS_OF[face]).mm)
    there = [at for first, at in firsts if abs(first - turn) < _AGREES]
    if there:
        return length_of(min(there, key=lambda at: (round(abs(at - middle), 6), at)))
    first = max(first for first, _ in firsts)
    if first < turn:
        raise PlanError(
            f"a stop there would be met earlier: at {float(angle_of(first).degrees):.1f}°.",
            where=moving.name,
            given=f"{float(angle.degrees):.1f}°",
            remedy="Give the stop another face, or let it stand elsewhere.",
        )
    raise _no_meeting(moving)


def _no_meeting(moving: Moving) -> PlanError:
    return PlanError(
        "nothing of it comes to meet a stop there.",
        where=moving.name,
        remedy="Put the stop in another part of its way, or let another face of it be met.",
    )


def _leading(
    shut: list[Outline], pivot: Pivot, turn: float, face: Face, band: tuple[float, float]
) -> list[float]:
    """Where what has opened begins, square to a face, within the band that a stop stands in."""
    import shapely

    motion, square = turning(pivot), PLANE[pivot.axis].index(AXIS_OF[face])
    ends = [[-_OUTSIDE, _OUTSIDE], [-_OUTSIDE, _OUTSIDE]]
    ends[1 - square] = list(band)
    strip = rectangle((ends[0][0], ends[1][0]), (ends[0][1], ends[1][1])).area
    opened = [Outline([motion.placed(ring, turn) for ring in one.rings]).area for one in shut]
    pieces = shapely.get_parts([shapely.intersection(one, strip) for one in opened])
    edges = [shapely.bounds(piece) for piece in pieces if piece.area > HAIR**2]
    return [float(edge[square if face == HIGH[AXIS_OF[face]] else square + 2]) for edge in edges]


def _first(shut: list[Outline], pivot: Pivot, turn: float, block: Outline) -> float | None:
    """How far it turns until it meets a block; None where it does not by a degree past an angle."""
    met = [first_meeting(turning(pivot), one, block, turn + radians(1)) for one in shut]
    return min((one[0] for one in met if one is not None), default=None)


def _beside(build: Build, moving: Moving, along: tuple[Length, Length] | None) -> list[Outline]:
    if along is None:
        return list(outlines(build, moving))
    low, high = float(along[0].mm), float(along[1].mm)
    return [
        slab.outline
        for body in moving_bodies(build, moving, pivot_of(moving).axis)
        for slab in body.slabs
        if min(high, slab.high) - max(low, slab.low) > ALONG
    ]


def _block(at: float, face: Face, low: Length, high: Length, axis: Axis) -> Outline:
    """The outline of a block whose face lies at a place; it is 5 mm thick behind that."""
    behind = at - 5.0 if face == HIGH[AXIS_OF[face]] else at + 5.0
    ends = (min(at, behind), max(at, behind)), (float(low.mm), float(high.mm))
    one, two = ends if PLANE[axis][0] == AXIS_OF[face] else ends[::-1]
    return rectangle((one[0], two[0]), (one[1], two[1]))
