"""What stands beside a cutting drawing about pieces that are not cut to their final size with the others."""

from collections.abc import Iterable

from plankit.drawing.words import listed, within
from plankit.plan.facts import Draft
from plankit.plan.work_when import when


def fit_notes(draft: Draft, names: Iterable[str]) -> str:
    """Say which of the pieces on a board or sheet are measured first, and when they get their final size.

    names  of the pieces there, as the cutting list calls them ("Side / Divider")
    """
    called = {name for piece in names for name in piece.split(" / ")}
    steps = when(draft).fitted
    found: dict[int | None, dict[str, None]] = {}
    for part in draft.build.parts:
        if part.fit_to and part.name in called:
            found.setdefault(steps.get(part.id), {})[part.name] = None
    return " ".join(_said(list(parts), step) for step, parts in found.items())


def _said(names: list[str], step: int | None) -> str:
    at = f"in step {step}" if step else "when it is in place"
    its, them = ("its size here is", "it") if len(names) == 1 else ("their sizes here are", "them")
    return (
        f"Measure first: {listed(within(name) for name in names)}, {its} nominal; leave {them} too large where there "
        f"is room, and cut {them} to what you measure {at}."
    )
