"""Where label and size of each piece go on a cutting drawing: in it, beside it, or below the stock."""

import math
from collections.abc import Iterator, Sequence

from plankit.drawing import dimension as dim
from plankit.drawing.cutting_picture import CutOffcut, CutPiece, Placed
from plankit.drawing.metrics import capital_height, text_width
from plankit.drawing.occupied import Occupied, overlap, quad_of, text_quad
from plankit.drawing.primitives import Area, Bounds, Line, Mark, Point, Primitive, Text

_SIZE = 8.0
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)


def piece_words(stock: Placed, taken: Occupied) -> Iterator[Primitive]:
    """A label and a size in every piece, upright where it is narrow, else close by or below with a leader."""
    items: tuple[CutPiece | CutOffcut, ...] = (*stock.picture.pieces, *stock.picture.offcuts)
    kept = [quad_of(stock.box(item)) for item in items]
    waiting: list[tuple[Bounds, tuple[str, str]]] = []
    for item in items:
        bold = isinstance(item, CutPiece)
        words = (item.label if isinstance(item, CutPiece) else item.name, item.size)
        box = stock.box(item)
        placed = _fitting(box, words, bold, taken)
        taken.add(placed)
        yield from placed
        if not placed:
            waiting.append((box, words))
    outside = []
    for box, words in waiting:
        near = _close_by(stock, box, words, kept, taken)
        yield from near
        if not near:
            outside.append((box, words))
    yield from _outside_words(stock, outside, taken)


def _fitting(box: Bounds, words: tuple[str, str], bold: bool, taken: Occupied) -> tuple[Text, ...]:
    """The words in one to three lines, along the piece or up it, where they fit; else nothing."""
    left, top, right, bottom = box
    middle = (left + right) / 2, (top + bottom) / 2
    long, high = right - left - 1.4, bottom - top - 0.8
    for angle, room, depth in ((0.0, long, high), (-90.0, high - 0.6, long + 0.6)):
        for lines in _wordings(words):
            fits = (
                max(text_width(line, _SIZE + 1.0 * (row == 0), bold=bold) for row, line in enumerate(lines))
                <= room
            )
            if fits and len(lines) * 4.1 - 1.3 <= depth:
                for aside in (0.0, 0.22, -0.22):
                    at = (middle[0] + aside * (right - left), middle[1] + aside * (bottom - top))
                    text = _stacked(at, lines, angle, bold)
                    if _clear(text, box, taken):
                        return text
    return ()


def _wordings(words: tuple[str, str]) -> tuple[tuple[str, ...], ...]:
    """The same words in two lines, in one, and in three."""
    name, size = words
    first, cross, second = size.partition(" × ")
    three = ((name, f"{first} ×", second),) if cross else ()
    return ((name, size), (joined(words),), *three)


def joined(words: tuple[str, str]) -> str:
    """Label and size in one line, with a space wide enough to tell them apart."""
    return f"{words[0]}\u00a0 {words[1]}"


def _stacked(at: Point, lines: Sequence[str], angle: float, bold: bool) -> tuple[Text, ...]:
    """Lines of text round a middle, the first of them larger where there are several."""
    turn = math.radians(angle)
    down = (-math.sin(turn), math.cos(turn))
    first = -(len(lines) - 1) * 2.05 + capital_height(_SIZE) / 2
    return tuple(
        Text(
            dim.shift(at, down, first + 4.1 * row),
            line,
            _SIZE + 1.0 * (row == 0 and len(lines) > 1),
            "middle",
            angle,
            bold=bold and row == 0,
        )
        for row, line in enumerate(lines)
    )


def _clear(text: Sequence[Text], box: Bounds, taken: Occupied) -> bool:
    left, top, right, bottom = box
    quads = [text_quad(line) for line in text]
    inside = all(
        left - 0.3 <= x <= right + 0.3 and top - 0.6 <= y <= bottom + 0.6 for quad in quads for x, y in quad
    )
    return inside and all(taken.is_free(quad, 0.2) for quad in quads)


def _close_by(
    stock: Placed, box: Bounds, words: tuple[str, str], kept: Sequence[tuple[Point, ...]], taken: Occupied
) -> tuple[Primitive, ...]:
    """The words on the waste beside a small piece, on white, with a leader; nothing without room."""
    wide, tall = text_width(joined(words), _SIZE, bold=True), capital_height(_SIZE)
    for start, base, edge, dot in _spots_beside(box, wide, tall):
        room = quad_of((start - 0.8, base - tall - 0.6, start + wide + 0.8, base + 0.6))
        within = all(0.0 <= x <= stock.ring[2][0] and 0.0 <= y <= stock.ring[2][1] for x, y in room)
        if within and taken.is_free(room, 0.1) and not any(overlap(room, other) for other in kept):
            text = Text((start, base), joined(words), _SIZE, bold=True)
            leader = Line((dot, edge), "leader")
            taken.add((text, leader))
            return leader, Mark(dot, "dot", 1.0), Area((room,), "paper"), text
    return ()


def _spots_beside(box: Bounds, wide: float, tall: float) -> Iterator[tuple[float, float, Point, Point]]:
    """Where words may start beside a piece, and where their leader meets them and the piece."""
    left, top, right, bottom = box
    x, y = (left + right) / 2, (top + bottom) / 2
    inwards = min(2.0, (right - left) / 2)
    for far in (3.0, 5.0, 8.0, 12.0):
        for nudge in (0.0, -1.2, 1.2, -2.4, 2.4):
            yield right + far, y + nudge + tall / 2, (right + far - 0.8, y + nudge), (right - inwards, y)
            yield left - far - wide, y + nudge + tall / 2, (left - far + 0.8, y + nudge), (left + inwards, y)
        yield x - wide / 2, bottom + far + tall, (x, bottom + far - 0.6), (x, y)
        yield x - wide / 2, top - far, (x, top - far + 0.6), (x, y)


def _outside_words(
    stock: Placed, waiting: Sequence[tuple[Bounds, tuple[str, str]]], taken: Occupied
) -> Iterator[Primitive]:
    """Words of small pieces under the stock, each with a leader, spread so that they do not meet."""
    if not waiting:
        return
    bottom = stock.ring[2][1]
    ordered = sorted(((_way_down(box, taken), box, words) for box, words in waiting), key=lambda one: one[:2])
    lowest = max([bottom, *(corner[1] for box in taken.boxes for corner in box)])
    rows: list[float] = []
    for x, box, words in reversed(ordered):
        y = (box[1] + box[3]) / 2
        text = joined(words)
        wide = text_width(text, _SIZE, bold=True)
        row = next((index for index, start in enumerate(rows) if x + 1.5 + wide < start), len(rows))
        rows[row : row + 1] = [x - 1.0]
        level = lowest + 5.0 + 4.4 * row
        yield Line(((x, y), (x, level - 1.2), (x + 1.0, level - 1.2)), "leader")
        yield Mark((x, y), "dot", 1.0)
        made = Text((x + 1.5, level), text, _SIZE, bold=True)
        taken.add((made,))
        yield made


def _way_down(box: Bounds, taken: Occupied) -> float:
    """Where across a piece a leader can go straight down with fewest words in its way; its middle if that is free."""
    left, top, right, bottom = box
    y = (top + bottom) / 2

    def met(x: float) -> int:
        return sum(
            min(u for u, _ in quad) - 0.5 < x < max(u for u, _ in quad) + 0.5 and max(v for _, v in quad) > y
            for quad in taken.boxes
        )

    return min((left + (right - left) * share for share in _SHARES), key=met)
