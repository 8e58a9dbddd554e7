"""Parts that lean: a part is made along the axes of its own group, and the group is then turned as a whole.

What a part is (its box, its cuts, its holes) is told before it is turned; where it stands in the build is
told after. Turned places are floats: they are for solids, drawings and checks.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from math import atan, cos, degrees, radians, sin, tan

from plankit.parts.space import AXES, Axis, Point
from plankit.units import Angle, Length

type Spot = tuple[float, float, float]
type Rows = tuple[tuple[float, float, float, float], ...]

_STEP = 10**9


@dataclass(frozen=True, slots=True)
class Lean:
    """A turn about a line that lies along one of the build's axes.

    at     a point of the line
    angle  the right-handed way about the axis where it is positive
    """

    axis: Axis
    at: Point
    angle: Angle

    def mirrored(self, axis: Axis, middle: Length) -> "Lean":
        """Return the turn's mirror image in the plane across `axis` at `middle`."""
        moved = replace(self.at, **{axis: middle * 2 - self.at.along(axis)})
        angle = self.angle if axis == self.axis else Angle(-self.angle.degrees)
        return Lean(self.axis, moved, angle)

    def moved(self, axis: Axis, by: Length) -> "Lean":
        """Return the same turn so far along an axis."""
        return replace(self, at=self.at.moved(axis, by))


type Leans = tuple[Lean, ...]
"""Turns, one after another."""

UPRIGHT: Rows = ((1.0, 0.0, 0.0, 0.0), (0.0, 1.0, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0))


def turning(leans: Leans) -> Rows:
    """Return three rows of four numbers that take a place before the turns to the place after them, in mm."""
    found = UPRIGHT
    for lean in leans:
        found = _after(_rows_of(lean), found)
    return found


def turning_back(leans: Leans) -> Rows:
    """Return the rows that take a place in the build back to where it was before the turns."""
    return turning(tuple(replace(lean, angle=Angle(-lean.angle.degrees)) for lean in reversed(leans)))


def spot_after(turn: Rows, spot: Spot) -> Spot:
    """Return a place after a turn."""
    x, y, z = (row[0] * spot[0] + row[1] * spot[1] + row[2] * spot[2] + row[3] for row in turn)
    return x, y, z


def way_after(turn: Rows, way: Spot) -> Spot:
    """Return a direction after a turn."""
    x, y, z = (row[0] * way[0] + row[1] * way[1] + row[2] * way[2] for row in turn)
    return x, y, z


def spread_out(at: Point, sideways: Angle, frontways: Angle) -> Leans:
    """Return the turns of an upright part that leans so far sideways and frontways about a point.

    sideways   the lean that one sees from the front: positive where its upper end goes to the right
    frontways  the lean that one sees from the side: positive where its upper end goes to the front
    source     a vertical turned by s about y and then by f about x points to (sin s, −cos s sin f, cos s cos f);
               seen from the front its slope is tan s / cos f, so that tan s = tan(sideways) × cos(frontways)
    """
    front = radians(float(frontways.degrees))
    turned = degrees(atan(tan(radians(float(sideways.degrees))) * cos(front)))
    found = [
        Lean("y", at, _rounded(turned)),
        Lean("x", at, frontways),
    ]
    return tuple(lean for lean in found if lean.angle.degrees)


def _rounded(angle: float) -> Angle:
    return Angle(Fraction(round(angle * _STEP), _STEP))


def _rows_of(lean: Lean) -> Rows:
    turn = radians(float(lean.angle.degrees))
    c, s = cos(turn), sin(turn)
    index = AXES.index(lean.axis)
    one, two = (index + 1) % 3, (index + 2) % 3
    square = [[0.0] * 3 for _ in range(3)]
    square[index][index] = 1.0
    square[one][one] = square[two][two] = c
    square[one][two], square[two][one] = -s, s
    at = lean.at.mm()
    made = []
    for row, own in zip(square, at, strict=True):
        made.append((row[0], row[1], row[2], own - sum(r * a for r, a in zip(row, at, strict=True))))
    return tuple(made)


def _after(second: Rows, first: Rows) -> Rows:
    made = []
    for row in second:
        turned = [sum(row[k] * first[k][column] for k in range(3)) for column in range(4)]
        made.append((turned[0], turned[1], turned[2], turned[3] + row[3]))
    return tuple(made)
