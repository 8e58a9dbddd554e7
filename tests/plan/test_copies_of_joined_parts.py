"""A mirror image of a part takes its cuts along, not what its joints and its hardware brought."""

import pytest

from plankit import Plan, stock
from plankit.checks import check
from plankit.parts import Bore, Groove, PocketHoles
from plankit.plan.document import document
from plankit.plan.handles import PartHandle
from plankit.units import L, Notation

PLY = stock.sheet("plywood", "3/4")
RAIL = stock.lumber("1x4", species="Douglas-fir")


def case() -> tuple[Plan, PartHandle, PartHandle, PartHandle]:
    """Two sides, and a cleat on the left one."""
    plan = Plan("Case")
    plan.about(summary="A case.", author="K. N.", version="1.0", published="2026-11-25")
    left = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="20", grain="up")
    right = plan.mirror(left, across="24")
    cleat = plan.panel(
        "Cleat", PLY, left=left.right, front=0, back="12", bottom="5", top="8", grain="front-back"
    )
    return plan, left, right, cleat


def holes(part: PartHandle) -> int:
    bores = sum(isinstance(one, Bore) for one in part.part.features)
    return bores + sum(len(one.places) for one in part.part.features if isinstance(one, PocketHoles))


def test_screwing_a_mirrored_part_bores_its_holes_once() -> None:
    plan, left, right, cleat = case()
    plan.screw(left, through=cleat, screws="#8 x 1 1/4", each=2)
    other = plan.mirror(cleat, across="24")
    plan.screw(right, through=other, screws="#8 x 1 1/4", each=2)
    assert (holes(cleat), holes(other)) == (2, 2)
    plan.step("All", brings=plan.parts, minutes=9)
    assert [one["count"] for one in document(plan.draft())["parts"] if one["name"] == "Cleat"] == [2]
    assert "holes meet" not in {one.check for one in check(plan.draft().build, None, Notation())}


def test_an_image_that_nothing_is_said_of_has_no_holes_and_is_told_to_be_loose() -> None:
    plan, left, _, cleat = case()
    plan.screw(left, through=cleat, screws="#8 x 1 1/4", each=2)
    other = plan.mirror(cleat, across="24")
    assert (holes(cleat), holes(other)) == (2, 0)
    plan.step("All", brings=plan.parts, minutes=9)
    loose = [one.part for one in check(plan.draft().build, None, Notation()) if one.check == "nothing holds it"]
    assert any("Cleat" in part for part in loose)


@pytest.mark.parametrize("joint", ["pocket_screw", "dowel"])
def test_other_joints_do_the_same(joint: str) -> None:
    plan, left, right, _ = case()
    shelf = plan.panel(
        "Shelf", PLY, left=left.right, right=right.left, front=0, back="12", bottom="10", grain="left-right"
    )
    getattr(plan, joint)(shelf, into=[left, right])
    again = plan.mirror(left, across="24")
    image = plan.mirror(shelf, across="24")
    assert holes(shelf) > 0
    assert (holes(image), holes(again)) == (0, 0)


def test_buttons_take_their_groove_along_only_where_they_are_asked_for() -> None:
    plan = Plan("Table")
    oak = stock.lumber("4/4x6", species="red oak")
    top = plan.glue_up("Top", oak, boards=3, left=0, right="30", front=0, back="14", top="20")
    rail = plan.board("Apron", RAIL, runs="left-right", wide="up", left="2", right="28", front="2", top=top.bottom)
    plan.button_top(top, to=[rail])
    image = plan.mirror(rail, of=top, axis="front-back")
    assert not any(isinstance(one, Groove) for one in image.part.features)
    plan.button_top(top, to=[image])
    assert sum(isinstance(one, Groove) for one in image.part.features) == 1


def test_what_the_author_bores_and_cuts_is_mirrored() -> None:
    plan, left, right, cleat = case()
    cleat.bore("right", "1/2", front="6", bottom="1 1/2")
    cleat.notch(front="1", top="1")
    plan.screw(left, through=cleat, screws="#8 x 1 1/4", each=2)
    image = plan.mirror(cleat, across="24")
    assert [type(one).__name__ for one in image.part.features] == ["Bore", "Notch"]
    assert image.part.features[0].face == "left"  # type: ignore[union-attr]
    assert image.part.features[0].diameter == L("1/2 in")  # type: ignore[union-attr]
    del right
