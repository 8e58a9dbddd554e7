"""The room that hardware takes, against parts and against other hardware."""

from typing import TYPE_CHECKING

from plankit.parts import AXES, Axis, Banding, Bore, Box, Part, PocketHoles, block, solid
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


def runs_into(box: Box, part: Part) -> Shared | None:
    """Return how far hardware runs into a part, its notches and slanting cuts left out; None where it does not.

    Holes are too small to take hardware that is not meant for them, so they count as wood.
    """
    shared = shared_by(box, part.box)
    if shared is None or all(isinstance(one, Banding | Bore | PocketHoles) for one in part.features):
        return shared
    return shared if _volume(block(box) ^ solid(part)) >= LEAST_SHARED else None


def _volume(shared: "Manifold") -> float:
    return float(shared.volume())
