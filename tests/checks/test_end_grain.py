"""Glue on end grain alone holds nothing; with anything beside it, it is left alone."""

import pytest

from plankit import Plan, stock
from plankit.checks.end_grain import end_grain
from plankit.units import Notation

OAK = stock.lumber("4/4x6", species="red oak")
LEG = stock.lumber("8/4x2", species="red oak", measured=("1 3/4", "1 3/4"))
RAIL = stock.lumber("4/4x3", species="red oak")
CEDAR = stock.lumber("1x8", species="western redcedar")


def said(plan: Plan) -> list[str]:
    return [one.what for one in end_grain(plan.draft().build, Notation())]


def stool(*, aprons: bool, lean: bool = False) -> Plan:
    """A top on four legs glued to it by their ends."""
    plan = Plan("Stool")
    top = plan.glue_up("Top", OAK, boards=3, left=0, right="24", front=0, back="14", top="17")
    leg = plan.board("Leg", LEG, runs="up", left="2", front="2", bottom=0, top=top.bottom)
    if lean:
        plan.splay(leg, left="8 deg")
    legs = plan.at_corners(leg, of=top)
    plan.glue(legs, onto=top)
    if aprons:
        for first, second in ((0, 2), (1, 3)):
            end = plan.board(
                "Apron", RAIL, runs="front-back", wide="up", front=leg.back, back=legs[2].front,
                left=legs[first].left, top=top.bottom,
            )  # fmt: skip
            plan.dowel(end, into=[legs[first], legs[second]])
            plan.glue(end, onto=top)
    return plan


@pytest.mark.parametrize("lean", [False, True])
def test_legs_glued_to_a_top_by_their_ends_are_told(lean: bool) -> None:
    assert said(stool(aprons=False, lean=lean)) == ["Leg is held to Top by nothing but glue at its end, on end grain."]


def test_legs_that_an_apron_ties_to_the_top_are_left_alone() -> None:
    # the apron's upper edge is long grain, and its dowels hold the legs
    assert said(stool(aprons=True)) == []


def box(*, pinned: bool) -> Plan:
    """Four boards mitered at the corners and glued; brads through one corner's miter hold that one."""
    plan = Plan("Box")
    front = plan.board("Front", CEDAR, runs="left-right", wide="up", left=0, right="24", front=0, bottom=0)
    end = plan.board("End", CEDAR, runs="front-back", wide="up", front=0, back="14", left=0, bottom=0)
    plan.mitre_corner(front, end)
    plan.glue(end, onto=front)
    if pinned:
        plan.nail(end, through=front, nails_of="6d")
    return plan


def test_a_glued_miter_is_told_and_a_nailed_one_is_not() -> None:
    assert said(box(pinned=False)) == ["End is held to Front by nothing but glue in a miter, on end grain."]
    assert said(box(pinned=True)) == []


def test_boards_glued_edge_to_face_and_ends_in_grooves_hold() -> None:
    plan = Plan("Case")
    side = plan.board("Side", CEDAR, runs="up", wide="front-back", left=0, front=0, bottom=0, top="20")
    shelf = plan.board(
        "Shelf", CEDAR, runs="left-right", wide="front-back", left=side.right - "1/4", right="20", front=0, bottom="8"
    )
    side.dado("right", width="3/4", depth="1/4", bottom="8")
    plan.glue(shelf, onto=side)
    batten = plan.board("Batten", RAIL, runs="up", wide="front-back", right=side.left, front=0, bottom=0, top="20")
    plan.glue(batten, onto=side)
    assert said(plan) == []
