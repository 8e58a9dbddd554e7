"""Dimensions after ISO 129-1: extension lines with a gap, closed arrowheads, numbers above the line.

Numbers are readable from the bottom or from the right of the page. Where a number has no room between its
arrows they stand outside and point inwards. A running dimension (ISO 129-1) counts every place from one
origin, which is a small circle, as one hooks a tape; its numbers stand at the ends of the extension lines.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from plankit.drawing.metrics import capital_height, text_width
from plankit.drawing.occupied import Occupied, text_quad
from plankit.drawing.primitives import Line, Mark, Point, Primitive, Text

SIZE = 8.5
"""Points; the height of dimension numbers."""
GAP, PAST = 0.8, 1.2
"""An extension line starts so far from what is measured and runs so far past the dimension line, in mm."""
ARROW = 2.2
ABOVE = 0.7
"""From the dimension line to the number's baseline, in mm."""
LEVEL = 6.5
"""From one dimension line to the next, in mm."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """One length between two places on the page.

    first, second  what is measured, page mm
    along          the way the dimension line runs, a unit vector on the page
    away           the way the extension lines run, a unit vector on the page
    distance       from the outermost of the two places to the dimension line, along `away`
    text           the number as the reader sees it
    """

    first: Point
    second: Point
    along: Point
    away: Point
    distance: float
    text: str


def drawn(dimension: Dimension, taken: Occupied | None = None) -> tuple[Primitive, ...]:
    """The lines, arrows and number of one dimension."""
    start, end, reach = _line_ends(dimension)
    extensions = [
        Line((shift(point, dimension.away, GAP), shift(point, dimension.away, far + PAST)), "extension")
        for point, far in zip((dimension.first, dimension.second), reach, strict=True)
        if far + PAST > GAP
    ]
    run = math.dist(start, end)
    way = ((end[0] - start[0]) / run, (end[1] - start[1]) / run) if run > 1e-9 else dimension.along
    wide = text_width(dimension.text, SIZE)
    if run >= wide + 2 * ARROW + 1.0:
        return (
            *extensions,
            *_arrows_inside(start, end, way),
            _number(dimension.text, middle(start, end), way),
        )
    return (*extensions, *_tight(dimension.text, start, end, way, taken))


def _tight(text: str, start: Point, end: Point, way: Point, taken: Occupied | None) -> tuple[Primitive, ...]:
    """Arrows outside; the number between them if it fits there, else beyond one of them."""
    run, wide = math.dist(start, end), text_width(text, SIZE)
    tails = 2 * ARROW
    arrows = (Mark(start, "arrow", ARROW, angle_of(way)), Mark(end, "arrow", ARROW, angle_of(back(way))))
    if run >= wide + 0.6:
        line = Line((shift(start, way, -tails), shift(end, way, tails)), "dimension")
        return line, *arrows, _number(text, middle(start, end), way)
    over = wide + ARROW + 1.0
    after = _number(text, shift(end, way, ARROW + 0.6 + wide / 2), way)
    before = _number(text, shift(start, way, -(ARROW + 0.6 + wide / 2)), way)
    choose_before = taken is not None and taken.cost(text_quad(before)) < taken.cost(text_quad(after))
    lead, tail = (over, tails) if choose_before else (tails, over)
    line = Line((shift(start, way, -lead), shift(end, way, tail)), "dimension")
    return line, *arrows, before if choose_before else after


def _line_ends(dimension: Dimension) -> tuple[Point, Point, tuple[float, float]]:
    apart = (dimension.second[0] - dimension.first[0], dimension.second[1] - dimension.first[1])
    _, rise = split(apart, dimension.along, dimension.away)
    level = max(0.0, rise) + dimension.distance
    reach = (level, level - rise)
    return (
        shift(dimension.first, dimension.away, reach[0]),
        shift(dimension.second, dimension.away, reach[1]),
        reach,
    )


def _arrows_inside(start: Point, end: Point, way: Point) -> tuple[Primitive, ...]:
    return (
        Line((start, end), "dimension"),
        Mark(start, "arrow", ARROW, angle_of(back(way))),
        Mark(end, "arrow", ARROW, angle_of(way)),
    )


def _number(text: str, at: Point, way: Point) -> Text:
    angle = readable(angle_of(way))
    turn = math.radians(angle)
    up = (math.sin(turn), -math.cos(turn))
    return Text(shift(at, up, ABOVE), text, SIZE, "middle", angle)


@dataclass(frozen=True, slots=True)
class Running:
    """Places counted from one origin.

    origin   where the tape is hooked, page mm
    places   each place on the page and its number
    along, away, distance   as for a single dimension; the distance is from the origin
    """

    origin: Point
    places: tuple[tuple[Point, str], ...]
    along: Point
    away: Point
    distance: float


def running(counted: Running) -> tuple[Primitive, ...]:
    """The line, circle, arrows, extension lines and numbers of a running dimension.

    Numbers that would stand too close are moved apart, their extension lines bent to them.
    """
    ordered = sorted(counted.places, key=lambda place: _ahead(counted, place[0]))
    base = shift(counted.origin, counted.away, counted.distance)
    spots = [_ahead(counted, point) for point, _ in ordered]
    shown = spread([0.0, *spots], least_apart())
    items: list[Primitive] = [*_origin(counted, base)]
    items.append(Line((base, shift(base, counted.along, max(spots))), "dimension"))
    items.append(_reading("0", shift(base, counted.along, shown[0]), counted))
    for (point, text), spot, place in zip(ordered, spots, shown[1:], strict=True):
        items.extend(_counted(counted, point, text, (base, spot, place)))
    return tuple(items)


def least_apart() -> float:
    """How far apart two running numbers must stand, in mm."""
    return capital_height(SIZE) + 1.5


def _counted(
    counted: Running, point: Point, text: str, where: tuple[Point, float, float]
) -> tuple[Primitive, ...]:
    base, spot, place = where
    tip = shift(base, counted.along, spot)
    shown = shift(base, counted.along, place)
    bend = shift(tip, counted.away, PAST)
    end = shift(shown, counted.away, 2 * PAST + 0.6)
    line = Line((_clear_of(point, tip, counted.away), bend, end), "extension")
    return line, Mark(tip, "arrow", ARROW, angle_of(counted.along)), _reading(text, shown, counted)


def _reading(text: str, at: Point, counted: Running) -> Text:
    """A number in line with its extension line, beyond the dimension line."""
    angle = readable(angle_of(counted.away))
    turn = math.radians(angle)
    outward = math.cos(turn) * counted.away[0] + math.sin(turn) * counted.away[1] > 0
    start = shift(at, counted.away, 2 * PAST + 1.4)
    down = (-math.sin(turn), math.cos(turn))
    return Text(
        shift(start, down, capital_height(SIZE) / 2), text, SIZE, "start" if outward else "end", angle
    )


def _origin(counted: Running, base: Point) -> tuple[Primitive, ...]:
    return (
        Line((_clear_of(counted.origin, base, counted.away), shift(base, counted.away, PAST)), "extension"),
        Line(circle(base, 0.8), "dimension"),
    )


def _clear_of(point: Point, tip: Point, away: Point) -> Point:
    """The start of an extension line: a gap off the point, not past the dimension line."""
    room = (tip[0] - point[0]) * away[0] + (tip[1] - point[1]) * away[1]
    return shift(tip, away, -(room - GAP)) if room > GAP else tip


def _ahead(counted: Running, point: Point) -> float:
    apart = (point[0] - counted.origin[0], point[1] - counted.origin[1])
    return split(apart, counted.along, counted.away)[0]


def spread(places: Sequence[float], least: float) -> list[float]:
    """The same ascending places, moved as little as needed so that none stand closer than `least`."""
    groups: list[tuple[float, int]] = []  # middle and how many
    for place in places:
        groups.append((place, 1))
        while len(groups) > 1 and _too_close(groups[-2], groups[-1], least):
            (b, m), (a, n) = groups.pop(), groups.pop()
            groups.append(((a * n + b * m) / (n + m), n + m))
    return [mid + (index - (count - 1) / 2) * least for mid, count in groups for index in range(count)]


def _too_close(one: tuple[float, int], other: tuple[float, int], least: float) -> bool:
    return other[0] - one[0] < (one[1] + other[1]) / 2 * least - 1e-9


def circle(at: Point, radius: float, sides: int = 20) -> tuple[Point, ...]:
    """A closed round line."""
    turns = (2 * math.pi * step / sides for step in range(sides + 1))
    return tuple((at[0] + radius * math.cos(t), at[1] + radius * math.sin(t)) for t in turns)


def readable(angle: float) -> float:
    """The same direction of text, turned so that it reads from the bottom or from the right."""
    turned = (angle + 180.0) % 360.0 - 180.0
    if turned >= 90.0 - 1e-6:
        turned -= 180.0
    elif turned < -90.0 - 1e-6:
        turned += 180.0
    return turned + 0.0


def split(vector: Point, one: Point, other: Point) -> tuple[float, float]:
    """A vector as so much of one and so much of another that is not parallel to it."""
    scale = one[0] * other[1] - one[1] * other[0]
    return (
        (vector[0] * other[1] - vector[1] * other[0]) / scale,
        (one[0] * vector[1] - one[1] * vector[0]) / scale,
    )


def shift(point: Point, way: Point, far: float) -> Point:
    """A point so far from another."""
    return point[0] + way[0] * far, point[1] + way[1] * far


def back(way: Point) -> Point:
    """The opposite way."""
    return 0.0 - way[0], 0.0 - way[1]


def middle(one: Point, other: Point) -> Point:
    """Half way between two points."""
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def angle_of(way: Point) -> float:
    """The angle of a way on the page in degrees, clockwise from the right."""
    return math.degrees(math.atan2(way[1], way[0]))


def unit(vector: Point) -> Point:
    """The same way, of length 1."""
    size = math.hypot(*vector)
    return vector[0] / size, vector[1] / size
