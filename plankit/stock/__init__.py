"""Boards and sheets as they are sold: nominal and real sizes, weight, stiffness, and offcuts on hand."""

from plankit.stock.boards import Lumber, board_feet, lumber
from plankit.stock.measured import check_measured
from plankit.stock.names import slug
from plankit.stock.offcut import Clear, Offcut
from plankit.stock.sheets import Sheet, sheet

__all__ = ["Clear", "Lumber", "Offcut", "Sheet", "board_feet", "check_measured", "lumber", "sheet", "slug"]
