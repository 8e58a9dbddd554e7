"""Lengths are read as people write them; what can be read in two ways is refused, saying why."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.errors import PlanError
from plankit.units import L, Length, Notation, read_number
from tests.strategies import MARKS, lengths, signed_lengths

F = Fraction


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        # 1 in = 25.4 mm exactly, 1 ft = 12 in (NIST SP 811, appendix B)
        ('23-1/4"', F(2325, 100) * F(254, 10)),
        ("23 1/4 in", F(2325, 100) * F(254, 10)),
        ("23.25 in", F(2325, 100) * F(254, 10)),
        ("23¼ in", F(2325, 100) * F(254, 10)),
        ("23 ¼″", F(2325, 100) * F(254, 10)),
        ("93/4 inches", F(2325, 100) * F(254, 10)),
        ('3/8"', F(3, 8) * F(254, 10)),
        ("⅜ inch", F(3, 8) * F(254, 10)),
        (".5 in", F(127, 10)),
        ("2 ft 3 in", 27 * F(254, 10)),
        ("2' 3\"", 27 * F(254, 10)),
        ("2'-3 1/2\"", F(55, 2) * F(254, 10)),
        ("2ft3in", 27 * F(254, 10)),
        ("5' 6-1/2''", F(133, 2) * F(254, 10)),
        ("1 1/2 ft", 18 * F(254, 10)),
        ("590 mm", F(590)),
        ("590mm", F(590)),
        ("59 cm", F(590)),
        ("0.59 m", F(590)),
        ("0.5 millimeters", F(1, 2)),
        ("-1/2 in", F(-127, 10)),
        ("−2 ft 3 in", -27 * F(254, 10)),
        ("  44\u00a0in ", 44 * F(254, 10)),
    ],
)
def test_a_length_is_read_exactly(text: str, millimetres: Fraction) -> None:
    assert L(text).mm == millimetres


@pytest.mark.parametrize(
    ("value", "unit", "inches"),
    [
        ("23 1/4", "in", F(93, 4)),
        ("2", "ft", F(24)),
        (44, "in", F(44)),
        (F(3, 4), "in", F(3, 4)),
        ("254", "mm", F(10)),
    ],
)
def test_a_number_without_unit_takes_the_unit_it_is_read_in(
    value: object, unit: str, inches: Fraction
) -> None:
    assert L(value, unit).inches == inches  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("inches", "text"),
    # UN-21: 5-1/2, 5 1/2, 5.5 and 5' 6-1/2" are 5.5, 5.5, 5.5 and 66.5 in (arithmetic on the notation)
    [(F(11, 2), "5-1/2"), (F(11, 2), "5 1/2"), (F(11, 2), "5.5"), (F(133, 2), "5' 6-1/2\"")],
)
def test_the_usual_notations_agree(inches: Fraction, text: str) -> None:
    assert L(text, "in").inches == inches


@pytest.mark.parametrize(
    ("value", "why"),
    [
        ("23 1/4", "carries no unit"),
        (23, "carries no unit"),
        ("2 ft 3", "what follows the feet carries no unit"),
        ("2 ft 14 in", "come to a foot or more"),
        ("1,5 in", "a comma may part thousands or decimals"),
        ("1,500 mm", "a comma may part thousands or decimals"),
        ("3-4 in", "a difference or a range"),
        ("23 - 1/4 in", "a difference or a range"),
        ("3 4/3 in", "the fraction after the whole number is one or more"),
        ("23 1/0 in", "divided by nothing"),
        ("2 x 4 in", "two sizes"),
        ("12 furlongs", "its unit is not known"),
        ("", "there is nothing in it"),
        ("   ", "there is nothing in it"),
        ("about a foot", "no form that plankit knows"),
        ("1e3 mm", "no form that plankit knows"),
        ("nan mm", "no form that plankit knows"),
        ("5. in", "no form that plankit knows"),
        (0.75, "a float is not exact"),
        (True, "neither text nor a whole number"),
        (None, "neither text nor a whole number"),
        (["3 in"], "neither text nor a whole number"),
    ],
)
def test_what_is_unclear_is_refused_with_the_reason_and_a_remedy(value: object, why: str) -> None:
    with pytest.raises(PlanError) as refused:
        L(value)  # type: ignore[arg-type]
    assert why in refused.value.what
    assert refused.value.given == repr(value)
    assert refused.value.remedy


def test_an_unknown_unit_is_refused_with_the_known_ones() -> None:
    with pytest.raises(PlanError, match="in, ft, mm, cm, m"):
        L("3", "cubits")


def test_a_float_is_refused_with_the_text_to_type_instead() -> None:
    with pytest.raises(PlanError, match=r'Put it in quotes: "0.75"'):
        L(0.75, "in")  # type: ignore[arg-type]


def test_plain_numbers_are_read_the_same_way_and_words_are_refused() -> None:
    assert read_number("23-1/4") == F(93, 4)
    with pytest.raises(PlanError, match="not a number"):
        read_number("many")


@given(signed_lengths(), st.sampled_from(("in", "mm")))
def test_a_length_written_exactly_reads_back_as_itself(length: Length, unit: str) -> None:
    assert L(Notation(unit=unit).exact(length)) == length


@given(lengths(), st.sampled_from(MARKS))
def test_a_length_written_to_the_mark_reads_back_as_its_rounding(length: Length, mark: Fraction) -> None:
    notation = Notation(mark=mark)
    read_back = L(notation.length(length).removeprefix("≈"))
    assert read_back == length.rounded(notation.step)
    assert abs(read_back.mm - length.mm) <= notation.step.mm / 2


def attempt(text: str) -> Length | PlanError:
    try:
        return L(text, "in")
    except PlanError as refusal:
        return refusal


WRITTEN = st.text(max_size=12) | st.text(alphabet="0123456789/.,- '\"inftm", max_size=12)


@given(WRITTEN)
def test_any_text_is_read_or_refused_in_words_and_nothing_else_happens(text: str) -> None:
    answer, with_spaces = attempt(text), attempt(f"  {text} ")
    if isinstance(answer, PlanError):
        assert answer.remedy
        assert isinstance(with_spaces, PlanError)
    else:
        assert with_spaces == answer
