"""Plain hardware as an author writes it: shelf pins, casters and feet, pulls, catches, brackets."""

from dataclasses import replace

from plankit.build import Item
from plankit.build.brackets import BRACKET, bracket, edge_between, restraint
from plankit.build.fittings import (
    CASTER,
    CATCH,
    KNOB,
    LEVELLING_FOOT,
    PULL,
    Fitted,
    casters,
    catch,
    corners,
    levelling_feet,
    middle_below,
    pull,
)
from plankit.build.hanging import hanging
from plankit.build.joints_rows import exactly as evenly
from plankit.build.wall import STUD_SPACINGS
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, FACES, HIGH, Axis, Face, Part, Point
from plankit.plan.asked import known_face, more_than_nothing, not_below_nothing, two_sizes, whole_number
from plankit.plan.doors import SizingDoors
from plankit.plan.handles import PartHandle, Parts, flat, single, some
from plankit.plan.hanging import HangingDoors
from plankit.plan.jupyter import Put
from plankit.plan.pins import BoringPins
from plankit.plan.placing import RUNS, Given
from plankit.units import Length

type Pair = Given | tuple[Given, Given]


class Fitting(SizingDoors, HangingDoors, BoringPins):
    """The part of a plan that fits hardware."""

    def casters(
        self, under: PartHandle, *, set_in: Pair = 0, plate: tuple[Given, Given] | None = None, **sizes: Given
    ) -> Put:
        """Screw four casters under a part, near its corners: `plan.casters(floor, set_in="1/2", height="3")`.

        set_in  how far what turns stands in from the sides and from front and back; a pair where they differ
        plate   the plate, from left to right and from front to back
        sizes   of yours, where they differ from common practice: height, swing
        """
        part = single(under, "casters").part
        _refuse_leaning(part, "casters")
        read = self._sizes(part.name, sizes, ("height", "swing"))
        kind = replace(CASTER, **read)  # type: ignore[arg-type]
        if plate is not None:
            wide, deep = (self._more(part.name, "plate", one) for one in two_sizes(part.name, "plate", plate))
            rim = CASTER.plate[0] - CASTER.holes[0]
            kind = replace(kind, plate=(wide, deep), holes=(wide - rim, deep - rim))
        away = self._pair(part.name, "set_in", set_in)
        return self._fit(casters(part, corners(part, away, (kind.reach(0), kind.reach(1))), kind))

    def levelling_feet(self, under: Parts, *, set_in: Pair | None = None, **sizes: Given) -> Put:
        """Fit levelling feet: one in the middle under each part, or four near a panel's corners with `set_in`.

        sizes  of yours, where they differ from common practice: height (as drawn), pad, bore and depth of the insert
        """
        made: list[Item] = []
        for one in some(under, "the parts"):
            part = one.part
            _refuse_leaning(part, "a levelling foot")
            kind = replace(
                LEVELLING_FOOT, **self._sizes(part.name, sizes, ("height", "pad", "bore", "depth"))
            )
            half = kind.pad.portion(2)
            if set_in is None:
                spots: tuple[Point, ...] = (middle_below(part),)
            else:
                spots = corners(part, self._pair(part.name, "set_in", set_in), (half, half))
            made += self._fit(levelling_feet(part, spots, kind))
        return Put(made)

    def pull(
        self,
        front: Parts,
        *,
        centers: Given | None = "3",
        runs: str = "left-right",
        face: Face = "front",
        **places: Given,
    ) -> Put:
        """Put a pull on doors or fronts: `plan.pull(door, runs="up", right="1 1/2", top="4")`; no `centers` for a knob.

        centers  from screw to screw
        places   of its middle: distances from the front's faces; in the middle where none is given
        """
        made: list[Item] = []
        for one in flat(front):
            part = one.part
            known_face(face, part.name)
            kind = KNOB
            if centers is not None:
                kind = replace(PULL, centres=self._more(part.name, "centers", centers))
            if runs not in RUNS:
                raise PlanError("a pull lies one of three ways.", where=part.name, given=f'runs="{runs}"',
                                remedy=f"Write one of: {', '.join(RUNS)}.")  # fmt: skip
            made += self._fit(pull(part, face, self._spot(part, face, places), RUNS[runs], kind))
        return Put(made)

    def catch(
        self, door: PartHandle, *, on: PartHandle, at: Given | None = None, **sizes: Given
    ) -> Put:
        """Put a magnetic catch behind a door's free edge, screwed to a side, a rail or a shelf.

        at     its middle, counted from the door's lower (left) end; the middle of the door where it is left out
        sizes  of yours, where they differ from common practice: long, high, deep
        """
        one, other = single(door, "the door").part, single(on, "on=").part
        self._refuse_caught_at_hinges(one, other)
        along = hanging(one, other).along
        middle = one.box.middle(along) if at is None else one.box.low(along) + self._read(one.name, "at", at)
        return self._fit(
            catch(
                one, other, middle, replace(CATCH, **self._sizes(one.name, sizes, ("long", "high", "deep")))
            )
        )

    def _refuse_caught_at_hinges(self, door: Part, on: Part) -> None:
        if any(item.kind == "hinge" and item.on == (door.id, on.id) for item in self._items):
            raise PlanError(
                f"its hinges are on {on.name}: a catch holds nothing there.",
                where=door.name,
                given=f"on={on.id}",
                remedy="Put it behind the free edge: on the part across from the hinges, or on a shelf or a rail.",
            )

    def bracket(
        self, part: PartHandle, *, to: PartHandle, face: Face, at: Given | None = None, **sizes: Given
    ) -> Put:
        """Put an angle bracket in the corner that a face of a part makes with the part it meets.

        at     its middle along that corner, counted in the piece; the middle of the corner where it is left out
        sizes  of yours: leg, wide
        """
        one, other = single(part, "the part").part, single(to, "to=").part
        known_face(face, one.name)
        read = self._sizes(one.name, sizes, ("leg", "wide"))
        kind = replace(BRACKET, **read)  # type: ignore[arg-type]
        return self._fit(
            bracket(one, other, face, None if at is None else self._read(one.name, "at", at), kind)
        )

    def restraint(
        self,
        part: PartHandle,
        *,
        face: Face = "top",
        wall: Face = "back",
        count: int = 2,
        from_ends: Given = "4",
        at_studs: bool = False,
    ) -> Put:
        """Tie a piece to the wall with anti-tip brackets along an edge of a part.

        face       the face that a bracket's one leg is screwed to; its other leg goes to the wall
        wall       the face of the part that stands against the wall
        from_ends  from the part's ends to the outer brackets
        at_studs   whether they go where the wall has studs: two are counted and drawn 16 in apart, or at `from_ends`
                   on a shorter part, no holes are bored ahead, and readers are told to find the studs
        """
        one = single(part, "the part").part
        known_face(face, one.name)
        known_face(wall, one.name)
        row = edge_between(one, wall, face)
        away = self._read(one.name, "from_ends", from_ends)
        low, high = one.box.low(row) + away, one.box.high(row) - away
        many = whole_number(count, "count", one.name)
        if at_studs:
            low, high = _studs(one, row, (low, high), many)
        places = evenly(low, high, many, Length.zero())
        made: list[Item] = []
        for place in places:
            made += self._fit(restraint(self.part(one.id), wall, face, place, BRACKET, studs=at_studs))
        return Put(made)

    def _fit(self, fitted: Fitted) -> Put:
        self._items += fitted.items
        for part_id, features in fitted.bored:
            self.join_work(part_id, features)
        return Put(fitted.items)

    def _more(self, name: str, what: str, value: Given) -> Length:
        return more_than_nothing(self._read(name, what, value), what, name)

    def _sizes(self, name: str, sizes: dict[str, Given], known: tuple[str, ...]) -> dict[str, Length]:
        unknown = [one for one in sizes if one not in known]
        if unknown:
            raise PlanError(
                "it has no such size.",
                where=name,
                given=", ".join(f"{one}=" for one in unknown),
                remedy=f"Its sizes are: {', '.join(known)}.",
            )
        return {what: self._more(name, what, size) for what, size in sizes.items()}

    def _pair(self, name: str, what: str, pair: Pair) -> tuple[Length, Length]:
        two = pair if isinstance(pair, tuple) else (pair, pair)
        if len(two) != 2:
            raise PlanError(
                f"{what}: one length was expected, or two: from the sides, and from front and back.",
                where=name,
                given=repr(pair),
                remedy=f'For instance  {what}=("1", "1/2")',
            )
        sideways, deep = (not_below_nothing(self._read(name, what, one), what, name) for one in two)
        return sideways, deep

    def _spot(self, part: Part, face: Face, places: dict[str, Given]) -> Point:
        """A place on a face by its distances from faces beside it; in the middle where none is given."""
        found: dict[Axis, Length] = {axis: part.box.middle(axis) for axis in ("x", "y", "z")}
        found[AXIS_OF[face]] = part.box.face(face)
        for named, away in places.items():
            if named not in FACES or AXIS_OF[named] == AXIS_OF[face]:
                raise PlanError(
                    "a place is counted from a face beside the one it lies on.",
                    where=part.name,
                    given=f"{named}=",
                    remedy=f"Use {', '.join(f for f in FACES if AXIS_OF[f] != AXIS_OF[face])}.",
                )
            far = self._read(part.name, named, away)
            edge = part.box.face(named)
            found[AXIS_OF[named]] = edge - far if named == HIGH[AXIS_OF[named]] else edge + far
        return Point(found["x"], found["y"], found["z"])


def _refuse_leaning(part: Part, what: str) -> None:
    if part.leans:
        raise PlanError(
            f"it leans, and {what} stands square under what it is fixed to.",
            where=part.name,
            remedy="Fix it under a part that stands upright, or let the legs stand on their own sawn ends.",
        )


def _studs(part: Part, row: Axis, ends: tuple[Length, Length], count: int) -> tuple[Length, Length]:
    """Where the outer brackets are drawn that go to studs: in the middle of a part, as far apart as studs stand."""
    half = (STUD_SPACINGS[0] * (count - 1)).portion(2)
    middle = part.box.middle(row)
    low, high = middle - half, middle + half
    return ends if low < ends[0] or high > ends[1] else (low, high)
