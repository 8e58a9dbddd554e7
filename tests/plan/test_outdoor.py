"""A piece in the weather as its author writes it: its air, holes and gaps for water."""

import itertools
from fractions import Fraction
from typing import Any

import pytest

from plankit import Plan, stock
from plankit.build.movement import movement
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.plan.outdoors import outdoor_findings
from plankit.units import L

CEDAR = stock.lumber("1x6", species="western redcedar")
SLAB = stock.lumber("2x10", species="loblolly pine")
SMALL = stock.lumber("2x2", species="Douglas-fir")


def found(plan: Plan) -> list[Finding]:
    return list(outdoor_findings(plan.draft()))


def test_outdoors_the_same_top_gets_longer_slots() -> None:
    def slots(outside: bool) -> list[Any]:
        plan = Plan("Table")
        if outside:
            plan.outdoors()
        top = plan.glue_up("Top", SLAB, boards=2, left=0, right="30", front=0, back="14", bottom="17")
        cleat = plan.board("Cleat", SMALL, runs="front-back", left="4", front="1", back="13", top=top.bottom)
        plan.fasten_top(top, to=[cleat], fixed_along="front", screws="#8 x 2")
        return [one.travel for one in plan.build().joints[0].fasteners if one.travel is not None]

    assert all(wet > dry for wet, dry in zip(slots(True), slots(False), strict=True))
    # cedar's neighbour in the tables, loblolly: 40 to 90 % is 7.7 to 20.6 % moisture, 30 to 70 % is 6.2 to 13.1 %
    # (Wood Handbook table 4-2): 12.9 against 6.9, so slots nearly twice as long
    ratio = float(slots(True)[-1].mm / slots(False)[-1].mm)
    assert 1.6 < ratio < 2.1


def test_the_air_is_what_the_author_says() -> None:
    plan = Plan("Box")
    plan.board("Side", CEDAR, runs="left-right", wide="up", left=0, right="20", front=0, bottom=0)
    plan.outdoors(dry="35 %", wet=85)
    assert plan.shop.humidities == (Fraction(35, 100), Fraction(85, 100))
    assert plan.draft().facts.outdoors
    for wrong in ({"dry": "90 %"}, {"wet": "damp"}, {"dry": 0}, {"wet": "100 %"}):
        with pytest.raises(PlanError):
            plan.outdoors(**wrong)  # type: ignore[arg-type]


def test_a_plan_that_says_outdoors_among_its_facts_gets_that_air_too() -> None:
    plan = Plan("Box")
    plan.about(summary="A box.", author="K. N.", version="1", published="2026-11-25", outdoors=True)
    assert plan.shop.humidities == (Fraction(40, 100), Fraction(90, 100))


def test_indoors_nobody_asks_about_rain() -> None:
    plan = Plan("Box")
    plan.board("Side", SLAB, runs="left-right", wide="up", left=0, right="20", front=0, bottom=0)
    assert found(plan) == []
    plan.outdoors()
    assert "wood unsuited outdoors" in [one.check for one in found(plan)]


def test_slats_are_ripped_alike_and_leave_just_the_gap() -> None:
    plan = Plan("Bottom")
    made = plan.slats("Slat", CEDAR, runs="left-right", gap="1/4", left=0, right="20", front=0, back="17", bottom=0)
    # 3 boards of 5 1/2 and 2 gaps are 17: just full width
    assert [one.width for one in made] == [L("5 1/2 in")] * 3
    made = plan.slats("Slat", CEDAR, runs="left-right", gap="1/4", left=0, right="20", front=0, back="18", top="9")
    # 4 boards: (18 − 3 × 1/4) / 4 = 4 5/16
    assert [one.width for one in made] == [L("4 5/16 in")] * 4
    assert [after.front - before.back for before, after in itertools.pairwise(made)] == [L("1/4 in")] * 3
    assert made[-1].back == L("18 in")


def test_a_gap_that_a_wet_board_closes_is_refused() -> None:
    plan = Plan("Bottom")
    plan.outdoors()
    swells = movement(CEDAR, L("5 1/2 in"), Fraction(40, 100), Fraction(90, 100))
    assert L("1/8 in") < swells < L("3/16 in")  # 5 1/2 × 0.00234 × 12.9 = 0.166 in (Wood Handbook table 13-5)
    around = {"left": 0, "right": "20", "front": 0, "back": "16 3/4", "bottom": 0}  # 3 × 5 1/2 + 2 × 1/8
    with pytest.raises(PlanError, match="swells"):
        plan.slats("Slat", CEDAR, runs="left-right", gap="1/8", **around)
    assert len(plan.slats("Slat", CEDAR, runs="left-right", gap="1/4", **around)) == 3


def test_only_what_lies_flat_is_drained_and_slats_need_their_faces() -> None:
    plan = Plan("Box")
    side = plan.board("Side", CEDAR, runs="left-right", wide="up", left=0, right="20", front=0, bottom=0)
    with pytest.raises(PlanError, match="lies flat"):
        plan.drain(side)
    for faces in ({"left": 0, "right": 9, "front": 0, "bottom": 0}, {"left": 0, "right": 9, "front": 0, "back": 9}):
        with pytest.raises(PlanError, match="slats lie between"):
            plan.slats("Slat", CEDAR, runs="left-right", **faces)
