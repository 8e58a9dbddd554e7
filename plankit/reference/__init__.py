"""Handbook and standard tables, with the source of every row, and typed look-ups into them."""

from plankit.reference.fastener_strength import (
    nail_pull,
    nail_withdrawal,
    screw_pull,
    screw_sideways,
    screw_withdrawal,
)
from plankit.reference.fasteners import CommonNail, WoodScrew, common_nail, wood_screw
from plankit.reference.hardware import (
    HingeClass,
    Practice,
    door_kilograms_per_square_metre,
    hinge_classes,
    practice,
)
from plankit.reference.sizes import (
    DressedSize,
    HardwoodThickness,
    PlywoodClass,
    dressed,
    hardwood_thickness,
    plywood,
    plywood_categories,
)
from plankit.reference.tables import Row, near, rows
from plankit.reference.wood import SheetKind, Species, density_at_12_percent, sheet_kind, species

__all__ = [
    "CommonNail", "DressedSize", "HardwoodThickness", "HingeClass", "PlywoodClass", "Practice", "Row",
    "SheetKind", "Species", "WoodScrew", "common_nail", "density_at_12_percent",
    "door_kilograms_per_square_metre", "dressed", "hardwood_thickness", "hinge_classes", "nail_pull",
    "nail_withdrawal", "near", "plywood", "plywood_categories", "practice", "rows", "screw_pull",
    "screw_sideways", "screw_withdrawal", "sheet_kind", "species", "wood_screw",
]  # fmt: skip
