"""What a plan's lines answer to things of the wrong kind, of another plan, or in another unit."""

import pytest

from plankit import stock
from plankit.errors import PlanError
from plankit.plan import Plan

PLY = stock.sheet("plywood", "18 mm")
POST = stock.lumber("2x2", species="loblolly pine")
SLAB = stock.lumber("2x10", species="loblolly pine")


def side(plan: Plan, name: str = "Side"):
    return plan.panel(name, PLY, left=0, front=0, back=300, bottom=0, top=600)


@pytest.fixture
def metric() -> Plan:
    return Plan("Case", unit="mm")


def refusal(call) -> PlanError:
    with pytest.raises(PlanError) as caught:
        call()
    return caught.value


def test_a_metric_plan_speaks_in_millimeters(metric):
    one = side(metric)
    assert repr(one) == "Side (side): 600 × 300 × 18 mm"
    assert refusal(lambda: one.taper(left=900)).given == "900 mm off 18 mm"
    wrong = refusal(lambda: metric.panel("Shelf", PLY, left=100, right=50, front=0, back=10, bottom=0))
    assert wrong.given == "left 100 mm, right 50 mm"
    assert "Its right is 50 mm; its left is 100 mm" in wrong.remedy
    far = metric.panel("Floor", PLY, left=40, right=300, front=0, back=300, bottom=0)
    assert "22 mm between them" in refusal(lambda: metric.screw(one, through=far, screws="#8 x 2")).what


def test_a_part_of_no_short_size_is_shown_to_the_mark():
    plan = Plan("Frame")
    leg = plan.board(
        "Leg", stock.lumber("2x4", species="loblolly pine"), runs="up", wide="left-right", left=0, front=0,
        bottom=0, length="17",
    )  # fmt: skip
    plan.splay(leg, left="8°")
    assert repr(leg).startswith("Leg (leg): ≈17 ")
    assert len(repr(leg)) < 50


def test_parts_of_another_plan_are_refused_even_where_a_part_here_has_the_same_name(metric):
    here, there = side(metric), side(Plan("Other", unit="mm"))
    for call in (
        lambda: metric.step("Stand it", brings=[there]),
        lambda: metric.step("Stand it", brings=here, onto=there),
        lambda: metric.glue(there, here),
        lambda: metric.mirror(there, across=300),
        lambda: here.notch_round(there),
    ):
        assert "belongs to another plan" in refusal(call).what


def test_a_list_where_one_part_is_asked_for_is_answered_in_a_sentence(metric):
    one = side(metric)
    assert "one part was expected" in refusal(lambda: metric.mirror([one], across=300)).what
    assert "one part was expected" in refusal(lambda: metric.at_corners([one], of=one)).what
    assert "one part was expected" in refusal(lambda: metric.load("Side", "books", psf=20)).what


def test_a_number_where_a_fastener_is_named_is_answered_with_how_it_is_written(metric):
    one = side(metric)
    shelf = metric.panel("Shelf", PLY, left=one.right, right=500, front=0, back=300, bottom=200)
    assert "#8 x 1 1/4" in refusal(lambda: metric.screw(shelf, through=one, screws=5)).remedy
    assert "8d" in refusal(lambda: metric.nail(shelf, through=one, nails_of=8)).remedy
    assert "3/8 x 2" in refusal(lambda: metric.dowel(shelf, into=one, pins=8)).remedy


def test_more_screws_than_a_joint_has_room_for_are_refused_with_how_many_it_takes():
    plan = Plan("Case")
    ply = stock.sheet("plywood", "3/4")
    one = plan.panel("Side", ply, left=0, front=0, back="12", bottom=0, top="20")
    shelf = plan.panel("Shelf", ply, left=one.right, right="30", front=0, back="12", bottom="10")
    wrong = refusal(lambda: plan.screw(shelf, through=one, screws="#8 x 2", each=500))
    assert "no room for so many" in wrong.what
    # 12 in less 2 at each end leave 8 in: 8 ÷ 3/8 is 21 gaps and a third, so 22 screws
    assert "Ask for 22 or fewer" in wrong.remedy
    plan.screw(shelf, through=one, screws="#8 x 2", each=22)


def glued(boards: int):
    faces = {"left": 0, "right": "40", "front": 0, "back": "16", "bottom": 0}
    return Plan("Top").glue_up("Top", SLAB, boards=boards, **faces)


def test_one_board_is_spoken_of_as_one():
    # 16 in and 1/8 on each edge are 16 1/4; a 2x10 is 9 1/4 wide
    assert refusal(lambda: glued(1)).what == (
        "one board of 2x10 is 9 1/4 in wide, and 16 1/4 in are needed before trimming."
    )


def test_strips_too_narrow_to_rip_are_refused():
    wrong = refusal(lambda: glued(33))
    assert "too narrow to rip" in wrong.what
    assert wrong.remedy == "Use 2 boards, or up to 32."  # 16 1/4 ÷ 1/2 = 32 1/2
    assert glued(32).boards.count == 32


def test_all_six_faces_of_a_glue_up_are_not_blamed_on_a_sheet():
    plan = Plan("Top")
    faces = {"left": 0, "right": "40", "front": 0, "back": "16", "bottom": 0, "top": "2"}
    assert "sheet" not in refusal(lambda: plan.glue_up("Top", SLAB, boards=2, **faces)).what


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (lambda plan, one: stock.sheet("plywood", 0.75), "its nominal thickness was expected"),
        (lambda plan, one: stock.lumber(3), "its nominal size was expected"),
        (lambda plan, one: stock.lumber("2x4"), "its species was expected"),
        (lambda plan, one: stock.lumber("2x4", species="loblolly pine", lengths="8 ft"), "a list was expected"),
        (lambda plan, one: plan.casters(one, plate=3), "two sizes were expected"),
        (lambda plan, one: plan.assembly("Box"), "no part is given"),
        (lambda plan, one: plan.write(3), "a length was expected"),
        (lambda plan, one: plan.niche(3), "a width, a depth and a height"),
        (lambda plan, one: plan.measure_first("x"), "said of the part itself"),
        (lambda plan, one: plan.band(one, edges=3), "edges: words were expected"),
        (lambda plan, one: plan.about(summary="", author="E. V.", version="1", published=3), "not a date"),
        (lambda plan, one: plan.correct(3, version="2", what="", already_begun=""), "not a date"),
        (lambda plan, one: plan.finish("wax", coats=1, how=3), "how: words were expected"),
        (lambda plan, one: plan.finish("", coats=1, how="Rub it in."), "words were expected"),
        (lambda plan, one: plan.caution(""), "words were expected"),
        (lambda plan, one: plan.buy("", 1, where="feet"), "words were expected"),
        (lambda plan, one: plan.levelling_feet([]), "no part is given"),
    ],
)
def test_what_is_of_the_wrong_kind_is_answered_in_a_sentence(line, said):
    plan = Plan("Case")
    one = plan.panel("Floor", PLY, left=0, right=20, front=0, back=12, bottom=4)
    assert said in refusal(lambda: line(plan, one)).what


def test_a_shelf_on_pins_lies_in_a_row_of_a_grid():
    plan = Plan("Case")
    left = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    sides = [left, plan.mirror(left, across="24")]
    rows = plan.pin_rows(sides, lowest="6", highest="24")
    assert "row: a whole number" in refusal(lambda: plan.adjustable_shelf("Shelf", PLY, on=rows, row="11")).what
    assert "rows of holes" in refusal(lambda: plan.adjustable_shelf("Shelf", PLY, on=sides, row=1)).what


def hung_door(plan: Plan):
    side_ = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    door = plan.panel("Door", PLY, left="1/16 in", right="15", back=0, bottom=0, top="30", grain="up")
    return door, side_


def test_hinges_are_placed_by_a_list_and_are_few():
    plan = Plan("Case")
    door, on = hung_door(plan)
    assert "in a list" in refusal(lambda: plan.hinges(door, on=on, at="26")).what
    assert "so many hinges" in refusal(lambda: plan.hinges(door, on=on, count=40)).what


def test_hardware_is_not_brought_and_is_named_in_few_words():
    plan = Plan("Case")
    door, on = hung_door(plan)
    hinges = plan.hinges(door, on=on)
    error = refusal(lambda: plan.step("Hang it", brings=[door, hinges]))
    assert (error.given, "comes with the parts" in error.remedy) == ("hardware", True)
    assert len(refusal(lambda: plan.step("Hang it", brings=[door, object(), "x" * 999])).given) < 130


def test_cleats_are_brought_together():
    plan = Plan("Cupboard")
    back = plan.panel("Back", PLY, left=0, right="30", front=0, bottom=0, top="30")
    made = plan.cleats("Cleat", stock.lumber("1x4", species="red oak"), onto=back, left=0, right="30", top="29")
    plan.step("Bring them", brings=[back, made])
    assert len(plan.draft().steps[0].brings) == 4


def test_a_foot_stands_under_what_is_upright():
    plan = Plan("Stool")
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, length="17")
    plan.splay(leg, left="8 deg")
    assert "it leans" in refusal(lambda: plan.levelling_feet(leg)).what
    shelf = plan.panel("Shelf", PLY, left="4", right="20", front=0, back="12", bottom="4")
    rail = stock.lumber("1x2", species="red oak")
    error = refusal(lambda: plan.face_frame("Frame", rail, on=[shelf], stiles_on=[shelf]))
    assert "a stile stands on an upright divider" in error.what


def test_a_door_is_hung_and_opens_once():
    plan = Plan("Case")
    door, on = hung_door(plan)
    hinges = plan.hinges(door, on=on)
    assert "hangs on hinges already" in refusal(lambda: plan.hinges(door, on=on)).what
    plan.door("Door", door, hinges=hinges)
    assert "opens already" in refusal(lambda: plan.door("Other", door, hinges=hinges)).what


def test_a_door_hung_on_the_wrong_part_is_told_in_the_unit_of_the_plan():
    """Its left edge at 0, hung on a divider from 18 to 18 3/4: 18 in of it reach past the divider."""
    plan = Plan("Case")
    divider = plan.panel("Divider", PLY, left="18", front=0, back="12", bottom=0, top="30")
    door = plan.panel("Door", PLY, left=0, right="40", back=0, bottom=0, top="30", grain="up")
    error = refusal(lambda: plan.hinges(door, on=divider))
    assert "Divider does not lie at its left edge: the door reaches 18 in past it" in error.what
    assert "mm" not in error.what
