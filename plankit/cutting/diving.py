"""Whole numbers from a linear program over filled boards or sheets, by diving.

Take the board or sheet the program has most of, ask it again for what is left, until nothing is left; a step after
which the goal is out of reach is undone and not taken again (after C. Joncour, S. Michel, R. Sadykov, D. Sverdlov and
F. Vanderbeck, "Column generation based primal heuristics", Electronic Notes in Discrete Mathematics 36, 2010).
"""

import random
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from plankit.cutting.covering import Held, program
from plankit.cutting.pack import Pack
from plankit.cutting.purse import Purse
from plankit.cutting.together import Kinds
from plankit.cutting.whole_job import Group

_HAIR = 1e-7
_ROUNDS, _UNDONE = 12, 60


class Dive:
    """The program for one group: its columns are filled boards or sheets; where new ones come from, subclasses know.

    exact  whether a column may not hold more of anything than is still wanted
    """

    exact = True

    def __init__(self, group: Group) -> None:
        self.group = group
        self.wanted = [want.quantity for want in group.wants]
        self.held: list[Held] = []
        self._counts: list[tuple[tuple[int, int], ...]] = []
        self._known: set[Held] = set()
        self._solver = program()
        for need in self.wanted:
            self._solver.addRow(float(need), 1e30, 0, [], [])

    def priced(self, worth: Sequence[float], left: Sequence[int], purse: Purse) -> bool:
        """Add columns worth more than they weigh; say whether there were any."""
        raise NotImplementedError

    def packed(self, taken: Counter[Held]) -> Pack:
        """Return the columns taken as a packing."""
        raise NotImplementedError

    def singles(self, left: Sequence[int]) -> None:
        """Add columns without which what is left might not be covered."""

    def learn(self, pack: Pack) -> None:
        """Take over a packing's boards or sheets."""
        for sheet in pack.sheets:
            self.add(sheet.kind, tuple(sorted(spot.want for spot in sheet.spots)))

    def add(self, room: int, kinds: Kinds) -> bool:
        """Add a column; say whether it is new."""
        if not kinds or (room, kinds) in self._known:
            return False
        self._known.add((room, kinds))
        self.held.append((room, kinds))
        counts = tuple(sorted(Counter(kinds).items()))
        self._counts.append(counts)
        weight = float(self.group.rooms[room].weight)
        self._solver.addCol(weight, 0.0, 1e30, len(counts), [n for n, _ in counts], [float(c) for _, c in counts])
        return True

    def solved(self) -> tuple[float, list[float], list[float]]:
        """Return the program's weight, how much of each column it takes, and what one of each piece is worth."""
        self._solver.run()
        found = self._solver.getSolution()
        worth = [max(0.0, one) for one in found.row_dual]
        return self._solver.getInfo().objective_function_value, list(found.col_value), worth

    def dive(self, purse: Purse, number: int, goal: Fraction) -> Pack | None:
        """Return a packing that weighs no more than the goal; None where the dive ends without one.

        number  0 for the first dive; later ones choose more freely, each in its own way
        """
        left, taken = list(self.wanted), Counter[int]()
        dice = random.Random(number) if number else None
        banned: set[int] = set()
        steps: list[tuple[int, int, set[int]]] = []
        undone, slack = 0, float(min(room.weight for room in self.group.rooms)) / 1000
        while any(one > 0 for one in left) and not purse.empty:
            value, amounts = self._converged(left, banned, purse)
            chosen = self._chosen(amounts, dice)
            if float(self._weight(taken)) + value > float(goal) + slack or not chosen:
                undone += 1
                if not steps or undone > _UNDONE:
                    break
                place, times, banned = steps.pop()
                banned.add(place)
                self._take(place, -times, left, taken)
                continue
            for place, times in chosen:
                steps.append((place, times, set(banned)))
                self._take(place, times, left, taken)
        self._ask_for(self.wanted, set())
        if any(one > 0 for one in left):
            return None
        return self.packed(Counter({self.held[place]: times for place, times in taken.items() if times}))

    def _weight(self, taken: Counter[int]) -> Fraction:
        rooms = self.group.rooms
        return sum((rooms[self.held[place][0]].weight * times for place, times in taken.items()), Fraction(0))

    def _converged(self, left: list[int], banned: set[int], purse: Purse) -> tuple[float, list[float]]:
        self._ask_for(left, banned)
        value, amounts, worth = self.solved()
        purse.work -= len(self.held)
        for _ in range(_ROUNDS):
            if purse.empty or not self.priced(worth, left, purse):
                break
            self._ask_for(left, banned)
            value, amounts, worth = self.solved()
        return value, amounts

    def _take(self, place: int, times: int, left: list[int], taken: Counter[int]) -> None:
        taken[place] += times
        for n, count in self._counts[place]:
            left[n] -= count * times

    def _ask_for(self, left: Sequence[int], banned: set[int]) -> None:
        """Ask the program for so many of each."""
        import numpy as np

        self.singles(left)
        most = np.array([
            0.0 if place in banned or (self.exact and any(count > left[n] for n, count in counts)) else 1e30
            for place, counts in enumerate(self._counts)
        ])  # fmt: skip
        rows, places = np.arange(len(left), dtype=np.int32), np.arange(len(most), dtype=np.int32)
        self._solver.changeRowsBounds(len(left), rows, np.array(left, float), np.full(len(left), 1e30))
        self._solver.changeColsBounds(len(most), places, np.zeros(len(most)), most)

    def _chosen(self, amounts: list[float], dice: random.Random | None) -> list[tuple[int, int]]:
        whole = [(place, int(amount + _HAIR)) for place, amount in enumerate(amounts) if amount + _HAIR >= 1]
        if whole:
            return whole
        some = [(amount, place) for place, amount in enumerate(amounts) if amount > _HAIR]
        if dice is not None and len(some) > 1:
            some = [(amount * dice.uniform(0.6, 1.0), place) for amount, place in some]
        return [(max(some, key=lambda one: (one[0], -one[1]))[1], 1)] if some else []
