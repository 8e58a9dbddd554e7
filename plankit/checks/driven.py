"""One fastener with all that a check needs to know about where it goes."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build, Fastener, bite
from plankit.build.leaning import Passage, passage
from plankit.checks.wood import in_a_cut, room, where_it_enters, where_it_leaves
from plankit.checks.wording import a_or_an, spot
from plankit.parts import AXIS_OF, Box, Part, Point
from plankit.units import Length, Notation


@dataclass(frozen=True, slots=True)
class Driven:
    """A fastener with the two parts it joins, where it enters the second, and how much lies in each.

    before where it leaves the first part; elsewhere than `entry` where it crosses a notch or a groove between
    held   how much of its own length lies in the second part; below nothing where it falls short
    whole  the box around the whole build, to say places from
    slant  length along the fastener for each length square to the joint: 1, or more for a pocket screw
    of     the hardware it belongs to; "" where it belongs to a joint
    leans  whether the second part leans otherwise than the fastener does
    passes how it passes that part then; None where it passes beside it
    joint  the kind of joint it belongs to; "" for hardware's own screws
    """

    fastener: Fastener
    through: Part
    into: Part
    before: Point
    entry: Point
    held: Length
    whole: Box
    slant: Fraction
    of: str = ""
    leans: bool = False
    passes: Passage | None = None
    joint: str = ""

    @property
    def subject(self) -> str:
        """What a sentence about it begins with: "A #8 × 2 in wood screw through Side", "… of the caster on Bottom"."""
        if self.of:
            return f"{self.a_name} of the {self.of} on {self.through.name}"
        if self.joint == "buttons":
            return f"{self.a_name} through a button on {self.through.name}"
        return f"{self.a_name} through {self.through.name}"

    @property
    def name(self) -> str:
        """What the fastener is called."""
        return self.fastener.spec.name

    @property
    def a_name(self) -> str:
        """What the fastener is called, as a sentence begins with it: "A #8 × 2 in wood screw", "An 18-gauge …"."""
        return a_or_an(self.name, begins=True)

    @property
    def first(self) -> Length:
        """How much of its length lies in the part it goes through."""
        if self.passes is not None:
            share = min(1.0, self.passes.enter)
            return Length.of_mm(self.fastener.spec.length.mm * Fraction(round(share * _STEP), _STEP))
        return Length.of_mm(self.fastener.spec.length.mm - self.held.mm)

    @property
    def at_most(self) -> Length:
        """How much of a fastener of any length could lie in the second part."""
        if self.leans:
            share = max(0.0, self.passes.leave - self.passes.enter) if self.passes else 0.0
            return Length.of_mm(self.fastener.spec.length.mm * Fraction(round(share * _STEP), _STEP))
        return Length.of_mm(room(self.into, self.entry, self.fastener.heading).mm * self.slant)

    @property
    def in_end_grain(self) -> bool:
        """Whether it is driven lengthwise into the second part, or into an end of it that is sawn at a slant."""
        if self.leans:
            return self.passes is not None and AXIS_OF[self.passes.by] == self.into.grain
        return AXIS_OF[self.fastener.heading] == self.into.grain

    @property
    def crosses_air(self) -> bool:
        """Whether it passes through a notch or a groove before it comes to the wood of the second part."""
        return not self.leans and in_a_cut(self.into, self.before, self.entry) is not None

    def place(self, notation: Notation) -> str:
        """Say where its head is."""
        return spot(self.fastener.head, self.whole, notation)


_STEP = 10**6


def _with_owners(build: Build) -> Iterator[tuple[Fastener, str, str]]:
    """Every fastener of a build with the plain name of the hardware it belongs to, and its kind of joint."""
    for joint in build.joints:
        yield from ((fastener, "", joint.kind) for fastener in joint.fasteners)
    for item in build.items:
        yield from ((fastener, item.name.partition(",")[0], "") for fastener in item.fasteners)


def all_driven(build: Build) -> Iterator[Driven]:
    """Yield every fastener of a build with its parts."""
    parts = {part.id: part for part in build.parts}
    whole = build.box
    for fastener, of, joint in _with_owners(build):
        into = parts[fastener.into]
        entry = where_it_enters(into, fastener.heading, fastener.head, fastener.tip)
        axis = AXIS_OF[fastener.heading]
        before = where_it_leaves(parts[fastener.through], into, fastener)
        straight = abs(fastener.tip.along(axis).mm - fastener.head.along(axis).mm)
        slant = fastener.spec.length.mm / straight
        held = Length.of_mm(bite(fastener, into).mm * slant)
        leans = fastener.leans != into.leans
        passes = passage(fastener.head.mm(), fastener.tip.mm(), fastener.leans, into) if leans else None
        yield Driven(
            fastener, parts[fastener.through], into, before, entry, held, whole, slant, of, leans, passes, joint
        )
