"""What a channel in a face is called, which way it runs, and where it stops short: all told by where it lies."""

from dataclasses import dataclass

from plankit.parts.features import Groove
from plankit.parts.part import Part
from plankit.parts.space import AXES, AXIS_OF, HIGH, LOW, Axis, Face
from plankit.units import Length

HINGE_RECESS = "hinge recess"
"""What a channel is called that a hinge's leaf is let into; a trade name for it is gain."""
HINGE_LEAF = "hinge leaf"
"""The reason by which such a channel is known."""


@dataclass(frozen=True, slots=True)
class Channel:
    """A groove, dado or rabbet as a maker sees it.

    name   "groove" with the grain, "dado" across it, "rabbet" where it runs along an edge and opens there;
           "hinge recess" where a hinge's leaf is let in
    runs   the axis it runs along
    edge   the face it lies nearest to, and how far from it it starts
    stops  the faces it stops short of, and by how much
    """

    name: str
    runs: Axis
    wide: Length
    deep: Length
    edge: Face
    away: Length
    stops: tuple[tuple[Face, Length], ...]


def channel(part: Part, groove: Groove) -> Channel:
    """Return what a groove is to a maker."""
    cut, normal = groove.cut, AXIS_OF[groove.face]
    runs = _runs(part, groove)
    (across,) = (axis for axis in AXES if axis not in {normal, runs})
    low, high = cut.low(across), part.box.extent(across) - cut.high(across)
    edge, away = (LOW[across], low) if low <= high else (HIGH[across], high)
    ends = ((LOW[runs], cut.low(runs)), (HIGH[runs], part.box.extent(runs) - cut.high(runs)))
    stops = tuple((face, short) for face, short in ends if short > Length.zero())
    name = "rabbet" if away == Length.zero() else "groove" if runs == part.grain else "dado"
    name = HINGE_RECESS if groove.reason == HINGE_LEAF else name
    return Channel(name, runs, cut.extent(across), cut.extent(normal), edge, away, stops)


def _runs(part: Part, groove: Groove) -> Axis:
    """The axis it runs the whole way along; the longer one where it does so along neither or both."""
    one, two = (axis for axis in AXES if axis != AXIS_OF[groove.face])
    whole = [axis for axis in (one, two) if groove.cut.extent(axis) == part.box.extent(axis)]
    if len(whole) == 1:
        return whole[0]
    return one if groove.cut.extent(one) >= groove.cut.extent(two) else two
