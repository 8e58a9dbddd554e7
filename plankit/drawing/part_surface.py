"""What is drawn on a face itself: waste, middles of holes, banding, the black corner, the grain's arrow."""

import math
from collections.abc import Iterator

from plankit.drawing.hatch import hatch, inside
from plankit.drawing.metrics import text_width
from plankit.drawing.occupied import Occupied, Quad, quad_of
from plankit.drawing.part_face import PartFace
from plankit.drawing.part_faces import banded
from plankit.drawing.primitives import Area, Line, Mark, Point, Primitive, Text
from plankit.drawing.seen import fills_of, lines_of, plain_kind, view_of

_GRAIN = "grain"


def plain_face(face: PartFace) -> tuple[Primitive, ...]:
    """The face itself with its waste and the middles of its holes, without a number."""
    seen = view_of((face.view.part,), face.view.way)
    return (
        *fills_of(seen, face.placing, lambda _part: "part"),
        *_waste_items(face),
        *lines_of(seen, face.placing, plain_kind),
        *_centres(face),
    )


def _waste_items(face: PartFace) -> Iterator[Primitive]:
    """Waste: hatched, crossed, its old outline in a chain line."""
    for spots in face.marks.waste:
        outline = tuple(face.at(spot) for spot in spots)
        yield Area((outline,), "waste")
        yield from hatch([outline], -45.0, 1.6)
        yield from _cross(outline)
        yield Line((*outline, outline[0]), "assembly")


def _cross(outline: tuple[Point, ...]) -> Iterator[Primitive]:
    """A cross through the middle of waste, as far as it lies inside."""
    across, down = zip(*outline, strict=True)
    x, y = sum(across) / len(across), sum(down) / len(down)
    wide, high = max(across) - min(across), max(down) - min(down)
    size = max(wide, high) / max(math.hypot(wide, high), 1e-9)
    for slope in (1.0, -1.0):
        reach = (wide * size / 2, slope * high * size / 2)
        for piece in inside([outline], (x - reach[0], y - reach[1]), (x + reach[0], y + reach[1])):
            yield Line(piece, "visible")


def _centres(face: PartFace) -> Iterator[Primitive]:
    for spot in face.marks.centres:
        x, y = face.at(spot)
        yield Line(((x - 2.2, y), (x + 2.2, y)), "centre")
        yield Line(((x, y - 2.2), (x, y + 2.2)), "centre")


def banding_lines(face: PartFace) -> Iterator[Primitive]:
    """Banded edges of this face: a chain line outside."""
    view = face.view
    left, top, right, bottom = face.box
    sides = {
        view.left: ((left - 1.3, top), (left - 1.3, bottom)),
        view.right: ((right + 1.3, top), (right + 1.3, bottom)),
        view.below: ((left, bottom + 1.3), (right, bottom + 1.3)),
        view.above: ((left, top - 1.3), (right, top - 1.3)),
    }
    for banding in banded(view.part):
        if banding.edge in sides:
            yield Line(sides[banding.edge], "centre")


def datum_corner(face: PartFace) -> tuple[Primitive, ...]:
    """A black corner where both measures start."""
    x, y = face.corner
    over, down = (1.0 if face.from_left else -1.0), (-1.0 if face.from_below else 1.0)
    steps = [0.3 * number for number in range(1, 9)]
    return tuple(Line(((x + over * far, y), (x, y + down * far)), "outline") for far in steps)


def grain_arrow(face: PartFace, taken: Occupied) -> tuple[Primitive, ...]:
    """A double arrow along the grain with its name: on the face where that is free, else at its right."""
    left, top, right, bottom = face.box
    upright = face.view.part.grain == face.view.upright
    long = min(16.0, (bottom - top if upright else right - left) * 0.6)
    if long > text_width(_GRAIN, 8.0) + 2.0:
        spots = [
            (left + (right - left) * column / 8, top + (bottom - top) * row / 8)
            for row, column in sorted(
                ((r, c) for r in range(1, 8) for c in range(1, 8)),
                key=lambda at: (abs(at[0] - 4) + abs(at[1] - 4), at),
            )
        ]
        for spot in spots:
            room = _grain_room(spot, long, upright=upright)
            if _within(room, (left + 1, top + 1, right - 1, bottom - 1)) and taken.cost(room) < 10.0:
                return _arrow(spot, long, upright=upright)
    return _arrow(_outside(face, taken, upright=upright), 12.0, upright=upright)


def _within(room: Quad, box: tuple[float, float, float, float]) -> bool:
    left, top, right, bottom = box
    return all(left < x < right and top < y < bottom for x, y in room)


def _grain_room(at: Point, long: float, *, upright: bool) -> Quad:
    """The paper that the arrow and its name take."""
    x, y = at
    half = long / 2 + 0.5
    if upright:
        return quad_of((x - 4.2, y - half, x + 1.4, y + half))
    return quad_of((x - half, y - 4.2, x + half, y + 1.4))


def _arrow(at: Point, long: float, *, upright: bool) -> tuple[Primitive, ...]:
    x, y = at
    if upright:
        low, high = (x, y + long / 2), (x, y - long / 2)
        ends = Mark(high, "arrow", 2.2, -90.0), Mark(low, "arrow", 2.2, 90.0)
        return Line((low, high), "dimension"), *ends, Text((x - 0.9, y), _GRAIN, 8.0, "middle", -90.0)
    first, last = (x - long / 2, y), (x + long / 2, y)
    ends = Mark(first, "arrow", 2.2, 180.0), Mark(last, "arrow", 2.2, 0.0)
    return Line((first, last), "dimension"), *ends, Text((x, y - 0.9), _GRAIN, 8.0, "middle")


def _outside(face: PartFace, taken: Occupied, *, upright: bool) -> Point:
    """The nearest free place at the right of a face for the middle of the grain's arrow."""
    _, top, right, bottom = face.box
    middle, start = (top + bottom) / 2 + 1.4, right + (6.0 if upright else 13.0)
    asides = [
        aside
        for aside in (0.0, 3.0, -3.0, 6.0, -6.0, 10.0, -10.0, 15.0, -15.0)
        if aside >= 0 or middle + aside - (6.0 if upright else 4.2) >= top  # over it stands its caption
    ]
    spots = [(start + far, middle + aside) for far in range(0, 40, 2) for aside in asides]
    return min(spots, key=lambda spot: taken.cost(_grain_room(spot, 12.0, upright=upright)))
