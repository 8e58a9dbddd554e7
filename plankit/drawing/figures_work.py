"""Work on loose parts: each kind of part lies by itself, with what is done to it in this step marked."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from plankit.drawing import dimension as dim
from plankit.drawing.arriving import broad_arrow
from plankit.drawing.choosing import CANDIDATES
from plankit.drawing.direction import Direction, Vector, direction
from plankit.drawing.metrics import text_width
from plankit.drawing.part_notes import edge_words
from plankit.drawing.placing import Placing, framed, on_the_page
from plankit.drawing.primitives import Area, Figure, Fill, Line, Mark, Point, Primitive, Text, bounds, moved
from plankit.drawing.seen import fills_of, lines_of, plain_kind
from plankit.drawing.view import View, look
from plankit.drawing.words import count_word, counted, listed, sentence, within
from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Banding,
    Bore,
    Box,
    Face,
    Feature,
    Groove,
    Notch,
    Part,
    PocketHoles,
    Taper,
    block,
    slant_of,
    solid,
)
from plankit.units import Length, Notation

WIDE, HIGH_ROOM = 150.0, 40.0
"""Room for a row of parts on the page, and for the part that is drawn highest, in mm."""
COLUMNS = 4
MOST = 8
"""More kinds of parts than this are not drawn: their own drawings say it better."""
BETWEEN = 7.0
SMALLEST = 14.0
"""Where a part would come out smaller than this at one scale with the others, each has its own."""
_GAP = 8
"""Boards that are glued up lie apart by one part in so many of their width."""
_REST = "rest of the stock"


@dataclass(frozen=True, slots=True)
class Worked:
    """One kind of part in a step.

    part    one of them, as it is after the step
    label   its letter
    names   what all of these parts are called
    done    what is done to it in this step
    glued   whether it is glued up from boards now
    trimmed whether it is trimmed to its outline now
    held    whether it is sawn while it is still at the end of longer stock
    """

    part: Part
    label: str
    names: tuple[str, ...]
    done: tuple[Feature, ...]
    glued: bool = False
    trimmed: bool = False
    held: bool = False

    @property
    def heading(self) -> str:
        """Its letter, its name and how many there are: "C Side / Divider, 4"."""
        called = " / ".join(dict.fromkeys(self.names))
        return f"{self.label}\u00a0 {called}" + (f", {len(self.names)}" if len(self.names) > 1 else "")


def work_on_parts(number: int, title: str, worked: Sequence[Worked], notation: Notation) -> Figure:
    """The parts of a step that puts nothing together, side by side, each from where its work is seen best.

    worked  one entry for each kind of part, and for each of its hands
    """
    return on_the_page(lambda room: _drawn(number, title, tuple(worked), notation, room))


def _drawn(number: int, title: str, worked: tuple[Worked, ...], notation: Notation, room: float) -> Figure:
    columns = min(COLUMNS, len(worked))
    cell = (WIDE * room - BETWEEN * (columns - 1)) / columns
    looked = [_looked(one) for one in worked]
    items: list[Primitive] = []
    for row in range(0, len(worked), columns):
        drawn = _row(worked[row : row + columns], looked[row : row + columns], notation, (cell, HIGH_ROOM * room))
        down = bounds(items)[3] + 6.0 - bounds(drawn)[1] if items else 0.0
        items += [moved(item, 0.0, down) for item in drawn]
    left, _, _, bottom = bounds(items)
    said = _note(worked)
    tail = [Text((left, bottom + 5.0), said, 8.0)] if said else []
    return framed(f"step-{number}", (*items, *tail), f"Step {number}: {title}", _words(worked, looked, notation))


def _row(
    worked: Sequence[Worked], looked: Sequence[View], notation: Notation, cell: tuple[float, float]
) -> list[Primitive]:
    """Parts side by side, what is said of each below it, all words on one level."""
    scales = _scales(looked, cell, apart=len(worked))
    drawn = [_one(one, view, scale) for one, view, scale in zip(worked, looked, scales, strict=True)]
    level = max(bounds(items)[3] - bounds(items)[1] for items in drawn)
    found: list[Primitive] = []
    start = 0.0
    for one, items in zip(worked, drawn, strict=True):
        left, _, right, bottom = bounds(items)
        words = [one.heading, *_done_words(one, notation)]
        wide = max(right - left, *(text_width(line, 8.0) for line in words))
        found += [moved(item, start - left, level - bottom) for item in items]
        found += [
            Text((start, level + 4.5 + 3.8 * number), line, 8.0, bold=number == 0) for number, line in enumerate(words)
        ]
        start += wide + BETWEEN
    return found


def _scales(looked: Sequence[View], cell: tuple[float, float], apart: int) -> list[float]:
    """One scale for all parts of a row, or each its own where that would leave one too small to see."""
    sizes = [(view.bounds[2] - view.bounds[0], view.bounds[3] - view.bounds[1]) for view in looked]
    own = [min(cell[0] / max(wide, 1e-9), cell[1] / max(high, 1e-9)) for wide, high in sizes]
    whole = cell[0] * apart + BETWEEN * (apart - 1) - BETWEEN * (len(sizes) - 1)
    common = min(whole / sum(wide for wide, _ in sizes), cell[1] / max(high for _, high in sizes))
    if all(max(size) * common >= SMALLEST for size in sizes):
        return [common] * len(sizes)
    return own


def _one(one: Worked, view: View, scale: float) -> tuple[Primitive, ...]:
    left, top, _, _ = view.bounds
    placing = Placing(scale, -left * scale, -top * scale)

    def fill(part: str) -> Fill:
        return "receding" if part == _REST else "part"

    return (
        *fills_of(view, placing, fill),
        *_banded(one, view, placing),
        *lines_of(view, placing, lambda part, seen: "receding" if part == _REST else plain_kind(part, seen)),
        *_uncut(one, view, placing),
        *(_together(one, view, placing) if one.glued else ()),
    )


def _looked(one: Worked) -> View:
    """The part, or its boards, from where most of what is done is seen."""
    part, way = one.part, _way(one)
    if one.glued:
        return look([(f"board {n}", block(box)) for n, box in enumerate(_boards(part))], way)
    solids = [(part.id, solid(part))]
    if one.held:
        solids.append((_REST, block(_rest(part, one.done))))
    return look(solids, way)


def _way(one: Worked) -> Direction:
    """The direction that shows most of the faces that are worked on; from the front right above if all show alike."""
    wanted = [face for feature in one.done for face in _faces(one.part, feature)]

    def seen(way: Direction) -> int:
        return sum(_towards(face, way) for face in wanted)

    ways = [direction(name) for name in CANDIDATES]
    return max(ways, key=lambda way: (seen(way), -ways.index(way)))


def _towards(face: Face, way: Direction) -> bool:
    turned = way.eye[AXES.index(AXIS_OF[face])]
    return turned > 0 if face == HIGH[AXIS_OF[face]] else turned < 0


def _faces(part: Part, feature: Feature) -> Iterator[Face]:
    """The faces that show a feature."""
    match feature:
        case Banding(edge=face) | Bore(face=face) | Groove(face=face) | PocketHoles(face=face):
            yield face
        case Notch(cut=cut):
            for axis in AXES:
                if cut.low(axis).mm <= 0:
                    yield LOW[axis]
                if cut.high(axis).mm >= part.box.extent(axis).mm:
                    yield HIGH[axis]
        case _:
            slant = slant_of(part.box.size, feature)
            if slant is not None:
                yield slant.face


def _boards(part: Part) -> tuple[Box, ...]:
    """The boards of a glue-up, a little apart, as they are ripped."""
    assert part.glue_up is not None
    made, axis = part.glue_up, part.across
    step = made.rip + made.rip.portion(_GAP)
    found = []
    for number in range(made.boards):
        low = step * number
        sizes: dict[Axis, tuple[Length, Length]] = {
            part.grain: (Length.zero(), made.length),
            axis: (low, low + made.rip),
            part.through: (Length.zero(), made.blank[2]),
        }
        (left, right), (front, back), (bottom, top) = (sizes[one] for one in AXES)
        found.append(Box(left, right, front, back, bottom, top))
    return tuple(found)


def _together(one: Worked, view: View, placing: Placing) -> Iterator[Primitive]:
    """An arrow at each outer board, towards the others."""
    boards, axis = _boards(one.part), one.part.across
    index = AXES.index(axis)
    for box, ahead in ((boards[0], 1.0), (boards[-1], -1.0)):
        low, high = box.mm()
        spot = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
        spot[index] = low[index] if ahead > 0 else high[index]
        inner = list(spot)
        inner[index] += ahead * 10.0
        tip, further = (placing.at(view.project((p[0], p[1], p[2]))) for p in (spot, inner))
        away = ((further[0] - tip[0]) ** 2 + (further[1] - tip[1]) ** 2) ** 0.5
        if away > 1e-6:
            way = ((further[0] - tip[0]) / away, (further[1] - tip[1]) / away)
            yield from broad_arrow((tip[0] - way[0] * 1.2, tip[1] - way[1] * 1.2), way)


def _rest(part: Part, done: Iterable[Feature]) -> Box:
    """The stock beyond a part's wide end, as long as the part again."""
    taper = next(feature for feature in done if isinstance(feature, Taper))
    axis, box = part.grain, part.box
    wide_end = OPPOSITE[taper.narrow] if AXIS_OF[taper.narrow] == axis else HIGH[axis]
    end = box.face(wide_end)
    far = end + part.length if wide_end == HIGH[axis] else end - part.length
    faces = {face: box.face(face) for one in AXES for face in (LOW[one], HIGH[one])}
    faces[OPPOSITE[wide_end]], faces[wide_end] = end, far
    return Box(**faces)


def _banded(one: Worked, view: View, placing: Placing) -> Iterator[Primitive]:
    """Edges that get banding, shaded where they are seen."""
    for edge in (feature.edge for feature in one.done if isinstance(feature, Banding)):
        if _towards(edge, view.direction):
            ring = placing.ring(view.project(point) for point in _face_corners(one.part.box, edge))
            yield Area((ring,), "arriving")
            yield Line((*ring, ring[0]), "outline")
            yield from _pointer(edge, ring, view.direction)


def _pointer(edge: Face, ring: Sequence[Point], way: Direction) -> Iterator[Primitive]:
    """The word "banding" with a leader to the middle of an edge."""
    out = [0.0, 0.0, 0.0]
    out[AXES.index(AXIS_OF[edge])] = 1.0 if edge == HIGH[AXIS_OF[edge]] else -1.0
    ahead = dim.unit(way.project((out[0], out[1], out[2])))
    tip = sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)
    end = dim.shift(tip, ahead, 6.0)
    after = ahead[0] >= 0
    yield Line((tip, end), "leader")
    yield Mark(tip, "arrow", 1.6, dim.angle_of(dim.back(ahead)))
    at = end[0] + (0.6 if after else -0.6), end[1] + (2.2 if ahead[1] > 0 else -0.4)
    yield Text(at, "banding", 8.0, "start" if after else "end")


def _face_corners(box: Box, face: Face) -> Iterator[Vector]:
    low, high = box.mm()
    index = AXES.index(AXIS_OF[face])
    one, two = (i for i in range(3) if i != index)
    for a, b in ((0, 0), (1, 0), (1, 1), (0, 1)):
        at = [low[index], low[index], low[index]]
        at[index] = high[index] if face == HIGH[AXIS_OF[face]] else low[index]
        at[one], at[two] = (low, high)[a][one], (low, high)[b][two]
        yield at[0], at[1], at[2]


def _uncut(one: Worked, view: View, placing: Placing) -> tuple[Line, ...]:
    """The block that slanting cuts are made in: a chain line where it stood before."""
    if not any(slant_of(one.part.box.size, feature) for feature in one.done):
        return ()
    sawn = {face for feature in one.done for face in _sawn(one.part, feature)}
    return tuple(
        Line(placing.ring((view.project(start), view.project(end))), "assembly")
        for start, end, faces in _edges(one.part.box)
        if sawn & set(faces) and any(_towards(face, view.direction) for face in faces)
    )


def _sawn(part: Part, feature: Feature) -> Iterator[Face]:
    """The faces of the block that a slanting cut takes something off."""
    slant = slant_of(part.box.size, feature)
    if slant is not None:
        yield from (slant.face, *(slope.towards for slope in slant.slopes))


def _edges(box: Box) -> Iterator[tuple[Vector, Vector, tuple[Face, Face]]]:
    """The edges of a box, each with the two faces that meet in it."""
    for one, other in combinations(FACES, 2):
        if AXIS_OF[one] != AXIS_OF[other]:
            shared = [corner for corner in _face_corners(box, one) if corner in set(_face_corners(box, other))]
            start, end = sorted(shared)
            yield start, end, (one, other)


def _done_words(one: Worked, notation: Notation) -> list[str]:
    """What is done to a part, in short lines."""
    part = one.part
    said: list[str] = []
    made = part.glue_up
    if one.glued and made is not None:
        said.append(f"{count_word(made.boards)} boards, {notation.size(made.length, made.rip)} each")
    if one.trimmed:
        said.append(f"trimmed to {notation.size(part.length, part.width)}")
    edges = [feature.edge for feature in one.done if isinstance(feature, Banding)]
    if edges:
        said.append(f"banding: {listed(edge_words(part, edge) for edge in edges)}")
    said += [
        f"{feature.face} face: {notation.bare(feature.amount)} off at the {feature.narrow} end"
        for feature in one.done
        if isinstance(feature, Taper)
    ]
    said += _holes_and_cuts(one.done)
    return said


def _holes_and_cuts(done: Iterable[Feature]) -> Iterator[str]:
    """Holes and cuts counted by face: "4 pocket holes: front face"."""
    found: dict[tuple[str, Face], int] = {}
    for feature in done:
        match feature:
            case Bore(face=face):
                found["hole", face] = found.get(("hole", face), 0) + 1
            case PocketHoles(face=face, places=places):
                found["pocket hole", face] = found.get(("pocket hole", face), 0) + len(places)
            case Groove(face=face):
                found["groove", face] = found.get(("groove", face), 0) + 1
            case _:
                continue
    for (kind, face), count in found.items():
        yield f"{count_word(count)} {kind}{'s' if count > 1 else ''}: {face} face"


def _note(worked: Iterable[Worked]) -> str:
    """What the marks of the figure mean."""
    done = [(one, feature) for one in worked for feature in one.done]
    said = []
    if any(slant_of(one.part.box.size, feature) for one, feature in done):
        said.append("Chain line: what is sawn off.")
    if any(one.held for one in worked):
        said.append("Gray: the rest of the stock, which is clamped; part it off last.")
    return " ".join(said)


def _words(worked: Sequence[Worked], looked: Sequence[View], notation: Notation) -> str:
    said = []
    for one, view in zip(worked, looked, strict=True):
        done = "; ".join(within(words) for words in _done_words(one, notation))
        held = ", still at the end of longer stock" if one.held else ""
        said.append(
            sentence(
                f"part {one.label}, {counted(one.names)}{held}, seen in an {within(view.direction.words)}"
                + (f": {done}" if done else "")
            )
        )
    return " ".join(said)


