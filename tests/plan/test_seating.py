"""Legs and aprons from a top's overhang, and room for the knees of somebody who sits there."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.checks import check
from plankit.errors import PlanError
from plankit.units import L

SLAB = stock.lumber("2x10", species="loblolly pine")
LEG = stock.lumber("2x2", species="Douglas-fir")
APRON = stock.lumber("1x4", species="Douglas-fir")


def table(overhang: Any = ("3", "1 1/2"), under: str = "28") -> tuple[Plan, Any]:
    plan = Plan("Table")
    top = plan.glue_up("Top", SLAB, boards=3, left=0, right="48", front=0, back="24", bottom=under)
    return plan, plan.under_top("Table", LEG, APRON, top=top, overhang=overhang)


def knees(plan: Plan) -> list[Any]:
    return [one for one in check(plan.build(), None, plan.notation) if one.check == "knee room"]


def test_aprons_and_legs_follow_from_the_overhang() -> None:
    _, frame = table()
    legs = frame.uprights
    assert (legs[0].left, legs[0].front, legs[-1].right, legs[-1].back) == tuple(
        map(L, ("3 in", "1 1/2 in", "45 in", "22 1/2 in"))
    )
    assert {leg.top for leg in legs} == {L("28 in")}
    # between legs 1 1/2 in wide: 48 − 2 × 3 − 2 × 1 1/2 = 39, and 24 − 2 × 1 1/2 − 2 × 1 1/2 = 18
    assert sorted({rail.length for rail in frame.rails}) == [L("18 in"), L("39 in")]
    assert {rail.top for rail in frame.rails} == {L("28 in")}


def test_one_overhang_goes_all_round_and_a_change_moves_the_legs() -> None:
    _, frame = table(overhang="2")
    assert (frame.uprights[0].left, frame.uprights[0].front) == (L("2 in"), L("2 in"))
    for wrong in ("23", ("1", "2", "3"), "-1"):
        with pytest.raises(PlanError):
            table(overhang=wrong)


def test_knee_room_is_the_lower_edge_of_the_apron_over_the_floor() -> None:
    plan, _ = table()
    guest = plan.seated("A guest", knees="24 1/2")
    assert guest.room == L("24 1/2 in")  # 28 − 3 1/2
    assert knees(plan) == []
    plan.seated("A tall guest", knees="25")
    (one,) = knees(plan)
    assert (one.level, one.part) == ("look at", "Table front rail")
    assert "24" in one.number
    assert "25" in one.number


def test_a_leg_in_the_middle_leaves_no_room_at_all() -> None:
    plan, _ = table()
    plan.board("Middle leg", LEG, runs="up", left="23", front="1 1/2", bottom=0, top="28")
    guest = plan.seated("A guest")
    assert guest.room == L("0 in")
    assert [one.part for one in knees(plan)] == ["Middle leg"]


def test_one_sits_at_a_side() -> None:
    plan, _ = table()
    with pytest.raises(PlanError, match="upright side"):
        plan.seated("A cat", at="top")
    assert plan.seated("A guest", at="left", wide="15").room == L("24 1/2 in")
