"""How much work a try is before it is made: so the fixed work ends in time, and the same way on every machine.

The solver counts no steps of its own, and a clock would make the answer depend on the machine. So each try is
weighed beforehand by its size, on the heavy side. The weights were measured on invented jobs of 6 to 120 pieces
on one to four kinds of sheet, in two, three and any number of stages: few tries took longer than is said here.
"""

from collections.abc import Iterable

from plankit.cutting.solver import Offer, Work
from plankit.cutting.whole_job import Group

FIXED = 300
"""What the fixed work of one group may come to, in hundredths of a second of a slow machine."""

_FILL = 10
"""Filling one sheet once in a round of value correction, for up to `_FEW` pieces; it grows as their square."""
_FEW = 48
_QUICK = 32
_TIGHT, _AMPLE = 200, 2000
"""Steps of tree search to a hundredth of a second: where the stock offered may well not suffice, and where it does."""


def labour(group: Group, offers: Iterable[Offer], work: Work) -> int:
    """Return how long a try may take, in hundredths of a second of a slow machine, from its size alone.

    A first quick look at stock that surely suffices is always taken: it counts nothing.
    """
    offers = tuple(offers)
    rooms = [(group.rooms[offer.kind], offer.most) for offer in offers]
    sheets = sum(min(most, -(-group.area // room.area) + 1) for room, most in rooms)
    if work.rounds:
        fill = max(_FILL, _FILL * group.count**2 // _FEW**2)
        return work.rounds * sheets * len(offers) * fill
    is_tight = sum(room.area * most for room, most in rooms) < 2 * group.area
    if work.queue <= _QUICK and not is_tight:
        return 0
    steps = group.count * len(group.wants) * sheets * len(offers)
    wider = 1 + work.queue // (384 if is_tight else 72)
    return steps * wider // (_TIGHT if is_tight else _AMPLE)
