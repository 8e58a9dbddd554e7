"""One formatter writes every number; a sign stands before what rounding changed."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.errors import PlanError
from plankit.units import Angle, Density, L, Length, Mass, Money, Notation, decimal
from tests.published import number, published
from tests.strategies import MARKS, signed_lengths

F = Fraction
TIE = "\u00a0"


@pytest.mark.parametrize("row", published("rounding"), ids=lambda row: row["id"])
def test_inches_go_to_the_nearest_mark_with_halves_away_from_zero(row: dict[str, str]) -> None:
    # nearest fraction, halves away from zero: plain arithmetic, source beside each row
    exact = L(row["inches"], "in")
    mark = Notation(mark=F(row["mark"]))
    assert exact.rounded(mark.step).inches == number(row["answer"])
    assert mark.bare(exact).removeprefix("≈") == row["answer"].replace("-", " ")


@given(signed_lengths(), st.sampled_from(MARKS))
def test_the_sign_of_rounding_stands_exactly_where_rounding_changed_the_value(
    length: Length, mark: F
) -> None:
    notation = Notation(mark=mark)
    on_a_mark = (length.inches / mark).denominator == 1
    assert notation.length(length).startswith("≈") == (not on_a_mark)


@given(signed_lengths(), st.sampled_from((F(1), F(1, 2))))
def test_metric_lengths_go_to_whole_or_half_millimetres(length: Length, step: F) -> None:
    written = Notation(unit="mm", metric_mark=step).length(length)
    millimetres = F(written.removeprefix("≈").removesuffix(f"{TIE}mm").replace("−", "-"))
    assert (millimetres / step).denominator == 1
    assert abs(millimetres - length.mm) <= step / 2


@pytest.mark.parametrize(
    ("length", "lead", "both"),
    [
        ("13 1/2 in", "13 1/2 in", "13 1/2 in (343 mm)"),  # 13.5 × 25.4 = 342.9
        ("41/3 in", "≈13 11/16 in", "≈13 11/16 in (347 mm)"),  # 13.6667 × 25.4 = 347.13
        ("0 in", "0 in", "0 in (0 mm)"),
        ("-1/2 in", "−1/2 in", "−1/2 in (−13 mm)"),  # 12.7
        ("1/64 in", "≈0 in", "≈0 in (0 mm)"),  # 0.4 mm
        ("600 mm", "≈23 5/8 in", "≈23 5/8 in (600 mm)"),  # 600 / 25.4 = 23.622
    ],
)
def test_both_systems_stand_side_by_side_with_inches_leading(length: str, lead: str, both: str) -> None:
    value = L(length) if "41/3" not in length else L(F(41, 3), "in")
    assert Notation().length(value).replace(TIE, " ") == lead
    assert Notation().both(value).replace(TIE, " ") == both


def test_metric_may_lead() -> None:
    notation = Notation(unit="mm", metric_mark=F(1, 2))
    # 1/2 in is 12.7 mm: 0.2 from 12.5 and 0.3 from 13
    assert notation.both(L("1/2 in")).replace(TIE, " ") == "≈12.5 mm (1/2 in)"
    assert notation.size_both(L("600 mm"), L("18 mm")).replace(TIE, " ") == "600 × 18 mm (23 5/8 × 11/16 in)"
    assert notation.mass(Mass(F(5))).replace(TIE, " ") == "5 kg (11 lb)"  # 5 / 0.45359 = 11.02


def test_a_size_names_the_unit_once_and_a_number_is_never_parted_from_its_unit() -> None:
    size = Notation().size(L("40 1/2 in"), L("15 in"), L("3/4 in"))
    assert size.replace(TIE, " ") == "40 1/2 × 15 × 3/4 in"
    assert f"3/4{TIE}in" in size
    both = Notation().size_both(L("40 1/2 in"), L("15 in"))
    assert both.replace(TIE, " ") == "40 1/2 × 15 in (1029 × 381 mm)"  # 40.5 × 25.4 = 1028.7; 15 × 25.4 = 381


def test_weights_prices_angles_areas_and_times_are_written_in_words_people_use() -> None:
    write = Notation()
    assert write.mass(Mass.of_pounds(41)).replace(TIE, " ") == "41 lb (18.6 kg)"  # 41 × 0.45359 = 18.597
    assert write.mass(Mass.of_pounds(F(94, 10))).replace(TIE, " ") == "9.4 lb (4.3 kg)"  # 4.264
    assert write.money(Money.read("62")) == "$62.00"
    assert write.money(Money(F(12345), "EUR")) == "€12,345.00"
    assert write.money(Money(F(5), "DKK")).replace(TIE, " ") == "5.00 DKK"
    assert write.angle(Angle(F(14))) == "14.0°"
    assert write.area(L("96 in").mm * L("48 in").mm).replace(TIE, " ") == "32 sq ft (3 m²)"  # 2.973 m²
    assert [write.minutes(n).replace(TIE, " ") for n in (0, 30, 60, 150)] == [
        "0 min",
        "30 min",
        "1 h",
        "2 h 30 min",
    ]
    assert write.count(1, "screw").replace(TIE, " ") == "1 screw"
    assert write.count(8, "box", "boxes").replace(TIE, " ") == "8 boxes"
    assert write.percent(F(1, 7)).replace(TIE, " ") == "14 %"
    assert write.density(Density(F(36))).replace(TIE, " ") == "36 lb/ft³"


@given(st.fractions(min_value=-1000, max_value=1000), st.integers(0, 4))
def test_decimals_are_never_off_by_more_than_half_of_the_last_place(value: F, places: int) -> None:
    written = decimal(value, places)
    assert abs(F(written.replace("−", "-")) - value) <= F(1, 2 * 10**places)
    assert written not in {"-0", "−0"}


def test_a_notation_that_no_tape_has_is_refused_with_the_ones_there_are() -> None:
    with pytest.raises(PlanError, match='"1/16"'):
        Notation(mark=F(1, 10))
    with pytest.raises(PlanError, match='"in" or "mm"'):
        Notation(unit="cm")
    with pytest.raises(PlanError, match="1 or 1/2"):
        Notation(metric_mark=F(1, 10))


def test_the_page_can_say_how_its_numbers_are_written() -> None:
    assert "to the nearest 1/16 in" in Notation().explained()[0]
    assert "half millimeter" in Notation(unit="mm", metric_mark=F(1, 2)).explained()[0]
