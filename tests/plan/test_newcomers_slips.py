"""What somebody new to it gets wrong about doors, flaps, drawers and walls, and what the checks then say."""

from typing import Any

from plankit import Plan, stock
from plankit.app.work import counted
from plankit.checks import check
from plankit.finding import Finding
from plankit.plan.cut_list import cut_plan
from plankit.plan.document import findings, in_steps
from plankit.plan.handles import PartHandle
from plankit.plan.work import labels, work_of

PLY, THIN = stock.sheet("plywood", "3/4"), stock.sheet("plywood", "1/4")


def case(**wall: Any) -> tuple[Plan, dict[str, PartHandle]]:
    """A case 24 wide, 30 high and 12 deep, held with screws."""
    plan = Plan("Case")
    left = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    right = plan.mirror(left, across="24")
    level = {"left": left.right, "right": right.left, "front": 0, "back": "12"}
    floor, lid = plan.panel("Bottom", PLY, **level, bottom=0), plan.panel("Top", PLY, **level, top="30")
    plan.screw([floor, lid], through=[left, right], screws="#8 x 2")
    if wall:
        plan.wall(**wall)
    return plan, {"left": left, "right": right, "floor": floor, "lid": lid}


def bounds(parts: dict[str, PartHandle]) -> dict[str, PartHandle]:
    return {"left": parts["left"], "right": parts["right"], "bottom": parts["floor"], "top": parts["lid"]}


def found(plan: Plan, name: str) -> list[Finding]:
    return [one for one in check(plan.build(), plan.shop, plan.notation) if one.check == name]


def test_a_door_on_hinges_that_nobody_opens_is_told() -> None:
    plan, parts = case()
    door = plan.door_in("Door", PLY, **bounds(parts))
    hung = plan.hinges(door, on=parts["left"])
    assert [(one.level, one.part) for one in found(plan, "never opened")] == [("for information", "Door")]
    plan.door("Door", door, hinges=hung)
    assert not found(plan, "never opened")


def test_no_cup_hinge_opens_to_200_degrees() -> None:
    for opens, many in (("110 deg", 0), ("170 deg", 0), ("200 deg", 1)):
        plan, parts = case()
        door = plan.door_in("Door", PLY, **bounds(parts))
        plan.door("Door", door, hinges=plan.hinges(door, on=parts["left"]), opens=opens)
        assert len(found(plan, "opens further than its hinges")) == many


def test_a_flap_that_drops_wants_a_stay() -> None:
    plan, parts = case()
    flap = plan.door_in("Flap", PLY, **bounds(parts))
    plan.flap("Flap", flap, hinged="bottom")
    assert [one.level for one in found(plan, "no stop")] == ["look at"]
    plan, parts = case()
    door = plan.door_in("Door", PLY, **bounds(parts))
    plan.door("Door", door, hinged="left")
    assert not found(plan, "no stop")


def test_a_drawer_front_without_a_gap_rubs() -> None:
    for gap, tight in (("0", True), ("1/8", False)):
        plan, parts = case()
        sides = [parts["left"], parts["right"]]
        plan.drawer("Drawer", stock.sheet("plywood", "1/2"), between=sides, bottom=parts["floor"], top="8",
                    thin=THIN, front=PLY, gap=gap)  # fmt: skip
        assert bool(found(plan, "small gap")) == tight


def test_how_high_a_piece_hangs_on_its_wall_nobody_knows() -> None:
    for wall, many in (({}, 1), ({"first": "4"}, 0)):
        plan, parts = case(**wall)
        door = plan.door_in("Door", PLY, **bounds(parts))
        plan.door("Door", door, hinged="left")
        assert len(found(plan, "within a child's reach")) == many


def test_what_rolls_is_not_fixed_to_a_stud() -> None:
    """A cart 70 high and 16 deep, of more than 30 lb: tall enough to be pulled over."""
    plan = Plan("Cart")
    floor = plan.panel("Floor", PLY, left=0, right="36", front=0, back="16", bottom="5")
    sides = [plan.panel("Side", PLY, left=0, front=0, back="16", bottom=floor.top, top="70")]
    sides.append(plan.mirror(sides[0], across="36"))
    plan.casters(floor, height="5")
    plan.step("Stand it up", brings=[floor, *sides])
    tips = [one for one in check(in_steps(plan.draft()), plan.shop, plan.notation) if one.check == "tips over"]
    assert tips
    assert not [one for one in tips if "stud" in one.remedy]


def test_screws_that_meet_are_moved_by_words_that_their_joint_takes() -> None:
    """Wood screws take no shift=, pocket screws do."""
    plan = Plan("Corner")
    post = plan.board("Post", stock.lumber("2x2", species="loblolly pine"), runs="up", left=0, front=0, bottom=0,
                      length="12")  # fmt: skip
    side = plan.panel("Side", PLY, right=0, front=0, back="12", bottom=0, top="12")
    face = plan.panel("Face", PLY, left=0, right="12", back=0, bottom=0, top="12")
    plan.screw(post, through=[side, face], screws="#8 x 1 3/4", each=2)
    meeting = found(plan, "fasteners meet")
    assert meeting
    assert all("inset=" in one.remedy and "shift=" not in one.remedy for one in meeting)


def test_what_is_accepted_is_counted() -> None:
    plan = Plan("Table")
    plan.panel("Top", PLY, left=0, right="20", front=0, back="20", bottom=0)
    plan.panel("Bar", PLY, left="5", right="10", front=0, back="20", bottom="1/2")
    plan.accept("parts overlap", reason="The drawing is rough here.")
    draft = plan.draft()
    rows = [one.as_data() for one in findings(draft, work_of(draft), cut_plan(draft, labels(draft)[1]))]
    assert counted(rows).startswith("Findings: 2 must fix (1 accepted), 2 look at")


def test_a_shelf_that_goes_in_behind_a_door_is_drawn_with_the_door_open() -> None:
    from plankit.plan.figures import step_picture

    plan, parts = case()
    door = plan.overlay_door("Door", PLY, **bounds(parts))
    plan.door("Door", door, hinges=plan.hinges(door, on=parts["left"]))
    rows = plan.pin_rows([parts["left"], parts["right"]], lowest="6", highest="22")
    shelf = plan.adjustable_shelf("Shelf", PLY, on=rows, row=6)
    knob = plan.panel("Plinth", PLY, left=0, right="24", front=0, back="12", top=0)
    plan.step("Case and door", brings=[*parts.values(), door])
    plan.step("Shelf", brings=shelf)
    plan.step("Plinth", brings=knob)
    draft = plan.draft()
    case_step, shelf_step, plinth_step = (step_picture(draft, work) for work in work_of(draft))
    assert case_step and shelf_step and plinth_step  # noqa: PT018 - all three are drawn
    assert "The door stands open and is not drawn." in shelf_step.description
    assert "not seen from here" not in shelf_step.description
    assert "open" not in case_step.description
    assert "open" not in plinth_step.description


def test_a_step_that_cuts_parts_out_leads_to_their_cutting_drawings() -> None:
    from plankit.plan.document import document

    plan, parts = case()
    cleat = plan.board("Cleat", stock.lumber("1x4", species="yellow poplar"), runs="left-right", wide="up",
                       left=parts["left"].right, right=parts["right"].left, back="12", top=parts["lid"].bottom)
    plan.about(summary="A case.", author="K. N.", version="1", published="2026-11-25")
    plan.step("Cut the sheets", works_on=list(parts.values()), does=["break down sheets"])
    plan.step("Cut the cleat", works_on=cleat, does=["rip", "crosscut"])
    plan.step("Put it together", brings=[*parts.values(), cleat])
    written = document(plan.draft())
    sheets, boards, together = ([place["figure"] for place in step["see"]] for step in written["steps"])
    of_sheets = [one["id"] for one in written["cutting"] if "plywood" in one["stock"]]
    assert sheets == of_sheets
    assert boards == [one["id"] for one in written["cutting"] if one["id"] not in of_sheets]
    assert not set(together) & {*sheets, *boards}
    assert any("as their cutting drawings show" in line for line in written["steps"][0]["does"])


def chest(**flap: Any) -> tuple[Plan, PartHandle]:
    """A case with a lid that turns about its back edge."""
    plan, parts = case()
    lid = plan.panel("Lid", PLY, left=0, right="24", front=0, back="12", bottom="30")
    plan.flap("Lid", lid, hinged="back", **flap)
    plan.step("All of it", brings=[*parts.values(), lid], note="Let the lid down gently.")
    return plan, lid


def told(plan: Plan, name: str) -> list[Finding]:
    draft = plan.draft()
    return [one for one in findings(draft, work_of(draft), cut_plan(draft, labels(draft)[1])) if one.check == name]


def test_a_lid_that_falls_shut_is_answered_by_a_support_that_is_bought_for_it() -> None:
    plan, _ = chest()
    assert [one.level for one in told(plan, "falls shut")] == ["look at"]
    plan.buy("felt pads", 4, where="under the lid")
    assert told(plan, "falls shut")
    plan.buy("lid support", 2, where="inside the sides, to the lid")
    assert not told(plan, "falls shut")


def test_a_support_answers_for_the_lid_it_is_bought_for_alone() -> None:
    plan, lid = chest()
    other = plan.panel("Tray lid", PLY, left="30", right="50", front=0, back="12", bottom="30")
    plan.flap("Tray lid", other, hinged="back")
    plan.buy("lid support", 2, where="inside the box, to the tray lid")
    assert [one.part for one in told(plan, "falls shut")] == [lid.name]


def test_a_note_about_a_soft_closing_support_answers_too() -> None:
    plan, parts = case()
    lid = plan.panel("Lid", PLY, left=0, right="24", front=0, back="12", bottom="30")
    plan.flap("Lid", lid, hinged="back")
    plan.step("All of it", brings=[*parts.values(), lid], note="Screw the lid supports to the sides and the lid.")
    assert not told(plan, "falls shut")
