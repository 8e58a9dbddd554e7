"""Whole sheets by diving, from the pool of all sheets filled so far and new ones at the prices of each step."""

from collections import Counter
from collections.abc import Sequence

from plankit.cutting.covering import Held, Pool, only_wanted
from plankit.cutting.diving import Dive
from plankit.cutting.pack import Pack
from plankit.cutting.pricing import Sheets
from plankit.cutting.purse import Purse

_SCALE = 2**30
_LOOK, _ENOUGH = 3000, 40


class SheetDive(Dive):
    """The program for one kind of sheet; a sheet may hold more than is wanted, which is left off it in the end."""

    exact = False

    def __init__(self, pool: Pool, sheets: Sheets) -> None:
        super().__init__(pool.group)
        self._pool, self._sheets = pool, sheets
        for kind, kinds in pool.sheets:
            self.add(kind, kinds)

    def priced(self, worth: Sequence[float], left: Sequence[int], purse: Purse) -> bool:
        """Add sheets worth more than they weigh, as far as a short look finds any."""
        weight = float(self.group.rooms[0].weight)
        prices = [int(one / weight * _SCALE) if left[n] > 0 else 0 for n, one in enumerate(worth)]
        found = self._sheets.above(prices, _SCALE + _SCALE // 10**5, min(_LOOK, purse.work), _ENOUGH, purse.stop)
        purse.work -= found.work
        new = False
        for kinds, placing in found.sets.items():
            if placing is not None:
                self._pool.keep(0, placing.spots)
                new |= self.add(0, kinds)
        return new

    def packed(self, taken: Counter[Held]) -> Pack:
        """Return the sheets taken, each with only what is still wanted."""
        return only_wanted(self._pool, sorted(taken.items()))
