"""The stock a plan may cut from: what stores sell, and what lies on the author's rack."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.cutting import Result, StockKind
from plankit.drawing.words import listed
from plankit.shop import Shop
from plankit.stock import Clear, Lumber, Offcut, Sheet
from plankit.units import Length, Money, Notation

type Material = Sheet | Lumber


@dataclass(frozen=True, slots=True)
class OnHand:
    """A clear length of an offcut on the rack, as a kind of stock of which there is one.

    said  what it is called in a sentence: "R5", "R5 from its left end to 20 in"
    """

    kind: StockKind
    offcut: Offcut
    clear: Clear
    said: str


def on_hand(shop: Shop, stock: Material, *, ripped: bool = False) -> tuple[OnHand, ...]:
    """Return what lies on the rack of a stock, the smallest first; each clear length of an offcut counts by itself.

    Where several would do, the cutting takes the first.

    ripped  for boards that are ripped to width, for which strips will do as well
    """
    boards = isinstance(stock, Lumber)
    trim, kerf = (shop.board_trim.mm, shop.board_kerf.mm) if boards else (Fraction(0), shop.sheet_kerf.mm)
    found = (
        _on_rack(shop, stock, offcut, clear, trim)
        for offcut in shop.offcuts_of(stock.name)
        if (offcut.width is None) == boards or (boards and ripped)
        for clear in offcut.clear(kerf)
        if clear.length.mm > 2 * trim
    )
    whole = stock.width.mm
    return tuple(sorted(found, key=lambda one: one.kind.length * (one.kind.width or whole)))


def _on_rack(shop: Shop, stock: Material, offcut: Offcut, clear: Clear, trim: Fraction) -> OnHand:
    where = "" if clear.whole else between(clear, Notation(shop.unit))
    name = ", ".join(words for words in (f"{stock.name}, offcut {offcut.label}", where) if words)
    width = offcut.width.mm if offcut.width else None
    kind = StockKind(name, clear.length.mm, width, 1, Fraction(0), trim)
    return OnHand(kind, offcut, clear, f"{offcut.label} {where}".strip())


def between(clear: Clear, write: Notation) -> str:
    """Say where on its offcut a clear length lies: "from its left end to 20 in"."""
    start = write.length(clear.start) if clear.begins else "its left end"
    return f"from {start} to {write.length(clear.end) if clear.ends else 'its right end'}"


def parting_words(clear: Clear, label: str, write: Notation) -> str:
    """Say how a clear length is cut off its offcut before anything else; "" for a whole one."""
    places = [place for place, cut in ((clear.start, clear.begins), (clear.end, clear.ends)) if cut]
    if not places:
        return ""
    return (
        f"First crosscut {label} at {listed(write.both(place) for place in places)} from its left end, with the kerf "
        "in what is not clear; left and right here are those of the clear length."
    )


def for_sale(shop: Shop, stock: Material) -> tuple[StockKind, ...]:
    """Return the sizes of a stock on the price list; those it usually comes in where the list has none."""
    if isinstance(stock, Sheet):
        sold = [(e.length, e.width, e.price) for e in shop.prices.sizes_of(stock.name) if e.width is not None]
        unpriced: list[tuple[Length, Length, Money | None]] = [(stock.length, stock.width, None)]
        sizes = sold or unpriced
        return tuple(
            StockKind(kind_name(shop, stock, length, width), length.mm, width.mm, None,
                      price.amount if price else None, shop.sheet_trim.mm, shop.sheet_trim.mm)
            for length, width, price in sizes
        )  # fmt: skip
    unlisted: list[tuple[Length, Money | None]] = [(length, None) for length in stock.lengths]
    boards = [(entry.length, entry.price) for entry in shop.prices.sizes_of(stock.name)]
    return tuple(
        StockKind(kind_name(shop, stock, length, None), length.mm, None, None, price.amount if price else None,
                  shop.board_trim.mm)
        for length, price in boards or unlisted
    )  # fmt: skip


def by_size(kind: StockKind) -> StockKind:
    """Where a price is missing, the least material is best: a stock's size stands for its price."""
    size = Fraction(0) if kind.on_hand else kind.length * (kind.width or 1)
    return replace(kind, price=size)


def kind_name(shop: Shop, stock: Material, length: Length, width: Length | None) -> str:
    """Name one size of a stock: "3/4 in plywood, 4 × 8 ft"."""
    return f"{stock.name}, {store_size(length, width, shop.unit)}"


def size_of(kind: StockKind, stock: Material) -> str:
    """Return a kind's name without that of its stock: "4 × 8 ft", "offcut R1"."""
    return kind.name.removeprefix(f"{stock.name}, ")


def store_size(length: Length, width: Length | None, unit: str) -> str:
    """Sizes as stores say them: sheets in feet where they are whole, boards in feet; all in mm in a metric plan."""
    if unit == "mm":
        return Notation("mm").size(*(size for size in (width, length) if size is not None)).replace("≈", "")
    feet = [size.inches / 12 for size in (width, length) if size is not None]
    if all(size.denominator == 1 for size in feet):
        return f"{' × '.join(str(size) for size in feet)} ft"
    notation = Notation("in") if length.inches.denominator <= 64 else Notation("mm")
    return notation.size(*(size for size in (width, length) if size is not None))


def listed_price(shop: Shop, stock: Material, kind: StockKind) -> Money | None:
    """Return what one of a kind costs; None where the list has no price for it."""
    for entry in shop.prices.sizes_of(stock.name):
        if kind_name(shop, stock, entry.length, entry.width) == kind.name:
            return entry.price
    return None


def counts(result: Result) -> list[tuple[StockKind, int]]:
    """Return the kinds of stock that are used, and how many of each."""
    many: dict[str, int] = {}
    kinds: dict[str, StockKind] = {}
    for layout in result.layouts:
        many[layout.stock] = many.get(layout.stock, 0) + layout.copies
        kinds[layout.stock] = layout.kind
    return [(kinds[name], count) for name, count in many.items()]


def bought(result: Result) -> list[tuple[StockKind, int]]:
    """Return the kinds of stock that are bought, and how many of each."""
    return [(kind, count) for kind, count in counts(result) if not kind.on_hand]


def of_rack(shown: Iterable[OnHand], result: Result) -> list[OnHand]:
    """Return what of the rack is used, in the order of the cutting drawings."""
    by_name = {one.kind.name: one for one in shown}
    return [by_name[kind.name] for kind, _ in counts(result) if kind.name in by_name]
