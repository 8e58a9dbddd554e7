"""Solid wood held across its grain, and solid panels and doors without room for the seasons."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build, Fastener, Joint, movement, touching
from plankit.build.held import held_together
from plankit.build.movement import INDOORS, Air
from plankit.checks.blocks import Taken, shares, taken
from plankit.checks.wording import PRACTICE, gathered
from plankit.finding import Finding, Level
from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    LOW,
    Axis,
    Box,
    Groove,
    Part,
    spot_after,
    turning,
    turning_back,
    way_after,
)
from plankit.stock import Lumber
from plankit.units import L, Length, Notation, largest

GIVES = L("1/32 in")
"""So much movement is taken up by wood and screws as they are (common practice)."""
NARROW = L("6 in")
"""Cross-grain joints of solid wood are left alone up to this width: rails, aprons, cleats (common practice)."""
CRACKS = L("1/8 in")
"""Wood held so that this much movement has nowhere to go cracks or bows (common practice)."""
WIDE = L("12 in")
"""Glued-up tops and sides are wider than this; they are surely too wide to hold at both edges (common practice)."""
YIELDING = frozenset({"brads", "staples", "nails", "buttons"})
"""Joints whose fasteners bend, or slide, as the wood moves."""
SOURCE = "Wood Handbook ch. 13, flat-sawn: width × C × change in moisture content"
_WAY: dict[Axis, str] = {"x": "left to right", "y": "front to back", "z": "up and down"}


@dataclass(frozen=True, slots=True)
class _Hold:
    """A stretch of a solid part that a joint holds across its grain, and the part that holds it there."""

    low: Length
    high: Length
    by: Part


def wood_movement(build: Build, notation: Notation, air: Air = INDOORS) -> tuple[Finding, ...]:
    """Return findings about solid wood that moves across its grain between a dry and a damp season.

    Plywood hardly moves and is left out; so is wood that is held by what moves along with it.

    air  the humidities of the dry season and the damp one
    """
    found = [
        *_all_held(build, notation, air),
        *_all_grooved(build, notation, air),
        *_all_doors(build, notation, air),
        *_all_between(build, notation, air),
    ]
    return gathered(found)


def seasons(notation: Notation, air: Air = INDOORS) -> str:
    """Say between which humidities the movement is reckoned."""
    return f"between {notation.percent(air[0])} and {notation.percent(air[1])} relative humidity at 70 °F"


def _all_held(build: Build, notation: Notation, air: Air) -> Iterator[Finding]:
    for part in build.parts:
        if isinstance(part.stock, Lumber) and part.width.mm > NARROW.mm:
            span = held_across(build, part)
            if span.mm > NARROW.mm and movement(part.stock, span, *air).mm > GIVES.mm:
                yield _held(part, span, movement(part.stock, span, *air), notation, air)


def held_across(build: Build, part: Part) -> Length:
    """Return over how much of its width a solid part is held by what does not move with it; nothing if free.

    Held at one line it is free; what is held at two lines by parts that nothing stiff joins is free as well.
    """
    holds = [hold for joint in build.joints if (hold := _hold(build, joint, part)) is not None]
    stiff = _stiff_groups(build, part)
    spans = [hold.high - hold.low for hold in holds]
    for group in stiff:
        within = [hold for hold in holds if hold.by.id in group]
        if within:
            low = min((hold.low for hold in within), key=lambda length: length.mm)
            spans.append(largest(*(hold.high for hold in within)) - low)
    return max(spans, key=lambda length: length.mm, default=Length.zero())


def _hold(build: Build, joint: Joint, part: Part) -> _Hold | None:
    """Where a joint holds a part rigidly, along the part's width."""
    if part.id not in {joint.holds, joint.to} or joint.kind in YIELDING:
        return None
    other = build.part(joint.to if joint.holds == part.id else joint.holds)
    axis = part.across
    if moves_along(other, part):
        return None
    if joint.kind == "glue":
        region = _glued_on(joint, part, other)
        return _Hold(region.low(axis), region.high(axis), other) if region is not None else None
    fixed = [_head_along(part, one) for one in joint.fasteners if one.travel is None]
    if not fixed:
        return None
    return _Hold(min(fixed, key=lambda at: at.mm), max(fixed, key=lambda at: at.mm), other)


def _glued_on(joint: Joint, part: Part, other: Part) -> Box | None:
    """Where a part is glued to another, in its own axes before it leans."""
    if part.leans == other.leans or joint.holds == part.id:
        return joint.contact.region
    found = touching(part, other)
    return found.region if found is not None else None


def _head_along(part: Part, fastener: Fastener) -> Length:
    """Where a fastener's head is along a part's width, in the part's axes before it leans."""
    if fastener.leans == part.leans:
        return fastener.head.along(part.across)
    head = spot_after(turning_back(part.leans), fastener.ends_mm()[0])
    return Length.of_mm(Fraction(round(head[AXES.index(part.across)] * 1000), 1000))


def _lies_along(part: Part, other: Part) -> Axis:
    """The axis of a part, before it leans, that lies most nearly along another's width."""
    if part.leans == other.leans:
        return other.across
    x, y, z = (float(axis == other.across) for axis in AXES)
    way = way_after(turning_back(part.leans), way_after(turning(other.leans), (x, y, z)))
    return max(AXES, key=lambda axis: abs(way[AXES.index(axis)]))


def moves_along(part: Part, other: Part) -> bool:
    """Tell whether a part swells and shrinks along another's width itself: solid wood, wide across its grain."""
    axis = _lies_along(part, other)
    return isinstance(part.stock, Lumber) and part.grain != axis and part.box.extent(axis).mm > NARROW.mm


def _stiff_groups(build: Build, part: Part) -> list[set[str]]:
    """Parts joined to one another, this one left out, through such as do not move along its width themselves."""
    stays = [one.id for one in build.parts if one.id != part.id and not moves_along(one, part)]
    return held_together(stays, ((joint.holds, joint.to) for joint in build.joints))


def _held(part: Part, span: Length, moves: Length, notation: Notation, air: Air) -> Finding:
    sure = span.mm >= WIDE.mm and moves.mm >= CRACKS.mm
    level: Level = "must fix" if sure else "look at"
    ends = "cracks or bows" if sure else "may crack, or bow what holds it"
    return Finding(
        level,
        "held across the grain",
        part.name,
        f"{part.name} is held over {notation.length(span)} of its width by parts that do not move with it, and "
        f"{ends} as it widens and shrinks with the seasons.",
        _WAY[part.across],
        f"moves {notation.length(moves)} {seasons(notation, air)}",
        f"{SOURCE}; {PRACTICE}: up to {notation.length(NARROW)} is left alone",
        "Hold it along one line and let the rest slide: slots across the grain, or buttons, and no glue there.",
    )


def _all_grooved(build: Build, notation: Notation, air: Air) -> Iterator[Finding]:
    for part in build.parts:
        if isinstance(part.stock, Lumber) and part.width.mm > NARROW.mm and not part.leans:
            rooms = _rooms_in_grooves(build, part)
            if len(rooms) == 2:
                yield from _too_tight(part, rooms[0] + rooms[1], "in its grooves", notation, air)


def _rooms_in_grooves(build: Build, part: Part) -> list[Length]:
    """The room at either edge of a panel between it and the bottom of the groove that it stands in."""
    rooms = []
    for face in (LOW[part.across], HIGH[part.across]):
        for other in build.parts:
            if other.id == part.id or other.leans:
                continue
            bottom = _groove_round(part, other, face == HIGH[part.across])
            if bottom is not None:
                rooms.append(abs(bottom - part.box.face(face)))
                break
    return rooms


def _groove_round(part: Part, other: Part, high: bool) -> Length | None:
    """Where the bottom of the groove lies, of those in another part, that an edge of this one stands in."""
    axis = part.across
    for feature in other.features:
        if not isinstance(feature, Groove) or AXIS_OF[feature.face] != axis:
            continue
        cut = feature.cut
        for along in AXES:
            cut = cut.moved(along, other.box.low(along))
        common = cut.common(part.box)
        if all(common.extent(along).mm > 0 for along in AXES) and (feature.face == LOW[axis]) == high:
            return cut.high(axis) if high else cut.low(axis)
    return None


def _too_tight(part: Part, room: Length, where: str, notation: Notation, air: Air) -> Iterator[Finding]:
    if not isinstance(part.stock, Lumber):
        return
    moves = movement(part.stock, part.width, *air)
    if room.mm >= moves.mm:
        return
    yield Finding(
        "look at",
        "no room to move",
        part.name,
        f"{part.name} is solid wood and has {notation.length(room)} to widen {where}; it moves more than that "
        f"{seasons(notation, air)}.",
        _WAY[part.across],
        f"moves {notation.length(moves)}",
        f"{SOURCE}; if it is made of dry wood it needs all of it",
        f"Leave {notation.length(moves.rounded_up(L('1/16 in')))} in all, or make it of plywood.",
    )


def _all_doors(build: Build, notation: Notation, air: Air) -> Iterator[Finding]:
    movers = {part_id for moving in build.moving for part_id in moving.parts}
    fixed = [taken(part) for part in build.parts if part.id not in movers] if movers else []
    for moving in build.moving:
        front = build.part(moving.parts[0])
        if not isinstance(front.stock, Lumber) or front.width.mm <= NARROW.mm or front.leans:
            continue
        beside = [found for high in (False, True) if (found := _beside(taken(front), fixed, high)) is not None]
        if len(beside) > 1:
            room = sum((gap for gap, _ in beside), Length.zero())
            yield from _too_tight(front, room, "between what stands beside it", notation, air)


def _all_between(build: Build, notation: Notation, air: Air) -> Iterator[Finding]:
    """Solid parts shut in between two that are rigidly joined to one another past them."""
    movers = {part_id for moving in build.moving for part_id in moving.parts}
    solid = [part for part in build.parts if isinstance(part.stock, Lumber) and part.width.mm > NARROW.mm]
    fixed = [taken(part) for part in build.parts if part.id not in movers] if solid else []
    for part in solid:
        if part.leans or part.id in movers or held_across(build, part).mm > NARROW.mm:
            continue
        others = [one for one in fixed if one.part.id != part.id]
        beside = [found for high in (False, True) if (found := _beside(taken(part), others, high)) is not None]
        if len(beside) > 1 and _rigidly_joined(build, part, beside[0][1], beside[1][1]):
            room = beside[0][0] + beside[1][0]
            names = " and ".join(dict.fromkeys(one.name for _, one in beside))
            yield from _too_tight(part, room, f"between {names}", notation, air)


def _rigidly_joined(build: Build, part: Part, one: Part, other: Part) -> bool:
    """Whether two parts are held together past a third by what neither moves along its width nor yields."""
    stays = [own.id for own in build.parts if own.id != part.id and not moves_along(own, part)]
    links = ((joint.holds, joint.to) for joint in build.joints if joint.kind not in YIELDING)
    return any({one.id, other.id} <= group for group in held_together(stays, links))


def _beside(front: Taken, fixed: Sequence[Taken], high: bool) -> tuple[Length, Part] | None:
    """The gap between an edge of a part and what is fixed beside it, in the part's own plane, and what that is."""
    axis = front.part.across
    index = AXES.index(axis)
    gaps = []
    for other in fixed:
        if not all(shares(front.around, other.around, i) for i in range(3) if i != index):
            continue
        near, far = (front.part.box, other.part.box) if high else (other.part.box, front.part.box)
        if not other.part.leans and near.high(axis).mm <= far.low(axis).mm:
            gaps.append((far.low(axis) - near.high(axis), other.part))
    return min(gaps, key=lambda gap: gap[0].mm, default=None)
