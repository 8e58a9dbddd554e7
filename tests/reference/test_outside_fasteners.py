"""What screws and nails hold, against published sums: Wood Handbook chapter 8 and the NDS. Sources beside each row."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.errors import PlanError
from plankit.reference import (
    common_nail,
    nail_pull,
    nail_withdrawal,
    rows,
    screw_pull,
    screw_sideways,
    screw_withdrawal,
    species,
    wood_screw,
)
from plankit.units import L, Length, Mass
from tests.published import published, within

F = Fraction
SUMS = {row["id"]: row for row in published("fasteners")}
NEWTONS = F("4.4482216152605")
"""One pound of force in newtons, exact (NIST SP 811)."""
INCH = L("1 in")


def numbers(text: str) -> list[Fraction]:
    return [F(one) for one in re.findall(r"\d+(?:\.\d+)?", text)]


@pytest.mark.parametrize(
    ("name", "wood"), [("FA-S1", "sugar maple"), ("FA-S3", "northern red oak"), ("FA-S4", "eastern white pine")]
)
def test_pull_that_draws_a_wood_screw(name: str, wood: str) -> None:
    # Wood Handbook eq. 8-10: 15,700 G² D L, D = 0.060 + 0.013 N in; the rows' own G is that of the species table
    row = SUMS[name]
    gravity, gauge, thread = numbers(row["inputs"])
    assert species(wood).specific_gravity == gravity
    found = screw_withdrawal(gravity, wood_screw(int(gauge)).shank, L(thread, "in"))
    assert within(found.lb, row["answer"], row["tolerance"])


@pytest.mark.parametrize("name", ["FA-A1", "FA-A2"])
def test_pull_that_designs_count_on(name: str) -> None:
    # NDS 12.2: 2,850 G² D for an inch of thread; FA-A1 is a printed answer, FA-A2 computed with a published G
    row = SUMS[name]
    gravity, gauge, _ = numbers(row["inputs"])
    found = screw_pull(gravity, wood_screw(int(gauge)).shank, INCH)
    assert within(found.lb, row["answer"], row["tolerance"])


@pytest.mark.parametrize("name", ["FA-N2", "FA-N3"])
def test_pull_that_draws_a_common_nail(name: str) -> None:
    # Wood Handbook eq. 8-1: 54.12 G^2.5 D L, in newtons and millimetres
    row = SUMS[name]
    gravity, _, thick, long = numbers(row["inputs"])
    found = nail_withdrawal(gravity, Length.of_mm(thick), Length.of_mm(long))
    assert within(found.lb * NEWTONS, row["answer"], row["tolerance"])


@pytest.mark.parametrize("name", ["FA-P1", "FA-P2"])
def test_lead_holes(name: str) -> None:
    # NDS 12.1.5.2: 90 % of the root above 0.6, else 70 %
    row = SUMS[name]
    gauge, gravity, *_ = numbers(row["inputs"])
    found = wood_screw(int(gauge)).lead_hole(gravity)
    assert within(found.inches, row["answer"], row["tolerance"])


def test_the_two_systems_of_the_screw_rule_agree() -> None:
    # eq. 8-10 metric: 108.25 G² D L in N and mm, against 15,700 in lb and in: one and the same to 0.1 %
    pounds = screw_withdrawal(F(1), Length.of_mm(1), Length.of_mm(1)).lb * NEWTONS
    assert abs(pounds / F("108.25") - 1) < F(1, 1000)


def test_the_two_systems_of_the_nail_rule_agree() -> None:
    # eq. 8-1: 54.12 G^2.5 D L in N and mm is 7,850 in lb and in (from memory): to 0.1 %
    assert abs(nail_withdrawal(F(1), INCH, INCH).lb / 7850 - 1) < F(1, 1000)


def test_the_factors_are_those_of_the_table_of_fastener_rules() -> None:
    told = {row["item"]: row["value"] for row in rows("fastener_rules")}
    one = F(1)
    screw, allowed = told["wood screw withdrawal, ultimate, side grain, in-lb"], told[
        "NDS wood screw withdrawal, allowable reference W per inch"
    ]
    assert f"{float(screw_withdrawal(one, INCH, INCH).lb):,.0f} G^2" in screw
    assert f"{float(screw_pull(one, INCH, INCH).lb):,.0f} G^2" in allowed
    assert f"{float(nail_pull(one, INCH, INCH).lb):,.0f} G^2.5" in told["NDS nail withdrawal, smooth shank"]
    assert "54.12 G^2.5" in told["common nail withdrawal, ultimate, side grain"]


@pytest.mark.parametrize(
    ("gravity", "hardwood", "factor"),
    [
        ("0.35", False, "23.17"), ("0.42", False, "23.17"), ("0.45", False, "29.79"), ("0.51", False, "36.40"),
        ("0.40", True, "23.17"), ("0.50", True, "31.99"), ("0.63", True, "44.13"),
    ],
)  # fmt: skip
def test_what_a_screw_holds_sideways_is_k_d_squared(gravity: str, hardwood: bool, factor: str) -> None:
    # Wood Handbook eq. 8-13 and table 8-4 (N, mm), penetration 7 D and more
    thick = wood_screw(10).shank
    found = screw_sideways(F(gravity), thick, thick * 7, hardwood=hardwood)
    assert abs(found.lb * NEWTONS - F(factor) * thick.mm**2) < F(1, 10**6)
    (row,) = (row for row in rows("fastener_rules") if row["item"].startswith("wood screw lateral"))
    assert factor in row["value"]


def test_half_the_depth_holds_half() -> None:
    thick = wood_screw(8).shank
    whole = screw_sideways(F("0.42"), thick, thick * 7)
    assert screw_sideways(F("0.42"), thick, thick * F(7, 2)).lb * 2 == whole.lb
    assert screw_sideways(F("0.42"), thick, thick * 20).lb == whole.lb


def test_wood_lighter_than_the_table_is_refused() -> None:
    with pytest.raises(PlanError):
        screw_sideways(F("0.2"), wood_screw(8).shank, INCH)


@given(st.integers(30, 70), st.integers(1, 40), st.sampled_from([6, 8, 10, 12]))
def test_denser_wood_and_more_thread_never_hold_less(gravity: int, sixteenths: int, gauge: int) -> None:
    def held(g: int, s: int) -> list[Mass]:
        depth, thick = L(F(s, 16), "in"), wood_screw(gauge).shank
        return [
            screw_withdrawal(F(g, 100), thick, depth), screw_pull(F(g, 100), thick, depth),
            nail_withdrawal(F(g, 100), thick, depth), nail_pull(F(g, 100), thick, depth),
            screw_sideways(F(g, 100), thick, depth),
        ]  # fmt: skip

    here = held(gravity, sixteenths)
    for more in (held(gravity + 1, sixteenths), held(gravity, sixteenths + 1)):
        assert all(a.lb <= b.lb for a, b in zip(here, more, strict=True))


@pytest.mark.parametrize("row", published("nails"), ids=lambda row: row["size"])
def test_common_nails_are_those_of_the_handbook(row: dict[str, str]) -> None:
    # Wood Handbook table 8-1, in millimetres there; ours are the inch sizes
    nail = common_nail(row["size"])
    assert abs(nail.length.mm - F(row["length_mm"])) <= F(1, 10)
    assert abs(nail.diameter.mm - F(row["diameter_mm"])) <= F(1, 50)
