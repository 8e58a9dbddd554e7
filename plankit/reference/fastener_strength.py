"""What screws and nails hold: pulled straight out, and pushed sideways. Each as the weight that pulls as hard.

Ultimate values break; reference values are what designs may count on. They differ by about 5.5: never mix them.
"""

from collections.abc import Sequence
from fractions import Fraction

from plankit.errors import PlanError
from plankit.units import Length, Mass

_NEWTONS_OF_A_POUND = Fraction("4.4482216152605")
_STEP = 10**9
FULL_DEPTH = 7
"""A screw pushed sideways holds its whole value where it lies so many diameters deep (Wood Handbook ch. 8)."""
_SIDEWAYS_HARDWOOD = ((Fraction("0.33"), Fraction("23.17")), (Fraction("0.48"), Fraction("31.99")),
                      (Fraction("0.57"), Fraction("44.13")))  # fmt: skip
_SIDEWAYS_SOFTWOOD = ((Fraction("0.29"), Fraction("23.17")), (Fraction("0.43"), Fraction("29.79")),
                      (Fraction("0.48"), Fraction("36.40")))  # fmt: skip


def screw_withdrawal(gravity: Fraction, diameter: Length, thread: Length) -> Mass:
    """Return the pull that draws a wood screw out of side grain: the ultimate one, which nothing may be built on.

    gravity   of the wood, ovendry weight over volume at 12 % moisture
    diameter  of the screw's shank; `thread` is how much of its thread lies in the wood
    source    Wood Handbook FPL-GTR-282 eq. 8-10: 15,700 G² D L, in lb and in
    """
    return Mass.of_pounds(15_700 * gravity**2 * diameter.inches * thread.inches)


def screw_pull(gravity: Fraction, diameter: Length, thread: Length) -> Mass:
    """Return the pull that designs may count on for a wood screw in side grain: the reference value.

    source  NDS 12.2: 2,850 G² D for each inch of thread in the wood
    """
    return Mass.of_pounds(2_850 * gravity**2 * diameter.inches * thread.inches)


def nail_withdrawal(gravity: Fraction, diameter: Length, depth: Length) -> Mass:
    """Return the pull that draws a bright smooth nail out of side grain: the ultimate one.

    source  Wood Handbook FPL-GTR-282 eq. 8-1: 54.12 G^2.5 D L, in N and mm
    """
    return _newtons(Fraction("54.12") * _to_the(gravity, 2.5) * diameter.mm * depth.mm)


def nail_pull(gravity: Fraction, diameter: Length, depth: Length) -> Mass:
    """Return the pull that designs may count on for a smooth nail in side grain: the reference value.

    source  NDS 12.2.3: 1,380 G^2.5 D for each inch in the wood (from memory)
    """
    return Mass.of_pounds(1_380 * _to_the(gravity, 2.5) * diameter.inches * depth.inches)


def screw_sideways(gravity: Fraction, diameter: Length, depth: Length, *, hardwood: bool = False) -> Mass:
    """Return what a wood screw holds sideways at its proportional limit, where it begins to give for good.

    depth   how deep it lies in the wood; below 7 diameters it holds in proportion less
    source  Wood Handbook FPL-GTR-282 eq. 8-13 and table 8-4: K D², in N and mm
    raises  PlanError for wood lighter than the table goes
    """
    factor = _band(gravity, _SIDEWAYS_HARDWOOD if hardwood else _SIDEWAYS_SOFTWOOD)
    share = min(Fraction(1), depth.mm / (FULL_DEPTH * diameter.mm))
    return _newtons(factor * diameter.mm**2 * share)


def _band(gravity: Fraction, table: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    found = [factor for least, factor in table if gravity >= least]
    if not found:
        raise PlanError(
            "so light a wood is not in the table of what screws hold sideways.",
            given=str(float(gravity)),
            remedy=f"Its lightest wood has a specific gravity of {float(table[0][0])}.",
        )
    return found[-1]


def _to_the(number: Fraction, power: float) -> Fraction:
    return Fraction(round(float(number) ** power * _STEP), _STEP)


def _newtons(force: Fraction) -> Mass:
    return Mass.of_pounds(force / _NEWTONS_OF_A_POUND)
