"""Taking apart: which of several groups of parts are locked in one another, whatever order they go in."""

from collections.abc import Callable, Mapping, Sequence, Set

from plankit.checks.moves import WAYS, Way

type Stops = Mapping[Way, Mapping[int, Set[int]]]
"""For each way: which groups stop each group that is moved along it."""


def locked(count: int, stopped: Callable[[int, int], Set[Way]]) -> list[tuple[int, ...]]:
    """Return the groups of a heap that no straight move parts from one another; none where all come apart.

    count    how many groups there are, numbered from 0
    stopped  the ways along which the first of two groups is stopped by the second
    source   directional blocking graphs: what can be moved along a way together are the groups from which no
             other group is reached; taking some away never locks what is left, so that any order will do
    """
    asked = {(a, b): stopped(a, b) for a in range(count) for b in range(count) if a != b}
    stops = {way: {one: _stoppers(one, count, way, asked) for one in range(count)} for way in WAYS}
    heaps, found = [tuple(range(count))], []
    while heaps:
        heap = heaps.pop()
        if len(heap) == 1:
            continue
        free = _free(heap, stops)
        if free is None:
            found.append(heap)
            continue
        rest = tuple(one for one in heap if one not in free)
        heaps += [tuple(one for one in heap if one in free), rest]
    return sorted(found)


def _stoppers(one: int, count: int, way: Way, asked: Mapping[tuple[int, int], Set[Way]]) -> frozenset[int]:
    return frozenset(other for other in range(count) if other != one and way in asked[one, other])


def _free(heap: Sequence[int], stops: Stops) -> frozenset[int] | None:
    """Some of a heap, not all, that can be moved out of the rest together."""
    within = frozenset(heap)
    for way in WAYS:
        for one in heap:
            reached = _reached(one, within, stops[way])
            if len(reached) < len(heap):
                return reached
    return None


def _reached(start: int, within: frozenset[int], stops: Mapping[int, Set[int]]) -> frozenset[int]:
    """All that must move along when one group moves: what stops it, what stops that, and so on."""
    reached, ahead = {start}, [start]
    while ahead:
        for other in stops[ahead.pop()]:
            if other in within and other not in reached:
                reached.add(other)
                ahead.append(other)
    return frozenset(reached)
