"""Butt and piano hinges: two plain leaves round a pin, in the gap between a door's edge and what it hangs on."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from plankit.build.fasteners import Fastener
from plankit.build.hanging import Hanging, front_word, leaf_hanging, pivot_at
from plankit.build.hinges import CHECK, PRACTICE, Hung, hinge_places
from plankit.build.items import Item, Leaves
from plankit.build.joints_rows import in_a_row
from plankit.build.mounting import between, driven, into_face, inwards, lead_hole, short_screw
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, HINGE_LEAF, Box, Face, Feature, Groove, Part
from plankit.units import L, Length, exactly, largest, smallest, told

type Recess = Literal["gap", "leaf"] | Length | None
"""How deep leaves are let in: so that the gap stays as it is, by a leaf's thickness, so deep, or not at all."""
type RecessIn = Literal["both", "door", "case"]

SCREWS_APART = L("2 in")
"""Screws in a leaf stand at most so far apart (common practice)."""
SCREW_FROM_END = L("3/8 in")
"""From a leaf's end to its first screw (common practice)."""


@dataclass(frozen=True, slots=True)
class ButtHinge:
    """A plain hinge by its sizes.

    long       along the pin; the whole edge of the door for a piano hinge, where it is None
    leaf       how wide one leaf is, from the pin's middle
    metal      how thick a leaf is
    pin        across the knuckle
    gauge      of its screws
    loose      whether its pin slides out, so that each leaf can be screwed on by itself
    shut       how thick it is at its leaves when they lie parallel; its knuckle where it is None
    """

    long: Length | None
    leaf: Length
    metal: Length
    pin: Length
    gauge: int
    loose: bool = False
    shut: Length | None = None

    @property
    def closed(self) -> Length:
        """How thick it is at its leaves, shut."""
        return self.pin if self.shut is None else self.shut


BUTT = ButtHinge(long=L("2 in"), leaf=L("5/8 in"), metal=L("1/32 in"), pin=L("3/16 in"), gauge=6)
"""A butt hinge of a usual size for furniture (common practice)."""
LOOSE_PIN = replace(BUTT, loose=True)
"""The same with a pin that slides out (common practice)."""
PIANO = ButtHinge(long=None, leaf=L("1/2 in"), metal=L("1/32 in"), pin=L("1/8 in"), gauge=4)
"""A continuous hinge of the usual small size (common practice)."""


def butt_hinges(  # noqa: PLR0917 - two parts, a hinge, and how it is let in
    door: Part,
    on: Part,
    hinge: ButtHinge = BUTT,
    places: Sequence[Length] | None = None,
    recess: Recess = None,
    recess_in: RecessIn = "both",
    out: Face | None = None,
) -> Hung:
    """Return a door, flap or tilt-out front on butt hinges, both leaves in the gap beside its hung edge.

    The pin's middle is the axis: midway between the two leaves, and half a knuckle before the door's outer face.

    recess     how deep its leaves are let into the wood; "gap" for (knuckle − gap) / 2 each, which leaves the gap
               as it is (common practice), "leaf" for a leaf's thickness
    recess_in  "both", or all of it in the "door" or in the "case", what it hangs on
    out        the face that leads as it opens, where it lies in one plane with what it hangs on
    raises     PlanError where the door stands before what it hangs on, its edge is narrower than a leaf, or a
               recess leaves nothing
    """
    found = leaf_hanging(door, on, out)
    _refuse(door, on, hinge, found)
    leaves = leaves_of(hinge, -found.cover, recess, recess_in, door.name)
    _refuse_deep(door, on, found, leaves)
    if hinge.long is None:
        spots: tuple[Length, ...] = (door.box.middle(found.along),)
    else:
        spots = hinge_places(door, found.along) if places is None else tuple(places)
    pairs = [_screws(door, on, hinge, found, spot, leaves) for spot in spots]
    items = tuple(
        _item(door, on, hinge, found, spot, (*in_door, *in_on), leaves)
        for spot, (in_door, in_on) in zip(spots, pairs, strict=True)
    )
    recesses = tuple(_recess(door, door, hinge, found, spot, found.edge, leaves.in_door) for spot in spots)
    others = tuple(_recess(on, door, hinge, found, spot, found.beside, leaves.in_on) for spot in spots)
    in_door = (*_cut(recesses), *_leads(door, [one for pair in pairs for one in pair[0]], leaves.in_door))
    in_on = (*_cut(others), *_leads(on, [one for pair in pairs for one in pair[1]], leaves.in_on))
    beyond = (-found.cover - leaves.in_door + leaves.in_on).portion(2)
    return Hung(found, spots, items, in_door, in_on, pivot_at(door, found, beyond, hinge.pin.portion(2)), leaves)


def leaves_of(hinge: ButtHinge, gap: Length, recess: Recess, recess_in: RecessIn, name: str) -> Leaves:
    """Return how deep a hinge's leaves are let in beside a gap.

    source  the gap left is the hinge's thickness shut, its knuckle, less both recesses (common practice)
    raises  PlanError where the gap is as wide as the hinge is thick, so that nothing is left to let in
    """
    nothing = Length.zero()
    if recess is None:
        return Leaves(hinge.metal, hinge.closed, nothing, nothing)
    to_gap = (hinge.closed - gap).portion(2 if recess_in == "both" else 1)
    deep = to_gap if recess == "gap" else hinge.metal if recess == "leaf" else recess
    if deep <= nothing:
        raise PlanError(
            f"a gap of {told(gap)} takes its hinges as they are: there is nothing to let in.",
            where=name,
            given=f"{told(hinge.closed)} thick when shut",
            remedy="Leave recess= out, or make the gap narrower.",
        )
    return Leaves(
        hinge.metal, hinge.closed,
        nothing if recess_in == "case" else deep,
        nothing if recess_in == "door" else deep,
    )  # fmt: skip


def _refuse(door: Part, on: Part, hinge: ButtHinge, found: Hanging) -> None:
    if found.lap != "inset":
        raise PlanError(
            f"it stands before {on.name}, so no gap between them takes the leaves of a butt hinge.",
            where=door.name,
            given=f"on={on.id}",
            remedy="Set it between the sides: plan.door_in(…), or hang it on cup hinges.",
        )
    thin = door if found.deep == door.through else on
    if hinge.leaf > thin.box.extent(found.deep):
        raise PlanError(
            f"a leaf {told(hinge.leaf)} wide stands out behind its edge.",
            where=thin.name,
            given=f"{told(thin.box.extent(found.deep))} thick",
            remedy=f"Use a hinge with a leaf no wider than the {front_word(thin) if thin is door else 'edge'} is.",
        )


def _refuse_deep(door: Part, on: Part, found: Hanging, leaves: Leaves) -> None:
    for part, deep in ((door, leaves.in_door), (on, leaves.in_on)):
        if deep >= part.box.extent(found.across).portion(2):
            raise PlanError(
                f"a hinge recess {told(deep)} deep leaves less than half of it.",
                where=part.name,
                given=f"{told(part.box.extent(found.across))} from {found.edge} to the other side",
                remedy="Let the hinge in less deep, or in the other part: recess_in=…",
            )


def _recess(  # noqa: PLR0917 - a part, the door, a hinge, and where it lies
    part: Part, door: Part, kind: ButtHinge, found: Hanging, spot: Length, face: Face, deep: Length
) -> Groove | None:
    """The recess of one leaf in a face of a part: as long as the hinge, as wide as its leaf."""
    if not deep.mm:
        return None
    half, out = length_of(kind, door, found).portion(2), door.box.face(found.out)
    whole = between(
        {
            found.across: (part.box.face(face), into_face(part, face, deep)),
            found.deep: (out, out + inwards(found.out, kind.leaf)),
            found.along: (spot - half, spot + half),
        }
    )
    ends: dict[str, Length] = {}
    for side, axis in AXIS_OF.items():
        start = part.box.low(axis)
        both = (whole.face(side) - start, part.box.face(side) - start)
        ends[side] = smallest(*both) if side == HIGH[axis] else largest(*both)
    cut = Box(**ends)
    if any(cut.extent(axis) <= Length.zero() for axis in AXIS_OF.values()):
        raise PlanError(
            "a hinge does not lie on it, so it cannot be let in there.",
            where=part.name,
            given=f"at {told(spot - door.box.low(found.along))} from the end of {door.name}",
            remedy="Move the hinge, at=[…], or let it into the other part: recess_in=…",
        )
    return Groove(face, cut, HINGE_LEAF)


def _cut(recesses: Sequence[Groove | None]) -> Iterator[Groove]:
    return (one for one in recesses if one is not None)


def _leads(part: Part, screws: Sequence[Fastener], deep: Length) -> Iterator[Feature]:
    """The lead holes of a leaf's screws; a hole's depth is told from the face, so its recess is added."""
    for screw in screws:
        hole = lead_hole(part, screw, "hinge leaf")
        yield replace(hole, depth=hole.depth + deep) if hole.depth is not None and deep.mm else hole


def length_of(kind: ButtHinge, door: Part, found: Hanging) -> Length:
    """Return how long a hinge is along its pin; a piano hinge is as long as the door's edge."""
    return door.box.extent(found.along) if kind.long is None else kind.long


def _screws(  # noqa: PLR0917 - two parts, a hinge and where it lies
    door: Part, on: Part, kind: ButtHinge, found: Hanging, spot: Length, leaves: Leaves
) -> tuple[tuple[Fastener, ...], tuple[Fastener, ...]]:
    half = length_of(kind, door, found).portion(2)
    row = in_a_row(spot - half, spot + half, SCREWS_APART, 2, SCREW_FROM_END)
    deep = into_face(door, found.out, kind.leaf.portion(2))

    def leaf(part: Part, face: Face, recess: Length) -> tuple[Fastener, ...]:
        wood = replace(part, box=replace(part.box, **{face: into_face(part, face, recess)})) if recess.mm else part
        spec = short_screw(wood, face, kind.gauge)
        return tuple(driven(wood, face, {found.along: at, found.deep: deep}, spec) for at in row)

    return leaf(door, found.edge, leaves.in_door), leaf(on, found.beside, leaves.in_on)


def _item(  # noqa: PLR0917 - two parts, a hinge and where it lies
    door: Part,
    on: Part,
    kind: ButtHinge,
    found: Hanging,
    spot: Length,
    screws: tuple[Fastener, ...],
    leaves: Leaves,
) -> Item:
    long, out = length_of(kind, door, found), door.box.face(found.out)
    half = long.portion(2)
    room = between(
        {
            found.across: (
                into_face(on, found.beside, leaves.in_on) if leaves.in_on.mm else on.box.face(found.beside),
                into_face(door, found.edge, leaves.in_door) if leaves.in_door.mm else door.box.face(found.edge),
            ),
            found.deep: (out - inwards(found.out, kind.pin), out + inwards(found.out, kind.leaf)),
            found.along: (spot - half, spot + half),
        }
    )
    sort = "piano hinge" if kind.long is None else "loose-pin hinge" if kind.loose else "butt hinge"
    name = f"{sort}, {exactly(long)} long, leaves {exactly(kind.leaf)} wide"
    said = f"{CHECK}: {_lies(kind, leaves)}"
    return Item(name, "hinge", (door.id, on.id), room, screws, compare=said, source=PRACTICE, leaves=leaves)


def _lies(kind: ButtHinge, leaves: Leaves) -> str:
    """How its leaves lie, and what of it to measure."""
    if not leaves.let_in:
        return f"both leaves lie in the gap, {exactly(kind.metal)} thick each; let thicker ones into the wood"
    if leaves.in_door == leaves.in_on:
        into = f"each leaf is let in {exactly(leaves.in_door)}"
    else:
        part, deep = ("door", leaves.in_door) if leaves.in_door.mm else ("case", leaves.in_on)
        into = f"it is let {exactly(deep)} into the {part} alone"
    return (
        f"{into}; {exactly(leaves.shut)} thick at its leaves when shut, it leaves a gap of {exactly(leaves.gap)}. "
        "Measure yours shut, and let it in by the difference"
    )
