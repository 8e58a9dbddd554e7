"""One fastener with all that a check needs to know about where it goes."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build, Fastener, bite
from plankit.checks.wood import room, where_it_enters
from plankit.checks.wording import spot
from plankit.parts import AXIS_OF, Box, Part, Point
from plankit.units import Length, Notation


@dataclass(frozen=True, slots=True)
class Driven:
    """A fastener with the two parts it joins, where it enters the second, and how much lies in each.

    whole  the box around the whole build, to say places from
    slant  length along the fastener for each length square to the joint: 1, or more for a pocket screw
    """

    fastener: Fastener
    through: Part
    into: Part
    entry: Point
    whole: Box
    slant: Fraction

    @property
    def name(self) -> str:
        """What the fastener is called."""
        return self.fastener.spec.name

    @property
    def held(self) -> Length:
        """How much of its own length lies in the second part; below nothing where it falls short."""
        return Length.of_mm(bite(self.fastener, self.into).mm * self.slant)

    @property
    def first(self) -> Length:
        """How much of its length lies in the part it goes through."""
        return Length.of_mm(self.fastener.spec.length.mm - self.held.mm)

    @property
    def at_most(self) -> Length:
        """How much of a fastener of any length could lie in the second part."""
        return Length.of_mm(room(self.into, self.entry, self.fastener.heading).mm * self.slant)

    def place(self, notation: Notation) -> str:
        """Say where its head is."""
        return spot(self.fastener.head, self.whole, notation)


def all_driven(build: Build) -> Iterator[Driven]:
    """Yield every fastener of a build with its parts."""
    parts = {part.id: part for part in build.parts}
    whole = build.box
    for fastener in build.fasteners:
        into = parts[fastener.into]
        entry = where_it_enters(into, fastener.heading, fastener.head, fastener.tip)
        axis = AXIS_OF[fastener.heading]
        straight = abs(fastener.tip.along(axis).mm - fastener.head.along(axis).mm)
        slant = fastener.spec.length.mm / straight
        yield Driven(fastener, parts[fastener.through], into, entry, whole, slant)
