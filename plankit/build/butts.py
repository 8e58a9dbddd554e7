"""Butt and piano hinges: two plain leaves round a pin, in the gap between a door's edge and what it hangs on."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from plankit.build.fasteners import Fastener
from plankit.build.hanging import Hanging, hanging, pivot_at
from plankit.build.hinges import CHECK, PRACTICE, Hung, hinge_places
from plankit.build.items import Item
from plankit.build.joints_rows import in_a_row
from plankit.build.mounting import between, driven, into_face, inwards, lead_hole, short_screw
from plankit.errors import PlanError
from plankit.parts import Face, Feature, Part
from plankit.units import L, Length, exactly, told

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
    """

    long: Length | None
    leaf: Length
    metal: Length
    pin: Length
    gauge: int
    loose: bool = False

    @property
    def least_gap(self) -> Length:
        """The least gap that both leaves fit into without being let in."""
        return self.metal * 2


BUTT = ButtHinge(long=L("2 in"), leaf=L("5/8 in"), metal=L("1/32 in"), pin=L("3/16 in"), gauge=6)
"""A butt hinge of a usual size for furniture (common practice)."""
LOOSE_PIN = replace(BUTT, loose=True)
"""The same with a pin that slides out (common practice)."""
PIANO = ButtHinge(long=None, leaf=L("1/2 in"), metal=L("1/32 in"), pin=L("1/8 in"), gauge=4)
"""A continuous hinge of the usual small size (common practice)."""


def butt_hinges(
    door: Part, on: Part, hinge: ButtHinge = BUTT, places: Sequence[Length] | None = None
) -> Hung:
    """Return a door, flap or tilt-out front on butt hinges, both leaves in the gap beside its hung edge.

    The pin's middle is the axis: in the middle of the gap, and half a knuckle before the door's outer face.

    raises  PlanError where the door stands before what it hangs on, or its edge is narrower than a leaf
    """
    found = hanging(door, on)
    if found.lap != "inset":
        raise PlanError(
            f"it stands before {on.name}, so no gap between them takes the leaves of a butt hinge.",
            where=door.name,
            given=f"on={on.id}",
            remedy="Set it between the sides: plan.door_in(…), or hang it on cup hinges.",
        )
    if -found.cover < hinge.least_gap:
        raise PlanError(
            f"the gap beside {on.name} is narrower than two leaves.",
            where=door.name,
            given=f"a gap of {told(-found.cover)}, leaves {told(hinge.metal)} thick",
            remedy=f"Leave {told(hinge.least_gap)}, or give the thickness of yours: metal=…",
        )
    if hinge.leaf > door.thickness:
        raise PlanError(
            f"a leaf {told(hinge.leaf)} wide stands out behind its edge.",
            where=door.name,
            given=f"{told(door.thickness)} thick",
            remedy="Use a hinge with a leaf no wider than the door is thick.",
        )
    if hinge.long is None:
        spots: tuple[Length, ...] = (door.box.middle(found.along),)
    else:
        spots = hinge_places(door, found.along) if places is None else tuple(places)
    pairs = [_screws(door, on, hinge, found, spot) for spot in spots]
    items = tuple(
        _item(door, on, hinge, found, spot, (*in_door, *in_on))
        for spot, (in_door, in_on) in zip(spots, pairs, strict=True)
    )
    bored = [tuple(_leads(part, screws)) for part, screws in _by_part(door, on, pairs)]
    pivot = pivot_at(door, found, (-found.cover).portion(2), hinge.pin.portion(2))
    return Hung(found, spots, items, bored[0], bored[1], pivot)


def _by_part(
    door: Part, on: Part, pairs: Sequence[tuple[tuple[Fastener, ...], tuple[Fastener, ...]]]
) -> tuple[tuple[Part, list[Fastener]], ...]:
    return (
        (door, [screw for in_door, _ in pairs for screw in in_door]),
        (on, [screw for _, in_on in pairs for screw in in_on]),
    )


def _leads(part: Part, screws: Sequence[Fastener]) -> list[Feature]:
    return [lead_hole(part, screw, "hinge leaf") for screw in screws]


def length_of(kind: ButtHinge, door: Part, found: Hanging) -> Length:
    """Return how long a hinge is along its pin; a piano hinge is as long as the door's edge."""
    return door.box.extent(found.along) if kind.long is None else kind.long


def _screws(
    door: Part, on: Part, kind: ButtHinge, found: Hanging, spot: Length
) -> tuple[tuple[Fastener, ...], tuple[Fastener, ...]]:
    half = length_of(kind, door, found).portion(2)
    row = in_a_row(spot - half, spot + half, SCREWS_APART, 2, SCREW_FROM_END)
    deep = into_face(door, found.out, kind.leaf.portion(2))

    def leaf(part: Part, face: Face) -> tuple[Fastener, ...]:
        spec = short_screw(part, face, kind.gauge)
        return tuple(driven(part, face, {found.along: at, found.deep: deep}, spec) for at in row)

    return leaf(door, found.edge), leaf(on, found.beside)


def _item(  # noqa: PLR0917 - two parts, a hinge and where it lies
    door: Part, on: Part, kind: ButtHinge, found: Hanging, spot: Length, screws: tuple[Fastener, ...]
) -> Item:
    long, out = length_of(kind, door, found), door.box.face(found.out)
    half = long.portion(2)
    room = between(
        {
            found.across: (on.box.face(found.beside), door.box.face(found.edge)),
            found.deep: (out - inwards(found.out, kind.pin), out + inwards(found.out, kind.leaf)),
            found.along: (spot - half, spot + half),
        }
    )
    sort = "piano hinge" if kind.long is None else "loose-pin hinge" if kind.loose else "butt hinge"
    name = f"{sort}, {exactly(long)} long, leaves {exactly(kind.leaf)} wide"
    compare = f"{CHECK}: both leaves lie in the gap, {exactly(kind.metal)} thick each; let thicker ones into the wood"
    return Item(name, "hinge", (door.id, on.id), room, screws, compare=compare, source=PRACTICE)
