"""A cutting drawing: a sheet or board to scale, its pieces, cuts in their order, offcuts and waste."""

from collections.abc import Iterator
from typing import Final

from plankit.drawing import dimension as dim
from plankit.drawing.cutting_picture import CutStroke, CuttingPicture, Placed
from plankit.drawing.cutting_words import piece_words
from plankit.drawing.dimension import circle
from plankit.drawing.edge_names import Side, side_names
from plankit.drawing.hatch import hatch
from plankit.drawing.metrics import capital_height
from plankit.drawing.occupied import Occupied, overlap, quad_of
from plankit.drawing.placing import framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import Area, Bounds, Figure, Line, Mark, Point, Primitive, Text, bounds
from plankit.drawing.words import listed, sentence, unit_note
from plankit.units import Notation

WIDE, HIGH = 146.0, 100.0
_SIDES: Final[dict[Side, str]] = {
    "lower": "lower edge", "upper": "upper edge", "left": "left end", "right": "right end",
}  # fmt: skip


def cutting_drawing(picture: CuttingPicture, notation: Notation) -> Figure:
    """A sheet or board to scale with its pieces labelled and sized, cuts numbered, waste hatched."""
    return on_the_page(lambda room: _drawn(picture, notation, room))


def _drawn(picture: CuttingPicture, notation: Notation, room: float) -> Figure:
    number = ratio(notation.unit, picture.length, picture.width, WIDE * room, HIGH * room)
    stock = Placed(picture, 1.0 / number)
    taken = Occupied()
    base = (*_ground(stock), *_cut_lines(stock))
    circles = tuple(_cut_numbers(stock, taken))
    names = tuple(piece_words(stock, taken))
    sizes = _outside(stock)
    taken.add((*base, *sizes, *(item for item in (*names, *circles) if isinstance(item, Line))))
    edges = side_names(_stock_box(stock), _SIDES, taken, frozenset(_SIDES), outside=True)
    items: list[Primitive] = [*base, *sizes, *names, *circles, *edges]
    if picture.grain:
        items.extend(_grain(bounds(items)))
    left, top, _, bottom = bounds(items)
    copies = f"; cut {picture.copies} alike" if picture.copies > 1 else ""
    head = (
        Text((left, top - 7.0), picture.title, 10.0, bold=True),
        Text((left, top - 3.0), f"{picture.stock}, {picture.size}{copies}", 8.0),
    )
    said = [scale_words(number), unit_note(notation), "Hatched: waste"]
    if picture.offcuts:
        said.append("Gray: offcut worth keeping")
    if picture.cuts:
        said.append("Numbers in rings: order of cuts")
    tail = Text((left, bottom + 5.0), ". ".join(said) + ".", 8.0)
    return framed(
        picture.name,
        (*head, *items, tail),
        f"{picture.title}: {picture.stock}",
        _words(picture),
    )


def _stock_box(stock: Placed) -> Bounds:
    """Left, top, right, bottom of the stock on the page."""
    (left, top), _, (right, bottom), _ = stock.ring
    return left, top, right, bottom


def _ground(stock: Placed) -> Iterator[Primitive]:
    """Waste below everything, then offcuts and pieces, then the edges."""
    pieces = [quad_of(stock.box(piece)) for piece in stock.picture.pieces]
    offcuts = [quad_of(stock.box(offcut)) for offcut in stock.picture.offcuts]
    kept = (*pieces, *offcuts)
    yield Area((stock.ring, *kept), "waste")
    yield from hatch([stock.ring, *kept], -45.0, 2.0)
    yield from (Area((ring,), "offcut") for ring in offcuts)
    yield from (Area((ring,), "part") for ring in pieces)
    yield from (Line((*ring, ring[0]), "hidden") for ring in offcuts)
    yield from (Line((*ring, ring[0]), "outline") for ring in pieces)
    yield Line((*stock.ring, stock.ring[0]), "visible")
    yield from _trim_lines(stock)


def _trim_lines(stock: Placed) -> Iterator[Primitive]:
    left, right, lower, upper = stock.picture.trim
    long, wide = stock.picture.length, stock.picture.width
    edges = (
        (left, (left, 0.0), (left, wide)),
        (right, (long - right, 0.0), (long - right, wide)),
        (lower, (0.0, lower), (long, lower)),
        (upper, (0.0, wide - upper), (long, wide - upper)),
    )
    for trimmed, start, end in edges:
        if trimmed > 0:
            yield Line((stock.at(*start), stock.at(*end)), "centre")


def _cut_lines(stock: Placed) -> Iterator[Primitive]:
    for cut in stock.picture.cuts:
        yield Line((stock.at(*cut.start), stock.at(*cut.end)), "cut")


def _cut_numbers(stock: Placed, taken: Occupied) -> Iterator[Primitive]:
    """Each cut's number in a ring at the freest place along the cut: outside the stock if it gets there."""
    for cut in sorted(stock.picture.cuts, key=lambda cut: cut.order):
        spots = _number_spots(stock, cut)
        costs = [(taken.cost(_room(spot)) + penalty, index) for index, (spot, penalty) in enumerate(spots)]
        spot = spots[min(costs)[1]][0]
        taken.boxes.append(_room(spot))
        ring = circle(spot, 2.2, 20)
        yield Area((ring[:-1],), "paper")
        yield Line(ring, "leader")
        yield Text((spot[0], spot[1] + capital_height(8.0) / 2), str(cut.order), 8.0, "middle")


def _room(spot: Point) -> tuple[Point, ...]:
    return quad_of((spot[0] - 2.3, spot[1] - 2.3, spot[0] + 2.3, spot[1] + 2.3))


def _number_spots(stock: Placed, cut: CutStroke) -> list[tuple[Point, float]]:
    """Beyond an end that reaches the edge of the stock, else along the cut; with what each costs."""
    start, end = stock.at(*cut.start), stock.at(*cut.end)
    way = dim.unit((end[0] - start[0], end[1] - start[1])) if start != end else (1.0, 0.0)
    ring = stock.ring
    spots: list[tuple[Point, float]] = []
    for number, (point, out) in enumerate(((start, dim.back(way)), (end, way))):
        beyond = dim.shift(point, out, 3.2)
        outside = not overlap(_room(beyond), ring, -0.5)
        sized = outside and min(out) < -0.5  # the stock's own sizes stand there, at the left and above
        spots.extend(
            (dim.shift(beyond, out, 4.6 * far), 0.1 * number + far + (0.0 if outside else 50.0))
            for far in range(1 if sized else 3)
        )
    for share in (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6):
        along = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
        spots.append((along, 20.0 + share))
    return spots


def _outside(stock: Placed) -> tuple[Primitive, ...]:
    """The stock's own length above it and its width at the left."""
    (left, top), (right, _), (_, bottom), _ = stock.ring
    beyond = 9.0 if stock.picture.cuts else 5.5
    asked = (
        dim.Dimension((left, top), (right, top), (1.0, 0.0), (0.0, -1.0), beyond, stock.picture.length_text),
        dim.Dimension(
            (left, bottom), (left, top), (0.0, -1.0), (-1.0, 0.0), beyond, stock.picture.width_text
        ),
    )
    return tuple(item for one in asked for item in dim.drawn(one))


def _grain(drawn: Bounds) -> tuple[Primitive, ...]:
    """A double arrow along the stock's length, under the drawing at its right."""
    _, _, right, bottom = drawn
    y = bottom + 4.8
    line = Line(((right - 14.0, y), (right, y)), "dimension")
    ends = Mark((right - 14.0, y), "arrow", 2.2, 180.0), Mark((right, y), "arrow", 2.2, 0.0)
    return line, *ends, Text((right - 15.2, y + 0.9), "grain", 8.0, "end")


def _words(picture: CuttingPicture) -> str:
    said = [f"{picture.title}: {picture.stock}, {picture.size}"]
    if picture.copies > 1:
        said.append(f"{picture.copies} are cut alike")
    totals: dict[tuple[str, str, str], int] = {}
    for piece in picture.pieces:
        key = (piece.label, piece.name, piece.size)
        totals[key] = totals.get(key, 0) + 1
    pieces = [f"{n} × {label} {name}, {size}" for (label, name, size), n in sorted(totals.items())]
    if pieces:
        said.append(f"pieces: {'; '.join(pieces)}")
    if picture.offcuts:
        said.append(f"kept: {listed(f'{offcut.name}, {offcut.size}' for offcut in picture.offcuts)}")
    if picture.cuts:
        said.append(
            f"{len(picture.cuts)} cuts, numbered in their order" if len(picture.cuts) > 1 else "one cut"
        )
    said.append("the rest is waste")
    return " ".join(sentence(one) for one in said)
