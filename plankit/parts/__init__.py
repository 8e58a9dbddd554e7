"""Parts: the space each fills, the stock it is made of, what is done to it, and its exact solid."""

from plankit.parts.channels import HINGE_LEAF, HINGE_RECESS, Channel, channel
from plankit.parts.edge_features import (
    EASED,
    Chamfer,
    Cove,
    Edge,
    Roundover,
    edge_between,
    edges_round,
    runs_along,
)
from plankit.parts.features import (
    Banding,
    Bevel,
    Bore,
    CompoundMitre,
    Feature,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    PocketHoles,
    Taper,
    plainest,
    pocket_shoulder,
)
from plankit.parts.lean import Lean, Leans, spot_after, spread_out, turning, turning_back, way_after
from plankit.parts.part import GlueUp, Part, Shape, has_hand, mirror_shape, shape
from plankit.parts.slants import (
    SawSetting,
    Slant,
    Slope,
    compound_at,
    lengths_of,
    mitre_at,
    points_of,
    saw_setting,
    slant_of,
    slants_of,
    tangent,
)
from plankit.parts.solid import block, bore_line, box_of, hollow, pocket_entry, pocket_line, rod, solid
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
    "AXES", "AXIS_OF", "EASED", "FACES", "HIGH", "HINGE_LEAF", "HINGE_RECESS", "LOW", "OPPOSITE", "Axis", "Banding",
    "Bevel", "Bore", "Box", "Chamfer", "Channel", "CompoundMitre", "Cove", "Edge", "Face", "Feature", "GlueUp",
    "Groove", "Lean", "Leans", "LeftOn", "Mitre", "Notch", "Part", "PocketHoles", "Point", "Roundover", "SawSetting",
    "Shape", "Slant", "Slope", "Taper", "Turn", "block", "bore_line", "box_of", "channel", "compound_at",
    "edge_between", "edges_round", "has_hand", "hollow", "lengths_of", "mirror_along", "mirror_shape", "mitre_at",
    "other_axes", "plainest", "pocket_entry", "pocket_line", "pocket_shoulder", "points_of", "rod", "runs_along",
    "saw_setting", "shape", "slant_of", "slants_of", "solid", "spot_after", "spread_out", "tangent", "turning",
    "turning_back", "volume", "way_after", "weight",
]  # fmt: skip
