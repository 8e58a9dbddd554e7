"""Numbers of each kind of stock that cost less than an answer known, and which of them are proven not to suffice."""

from fractions import Fraction

from plankit.cutting.bounds import Demand, meets
from plankit.cutting.whole_job import Group
from plankit.cutting.whole_numbers import common_measure, whole

type Numbers = tuple[int, ...]
"""How many of each kind, in the order of the group's rooms."""

_LOOKED_AT = 20_000


class Cheaper:
    """All numbers that weigh less than an answer known and are not ruled out by the demands, cheapest first.

    is_whole  whether all of them are listed; where they are too many, none is
    """

    def __init__(self, group: Group, asked: tuple[Demand, ...], weight: Fraction) -> None:
        self._group, self._asked, self._weight = group, asked, weight
        self._step = common_measure(room.weight for room in group.rooms)
        self._weights = [whole(room.weight, self._step) for room in group.rooms]
        self._seen = 0
        listed = self._listed((), whole(weight, self._step))
        self.is_whole = self._seen <= _LOOKED_AT
        self.listed = sorted(listed, key=lambda used: (self.weight(used), sum(used), used)) if self.is_whole else []

    def weight(self, used: Numbers) -> Fraction:
        """Return what so many of each weigh."""
        return self._step * sum(w * n for w, n in zip(self._weights, used, strict=True))

    def refuse(self, used: Numbers) -> None:
        """Note that so many of each do not suffice: nor do fewer."""
        self.listed = [one for one in self.listed if any(a > b for a, b in zip(one, used, strict=True))]

    def least(self) -> Fraction:
        """Return the weight below which nothing suffices; 0 where nobody knows."""
        if not self.is_whole:
            return Fraction(0)
        return min((self.weight(used) for used in self.listed), default=self._weight)

    def _listed(self, used: Numbers, below: int) -> list[Numbers]:
        """Return all numbers that go on from these and weigh less than so many steps."""
        self._seen += 1
        if below <= 0 or self._seen > _LOOKED_AT:
            return []
        if len(used) == len(self._group.rooms):
            return [used] if meets(self._group, self._asked, used) else []
        most, each = self._group.rooms[len(used)].most, self._weights[len(used)]
        numbers = range(min(most, (below - 1) // each) + 1) if each else (most,)
        return [one for number in numbers for one in self._listed((*used, number), below - number * each)]
