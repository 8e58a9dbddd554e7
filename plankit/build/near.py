"""Which parts of a build lie near one another: so that only those need be looked at closely.

Told from their boxes as floats, a little generously: what is left out is further apart for sure.
"""

from collections.abc import Sequence
from functools import lru_cache

from plankit.build.build import Build
from plankit.parts import Box, Part, box_of

SLACK = 0.01
"""How much further apart two boxes may lie, in millimetres, than is asked for: floats round."""
_TOUCH = 1.0
"""Parts whose boxes lie no further apart than this, in millimetres, are neighbours."""

type Ends = tuple[tuple[float, float, float], tuple[float, float, float]]


def near_pairs(boxes: Sequence[Box], within: float = 0.0) -> tuple[tuple[int, int], ...]:
    """Return every two boxes, by their places, that are no further apart along any axis than `within` millimetres.

    In the order in which `itertools.combinations` names them. A few that lie 1/100 mm further apart are among them.
    """
    return near_ends([box.mm() for box in boxes], within)


def near_ends(ends: Sequence[Ends], within: float) -> tuple[tuple[int, int], ...]:
    """Return the same of boxes told by their lower and their higher corner, in millimetres."""
    order = sorted(range(len(ends)), key=lambda place: ends[place][0])
    reach = within + SLACK
    found = []
    for number, one in enumerate(order):
        until = ends[one][1][0] + reach
        for other in order[number + 1 :]:
            if ends[other][0][0] > until:
                break
            if _beside(ends[one], ends[other], reach):
                found.append((one, other) if one < other else (other, one))
    return tuple(sorted(found))


def near_to(box: Box, others: Sequence[Box], within: float = 0.0) -> tuple[int, ...]:
    """Return the places of the boxes that are no further from a box along any axis than so many millimetres."""
    reach = within + SLACK
    low, high = box.mm()
    ends = (other.mm() for other in others)
    return tuple(
        place
        for place, (near, far) in enumerate(ends)
        if all(near[i] <= high[i] + reach and low[i] <= far[i] + reach for i in range(3))
    )


def _beside(one: Ends, other: Ends, reach: float) -> bool:
    """Whether two boxes lie near one another from front to back and up and down."""
    (_, low_y, low_z), (_, high_y, high_z) = one
    (_, its_low_y, its_low_z), (_, its_high_y, its_high_z) = other
    return (
        low_y <= its_high_y + reach
        and its_low_y <= high_y + reach
        and low_z <= its_high_z + reach
        and its_low_z <= high_z + reach
    )


def neighbours(build: Build, part: Part) -> tuple[Part, ...]:
    """Return the other parts whose boxes touch a part's, or come within a millimetre, in the build's order.

    Whatever touches a part is among them.
    raises  KeyError where the part is not in the build
    """
    return tuple(build.parts[place] for place in _neighbours(build.parts)[part.id])


@lru_cache(maxsize=16)
def _neighbours(parts: tuple[Part, ...]) -> dict[str, tuple[int, ...]]:
    beside: dict[str, list[int]] = {part.id: [] for part in parts}
    for one, other in near_pairs([box_of(part) for part in parts], _TOUCH):
        beside[parts[one].id].append(other)
        beside[parts[other].id].append(one)
    return {part: tuple(sorted(places)) for part, places in beside.items()}
