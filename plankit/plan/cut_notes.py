"""What stands beside a cutting drawing about pieces that are not cut to their final size with the others."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from plankit.drawing.sawn_words import setting_words
from plankit.drawing.words import listed, plural, within
from plankit.parts import CompoundMitre, LeftOn, Mitre, Part
from plankit.plan.facts import Draft
from plankit.plan.work_when import FIRST_CUTS, when
from plankit.units import Length, Notation


def fit_notes(draft: Draft, names: Iterable[str], spared: Mapping[str, tuple[Length, ...]]) -> str:
    """Say which of the pieces on a board or sheet are measured first, and when they get their final size.

    names   of the pieces there, as the cutting list calls them ("Side / Divider")
    spared  what each of them, by its part's id, has to spare here: in length, and in width too where it is laid flat
    """
    called = _called(names)
    steps = when(draft).fitted
    found: dict[tuple[int | None, tuple[Length, ...]], dict[str, None]] = {}
    for part in draft.build.parts:
        if part.fit_to and part.name in called:
            found.setdefault((steps.get(part.id), spared.get(part.id, ())), {})[part.name] = None
    return " ".join(_said(list(parts), step, _to_spare(more, draft.notation)) for (step, more), parts in found.items())


def _to_spare(more: tuple[Length, ...], write: Notation) -> str:
    """Say what pieces have to spare: "1/2 in to spare each way", "1/2 in to spare in length"; "" for nothing."""
    ways = [(length, way) for length, way in zip(more, ("length", "width"), strict=False) if length.mm]
    if not ways:
        return ""
    if len(ways) == 2 and ways[0][0].mm == ways[1][0].mm:
        return f"{write.both(ways[0][0])} to spare each way"
    return " and ".join(f"{write.both(length)} to spare in {way}" for length, way in ways)


def strip_notes(draft: Draft, names: Iterable[str]) -> str:
    """Say which of the pieces on a board or sheet come from one strip, in their order.

    names  of the pieces there, as the cutting list calls them
    """
    called = _called(names)
    strips: dict[str, Counter[str]] = {}
    for part in draft.build.parts:
        if part.strip and part.name in called:
            strips.setdefault(part.strip, Counter())[within(part.name)] += 1
    return " ".join(
        f"One strip holds the {listed(plural(name) if many > 1 else name for name, many in parts.items())}: mark "
        "them in their order before you part them, so that the grain runs on from one to the next."
        for parts in strips.values()
    )


def later_notes(draft: Draft, names: Iterable[str]) -> str:
    """Say which of the pieces on a board or sheet a later step parts off, so that they stay in one piece till then.

    Only a step that has a piece in hand before any other does parts it off: what is bored, joined or in place by
    then was cut out long before.

    names  of the pieces there, as the cutting list calls them
    """
    return " ".join(_not_yet(step, parts) for step, parts in parted_later(draft, names).items())


def parted_later(draft: Draft, names: Iterable[str]) -> dict[int, dict[str, list[str]]]:
    """Return the steps that part pieces off, with the names of these pieces and the ids of their parts."""
    called = _called(names)
    begun: set[str] = set()
    found: dict[int, dict[str, list[str]]] = {}
    for step in draft.steps:
        if set(step.does) & FIRST_CUTS:
            continue
        for part_id in step.works_on if "crosscut" in step.does else ():
            part = draft.build.part(part_id)
            if part.name in called and part_id not in begun and _is_parted_off(part):
                found.setdefault(step.number, {}).setdefault(part.name, []).append(part_id)
        begun |= {*step.works_on, *step.brings}
    return found


def _is_parted_off(part: Part) -> bool:
    """Whether a later crosscut gives it its length, and does not trim it or fit it."""
    return not part.fit_to and part.glue_up is None and not _is_left_on(part)


def _not_yet(step: int, parts: Mapping[str, Sequence[str]]) -> str:
    said = [plural(within(name)) if len(ids) > 1 else within(name) for name, ids in parts.items()]
    return f"Not yet: leave the {listed(said)} uncut here; step {step} parts them off."


def _is_left_on(part: Part) -> bool:
    """Whether it is cut too large first: that its later cut trims it is told with its size."""
    return any(isinstance(feature, LeftOn) for feature in part.features)


def miter_notes(draft: Draft, names: Iterable[str]) -> str:
    """Say which of the pieces on a board are cut to length by their miters, so that none is cut square first."""
    called = _called(names)
    mitered = Counter(
        within(part.name)
        for part in draft.build.parts
        if part.name in called and any(isinstance(one, Mitre | CompoundMitre) for one in part.features)
    )
    if not mitered:
        return ""
    said = listed(plural(name) if count > 1 else name for name, count in mitered.items())
    return (
        f"The length of the {said} here runs to the long points of the miters: cut them one after the other off the "
        "stick, none of them square first."
    )


def miter_settings(draft: Draft, names: Mapping[str, str]) -> dict[str, str]:
    """Return how the saw is set for the pieces whose two ends are mitered alike: "saw turned 45°", by their labels.

    names  what each label's parts are called ("Side / Divider")
    """
    found = {}
    for label, name in names.items():
        parts = [part for part in draft.build.parts if part.name in _called([name])]
        said = {
            tuple(setting_words(part, one, draft.notation) for one in part.features if isinstance(one, Mitre))
            for part in parts
        }
        if len(said) == 1 and len(ends := said.pop()) == 2 and len(set(ends)) == 1:
            found[label] = ends[0]
    return found


def _called(names: Iterable[str]) -> set[str]:
    return {name for piece in names for name in piece.split(" / ")}


def _said(names: list[str], step: int | None, spare: str) -> str:
    at = f"in step {step}" if step else "when it is in place"
    its, them = ("its size here is", "it") if len(names) == 1 else ("their sizes here are", "them")
    more = f" with {spare}" if spare else f"; leave {them} too large where there is room"
    end = ";" if spare else ", and"
    return (
        f"Measure first: {listed(within(name) for name in names)}, {its} nominal{more}{end} cut {them} to what you "
        f"measure {at}."
    )
