"""Which pieces can be cut from one sheet together, edge to edge in any number of stages, worked out exactly.

The room a set of pieces needs is a row of corners: the widths and heights of which neither can be less. A set is cut
apart by one cut right across into two smaller sets, so its corners come from theirs (R. W. Haessler's and P. Y. Wang's
way of building cutting patterns from smaller ones; Wang, Operations Research 31, 1983).
"""

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import combinations, product
from operator import itemgetter
from typing import Any

from plankit.cutting.slicing import Spot
from plankit.cutting.whole_job import Room, Want

type Kinds = tuple[int, ...]
"""Pieces on one sheet: the position of each one's want, in order, as often as it lies there."""

type Corner = tuple[int, int]

_SLACK = 1e-9
"""Far more than areas in floating point can be off: nothing is left out that may find room."""

_LARGE = 6
"""Pieces from which on it pays to leave out the hopeless ways to part a set."""

MOST = 8
"""More pieces than this on one sheet are not worked out: the ways to part them double with every piece."""


class Together:
    """The room that sets of pieces need on one kind of sheet, each worked out once.

    few  what is known of two and three of them, if anything: it tells which ways to part a large set are hopeless
    """

    def __init__(self, room: Room, wants: tuple[Want, ...], few: "Few | None" = None) -> None:
        self.along, self.across = room.along, room.across
        self._wants = wants
        self.partings = 0
        self._few = few
        self._known: dict[Kinds, tuple[Corner, ...]] = {(n,): _least(_ways(room, want)) for n, want in enumerate(wants)}

    def corners(self, kinds: Kinds) -> tuple[Corner, ...]:
        """Return the least rooms the pieces need, narrowest first; none where the sheet is too small for them."""
        known = self._known.get(kinds)
        if known is None:
            known = self._known[kinds] = self._joined(kinds)
        return known

    def _joined(self, kinds: Kinds) -> tuple[Corner, ...]:
        found: set[Corner] = set()
        self.partings += 2 ** (len(kinds) - 1)
        hopeful = self._few is not None and len(kinds) >= _LARGE
        for one, other in self._few.hopeful(kinds) if self._few and hopeful else _partings(kinds):
            first = self.corners(one)
            second = self.corners(other) if first else ()
            if not second:
                return ()  # what does not go on a sheet alone does not with more
            beside = first[0][0] + second[0][0] <= self.along
            above = first[-1][1] + second[-1][1] <= self.across
            if not beside and not above:
                continue
            for a, b in first:
                for c, d in second:
                    if a + c <= self.along:
                        found.add((a + c, max(b, d)))
                    if b + d <= self.across:
                        found.add((max(a, c), b + d))
        return _least(found)

    def spots(self, kinds: Kinds) -> tuple[Spot, ...]:
        """Return where the pieces lie on the sheet."""
        return tuple(self._placed(kinds, self.corners(kinds)[0], 0, 0))

    def _placed(self, kinds: Kinds, corner: Corner, x: int, y: int) -> Iterator[Spot]:
        if len(kinds) == 1:
            way = next(way for way in self._wants[kinds[0]].ways if (way.along, way.across) == corner)
            yield Spot(kinds[0], way.turned, x, y, way.along, way.across)
            return
        one, other, first, second, beside = self._parted(kinds, corner)
        yield from self._placed(one, first, x, y)
        yield from self._placed(other, second, *((x + first[0], y) if beside else (x, y + first[1])))

    def _parted(self, kinds: Kinds, corner: Corner) -> tuple[Kinds, Kinds, Corner, Corner, bool]:
        for one, other in _partings(kinds):
            for a, b in self.corners(one):
                for c, d in self.corners(other):
                    for beside, room in ((True, (a + c, max(b, d))), (False, (max(a, c), b + d))):
                        if room == corner:
                            return one, other, (a, b), (c, d), beside
        raise AssertionError(kinds)


def _partings(kinds: Kinds) -> Iterator[tuple[Kinds, Kinds]]:
    """Give every way to part the pieces into two sets, each once; a single piece against the rest first."""
    if len(set(kinds)) == len(kinds):
        for one, other in _halves(len(kinds)):
            yield one(kinds), other(kinds)
        return
    seen = set()
    for one, other in _halves(len(kinds)):
        if one(kinds) not in seen:
            seen |= {one(kinds), other(kinds)}
            yield one(kinds), other(kinds)


@cache
def _insides(number: int) -> tuple[Any, Any, Any]:
    """Return for each half of so many pieces, then for each other half, which pieces, pairs and threes are in it."""
    import numpy as np

    rows = [*(one for one, _ in _rows(number)), *(other for _, other in _rows(number))]
    held = np.array([[n in row for n in range(number)] for row in rows])
    two, three = list(combinations(range(number), 2)), list(combinations(range(number), 3))
    return held, held[:, two].all(axis=2), held[:, three].all(axis=2)


@cache
def _rows(number: int) -> tuple[tuple[tuple[int, ...], tuple[int, ...]], ...]:
    """Return every way to part so many places, a single one against the rest first."""
    rows = []
    for marks in range(1, 2 ** (number - 1)):
        one = tuple(n for n in range(number) if marks >> n & 1)
        rows.append((one, tuple(n for n in range(number) if n not in one)))
    return tuple(sorted(rows, key=lambda row: (min(len(row[0]), len(row[1])), row)))


@cache
def _halves(number: int) -> tuple[tuple[Callable[[Kinds], Kinds], Callable[[Kinds], Kinds]], ...]:
    """Return what picks out each half, for every way to part so many."""
    return tuple((_pick(one), _pick(other)) for one, other in _rows(number))


def _pick(places: tuple[int, ...]) -> Callable[[Kinds], Kinds]:
    if len(places) == 1:
        return lambda kinds, place=places[0]: (kinds[place],)  # type: ignore[misc]
    return itemgetter(*places)


def _least(corners: Iterable[Corner]) -> tuple[Corner, ...]:
    found: list[Corner] = []
    for corner in sorted(corners):
        if not found or corner[1] < found[-1][1]:
            found.append(corner)
    return tuple(found)


class Few:
    """Which two, three and four pieces go on one sheet, worked out for all of them at once.

    What is narrowest though it may be as high as the sheet, and what is lowest though it may be as long, is enough to
    know of each set for joining it to another with a cut right across the sheet.
    """

    def __init__(self, room: Room, wants: tuple[Want, ...]) -> None:
        import numpy as np

        self._along, self._across = room.along, room.across
        self._areas = np.array([float(want.area) for want in wants])
        ways = [_ways(room, want) for want in wants]
        along = np.array([(one[0][0], one[-1][0]) for one in ways], dtype=np.int64)
        across = np.array([(one[0][1], one[-1][1]) for one in ways], dtype=np.int64)
        joined = list(self._joined(along, across))
        self._one = along.min(axis=1), across.min(axis=1)
        self._two = self._least(joined, (len(wants), len(wants)))
        self.pairs = self._two[0] < 2 * room.along + 1
        self._three = self._of_three(along, across, joined)
        self.triples = self._three[0] < 2 * room.along + 1

    def hopeful(self, kinds: Kinds) -> Iterator[tuple[Kinds, Kinds]]:
        """Give the ways to part the pieces in which both halves may find room beside or above each other.

        A half is no narrower than its narrowest pair or three, nor than its area over the sheet's width.
        """
        import numpy as np

        places = np.array(kinds)
        held, two, three = _insides(len(kinds))
        areas = held @ self._areas[places]
        hopes = np.zeros(len(held) // 2, bool)
        for side, (room, other) in enumerate(((self._along, self._across), (self._across, self._along))):
            pairs = self._two[side][tuple(places[at] for at in _of(len(kinds), 2))]
            threes = self._three[side][tuple(places[at] for at in _of(len(kinds), 3))]
            needs = np.maximum((held * self._one[side][places]).max(axis=1), (two * pairs).max(axis=1))
            needs = np.maximum(np.maximum(needs, (three * threes).max(axis=1)), areas / other)
            hopes |= needs[: len(hopes)] + needs[len(hopes) :] <= room * (1 + _SLACK)
        halves, seen = _halves(len(kinds)), set()
        for at in np.flatnonzero(hopes).tolist():
            one, rest = halves[at][0](kinds), halves[at][1](kinds)
            if one not in seen:
                seen |= {one, rest}
                yield one, rest

    def _joined(self, along: Any, across: Any) -> Iterator[tuple[Any, Any]]:
        """Give width and height of any two, in each way of each, beside and above each other."""
        import numpy as np

        for a, b in product(range(2), repeat=2):
            wide, other = along[:, a, None], along[:, b]
            high, above = across[:, a, None], across[:, b]
            yield wide + other, np.maximum(high, above)
            yield np.maximum(wide, other), high + above

    def _least(self, joined: Iterable[tuple[Any, Any]], shape: tuple[int, ...]) -> tuple[Any, Any]:
        import numpy as np

        narrow, low = np.full(shape, 2 * self._along + 1), np.full(shape, 2 * self._across + 1)
        for wide, high in joined:
            fits = (wide <= self._along) & (high <= self._across)
            np.minimum(narrow, wide, out=narrow, where=fits)
            np.minimum(low, high, out=low, where=fits)
        return narrow, low

    def _of_three(self, along: Any, across: Any, joined: list[tuple[Any, Any]]) -> tuple[Any, Any]:
        import numpy as np

        def rooms() -> Iterator[tuple[Any, Any]]:
            for wide, high in joined:
                for a in range(2):
                    one, tall = along[:, a, None, None], across[:, a, None, None]
                    yield one + wide, np.maximum(tall, high)
                    yield np.maximum(one, wide), tall + high

        narrow, low = self._least(rooms(), (len(along),) * 3)
        narrow, low = (
            np.minimum(np.minimum(one, one.transpose(1, 0, 2)), one.transpose(1, 2, 0)) for one in (narrow, low)
        )
        return narrow, low

    def four(self, a: Any, b: Any, c: Any, d: Any) -> Any:
        """Say for rows of four pieces whether they go on one sheet."""
        fits: Any = False
        for one, rest in ((a, (b, c, d)), (b, (a, c, d)), (c, (a, b, d)), (d, (a, b, c))):
            fits |= self._one[0][one] + self._three[0][rest] <= self._along
            fits |= self._one[1][one] + self._three[1][rest] <= self._across
        for two, others in (((a, b), (c, d)), ((a, c), (b, d)), ((a, d), (b, c))):
            fits |= self._two[0][two] + self._two[0][others] <= self._along
            fits |= self._two[1][two] + self._two[1][others] <= self._across
        return fits


@cache
def _of(number: int, many: int) -> tuple[Any, ...]:
    import numpy as np

    return tuple(np.array(list(combinations(range(number), many))).T)


def _ways(room: Room, want: Want) -> list[Corner]:
    return [(w.along, w.across) for w in want.ways if w.along <= room.along and w.across <= room.across]
