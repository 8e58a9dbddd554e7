"""What a plan says where its piece goes to the wall: cautions, heights, studs, and hanging on cleats."""

from plankit import Plan, stock
from plankit.checks import check
from plankit.plan.cautions import step_cautions
from plankit.plan.document import in_steps
from plankit.plan.step_words import step_words
from plankit.plan.walls import Cleats
from plankit.plan.work import work_of
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")
STRIP = stock.lumber("1x4", species="yellow poplar")


def cupboard(*, cleat_last: bool = False, hangs: bool = False) -> tuple[Plan, Cleats]:
    """A case 24 wide and 30 high on two cleats, its studs 4 and 20 in from its left end."""
    plan = Plan("Cupboard")
    left = plan.panel("Side", PLY, left=0, front=0, back="10", bottom=0, top="30")
    right = plan.mirror(left, across="24")
    within = {"left": left.right, "right": right.left, "back": "10"}
    rails = [plan.panel("Upper rail", PLY, **within, bottom="26", top="30", grain="left-right"),
             plan.panel("Lower rail", PLY, **within, bottom=0, top="4", grain="left-right")]  # fmt: skip
    plan.pocket_screw(rails, into=[left, right], face="front")
    plan.wall(first="4", studs="16")
    cleats = plan.cleats("Cleat", STRIP, onto=rails, left=left.right, right=right.left, top="29", screws="#8 x 1 1/4")
    plan.wall_screw(cleats.wall)
    on_the_piece = [left, right, *rails, cleats.piece, cleats.spacer]
    if cleat_last:
        plan.step("Case", brings=on_the_piece)
        plan.step("Cleat on the wall", brings=cleats.wall)
    else:
        plan.step("Cleat on the wall", brings=cleats.wall)
        plan.step("Case", brings=on_the_piece, hangs=hangs)
    return plan, cleats


def said(plan: Plan, step: int) -> str:
    draft = plan.draft()
    return " ".join(step_words(draft, work_of(draft)[step - 1])).replace("\u00a0", " ")


def test_wires_and_pipes_are_warned_of_at_the_step_that_drills_into_the_wall() -> None:
    draft = cupboard()[0].draft()
    at_the_wall, at_the_bench = step_cautions(draft, work_of(draft))
    assert [one.signal for one in at_the_wall.here if one.about == "wires and pipes"] == ["warning"]
    assert not [one for one in at_the_bench.here if one.about == "wires and pipes"]


def test_the_step_says_height_level_studs_lead_holes_and_screws() -> None:
    plan, cleats = cupboard()
    words = said(plan, 1)
    # the piece's cleat ends at 29 and is 3 1/2 wide; the lower one reaches 3/4 up behind its edge sawn at 45°: 26 1/4
    assert cleats.wall.top == L("26 1/4 in")
    assert "level line on the wall 26 1/4 in" in words
    assert "2 holes, 4 in (102 mm) and 20 in (508 mm) from the piece's left end" in words
    # 3 in less 3/4 of cleat and 1/2 of wallboard are 1 3/4; a #10 in spruce: 7/64 (Wood Handbook ch. 8: 70 % of root)
    assert "Bore 7/64 in lead holes through the wallboard and 1 3/4 in (44 mm) into the stud" in words
    assert "drive 2 wood screws, #10 × 3 in" in words


def test_hanging_is_told_in_the_last_step_or_where_its_author_says() -> None:
    hung = "let it down until the cleat on the piece hooks over the cleat on the wall"
    plan, _ = cupboard()
    assert hung not in said(plan, 1)
    assert hung in said(plan, 2)
    first = cupboard(hangs=True)[0]
    assert hung in step_words(first.draft(), work_of(first.draft())[1])[0]


def test_a_cleat_may_come_to_the_wall_when_the_piece_is_made() -> None:
    for last in (False, True):
        plan, _ = cupboard(cleat_last=last)
        found = check(in_steps(plan.draft()), plan.shop, plan.notation)
        assert not [one for one in found if one.check == "cannot be put in"]
