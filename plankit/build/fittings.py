"""Plain hardware: casters, levelling feet, knobs and pulls, magnetic catches, brackets. Each with its holes."""

from collections.abc import Sequence
from dataclasses import dataclass

from plankit.build.hanging import hanging
from plankit.build.items import Item
from plankit.build.mounting import between, driven, hole, into_face, inwards, lead_hole, short_screw
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, LOW, Axis, Box, Face, Feature, Part, Point, other_axes
from plankit.units import L, Length, exactly, told

CHECK = "check against yours"
PRACTICE = "common practice"
CASTER_SCREW = L("1 in")
STEM_USE, BOLT_USE = "levelling foot's insert", "pull's screw"


@dataclass(frozen=True, slots=True)
class Fitted:
    """Hardware in its place, and what is bored for it in each part, by the part's id."""

    items: tuple[Item, ...]
    bored: tuple[tuple[str, tuple[Feature, ...]], ...]


@dataclass(frozen=True, slots=True)
class Caster:
    """A caster on a plate.

    height   from the floor to the top of its plate
    plate    the plate, along x and along y
    holes    the plate's four holes: how far apart along x and along y
    swing    how far its wheel reaches from the middle of the plate as it turns; nothing for a fixed one
    gauge    of its screws
    """

    height: Length
    plate: tuple[Length, Length]
    holes: tuple[Length, Length]
    swing: Length
    gauge: int = 10

    def reach(self, way: int) -> Length:
        """Return how far it reaches from its middle along x (0) or y (1), turning included."""
        half = self.plate[way].portion(2)
        return max(half, self.swing)


CASTER = Caster(
    height=L("2 1/2 in"),
    plate=(L("1 7/8 in"), L("2 1/2 in")),
    holes=(L("1 3/8 in"), L("2 in")),
    swing=L("1 3/4 in"),
)
"""A turning caster with a 2 in wheel (common practice)."""


def corners(part: Part, set_in: tuple[Length, Length], half: tuple[Length, Length]) -> tuple[Point, ...]:
    """Return four places under a part: what stands there is set in so far from the sides, and from front and back.

    half    half of what stands there, along x and along y
    raises  PlanError where two of them would meet
    """
    ends: dict[Axis, tuple[Length, Length]] = {}
    ways: tuple[Axis, ...] = ("x", "y")
    for axis, away, reach in zip(ways, set_in, half, strict=True):
        low, high = part.box.low(axis) + away + reach, part.box.high(axis) - away - reach
        if high - low < reach * 2:
            raise PlanError(
                f"it is too short from {'left to right' if axis == 'x' else 'front to back'} for two in a row.",
                where=part.name,
                given=f"each takes {told(reach * 2)}, set in {told(away)}",
                remedy="Set them in less, or use smaller ones.",
            )
        ends[axis] = low, high
    return tuple(Point(x, y, part.box.bottom) for y in ends["y"] for x in ends["x"])


def casters(part: Part, at: Sequence[Point], caster: Caster) -> Fitted:
    """Return casters screwed under a part, the middle of each plate at a place."""
    items, leads = [], []
    for place in at:
        spec = short_screw(part, "bottom", caster.gauge, CASTER_SCREW)
        wide, deep = caster.holes
        screws = tuple(
            driven(part, "bottom", {"x": place.x + wide.portion(a), "y": place.y + deep.portion(b)}, spec)
            for a in (-2, 2)
            for b in (-2, 2)
        )
        leads += [lead_hole(part, screw, "caster") for screw in screws]
        room = _under(place, (caster.reach(0), caster.reach(1)), caster.height)
        items.append(
            Item(
                f"caster, {exactly(caster.height)} high, on a plate {exactly(caster.plate[0])} × "
                f"{exactly(caster.plate[1])}",
                "caster",
                (part.id,),
                room,
                screws,
                compare=f"{CHECK}: height, plate and holes ({exactly(wide)} × {exactly(deep)} apart)",
                source=PRACTICE,
            )
        )
    return Fitted(tuple(items), ((part.id, tuple(leads)),))


def _under(at: Point, half: tuple[Length, Length], height: Length) -> Box:
    return Box(at.x - half[0], at.x + half[0], at.y - half[1], at.y + half[1], at.z - height, at.z)


@dataclass(frozen=True, slots=True)
class LevellingFoot:
    """A foot on a thread that turns in an insert.

    height  of the foot below the part as drawn: about the middle of what it can be turned
    pad     across its foot
    bore    the hole for its insert: across, and how deep (room for the thread included)
    """

    height: Length
    pad: Length
    bore: Length
    depth: Length


LEVELLING_FOOT = LevellingFoot(L("3/4 in"), L("1 1/4 in"), L("3/8 in"), L("1 1/2 in"))
"""A foot of a usual size (common practice)."""


def levelling_feet(part: Part, at: Sequence[Point], foot: LevellingFoot) -> Fitted:
    """Return levelling feet in a part's underside, and the hole that each insert takes."""
    half = foot.pad.portion(2)
    items = tuple(
        Item(
            f"levelling foot with insert for a {exactly(foot.bore)} hole",
            "levelling foot",
            (part.id,),
            _under(place, (half, half), foot.height),
            compare=f"{CHECK}: hole for the insert, length of the thread, {exactly(foot.height)} below the wood",
            source=PRACTICE,
        )
        for place in at
    )
    holes = tuple(hole(part, "bottom", place, foot.bore, foot.depth, STEM_USE) for place in at)
    return Fitted(items, ((part.id, holes),))


def middle_below(part: Part) -> Point:
    """Return the middle of a part's underside."""
    return Point(part.box.middle("x"), part.box.middle("y"), part.box.bottom)


@dataclass(frozen=True, slots=True)
class Pull:
    """A pull with two screws, or a knob with one.

    centres  from screw to screw; None for a knob
    stands   how far it stands out
    wide     across it
    bore     the hole for a screw
    thread   how much of the screw turns in the pull
    """

    centres: Length | None
    stands: Length
    wide: Length
    bore: Length
    thread: Length

    def screw_for(self, thickness: Length) -> Length:
        """Return how long its screws must be for a front so thick: through it and into the pull, to the next 1/4 in."""
        return (thickness + self.thread).rounded_up(L("1/4 in"))


PULL = Pull(L("3 in"), L("1 1/8 in"), L("1/2 in"), L("3/16 in"), L("1/4 in"))
"""A bar pull for #8 machine screws (common practice)."""
KNOB = Pull(None, L("1 1/8 in"), L("1 1/4 in"), L("3/16 in"), L("1/4 in"))
"""A round knob for one #8 machine screw (common practice)."""


def pull(front: Part, face: Face, middle: Point, runs: Axis, kind: Pull) -> Fitted:
    """Return a pull or knob on a face of a front, and the holes through it.

    middle  of the pull, on that face
    runs    the axis it lies along
    """
    axis = AXIS_OF[face]
    if axis != front.through or runs == axis:
        raise PlanError(
            "a pull goes on one of its broad faces.",
            where=front.name,
            given=f'face="{face}"',
            remedy=f'Use face="{LOW[front.through]}" or face="{HIGH[front.through]}".',
        )
    half = kind.centres.portion(2) if kind.centres is not None else Length.zero()
    spots = [middle.moved(runs, -half), middle.moved(runs, half)] if half else [middle]
    holes = tuple(hole(front, face, spot, kind.bore, None, BOLT_USE) for spot in spots)
    (beside,) = (one for one in other_axes(axis) if one != runs)
    reach, wide = half + kind.wide.portion(2), kind.wide.portion(2)
    outer = into_face(front, face, -kind.stands)
    room = between(
        {
            axis: (front.box.face(face), outer),
            runs: (middle.along(runs) - reach, middle.along(runs) + reach),
            beside: (middle.along(beside) - wide, middle.along(beside) + wide),
        }
    )
    long = exactly(kind.screw_for(front.thickness))
    name = (
        f"pull, {exactly(kind.centres)} from screw to screw, with two machine screws {long} long"
        if kind.centres is not None
        else f"knob, with a machine screw {long} long"
    )
    item = Item(
        name,
        "pull",
        (front.id,),
        room,
        compare=f"{CHECK}: its screws, and how far apart they are",
        source=PRACTICE,
    )
    return Fitted((item,), ((front.id, holes),))


@dataclass(frozen=True, slots=True)
class Catch:
    """A magnetic catch: a body on the case, a strike plate on the door.

    long, high, deep  the body: along the edge of the opening, out from the case part, back from the door
    """

    long: Length
    high: Length
    deep: Length


CATCH = Catch(L("2 in"), L("3/4 in"), L("5/8 in"))
"""A magnetic catch of a usual size (common practice)."""


def catch(door: Part, on: Part, at: Length, kind: Catch) -> Fitted:
    """Return a magnetic catch behind a door's free edge.

    on  the side, rail or shelf it is screwed to
    at  the middle of its body along that part's edge
    """
    found = hanging(door, on)
    inner = door.box.face(found.inner)
    wall = on.box.face(found.beside)
    half = kind.long.portion(2)
    body = between(
        {
            found.across: (wall, wall + inwards(found.edge, kind.high)),
            found.deep: (inner, inner + inwards(found.out, kind.deep)),
            found.along: (at - half, at + half),
        }
    )
    middle = inner + inwards(found.out, kind.deep.portion(2))
    spec = short_screw(on, found.beside)
    screws = tuple(
        driven(on, found.beside, {found.along: at + half.portion(side), found.deep: middle}, spec)
        for side in (-2, 2)
    )
    strike = driven(
        door,
        found.inner,
        {found.along: at, found.across: wall + inwards(found.edge, kind.high.portion(2))},
        short_screw(door, found.inner),
    )
    compare = f"{CHECK}: body {exactly(kind.long)} × {exactly(kind.deep)} × {exactly(kind.high)}"
    item = Item("magnetic catch with its strike plate", "catch", (on.id, door.id), body, (*screws, strike),
                compare=compare, source=PRACTICE)  # fmt: skip
    leads = tuple(lead_hole(on, screw, "catch") for screw in screws)
    return Fitted((item,), ((on.id, leads), (door.id, (lead_hole(door, strike, "strike plate"),))))
