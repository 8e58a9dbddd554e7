"""Where parts meet that lean differently, and how deep a screw goes that is driven from one into the other.

Found from their solids: a slanting face has no exact length to compare.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt
from typing import TYPE_CHECKING

from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    Axis,
    Box,
    Face,
    Leans,
    Part,
    box_of,
    other_axes,
    slants_of,
    solid,
    spot_after,
    turning,
    turning_back,
    way_after,
)
from plankit.units import Length

if TYPE_CHECKING:
    from manifold3d import Manifold

type Spot = tuple[float, float, float]

PUSH = 0.1
"""How far a part is pushed, in millimetres, to find where it touches another."""
LEAST_SHARE = 0.1
"""Least share of the smaller face that must touch, for two parts to count as meeting there."""
_STEP = 1000
_FAR = 1e5
_PARALLEL = 1e-9


def leaning_contact(first: Part, second: Part) -> tuple[Face, Axis, Box] | None:
    """Return where two parts touch that lean differently; None where they do not meet face to face.

    That is the first part's face, the axis across it, and the place in the first part's own axes, before it
    leans; a slanting place by the middle of its depth.
    """
    if not _near(box_of(first), box_of(second)):
        return None
    found = max((_pushed(first, second, face) for face in FACES), key=lambda one: one[0])
    share, face, low, high = found
    if share < LEAST_SHARE:
        return None
    axis = AXIS_OF[face]
    index = AXES.index(axis)
    low[index] = high[index] = (low[index] + high[index]) / 2
    x, y, z = (tuple(_exact(end[i]) for end in (low, high)) for i in range(3))
    return face, axis, Box(*x, *y, *z)


def _near(one: Box, other: Box) -> bool:
    common = one.common(other)
    return all(float(common.extent(axis).mm) > -PUSH for axis in AXES)


def _pushed(first: Part, second: Part, face: Face) -> tuple[float, Face, list[float], list[float]]:
    """How much of a face meets the other part, as a share of the smaller of the two, and between which corners."""
    shared = _dug_into(first, second, face)
    if shared.volume() <= 0:
        return 0.0, face, [], []
    own = shared.bounding_box()
    whole = min(_area(first, AXIS_OF[face]), *(_area(second, other) for other in AXES))
    return round(shared.volume() / PUSH / whole, 6), face, list(own[:3]), list(own[3:])


def _dug_into(first: Part, second: Part, face: Face) -> "Manifold":
    """What a part digs into another when it is pushed a little ahead by a face, told in its own axes."""
    import numpy as np

    axis = AXIS_OF[face]
    ahead = [0.0, 0.0, 0.0]
    ahead[AXES.index(axis)] = PUSH if face == HIGH[axis] else -PUSH
    way = way_after(turning(first.leans), (ahead[0], ahead[1], ahead[2]))
    shared = (solid(first).translate(list(way)) ^ solid(second)) - solid(first)
    return shared.transform(np.array(turning_back(first.leans)))


def middles(
    first: Part, second: Part, face: Face, along: Axis, places: Sequence[Length]
) -> tuple[Length | None, ...]:
    """Return the middle, across, of where two parts meet slanting, at each of several places along it.

    along  the axis the places lie on; what is told lies on the third axis, None where they do not meet there
    """
    from manifold3d import Manifold

    shared = _dug_into(first, second, face)
    (across,) = (axis for axis in AXES if axis not in {along, AXIS_OF[face]})
    index, other = AXES.index(along), AXES.index(across)
    found: list[Length | None] = []
    for place in places:
        low, size = [-_FAR] * 3, [2 * _FAR] * 3
        low[index], size[index] = float(place.mm) - PUSH, 2 * PUSH
        band = shared ^ Manifold.cube(size).translate(low)
        ends = band.bounding_box()
        found.append(_exact((ends[other] + ends[other + 3]) / 2) if band.volume() > 0 else None)
    return tuple(found)


def _area(part: Part, axis: Axis) -> float:
    one, two = other_axes(axis)
    return float(part.box.extent(one).mm * part.box.extent(two).mm)


def _exact(value: float) -> Length:
    return Length.of_mm(Fraction(round(value * _STEP), _STEP))


@dataclass(frozen=True, slots=True)
class Passage:
    """How a straight fastener passes a part that leans otherwise than it does.

    enter   where it enters, as a share of its length: above 1, it falls short of the part
    leave   where it would leave, if it were long enough: below 1, it comes through
    by      the face it enters by, as it was before sawing
    out     the face that its tip is nearest to, or furthest outside of, and how much wood lies between
    """

    enter: float
    leave: float
    by: Face
    out: tuple[Face, Length]


def passage(head: Spot, tip: Spot, leans: Leans, into: Part) -> Passage | None:
    """Return how a fastener passes a part that leans otherwise; None where its line passes beside it.

    head, tip  its ends, told in axes that are turned by `leans`
    source     the line clipped by the planes of the part's faces and slanting cuts (Cyrus and Beck's method);
               notches, grooves and holes are not looked at
    """
    out, back = turning(leans), turning_back(into.leans)
    start, end = (spot_after(back, spot_after(out, spot)) for spot in (head, tip))
    begins, ends = _inside(into, start), _inside(into, end)
    enters: list[tuple[float, Face]] = []
    leave = float("inf")
    for (face, a), (_, b) in zip(begins, ends, strict=True):
        if abs(b - a) < _PARALLEL:
            if a < 0:
                return None
        elif b > a:
            enters.append((a / (a - b), face))
        else:
            leave = min(leave, a / (a - b))
    enter, by = max(enters)
    if enter >= leave:
        return None
    inner = ((b, face) for (face, a), (_, b) in zip(begins, ends, strict=True) if face != by or b < a)
    left, nearest = min(inner)
    return Passage(enter, leave, by, (nearest, _exact(left)))


def _inside(part: Part, spot: Spot) -> list[tuple[Face, float]]:
    """How far a place lies within each face and each slanting cut, square to it, in millimetres; below 0: outside."""
    at = dict(zip(AXES, spot, strict=True))

    def within(face: Face) -> float:
        axis = AXIS_OF[face]
        away = float(part.box.face(face).mm) - at[axis]
        return away if face == HIGH[axis] else -away

    found = [(face, within(face)) for face in FACES]
    for _, slant in slants_of(part):
        steep = sqrt(1 + sum(slope.tangent**2 for slope in slant.slopes))
        fallen = sum(float(slope.amount.mm) - slope.tangent * within(slope.towards) for slope in slant.slopes)
        found.append((slant.face, (within(slant.face) - fallen) / steep))
    return found


def bite_leaning(head: Spot, tip: Spot, leans: Leans, heading: Axis, into: Part) -> Length:
    """Return how much of a fastener lies inside a part that leans otherwise than the fastener does.

    head, tip  its ends, told in axes that are turned by `leans`
    heading    the axis it is driven along: what it reaches in is told along that
    returns    below nothing where it falls short of the part; nothing where it passes beside it
    """
    found = passage(head, tip, leans, into)
    if found is None:
        return Length.zero()
    index = AXES.index(heading)
    share = min(1.0, found.leave) - max(0.0, found.enter)
    return _exact(share * abs(tip[index] - head[index]))
