"""The work in its time: what can be done while something dries, and how long the whole takes from start to finish.

One person works through the steps in their order. Nobody waits for glue who can do a later step meanwhile. The days
are working days of eight hours; what dries goes on drying over night.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from plankit.build import Build
from plankit.plan.facts import Coating, Draft, Step
from plankit.plan.waiting import GLUE_AND_SCREWS, PAUSES, WAITS
from plankit.plan.work import Work, work_of

WORKING_DAY = 8 * 60
"""Minutes of work in a day (common practice)."""
DAY = 24 * 60
RUN_OVER = 20
"""Nobody leaves so many minutes of a step, or fewer, for the next day (common practice)."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """One step in its time, or one coat of the finish.

    number    of the step; 0 for a coat that no step puts on
    title     of the step
    worked    the working days on which it is done, from 1, each with the minutes of work on it
    pause     minutes that its parts are left alone afterwards; None where nobody says how long
    idle      minutes with nothing to do before it begins, within working hours
    meanwhile numbers of the later steps that can be done while it dries
    screwed   whether it is glued, and screws hold it so that nobody waits for the glue
    """

    number: int
    title: str
    worked: tuple[tuple[int, int], ...]
    pause: int | None
    idle: int
    meanwhile: tuple[int, ...] = ()
    screwed: bool = False

    @property
    def day(self) -> int:
        """The working day on which it begins, from 1."""
        return self.worked[0][0]

    @property
    def minutes(self) -> int:
        """Minutes of work."""
        return sum(minutes for _, minutes in self.worked)


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


@dataclass(frozen=True, slots=True)
class _Job:
    """A step, or one coat of the finish.

    key    its place in the order: the step's number, and which coat it is
    needs  the keys of what must be done and dry before it
    coat   whether it is a coat: nobody sits and waits for it to dry
    """

    key: tuple[int, int]
    title: str
    minutes: int
    rests: int | None
    needs: tuple[tuple[int, int], ...]
    number: int
    coat: bool = False
    screwed: bool = False


def timeline(draft: Draft, *, optional: bool = False) -> Timeline | None:
    """Return the steps in their time; None where the steps do not say how long they take.

    optional  whether the optional steps are done too
    """
    steps = tuple(step for step in draft.steps if optional or not step.optional)
    if not steps or any(not step.minutes for step in steps):
        return None
    jobs = _jobs(draft, steps)
    coats = {job.key for job in jobs if job.coat}
    clock = _Clock()
    free_at: dict[tuple[int, int], int] = {}
    stretches: list[Stretch] = []
    apart = meanwhile(draft)
    done = {step.number for step in steps}
    waiting = list(jobs)
    while waiting:
        job = _next(waiting, free_at, clock.now)
        waiting.remove(job)
        last = max(job.needs, key=lambda key: free_at[key], default=None)
        idle = clock.wait_until(free_at[last] if last is not None else 0)
        worked = clock.work(job.minutes)
        free_at[job.key] = clock.now + (job.rests or 0)
        beside = tuple(number for number in apart.get(job.number, ()) if number in done)
        stretches.append(
            Stretch(
                job.number, job.title, worked, job.rests, 0 if last in coats else idle, beside, job.screwed
            )
        )
    return Timeline(tuple(stretches), sum(job.minutes for job in jobs), max(free_at.values()) // DAY + 1)


def _jobs(draft: Draft, steps: Sequence[Step]) -> list[_Job]:
    """The steps and the coats, each with what it needs, in the order in which they are told."""
    works = work_of(draft)
    hands = _hands(draft.build, works)
    finishing, coating = draft.finishing, draft.coating
    jobs: list[_Job] = []
    coats = _coats(coating, coating.after) if coating and finishing is None else []
    for step in steps:
        if coating and coats and step.number > coating.after:
            jobs += _in_order(jobs, coats)
            coats = []
        work = works[step.number - 1]
        if coating and step == finishing:
            jobs += _in_order(jobs, _coats(coating, step.number, step))
            continue
        needs = [
            job.key
            for job in jobs
            if job.coat or hands[job.number] & hands[step.number]
        ]  # fmt: skip
        rests = pause_after(work)
        key = (step.number, 0)
        jobs.append(
            _Job(
                key,
                step.title,
                step.minutes,
                rests,
                tuple(needs),
                step.number,
                screwed=holds_with_screws(work),
            )
        )
    return [*jobs, *_in_order(jobs, coats)]


def _coats(coating: Coating, number: int, step: Step | None = None) -> list[_Job]:
    """One job for each coat; the first takes what the minutes leave over."""
    minutes = step.minutes if step else coating.minutes
    each = minutes // coating.coats
    title = step.title if step else coating.product
    return [
        _Job(
            (number, coat),
            f"{title}, coat {coat} of {coating.coats}" if coating.coats > 1 else title,
            each + (minutes - each * coating.coats) * (coat == 1),
            PAUSES["finish"],
            (),
            step.number if step else 0,
            coat=True,
        )
        for coat in range(1, coating.coats + 1)
    ]


def _in_order(before: Sequence[_Job], coats: Sequence[_Job]) -> list[_Job]:
    """The coats, the first after all that comes before it and each other one after the last."""
    found: list[_Job] = []
    for coat in coats:
        needs = tuple(job.key for job in (found[-1:] or before))
        found.append(replace(coat, needs=needs))
    return found


def pause_after(work: Work) -> int | None:
    """Return how long a step's parts are left alone; what screws hold need not wait for its glue."""
    return 0 if not work.step.waits or holds_with_screws(work) else work.step.pause


def holds_with_screws(work: Work) -> bool:
    """Tell whether a step waits for its glue only as far as its screws do not hold what is glued."""
    screwed = any("screw" in fastener.spec.kind for fastener in work.fasteners)
    return screwed and work.step.waits == WAITS["glue"]


def waits_words(work: Work) -> str:
    """Say what must set or dry after a step; screws are spoken of only where there are some."""
    return GLUE_AND_SCREWS if holds_with_screws(work) else work.step.waits


def _next(waiting: list[_Job], free_at: dict[tuple[int, int], int], now: int) -> _Job:
    """The first job whose parts are ready; the first that will be where none is."""
    able = [job for job in waiting if all(key in free_at for key in job.needs)]
    return min(able, key=lambda job: (max([now, *(free_at[key] for key in job.needs)]), job.key))


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

    def work(self, minutes: int) -> tuple[tuple[int, int], ...]:
        """Work so long, over several days where it must be; return the days, from 1, each with its minutes.

        What is nearly done at the end of a day is done.
        """
        self._into_hours()
        days = {self.now // DAY + 1: 0}
        while minutes:
            self._into_hours()
            left = WORKING_DAY - self.now % DAY
            gone = minutes if minutes - left <= RUN_OVER else left
            day = self.now // DAY + 1
            days[day] = days.get(day, 0) + gone
            self.now += gone
            minutes -= gone
        return tuple(days.items())

    def _into_hours(self) -> None:
        if self.now % DAY >= WORKING_DAY:
            self.now = (self.now // DAY + 1) * DAY
