"""What is done in a step, in sentences made from its parts and joints, with every size in them."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from plankit.build import Joint, bite, drill_size
from plankit.drawing.words import count_word, listed, plural
from plankit.parts import AXES, AXIS_OF, Banding, Mitre, Part, PocketHoles, Taper
from plankit.plan.facts import Draft
from plankit.plan.feature_words import cut_words, hole_words
from plankit.plan.places import hands, places_of, together
from plankit.plan.work import Work, labels
from plankit.reference import wood_screw
from plankit.stock import Lumber
from plankit.units import L, Length, mixed

_DRIVEN = {
    "face screws": "through the {holds} into the {to}",
    "pocket screws": "from the pocket holes of the {holds} into the {to}",
    "brads": "through the {holds} into the edge of the {to}",
    "top fixing": (
        "each on a washer, up through the {holds} into the {to}: those in round holes tight, "
        "those in the middle of the slots just snug"
    ),
}


def step_words(draft: Draft, work: Work) -> list[str]:
    """Return what is done in a step, a sentence a line, in the order in which it is done."""
    said = _hands(draft, work)
    said += [_glue_up(draft, part) for part in work.glues_up]
    said += [_trim(draft, part) for part in work.trims]
    said += _tapers(draft, work)
    said += _miters(draft, work)
    said += cut_words(draft.notation, work)
    said += _bandings(draft, work)
    said += hole_words(draft.notation, work)
    said += _pockets(draft, work)
    said += _screw_holes(draft, work)
    said += _joints(draft, work)
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


def _tapers(draft: Draft, work: Work) -> list[str]:
    write = draft.notation
    said = []
    for part, feature, many in _alike_in_each(work, Taper):
        takes = "one taper takes" if many == 1 else f"{count_word(many)} tapers each take"
        said.append(
            f"{part.name}: {takes} {write.both(feature.amount)} off at the {feature.narrow} end "
            f"and {'runs' if many == 1 else 'run'} out {write.both(feature.run)} from it, "
            f"{write.angle(feature.angle)} off the edge."
        )
    return list(dict.fromkeys(said))


def _miters(draft: Draft, work: Work) -> list[str]:
    write = draft.notation
    said = []
    for part, feature, many in _alike_in_each(work, Mitre):
        which = "the miter is" if many == 1 else "the miters of both ends are each"
        said.append(f"{part.name}: {which} {write.both(feature.setback)} shorter along its {feature.short} face.")
    return list(dict.fromkeys(said))


def _alike_in_each[F: (Taper, Mitre)](work: Work, kind: type[F]) -> list[tuple[Part, F, int]]:
    """Features of a kind that read the same, with how many of them each part has."""
    found: dict[tuple[str, tuple[object, ...]], tuple[Part, F, int]] = {}
    for part, feature in work.features:
        if isinstance(feature, kind):
            key = (part.id, _read_as(feature))
            many = found[key][2] + 1 if key in found else 1
            found[key] = (part, feature, many)
    return list(found.values())


def _read_as(feature: Taper | Mitre) -> tuple[object, ...]:
    if isinstance(feature, Taper):
        return feature.amount, feature.narrow, feature.run
    return feature.setback, feature.short


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
    return [f"{group.label} ({group.name.lower()}) {where}." for group, where in said if where]


def _pockets(draft: Draft, work: Work) -> list[str]:
    """Say how many pocket holes go in which face of which part, with the jig set for the thickness."""
    write = draft.notation
    groups, by_part = labels(draft)
    where = {key: place for group in groups for key, place in places_of((*group.parts, *group.other)).items()}
    found: dict[tuple[str, int, Length], dict[str, list[str]]] = {}
    for part, feature in work.features:
        if isinstance(feature, PocketHoles):
            key = (by_part[part.id], len(feature.places), part.box.extent(AXIS_OF[feature.face]))
            found.setdefault(key, {}).setdefault(feature.face, []).append(part.id)
    return [
        f"{label}: drill {write.count(count, 'pocket hole')} in {_faces(draft, faces, where)}, "
        f"the jig set for {write.both(thick)} stock."
        for (label, count, thick), faces in found.items()
    ]


def _faces(draft: Draft, faces: Mapping[str, Sequence[str]], where: Mapping[str, str]) -> str:
    said = []
    for face, found in faces.items():
        ids = sorted(found, key=lambda part_id: [m.mm for m in map(draft.build.part(part_id).box.middle, AXES)])
        place = together(where[part_id] for part_id in ids)
        name = listed(dict.fromkeys(draft.build.part(part_id).name.lower() for part_id in ids))
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
                f"and bore {drill(lead)} lead holes there, less than {deep} deep."
            )
        else:
            through = drill(drill_size(wood_screw(gauge).shank))
            holds = draft.build.part(joint.holds).name.lower()
            deep = draft.notation.both(bite(joint.fasteners[0], to))
            how = (
                f"For the #{gauge} screws bore and countersink {through} holes through the {holds}, "
                f"and {drill(lead)} lead holes {deep} deep into the {{to}}."
            )
        into.setdefault((how, gauge, lead, joint.kind), {})[to.name.lower()] = None
    return [how.format(to=listed(names)) for (how, *_), names in into.items()]


def gravity(part: Part) -> Fraction:
    """Return the specific gravity of what a part is made of; a sheet's from its density (water 62.4 lb/ft3)."""
    if isinstance(part.stock, Lumber):
        return part.stock.specific_gravity
    return part.stock.density.pcf / Fraction(624, 10)


def drill(size: Length) -> str:
    """Write a drill's size as its shank says it: drills come in 64ths of an inch, whatever the plan's mark is."""
    return f"{mixed(size.inches)}\u00a0in"


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
    return f"Drive {count}, {size}, {_DRIVEN[kind].format(holds=holds, to=to)}."


def _called(draft: Draft, ids: list[str]) -> str:
    several = len(set(ids)) > 1
    name = draft.build.part(ids[0]).name.lower()
    return plural(name) if several else name
