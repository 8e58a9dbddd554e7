"""Hinges as an author writes them: which door hangs on what; bores, plates and screws follow."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from plankit.build.butts import BUTT, LOOSE_PIN, PIANO, butt_hinges
from plankit.build.hanging import LAPS, Lap, hanging
from plankit.build.hinges import CUP_HINGE, Hung, cup_hinges, given_places, hinge_places
from plankit.errors import PlanError
from plankit.parts import Axis, Part
from plankit.plan.asked import more_than_nothing, not_below_nothing, whole_number
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, single
from plankit.plan.placing import Given
from plankit.units import Length

_SORTS = ("cup", "butt", "loose pin", "piano")
_SIZES: Mapping[str, tuple[str, ...]] = {
    "cup": ("cup", "depth", "tab", "row", "pitch", "crank"),
    "butt": ("long", "leaf", "metal", "pin"),
    "loose pin": ("long", "leaf", "metal", "pin"),
    "piano": ("leaf", "metal", "pin"),
}
"""The sizes of a hinge that an author can give as her own measures."""


class HangingDoors(Bench):
    """The part of a plan that hangs doors, flaps and tilt-out fronts."""

    def hinges(
        self,
        door: PartHandle,
        *,
        on: PartHandle,
        sort: str = "cup",
        count: int | None = None,
        first: Given | None = None,
        at: Sequence[Given] | None = None,
        lap: Lap | None = None,
        **sizes: Given,
    ) -> Hung:
        """Hang a door, a flap or a tilt-out front: `plan.hinges(door, on=side)`.

        on      the side, divider, rail or floor it hangs on: which edge is hung, and whether the door lies inside
                the case or before it, is found from where the two are
        sort    "cup" (concealed, 35 mm), "butt", "loose pin" (a butt hinge that comes apart) or "piano"
        count   how many; by height and weight where it is left out
        first   from the door's ends to the middle of the outer ones; 3 1/2 in where it is left out
        at      instead of both: the middle of each, counted from the door's lower (left) end
        lap     "half overlay" or "full overlay" where you want the other arm than the cover suggests
        sizes   of your hinge, where they differ from common practice: cup, depth, tab, row, pitch and crank of
                a cup hinge; long, leaf, metal and pin of the others
        raises  PlanError where the door cannot be hung there
        """
        one, other = single(door, "the door").part, single(on, "on=").part
        _refuse_words(one.name, sort, lap)
        self._refuse_hung_twice(one)
        places = self._places(one, hanging(one, other, lap).along, count, first, at)
        hung = self._hung(one, other, sort, lap, places, sizes)
        self._items += hung.items
        self.work_on(one.id, hung.in_door)
        self.work_on(other.id, hung.in_on)
        return hung

    def _refuse_hung_twice(self, door: Part) -> None:
        there = next((item for item in self._items if item.kind == "hinge" and item.on[0] == door.id), None)
        if there is not None:
            raise PlanError(
                "it hangs on hinges already.",
                where=door.name,
                given=f"on {self.part(there.on[1]).name}",
                remedy="Hang it once: count= says how many hinges, at= where they are.",
            )

    def _places(
        self, door: Part, along: Axis, count: int | None, first: Given | None, at: Sequence[Given] | None
    ) -> tuple[Length, ...]:
        if at is not None:
            if count is not None or first is not None:
                raise PlanError(
                    "the places of its hinges are given twice.",
                    where=door.name,
                    given="at= with count= or first=",
                    remedy="Give at= alone, or leave it out.",
                )
            if isinstance(at, str) or not isinstance(at, Sequence) or not at:
                raise PlanError(
                    "at: the place of every hinge was expected, in a list.",
                    where=door.name,
                    given=repr(at),
                    remedy='For instance  at=["3", "26"]',
                )
            return given_places(door, along, [self._read(door.name, "at", one) for one in at])
        if count is not None:
            whole_number(count, "count", door.name)
        return hinge_places(
            door, along, count, None if first is None else self._read(door.name, "first", first)
        )

    def _hung(  # noqa: PLR0917 - two parts and how the author wants them hung
        self,
        door: Part,
        on: Part,
        sort: str,
        lap: Lap | None,
        places: tuple[Length, ...],
        sizes: Mapping[str, Given],
    ) -> Hung:
        read = {what: self._size(door.name, sort, what, size) for what, size in sizes.items()}
        if sort == "cup":
            return cup_hinges(door, on, replace(CUP_HINGE, **read), places, lap)  # type: ignore[arg-type]
        kind = {"piano": PIANO, "loose pin": LOOSE_PIN}.get(sort, BUTT)
        return butt_hinges(door, on, replace(kind, **read), places)  # type: ignore[arg-type]

    def _size(self, name: str, sort: str, what: str, size: Given) -> Length:
        if what not in _SIZES[sort]:
            raise PlanError(
                f"a {sort} hinge has no such size.",
                where=name,
                given=f"{what}=",
                remedy=f"Its sizes are: {', '.join(_SIZES[sort])}.",
            )
        read = self._read(name, what, size)
        return not_below_nothing(read, what, name) if what == "crank" else more_than_nothing(read, what, name)


def _refuse_words(name: str, sort: str, lap: Lap | None) -> None:
    for word, given, known in (("sort", sort, _SORTS), ("lap", lap, LAPS)):
        if given is not None and given not in known:
            raise PlanError(
                "there is no such hinge.",
                where=name,
                given=f'{word}="{given}"',
                remedy=f"Write one of: {', '.join(known)}.",
            )
