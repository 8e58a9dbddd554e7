"""Areas filled with lines: hatching for waste and cut surfaces, and the cross a maker pencils on waste."""

import math
from collections.abc import Iterator, Sequence

from plankit.drawing.primitives import Line, LineKind, Point
from plankit.errors import PlanError

SHORTEST = 0.05  # mm; less is not worth a line


def hatch(
    rings: Sequence[Sequence[Point]], angle: float = -45.0, spacing: float = 2.0, kind: LineKind = "hatch"
) -> tuple[Line, ...]:
    """Parallel lines inside an area, on one grid for the whole page, so that neighbours' lines meet.

    rings      outer ring and holes in page mm
    angle      degrees clockwise on the page; −45 rises to the right
    spacing    mm between lines
    raises     PlanError for a spacing of 0 or less
    """
    if not spacing > 0:
        remedy = "Give 2 mm or so."
        raise PlanError("Hatching needs room between its lines.", given=f"{spacing} mm", remedy=remedy)
    turn = math.radians(angle)
    level = [[_turned(point, -turn) for point in ring] for ring in rings]
    heights = [y for ring in level for _, y in ring]
    if not heights:
        return ()
    first, last = math.ceil(min(heights) / spacing), math.floor(max(heights) / spacing)
    return tuple(
        Line((_turned((start, row * spacing), turn), _turned((end, row * spacing), turn)), kind)
        for row in range(first, last + 1)
        for start, end in _crossed_at(level, row * spacing)
    )


def crossed(rings: Sequence[Sequence[Point]], kind: LineKind = "hatch") -> tuple[Line, ...]:
    """The cross that marks waste: the diagonals of the area's upright rectangle, where they lie inside it."""
    points = [point for ring in rings for point in ring]
    if not points:
        return ()
    across, down = zip(*points, strict=True)
    left, right, top, bottom = min(across), max(across), min(down), max(down)
    diagonals = (((left, top), (right, bottom)), ((left, bottom), (right, top)))
    return tuple(Line(piece, kind) for start, end in diagonals for piece in inside(rings, start, end))


def inside(rings: Sequence[Sequence[Point]], start: Point, end: Point) -> Iterator[tuple[Point, Point]]:
    """The stretches of a straight line that lie inside an area."""
    length = math.dist(start, end)
    if length < SHORTEST:
        return
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    level = [[_turned(point, -turn) for point in ring] for ring in rings]
    low, height = _turned(start, -turn)
    for begin, finish in _crossed_at(level, height):
        begin, finish = max(begin, low), min(finish, low + length)  # noqa: PLW2901 - the same stretch, cut off
        if finish - begin >= SHORTEST:
            yield _turned((begin, height), turn), _turned((finish, height), turn)


def _crossed_at(rings: Sequence[Sequence[Point]], height: float) -> Iterator[tuple[float, float]]:
    """Where a level line runs inside rings; a corner on the line counts for one of its two sides only."""
    cuts = sorted(
        ax + (height - ay) / (by - ay) * (bx - ax)
        for ring in rings
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (ay <= height) != (by <= height)
    )
    for start, end in zip(cuts[::2], cuts[1::2], strict=True):
        if end - start >= SHORTEST:
            yield start, end


def _turned(point: Point, turn: float) -> Point:
    cosine, sine = math.cos(turn), math.sin(turn)
    return point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine
