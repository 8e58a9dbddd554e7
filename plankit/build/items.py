"""Hardware that is bought whole: what to ask for, where it sits, and the screws that hold it."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plankit.build.fasteners import Fastener
from plankit.parts import Box
from plankit.units import Length, Mass, largest

NO_WEIGHT = Mass(Fraction(0))

type ItemKind = Literal[
    "hinge", "shelf pin", "slide", "caster", "levelling foot", "pull", "catch", "stop", "wall fixing", "other"
]


@dataclass(frozen=True, slots=True)
class Leaves:
    """The two plain leaves of a hinge, as they lie between a door's edge and what it hangs on.

    metal     how thick a leaf is
    shut      how thick the hinge is at its leaves when shut as far as it goes of itself: its knuckle
    in_door   how deep a leaf is let into the door's edge; nothing where it lies on it
    in_on     how deep the other is let into what the door hangs on
    """

    metal: Length
    shut: Length
    in_door: Length
    in_on: Length

    @property
    def gap(self) -> Length:
        """What a hinge that shuts parallel leaves between the two: its thickness shut, less what is let in."""
        return self.shut - self.in_door - self.in_on

    @property
    def least_gap(self) -> Length:
        """The least gap that they lie in without binding, leaf on leaf."""
        return largest(self.metal * 2 - self.in_door - self.in_on, Length.zero())

    @property
    def let_in(self) -> bool:
        """Whether either leaf is let in."""
        return bool(self.in_door.mm or self.in_on.mm)


@dataclass(frozen=True, slots=True)
class Item:
    """One piece of hardware in its place.

    name        what to ask for in the store: "35 mm cup hinge, full overlay"
    kind        what sort of thing it is
    on          ids of the parts it is fixed to; of a hinge the moving part first
    box         the space it takes in the build, shut
    fasteners   its own screws; their head sits in the item, so `through` is the part they are driven at first
    mass        what it weighs; nothing where nobody knows
    compare     what a reader must compare with the thing she bought: "check against your hinge"; "" for nothing
    source      where its sizes come from: a table, or "common practice"
    leaves      of a butt or piano hinge, how its leaves lie; None for anything else
    """

    name: str
    kind: ItemKind
    on: tuple[str, ...]
    box: Box
    fasteners: tuple[Fastener, ...] = ()
    mass: Mass = NO_WEIGHT
    compare: str = ""
    source: str = ""
    leaves: Leaves | None = None
