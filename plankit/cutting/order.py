"""The order of cuts: every cut of an answer in the sequence one person makes them, each setting made once where it may.

A cut waits only for the cut its piece comes from. Sheets are first broken down where they lie, one after the other;
then a saw is used as long as anything is ready for it, setting by setting, the setting that serves most cuts first.
"""

from collections import Counter
from collections.abc import Iterable
from copy import copy
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.cutting.dividing import Divider, Draft
from plankit.cutting.job import Job
from plankit.cutting.layout import Cut, Layout
from plankit.cutting.saws import Way

type Setting = tuple[str, str, Fraction]
"""A saw's name, "end" or "edge", and the setting in mm."""

type _Bunch = tuple[int, Setting]
"""Cuts made together: a setting, and the sheet it is measured on where nothing keeps the setting between sheets."""

_TRIED = 150
"""So many cuts of one material are put in order by trying; more, at first sight."""

_RANK: dict[Way, int] = {"guide": 0, "hand": 0, "fence": 1, "stop": 2}


@dataclass(frozen=True, slots=True)
class _Task:
    """One cut that waits: of which layout, and its place among that layout's drafts."""

    layout: int
    place: int
    draft: Draft
    rank: int

    @property
    def setting(self) -> Setting:
        return (self.draft.cut.tool, self.draft.cut.edge[:-2], self.draft.cut.setting)

    @property
    def bunch(self) -> _Bunch:
        """The cuts it is made together with."""
        return (self.layout if self.rank == 0 else -1, self.setting)


def ordered(job: Job, layouts: tuple[Layout, ...]) -> tuple[tuple[Layout, ...], tuple[tuple[int, int], ...]]:
    """Return the layouts with their cuts, and the sequence of all cuts: numbers of the layout and of its cut."""
    ranks = {saw.name: _RANK[saw.way] for saw in job.saws}
    tasks = [
        _Task(number, place, draft, ranks.get(draft.cut.tool, 0))
        for number, layout in enumerate(layouts)
        if layout.tree is not None
        for place, draft in enumerate(Divider(job, layout.kind, layout.tree).drafts)
    ]
    found = tuple(_scheduled(tasks))
    made: dict[int, list[tuple[Draft, int]]] = {number: [] for number in range(len(layouts))}
    sequence = []
    for task, group in found:
        made[task.layout].append((task.draft, group))
        sequence.append((task.layout, len(made[task.layout])))
    return (
        tuple(replace(layout, cuts=_named(made[n], layout.name)) for n, layout in enumerate(layouts)),
        tuple(sequence),
    )


class _Bench:
    """The cuts that can be made now, and those that wait for them."""

    def __init__(self, tasks: Iterable[_Task]) -> None:
        self.waiting = Counter[Setting]()
        self.after: dict[tuple[int, int], list[_Task]] = {}
        self.ready: dict[_Bunch, list[_Task]] = {}
        self.tool, self.count = "", 0
        self.freed: dict[str, set[int]] = {}
        for task in tasks:
            self.waiting[task.setting] += 1
            self.after.setdefault((task.layout, task.draft.of), []).append(task)
        for (_, piece), found in self.after.items():
            for task in found if piece == 0 else ():
                self.ready.setdefault(task.bunch, []).append(task)

    def copy(self) -> "_Bench":
        """Return the same state, to try something out on."""
        made = copy(self)
        made.waiting = self.waiting.copy()
        made.ready = {bunch: list(tasks) for bunch, tasks in self.ready.items()}
        made.freed = {part: set(counts) for part, counts in self.freed.items()}
        return made

    def make(self, bunch: _Bunch) -> list[_Task]:
        """Make all cuts of one setting, those too that become possible by it."""
        self.tool = bunch[1][0]
        self.count += 1
        made: list[_Task] = []
        while bunch in self.ready:
            for task in self.ready.pop(bunch):
                made.append(task)
                if task.draft.cut.frees:
                    self.freed.setdefault(task.draft.cut.frees, set()).add(self.count)
                self.waiting[task.setting] -= 1
                for piece in task.draft.gives:
                    for next_one in self.after.get((task.layout, piece), ()) if piece else ():
                        self.ready.setdefault(next_one.bunch, []).append(next_one)
        return made

    def eager(self) -> _Bunch:
        """Return the setting that comes next at first sight."""
        return min(self.ready, key=lambda one: _eagerness(self.ready[one], self.tool, self.waiting))

    def finish(self) -> tuple[int, int]:
        """Go on at first sight; return how many settings it takes in all, and how many free equal parts apart."""
        while self.ready:
            self.make(self.eager())
        return self.count, sum(len(counts) - 1 for counts in self.freed.values())

    def best(self) -> _Bunch:
        """Return the setting after which fewest others are needed, among those no less urgent than the first.

        Of ways that take as many, the one that cuts equal parts to length with one setting: they come out alike.
        """
        first = self.eager()
        urgent = _eagerness(self.ready[first], self.tool, self.waiting)[:3]
        found = [first]
        for bunch, tasks in self.ready.items():
            if bunch != first and _eagerness(tasks, self.tool, self.waiting)[:3] == urgent:
                found.append(bunch)
        return min(found, key=self._after) if len(found) > 1 else first

    def _after(self, bunch: _Bunch) -> tuple[int, int]:
        tried = self.copy()
        tried.make(bunch)
        return tried.finish()


def _scheduled(tasks: list[_Task]) -> list[tuple[_Task, int]]:
    """Return the cuts in order, each with the number of its setting."""
    bench = _Bench(tasks)
    found: list[tuple[_Task, int]] = []
    group = 0
    while bench.ready:
        group += 1
        bunch = bench.best() if len(tasks) <= _TRIED else bench.eager()
        found += [(task, group) for task in bench.make(bunch)]
    return found


def _eagerness(ready: list[_Task], tool: str, waiting: Counter[Setting]) -> tuple[int, ...]:
    """Compare settings that could come next: the saw in hand, the work where it lies, what needs no return, most."""
    first = ready[0]
    sheet = first.layout if first.rank == 0 else 0
    again = waiting[first.setting] > len(ready)
    return (
        int(first.draft.cut.tool != tool), first.rank, sheet, int(again), -len(ready), first.layout, first.place,
    )  # fmt: skip


def _named(made: list[tuple[Draft, int]], base: str) -> tuple[Cut, ...]:
    """Give cuts their numbers and the pieces their names, in the order in which they come: s1, then s1a, s1b."""
    names = {0: base}
    cuts = []
    for order, (draft, group) in enumerate(made, start=1):
        of = names[draft.of]
        gives = []
        for number in draft.gives:
            if number is not None:
                names[number] = base + _letters(len(names))
            gives.append(None if number is None else names[number])
        cuts.append(replace(draft.cut, order=order, of=of, gives=(gives[0] or "", gives[1]), group=group))
    return tuple(cuts)


def _letters(number: int) -> str:
    """Count in letters: a … z, aa."""
    letters = ""
    while number:
        number, digit = divmod(number - 1, 26)
        letters = chr(ord("a") + digit) + letters
    return letters
