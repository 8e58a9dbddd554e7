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
    assert (one, other) == ("0.5\u00a0in", "0.501\u00a0in")


def test_lengths_hardly_apart_are_written_in_decimals_not_in_odd_fractions() -> None:
    # 30 9/16 in ÷ 144 is 163/768 in, which is on no rule
    one, other = told_apart(L("163/768 in"), L("0.2147 in"), INCHES)
    assert (one, other) == ("≈0.212\u00a0in", "≈0.215\u00a0in")
    assert "/" not in one + other


@given(st.integers(1, 4000), st.integers(1, 4000))
def test_different_lengths_have_different_words(one: int, other: int) -> None:
    said = told_apart(Length.of_mm(Fraction(one, 37)), Length.of_mm(Fraction(other, 37)), INCHES)
    assert (said[0].removeprefix(ROUNDED) == said[1].removeprefix(ROUNDED)) == (one == other)


def test_weights_that_round_to_the_same_say_which_is_more() -> None:
    limit = Mass.of_pounds(40)
    assert masses_apart(Mass.of_pounds(52), limit, INCHES) == (INCHES.mass(Mass.of_pounds(52)), INCHES.mass(limit))
    # 40.01 lb is 40 lb and 18.1 kg, as 40 lb is
    heavier = Mass(limit.kg + Mass.of_pounds(1).kg / 100)
    assert masses_apart(heavier, limit, INCHES)[0] == "just over 40\u00a0lb (18.1\u00a0kg)"
    assert masses_apart(limit, heavier, INCHES)[0] == "just under 40\u00a0lb (18.1\u00a0kg)"
    assert masses_apart(limit, limit, INCHES)[0] == INCHES.mass(limit)
