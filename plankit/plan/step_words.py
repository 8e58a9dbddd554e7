"""What is done in a step, in sentences made from its parts and joints, with every size in them."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from plankit.build import Fastener, Joint, bite, drill_size
from plankit.drawing.drills import drill_named
from plankit.drawing.words import listed, plural, within
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, Banding, Part, PocketHoles
from plankit.plan.facts import Draft
from plankit.plan.feature_words import cut_words, hole_words
from plankit.plan.places import hands, places_of, together
from plankit.plan.sawn_words import sawn_words
from plankit.plan.work import Work, labels
from plankit.plan.work_words import first_words, item_words
from plankit.reference import wood_screw
from plankit.stock import Lumber
from plankit.units import L, Length

_DRIVEN = {
    "face screws": "through the {holds} into the {to}",
    "pocket screws": "from the pocket holes of the {holds} into the {to}",
    "brads": "through the {holds} into the edge of the {to}",
    "staples": "through the {holds} into the edge of the {to}",
    "nails": "through the {holds} into the {to}",
    "dowels": "with glue, from the {holds} into the {to}",
    "buttons": "through the buttons in the grooves of the {holds} up into the {to}",
    "top fixing": "each on a washer, up through the {holds} into the {to}: {how}",
}


def step_words(draft: Draft, work: Work) -> list[str]:
    """Return what is done in a step, a sentence a line, in the order in which it is done."""
    said = [*first_words(draft, work), *_hands(draft, work)]
    said += [_glue_up(draft, part) for part in work.glues_up]
    said += [_trim(draft, part) for part in work.trims]
    said += sawn_words(draft, work)
    said += cut_words(draft.notation, work)
    said += _bandings(draft, work)
    said += hole_words(draft.notation, work)
    said += _pockets(draft, work)
    said += _screw_holes(draft, work)
    said += _joints(draft, work)
    said += item_words(draft, work)
    return said


def _glue_up(draft: Draft, part: Part) -> str:
    write, made = draft.notation, part.glue_up
    assert made is not None
    return (
        f"{part.name}: glue {made.boards} boards, {write.size_both(made.length, made.rip)} each, edge to edge "
        f"into a blank {write.size_both(made.blank[0], made.blank[1])}. It takes about {clamps(part)} clamps that open "
        f"{write.both(made.blank[1])} or more."
    )


def clamps(part: Part) -> int:
    """Return how many clamps a glue-up takes: one about every 10 in, and one at each end (common practice)."""
    return part.length // L("10 in") + 1


def _trim(draft: Draft, part: Part) -> str:
    write = draft.notation
    return (
        f"{part.name}: when the glue has set, flatten the blank to {write.both(part.thickness)} and trim it to "
        f"{write.both(part.length)} long and {write.both(part.width)} wide, "
        "the same amount off both ends and both edges."
    )


def _bandings(draft: Draft, work: Work) -> list[str]:
    edges: dict[str, dict[str, None]] = {}
    for part, feature in work.features:
        if isinstance(feature, Banding):
            edges.setdefault(part.name, {})[feature.edge] = None
    return [
        f"{name}: put banding on the {listed(faces)} {_edges(len(faces))}." for name, faces in edges.items()
    ]


def _edges(count: int) -> str:
    return "edge" if count == 1 else "edges"


def _hands(draft: Draft, work: Work) -> list[str]:
    """Say where each hand of a part goes, in the step that brings them or shapes them."""
    groups, by_part = labels(draft)
    shaped = {part.id for part, feature in work.features if not isinstance(feature, Banding)}
    here = {
        by_part[part_id] for part_id in (*work.step.brings, *(p for p in work.step.works_on if p in shaped))
    }
    said = [(group, hands(group)) for group in groups if group.label in here]
    return [f"{group.label} ({within(group.name)}) {where}." for group, where in said if where]


def _pockets(draft: Draft, work: Work) -> list[str]:
    """Say how many pocket holes go in which face of which part, along which edges, with the jig set for it."""
    write = draft.notation
    groups, by_part = labels(draft)
    where = {key: place for group in groups for key, place in places_of((*group.parts, *group.other)).items()}
    drilled: dict[tuple[str, str], list[PocketHoles]] = {}
    for part, feature in work.features:
        if isinstance(feature, PocketHoles):
            drilled.setdefault((part.id, feature.face), []).append(feature)
    found: dict[tuple[str, int, Length, str], dict[str, list[str]]] = {}
    for (part_id, face), rows in drilled.items():
        part = draft.build.part(part_id)
        count = sum(len(row.places) for row in rows)
        key = (by_part[part_id], count, part.box.extent(AXIS_OF[rows[0].face]), _along_edges(part, rows))
        found.setdefault(key, {}).setdefault(face, []).append(part_id)
    return [
        f"{label}: drill {write.count(count, 'pocket hole')} in {_faces(draft, faces, where)}{along}, "
        f"the jig set for {write.both(thick)} stock."
        for (label, count, thick, along), faces in found.items()
    ]


def _along_edges(part: Part, rows: Sequence[PocketHoles]) -> str:
    """Say how many go along which edges, where there are several: ", 1 at each end"."""
    counts: dict[str, int] = {}
    for row in rows:
        counts[row.end] = counts.get(row.end, 0) + len(row.places)
    if len(counts) == 1:
        return ""
    edges: dict[int, list[str]] = {}
    for end, count in counts.items():
        edges.setdefault(count, []).append(end)
    if set(counts) == {LOW[part.grain], HIGH[part.grain]} and len(edges) == 1:
        return f", {next(iter(edges))} at each end"
    said = (
        f"{count} {'each ' if len(ends) > 1 else ''}along the {listed(ends)} {_edges(len(ends))}"
        for count, ends in edges.items()
    )
    return f", {listed(said)}"


def _faces(draft: Draft, faces: Mapping[str, Sequence[str]], where: Mapping[str, str]) -> str:
    said = []
    for face, found in faces.items():
        ids = sorted(found, key=lambda part_id: [m.mm for m in map(draft.build.part(part_id).box.middle, AXES)])
        place = together(where[part_id] for part_id in ids)
        name = listed(dict.fromkeys(within(draft.build.part(part_id).name) for part_id in ids))
        said.append(f"the {face} face of the {place or name}")
    return listed(said)


def _screw_holes(draft: Draft, work: Work) -> list[str]:
    """Say which drills the screws need: clearance in the part they go through, lead holes where they hold."""
    into: dict[tuple[str, int, Length, str], dict[str, None]] = {}
    for joint in work.joints:
        gauge = joint.fasteners[0].spec.gauge if joint.fasteners else None
        if gauge is None or joint.kind == "pocket screws":
            continue
        to = draft.build.part(joint.to)
        lead = wood_screw(gauge).drill(gravity(to))
        if joint.kind == "top fixing":
            deep = draft.notation.both(bite(joint.fasteners[0], to))
            how = (
                "Mark the {to} through the holes and the middles of the slots, "
                f"and bore {drill_named(lead, draft.notation)} lead holes there, less than {deep} deep."
            )
        else:
            through = drill_named(drill_size(wood_screw(gauge).shank), draft.notation, loose=True)
            holds = "buttons" if joint.kind == "buttons" else within(draft.build.part(joint.holds).name)
            deep = draft.notation.both(bite(joint.fasteners[0], to))
            how = (
                f"For the #{gauge} screws bore and countersink {through} holes through the {holds}, "
                f"and {drill_named(lead, draft.notation)} lead holes {deep} deep into the {{to}}."
            )
        into.setdefault((how, gauge, lead, joint.kind), {})[within(to.name)] = None
    return [how.format(to=listed(names)) for (how, *_), names in into.items()]


def gravity(part: Part) -> Fraction:
    """Return the specific gravity of what a part is made of; a sheet's from its density (water 62.4 lb/ft3)."""
    if isinstance(part.stock, Lumber):
        return part.stock.specific_gravity
    return part.stock.density.pcf / Fraction(624, 10)


def _joints(draft: Draft, work: Work) -> list[str]:
    """Group joints of one kind between parts of the same names; glue comes before the screws that hold it."""
    groups: dict[tuple[str, str, str, str], list[Joint]] = {}
    for joint in work.joints:
        item = joint.fasteners[0].spec.name if joint.fasteners else ""
        key = (joint.kind, draft.build.part(joint.holds).name, draft.build.part(joint.to).name, item)
        groups.setdefault(key, []).append(joint)
    ordered = sorted(groups.items(), key=lambda group: group[0][0] != "glue")
    return list(dict.fromkeys(_joint(draft, key[0], joints) for key, joints in ordered))


def _joint(draft: Draft, kind: str, joints: list[Joint]) -> str:
    holds = _called(draft, [joint.holds for joint in joints])
    to = _called(draft, [joint.to for joint in joints])
    if kind == "glue":
        return f"Glue the {holds} to the {to}."
    fasteners = [fastener for joint in joints for fastener in joint.fasteners]
    spec = fasteners[0].spec
    size = spec.name.removesuffix(f" {spec.kind}")
    count = draft.notation.count(len(fasteners), spec.kind)
    return f"Drive {count}, {size}, {_DRIVEN[kind].format(holds=holds, to=to, how=_how_tight(fasteners))}."


def _how_tight(fasteners: Sequence[Fastener]) -> str:
    """Say how tight the screws of a top are driven, by the holes they go through."""
    slotted = {one.travel is not None for one in fasteners}
    if slotted == {False}:
        return "tight"
    if slotted == {True}:
        return "in the middle of the slots, just snug"
    return "those in round holes tight, those in the middle of the slots just snug"


def _called(draft: Draft, ids: list[str]) -> str:
    several = len(set(ids)) > 1
    name = within(draft.build.part(ids[0]).name)
    return plural(name) if several else name
