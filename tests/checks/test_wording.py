"""How findings write two numbers that differ by less than the plan's mark."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from plankit.checks.wording import masses_apart, told_apart
from plankit.units import L, Length, Mass, Notation
from plankit.units.notation import ROUNDED

INCHES, METRIC = Notation(), Notation("mm")


def test_lengths_that_a_tape_tells_apart_are_written_to_its_mark() -> None:
    assert told_apart(L("1/2 in"), L("3/4 in"), INCHES) == ("1/2\u00a0in", "3/4\u00a0in")


def test_lengths_closer_than_the_mark_are_written_finer() -> None:
    # both are 1/2 in at sixteenths
    assert told_apart(L("1/2 in"), L("33/64 in"), INCHES) == ("1/2\u00a0in", "33/64\u00a0in")
    assert told_apart(L("12.7 mm"), L("13 mm"), METRIC) == ("≈12.5\u00a0mm", "13\u00a0mm")
    # both are 1/2 in at 64ths
    one, other = told_apart(L("1/2 in"), L("0.501 in"), INCHES)
    assert one == "1/2 in"
    assert one != other.removeprefix(ROUNDED)


@given(st.integers(1, 4000), st.integers(1, 4000))
def test_different_lengths_have_different_words(one: int, other: int) -> None:
    said = told_apart(Length.of_mm(Fraction(one, 37)), Length.of_mm(Fraction(other, 37)), INCHES)
    assert (said[0].removeprefix(ROUNDED) == said[1].removeprefix(ROUNDED)) == (one == other)


def test_weights_that_round_to_the_same_say_how_much_more_or_less() -> None:
    limit = Mass.of_pounds(40)
    assert masses_apart(Mass.of_pounds(52), limit, INCHES) == (INCHES.mass(Mass.of_pounds(52)), INCHES.mass(limit))
    # 40.01 lb is 40 lb and 18.1 kg, as 40 lb is
    heavier = Mass(limit.kg + Mass.of_pounds(1).kg / 100)
    assert masses_apart(heavier, limit, INCHES)[0] == "40\u00a0lb (18.1\u00a0kg), 0.01\u00a0lb more than that"
    assert masses_apart(limit, heavier, INCHES)[0].endswith("0.01\u00a0lb less than that")
    assert masses_apart(limit, limit, INCHES)[0] == INCHES.mass(limit)
