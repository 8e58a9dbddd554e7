"""Angles, weights and prices: exact numbers with a unit, beside lengths."""

import re
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, degrees

from plankit.errors import PlanError
from plankit.units.length import Length

KG_IN_POUND = Fraction(45359237, 100000000)
"""Kilograms in an avoirdupois pound, exactly (NIST SP 811, appendix B)."""
CUBIC_MM_IN_CUBIC_FOOT = Fraction(3048, 10) ** 3
_ANGLE_STEP = 10**9
WATER_PCF = Fraction(624, 10)
"""Pounds in a cubic foot of water, as the Wood Handbook reckons."""


@dataclass(frozen=True, slots=True, order=True)
class Angle:
    """An angle in degrees. One found from a slope is rounded once, to a billionth of a degree."""

    degrees: Fraction

    @classmethod
    def read(cls, value: "Angle | str | int | Fraction") -> "Angle":
        """Return the angle somebody wrote: "8°", "22 1/2 deg", "7.5 degrees", or a whole number of degrees.

        raises  PlanError where it cannot be read
        """
        if isinstance(value, Angle):
            return value
        text = str(value).strip()
        found = re.fullmatch(r"(-?)(.+?)\s*(?:°|deg|degrees?)?", text)
        try:
            if found is None or isinstance(value, float | bool):
                raise ValueError(text)
            number = sum((Fraction(word) for word in found[2].split()), Fraction(0))
        except (ValueError, ZeroDivisionError):
            raise PlanError(
                "this angle cannot be read.", given=repr(value), remedy='Write it like "8°" or "22 1/2 deg".'
            ) from None
        return cls(-number if found[1] else number)

    @classmethod
    def of_slope(cls, rise: Length, run: Length) -> "Angle":
        """Return the angle whose tangent is rise over run (0 where there is no rise)."""
        found = degrees(atan2(float(rise.mm), float(run.mm)))
        return cls(Fraction(round(found * _ANGLE_STEP), _ANGLE_STEP))


def is_angle(text: str) -> bool:
    """Tell whether something is written as an angle: "8°", "8 deg", "8 degrees"."""
    return re.search(r"(?:°|(?:\b|\d)deg(?:rees?)?)\s*$", text) is not None


@dataclass(frozen=True, slots=True, order=True)
class Mass:
    """A weight in kilograms."""

    kg: Fraction

    @classmethod
    def of_pounds(cls, pounds: int | Fraction | str) -> "Mass":
        """Return a weight of so many pounds."""
        return cls(Fraction(pounds) * KG_IN_POUND)

    @property
    def lb(self) -> Fraction:
        """The weight in pounds."""
        return self.kg / KG_IN_POUND

    def __add__(self, other: "Mass") -> "Mass":
        return Mass(self.kg + other.kg)

    def __mul__(self, count: int | Fraction) -> "Mass":
        return Mass(self.kg * count)


@dataclass(frozen=True, slots=True, order=True)
class Density:
    """A weight for a volume, in pounds a cubic foot."""

    pcf: Fraction

    @classmethod
    def of_specific_gravity(cls, gravity: Fraction, moisture_percent: Fraction) -> "Density":
        """Return the density of wood from its specific gravity at a moisture content.

        source  Wood Handbook FPL-GTR-282 eq. 4-14: density = water × G × (1 + MC/100), water 62.4 lb/ft3
        """
        return cls(WATER_PCF * gravity * (1 + moisture_percent / 100))

    def mass_of(self, cubic_mm: Fraction) -> Mass:
        """Return what so many cubic millimetres weigh."""
        return Mass.of_pounds(self.pcf * cubic_mm / CUBIC_MM_IN_CUBIC_FOOT)


@dataclass(frozen=True, slots=True, order=True)
class Money:
    """A price in the author's currency; amounts are exact to the cent or beyond."""

    amount: Fraction
    currency: str = "USD"

    @classmethod
    def read(cls, text: object, currency: str = "USD") -> "Money":
        """Return a price as people write it: "62", "62.00" or "$62.00"; refuses commas and floats."""
        plain = text.strip().removeprefix("$") if isinstance(text, str) else text
        if isinstance(plain, bool) or not isinstance(plain, str | int):
            raise PlanError("a price cannot be read.", given=repr(text), remedy='Write it like "62.00".')
        try:
            amount = Fraction(plain)
        except (ValueError, ZeroDivisionError):
            raise PlanError(
                "a price cannot be read.", given=repr(text), remedy='Write it like "62.00".'
            ) from None
        if amount < 0:
            raise PlanError("a price is below nothing.", given=repr(text), remedy='Write it like "62.00".')
        return cls(amount, currency)

    def __add__(self, other: "Money") -> "Money":
        if other.currency != self.currency:
            raise PlanError(
                "prices in two currencies cannot be added.",
                given=f"{self.currency} and {other.currency}",
                remedy="Give all prices of a shop in one currency.",
            )
        return Money(self.amount + other.amount, self.currency)

    def __mul__(self, count: int | Fraction) -> "Money":
        return Money(self.amount * count, self.currency)
