"""Hinges as an author writes them: which door hangs on what; bores, plates and screws follow."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from plankit.build.butts import BUTT, LOOSE_PIN, PIANO, Recess, RecessIn, butt_hinges
from plankit.build.hanging import LAPS, Lap, hanging, leaf_hanging
from plankit.build.hinges import CUP_HINGE, Hung, cup_hinges, given_places, hinge_places
from plankit.errors import PlanError
from plankit.parts import Axis, Face, Part
from plankit.plan.asked import known_face, more_than_nothing, not_below_nothing, whole_number
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, single
from plankit.plan.opened import outside_of
from plankit.plan.placing import Given
from plankit.units import Length

_SORTS = ("cup", "butt", "loose pin", "piano")
_SIZES: Mapping[str, tuple[str, ...]] = {
    "cup": ("cup", "depth", "tab", "row", "pitch", "crank"),
    "butt": ("long", "leaf", "metal", "pin", "shut"),
    "loose pin": ("long", "leaf", "metal", "pin", "shut"),
    "piano": ("leaf", "metal", "pin", "shut"),
}
"""The sizes of a hinge that an author can give as her own measures."""
_RECESS_IN: tuple[RecessIn, ...] = ("both", "door", "case")


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
        recess: Given | None = None,
        recess_in: RecessIn = "both",
        towards: Face | None = None,
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
        recess  let plain leaves into the wood: "gap" so deep that the gap stays as it is, (knuckle − gap) / 2 in
                each part; "leaf" by a leaf's thickness; or a depth. On the faces where it is left out
        recess_in  "both", or all of it in the "door", or in the "case" (what it hangs on)
        towards the face of the door that leads as it opens; found from where it lies, away from the piece, where it is
                left out
        sizes   of your hinge, where they differ from common practice: cup, depth, tab, row, pitch and crank of
                a cup hinge; long, leaf, metal, pin and shut (its thickness at the leaves, shut) of the others
        raises  PlanError where the door cannot be hung there
        """
        one, other = single(door, "the door").part, single(on, "on=").part
        _refuse_words(one.name, sort, lap, recess_in)
        deep = self._recess(one.name, sort, recess)
        self._refuse_hung_twice(one)
        out = self._leading(one, other, towards)
        found = hanging(one, other, lap, out) if sort == "cup" else leaf_hanging(one, other, out)
        places = self._places(one, found.along, count, first, at)
        hung = self._hung(one, other, (sort, lap), places, (deep, recess_in, out), sizes)
        self._items += hung.items
        self.join_work(one.id, hung.in_door)
        self.join_work(other.id, hung.in_on)
        return hung

    def _leading(self, door: Part, on: Part, towards: Face | None) -> Face | None:
        """The face that leads as it opens; the one away from the piece where two lie in one plane."""
        if towards is not None:
            known_face(towards, door.name)
            return towards
        axis = door.through
        level = (door.box.low(axis), door.box.high(axis)) == (on.box.low(axis), on.box.high(axis))
        return outside_of(door, list(self._parts.values())) if level and axis != "z" else None

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
        how: tuple[str, Lap | None],
        places: tuple[Length, ...],
        let_in: tuple[Recess, RecessIn, Face | None],
        sizes: Mapping[str, Given],
    ) -> Hung:
        sort, lap = how
        read = {what: self._size(door.name, sort, what, size) for what, size in sizes.items()}
        if sort == "cup":
            return cup_hinges(door, on, replace(CUP_HINGE, **read), places, lap, let_in[2])  # type: ignore[arg-type]
        kind = {"piano": PIANO, "loose pin": LOOSE_PIN}.get(sort, BUTT)
        return butt_hinges(door, on, replace(kind, **read), places, *let_in)  # type: ignore[arg-type]

    def _recess(self, name: str, sort: str, recess: Given | None) -> Recess:
        if recess is None or recess in {"gap", "leaf"}:
            deep: Recess = recess  # type: ignore[assignment]
        else:
            deep = more_than_nothing(self._read(name, "recess", recess), "recess", name)
        if deep is not None and sort == "cup":
            raise PlanError(
                "a cup hinge is bored in, not let in.",
                where=name,
                given="recess=",
                remedy='Leave recess= out, or hang it on plain leaves: sort="butt".',
            )
        return deep

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


def _refuse_words(name: str, sort: str, lap: Lap | None, recess_in: RecessIn) -> None:
    for word, given, known in (("sort", sort, _SORTS), ("lap", lap, LAPS), ("recess_in", recess_in, _RECESS_IN)):
        if given is not None and given not in known:
            raise PlanError(
                "there is no such hinge.",
                where=name,
                given=f'{word}="{given}"',
                remedy=f"Write one of: {', '.join(known)}.",
            )
