"""The one formatter: every number that a reader sees is written here."""

from dataclasses import dataclass
from fractions import Fraction

from plankit.errors import PlanError
from plankit.units.expression import to_nearest
from plankit.units.length import Length, mixed, readably
from plankit.units.quantity import Angle, Density, Mass, Money
from plankit.units.read import MM_IN

ROUNDED = "≈"
"""Stands before a length that rounding to the mark has changed."""
_SYMBOLS = {"USD": "$", "EUR": "€", "GBP": "£"}
_FINE = {"in": MM_IN["in"] / 64, "mm": Fraction(1, 10)}
_SQUARE_MM_IN_SQUARE_FOOT = MM_IN["ft"] ** 2


@dataclass(frozen=True, slots=True)
class Notation:
    """How one plan writes its numbers.

    unit         the system that leads: "in" or "mm"
    mark         the smallest mark on the reader's tape, as a fraction of an inch (1/16, 1/32)
    metric_mark  metric lengths go to whole or half millimetres: 1 or 1/2
    plain        lengths, in mm, that are written to the 64th of an inch, or to the tenth of a millimetre, whatever
                 the mark is: what sheets and boards measure, and what saws take away
    """

    unit: str = "in"
    mark: Fraction = Fraction(1, 16)
    metric_mark: Fraction = Fraction(1)
    plain: tuple[Fraction, ...] = ()

    def __post_init__(self) -> None:
        if self.unit not in {"in", "mm"}:
            raise PlanError(
                "a plan leads in inches or in millimetres.",
                given=repr(self.unit),
                remedy='Write "in" or "mm".',
            )
        if self.mark.numerator != 1 or self.mark.denominator not in {2, 4, 8, 16, 32, 64}:
            raise PlanError(
                "the mark is none that a tape has.",
                given=str(self.mark),
                remedy='Write "1/8", "1/16", "1/32" or "1/64".',
            )
        if self.metric_mark not in {Fraction(1), Fraction(1, 2)}:
            raise PlanError(
                "metric lengths go to whole or half millimetres.",
                given=str(self.metric_mark),
                remedy="Write 1 or 1/2.",
            )

    @property
    def step(self) -> Length:
        """The smallest mark of the leading system, as a length."""
        return Length.of_mm(self.mark * MM_IN["in"] if self.unit == "in" else self.metric_mark)

    def rounds(self, length: Length) -> bool:
        """Tell whether writing this length changes it."""
        return to_nearest(length.mm, self._step_of(length.mm)) != length.mm

    def _step_of(self, mm: Fraction) -> Fraction:
        """The step that a length goes to in the leading unit: a finer one where it is written as it measures."""
        fine = _FINE[self.unit]
        return fine if mm in self.plain and (mm / fine).denominator == 1 else self.step.mm

    def bare(self, length: Length) -> str:
        """Write a length in the leading unit without naming it, as on a drawing: "13 11/16"."""
        sign = ROUNDED if self.rounds(length) else ""
        return sign + self._number(length, self.unit)

    def length(self, length: Length) -> str:
        """Write a length in the leading unit: "13 11/16 in", "≈13 11/16 in" where it was rounded."""
        return _tied(f"{self.bare(length)} {self.unit}")

    def both(self, length: Length) -> str:
        """Write a length in both systems, the leading one first: "13 1/2 in (343 mm)"."""
        other = "mm" if self.unit == "in" else "in"
        return f"{self.length(length)} {_tied(f'({self._number(length, other)} {other})')}"

    def size(self, *lengths: Length) -> str:
        """Write several lengths as one size: "40 1/2 × 15 × 3/4 in"."""
        return f"{' × '.join(_tied(self.bare(length)) for length in lengths)}\u00a0{self.unit}"

    def size_both(self, *lengths: Length) -> str:
        """Write a size in both systems: "40 1/2 × 15 in (1029 × 381 mm)"."""
        other = "mm" if self.unit == "in" else "in"
        numbers = " × ".join(_tied(self._number(length, other)) for length in lengths)
        return f"{self.size(*lengths)} ({numbers}\u00a0{other})"

    def exact(self, length: Length) -> str:
        """Write a length without rounding, so that it reads back as the same: "13 2/3 in".

        One that comes from a root or an angle is no short fraction; it is written "≈17.0671 in".
        """
        return readably(length, self.unit)

    def why(self, length: Length) -> str:
        """Say how a length is worked out, with exact numbers, and what it is to the nearest mark."""
        said = length.why(self.exact)
        return f"{said} {self.length(length)}" if self.rounds(length) else said

    def _number(self, length: Length, unit: str) -> str:
        if unit == self.unit and not self.rounds(length):
            return mixed(length.mm / MM_IN["in"]) if unit == "in" else decimal(length.mm, 1)
        if unit == "in":
            return mixed(to_nearest(length.mm, self.mark * MM_IN["in"]) / MM_IN["in"])
        return decimal(to_nearest(length.mm, self.metric_mark), 1 if self.metric_mark != 1 else 0)

    def angle(self, angle: Angle, places: int = 1) -> str:
        """Write an angle in degrees and decimals: "14.0°"."""
        return f"{decimal(angle.degrees, places, keep=True)}°"

    def mass(self, mass: Mass) -> str:
        """Write a weight in both systems: "41 lb (18.6 kg)"; below ten pounds with one decimal."""
        pounds = decimal(mass.lb, 1 if mass.lb < 10 else 0)
        kilos = decimal(mass.kg, 1)
        pair = (f"{pounds} lb", f"{kilos} kg") if self.unit == "in" else (f"{kilos} kg", f"{pounds} lb")
        return f"{_tied(pair[0])} {_tied(f'({pair[1]})')}"

    def density(self, density: Density) -> str:
        """Write a density: "36 lb/ft³"."""
        return _tied(f"{decimal(density.pcf, 0)} lb/ft³")

    def area(self, square_mm: Fraction) -> str:
        """Write an area in both systems: "12.3 sq ft (1.1 m²)"."""
        feet, metres = square_mm / _SQUARE_MM_IN_SQUARE_FOOT, square_mm / 10**6
        pair = (f"{decimal(feet, 1)} sq ft", f"{decimal(metres, 1)} m²")
        lead, other = pair if self.unit == "in" else pair[::-1]
        return f"{_tied(lead)} {_tied(f'({other})')}"

    @staticmethod
    def money(money: Money) -> str:
        """Write a price to the cent: "$62.00"."""
        amount = f"{to_nearest(money.amount, Fraction(1, 100)):,.2f}"
        symbol = _SYMBOLS.get(money.currency)
        return f"{symbol}{amount}" if symbol else _tied(f"{amount} {money.currency}")

    @staticmethod
    def minutes(count: int) -> str:
        """Write a time: "2 h 30 min"."""
        hours, minutes = divmod(count, 60)
        pieces = [f"{hours}\u00a0h"] * bool(hours) + [f"{minutes}\u00a0min"] * bool(minutes or not hours)
        return " ".join(pieces)

    @staticmethod
    def count(number: int, one: str, many: str = "") -> str:
        """Write how many there are: "1 screw", "8 screws"."""
        return f"{number}\u00a0{one if number == 1 else many or one + 's'}"

    @staticmethod
    def percent(share: Fraction) -> str:
        """Write a share of one as whole per cent: "14 %"."""
        return f"{decimal(share * 100, 0)}\u00a0%"

    def explained(self) -> tuple[str, ...]:
        """Return the sentences that a page needs to say how its numbers are written."""
        sign = f"{ROUNDED} stands before one that rounding changed."
        inches, metric = f"the nearest {self.mark} in", self._metric()
        brackets = "in brackets are converted (1 in = 25.4 mm) and rounded to"
        if self.unit == "in":
            return f"Lengths are in inches, to {inches}; {sign}", f"Millimeters {brackets} {metric}."
        return f"Lengths are in millimeters, to {metric}; {sign}", f"Inches {brackets} {inches}."

    def _metric(self) -> str:
        return "the nearest whole millimeter" if self.metric_mark == 1 else "the nearest half millimeter"


def decimal(value: Fraction, places: int, *, keep: bool = False) -> str:
    """Write a number with at most so many decimals, halves away from zero; `keep` keeps closing zeros."""
    rounded = to_nearest(value, Fraction(1, 10**places))
    sign = "−" if rounded < 0 else ""
    text = f"{abs(rounded):.{places}f}"
    if not keep and "." in text:
        text = text.rstrip("0").rstrip(".")
    return sign + text


def _tied(text: str) -> str:
    return text.replace(" ", "\u00a0")
