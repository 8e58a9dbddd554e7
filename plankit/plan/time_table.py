"""The timeline as a table: on which day each step begins, how long it takes, and what must dry after it."""

from typing import Any

from plankit.plan.facts import Draft
from plankit.plan.timeline import WORKING_DAY, Stretch, Timeline, timeline
from plankit.plan.waiting import PAUSES
from plankit.plan.work_words import runs
from plankit.units import Notation


def time_table(draft: Draft) -> dict[str, Any]:
    """Return the timeline as rows with a summary; no rows where the steps do not say how long they take."""
    whole = timeline(draft)
    if whole is None:
        return {"rows": [], "summary": ""}
    rows = [_row(draft.notation, group) for group in _groups(whole.stretches)]
    if draft.coating is not None:
        coats = draft.notation.count(draft.coating.coats, "coat")
        dries = f"{draft.notation.minutes(PAUSES['finish'])} each"
        rows.append(
            {"day": "", "step": "", "what": f"{draft.coating.product}, {coats}", "work": "", "dries": dries}
        )
    return {"rows": rows, "summary": _summary(draft, whole)}


def _groups(stretches: tuple[Stretch, ...]) -> list[list[Stretch]]:
    """Gather steps that follow one another on one day with nothing to wait for between them."""
    groups: list[list[Stretch]] = []
    for stretch in stretches:
        last = groups[-1][-1] if groups else None
        if last and last.day == stretch.day and last.pause == 0 and not stretch.idle:
            groups[-1].append(stretch)
        else:
            groups.append([stretch])
    return groups


def _row(write: Notation, group: list[Stretch]) -> dict[str, str]:
    last = group[-1]
    waits = "as long as it takes" if last.pause is None else write.minutes(last.pause) if last.pause else ""
    return {
        "day": f"day {group[0].day}",
        "step": ", ".join(runs([stretch.number for stretch in group])),
        "what": "; ".join(stretch.title for stretch in group),
        "work": write.minutes(sum(stretch.minutes for stretch in group)),
        "dries": waits,
    }


def _summary(draft: Draft, whole: Timeline) -> str:
    write = draft.notation
    idle = sum(stretch.idle for stretch in whole.stretches)
    days = write.count(whole.days, "day")
    said = f"{write.minutes(whole.work)} of work over {days}, for one person who works {WORKING_DAY // 60} hours a day"
    said += f", and {write.minutes(idle)} of waiting with nothing else to do" if idle else ""
    left_out = ", optional steps left out" if any(step.optional for step in draft.steps) else ""
    finish = ", the last coat drying included" if draft.coating is not None else ""
    return f"{said}{finish}{left_out}. Drying times are common practice; the label comes first."
