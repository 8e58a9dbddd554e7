"""Lines that go wrong at a bench: what no part, face or count is, and cuts that would leave nothing."""

import pytest

from plankit import stock
from plankit.errors import PlanError
from plankit.plan import Plan
from tests.plan.test_refusals import refusal

PLY = stock.sheet("plywood", "3/4")
SLAB = stock.lumber("2x10", species="loblolly pine")
RAIL = stock.lumber("2x2", species="Douglas-fir")


@pytest.fixture
def plan():
    return Plan("Crate")


@pytest.fixture
def floor(plan):
    return plan.panel("Floor", PLY, left=0, right="24", front=0, back="12", bottom=0)


@pytest.fixture
def side(plan, floor):
    return plan.panel("Side", PLY, left=0, front=0, back="12", bottom=floor.top, top="20")


def lid(plan, **more):
    faces = {"left": 0, "right": "24", "front": 0, "back": "12", "bottom": "20"}
    return plan.glue_up("Lid", **{"stock": SLAB, "boards": 2} | more, **faces)


LINES = {
    "no part but its name": lambda plan, floor, side: plan.glue("side", floor),
    "nothing to glue": lambda plan, floor, side: plan.glue(None, floor),
    "a name to glue onto": lambda plan, floor, side: plan.glue(side, "floor"),
    "a name to screw pockets into": lambda plan, floor, side: plan.pocket_screw(side, into="floor"),
    "a name to mirror in": lambda plan, floor, side: plan.mirror(side, of="floor"),
    "a name to bring": lambda plan, floor, side: plan.step("Start", brings="floor"),
    "pockets in no face": lambda plan, floor, side: plan.pocket_screw(side, into=floor, face="inner"),
    "fixed along no face": lambda plan, floor, side: plan.fasten_top(
        lid(plan), to=side, fixed_along="front edge", screws="#8 x 2"
    ),
    "tapered towards no face": lambda plan, floor, side: side.taper(towards="down", left="1/4"),
    "bored from no face": lambda plan, floor, side: side.bore("up", "1/2", left="1/4", front="2"),
    "a groove in no face": lambda plan, floor, side: side.groove(
        "inside", width="1/4", depth="1/4", back="1"
    ),
    "screws that are no number": lambda plan, floor, side: plan.screw(
        side, through=floor, screws="#8 x 2", each="2"
    ),
    "no boards": lambda plan, floor, side: lid(plan, boards=0),
    "boards below nothing": lambda plan, floor, side: lid(plan, boards=-1),
    "a glue-up of plywood": lambda plan, floor, side: lid(plan, stock=PLY),
    "planing wood on": lambda plan, floor, side: lid(plan, flatten="-1/8"),
    "brads without length": lambda plan, floor, side: plan.pin(side, into=floor, brads_long=0),
    "a thing of two sizes": lambda plan, floor, side: plan.thing("Box", size=("1", "2"), inside=None),
    "work of less than no time": lambda plan, floor, side: plan.step("Start", brings=floor, minutes=-5),
    "time that is no number": lambda plan, floor, side: plan.step("Start", brings=floor, minutes="5"),
    "a tool for nothing a tool does": lambda plan, floor, side: plan.step(
        "Start", brings=floor, using={"tapre": "Hand saw"}
    ),
    "seen from nowhere": lambda plan, floor, side: plan.step("Start", brings=floor, view="from nowhere"),
    "a finish without a coat": lambda plan, floor, side: plan.finish("Oil", coats=0, how=[]),
    "fewer than no pads": lambda plan, floor, side: plan.buy("Pads", -2, where="feet"),
    "a part without a name": lambda plan, floor, side: plan.mirror(plan.panel(
        " ", PLY, left=0, right="9", front=0, back="9", bottom=0), of=floor),
    "banding below nothing": lambda plan, floor, side: plan.band(floor, edges="front", thickness="-1"),
    "an edge banded twice": lambda plan, floor, side: plan.band(floor, edges="front front"),
    "banding thicker than the part": lambda plan, floor, side: plan.band(
        floor, edges="front back", thickness="6"
    ),
    "a taper that takes nothing": lambda plan, floor, side: side.taper(),
    "a second taper that leaves nothing": lambda plan, floor, side: side.taper(left="1/2").taper(right="1/4"),
    "two miters that meet": lambda plan, floor, side: floor.mitre("left", short="front", setback="13").mitre(
        "right", short="front", setback="12"
    ),
    "a hole wider than the part": lambda plan, floor, side: floor.bore("top", "12", left="6", front="6"),
    "a notch round itself": lambda plan, floor, side: floor.notch_round(floor),
    "a load below nothing": lambda plan, floor, side: plan.load(floor, "books", psf=-3),
}  # fmt: skip


@pytest.mark.parametrize("line", LINES.values(), ids=LINES)
def test_a_line_that_means_nothing_is_refused_in_words(plan, floor, side, line):
    error = refusal(lambda: line(plan, floor, side))
    assert error.what
    assert error.where or error.given


SPREAD = {"front": 0, "back": "12", "bottom": "3/4", "top": "20"}


@pytest.mark.parametrize("count", [-1, "2"], ids=["cubbies = 0", "a count in quotes"])
def test_dividers_are_a_whole_number_and_no_fewer_than_none(plan, floor, side, count):
    between = [side, plan.mirror(side, of=floor)]
    error = refusal(lambda: plan.spread("Divider", PLY, count=count, between=between, **SPREAD))
    assert error.where == "Divider"
    assert "count" in error.what


def test_dividers_stand_between_two_parts(plan, side):
    error = refusal(lambda: plan.spread("Divider", PLY, count=1, between=[side], **SPREAD))
    assert error.remedy == "For instance  between=[left, right]"


@pytest.mark.parametrize("faces", [{"front": 0, "back": "12", "bottom": 0}, SPREAD | {"left": "3"}])
def test_dividers_share_four_faces_even_where_there_are_none(plan, floor, side, faces):
    between = [side, plan.mirror(side, of=floor)]
    error = refusal(lambda: plan.spread("Divider", PLY, count=0, between=between, **faces))
    assert "front, back, bottom and top" in error.what


def test_a_notch_round_a_post_that_goes_right_through_would_cut_the_shelf_in_two(plan, floor):
    # the divider stands through the whole depth and thickness of the floor
    wall = plan.panel("Wall", PLY, left="10", front=0, back="12", bottom="-2", top="20")
    error = refusal(lambda: floor.notch_round(wall))
    assert error.where == "Floor"
    assert "in two" in error.what


def test_a_tread_loose_in_a_notch_is_refused_with_the_notch_named_and_no_face_to_copy(plan, side):
    tread = plan.panel("Tread", PLY, left=0, right="18", front="-1/2", back="4 7/8", bottom="12 1/4")
    side.notch(front="5", top="8")
    error = refusal(lambda: plan.screw(side, through=tread, screws="#8 x 2"))
    assert "inside a notch of Side" in error.what
    assert ".right" not in error.remedy


def test_a_word_that_is_no_face_of_a_part_is_answered_with_the_faces(floor):
    with pytest.raises(AttributeError, match=r"Floor has no “botom”.*bottom"):
        _ = floor.botom


def test_stock_of_the_wrong_kind_is_called_by_its_name(plan):
    error = refusal(lambda: plan.panel("Shelf", RAIL, left=0, right="9", front=0, back="9", bottom=0))
    assert error.given == "2x2 Douglas-fir"


def test_a_part_named_in_another_script_still_has_an_id(plan):
    assert plan.panel("棚", PLY, left=0, right="9", front=0, back="9", bottom=0).id == "part"


def test_a_finish_said_in_one_sentence_stays_one(plan, floor):
    plan.finish("Oil", coats=2, how="Wipe it on.")
    assert plan.draft().coating.how == ("Wipe it on.",)


def test_a_part_too_large_for_its_sheet_is_called_by_its_name(plan):
    from plankit.plan.document import document

    plan.panel("Worktop", PLY, left=0, right="200", front=0, back="12", bottom=0)
    with pytest.raises(PlanError) as caught:
        document(plan.draft())
    assert caught.value.where == "Worktop (A)"


def test_asking_for_a_divider_of_an_undivided_case_is_answered_with_how_many_there_are(plan, floor, side):
    walls = plan.spread("Divider", PLY, count=0, between=[side, plan.mirror(side, of=floor)], **SPREAD)
    with pytest.raises(IndexError, match="only 0 were spread"):
        _ = walls[0]
    assert list(walls) == []
