"""Which places of a drawing are taken, so that words and numbers land where nothing else is."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from plankit.drawing.metrics import text_box
from plankit.drawing.primitives import Area, Bounds, Line, Mark, Point, Primitive, Text, corners

type Quad = tuple[Point, ...]


@dataclass(slots=True)
class Occupied:
    """Boxes (turned or not) and line pieces that later text should stay clear of."""

    boxes: list[Quad] = field(default_factory=list)
    pieces: list[tuple[Point, Point]] = field(default_factory=list)

    def add(self, items: Iterable[Primitive]) -> None:
        """Remember what was drawn; areas take no place, only their lines do."""
        for item in items:
            if isinstance(item, Text):
                self.boxes.append(text_quad(item))
            elif isinstance(item, Mark):
                self.boxes.append(quad_of(_around(corners(item))))
            elif isinstance(item, Line):
                self.pieces.extend(zip(item.points, item.points[1:], strict=False))

    def cost(self, quad: Quad, margin: float = 0.4) -> float:
        """How badly a box would lie: 100 for each box it overlaps, 10 for each line through it."""
        boxes, lines = (sum(1 for _ in met) for met in (self._under(quad, margin), self._through(quad, margin)))
        return 100.0 * boxes + 10.0 * lines

    def is_free(self, quad: Quad, margin: float = 0.4) -> bool:
        """Whether a box would lie clear of everything: whether its cost is nothing."""
        met = (next(ones, None) for ones in (self._under(quad, margin), self._through(quad, margin)))
        return all(one is None for one in met)

    def _under(self, quad: Quad, margin: float) -> Iterator[Quad]:
        """The boxes that a box would overlap."""
        left, top, right, bottom = bounds = _grown(quad, margin)
        grown = quad_of(bounds)
        for other in self.boxes:
            beside = all(x < left for x, _ in other) or all(x > right for x, _ in other)
            if beside or all(y < top for _, y in other) or all(y > bottom for _, y in other):
                continue
            if overlap(grown, other) and overlap(quad, other, margin):
                yield other

    def _through(self, quad: Quad, margin: float) -> Iterator[tuple[Point, Point]]:
        """The line pieces that would go through a box."""
        left, top, right, bottom = _grown(quad, margin)
        for piece in self.pieces:
            (ax, ay), (bx, by) = piece
            if (ax < left and bx < left) or (ax > right and bx > right):
                continue
            if (ay < top and by < top) or (ay > bottom and by > bottom):
                continue
            if _cuts(piece, quad, margin):
                yield piece

    def near_words(self, quad: Quad, apart: float) -> bool:
        """Whether words or marks lie nearer to a box than this, in mm."""
        return any(overlap(quad, other, apart) for other in self.boxes)

    def crossings(self, start: Point, end: Point) -> int:
        """How many line pieces and boxes a line from start to end would cross."""
        boxes = sum(1 for box in self.boxes if _cuts((start, end), box, 0.0))
        return boxes + sum(1 for piece in self.pieces if _cross(piece[0], piece[1], start, end))


def text_quad(item: Text) -> Quad:
    """The four corners of the room a text takes on the page."""
    turn = math.radians(item.angle)
    left, top, right, bottom = text_box(item.text, item.size, item.anchor, bold=item.bold)
    return tuple(
        (
            item.at[0] + x * math.cos(turn) - y * math.sin(turn),
            item.at[1] + x * math.sin(turn) + y * math.cos(turn),
        )
        for x, y in ((left, top), (right, top), (right, bottom), (left, bottom))
    )


def quad_of(bounds: Bounds) -> Quad:
    """The four corners of an upright box."""
    left, top, right, bottom = bounds
    return (left, top), (right, top), (right, bottom), (left, bottom)


def overlap(one: Sequence[Point], other: Sequence[Point], margin: float = 0.0) -> bool:
    """Whether two convex shapes overlap, or come nearer than a margin (separating axes)."""
    for shape in (one, other):
        for (ax, ay), (bx, by) in zip(shape, (*shape[1:], shape[0]), strict=True):
            nx, ny = by - ay, ax - bx
            size = math.hypot(nx, ny)
            if size < 1e-12:
                continue
            first = [(x * nx + y * ny) / size for x, y in one]
            second = [(x * nx + y * ny) / size for x, y in other]
            if max(first) + margin <= min(second) + 1e-9 or max(second) + margin <= min(first) + 1e-9:
                return False
    return True


def segments(items: Iterable[Primitive]) -> list[tuple[Point, Point]]:
    """Every straight piece of the lines among some primitives."""
    found: list[tuple[Point, Point]] = []
    for item in items:
        if isinstance(item, Line):
            found.extend(zip(item.points, item.points[1:], strict=False))
        elif isinstance(item, Area):
            continue
    return found


def _around(points: Iterable[Point]) -> Bounds:
    across, down = zip(*points, strict=True)
    return min(across), min(down), max(across), max(down)


def _grown(quad: Quad, margin: float) -> Bounds:
    left, top, right, bottom = _around(quad)
    return left - margin, top - margin, right + margin, bottom + margin


def _cuts(piece: tuple[Point, Point], quad: Quad, margin: float) -> bool:
    return overlap(piece, quad, margin)


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _side(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
