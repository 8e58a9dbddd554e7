"""Which numbers of sheets of several kinds do not suffice, by prices of pieces and of sheets: exact.

Give every piece a price and every kind of sheet a price. If no sheet of a kind, cut edge to edge, holds pieces worth
more than that kind's price, and the sheets together are worth less than the pieces, then those sheets do not suffice.
Good prices come from the linear program that asks how many times over the sheets would be needed (see `sheet_bound`,
which does the same for one kind). It is solved in floating point; the prices are taken over as whole numbers.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from plankit.cutting.covering import Held, Pool, program
from plankit.cutting.numbers import Numbers
from plankit.cutting.pricing import Sheets
from plankit.cutting.purse import Purse
from plankit.cutting.sheet_bound import FULL, large_first
from plankit.cutting.slicing import Spot
from plankit.cutting.whole_job import Group, Want

_SHARES = (0.2, 0.1, 0.05, 0.025, 0.0)
"""Pieces of at least such a share of the largest sheet are looked at first: a bound may leave pieces out."""

_SCALE = 2**30
_HAIR = 1e-6
_ROUND, _ENOUGH = 20_000, 40
_MOST_PIECES, _WIDEST = 120, 2**40

type _Prices = tuple[float, list[float], list[float]]


class KindsBound:
    """Proofs for the sheets of one group; what one attempt found out serves the next."""

    def __init__(self, group: Group, pool: Pool) -> None:
        self._group, self._pool = group, pool
        self._programs: dict[tuple[int, ...], _Program] = {}

    def refuses(self, numbers: Numbers, purse: Purse) -> bool:
        """Say whether it is proven that so many sheets of each kind do not suffice."""
        for part in _parts(self._group, sum(numbers)):
            if part not in self._programs:
                self._programs[part] = _Program(self._group, part)
            program = self._programs[part]
            program.learn(self._pool)
            if program.refuses(numbers, purse):
                return True
            program.share(self._pool)
            if purse.empty:
                return False
        return False


def _parts(group: Group, sheets: int) -> Iterable[tuple[int, ...]]:
    """The places of the wants to look at, none where the sheets are too large to price."""
    if max(max(room.along, room.across) for room in group.rooms) > _WIDEST:
        return ()
    return large_first(group, _SHARES, min(_MOST_PIECES, FULL * sheets))


class _Program:
    """The linear program over sheets of every kind with some of the pieces."""

    def __init__(self, group: Group, part: tuple[int, ...]) -> None:
        self._group, self._part = group, part
        self._needs = [group.wants[n].quantity for n in part]
        self._fits = [[at for at, n in enumerate(part) if k in group.wants[n].kinds] for k in range(len(group.rooms))]
        self._sheets: dict[int, Sheets] = {}
        self._columns: dict[Held, None] = {(k, (at,)): None for k, fits in enumerate(self._fits) for at in fits}
        self._new: list[tuple[int, tuple[Spot, ...]]] = []

    def learn(self, pool: Pool) -> None:
        """Take over the pool's sheets, without the pieces that are left out."""
        at = {n: place for place, n in enumerate(self._part)}
        known = ((kind, tuple(sorted(at[n] for n in kinds if n in at))) for kind, kinds in pool.sheets)
        self._columns |= dict.fromkeys(one for one in known if one[1])

    def refuses(self, numbers: Numbers, purse: Purse) -> bool:
        """Say whether so many of each kind are proven not to suffice."""
        while not purse.empty:
            times, worth, cost = self._prices(numbers)
            purse.work -= len(self._columns)
            if times <= 1 + _HAIR:
                return False
            asked = [int(one * _SCALE) for one in worth]
            costs = [int(one * _SCALE) for one in cost]
            spent = sum(one * number for one, number in zip(costs, numbers, strict=True))
            total = sum(one * need for one, need in zip(asked, self._needs, strict=True))
            if spent <= 0 or total <= 1:
                return False
            sure, cuts = True, False
            for kind, number in enumerate(numbers):
                if number and self._fits[kind]:
                    # with costs in this proportion all sheets together are worth less than the pieces
                    limit = costs[kind] * (total - 1) // spent
                    mine, new = self._dearer(kind, asked, limit, purse)
                    sure, cuts = sure and mine, cuts or new
            if sure and not cuts:
                return True
            if not cuts:
                return False
        return False

    def _dearer(self, kind: int, asked: list[int], limit: int, purse: Purse) -> tuple[bool, bool]:
        """Add sheets of a kind worth more than a limit; say whether there are no others, and whether there were new."""
        fits = self._fits[kind]
        if kind not in self._sheets:
            wants = tuple(self._lying(self._group.wants[self._part[at]], kind) for at in fits)
            self._sheets[kind] = Sheets(self._group.rooms[kind], wants)
        mine = [asked[at] for at in fits]
        before = self._sheets[kind].partings
        found = self._sheets[kind].above(mine, limit, min(purse.work, _ROUND), _ENOUGH, purse.stop)
        purse.work -= found.work + (self._sheets[kind].partings - before) // 2
        new = False
        for kinds, placing in found.sets.items():
            held = (kind, tuple(sorted(fits[n] for n in kinds)))
            new |= held not in self._columns
            self._columns[held] = None
            if placing is not None:
                spots = tuple(replace(spot, want=self._part[fits[spot.want]]) for spot in placing.spots)
                self._new.append((kind, spots))
        return found.sure and not found.sets, new

    def _lying(self, want: Want, kind: int) -> Want:
        """Return a want with only the ways that fit a kind of sheet."""
        room = self._group.rooms[kind]
        return replace(want, ways=tuple(w for w in want.ways if w.along <= room.along and w.across <= room.across))

    def share(self, pool: Pool) -> None:
        """Put sheets found into the pool."""
        for kind, spots in self._new:
            pool.keep(kind, spots)
        self._new.clear()

    def _prices(self, numbers: Numbers) -> _Prices:
        """Return how many times over the sheets are needed, what pieces are worth and what sheets cost then."""
        highs = program()
        for need in self._needs:
            highs.addRow(float(need), 1e30, 0, [], [])
        for _ in numbers:
            highs.addRow(0.0, 1e30, 0, [], [])
        first = len(self._needs)
        on = [kind for kind, number in enumerate(numbers) if number]
        highs.addCol(1.0, 0.0, 1e30, len(on), [first + kind for kind in on], [float(numbers[kind]) for kind in on])
        for kind, kinds in self._columns:
            if numbers[kind]:
                counts = sorted(Counter(kinds).items())
                rows = [*(n for n, _ in counts), first + kind]
                highs.addCol(0.0, 0.0, 1e30, len(rows), rows, [*(float(c) for _, c in counts), -1.0])
        highs.run()
        duals = [max(0.0, one) for one in highs.getSolution().row_dual]
        return float(highs.getInfo().objective_function_value), duals[:first], duals[first:]
