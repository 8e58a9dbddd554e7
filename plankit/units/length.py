"""Lengths: exact, and each knows how it was worked out."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import overload

from plankit.errors import PlanError
from plankit.units.expression import (
    Condition,
    ConditionBook,
    Diagonal,
    Extreme,
    Given,
    Node,
    Rounded,
    Scaled,
    StockSize,
    Sum,
    Typed,
    ask,
    gathered,
    root_of_squares,
    to_nearest,
    to_step,
)
from plankit.units.read import MM_IN, read_mm

_LESS = Fraction(-1)
_FACTOR_STEP = Fraction(1, 10**12)

type Number = int | Fraction
type Readable = "Length | str | int | Fraction"


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Length:
    """An exact length and the expression that made it.

    Two lengths are equal when they are equally long, however they came about. Sums, differences and
    comparisons take lengths, or text that is read in the unit this one was read in; factors and divisors
    are whole numbers or fractions, never floats.
    """

    expr: Node
    unit: str | None = None

    @property
    def mm(self) -> Fraction:
        """The length in millimetres, exactly."""
        return self.expr.value

    @property
    def inches(self) -> Fraction:
        """The length in inches, exactly (1 in is 25.4 mm, NIST SP 811)."""
        return self.expr.value / MM_IN["in"]

    @property
    def names(self) -> tuple[str, ...]:
        """The parameters this length depends on, in alphabetical order."""
        return tuple(sorted(given.name for given in self.expr.givens))

    @classmethod
    def of_mm(cls, mm: Number) -> "Length":
        """Return a plain length of so many millimetres."""
        return cls(Typed(mm if type(mm) is Fraction else Fraction(mm)))

    @classmethod
    def zero(cls) -> "Length":
        """Return no length at all."""
        return cls(Typed(Fraction(0)))

    @classmethod
    def given(
        cls, name: str, value: "Length", *, label: str = "", book: ConditionBook | None = None
    ) -> "Length":
        """Return a plan's parameter; `label` is its name in words, `book` notes what is asked about it."""
        return cls(Given(value.mm, name, label or name.replace("_", " "), book), value.unit)

    @classmethod
    def stock_size(cls, label: str, value: "Length") -> "Length":
        """Return a size that stock is sold in, called `label` wherever it is explained."""
        return cls(StockSize(value.mm, label), value.unit)

    def __add__(self, other: "Length | str") -> "Length":
        more = self._read(other)
        if not isinstance(more, Length):
            return NotImplemented
        return Length(Sum(self.mm + more.mm, self.expr, more.expr), self.unit or more.unit)

    __radd__ = __add__

    def __sub__(self, other: "Length | str") -> "Length":
        less = self._read(other)
        if not isinstance(less, Length):
            return NotImplemented
        taken = Scaled(-less.mm, less.expr, _LESS)
        return Length(Sum(self.mm - less.mm, self.expr, taken), self.unit or less.unit)

    def __rsub__(self, other: str) -> "Length":
        return self._read(other) - self

    def __neg__(self) -> "Length":
        return self * -1

    def __abs__(self) -> "Length":
        return largest(self, -self)

    def __mul__(self, factor: Number) -> "Length":
        if not isinstance(factor, int | Fraction):
            return NotImplemented
        by = factor if type(factor) is Fraction else Fraction(factor)
        return Length(Scaled(self.mm * by, self.expr, by), self.unit)

    __rmul__ = __mul__

    @overload
    def __truediv__(self, by: "Length") -> Fraction: ...

    @overload
    def __truediv__(self, by: Number) -> "Length": ...

    def __truediv__(self, by: "Number | Length") -> "Length | Fraction":
        if isinstance(by, Length):
            return self._asked("/", by)
        if not isinstance(by, int | Fraction):
            return NotImplemented
        return self * (1 / Fraction(by))

    def __floordiv__(self, by: "Length") -> int:
        return int(self._asked("//", by))

    def __lt__(self, other: "Length | str") -> bool:
        return bool(self._asked("<", other))

    def __le__(self, other: "Length | str") -> bool:
        return bool(self._asked("<=", other))

    def __gt__(self, other: "Length | str") -> bool:
        return not self <= other

    def __ge__(self, other: "Length | str") -> bool:
        return not self < other

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and (self.expr is other.expr or self.mm == other.mm)

    def __hash__(self) -> int:
        return hash(self.expr.value)

    def __bool__(self) -> bool:
        return self.mm != 0

    def __str__(self) -> str:
        return readably(self, "mm" if self.unit in {"mm", "cm", "m"} else "in")

    def __repr__(self) -> str:
        return f"L('{self.inches} in')" if self.inches.denominator <= LONGEST_FRACTION else f"L('{readably(self)}')"

    def _read(self, other: "Length | str") -> "Length":
        return L(other, self.unit) if isinstance(other, str) else other

    def _asked(self, kind: str, other: "Length | str") -> Fraction:
        other = self._read(other)
        if not isinstance(other, Length):
            raise PlanError(
                "a length can only be compared with, or divided by, another length.",
                given=repr(other),
                remedy='Write the other one with its unit, for instance L("12 in").',
            )
        answer = ask(kind, self.mm, other.mm)
        books = {
            id(g.book): g.book for g in sorted(self.expr.givens | other.expr.givens, key=lambda g: g.name)
        }
        for book in books.values():
            if book is not None:
                book.note(Condition(self.expr, kind, other.expr, answer))
        return answer

    def portion(self, by: Number) -> "Length":
        """Return this length divided by a plain number (typed more strictly than `/`)."""
        return self * (1 / Fraction(by))

    def rounded(self, step: "Length") -> "Length":
        """Return the multiple of `step` nearest to this length, halves away from zero."""
        return Length(Rounded(to_nearest(self.mm, step.mm), self.expr, step.mm), self.unit)

    def rounded_up(self, step: "Length") -> "Length":
        """Return the smallest multiple of `step` that is not below this length."""
        found = to_step(self.mm, step.mm, up=True)
        return Length(Rounded(found, self.expr, step.mm, up=True), self.unit)

    def gathered(self) -> "Length":
        """Return the same length as one flat sum, for what angles work out: factors to a millionth of a millionth."""
        return Length(gathered(self.expr, _FACTOR_STEP), self.unit)

    def evaluate(self, values: Mapping[str, "Length"]) -> "Length":
        """Work the length out again with other values of the parameters it depends on."""
        return Length.of_mm(self.expr.evaluate({name: value.mm for name, value in values.items()}))

    def why(self, show: Callable[["Length"], str] | None = None) -> str:
        """Say how the length is worked out: in words, in numbers, and what comes out.

        show  writes one length (a `Notation`'s `exact`); in inches, where it is left out
        """
        write = show or readably

        def written(mm: Fraction) -> str:
            return write(Length.of_mm(mm))

        words, numbers, value = self.expr.words(written), self.expr.numbers(written), written(self.mm)
        return " = ".join(dict.fromkeys((words, numbers, value)))


def mixed(value: Fraction) -> str:
    """Write an exact number as a whole and a fraction: 27/4 as "6 3/4"."""
    sign, value = ("−" if value < 0 else ""), abs(value)
    whole, part = divmod(value, 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def exactly(length: Length, unit: str = "in") -> str:
    """Write a length without rounding, so that it reads back as the same: "13 2/3 in".

    A length that the other system says more plainly is written in that: "18 mm", not "90/127 in".
    """
    other = "mm" if unit == "in" else "in"
    here, there = length.mm / MM_IN[unit], length.mm / MM_IN[other]
    plainer = here.denominator > 64 and there.denominator <= 64
    return f"{mixed(there)} {other}" if plainer else f"{mixed(here)} {unit}"


LONGEST_FRACTION = 10_000
"""A fraction with a larger denominator than this says nothing to a reader: it is worked out from a root or an angle."""


def readably(length: Length, unit: str = "in") -> str:
    """Write a length as `exactly` does, but "≈17.0671 in" where its fraction would run over the page."""
    there = length.mm / MM_IN["mm" if unit == "in" else "in"]
    here = length.mm / MM_IN[unit]
    if min(here.denominator, there.denominator) <= LONGEST_FRACTION:
        return exactly(length, unit)
    return f"≈{round(float(here), 4):g} {unit}"


def L(value: Readable, unit: str | None = None) -> Length:  # noqa: N802 - a unit's short name
    """Return a length as people write it: "23 1/4 in", "2 ft 3 in", "590 mm", or a whole number with `unit`.

    value   text, a whole number, a fraction, or a length (returned as it is)
    unit    the unit of a number that carries none: "in", "ft", "mm", "cm" or "m"
    raises  PlanError where the text cannot be read, or can be read in more than one way
    """
    if isinstance(value, Length):
        return value
    return Length(Typed(read_mm(value, unit)), unit)


def smallest(*lengths: Length) -> Length:
    """Return the shortest of several lengths; it stays the shortest when worked out again."""
    nodes = tuple(length.expr for length in lengths)
    return Length(Extreme(min(node.value for node in nodes), "smallest", nodes), _unit(lengths))


def largest(*lengths: Length) -> Length:
    """Return the longest of several lengths; it stays the longest when worked out again."""
    nodes = tuple(length.expr for length in lengths)
    return Length(Extreme(max(node.value for node in nodes), "largest", nodes), _unit(lengths))


def diagonal(one: Length, other: Length) -> Length:
    """Return the long side of the right triangle on two lengths (Pythagoras), to a millionth of a micron."""
    return Length(Diagonal(root_of_squares(one.mm, other.mm), one.expr, other.expr), one.unit or other.unit)


def _unit(lengths: tuple[Length, ...]) -> str | None:
    for length in lengths:
        if length.unit:
            return length.unit
    return None
