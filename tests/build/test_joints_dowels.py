"""Dowels, nails, staples and buttons: sizes, places, and the holes they need."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import bite, buttons, dowel, dowel_for, dowels, movement, nail, nails, pinned, pinned_along
from plankit.build.fasteners import Spec
from plankit.build.joints_top import BUTTON, button_items, button_screw
from plankit.errors import PlanError
from plankit.parts import Bore, Groove, Part
from plankit.reference import rows
from plankit.stock import lumber, sheet
from plankit.units import L
from tests.parts.one_of_each import PLY, box

SIDE = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "12", "0", "30"), "z", "x")
SHELF = Part("shelf", "Shelf", "panel", PLY, box("3/4", "30", "0", "12", "10", "10 3/4"), "x", "z")
PINE = lumber("1x4", species="Douglas-fir")
APRON = Part("apron", "Apron", "board", PINE, box("2", "40", "1", "1 3/4", "24 1/2", "28"), "x", "y")
SLAB = lumber("2x10", species="loblolly pine")
TOP = Part("top", "Top", "glue-up", SLAB, box("0", "42", "0", "20", "28", "29 1/2"), "x", "z")
BACK = Part(
    "back", "Back", "panel", sheet("plywood", "1/4"), box("0", "30", "12", "12 1/4", "0", "30"), "x", "y"
)


def hardware_row(item: str) -> dict[str, str]:
    return next(dict(row) for row in rows("hardware") if row["item"] == item)


@pytest.mark.parametrize(
    ("thickness", "diameter"),
    [("1/2", "1/4"), ("5/8", "5/16"), ("3/4", "3/8"), ("1", "1/2"), ("1 1/2", "1/2")],
)
def test_a_dowel_is_a_third_to_a_half_of_the_thickness(thickness: str, diameter: str) -> None:
    # joinery textbooks, common practice (the reference table's row says so)
    assert hardware_row("dowel diameter")["value"].startswith("one third to one half of stock thickness")
    thick = L(thickness, "in")
    found = dowel_for(SHELF, thick).diameter
    assert found == L(diameter, "in")
    assert thick.mm / 3 <= found.mm <= thick.mm / 2


def test_quarter_inch_stock_takes_no_dowel() -> None:
    with pytest.raises(PlanError, match="no dowel"):
        dowel_for(BACK, L("1/4 in"))


def test_a_shelf_doweled_into_sides_of_its_own_thickness() -> None:
    made = dowels(SHELF, SIDE)
    # 12 in, 1 1/4 from each end leaves 9 1/2: two gaps of at most 5 in
    assert len(made.joint.fasteners) == 3
    first = made.joint.fasteners[0]
    # 3/4 of side less 3/16 over the end and 1/32 of play: 17/32 in the side, the rest of 2 in in the shelf
    assert bite(first, SIDE) == L("17/32 in")
    own, theirs = made.holes[0], made.into_holes[0]
    assert (own.depth, theirs.depth) == (L("1 1/2 in"), L("9/16 in"))
    assert own.depth + theirs.depth == L("2 1/16 in")  # 1/16 in deeper than the dowel (joinery textbooks)
    assert (own.face, theirs.face) == ("left", "right")
    assert made.joint.glue


def test_both_parts_holes_lie_opposite_each_other() -> None:
    made = dowels(SHELF, SIDE)
    for own, theirs in zip(made.holes, made.into_holes, strict=True):
        mine = tuple(at + corner for at, corner in zip(own.at, (SHELF.box.left, SHELF.box.front, SHELF.box.bottom),
                                                       strict=True))  # fmt: skip
        other = tuple(at + corner for at, corner in zip(theirs.at, (SIDE.box.left, SIDE.box.front, SIDE.box.bottom),
                                                        strict=True))  # fmt: skip
        assert mine[1:] == other[1:]


def test_in_thick_parts_half_a_dowel_lies_in_each() -> None:
    post = Part("post", "Post", "board", lumber("4x4", species="Douglas-fir"),
                box("-3 1/2", "0", "0", "3 1/2", "0", "30"), "z", "x")  # fmt: skip
    rail = replace(APRON, box=box("0", "20", "1", "1 3/4", "10", "13 1/2"))
    made = dowels(rail, post)
    assert {bite(one, post) for one in made.joint.fasteners} == {L("1 in")}


def test_a_dowel_is_written_as_its_sizes() -> None:
    assert dowel("3/8 x 2").name == "3/8 in × 2 in dowel"
    assert dowel("8 mm x 40 mm").length == L("40 mm")
    for wrong in ("3/8", "2 x 3/8", "x"):
        with pytest.raises(PlanError):
            dowel(wrong)


@pytest.mark.parametrize(
    ("size", "length", "diameter"),
    # Wood Handbook table 8-1, common wire nails
    [("6d", "2", "0.113"), ("8d", "2 1/2", "0.131"), ("10d", "3", "0.148"), ("16d", "3 1/2", "0.162")],
)
def test_common_nails_are_those_of_the_handbook(size: str, length: str, diameter: str) -> None:
    made = nail(size)
    assert (made.length, made.diameter, made.called) == (L(length, "in"), L(diameter, "in"), size)
    assert made.name.startswith(f"{size} × ")


def test_nails_stand_in_a_row_and_need_no_hole() -> None:
    slat = Part("slat", "Slat", "board", PINE, box("0", "30", "-3/4", "0", "3", "6 1/2"), "x", "y")
    joint = nails(slat, SIDE, nail("8d"))
    assert joint.kind == "nails"
    assert {one.heading for one in joint.fasteners} == {"back"}
    assert {bite(one, SIDE) for one in joint.fasteners} == {L("1 3/4 in")}  # 2 1/2 less 3/4


def test_staples_stand_as_brads_do() -> None:
    staples = pinned(BACK, SIDE, Spec("staple", None, L("3/4 in")))
    assert staples.kind == "staples"
    # joint 30 in high, 1 in from each end: 28 in between, six gaps of at most 5 in
    assert len(staples.fasteners) == 7
    assert staples.fasteners[0].spec.name == "18-gauge × 3/4 in staple"


def test_pins_along_an_edge_go_to_whatever_lies_behind_each() -> None:
    found = pinned_along(BACK, [SIDE, SHELF], "left", Spec("brad", None, L("1 in")))
    (only,) = found
    assert only.to == "side"
    assert {one.head.x for one in only.fasteners} == {L("3/8 in")}
    along_top = pinned_along(BACK, [SIDE, SHELF], "top", Spec("brad", None, L("1 in")))
    assert sum(len(one.fasteners) for one in along_top) == 7
    assert {one.to for one in along_top} == {"side", "shelf"}  # a check says what is really there


def test_pins_do_not_follow_a_face() -> None:
    with pytest.raises(PlanError, match="follow an edge") as error:
        pinned_along(BACK, [SIDE], "back", Spec("brad", None, L("1 in")))
    assert "left, right, bottom, top" in error.value.remedy


def test_buttons_ride_in_a_groove_and_leave_the_top_room() -> None:
    spec = button_screw(TOP)
    assert spec.length == L("1 1/2 in")  # 3/4 of button and 3/4 into the top
    joint, (groove,) = buttons(TOP, APRON, spec, "back")
    assert joint.kind == "buttons"
    # 38 in of apron, 3 in from each end: 32 in, four gaps of at most 10 in
    assert len(joint.fasteners) == 5
    assert {bite(one, TOP) for one in joint.fasteners} == {L("3/4 in")}
    assert isinstance(groove, Groove)
    # the tongue is the lower 3/8 in of 3/4; the groove starts 1/32 in lower, so that the screw draws the top down
    assert APRON.box.extent("z") - groove.cut.top == L("13/32 in")
    assert groove.cut.extent("y") == L("3/8 in")
    assert all(one.travel == L("1/4 in") for one in joint.fasteners)


def test_a_button_s_tongue_is_in_the_groove_and_its_back_under_the_top() -> None:
    joint, (groove,) = buttons(TOP, APRON, button_screw(TOP), "back")
    for item in button_items(TOP, APRON, joint, "back"):
        assert item.box.top == TOP.box.bottom
        assert APRON.box.back - item.box.front == L("1/4 in")  # 3/8 deep, 1/8 left to move
        assert item.box.front > APRON.box.front + groove.cut.front


def test_buttons_that_would_hold_a_wide_top_are_refused() -> None:
    # loblolly pine, C_T 0.00259, 30 to 70 %: 6.92 points (Wood Handbook tables 13-5 and 4-2):
    # half of 40 in moves 20 × 0.00259 × 6.92 = 0.358 in, more than 1/4
    wide = replace(TOP, box=box("0", "42", "0", "42", "28", "29 1/2"))
    assert float(movement(SLAB, L("20 in")).inches) == pytest.approx(0.358, abs=0.002)
    with pytest.raises(PlanError, match="it moves more"):
        buttons(wide, APRON, button_screw(TOP), "back")
    roomy = replace(BUTTON, gap=L("1/4 in"))
    assert buttons(wide, APRON, button_screw(TOP), "back", button=roomy)[0].fasteners


def test_a_groove_for_buttons_runs_along_the_apron() -> None:
    for face in ("left", "top"):
        with pytest.raises(PlanError, match="runs along the apron"):
            buttons(TOP, APRON, button_screw(TOP), face)


@given(st.integers(4, 48))
def test_dowels_never_come_through(sixteenths: int) -> None:
    thick = L(Fraction(sixteenths, 16), "in")
    into = replace(SIDE, box=replace(SIDE.box, left=SIDE.box.right - thick))
    try:
        made = dowels(SHELF, into)
    except PlanError:
        assert thick <= L("1/4 in")  # 3/16 over the end and 1/32 of play leave next to nothing
        return
    assert all(0 < bite(one, into).mm < thick.mm for one in made.joint.fasteners)
    assert all(isinstance(hole, Bore) and hole.depth is not None and hole.depth.mm < thick.mm
               for hole in made.into_holes)  # fmt: skip
