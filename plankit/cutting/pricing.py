"""Which sets of pieces, cut from one sheet, are worth more than a limit: some of them, or none for certain.

Every piece has a price in whole numbers. Sets grow piece by piece, largest first. A set grows on only while what
could still be added, by its area and by other measures that no sheet holds more of (dual feasible functions), may lift
it above the limit, and while any three of its pieces go on one sheet together. So where nothing is found, no sheet
holds more than the limit: that is certain, and a bound may rest on it.
"""

from collections import Counter
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from plankit.cutting.bounds import Measured, measures
from plankit.cutting.placing import Placing, placed, put
from plankit.cutting.purse import is_past
from plankit.cutting.together import MOST, Few, Kinds, Together
from plankit.cutting.whole_job import Room, Want

_MEASURES = 4
_STEPS = 4096
_CHUNK = 1024
_FOURS = 7
_HARD = 25
"""Work that working a set out exactly counts as, beside 1 for each set looked at."""


@dataclass(slots=True)
class Worth:
    """Sets worth more than the limit, with how they lie on a sheet; None where nobody knows whether they fit.

    sure  whether there are no others: nothing found and sure means that there are none
    work  how much work it was
    """

    sets: dict[Kinds, Placing | None]
    sure: bool = False
    work: int = 0


@dataclass(frozen=True, slots=True)
class _Rows:
    """Sets of equally many pieces: a row each, what it is worth, what may still be added, what room is left."""

    last: Any
    worth: Any
    left: Any
    allowed: Any
    held: Any

    def taken(self, chosen: Any) -> "_Rows":
        return _Rows(self.last[chosen], self.worth[chosen], self.left[chosen], self.allowed[chosen], self.held[chosen])


class Sheets:
    """One kind of sheet and what is wanted from it, made ready to be priced again and again."""

    def __init__(self, room: Room, wants: tuple[Want, ...]) -> None:
        import numpy as np

        self.measures = measures(wants, room.along, room.across, _MEASURES)
        self._room, self._wants = room, wants
        self._few = Few(room, wants)
        self._together = Together(room, wants, self._few)
        coarse = [_coarse(one) for one in self.measures]
        order = sorted(range(len(wants)), key=lambda n: (-wants[n].area, n))
        most = [min(wants[n].quantity, room.area // wants[n].area) for n in range(len(wants))]
        self._items = np.array([n for n in order for _ in range(most[n])])
        self._first = np.array([k for n in order for k in range(most[n])]) == 0
        self._volumes = np.array([taken for taken, _ in coarse])[:, self._items]
        self._caps = np.array([cap for _, cap in coarse])
        self._known: dict[Kinds, Placing | None] = {}
        self._never: set[Kinds] = set()

    def above(self, prices: list[int], limit: int, work: int, enough: int, stop: float | None = None) -> Worth:
        """Return sets of pieces that go on one sheet and are worth more than a limit.

        prices  of one of each want, 0 or more
        work    how much work may be done
        enough  stop once so many sets are found
        stop    moment of the clock to stop at; None for none
        """
        import numpy as np

        found = Worth({})
        price = np.array(prices, dtype=np.int64)[self._items]
        growing = _Growing(price, self._volumes, self._caps, limit)
        waiting = [self._nothing()]
        while waiting:
            rows = self._grown(waiting.pop(), growing, found)
            found.work += len(rows.last) + 1
            over = rows.worth > limit
            for row in rows.held[over].tolist():
                if not is_past(stop):
                    self._note(row, prices, found)
            late = is_past(stop)
            if len(found.sets) >= enough or found.work > work or late:
                return found
            rows = rows.taken(~over & self._possible(rows.held))
            waiting += [rows.taken(slice(at, at + _CHUNK)) for at in range(0, len(rows.last), _CHUNK)]
        found.sure = True
        return found

    @property
    def partings(self) -> int:
        """How many ways to part sets of pieces have been looked at, all in all."""
        return self._together.partings

    def _nothing(self) -> _Rows:
        import numpy as np

        free = np.ones((1, len(self._wants)), bool)
        return _Rows(np.full(1, -1), np.zeros(1, np.int64), self._caps[None, :], free, np.zeros((1, 0), np.int64))

    def _grown(self, rows: _Rows, growing: "_Growing", found: Worth) -> _Rows:
        """Return every set with one piece more, further on in the order, that may come above the limit."""
        import numpy as np

        places = np.arange(len(self._items))
        next_one = self._first | (places == rows.last[:, None] + 1)
        can = rows.allowed[:, self._items] & (places > rows.last[:, None]) & next_one
        parent, item = np.nonzero(growing.may(rows.worth, rows.left, can))
        found.work += len(parent)
        kind = self._items[item]
        allowed = rows.allowed[parent] & self._few.pairs[kind]
        for n in range(rows.held.shape[1]):
            allowed &= self._few.triples[kind, rows.held[parent, n]]
        new = _Rows(
            item, rows.worth[parent] + growing.price[item], rows.left[parent] - self._volumes[:, item].T, allowed,
            np.concatenate([rows.held[parent], kind[:, None]], axis=1),
        )  # fmt: skip
        for m in range(len(self._caps)):
            open_to = new.allowed[:, self._items] & (places > new.last[:, None])
            new = new.taken(growing.may_by_rate(m, new.worth, new.left, open_to))
        return new.taken(self._fours(new.held))

    def _fours(self, held: Any) -> Any:
        """Say for each set whether any four of it, the newest among them, go on one sheet."""
        import numpy as np

        fits = np.ones(len(held), bool)
        if 4 <= held.shape[1] <= _FOURS:
            for a, b, c in combinations(range(held.shape[1] - 1), 3):
                fits &= self._few.four(held[:, a], held[:, b], held[:, c], held[:, -1])
        return fits

    def _possible(self, held: Any) -> Any:
        import numpy as np

        if not self._never or held.shape[1] < 4:
            return np.ones(len(held), bool)
        return np.array([tuple(row) not in self._never for row in held.tolist()], bool)

    def _note(self, row: list[int], prices: list[int], found: Worth) -> None:
        """Note a set above the limit, filled up with what else finds room; nothing where it fits no sheet."""
        key = tuple(sorted(row))
        if key not in self._known:
            found.work += _HARD
            self._known[key] = self._placed(row, key)
        placing = self._known[key]
        if placing is not None:
            key, placing = self._filled(key, placing, prices)
        elif any(tuple(row[:n]) in self._never for n in range(4, len(row) + 1)):
            return
        found.sets[key] = placing

    def _placed(self, row: list[int], key: Kinds) -> Placing | None:
        """Return how the pieces lie on a sheet; None where they do not go on one, or nobody knows."""
        heads = [tuple(row[:n]) for n in range(4, min(len(row), MOST) + 1)]
        if any(head in self._never for head in heads):
            return None
        found = placed(self._room, self._wants, key)
        if found is not None:
            return found
        for head in heads:
            if not self._together.corners(tuple(sorted(head))):
                self._never.add(head)
                return None
        return self._from_corner(key) if len(key) <= MOST else None

    def _from_corner(self, key: Kinds) -> Placing:
        along, across = self._together.corners(key)[0]
        room = self._room
        free = ((along, 0, room.along - along, room.across), (0, across, along, room.across - across))
        return Placing(self._together.spots(key), tuple(one for one in free if one[2] and one[3]))

    def _filled(self, key: Kinds, placing: Placing, prices: list[int]) -> tuple[Kinds, Placing]:
        have = Counter(key)
        for kind in sorted(range(len(self._wants)), key=lambda kind: (-prices[kind], kind)):
            while have[kind] < self._wants[kind].quantity and (more := put(placing, self._wants[kind], kind)):
                placing = more
                have[kind] += 1
        return tuple(sorted(have.elements())), placing


class _Growing:
    """What pieces from each place in the order on may add at most, for what is left of each measure."""

    def __init__(self, price: Any, volumes: Any, caps: Any, limit: int) -> None:
        self.price, self.limit, self._volumes = price, limit, volumes
        self._tables = [_table(price, volume, int(cap)) for volume, cap in zip(volumes, caps, strict=True)]
        self._rates = [_by_rate(price, volume) for volume in volumes]

    def may(self, worth: Any, left: Any, can: Any) -> Any:
        """Say for each set and each piece that can be added whether it may come above the limit."""
        import numpy as np

        places = np.arange(1, len(self.price) + 1)
        need = self.limit - worth[:, None] - self.price
        for m, table in enumerate(self._tables):
            rest = left[:, m, None] - self._volumes[m]
            can &= (rest >= 0) & (table[places, np.maximum(rest, 0)] > need)
        return can

    def may_by_rate(self, m: int, worth: Any, left: Any, open_to: Any) -> Any:
        """Say for each set whether what may be added, in fractions and dearest first, may lift it above the limit.

        Prices are far below what floating point tells apart, so one unit of slack makes the sums safe.
        """
        import numpy as np

        dense, sized, rate, loose = self._rates[m]
        takes = open_to[:, dense] * sized
        before = np.cumsum(takes, axis=1) - takes
        taken = np.clip(left[:, m, None] - before, 0, takes)
        return worth + taken @ rate + open_to @ loose > self.limit - 1


def _coarse(measure: Measured) -> Measured:
    """Return a measure in fewer steps: what is taken up rounded down, so that nothing that fits is ruled out."""
    taken, cap = measure
    if cap <= _STEPS:
        return measure
    return tuple(one * _STEPS // cap for one in taken), _STEPS


def _table(price: Any, volume: Any, cap: int) -> Any:
    """Return what the pieces from each on are worth together at most, for each amount of a measure left."""
    import numpy as np

    table = np.zeros((len(price) + 1, cap + 1), np.int64)
    for j in range(len(price) - 1, -1, -1):
        table[j] = table[j + 1]
        v = int(volume[j])
        if v <= cap:
            np.maximum(table[j, v:], table[j + 1, : cap + 1 - v] + price[j], out=table[j, v:])
    return table


def _by_rate(price: Any, volume: Any) -> tuple[Any, Any, Any, Any]:
    """Return the pieces by worth for what they take up, dearest first; those that take up nothing apart."""
    import numpy as np

    rate = np.where(volume > 0, price / np.maximum(1, volume), 0.0)
    dense = np.argsort(-rate, kind="stable")
    return dense, volume[dense], rate[dense], np.where(volume > 0, 0, price).astype(float)
