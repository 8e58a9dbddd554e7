"""Handbook and standard tables, with the source of every row, and typed look-ups into them."""

from plankit.reference.fasteners import CommonNail, WoodScrew, common_nail, wood_screw
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
    "CommonNail", "DressedSize", "HardwoodThickness", "PlywoodClass", "Row", "SheetKind", "Species",
    "WoodScrew", "common_nail", "density_at_12_percent", "dressed", "hardwood_thickness", "near", "plywood",
    "plywood_categories", "rows", "sheet_kind", "species", "wood_screw",
]  # fmt: skip
