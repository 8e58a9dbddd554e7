"""Whether pieces go on so many boards of each length: one board after another is completed in every way worth trying.

The longest piece left must lie on some board. With it goes a set of pieces after which no other finds room: whatever
else might lie there could be moved there. What a board wastes is taken from what all boards together may waste (after
R. E. Korf, "A new algorithm for optimal bin packing", Proceedings of AAAI 2002). Whole numbers only: a no is a proof.
"""

from collections.abc import Iterator
from itertools import accumulate

from plankit.cutting.numbers import Numbers
from plankit.cutting.pack import Pack, Sheet
from plankit.cutting.purse import Purse
from plankit.cutting.slicing import Spot
from plankit.cutting.together import Kinds
from plankit.cutting.whole_job import Group

type _Left = tuple[int, ...]
type _Cut = tuple[int, Kinds]


class _TooMuch(Exception):  # noqa: N818 - no error: the purse is empty
    pass


class Completing:
    """The search for one group of boards; what has failed once is not tried again."""

    def __init__(self, group: Group, purse: Purse) -> None:
        self._rooms = group.rooms
        self._sizes = [want.ways[0].along for want in group.wants]
        self._kinds = [want.kinds for want in group.wants]
        self._wanted = tuple(want.quantity for want in group.wants)
        self._purse = purse
        self._failed: set[tuple[_Left, Numbers]] = set()

    def fill(self, numbers: Numbers) -> tuple[Pack | None, bool]:
        """Return a packing on so many boards of each kind, and whether the answer, a no as well, is certain."""
        slack = sum(room.along * number for room, number in zip(self._rooms, numbers, strict=True))
        slack -= sum(size * number for size, number in zip(self._sizes, self._wanted, strict=True))
        try:
            found = self._go(self._wanted, numbers, slack)
        except _TooMuch:
            return None, False
        return (None if found is None else Pack(tuple(self._sheet(one) for one in found))), True

    def _sheet(self, one: _Cut) -> Sheet:
        kind, kinds = one
        ends = accumulate((self._sizes[n] for n in kinds), initial=0)
        spots = (Spot(n, False, at, 0, self._sizes[n], 1) for n, at in zip(kinds, ends, strict=False))
        return Sheet(kind, 1, tuple(spots))

    def _go(self, left: _Left, boards: Numbers, slack: int) -> tuple[_Cut, ...] | None:
        longest = next((n for n, number in enumerate(left) if number), None)
        if longest is None:
            return ()
        if slack < 0 or (left, boards) in self._failed:
            return None
        for waste, kind, counts in self._completions(left, boards, slack, longest):
            rest = tuple(a - b for a, b in zip(left, counts, strict=True))
            fewer = tuple(number - (n == kind) for n, number in enumerate(boards))
            found = self._go(rest, fewer, slack - waste)
            if found is not None:
                return ((kind, tuple(n for n, number in enumerate(counts) for _ in range(number))), *found)
        self._failed.add((left, boards))
        return None

    def _completions(
        self, left: _Left, boards: Numbers, slack: int, longest: int
    ) -> list[tuple[int, int, _Left]]:
        """Return what a board with the longest piece may hold: waste, kind and pieces, the least waste first."""
        found = []
        for kind in sorted(self._kinds[longest]):
            room = self._rooms[kind].along
            if not boards[kind] or self._sizes[longest] > room:
                continue
            open_to = [n for n in range(longest, len(left)) if left[n] and kind in self._kinds[n]]
            behind = [*accumulate((self._sizes[n] * left[n] for n in reversed(open_to)), initial=0)][::-1]
            for waste, taken in self._subsets(left, (open_to, behind), 0, room, slack):
                if taken.get(longest, 0):
                    found.append((waste, kind, tuple(taken.get(n, 0) for n in range(len(left)))))
        return sorted(found, key=lambda one: (one[0], one[1], tuple(-n for n in one[2])))

    def _subsets(
        self, left: _Left, offered: tuple[list[int], list[int]], at: int, room: int, slack: int
    ) -> Iterator[tuple[int, dict[int, int]]]:
        """Give sets of pieces from here on that leave no more than the slack, and no room for another."""
        self._purse.work -= 1
        if self._purse.work < 0 or (self._purse.work % 256 == 0 and self._purse.empty):
            raise _TooMuch
        open_to, behind = offered
        if behind[at] < room - slack:
            return
        if at == len(open_to):
            yield room, {}
            return
        n = open_to[at]
        size, most = self._sizes[n], min(left[n], room // self._sizes[n])
        for number in range(most, -1 if at else 0, -1):
            for waste, taken in self._subsets(left, offered, at + 1, room - number * size, slack):
                if number == left[n] or waste < size:
                    yield waste, {n: number, **taken} if number else taken
