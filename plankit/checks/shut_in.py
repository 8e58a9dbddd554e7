"""Whether a hand with a driver gets from outside to where a screw's head is: what is shut in on all sides is not."""

from collections.abc import Iterable, Sequence
from itertools import product

from plankit.checks.blocks import Ends, Taken
from plankit.parts import Bore, Part
from plankit.units import L

HAND = L("2 in")
"""Openings narrower than this let neither a hand nor a drill through (common practice)."""
_NEAR = 3 * float(HAND.mm)
_FAR = 1e6

type Spot = tuple[float, float, float]


def walls_of(there: Iterable[Taken]) -> tuple[Ends, ...]:
    """Return the blocks that may shut something in; parts that lean, and those with a hole for a hand, shut nothing."""
    return tuple(block for one in there if not (one.part.leans or _hand_hole(one.part)) for block in one.blocks)


def _hand_hole(part: Part) -> bool:
    return any(isinstance(one, Bore) and one.diameter.mm >= HAND.mm for one in part.features)


def is_shut_in(head: Spot, out: Spot, free: float, walls: Sequence[Ends]) -> bool:
    """Tell whether no way leads from before a screw's head to the outside that a hand fits through.

    out    the screw's way from its tip to its head and on, of length 1
    free   how far it is free before something stops it, in millimetres
    walls  what is there, as blocks
    """
    reach = min(free, _NEAR)
    at = [place + way * reach / 2 for place, way in zip(head, out, strict=True)]
    if any(not _met(at, axis, way, walls) for axis in range(3) for way in (1, -1)):
        return False
    along = [
        [place + way * reach * step / 12 for place, way in zip(head, out, strict=True)] for step in range(1, 12)
    ]
    return not _reaches_outside(along, walls)


def _met(at: Sequence[float], axis: int, way: int, walls: Sequence[Ends]) -> bool:
    """Whether a straight line along an axis meets anything."""
    others = [index for index in range(3) if index != axis]
    return any(
        all(wall[2 * i] < at[i] < wall[2 * i + 1] for i in others)
        and (wall[2 * axis + 1] > at[axis] if way > 0 else wall[2 * axis] < at[axis])
        for wall in walls
    )


def _reaches_outside(along: Sequence[Sequence[float]], walls: Sequence[Ends]) -> bool:
    """Whether the middle of a hand gets out: walls are taken as thicker by half a hand, cell by cell between them.

    Where not even the middle of a hand has room before the head, that is for others to tell.
    """
    half = float(HAND.mm) / 2 - 0.1
    thick = [tuple(end + half * (1 if side % 2 else -1) for side, end in enumerate(wall)) for wall in walls]
    marks = [sorted({-_FAR, _FAR, *(wall[2 * i + side] for wall in thick for side in (0, 1))}) for i in range(3)]
    filled = {cell for wall in thick for cell in _cells_of(wall, marks)}
    cells = {tuple(_cell(marks[i], at[i]) for i in range(3)) for at in along}
    return _flows_out(cells - filled, filled, [len(row) - 1 for row in marks])


def _cells_of(wall: Sequence[float], marks: Sequence[list[float]]) -> Iterable[tuple[int, ...]]:
    return product(*(_between(marks[i], wall[2 * i], wall[2 * i + 1]) for i in range(3)))


def _between(marks: list[float], low: float, high: float) -> range:
    return range(marks.index(low), marks.index(high))


def _cell(marks: list[float], at: float) -> int:
    return max(number for number, mark in enumerate(marks) if mark <= at)


def _beside(cell: tuple[int, ...]) -> list[tuple[int, ...]]:
    return [(*cell[:i], cell[i] + by, *cell[i + 1 :]) for i in range(3) for by in (1, -1)]


def _flows_out(reached: set[tuple[int, ...]], filled: set[tuple[int, ...]], counts: list[int]) -> bool:
    todo, seen = list(reached), set(reached)
    while todo:
        cell = todo.pop()
        if any(place in {0, count - 1} for place, count in zip(cell, counts, strict=True)):
            return True
        for other in _beside(cell):
            if other not in filled and other not in seen:
                seen.add(other)
                todo.append(other)
    return not reached
