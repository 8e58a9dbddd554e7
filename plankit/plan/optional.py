"""The plan without its optional steps: what they bring, cost and take falls away."""

from dataclasses import replace

from plankit.build import Build
from plankit.drawing.words import listed
from plankit.parts import Banding, Part
from plankit.plan.facts import Draft
from plankit.plan.work_when import When, when


def optional_steps(draft: Draft) -> frozenset[int]:
    """Return the numbers of the optional steps."""
    return frozenset(step.number for step in draft.steps if step.optional)


def only_in(draft: Draft, steps: frozenset[int]) -> str:
    """Return "with step 4, optional" for steps that are all optional; "" where one of them is not, or there is none."""
    if not steps or not steps <= optional_steps(draft):
        return ""
    return f"with {step_words(steps)}, optional"


def step_words(numbers: frozenset[int]) -> str:
    """Return "step 4" or "steps 4 and 7"."""
    said = listed(str(number) for number in sorted(numbers))
    return f"step {said}" if len(numbers) == 1 else f"steps {said}"


def without_optional(draft: Draft) -> Draft | None:
    """Return the draft for one who leaves the optional steps out: its build alone is smaller, and it has no steps.

    None where no step is optional.
    """
    left_out = optional_steps(draft)
    if not left_out:
        return None
    return replace(draft, build=_build(draft, when(draft), left_out), steps=())


def _build(draft: Draft, known: When, left_out: frozenset[int]) -> Build:
    build = draft.build
    gone = {part_id for part_id, step in known.arrivals.items() if step in left_out}
    made = {number for step in draft.steps if step.number in left_out for number in step.joints}
    parts = tuple(_bare(part, known, left_out) for part in build.parts if part.id not in gone)
    return replace(
        build,
        parts=parts,
        joints=tuple(
            joint
            for number, joint in enumerate(build.joints)
            if number not in made and joint.holds not in gone and joint.to not in gone
        ),
        items=tuple(
            item
            for number, item in enumerate(build.items)
            if known.items.get(number) not in left_out and not gone & set(item.on)
        ),
    )


def _bare(part: Part, known: When, left_out: frozenset[int]) -> Part:
    """A part without what is done to it in optional steps."""
    kept = tuple(
        feature
        for number, feature in enumerate(part.features)
        if known.features.get((part.id, number)) not in left_out
        and not (isinstance(feature, Banding) and feature.optional)
    )
    return part if len(kept) == len(part.features) else replace(part, features=kept)
