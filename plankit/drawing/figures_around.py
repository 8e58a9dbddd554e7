"""The two sides that the first three views do not show: the back with its pins, and what stands underneath."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from plankit.build import Build, Fastener, Item, ItemKind
from plankit.drawing import dimension as dim
from plankit.drawing.below import sentences_below
from plankit.drawing.figures_views import TALL, WIDE
from plankit.drawing.placing import Placing, framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import Figure, Mark, Point, Primitive, Text
from plankit.drawing.seen import HARDWARE, fills_of, lines_of, outside, plain_kind, view_of
from plankit.drawing.view import View
from plankit.drawing.words import capital, count_word, counted, listed, plural, sentence, unit_note, within
from plankit.errors import PlanError
from plankit.parts import AXES, HIGH, LOW, OPPOSITE, Axis, Box, Face, box_of, other_axes
from plankit.units import Length, Notation

AROUND: Final[dict[str, str]] = {"back": "back", "below": "bottom"}
"""What an author calls a view, and the direction it is seen from."""
_SEEN = 0.25
STANDS_ON: Final[frozenset[ItemKind]] = frozenset({"caster", "levelling foot"})
"""Hardware that a piece stands on, which counts with its outside size."""
_HEAD = 1.4
"""A fastener's head on the page, in mm."""
_APART = 0.6


@dataclass(frozen=True, slots=True)
class Counted:
    """One way of a view: places counted from the edge where a tape is hooked.

    edge   the face of the build that the tape hooks over
    page   the way on the page that it then runs;  away: the side of the view where the numbers stand
    """

    axis: Axis
    edge: Face
    page: Point
    away: Point


_WAYS: Final[dict[str, tuple[Counted, Counted]]] = {
    "back": (Counted("x", "right", (1.0, 0.0), (0.0, 1.0)), Counted("z", "bottom", (0.0, -1.0), (1.0, 0.0))),
    "below": (Counted("x", "left", (1.0, 0.0), (0.0, 1.0)), Counted("y", "front", (0.0, 1.0), (1.0, 0.0))),
}
_EDGE_WORDS: Final[dict[Face, str]] = {
    "left": "left edge",
    "right": "right edge, which is on the left here",
    "front": "front edge",
    "back": "back edge, which is on the left here",
    "bottom": "lower edge",
}


def from_around(build: Build, notation: Notation, side: str) -> Figure:
    """The build from behind or from below, to scale, with outside sizes, places, and every head that is seen.

    side    "back": parts and pins; "below": what it stands on, casters and levelling feet too
    raises  PlanError for another name
    """
    if side not in AROUND:
        raise PlanError("there is no such view.", where="view", given=side, remedy="Use back or below.")
    names = {"back": "from behind", "below": "from below"}
    sight = Sight(side, f"{build.name} {names[side]}", AROUND[side], _WAYS[side])
    return on_the_page(lambda room: Around(build, notation, sight, room).figure())


@dataclass(frozen=True, slots=True)
class Sight:
    """What a view shows, and from where.

    name       the figure's id;  title: what it is called
    direction  where it is seen from
    ways       the two ways that places are counted
    both       ids of parts of which both edges are measured
    said       sentences of its own below the view
    """

    name: str
    title: str
    direction: str
    ways: tuple[Counted, Counted]
    both: frozenset[str] = frozenset()
    said: tuple[str, ...] = ()


class Around:
    """One view, and the scale it is drawn at."""

    def __init__(self, build: Build, notation: Notation, sight: Sight, room: float) -> None:
        self.build, self.notation, self.sight = build, notation, sight
        self.view = view_of(build.parts, sight.direction, items=build.items)
        left, top, right, bottom = self.view.bounds
        self.number = ratio(notation.unit, right - left, bottom - top, WIDE * room, TALL * room)
        self.placing = Placing(1.0 / self.number, -left / self.number, -top / self.number)
        self.heads = seen_heads(build, self.view)

    def figure(self) -> Figure:
        ways = self.sight.ways
        places = [self._places(way) for way in ways]
        items: list[Primitive] = [
            *fills_of(self.view, self.placing, lambda _part: "part"),
            *lines_of(self.view, self.placing, plain_kind),
            *(Mark(self._at(one), "screw", _HEAD) for one in self.heads),
            *(item for way in ways for item in self._whole(way)),
            *(item for way, found in zip(ways, places, strict=True) for item in self._running(way, found)),
        ]
        return framed(self.sight.name, [*items, *self._below(items)], self.sight.title, self._words(places))

    def _at(self, fastener: Fastener) -> Point:
        return self.placing.at(self.view.project(fastener.ends_mm()[0]))

    def _places(self, way: Counted) -> list[tuple[Length, tuple[str, ...]]]:
        """Where what is seen begins, counted from the tape's hook; what lies too close after another is left out."""
        whole = _outline(self.build)
        start = whole.face(way.edge)
        found: dict[float, tuple[Length, dict[str, None]]] = {}
        for name, box, both in self._measured():
            far = (OPPOSITE[way.edge],) if both else ()
            for face in (way.edge, *far):
                at = abs(box.face(face) - start)
                if 0 < at.mm < whole.extent(way.axis).mm:
                    found.setdefault(float(at.mm), (at, {}))[1][name] = None
        kept: list[tuple[Length, tuple[str, ...]]] = []
        last = 0.0
        for mm in sorted(found):
            if (mm - last) * self.placing.scale >= _APART:
                kept.append((found[mm][0], tuple(found[mm][1])))
                last = mm
        return kept

    def _measured(self) -> Iterator[tuple[str, Box, bool]]:
        """Parts of which enough is seen, and hardware that stands outside; whether both edges of it are measured.

        Those are hardware, and what is fastened on from this side.
        """
        fastened = {one.through for one in self.heads}
        for part in self.build.parts:
            box = box_of(part)
            if self.view.visible_area(part.id) >= _SEEN * self._face(box):
                yield part.name, box, part.id in fastened or part.id in self.sight.both
        for number, item in enumerate(outside(self.build.items)):
            if self.view.visible_area(f"{HARDWARE}{number}") > 0:
                yield item.kind, item.box, True

    def _face(self, box: Box) -> float:
        one, two = (way.axis for way in self.sight.ways)
        return float(box.extent(one).mm * box.extent(two).mm)

    def _ends(self, way: Counted) -> tuple[Point, Point]:
        """Both ends of the view along a way, on the side where its numbers stand; the hook first."""
        (left, top), (right, bottom) = self.placing.at(self.view.bounds[:2]), self.placing.at(self.view.bounds[2:])
        low, high = (self.placing.at(self.view.project(corner)) for corner in _outline(self.build).mm())
        if way.page[0]:
            y = bottom if way.away[1] > 0 else top
            one, other = sorted((low[0], high[0]))
            return (one, y), (other, y)
        x = right if way.away[0] > 0 else left
        one, other = sorted((low[1], high[1]))
        return ((x, one), (x, other)) if way.page[1] > 0 else ((x, other), (x, one))

    def _running(self, way: Counted, places: Sequence[tuple[Length, tuple[str, ...]]]) -> tuple[Primitive, ...]:
        origin, _ = self._ends(way)
        scale = self.placing.scale
        spots = tuple(
            (
                (origin[0] + way.page[0] * float(at.mm) * scale, origin[1] + way.page[1] * float(at.mm) * scale),
                self.notation.bare(at),
            )
            for at, _ in places
        )
        return dim.running(dim.Running(origin, spots, way.page, way.away, 5.0)) if spots else ()

    def _whole(self, way: Counted) -> tuple[Primitive, ...]:
        """The outside size, on the side opposite to the places."""
        away = (-way.away[0], -way.away[1])
        one, other = self._ends(Counted(way.axis, way.edge, way.page, away))
        extent = _outline(self.build).extent(way.axis)
        return dim.drawn(dim.Dimension(one, other, way.page, away, 6.0, self.notation.bare(extent)))

    def _below(self, items: Sequence[Primitive]) -> list[Text]:
        edges = "; ".join(_EDGE_WORDS[way.edge] for way in self.sight.ways)
        said = [f"{scale_words(self.number)}. {unit_note(self.notation)}.", f"0: {edges}."]
        said += [*self.sight.said, *(f"{capital(one)}." for one in self._driven())]
        return sentences_below(items, said, least=100.0)

    def _driven(self) -> list[str]:
        """Each sort of fastener whose heads are seen: how many, and how far apart at most."""
        sorts: dict[tuple[str, str], list[Fastener]] = {}
        for one in self.heads:
            sorts.setdefault((one.spec.name, one.through), []).append(one)
        return [self._row(name, through, ones) for (name, through), ones in sorts.items()]

    def _row(self, name: str, through: str, ones: Sequence[Fastener]) -> str:
        apart = widest_apart(ones)
        spaced = f", at most {self.notation.both(apart)} apart" if apart is not None else ""
        many = "s" if len(ones) > 1 else ""
        return f"{count_word(len(ones))} {name}{many} through the {within(self.build.part(through).name)}{spaced}"

    def _words(self, places: Sequence[Sequence[tuple[Length, tuple[str, ...]]]]) -> str:
        whole = _outline(self.build)
        ways = self.sight.ways
        sizes = {"x": "wide", "y": "deep", "z": "high"}
        said = [
            f"{self.view.direction.words}. {self.build.name}, "
            + listed(f"{self.notation.both(whole.extent(way.axis))} {sizes[way.axis]}" for way in ways),
            f"Seen: {counted([name for name, _, _ in self._measured()])}",
            *self.sight.said,
            *self._driven(),
        ]
        for way, found in zip(ways, places, strict=True):
            told = "; ".join(
                f"{listed(within(plural(one) if n > 1 else one) for one, n in _counts(names))} at "
                f"{self.notation.both(at)}"
                for at, names in found
            )
            if told:
                said.append(f"from the {_EDGE_WORDS[way.edge].partition(',')[0]}: {told}")
        return " ".join(sentence(one) for one in said)


def _counts(names: Sequence[str]) -> list[tuple[str, int]]:
    return [(name, list(names).count(name)) for name in dict.fromkeys(names)]


def _outline(build: Build) -> Box:
    """The smallest box round the parts and what they stand on: a pull or a bracket that stands out is not measured."""
    found = build.box
    for item in (one for one in build.items if one.kind in STANDS_ON):
        found = Box(**{
            face: (min if face in LOW.values() else max)(found.face(face), item.box.face(face), key=lambda at: at.mm)
            for face in (*LOW.values(), *HIGH.values())
        })  # fmt: skip
    return found


def seen_heads(build: Build, view: View) -> tuple[Fastener, ...]:
    """The fasteners whose heads lie on a face that is turned to the eye, and before which nothing stands."""
    eye = view.direction.eye
    found = []
    for joint in build.joints:
        for one in joint.fasteners:
            head, tip = one.ends_mm()
            inward = sum((h - t) * e for h, t, e in zip(head, tip, eye, strict=True))
            at = (head[0] + eye[0] * 0.5, head[1] + eye[1] * 0.5, head[2] + eye[2] * 0.5)
            if inward > 0 and view.sees(at):
                found.append(one)
    return tuple(found)


def widest_apart(ones: Sequence[Fastener]) -> Length | None:
    """The widest space between neighbours of the rows that some fasteners stand in; None where each stands alone."""
    rows: dict[tuple[str, Axis, tuple[Fraction, ...]], list[Length]] = {}
    for one in ones:
        for along in AXES:
            beside = tuple(one.head.along(axis).mm for axis in other_axes(along))
            rows.setdefault((one.into, along, beside), []).append(one.head.along(along))
    ordered = [sorted(row, key=lambda at: at.mm) for row in rows.values()]
    spaces = [high - low for row in ordered for low, high in pairwise(row)]
    return max(spaces, key=lambda one: one.mm, default=None)


def stands_on_hardware(items: Sequence[Item]) -> bool:
    """Whether a piece stands on casters or levelling feet, so that one wants to see it from below."""
    return any(item.kind in {"caster", "levelling foot"} for item in items)


def has_thin_back(build: Build) -> bool:
    """Whether a back is pinned or stapled on from behind."""
    pinned = [joint for joint in build.joints if joint.kind in {"brads", "staples"}]
    return any(one.heading == "front" for joint in pinned for one in joint.fasteners)


__all__ = ["AROUND", "from_around", "has_thin_back", "seen_heads", "stands_on_hardware", "widest_apart"]
