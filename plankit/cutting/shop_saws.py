"""The saws of a shop as the order of cuts takes them."""

from dataclasses import replace
from typing import cast

from plankit.cutting.job import StockKind
from plankit.cutting.saws import Saw, Way
from plankit.shop import Shop, Tool
from plankit.stock import Lumber, Sheet
from plankit.units import Length


def saws_of(shop: Shop, *, boards: bool) -> tuple[Saw, ...]:
    """Return the shop's saws for straight cuts, best liked first.

    boards  for boards that are only crosscut: those with a stop and those led by hand where the shop has any, for a
            rail does not lie well on a narrow board
    """
    kerf = shop.board_kerf if boards else shop.sheet_kerf
    saws = tuple(_saw(tool, kerf) for tool in shop.tools if tool.led)
    apt = tuple(saw for saw in saws if saw.way in ("stop", "hand"))
    return apt if boards and apt else saws


def weighed(kind: StockKind, stock: Sheet | Lumber) -> StockKind:
    """Return a kind of stock with its thickness, its breadth and what one whole weighs."""
    breadth = stock.width.mm if isinstance(stock, Lumber) else None
    across = kind.width or breadth or stock.width.mm
    mass = stock.density.mass_of(kind.length * across * stock.thickness.mm)
    return replace(kind, thickness=stock.thickness.mm, mass=mass.kg, breadth=breadth)


def _saw(tool: Tool, kerf: Length) -> Saw:
    reach = "widest_rip" if tool.led == "fence" else "widest_crosscut"
    longest, widest, deepest, shortest = (
        found.mm if (found := tool.limit(name)) else None
        for name in ("longest_cut", reach, "deepest_cut", "shortest_piece")
    )
    return Saw(tool.name, cast(Way, tool.led), (tool.kerf or kerf).mm, longest, widest, deepest, shortest)
