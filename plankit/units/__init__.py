"""Exact lengths, angles, weights and prices; how they are read; and the one formatter that writes them."""

from plankit.units.expression import Condition, ConditionBook
from plankit.units.expression_data import node_of
from plankit.units.length import L, Length, diagonal, exactly, largest, mixed, smallest
from plankit.units.notation import ROUNDED, Notation, decimal
from plankit.units.quantity import Angle, Density, Mass, Money, is_angle
from plankit.units.read import MM_IN, read_mm, read_number, tidy
from plankit.units.told import speaking, told, told_size

__all__ = [
    "MM_IN", "ROUNDED", "Angle", "Condition", "ConditionBook", "Density", "L", "Length", "Mass", "Money",
    "Notation", "decimal", "diagonal", "exactly", "is_angle", "largest", "mixed", "node_of", "read_mm", "read_number",
    "smallest", "speaking", "tidy", "told", "told_size",
]  # fmt: skip
