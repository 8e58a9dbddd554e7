"""Where parts meet that lean differently, and how deep a screw goes that is driven from one into the other.

Found from their solids: a slanting face has no exact length to compare.
"""

from fractions import Fraction

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
    solid,
    spot_after,
    turning,
    turning_back,
    way_after,
)
from plankit.units import Length

type Spot = tuple[float, float, float]

PUSH = 0.1
"""How far a part is pushed, in millimetres, to find where it touches another."""
LEAST_SHARE = 0.25
"""Least share of the smaller face that must touch, for two parts to count as meeting there."""
_STEP = 1000


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
    import numpy as np

    axis = AXIS_OF[face]
    ahead = [0.0, 0.0, 0.0]
    ahead[AXES.index(axis)] = PUSH if face == HIGH[axis] else -PUSH
    way = way_after(turning(first.leans), (ahead[0], ahead[1], ahead[2]))
    moved = solid(first).translate(list(way))
    shared = (moved ^ solid(second)) - solid(first)
    if shared.volume() <= 0:
        return 0.0, face, [], []
    own = shared.transform(np.array(turning_back(first.leans))).bounding_box()
    whole = min(_area(first, axis), *(_area(second, other) for other in AXES))
    return round(shared.volume() / PUSH / whole, 6), face, list(own[:3]), list(own[3:])


def _area(part: Part, axis: Axis) -> float:
    one, two = other_axes(axis)
    return float(part.box.extent(one).mm * part.box.extent(two).mm)


def _exact(value: float) -> Length:
    return Length.of_mm(Fraction(round(value * _STEP), _STEP))


def bite_leaning(head: Spot, tip: Spot, leans: Leans, heading: Axis, into: Part) -> Length:
    """Return how much of a fastener lies inside a part that leans otherwise than the fastener does.

    head, tip  its ends, told in axes that are turned by `leans`
    heading    the axis it is driven along: what it reaches in is told along that
    source     the segment clipped by the six planes of the part's box (Liang and Barsky's method)
    """
    out, back = turning(leans), turning_back(into.leans)
    start, end = (spot_after(back, spot_after(out, spot)) for spot in (head, tip))
    low, high = into.box.mm()
    enter, leave = 0.0, 1.0
    for a, b, near, far in zip(start, end, low, high, strict=True):
        if abs(b - a) < 1e-9:
            if not near <= a <= far:
                return Length.zero()
            continue
        one, two = sorted(((near - a) / (b - a), (far - a) / (b - a)))
        enter, leave = max(enter, one), min(leave, two)
    index = AXES.index(heading)
    return _exact(max(0.0, leave - enter) * abs(tip[index] - head[index]))
