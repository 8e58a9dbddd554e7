"""The room that hardware takes, against parts and against other hardware."""

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from plankit.parts import AXES, Axis, Banding, Bore, Box, Leans, Part, PocketHoles, block, solid, turning
from plankit.units import Length

if TYPE_CHECKING:
    from manifold3d import Manifold

LEAST_SHARED = 1.0
"""Cubic millimetres that must be shared before two things are said to meet; rounding alone makes less."""
type Shared = tuple[Axis, Length]


def shared_by(box: Box, other: Box) -> Shared | None:
    """Return the axis along which two boxes run into each other least, and how far; None where they do not."""
    if any(box.low(a).mm >= other.high(a).mm or other.low(a).mm >= box.high(a).mm for a in AXES):
        return None
    common = box.common(other)
    axis = min(AXES, key=lambda one: common.extent(one).mm)
    return axis, common.extent(axis)


def runs_into(box: Box, part: Part, leans: Leans = ()) -> Shared | None:
    """Return how far hardware runs into a part, its notches and slanting cuts left out; None where it does not.

    Holes are too small to take hardware that is not meant for them, so they count as wood.
    leans  how the hardware is turned with the part it sits on
    """
    if leans != part.leans:
        return _shared(_turned(box, leans) ^ solid(part))
    shared = shared_by(box, part.box)
    if shared is None or all(isinstance(one, Banding | Bore | PocketHoles) for one in part.features):
        return shared
    return shared if _volume(block(box) ^ solid(replace(part, leans=()))) >= LEAST_SHARED else None


def run_together(one: tuple[Box, Leans], other: tuple[Box, Leans]) -> Shared | None:
    """Return how far two pieces of hardware run into each other, each turned with the part it sits on."""
    if one[1] == other[1]:
        return shared_by(one[0], other[0])
    return _shared(_turned(*one) ^ _turned(*other))


def _turned(box: Box, leans: Leans) -> "Manifold":
    import numpy as np

    return block(box).transform(np.array(turning(leans))) if leans else block(box)


def _shared(both: "Manifold") -> Shared | None:
    if _volume(both) < LEAST_SHARED:
        return None
    ends = both.bounding_box()
    extents = [round(ends[i + 3] - ends[i], 3) for i in range(3)]
    index = min(range(3), key=lambda i: (extents[i], i))
    return AXES[index], Length.of_mm(Fraction(str(extents[index])))


def _volume(shared: "Manifold") -> float:
    return float(shared.volume())
