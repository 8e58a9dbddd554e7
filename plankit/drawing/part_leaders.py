"""Words with leaders: above a face that lies along the page, at the right of one that stands."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from plankit.drawing.dimension import angle_of, back, shift, unit
from plankit.drawing.metrics import capital_height, text_width
from plankit.drawing.part_face import PartFace
from plankit.drawing.part_notes import Note
from plankit.drawing.primitives import Line, Mark, Point, Primitive, Text, bounds

SIZE = 8.0
"""Points; the height of words."""
_LINE = 3.6
"""From one line of words to the next, in mm."""
_NEAR_END = 14.0
"""A place so near the right side of a face, in mm on the page, can have its words there."""
_APART = 2.5
"""Two leaders stand so far apart, in mm on the page, where there is a choice."""
_UPPER = 0.2
"""The share of a standing face that is its upper end."""
_FALL = 5.0
"""How far a leader falls, in mm on the page, to pass below places it does not speak of."""


@dataclass(frozen=True, slots=True)
class _Led:
    """Words and the place that their leader runs to, on the page; `down` is how far it falls to pass other places."""

    tip: Point
    reach: float
    text: str
    down: float = 0.0


def standing(face: PartFace) -> bool:
    """Whether the words of a face stand at its right, since it is higher than wide."""
    return face.view.high > face.view.wide


def beside(face: PartFace, note: Note) -> list[str]:
    """The lines in which words stand at the right of a face; none where they stand above it."""
    return note.text.split(", ") if note.beside or (standing(face) and not _upper_left(face, note)) else []


def _upper_left(face: PartFace, note: Note) -> bool:
    """Whether words speak of places at the left only, and of one near the upper end, where a leader is shortest."""
    left, top, right, bottom = face.box
    spots = [face.at(spot) for spot in note.spots]
    return max(x for x, _ in spots) < (left + right) / 2 and min(y for _, y in spots) < top + _UPPER * (bottom - top)


def leaders(face: PartFace, base: Sequence[Primitive]) -> tuple[Primitive, ...]:
    """What is said of holes and cuts, each with a leader to its place; no leader crosses words."""
    level_with, above = _parted(face)
    start = max(face.box[2], bounds(base)[2]) + 2.5
    return (*_notes_beside(_places_beside(face, level_with), start), *_notes_above(face, above, base))


def _parted(face: PartFace) -> tuple[list[Note], list[Note]]:
    """The notes at the right of the face and those above it."""
    notes = face.marks.notes
    level_with = [note for note in notes if beside(face, note)]
    if level_with and not standing(face):
        level_with += [note for note in notes if note not in level_with and _crowded(face, note)]
    return level_with, [note for note in notes if note not in level_with]


def _crowded(face: PartFace, note: Note) -> bool:
    """Whether a note's leader from above would run into another one near the right side."""
    x = topmost(face, note)[0]
    others = [topmost(face, other)[0] for other in face.marks.notes if other is not note]
    return face.box[2] - x < _NEAR_END and any(abs(x - other) < 2.0 for other in others)


def topmost(face: PartFace, note: Note) -> Point:
    """The uppermost place that a note speaks of, on the page."""
    return min((face.at(spot) for spot in note.spots), key=lambda at: (round(at[1], 3), at[0]))


def _led(face: PartFace, note: Note, tip: Point) -> _Led:
    return _Led(tip, note.reach * face.placing.scale, note.text)


def _places_beside(face: PartFace, notes: Sequence[Note]) -> list[_Led]:
    """For each note the place nearest to the right side, on a level of its own where there is a choice."""
    found: list[_Led] = []
    for note in sorted(notes, key=lambda note: len(note.spots)):
        spots = sorted((face.at(spot) for spot in note.spots), key=lambda at: (-round(at[0], 3), at[1]))
        others = [face.at(spot) for other in notes if other is not note for spot in other.spots]
        used = [led.tip[1] for led in found]
        clear = [at for at in spots if not _passes(at, others)]
        free = (at for at in (*clear, *spots) if all(abs(at[1] - y) >= _APART for y in used))
        tip = next(free, spots[0])
        found.append(replace(_led(face, note, tip), down=_FALL if _passes(tip, others) else 0.0))
    return found


def _passes(at: Point, others: Sequence[Point]) -> bool:
    """Whether a level leader from the right would pass over another place before it comes to its own."""
    return any(x > at[0] + 0.1 and abs(y - at[1]) < _APART for x, y in others)


def _notes_beside(placed: Sequence[_Led], start: float) -> tuple[Primitive, ...]:
    """Words at the right of the face, each level with its place or just below the words before it."""
    items: list[Primitive] = []
    least = -math.inf
    for led in sorted(placed, key=lambda led: (led.tip[1] + led.down, -led.tip[0])):
        x, y = led.tip
        lines = led.text.split(", ")
        level = max(y + led.down + capital_height(SIZE) / 2, least)
        way = unit((start - x, led.down))
        tip = shift(led.tip, way, led.reach)
        turn = (start, y + led.down)
        items.append(Line((tip, turn, (start + 2.0, level - capital_height(SIZE) / 2)), "leader"))
        items.append(Mark(tip, "arrow", 1.6, angle_of(back(way))))
        items.extend(Text((start + 2.6, level + _LINE * row), line, SIZE) for row, line in enumerate(lines))
        least = level + _LINE * len(lines) + 1.0
    return tuple(items)


def _notes_above(face: PartFace, notes: Sequence[Note], base: Sequence[Primitive]) -> tuple[Primitive, ...]:
    """Words above the face, each with a leader down to what they speak of."""
    if not notes:
        return ()
    placed = sorted(_places_below(face, notes), key=lambda led: led.tip[0])
    left, _, right, _ = face.box
    rightwards = above_reach([(led.tip[0] - left, text_width(led.text, SIZE)) for led in placed], right - left)[0] == 0
    level = min(face.box[1], bounds(base)[1]) - 2.2
    rows = list(reversed(placed)) if rightwards else placed
    return tuple(
        item
        for row, led in enumerate(rows)
        for item in _note(led, level - 4.2 * row, rightwards=rightwards)
    )


def above_reach(notes: Sequence[tuple[float, float]], wide: float) -> tuple[float, float]:
    """How far words above a face reach out over its left and its right side: one of both is 0, they run one way.

    notes  where the leader of each stands, from the left side, and how wide its words are
    wide   how wide the face is on the page
    """
    if not notes:
        return 0.0, 0.0
    over = max(x + long for x, long in notes) + 2.0 - wide
    under = max(long - x for x, long in notes) + 2.0
    return (0.0, max(over, 0.0)) if over <= max(under, 22.0) else (under, 0.0)


def _places_below(face: PartFace, notes: Sequence[Note]) -> list[_Led]:
    """For each note the uppermost place, under a leader of its own where there is a choice."""
    found: list[_Led] = []
    for note in sorted(notes, key=lambda note: len(note.spots)):
        spots = sorted((face.at(spot) for spot in note.spots), key=lambda at: (round(at[1], 3), at[0]))
        used = [led.tip[0] for led in found]
        free = (at for at in spots if all(abs(at[0] - x) >= _APART for x in used))
        found.append(_led(face, note, next(free, spots[0])))
    return found


def _note(led: _Led, level: float, *, rightwards: bool) -> tuple[Primitive, ...]:
    x, y = led.tip
    tip = (x, y - led.reach)
    end = (x + (1.0 if rightwards else -1.0), level - 1.1)
    text = Text((end[0] + (0.5 if rightwards else -0.5), level), led.text, SIZE, "start" if rightwards else "end")
    return Line((tip, (x, end[1]), end), "leader"), Mark(tip, "arrow", 1.6, 90.0), text
