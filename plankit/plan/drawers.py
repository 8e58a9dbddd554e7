"""Drawers as an author writes them: sized from their opening, with their grooves, fronts, slides or runners."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from plankit.build import Item, Moving
from plankit.build.doors import BETWEEN, REVEAL, inset_edge, overlay_edge
from plankit.build.drawers import (
    EACH_SIDE,
    DrawerBox,
    Slide,
    across_of,
    room_behind,
    slide_for,
    slides,
    within,
)
from plankit.build.fasteners import screw
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Box, Face, Part
from plankit.plan.asked import made_of, more_than_nothing, not_below_nothing
from plankit.plan.drawers_asked import Joined, refuse_blocks, refuse_unused, refuse_way, refuse_ways, share
from plankit.plan.handles import PartHandle, Several, pair_of
from plankit.plan.in_frames import round_opening, stands_in, wanted_blocks
from plankit.plan.joining import Joining
from plankit.plan.pinning import Pinning
from plankit.plan.placing import Given, refuse_empty
from plankit.stock import Lumber, Sheet
from plankit.units import L, Length, largest, mixed, smallest, told

type Bound = PartHandle | Given

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
    blocks           what its slides are screwed to behind a face frame; none where it has none
    slides           its slides; none where it runs on runners
    wide, deep, high the outside of its box
    room             the depth there is behind its front
    travel           how far it comes out
    """

    def __init__(
        self, parts: "_Made", box: DrawerBox, room: Length, travel: Length, slides: tuple[Item, ...]
    ) -> None:
        self.front, self.box_front, self.back = parts.front, parts.box_front, parts.back
        self.sides, self.bottom, self.runners = parts.sides, parts.bottom, parts.runners
        self.blocks = parts.blocks
        self.slides = slides
        outside, along = box.box, AXIS_OF[box.out]
        self.wide, self.deep, self.high = outside.extent(box.across), outside.extent(along), outside.extent("z")
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
    blocks: tuple[PartHandle, ...] = ()


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a drawer goes: between which two parts, how high, out of which face, and where that face of the case is."""

    one: Part
    other: Part
    low: Length
    high: Length
    out: Face
    face: Length

    @property
    def sides(self) -> tuple[Face, Face]:
        """The faces at its sides: left and right, or front and back where it comes out at a side."""
        across = across_of(self.out)
        return LOW[across], HIGH[across]

    def reach(self, start: Length, by: Length) -> dict[Face, Length]:
        """What lies from one place along its way to another so far behind it."""
        return {self.out: start, OPPOSITE[self.out]: within(start, self.out, by) if by.mm else start}


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
        out: Face = "front",
        frame: Sequence[PartHandle] = (),
        blocks: Sheet | None = None,
    ) -> Drawer:
        """Make a drawer in an opening: `plan.drawer("Drawer", ply, between=sides, bottom=floor, top=shelf, thin=thin)`.

        stock        of the box; `thin` is its bottom, let into grooves and slid in from behind under the back
        between      the parts left and right of it, which its slides are screwed to; the one before it and the one
                     behind it where it comes out at the left or the right
        bottom, top  the parts below and above it, or where its opening ends
        front        of the false front; the box's stock where it is left out
        lap          "inset", flush with the case and `gap` all round, or "overlay" before the case
        gap          round an inset front, and between two overlay fronts that share an edge
        half         faces where an overlay front shares an edge with the next one and covers half of it: "bottom top"
        slide        the slides' length; the longest that goes in where it is left out
        runners      instead of slides: lumber for two wooden runners under its sides
        each_side    what a slide takes beside the box (common practice: 1/2 in; check against your slide)
        below, above what stays free under and over the box
        depth        of the box, front to back; as long as its slides where it is left out
        opens        how far it comes out, as a share of a slide's length: "3/4" where a quarter stays in
        joined       what holds the box's corners beside glue: "screws", "pocket screws" or "brads"
        grain        of its front, seen from before it: "left-right" or "up"
        out          the face of the case that it comes out of: "front", "back", "left" or "right"
        frame        the face frame that it comes out through: an inset front lies flush with it, between its stiles
        blocks       sheet for blocks on the sides, behind the stiles, which its slides are screwed to

        Gives its parts as a list, or by name: .front (the false front), .box (all of its box), .sides, .box_front,
        .back, .bottom, .runners, .blocks; its .slides; its sizes .wide, .deep, .high, .room and .travel.
        """
        made_of(stock, Sheet, name, "a drawer's box")
        made_of(thin, Sheet, name, "a drawer's bottom")
        refuse_ways(name, joined, lap)
        refuse_unused(name, lap, half, gap_given=gap is not BETWEEN, bounds=(*between, bottom, top))
        if blocks is not None and not frame:
            refuse_blocks(name)
        space = not_below_nothing(self._read(name, "gap", gap), "gap", name)
        place = self._drawer_place(name, between, bottom, top, out)
        face = front or stock
        one, other = place.sides
        bounds: Mapping[Face, Bound] = {one: between[0], other: between[1], "bottom": bottom, "top": top}
        if frame:
            place, bounds, between = self._framed(name, place, bounds, frame, blocks)
        start = within(place.face, out, face.thickness) if lap == "inset" else place.face
        beside = ON_RUNNERS if runners else EACH_SIDE
        if each_side is not None:
            beside = self._more_drawer(name, "each_side", each_side)
        low, high = self._levels(name, place, runners, below, above)
        ends = {one: place.one.box.face(other) + beside, other: place.other.box.face(one) - beside}
        across = Box(**ends, **place.reach(start, Length.zero()), bottom=low, top=high)
        room = room_behind(start, across, (place.one, place.other), list(self._parts.values()), out)
        kind = None if runners else self._slide_kind(name, slide, beside, opens, room)
        deep = self._drawer_depth(name, depth, kind, room)
        box = DrawerBox(Box(**ends, **place.reach(start, deep), bottom=low, top=high), stock.thickness, thin.thickness,
                        out=out)  # fmt: skip
        box.refuse_too_small(name)
        outer = {out: place.face, OPPOSITE[out]: start}
        if lap == "overlay":
            outer = {out: within(place.face, OPPOSITE[out], face.thickness), OPPOSITE[out]: place.face}
        edges = self._front_edges(name, bounds, lap, space, half)
        false = self._false_front(name, face, edges | outer, grain, out)
        made = self._box_parts(name, stock, thin, box, false)
        self._join_box(made, joined, box, stock, face)
        travel = deep * Fraction(opens) if kind is None else kind.travel
        fitted: tuple[Item, ...] = ()
        if kind is not None:
            fitted = self.slides(made.sides, on=between, length=kind.length, each_side=beside, opens=opens, out=out)
        elif runners:
            made.runners = self._runners(name, runners, place, box)
        made.blocks = tuple(between) if blocks is not None and frame else ()
        self._moving.append(Moving(self._moving_name(name), "drawer", _ids(made), slides=(out, travel)))
        return Drawer(made, box, room, travel, fitted)

    def _framed(
        self,
        name: str,
        place: _Place,
        bounds: Mapping[Face, Bound],
        frame: Sequence[PartHandle],
        blocks: Sheet | None,
    ) -> tuple[_Place, Mapping[Face, Bound], tuple[PartHandle, PartHandle]]:
        """The opening that a face frame leaves, its face, and the blocks behind its stiles."""
        found = round_opening([one.part for one in frame], (place.one, place.other), (place.low, place.high), place.out)
        handles = {one.id: one for one in frame}
        outer = frame[0].part.box.face(place.out)
        one, other = place.sides
        by = largest(Length.zero(), *(
            stands_in(found[side], beside, side) for side, beside in ((one, place.one), (other, place.other))
            if side in found
        ))  # fmt: skip
        pair = PartHandle(self, place.one.id), PartHandle(self, place.other.id)
        if blocks is not None:
            pair = self._blocks(name, place, blocks, by)
        elif by.mm:
            raise PlanError(
                f"the stiles of its frame stand {told(by)} in before what its slides are screwed to.",
                where=name,
                given=", ".join(part.name for part in (place.one, place.other)),
                remedy=wanted_blocks(by, "…"),
            )
        low = largest(place.low, found["bottom"].box.top) if "bottom" in found else place.low
        high = smallest(place.high, found["top"].box.bottom) if "top" in found else place.high
        opening = replace(place, one=pair[0].part, other=pair[1].part, low=low, high=high, face=outer)
        round_it: dict[Face, Bound] = {one: pair[0], other: pair[1], "bottom": low, "top": high}
        return opening, round_it | {side: handles[part.id] for side, part in found.items()}, pair

    def _blocks(self, name: str, place: _Place, stock: Sheet, least: Length) -> tuple[PartHandle, PartHandle]:
        """A block on each side of an opening, as deep as what it is screwed to."""
        made_of(stock, Sheet, name, "a block for slides")
        if stock.thickness < least:
            raise PlanError(
                "its stiles stand further in than the blocks for its slides are thick.",
                where=name,
                given=f"{told(stock.thickness)} thick, the stiles {told(least)} in",
                remedy=f"Use sheet {told(least)} thick or more, or screw blocks of your own to the sides: between=…",
            )
        across, along = across_of(place.out), AXIS_OF[place.out]
        one, other = place.sides
        made = []
        for side, case in ((one, place.one), (other, place.other)):
            at = case.box.face(OPPOSITE[side])
            ends = {side: at, OPPOSITE[side]: at + stock.thickness if side == one else at - stock.thickness}
            across_box = Box(**ends, **place.reach(place.face, Length.zero()), bottom=place.low, top=place.high)
            deep = room_behind(place.face, across_box, (place.one, place.other), list(self._parts.values()), place.out)
            box = replace(across_box, **place.reach(place.face, deep))
            block = self._sheet_part(f"{name} block", stock, box, along, across)
            self.screw(PartHandle(self, case.id), through=block, screws=RUNNER_SCREWS, inset="3", each=2)
            made.append(block)
        return made[0], made[1]

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

        sides      the drawer's two sides, the left one first (the front one, where it comes out at a side); `on` the
                   parts beside them, in the same order
        out        the face of the case that it comes out of
        each_side  what a slide takes between the two (common practice: 1/2 in; check against your slide)
        high       how high a slide is (common practice: 1 3/4 in)
        """
        one, other = pair_of(sides, "a pair of slides")
        left, right = pair_of(on, "a pair of slides")
        name = one.name
        kind = Slide(self._more_drawer(name, "length", length), opens=share(name, opens))
        if each_side is not None:
            kind = replace(kind, each_side=self._more_drawer(name, "each_side", each_side))
        if high is not None:
            kind = replace(kind, high=self._more_drawer(name, "high", high))
        fitted = slides((one.part, other.part), (left.part, right.part), out, kind, self._items)
        self._items += fitted.items
        for part_id, features in fitted.bored:
            self.join_work(part_id, features)
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

    def _drawer_place(
        self, name: str, between: Sequence[PartHandle], bottom: Bound, top: Bound, out: Face
    ) -> _Place:
        refuse_way(name, out)
        across = across_of(out)
        one, other = (part.part for part in pair_of(between, name))
        low = bottom.part.box.top if isinstance(bottom, PartHandle) else self._read(name, "bottom", bottom)
        high = top.part.box.bottom if isinstance(top, PartHandle) else self._read(name, "top", top)
        near, far = one.box.high(across), other.box.low(across)
        if near >= far or low >= high:
            raise PlanError(
                "there is no opening for it: what bounds it is the wrong way round.",
                where=name,
                given=f"{told(far - near)} wide, {told(high - low)} high",
                remedy=f"Give what stands {_BESIDE[across]} it first, and its bottom below its top.",
            )
        return _Place(one, other, low, high, out, one.box.face(out))

    def _slide_kind(
        self, name: str, slide: Given | None, beside: Length, opens: str, room: Length
    ) -> Slide:
        try:
            length = slide_for(room) if slide is None else self._more_drawer(name, "slide", slide)
        except PlanError as error:
            raise PlanError(error.what, where=name, given=error.given, remedy=error.remedy) from None
        return Slide(length, beside, opens=share(name, opens))

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
        self, name: str, stock: Sheet, ends: dict[Face, Length], grain: str, out: Face
    ) -> PartHandle:
        made_of(stock, Sheet, name, "a drawer's front")
        if grain not in {"left-right", "up"}:
            raise PlanError(
                "face grain runs one of two ways in a drawer's front.",
                where=name,
                given=f'grain="{grain}"',
                remedy='Write one of: "left-right", "up"',
            )
        runs: Axis = "z" if grain == "up" else across_of(out)
        return self._sheet_part(f"{name} front", stock, Box(**ends), runs, AXIS_OF[out])

    def _sheet_part(self, name: str, stock: Sheet, box: Box, grain: Axis, through: Axis) -> PartHandle:
        refuse_empty(name, box)
        return self._add(Part(self._new_id(name), name, "panel", stock, box, grain, through))

    def _box_parts(
        self, name: str, stock: Sheet, thin: Sheet, box: DrawerBox, front: PartHandle
    ) -> _Made:
        across, along, inner = box.across, AXIS_OF[box.out], OPPOSITE[box.out]
        one, other = (self._sheet_part(f"{name} side", stock, side, along, across) for side in box.sides)
        own = self._sheet_part(f"{name} box front", stock, box.front, across, along)
        back = self._sheet_part(f"{name} back", stock, box.back, across, along)
        floor = self._sheet_part(f"{name} bottom", thin, box.floor, across, "z")
        ways: tuple[tuple[PartHandle, Face], ...] = ((one, HIGH[across]), (other, LOW[across]), (own, inner))
        for part, face in ways:
            part.groove(face, width=thin.thickness, depth=box.groove, bottom=box.under, reason="bottom")
        return _Made(front, own, back, (one, other), floor)

    def _join_box(
        self, made: _Made, joined: Joined, box: DrawerBox, stock: Sheet, face: Sheet
    ) -> None:
        self.glue([made.box_front, made.back], list(made.sides))
        if joined == "pocket screws":
            self.pocket_screw(made.box_front, into=list(made.sides), face=box.out)
            self.pocket_screw(made.back, into=list(made.sides), face=OPPOSITE[box.out])
        elif joined == "brads":
            for side in made.sides:
                self.pin(side, into=[made.box_front, made.back], brads_long=BRAD)
        else:
            self.screw([made.box_front, made.back], through=list(made.sides), screws=BOX_SCREW)
        self.pin(made.bottom, into=made.back, brads_long=BOTTOM_BRAD)
        spec = front_screw(stock.thickness, face.thickness)
        self.screw(made.front, through=made.box_front, screws=spec)
        if screw(spec).length - stock.thickness < HOLDS_ALONE:
            self.glue(made.front, made.box_front)

    def _runners(
        self, name: str, stock: Lumber, place: _Place, box: DrawerBox
    ) -> tuple[PartHandle, ...]:
        """Two strips on edge under the drawer's sides, screwed to what it runs between."""
        made = []
        across, along = box.across, AXIS_OF[box.out]
        low_face, high_face = place.sides
        for number, case in enumerate((place.one, place.other)):
            at = case.box.low(across) if number else case.box.high(across)
            low, high = (at - stock.thickness, at) if number else (at, at + stock.thickness)
            bottom, top = box.box.bottom - stock.width, box.box.bottom
            space = replace(box.box, **{low_face: low, high_face: high}, bottom=bottom, top=top)
            title = f"{name} runner"
            runner = self._add(Part(self._new_id(title), title, "board", stock, space, along, across))
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


HOLDS_ALONE = L("1/2 in")
"""A false front in which its screws bite less is glued on as well: three of their diameters (NDS, #8 screws)."""


def front_screw(box: Length, front: Length) -> str:
    """Return the screw that holds a false front from inside: 1/8 in of it stays over the tip (common practice)."""
    step = L("1/4 in")
    return f"#8 x {mixed((step * ((box + front - LEFT_OVER_TIP) // step)).inches)}"


def _ids(made: _Made) -> tuple[str, ...]:
    return tuple(one.id for one in (made.front, made.box_front, *made.sides, made.bottom, made.back))


_BESIDE: Mapping[Axis, str] = {"x": "left of", "y": "before"}


__all__ = ["Drawer", "Drawers", "front_screw"]
