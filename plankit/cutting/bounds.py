"""How little stock can do, proven with whole numbers only: nothing here is ever above the truth.

Area: what is cut cannot be larger than what it is cut from. Dual feasible functions: S. P. Fekete and J. Schepers,
"New classes of fast lower bounds for bin packing problems", Mathematical Programming 91 (2001); J. Carlier,
F. Clautiaux and A. Moukrim, Computers & Operations Research 34 (2007). Both hold for any packing, so for
edge-to-edge cuts in any number of stages too. A piece that may turn counts with its smaller value.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from plankit.cutting.whole_job import Group, Want

type Measure = tuple[Callable[[int], int], int]

type Measured = tuple[tuple[int, ...], int]
"""How much of a measure each want takes up, and how much of it a sheet has."""

_WORK = 400_000
_NODES = 40_000
_FEWER = 12
"""How much less work goes into a few strong measures than into the strongest of all."""


@dataclass(frozen=True, slots=True)
class Demand:
    """One thing that must hold for the stock used: of these kinds, at least this area and this many."""

    kinds: frozenset[int]
    area: int
    count: int


@dataclass(frozen=True, slots=True)
class Least:
    """What is needed at least; None where the stock available is proven not to suffice."""

    weight: Fraction | None
    count: int | None


def demands(group: Group, *, sharp: bool) -> tuple[Demand, ...]:
    """Return what must hold for any way to cut the group; sharp also works out dual feasible functions."""
    found = []
    for kinds in sorted(
        {want.kinds for want in group.wants} | {frozenset(range(len(group.rooms)))}, key=sorted
    ):
        inside = tuple(want for want in group.wants if want.kinds <= kinds)
        along = max(group.rooms[n].along for n in kinds)
        across = max(group.rooms[n].across for n in kinds)
        area = sum(want.area * want.quantity for want in inside)
        count = -(-area // (along * across))
        if sharp:
            count = max(count, _count_by_functions(inside, along, across))
        found.append(Demand(kinds, area, count))
    return tuple(found)


def least(group: Group, found: tuple[Demand, ...]) -> Least:
    """Return the least weight and the least number of stock that meet the demands."""
    weights = tuple(room.weight for room in group.rooms)
    ones = tuple(Fraction(1) for _ in group.rooms)
    count = _cheapest(group, found, ones)
    return Least(_cheapest(group, found, weights), None if count is None else int(count))


def meets(group: Group, found: tuple[Demand, ...], used: tuple[int, ...]) -> bool:
    """Whether so many of each kind are not ruled out by the demands."""
    return all(
        sum(used[n] for n in one.kinds) >= one.count
        and sum(used[n] * group.rooms[n].area for n in one.kinds) >= one.area
        for one in found
    )


def _cheapest(group: Group, found: tuple[Demand, ...], weights: tuple[Fraction, ...]) -> Fraction | None:
    """Return the least weight over all numbers of each kind that meet the demands, by search with a work limit."""
    most = tuple(room.most for room in group.rooms)
    if not meets(group, found, most):
        return None
    order = sorted(range(len(most)), key=lambda n: (weights[n] / group.rooms[n].area, n))
    best = [sum((w * n for w, n in zip(weights, most, strict=True)), Fraction(0))]
    floor = max(_relaxed(group, one, weights) for one in found)
    nodes = [0]

    def go(place: int, used: list[int], weight: Fraction) -> None:
        nodes[0] += 1
        if nodes[0] > _NODES or weight >= best[0] or best[0] <= floor:
            return
        if place == len(order):
            if meets(group, found, tuple(used)):
                best[0] = weight
            return
        kind = order[place]
        for number in range(_enough(group, found, used, kind), -1, -1):
            used[kind] = number
            go(place + 1, used, weight + number * weights[kind])
        used[kind] = 0

    go(0, [0] * len(most), Fraction(0))
    return floor if nodes[0] > _NODES else best[0]


def _enough(group: Group, found: tuple[Demand, ...], used: list[int], kind: int) -> int:
    """Return how many of a kind meet every demand alone, beside what is used: more are never needed."""
    need = 0
    for one in found:
        if kind in one.kinds:
            area = one.area - sum(used[n] * group.rooms[n].area for n in one.kinds if n != kind)
            need = max(
                need,
                -(-area // group.rooms[kind].area),
                one.count - sum(used[n] for n in one.kinds if n != kind),
            )
    return min(need, group.rooms[kind].most)


def _relaxed(group: Group, one: Demand, weights: tuple[Fraction, ...]) -> Fraction:
    """Return the least weight that meets one demand if stock could be bought in fractions, by area and by count."""
    by_area = _fill(
        Fraction(one.area), [(weights[n], group.rooms[n].area, group.rooms[n].most) for n in one.kinds]
    )
    by_count = _fill(Fraction(one.count), [(weights[n], 1, group.rooms[n].most) for n in one.kinds])
    return max(by_area, by_count)


def _fill(need: Fraction, offers: list[tuple[Fraction, int, int]]) -> Fraction:
    weight = Fraction(0)
    for each, holds, most in sorted(offers, key=lambda offer: offer[0] / offer[1]):
        taken = min(need / holds, Fraction(most))
        weight += taken * each
        need -= taken * holds
    return weight


def measures(wants: tuple[Want, ...], along: int, across: int, number: int) -> tuple[Measured, ...]:
    """Return the area and the pairs of dual feasible functions that ask for most sheets, the strongest first.

    Each says how much of it one of each want takes up, lying the way that takes least, and how much one sheet has.
    """
    rows = [[(w.along, w.across) for w in want.ways if w.along <= along and w.across <= across] for want in wants]
    alongs, acrosses = {a for row in rows for a, _ in row}, {b for row in rows for _, b in row}
    first = [_table(f, alongs) for f in _functions(along, sorted(alongs), _FEWER * len(wants))]
    second = [_table(f, acrosses) for f in _functions(across, sorted(acrosses), _FEWER * len(wants))]
    found: dict[tuple[int, ...], int] = {}
    for (f, f_room), (g, g_room) in product(first, second):
        found.setdefault(tuple(min(f[a] * g[b] for a, b in row) for row in rows), f_room * g_room)
    area = tuple(want.area for want in wants)
    found.pop(area, None)

    def asks(one: Measured) -> Fraction:
        return Fraction(-sum(want.quantity * taken for want, taken in zip(wants, one[0], strict=True)), one[1])

    ranked = sorted(found.items(), key=lambda one: (asks(one), one))
    return tuple(sorted([(area, along * across), *ranked[: number - 1]], key=lambda one: (asks(one), one)))


def _count_by_functions(wants: tuple[Want, ...], along: int, across: int) -> int:
    """Return the most stock that any pair of dual feasible functions asks for."""
    rows = [
        [(way.along, way.across) for way in want.ways if way.along <= along and way.across <= across]
        for want in wants
    ]
    most = 0
    first = _functions(along, sorted({a for row in rows for a, _ in row}), len(wants))
    second = _functions(across, sorted({b for row in rows for _, b in row}), len(wants))
    tables = [_table(f, {a for row in rows for a, _ in row}) for f in first]
    others = [_table(f, {b for row in rows for _, b in row}) for f in second]
    for (f, f_room), (g, g_room) in product(tables, others):
        total = sum(
            want.quantity * min(f[a] * g[b] for a, b in row) for want, row in zip(wants, rows, strict=True)
        )
        most = max(most, -(-total // (f_room * g_room)))
    return most


def _table(measure: Measure, sizes: set[int]) -> tuple[dict[int, int], int]:
    function, room = measure
    return {size: function(size) for size in sizes}, room


def _functions(room: int, sizes: list[int], wants: int) -> list[Measure]:
    """Return dual feasible functions of whole numbers for one direction, as many as the work allows."""
    if room == 1:
        return [(lambda _: 1, 1)]
    marks = sorted(
        {size for size in sizes if 2 * size <= room} | {room - size for size in sizes if 2 * size > room}
    )
    marks = [mark for mark in marks if mark > 0 and 2 * mark <= room]
    each = max(2, int((_WORK / max(1, wants)) ** 0.5) // 2 - 4)
    step = -(-len(marks) // each) if marks else 1
    chosen = marks[::step]
    return [(lambda x: x, room), *_steps(room), *_thresholds(room, chosen), *_halves(room, chosen)]


def _steps(room: int) -> Iterator[Measure]:
    for k in range(1, 6):
        yield (lambda x, k=k: k * x if (k + 1) * x % room == 0 else (k + 1) * x // room * room), k * room  # type: ignore[misc]


def _thresholds(room: int, marks: list[int]) -> Iterator[Measure]:
    for mark in marks:
        yield (lambda x, e=mark: room if x > room - e else 0 if x < e else x), room  # type: ignore[misc]


def _halves(room: int, marks: list[int]) -> Iterator[Measure]:
    for mark in marks:
        full = room // mark

        def value(x: int, e: int = mark, full: int = full) -> int:
            if 2 * x > room:
                return 2 * (full - (room - x) // e)
            return full if 2 * x == room else 2 * (x // e)

        yield value, 2 * full
