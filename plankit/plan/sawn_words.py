"""Slanting cuts and trimming of a step in sentences, with the saw's settings and what makes them safe."""

from collections.abc import Mapping, Sequence

from plankit.drawing.sawn_words import point_words, setting_words, shows
from plankit.drawing.words import count_word, listed
from plankit.parts import AXIS_OF, Bevel, CompoundMitre, LeftOn, Mitre, Part, Taper
from plankit.plan.facts import Draft
from plankit.plan.work import Work, labels
from plankit.units import Length


def sawn_words(draft: Draft, work: Work) -> list[str]:
    """Say each taper, miter, bevel and trim once for all parts that have the same."""
    return [*_tapers(draft, work), *_miters(draft, work), *_bevels(draft, work), *_trims(draft, work)]


def _alike_in_each[F: Taper | Mitre | CompoundMitre | Bevel](
    work: Work, kind: type[F]
) -> list[tuple[Part, tuple[F, ...]]]:
    """Features of a kind that read the same, gathered for each part."""
    found: dict[tuple[object, ...], tuple[Part, tuple[F, ...]]] = {}
    for part, feature in work.features:
        if isinstance(feature, kind):
            key = (part.id, *_read_as(feature))
            before = found[key][1] if key in found else ()
            found[key] = (part, (*before, feature))
    return list(found.values())


def _read_as(feature: Taper | Mitre | CompoundMitre | Bevel) -> tuple[object, ...]:
    match feature:
        case Taper():
            return feature.amount, feature.narrow, feature.run
        case CompoundMitre():
            return feature.short, feature.setback, feature.also_short, feature.also_setback
        case Mitre() | Bevel():
            return feature.setback, feature.short


def _tapers(draft: Draft, work: Work) -> list[str]:
    write = draft.notation
    said: dict[str, None] = {}
    for part, features in _alike_in_each(work, Taper):
        feature, many = features[0], len(features)
        takes = "one taper takes" if many == 1 else f"{count_word(many)} tapers each take"
        said[
            f"{part.name}: {takes} {write.both(feature.amount)} off at the {feature.narrow} end "
            f"and {'runs' if many == 1 else 'run'} out {write.both(feature.run)} from it, "
            f"{write.angle(feature.angle)} off the edge."
        ] = None
    short: dict[str, None] = {}
    for part, other in work.features:
        if isinstance(other, Taper) and (least := safe_length(draft, work, part)) is not None:
            short[
                f"{part.name}: by itself it is too short to saw this safely. Taper the end of a piece at least "
                f"{write.both(least)} long, held in a jig, and cut it off to length last."
            ] = None
    return [*said, *short]


def safe_length(draft: Draft, work: Work, part: Part) -> Length | None:
    """Return the least length of the piece a part is tapered on; None where the part itself is long enough.

    It is the shortest piece that the shop lets near the tool that does it.
    """
    for name in dict(work.tools).get("taper", ()):
        tool = draft.shop.tool(name)
        least = tool.limit("shortest_piece") if tool is not None else None
        if least is not None and part.length < least:
            return least
    return None


def _miters(draft: Draft, work: Work) -> list[str]:
    """Say each miter once; parts that stand every way round and are cut alike are told by their drawing instead."""
    said: dict[tuple[str, str, str], dict[tuple[str, str], list[str]]] = {}
    plain: Sequence[tuple[Part, Sequence[Mitre | CompoundMitre]]] = _alike_in_each(work, Mitre)
    for part, cuts in [*plain, *_alike_in_each(work, CompoundMitre)]:
        points = point_words(part, draft.notation, both=True)
        key = (part.name, setting_words(part, cuts[0], draft.notation), points)
        ends = f"{listed(dict.fromkeys(cut.end for cut in cuts))} {'end' if len(cuts) == 1 else 'ends'}"
        back = _back(draft, cuts[0])
        back += " at each end" if back and len(cuts) > 1 else ""
        said.setdefault(key, {}).setdefault((ends, back), []).append(part.id)
    found: list[str] = []
    for (name, setting, points), ways in said.items():
        found += _one_kind(draft, (name, setting, points), ways)
    return list(dict.fromkeys(found))


def _one_kind(draft: Draft, kind: tuple[str, str, str], ways: Mapping[tuple[str, str], list[str]]) -> list[str]:
    """What is said of parts of one name that take the same setting of the saw."""
    name, setting, points = kind
    ids = list(dict.fromkeys(part_id for found in ways.values() for part_id in found))
    how = f"the piece on its wide face and the {setting} off square"
    closing = f", {points}" if points else ""
    if len(ids) == 1 or len(ways) == 1:
        return [f"{name}: miter the {ends}, {how}{f': {back}' if back else ''}{closing}." for ends, back in ways]
    drawn = labels(draft)[1]
    letters = listed(dict.fromkeys(drawn[part_id] for part_id in ids))
    return [
        f"{name}: miter the ends of all {len(ids)}, {how}, as part drawing {letters} has them; mark on each which way "
        f"round it stands before you saw{closing}."
    ]


def _back(draft: Draft, cut: Mitre | CompoundMitre) -> str:
    """How much shorter a part ends up along which face; "" where no tape shows it."""
    write = draft.notation
    backs = [(cut.setback, cut.short)]
    if isinstance(cut, CompoundMitre):
        backs.append((cut.also_setback, cut.also_short))
    seen = [(write.both(by), face) for by, face in backs if shows(by, write)]
    said = [f"{by}{'' if number else ' shorter'} along its {face} face" for number, (by, face) in enumerate(seen)]
    return " and ".join(said)


def _bevels(draft: Draft, work: Work) -> list[str]:
    said: dict[str, None] = {}
    for part, bevels in _alike_in_each(work, Bevel):
        edges = listed(bevel.edge for bevel in bevels)
        one = bevels[0]
        said[
            f"{part.name}: rip a bevel along the {edges} {'edge' if len(bevels) == 1 else 'edges'} with the "
            f"{setting_words(part, one, draft.notation)}, {draft.notation.both(one.setback)} narrower on the "
            f"{one.short} face."
        ] = None
    return list(said)


def _trims(draft: Draft, work: Work) -> list[str]:
    write = draft.notation
    found: dict[tuple[str, str], dict[str, None]] = {}
    for part, feature in work.features:
        if isinstance(feature, LeftOn):
            end = AXIS_OF[feature.face] == part.grain
            size = f"{write.both(part.length if end else part.width)} {'long' if end else 'wide'}"
            key = (f"{part.name}: trim it to {size}, {write.both(feature.amount)} off", "end" if end else "edge")
            found.setdefault(key, {})[feature.face] = None
    return [
        f"{words} the {listed(faces)} {kind if len(faces) == 1 else kind + 's'}."
        for (words, kind), faces in found.items()
    ]


