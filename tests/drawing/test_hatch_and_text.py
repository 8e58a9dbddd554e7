"""Hatching stays inside its area; texts are as wide as the font says."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from plankit.drawing.hatch import crossed, hatch, inside
from plankit.drawing.metrics import capital_height, font_file, text_box, text_height, text_width
from plankit.errors import PlanError

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
HOLE = ((10.0, 10.0), (30.0, 10.0), (30.0, 30.0), (10.0, 30.0))


def drawn(lines):
    return sum(math.dist(*line.points) for line in lines)


def test_level_hatching_of_a_square_with_a_hole():
    lines = hatch((SQUARE, HOLE), angle=0, spacing=4)
    # rows at 0, 4 … 36 (40 is the border): 10 rows of 40, less 20 in rows 12, 16, 20, 24, 28
    assert drawn(lines) == pytest.approx(10 * 40 - 5 * 20)
    assert all(line.kind == "hatch" for line in lines)


@given(angle=st.floats(-180, 180), spacing=st.floats(0.5, 10))
def test_hatching_lies_inside_and_covers_evenly(angle, spacing):
    area = shapely.Polygon(SQUARE, [HOLE])
    lines = hatch((SQUARE, HOLE), angle, spacing)
    assert all(area.buffer(1e-6).covers(shapely.LineString(line.points)) for line in lines)
    # lines × spacing is the area, but for a line's share at each border: spacing × the widest run of 57
    assert drawn(lines) * spacing == pytest.approx(area.area, abs=spacing * 4 * 57)


def test_neighbouring_areas_share_one_grid_of_lines():
    left = hatch((((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)),), spacing=3)
    right = hatch((((20.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0)),), spacing=3)
    whole = hatch((((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)),), spacing=3)
    assert drawn(left) + drawn(right) == pytest.approx(drawn(whole), abs=0.2)


def test_waste_is_crossed_corner_to_corner():
    lines = crossed((SQUARE,))
    assert drawn(lines) == pytest.approx(2 * math.hypot(40, 40))
    assert len(crossed((SQUARE, HOLE))) == 4  # the cross stops at the hole and goes on behind it


def test_a_line_outside_an_area_leaves_nothing():
    assert list(inside((SQUARE,), (50, 0), (50, 40))) == []


def test_hatching_needs_spacing():
    with pytest.raises(PlanError, match="room"):
        hatch((SQUARE,), spacing=0)


def test_texts_are_as_wide_as_the_font_says():
    from fontTools.ttLib import TTFont

    with TTFont(font_file()) as font:
        advance = font["hmtx"][font.getBestCmap()[ord("8")]][0] / font["head"].unitsPerEm
    assert text_width("8", 72) == pytest.approx(advance * 25.4)  # 72 pt are an inch
    assert text_width("88", 10) == pytest.approx(2 * text_width("8", 10))
    assert text_width("Bench", 8, bold=True) > text_width("Bench", 8)


def test_every_sign_a_plan_prints_is_in_the_font():
    from plankit.drawing.metrics import face

    assert [sign for sign in "0123456789/×≈−–°′″½¼¾()“”’…·" if sign not in face().widths] == []


@pytest.mark.parametrize(("anchor", "share"), [("start", 0), ("middle", 0.5), ("end", 1)])
def test_a_text_stands_on_its_baseline_at_its_anchor(anchor, share):
    left, top, right, bottom = text_box("Shelf", 9, anchor)
    assert right - left == pytest.approx(text_width("Shelf", 9))
    assert left == pytest.approx(-share * text_width("Shelf", 9))
    assert bottom - top == pytest.approx(text_height(9))
    assert top < -capital_height(9) < 0 < bottom
