"""Conversions are those of NIST Special Publication 811; weights, angles and prices are exact."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.errors import PlanError
from plankit.units import Angle, Density, L, Length, Mass, Money
from tests.published import published, within
from tests.strategies import lengths, signed_lengths

F = Fraction


def _ours(item: str) -> Fraction:
    foot, inch = L("1 ft").mm / 1000, L("1 in").mm
    return {
        "1 in to mm": inch,
        "1 ft to m": foot,
        "1 lb to kg": Mass.of_pounds(1).kg,
        "1 ft3 to m3": foot**3,
        "1 board foot to m3": 144 * (inch / 1000) ** 3,  # 12 in × 12 in × 1 in
        "1 pcf to kg/m3": Density(F(1)).mass_of(F(10**9)).kg,  # a cubic metre is 10^9 mm³
    }[item]


@pytest.mark.parametrize("row", published("conversions"), ids=lambda row: row["item"])
def test_conversions_are_those_of_nist_sp_811(row: dict[str, str]) -> None:
    if row["tolerance"] == "exact":
        assert _ours(row["item"]) == F(row["value"])
    else:
        assert within(_ours(row["item"]), row["value"], row["tolerance"])


@given(signed_lengths(), signed_lengths())
def test_sums_and_differences_of_lengths_are_exact(one: Length, other: Length) -> None:
    assert (one + other).mm == one.mm + other.mm
    assert one + other - other == one
    assert abs(one).mm == abs(one.mm)
    assert (-one).mm == -one.mm


@given(lengths(), lengths(), st.integers(1, 50))
def test_parts_of_a_length_make_the_whole_again(one: Length, other: Length, count: int) -> None:
    assert one / count * count == one
    assert one.portion(count) == one / count
    assert one / other * other.mm == one.mm
    assert one // other == (one.mm / other.mm).__floor__()


@given(signed_lengths(), signed_lengths())
def test_lengths_compare_as_their_millimetres_do(one: Length, other: Length) -> None:
    assert (one < other, one <= other, one == other) == (
        one.mm < other.mm,
        one.mm <= other.mm,
        one.mm == other.mm,
    )
    assert (one > other, one >= other) == (one.mm > other.mm, one.mm >= other.mm)
    if one == other:
        assert hash(one) == hash(other)


def test_lengths_are_not_mixed_with_plain_numbers() -> None:
    with pytest.raises(TypeError):
        L("3 in") + 1  # type: ignore[operator]
    with pytest.raises(TypeError):
        L("3 in") * 0.5  # type: ignore[operator]
    with pytest.raises(TypeError):
        L("3 in") / 0.5  # type: ignore[call-overload]
    with pytest.raises(PlanError, match="compared"):
        assert L("3 in") < 4  # type: ignore[operator]


@pytest.mark.parametrize(
    ("rise", "run", "degrees"),
    # tangents that every table gives exactly: 0, 1, and 1 : √3 to the precision of the lengths
    [("0 in", "5 in", 0), ("5 in", "5 in", 45), ("1 in", "0 in", 90)],
)
def test_angles_come_from_rise_and_run(rise: str, run: str, degrees: int) -> None:
    assert Angle.of_slope(L(rise), L(run)).degrees == degrees


def test_prices_are_read_and_added_exactly() -> None:
    assert Money.read("$62.10") + Money.read("0.20") == Money.read("62.30")
    assert Money.read(3) * 4 == Money.read("12")


@pytest.mark.parametrize("price", ["62,00", "dear", "", None, 62.0, True, "1/0"])
def test_a_price_that_cannot_be_read_is_refused(price: object) -> None:
    with pytest.raises(PlanError, match="cannot be read"):
        Money.read(price)


def test_a_price_below_nothing_and_two_currencies_in_one_sum_are_refused() -> None:
    with pytest.raises(PlanError, match="below nothing"):
        Money.read("-3")
    with pytest.raises(PlanError, match="one currency"):
        Money(F(1), "USD") + Money(F(1), "EUR")
