"""Lids on plain hinges, and hinges, pulls and catches at the wrong edge."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.checks import check
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.plan.handles import PartHandle
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")


def box() -> tuple[Plan, dict[str, PartHandle]]:
    """A box 32 wide, 18 deep and 20 high, with a back between its sides."""
    plan = Plan("Box")
    left = plan.panel("Side", PLY, left=0, front=0, back="18", bottom=0, top="20")
    right = plan.mirror(left, across="32")
    within = {"left": left.right, "right": right.left}
    floor = plan.panel("Floor", PLY, **within, front=0, back="18", bottom="3")
    front = plan.panel("Front", PLY, **within, front=0, top="20", bottom=floor.top)
    back = plan.panel("Back", PLY, **within, back="18", top="20", bottom=floor.top)
    plan.pocket_screw([floor, front, back], into=[left, right])
    return plan, {"left": left, "right": right, "floor": floor, "back": back}


def beside_a_strip() -> tuple[Plan, PartHandle, PartHandle]:
    """A lid in one plane with a strip along the back, 1/16 between the two."""
    plan, _ = box()
    strip = plan.panel("Strip", PLY, left=0, right="32", front="15", back="18", bottom="20", grain="left-right")
    lid = plan.panel("Lid", PLY, left=0, right="32", front=0, back=strip.front - "1/16", bottom="20")
    return plan, lid, strip


def found(plan: Plan, *names: str) -> list[Finding]:
    return [one for one in check(plan.build(), plan.shop, plan.notation) if one.check in names]


@pytest.mark.parametrize("sort", ["butt", "piano"])
def test_a_lid_in_one_plane_with_its_strip_opens_upwards(sort: str) -> None:
    plan, lid, strip = beside_a_strip()
    hung = plan.hinges(lid, on=strip, sort=sort)
    assert (hung.hanging.edge, hung.hanging.out) == ("back", "top")
    assert all(item.box.top > lid.top for item in hung.items)  # the knuckle stands out above, not below
    flap = plan.flap("Lid", lid, hinges=hung, opens="95 deg", towards="top")
    assert flap.angle.degrees == 95
    assert not found(plan, "knuckle gap", "hinge out of reach", "no inward stop", "hinge meets something")


def test_a_face_that_does_not_lead_is_refused_where_it_is_opened_and_taken_where_it_is_hung() -> None:
    plan, lid, strip = beside_a_strip()
    hung = plan.hinges(lid, on=strip, sort="butt")
    with pytest.raises(PlanError, match="its hinges let it open to the top") as refused:
        plan.flap("Lid", lid, hinges=hung, towards="bottom")
    assert 'plan.hinges(…, towards="bottom")' in refused.value.remedy
    plan, lid, strip = beside_a_strip()
    hung = plan.hinges(lid, on=strip, sort="butt", towards="bottom")
    assert all(item.box.bottom < lid.bottom for item in hung.items)
    plan.flap("Lid", lid, hinges=hung, towards="bottom")


@pytest.mark.parametrize("gap", ["0", "1/16"])
def test_a_lid_that_lies_on_its_back_has_its_leaves_between_the_two(gap: str) -> None:
    plan, parts = box()
    back = parts["back"]
    lid = plan.panel("Lid", PLY, left=0, right="32", front=0, back="18", bottom=back.top + gap)
    hung = plan.hinges(lid, on=back, sort="butt", recess="gap")
    # a leaf 5/8 wide on the back's upper edge, the knuckle (3/16) outside the back, its pin in the middle of it
    assert {item.box.front for item in hung.items} == {L("17 3/8 in")}
    assert {item.box.back for item in hung.items} == {L("18 3/16 in")}
    assert (hung.pivot.axis, hung.pivot.at.y) == ("x", L("18 3/32 in"))
    assert plan.flap("Lid", lid, hinges=hung, opens="95 deg").angle.degrees == 95
    assert not found(plan, "knuckle gap", "hinge out of reach", "no inward stop", "hinges at the wrong edge")


def test_a_lid_that_reaches_past_its_back_is_told_so_in_words_of_a_lid() -> None:
    plan, parts = box()
    lid = plan.panel("Lid", PLY, left=0, right="32", front=0, back="19", bottom="20")
    with pytest.raises(PlanError, match="not flush with Back") as refused:
        plan.hinges(lid, on=parts["back"], sort="butt")
    assert refused.value.remedy == "Let the lid end where Back does: back=back.back."
    with pytest.raises(PlanError) as refused:
        plan.hinges(lid, on=parts["floor"], sort="piano")
    assert "door" not in f"{refused.value}"


def cupboard() -> tuple[Plan, dict[str, PartHandle], PartHandle]:
    plan, parts = box()
    top = plan.panel("Top", PLY, left=parts["left"].right, right=parts["right"].left, front=0, back="17", bottom="19")
    door = plan.overlay_door("Door", PLY, left=parts["left"], right=parts["right"], bottom=parts["floor"], top=top)
    return plan, parts, door


WRONG = ("hinges at the wrong edge", "pull at the hinged edge", "catch at the hinged edge")


def test_a_door_cannot_turn_about_the_edge_across_from_its_hinges() -> None:
    plan, parts, door = cupboard()
    plan.hinges(door, on=parts["left"])
    with pytest.raises(PlanError, match="its hinges are at its left edge, on Side") as refused:
        plan.door("Door", door, hinged="right")
    assert 'Write hinged="left"' in refused.value.remedy
    plan.door("Door", door, hinged="left")
    assert not found(plan, *WRONG)


def test_hinges_that_come_after_the_door_was_opened_are_held_to_it_too() -> None:
    for edge, wrong in (("left", []), ("right", ["must fix"])):
        plan, parts, door = cupboard()
        plan.door("Door", door, hinged=edge)
        plan.hinges(door, on=parts["left"])
        assert [one.level for one in found(plan, *WRONG)][:1] == wrong


def test_another_doors_hinges_are_refused() -> None:
    plan, parts, _ = cupboard()
    doors = plan.overlay_doors(
        "Leaf", PLY, left=parts["left"], right=parts["right"], bottom=parts["floor"], top=parts["back"], count=2
    )
    first, second = plan.hinges(doors[0], on=parts["left"]), plan.hinges(doors[1], on=parts["right"])
    with pytest.raises(PlanError, match="another one's hinges"):
        plan.door("Right leaf", doors[1], hinges=first)
    plan.door("Right leaf", doors[1], hinges=second)


@pytest.mark.parametrize(
    ("places", "levels"),
    [({"left": "1 1/2"}, ["must fix"]), ({"left": "9"}, ["look at"]), ({"left": "16"}, []), ({"right": "1 1/2"}, [])],
)
def test_a_pull_belongs_near_the_free_edge(places: dict[str, Any], levels: list[str]) -> None:
    """A door 31 7/8 wide, hung at the left: 9 in are 28 % of the way, the middle is half of it."""
    plan, parts, door = cupboard()
    plan.door("Door", door, hinges=plan.hinges(door, on=parts["left"]))
    plan.pull(door, runs="up", **places)
    assert [one.level for one in found(plan, *WRONG)] == levels


def test_a_catch_belongs_behind_the_free_edge() -> None:
    plan, parts, door = cupboard()
    plan.door("Door", door, hinges=plan.hinges(door, on=parts["left"]))
    with pytest.raises(PlanError, match="its hinges are on Side: a catch holds nothing there"):
        plan.catch(door, on=parts["left"])
    plan.catch(door, on=parts["right"])
    assert not found(plan, *WRONG)
    plan, parts, door = cupboard()
    plan.catch(door, on=parts["left"])
    plan.door("Door", door, hinged="left")
    assert [one.check for one in found(plan, *WRONG)] == ["catch at the hinged edge"]
