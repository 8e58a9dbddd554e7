"""Drawers that come out through a face frame."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.checks import check
from plankit.errors import PlanError
from plankit.plan.document import in_steps
from plankit.plan.frames import Frame
from plankit.plan.handles import PartHandle
from plankit.units import L

PLY, HALF, THIN = (stock.sheet("plywood", thick) for thick in ("3/4", "1/2", "1/4"))
FACE = stock.lumber("1x2", species="yellow poplar")


def case() -> tuple[Plan, list[PartHandle], PartHandle, PartHandle, Frame]:
    """A case 30 wide, 20 deep and 12 high with a face frame of 1x2: its stiles stand 3/4 in before the sides."""
    plan = Plan("Case")
    left = plan.panel("Side", PLY, left=0, front=0, back="20", bottom=0, top="12")
    right = plan.mirror(left, across="30")
    within = {"left": left.right, "right": right.left, "front": 0, "back": "20"}
    floor, top = plan.panel("Floor", PLY, **within, bottom=0), plan.panel("Top", PLY, **within, top="12")
    plan.pocket_screw([floor, top], into=[left, right], glued=True)
    frame = plan.face_frame("Face frame", FACE, on=[left, right, floor, top])
    return plan, [left, right], floor, top, frame


def drawer(plan: Plan, sides: list[PartHandle], bottom: Any, top: Any, **more: Any) -> Any:
    return plan.drawer("Drawer", HALF, between=sides, bottom=bottom, top=top, thin=THIN, front=PLY, **more)


def test_its_front_lies_flush_with_the_frame_a_gap_inside_stiles_and_rails() -> None:
    plan, sides, floor, top, frame = case()
    made = drawer(plan, sides, floor, top, frame=frame, blocks=PLY, gap="1/8")
    assert made.front.front == frame[0].front == -L("3/4 in")
    # stiles 1 1/2 wide and a gap of 1/8: from 1 5/8 to 28 3/8; rails 1 1/2 high: from 1 5/8 to 10 3/8
    assert (made.front.left, made.front.right) == (L("1 5/8 in"), L("28 3/8 in"))
    assert (made.front.bottom, made.front.top) == (L("1 5/8 in"), L("10 3/8 in"))


def test_its_box_runs_between_blocks_and_comes_out_between_the_stiles() -> None:
    plan, sides, floor, top, frame = case()
    made = drawer(plan, sides, floor, top, frame=frame, blocks=PLY)
    one, other = made.blocks
    assert (one.left, one.right) == (L("3/4 in"), L("1 1/2 in"))
    assert (other.left, other.right) == (L("28 1/2 in"), L("29 1/4 in"))
    assert made.wide == L("27 in") - "1 in"  # between the blocks, less 1/2 in for each slide
    plan.step("Frame", brings=list(frame))
    plan.step("Case", brings=[*sides, floor, top])
    plan.step("Blocks and drawer", brings=[*made.blocks, *made])
    found = {one.check for one in check(in_steps(plan.draft()), plan.shop, plan.notation) if one.level == "must fix"}
    assert not found & {"drawer meets something", "overlap", "no access for a driver", "small gap"}


def test_without_blocks_it_is_told_how_thick_they_must_be() -> None:
    plan, sides, floor, top, frame = case()
    with pytest.raises(PlanError, match="stand 3/4 in in before what its slides are screwed to") as refused:
        drawer(plan, sides, floor, top, frame=frame)
    assert "blocks at least 3/4 in thick" in refused.value.remedy
    with pytest.raises(PlanError, match="further in than the blocks"):
        drawer(plan, sides, floor, top, frame=frame, blocks=HALF)


def test_a_drawer_that_runs_into_a_stile_is_told_what_helps() -> None:
    plan, sides, floor, top, _ = case()
    drawer(plan, sides, floor, top)
    (met,) = [one for one in check(plan.build(), plan.shop, plan.notation) if one.check == "drawer meets something"]
    assert "plan.drawer(…, frame=…, blocks=…)" in met.remedy


def test_a_frame_after_its_case_is_told_to_be_joined_on_the_bench() -> None:
    plan, sides, floor, top, frame = case()
    plan.step("Case", brings=[*sides, floor, top])
    plan.step("Frame", brings=list(frame))
    tight = [
        one
        for one in check(in_steps(plan.draft()), plan.shop, plan.notation)
        if one.check == "no access for a driver" and "Face frame" in one.part and one.level != "for information"
    ]
    assert tight
    assert all("on the bench first" in one.remedy for one in tight)
