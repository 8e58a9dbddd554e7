"""What a plan says of cutting: strips whose grain runs on, the table of cuts, the saws of the shop."""

import pytest

from plankit.errors import PlanError
from plankit.plan import Plan
from plankit.plan.cut_list import CutPlan, cut_plan
from plankit.plan.cut_words import cut_table
from plankit.plan.work import labels
from plankit.stock import lumber, sheet
from plankit.units import L

PLY = sheet("plywood", "3/4")
STICK = lumber("1x2", species="Douglas-fir")


def fronts(plan: Plan) -> list:
    level = {"front": 0, "bottom": 0}
    return [
        plan.panel(name, PLY, grain="left-right", left=left, right=right, top="9", **level)
        for name, left, right in (
            ("Left front", 0, "18"),
            ("Right front", "18 1/8", "36 1/8"),
            ("Far front", "40", "52"),
        )
    ]


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def cutting(plan: Plan) -> CutPlan:
    draft = plan.draft()
    return cut_plan(draft, labels(draft)[1])


def test_drawer_fronts_of_one_strip_lie_side_by_side_and_the_plan_says_so() -> None:
    plan = Plan("Chest")
    left, right, far = fronts(plan)
    plan.one_strip("fronts", left, right)
    (made,) = cutting(plan).layouts
    first, second = [piece for piece in made.layout.pieces if piece.length == L("18 in").mm]
    assert first.y == second.y
    assert second.x - first.x == L("18 in").mm + L("1/8 in").mm  # the usual shop's kerf
    assert "One strip holds the left front and right front" in made.note or "fronts" in made.note
    assert far.part.strip == ""


def test_parts_of_different_width_are_no_strip() -> None:
    plan = Plan("Chest")
    left, right, _ = fronts(plan)
    wide = plan.panel("Wide", PLY, grain="left-right", left=0, right="18", front="5", bottom=0, top="12")
    with pytest.raises(PlanError, match="one width"):
        plan.one_strip("fronts", left, right, wide)


def test_equal_crosscuts_share_a_line_of_the_table() -> None:
    plan = Plan("Rails")
    for front in (0, "10"):
        plan.board("Rail", STICK, runs="left-right", wide="up", left=0, right="14", front=front, bottom=0)
    plan.board("Long rail", STICK, runs="left-right", wide="up", left=0, right="30", front="20", bottom=0)
    (made,) = cutting(plan).layouts
    lines = [(line.cuts, plain(line.set_to), plain(line.work)) for line in cut_table(made.cuts)]
    assert lines[0] == (
        "1", "Miter saw, 1/2 in (13 mm) off the left end", "Trim the board, the blade on the waste side."
    )  # fmt: skip
    assert lines[2][0] == "3–4"
    assert lines[2][1].startswith("Miter saw, 14 in")
    assert lines[2][2].startswith("2 times: crosscut the board: ")
    # 1x2 Douglas-fir 8 ft long: 3/4 × 1 1/2 × 96 in is 0.0625 ft³
    assert "on a stand" in made.cuts[0].carried


def test_the_saws_are_those_of_the_shop() -> None:
    plan = Plan("Panel")
    plan.panel("Shelf", PLY, left=0, right="40", front=0, back="14", bottom=0)
    (made,) = cutting(plan).layouts
    assert {row.saw for row in made.cuts} == {"Guided circular saw"}
    assert made.cuts[0].carried.endswith("boards across sawhorses") or "floor" in made.cuts[0].carried
