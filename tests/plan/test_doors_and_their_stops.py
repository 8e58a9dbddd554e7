"""Which way a front opens, what stops it outwards, and a drawer whose front is as thin as its box."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.build.swing import sweep
from plankit.checks import check
from plankit.checks.swing import swing
from plankit.units import Angle, L

PLY, HALF, THIN = (stock.sheet("plywood", thick) for thick in ("3/4", "1/2", "1/4"))
STRIP = stock.lumber("1x2", species="Douglas-fir")


def case(front: str = "0") -> tuple[Plan, Any, Any, Any, Any]:
    plan = Plan("Case")
    side = plan.panel("Side", PLY, left=0, front=front, back="16", bottom=0, top="30")
    other = plan.mirror(side, across="24")
    between: dict[str, Any] = {"left": side.right, "right": other.left, "front": front, "back": "16"}
    floor = plan.panel("Bottom", PLY, **between, bottom=0)
    top = plan.panel("Top", PLY, **between, top="30")
    plan.screw([floor, top], through=[side, other], screws="#8 x 2")
    return plan, side, other, floor, top


@pytest.mark.parametrize("opens", [None, "90 deg"])
@pytest.mark.parametrize("hung", ["hinges", "hinged"])
def test_a_strip_behind_a_door_stops_it_shut_and_not_when_it_has_come_all_the_way_round(
    opens: str | None, hung: str
) -> None:
    plan, side, other, floor, top = case()
    inside: dict[str, Any] = {"left": side.right, "right": other.left, "front": PLY.thickness, "top": top.bottom}
    strip = plan.board("Strip", STRIP, runs="left-right", wide="up", **inside)
    plan.screw(strip, through=top, screws="#8 x 2")
    door = plan.door_in("Door", PLY, left=side, right=other, bottom=floor, top=top)
    turns: dict[str, Any] = {"hinges": plan.hinges(door, on=side)} if hung == "hinges" else {"hinged": "left"}
    opened = plan.door("D", door, stop=strip, opens=opens, **turns)
    assert opened.angle == Angle.read("90 deg")
    assert [one.check for one in swing(plan.build(), plan.notation) if one.level != "for information"] == []


def test_a_block_before_a_door_still_stops_it_outwards() -> None:
    plan, side, other, floor, top = case()
    door = plan.door_in("Door", PLY, left=side, right=other, bottom=floor, top=top)
    block = plan.board("Block", STRIP, runs="up", wide="left-right", left="-3", front="-6", bottom="4", length="3")
    plan.door("D", door, hinged="left", stop=block)
    swept = sweep(plan.build(), plan.build().moving[0])
    stop = swept.stop()
    assert stop is not None
    assert swept.angle == stop.angle
    assert 90 < stop.angle.degrees < 180


def test_a_stop_after_something_that_is_hit_first_is_still_found() -> None:
    """Met by the door at its free edge: a post 20 in before the case at 23 in stands before any stop."""
    plan, side, other, floor, top = case()
    door = plan.door_in("Door", PLY, left=side, right=other, bottom=floor, top=top)
    plan.board("Post", STRIP, runs="up", wide="left-right", left="8", front="-16", bottom=0, top="30")
    block = plan.board("Block", STRIP, runs="up", wide="left-right", left="-3", front="-6", bottom="4", length="3")
    plan.door("D", door, hinged="left", stop=block)
    assert "swing meets something" in [one.check for one in swing(plan.build(), plan.notation)]


def test_a_front_opens_away_from_the_case_it_lies_on_whatever_stands_before_it() -> None:
    plan, side, other, floor, top = case()
    plan.panel("Tray", PLY, left=0, right="24", front="-20", back=0, bottom="-1")
    door = plan.overlay_door("Door", PLY, left=side, right=other, bottom=floor, top=top)
    plan.door("D", door, hinged="left", opens="90 deg")
    assert [one for one in swing(plan.build(), plan.notation) if one.level == "must fix"] == []
    # hinged at its left edge and opening to the front, its free edge goes to the front: 23 7/8 in at 90°
    assert plan.build().moving[0].pivot is not None
    (first, *_) = list(plan.build().moving)
    assert sweep(plan.build(), first).angle == Angle.read("90 deg")


def test_an_inset_front_opens_away_from_what_stands_round_it() -> None:
    plan, side, other, floor, top = case()
    plan.panel("Tray", PLY, left=0, right="24", front="-40", back=0, bottom="-1")
    door = plan.door_in("Door", PLY, left=side, right=other, bottom=floor, top=top)
    opened = plan.door("D", door, hinged="left", opens="90 deg")
    assert opened.stands_out > L("20 in")


def test_a_drawer_with_a_front_as_thin_as_its_box_is_glued_and_needs_no_mending() -> None:
    plan, side, other, floor, _ = case()
    drawer = plan.drawer("Drawer", HALF, between=[side, other], bottom=floor, top="8", thin=THIN)
    found = [one for one in check(plan.build(), plan.shop, plan.notation) if one.check == "too little bite"]
    assert [one.level for one in found if one.part == "Drawer front"] in ([], ["for information"])
    glued = [joint for joint in plan.build().joints if joint.glue and {joint.holds, joint.to} == {
        drawer.front.id, drawer.box_front.id}]  # fmt: skip
    assert glued


def test_a_thick_front_is_held_by_its_screws_alone_so_that_it_can_be_set() -> None:
    plan, side, other, floor, _ = case()
    drawer = plan.drawer("Drawer", HALF, between=[side, other], bottom=floor, top="8", thin=THIN, front=PLY)
    ends = {drawer.front.id, drawer.box_front.id}
    assert not any(joint.glue for joint in plan.build().joints if {joint.holds, joint.to} == ends)
