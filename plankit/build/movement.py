"""How much solid wood moves across its grain between a dry and a damp season."""

from fractions import Fraction

from plankit.reference import species
from plankit.stock import Lumber
from plankit.units import Length

type Air = tuple[Fraction, Fraction]
"""Relative humidity in the dry season and in the damp one, from 0 to 1."""
DRY, DAMP = Fraction(30, 100), Fraction(70, 100)
"""Relative humidity indoors, winter and summer, where the author names none (common practice)."""
INDOORS: Air = (DRY, DAMP)


def equilibrium_moisture(humidity: Fraction, fahrenheit: Fraction = Fraction(70)) -> Fraction:
    """Return the moisture content, in per cent, that wood comes to in air of this humidity (0 to 1).

    source  Wood Handbook FPL-GTR-190 eq. 4-5 in its Fahrenheit form; exact but for the printed constants
    """
    t = fahrenheit
    w = 330 + Fraction("0.452") * t + Fraction("0.00415") * t**2
    k = Fraction("0.791") + Fraction("0.000463") * t - Fraction("0.000000844") * t**2
    k1 = Fraction("6.34") + Fraction("0.000775") * t - Fraction("0.0000935") * t**2
    k2 = Fraction("1.09") + Fraction("0.0284") * t - Fraction("0.0000904") * t**2
    kh = k * humidity
    return 1800 / w * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2))


def movement(stock: Lumber, width: Length, dry: Fraction = DRY, damp: Fraction = DAMP) -> Length:
    """Return how much wider flat-sawn wood of this width is in damp air than in dry.

    source  Wood Handbook ch. 13: change = width × C × change in moisture content, C tangential (flat-sawn)
    """
    wood = species(stock.species)
    change = equilibrium_moisture(damp) - equilibrium_moisture(dry)
    factor = wood.movement_tangential * change
    return width * factor.limit_denominator(10**9)
