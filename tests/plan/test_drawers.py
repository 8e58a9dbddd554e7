"""Drawers as their author writes them: one line in an opening, checked where they go wrong."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.build.swing import sweep
from plankit.checks import check
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.parts import Groove
from plankit.plan.document import document
from plankit.plan.drawers import Drawer, front_screw
from plankit.plan.handles import PartHandle
from plankit.plan.lists import hardware_list, hardware_note
from plankit.units import L

PLY, HALF, THIN = stock.sheet("plywood", "3/4"), stock.sheet("plywood", "1/2"), stock.sheet("plywood", "1/4")
RUNNER = stock.lumber("1x2", species="red oak")


def chest() -> tuple[Plan, dict[str, PartHandle]]:
    """A case 24 wide and 18 deep with a thin back, a bottom from 2 to 2 3/4 and a shelf from 10 to 10 3/4."""
    plan = Plan("Chest")
    wide = plan.given(width="24")
    left = plan.panel("Side", PLY, left=0, front=0, back="17 3/4", bottom=0, top="24")
    right = plan.mirror(left, across=wide)
    level = {"left": left.right, "right": right.left, "front": 0, "back": "17 3/4"}
    floor, shelf = plan.panel("Bottom", PLY, **level, bottom="2"), plan.panel("Shelf", PLY, **level, bottom="10")
    top = plan.panel("Top", PLY, **level, top="24")
    back = plan.panel("Back", THIN, left=0, right=wide, front="17 3/4", bottom=0, top="24")
    plan.screw([floor, shelf, top], through=[left, right], screws="#8 x 2")
    plan.pin(back)
    return plan, {"left": left, "right": right, "floor": floor, "shelf": shelf, "top": top, "back": back}


def drawn(plan: Plan, parts: dict[str, PartHandle], **more: Any) -> Drawer:
    sides = [parts["left"], parts["right"]]
    given: dict[str, Any] = {"between": sides, "bottom": parts["floor"], "top": parts["shelf"]}
    return plan.drawer("Drawer", HALF, **{**given, "thin": THIN, "front": PLY, **more})


def found(plan: Plan) -> list[Finding]:
    """What is said about the drawer; the whole chest is heavy, and its shelves stand low."""
    aside = {"too heavy for one", "near an edge", "within a child's reach"}
    return [one for one in check(plan.build(), plan.shop, plan.notation) if one.check not in aside]


def test_a_drawer_is_sized_from_its_opening() -> None:
    plan, parts = chest()
    made = drawn(plan, parts)
    # opening 24 − 2 × 3/4 = 22 1/2 wide: less 1/2 in at each side for the slides, 21 1/2
    # opening 10 − 2 3/4 = 7 1/4 high: less 1/2 in below and above, 6 1/4
    assert (made.wide, made.high) == (L("21 1/2 in"), L("6 1/4 in"))
    # 17 3/4 less the front of 3/4 is 17 behind it: slides of 16
    assert (made.room, made.deep, made.travel) == (L("17 in"), L("16 in"), L("16 in"))
    # inset front, 1/8 all round: 22 1/4 × 7, flush with the case
    assert (made.front.length, made.front.width, made.front.front) == (L("22 1/4 in"), L("7 in"), L("0 in"))
    assert not found(plan)


def test_the_bottom_runs_in_grooves_of_sides_and_front() -> None:
    plan, parts = chest()
    made = drawn(plan, parts)
    for part in (*made.sides, made.box_front):
        (groove,) = (one for one in part.part.features if isinstance(one, Groove))
        assert groove.cut.extent("z") == THIN.thickness
    assert not any(isinstance(one, Groove) for one in made.back.part.features)
    assert made.back.bottom == made.bottom.top


@pytest.mark.parametrize("joined", ["screws", "pocket screws", "brads"])
def test_every_way_to_join_its_corners_is_free_of_findings(joined: str) -> None:
    plan, parts = chest()
    drawn(plan, parts, joined=joined)
    assert not found(plan)


def test_an_overlay_front_covers_the_case_less_a_sixteenth() -> None:
    plan, parts = chest()
    made = drawn(plan, parts, lap="overlay")
    assert made.front.length == L("23 7/8 in")  # 24 − 2 × 1/16
    assert (made.front.front, made.front.back) == (L("-3/4 in"), L("0 in"))
    assert made.room == L("17 3/4 in")
    assert not found(plan)


def test_two_overlay_drawers_share_a_shelf_s_edge_with_an_eighth_between() -> None:
    plan, parts = chest()
    lower = drawn(plan, parts, lap="overlay", half="top")
    upper = drawn(plan, parts, lap="overlay", half="bottom", bottom=parts["shelf"], top=parts["top"])
    assert upper.front.bottom - lower.front.top == L("1/8 in")
    assert (lower.front.top + upper.front.bottom).portion(2) == L("10 3/8 in")  # the middle of the shelf's edge
    assert [one.name for one in plan.build().moving] == ["Drawer", "Drawer 2"]


def test_drawers_over_one_another_without_a_rail() -> None:
    plan, parts = chest()
    lower = drawn(plan, parts, lap="overlay", top="6 3/8")
    upper = drawn(plan, parts, lap="overlay", bottom="6 3/8")
    assert upper.front.bottom - lower.front.top == L("1/8 in")
    assert not found(plan)


def test_a_slide_as_its_maker_says() -> None:
    plan, parts = chest()
    made = drawn(plan, parts, slide="14", each_side="5/8", opens="3/4")
    # 22 1/2 − 2 × 5/8; three quarters of 14
    assert (made.wide, made.travel) == (L("21 1/4 in"), L("10 1/2 in"))
    (row,) = (row for row in hardware_list(plan.draft()) if "drawer slide" in str(row["item"]))
    assert row["count"] == 2
    assert "5/8 in at each side" in str(row["where"])
    assert "check them against what you bought" in hardware_note(plan.draft())


def test_on_wooden_runners() -> None:
    plan, parts = chest()
    made = drawn(plan, parts, runners=RUNNER)
    # 22 1/2 − 2 × 1/16; 7 1/4 less a runner of 1 1/2 and 1/8 above
    assert (made.wide, made.high) == (L("22 3/8 in"), L("5 5/8 in"))
    assert [runner.top for runner in made.runners] == [made.sides[0].bottom] * 2
    assert not made.slides
    assert {one.check for one in found(plan)} <= {"too little bite"}  # 1/2 in into a side of 3/4: for information


def test_its_parts_are_brought_in_one_step() -> None:
    plan, parts = chest()
    made = drawn(plan, parts)
    plan.step("Make the case", brings=[*parts.values()])
    plan.step("Make the drawer", brings=made)
    (_, step) = plan.draft().steps
    assert len(step.brings) == len(made) == 6
    assert not [one for one in found(plan) if one.level == "must fix"]


def test_seeded_a_slide_longer_than_the_case() -> None:
    plan, parts = chest()
    drawn(plan, parts, slide="18")
    # 17 in behind the front; that the slide runs into the back is a true consequence
    assert {one.check for one in found(plan)} == {"slide longer than the case", "slide meets something"}
    (long,) = (one for one in found(plan) if one.check == "slide longer than the case")
    assert (long.level, long.number) == ("must fix", "1\u00a0in")
    assert "16\u00a0in at most" in long.remedy


@pytest.mark.parametrize(
    ("side", "check_name", "level", "number"),
    [("1/2", None, "", ""), ("7/16", "box too wide for its slides", "must fix", "1/8\u00a0in"),
     ("5/8", "box too narrow for its slides", "look at", "1/4\u00a0in")],
)  # fmt: skip
def test_seeded_a_box_that_does_not_suit_its_slides(
    side: str, check_name: str | None, level: str, number: str
) -> None:
    """Two sides so far from the case, with slides that take 1/2 in each."""
    plan, parts = chest()
    ends = {"front": 0, "back": "16", "bottom": "4", "top": "8"}
    one = plan.panel("Box side", HALF, left=parts["left"].right + side, **ends)
    other = plan.panel("Box side", HALF, right=parts["right"].left - side, **ends)
    back = plan.panel("Box back", HALF, left=one.right, right=other.left, back="16", bottom="4", top="8")
    plan.screw(back, through=[one, other], screws="#6 x 1 1/4")
    plan.slides([one, other], on=[parts["left"], parts["right"]], length="16")
    about = [one for one in found(plan) if "slides" in one.check]
    wanted = [(check_name, level, number)] if check_name else []
    assert [(one.check, one.level, one.number) for one in about] == wanted


def test_a_slide_longer_than_its_drawer_is_something_to_look_at() -> None:
    plan, parts = chest()
    drawn(plan, parts, slide="16", depth="14")
    (one,) = found(plan)
    assert (one.check, one.level, one.number) == ("slide longer than the drawer", "look at", "2\u00a0in")


def test_seeded_a_front_that_meets_a_stile() -> None:
    """An inset drawer behind a stile that narrows the opening after it was sized."""
    plan, parts = chest()
    made = drawn(plan, parts)
    plan.panel("Stile", PLY, left=parts["left"].right, right="2", back=made.front.front, bottom=0, top="24")
    (moving,) = plan.build().moving
    met = sweep(plan.build(), moving).in_the_way()
    assert met is not None
    assert met.name == "Stile"
    assert "drawer meets something" in {one.check for one in found(plan)}


def test_a_drawer_meets_nothing_on_its_way_out() -> None:
    plan, parts = chest()
    drawn(plan, parts)
    (moving,) = plan.build().moving
    assert not sweep(plan.build(), moving).opening


@pytest.mark.parametrize(("box", "front", "screw"), [("1/2", "3/4", "#8 x 1"), ("3/4", "3/4", "#8 x 1 1/4")])
def test_the_screw_through_the_box_into_the_front_leaves_an_eighth(box: str, front: str, screw: str) -> None:
    # 1/2 + 3/4 − 1/8 = 1 1/8, down to 1; 1 1/2 − 1/8 = 1 3/8, down to 1 1/4
    assert front_screw(L(box, "in"), L(front, "in")) == screw


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"joined": "nails"}, "joined="),
        ({"lap": "half"}, "lap="),
        ({"opens": "2"}, "opens"),
        ({"half": "middle", "lap": "overlay"}, "four faces"),
        ({"half": "top"}, "shares no edge"),  # an inset front
        ({"lap": "overlay", "gap": "1/2"}, "there is no gap"),
        ({"blocks": PLY}, "face frame"),
        ({"grain": "front-back"}, "grain"),
        ({"bottom": "10", "top": "9"}, "opening"),
        ({"slide": 0}, "more than nothing"),
        ({"thin": RUNNER}, "sheet"),
        ({"runners": PLY}, "lumber"),
        ({"below": "4", "above": "4"}, "nothing is left inside"),
    ],
)
def test_a_drawer_that_cannot_be_is_refused(asked: dict[str, Any], said: str) -> None:
    plan, parts = chest()
    with pytest.raises(PlanError) as refused:
        drawn(plan, parts, **asked)
    assert said in str(refused.value)
    assert refused.value.remedy


def test_the_gap_of_an_overlay_front_counts_where_it_shares_an_edge() -> None:
    tops = []
    for gap in ("1/8", "1/2"):
        plan, parts = chest()
        tops.append(drawn(plan, parts, lap="overlay", half="top", gap=gap).front.top)
    assert tops[0] - tops[1] == L("3/16 in")  # half of 1/2 less half of 1/8


def test_a_case_too_shallow_for_any_slide_says_what_to_do() -> None:
    plan = Plan("Tray")
    left = plan.panel("Side", PLY, left=0, front=0, back="8", bottom=0, top="8")
    right = plan.mirror(left, across="20")
    with pytest.raises(PlanError, match="no common slide is so short"):
        plan.drawer("Drawer", HALF, between=[left, right], bottom=0, top="8", thin=THIN)
    assert plan.drawer("Drawer", HALF, between=[left, right], bottom=0, top="8", thin=THIN, slide="6").deep == L("6 in")


def test_another_width_works_out_as_made_anew() -> None:
    plan, parts = chest()
    made = drawn(plan, parts)
    assert "width" in plan.why(made.front.length)


def test_the_page_says_how_the_slides_go_in_and_shows_the_drawer_pulled_out() -> None:
    plan, parts = chest()
    made = drawn(plan, parts)
    plan.step("Make the case", brings=[*parts.values()])
    plan.step("Make the drawer", brings=made)
    page = document(plan.draft())
    assert "moving-drawer" in page["figures"]
    assert "pulled out 16" in page["figures"]["moving-drawer"]["description"]
    (step,) = (one for one in page["steps"] if one["title"] == "Make the drawer")
    said = " ".join(step["does"])
    assert "Fit 2 drawer slides" in said
    assert "groove for the bottom" in said
    # twelve screws of one size hold the two slides
    (screws,) = (row for row in page["hardware"] if "for the drawer slides (12)" in str(row["where"]))
    assert screws["count"] == 12


def test_a_slide_needs_something_behind_it() -> None:
    """Stiles 3/4 thick before the case, the slides behind them: none of their screws meets a stile."""
    plan, parts = chest()
    oak = stock.lumber("1x2", species="red oak")
    stiles = [plan.board("Stile", oak, runs="up", wide="left-right", bottom=0, top="24", back=0, **edge)
              for edge in ({"left": 0}, {"right": "24"})]  # fmt: skip
    drawn(plan, parts, between=stiles, slide="16", front=PLY)
    behind = [one for one in found(plan) if one.check == "slide has nothing behind it"]
    assert {one.level for one in behind} == {"must fix"}
    plan, parts = chest()
    drawn(plan, parts)
    assert "slide has nothing behind it" not in {one.check for one in found(plan)}
