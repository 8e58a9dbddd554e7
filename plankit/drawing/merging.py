"""Stretches of edges made into lines: each place drawn once, straight pieces joined, curves chained.

Where the edges of two parts lie on one place the line is drawn once: as an outline if either is one, and as
the earlier part's. Lines of different parts are never joined. This module loads numpy; import it where it is
used.
"""

from collections.abc import Iterable, Iterator
from itertools import pairwise

import numpy as np

from plankit.drawing.faces import Floats, Ints
from plankit.drawing.visible import Stretches

type Span = tuple[float, float, int, int, bool]  # from, to, rank, part, curved
type Path = tuple[int, int, tuple[tuple[float, float], ...]]  # part, rank, corners

SAME = 1e-5  # mm between lines that are one, or between ends that meet
TURN = 1e-7  # radians between directions that are one
DRAWN = 2e-3  # mm; what is shorter is not drawn


def paths(found: Stretches) -> tuple[Path, ...]:
    """The lines of a view, in an order that depends on nothing but where they are."""
    pieces: list[tuple[tuple[float, ...], int, int, bool]] = []
    alone, together = _collinear(found.ends)
    _take(pieces, found, alone)
    for members in together:
        pieces.extend(_once(found, members))
    straight = [_path(ends, part, rank) for ends, part, rank, curved in pieces if not curved]
    bent = _chained([(ends, part, rank) for ends, part, rank, curved in pieces if curved])
    return tuple(sorted(path for path in (*straight, *bent) if _long(path)))


def _take(pieces: list[tuple[tuple[float, ...], int, int, bool]], found: Stretches, which: Ints) -> None:
    parts, ranks, curved = (values[which].tolist() for values in (found.part, found.rank, found.curved))
    ends = map(tuple, found.ends[which].tolist())
    pieces.extend(zip(ends, parts, ranks, curved, strict=True))


def _collinear(ends: Floats) -> tuple[Ints, list[Ints]]:
    """Stretches alone on their straight line, and groups of those that share one."""
    if not len(ends):
        return np.zeros(0, dtype=np.int64), []
    span = ends[:, 2:] - ends[:, :2]
    turned = (span[:, 0] < 0) | ((np.abs(span[:, 0]) < TURN * np.abs(span[:, 1])) & (span[:, 1] < 0))
    span = np.where(turned[:, None], -span, span) / np.linalg.norm(span, axis=1)[:, None]
    angle = np.arctan2(span[:, 1], span[:, 0])
    by_angle = np.argsort(angle, kind="stable")
    slope = np.empty(len(ends), dtype=np.int64)
    slope[by_angle] = np.cumsum(np.diff(angle[by_angle], prepend=angle[by_angle[0]]) > TURN)
    shared = span[by_angle[np.searchsorted(slope[by_angle], slope)]]
    middle = (ends[:, :2] + ends[:, 2:]) / 2
    aside = shared[:, 0] * middle[:, 1] - shared[:, 1] * middle[:, 0]
    order = np.lexsort([aside, slope])
    fresh = np.ones(len(ends), dtype=bool)
    fresh[1:] = (np.diff(slope[order]) > 0) | (np.diff(aside[order]) > SAME)
    groups = np.split(order, np.flatnonzero(fresh)[1:])
    alone = np.array([group[0] for group in groups if len(group) == 1], dtype=np.int64)
    return alone, [group for group in groups if len(group) > 1]


def _once(found: Stretches, members: Ints) -> Iterator[tuple[tuple[float, ...], int, int, bool]]:
    """Stretches of one straight line with nothing drawn twice and abutting ones joined."""
    ends = found.ends[members]
    base = ends[np.argmax(np.abs(ends[:, 2:] - ends[:, :2]).sum(axis=1))]
    heading = (base[2:] - base[:2]) / np.linalg.norm(base[2:] - base[:2])
    along = np.sort((ends.reshape(-1, 2, 2) - base[:2]) @ heading, axis=1)
    facts = [values[members].tolist() for values in (found.rank, found.part, found.curved)]
    spans: list[Span] = [(*both, *fact) for both, *fact in zip(along.tolist(), *facts, strict=True)]
    for low, high, rank, part, curved in _without_double(spans):
        begin, finish = base[:2] + low * heading, base[:2] + high * heading
        yield (*begin.tolist(), *finish.tolist()), part, rank, curved


def _without_double(spans: list[Span]) -> list[Span]:
    spans.sort()
    if all(after[0] > before[1] + SAME for before, after in pairwise(spans)):
        return spans
    drawn: list[Span] = []
    for low, high, rank, part, curved in sorted(spans, key=lambda span: (span[2], span[3], span[0])):
        drawn.extend((begin, finish, rank, part, curved) for begin, finish in _left_over(low, high, drawn))
    return _joined(drawn)


def _left_over(low: float, high: float, drawn: Iterable[Span]) -> Iterator[tuple[float, float]]:
    for span in sorted(drawn):
        if span[1] <= low + SAME or span[0] >= high - SAME:
            continue
        if span[0] > low + SAME:
            yield low, span[0]
        low = span[1]
    if high > low + SAME:
        yield low, high


def _joined(spans: list[Span]) -> list[Span]:
    joined: list[Span] = []
    for span in sorted(spans, key=lambda span: (span[2], span[3], span[0])):
        last = joined[-1] if joined else None
        if last and last[2:4] == span[2:4] and abs(span[0] - last[1]) <= SAME:
            joined[-1] = (last[0], max(last[1], span[1]), *last[2:4], last[4] and span[4])
        else:
            joined.append(span)
    return joined


def _chained(pieces: list[tuple[tuple[float, ...], int, int]]) -> Iterator[Path]:
    """Pieces of curves joined end to end where exactly two of one part and kind meet."""
    meeting: dict[tuple[int, int, float, float], list[int]] = {}
    keys = []
    for number, (ends, part, rank) in enumerate(pieces):
        both = tuple((part, rank, round(ends[at], 4) + 0.0, round(ends[at + 1], 4) + 0.0) for at in (0, 2))
        keys.append(both)
        for key in both:
            meeting.setdefault(key, []).append(number)
    used = [False] * len(pieces)
    loose = [number for number, both in enumerate(keys) if any(len(meeting[key]) != 2 for key in both)]
    for number in (*loose, *range(len(pieces))):
        if not used[number]:
            yield _chain(number, pieces, keys, meeting, used)


def _chain(
    first: int,
    pieces: list[tuple[tuple[float, ...], int, int]],
    keys: list[tuple[tuple[int, int, float, float], ...]],
    meeting: dict[tuple[int, int, float, float], list[int]],
    used: list[bool],
) -> Path:
    at = 0 if len(meeting[keys[first][1]]) == 2 else 1  # walk off at the end where it goes on
    corners, number = [_corner(pieces[first][0], at)], first
    while True:
        used[number] = True
        corners.append(_corner(pieces[number][0], 1 - at))
        key = keys[number][1 - at]
        onward = [other for other in meeting[key] if not used[other]]
        if len(meeting[key]) != 2 or not onward:
            break
        number = onward[0]
        at = 0 if keys[number][0] == key else 1
    if keys[number][1 - at] == keys[first][0 if corners[0] == _corner(pieces[first][0], 0) else 1]:
        corners[-1] = corners[0]
    return pieces[first][1], pieces[first][2], _settled(corners)


def _corner(ends: tuple[float, ...], at: int) -> tuple[float, float]:
    return ends[2 * at], ends[2 * at + 1]


def _path(ends: tuple[float, ...], part: int, rank: int) -> Path:
    return part, rank, _settled([_corner(ends, 0), _corner(ends, 1)])


def _settled(corners: list[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """The same corners with y down, walked in a direction that does not depend on how they were found."""
    flipped = [(x, -y + 0.0) for x, y in corners]
    if flipped[0] == flipped[-1] and len(flipped) > 2:
        least = min(range(len(flipped) - 1), key=flipped.__getitem__)
        flipped = [*flipped[least:-1], *flipped[: least + 1]]
    return tuple(min(flipped, flipped[::-1]))


def _long(path: Path) -> bool:
    (left, top), *rest = path[2]
    return any(abs(x - left) + abs(y - top) > DRAWN for x, y in rest)
