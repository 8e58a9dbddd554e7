"""One face of a part on paper: outline, waste, holes, numbers from the datum corner, notes, grain."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from plankit.drawing import dimension as dim
from plankit.drawing.edge_names import Side, side_names
from plankit.drawing.hatch import hatch, inside
from plankit.drawing.metrics import capital_height, text_width
from plankit.drawing.occupied import Occupied, quad_of
from plankit.drawing.part_faces import Datum, FaceView, banded
from plankit.drawing.part_marks import Marks, Setback
from plankit.drawing.part_notes import Note, edge_words, face_words
from plankit.drawing.part_rows import Stepped
from plankit.drawing.part_spots import Spot
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Area, Line, Mark, Point, Primitive, Text, bounds
from plankit.drawing.seen import fills_of, lines_of, plain_kind, view_of
from plankit.parts import Axis, Face, Part, Turn
from plankit.units import Length, Notation

_RIGHT: Point = (1.0, 0.0)
_UP: Point = (0.0, -1.0)
_DOWN: Point = (0.0, 1.0)
_LEFT: Point = (-1.0, 0.0)
_NEAR_END = 14.0
"""A place so near the right side of a face, in mm on the page, can have its words there."""


@dataclass(frozen=True, slots=True)
class PartFace:
    """One face on the page, and what its drawing needs to know."""

    view: FaceView
    placing: Placing
    datum: Datum
    marks: Marks
    notation: Notation
    sized: frozenset[Axis]

    def at(self, spot: Spot) -> Point:
        """Where a spot of the face falls on the page."""
        return self.view.at(self.placing, *spot)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the untouched face on the page."""
        ends = [self.at((Length.zero(), Length.zero())), self.at(_far(self.view))]
        (ax, ay), (bx, by) = ends
        return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def face_items(face: PartFace, *, first: bool) -> tuple[Primitive, ...]:
    """One face with everything that is marked on it."""
    view, base = face.view, plain_face(face)
    numbers = (*_along_page(face), *_up_page(face), *_setback_items(face))
    taken = Occupied()
    taken.add((*base, *numbers))
    edges = tuple(banding_lines(face)) if first else ()
    taken.add(edges)
    notes = _notes(face, (*base, *edges, *numbers))
    taken.add((*notes, *datum_corner(face)))
    named = side_names(face.box, _names(view), taken, _at_datum(face))
    grain = _grain(face, taken) if view.part.grain in {view.across, view.upright} and first else ()
    drawn = (*base, *numbers, *edges, *notes, *named, *grain, *datum_corner(face))
    left, top, _, _ = face.box
    above = min(top, bounds((*edges, *notes, *named, *base, *numbers))[1])
    words = [face_words(view.part, view.face), *dict.fromkeys(face.marks.said)]
    lines = [words[0], *words[1:]]
    captions = [
        Text((left, above - 2.0 - 3.6 * (len(lines) - 1 - index)), line, 8.0)
        for index, line in enumerate(lines)
    ]
    return (*drawn, *captions)


def plain_face(face: PartFace) -> tuple[Primitive, ...]:
    """The face itself with its waste and the middles of its holes, without a number."""
    seen = view_of((face.view.part,), face.view.way)
    return (
        *fills_of(seen, face.placing, lambda _part: "part"),
        *_waste_items(face),
        *lines_of(seen, face.placing, plain_kind),
        *_centres(face),
    )


def _names(view: FaceView) -> dict[Side, str]:
    """What the edges and ends round a face are called."""
    sides: dict[Side, Face] = {
        "left": view.left, "lower": view.below, "upper": view.above, "right": view.right,
    }  # fmt: skip
    return {side: edge_words(view.part, face) for side, face in sides.items()}


def _at_datum(face: PartFace) -> frozenset[Side]:
    """The two sides that meet in the black corner."""
    low = face.datum.face(face.view.upright) == face.view.below
    return frozenset({"left", "lower" if low else "upper"})


def mirrored_face(face: PartFace, other: Part, turn: Turn | None, *, first: bool) -> tuple[Primitive, ...]:
    """The mirror image of a face, up for down, with the names its face and edges have on the mirrored part.

    turn  makes the mirrored part of this one; without it the face is named by what it mirrors
    """
    plain = (*plain_face(face), *(banding_lines(face) if first else ()))
    drawn = tuple(_flipped(item) for item in (*plain, *datum_corner(face)))
    left, top, right, bottom = face.box
    taken = Occupied()
    taken.add(drawn)
    named: tuple[Text, ...] = ()
    title = face_words(face.view.part, face.view.face) + ", mirrored"
    if turn is not None:
        view = face.view
        sides: dict[Side, Face] = {
            "left": view.left, "lower": view.above, "upper": view.below, "right": view.right,
        }  # fmt: skip
        names = {side: edge_words(other, turn.face(one)) for side, one in sides.items()}
        swapped: dict[Side, Side] = {"lower": "upper", "upper": "lower"}
        needed = frozenset(swapped.get(side, side) for side in _at_datum(face))
        named = side_names((left, -bottom, right, -top), names, taken, needed)
        title = face_words(other, turn.face(view.face))
    level = bounds((*drawn, *named))[1]
    return (*drawn, *named, Text((left, level - 2.0), title, 8.0))


def _flipped(item: Primitive) -> Primitive:
    """The mirror image of a line or an area, up for down."""
    if isinstance(item, Line):
        return replace(item, points=tuple((x, -y) for x, y in item.points))
    if isinstance(item, Area):
        return replace(item, rings=tuple(tuple((x, -y) for x, y in ring) for ring in item.rings))
    return replace(item, at=(item.at[0], -item.at[1]))


def _outlines(face: PartFace) -> list[tuple[Point, ...]]:
    return [tuple(face.at(spot) for spot in outline) for outline in face.marks.waste]


def _waste_items(face: PartFace) -> Iterator[Primitive]:
    """Waste: hatched, crossed, its old outline in a chain line."""
    for outline in _outlines(face):
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


def _along_page(face: PartFace) -> tuple[Primitive, ...]:
    """Places along the page, counted from the datum end, below the face."""
    view = face.view
    left, _, right, bottom = face.box
    places = [
        ((face.at((offset, Length.zero()))[0], bottom), _number(face, view.across, offset))
        for offset in face.marks.across
    ]
    if view.across not in face.sized:
        places.append(((right, bottom), face.notation.bare(view.part.box.extent(view.across))))
    beyond = _beyond(face, _DOWN)
    return (
        *_counted((left, bottom), places, (_RIGHT, _DOWN), beyond), *_rows(face, view.across, bottom + beyond),
    )  # fmt: skip


def _up_page(face: PartFace) -> tuple[Primitive, ...]:
    """Places up the page, counted from the datum edge, at the left of the face."""
    view = face.view
    left, top, _, bottom = face.box
    upwards = face.datum.face(view.upright) == view.below
    origin = (left, bottom) if upwards else (left, top)
    places = [
        ((left, face.at((Length.zero(), offset))[1]), _number(face, view.upright, offset))
        for offset in face.marks.upright
    ]
    if view.upright not in face.sized:
        far = (left, top) if upwards else (left, bottom)
        places.append((far, face.notation.bare(view.part.box.extent(view.upright))))
    beyond = _beyond(face, _LEFT)
    return (
        *_counted(origin, places, (_UP if upwards else _DOWN, _LEFT), beyond),
        *_rows(face, view.upright, left - beyond),
    )  # fmt: skip


def _counted(
    origin: Point, places: Sequence[tuple[Point, str]], ways: tuple[Point, Point], beyond: float
) -> tuple[Primitive, ...]:
    """One dimension, or a running one where there are several places; the line lies `beyond` the face."""
    along, away = ways
    if not places:
        return ()
    if len(places) == 1:
        return dim.drawn(dim.Dimension(origin, places[0][0], along, away, beyond + 1.0, places[0][1]))
    return dim.running(dim.Running(origin, tuple(places), along, away, beyond))


def _beyond(face: PartFace, away: Point) -> float:
    """How far from the face its places are counted: beyond the amounts of sloping cuts on that side."""
    taken = any(_side(face, setback) == away for setback in face.marks.setbacks)
    return 4.5 + (dim.LEVEL if taken else 0.0)


def _number(face: PartFace, axis: Axis, offset: Length) -> str:
    """What stands at a place: how far it is from the datum face, or how it is stepped off from the first of a row."""
    part = face.view.part
    number = face.notation.bare(face.datum.distance(part, axis, offset))
    for row in face.marks.rows:
        if row.axis == axis and row.last(face.datum, part).mm == offset.mm and not _between_ends(face, row):
            return f"{row.words(face.notation)} to {number}"
    return number


def _between_ends(face: PartFace, row: Stepped) -> bool:
    """Whether what is said of a row has room on the dimension line, between its first and its last place."""
    places = face.marks.across if row.axis == face.view.across else face.marks.upright
    clear = not any(row.places[0].mm < place.mm < row.places[-1].mm for place in places)
    long = float((row.places[-1] - row.places[0]).mm) * face.placing.scale
    return clear and long > text_width(row.words(face.notation), dim.SIZE) + 2 * dim.ARROW + 1.0


def _rows(face: PartFace, axis: Axis, line: float) -> Iterator[Primitive]:
    """What is said of evenly spaced holes, on the dimension line that lies at a level of the page."""
    once = {row.places: row for row in face.marks.rows if row.axis == axis}
    for row in once.values():
        if _between_ends(face, row):
            middle = (row.places[0] + row.places[-1]).portion(2)
            words = row.words(face.notation)
            if axis == face.view.across:
                x, _ = face.at((middle, Length.zero()))
                yield Text((x, line + dim.ABOVE + capital_height(dim.SIZE)), words, dim.SIZE, "middle")
            else:
                _, y = face.at((Length.zero(), middle))
                yield Text((line - dim.ABOVE, y), words, dim.SIZE, "middle", -90.0)


def _setback_items(face: PartFace) -> Iterator[Primitive]:
    """Amounts of tapers and mitres, on the side of the face where the sloping cut takes most, clear of one another."""
    amounts = []
    for setback in face.marks.setbacks:
        first, second = face.at(setback.first), face.at(setback.second)
        along = _DOWN if setback.upright else _RIGHT
        text = face.notation.bare(setback.length)
        amounts.append(dim.Dimension(first, second, along, _side(face, setback), 5.0, text))
    taken = Occupied()
    for amount in amounts:
        taken.add(item for item in dim.drawn(amount) if isinstance(item, Line) and item.kind == "extension")
    for amount in amounts:
        items = dim.drawn(amount, taken)
        taken.add(items)
        yield from items


def _side(face: PartFace, setback: Setback) -> Point:
    """The way out from the face at the place where a sloping cut takes most."""
    left, top, right, bottom = face.box
    x, y = face.at(setback.first)
    if setback.upright:
        return _RIGHT if abs(x - right) < abs(x - left) else _LEFT
    return _UP if abs(y - top) < abs(y - bottom) else _DOWN


def _notes(face: PartFace, base: Sequence[Primitive]) -> tuple[Primitive, ...]:
    """Words above the face, each with a leader down to what they speak of; no leader crosses words."""
    right = face.box[2]
    level_with = [note for note in face.marks.notes if _is_beside(face, note)]
    beside = _notes_beside(face, level_with, max(right, bounds(base)[2]) + 2.5)
    notes = sorted(
        (note for note in face.marks.notes if note not in level_with), key=lambda note: face.at(note.spot)[0]
    )
    if not notes:
        return beside
    over = max(face.at(note.spot)[0] + text_width(note.text, 8.0) for note in notes) - right
    under = max(text_width(note.text, 8.0) - face.at(note.spot)[0] for note in notes)
    rightwards = over <= max(under, 22.0)
    rows = list(reversed(notes)) if rightwards else notes
    level = min(face.box[1], bounds(base)[1]) - 2.2
    items: list[Primitive] = [*beside]
    for row, note in enumerate(rows):
        items.extend(_note(face, note, level - 4.2 * row, rightwards=rightwards))
    return tuple(items)


def _is_beside(face: PartFace, note: Note) -> bool:
    """Whether words stand beside the face: a notch's at its right, and those whose leaders would run into one."""
    x = face.at(note.spot)[0]
    others = [face.at(other.spot)[0] for other in face.marks.notes if other is not note]
    return note.beside or (
        any(other.beside for other in face.marks.notes)
        and face.box[2] - x < _NEAR_END
        and any(abs(x - other) < 2.0 for other in others)
    )


def _notes_beside(face: PartFace, notes: Sequence[Note], start: float) -> tuple[Primitive, ...]:
    """Words at the right of the face, each level with its place or just below the words before it."""
    items: list[Primitive] = []
    least = -math.inf
    for note in sorted(notes, key=lambda note: face.at(note.spot)[1]):
        x, y = face.at(note.spot)
        lines = note.text.split(", ")
        level = max(y + capital_height(8.0) / 2, least)
        tip = (x + note.reach * face.placing.scale, y)
        middle = level - capital_height(8.0) / 2
        items.append(Line((tip, (start, y), (start + 2.0, middle)), "leader"))
        items.append(Mark(tip, "arrow", 1.6, 180.0))
        items.extend(Text((start + 2.6, level + 3.6 * row), line, 8.0) for row, line in enumerate(lines))
        least = level + 3.6 * len(lines) + 1.0
    return tuple(items)


def _note(face: PartFace, note: Note, level: float, *, rightwards: bool) -> tuple[Primitive, ...]:
    x, y = face.at(note.spot)
    tip = (x, y - note.reach * face.placing.scale)
    end = (x + (1.0 if rightwards else -1.0), level - 1.1)
    text = Text(
        (end[0] + (0.5 if rightwards else -0.5), level), note.text, 8.0, "start" if rightwards else "end"
    )
    return Line((tip, (x, end[1]), end), "leader"), Mark(tip, "arrow", 1.6, 90.0), text


def banding_lines(face: PartFace) -> Iterator[Primitive]:
    """Banded edges of this face: a chain line outside, and the word."""
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


def _grain(face: PartFace, taken: Occupied) -> tuple[Primitive, ...]:
    """A double arrow along the grain with its name: on the face where that is free, else at its right."""
    left, top, right, bottom = face.box
    upright = face.view.part.grain == face.view.upright
    long = min(16.0, (right - left) * 0.6)
    best = (math.inf, 0.0, 0.0, 0.0)
    for row, column in ((r, c) for r in range(1, 8) for c in range(1, 8)):
        x, y = left + (right - left) * column / 8, top + (bottom - top) * row / 8
        room = quad_of((x - long / 2 - 0.5, y - 4.2, x + long / 2 + 0.5, y + 1.4))
        if (
            room[0][0] > left + 1
            and room[2][0] < right - 1
            and room[0][1] > top + 1
            and room[2][1] < bottom - 1
        ):
            best = min(best, (taken.cost(room), abs(row - 4.0) + abs(column - 4.0), x, y))
    words = "grain (up and down)" if upright else "grain"
    _, _, x, y = best
    if best[0] >= 10.0:
        long = 12.0
        x, y = _grain_outside(right, (top + bottom) / 2 + 1.4, max(long, text_width(words, 8.0)), taken)
    line = Line(((x - long / 2, y), (x + long / 2, y)), "dimension")
    ends = Mark((x - long / 2, y), "arrow", 2.2, 180.0), Mark((x + long / 2, y), "arrow", 2.2, 0.0)
    return line, *ends, Text((x, y - 0.9), words, 8.0, "middle")


def _grain_outside(right: float, level: float, wide: float, taken: Occupied) -> Point:
    """The nearest free place at the right of a face for the middle of the grain's arrow."""
    spots = [
        (right + 13.0 + far, level + aside) for far in range(0, 40, 2) for aside in (0.0, 3.0, -3.0, 6.0)
    ]

    def cost(spot: Point) -> float:
        x, y = spot
        return taken.cost(quad_of((x - wide / 2 - 0.5, y - 4.2, x + wide / 2 + 0.5, y + 1.4)))

    return min(spots, key=cost)


def datum_corner(face: PartFace) -> tuple[Primitive, ...]:
    """A black corner where both measures start."""
    left, top, _, bottom = face.box
    low = face.datum.face(face.view.upright) == face.view.below
    y, inwards = (bottom, -1.0) if low else (top, 1.0)
    steps = [0.3 * number for number in range(1, 9)]
    return tuple(Line(((left + far, y), (left, y + inwards * far)), "outline") for far in steps)


def _far(view: FaceView) -> Spot:
    return view.part.box.extent(view.across), view.part.box.extent(view.upright)
