"""What the trade does with hinges and pins, read from the table's own words."""

from fractions import Fraction

import pytest

from plankit.reference import door_kilograms_per_square_metre, hinge_classes, practice
from plankit.units import L


def test_the_sizes_in_a_row_come_in_its_own_order() -> None:
    # "3-7 mm from door edge to bore edge; 5 mm usual (bore centre 22.5 mm from edge)"
    assert practice("cup edge distance (tab)").sizes == (L("3 mm"), L("7 mm"), L("5 mm"), L("22.5 mm"))
    # "full overlay reveal 3 mm (1/8 in) between doors; inset gap 1.5-2 mm (1/16 in)"
    assert practice("clearances").sizes == (L("3 mm"), L("1/8 in"), L("1.5 mm"), L("2 mm"), L("1/16 in"))


def test_every_row_says_where_it_comes_from() -> None:
    row = practice("system-hole spacing")
    assert row.sizes == (L("32 mm"),)
    assert row.source
    assert row.status == "read (secondary)"


def test_there_is_no_row_of_an_unknown_name() -> None:
    with pytest.raises(KeyError):
        practice("secret hinge")


@pytest.mark.parametrize(
    ("height", "count"), [("39", 2), ("40", 3), ("60", 3), ("61", 4), ("80", 4), ("80 1/8", 5), ("96", 5)]
)
def test_hinges_by_height(height: str, count: int) -> None:
    # hardware.csv, common practice: "under 40 in: 2; 40-60: 3; 60-80: 4; over 80: 5"
    (first, *_) = (row for row in hinge_classes() if row.holds(L(height, "in")))
    assert first.count == count


def test_the_door_that_the_table_assumes() -> None:
    # 19 mm particleboard: 0.019 × 650 = 12.35 and 0.019 × 750 = 14.25 kg/m2, printed as 12.4 and 14.3
    least, most = door_kilograms_per_square_metre()
    assert abs(least - Fraction(19, 1000) * 650) <= Fraction(1, 20)
    assert abs(most - Fraction(19, 1000) * 750) <= Fraction(1, 20)
