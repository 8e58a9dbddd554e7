"""Parts: the space each fills, the stock it is made of, what is done to it, and its exact solid."""

from plankit.parts.features import (
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
from plankit.parts.part import GlueUp, Part, Shape, has_hand, mirror_shape, shape
from plankit.parts.solid import block, pocket_entry, solid
from plankit.parts.space import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Box,
    Face,
    Point,
    Turn,
    mirror_along,
    other_axes,
)
from plankit.parts.volume import volume, weight

__all__ = [
    "AXES", "AXIS_OF", "FACES", "HIGH", "LOW", "OPPOSITE", "Axis", "Banding", "Bore", "Box", "Face",
    "Feature", "GlueUp", "Groove", "Mitre", "Notch", "Part", "PocketHoles", "Point", "Shape", "Taper", "Turn",
    "block", "has_hand", "mirror_along", "mirror_shape", "other_axes", "pocket_entry", "pocket_shoulder",
    "shape", "solid", "volume", "weight",
]  # fmt: skip
