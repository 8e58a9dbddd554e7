"""What a door, a flap, a bin or a drawer meets when it is opened, and how far it then is: exact.

Everything that moves and everything in its way is looked at as outlines in the plane of motion (see
`swing_outlines`); the moments of contact are solved for (see `swing_geometry`).
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import degrees, radians

from plankit.build.build import Build, Thing
from plankit.build.items import Item
from plankit.build.moving import NO_ANGLE, Moving
from plankit.build.swing_geometry import (
    Motion,
    Outline,
    Spot,
    Turning,
    crossings,
    first_meeting,
    reach,
    swept,
)
from plankit.build.swing_motion import met_open, motion_in, pivot_of, turning
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
from plankit.parts import AXIS_OF, Axis, Part
from plankit.units import Angle, Length

FULL_TURN = 270.0
"""How far a sweep looks, in degrees: no door opens further."""
USUAL = Angle(Fraction(90))
"""How far doors and flaps open where nobody says (common practice)."""
_SHUT, _HALF_TURN = Angle(Fraction(5)), Angle(Fraction(180))
"""What is met on the way in within the first of these holds it shut; no front goes further than the second."""
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
    waits     on the way out too: what moves itself, and is out of the way once it is open
    """

    moving: Moving
    opening: tuple[Meeting, ...]
    inwards: tuple[Meeting, ...] = ()
    carried: tuple[Meeting, ...] = ()
    waits: tuple[Meeting, ...] = ()

    def stop(self, *, inwards: bool = False) -> Meeting | None:
        """Return the first stop that is met; None where none is.

        A stop that it lies against when it is shut is none on its way out, where it is met only after something else
        or from behind.
        """
        met = self.inwards if inwards else self.opening
        return next((one for one in met if self.is_stop(one) and (inwards or not self._from_behind(one))), None)

    def _from_behind(self, met: Meeting) -> bool:
        """Whether a stop of the way in is met on the way out as well, but only the whole way round."""
        named = self._stops_in(met)
        if not any(named & self._stops_in(one) and one.angle <= _SHUT for one in self.inwards):
            return False
        first = self.in_the_way()
        return met.angle > _HALF_TURN or (first is not None and first.angle < met.angle)

    @property
    def meant(self) -> Angle | None:
        """How far it is to open: as its author says, or to its stop; a right angle where its stops are all inside.

        None where nothing says.
        """
        if self.moving.opens is not None:
            return self.moving.opens
        stop = self.stop()
        if stop is not None:
            return stop.angle
        inside = self.moving.stops and self.moving.kind in {"door", "flap"} and self.stop(inwards=True)
        return USUAL if inside else None

    def is_stop(self, meeting: Meeting) -> bool:
        """Tell whether a meeting is one that is meant: with a stop, or of a stop that moves."""
        return bool(self._stops_in(meeting))

    def _stops_in(self, meeting: Meeting) -> set[str]:
        return {meeting.moved, meeting.met} & set(self.moving.stops)

    def in_the_way(self) -> Meeting | None:
        """Return the first thing met on the way out that is no stop; None where there is none."""
        return next((one for one in self.opening if not self.is_stop(one)), None)

    @property
    def angle(self) -> Angle | None:
        """How far it opens: to the first thing met, or as far as it is meant to; None where nothing says."""
        ends = [one.angle for one in self.opening[:1]]
        meant = self.meant
        return min([*ends, meant] if meant is not None else ends, default=None)


@lru_cache(maxsize=128)
def sweep(build: Build, moving: Moving) -> Sweep:
    """Return all that a moving part meets, out and in: a drawer slides, anything else turns about its pivot.

    Contact is told where two things share more than a hair (1/20 mm) in the plane of motion and along its axis;
    what touches when shut and then moves away is not met. Of what moves itself, only what stays in the way when
    it is open is met; the rest waits for it (a drawer behind a door).
    raises  KeyError where a part is not in the build
    """
    alone = _alone(build, moving)
    if len(build.moving) < 2 or not alone.opening:
        return alone
    far, owners = far_open(build, moving), [owner_of(build, met) for met in alone.opening]
    others = {owner.name: owner for met, owner in zip(alone.opening, owners, strict=True)
              if owner is not None and owner is not moving and gone(met) < far and not alone.is_stop(met)}  # fmt: skip
    clear = {name for name, other in others.items() if _opens_first(build, other, moving)}
    parted: tuple[list[Meeting], list[Meeting]] = ([], [])
    for met, owner in zip(alone.opening, owners, strict=True):
        parted[owner is not None and owner.name in clear].append(met)
    return replace(alone, opening=tuple(parted[False]), waits=tuple(parted[True])) if clear else alone


@lru_cache(maxsize=128)
def _alone(build: Build, moving: Moving) -> Sweep:
    """The sweep of something while all else is shut."""
    return _swept(build.parts, build.things, build.items, moving)


def owner_of(build: Build, met: Meeting) -> Moving | None:
    """Return what moves of which something met is a part; None where it stays where it is."""
    for moving in build.moving:
        fixed = (i.name for i in build.items if met.kind == "item" and i.on and set(i.on) <= set(moving.parts))
        if met.met in moving.parts or met.met in fixed:
            return moving
    return None


def far_open(build: Build, moving: Moving) -> float:
    """Return how far something opens while all else that moves is out of its way: radians, or millimetres.

    As far as it is meant to, or to the first thing that stays; a right angle where nothing says.
    """
    firsts = [met for met in _alone(build, moving).opening if owner_of(build, met) is None][:1]
    if moving.slides is not None:
        return min(float(far.mm) for far in (moving.slides[1], *(met.travel for met in firsts)))
    ends = [met.angle for met in firsts] + ([moving.opens] if moving.opens is not None else [])
    return radians(float(min(ends).degrees) if ends else 90.0)


def _opens_first(build: Build, other: Moving, moving: Moving) -> bool:
    """Whether something opens past another while that is shut, and is out of its way then."""
    far, there = far_open(build, moving), far_open(build, other)
    if any(owner_of(build, one) is moving and gone(one) < there for one in _alone(build, other).opening):
        return False
    return met_open(build, (moving, far), (other, there)) is None


def gone(met: Meeting) -> float:
    """Return how far what meets something has moved by then: radians, or millimetres."""
    return radians(float(met.angle.degrees)) if met.angle.degrees else float(met.travel.mm)


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


def _pulled(build: Build, moving: Moving) -> tuple[Meeting, ...]:
    """What a drawer meets on its way out, the floor left out: it slides past that."""
    assert moving.slides is not None
    face, far = moving.slides
    axis = next(one for one in PLANE if one != AXIS_OF[face])
    own = moving_bodies(build, moving, axis)
    standing = standing_bodies(build, moving, axis, _reach_along(own))
    others = tuple(body for body in standing if body.kind != "floor")
    return _met(own, others, motion_in(moving, axis), axis, float(far.mm))


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
    "FLOOR", "FULL_TURN", "Meeting", "Sweep", "angle_of", "far_open", "furthest", "gone", "length_of", "outlines",
    "owner_of", "pivot_of", "place", "run_over", "slabs_of", "sweep", "turning",
]  # fmt: skip
