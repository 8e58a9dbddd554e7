"""Drawers: a box worked out from its opening, and slides with every screw in its place."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build.drawers import EACH_SIDE, DrawerBox, Slide, room_behind, slide_for, slides
from plankit.errors import PlanError
from plankit.parts import Bore, Box, Face, Part
from plankit.reference import practice
from plankit.stock import sheet
from plankit.units import L, Length
from tests.parts.one_of_each import box

PLY, HALF = sheet("plywood", "3/4"), sheet("plywood", "1/2")
BOX = DrawerBox(box("1 1/4", "22 3/4", "3/4", "16 3/4", "3", "9"), L("1/2 in"), L("1/4 in"))


def upright(name: str, at: str, ends: tuple[str, str, str, str] = ("0", "18", "0", "24"), stock=PLY) -> Part:
    left = L(at, "in")
    space = replace(box("0", "1", *ends), left=left, right=left + stock.thickness)
    return Part(name, name.title(), "panel", stock, space, "z", "x")


LEFT, RIGHT = upright("left", "0"), upright("right", "23 1/4")
SIDES = (
    upright("one", "1 1/4", ("3/4", "16 3/4", "3", "9"), HALF),
    upright("two", "22 1/4", ("3/4", "16 3/4", "3", "9"), HALF),
)


def test_a_slide_takes_half_an_inch_at_each_side() -> None:
    # hardware.csv, common practice: "12.7 mm (1/2 in) each side …: box width = opening - 25.4 mm (+0/-1)"
    found = practice("slide clearance").sizes
    assert EACH_SIDE == L("1/2 in") == found[1]
    assert EACH_SIDE * 2 == found[2] == L("25.4 mm")


@pytest.mark.parametrize(
    ("room", "length"), [("17", "16"), ("16", "16"), ("15 15/16", "14"), ("40", "28"), ("10", "10")]
)
def test_the_longest_slide_that_goes_in(room: str, length: str) -> None:
    # sold every 2 in from 10 to 28 in (common practice)
    assert slide_for(L(room, "in")) == L(length, "in")


def test_no_slide_is_so_short() -> None:
    with pytest.raises(PlanError) as refused:
        slide_for(L("9 in"))
    assert "runners=" in refused.value.remedy


@given(st.integers(160, 600))
def test_a_slide_never_is_longer_than_its_room(sixteenths: int) -> None:
    room = L(Fraction(sixteenths, 16), "in")
    assert slide_for(room) <= room


def test_the_sides_run_from_front_to_back_and_the_rest_stands_between() -> None:
    one, other = BOX.sides
    assert (one.left, one.right, other.left, other.right) == tuple(
        L(at, "in") for at in ("1 1/4", "1 3/4", "22 1/4", "22 3/4")
    )
    assert (one.front, one.back) == (BOX.box.front, BOX.box.back)
    for inner in (BOX.front, BOX.back):
        assert (inner.left, inner.right) == (one.right, other.left)


def test_the_bottom_lies_in_its_grooves_and_slides_in_under_the_back() -> None:
    # groove 1/4 deep in 1/2 stock, 1/2 above the lower edge: 3 + 1/2 = 3 1/2
    floor = BOX.floor
    assert BOX.groove == L("1/4 in")
    assert (floor.bottom, floor.top) == (L("3 1/2 in"), L("3 3/4 in"))
    assert (floor.left, floor.right) == (L("1 1/2 in"), L("22 1/2 in"))  # 1 3/4 − 1/4 and 22 1/4 + 1/4
    assert (floor.front, floor.back) == (L("1 in"), L("16 3/4 in"))  # 3/4 + 1/2 − 1/4; flush with the back
    assert BOX.back.bottom == floor.top


@given(st.integers(4, 24))
def test_a_groove_is_never_deeper_than_half_of_the_side(sixteenths: int) -> None:
    thick = L(Fraction(sixteenths, 16), "in")
    assert replace(BOX, thick=thick).groove * 2 <= thick


def test_trap_8_the_groove_is_as_wide_as_the_measured_panel() -> None:
    # sold as 1/4, measured 7/32: the groove is cut to what it measures
    measured = replace(BOX, bottom=L("7/32 in"))
    assert measured.floor.extent("z") == L("7/32 in")
    assert measured.back.bottom == L("3 in") + L("1/2 in") + L("7/32 in")


def test_a_box_with_nothing_inside_is_refused() -> None:
    with pytest.raises(PlanError, match="nothing is left inside it, up and down"):
        replace(BOX, box=box("0", "20", "0", "16", "3", "3 3/4")).refuse_too_small("Drawer")


def test_the_room_ends_at_the_case_or_at_what_stands_behind() -> None:
    back = Part("back", "Back", "panel", HALF, box("0", "24", "17", "17 1/2", "0", "24"), "x", "y")
    rail = replace(back, id="rail", box=box("0", "24", "10", "11", "20", "22"))  # above it: not in the way
    start = L("3/4 in")
    assert room_behind(start, BOX.box, (LEFT, RIGHT), (rail,)) == L("17 1/4 in")  # 18 − 3/4
    assert room_behind(start, BOX.box, (LEFT, RIGHT), (rail, back)) == L("16 1/4 in")  # 17 − 3/4


def test_the_room_of_a_drawer_that_comes_out_at_the_back() -> None:
    front = Part("front", "Front", "panel", HALF, box("0", "24", "1", "1 1/2", "0", "24"), "x", "y")
    assert room_behind(L("18 in"), BOX.box, (LEFT, RIGHT), (), "back") == L("18 in")
    assert room_behind(L("18 in"), BOX.box, (LEFT, RIGHT), (front,), "back") == L("16 1/2 in")


def test_slides_fill_the_gap_beside_the_drawer() -> None:
    made = slides(SIDES, (LEFT, RIGHT), "front", Slide(L("16 in")))
    left, right = (item.box for item in made.items)
    assert (left.left, left.right) == (L("3/4 in"), L("1 1/4 in"))
    assert (right.left, right.right) == (L("22 3/4 in"), L("23 1/4 in"))
    assert (left.front, left.back) == (L("3/4 in"), L("16 3/4 in"))
    assert left.bottom + left.top == L("12 in")  # about the middle of the side, (3 + 9) / 2 = 6
    assert all(item.kind == "slide" and "check against your slide" in item.compare for item in made.items)


def test_six_screws_hold_a_slide_and_none_comes_through() -> None:
    made = slides(SIDES, (LEFT, RIGHT), "front", Slide(L("16 in")))
    parts = {part.id: part for part in (*SIDES, LEFT, RIGHT)}
    for item in made.items:
        assert len(item.fasteners) == 6
        for screw in item.fasteners:
            wood = parts[screw.through]
            assert wood.box.left < screw.tip.x < wood.box.right
    bored = dict(made.bored)
    assert {name: len(holes) for name, holes in bored.items()} == {"one": 3, "two": 3, "left": 3, "right": 3}
    assert all(isinstance(hole, Bore) for holes in bored.values() for hole in holes)


def test_the_screws_of_two_drawers_do_not_meet_in_the_divider_between_them() -> None:
    """Two drawers either side of a 3/4 in divider, at the same height: 2 × 7/16 in would be more than it is thick."""
    beside = tuple(replace(side, box=side.box.moved("x", L("23 1/4 in")), id=f"{side.id}-b") for side in SIDES)
    first = slides(SIDES, (LEFT, RIGHT), "front", Slide(L("16 in")))
    second = slides(beside, (RIGHT, upright("end", "46 1/2")), "front", Slide(L("16 in")), first.items)
    in_divider = [
        screw for item in (*first.items, *second.items) for screw in item.fasteners if screw.through == "right"
    ]
    places = [screw.head.y.mm for screw in in_divider]
    assert len(places) == len(set(places)) == 6


def test_a_drawer_alone_is_bored_alike_on_both_sides() -> None:
    made = slides(SIDES, (LEFT, RIGHT), "front", Slide(L("16 in")))
    depths = [[screw.head.y for screw in item.fasteners] for item in made.items]
    assert depths[0] == depths[1]


@pytest.mark.parametrize("out", ["front", "back"])
def test_a_slide_starts_at_the_face_its_drawer_comes_out_of(out: Face) -> None:
    made = slides(SIDES, (LEFT, RIGHT), out, Slide(L("12 in")))
    side = SIDES[0].box
    for item in made.items:
        assert item.box.face(out) == side.face(out)
        assert item.box.extent("y") == L("12 in")


def test_sides_named_the_wrong_way_round_are_refused() -> None:
    with pytest.raises(PlanError, match="no slide goes between them"):
        slides(SIDES, (RIGHT, LEFT), "front", Slide(L("16 in")))


@given(st.integers(1, 4), st.integers(10, 28))
def test_a_drawer_comes_out_by_a_share_of_its_slide(quarters: int, inches: int) -> None:
    slide = Slide(L(inches, "in"), opens=Fraction(quarters, 4))
    assert slide.travel == L(Fraction(inches * quarters, 4), "in")


def whole(parts: tuple[Box, ...]) -> Length:
    return sum((part.extent("x") for part in parts), Length.zero())


def test_sides_and_front_add_up_to_the_box() -> None:
    assert whole((*BOX.sides, BOX.front)) == BOX.box.extent("x")
