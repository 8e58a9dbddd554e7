"""A shop as a whole."""

from dataclasses import dataclass, field
from fractions import Fraction

from plankit.shop.cautions import cautions_for, tool_knowledge
from plankit.shop.preferences import PREFERENCES
from plankit.shop.prices import PriceList
from plankit.shop.tool import Caution, Tool
from plankit.stock import Offcut, slug
from plankit.units import Length, Mass


@dataclass(frozen=True, slots=True)
class Built:
    """A plan that was built from this rack: what it took from it, and what was put there."""

    plan: str
    version: str
    used: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Shop:
    """The author's shop: everything about her that a plan depends on.

    lifting_limit    what one person may lift off the saw
    waste_allowance  share bought beyond what the plan needs of what comes in packs or is cut: 1/10
    sheet_kerf, board_kerf  of the saws that cut sheets and boards
    sheet_trim       lost at each edge of a sheet, the trimming cut included
    board_trim       lost at each end of a board, likewise
    offcuts          what lies on the rack, best used first
    note             what readers are told about the prices
    prefer           what decides among ways of cutting that take equal stock, gravest first (see `PREFERENCES`)
    sag_limit        the most a shelf may bend, as a share of its span: 1/144
    humidities       of the air where its pieces stand, in the dry season and in the damp one: 30/100, 70/100
    lift             how high the hands begin and end where a thing is lifted, for the lifting equation to set what
                     is too heavy; None where only the lifting limit does
    longest_carried  the longest board that goes into the car; None where any does
    built            the plans that were built from its rack
    file             where it is written, as the plan names it; "" for a shop in no file of the author's
    """

    name: str
    unit: str
    tools: tuple[Tool, ...]
    lifting_limit: Mass
    waste_allowance: Fraction
    sheet_kerf: Length
    board_kerf: Length
    sheet_trim: Length
    board_trim: Length
    prices: PriceList = field(default_factory=PriceList)
    offcuts: tuple[Offcut, ...] = ()
    note: str = ""
    sag_limit: Fraction = Fraction(1, 144)
    humidities: tuple[Fraction, Fraction] = (Fraction(30, 100), Fraction(70, 100))
    lift: tuple[Length, Length] | None = None
    prefer: tuple[str, ...] = tuple(PREFERENCES)
    longest_carried: Length | None = None
    built: tuple[Built, ...] = ()
    file: str = ""

    def tools_for(self, operation: str) -> tuple[Tool, ...]:
        """Return the tools that can do something, such as "rip", in the order the shop lists them."""
        return tuple(tool for tool in self.tools if operation in tool.does)

    def tool(self, name: str) -> Tool | None:
        """Return a tool by any name it goes by; None where the shop has none."""
        known = tool_knowledge(name)
        names = {slug(name)} | ({slug(known.name)} if known else set())
        return next((tool for tool in self.tools if tool.key in names), None)

    def cautions(self, tools: tuple[str, ...]) -> tuple[Caution, ...]:
        """Return the cautions for some tools: the general ones and the shop's own (see `cautions_for`)."""
        return cautions_for(tools, self.tools)

    def offcuts_of(self, stock: str) -> tuple[Offcut, ...]:
        """Return the offcuts on hand of a stock, in the order of the rack."""
        return tuple(offcut for offcut in self.offcuts if offcut.key == slug(stock))
