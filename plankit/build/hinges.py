"""Concealed 35 mm cup hinges: the bore in the door, the plate's screws in the case, the room they take."""

from collections.abc import Sequence
from dataclasses import dataclass

from plankit.build.fasteners import Fastener
from plankit.build.hanging import Hanging, Lap, front_word, hanging, hinge_count, hinge_pivot
from plankit.build.items import Item, Leaves
from plankit.build.joints_rows import exactly as evenly
from plankit.build.mounting import between, driven, hole, into_face, inwards, lead_hole, point, short_screw
from plankit.build.moving import Pivot
from plankit.errors import PlanError
from plankit.parts import LOW, Axis, Box, Face, Feature, Part
from plankit.reference import practice
from plankit.units import L, Length, decimal, largest, told

CUP_USE = "hinge cup"
"""What a cup's bore is for; checks know it by this."""
CUP_SCREW_USE = "hinge cup's screw"
"""What the lead holes beside a cup are for."""
CHECK = "check against your hinge"
PRACTICE = "common practice"
MOST_HINGES = 12
"""More than any door or lid takes; who wants more wants a piano hinge (common practice)."""
FIRST = L("3 1/2 in")
"""From the end of a door to the middle of its first hinge (common practice: 3 to 4 in)."""
ARM = L("60 mm")
"""How far a hinge on its plate reaches behind the door (common practice)."""
ARM_HIGH = L("22 mm")
"""How far arm and plate stand out from what they are screwed to (common practice)."""
ARM_WIDE = L("50 mm")
"""How wide plate and arm are along the edge (common practice: plate screws 32 mm apart, and their wings)."""
CRANKS: dict[Lap, Length] = {
    "full overlay": L("0 mm"), "half overlay": L("9.5 mm"), "inset": L("18 mm"),
}  # fmt: skip
"""How far the arm is cranked, by what the hinge is sold for (common practice, from memory)."""
CARRIES = L("13 mm")
"""How far a straight arm carries the cup's rim over a plate of no height (common practice, from memory)."""
ADJUSTS = L("2 mm")
"""How far a hinge's side screw moves the door either way (common practice)."""


HIGHEST_PLATE = L("9 mm")
"""The highest mounting plate that is commonly sold (common practice, from memory)."""


@dataclass(frozen=True, slots=True)
class CupHinge:
    """A concealed hinge by the sizes on its maker's sheet.

    cup, depth   the bore: across, and how deep
    tab          from the door's edge to the rim of the bore
    wings        the cup's two screws: how far apart, and how far behind the middle of the cup
    row          from the front edge of the case to the row of plate screws; from the door's inner face for inset doors
    pitch        the plate's two screws: how far apart
    crank        how far the arm is cranked; by the lap where it is None
    """

    cup: Length
    depth: Length
    tab: Length
    wings: tuple[Length, Length]
    row: Length
    pitch: Length
    crank: Length | None = None

    @property
    def centre(self) -> Length:
        """From the door's edge to the middle of the cup."""
        return self.tab + self.cup.portion(2)

    def crank_for(self, lap: Lap) -> Length:
        """Return how far its arm is cranked."""
        return CRANKS[lap] if self.crank is None else self.crank


_WINGS = practice("cup screw pattern").sizes
CUP_HINGE = CupHinge(
    cup=practice("concealed cup hinge bore").sizes[0],
    depth=L("12.5 mm"),
    tab=practice("cup edge distance (tab)").sizes[2],
    wings=(_WINGS[0], _WINGS[2]),
    row=practice("front system row set-back, overlay doors").sizes[0],
    pitch=practice("system-hole spacing").sizes[0],
)
"""The usual hinge (hardware.csv; its cup within 11.5 to 13 mm)."""


def plate_height(hinge: CupHinge, found: Hanging) -> Length:
    """Return how high the mounting plate must be for a door that covers so much; below nothing, the arm is too short.

    source  the relation on makers' sheets: cover = what a straight arm carries + tab − crank − plate (from memory)
    """
    return CARRIES + hinge.tab - hinge.crank_for(found.lap) - found.cover


@dataclass(frozen=True, slots=True)
class Hung:
    """A door on its hinges: what is bored and screwed where.

    hanging        how the door meets what it hangs on
    places         the middle of each hinge, along the axis they stand along
    items          the hinges
    in_door, in_on what is bored in the door and in what it hangs on
    pivot          what the door turns about
    leaves         how plain leaves lie, and the gap they leave; None for a cup hinge
    """

    hanging: Hanging
    places: tuple[Length, ...]
    items: tuple[Item, ...]
    in_door: tuple[Feature, ...]
    in_on: tuple[Feature, ...]
    pivot: Pivot
    leaves: Leaves | None = None


def hinge_places(
    door: Part, along: Axis, count: int | None = None, first: Length | None = None
) -> tuple[Length, ...]:
    """Return where the middles of a door's hinges are: the outer ones `first` in from its ends, the others evenly.

    count   how many; by height and weight where it is None
    first   3 1/2 in, or a quarter of a short door, where it is None
    raises  PlanError where the outer ones would pass one another
    """
    low, high = door.box.low(along), door.box.high(along)
    many = hinge_count(door, along) if count is None else count
    _refuse_many(door, many)
    if first is None:
        return evenly(low, high, many, FIRST)
    if not Length.zero() < first < (high - low).portion(2):
        raise PlanError(
            "its first hinge would stand outside it, or past its middle.",
            where=door.name,
            given=f"{told(first)} from the end",
            remedy="Give a distance from the end to the middle of the first hinge, such as 3 1/2.",
        )
    return evenly(low + first, high - first, many, Length.zero())


def _refuse_many(door: Part, many: int) -> None:
    if many > MOST_HINGES:
        raise PlanError(
            f"no door hangs on so many hinges: {MOST_HINGES} at most.",
            where=door.name,
            given=str(many),
            remedy='Leave count= out, or hang it on a piano hinge: sort="piano".',
        )


def given_places(door: Part, along: Axis, at: Sequence[Length]) -> tuple[Length, ...]:
    """Return hinge places that an author gives, each counted from the door's lower end."""
    _refuse_many(door, len(at))
    low = door.box.low(along)
    return tuple(low + one for one in sorted(at, key=lambda one: one.mm))


def cup_hinges(  # noqa: PLR0917 - two parts, a hinge, and how it hangs
    door: Part,
    on: Part,
    hinge: CupHinge = CUP_HINGE,
    places: Sequence[Length] | None = None,
    lap: Lap | None = None,
    out: Face | None = None,
) -> Hung:
    """Return a door hung on concealed hinges, with all that is bored for them.

    places  the middle of each hinge; by `hinge_places` where it is None
    out     the face that leads as it opens, where it lies in one plane with what it hangs on
    raises  PlanError where the door does not lie so that it can be hung there
    """
    found = hanging(door, on, lap, out)
    _refuse_far(door, on, found)
    _refuse_reach(door, hinge, found)
    spots = hinge_places(door, found.along) if places is None else tuple(places)
    items = tuple(_item(door, on, hinge, found, spot) for spot in spots)
    cups = tuple(hole for spot in spots for hole in _in_door(door, hinge, found, spot))
    plates = tuple(
        lead_hole(on, screw, "hinge plate")
        for spot in spots
        for screw in _plate_screws(door, on, hinge, found, spot)
    )
    return Hung(found, spots, items, cups, plates, hinge_pivot(door, on, lap, out))


def _refuse_far(door: Part, on: Part, found: Hanging) -> None:
    """Refuse a part that is nowhere near the door's edge: the wrong part was named."""
    beyond = found.cover - on.box.extent(found.across)
    if beyond.mm > 0 or -found.cover > ARM:
        how = f"reaches {told(beyond)} past it" if beyond.mm > 0 else f"ends {told(-found.cover)} before it"
        raise PlanError(
            f"{on.name} does not lie at its {found.edge} edge: the {front_word(door)} {how}.",
            where=door.name,
            given=f"on={on.id}",
            remedy="Hang it on the side, divider or rail that its edge covers or lies beside.",
        )


def _refuse_reach(door: Part, hinge: CupHinge, found: Hanging) -> None:
    """Refuse a cover, or a gap, that no mounting plate makes up for."""
    plate = plate_height(hinge, found)
    if -ADJUSTS <= plate <= HIGHEST_PLATE:
        return
    most, least = found.cover + plate + ADJUSTS, found.cover + plate - HIGHEST_PLATE
    raise PlanError(
        f"{_an(found)} hinge cannot reach: the {front_word(door)} "
        + (f"covers {told(found.cover)}." if found.cover.mm > 0 else f"leaves a gap of {told(-found.cover)}."),
        where=door.name,
        given=f"tab {_mm(hinge.tab)}, crank {_mm(hinge.crank_for(found.lap))}",
        remedy=f"Let it cover between {told(least)} and {told(most)}, or give tab= and crank= of a hinge that does.",
    )


def _an(found: Hanging) -> str:
    return f"{'an' if found.lap == 'inset' else 'a'} {found.lap}"


def _in_door(door: Part, kind: CupHinge, found: Hanging, spot: Length) -> tuple[Feature, ...]:
    """A cup, and the lead holes of its own two screws."""
    screws = _cup_screws(door, kind, found, spot)
    return (_cup(door, kind, found, spot), *(lead_hole(door, screw, CUP_SCREW_USE) for screw in screws))


def _cup(door: Part, kind: CupHinge, found: Hanging, spot: Length) -> Feature:
    at = {
        found.across: into_face(door, found.edge, kind.centre),
        found.along: spot,
        found.deep: door.box.face(found.inner),
    }
    return hole(door, found.inner, point(at), kind.cup, kind.depth, CUP_USE)


def _item(door: Part, on: Part, kind: CupHinge, found: Hanging, spot: Length) -> Item:
    screws = (*_cup_screws(door, kind, found, spot), *_plate_screws(door, on, kind, found, spot))
    plate = decimal(largest(Length.zero(), plate_height(kind, found)).mm, 0)
    name = f"{_mm(kind.cup)} cup hinge, {found.lap}, with plate"
    compare = (
        f"{CHECK}: cup {_mm(kind.depth)} deep, {_mm(kind.tab)} from its rim to the door's edge; "
        f"plate about {plate} mm high, its screws {_mm(kind.row)} back"
    )
    return Item(
        name,
        "hinge",
        (door.id, on.id),
        _room(door, on, kind, found, spot),
        screws,
        compare=compare,
        source=PRACTICE,
    )


def _mm(length: Length) -> str:
    """Sizes of cup hinges are named in millimetres everywhere."""
    return f"{decimal(length.mm, 1)} mm"


def _cup_screws(door: Part, kind: CupHinge, found: Hanging, spot: Length) -> tuple[Fastener, ...]:
    spec = short_screw(door, found.inner)
    apart, behind = kind.wings
    row = into_face(door, found.edge, kind.centre + behind)
    return tuple(
        driven(door, found.inner, {found.across: row, found.along: spot + apart.portion(side)}, spec)
        for side in (-2, 2)
    )


def _plate_screws(door: Part, on: Part, kind: CupHinge, found: Hanging, spot: Length) -> tuple[Fastener, ...]:
    spec = short_screw(on, found.beside)
    row = plate_row(door, on, kind, found)
    return tuple(
        driven(on, found.beside, {found.deep: row, found.along: spot + kind.pitch.portion(side)}, spec)
        for side in (-2, 2)
    )


def plate_row(door: Part, on: Part, kind: CupHinge, found: Hanging) -> Length:
    """Return where the row of plate screws lies, along the axis of the door's thickness.

    source  hardware.csv: 37 mm from the front edge of the side; for inset doors, 37 mm plus the door's thickness
    """
    start = door.box.face(found.inner) if found.lap == "inset" else on.box.face(found.out)
    return start + inwards(found.out, kind.row)


def _room(door: Part, on: Part, kind: CupHinge, found: Hanging, spot: Length) -> Box:
    """What arm and plate fill behind a shut door; the cup itself lies in the door."""
    wall, edge = on.box.face(found.beside), found.edge
    rim = into_face(door, edge, kind.tab + kind.cup)
    high = wall + inwards(edge, ARM_HIGH)
    far = largest(rim, high) if edge == LOW[found.across] else -largest(-rim, -high)
    inner = door.box.face(found.inner)
    half = ARM_WIDE.portion(2)
    return between(
        {
            found.across: (wall, far),
            found.deep: (inner, inner + inwards(found.out, ARM)),
            found.along: (spot - half, spot + half),
        }
    )
