"""Drawers as an author writes them: sized from their opening, with their grooves, fronts, slides or runners."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from plankit.build import Item, Moving
from plankit.build.doors import BETWEEN, REVEAL, inset_edge, overlay_edge
from plankit.build.drawers import EACH_SIDE, DrawerBox, Slide, room_behind, slide_for, slides
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, OPPOSITE, Axis, Box, Face, Part
from plankit.plan.asked import made_of, more_than_nothing, not_below_nothing
from plankit.plan.handles import PartHandle, Several, pair_of
from plankit.plan.joining import Joining
from plankit.plan.pinning import Pinning
from plankit.plan.placing import RUNS, Given, refuse_empty
from plankit.stock import Lumber, Sheet
from plankit.units import L, Length, mixed, smallest, told

type Bound = PartHandle | Given
type Joined = Literal["screws", "pocket screws", "brads"]

JOINED: tuple[Joined, ...] = ("screws", "pocket screws", "brads")
CLEAR = L("1/2 in")
"""Left free over and under a drawer's box (common practice)."""
ON_RUNNERS = L("1/16 in")
"""Left free beside a drawer on wooden runners (common practice)."""
OVER_RUNNERS = L("1/8 in")
"""Left free over a drawer on wooden runners: what is above keeps it level when it is out (common practice)."""
RUNNER_SCREWS = "#8 x 1 1/4"
LEFT_OVER_TIP = L("1/8 in")
BOX_SCREW = "#6 x 1 1/4"
BRAD, BOTTOM_BRAD = "1 1/4 in", "1 in"


class Drawer(Several):
    """A drawer's parts, its false front first, and its sizes.

    front            the false front; `box_front`, `back`, `sides` and `bottom` make the box
    runners          the strips it runs on; none where it runs on slides
    slides           its slides; none where it runs on runners
    wide, deep, high the outside of its box
    room             the depth there is behind its front
    travel           how far it comes out
    """

    def __init__(
        self, parts: "_Made", box: Box, room: Length, travel: Length, slides: tuple[Item, ...]
    ) -> None:
        self.front, self.box_front, self.back = parts.front, parts.box_front, parts.back
        self.sides, self.bottom, self.runners = parts.sides, parts.bottom, parts.runners
        self.slides = slides
        self.wide, self.deep, self.high = box.extent("x"), box.extent("y"), box.extent("z")
        self.room, self.travel = room, travel
        super().__init__((self.front, *self.box))

    @property
    def box(self) -> tuple[PartHandle, ...]:
        """The parts of its box, without the false front: sides, front, bottom, back."""
        return (*self.sides, self.box_front, self.bottom, self.back)


@dataclass(slots=True)
class _Made:
    front: PartHandle
    box_front: PartHandle
    back: PartHandle
    sides: tuple[PartHandle, PartHandle]
    bottom: PartHandle
    runners: tuple[PartHandle, ...] = ()


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a drawer goes: between which parts, how high, and where the case's front is."""

    left: Part
    right: Part
    low: Length
    high: Length
    front: Length


class Drawers(Joining, Pinning):
    """The part of a plan that makes drawers."""

    def drawer(
        self,
        name: str,
        stock: Sheet,
        *,
        between: Sequence[PartHandle],
        bottom: Bound,
        top: Bound,
        thin: Sheet,
        front: Sheet | None = None,
        lap: Literal["inset", "overlay"] = "inset",
        gap: Given = BETWEEN,
        half: str = "",
        slide: Given | None = None,
        runners: Lumber | None = None,
        each_side: Given | None = None,
        below: Given = CLEAR,
        above: Given | None = None,
        depth: Given | None = None,
        opens: str = "1",
        joined: Joined = "screws",
        grain: str = "left-right",
    ) -> Drawer:
        """Make a drawer in an opening: `plan.drawer("Drawer", ply, between=sides, bottom=floor, top=shelf, thin=thin)`.

        stock        of the box; `thin` is its bottom, let into grooves and slid in from behind under the back
        between      the parts left and right of it, which its slides are screwed to
        bottom, top  the parts below and above it, or where its opening ends
        front        of the false front; the box's stock where it is left out
        lap          "inset", flush with the case and `gap` all round, or "overlay" before the case
        half         faces where an overlay front shares an edge with the next one and covers half of it: "bottom top"
        slide        the slides' length; the longest that goes in where it is left out
        runners      instead of slides: lumber for two wooden runners under its sides
        each_side    what a slide takes beside the box (common practice: 1/2 in; check against your slide)
        below, above what stays free under and over the box
        depth        of the box, front to back; as long as its slides where it is left out
        opens        how far it comes out, as a share of a slide's length: "3/4" where a quarter stays in
        joined       what holds the box's corners beside glue: "screws", "pocket screws" or "brads"
        """
        made_of(stock, Sheet, name, "a drawer's box")
        made_of(thin, Sheet, name, "a drawer's bottom")
        _refuse_ways(name, joined, lap)
        space = not_below_nothing(self._read(name, "gap", gap), "gap", name)
        place = self._drawer_place(name, between, bottom, top)
        face = front or stock
        bounds: Mapping[Face, Bound] = {"left": between[0], "right": between[1], "bottom": bottom, "top": top}
        start = place.front + face.thickness if lap == "inset" else place.front
        beside = ON_RUNNERS if runners else EACH_SIDE
        if each_side is not None:
            beside = self._more_drawer(name, "each_side", each_side)
        low, high = self._levels(name, place, runners, below, above)
        across = Box(place.left.box.right + beside, place.right.box.left - beside, start, start, low, high)
        room = room_behind(start, across, (place.left, place.right), list(self._parts.values()))
        kind = None if runners else self._slide_kind(name, slide, beside, opens, room)
        deep = self._drawer_depth(name, depth, kind, room)
        box = DrawerBox(replace(across, back=start + deep), stock.thickness, thin.thickness)
        box.refuse_too_small(name)
        outer = (place.front, start) if lap == "inset" else (place.front - face.thickness, place.front)
        false = self._false_front(name, face, self._front_edges(name, bounds, lap, space, half), outer, grain)
        made = self._box_parts(name, stock, thin, box, false)
        self._join_box(made, joined, box, stock, face)
        travel = deep * Fraction(opens) if kind is None else kind.travel
        fitted: tuple[Item, ...] = ()
        if kind is not None:
            fitted = self.slides(made.sides, on=between, length=kind.length, each_side=beside, opens=opens)
        elif runners:
            made.runners = self._runners(name, runners, place, box)
        self._moving.append(Moving(self._moving_name(name), "drawer", _ids(made), slides=("front", travel)))
        return Drawer(made, box.box, room, travel, fitted)

    def slides(
        self,
        sides: Sequence[PartHandle],
        *,
        on: Sequence[PartHandle],
        length: Given,
        each_side: Given | None = None,
        opens: str = "1",
        out: Face = "front",
        high: Given | None = None,
    ) -> tuple[Item, ...]:
        """Put a pair of side-mounted slides between a drawer's sides and what it runs between.

        sides      the drawer's two sides, the left one first; `on` the parts beside them, in the same order
        each_side  what a slide takes between the two (common practice: 1/2 in; check against your slide)
        high       how high a slide is (common practice: 1 3/4 in)
        """
        one, other = pair_of(sides, "a pair of slides")
        left, right = pair_of(on, "a pair of slides")
        name = one.name
        kind = Slide(self._more_drawer(name, "length", length), opens=_share(name, opens))
        if each_side is not None:
            kind = replace(kind, each_side=self._more_drawer(name, "each_side", each_side))
        if high is not None:
            kind = replace(kind, high=self._more_drawer(name, "high", high))
        fitted = slides((one.part, other.part), (left.part, right.part), out, kind, self._items)
        self._items += fitted.items
        for part_id, features in fitted.bored:
            self.work_on(part_id, features)
        return fitted.items

    def _levels(
        self, name: str, place: _Place, runners: Lumber | None, below: Given, above: Given | None
    ) -> tuple[Length, Length]:
        """How low and how high its box reaches: on its runners, or clear of what is under it."""
        over = OVER_RUNNERS if runners else CLEAR
        if above is not None:
            over = not_below_nothing(self._read(name, "above", above), "above", name)
        if runners is not None:
            made_of(runners, Lumber, name, "a runner")
            return place.low + runners.width, place.high - over
        return place.low + not_below_nothing(self._read(name, "below", below), "below", name), place.high - over

    def _drawer_place(self, name: str, between: Sequence[PartHandle], bottom: Bound, top: Bound) -> _Place:
        left, right = (one.part for one in pair_of(between, name))
        low = bottom.part.box.top if isinstance(bottom, PartHandle) else self._read(name, "bottom", bottom)
        high = top.part.box.bottom if isinstance(top, PartHandle) else self._read(name, "top", top)
        if left.box.right >= right.box.left or low >= high:
            raise PlanError(
                "there is no opening for it: what bounds it is the wrong way round.",
                where=name,
                given=f"{told(right.box.left - left.box.right)} wide, {told(high - low)} high",
                remedy="Give what stands left of it first, and its bottom below its top.",
            )
        return _Place(left, right, low, high, left.box.front)

    def _slide_kind(
        self, name: str, slide: Given | None, beside: Length, opens: str, room: Length
    ) -> Slide:
        try:
            length = slide_for(room) if slide is None else self._more_drawer(name, "slide", slide)
        except PlanError as error:
            raise PlanError(error.what, where=name, given=error.given, remedy=error.remedy) from None
        return Slide(length, beside, opens=_share(name, opens))

    def _drawer_depth(self, name: str, depth: Given | None, kind: Slide | None, room: Length) -> Length:
        if depth is not None:
            return self._more_drawer(name, "depth", depth)
        return smallest(kind.length, room) if kind is not None else room

    def _front_edges(
        self, name: str, bounds: Mapping[Face, Bound], lap: str, gap: Length, half: str
    ) -> dict[Face, Length]:
        shared = half.split()
        if set(shared) - set(bounds):
            raise PlanError(
                "a front shares an edge at one of four faces.",
                where=name,
                given=f'half="{half}"',
                remedy=f"Write one or more of: {' '.join(bounds)}.",
            )
        found: dict[Face, Length] = {}
        for face, bound in bounds.items():
            if not isinstance(bound, PartHandle):
                room = gap if lap == "inset" else gap.portion(2)
                found[face] = inset_edge(self._read(name, face, bound), face, room)
            elif lap == "inset":
                found[face] = inset_edge(bound.part.box.face(OPPOSITE[face]), face, gap)
            else:
                seen = None if face in shared else REVEAL
                found[face] = overlay_edge(bound.part, face, AXIS_OF[face], seen, gap)
        return found

    def _false_front(
        self, name: str, stock: Sheet, edges: Mapping[Face, Length], deep: tuple[Length, Length], grain: str
    ) -> PartHandle:
        made_of(stock, Sheet, name, "a drawer's front")
        if grain not in {"left-right", "up"}:
            raise PlanError(
                "face grain runs one of two ways in a drawer's front.",
                where=name,
                given=f'grain="{grain}"',
                remedy='Write one of: "left-right", "up"',
            )
        box = Box(edges["left"], edges["right"], *deep, edges["bottom"], edges["top"])
        return self._sheet_part(f"{name} front", stock, box, RUNS[grain], "y")

    def _sheet_part(self, name: str, stock: Sheet, box: Box, grain: Axis, through: Axis) -> PartHandle:
        refuse_empty(name, box)
        return self._add(Part(self._new_id(name), name, "panel", stock, box, grain, through))

    def _box_parts(
        self, name: str, stock: Sheet, thin: Sheet, box: DrawerBox, front: PartHandle
    ) -> _Made:
        one, other = (self._sheet_part(f"{name} side", stock, side, "y", "x") for side in box.sides)
        inner = self._sheet_part(f"{name} box front", stock, box.front, "x", "y")
        back = self._sheet_part(f"{name} back", stock, box.back, "x", "y")
        floor = self._sheet_part(f"{name} bottom", thin, box.floor, "x", "z")
        ways: tuple[tuple[PartHandle, Face], ...] = ((one, "right"), (other, "left"), (inner, "back"))
        for part, face in ways:
            part.groove(face, width=thin.thickness, depth=box.groove, bottom=box.under, reason="bottom")
        return _Made(front, inner, back, (one, other), floor)

    def _join_box(
        self, made: _Made, joined: Joined, box: DrawerBox, stock: Sheet, face: Sheet
    ) -> None:
        self.glue([made.box_front, made.back], list(made.sides))
        if joined == "pocket screws":
            self.pocket_screw(made.box_front, into=list(made.sides), face="front")
            self.pocket_screw(made.back, into=list(made.sides), face="back")
        elif joined == "brads":
            for side in made.sides:
                self.pin(side, into=[made.box_front, made.back], brads_long=BRAD)
        else:
            self.screw([made.box_front, made.back], through=list(made.sides), screws=BOX_SCREW)
        self.pin(made.bottom, into=made.back, brads_long=BOTTOM_BRAD)
        spec = front_screw(stock.thickness, face.thickness)
        self.screw(made.front, through=made.box_front, screws=spec)

    def _runners(
        self, name: str, stock: Lumber, place: _Place, box: DrawerBox
    ) -> tuple[PartHandle, ...]:
        """Two strips on edge under the drawer's sides, screwed to what it runs between."""
        made = []
        ends = (place.left.box.right, place.right.box.left)
        for number, (case, at) in enumerate(zip((place.left, place.right), ends, strict=True)):
            low, high = (at - stock.thickness, at) if number else (at, at + stock.thickness)
            bottom = box.box.bottom - stock.width
            space = Box(low, high, box.box.front, box.box.back, bottom, box.box.bottom)
            title = f"{name} runner"
            runner = self._add(Part(self._new_id(title), title, "board", stock, space, "y", "x"))
            self.screw(PartHandle(self, case.id), through=runner, screws=RUNNER_SCREWS)
            made.append(runner)
        return tuple(made)

    def _moving_name(self, name: str) -> str:
        names = {one.name for one in self._moving}
        number, found = 2, name
        while found in names:
            found, number = f"{name} {number}", number + 1
        return found

    def _more_drawer(self, name: str, what: str, value: Given) -> Length:
        return more_than_nothing(self._read(name, what, value), what, name)


def front_screw(box: Length, front: Length) -> str:
    """Return the screw that holds a false front from inside: 1/8 in of it stays over the tip (common practice)."""
    step = L("1/4 in")
    return f"#8 x {mixed((step * ((box + front - LEFT_OVER_TIP) // step)).inches)}"


def _ids(made: _Made) -> tuple[str, ...]:
    return tuple(one.id for one in (made.front, made.box_front, *made.sides, made.bottom, made.back))


def _share(name: str, opens: str) -> Fraction:
    try:
        found = Fraction(opens)
    except (ValueError, ZeroDivisionError):
        found = Fraction(0)
    if not 0 < found <= 1:
        raise PlanError(
            "opens: a share of the slide's length was expected, up to 1.",
            where=name,
            given=repr(opens),
            remedy='Write  opens="1"  for slides that come out whole, "3/4" for others.',
        )
    return found


def _refuse_ways(name: str, joined: str, lap: str) -> None:
    ways: tuple[tuple[str, str, tuple[str, ...]], ...] = (
        ("joined", joined, JOINED),
        ("lap", lap, ("inset", "overlay")),
    )
    for word, given, known in ways:
        if given not in known:
            raise PlanError(
                "a drawer is not made like that.",
                where=name,
                given=f'{word}="{given}"',
                remedy=f"Write one of: {', '.join(known)}.",
            )


__all__ = ["Drawer", "Drawers", "front_screw"]
