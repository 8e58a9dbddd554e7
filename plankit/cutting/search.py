"""Looking for the packing that makes least of what is made least, by a fixed ladder of tries.

Sheets: strips first fit; then packingsolver with two stages of cuts, three, and as many as it likes, each harder than
the last, until no packing can be better. With several kinds of stock, numbers of each kind are tried in order of what
they cost, cheapest first, leaving out those that the bounds rule out.
"""

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice, product

from plankit.cutting.bounds import Demand, Least, demands, least, meets
from plankit.cutting.first_fit import first_fit
from plankit.cutting.labour import FIXED, labour
from plankit.cutting.pack import Pack, Score
from plankit.cutting.slicing import Axis
from plankit.cutting.solver import Offer, Work, fill_boards, fill_sheets, fill_short
from plankit.cutting.whole_job import Group
from plankit.cutting.whole_numbers import common_measure, round_up_to, whole

type Right = Callable[[Pack], Pack | None]
"""Settles a packing exactly and checks it against the job; None where anything is wrong."""

_TRIES = 24
_LISTED = 3000
_SOME, _MANY = 16, 60
"""Pieces up to which the slow tries are part of the fixed work: two seconds' worth at the very most."""

_LENGTHS = 150
"""Different lengths up to which column generation is part of the fixed work."""


@dataclass(frozen=True, slots=True)
class Found:
    """The best packing of a group and what is needed at least."""

    pack: Pack
    least: Least


class _Best:
    """The best packing so far, and whether a better one is possible at all."""

    def __init__(self, group: Group, right: Right, floor: Least) -> None:
        self.group, self.right, self.floor = group, right, floor
        self.pack: Pack | None = None
        self.score: Score | None = None
        self.left = FIXED

    def offer(self, pack: Pack | None) -> bool:
        """Take a packing if it is right and better than the best; say whether it was."""
        if pack is None or (self.score is not None and pack.score(self.group) >= self.score):
            return False
        settled = self.right(pack)
        if settled is None:
            return False
        self.pack, self.score = settled, settled.score(self.group)
        return True

    def spend(self, work: int) -> bool:
        """Take a try's work out of what is left of the fixed work; say whether there was enough left."""
        if work > self.left:
            return False
        self.left -= work
        return True

    @property
    def complete(self) -> bool:
        return self.score is not None and self.score[0] == 0

    @property
    def weight(self) -> Fraction:
        return self.score[1] if self.score is not None else Fraction(0)

    @property
    def proven(self) -> bool:
        """Whether all is placed and nothing can weigh less."""
        return self.complete and self.floor.weight is not None and self.weight <= self.floor.weight


def search(group: Group, right: Right, seconds: float | None = None) -> Found:
    """Return the best packing found and what is needed at least.

    right    settles and verifies a packing; nothing is returned that it has not passed
    seconds  None for the fixed work; else harder tries go on until the clock or a proof stops them
    """
    asked = demands(group, sharp=False)
    best = _Best(group, right, least(group, asked))
    axes: tuple[Axis, ...] = ("x",) if group.board else ("x", "y")
    for axis, choosy in product(axes, (False, True)):
        best.offer(first_fit(group, axis, choosy_first=choosy))
    if not best.proven:
        asked = demands(group, sharp=True)
        best.floor = least(group, asked)
    stop = None if seconds is None else time.monotonic() + seconds
    if group.board:
        _boards(best, stop)
    elif group.stages != 1:
        _sheets(best, asked, stop)
    assert best.pack is not None
    return Found(best.pack, best.floor)


def _boards(best: _Best, stop: float | None) -> None:
    group = best.group
    if max(room.along for room in group.rooms) > 2**50:
        return
    for columns in (False, True):
        if (
            best.proven
            or best.floor.weight is None
            or (columns and stop is None and len(group.wants) > _LENGTHS)
        ):
            return
        pack = fill_boards(group, Work(None, 64, 16, _left(stop)), columns=columns)
        best.offer(pack)
        if pack is not None and columns:
            best.floor = _raised(group, best.floor, pack.bound)


def _raised(group: Group, floor: Least, bound: Fraction) -> Least:
    """Raise what is needed at least to a solver's bound, rounded up to what prices can add up to."""
    if floor.weight is None:
        return floor
    step = _price_step(group)
    weight = max(floor.weight, round_up_to(bound, step))
    same = all(room.weight == 1 for room in group.rooms)
    return Least(weight, int(weight) if same else floor.count)


def _price_step(group: Group) -> Fraction:
    return common_measure(room.weight for room in group.rooms)


def _sheets(best: _Best, asked: tuple[Demand, ...], stop: float | None) -> None:
    on_hand = any(room.on_hand for room in best.group.rooms)
    for number, work in enumerate(_ladder(best.group, stop)):
        if (best.proven and (number or not on_hand)) or (stop is not None and time.monotonic() > stop):
            return
        if best.floor.weight is None:
            break
        _rung(best, asked, _Try(best, work, stop))
    if not best.complete:
        best.offer(fill_short(best.group, _all_offers(best.group), Work(_at_most(best.group, 3), 64)))


@dataclass(frozen=True, slots=True)
class _Try:
    """One rung's way of filling sheets, with what is left of the clock."""

    best: _Best
    work: Work
    stop: float | None

    def __call__(self, offers: tuple[Offer, ...], group: Group | None = None) -> Pack | None:
        group = group or self.best.group
        if self.stop is None and not self.best.spend(labour(group, offers, self.work)):
            return None
        if self.stop is not None and time.monotonic() > self.stop:
            return None
        return fill_sheets(group, offers, replace(self.work, seconds=_left(self.stop)))


def _rung(best: _Best, asked: tuple[Demand, ...], fill: _Try) -> None:
    group = best.group
    if not _uniform(group):
        _by_class(best, fill)
        for n in sorted(frozenset.intersection(*(want.kinds for want in group.wants))):
            best.offer(fill((Offer(n, group.rooms[n].most),)))
        return
    if len(group.rooms) == 1:
        best.offer(fill(_all_offers(group)))
        return
    on_hand = tuple(Offer(n, r.most) for n, r in enumerate(group.rooms) if r.on_hand)
    for n, room in enumerate(group.rooms):
        if not room.on_hand:
            best.offer(fill((*on_hand, Offer(n, room.most))))
    tries = max(4, min(_TRIES, 1500 // group.count))
    for numbers in islice(_numbers(best, asked), tries):
        if best.offer(fill(tuple(Offer(n, number) for n, number in _small_first(group, numbers) if number))):
            return


def _numbers(best: _Best, asked: tuple[Demand, ...]) -> Iterator[tuple[int, ...]]:
    """Give numbers of each kind that weigh less than the best and are not ruled out, cheapest first."""
    group = best.group
    step = _price_step(group)
    weights = [whole(room.weight, step) for room in group.rooms]
    ceiling = whole(best.weight, step) if best.complete else None
    found: list[tuple[int, ...]] = []

    def go(used: tuple[int, ...], weight: int) -> None:
        if len(found) >= _LISTED or (ceiling is not None and weight >= ceiling):
            return
        if len(used) == len(group.rooms):
            if meets(group, asked, used):
                found.append(used)
            return
        room = group.rooms[len(used)]
        for number in range(min(room.most, -(-group.area // room.area) + 2) + 1):
            go((*used, number), weight + number * weights[len(used)])

    go((), 0)
    yield from sorted(
        found, key=lambda used: (sum(w * n for w, n in zip(weights, used, strict=True)), sum(used), used)
    )


def _by_class(best: _Best, fill: _Try) -> None:
    """Plan pieces that may come from the same stock together, those with the fewest choices first."""
    group = best.group
    sheets, left = [], [room.most for room in group.rooms]
    for kinds in sorted({want.kinds for want in group.wants}, key=lambda k: (len(k), sorted(k))):
        chosen = [place for place, want in enumerate(group.wants) if want.kinds == kinds]
        part = replace(group, wants=tuple(group.wants[place] for place in chosen))
        offers = [
            Offer(n, left[n])
            for n in sorted(kinds, key=lambda n: (group.rooms[n].weight / group.rooms[n].area, n))
        ]
        pack = fill(tuple(o for o in offers if o.most), part) if any(o.most for o in offers) else None
        if pack is None:
            return
        for sheet in pack.sheets:
            left[sheet.kind] -= sheet.copies
            sheets.append(replace(sheet, spots=tuple(replace(s, want=chosen[s.want]) for s in sheet.spots)))
    best.offer(Pack(tuple(sheets)))


def _uniform(group: Group) -> bool:
    """Whether only sizes, not the author's wish, decide what comes from where."""
    return all(
        n in want.kinds or not any(way.along <= room.along and way.across <= room.across for way in want.ways)
        for want in group.wants
        for n, room in enumerate(group.rooms)
    )


def _ladder(group: Group, stop: float | None) -> Iterator[Work]:
    """Give the tries in order: few stages before many, little work before much."""
    two, three, most = _at_most(group, 2), _at_most(group, 3), group.stages
    tries = [Work(two, 32), Work(three, 64), Work(most, 64), Work(three, 32, 4)]
    tries += [Work(three, 512)] if group.count <= _MANY else []
    tries += [Work(most, 32, 4)] if group.count <= _SOME and len(group.rooms) == 1 else []
    yield from dict.fromkeys(tries)
    queue = 1024
    while stop is not None and queue < 1_000_000:
        yield Work(three, queue)
        yield Work(most, queue // 2, queue // 64)
        yield Work(most, queue)
        queue *= 4


def _at_most(group: Group, stages: int) -> int:
    return stages if group.stages is None else min(stages, group.stages)


def _all_offers(group: Group) -> tuple[Offer, ...]:
    return tuple(
        Offer(n, number) for n, number in _small_first(group, tuple(r.most for r in group.rooms)) if number
    )


def _small_first(group: Group, numbers: tuple[int, ...]) -> list[tuple[int, int]]:
    rooms = group.rooms
    return sorted(enumerate(numbers), key=lambda one: (not rooms[one[0]].on_hand, rooms[one[0]].area, one[0]))


def _left(stop: float | None) -> float | None:
    return None if stop is None else max(0.05, stop - time.monotonic())
