"""Drawers: how large the box is in its opening, and the slides it runs on, with all their screws."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.build.fasteners import Fastener, Spec
from plankit.build.fittings import Fitted
from plankit.build.items import Item
from plankit.build.mounting import between, driven, inwards, lead_hole, short_screw
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Box, Face, Part
from plankit.reference import practice
from plankit.units import L, Length, exactly, smallest, told

CHECK = "check against your slide"
PRACTICE = "common practice"
SLIDE_STEP = L("2 in")
"""Drawer slides are sold in lengths so far apart (common practice)."""
SHORTEST_SLIDE, LONGEST_SLIDE = L("10 in"), L("28 in")
SLIDE_SCREW = L("1/2 in")
"""Screws of drawer slides, where the wood is thick enough (common practice)."""
SCREWS_FROM_ENDS: tuple[Length, Length] = (L("1 1/2 in"), L("2 1/4 in"))
"""From a slide's ends to its outer screws; the second where a slide on the other face of the same divider has the
first, so that their screws do not meet in it (slides have many holes; common practice)."""
GROOVE = L("1/4 in")
"""How deep a drawer's bottom is let in; never more than half of the side (common practice)."""
UNDER = L("1/2 in")
"""From a drawer's lower edge to the groove for its bottom (common practice)."""


EACH_SIDE = practice("slide clearance").sizes[1]
"""What a side-mounted slide takes between drawer and case (common practice)."""
HIGH_SLIDE = L("1 3/4 in")
"""How high a side-mounted slide is (common practice)."""


@dataclass(frozen=True, slots=True)
class Slide:
    """A side-mounted drawer slide, by the sizes on its maker's sheet.

    length     from end to end, shut
    each_side  the room it takes between drawer and case
    high       how high it is
    opens      how far it comes out, as a share of its length: 1, or 3/4 where it keeps a quarter in
    gauge      of its screws
    """

    length: Length
    each_side: Length = EACH_SIDE
    high: Length = HIGH_SLIDE
    opens: Fraction = Fraction(1)
    gauge: int = 6

    @property
    def travel(self) -> Length:
        """How far a drawer on it comes out."""
        return self.length * self.opens


def slide_for(room: Length) -> Length:
    """Return the longest slide that is sold and no longer than the room behind a drawer's front.

    source  common practice: every 2 in from 10 to 28 in
    raises  PlanError where the room is shorter than any
    """
    if room < SHORTEST_SLIDE:
        raise PlanError(
            f"there are {told(room)} behind its front: no common slide is so short.",
            given=f"the shortest is {told(SHORTEST_SLIDE)}",
            remedy='Give the length of yours, slide="8", or let it run on wooden runners: runners=…',
        )
    return SLIDE_STEP * (smallest(room, LONGEST_SLIDE) // SLIDE_STEP)


def across_of(out: Face) -> Axis:
    """Return the axis from side to side of a drawer that comes out of a face."""
    return "x" if AXIS_OF[out] == "y" else "y"


def within(start: Length, face: Face, by: Length) -> Length:
    """Return the place so far behind a face that lies at `start`."""
    return start - by if face == HIGH[AXIS_OF[face]] else start + by


def moved_in(box: Box, face: Face, by: Length) -> Box:
    """Return a box with one face moved inwards."""
    return replace(box, **{face: within(box.face(face), face, by)})


def moved_out(box: Box, face: Face, by: Length) -> Box:
    """Return a box with one face moved outwards."""
    return replace(box, **{face: within(box.face(face), OPPOSITE[face], by)})


def slice_at(box: Box, face: Face, thick: Length) -> Box:
    """Return what of a box lies within a thickness of one of its faces."""
    return replace(box, **{OPPOSITE[face]: within(box.face(face), face, thick)})


@dataclass(frozen=True, slots=True)
class DrawerBox:
    """A drawer's box: its outside, and what it is made of.

    box       all of it, without the false front
    thick     of sides, front and back
    bottom    thickness of the bottom, as it measures: its groove is cut to that
    under     from the lower edge to the groove
    out       the face it comes out of: its own front is there
    """

    box: Box
    thick: Length
    bottom: Length
    under: Length = UNDER
    out: Face = "front"

    @property
    def groove(self) -> Length:
        """How deep the bottom is let in."""
        return smallest(GROOVE, self.thick.portion(2))

    @property
    def across(self) -> Axis:
        """The axis from side to side."""
        return across_of(self.out)

    @property
    def sides(self) -> tuple[Box, Box]:
        """The two sides, over the whole depth: left and right, or front and back of one that comes out at a side."""
        return slice_at(self.box, LOW[self.across], self.thick), slice_at(self.box, HIGH[self.across], self.thick)

    @property
    def front(self) -> Box:
        """The box's own front, between its sides."""
        return slice_at(self._inner, self.out, self.thick)

    @property
    def back(self) -> Box:
        """The back, between the sides; it stands on the bottom, which is slid in below it from behind."""
        behind = slice_at(self._inner, OPPOSITE[self.out], self.thick)
        return replace(behind, bottom=self.box.bottom + self.under + self.bottom)

    @property
    def floor(self) -> Box:
        """The bottom, let into the sides and the front, and flush with the back."""
        low = self.box.bottom + self.under
        flat = replace(self._inner, bottom=low, top=low + self.bottom)
        for face in (LOW[self.across], HIGH[self.across]):
            flat = moved_out(flat, face, self.groove)
        return moved_out(moved_in(flat, self.out, self.thick), self.out, self.groove)

    @property
    def _inner(self) -> Box:
        return moved_in(moved_in(self.box, LOW[self.across], self.thick), HIGH[self.across], self.thick)

    def refuse_too_small(self, name: str) -> None:
        """Refuse a box with nothing left inside."""
        inside = {
            "side to side": self.box.extent(self.across) - self.thick * 2,
            "front to back": self.box.extent(AXIS_OF[self.out]) - self.thick * 2,
            "up and down": self.box.extent("z") - self.under - self.bottom,
        }
        for way, left in inside.items():
            if left <= Length.zero():
                raise PlanError(
                    f"nothing is left inside it, {way}.",
                    where=name,
                    given=f"{told(left)} after its sides, its bottom and its clearances",
                    remedy="Make the opening larger, or give less each_side=, below= or above=.",
                )


def room_behind(
    start: Length, across: Box, sides: Sequence[Part], others: Sequence[Part], out: Face = "front"
) -> Length:
    """Return how much depth there is behind a place for a drawer.

    start   where its box begins
    across  what it fills from side to side and from bottom to top; what it fills along its way counts for nothing
    sides   what its slides are screwed to
    others  all else; what begins behind the place and stands in its way limits the depth
    out     the face it comes out of
    """
    axis, inner = AXIS_OF[out], OPPOSITE[out]
    taken = {side.id for side in sides}
    ends = [inwards(out, side.box.face(inner) - start) for side in sides]
    ends += [
        inwards(out, part.box.face(out) - start)
        for part in others
        if part.id not in taken and _stands_in(part.box, across, axis)
    ]
    nothing = Length.zero()
    return smallest(*(end for end in ends if end > nothing)) if any(end > nothing for end in ends) else nothing


def _stands_in(one: Box, across: Box, along: Axis) -> bool:
    axes = (axis for axis in AXES if axis != along)
    return all(one.low(axis).mm < across.high(axis).mm and across.low(axis).mm < one.high(axis).mm for axis in axes)


def slides(
    sides: tuple[Part, Part], case: tuple[Part, Part], out: Face, kind: Slide, there: Sequence[Item] = ()
) -> Fitted:
    """Return a pair of slides between a drawer's sides and what it runs between, with all screws and lead holes.

    sides   the drawer's, on its low and its high side: left and right for a drawer that comes out at the front
    case    what each of them runs beside, in the same order
    there   the slides that there are already
    out     the face it comes out of
    raises  PlanError where a side does not stand beside its part of the case
    """
    made = [
        _slide(side, beside, out, kind, there, high=bool(number))
        for number, (side, beside) in enumerate(zip(sides, case, strict=True))
    ]
    bored: dict[str, tuple[object, ...]] = {}
    for item in made:
        for screw in item.fasteners:
            part = next(one for one in (*sides, *case) if one.id == screw.through)
            bored[part.id] = (*bored.get(part.id, ()), lead_hole(part, screw, "drawer slide"))
    return Fitted(tuple(made), tuple(bored.items()))  # type: ignore[arg-type]


def _has_one(case: Part, face: Face, there: Sequence[Item]) -> bool:
    """Whether a part carries a slide on the face opposite to this one."""
    axis = AXIS_OF[face]
    outer = [item for item in there if item.kind == "slide" and item.on[1:] == (case.id,)]
    return any((item.box.middle(axis).mm < case.box.middle(axis).mm) == (face == HIGH[axis]) for item in outer)


def _slide(
    side: Part, case: Part, out: Face, kind: Slide, there: Sequence[Item], *, high: bool
) -> Item:
    along, across = AXIS_OF[out], across_of(out)
    face = HIGH[across] if high else LOW[across]
    clear = case.box.face(OPPOSITE[face]) - side.box.face(face)
    if (clear if high else -clear) <= Length.zero():
        raise PlanError(
            f"its {face} side does not stand beside {case.name}, so no slide goes between them.",
            where=side.name,
            given=f"on={case.id}",
            remedy=f"Name what stands {LOW[across]} of the drawer first: on=[{LOW[across]}, {HIGH[across]}].",
        )
    start, far = side.box.face(out), inwards(out, kind.length)
    middle, half = side.box.middle("z"), kind.high.portion(2)
    inner = case.box.face(OPPOSITE[face])
    room = between(
        {
            across: (inner, inner + inwards(face, kind.each_side)),
            along: (start, start + far),
            "z": (middle - half, middle + half),
        }
    )
    aside = _has_one(case, OPPOSITE[face], there)
    spec = short_screw(case, OPPOSITE[face], kind.gauge, short_screw(side, face, kind.gauge, SLIDE_SCREW).length)
    screws = (
        *_row(side, face, along, _screw_places(start, far, SCREWS_FROM_ENDS[0], out), middle, spec),
        *_row(case, OPPOSITE[face], along, _screw_places(start, far, SCREWS_FROM_ENDS[aside], out), middle, spec),
    )
    each = exactly(kind.each_side)
    return Item(
        f"drawer slide, {exactly(kind.length)} long, side-mounted",
        "slide",
        (side.id, case.id),
        room,
        screws,
        compare=f"{CHECK}: sold in pairs; it takes {each} at each side and is {exactly(kind.high)} high; its holes",
        source=PRACTICE,
    )


def _screw_places(start: Length, far: Length, away: Length, out: Face) -> tuple[Length, ...]:
    """Where a slide's screws go along it: near both ends and in the middle."""
    inset, aside = inwards(out, away), inwards(out, away - SCREWS_FROM_ENDS[0])
    return start + inset, start + far.portion(2) + aside, start + far - inset


def _row(  # noqa: PLR0917 - a face, a row on it, and the screws
    part: Part, face: Face, along: Axis, places: Sequence[Length], height: Length, spec: Spec
) -> tuple[Fastener, ...]:
    """Screws in a part, those that would miss it left out: a slide may be longer than what it is on."""
    low, high = part.box.low(along), part.box.high(along)
    on_it = [place for place in places if low < place < high]
    return tuple(driven(part, face, {along: place, "z": height}, spec) for place in on_it)
