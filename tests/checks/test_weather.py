"""A piece in the rain: a bottom that holds water is found, one with a way out is not, nor one under a roof."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.checks.weather import water_on, weather

CEDAR = stock.lumber("1x6", species="western redcedar")
WIDE = stock.lumber("1x12", species="western redcedar")
PINE = stock.lumber("1x6", species="loblolly pine")
FIR = stock.lumber("1x6", species="Douglas-fir")


def box(wood: Any = CEDAR) -> tuple[Plan, Any]:
    """A tray 20 by 11 1/4 in: four rims on a bottom in one piece, 5 1/2 in high inside."""
    plan = Plan("Tray")
    floor = plan.board("Bottom", WIDE, runs="left-right", wide="front-back", left=0, right="20", front=0, bottom=0)
    up = {"bottom": floor.top, "wide": "up"}
    front = plan.board("Rim", wood, runs="left-right", left=0, right="20", front=0, **up)
    back = plan.board("Rim", wood, runs="left-right", left=0, right="20", back=floor.back, **up)
    for end in ({"left": 0}, {"right": "20"}):
        plan.board("End", wood, runs="front-back", front=front.back, back=back.front, **up, **end)
    return plan, floor


def said(plan: Plan) -> list[tuple[str, str, str]]:
    return [(one.level, one.check, one.part) for one in weather(plan.build(), plan.notation)]


def test_a_bottom_between_four_walls_holds_water() -> None:
    plan, floor = box()
    assert said(plan) == [("must fix", "water trapped", "Bottom")]
    # inside the rims: (20 − 2 × 3/4) × (11 1/4 − 2 × 3/4) in = 18.5 × 9.75 in = 180.375 in²
    assert water_on(plan.build(), floor.part) == pytest.approx(180.375 * 645.16, rel=2e-3)


def test_holes_let_it_out() -> None:
    plan, floor = box()
    assert plan.drain(floor) == 4 * 3  # 16 in and 7 1/4 in between insets, holes at most 6 in apart
    assert said(plan) == []


def test_a_hole_as_wide_as_a_nail_does_not() -> None:
    plan, floor = box()
    floor.bore("top", "1/8", left="10", front="5")
    assert [one[1] for one in said(plan)] == ["water trapped"]


@pytest.mark.parametrize(("depth", "trapped"), [("1/2", True), ("3/4", False)])
def test_a_hole_that_does_not_go_through_lets_nothing_out(depth: str, trapped: bool) -> None:
    plan, floor = box()  # its bottom is 3/4 thick
    floor.bore("top", "1", depth=depth, left="5", front="5")
    assert [one[1] for one in said(plan)] == ["water trapped"] * trapped


def test_two_blind_holes_from_both_faces_that_do_not_meet_let_nothing_out() -> None:
    plan, floor = box()
    floor.bore("top", "1", depth="1/2", left="5", front="5")
    floor.bore("bottom", "1", depth="1/2", left="8", front="5")  # 3 in beside it
    assert [one[1] for one in said(plan)] == ["water trapped"]
    floor.bore("bottom", "1", depth="1/2", left="5", front="5")  # right below it
    assert said(plan) == []


@pytest.mark.parametrize(("left", "trapped"), [(0, True), ("9", False)])
def test_holes_that_something_underneath_plugs_let_nothing_out(left: Any, trapped: bool) -> None:
    plan, floor = box()
    plan.drain(floor)
    plan.panel("Base", stock.sheet("plywood", "3/4"), left=left, right="20", front=0, back=floor.back, top=floor.bottom)
    # from 9 in on it leaves the holes at 2 and 7 1/3 in open
    assert [one[1] for one in said(plan)] == ["water trapped"] * trapped


def test_a_side_that_is_missing_or_a_lid_that_covers_it_leaves_no_water() -> None:
    plan, _ = box()
    plan.panel("Lid", stock.sheet("plywood", "3/4"), left=0, right="20", front=0, back="11 1/4", bottom="6 1/4")
    assert said(plan) == []
    open_ = Plan("Bench")
    floor = open_.board("Bottom", WIDE, runs="left-right", wide="front-back", left=0, right="20", front=0, bottom=0)
    open_.board("Rim", CEDAR, runs="left-right", wide="up", left=0, right="20", front=0, bottom=floor.top)
    assert said(open_) == []


def test_slats_with_gaps_let_it_out_and_without_gaps_they_do_not() -> None:
    def tray(gap: str) -> Plan:
        plan = Plan("Tray")
        up = {"bottom": 0, "wide": "up"}
        front = plan.board("Rim", CEDAR, runs="left-right", left=0, right="20", front=0, **up)
        back = plan.board("Rim", CEDAR, runs="left-right", left=0, right="20", back="18", **up)
        for end in ({"left": 0}, {"right": "20"}):
            plan.board("End", CEDAR, runs="front-back", front=front.back, back=back.front, **up, **end)
        inside = {"left": "3/4", "right": "19 1/4", "front": "3/4", "back": "17 1/4"}
        if gap:
            plan.slats("Slat", CEDAR, runs="left-right", gap=gap, bottom=0, **inside)
        else:
            plan.panel("Bottom", stock.sheet("plywood", "3/4"), bottom=0, **inside)
        return plan

    assert said(tray("3/8")) == []
    assert said(tray("")) == [("must fix", "water trapped", "Bottom")]


def test_pine_is_looked_at_and_fir_is_for_information_and_cedar_is_neither() -> None:
    # heartwood: southern pines slight, Douglas-fir moderate, cedars resistant (MO-312 table 2-1)
    for wood, expected in ((PINE, "look at"), (FIR, "for information")):
        plan, floor = box(wood)
        plan.drain(floor)
        assert [one[:2] for one in said(plan)] == [(expected, "wood unsuited outdoors")]
