"""What one person should lift, by the revised NIOSH equation, against worked examples."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.checks.lifting import blank_weight
from plankit.checks.lifting_equation import recommended_for, recommended_weight
from plankit.parts import GlueUp, Part
from plankit.units import Angle, L, Length, Mass
from tests.checks.small_builds import SLAB
from tests.parts.one_of_each import box, size
from tests.published import published, within

LIFTS = {row["id"]: row for row in published("lifting")}


def given_length(row: dict[str, str], name: str) -> Length:
    found = re.search(rf"\b{name} ([\d.]+) (in|cm)", row["inputs"])
    assert found
    return L(f"{Fraction(found[1]) * 10} mm") if found[2] == "cm" else L(found[1], "in")


def factor(row: dict[str, str], name: str) -> Fraction:
    found = re.search(rf"\b{name} ([\d.]+)", row["inputs"])
    assert found
    return Fraction(found[1])


@pytest.mark.parametrize("name", LIFTS)
def test_recommended_weight_of_a_worked_example(name: str) -> None:
    # RWL = 51 lb × 10/H × (1 − 0.0075 |V − 30|) × (0.82 + 1.8/D) × (1 − 0.0032 A) × FM × CM
    row = LIFTS[name]
    across, height, travel = (given_length(row, letter) for letter in "HVD")
    found = recommended_weight(across, height, travel, often=factor(row, "FM"), grip=factor(row, "CM"))
    assert within(found.lb if row["unit"] == "lb" else found.kg, row["answer"], row["tolerance"])


def test_each_multiplier_alone() -> None:
    # twice as far out, half as much; 20 in lower, 0.85; 40 in of travel, 0.82 + 0.045; turned by 45°, 0.856
    ten, thirty = L("10 in"), L("30 in")
    assert recommended_weight(L("20 in"), thirty, ten).lb == Fraction(51, 2)
    assert recommended_weight(ten, ten, ten).lb == 51 * Fraction("0.85")
    assert recommended_weight(ten, thirty, L("40 in")).lb == 51 * Fraction("0.865")
    assert recommended_weight(ten, thirty, ten, Angle(Fraction(45))).lb == 51 * Fraction("0.856")


def test_beyond_what_the_equation_allows_nothing_is_recommended() -> None:
    ten, thirty = L("10 in"), L("30 in")
    assert recommended_weight(L("25 1/8 in"), thirty, ten) == Mass(Fraction(0))
    assert recommended_weight(ten, L("71 in"), ten) == Mass(Fraction(0))
    assert recommended_weight(ten, thirty, ten, Angle(Fraction(136))) == Mass(Fraction(0))


@given(st.integers(10, 25), st.integers(0, 70), st.integers(0, 70))
def test_no_lift_is_better_than_the_best(across: int, height: int, travel: int) -> None:
    found = recommended_weight(*(L(Fraction(number), "in") for number in (across, height, travel)))
    assert 0 < found.lb <= 51


def test_a_deep_thing_is_held_further_out() -> None:
    # 12 in deep: hands 14 in out, 15 in up, fair grip: 51 × 10/14 × 0.8875 × (0.82 + 1.8/15) × 0.95
    shallow, deep = recommended_for(size("30", "12", "20")), recommended_for(size("40", "40", "20"))
    assert float(shallow.lb) == pytest.approx(51 * 10 / 14 * 0.8875 * 0.94 * 0.95)
    assert deep.lb == 0


def test_a_blank_weighs_more_than_the_top_that_is_trimmed_from_it() -> None:
    # 46 × 18 1/2 × 1 1/2 in = 0.7387 ft³; loblolly pine at 12 %: 62.4 × 0.51 × 1.12 = 35.6 lb/ft³
    blank = GlueUp(2, L("9 1/4 in"), L("46 in"), (L("46 in"), L("18 1/2 in"), L("1 1/2 in")))
    top = Part(
        "top", "Top", "glue-up", SLAB, box("0", "45", "0", "18", "0", "1 1/2"), "x", "z", glue_up=blank
    )
    assert float(blank_weight(top).lb) == pytest.approx(46 * 18.5 * 1.5 / 1728 * 62.4 * 0.51 * 1.12, rel=1e-6)
    assert blank_weight(Part("p", "P", "board", SLAB, top.box, "x", "z")).kg == 0
