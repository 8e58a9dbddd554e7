"""The revised lifting equation: what one person should lift with two hands, by where and how far."""

from fractions import Fraction

from plankit.parts import Box
from plankit.units import Angle, L, Length, Mass, largest

CONSTANT = Mass.of_pounds(51)
"""The load constant: most that is recommended under the best conditions (NIOSH 94-110: 51 lb, or 23 kg)."""
CLOSEST, FARTHEST = L("10 in"), L("25 in")
KNUCKLES = L("30 in")
HIGHEST, FARTHEST_UP = L("70 in"), L("70 in")
ONCE = Fraction(1)
"""Multiplier for a lift now and then: at most one in five minutes, within an hour."""
GOOD, FAIR_LOW, POOR = Fraction(1), Fraction(95, 100), Fraction(9, 10)
"""Multipliers for the grip: with handles; without, below 30 in; nothing to get hold of."""
_NOTHING = Mass(Fraction(0))


def recommended_weight(  # noqa: PLR0917 - the equation has six multipliers
    across: Length,
    height: Length,
    travel: Length,
    twist: Angle = Angle(Fraction(0)),  # noqa: B008 - a frozen value
    often: Fraction = ONCE,
    grip: Fraction = GOOD,
) -> Mass:
    """Return the weight that nearly all healthy workers can lift without a raised risk of back pain.

    across  level, from between the ankles to the hands, at most 25 in
    height  of the hands above the floor where the lift begins (or ends), at most 70 in
    travel  how far up or down the hands go
    twist   how far the load is to the side, at most 135°
    often   the frequency multiplier: 1 for a lift now and then
    grip    the coupling multiplier: 1, 0.95 or 0.9
    returns nothing where any of them is beyond what the equation allows
    source  NIOSH 94-110: RWL = 51 lb × 10/H × (1 − 0.0075 |V − 30|) × (0.82 + 1.8/D) × (1 − 0.0032 A) × FM × CM
    """
    beyond = across.mm > FARTHEST.mm or height.mm > HIGHEST.mm or travel.mm > FARTHEST_UP.mm
    if beyond or height.mm < 0 or twist.degrees > 135:
        return _NOTHING
    factor = CLOSEST.inches / largest(across, CLOSEST).inches
    factor *= 1 - Fraction("0.0075") * abs(height.inches - KNUCKLES.inches)
    factor *= min(Fraction(1), Fraction("0.82") + Fraction("1.8") / largest(travel, CLOSEST).inches)
    factor *= 1 - Fraction("0.0032") * twist.degrees
    return CONSTANT * (factor * often * grip)


def recommended_for(box: Box, height: Length | None = None, travel: Length | None = None) -> Mass:
    """Return the same for something of this size that is picked up from the floor and carried before the body.

    height, travel  of the hands: 15 in up, as where one lifts with bent knees, to 30 in, where they are not given
    source          NIOSH 94-110: hands above 10 in stand 8 in + half of the depth before the ankles
    """
    depth = min((box.extent("x"), box.extent("y")), key=lambda extent: extent.mm)
    low = height if height is not None else L("15 in")
    far = travel if travel is not None else abs(KNUCKLES - low)
    return _held(depth, low, far)


def recommended_between(depth: Length, low: Length, high: Length) -> Mass:
    """Return the same for something so deep that is lifted from one height of the hands to another: the less of both.

    source  NIOSH 94-110: the equation is worked out where the lift begins and where it ends
    """
    return min((_held(depth, at, abs(high - low)) for at in (low, high)), key=lambda mass: mass.kg)


def _held(depth: Length, height: Length, travel: Length) -> Mass:
    """The recommended weight of a thing so deep that is held before the body, its hands at one height."""
    grip = FAIR_LOW if height.mm < KNUCKLES.mm else GOOD
    return recommended_weight(L("8 in") + depth.portion(2), height, travel, grip=grip)
