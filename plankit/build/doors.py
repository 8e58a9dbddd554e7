"""Sizes of doors and fronts: what is left of an opening after its gaps, or what covers a case less its reveals."""

from dataclasses import dataclass

from plankit.errors import PlanError
from plankit.parts import Axis, Face, Part
from plankit.reference import practice
from plankit.units import Length, told

INSET_GAP = practice("clearances").sizes[4]
"""Gap all round an inset door (common practice: 1/16 in)."""
BETWEEN = practice("clearances").sizes[1]
"""Reveal between two doors that meet (common practice: 1/8 in)."""
REVEAL = INSET_GAP
"""What is left of a case's edge beside an overlay door (common practice: half of what two doors leave)."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """Where one of several doors begins and ends along one direction."""

    low: Length
    high: Length


def equal_leaves(low: Length, high: Length, count: int, between: Length) -> tuple[Leaf, ...]:
    """Return doors of equal width from the outer edge of the first to that of the last.

    low, high  the outer edges, gaps at the ends taken off already
    between    the gap between two doors
    raises     PlanError where nothing is left for a door
    """
    wide = (high - low - between * (count - 1)).portion(count)
    if wide <= Length.zero():
        raise PlanError(
            "nothing is left for a door between its gaps.",
            given=f"{count} in {told(high - low)}, {told(between)} between two",
            remedy="Make fewer doors, or smaller gaps.",
        )
    starts = [low + (wide + between) * number for number in range(count)]
    return tuple(Leaf(start, start + wide) for start in starts)


def inset_edge(bound: Length, face: Face, gap: Length) -> Length:
    """Return where an inset door ends whose own face `face` looks at a part that begins at `bound`."""
    return bound + gap if face in {"left", "front", "bottom"} else bound - gap


def overlay_edge(over: Part, face: Face, axis: Axis, reveal: Length | None, between: Length) -> Length:
    """Return where an overlay door ends that covers a part with its own face `face`.

    reveal  what is left of the part's outer edge in sight; None where the part is shared with the next door,
            so that the two doors leave `between` in its middle
    """
    if reveal is None:
        shared = over.box.middle(axis)
        return inset_edge(shared, face, between.portion(2))
    return inset_edge(over.box.face(face), face, reveal)
