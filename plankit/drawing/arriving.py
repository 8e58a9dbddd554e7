"""What a step shows of what arrives: the way parts go in, and the screws."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from plankit.build import Fastener, touching
from plankit.checks.blocks import taken as blocks_of
from plankit.checks.moves import Way, stopped_ways
from plankit.drawing import dimension as dim
from plankit.drawing.choosing import entry
from plankit.drawing.direction import Vector
from plankit.drawing.occupied import Occupied, quad_of, text_quad
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Area, Line, LineKind, Mark, MarkKind, Point, Primitive, Text
from plankit.drawing.seen import lines_of, plain_kind
from plankit.drawing.step_places import grounds
from plankit.drawing.view import View
from plankit.parts import AXES, AXIS_OF, HIGH, OPPOSITE, Face, Part, box_of

SCREW_OUT = 6.5
"""How far outside its hole a screw is shown, in mm on the page."""
_AT_THE_EYE = 0.25
"""A way that takes a smaller share of its length on the page runs at the eye, or away from it."""
_PINS = frozenset({"brad", "staple"})
_LONG_ROW = 5
"""So many screws in a straight row are shown by one of them and their number."""
_ON_WORDS = 100.0
"""What it costs at least to lie on other words or marks (`Occupied.cost`)."""
_BESIDE_OTHERS = 50.0
"""What it costs a row's number to stand beside the marks of another row, whose number it then seems to be."""
_SHAFT, _HEAD, _LONG = 1.1, 2.4, 9.0


def way_in(part: Part, others: Sequence[Part]) -> Face | None:
    """Towards which side a part moves to its place, where it meets most and nothing bars the way; None if none."""
    met: dict[Face, float] = {}
    for other in others:
        contact = touching(part, other)
        if contact is not None:
            met[contact.face] = met.get(contact.face, 0.0) + contact.area_mm2
    barred = {way for other in others for way in stopped_ways(blocks_of(part), blocks_of(other))}
    free = [face for face in met if OPPOSITE[face] not in met and _out_of(face) not in barred]
    if not free:
        return None
    return max(free, key=lambda face: (round(met[face], 3), face))


def _out_of(face: Face) -> Way:
    """The way a part is moved to come off what it meets with a face."""
    axis = AXIS_OF[face]
    return AXES.index(axis), -1 if face == HIGH[axis] else 1


def arrows_in(
    arriving: Sequence[Part], present: Sequence[Part], view: View, placing: Placing, taken: Occupied
) -> tuple[Primitive, ...]:
    """A broad arrow for the way each arriving part goes in, outside the part, where it can be seen."""
    items: list[Primitive] = []
    for part in sorted(arriving, key=lambda part: part.id):
        face = way_in(part, grounds(part, arriving, present))
        if face is not None:
            items.extend(_broad_arrow(part, face, view, placing, taken))
    return tuple(items)


def _broad_arrow(
    part: Part, face: Face, view: View, placing: Placing, taken: Occupied
) -> tuple[Primitive, ...]:
    """The arrow at the freest of a few places on the face that stays outside."""
    axis = AXIS_OF[face]
    index, sign = AXES.index(axis), 1.0 if face == HIGH[axis] else -1.0
    ahead = [0.0, 0.0, 0.0]
    ahead[index] = sign
    shown = view.project((ahead[0], ahead[1], ahead[2]))
    if math.hypot(*shown) < 0.2:
        return ()  # it would come straight at the eye
    way = dim.unit(shown)
    tried = []
    for number, tip in enumerate(_face_spots(part, index, sign)):
        at = dim.shift(placing.at(view.project(tip)), way, -1.5)
        tail = dim.shift(at, way, -_LONG)
        outside = [t - a * 3.0 for t, a in zip(tip, ahead, strict=True)]
        behind = view.part_at(
            ((tail[0] - placing.right) / placing.scale, (tail[1] - placing.down) / placing.scale)
        )
        if view.sees((outside[0], outside[1], outside[2])) or behind is None:
            tried.append((taken.cost(_arrow_ring(at, way)), number, at))
    return broad_arrow(min(tried)[2], way) if tried else ()


def _face_spots(part: Part, index: int, sign: float) -> list[Vector]:
    """The middle of the face that stays outside, then places beside it along its longer side."""
    low, high = box_of(part).mm()
    one, two = (k for k in range(3) if k != index)
    long = one if high[one] - low[one] >= high[two] - low[two] else two
    found = []
    for share in (0.5, 0.375, 0.625, 0.25, 0.75):
        spot = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
        spot[index] = low[index] if sign > 0 else high[index]
        spot[long] = low[long] + share * (high[long] - low[long])
        found.append((spot[0], spot[1], spot[2]))
    return found


def broad_arrow(tip: Point, way: Point) -> tuple[Primitive, ...]:
    """A broad arrow, white with an outline, whose tip is a point of the page."""
    ring = _arrow_ring(tip, way)
    return Area((ring,), "paper"), Line((*ring, tip), "visible")


def _arrow_ring(tip: Point, way: Point) -> tuple[Point, ...]:
    across = (-way[1], way[0])
    neck, tail = dim.shift(tip, way, -3.6), dim.shift(tip, way, -_LONG)
    return (
        tip,
        dim.shift(neck, across, _HEAD),
        dim.shift(neck, across, _SHAFT),
        dim.shift(tail, across, _SHAFT),
        dim.shift(tail, across, -_SHAFT),
        dim.shift(neck, across, -_SHAFT),
        dim.shift(neck, across, -_HEAD),
    )


@dataclass(frozen=True, slots=True)
class Screws:
    """How the screws of a step are drawn.

    items   marks and lines;  seen: how many heads are seen
    dashed  screws whose head is on the far side of what they hold, drawn in dashes
    hidden  screws behind other parts, which are not drawn
    """

    items: tuple[Primitive, ...]
    seen: int
    dashed: int
    hidden: int


def screws_shown(screws: Sequence[Fastener], parts: Sequence[Part], view: View, placing: Placing) -> Screws:
    """Each screw outside its hole, or dashed where only its head is hidden; none behind other parts.

    Of a long row one screw stands for all, with their number; the others are shown as the holes they go into.
    """
    items: list[Primitive] = []
    seen = dashed = 0
    rows: dict[tuple[str, str, str, Point], list[Point]] = {}
    for screw in sorted(screws, key=lambda screw: screw.ends_mm()):
        start, way = entry(screw, parts)
        if view.sees(start):
            seen += 1
            at, ahead = placing.at(view.project(start)), _shown(view, way)
            if screw.spec.kind in _PINS:
                items.extend(_brad(at, ahead))
            else:
                key = (screw.spec.name, screw.through, screw.into, (round(ahead[0], 3), round(ahead[1], 3)))
                rows.setdefault(key, []).append(at)
        elif _in_front(screw, view):
            dashed += 1
            head, tip = (placing.at(view.project(end)) for end in screw.ends_mm())
            items.extend(Line(dash, "visible") for dash in _dashes(head, tip))
    base = lines_of(view, placing, plain_kind) if any(len(spots) >= _LONG_ROW for spots in rows.values()) else ()
    for (_, _, _, ahead), spots in sorted(rows.items(), key=lambda row: len(row[1])):
        items.extend(_row(spots, ahead, items, base))
    return Screws(tuple(items), seen, dashed, len(screws) - seen - dashed)


def _row(
    spots: Sequence[Point], way: Point, drawn: Sequence[Primitive], base: Sequence[Primitive]
) -> Iterator[Primitive]:
    """Screws into one part from one side: each of them, or of a long straight row one, their number, and holes.

    The number is left out where it would lie on other words or marks: one could not tell whose it is, and the step
    says how many there are.
    """
    if len(spots) < _LONG_ROW or not _straight(spots):
        for at in spots:
            yield from _screw(at, way)
        return
    taken = Occupied()
    taken.add(drawn)
    taken.boxes += [_around(spot, 1.0) for spot in spots]
    others, on_part = Occupied(), Occupied()
    others.add(drawn)
    on_part.add(base)
    tried = [
        (
            taken.cost(quad) + taken.cost(_around(head, 1.4)),
            on_part.cost(quad) + _BESIDE_OTHERS * others.near_words(quad, 2.0),
            number,
            at,
            words,
        )
        for number, at in enumerate(_from_middle(spots))
        for head in (_head(at, way),)
        for words in _numbers(head, len(spots))
        for quad in (text_quad(words),)
    ]
    worst, _, _, chosen, words = min(tried, key=lambda one: (round(one[0] + one[1], 6), one[2]))
    yield from (Mark(at, "hole", 1.2) for at in spots if at != chosen)
    yield from _screw(chosen, way)
    if worst < _ON_WORDS:
        yield words


def _from_middle(spots: Sequence[Point]) -> list[Point]:
    """The places of a row, those in its middle first."""
    ordered = sorted(spots)
    middle = len(ordered) // 2
    return [ordered[index] for index in sorted(range(len(ordered)), key=lambda index: abs(index - middle))]


def _numbers(head: Point, count: int) -> Iterator[Text]:
    """Where the number of screws in a row may stand beside the head that is drawn."""
    x, y = head
    words = f"{count} ×"
    yield Text((x - 2.0, y + 1.0), words, 8.5, "end", bold=True)
    yield Text((x, y - 2.0), words, 8.5, "middle", bold=True)
    yield Text((x, y + 4.2), words, 8.5, "middle", bold=True)


def _head(at: Point, way: Point) -> Point:
    """Where the head of a screw is drawn that goes in at a place."""
    return dim.shift(at, dim.unit(way), -SCREW_OUT) if math.hypot(*way) >= _AT_THE_EYE else at


def _around(spot: Point, far: float) -> tuple[Point, ...]:
    return quad_of((spot[0] - far, spot[1] - far, spot[0] + far, spot[1] + far))


def _straight(spots: Sequence[Point]) -> bool:
    """Whether places on the page lie on one line, to half a millimetre."""
    first, *_, last = sorted(spots)
    long = math.dist(first, last)
    return long > 1.0 and all(
        abs((x - first[0]) * (last[1] - first[1]) - (y - first[1]) * (last[0] - first[0])) < 0.5 * long
        for x, y in spots
    )


def _in_front(screw: Fastener, view: View) -> bool:
    """Whether all along a screw what one sees is a part that it holds."""
    head, tip = screw.ends_mm()
    for share in (0.1, 0.3, 0.5, 0.7, 0.9):
        x, y, z = (h + (t - h) * share for h, t in zip(head, tip, strict=True))
        if view.part_at(view.project((x, y, z))) not in {screw.through, screw.into}:
            return False
    return True


def _dashes(head: Point, tip: Point) -> Iterator[tuple[Point, Point]]:
    """Short dashes from head to tip: a screw is too short on paper for the usual pattern."""
    long = math.dist(head, tip)
    if long < 0.8:
        return
    count = max(2, round(long / 1.5))
    for number in range(count):
        start, end = number / count, (number + 0.6) / count
        yield _between(head, tip, start), _between(head, tip, end)


def _between(one: Point, other: Point, share: float) -> Point:
    return one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share


def _shown(view: View, way: Vector) -> Point:
    u, v = view.project(way)
    return u, v


def _brad(at: Point, way: Point) -> tuple[Primitive, ...]:
    """A brad or a staple outside its place."""
    return _outside_hole(at, way, "dot", 1.4, 4.0, "leader")


def _screw(at: Point, way: Point) -> tuple[Primitive, ...]:
    """A screw outside its hole."""
    return _outside_hole(at, way, "screw", 2.4, SCREW_OUT, "assembly")


def _outside_hole(  # noqa: PLR0917 - what differs between a screw and a brad
    at: Point, way: Point, kind: MarkKind, size: float, far: float, line: LineKind
) -> tuple[Primitive, ...]:
    if math.hypot(*way) < _AT_THE_EYE:
        return (Mark(at, kind, size),)
    ahead = dim.unit(way)
    outer = dim.shift(at, ahead, -far)
    arrow = Mark(at, "arrow", 1.8, dim.angle_of(ahead))
    return Line((outer, at), line), arrow, Mark(outer, kind, size, dim.angle_of(ahead))
