"""The work in its time: what can be done while something dries, and how long the whole takes from start to finish.

One person works through the steps in their order. Nobody waits for glue who can do a later step meanwhile. The days
are working days of eight hours; what dries goes on drying over night.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from plankit.build import Build
from plankit.plan.facts import Draft, Step
from plankit.plan.waiting import PAUSES, WAITS
from plankit.plan.work import Work, work_of

WORKING_DAY = 8 * 60
"""Minutes of work in a day (common practice)."""
DAY = 24 * 60


@dataclass(frozen=True, slots=True)
class Stretch:
    """One step in its time.

    number    of the step; one more than the last for the finish
    title     of the step
    day       the working day on which it begins, from 1
    minutes   of work
    pause     minutes that its parts are left alone afterwards; None where nobody says how long
    idle      minutes with nothing to do before it begins, within working hours
    meanwhile numbers of the later steps that can be done while it dries
    """

    number: int
    title: str
    day: int
    minutes: int
    pause: int | None
    idle: int
    meanwhile: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Timeline:
    """All steps in their time.

    stretches  in the order in which they are done, which is that of the steps but for what is done meanwhile
    work       minutes of work together
    days       working days from start to finish, what dries last included
    """

    stretches: tuple[Stretch, ...]
    work: int
    days: int


def meanwhile(draft: Draft) -> dict[int, tuple[int, ...]]:
    """Return, for each step that something dries after, the later steps that touch nothing of what dries."""
    hands = _hands(draft.build, work_of(draft))
    found = {}
    for step in draft.steps:
        if step.waits:
            free = _free(step, draft.steps, hands)
            if free:
                found[step.number] = free
    return found


def _free(step: Step, steps: Iterable[Step], hands: dict[int, frozenset[str]]) -> tuple[int, ...]:
    """Later steps that neither touch what dries nor need a step that does."""
    shut = set(hands[step.number])
    free = []
    for later in steps:
        if later.number <= step.number:
            continue
        if hands[later.number] & shut:
            shut |= hands[later.number]
        else:
            free.append(later.number)
    return tuple(free)


def _hands(build: Build, works: Iterable[Work]) -> dict[int, frozenset[str]]:
    """The parts that each step moves: those it names, and all that is joined to them by then."""
    joined: dict[str, set[str]] = {part.id: {part.id} for part in build.parts}
    found = {}
    for work in works:
        step = work.step
        named = {*step.brings, *step.works_on, *step.onto, *(i for item in work.items for i in item.on)}
        for joint in work.joints:
            named |= {joint.holds, joint.to}
            both = joined[joint.holds] | joined[joint.to]
            for part_id in both:
                joined[part_id] = both
        found[step.number] = frozenset(other for part_id in named for other in joined[part_id])
    return found


def timeline(draft: Draft, *, optional: bool = False) -> Timeline | None:
    """Return the steps in their time; None where the steps do not say how long they take.

    optional  whether the optional steps are done too
    """
    steps = tuple(step for step in draft.steps if optional or not step.optional)
    if not steps or any(not step.minutes for step in steps):
        return None
    works = work_of(draft)
    hands = _hands(draft.build, works)
    needs = {step.number: _needed(step, steps, hands) for step in steps}
    clock = _Clock()
    free_at: dict[int, int] = {}
    stretches: list[Stretch] = []
    waiting = list(steps)
    apart = meanwhile(draft)
    while waiting:
        step = _next(waiting, needs, free_at, clock.now)
        waiting.remove(step)
        idle = clock.wait_until(max((free_at[number] for number in needs[step.number]), default=0))
        began = clock.work(step.minutes)
        rests = pause_after(works[step.number - 1])
        free_at[step.number] = clock.now + (rests or 0)
        stretches.append(
            Stretch(step.number, step.title, began, step.minutes, rests, idle,
                    tuple(n for n in apart.get(step.number, ()) if any(n == other.number for other in steps)))
        )  # fmt: skip
    ready = max(free_at.values())
    if draft.coating is not None:
        ready = max(ready, clock.now) + PAUSES["finish"] * draft.coating.coats
    return Timeline(tuple(stretches), sum(step.minutes for step in steps), ready // DAY + 1)


def pause_after(work: Work) -> int | None:
    """Return how long a step's parts are left alone; what screws hold need not wait for its glue."""
    step = work.step
    screwed = any("screw" in fastener.spec.kind for fastener in work.fasteners)
    return 0 if not step.waits or (screwed and step.waits == WAITS["glue"]) else step.pause


def _needed(step: Step, steps: Iterable[Step], hands: dict[int, frozenset[str]]) -> tuple[int, ...]:
    """The earlier steps that something of this one went through."""
    return tuple(s.number for s in steps if s.number < step.number and hands[s.number] & hands[step.number])


def _next(waiting: list[Step], needs: dict[int, tuple[int, ...]], free_at: dict[int, int], now: int) -> Step:
    """The first step whose parts are ready; the first that will be where none is."""
    able = [step for step in waiting if all(number in free_at for number in needs[step.number])]
    return min(able, key=lambda s: (max([now, *(free_at[n] for n in needs[s.number])]), s.number))


class _Clock:
    """Time since the first morning, in minutes; work goes on within working hours alone."""

    def __init__(self) -> None:
        self.now = 0

    def wait_until(self, ready: int) -> int:
        """Go on to a moment; return how much working time went by with nothing to do."""
        idle = 0
        while self.now < ready:
            left = WORKING_DAY - self.now % DAY
            if left > 0:
                gone = min(left, ready - self.now)
                idle += gone
                self.now += gone
            else:
                self.now = min(ready, (self.now // DAY + 1) * DAY)
        return idle

    def work(self, minutes: int) -> int:
        """Work so long, over several days where it must be; return the day it begins on, from 1."""
        self._into_hours()
        began = self.now // DAY + 1
        while minutes:
            self._into_hours()
            gone = min(minutes, WORKING_DAY - self.now % DAY)
            self.now += gone
            minutes -= gone
        return began

    def _into_hours(self) -> None:
        if self.now % DAY >= WORKING_DAY:
            self.now = (self.now // DAY + 1) * DAY
