"""Sides that lean, and what is put under their lower edges."""

import pytest

from plankit import Plan, stock
from plankit.errors import PlanError
from plankit.plan.handles import PartHandle

CEDAR = stock.lumber("1x8", species="western redcedar")


def side(*, level: bool) -> tuple[Plan, PartHandle]:
    """The front of a planter, 3/4 thick, leaning outwards by 10° about its lower front edge, which lies at 3/4."""
    plan = Plan("Planter")
    front = plan.board("Front", CEDAR, runs="left-right", wide="up", left=0, right="24", front=0, bottom="3/4")
    if level:
        front.bevel("bottom", short="front", angle="10 deg")
    plan.tilt(front, front="10 deg")
    return plan, front


def floor(plan: Plan, **top: object) -> PartHandle:
    return plan.board("Floor", CEDAR, runs="left-right", wide="front-back", left=0, right="24", front=0, **top)


def test_a_side_sawn_level_and_leaning_ends_where_trigonometry_says() -> None:
    _, front = side(level=True)
    # 3/4 + 3/4 × sin 10° = 0.8802 in: the edge is sawn through its back corner, which the lean lifts so high
    assert float(front.reaches("bottom").inches) == pytest.approx(0.75 + 0.75 * 0.17364818, abs=1e-6)
    assert front.bottom != front.reaches("bottom")


def test_a_floor_is_screwed_on_under_it_without_any_sum() -> None:
    plan, front = side(level=True)
    plan.screw(front, through=floor(plan, top=front.reaches("bottom")), screws="#8 x 2")
    assert plan.build().joints


def test_what_is_told_of_a_gap_under_it_does_not_lead_round_in_a_circle() -> None:
    plan, front = side(level=True)
    with pytest.raises(PlanError, match="does not touch") as refused:
        plan.screw(front, through=floor(plan, top=front.bottom), screws="#8 x 2")
    assert "reaches(" in refused.value.remedy or "reaches(" in f"{refused.value}"


def test_an_edge_that_is_not_sawn_level_is_told_to_be() -> None:
    plan, front = side(level=False)
    under = floor(plan, top=front.reaches("bottom"))
    with pytest.raises(PlanError, match="only along an edge") as refused:
        plan.screw(front, through=under, screws="#8 x 2")
    assert 'front.bevel("bottom"' in refused.value.remedy
