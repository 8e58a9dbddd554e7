"""Offcuts: what is left of earlier stock and still good for something."""

from dataclasses import dataclass

from plankit.stock.names import slug
from plankit.units import Length


@dataclass(frozen=True, slots=True)
class Offcut:
    """One piece of stock on hand.

    stock   the name of the stock it came from: "4x4 loblolly pine"
    length  along the grain, or along the longer side of the sheet it came from
    width   across; None for a board of full width
    label   how it is marked on the rack
    note    anything to know before cutting it: a knot, a painted face
    """

    stock: str
    length: Length
    width: Length | None
    label: str
    note: str = ""

    @property
    def key(self) -> str:
        """The key of the stock it came from."""
        return slug(self.stock)
