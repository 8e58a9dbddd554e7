"""Boards by column generation: the exact bound of the linear program, and new boards for diving.

P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
(1961). Every piece has a price in whole numbers; the dearest way to fill a board at those prices is worked out exactly,
so the bound is exact whatever the program's floating point says.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, count

from plankit.cutting.covering import Held
from plankit.cutting.diving import Dive
from plankit.cutting.pack import Pack, Sheet
from plankit.cutting.purse import Purse
from plankit.cutting.slicing import Spot
from plankit.cutting.together import Kinds
from plankit.cutting.whole_job import Group

_SCALE = 2**30
_AT_ONCE = 6
_LONGEST, _MOST_CELLS = 2_000_000, 400_000_000
_HEAVY = 40_000_000
_HAIR = 1e-7
_COARSE, _OFTEN = 12_000, 12
"""Steps to a long board where it is first looked at in coarse ones, and rounds after which it is in fine ones."""


def suits(group: Group) -> bool:
    """Whether boards are so few in kind and short in whole numbers that this is worth trying."""
    longest = max(room.along for room in group.rooms)
    return (
        all(len(want.kinds) == len(group.rooms) for want in group.wants)
        and all(room.most >= group.count and room.weight > 0 for room in group.rooms)
        and longest <= _LONGEST
        and longest * len(group.wants) <= _MOST_CELLS
    )


def is_heavy(group: Group) -> bool:
    """Whether one look at all boards takes so long that the solver's own columns are to be had first."""
    return max(room.along for room in group.rooms) * len(group.wants) > _HEAVY


class Boards(Dive):
    """The program for one group of boards, and the weight nothing can do with less: `bound`."""

    def __init__(self, group: Group) -> None:
        super().__init__(group)
        self._sizes = [want.ways[0].along for want in group.wants]
        self.bound = Fraction(0)
        self._step = -(-max(room.along for room in group.rooms) // _COARSE)
        for n, size in enumerate(self._sizes):
            room = self._lightest(size)
            self.add(room, (n,) * min(self.wanted[n], group.rooms[room].along // size))

    def prove(self, purse: Purse, enough: Fraction | None = None) -> Fraction:
        """Return the weight no cutting can do with less, as far as the purse allows to raise it.

        enough  a bound above this serves as well as the best
        """
        for number in count(1):
            value, _, worth = self.solved()
            if self._step > 1 and number % _OFTEN == 0:
                self._raised(self._prices(worth), self._added(self._prices(worth), self.wanted, purse, 1)[1])
            if purse.empty or (enough is not None and self.bound > enough):
                break
            if not self.priced(worth, self.wanted, purse) or value <= float(self.bound) * (1 + _HAIR):
                break
        return self.bound

    def _prices(self, worth: Sequence[float]) -> list[int]:
        first = float(self.group.rooms[0].weight)
        return [int(one / first * _SCALE) for one in worth]

    def _raised(self, prices: list[int], ratio: Fraction) -> None:
        total = sum(price * need for price, need in zip(prices, self.wanted, strict=True))
        if ratio:
            self.bound = max(self.bound, total / ratio)

    def priced(self, worth: Sequence[float], left: Sequence[int], purse: Purse) -> bool:
        """Add the dearest boards at those prices; where all pieces are asked for, raise the bound by them.

        Long boards are looked at in coarse steps first, on which pieces are a little longer than they are.
        """
        prices = self._prices(worth)
        if self._step > 1:
            new, _ = self._added(prices, left, purse, self._step)
            if new or list(left) != self.wanted:
                return new
        new, ratio = self._added(prices, left, purse, 1)
        if list(left) == self.wanted:
            self._raised(prices, ratio)
        return new

    def _added(self, prices: list[int], left: Sequence[int], purse: Purse, step: int) -> tuple[bool, Fraction]:
        """Add the dearest boards in such steps; return whether any is new, and the worth of a unit of weight."""
        first = self.group.rooms[0].weight
        sizes = [-(-size // step) for size in self._sizes]
        ratio, new = Fraction(0), False
        for n, room in enumerate(self.group.rooms):
            enough = room.weight / first * _SCALE * (1 + Fraction(1, 10**7))
            rest = list(prices)
            for turn in range(_AT_ONCE):
                if turn and purse.empty:
                    break
                fine = step < self._step
                value, kinds = dearest(room.along // step, sizes, rest, left, only_worth=fine)
                purse.work -= room.along // step * len(prices) // 2000
                ratio = max(ratio, value / room.weight) if turn == 0 else ratio
                if value <= enough or fine:
                    break
                new |= self.add(n, kinds)
                for kind in kinds:
                    rest[kind] = 0  # the next board is one of other pieces
        return new, ratio

    def singles(self, left: Sequence[int]) -> None:
        """Add a board with one piece of each that is left: it can be cut so, if need be."""
        for n, size in enumerate(self._sizes):
            if left[n]:
                self.add(self._lightest(size), (n,))

    def packed(self, taken: Counter[Held]) -> Pack:
        """Return the boards taken, each with only what is still wanted, end to end."""
        left, sheets = list(self.wanted), []
        for (room, kinds), times in sorted(taken.items()):
            whole = min(times, *(left[n] // number for n, number in Counter(kinds).items()))
            for copies in (whole, *(1,) * (times - whole)):
                mine = _still(kinds, left) if copies else ()
                for n in mine:
                    left[n] -= copies
                if mine:
                    sheets.append(Sheet(room, copies, self._end_to_end(mine)))
        return Pack(tuple(sheets))

    def _end_to_end(self, kinds: Kinds) -> tuple[Spot, ...]:
        ends = accumulate((self._sizes[n] for n in kinds), initial=0)
        return tuple(Spot(n, False, at, 0, self._sizes[n], 1) for n, at in zip(kinds, ends, strict=False))

    def _lightest(self, size: int) -> int:
        rooms = self.group.rooms
        return min((n for n in range(len(rooms)) if rooms[n].along >= size), key=lambda n: (rooms[n].weight, n))


def _still(kinds: Kinds, left: Sequence[int]) -> Kinds:
    """Return those of the pieces that are still wanted."""
    return tuple(n for n, number in sorted(Counter(kinds).items()) for _ in range(min(number, left[n])))


def dearest(
    room: int, sizes: Sequence[int], prices: Sequence[int], left: Sequence[int], *, only_worth: bool = False
) -> tuple[int, Kinds]:
    """Return what the dearest pieces that go on one board together are worth, and which they are: exactly.

    room                 length of the board
    sizes, prices, left  of each want: length with its kerf, price, how many there are
    only_worth           leave out which pieces they are
    """
    import numpy as np

    best = np.zeros(room + 1, np.int64)
    bundles = [
        (n, times)
        for n, size in enumerate(sizes)
        if prices[n] > 0
        for times in _bundles(min(left[n], room // size))
    ]
    better = []
    for n, times in bundles:
        size = sizes[n] * times
        with_it = best[: room + 1 - size] + prices[n] * times
        if only_worth:
            np.maximum(best[size:], with_it, out=best[size:])
            continue
        mark = with_it > best[size:]
        better.append(mark)
        best[size:][mark] = with_it[mark]
    kinds: list[int] = []
    at = room
    if only_worth:
        return int(best[room]), ()
    for (n, times), mark in zip(reversed(bundles), reversed(better), strict=True):
        size = sizes[n] * times
        if at >= size and mark[at - size]:
            kinds += [n] * times
            at -= size
    return int(best[room]), tuple(sorted(kinds))


def _bundles(number: int) -> list[int]:
    """Return sizes of bundles from which any number up to this can be put together: 1, 2, 4, … and the rest."""
    found, size = [], 1
    while number > 0:
        found.append(min(size, number))
        number -= size
        size *= 2
    return found
