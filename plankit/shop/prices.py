"""What a shop sells, in which sizes and packs, and what it costs."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from heapq import heappop, heappush

from plankit.stock import slug
from plankit.units import Length, Money, tidy


@dataclass(frozen=True, slots=True)
class StockPrice:
    """One size of a board or sheet on sale; a board has no `width`."""

    stock: str
    length: Length
    width: Length | None
    price: Money

    @property
    def key(self) -> str:
        """The key of the stock, as `Sheet.key` and `Lumber.key` write it."""
        return slug(self.stock)


@dataclass(frozen=True, slots=True)
class Pack:
    """One pack of hardware, glue, banding or finish.

    holds    how much is in it, in units of `of`: 100 screws, 16 fl oz, 25 ft
    sold_as  how the store calls it: "pack of 100", "bottle, 16 fl oz"
    """

    item: str
    holds: Fraction
    of: str
    sold_as: str
    price: Money


@dataclass(frozen=True, slots=True)
class PriceList:
    """The author's own prices; nothing is looked up or guessed."""

    currency: str = "USD"
    stocks: tuple[StockPrice, ...] = ()
    packs: tuple[Pack, ...] = ()

    def price_of(self, stock: str, length: Length, width: Length | None = None) -> Money | None:
        """Return the price of exactly this size; None where the list has none."""
        for entry in self.sizes_of(stock):
            if (entry.length, entry.width) == (length, width):
                return entry.price
        return None

    def sizes_of(self, stock: str) -> tuple[StockPrice, ...]:
        """Return every size a stock is sold in, in the order of the list."""
        return tuple(entry for entry in self.stocks if entry.key == slug(stock))

    def packs_of(self, item: str) -> tuple[Pack, ...]:
        """Return every pack of an item, in the order of the list."""
        wanted = _folded(item)
        return tuple(pack for pack in self.packs if _folded(pack.item) == wanted)

    def cheapest_packs(self, item: str, needed: int | Fraction) -> tuple[tuple[Pack, int], ...]:
        """Return which packs to buy, and how many of each, so that `needed` is covered at the least price.

        Where two ways cost the same, the one with more left over, then with fewer packs, is taken. Empty
        where the list has no pack of it or nothing is needed.
        """
        packs = self.packs_of(item)
        if not packs or needed <= 0:
            return ()
        best = _cheapest(packs, Fraction(needed))
        return tuple((pack, best.count(pack)) for pack in packs if pack in best)


def _cheapest(packs: tuple[Pack, ...], needed: Fraction) -> tuple[Pack, ...]:
    """Fill up from nothing, keeping the best way to every amount: smaller amounts come first."""
    best: dict[Fraction, tuple[Pack, ...]] = {Fraction(0): ()}
    amounts = [Fraction(0)]
    while amounts[0] < needed:
        covered = heappop(amounts)
        for pack in packs:
            more, way = covered + pack.holds, (*best[covered], pack)
            if more not in best:
                heappush(amounts, more)
            if more not in best or _rank(way) < _rank(best[more]):
                best[more] = way
    return min((best[amount] for amount in amounts), key=_rank)


def _rank(way: tuple[Pack, ...]) -> tuple[Fraction, Fraction, int]:
    cost = sum((pack.price.amount for pack in way), Fraction(0))
    return cost, -sum((pack.holds for pack in way), Fraction(0)), len(way)


@lru_cache(maxsize=1024)
def _folded(item: str) -> str:
    return tidy(item).replace("×", "x").replace(" ", "").casefold()
