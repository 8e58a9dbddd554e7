"""Hardware that is bought whole: what to ask for, where it sits, and the screws that hold it."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plankit.build.fasteners import Fastener
from plankit.parts import Box
from plankit.units import Mass

NO_WEIGHT = Mass(Fraction(0))

type ItemKind = Literal[
    "hinge", "shelf pin", "slide", "caster", "levelling foot", "pull", "catch", "stop", "wall fixing", "other"
]


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
    """

    name: str
    kind: ItemKind
    on: tuple[str, ...]
    box: Box
    fasteners: tuple[Fastener, ...] = ()
    mass: Mass = NO_WEIGHT
    compare: str = ""
    source: str = ""
