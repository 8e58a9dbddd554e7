"""What a plan's lines refuse: each says the part, what is wrong, what was given and what to type."""

import pytest

from plankit import stock
from plankit.errors import PlanError
from plankit.plan import Plan

PLY = stock.sheet("plywood", "3/4")
POST = stock.lumber("4x4", species="loblolly pine")
STRIP = stock.lumber("1x2", species="loblolly pine")
SLAB = stock.lumber("2x10", species="loblolly pine")


@pytest.fixture
def plan():
    return Plan("Potting cabinet")


def refusal(call) -> PlanError:
    with pytest.raises(PlanError) as caught:
        call()
    return caught.value


FOUR = {"left": 0, "front": 0, "back": "16", "bottom": 0}


def test_a_panel_with_a_face_missing_names_the_part_and_the_faces(plan):
    error = refusal(lambda: plan.panel("Shelf", PLY, **FOUR))
    assert error.where == "Shelf"
    assert "right and top faces are missing" in error.what
    assert error.given == "left, front, back, bottom"
    assert "right=…" in error.remedy


def test_a_panel_with_all_six_faces_has_one_too_many(plan):
    error = refusal(lambda: plan.panel("Shelf", PLY, right="40", top="1", **FOUR))
    assert "all six faces" in error.what


def test_a_board_whose_end_is_given_as_a_face_and_by_its_length(plan):
    error = refusal(
        lambda: plan.board("Foot", POST, runs="up", left=0, front=0, bottom=0, top="4", length="4")
    )
    assert "top end is given twice" in error.what
    assert error.where == "Foot"


def test_a_board_with_one_end_only(plan):
    error = refusal(lambda: plan.board("Foot", POST, runs="up", left=0, front=0, bottom=0))
    assert "both its ends" in error.what
    assert "top=…" in error.remedy


def test_a_board_wider_than_thick_must_say_which_way_its_width_lies(plan):
    error = refusal(
        lambda: plan.board("Rail", STRIP, runs="left-right", left=0, right="20", front=0, bottom=0)
    )
    assert 'wide="up"' in error.remedy


def test_a_board_placed_by_both_sides_of_its_thickness(plan):
    error = refusal(
        lambda: plan.board("Foot", POST, runs="up", left=0, right="4", front=0, bottom=0, top="4")
    )
    assert "both are given" in error.what


def test_a_part_of_negative_size_says_which_face_lies_where_and_why(plan):
    width = plan.given(width="10")
    error = refusal(lambda: plan.panel("Shelf", PLY, left="12", right=width, front=0, back="16", bottom=0))
    assert "no size" in error.what
    assert "right is width = 10 in" in error.remedy


def test_a_length_that_cannot_be_read_names_the_part_and_the_face(plan):
    error = refusal(lambda: plan.panel("Shelf", PLY, right="40 furlongs", **FOUR))
    assert error.where == "Shelf"
    assert error.what.startswith("the right face:")
    assert error.given == "'40 furlongs'"


def test_a_float_is_not_exact(plan):
    error = refusal(lambda: plan.panel("Shelf", PLY, right=40.3, **FOUR))
    assert error.remedy == 'Put it in quotes: "40.3".'


def test_a_face_that_no_part_has(plan):
    error = refusal(lambda: plan.panel("Shelf", PLY, rigth="40", **FOUR))
    assert error.given == "rigth="


def test_a_parameter_given_twice(plan):
    plan.given(width="40")
    assert refusal(lambda: plan.given(width="41")).where == "width"


def test_a_taper_that_leaves_nothing(plan):
    foot = plan.board("Foot", POST, runs="up", left=0, front=0, bottom=0, length="4")
    assert "leave nothing" in refusal(lambda: foot.taper(left="2", right="1 1/2")).what


def test_a_glue_up_too_narrow_after_trimming(plan):
    error = refusal(
        lambda: plan.glue_up("Top", SLAB, boards=2, left=0, right="40", front=0, back="18 1/2", bottom="17")
    )
    # 2 × 9 1/4 = 18 1/2 in, and 18 1/2 + 2 × 1/8 in are needed
    assert "18 1/2 in wide together, and 18 3/4 in are needed" in error.what
    assert "Use 3 boards" in error.remedy


def test_dividers_that_leave_no_room_between_them(plan):
    left = plan.panel("Side", PLY, left=0, front=0, back="16", bottom=0, top="12")
    right = plan.panel("Side", PLY, right="20", front=0, back="16", bottom=0, top="12")
    error = refusal(
        lambda: plan.spread(
            "Divider", PLY, count=2, between=[left, right], room="8", front=0, back="16", bottom=0, top="12"
        )
    )
    assert "spaces between them" in error.what


def test_parts_that_do_not_touch_cannot_be_joined(plan):
    low = plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    side = plan.panel("Side", PLY, left=0, front=0, back="16", bottom="1", top="12")
    error = refusal(lambda: plan.pocket_screw(side, into=low))
    assert error.where == "Side"
    assert "1/4 in" in error.what  # 1 less 3/4 of plywood
    assert "bottom=bottom.top" in error.remedy


def test_a_screw_that_is_written_some_other_way(plan):
    low = plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    side = plan.panel("Side", PLY, left=0, front=0, back="16", bottom=low.top, top="12")
    error = refusal(lambda: plan.screw(side, through=low, screws="8 by 2"))
    assert error.remedy == 'Write it like "#8 x 1 1/4".'


def test_a_step_cannot_stand_on_what_is_not_there(plan):
    low = plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    side = plan.panel("Side", PLY, left=0, front=0, back="16", bottom=low.top, top="12")
    error = refusal(lambda: plan.step("Stand the side", brings=side, onto=low))
    assert error.where == "step 1, “Stand the side”"
    assert error.given == "bottom"


def test_a_part_arrives_once(plan):
    low = plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    plan.step("Lay the bottom", brings=low)
    assert "arrived already" in refusal(lambda: plan.step("Lay it again", brings=low)).what


def test_an_operation_that_no_tool_does(plan):
    low = plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    assert "band edges" in refusal(lambda: plan.step("Bend it", works_on=low, does="bend")).remedy


def test_a_notch_that_is_all_of_the_part(plan):
    low = plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    assert "all of it" in refusal(lambda: low.notch(left="20", front="2")).what


def test_banding_on_a_face_is_refused(plan):
    low = plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    error = refusal(lambda: plan.band(low, edges="top"))
    assert error.remedy == "Its edges are: left, right, front, back"


def test_a_date_must_be_one(plan):
    error = refusal(
        lambda: plan.correct("2026-13-40", version="2", what="a hole moved", already_begun="drill another")
    )
    assert error.remedy == "Write it like 2026-11-20."


def test_accepting_a_finding_takes_a_reason(plan):
    assert "reason" in refusal(lambda: plan.accept("end grain", reason=" ")).what


def test_a_plan_without_an_author_is_not_complete(plan):
    plan.panel("Bottom", PLY, left=0, right="20", front=0, back="16", bottom=0)
    assert "plan.about" in refusal(plan.complete).remedy


def test_an_empty_plan_has_no_build(plan):
    assert "nothing is made" in refusal(plan.build).what


def test_the_wrong_stock_for_a_part(plan):
    assert "a sheet" in refusal(lambda: plan.panel("Shelf", POST, right="40", **FOUR)).what
    assert (
        "lumber" in refusal(lambda: plan.board("Rail", PLY, runs="up", left=0, front=0, bottom=0, top=4)).what
    )


def test_slots_are_for_solid_tops(plan):
    low = plan.panel("Deck", PLY, left=0, right="20", front=0, back="16", top="18")
    cleat = plan.board(
        "Cleat", STRIP, runs="front-back", wide="left-right", left=0, front=0, back="16", top=low.bottom
    )
    error = refusal(lambda: plan.fasten_top(low, to=cleat, fixed_along="front", screws="#8 x 1 1/4"))
    assert error.where == "Deck"


@pytest.mark.parametrize(
    ("verb", "given", "where"),
    [
        ("glue", {"parts": [], "onto": "one"}, "the parts"),
        ("glue", {"parts": "one", "onto": []}, "onto="),
        ("screw", {"into": [], "through": "one", "screws": "#8 x 2"}, "into="),
        ("screw", {"into": "one", "through": [], "screws": "#8 x 2"}, "through="),
        ("nail", {"into": [], "through": "one", "nails_of": "8d"}, "into="),
        ("pocket_screw", {"parts": [[], []], "into": "one"}, "the parts"),
        ("dowel", {"parts": "one", "into": []}, "into="),
    ],
)
def test_a_joint_with_an_empty_list_is_refused_rather_than_left_out(plan, verb, given, where):
    one = plan.panel("Shelf", PLY, right="40", top="1", left=0, front=0, back="16")
    words = {key: one if value == "one" else value for key, value in given.items()}
    error = refusal(lambda: getattr(plan, verb)(**words))
    assert error.what == f"{where}: no part is given, so nothing would be done."
    assert "Give at least one part" in error.remedy


def test_a_panel_let_in_that_reaches_its_rails_along_an_edge_only_is_told_so(plan):
    """A 3/4 in panel flush with the inside of 2x2 posts begins where 1x2 rails, flush outside, end."""
    posts = stock.lumber("2x2", species="loblolly pine")
    frame = plan.frame("Frame", posts, STRIP, left=0, right="30", front=0, back="20", bottom=0, top="30")
    error = refusal(lambda: plan.let_in("Panel", PLY, frame=frame.side("front"), flush="back"))
    assert "only along an edge" in error.what
