"""Whether parts fit: none in another, every joint closed, nothing loose, and what must fit inside fits."""

from fractions import Fraction
from typing import TYPE_CHECKING

from plankit.build import Build, Contact, Joint, contacts, gap, touching, weight_of
from plankit.build.contact import apart_along, share_room
from plankit.build.held import held_together
from plankit.build.near import near_pairs, neighbours
from plankit.checks.wording import by_name, gathered
from plankit.finding import Finding
from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    OPPOSITE,
    Axis,
    Banding,
    Bevel,
    Box,
    Chamfer,
    CompoundMitre,
    Cove,
    Face,
    Feature,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    Part,
    Roundover,
    Taper,
    block,
    box_of,
    slant_of,
    solid,
    turning,
    way_after,
)
from plankit.units import L, Length, Notation

if TYPE_CHECKING:
    from manifold3d import Manifold

LEAST_OVERLAP = 1.0
"""Solids that share less than so many cubic millimetres are taken to touch; rounding alone makes less."""
NEARLY = L("1/16 in")
"""Parts that face each other closer than this, and do not touch, may have been meant to."""
PROBE = 0.1
"""How far a part is pushed, in millimetres, to find how much of it touches another."""
LEAST_TOUCH = 0.02
"""Least share of the claimed place of contact that must really touch."""
GEOMETRY = "geometry of the build"
_WAY: dict[Axis, str] = {"x": "left to right", "y": "front to back", "z": "up and down"}


def fit(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about how the parts, and the things between them, fit."""
    return (
        *overlaps(build, notation),
        *open_joints(build, notation),
        *near_misses(build, notation),
        *loose_parts(build, notation),
        *things_that_do_not_fit(build, notation),
    )


def overlaps(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every two parts that would fill the same space."""
    found = []
    boxes = [box_of(part) for part in build.parts]
    for place, against in near_pairs(boxes):
        one, other = build.parts[place], build.parts[against]
        deep = _depth(boxes[place], _cut(one), boxes[against], _cut(other))
        if deep is not None:
            found.append(
                Finding(
                    "must fix",
                    "parts overlap",
                    one.name,
                    f"{one.name} and {other.name} run into each other.",
                    f"{_WAY[deep[0]]}, against {other.name}",
                    notation.length(deep[1]),
                    GEOMETRY,
                    f"Give one the other's face ({one.id} or {other.id}), or notch one round the other.",
                )
            )
    return gathered(found)


def _cut(part: Part) -> Part | None:
    """The part, where more than its box is needed to know the space it fills."""
    shaped = any(not isinstance(feature, Banding | LeftOn) for feature in part.features)
    return part if part.leans or shaped else None


def _depth(one: Box, cut_one: Part | None, other: Box, cut_other: Part | None) -> tuple[Axis, Length] | None:
    """How far two things run into each other, and along which axis it is least; None where they do not."""
    if not share_room(one, other):
        return None
    common = one.common(other)
    if cut_one is None and cut_other is None:
        deep = min(AXES, key=lambda axis: common.extent(axis).mm)
        return deep, common.extent(deep)
    return _solid_depth(_filled(one, cut_one) ^ _filled(other, cut_other))


def _filled(box: Box, cut: Part | None) -> "Manifold":
    return block(box) if cut is None else solid(cut)


def _solid_depth(shared: "Manifold") -> tuple[Axis, Length] | None:
    if shared.volume() < LEAST_OVERLAP:
        return None
    ends = shared.bounding_box()
    extents = [ends[i + 3] - ends[i] for i in range(3)]
    index = min(range(3), key=lambda i: (round(extents[i], 6), i))
    return AXES[index], Length.of_mm(Fraction(round(extents[index] * 10**6), 10**6))


def open_joints(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every joint whose parts do not meet where it says."""
    found = (_open_joint(build, joint, notation) for joint in build.joints)
    return gathered(one for one in found if one is not None)


def _open_joint(build: Build, joint: Joint, notation: Notation) -> Finding | None:
    one, other = build.part(joint.holds), build.part(joint.to)
    contact = _where_claimed(one, other, joint)
    if contact is not None and not _cut_away(one, other, contact):
        return None
    apart = gap(one, other)
    number, why = "", "what would touch is cut away"
    if contact is None and apart is not None and apart[1].mm:
        number = notation.length(abs(apart[1]))
        why = "they overlap" if apart[1].mm < 0 else "there is a gap"
    elif contact is None and apart is None:
        why = "there is a gap"
    return Finding(
        "must fix",
        "joint does not close",
        one.name,
        f"{one.name} is to be held by {joint.kind} to {other.name}, but they do not touch: {why}.",
        f"against {other.name}",
        number,
        GEOMETRY,
        f"Let {one.name} end at a face of {other.name}, or leave the joint out.",
    )


def _where_claimed(one: Part, other: Part, joint: Joint) -> Contact | None:
    """Where two parts touch by the face that the joint names, inside cuts too."""
    if one.leans != other.leans:
        return touching(one, other)
    return next((found for found in contacts(one, other) if found.face == joint.contact.face), None)


def _cut_away(one: Part, other: Part, contact: Contact) -> bool:
    """Whether cuts leave (almost) nothing of the place where two boxes touch."""
    if one.leans != other.leans:
        return False  # found by their solids, so that it is there
    face, axis = contact.face, contact.axis
    outwards = face == HIGH[axis]
    if not (_cuts_at(one, face) or _cuts_at(other, OPPOSITE[face])):
        return False
    across = [float(contact.region.extent(a).mm) for a in AXES if a != axis]
    push = [0.0, 0.0, 0.0]
    push[AXES.index(axis)] = PROBE if outwards else -PROBE
    pushed = way_after(turning(one.leans), (push[0], push[1], push[2]))
    shared = solid(one).translate(list(pushed)) ^ solid(other)
    return bool(shared.volume() / PROBE < LEAST_TOUCH * across[0] * across[1])


def _cuts_at(part: Part, face: Face) -> bool:
    """Whether anything is sawn or cut off a part at one of its faces."""
    return any(_reaches(part, feature, face) for feature in part.features)


def _reaches(part: Part, feature: Feature, face: Face) -> bool:
    match feature:
        case Taper() | Mitre() | CompoundMitre() | Bevel():
            slant = slant_of(part.box.size, feature)
            return slant is not None and face in {slant.face, *(slope.towards for slope in slant.slopes)}
        case Chamfer(edge=edge) | Roundover(edge=edge) | Cove(edge=edge):
            return face in edge
        case Notch(cut=cut) | Groove(cut=cut):
            axis = AXIS_OF[face]
            if face == HIGH[axis]:
                return cut.high(axis).mm >= part.box.extent(axis).mm
            return cut.low(axis).mm <= 0
        case _:
            return False


def near_misses(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every two parts with so thin a gap that they may have been meant to touch."""
    found = []
    for place, against in near_pairs([part.box for part in build.parts], float(NEARLY.mm)):
        one, other = build.parts[place], build.parts[against]
        facing = one.leans == other.leans and len(apart_along(one.box, other.box)) == 1
        apart = gap(one, other) if facing else None
        if apart is None or not 0 < apart[1].mm < NEARLY.mm:
            continue
        found.append(
            Finding(
                "look at",
                "thin gap",
                one.name,
                f"{one.name} and {other.name} almost touch.",
                f"{_WAY[apart[0]]}, against {other.name}",
                notation.exact(apart[1]),
                GEOMETRY,
                "If they should touch, give one the other's face; if not, leave at least "
                f"{notation.length(NEARLY)}.",
            )
        )
    return gathered(found)


def loose_parts(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every part, or group of parts, that no joint holds to the rest."""
    groups = _groups(build)
    if len(groups) < 2:
        return ()
    most = max(_much(build, group) for group in groups)
    main = [group for group in groups if _much(build, group) == most]
    apart = len(main) > 1 or len(main[0]) == 1
    loose = [part for group in groups if apart or group not in main for part in build.parts if part.id in group]
    return tuple(
        Finding(
            "look at",
            "nothing holds it",
            name,
            f"No joint holds {name} to the rest.",
            number=count,
            source=GEOMETRY,
            remedy=f"Say what holds {name}: glue, screws or pins. A shelf that lies loose may stay so.",
        )
        for name, count in by_name((part.name for part in loose), notation)
    )


def _much(build: Build, group: set[str]) -> tuple[int, Fraction]:
    """How many parts a group has, and what they weigh: the rest is what has most of both, if anything has."""
    return len(group), weight_of(tuple(part for part in build.parts if part.id in group)).kg


def _groups(build: Build) -> list[set[str]]:
    pairs = [(joint.holds, joint.to) for joint in build.joints]
    pairs += [(item.on[0], other) for item in build.items for other in item.on[1:]]
    pairs += [*let_in(build), *_run_on(build), *_hooked_on(build)]
    return held_together((part.id for part in build.parts), pairs)


def _run_on(build: Build) -> list[tuple[str, str]]:
    """Drawers and the runners they stand on, which hold them without any fastener."""
    found = []
    for moving in build.moving:
        own = [build.part(one) for one in moving.parts] if moving.kind == "drawer" else []
        others = [part for part in build.parts if part.id not in moving.parts]
        for part in own:
            touched = ((other, touching(part, other)) for other in neighbours(build, part) if other in others)
            found += [(part.id, other.id) for other, met in touched if met is not None and met.face == "bottom"]
    return found


def _hooked_on(build: Build) -> list[tuple[str, str]]:
    """Parts screwed to the wall and what hooks over them or lies on them, which holds the piece without a joint."""
    on_wall = [build.part(one) for one in _screwed_to_wall(build)]
    return [
        (part.id, other.id)
        for part in on_wall
        for other in build.parts
        if other.id != part.id and (_meets(part.box, other.box) or touching(other, part) is not None)
    ]


def _screwed_to_wall(build: Build) -> list[str]:
    return list(dict.fromkeys(screw.part for screw in build.wall.screws)) if build.wall is not None else []


def let_in(build: Build) -> list[tuple[str, str]]:
    """Return parts that reach into another's groove, with the other; it needs no fastener, and a rabbet is none."""
    found = []
    for part in build.parts:
        corner = part.box.corner
        for feature in part.features:
            if isinstance(feature, Groove) and _closed(part, feature):
                cut = feature.cut
                for axis in AXES:
                    cut = cut.moved(axis, corner.along(axis))
                found += [
                    (other.id, part.id) for other in build.parts if other != part and _meets(cut, other.box)
                ]
    return found


def _closed(part: Part, groove: Groove) -> bool:
    """Whether a groove has wood on both sides; a rabbet, along an edge, is open on one."""
    size, cut = part.box.size, groove.cut
    across = [axis for axis in AXES if axis != AXIS_OF[groove.face]]
    wide = min(across, key=lambda axis: (cut.extent(axis).mm, axis))
    return cut.low(wide).mm > 0 and cut.high(wide).mm < size[AXES.index(wide)].mm


def _meets(one: Box, other: Box) -> bool:
    return share_room(one, other)


def things_that_do_not_fit(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every thing (boots, a basket) that a part or another thing is in the way of."""
    found = []
    others = [(part.name, box_of(part), _cut(part)) for part in build.parts]
    others += [(thing.name, thing.box, None) for thing in build.things]
    for place, thing in enumerate(build.things):
        for name, box, cut in others[: len(build.parts) + place]:
            deep = _depth(thing.box, None, box, cut)
            if deep is not None:
                found.append(_in_the_way(thing.name, name, deep, notation))
    return gathered(found)


def _in_the_way(thing: str, other: str, deep: tuple[Axis, Length], notation: Notation) -> Finding:
    return Finding(
        "must fix",
        "does not fit",
        thing,
        f"{other} is in the way of {thing}.",
        _WAY[deep[0]],
        notation.length(deep[1]),
        GEOMETRY,
        f"Make {notation.length(deep[1])} more room {_WAY[deep[0]]}, or put {thing} elsewhere.",
    )
