"""Hardware as its author writes it: doors sized and hung, shelves on pins, casters, pulls and catches."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.build import Hung
from plankit.checks import check, hardware
from plankit.checks.clashes import clashes
from plankit.errors import PlanError
from plankit.plan.handles import PartHandle
from plankit.plan.lists import hardware_list, hardware_note
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")


def case() -> tuple[Plan, dict[str, PartHandle]]:
    """A case 30 in wide, 14 in deep and 36 in high, 3 in off the floor."""
    plan = Plan("Cupboard", unit="in", mark="1/16")
    left = plan.panel("Side", PLY, left=0, front=0, back="14", bottom="3", top="36")
    right = plan.mirror(left, across="30")
    floor = plan.panel(
        "Bottom", PLY, left=left.right, right=right.left, front=0, back="14", bottom=left.bottom
    )
    top = plan.panel("Top", PLY, left=left.right, right=right.left, front=0, back="14", top=left.top)
    plan.screw([floor, top], through=[left, right], screws="#8 x 2")
    return plan, {"left": left, "right": right, "floor": floor, "top": top}


def closed(plan: Plan, parts: dict[str, PartHandle], verb: str, **more: Any) -> Any:
    bounds = {"left": parts["left"], "right": parts["right"], "bottom": parts["floor"], "top": parts["top"]}
    return getattr(plan, verb)("Door", PLY, **{**bounds, **more})


def test_a_door_in_an_opening_leaves_a_sixteenth_all_round() -> None:
    plan, parts = case()
    door = closed(plan, parts, "door_in")
    # 30 − 2 × 3/4 − 2 × 1/16 = 28 3/8 wide; 33 − 2 × 3/4 − 2 × 1/16 = 31 3/8 high
    assert (door.width, door.length) == (L("28 3/8 in"), L("31 3/8 in"))
    assert door.front == parts["left"].front
    assert (door.left - parts["left"].right, door.bottom - parts["floor"].top) == (L("1/16 in"), L("1/16 in"))


def test_two_doors_over_a_case_leave_an_eighth_between_them() -> None:
    plan, parts = case()
    doors = closed(plan, parts, "overlay_doors", count=2)
    # 30 − 2 × 1/16 − 1/8 = 29 3/4, half of it 14 7/8
    assert [door.width for door in doors] == [L("14 7/8 in")] * 2
    assert doors[1].left - doors[0].right == L("1/8 in")
    assert doors[0].back == parts["left"].front
    # 33 high less 1/16 above and below
    assert doors[0].length == L("32 7/8 in")


def test_doors_that_share_a_divider_cover_half_of_it_each() -> None:
    plan, parts = case()
    wall = plan.panel(
        "Divider", PLY, left="14 5/8", front=0, back="14", bottom=parts["floor"].top, top=parts["top"].bottom
    )
    first = closed(plan, parts, "overlay_door", right=wall, half="right")
    second = closed(plan, parts, "overlay_door", left=wall, half="left")
    assert second.left - first.right == L("1/8 in")
    assert plan.hinges(first, on=wall).hanging.lap == "half overlay"
    # the middle of the divider is 15; the gap's half of 1/8 beside it
    assert first.right == L("14 15/16 in")


def test_doors_of_equal_width_come_from_one_strip() -> None:
    plan, parts = case()
    doors = closed(plan, parts, "doors_in", count=3)
    # three doors 31 3/8 high and two kerfs of 1/8
    assert doors.strip.length == L("31 3/8 in") * 3 + L("1/4 in")
    assert doors.strip.width == doors[0].width
    assert doors.stop == doors[0].length == L("31 3/8 in")


def test_a_strip_longer_than_any_sheet_is_refused() -> None:
    # four doors 31 3/8 high and three kerfs of 1/8 are 125 7/8 in; a sheet is 96 in long
    plan, parts = case()
    doors = closed(plan, parts, "doors_in", count=4)
    with pytest.raises(PlanError, match="no sheet is large enough for one strip of 4 doors"):
        _ = doors.strip
    # without a direction of their own they may lie along the sheet's width, where the strip is too long still
    assert doors.stop == L("31 3/8 in")


def test_a_door_remembers_how_its_size_comes_about() -> None:
    plan = Plan("Cupboard")
    width = plan.given(width="30")
    left = plan.panel("Side", PLY, left=0, front=0, back="14", bottom=0, top="36")
    right = plan.mirror(left, across=width)
    door = plan.door_in("Door", PLY, left=left, right=right, bottom=0, top="36")
    assert door.width.names == ("width",)
    assert door.width.evaluate({"width": L("40 in")}) == door.width + L("10 in")


def test_a_hung_door_is_bored_and_its_hinges_are_counted() -> None:
    plan, parts = case()
    door = closed(plan, parts, "door_in")
    hung = plan.hinges(door, on=parts["left"])
    assert isinstance(hung, Hung)
    assert (
        len([one for one in plan.build().part("door").features if getattr(one, "use", "") == "hinge cup"])
        == 2
    )
    rows = {row["item"]: row for row in hardware_list(plan.draft())}
    assert rows["35 mm cup hinge, inset, with plate"]["count"] == 2
    # two in the cup and two in the plate of each
    assert rows["#6 × 5/8 in wood screw"]["count"] == 8
    assert "cup 12.5 mm deep" in str(rows["35 mm cup hinge, inset, with plate"]["where"])
    assert "check them against what you bought" in hardware_note(plan.draft())


def test_a_hinge_takes_the_sizes_that_its_author_gives() -> None:
    plan, parts = case()
    door = closed(plan, parts, "door_in")
    hung = plan.hinges(door, on=parts["left"], at=["4", "16", "28"], tab="4 mm", depth="11.5 mm")
    (cup, *_) = hung.in_door
    assert (cup.at[0], cup.depth) == (L("21.5 mm"), L("11.5 mm"))  # type: ignore[union-attr]
    assert [place - door.bottom for place in hung.places] == [L("4 in"), L("16 in"), L("28 in")]


def test_what_hinges_say_is_what_a_door_turns_about() -> None:
    plan, parts = case()
    door = closed(plan, parts, "door_in")
    plan.door("Door", door, hinges=plan.hinges(door, on=parts["left"]))
    (moving,) = plan.build().moving
    assert moving.pivot is not None
    assert (moving.pivot.axis, moving.pivot.at.x) == ("z", door.left)


def test_a_flap_hangs_on_the_floor_by_butt_hinges() -> None:
    plan, parts = case()
    flap = closed(plan, parts, "door_in", top="14", grain="left-right")
    hung = plan.hinges(flap, on=parts["floor"], sort="butt")
    assert (hung.pivot.axis, hung.hanging.edge) == ("x", "bottom")
    # its leaf is screwed to the lower edge of plywood, and to the face of the floor
    edges = [one for one in hardware(plan.build(), plan.notation) if one.check == "hinge screws in an edge"]
    assert {(one.level, one.part) for one in edges} == {("for information", flap.part.name)}


def test_a_shelf_on_pins_fits_between_the_sides() -> None:
    plan, parts = case()
    rows = plan.pin_rows([parts["left"], parts["right"]], lowest="8", highest="30")
    shelf = plan.adjustable_shelf("Shelf", PLY, on=rows, row=6, front="1")
    # 28 1/2 between the sides, 1/16 in off each end
    assert shelf.length == L("28 3/8 in")
    # the sixth row: 8 in + 5 × 32 mm, and half a pin of 5 mm above it
    assert shelf.bottom == L("8 in") + L("162.5 mm")
    assert [item.kind for item in plan.build().items] == ["shelf pin"] * 4


def test_a_whole_cupboard_raises_no_false_alarm() -> None:
    plan, parts = case()
    rows = plan.pin_rows([parts["left"], parts["right"]], lowest="8", highest="30")
    plan.adjustable_shelf("Shelf", PLY, on=rows, row=7, front="1/4")
    first, second = closed(plan, parts, "overlay_doors", count=2)
    plan.hinges(first, on=parts["left"])
    plan.hinges(second, on=parts["right"])
    plan.pull(first, runs="up", right="1 1/2", top="4")
    plan.pull(second, runs="up", left="1 1/2", top="4")
    plan.catch(first, on=parts["top"], at="12")
    plan.catch(second, on=parts["top"], at="2 7/8")
    plan.casters(parts["floor"], height="3")
    plan.bracket(parts["floor"], to=parts["left"], face="top", at="4")
    plan.restraint(parts["top"], face="bottom")
    found = [one for one in check(plan.build(), None, plan.notation) if one.level != "for information"]
    assert found == []
    assert plan.build().box.bottom == L("0 in")  # it stands on its casters


def test_brackets_for_studs_are_counted_and_drawn_but_nothing_is_bored_for_them() -> None:
    plan, parts = case()
    bored = len(plan.build().part("top").features)
    one, other = plan.restraint(parts["top"], face="bottom", at_studs=True)
    assert other.box.left - one.box.left == L("16 in")  # as studs stand (common practice)
    assert one.box.left - parts["top"].left == parts["top"].right - other.box.right
    assert len(plan.build().part("top").features) == bored
    # a screw of 5/8 in leaves 3/16 of the wood; 1/16 of it lies in the metal
    assert "find two studs" in one.compare
    assert "9/16 in deep" in one.compare


def test_on_a_part_too_short_for_two_studs_the_brackets_are_drawn_at_its_ends() -> None:
    plan, _ = case()
    rail = plan.panel("Rail", PLY, left=50, right=68, front=0, bottom=0, top=4)
    one, other = plan.restraint(rail, at_studs=True)
    # 4 in from either end to their middles: 18 − 8
    assert other.box.left - one.box.left == L("10 in")


def test_levelling_feet_go_under_posts_or_into_a_panels_corners() -> None:
    plan, _ = case()
    post = stock.lumber("2x2", species="Douglas-fir")
    one = plan.board("Post", post, runs="up", left="-4", front=0, bottom="1", length="20")
    other = plan.board("Post", post, runs="up", left="40", front=0, bottom="1", length="20")
    assert len(plan.levelling_feet([one, other], height="1")) == 2
    slab = plan.panel("Base", PLY, left=0, right="30", front="20", back="34", bottom="1")
    assert len(plan.levelling_feet(slab, set_in=("1", "2"), depth="1/2")) == 4


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ({"sort": "strap"}, "cup, butt, loose pin, piano"),
        ({"lap": "quarter overlay"}, "inset, half overlay, full overlay"),
        ({"leaf": "1"}, "a cup hinge has no such size"),
        ({"at": ["4"], "count": 2}, "given twice"),
        ({"count": 0}, "no fewer than 1"),
        ({"lap": "full overlay"}, "inside the case"),
    ],
)
def test_hinges_say_what_they_do_not_understand(words: dict[str, Any], says: str) -> None:
    plan, parts = case()
    door = closed(plan, parts, "door_in")
    with pytest.raises(PlanError, match=says):
        plan.hinges(door, on=parts["left"], **words)


@pytest.mark.parametrize(
    ("verb", "words", "says"),
    [
        ("pull", {"face": "top"}, "broad faces"),
        ("pull", {"runs": "sideways"}, "three ways"),
        ("pull", {"back": "2"}, "beside the one it lies on"),
        ("casters", {"wheel": "2"}, "no such size"),
        ("casters", {"set_in": "-1"}, "less than nothing"),
    ],
)
def test_hardware_says_what_it_does_not_understand(verb: str, words: dict[str, Any], says: str) -> None:
    plan, parts = case()
    target = closed(plan, parts, "door_in") if verb == "pull" else parts["floor"]
    with pytest.raises(PlanError, match=says):
        getattr(plan, verb)(target, **words)


def test_a_row_or_a_bay_that_is_not_there_is_refused() -> None:
    plan, parts = case()
    rows = plan.pin_rows([parts["left"], parts["right"]], lowest="8", highest="10")
    with pytest.raises(PlanError, match="no such row"):
        plan.adjustable_shelf("Shelf", PLY, on=rows, row=9)
    with pytest.raises(PlanError, match="no such bay"):
        plan.adjustable_shelf("Shelf", PLY, on=rows, row=1, bay=1)


def test_the_screws_of_one_hinge_do_not_meet_one_another() -> None:
    """Both leaves of a butt hinge lie in the gap under a flap, and their screws start from one another's place."""
    plan = Plan("Flap")
    ply = stock.sheet("plywood", "3/4")
    floor = plan.panel("Bottom", ply, left=0, right="24", front=0, back="14", bottom=0)
    flap = plan.panel("Flap", ply, left=0, right="24", front=0, bottom=floor.top + "1/8", top="12")
    plan.hinges(flap, on=floor, sort="butt", count=2)
    assert not clashes(plan.build(), plan.notation)
