"""What a door, a flap, a bin or a drawer meets when it is opened, and how far it then is: exact.

Everything that moves and everything in its way is looked at as outlines in the plane of motion (see
`swing_outlines`); the moments of contact are solved for (see `swing_geometry`).
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import degrees, radians

from plankit.build.build import Build, Thing
from plankit.build.items import Item
from plankit.build.moving import NO_ANGLE, Moving, Pivot
from plankit.build.swing_geometry import (
    Motion,
    Outline,
    Sliding,
    Spot,
    Turning,
    crossings,
    first_meeting,
    reach,
    swept,
)
from plankit.build.swing_outlines import (
    FLOOR,
    PLANE,
    Body,
    Kind,
    Slab,
    contents_of,
    moving_bodies,
    slabs_of,
    spot_of,
    standing_bodies,
)
from plankit.parts import AXIS_OF, HIGH, Axis, Part
from plankit.units import Angle, Length

FULL_TURN = 270.0
"""How far a sweep looks, in degrees: no door opens further."""
_STEP = 10**9
_FINE = 10**6
_A_TIE = 1e-9
"""Meetings that begin no further apart than this are told apart by what meets, not by when."""

type _First = tuple[float, str, Spot, float]
"""How far it is moved by then, what meets, and the place in the plane and along the axis."""


@dataclass(frozen=True, slots=True)
class Meeting:
    """Something that a moving part runs into.

    moved  id of the part that meets it (the name of hardware, or of what is carried)
    met    id of the part that is met (the name of a thing or of hardware; "the floor")
    name   what the reader calls what is met
    kind   what it is: "part", "thing", "item" or "floor"
    angle  how far the moving part has turned by then; nothing for a drawer
    travel how far a drawer is out by then; nothing for what turns
    at     the place, in millimetres of the build
    """

    moved: str
    met: str
    name: str
    kind: Kind
    angle: Angle
    travel: Length
    at: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Sweep:
    """All that a moving part meets, the first first.

    opening   on the way out
    inwards   on the way in, past shut
    carried   what its contents meet on the way out; empty where it carries nothing
    """

    moving: Moving
    opening: tuple[Meeting, ...]
    inwards: tuple[Meeting, ...] = ()
    carried: tuple[Meeting, ...] = ()

    def stop(self, *, inwards: bool = False) -> Meeting | None:
        """Return the first stop that is met; None where none is."""
        met = self.inwards if inwards else self.opening
        return next((one for one in met if self.is_stop(one)), None)

    def is_stop(self, meeting: Meeting) -> bool:
        """Tell whether a meeting is one that is meant: with a stop, or of a stop that moves."""
        return bool({meeting.moved, meeting.met} & set(self.moving.stops))

    def in_the_way(self) -> Meeting | None:
        """Return the first thing met on the way out that is no stop; None where there is none."""
        return next((one for one in self.opening if not self.is_stop(one)), None)

    @property
    def angle(self) -> Angle | None:
        """How far it opens: to the first thing met, or as far as it is meant to; None where nothing says."""
        ends = [one.angle for one in self.opening[:1]]
        ends += [self.moving.opens] if self.moving.opens is not None else []
        return min(ends, default=None)


def sweep(build: Build, moving: Moving) -> Sweep:
    """Return all that a moving part meets, out and in: a drawer slides, anything else turns about its pivot.

    Contact is told where two things share more than a hair (1/20 mm) in the plane of motion and along its axis;
    what touches when shut and then moves away is not met.
    raises  KeyError where a part is not in the build
    """
    return _swept(build.parts, build.things, build.items, moving)


@lru_cache(maxsize=128)
def _swept(
    parts: tuple[Part, ...], things: tuple[Thing, ...], items: tuple[Item, ...], moving: Moving
) -> Sweep:
    build = Build("", parts, things=things, items=items)
    if moving.slides is not None:
        return Sweep(moving, _pulled(build, moving))
    pivot = pivot_of(moving)
    own, carried = moving_bodies(build, moving, pivot.axis), contents_of(build, moving, pivot.axis)
    others = standing_bodies(build, moving, pivot.axis, _reach_along((*own, carried) if carried else own))
    full = radians(FULL_TURN)
    return Sweep(
        moving,
        _met(own, others, turning(pivot), pivot.axis, full),
        _met(own, others, turning(pivot, inwards=True), pivot.axis, full),
        _met((carried,), others, turning(pivot), pivot.axis, full) if carried else (),
    )


def pivot_of(moving: Moving) -> Pivot:
    """Return what a moving part turns about; raises ValueError for a drawer, which does not turn."""
    if moving.pivot is None:
        raise ValueError(f"{moving.name} turns about nothing")
    return moving.pivot


def turning(pivot: Pivot, *, inwards: bool = False) -> Turning:
    """Return the motion of opening about a pivot in its plane; or of closing further than shut."""
    return Turning(spot_of(pivot.at.mm(), pivot.axis), -pivot.sense if inwards else pivot.sense)


def _pulled(build: Build, moving: Moving) -> tuple[Meeting, ...]:
    """What a drawer meets on its way out, the floor left out: it slides past that."""
    assert moving.slides is not None
    face, far = moving.slides
    along = AXIS_OF[face]
    axis = next(one for one in PLANE if one != along)
    ahead = 1.0 if face == HIGH[along] else -1.0
    way = (ahead, 0.0) if PLANE[axis][0] == along else (0.0, ahead)
    own = moving_bodies(build, moving, axis)
    standing = standing_bodies(build, moving, axis, _reach_along(own))
    others = tuple(body for body in standing if body.kind != "floor")
    return _met(own, others, Sliding(way), axis, float(far.mm))


def _reach_along(bodies: tuple[Body, ...]) -> tuple[float, float]:
    """Where along the axis of motion the first of some bodies begins, and where the last ends."""
    slabs = [slab for body in bodies for slab in body.slabs]
    return min(slab.low for slab in slabs), max(slab.high for slab in slabs)


def _met(
    own: tuple[Body, ...], others: tuple[Body, ...], motion: Motion, axis: Axis, limit: float
) -> tuple[Meeting, ...]:
    """The first meeting with each thing that stands still, by amount."""
    firsts: dict[int, _First] = {}
    for body in own:
        for slab in body.slabs:
            pairs = _within_reach(slab, others, motion)
            crossing = crossings(motion, slab.outline, [against.outline for _, against in pairs])
            for (place, against), each in zip(pairs, crossing, strict=True):
                known = firsts.get(place)
                until = known[0] + _A_TIE if known else limit
                met = first_meeting(motion, slab.outline, against.outline, limit, each, until)
                if met is not None:
                    middle = (max(slab.low, against.low) + min(slab.high, against.high)) / 2
                    first = (round(met[0], 12), body.key, met[1], middle)
                    firsts[place] = min(first, known) if known else first
    found = [(firsts[place], other) for place, other in enumerate(others) if place in firsts]
    found.sort(key=lambda one: (round(one[0][0], 9), one[1].key))
    return tuple(_meeting(first, other, motion, axis) for first, other in found)


def _within_reach(slab: Slab, others: tuple[Body, ...], motion: Motion) -> list[tuple[int, Slab]]:
    """The slabs of what stands still that a moving slab may come to, each with the place of what it is of."""
    near, far = motion.band(slab.outline)
    found = []
    for place, other in enumerate(others):
        for against in other.slabs:
            if not slab.passes(against):
                low, high = motion.band(against.outline)
                if high >= near and low <= far:
                    found.append((place, against))
    return found


def _meeting(first: _First, other: Body, motion: Motion, axis: Axis) -> Meeting:
    amount, moved, spot, middle = first
    turned = isinstance(motion, Turning)
    return Meeting(
        moved,
        other.key,
        other.name,
        other.kind,
        angle_of(amount) if turned else NO_ANGLE,
        Length.zero() if turned else length_of(amount),
        place(spot, middle, axis),
    )


def angle_of(turn: float) -> Angle:
    """Return an angle of so many radians, rounded once to a billionth of a degree."""
    return Angle(Fraction(round(degrees(turn) * _STEP), _STEP))


def length_of(mm: float) -> Length:
    """Return a length that geometry gave as a float, rounded once to a millionth of a millimetre."""
    return Length.of_mm(Fraction(round(mm * _FINE), _FINE))


def place(spot: Spot, middle: float, axis: Axis) -> tuple[float, float, float]:
    """Return a place of the plane as a place of the build, so far along the axis."""
    found = dict(zip((*PLANE[axis], axis), (*spot, middle), strict=True))
    return found["x"], found["y"], found["z"]


def outlines(build: Build, moving: Moving) -> tuple[Outline, ...]:
    """Return the outlines of all that moves, shut, in the plane of motion."""
    axis = pivot_of(moving).axis
    return tuple(slab.outline for body in moving_bodies(build, moving, axis) for slab in body.slabs)


def furthest(build: Build, moving: Moving, angle: Angle, face_way: tuple[float, float, float]) -> Length:
    """Return the place that a moving part reaches at most along a way while it opens by an angle.

    face_way  a vector of length 1 in the build, across the pivot
    source    each corner's circle, whose furthest point along the way is solved for
    """
    pivot = pivot_of(moving)
    way = spot_of(face_way, pivot.axis)
    turn = radians(float(angle.degrees))
    return length_of(max(reach(turning(pivot), one, turn, way) for one in outlines(build, moving)))


def run_over(build: Build, moving: Moving, angle: Angle) -> tuple[tuple[Spot, ...], ...]:
    """Return the rings of all that a moving part runs over while it opens by an angle, in the plane of motion.

    Arcs are drawn by chords of 2°; for how far it reaches at most, see `furthest`.
    """
    pivot = pivot_of(moving)
    found = swept(turning(pivot), outlines(build, moving), radians(float(angle.degrees)))
    pieces = [found] if found.geom_type == "Polygon" else list(found.geoms)
    rings = [ring for piece in pieces for ring in (piece.exterior, *piece.interiors)]
    return tuple(tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in rings)


__all__ = [
    "FLOOR", "FULL_TURN", "Meeting", "Sweep", "angle_of", "furthest", "length_of", "outlines", "pivot_of", "place",
    "run_over", "slabs_of", "sweep", "turning",
]  # fmt: skip
