"""Cautions where they matter: general ones at the front, each tool's at the step that first uses it."""

from dataclasses import dataclass

from plankit.drawing.words import listed
from plankit.plan.facts import Draft
from plankit.plan.moved import lifting_cautions
from plankit.plan.work import FINISHING, Work, tools_for
from plankit.plan.work_when import FIRST_CUTS
from plankit.shop import Caution, general_cautions
from plankit.shop.tool import SIGNALS

_ANY_FINISH = ("finish", "oily rags")
"""What is warned of where nobody says what the finish is."""


@dataclass(frozen=True, slots=True)
class StepCautions:
    """What a step warns of.

    here   cautions to read now, in full
    again  a sentence that points back to those read in earlier steps; "" where there are none
    """

    here: tuple[Caution, ...]
    again: str = ""


def step_cautions(
    draft: Draft, works: tuple[Work, ...], *, heavy_stock: bool = False
) -> tuple[StepCautions, ...]:
    """Return each step's cautions.

    heavy_stock  whether a sheet or a board as it is bought weighs more than one should lift
    raises  PlanError for a tool that no caution is known for; a plan is not made without them
    """
    first: dict[str, int] = {}
    found = []
    for work in works:
        number = work.step.number
        here: list[Caution] = [
            caution for topic in _topics(draft, work, first, heavy_stock) for caution in _topic(topic)
        ]
        again: dict[int, list[str]] = {}
        for name in work.tool_names:
            cautions = draft.shop.cautions((name,))
            if first.setdefault(name, number) == number:
                here += cautions
            elif cautions:
                again.setdefault(first[name], []).append(name.lower())
        here += (*work.step.cautions, *lifting_cautions(draft, work))
        found.append(StepCautions(_graver_first(here), _pointing_back(again)))
    return tuple(found)


def _topics(draft: Draft, work: Work, first: dict[str, int], heavy_stock: bool) -> list[str]:
    """Lifting where heavy stock is cut up, glue where it is first spread, the finish where it is first put on."""
    topics = []
    operations = {operation for operation, _ in work.tools}
    if "glue" in operations and first.setdefault("glue (topic)", work.step.number) == work.step.number:
        topics.append("glue")
    if heavy_stock and FIRST_CUTS & set(work.step.does) and "lifting (topic)" not in first:
        first["lifting (topic)"] = work.step.number
        topics.append("lifting")
    if any(item.kind == "wall fixing" for item in work.items):
        topics.append("wires and pipes")
    coats = "finish" in operations and first.setdefault("finish (topic)", work.step.number) == work.step.number
    if coats or (draft.coating is not None and work.step == draft.finishing):
        topics += draft.coating.topics if draft.coating is not None else _ANY_FINISH
    return topics


def _topic(name: str) -> tuple[Caution, ...]:
    always = general_cautions()
    return tuple(caution for caution in general_cautions(name) if caution not in always)


def _graver_first(cautions: list[Caution]) -> tuple[Caution, ...]:
    return tuple(sorted(dict.fromkeys(cautions), key=lambda caution: SIGNALS.index(caution.signal)))


def _pointing_back(again: dict[int, list[str]]) -> str:
    if not again:
        return ""
    said = [f"step {number} ({', '.join(names)})" for number, names in sorted(again.items())]
    return f"The cautions of {listed(said)} hold here too."


def finish_cautions(draft: Draft, works: tuple[Work, ...]) -> StepCautions:
    """Return the cautions of finishing: vapors and rags, and the tools that no step has used."""
    if draft.coating is None or draft.finishing is not None:
        return StepCautions(())
    first = {name: work.step.number for work in reversed(works) for name in work.tool_names}
    here = [caution for topic in draft.coating.topics for caution in _topic(topic)]
    again: dict[int, list[str]] = {}
    for name in dict.fromkeys(name for operation in FINISHING for name in tools_for(draft.shop, operation)):
        if name in first:
            again.setdefault(first[name], []).append(name.lower())
        else:
            here += draft.shop.cautions((name,))
    again = {
        number: names for number, names in again.items() if any(draft.shop.cautions((n,)) for n in names)
    }
    return StepCautions(_graver_first(here), _pointing_back(again))


def front_cautions(draft: Draft) -> tuple[Caution, ...]:
    """Return the cautions at the front: those of every workshop, and the author's own for the whole plan."""
    return tuple(dict.fromkeys((*general_cautions(), *draft.cautions)))


def caution_data(caution: Caution) -> dict[str, str]:
    """Return a caution as plain data."""
    return {
        "signal": caution.signal, "text": caution.text, "about": caution.about, "source": caution.source,
    }  # fmt: skip
