"""Part labels: a letter in a ring, on its part where there is room, else beside the drawing with a leader.

A leader ends just past the outline of the part it points to, without a dot: on a board a dot is a hole.
Places are tried in a fixed order, so the same drawing always gets the same labels.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from plankit.drawing.dimension import circle
from plankit.drawing.metrics import capital_height
from plankit.drawing.occupied import Occupied, quad_of
from plankit.drawing.primitives import Area, Line, Point, Primitive, Ring, Text

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Floats = NDArray[np.float64]
    type Whole = NDArray[np.int64]

LETTER = 9.5
RADIUS = 2.7
"""Of the ring round a letter, in mm."""
_CLEAR = 0.5
_REACHES = (7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 40.0, 50.0, 62.0)
_TURNS = 24
_PAST = 1.2
"""How far past its part's outline a leader ends, in mm."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A label and the visible regions (page mm) of the parts that it may be put on, best first."""

    letter: str
    regions: tuple[tuple[Ring, ...], ...]


def labels(
    wanted: Sequence[Wanted], taken: Occupied, fills: Sequence[tuple[Ring, ...]]
) -> tuple[Primitive, ...]:
    """Rings, letters and leaders for every wanted label; `taken` learns where they went.

    fills  every filled region of the drawing: a label beside the drawing stays out of them if it can
    """
    items: list[Primitive] = []
    later: list[tuple[Wanted, Point]] = []
    for label in wanted:
        spot, room = _roomiest(label.regions, taken)
        if room >= RADIUS + _CLEAR:
            items.extend(_put(label.letter, spot, taken))
        else:
            later.append((label, spot))
    for label, spot in later:
        items.extend(_beside(label, spot, taken, fills))
    return tuple(items)


def _put(letter: str, at: Point, taken: Occupied) -> tuple[Primitive, ...]:
    taken.boxes.append(quad_of((at[0] - RADIUS, at[1] - RADIUS, at[0] + RADIUS, at[1] + RADIUS)))
    ring = circle(at, RADIUS, 24)
    base = (at[0], at[1] + capital_height(LETTER, bold=True) / 2)
    size = LETTER if len(letter) == 1 else 8.0
    return Area((ring[:-1],), "paper"), Line(ring, "leader"), Text(base, letter, size, "middle", bold=True)


def _beside(
    label: Wanted, spot: Point, taken: Occupied, fills: Sequence[tuple[Ring, ...]]
) -> tuple[Primitive, ...]:
    """The label at the best of a fixed set of places round the spot, with its leader."""
    import numpy as np

    tried = np.array(
        [
            (spot[0] + reach * math.cos(turn), spot[1] + reach * math.sin(turn))
            for reach in _REACHES
            for turn in (2 * math.pi * step / _TURNS for step in range(_TURNS))
        ]
    )
    room = _clearance(tried, taken)
    inside = sum((_inside(tried, rings) for rings in fills), np.zeros(len(tried)))
    far = np.repeat(np.array(_REACHES), _TURNS)
    cost = far + 25.0 * (inside > 0) + 400.0 * (room < RADIUS + _CLEAR)
    best = sorted(range(len(tried)), key=lambda index: (round(float(cost[index]), 6), index))[:16]
    chosen = min(
        best, key=lambda index: (cost[index] + 4.0 * taken.crossings(spot, _pair(tried[index])), index)
    )
    at = _pair(tried[chosen])
    way = ((spot[0] - at[0]) / far[chosen], (spot[1] - at[1]) / far[chosen])
    start = (at[0] + float(way[0]) * RADIUS, at[1] + float(way[1]) * RADIUS)
    end = _past_outline(start, spot, label.regions)
    taken.pieces.append((start, end))
    return Line((start, end), "leader"), *_put(label.letter, at, taken)


def _past_outline(start: Point, spot: Point, regions: Sequence[tuple[Ring, ...]]) -> Point:
    """Where a leader on its way to a spot has just come into the region that the spot lies in."""
    long = math.dist(start, spot)
    shares = [
        share
        for rings in regions
        for ring in rings
        for one, other in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (share := _crossing(start, spot, one, other)) is not None
    ]
    share = min(1.0, max(shares, default=1.0) + _PAST / max(long, 1e-9))
    return start[0] + (spot[0] - start[0]) * share, start[1] + (spot[1] - start[1]) * share


def _crossing(start: Point, end: Point, one: Point, other: Point) -> float | None:
    """At which share of its length a line from start to end crosses the line between two points."""
    run, side = (end[0] - start[0], end[1] - start[1]), (other[0] - one[0], other[1] - one[1])
    turn = run[0] * side[1] - run[1] * side[0]
    if abs(turn) < 1e-12:
        return None
    apart = one[0] - start[0], one[1] - start[1]
    share = (apart[0] * side[1] - apart[1] * side[0]) / turn
    along = (apart[0] * run[1] - apart[1] * run[0]) / turn
    return share if 0.0 <= share <= 1.0 and 0.0 <= along <= 1.0 else None


def _roomiest(regions: Sequence[tuple[Ring, ...]], taken: Occupied) -> tuple[Point, float]:
    """The place inside the regions that is farthest from every line, and how far."""
    import numpy as np

    best: tuple[float, Point] | None = None
    for rings in regions:
        grid = _grid(rings[0])
        within = grid[_inside(grid, rings) > 0]
        if not len(within):
            within = np.array([rings[0][0]])
        room = _clearance(within, taken)
        index = int(np.argmax(np.round(room, 6)))
        if best is None or room[index] > best[0] + 1e-6:
            best = (float(room[index]), _pair(within[index]))
        if best[0] >= RADIUS + 2 * _CLEAR:
            break
    return (best[1], best[0]) if best is not None else ((0.0, 0.0), 0.0)


def _grid(ring: Ring, across: int = 15) -> "Floats":
    import numpy as np

    points = np.array(ring)
    low, high = points.min(axis=0), points.max(axis=0)
    steps = (np.arange(across) + 0.5) / across
    u, v = np.meshgrid(low[0] + steps * (high[0] - low[0]), low[1] + steps * (high[1] - low[1]))
    return np.stack([u.ravel(), v.ravel()], axis=1)


def _inside(points: "Floats", rings: Sequence[Ring]) -> "Whole":
    """1 for each point inside the rings (even-odd), else 0."""
    import numpy as np

    odd: Whole = np.zeros(len(points), dtype=np.int64)
    for ring in rings:
        corner = np.array(ring)
        ahead = np.roll(corner, -1, axis=0)
        rises = (corner[:, 1] <= points[:, None, 1]) != (ahead[:, 1] <= points[:, None, 1])
        rise = ahead[:, 1] - corner[:, 1]
        share = (points[:, None, 1] - corner[:, 1]) / np.where(rise == 0, 1.0, rise)
        cut = corner[:, 0] + share * (ahead[:, 0] - corner[:, 0])
        odd += (rises & (cut > points[:, None, 0])).sum(axis=1)
    return odd % 2


def _clearance(points: "Floats", taken: Occupied) -> "Floats":
    """How far each point is from the nearest line piece or box edge; 0 inside a box."""
    import numpy as np

    around = [pair for box in taken.boxes for pair in zip(box, (*box[1:], box[0]), strict=True)]
    pieces = [*taken.pieces, *around]
    if not pieces:
        return np.full(len(points), 1e6)
    ends = np.array(pieces)
    start, run = ends[:, 0], ends[:, 1] - ends[:, 0]
    size = np.maximum((run**2).sum(axis=1), 1e-12)
    apart = points[:, None, :] - start
    share = np.clip((apart * run).sum(axis=2) / size, 0.0, 1.0)
    room: Floats = np.sqrt(((apart - share[:, :, None] * run) ** 2).sum(axis=2)).min(axis=1)
    for box in taken.boxes:
        room = np.where(_inside(points, [box]) > 0, 0.0, room)
    return room


def _pair(point: "Floats") -> Point:
    return float(point[0]), float(point[1])
