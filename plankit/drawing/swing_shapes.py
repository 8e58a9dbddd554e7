"""Pieces that the drawings of what opens are put together from."""

from collections.abc import Sequence
from typing import Any

from plankit.build.swing_outlines import Body
from plankit.drawing.metrics import text_width
from plankit.drawing.primitives import Area, Fill, Line, LineKind, Point, Primitive, Ring, Text, bounds


def union(body: Body) -> Any:
    """A body's outline in the plane: all its sections together."""
    import shapely

    return shapely.union_all([slab.outline.area for slab in body.slabs])


def drawn(rings: Sequence[Ring], fill: Fill, kind: LineKind) -> list[Primitive]:
    """Return an area with its lines; nothing where there are no rings."""
    if not rings:
        return []
    return [Area(tuple(rings), fill), *(Line((*ring, ring[0]), kind) for ring in rings)]


def lines_below(items: Sequence[Primitive], said: Sequence[str]) -> list[Text]:
    """Sentences in as few lines as the drawing is wide enough for."""
    left, _, right, bottom = bounds(items)
    lines: list[str] = []
    for one in said:
        if lines and text_width(f"{lines[-1]} {one}", 8.0) <= max(right - left, 90.0):
            lines[-1] = f"{lines[-1]} {one}"
        else:
            lines.append(one)
    return [Text((left, bottom + 5.0 + 3.8 * row), line, 8.0) for row, line in enumerate(lines)]


def less(one: Point, other: Point) -> Point:
    """Return the way from one place to another, told backwards: one less the other."""
    return one[0] - other[0], one[1] - other[1]


def dot(one: Point, other: Point) -> float:
    """Return how far one vector goes along another of length 1."""
    return one[0] * other[0] + one[1] * other[1]
