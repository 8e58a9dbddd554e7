"""The timeline as a table: what is done on which day, how long it takes, and what must dry after it."""

from dataclasses import dataclass
from typing import Any

from plankit.plan.facts import Draft
from plankit.plan.timeline import WORKING_DAY, Stretch, Timeline, timeline
from plankit.plan.work_words import runs
from plankit.units import Notation


@dataclass(frozen=True, slots=True)
class _Stint:
    """What is done of a step, or of a coat, on one day.

    first, last  whether it is begun then, and whether it is ended
    """

    stretch: Stretch
    day: int
    minutes: int
    first: bool
    last: bool

    @property
    def words(self) -> str:
        """Its title, with how much of it is done on this day where that is not all."""
        begun = "" if self.last else ", begun"
        return self.stretch.title + (begun if self.first else ", the rest" if self.last else ", further")


def time_table(draft: Draft) -> dict[str, Any]:
    """Return the timeline as rows with a summary; no rows where the steps do not say how long they take."""
    whole = timeline(draft)
    if whole is None:
        return {"rows": [], "summary": ""}
    return {
        "rows": [_row(draft.notation, group) for group in _groups(_stints(whole))],
        "summary": _summary(draft, whole),
    }


def _stints(whole: Timeline) -> list[_Stint]:
    return [
        _Stint(stretch, day, minutes, place == 0, place == len(stretch.worked) - 1)
        for stretch in whole.stretches
        for place, (day, minutes) in enumerate(stretch.worked)
    ]


def _groups(stints: list[_Stint]) -> list[list[_Stint]]:
    """Gather what follows one another on one day with nothing to wait for between."""
    groups: list[list[_Stint]] = []
    for stint in stints:
        last = groups[-1][-1] if groups else None
        waits = last is not None and last.last and (last.stretch.pause != 0 or last.stretch.screwed)
        coat = last is not None and not (last.stretch.number and stint.stretch.number)
        if last and last.day == stint.day and not waits and not coat and not stint.stretch.idle:
            groups[-1].append(stint)
        else:
            groups.append([stint])
    return groups


def _row(write: Notation, group: list[_Stint]) -> dict[str, str]:
    numbers = [stint.stretch.number for stint in group if stint.stretch.number]
    minutes = sum(stint.minutes for stint in group)
    return {
        "day": f"day {group[0].day}",
        "step": ", ".join(runs(numbers)) if numbers else "finish",
        "what": "; ".join(stint.words for stint in group),
        "work": write.minutes(minutes) if minutes else "",
        "dries": _dries(write, group[-1].stretch) if group[-1].last else "",
    }


def _dries(write: Notation, last: Stretch) -> str:
    if last.screwed:
        return "no wait: screws hold it"
    return "as long as it takes" if last.pause is None else write.minutes(last.pause) if last.pause else ""


def _summary(draft: Draft, whole: Timeline) -> str:
    write = draft.notation
    idle = sum(stretch.idle for stretch in whole.stretches)
    days = write.count(whole.days, "day")
    said = f"{write.minutes(whole.work)} of work over {days}, for one person who works {WORKING_DAY // 60} hours a day"
    said += f", and {write.minutes(idle)} of waiting with nothing else to do" if idle else ""
    left_out = ", optional steps left out" if any(step.optional for step in draft.steps) else ""
    finish = ", the last coat drying included" if draft.coating is not None else ""
    if draft.coating is not None and draft.finishing is None and not draft.coating.minutes:
        finish += ", but not the work of finishing"
    return f"{said}{finish}{left_out}. Drying times are common practice; the label comes first."
