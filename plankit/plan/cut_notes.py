"""What stands beside a cutting drawing about pieces that are not cut to their final size with the others."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from plankit.drawing.words import listed, plural, within
from plankit.parts import CompoundMitre, LeftOn, Mitre, Part
from plankit.plan.facts import Draft
from plankit.plan.work_when import FIRST_CUTS, when


def fit_notes(draft: Draft, names: Iterable[str]) -> str:
    """Say which of the pieces on a board or sheet are measured first, and when they get their final size.

    names  of the pieces there, as the cutting list calls them ("Side / Divider")
    """
    called = _called(names)
    steps = when(draft).fitted
    found: dict[int | None, dict[str, None]] = {}
    for part in draft.build.parts:
        if part.fit_to and part.name in called:
            found.setdefault(steps.get(part.id), {})[part.name] = None
    return " ".join(_said(list(parts), step) for step, parts in found.items())


def later_notes(draft: Draft, names: Iterable[str]) -> str:
    """Say which of the pieces on a board or sheet a later step parts off, so that they stay in one piece till then.

    names  of the pieces there, as the cutting list calls them
    """
    called = _called(names)
    found: dict[int, dict[str, list[str]]] = {}
    for step in draft.steps:
        if "crosscut" not in step.does or set(step.does) & FIRST_CUTS:
            continue
        for part_id in step.works_on:
            part = draft.build.part(part_id)
            if part.name in called and not part.fit_to and part.glue_up is None and not _is_left_on(part):
                found.setdefault(step.number, {}).setdefault(part.name, []).append(part_id)
    return " ".join(_not_yet(step, parts) for step, parts in found.items())


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
        f"The length of the {said} here runs to the long points of the miters: miter one end after the other off the "
        "stick, and cut nothing square first."
    )


def _called(names: Iterable[str]) -> set[str]:
    return {name for piece in names for name in piece.split(" / ")}


def _said(names: list[str], step: int | None) -> str:
    at = f"in step {step}" if step else "when it is in place"
    its, them = ("its size here is", "it") if len(names) == 1 else ("their sizes here are", "them")
    return (
        f"Measure first: {listed(within(name) for name in names)}, {its} nominal; leave {them} too large where there "
        f"is room, and cut {them} to what you measure {at}."
    )
