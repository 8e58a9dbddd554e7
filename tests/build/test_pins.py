"""Shelf pins: rows 32 mm apart, level on every side, and pins under a shelf."""

import itertools
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build.pins import METRIC_PIN, PITCH, PinRows, facing, pin_holes, row_heights, shelf_pins
from plankit.errors import PlanError
from plankit.parts import Part, mirror_shape, shape
from plankit.reference import practice
from plankit.units import L, Length
from tests.build.hung import FLOOR, OTHER, SIDE
from tests.parts.one_of_each import PLY, box

ROWS = PinRows(
    row_heights(L("6 in"), L("30 in")), (L("37 mm"), L("14 in") - L("37 mm")), "y", METRIC_PIN, L("3/8 in")
)
DIVIDER = Part("divider", "Divider", "panel", PLY, box("14 5/8", "15 3/8", "0", "14", "3/4", "36"), "z", "x")
SHELF = Part("shelf", "Shelf", "panel", PLY, box("13/16", "29 3/16", "0", "14", "10", "10 3/4"), "x", "z")


def test_the_grid_is_that_of_the_trade() -> None:
    assert practice("system-hole spacing").sizes == (PITCH,)
    assert practice("system-hole diameter").sizes == (METRIC_PIN,)


def test_rows_stand_32_mm_apart_from_the_lowest_up() -> None:
    # 24 in = 609.6 mm: 19 gaps of 32 mm make 608, so 20 rows
    assert len(ROWS.heights) == 20
    assert ROWS.heights[0] == L("6 in")
    assert ROWS.heights[-1] == L("6 in") + L("608 mm")


@given(low=st.integers(0, 600), high=st.integers(0, 2000), pitch=st.integers(10, 64))
def test_no_row_passes_the_highest_and_one_more_would(low: int, high: int, pitch: int) -> None:
    lowest, highest, step = Length.of_mm(low), Length.of_mm(low + high), Length.of_mm(pitch)
    rows = row_heights(lowest, highest, step)
    assert rows[-1] <= highest < rows[-1] + step
    assert {(b - a).mm for a, b in itertools.pairwise(rows)} <= {Fraction(pitch)}


def test_rows_that_end_below_their_start_are_refused() -> None:
    with pytest.raises(PlanError, match="no room for a row"):
        row_heights(L("6 in"), L("5 in"))


def test_holes_lie_37_mm_in_from_both_edges_column_by_column() -> None:
    holes = pin_holes(SIDE, "right", ROWS)
    assert len(holes) == 2 * 20
    assert [hole.at[1].mm for hole in holes[:20]] == [37] * 20
    assert {hole.at[1].mm for hole in holes[20:]} == {14 * Fraction("25.4") - 37}
    assert {(hole.face, hole.diameter, hole.depth, hole.use) for hole in holes} == {
        ("right", L("5 mm"), L("3/8 in"), "shelf pin")
    }


def test_two_sides_with_rows_alike_are_mirror_images_of_one_part() -> None:
    left = SIDE.with_features(pin_holes(SIDE, "right", ROWS))
    right = OTHER.with_features(pin_holes(OTHER, "left", ROWS))
    assert shape(right) == mirror_shape(left)


def test_a_divider_is_bored_on_both_faces() -> None:
    assert [(part.id, face) for part, face in facing([OTHER, DIVIDER, SIDE])] == [
        ("side", "right"), ("divider", "left"), ("divider", "right"), ("side-2", "left"),
    ]  # fmt: skip


@pytest.mark.parametrize("sides", [[SIDE], [SIDE, FLOOR]])
def test_sides_that_do_not_face_each_other_are_refused(sides: list[Part]) -> None:
    with pytest.raises(PlanError):
        facing(sides)


def test_four_pins_carry_a_shelf_between_two_sides() -> None:
    height = ROWS.heights[3]
    pins = shelf_pins(SHELF, facing([SIDE, OTHER]), ROWS, height)
    assert [pin.on for pin in pins] == [("side", "shelf")] * 2 + [("side-2", "shelf")] * 2
    # a 5 mm pin carries the shelf half its width above the middle of the row; it stands 5/16 in out of the side
    assert {pin.box.top for pin in pins} == {height + L("2.5 mm")}
    assert (pins[0].box.left, pins[0].box.right) == (L("3/4 in"), L("1 1/16 in"))
    assert (pins[2].box.left, pins[2].box.right) == (L("28 15/16 in"), L("29 1/4 in"))
