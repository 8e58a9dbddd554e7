"""Pieces put one by one into what is free of a sheet: a quick way to see that they go on it together.

What is free after a piece is put into a corner is parted by one cut right across, so whatever is placed so can be cut
apart edge to edge.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from plankit.cutting.slicing import Spot
from plankit.cutting.whole_job import Room, Want, Way

type Free = tuple[int, int, int, int]
"""A free rectangle: x, y, its extent along and across."""


@dataclass(frozen=True, slots=True)
class Placing:
    """Pieces placed on one sheet, and the rectangles still free."""

    spots: tuple[Spot, ...]
    free: tuple[Free, ...]


def empty(room: Room) -> Placing:
    """Return a sheet with nothing on it."""
    return Placing((), ((0, 0, room.along, room.across),))


def put(placing: Placing, want: Want, place: int) -> Placing | None:
    """Return the placing with one more piece, in the free rectangle it fills best; None where it fits in none."""
    best: tuple[int, int, Way] | None = None
    for number, (_, _, along, across) in enumerate(placing.free):
        for way in want.ways:
            left, over = along - way.along, across - way.across
            if left >= 0 and over >= 0 and (best is None or min(left, over) < best[0]):
                best = (min(left, over), number, way)
    if best is None:
        return None
    _, number, way = best
    x, y, along, across = placing.free[number]
    left, over = along - way.along, across - way.across
    if max(left * across, way.along * over) >= max(left * way.across, along * over):
        parts = ((x + way.along, y, left, across), (x, y + way.across, way.along, over))
    else:
        parts = ((x + way.along, y, left, way.across), (x, y + way.across, along, over))
    free = placing.free[:number] + placing.free[number + 1 :] + tuple(one for one in parts if one[2] and one[3])
    return Placing((*placing.spots, Spot(place, way.turned, x, y, way.along, way.across)), free)


_ORDERS: tuple[Callable[[Want], int], ...] = (
    lambda want: -want.area,
    lambda want: -max(way.across for way in want.ways),
    lambda want: -max(way.along for way in want.ways),
    lambda want: -want.ways[0].along - want.ways[0].across,
)


def placed(room: Room, wants: tuple[Want, ...], kinds: Iterable[int]) -> Placing | None:
    """Return the pieces placed on one sheet, tried in several orders; None where none of them succeeds."""
    kinds = tuple(kinds)
    for order in _ORDERS:
        ranked = sorted((order(wants[kind]), kind) for kind in kinds)
        found = _one_by_one(room, wants, [kind for _, kind in ranked])
        if found is not None:
            return found
    return None


def _one_by_one(room: Room, wants: tuple[Want, ...], kinds: list[int]) -> Placing | None:
    found: Placing | None = empty(room)
    for kind in kinds:
        found = put(found, wants[kind], kind) if found is not None else None
    return found
