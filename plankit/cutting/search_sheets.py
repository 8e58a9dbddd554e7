"""Filling sheets, by a fixed ladder of tries.

Strips first fit; then packingsolver with two stages of cuts, three, and as many as it likes, each harder than the
last, until no packing can be better. Between them sheets of all tries are put together anew, one sheet less is dived
for, and proofs are tried (`proving`). With several kinds of stock, numbers of each kind are tried in order of what they
cost, cheapest first, leaving out those that the bounds rule out.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from plankit.cutting.beside import Beside
from plankit.cutting.best import Best, price_step
from plankit.cutting.bounds import meets
from plankit.cutting.labour import labour
from plankit.cutting.pack import Pack
from plankit.cutting.proving import prove, prove_beside
from plankit.cutting.purse import is_past, left
from plankit.cutting.solver import Offer, Work, fill_sheets, fill_short
from plankit.cutting.whole_job import Group
from plankit.cutting.whole_numbers import whole

_TRIES = 24
_LISTED = 3000
_SOME, _MANY = 16, 60
"""Pieces up to which the slow tries are part of the fixed work: two seconds' worth at the very most."""

_BASE = 2
"""Tries that are made before any proof."""


def fill_all(best: Best, stop: float | None) -> None:
    """Better the best packing of sheets, until nothing can be better, the work is done or the clock has run out."""
    on_hand = any(room.on_hand for room in best.group.rooms)
    for number, work in enumerate(_ladder(best.group, stop)):
        if (best.proven and (number or not on_hand)) or is_past(stop):
            return
        if best.floor.weight is None:
            break
        _rung(best, _Try(best, work, stop), early=number <= _BASE)
        if number >= _BASE:
            prove(best, stop)
        elif stop is not None and not best.proven and best.complete and len(best.group.rooms) == 1:
            _on_two_cores(best, stop)
            return
    if not best.complete:
        best.offer(fill_short(best.group, _all_offers(best.group), Work(_at_most(best.group, 3), 64)))


def _on_two_cores(best: Best, stop: float) -> None:
    """Go on with harder tries on one core and proofs on the other."""
    beside = Beside(best.group, _all_offers(best.group), islice(_ladder(best.group, stop), 1, None), stop)
    try:
        prove_beside(best, beside, stop)
    finally:
        beside.end()


@dataclass(frozen=True, slots=True)
class _Try:
    """One rung's way of filling sheets, with what is left of the clock."""

    best: Best
    work: Work
    stop: float | None

    def __call__(self, offers: tuple[Offer, ...], group: Group | None = None) -> Pack | None:
        group = group or self.best.group
        if self.stop is None and not self.best.spend(labour(group, offers, self.work)):
            return None
        if is_past(self.stop):
            return None
        return fill_sheets(group, offers, replace(self.work, seconds=left(self.stop)))


def _rung(best: Best, fill: _Try, *, early: bool) -> None:
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
        if not room.on_hand and (early or not best.complete):
            best.offer(fill((*on_hand, Offer(n, room.most))))
    tries = max(4, min(_TRIES, 1500 // group.count))
    for numbers in islice(_numbers(best), tries):
        if best.offer(fill(tuple(Offer(n, number) for n, number in _small_first(group, numbers) if number))):
            return


def _numbers(best: Best) -> Iterator[tuple[int, ...]]:
    """Give numbers of each kind that weigh less than the best and are not ruled out, cheapest first."""
    group = best.group
    step = price_step(group)
    weights = [whole(room.weight, step) for room in group.rooms]
    ceiling = whole(best.weight, step) if best.complete else None
    found: list[tuple[int, ...]] = []

    def go(used: tuple[int, ...], weight: int) -> None:
        if len(found) >= _LISTED or (ceiling is not None and weight >= ceiling):
            return
        if len(used) == len(group.rooms):
            if meets(group, best.asked, used) and not best.is_refused(used):
                found.append(used)
            return
        room = group.rooms[len(used)]
        for number in range(min(room.most, -(-group.area // room.area) + 2) + 1):
            go((*used, number), weight + number * weights[len(used)])

    go((), 0)
    yield from sorted(
        found, key=lambda used: (sum(w * n for w, n in zip(weights, used, strict=True)), sum(used), used)
    )


def _by_class(best: Best, fill: _Try) -> None:
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
