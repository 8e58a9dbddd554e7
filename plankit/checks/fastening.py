"""Screws and brads: none comes through, each holds, none splits its part, no two meet."""

from plankit.build import Build, touching
from plankit.checks.clashes import clashes
from plankit.checks.driven import Driven, all_driven
from plankit.checks.splitting import splitting
from plankit.checks.wood import beside, in_a_cut, room
from plankit.checks.wording import PRACTICE, gathered, side, sold
from plankit.finding import Finding, Level
from plankit.parts import AXES, AXIS_OF, Face, Part, Point
from plankit.stock import Lumber
from plankit.units import L, Length, Notation, largest, smallest

UNDER_SHOW_FACE: dict[str, Length] = {
    "wood screw": L("1/8 in"),
    "pan-head screw": L("1/8 in"),
    "pocket screw": L("1/32 in"),
    "brad": L("1/16 in"),
}
"""Wood to leave between a tip and a face that stays in sight. A pocket screw of the usual length leaves
less than others in a part of its own thickness, and is known to hold (common practice)."""
LONGEST: dict[str, Length] = {
    "wood screw": L("6 in"),
    "pocket screw": L("2 1/2 in"),
    "brad": L("2 in"),
}
"""The longest that stores commonly have (common practice)."""
SCREW_DIAMETERS = 6
"""NDS 12.1.5.6: a wood screw reaches in by 6 diameters, its tip included."""
BRAD_DIAMETERS = 14
"""Wood Handbook ch. 8: a nail loaded sideways reaches in by 10 (dense wood) to 14 diameters (light wood)."""
LEAST_DIAMETERS = 2
"""With less than so many diameters in the second part a screw holds next to nothing (common practice)."""
NDS = "NDS 12.1.5.6: at least 6 diameters, tip included"
HANDBOOK_NAILS = "Wood Handbook ch. 8: 10 to 14 diameters for nails loaded sideways"
TRADE_RULE = "common practice: as much thread in the second part as the first is thick"
END_GRAIN = "Wood Handbook ch. 8: a screw holds about 75 % of its side-grain value in end grain"


def fastening(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about the screws and brads of a build."""
    found: list[Finding] = []
    for driven in all_driven(build):
        misses = _misses(driven, notation)
        if misses:
            found += misses
            continue
        found += _comes_out(build, driven, notation)
        found += _bite(driven, notation)
        found += _end_grain(driven, notation)
    return (*gathered(found), *splitting(build, notation), *clashes(build, notation))


def _misses(driven: Driven, notation: Notation) -> list[Finding]:
    """What has nothing behind it: it falls short of the second part, or passes beside it."""
    if driven.held.mm <= 0:
        return [_too_short(driven, notation)]
    axis = AXIS_OF[driven.fastener.heading]
    off = beside(driven.into, driven.entry, axis, Length.zero())
    cut = in_a_cut(driven.into, driven.entry, driven.fastener.tip)
    if off is None and cut is None:
        return []
    how = f"it runs into the {cut}" if cut else f"it passes beside {driven.into.name}"
    return [
        Finding(
            "must fix",
            "nothing behind it",
            driven.through.name,
            f"A {driven.name} through {driven.through.name} has nothing behind it: {how}.",
            driven.place(notation),
            notation.length(off[1]) if off and not cut else "",
            "geometry of the build",
            f"Move it to where {driven.into.name} has wood behind.",
        )
    ]


def _too_short(driven: Driven, notation: Notation) -> Finding:
    wanted = sold(driven.first + _wanted(driven), at_most=False)
    return Finding(
        "must fix",
        "fastener too short",
        driven.through.name,
        f"A {driven.name} does not get through {driven.through.name} into {driven.into.name}.",
        driven.place(notation),
        notation.length(-driven.held),
        "geometry of the build",
        f"Use one {notation.length(wanted)} long."
        if wanted.mm <= LONGEST[driven.fastener.spec.kind].mm
        else f"None is sold {notation.length(wanted)} long: drive it the other way, through the thinner of the two.",
    )


def _comes_out(build: Build, driven: Driven, notation: Notation) -> list[Finding]:
    fastener, into = driven.fastener, driven.into
    radius = fastener.spec.diameter.portion(2)
    heading = fastener.heading
    far = room(into, fastener.tip, heading)
    if far.mm < 0:
        return [_comes_through(driven, heading, -far, notation)]
    for point in (fastener.tip, driven.entry):
        out = beside(into, point, AXIS_OF[heading], radius)
        if out is not None:
            return [_comes_through(driven, out[0], out[1], notation)]
    margin = UNDER_SHOW_FACE[fastener.spec.kind]
    if far.mm < margin.mm and not _covered(build, into, fastener.tip, heading):
        return [_nearly_through(driven, far, margin, notation)]
    return []


def _comes_through(driven: Driven, face: Face, by: Length, notation: Notation) -> Finding:
    fastener, into = driven.fastener, driven.into
    if face != fastener.heading:
        remedy = f"Move it away from {side(face)} of {into.name}, or use a thinner one."
    else:
        best = sold(driven.first + driven.at_most - UNDER_SHOW_FACE[fastener.spec.kind], at_most=True)
        remedy = f"Use one no longer than {notation.length(best)}."
        if best.mm <= driven.first.mm:
            remedy = f"No length in quarter inches holds here: {into.name} is too thin for this joint."
    return Finding(
        "must fix",
        "fastener comes through",
        into.name,
        f"A {driven.name} through {driven.through.name} comes out of {side(face)} of {into.name}.",
        driven.place(notation),
        notation.length(by),
        "geometry of the build",
        remedy,
    )


def _nearly_through(driven: Driven, left: Length, margin: Length, notation: Notation) -> Finding:
    return Finding(
        "look at",
        "little wood over the tip",
        driven.into.name,
        f"A {driven.name} through {driven.through.name} ends just under {side(driven.fastener.heading)} of "
        f"{driven.into.name}.",
        driven.place(notation),
        notation.exact(left) if left.mm.denominator <= 1000 else notation.length(left),
        f"{PRACTICE}: leave {notation.length(margin)}",
        "Use a shorter one, or drive a first one into a piece of waste of the same thickness.",
    )


def _covered(build: Build, part: Part, at: Point, face: Face) -> bool:
    """Whether another part lies against a face where a tip comes near it."""
    axis = AXIS_OF[face]
    for other in build.parts:
        contact = touching(part, other) if other.id != part.id else None
        if contact is not None and contact.face == face:
            region = contact.region
            across = [a for a in AXES if a != axis]
            if all(region.low(a).mm <= at.along(a).mm <= region.high(a).mm for a in across):
                return True
    return False


def _wanted(driven: Driven) -> Length:
    """How much of a fastener should lie in the second part."""
    spec = driven.fastener.spec
    if spec.kind == "brad":
        return spec.diameter * BRAD_DIAMETERS
    if spec.kind == "pocket screw":
        return spec.diameter * LEAST_DIAMETERS
    return smallest(spec.diameter * SCREW_DIAMETERS, driven.first)


def _bite(driven: Driven, notation: Notation) -> list[Finding]:
    """Too little in the second part. A longer fastener only ever mends this finding."""
    spec, held, wanted = driven.fastener.spec, driven.held, _wanted(driven)
    level: Level
    if held.mm < spec.diameter.mm * LEAST_DIAMETERS:
        level, source = "must fix", PRACTICE + ": at least 2 diameters"
    elif held.mm >= wanted.mm:
        return []
    else:
        source = HANDBOOK_NAILS if spec.kind == "brad" else f"{NDS}; {TRADE_RULE}"
        level = "look at" if _longer_fits(driven) else "for information"
    longer = sold(driven.first + largest(wanted, spec.diameter * LEAST_DIAMETERS), at_most=False)
    remedy = f"Use one {notation.length(longer)} long."
    if not _longer_fits(driven):
        remedy = f"{driven.into.name} has no room for a longer one: add glue, or more of them."
    return [
        Finding(
            level,
            "too little bite",
            driven.into.name,
            f"A {driven.name} through {driven.through.name} holds with little of its length in "
            f"{driven.into.name}; {notation.length(wanted)} is wanted.",
            driven.place(notation),
            notation.length(held),
            source,
            remedy,
        )
    ]


def _longer_fits(driven: Driven) -> bool:
    """Whether the next length that is sold would stay inside."""
    spec = driven.fastener.spec
    longer = sold(spec.length + L("1/16 in"), at_most=False)
    return (longer - driven.first).mm <= driven.at_most.mm - UNDER_SHOW_FACE[spec.kind].mm


def _end_grain(driven: Driven, notation: Notation) -> list[Finding]:
    into, spec = driven.into, driven.fastener.spec
    lengthwise = AXIS_OF[driven.fastener.heading] == into.grain
    if spec.kind == "brad" or not lengthwise or not isinstance(into.stock, Lumber):
        return []
    return [
        Finding(
            "look at",
            "screw in end grain",
            into.name,
            f"A {driven.name} through {driven.through.name} is driven into the end grain of {into.name}, "
            "where it holds less.",
            driven.place(notation),
            "about 75 %",
            END_GRAIN,
            "Add glue, or a second screw, and do not rely on it to hang anything.",
        )
    ]
