"""The numbers of a part drawing: places from the black corner, rows stepped off, amounts of sloping cuts."""

from collections.abc import Iterator, Sequence

from plankit.build.hinges import CUP_SCREW_USE, CUP_USE
from plankit.drawing import dimension as dim
from plankit.drawing.metrics import capital_height, text_width
from plankit.drawing.occupied import Occupied
from plankit.drawing.part_face import PartFace
from plankit.drawing.part_marks import Setback
from plankit.drawing.part_rows import Stepped
from plankit.drawing.primitives import Line, Mark, Point, Primitive, Text
from plankit.parts import AXES, Axis, Bore
from plankit.units import Length, told

_RIGHT: Point = (1.0, 0.0)
_UP: Point = (0.0, -1.0)
_DOWN: Point = (0.0, 1.0)
_LEFT: Point = (-1.0, 0.0)


def numbers(face: PartFace) -> tuple[Primitive, ...]:
    """Every number of a face, with its lines: along the page below it, up the page at its left, amounts beside."""
    places = (*_along_page(face), *_up_page(face))
    return (*places, *_setback_items(face, places))


def written(face: PartFace, axis: Axis) -> list[str]:
    """The numbers that stand along one axis, as they are written."""
    offsets = face.marks.across if axis == face.view.across else face.marks.upright
    whole = [] if axis in face.sized else [face.notation.bare(face.view.part.box.extent(axis))]
    return [*(_number(face, axis, offset) for offset in offsets), *whole]


def _along_page(face: PartFace) -> tuple[Primitive, ...]:
    """Places along the page, counted from the datum end, below the face."""
    view = face.view
    left, _, right, bottom = face.box
    start, end = (left, right) if face.from_left else (right, left)
    spots = [(face.at((offset, Length.zero()))[0], bottom) for offset in face.marks.across]
    if view.across not in face.sized:
        spots.append((end, bottom))
    places = list(zip(spots, written(face, view.across), strict=True))
    beyond = _beyond(face, _DOWN)
    return (
        *_counted((start, bottom), places, (_RIGHT if face.from_left else _LEFT, _DOWN), beyond),
        *_rows(face, view.across, bottom + beyond),
    )


def _up_page(face: PartFace) -> tuple[Primitive, ...]:
    """Places up the page, counted from the datum edge, at the left of the face."""
    view = face.view
    left, top, _, bottom = face.box
    start, end = (bottom, top) if face.from_below else (top, bottom)
    spots = [(left, face.at((Length.zero(), offset))[1]) for offset in face.marks.upright]
    if view.upright not in face.sized:
        spots.append((left, end))
    places = list(zip(spots, written(face, view.upright), strict=True))
    beyond = _beyond(face, _LEFT)
    return (
        *_counted((left, start), places, (_UP if face.from_below else _DOWN, _LEFT), beyond),
        *_rows(face, view.upright, left - beyond),
    )


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
    far = face.datum.distance(part, axis, offset)
    number = _metric(face, axis, offset, far) or face.notation.bare(far)
    for row in face.marks.rows:
        if row.axis == axis and row.last(face.datum, part).mm == offset.mm and not _has_room(face, row):
            return f"{row.words(face.notation)} to {number}"
    return number


def _metric(face: PartFace, axis: Axis, offset: Length, far: Length) -> str:
    """How far a hinge cup's hole is, in the millimetres of its maker's sheet where no tape shows it; else ""."""
    bores = (one for one in face.view.part.features if isinstance(one, Bore))
    cups = (one for one in bores if one.use == CUP_USE or one.use.endswith(CUP_SCREW_USE))
    is_cup = any(one.at[AXES.index(axis)].mm == offset.mm for one in cups)
    exact = is_cup and face.notation.rounds(far) and (far.mm * 2).denominator == 1
    return told(far, face.notation) if exact else ""


def _has_room(face: PartFace, row: Stepped) -> bool:
    """Whether what is said of a row is no longer than the row is on the page."""
    return float((row.places[-1] - row.places[0]).mm) * face.placing.scale > least_long(face, row)


def least_long(face: PartFace, row: Stepped) -> float:
    """How long a row must be on the page for its words and two arrows, in mm."""
    return text_width(row.words(face.notation), dim.SIZE) + 2 * dim.ARROW + 1.0


def interrupted(face: PartFace, row: Stepped) -> bool:
    """Whether other places lie between a row's first and its last: its words then get a line beyond the numbers."""
    places = face.marks.across if row.axis == face.view.across else face.marks.upright
    return any(row.places[0].mm < place.mm < row.places[-1].mm for place in places)


def _rows(face: PartFace, axis: Axis, line: float) -> Iterator[Primitive]:
    """What is said of evenly spaced holes, on the dimension line that lies at a level of the page, or beyond it."""
    once = {row.places: row for row in face.marks.rows if row.axis == axis and _has_room(face, row)}
    lying = axis == face.view.across
    out = line
    for row in once.values():
        level = line
        if interrupted(face, row):
            widest = max(text_width(number, dim.SIZE) for number in ("0", *written(face, axis)))
            away = (2 * dim.PAST + 1.4 + widest + 2.0) if out == line else 4.5
            out += away if lying else -away
            level = out
            yield from _own_line(face, row, level)
        middle = (row.places[0] + row.places[-1]).portion(2)
        words = row.words(face.notation)
        if lying:
            x, _ = face.at((middle, Length.zero()))
            yield Text((x, level + dim.ABOVE + capital_height(dim.SIZE)), words, dim.SIZE, "middle")
        else:
            _, y = face.at((Length.zero(), middle))
            yield Text((level - dim.ABOVE, y), words, dim.SIZE, "middle", -90.0)


def _own_line(face: PartFace, row: Stepped, level: float) -> Iterator[Primitive]:
    """A dimension line from a row's first hole to its last."""
    ends = []
    for place in (row.places[0], row.places[-1]):
        x, y = face.at((place, Length.zero()) if row.axis == face.view.across else (Length.zero(), place))
        ends.append((x, level) if row.axis == face.view.across else (level, y))
    way = dim.unit((ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]))
    yield Line((ends[0], ends[1]), "dimension")
    yield Mark(ends[0], "arrow", dim.ARROW, dim.angle_of(dim.back(way)))
    yield Mark(ends[1], "arrow", dim.ARROW, dim.angle_of(way))


def _setback_items(face: PartFace, places: Sequence[Primitive]) -> Iterator[Primitive]:
    """Amounts of tapers and miters, on the side of the face where the sloping cut takes most, clear of all numbers."""
    amounts = []
    for setback in face.marks.setbacks:
        first, second = face.at(setback.first), face.at(setback.second)
        along = _DOWN if setback.upright else _RIGHT
        text = face.notation.bare(setback.length)
        amounts.append(dim.Dimension(first, second, along, _side(face, setback), 5.0, text))
    taken = Occupied()
    taken.add(places)
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
