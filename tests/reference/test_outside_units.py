"""Small published sums about units, kerf, diagonals and finish; sources beside each row."""

from fractions import Fraction
from math import sqrt

import pytest

from plankit.cutting import cut
from plankit.plan.used_up import COVERAGE, FIRST_COAT_OF_OIL, OUNCES_IN_GALLON, Need
from plankit.reference import nail_withdrawal, screw_sideways
from plankit.units import MM_IN, L, Length, diagonal
from tests.cutting.jobs import board, job
from tests.published import published, within

F = Fraction
SUMS = {row["id"]: row for row in published("worked")}
UNITS = {row["item"]: F(row["value"]) for row in published("forces_and_volumes")}


def test_one_length_in_every_notation() -> None:
    # UN-21: 5-1/2, 5 1/2, 5.5 and 5' 6-1/2"
    row = SUMS["UN-21"]
    written = ["5-1/2", "5 1/2", "5.5", "5' 6-1/2\""]
    assert ", ".join(written) == row["inputs"]
    assert [L(one, "in").inches for one in written] == [F(one) for one in row["answer"].split(", ")]


@pytest.mark.parametrize(("spare", "boards"), [(F(0), 1), (F(1, 1000), 2)])
def test_six_parts_from_one_board_lose_five_kerfs(spare: Fraction, boards: int) -> None:
    # UN-22: (6 − 1) × 1/8 = 0.625 in; a board shorter by a thousandth is not enough
    kerf = F(1, 8)
    assert 5 * kerf == F(SUMS["UN-22"]["answer"])
    found = cut(job([board(6 * 10 + 5 * kerf - spare)], [("part", 10, 0, 6)], kerf))
    assert sum(layout.copies for layout in found.layouts) == boards


def test_a_case_is_square_when_its_diagonals_agree() -> None:
    # AN-D01: √(36² + 72²) = 80.4984 in
    row = SUMS["AN-D01"]
    found = diagonal(L("36 in"), L("72 in"))
    assert within(found.inches, row["answer"], row["tolerance"])
    assert float(found.inches) == pytest.approx(sqrt(36**2 + 72**2), abs=1e-9)


def test_no_coat_is_reckoned_thinner_than_theory_allows() -> None:
    # FN-01: 1604 × 0.40 ÷ 1 mil = 641.6 ft²/gal without loss; what a brush covers in practice is less
    assert F(231, 144) * 1000 * F(40, 100) == pytest.approx(float(SUMS["FN-01"]["answer"]), abs=0.5)
    assert FIRST_COAT_OF_OIL < COVERAGE < F(SUMS["FN-01"]["answer"])


def test_a_gallon_holds_as_many_litres_as_its_ounces() -> None:
    found = Need("Varnish", F(OUNCES_IN_GALLON), "fl oz").in_units("l")
    assert found is not None
    assert abs(found - UNITS["1 US gallon to L"]) < F(1, 10**9)


def test_an_inch_squared_in_square_millimetres() -> None:
    assert MM_IN["in"] ** 2 == UNITS["1 in2 to mm2"]


def test_forces_are_turned_from_newtons_into_pounds_exactly() -> None:
    # a factor of 54.12 N (Wood Handbook eq. 8-1) and one of 23.17 N (table 8-4), for 1 mm and G = 1 or 0.35
    one = Length.of_mm(1)
    assert nail_withdrawal(F(1), one, one).lb * UNITS["1 lbf to N"] == F("54.12")
    assert screw_sideways(F("0.35"), one, one * 7).lb * UNITS["1 lbf to N"] == F("23.17")
