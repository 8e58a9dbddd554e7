"""What is done in a step, in sentences made from its parts and joints, with every size in them."""

from collections.abc import Mapping, Sequence

from plankit.build import Fastener, Joint, bite, drill_size
from plankit.drawing.drills import drill_named
from plankit.drawing.words import listed, plural, within
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, Banding, Face, Part, PocketHoles
from plankit.plan.beyond_saw import beyond_saw
from plankit.plan.facts import Draft
from plankit.plan.feature_words import cut_words, hole_words
from plankit.plan.places import hands, look_inwards, places_of, together
from plankit.plan.sawn_words import sawn_words
from plankit.plan.wall_words import hanging_words, wall_words
from plankit.plan.work import Work, labels
from plankit.plan.work_when import FIRST_CUTS
from plankit.plan.work_words import check_words, first_words, item_words
from plankit.reference import wood_screw
from plankit.units import L, Length, Notation, smallest

_DRIVEN = {
    "face screws": "through the {holds} into the {to}",
    "pocket screws": "from the pocket holes of the {holds} into the {to}",
    "brads": "through the {holds} into {edges}the {to}",
    "staples": "through the {holds} into {edges}the {to}",
    "nails": "through the {holds} into the {to}",
    "dowels": "with glue, from the {holds} into the {to}",
    "buttons": "through the buttons in the grooves of the {holds} up into the {to}",
    "top fixing": "each on a washer, up through the {holds} into the {to}: {how}",
}
CAULS = L("1 1/2 in")
"""What clamps open beyond the work: a caul 3/4 in thick on either side of it (common practice)."""


def step_words(draft: Draft, work: Work) -> list[str]:
    """Return what is done in a step, a sentence a line, in the order in which it is done."""
    said = [*first_words(draft, work), *_hands(draft, work)]
    said += [_glue_up(draft, part) for part in work.glues_up]
    said += [_trim(draft, part) for part in work.trims]
    said += [*_cut_out(work), *beyond_saw(draft, work)]
    said += sawn_words(draft, work)
    said += [*check_words(draft, work), *cut_words(draft.notation, work)]
    said += _bandings(draft, work)
    said += hole_words(draft.notation, work)
    said += _pockets(draft, work)
    said += _screw_holes(draft, work)
    said += _joints(draft, work)
    said += item_words(draft, work)
    said += wall_words(draft, work)
    said = [*hanging_words(draft, work), *said] if work.step.hangs else [*said, *hanging_words(draft, work)]
    if draft.coating is not None and work.step == draft.finishing:
        said += [f"{coating_words(draft)}, on all faces that are not glued.", *draft.coating.how]
    return said


def coating_words(draft: Draft) -> str:
    """Return what a piece is finished with, and how often: "Oil finish, 2 coats"."""
    assert draft.coating is not None
    return f"{draft.coating.product}, {draft.notation.count(draft.coating.coats, 'coat')}"


def _glue_up(draft: Draft, part: Part) -> str:
    write, made = draft.notation, part.glue_up
    assert made is not None
    return (
        f"{part.name}: glue {made.boards} boards, {write.size_both(made.length, made.rip)} each, edge to edge "
        f"into a blank {write.size_both(made.blank[0], made.blank[1])}. It takes about {clamps(part)} clamps that open "
        f"{write.both(made.blank[1] + CAULS)} or more, cauls included."
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


def _cut_out(work: Work) -> list[str]:
    """Say in a step that cuts parts out of what is bought where the cuts stand."""
    if not (work.step.works_on and set(work.step.does) & FIRST_CUTS):
        return []
    return ["Cut the pieces out as their cutting drawings show, in the order of the numbers in rings."]


def _bandings(draft: Draft, work: Work) -> list[str]:
    edges: dict[str, dict[str, None]] = {}
    for part, feature in work.features:
        if isinstance(feature, Banding):
            edges.setdefault(part.name, {})[feature.edge] = None
    alike: dict[tuple[str, ...], list[str]] = {}
    for name, faces in edges.items():
        alike.setdefault(tuple(faces), []).append(name)
    return [
        f"{_begun(names)}: put banding on the {listed(faces)} {_edges(len(faces))}."
        for faces, names in alike.items()
    ]


def _begun(names: Sequence[str]) -> str:
    """Names at the start of a sentence: "Bottom, side and shelf"."""
    return listed([names[0], *(within(name) for name in names[1:])])


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
    drilled: dict[tuple[str, Face], list[PocketHoles]] = {}
    for part, feature in work.features:
        if isinstance(feature, PocketHoles):
            drilled.setdefault((part.id, feature.face), []).append(feature)
    found: dict[tuple[str, int, Length, str], dict[Face, list[str]]] = {}
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


def _faces(draft: Draft, faces: Mapping[Face, Sequence[str]], where: Mapping[str, str]) -> str:
    if look_inwards({face: [draft.build.part(one) for one in ids] for face, ids in faces.items()}):
        return "the inner face of each"
    said = []
    for face, found in faces.items():
        ids = sorted(
            found, key=lambda part_id: [m.mm for m in map(draft.build.part(part_id).box.middle, AXES)]
        )
        place = together(where[part_id] for part_id in ids)
        name = listed(dict.fromkeys(within(draft.build.part(part_id).name) for part_id in ids))
        said.append(f"the {face} face of the {place or name}")
    return listed(said)


def _screw_holes(draft: Draft, work: Work) -> list[str]:
    """Say which drills the screws need: clearance in the part they go through, lead holes where they hold."""
    into: dict[tuple[str, str], dict[str, None]] = {}
    for joint in work.joints:
        gauge = joint.fasteners[0].spec.gauge if joint.fasteners else None
        if gauge is None or joint.kind == "pocket screws":
            continue
        to = draft.build.part(joint.to)
        lead = wood_screw(gauge).drill(to.stock.specific_gravity)
        holds = "buttons" if joint.kind == "buttons" else within(draft.build.part(joint.holds).name)
        if joint.kind == "top fixing":
            deep = draft.notation.both(bite(joint.fasteners[0], to))
            holds = ""
            how = (
                "Mark the {to} through the holes and the middles of the slots, "
                f"and bore {drill_named(lead, draft.notation)} lead holes there, less than {deep} deep."
            )
        else:
            through = drill_named(drill_size(wood_screw(gauge).shank), draft.notation, loose=True)
            deep = draft.notation.both(_lead_depth(joint, to, draft.notation))
            how = (
                f"For the #{gauge} screws bore and countersink {through} holes through the {{holds}}, "
                f"and {drill_named(lead, draft.notation)} lead holes {deep} deep into the {{to}}."
            )
        into.setdefault((how, holds), {})[within(to.name)] = None
    first: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for (how, holds), names in into.items():
        first.setdefault((how, tuple(names)), []).append(holds)
    return [how.format(holds=listed(holds), to=listed(names)) for (how, names), holds in first.items()]


def _lead_depth(joint: Joint, to: Part, write: Notation) -> Length:
    """Return how deep the lead holes go: as the screws reach, or the mark before it, so that no hole comes out."""
    reach = smallest(*(bite(fastener, to) for fastener in joint.fasteners))
    down = write.step * (reach.mm // write.step.mm)
    return down if down.mm > 0 else reach


def _joints(draft: Draft, work: Work) -> list[str]:
    """Group joints of one kind between parts of the same names; glue comes before the screws that hold it."""
    groups: dict[tuple[str, str, str, str], list[Joint]] = {}
    for joint in work.joints:
        item = joint.fasteners[0].spec.name if joint.fasteners else ""
        key = (joint.kind, draft.build.part(joint.holds).name, draft.build.part(joint.to).name, item)
        groups.setdefault(key, []).append(joint)
    glued: dict[str, list[str]] = {}
    driven: dict[tuple[str, str], list[list[Joint]]] = {}
    for (kind, _, _, item), joints in groups.items():
        if kind == "glue":
            holds, to = _called_in(draft, joints)
            glued.setdefault(f"the {holds}", []).append(f"the {to}")
        else:
            driven.setdefault((kind, item), []).append(joints)
    same: dict[tuple[str, ...], list[str]] = {}
    for one, others in glued.items():
        same.setdefault(tuple(others), []).append(one)
    gluing = [f"{listed(ones)} to {listed(others)}" for others, ones in same.items()]
    said = [f"Glue {_one_after_another(gluing)}."] if gluing else []
    for (kind, _), found in driven.items():
        apart = [[joints] for joints in found] if kind in _TOLD_APART else [found]
        said += [_driven(draft, kind, together) for together in apart]
    return list(dict.fromkeys(said))


_TOLD_APART = frozenset({"top fixing", "dowels", "buttons"})
"""Joints of which each is told in a sentence of its own: how they are made takes one."""


def _driven(draft: Draft, kind: str, found: list[list[Joint]]) -> str:
    """Say what is driven, and where: once for all places that take the same."""
    every = [fastener for joints in found for one in joints for fastener in one.fasteners]
    spec = every[0].spec
    size = f"{draft.notation.count(len(every), spec.kind)}, {spec.name.removesuffix(f' {spec.kind}')}"
    if len(found) == 1:
        return f"Drive {size}, {_where_driven(draft, kind, found[0])}."
    places = [
        f"{sum(len(one.fasteners) for one in joints)} {_where_driven(draft, kind, joints)}"
        for joints in found
    ]
    return f"Drive {size}: {_one_after_another(places)}."


def _where_driven(draft: Draft, kind: str, joints: list[Joint]) -> str:
    holds, to = _called_in(draft, joints)
    fasteners = [fastener for joint in joints for fastener in joint.fasteners]
    edges = "the edge of " if all(_enters_an_edge(draft, joint) for joint in joints) else ""
    return _DRIVEN[kind].format(holds=holds, to=to, how=_how_tight(fasteners), edges=edges)


def _enters_an_edge(draft: Draft, joint: Joint) -> bool:
    """Whether a joint's fasteners go into an edge or an end of the part they hold in, and not into its wide face."""
    to = draft.build.part(joint.to)
    square = to.width.mm == to.thickness.mm
    return joint.contact.axis != to.through and not square


def _called_in(draft: Draft, joints: list[Joint]) -> tuple[str, str]:
    """What the parts are called that some joints hold, and what those are that they hold them to."""
    return _called(draft, [joint.holds for joint in joints]), _called(draft, [joint.to for joint in joints])


def _one_after_another(said: list[str]) -> str:
    """Draw several together; with commas, the last after an "and": what is listed may have an "and" of its own."""
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])}, and {said[-1]}"


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
