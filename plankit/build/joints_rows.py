"""Where fasteners stand in a row: how many, how far apart, how far from the ends."""

from dataclasses import dataclass, replace
from typing import Self

from plankit.errors import PlanError
from plankit.units import L, Length, told

END_DISTANCE = L("2 in")
"""From a screw in a row to the end of the joint, where there is room (common practice)."""
NARROW = L("1 9/16 in")
"""Ends up to this wide take one pocket hole, with glue: two would split them (common practice)."""
SCREW_SPACING = L("8 in")
"""Face screws stand at most so far apart (common practice)."""
LEAST_APART = L("3/8 in")
"""No two in a row stand closer: the holes of the smallest would meet (geometry: a pocket is 3/8 in wide)."""


@dataclass(frozen=True, slots=True)
class Row:
    """How fasteners stand in a row along a joint.

    count    how many; as many as `spacing` asks for where it is None
    spacing  at most so far apart, where `count` is None
    inset    from each end of the joint to the outermost; `margin`, where there is room, if None
    margin   what the outermost keep from the ends where the author says nothing
    shift    moves them all so far along the row, to the right, back or up; the other way below nothing
    """

    spacing: Length
    count: int | None = None
    inset: Length | None = None
    margin: Length = END_DISTANCE
    shift: Length | None = None

    def places(self, low: Length, high: Length, least: int, name: str) -> tuple[Length, ...]:
        """Return the places in a row between two ends, at least so many where no count is given.

        name    the part that is fastened, for an error
        raises  PlanError where there would be none, or too many for the joint, where the insets meet, or where they
                are shifted off the joint
        """
        start, end, margin = low, high, self.margin
        if self.inset is not None:
            start, end = _inset(name, low, high, self.inset)
            margin = Length.zero()
        if self.count is None:
            found = in_a_row(start, end, self.spacing, least, margin)
        else:
            found = exactly(start, end, self.count, margin)
            refuse_crowded(found, name)
        return found if self.shift is None else self._shifted(found, low, high, name)

    def _shifted(self, found: tuple[Length, ...], low: Length, high: Length, name: str) -> tuple[Length, ...]:
        assert self.shift is not None
        moved = tuple(place + self.shift for place in found)
        if moved[0] <= low or moved[-1] >= high:
            raise PlanError(
                "the shift moves a hole off the joint.",
                where=name,
                given=f"shift of {told(self.shift)} in a joint {told(high - low)} long",
                remedy="Shift them less.",
            )
        return moved

    def at_most(self, spacing: Length | None) -> Self:
        """Return the row with its fasteners no further apart than this, where it is given."""
        return self if spacing is None else replace(self, spacing=spacing)


def in_a_row(low: Length, high: Length, spacing: Length, least: int, margin: Length) -> tuple[Length, ...]:
    """Return evenly spaced places between two ends: as few as `spacing` allows, at least `least`.

    The outermost stand `margin` in from the ends, or a quarter of the way where there is less room.
    """
    room = high - low
    if least == 1 and room <= NARROW:
        return ((low + high).portion(2),)
    from_end = _from_end(room, margin)
    inner = room - from_end * 2
    gaps = max(least - 1, -(-inner // spacing))
    if gaps == 0:
        return ((low + high).portion(2),)
    return tuple(low + from_end + inner.portion(gaps) * step for step in range(gaps + 1))


def _from_end(room: Length, margin: Length) -> Length:
    return margin if room >= margin * 4 else room.portion(4)


def exactly(low: Length, high: Length, count: int, margin: Length) -> tuple[Length, ...]:
    """Return so many evenly spaced places between two ends; one stands in the middle.

    raises  PlanError where there would be none
    """
    if count < 1:
        raise PlanError(
            "a joint cannot be held by no screws.", given=str(count), remedy="Ask for 1 or more, or glue it."
        )
    if count == 1:
        return ((low + high).portion(2),)
    from_end = _from_end(high - low, margin)
    inner = high - low - from_end * 2
    return tuple(low + from_end + inner.portion(count - 1) * step for step in range(count))


def refuse_crowded(places: tuple[Length, ...], name: str) -> None:
    """Refuse a row whose holes would run into one another.

    raises  PlanError with how many there is room for
    """
    if len(places) < 2 or (places[1] - places[0]).mm >= LEAST_APART.mm:
        return
    long = places[-1] - places[0]
    raise PlanError(
        "there is no room for so many: their holes would run into one another.",
        where=name,
        given=f"{len(places)} in {told(long)}",
        remedy=f"Ask for {int(long.mm // LEAST_APART.mm) + 1} or fewer.",
    )


def _inset(name: str, low: Length, high: Length, inset: Length) -> tuple[Length, Length]:
    if inset <= Length.zero() or low + inset >= high - inset:
        raise PlanError(
            "the outermost screws would lie beyond each other, or beyond the joint.",
            where=name,
            given=f"{told(inset)} in from each end of a joint {told(high - low)} long",
            remedy="Keep them nearer to the ends, or drive one.",
        )
    return low + inset, high - inset
