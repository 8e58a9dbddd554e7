"""Screws and brads: none comes through, each holds, none splits its part, no two meet."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction

from plankit.build import Build, touching
from plankit.build.fasteners import WIRE_KINDS
from plankit.build.leaning import passage
from plankit.build.near import neighbours
from plankit.checks.clashes import clashes
from plankit.checks.driven import Driven, all_driven
from plankit.checks.splitting import splitting
from plankit.checks.wood import beside, in_a_cut, room
from plankit.checks.wood_movement import NARROW, moves_along
from plankit.checks.wording import PRACTICE, gathered, side, sold, told_apart
from plankit.finding import Finding, Level
from plankit.parts import AXES, AXIS_OF, OPPOSITE, Face, Part, Point
from plankit.stock import Lumber
from plankit.units import L, Length, Notation, largest, smallest

UNDER_SHOW_FACE: dict[str, Length] = {
    "wood screw": L("1/8 in"),
    "pan-head screw": L("1/8 in"),
    "pocket screw": L("1/32 in"),
    "brad": L("1/16 in"),
    "staple": L("1/16 in"),
    "common nail": L("1/8 in"),
    "dowel": L("1/16 in"),
}
"""Wood to leave between a tip and a face that stays in sight. A pocket screw of the usual length leaves
less than others in a part of its own thickness, and is known to hold (common practice)."""
LONGEST: dict[str, Length] = {
    "wood screw": L("6 in"),
    "pocket screw": L("2 1/2 in"),
    "pan-head screw": L("3 in"),
    "brad": L("2 in"),
    "staple": L("1 1/2 in"),
    "common nail": L("6 in"),
    "dowel": L("3 in"),
}
"""The longest that stores commonly have (common practice)."""
SCREW_DIAMETERS = 6
"""NDS 12.1.5.6: a wood screw reaches in by 6 diameters, its tip included."""
LIGHT_DIAMETERS, DENSE_DIAMETERS = 14, 10
"""Wood Handbook ch. 8: a nail loaded sideways reaches in by 10 diameters in wood of specific gravity above 0.61,
and by 14 in wood below 0.42."""
LIGHT, DENSE = Fraction(42, 100), Fraction(61, 100)
DOWEL_DIAMETERS = 2
"""A dowel reaches into each part by about two of its diameters (joinery textbooks, common practice)."""
LEAST_DIAMETERS = 2
"""With less than so many diameters in the second part a screw holds next to nothing (common practice)."""
LEAST_OF_DOWEL = 1
"""The same for a dowel, which glue holds (common practice)."""
FREE = frozenset({"top fixing", "buttons"})
"""Joints that let a top move, and that glue must never join."""
NDS = "NDS 12.1.5.6: at least 6 diameters, tip included"
HANDBOOK_NAILS = "Wood Handbook ch. 8: 10 to 14 diameters for nails loaded sideways"
TEXTBOOKS = "joinery textbooks, common practice: about 2 diameters in each part"
TRADE_RULE = "common practice: as much thread in the second part as the first is thick"
END_GRAIN = "Wood Handbook ch. 8: a screw holds about 75 % of its side-grain value in end grain"


def fastening(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about the screws and brads of a build."""
    found: list[Finding] = []
    missed: list[Finding] = []
    glued, sliding = _glued(build), _sliding(build)
    stops = {stop for moving in build.moving for stop in moving.stops}
    for driven in all_driven(build):
        misses = _misses(driven, notation)
        if misses:
            missed += misses
            continue
        found += _comes_out(build, driven, notation)
        found += _other_end(driven, notation)
        pair = frozenset((driven.through.id, driven.into.id))
        loose = bool(pair & stops) and pair not in glued
        found += _bite(driven, pair in glued, driven.into.id in sliding, notation, loose=loose)
        found += _end_grain(driven, notation)
    return (
        *_counted(missed, notation),
        *gathered(found),
        *splitting(build, notation),
        *clashes(build, notation),
    )


def _glued(build: Build) -> frozenset[frozenset[str]]:
    """The two parts of every joint that has glue between them."""
    return frozenset(frozenset((joint.holds, joint.to)) for joint in build.joints if joint.glue)


def _sliding(build: Build) -> frozenset[str]:
    """The parts that are screwed on through slots, since they widen and shrink: glue would split them."""
    return frozenset(one.into for joint in build.joints for one in joint.fasteners if one.travel is not None)


def _counted(missed: list[Finding], notation: Notation) -> tuple[Finding, ...]:
    """Findings about what has nothing behind it, those that say the same told once with how many there are."""
    counts = Counter(replace(finding, place="") for finding in missed)
    several = (
        replace(one, number=one.number or notation.count(counts[replace(one, place="")], "place"))
        for one in gathered(missed)
    )
    return tuple(several)


def _misses(driven: Driven, notation: Notation) -> list[Finding]:
    """What has nothing behind it: it falls short of the second part, or passes beside it."""
    off: object
    cut = None
    if driven.leans and driven.passes is None:
        off = driven.into
    elif driven.held.mm <= 0 and not driven.crosses_air:
        return [_too_short(driven, notation)]
    elif driven.leans:
        return []
    else:
        off = beside(driven.into, driven.entry, AXIS_OF[driven.fastener.heading], Length.zero())
        cut = in_a_cut(driven.into, driven.before, driven.fastener.tip)
    if off is None and cut is None:
        return []
    how = f"it runs into the {cut}" if cut else f"it passes beside {driven.into.name}"
    return [
        Finding(
            "must fix",
            "nothing behind it",
            driven.through.name,
            f"{driven.subject} has nothing behind it: {how}.",
            driven.place(notation),
            "",
            "geometry of the build",
            f"Move it to where {driven.into.name} has wood behind.",
        )
    ]


def _too_short(driven: Driven, notation: Notation) -> Finding:
    wanted = _to_use(driven, _wanted(driven))
    return Finding(
        "must fix",
        "fastener too short",
        driven.through.name,
        f"{driven.subject} does not reach into {driven.into.name}."
        if driven.of
        else f"{driven.a_name} does not get through {driven.through.name} into {driven.into.name}.",
        driven.place(notation),
        notation.length(-driven.held),
        "geometry of the build",
        f"Use one {notation.length(wanted)} long."
        if driven.first.mm < wanted.mm <= LONGEST[driven.fastener.spec.kind].mm
        else f"None is sold {notation.length(wanted)} long: drive it the other way, through the thinner of the two.",
    )


def _comes_out(build: Build, driven: Driven, notation: Notation) -> list[Finding]:
    fastener, into = driven.fastener, driven.into
    if driven.passes is not None:
        return _comes_out_slanting(driven, notation)
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


def _comes_out_slanting(driven: Driven, notation: Notation) -> list[Finding]:
    """The same where the second part leans: how much wood is left over the tip, square to the nearest face."""
    assert driven.passes is not None
    face, left = driven.passes.out
    radius = driven.fastener.spec.diameter.portion(2)
    if left.mm < radius.mm:
        return [_out_of_a_slant(driven, face, radius - left, notation)]
    margin = UNDER_SHOW_FACE[driven.fastener.spec.kind]
    return [_nearly_through(driven, left, margin, notation, face)] if left.mm < margin.mm else []


def _out_of_a_slant(driven: Driven, face: Face, by: Length, notation: Notation) -> Finding:
    best = _longest_in_a_slant(driven)
    remedy = f"Use one no longer than {notation.length(best)}, or move it to where the part is thicker."
    if best.mm <= driven.first.mm:
        remedy = (
            f"No length in quarter inches holds here: {driven.into.name} is too thin on its line; move it."
        )
    return Finding(
        "must fix",
        "fastener comes through",
        driven.into.name,
        f"{driven.subject} comes out of {side(face)} of {driven.into.name}.",
        driven.place(notation),
        notation.length(by),
        "geometry of the build",
        remedy,
    )


def _longest_in_a_slant(driven: Driven) -> Length:
    """The longest that is sold whose tip would keep its distance from the face that this one is nearest to."""
    assert driven.passes is not None
    spec, leave = driven.fastener.spec, driven.passes.leave
    left = float(driven.passes.out[1].mm)
    steep = (leave - 1) / left if left else 0.0
    share = leave - float(UNDER_SHOW_FACE[spec.kind].mm) * steep
    return sold(Length.of_mm(spec.length.mm * Fraction(max(0, round(share * 10**6)), 10**6)), at_most=True)


def _comes_through(driven: Driven, face: Face, by: Length, notation: Notation) -> Finding:
    fastener, into = driven.fastener, driven.into
    if face == OPPOSITE[fastener.heading]:
        into, remedy = driven.through, f"Use a shorter one: {driven.through.name} is too thin for it."
    elif face != fastener.heading:
        remedy = f"Move it away from {side(face)} of {into.name}, or use a thinner one."
    else:
        best = _longest_inside(driven)
        remedy = f"Use one no longer than {notation.length(best)}."
        if best.mm < driven.first.mm + _least(driven).mm:
            remedy = f"No length in quarter inches holds here: {into.name} is too thin for this joint."
    return Finding(
        "must fix",
        "fastener comes through",
        into.name,
        f"{driven.subject} comes out of {side(face)} of {into.name}.",
        driven.place(notation),
        notation.length(by),
        "geometry of the build",
        remedy,
    )


def _other_end(driven: Driven, notation: Notation) -> list[Finding]:
    """A dowel's other end: it must stay inside the part that is fastened."""
    fastener, part = driven.fastener, driven.through
    if fastener.spec.kind != "dowel":
        return []
    back = OPPOSITE[fastener.heading]
    if fastener.leans != part.leans:
        other = passage(fastener.tip.mm(), fastener.head.mm(), fastener.leans, part)
        short = other is None or other.leave >= 1
        out = Length.zero() if short or other is None else -abs(other.out[1])
        face = back if other is None else other.out[0]
    else:
        face = back
        out = room(part, fastener.head, back)
    if out.mm >= 0:
        return []
    found = _comes_through(driven, back, -out, notation)
    return [replace(found, what=f"{driven.subject} comes out of {side(face)} of {part.name}.")]


def _nearly_through(
    driven: Driven, left: Length, margin: Length, notation: Notation, face: Face | None = None
) -> Finding:
    return Finding(
        "look at",
        "little wood over the tip",
        driven.into.name,
        f"{driven.subject} ends just under {side(face or driven.fastener.heading)} of {driven.into.name}.",
        driven.place(notation),
        notation.exact(left) if left.mm.denominator <= 1000 else notation.length(left),
        f"{PRACTICE}: leave {notation.length(margin)}",
        "Use a shorter one, or drive a first one into a piece of waste of the same thickness.",
    )


def _covered(build: Build, part: Part, at: Point, face: Face) -> bool:
    """Whether another part lies against a face where a tip comes near it."""
    axis = AXIS_OF[face]
    for other in neighbours(build, part):
        contact = touching(part, other)
        if contact is not None and contact.face == face:
            region = contact.region
            across = [a for a in AXES if a != axis]
            if all(region.low(a).mm <= at.along(a).mm <= region.high(a).mm for a in across):
                return True
    return False


def _wanted(driven: Driven) -> Length:
    """How much of a fastener should lie in the second part."""
    spec = driven.fastener.spec
    if spec.kind in WIRE_KINDS:
        return spec.diameter * _nail_diameters(driven.into.stock.specific_gravity)
    if spec.kind == "dowel":
        return spec.diameter * DOWEL_DIAMETERS
    if spec.kind == "pocket screw":
        return spec.diameter * LEAST_DIAMETERS
    return smallest(spec.diameter * SCREW_DIAMETERS, driven.first)


def _nail_diameters(specific_gravity: Fraction) -> Fraction:
    """How many diameters a nail should reach in: 14 in light wood, 10 in dense, in between by proportion."""
    share = (specific_gravity - LIGHT) / (DENSE - LIGHT)
    return LIGHT_DIAMETERS + (DENSE_DIAMETERS - LIGHT_DIAMETERS) * min(max(share, Fraction(0)), Fraction(1))


def _least(driven: Driven) -> Length:
    spec = driven.fastener.spec
    return spec.diameter * (LEAST_OF_DOWEL if spec.kind == "dowel" else LEAST_DIAMETERS)


def _why(driven: Driven) -> str:
    kind = driven.fastener.spec.kind
    if kind == "dowel":
        return TEXTBOOKS
    return HANDBOOK_NAILS if kind in WIRE_KINDS else f"{NDS}; {TRADE_RULE}"


def _face_to_face(driven: Driven) -> bool:
    """Whether two parts lie on each other with their broad faces, where glue holds and screws only press."""
    return driven.through.through == driven.into.through == AXIS_OF[driven.fastener.heading]


def _bite(driven: Driven, glued: bool, slides: bool, notation: Notation, *, loose: bool) -> list[Finding]:
    """Too little in the second part. A longer fastener only ever mends this finding.

    loose  whether one of the two is a stop that must come off again, so that glue is no remedy
    """
    held, wanted = driven.held, _wanted(driven)
    level: Level
    least = _least(driven)
    if held.mm < least.mm and not (glued and _face_to_face(driven)):
        level, source = "must fix", f"{PRACTICE}: at least {notation.length(least)}"
    elif held.mm >= wanted.mm or (driven.fastener.spec.kind == "dowel" and not _longer_fits(driven)):
        return []  # a dowel goes as deep as the part allows, and glue holds it
    else:
        source = _why(driven)
        level = "look at" if _longer_fits(driven) else "for information"
    if not _longer_fits(driven) and driven.joint in FREE and level != "must fix":
        return []  # it keeps a top that moves from lifting, and reaches in as far as the top allows
    remedy = f"Use one {notation.length(_to_use(driven, largest(wanted, least)))} long."
    if not _longer_fits(driven):
        remedy = f"{driven.into.name} has no room for a longer one: add glue, or more of them."
        if loose or slides or _glue_binds(driven):
            why = "a stop comes off again" if loose else "it moves"
            remedy = f"{driven.into.name} has no room for a longer one: use more of them, and no glue, for {why}."
        if glued:
            remedy = f"{driven.into.name} has no room for a longer one; glue holds it as well."
            remedy += " Put in more of them." if level == "must fix" else ""
    lies, asked = told_apart(held, largest(wanted, least), notation)
    return [
        Finding(
            level,
            "too little bite",
            driven.into.name,
            f"{driven.subject} holds with little of its length in {driven.into.name}; {asked} is wanted.",
            driven.place(notation),
            lies,
            source,
            remedy,
        )
    ]


def _longer_fits(driven: Driven) -> bool:
    """Whether the next length that is sold would stay inside."""
    return driven.fastener.spec.length.mm < _longest_inside(driven).mm


def _longest_inside(driven: Driven) -> Length:
    """The longest that is sold, and keeps its distance from the far face of the second part."""
    inside = driven.first + driven.at_most - UNDER_SHOW_FACE[driven.fastener.spec.kind]
    return sold(inside, at_most=True)


def _to_use(driven: Driven, wanted: Length) -> Length:
    """The shortest that is sold and reaches in so far; the longest that stays inside where that would not."""
    return smallest(sold(driven.first + wanted, at_most=False), _longest_inside(driven))


def _glue_binds(driven: Driven) -> bool:
    """Whether glue would hold a part that has to move: solid wood, wide, across the grain of the other."""
    two = (driven.into, driven.through)
    return driven.joint in FREE or any(
        isinstance(part.stock, Lumber) and part.width.mm > NARROW.mm and not moves_along(other, part)
        for part, other in (two, two[::-1])
    )


def _end_grain(driven: Driven, notation: Notation) -> list[Finding]:
    into, spec = driven.into, driven.fastener.spec
    if spec.kind in {*WIRE_KINDS, "dowel"} or not driven.in_end_grain or not isinstance(into.stock, Lumber):
        return []
    return [
        Finding(
            "look at",
            "screw in end grain",
            into.name,
            f"{driven.subject} is driven into the end grain of {into.name}, where it holds less.",
            driven.place(notation),
            "about 75 %",
            END_GRAIN,
            f"{'Put in' if _glue_binds(driven) else 'Add glue, or'} a second screw, and do not rely on it to hang "
            "anything.",
        )
    ]
