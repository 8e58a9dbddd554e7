"""A section through a joint: cut faces hatched, the fastener whole and in its true length, to scale.

A removed section after ISO 128-3: only what the plane of the cut meets is drawn. Neighbours are hatched the other
way or closer; fasteners that lie along the plane are not hatched; what is broken off ends in a thin line.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from plankit.build import Build, Fastener, alike, bite
from plankit.drawing import dimension as dim
from plankit.drawing.below import sentences_below
from plankit.drawing.hatch import hatch
from plankit.drawing.labels import Wanted, labels
from plankit.drawing.occupied import Occupied
from plankit.drawing.placing import WIDEST, Placing, framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import Area, Figure, Line, Point, Primitive, Ring, Text
from plankit.drawing.section_cut import Cut, cut_through
from plankit.drawing.words import capital, unit_note, within
from plankit.parts import AXES, HIGH, Part, spot_after, turning
from plankit.units import Length, Notation

WIDE, TALL = 105.0, 90.0
_HATCHINGS = ((-45.0, 2.0), (45.0, 2.0), (-45.0, 1.3), (45.0, 1.3))
_EDGE = 1e-3
_HEAD = 2.0
"""A screw's head is drawn so many times as wide as its shank."""


def section_drawing(build: Build, one: Part, other: Part, notation: Notation) -> Figure:
    """The joint of two parts, cut through along a fastener of it.

    raises  PlanError where nothing joins them and they do not touch
    """
    cut = cut_through(build, one, other)
    return on_the_page(lambda room: _Section(cut, notation, room).figure())


@dataclass(frozen=True)
class _Span:
    """One length to be dimensioned, between two places of the plane."""

    first: Point
    second: Point
    length: Length


class _Section:
    """One section, and the scale it is drawn at."""

    def __init__(self, cut: Cut, notation: Notation, room: float) -> None:
        self.cut, self.notation = cut, notation
        left, top, right, bottom = cut.window
        self.number = ratio(notation.unit, right - left, bottom - top, WIDE * room, TALL * room)
        scale = 1.0 / self.number
        self.placing = Placing(scale, -left * scale, -top * scale)
        self.shown = [(part, tuple(self.placing.ring(ring) for ring in rings)) for part, rings in cut.shown()]
        self.letters = {part.id: group.label for group in alike(cut.build) for part in (*group.parts, *group.other)}

    def figure(self) -> Figure:
        faces = self._faces()
        sizes = self._sizes()
        taken = Occupied()
        taken.add([*faces, *sizes])
        named = labels([Wanted(self.letters[part.id], (rings,)) for part, rings in self.shown], taken,
                       [rings for _, rings in self.shown])  # fmt: skip
        items = [*faces, *sizes, *named]
        first, second = self.cut.first, self.cut.second
        title = f"Section through the joint of {within(first.name)} and {within(second.name)}"
        return framed(f"section-{first.id}-{second.id}", [*items, *self._below(items)], title, self._words())

    # What is drawn

    def _faces(self) -> list[Primitive]:
        found: list[Primitive] = []
        for number, (_, rings) in enumerate(self.shown):
            angle, apart = _HATCHINGS[number % len(_HATCHINGS)]
            found += [Area(rings, "part"), *hatch(rings, angle, apart)]
        for rings in (tuple(self.placing.ring(ring) for ring in rings) for rings in self.cut.buttons()):
            found += [Area(rings, "grain"), *hatch(rings, -45.0, 1.0), *_outline(rings)]
        for _, rings in self.shown:
            found += self._edges(rings)
        return found + (self._fastener(self.cut.fastener) if self.cut.fastener is not None else [])

    def _edges(self, rings: Sequence[Ring]) -> list[Primitive]:
        """The outline of a cut face, thin where the part is broken off at the window's edge."""
        left, top, right, bottom = self.cut.window
        low, high = self.placing.at((left, top)), self.placing.at((right, bottom))
        found: list[Primitive] = []
        for ring in rings:
            for one, other in zip(ring, (*ring[1:], ring[0]), strict=True):
                broken = any(
                    abs(one[axis] - edge) < _EDGE and abs(other[axis] - edge) < _EDGE
                    for axis in (0, 1)
                    for edge in (low[axis], high[axis])
                )
                found.append(Line(_zigzag(one, other), "extension") if broken else Line((one, other), "outline"))
        return found

    def _fastener(self, fastener: Fastener) -> list[Primitive]:
        """The fastener from the side: its head, its shank and its point; a dowel without either."""
        head, tip = (self.placing.at(self.cut.project(end)) for end in fastener.ends_mm())
        thick = max(float(fastener.spec.diameter.mm) * self.placing.scale, 0.3)
        ring = _shape(fastener.spec.kind, head, tip, thick)
        return [Area((ring,), "paper"), Line((*ring, ring[0]), "outline"), Line((head, tip), "centre")]

    # What is measured

    def _sizes(self) -> list[Primitive]:
        """Through the joint, one after another, beside the drawing; the fastener's length beyond; the other sizes."""
        along = _up_or_right(self.cut.way(self.cut.contact.axis))
        level = abs(along[0]) > abs(along[1])
        away = (0.0, 1.0) if level else (1.0, 0.0)
        items: list[Primitive] = []
        taken = Occupied()
        for span in reversed(self._chain()):  # the number of a short length stands clear of the next one's
            made = self._drawn(span, along, away, taken)
            taken.add(made)
            items += made
        fastener = self.cut.fastener
        if fastener is not None:
            head, tip = (self.cut.project(end) for end in fastener.ends_mm())
            items += self._own_length(_Span(head, tip, fastener.spec.length), level=level)
        return [*items, *self._thickness(along)]

    def _drawn(self, span: _Span, along: Point, away: Point, taken: Occupied) -> list[Primitive]:
        one, other = (self._at_edge(self.placing.at(end), away) for end in (span.first, span.second))
        text = self.notation.bare(span.length)
        return list(dim.drawn(dim.Dimension(one, other, along, away, 6.0, text), taken))

    def _own_length(self, span: _Span, *, level: bool) -> list[Primitive]:
        """The fastener's own length, along it: beyond the chain where it runs the same way, else above it."""
        one, other = self.placing.at(span.first), self.placing.at(span.second)
        along = dim.unit((other[0] - one[0], other[1] - one[1]))
        away = (-along[1], along[0])
        wanted = (0.0, 1.0) if level else (1.0, 0.0)
        straight = min(abs(along[0]), abs(along[1])) < _EDGE
        if (away[0] * wanted[0] + away[1] * wanted[1] < 0) == straight:
            away = (-away[0], -away[1])
        if straight:
            one, other = self._at_edge(one, wanted), self._at_edge(other, wanted)
            return list(dim.drawn(dim.Dimension(one, other, along, wanted, 13.0, self.notation.bare(span.length))))
        corners = [point for _, rings in self.shown for ring in rings for point in ring]
        beside = [corner for corner in corners if _over(corner, one, other, along)]
        far = max((x - one[0]) * away[0] + (y - one[1]) * away[1] for x, y in beside)
        return list(dim.drawn(dim.Dimension(one, other, along, away, far + 5.0, self.notation.bare(span.length))))

    def _chain(self) -> list[_Span]:
        """Along the joint's normal: the first part, how deep the fastener bites, what is left beyond its tip.

        Of a dowel, how deep it lies in the first part.
        """
        first, second, contact, fastener = self.cut.first, self.cut.second, self.cut.contact, self.cut.fastener
        axis = contact.axis
        if fastener is None:
            return []
        deep = bite(fastener, second)
        plane, way = self._plane(), self.cut.way(axis)
        sign = 1.0 if contact.face == HIGH[axis] else -1.0
        inward = (way[0] * sign, way[1] * sign)
        if fastener.through == second.id:
            inward = (-inward[0], -inward[1])
        tip = _shifted(plane, inward, float(deep.mm))
        spans = [_Span(plane, tip, deep)] if deep.mm > 0 else []
        into = first if fastener.into == first.id else second
        if not into.leans and not into.features and into.box.extent(axis) > deep:
            rest = into.box.extent(axis) - deep
            if float(rest.mm) <= max(self.cut.window[2] - self.cut.window[0], 1.0):
                spans.append(_Span(tip, _shifted(tip, inward, float(rest.mm)), rest))
        through = second if fastener.through == second.id else first
        straight = fastener.head.along(axis) != fastener.tip.along(axis) and fastener.spec.kind != "pocket screw"
        if straight and not through.leans and fastener.travel is None:
            dowel = fastener.spec.kind == "dowel"
            thick = fastener.spec.length - deep if dowel else through.box.extent(axis)
            spans.insert(0, _Span(_shifted(plane, inward, -float(thick.mm)), plane, thick))
        return spans

    def _plane(self) -> Point:
        """The middle of where the parts touch, on the plane of the cut."""
        region = self.cut.contact.region
        x, y, z = (float(region.middle(axis).mm) for axis in AXES)
        return self.cut.project(spot_after(turning(self.cut.leans), (x, y, z)))

    def _thickness(self, along: Point) -> list[Primitive]:
        """How thick both parts are square to the joint's normal, each where it is shown whole."""
        found: list[Primitive] = []
        across = (abs(along[1]), abs(along[0]))
        for part, side in ((self.cut.first, -1.0), (self.cut.second, 1.0)):
            rings = next((rings for one, rings in self.shown if one.id == part.id), ())
            sizes = [part.box.extent(axis) for axis in AXES if abs(_along(self.cut.way(axis), across)) > 0.999]
            if not rings or not sizes or part.leans != self.cut.leans:
                continue
            low, high = _ends(rings, across)
            wide = float(sizes[0].mm) * self.placing.scale
            if abs(high - low - wide) > 0.01:
                continue
            edge = self._outermost(along, self._first_side(along) * -side)
            one, other = _spot(edge, low, along), _spot(edge, high, along)
            way = _scaled(along, self._first_side(along) * -side)
            found += dim.drawn(dim.Dimension(one, other, across, way, 6.0, self.notation.bare(sizes[0])))
        return found

    def _first_side(self, along: Point) -> float:
        """On which side of the second part the first one lies, along the joint's normal: 1 or -1."""
        middles = [_middle(rings, along) for _, rings in self.shown[:2]]
        return 1.0 if len(middles) < 2 or middles[0] > middles[1] else -1.0

    def _outermost(self, along: Point, sign: float) -> float:
        ends = [_along(point, along) for _, rings in self.shown for ring in rings for point in ring]
        return max(ends) if sign > 0 else min(ends)

    def _at_edge(self, point: Point, away: Point) -> Point:
        """A place moved along a way to the edge of what is drawn, so that dimensions lie beside it."""
        corners = [one for _, rings in self.shown for ring in rings for one in ring]
        far = max(_along(one, away) for one in corners) - _along(point, away)
        return _shifted(point, away, max(far, 0.0))

    # What is said

    def _below(self, items: Sequence[Primitive]) -> list[Text]:
        named = "; ".join(f"{self.letters[part.id]} {within(part.name)}" for part, _ in self.shown)
        said = [
            f"{scale_words(self.number)}. {unit_note(self.notation)}.",
            f"Hatched: cut through. {named}.",
            *([f"{capital(self._held())}."] if self.cut.fastener is not None else []),
        ]
        return sentences_below(items, said, least=90.0, most=WIDEST - 10.0)

    def _held(self) -> str:
        """What holds it and how deep: "#8 × 1 1/4 pocket screw, 9/16 in deep in the rail"."""
        fastener = self.cut.fastener
        assert fastener is not None
        into = self.cut.build.part(fastener.into)
        deep = bite(fastener, into)
        slides = fastener.travel is not None and fastener.travel.mm > 0
        return f"{fastener.spec.name}, {self.notation.both(deep)} deep in the {within(into.name)}" + (
            f", free to slide {self.notation.both(fastener.travel)}" if slides and fastener.travel is not None else ""
        )

    def _words(self) -> str:
        first, second = self.cut.first, self.cut.second
        held = f"Held by a {self._held()}." if self.cut.fastener is not None else "No fastener lies in the cut."
        thick = [
            f"{capital(within(part.name))} is {self.notation.both(part.thickness)} thick."
            for part in (first, second)
        ]
        names = f"{capital(within(first.name))} and {within(second.name)}"
        return f"{names}, cut through their joint. {held} {' '.join(thick)}"


def _shape(kind: str, head: Point, tip: Point, thick: float) -> Ring:
    """A fastener's outline from the side, round its middle line."""
    along = dim.unit((tip[0] - head[0], tip[1] - head[1]))
    side = (-along[1], along[0])
    long = math.dist(head, tip)
    half, wide = thick / 2, thick * _HEAD / 2
    point = 0.0 if kind == "dowel" else min(1.5 * thick, long / 3)
    if kind == "wood screw":
        upper = [(0.0, wide), (wide - half, half)]
    elif kind == "dowel":
        upper = [(0.0, half)]
    else:
        upper = [(-half, wide), (0.0, wide), (0.0, half)]
    lower = [(long - point, half), (long, 0.0 if point else half)]
    edge = [*upper, *lower]
    ring = [*edge, *((far, -out) for far, out in reversed(edge) if out or not point)]
    return tuple((head[0] + along[0] * a + side[0] * o, head[1] + along[1] * a + side[1] * o) for a, o in ring)


def _zigzag(one: Point, other: Point) -> tuple[Point, ...]:
    """A thin line with a break in its middle (ISO 128-2, line 01.1 with zigzag)."""
    long = math.dist(one, other)
    if long < 6.0:
        return one, other
    along = dim.unit((other[0] - one[0], other[1] - one[1]))
    mid = dim.middle(one, other)
    side = (-along[1], along[0])
    bend = [(-1.2, 0.0), (-0.5, 1.4), (0.5, -1.4), (1.2, 0.0)]
    return one, *((mid[0] + along[0] * a + side[0] * o, mid[1] + along[1] * a + side[1] * o) for a, o in bend), other


def _outline(rings: Sequence[Ring]) -> list[Primitive]:
    return [Line((*ring, ring[0]), "outline") for ring in rings]


def _over(point: Point, one: Point, other: Point, along: Point) -> bool:
    """Whether a place lies beside a stretch, and not beyond its ends."""
    return _along(one, along) - 1 <= _along(point, along) <= _along(other, along) + 1


def _up_or_right(way: Point) -> Point:
    """The same way, turned so that it runs right or up the page."""
    back = way[0] < -_EDGE or (abs(way[0]) <= _EDGE and way[1] > 0)
    return (-way[0], -way[1]) if back else way


def _along(point: Point, way: Point) -> float:
    return point[0] * way[0] + point[1] * way[1]


def _ends(rings: Sequence[Ring], way: Point) -> tuple[float, float]:
    found = [_along(point, way) for ring in rings for point in ring]
    return min(found), max(found)


def _middle(rings: Sequence[Ring], way: Point) -> float:
    return sum(_ends(rings, way)) / 2


def _spot(far: float, across: float, along: Point) -> Point:
    """The place so far along one way, and so far along the way square to it (right, or down)."""
    return (along[0] * far + abs(along[1]) * across, along[1] * far + abs(along[0]) * across)


def _scaled(way: Point, by: float) -> Point:
    return way[0] * by, way[1] * by


def _shifted(point: Point, way: Point, far: float) -> Point:
    return point[0] + way[0] * far, point[1] + way[1] * far


__all__ = ["section_drawing"]
