"""The build: every part, every joint, and what is only there to be fitted round."""

from collections import Counter
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.build.fasteners import Fastener, Spec
from plankit.build.items import NO_WEIGHT, Item
from plankit.build.joints import Joint, all_fasteners
from plankit.build.moving import Moving
from plankit.build.seated import Seated
from plankit.build.surroundings import Surrounding
from plankit.build.wall import Wall
from plankit.parts import Box, Part, Shape, box_of, has_hand, mirror_shape, shape, weight
from plankit.units import Mass, smallest

STANDS = frozenset({"caster", "levelling foot"})
"""Hardware that a piece stands on."""


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that is not made but must fit: boots, a basket, a niche; `mass` is what it weighs, filled."""

    name: str
    box: Box
    mass: Mass = NO_WEIGHT


@dataclass(frozen=True, slots=True)
class Assembly:
    """Parts that are joined and then carried as one."""

    name: str
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Build:
    """One piece of furniture: its parts, joints, things to fit round, and assemblies.

    items   hardware bought whole, where it sits
    moving  what turns or slides
    order   ids of the parts that each step brings, in the order of the steps; empty where no step is told yet
    surroundings  where the finished piece goes: its niche, the doorways on its way there
    seated  who sits at it
    wall    what it hangs on, and the screws into that; None where it stands on the floor
    """

    name: str
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...] = ()
    things: tuple[Thing, ...] = ()
    assemblies: tuple[Assembly, ...] = ()
    items: tuple[Item, ...] = ()
    moving: tuple[Moving, ...] = ()
    order: tuple[tuple[str, ...], ...] = ()
    surroundings: tuple[Surrounding, ...] = ()
    wall: Wall | None = None
    seated: tuple[Seated, ...] = ()

    def __hash__(self) -> int:
        """Tell builds apart by what is in them; cheaply, since drawings and checks are remembered by their build."""
        return hash((self.name, tuple(part.id for part in self.parts), len(self.joints), len(self.items), self.order))

    def part(self, part_id: str) -> Part:
        """Return the part with this id; raises KeyError where there is none."""
        for part in self.parts:
            if part.id == part_id:
                return part
        raise KeyError(part_id)

    @property
    def box(self) -> Box:
        """The smallest box around every part, down to what it stands on: casters and feet count in its height."""
        first, *others = (box_of(part) for part in self.parts)
        whole = first.around(*others)
        lows = [item.box.bottom for item in self.items if item.kind in STANDS]
        return replace(whole, bottom=smallest(whole.bottom, *lows)) if lows else whole

    @property
    def weight(self) -> Mass:
        """What all parts weigh together, hardware and finish left out."""
        return weight_of(self.parts)

    @property
    def fasteners(self) -> tuple[Fastener, ...]:
        """Every screw and brad, those of the hardware included."""
        return (*all_fasteners(self.joints), *(fastener for item in self.items for fastener in item.fasteners))


@dataclass(frozen=True, slots=True)
class Alike:
    """Parts that can be swapped for one another, under one label.

    label   A, B, C … in the order in which the author made them
    parts   the parts, their own hand first
    other   of these, the ones that are mirror images, where that makes a difference
    """

    label: str
    parts: tuple[Part, ...]
    other: tuple[Part, ...] = ()

    @property
    def first(self) -> Part:
        """The part that is drawn for all of them."""
        return self.parts[0]

    @property
    def name(self) -> str:
        """What its parts are called: "Side / Divider" where equal parts have several names."""
        return " / ".join(dict.fromkeys(part.name for part in (*self.parts, *self.other)))

    @property
    def count(self) -> int:
        """How many there are, both hands together."""
        return len(self.parts) + len(self.other)


def weight_of(parts: tuple[Part, ...]) -> Mass:
    """Return what several parts weigh together."""
    return sum((weight(part) for part in parts), Mass(Fraction(0)))


def alike(build: Build) -> tuple[Alike, ...]:
    """Return the parts grouped by shape: mirror images under one label, their hands told apart."""
    groups: dict[Shape, list[Part]] = {}
    others: dict[Shape, list[Part]] = {}
    for part in build.parts:
        own, mirrored = shape(part), mirror_shape(part)
        if own in groups:
            groups[own].append(part)
        elif mirrored in groups and has_hand(part):
            others.setdefault(mirrored, []).append(part)
        else:
            groups[own] = [part]
    return tuple(
        Alike(letter(number), tuple(parts), tuple(others.get(key, ())))
        for number, (key, parts) in enumerate(groups.items())
    )


def letter(number: int) -> str:
    """Return the label of the n-th kind of part: A to Z but I and O (read as digits), then AA and on."""
    letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    text = ""
    number += 1
    while number:
        number, index = divmod(number - 1, len(letters))
        text = letters[index] + text
    return text


def hardware(build: Build) -> tuple[tuple[Spec, int], ...]:
    """Return how many of each screw and brad the joints need: by kind, then gauge, then length."""
    found = Counter(_order(fastener.spec) for fastener in build.fasteners)
    specs = {_order(fastener.spec): fastener.spec for fastener in build.fasteners}
    return tuple((specs[key], found[key]) for key in sorted(found))


def _order(spec: Spec) -> tuple[str, int, Fraction, Fraction]:
    return spec.kind, spec.gauge or 0, spec.length.mm, spec.diameter.mm
