"""What moves in a build: doors, flaps and bins that turn about a line, drawers that slide."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plankit.parts import Axis, Face, Point
from plankit.units import Angle, Length

NO_ANGLE = Angle(Fraction(0))

type MovingKind = Literal["door", "flap", "bin", "drawer"]


@dataclass(frozen=True, slots=True)
class Pivot:
    """The line that something turns about.

    axis   the axis of the build it lies along
    at     a point on it
    sense  1 where opening turns the right-handed way about the axis, −1 the other way: seen with the axis
           pointing at the eye, 1 is counter-clockwise
    """

    axis: Axis
    at: Point
    sense: Literal[1, -1]


@dataclass(frozen=True, slots=True)
class Moving:
    """Parts that move as one.

    name      what the reader calls it ("Upper bin")
    parts     ids of all that moves: the front first, then what is fixed to it
    pivot     what it turns about; None for a drawer
    opens     how far it is meant to open; no angle where what stops it decides
    slides    the face a drawer comes out of, and how far; None for what turns
    stops     ids of the parts that are there to stop it
    inwards   how far an adjustable stop lets it turn past shut; nothing where it closes on a part
    contents  name of the thing (of the build's things) that it carries; "" for nothing
    """

    name: str
    kind: MovingKind
    parts: tuple[str, ...]
    pivot: Pivot | None = None
    opens: Angle | None = None
    slides: tuple[Face, Length] | None = None
    stops: tuple[str, ...] = ()
    inwards: Angle = NO_ANGLE
    contents: str = ""
