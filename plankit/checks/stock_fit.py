"""Whether every part can come out of the stock it is made of."""

from plankit.build import Build
from plankit.checks.wording import gathered
from plankit.finding import Finding
from plankit.parts import Part
from plankit.shop import Shop
from plankit.stock import Lumber, Sheet
from plankit.units import Length, Notation

PRICES = "the sizes in {shop}'s price list"
USUAL = "the sizes this stock is usually sold in"

type Sizes = tuple[list[tuple[Length, Length]], str]


def stock_fit(build: Build, shop: Shop | None, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every part that is longer, wider or thicker than what it is to be cut from.

    shop  its price list and offcuts say which sizes there are, and its trim what is lost at the edges;
          where it names none, or there is no shop, the stock's own sizes count
    """
    stocks = dict.fromkeys(part.stock for part in build.parts)
    sheets = {stock: sheet_sizes(stock, shop) for stock in stocks if isinstance(stock, Sheet)}
    boards = {stock: _longest(stock, shop) for stock in stocks if isinstance(stock, Lumber)}
    found: list[Finding] = []
    for part in build.parts:
        if isinstance(part.stock, Sheet):
            found += _sheet_findings(part, part.stock, sheets[part.stock], notation)
        else:
            found += _board_findings(part, part.stock, boards[part.stock], notation)
    return gathered(found)


def _sheet_findings(part: Part, stock: Sheet, usable: Sizes, notation: Notation) -> list[Finding]:
    found = _thickness(part, stock, notation)
    length, width = part.cut_size()
    sizes, source = usable
    over = min((_over(part, length, width, size) for size in sizes), key=lambda o: o[0].mm + o[1].mm)
    for excess, way in zip(over, ("long", "wide"), strict=True):
        if excess.mm > 0:
            found.append(_too_big(part, stock.name, way, excess, source, notation))
    return found


def sheet_sizes(stock: Sheet, shop: Shop | None) -> Sizes:
    """Return the usable sizes of a sheet, trim taken off, and who says so."""
    trim = shop.sheet_trim * 2 if shop else Length.zero()
    entries = shop.prices.sizes_of(stock.name) if shop else ()
    listed = [(entry.length, entry.width) for entry in entries if entry.width is not None]
    source = PRICES.format(shop=shop.name) if shop and listed else USUAL
    whole = listed or [(stock.length, stock.width)]
    offcuts = shop.offcuts_of(stock.name) if shop else ()
    sizes = [(length - trim, width - trim) for length, width in whole]
    clear = [(one.length, offcut.width) for offcut in offcuts for one in offcut.clear() if offcut.width is not None]
    return [*sizes, *clear], source


def _over(part: Part, length: Length, width: Length, size: tuple[Length, Length]) -> tuple[Length, Length]:
    """By how much a part is too long and too wide for a sheet, turned where its grain allows it."""
    ways = [(length - size[0], width - size[1])]
    if not part.grain_matters:
        ways.append((length - size[1], width - size[0]))
    none = Length.zero()
    clipped = [(one if one.mm > 0 else none, other if other.mm > 0 else none) for one, other in ways]
    return min(clipped, key=lambda way: way[0].mm + way[1].mm)


def _thickness(part: Part, stock: Sheet, notation: Notation) -> list[Finding]:
    if part.thickness.mm == stock.thickness.mm:
        return []
    return [
        Finding(
            "must fix",
            "stock too small",
            part.name,
            f"{part.name} is not as thick as the {stock.name} it is made of.",
            number=f"{notation.exact(part.thickness)}, where the sheet is {notation.exact(stock.thickness)}",
            source="geometry of the build",
            remedy="Give the panel five faces and let its stock give the sixth.",
        )
    ]


def _board_findings(
    part: Part, stock: Lumber, usable: tuple[Length, str], notation: Notation
) -> list[Finding]:
    if part.glue_up is not None:
        length, wide, thick = part.glue_up.length, part.glue_up.rip, part.glue_up.blank[2]
    else:
        length = part.length
        thick, wide = sorted((part.thickness, part.width), key=lambda size: size.mm)
    longest, source = usable
    found = [
        _too_big(part, stock.name, way, size - limit, said, notation)
        for size, limit, way, said in (
            (length, longest, "long", source),
            (wide, stock.width, "wide", stock.source),
            (thick, stock.thickness, "thick", stock.source),
        )
        if size.mm > limit.mm
    ]
    return found + _glued_too_small(part, notation)


def _longest(stock: Lumber, shop: Shop | None) -> tuple[Length, str]:
    trim = shop.board_trim * 2 if shop else Length.zero()
    listed = [entry.length for entry in shop.prices.sizes_of(stock.name)] if shop else []
    source = PRICES.format(shop=shop.name) if shop and listed else USUAL
    offcuts = [one.length for offcut in shop.offcuts_of(stock.name) for one in offcut.clear()] if shop else []
    lengths = [length - trim for length in (listed or stock.lengths)] + offcuts
    return max(lengths, key=lambda length: length.mm), source


def _glued_too_small(part: Part, notation: Notation) -> list[Finding]:
    """A glued-up blank must be no smaller than the part trimmed out of it."""
    if part.glue_up is None:
        return []
    made = part.glue_up
    found = []
    for have, need, way in (
        (made.length, part.length, "short"),
        (made.rip * made.boards, part.width, "narrow"),
        (made.blank[2], part.thickness, "thin"),
    ):
        if have.mm < need.mm:
            found.append(
                Finding(
                    "must fix",
                    "stock too small",
                    part.name,
                    f"The boards glued up for {part.name} come out too {way} to trim it from.",
                    number=f"by {notation.length(need - have)}",
                    source="geometry of the build",
                    remedy="Glue up more or wider boards, or allow less for trimming.",
                )
            )
    return found


def _too_big(  # noqa: PLR0917
    part: Part, stock: str, way: str, excess: Length, source: str, notation: Notation
) -> Finding:
    remedy = f"Make {part.name} smaller by {notation.length(excess)}, or choose larger stock."
    if isinstance(part.stock, Sheet) and part.grain_matters:
        remedy += " If its grain may run either way, say so: it may then fit turned."
    return Finding(
        "must fix",
        "stock too small",
        part.name,
        f"{part.name} is too {way} for {stock}.",
        number=f"by {notation.length(excess)}",
        source=source,
        remedy=remedy,
    )
