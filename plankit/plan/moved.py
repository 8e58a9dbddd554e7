"""What is turned, laid down or carried in a step, and the caution where that is more than one should lift."""

import re

from plankit.build import weight_of
from plankit.build.held import held_together
from plankit.parts import Part
from plankit.plan.facts import Draft, Step
from plankit.plan.work import Work
from plankit.plan.work_when import when
from plankit.shop import Caution

_THINGS = ("it", "the frame", "the case", "the carcass", "the piece", "the whole", "the unit")
_TURNED = ("below", "back")
"""Where one looks from when what is there has been turned over or laid on its front."""


def lifting_cautions(draft: Draft, work: Work) -> tuple[Caution, ...]:
    """Return the caution of a step that moves what is joined by then, where that weighs more than one should lift."""
    if not _moves(draft, work.step):
        return ()
    joined = _heaviest(draft, work)
    mass, limit = weight_of(joined), draft.shop.lifting_limit
    if not joined or mass.kg <= limit.kg:
        return ()
    write = draft.notation
    text = (
        f"What is together by now weighs about {write.mass(mass)}; that strains the back, and crushes feet when it "
        "slips. Lift, turn and carry it with a second person, and clear the floor first."
    )
    return (
        Caution("caution", "lifting", text, f"the lifting limit of {draft.shop.name}, {write.mass(limit)}"),
    )


def _moves(draft: Draft, step: Step) -> bool:
    """Tell whether a step turns, lays or carries what is there: by where it is seen from, and by its words."""
    if step.brings and step.view and any(way in step.view for way in _TURNED):
        return True
    own = [f"the {word}" for word in draft.facts.title.casefold().split()[-1:]]
    things = "|".join(re.escape(thing) for thing in (*_THINGS, *own))
    said = f"{step.title}. {step.note}".casefold()
    return bool(re.search(rf"\b(?:turn|lay|carry|lift|stand|set) (?:{things})\b", said))


def _heaviest(draft: Draft, work: Work) -> tuple[Part, ...]:
    """The heaviest of what is joined, or hung on hinges, when a step is done, as far as that step has it in hand."""
    build, known = draft.build, when(draft)
    steps = draft.steps[: work.step.number]
    here = [part_id for step in steps for part_id in step.brings]
    pairs = [
        (build.joints[number].holds, build.joints[number].to) for step in steps for number in step.joints
    ]
    pairs += [
        (item.on[0], item.on[-1])
        for number, item in enumerate(build.items)
        if known.items.get(number, len(draft.steps) + 1) <= work.step.number
    ]
    step = work.step
    hands = {*step.brings, *step.works_on, *step.onto} or set(here)
    groups = held_together(here, pairs)
    found = (tuple(build.part(part_id) for part_id in sorted(ids)) for ids in groups if ids & hands)
    return max(found, key=lambda parts: weight_of(parts).kg, default=())
