"""How few sheets can do, from what pieces are worth at most on one sheet: exact, and stronger than area.

Give every piece a price. If no sheet, cut edge to edge, holds pieces worth more than K, then no fewer sheets will do
than the worth of all pieces divided by K, rounded up. Good prices come from the linear program over sheets known so
far (`covering`); sheets worth more than K are looked for among all (`pricing`) and, where there are any, added and new
prices asked for. Prices between those of the program and of a dual feasible function need fewer rounds (P. Wentges,
"Weighted Dantzig-Wolfe decomposition for linear mixed-integer programming", International Transactions in Operational
Research 4, 1997). Pieces may be left out of a bound, so small ones come in only where the large ones do not suffice.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from plankit.cutting.covering import Pool, prices
from plankit.cutting.placing import Placing, put
from plankit.cutting.pricing import Sheets
from plankit.cutting.purse import Purse
from plankit.cutting.together import Kinds
from plankit.cutting.whole_job import Group, Want

_SHARES = (Fraction(16, 100), Fraction(10, 100), Fraction(6, 100), Fraction(35, 1000), Fraction(2, 100), Fraction(0))
"""Pieces of at least such a share of the sheet are looked at first."""

FULL = 14
"""With more pieces than this on a sheet, area decides and no proof is tried."""

_SCALE = 2**30
_ROUND, _ENOUGH = 200_000, 100
_HAIR = 1e-6
_WIDEST, _MOST_PIECES = 2**40, 260


class SheetBound:
    """Proofs for one kind of sheet and what is wanted from it; what one attempt found out serves the next."""

    def __init__(self, group: Group, pool: Pool) -> None:
        self._group, self._pool = group, pool
        fine = max(group.rooms[0].along, group.rooms[0].across) <= _WIDEST
        self._parts = list(large_first(group, _SHARES, _MOST_PIECES)) if fine else []
        self._programs: dict[tuple[int, ...], _Program] = {}

    def whole(self) -> Sheets | None:
        """Return what prices sheets of all pieces, None where there are too many."""
        part = tuple(range(len(self._group.wants)))
        if part not in self._parts:
            return None
        if part not in self._programs:
            self._programs[part] = _Program(self._group, part)
        return self._programs[part].sheets

    def needs(self, number: int, purse: Purse) -> bool:
        """Say whether it is proven that so many sheets are needed; sheets found on the way go into the pool."""
        if number <= 1:
            return True
        for part in self._parts:
            program = self._programs.get(part)
            if program is None:
                program = self._programs[part] = _Program(self._group, part)
            program.learn(self._pool)
            proven = program.prove(number, purse)
            program.share(self._pool)
            if proven is not None or purse.empty:
                return bool(proven)
        return False


def large_first(group: Group, shares: Iterable[float | Fraction], most: int) -> Iterator[tuple[int, ...]]:
    """Give the places of the wants to look at: the large ones, then more and more.

    shares  of the largest sheet's area that a piece has at least, falling
    most    so many pieces are looked at together at most
    """
    area, last = max(room.area for room in group.rooms), 0
    for share in shares:
        found = tuple(n for n, want in enumerate(group.wants) if want.area >= share * area)
        if sum(group.wants[n].quantity for n in found) > most:
            return
        if len(found) > last:
            last = len(found)
            yield found


class _Program:
    """The linear program over sheets of some of the pieces."""

    def __init__(self, group: Group, part: tuple[int, ...]) -> None:
        self._group, self._part = group, part
        self._wants = tuple(group.wants[n] for n in part)
        self._needs = [want.quantity for want in self._wants]
        self.sheets = Sheets(group.rooms[0], self._wants)
        self._columns: dict[Kinds, None] = dict.fromkeys((n,) for n in range(len(part)))
        self._new: dict[Kinds, Placing] = {}
        taken, cap = self.sheets.measures[0]
        self._centre = [one / cap for one in taken]

    def learn(self, pool: Pool) -> None:
        """Take over the pool's sheets, without the pieces that are left out."""
        at = {n: place for place, n in enumerate(self._part)}
        known = (tuple(sorted(at[n] for n in kinds if n in at)) for _, kinds in pool.sheets)
        self._columns |= dict.fromkeys(one for one in known if one)

    def prove(self, number: int, purse: Purse) -> bool | None:
        """Return True where so many sheets are proven to be needed, False where time is up, None where they are not."""
        closer = 1.0
        while not purse.empty:
            columns = list(self._columns)
            sheets, worth = prices(columns, self._needs)
            purse.work -= len(columns)
            if sheets <= number - 1 + _HAIR:
                return None
            while not purse.empty:
                asked = self._between(worth, number, closer)
                total = sum(one * need for one, need in zip(asked, self._needs, strict=True))
                limit = (total - 1) // (number - 1)
                found = self.sheets.above(asked, limit, min(purse.work, _ROUND), _ENOUGH, purse.stop)
                purse.work -= found.work
                if not found.sets and found.sure:
                    return True
                if self._added(found.sets, worth):
                    break
                if closer == 0:
                    return False
                closer = closer / 2 if closer > 0.1 else 0.0
        return False

    def _between(self, worth: list[float], number: int, closer: float) -> list[int]:
        """Return whole prices between the program's and the centre's, worth enough for a proof with half the room."""
        mine = sum(a * b for a, b in zip(worth, self._needs, strict=True)) - (number - 1)
        other = sum(a * b for a, b in zip(self._centre, self._needs, strict=True)) - (number - 1)
        share = closer * min(0.6, 0.5 * mine / max(mine - other, _HAIR))
        return [
            max(0, int((share * a + (1 - share) * b) * _SCALE)) for a, b in zip(self._centre, worth, strict=True)
        ]

    def _added(self, found: dict[Kinds, Placing | None], worth: list[float]) -> bool:
        """Take over sheets; say whether any makes the program's own prices impossible."""
        cuts = False
        for kinds, placing in found.items():
            cuts |= kinds not in self._columns and sum(worth[n] for n in kinds) > 1 + _HAIR
            self._columns[kinds] = None
            if placing is not None:
                self._new[kinds] = placing
        return cuts

    def share(self, pool: Pool) -> None:
        """Put sheets found into the pool, filled up with the pieces that were left out."""
        others = [n for n in range(len(self._group.wants)) if n not in set(self._part)]
        for placing in self._new.values():
            spots = tuple(replace(spot, want=self._part[spot.want]) for spot in placing.spots)
            pool.keep(0, _filled(Placing(spots, placing.free), others, self._group.wants).spots)
        self._new.clear()


def _filled(placing: Placing, others: list[int], wants: tuple[Want, ...]) -> Placing:
    for n in others:
        for _ in range(wants[n].quantity):
            more = put(placing, wants[n], n)
            if more is None:
                break
            placing = more
    return placing
