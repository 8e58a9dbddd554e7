"""The saws of a shop as the order of cuts sees them: what each can do, and what it asks of the piece it cuts.

What a shop states of its own saws (see `plankit.shop`) comes first. The few lengths below are common practice; the
tool's manual goes before them.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plankit.units import MM_IN

type Way = Literal["guide", "fence", "stop", "hand"]
"""How a saw is led.

guide  it goes to the work, along a rail laid on it; settings are measured from an edge of the piece
fence  the work goes to it and is pushed along a fence; the setting is what lies between fence and blade
stop   the work goes to it and lies against a fence; the setting is from the blade to a stop at the end
hand   it goes to the work, along a line
"""

LEDGE = 4 * MM_IN["in"]
"""A guide rail needs a piece at least so wide under it, or it rocks; mm (common practice)."""
NARROW = 2 * MM_IN["in"]
"""Strips narrower than this do not go between fence and blade: they fall away on its far side; mm (common practice)."""
HELD = 6 * MM_IN["in"]
"""What a hand needs to hold a piece beside a blade where the shop says nothing of it; mm (common practice)."""


@dataclass(frozen=True, slots=True)
class Saw:
    """One saw, lengths in mm, None where there is no limit.

    kerf      what its blade turns into dust
    longest   the longest straight cut (a guide rail's length)
    widest    the most between fence and blade; the widest piece crosscut against a stop
    deepest   the thickest stock
    shortest  the shortest piece it is used on: along the fence, or held beside the blade
    """

    name: str
    way: Way
    kerf: Fraction
    longest: Fraction | None = None
    widest: Fraction | None = None
    deepest: Fraction | None = None
    shortest: Fraction | None = None

    @property
    def goes_to_the_work(self) -> bool:
        """Whether the piece may stay where it lies."""
        return self.way in ("guide", "hand")

    @property
    def held(self) -> Fraction:
        """The shortest piece it is used on, mm."""
        return HELD if self.shortest is None else self.shortest


def refusal(
    saw: Saw,
    along: Fraction,
    across: Fraction,
    setting: Fraction,
    thickness: Fraction | None,
    *,
    with_grain: bool = False,
) -> str:
    """Return why a saw should not make a cut; nothing where it may.

    along      how long the cut is, mm: the piece's extent in the cut's direction
    across     the piece's extent the other way, of which `setting` is cut off, mm
    thickness  of the stock, mm; None where it is not known
    with_grain whether solid wood is cut along its grain, which is no work for a saw with a stop
    """
    if saw.deepest is not None and thickness is not None and thickness > saw.deepest:
        return "the stock is thicker than it cuts"
    if saw.longest is not None and along > saw.longest:
        return "the cut is longer than it reaches"
    if saw.way == "guide" and min(along, across) < LEDGE:
        return "the piece is too narrow to lay a rail on"
    if saw.way == "fence":
        return _at_the_fence(saw, along, across, setting)
    if saw.way == "stop" and with_grain:
        return "a saw with a stop does not rip"
    return _at_the_stop(saw, along, across, setting) if saw.way == "stop" else ""


def _at_the_stop(saw: Saw, along: Fraction, across: Fraction, setting: Fraction) -> str:
    if saw.widest is not None and along > saw.widest:
        return "the piece is wider than it crosscuts"
    if along > across:
        return "the piece's long side does not lie against the fence"
    if max(setting, across - setting - saw.kerf) < saw.held:
        return "neither side of the cut is long enough to hold"
    return ""


def _at_the_fence(saw: Saw, along: Fraction, across: Fraction, setting: Fraction) -> str:
    if saw.widest is not None and setting > saw.widest:
        return "the fence does not go so far out"
    if along < saw.held:
        return "the edge along the fence is too short"
    if along < across:
        return "the piece is wider than it is long, and would turn at the fence"
    if setting < NARROW:
        return "so narrow a strip does not go between fence and blade"
    return ""
