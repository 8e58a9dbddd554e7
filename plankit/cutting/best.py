"""The best packing found so far, and what is needed at least: what the search works on."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from plankit.cutting.bounds import Demand, Least
from plankit.cutting.covering import Pool
from plankit.cutting.kinds_bound import KindsBound
from plankit.cutting.numbers import Cheaper, Numbers
from plankit.cutting.pack import Pack, Score
from plankit.cutting.sheet_bound import SheetBound
from plankit.cutting.watch import Watch
from plankit.cutting.whole_job import Group
from plankit.cutting.whole_numbers import common_measure, round_up_to

type Right = Callable[[Pack], Pack | None]
"""Settles a packing exactly and checks it against the job; None where anything is wrong."""


@dataclass(frozen=True, slots=True)
class Found:
    """The best packing of a group and what is needed at least.

    stopped  whether the search was stopped from outside
    """

    pack: Pack
    least: Least
    stopped: bool = False


class Best:
    """The best packing so far, and whether a better one is possible at all."""

    def __init__(
        self, group: Group, right: Right, floor: Least, work: tuple[int, int], watch: Watch | None = None
    ) -> None:
        self.group, self.right, self.floor = group, right, floor
        self.pack: Pack | None = None
        self.score: Score | None = None
        self.proof_work, self.left = work
        self.watch = watch or Watch()
        self.asked: tuple[Demand, ...] = ()
        self.dives = 0
        self.pool = Pool(group)
        self.bound: SheetBound | None = None
        self.kinds: KindsBound | None = None
        self.refused: list[Numbers] = []
        self.undecided: set[Numbers] = set()

    def offer(self, pack: Pack | None) -> bool:
        """Take a packing if it is right and better than the best; say whether it was."""
        if pack is not None and not self.group.board:
            self.pool.take(pack)
        if pack is None or (self.score is not None and pack.score(self.group) >= self.score):
            return False
        settled = self.right(pack)
        if settled is None:
            return False
        self.pack, self.score = settled, settled.score(self.group)
        self.watch.better(self.count, self.floor.count)
        return True

    def spend(self, work: int) -> bool:
        """Take a try's work out of what is left of the fixed work; say whether there was enough left."""
        if work > self.left:
            return False
        self.left -= work
        return True

    @property
    def complete(self) -> bool:
        """Whether every piece is placed."""
        return self.score is not None and self.score[0] == 0

    @property
    def count(self) -> int:
        """How many sheets or boards the best packing has."""
        return sum(sheet.copies for sheet in self.pack.sheets) if self.pack is not None else 0

    def raise_to(self, number: int) -> None:
        """Take over a proof that so many sheets are needed, all of one kind."""
        weight = number * self.group.rooms[0].weight
        if self.floor.weight is not None and weight > self.floor.weight:
            self.floor = Least(weight, number)
            self.watch.better(self.count, number)

    @property
    def weight(self) -> Fraction:
        """What the best packing weighs."""
        return self.score[1] if self.score is not None else Fraction(0)

    def cheaper(self) -> Cheaper:
        """Return the numbers of each kind that weigh less than the best packing and may yet suffice."""
        found = Cheaper(self.group, self.asked, self.weight)
        for used in self.refused:
            found.refuse(used)
        return found

    def is_refused(self, used: Numbers) -> bool:
        """Whether it is proven that so many of each kind do not suffice."""
        return any(all(a <= b for a, b in zip(used, one, strict=True)) for one in self.refused)

    def refuse(self, used: Numbers) -> None:
        """Take over a proof that so many of each kind do not suffice."""
        self.refused.append(used)
        least = self.cheaper().least()
        if self.floor.weight is not None and least > self.floor.weight:
            self.floor = raised(self.group, self.floor, least)

    @property
    def proven(self) -> bool:
        """Whether all is placed and nothing can weigh less."""
        return self.complete and self.floor.weight is not None and self.weight <= self.floor.weight


def raised(group: Group, floor: Least, bound: Fraction) -> Least:
    """Raise what is needed at least to a solver's bound, rounded up to what prices can add up to."""
    if floor.weight is None:
        return floor
    step = price_step(group)
    weight = max(floor.weight, round_up_to(bound, step))
    same = all(room.weight == 1 for room in group.rooms)
    return Least(weight, int(weight) if same else floor.count)


def price_step(group: Group) -> Fraction:
    """Return a weight of which all weights of the group's stock are a whole number."""
    return common_measure(room.weight for room in group.rooms)
