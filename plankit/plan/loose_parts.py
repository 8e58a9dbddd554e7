"""Which loose parts a step works on, and how each looks when it is done: for the step's drawing."""

from dataclasses import replace

from plankit.drawing.figures_work import MOST, Worked
from plankit.parts import Banding, Feature, Part, Taper
from plankit.plan.facts import Draft
from plankit.plan.work import Work, labels
from plankit.plan.work_when import When, when
from plankit.stock import Lumber


def loose_parts(draft: Draft, work: Work) -> tuple[Worked, ...]:
    """Return each kind of part that a step shapes, bands or glues up before it is put to others.

    Mirror images are kinds of their own, but where they only get the same banding. Nothing where a part is in
    place already, or where there are too many.
    """
    known, number = when(draft), work.step.number
    done: dict[str, list[Feature]] = {part.id: [] for part in (*work.glues_up, *work.trims)}
    for part, feature in work.features:
        done.setdefault(part.id, []).append(feature)
    if any(known.arrivals.get(part_id, number) < number for part_id in done):
        return ()
    found = []
    for label, parts in _kinds(draft, done):
        first = parts[0]
        cut = tuple(done[first.id])
        found.append(
            Worked(
                _after(first, known, number),
                label,
                tuple(part.name for part in parts),
                cut,
                any(part.id == first.id for part in work.glues_up),
                any(part.id == first.id for part in work.trims),
                _held(first, cut, work),
            )
        )
    return tuple(found) if len(found) <= MOST else ()


def _kinds(draft: Draft, done: dict[str, list[Feature]]) -> list[tuple[str, list[Part]]]:
    """Parts of one shape and hand, with their label, in the order of the labels."""
    groups, _ = labels(draft)
    found = []
    for group in groups:
        first, other = ([part for part in hand if part.id in done] for hand in (group.parts, group.other))
        if first and other and _alike(done[first[0].id], done[other[0].id]):
            first, other = [*first, *other], []
        found += [(group.label, parts) for parts in (first, other) if parts]
    return found


def _alike(one: list[Feature], other: list[Feature]) -> bool:
    """Whether the same is done to both hands: banding on edges of the same name."""
    return all(isinstance(feature, Banding) for feature in one) and one == other


def _held(part: Part, done: tuple[Feature, ...], work: Work) -> bool:
    """Whether a tapered piece is parted off its stock in the same step, so that there is something to clamp."""
    tapered = any(isinstance(feature, Taper) for feature in done)
    return tapered and isinstance(part.stock, Lumber) and "crosscut" in work.step.does


def _after(part: Part, known: When, number: int) -> Part:
    """A part as it is after a step, before it leans with its group."""
    features = tuple(
        feature for n, feature in enumerate(part.features) if known.features.get((part.id, n), number + 1) <= number
    )
    return replace(part, features=features, leans=())
