"""Cutting drawings: pieces to scale and labelled, cuts numbered, waste hatched."""

from dataclasses import replace

import pytest
from figure_set import IN, INCH, narrow_board, placed, sheet
from reading import area, filled, of_kind, texts

from plankit.drawing.cutting_picture import CutStroke, CuttingPicture
from plankit.drawing.figures_cutting import cutting_drawing
from plankit.drawing.primitives import Text


def scale_of(figure) -> int:
    return int(texts(figure)[-1].split(".")[0].removeprefix("Scale 1:"))


def test_pieces_have_their_area_at_the_stated_scale():
    figure = cutting_drawing(sheet(), INCH)
    drawn = sorted(area(piece.rings[0]) * scale_of(figure) ** 2 / IN**2 for piece in filled(figure, "part"))
    # a strip 40 × 1 1/2, four sides 12 1/4 × 14 3/4, a bottom 44 × 15
    assert drawn == pytest.approx([60.0, *[180.6875] * 4, 660.0])


def test_pieces_offcuts_and_waste_add_up_to_the_sheet():
    figure = cutting_drawing(sheet(), INCH)
    kept = [*filled(figure, "part"), *filled(figure, "offcut")]
    (waste,) = filled(figure, "waste")
    whole, *holes = (area(ring) for ring in waste.rings)
    assert whole * scale_of(figure) ** 2 / IN**2 == pytest.approx(96 * 48)
    assert sorted(holes) == pytest.approx(sorted(area(piece.rings[0]) for piece in kept))


def test_a_piece_lies_where_it_is_said_with_the_lower_left_corner_as_origin():
    figure = cutting_drawing(sheet(), INCH)
    (waste,) = filled(figure, "waste")
    left, bottom = min(x for x, _ in waste.rings[0]), max(y for _, y in waste.rings[0])
    bottoms = [piece.rings[0] for piece in filled(figure, "part") if area(piece.rings[0]) > 600 * IN**2 / 400]
    corner = min(x for x, _ in bottoms[0]), max(y for _, y in bottoms[0])
    assert corner == pytest.approx((left + 0.25 * IN / 20, bottom - 0.25 * IN / 20))


def test_every_piece_carries_its_label_and_its_size():
    said = texts(cutting_drawing(sheet(), INCH))
    assert said.count("C") == 4
    assert said.count("12 1/4 ×") == said.count("14 3/4") == 4  # too narrow for one line
    assert said.count("B") == said.count("44 × 15") == 1
    assert any("H" in text and "40 × 1 1/2" in text for text in said)
    assert "Offcut 1" in said


def test_pieces_too_small_for_words_get_them_beside_with_a_leader():
    figure = cutting_drawing(narrow_board(), INCH)
    assert sum(1 for text in texts(figure) if text.startswith("F")) == 5
    assert len(of_kind(figure, "leader")) == 5 + 3  # five pieces; rings of three cut numbers


def test_cuts_are_drawn_and_numbered_in_their_order():
    figure = cutting_drawing(sheet(), INCH)
    assert len(of_kind(figure, "cut")) == 4
    assert [text for text in texts(figure) if text in {"1", "2", "3", "4"}] == ["1", "2", "3", "4"]


def test_trimmed_edges_are_chain_lines():
    assert len(of_kind(cutting_drawing(sheet(), INCH), "centre")) == 4
    ends_only = replace(sheet(), trim=(6.0, 6.0, 0.0, 0.0))
    assert len(of_kind(cutting_drawing(ends_only, INCH), "centre")) == 2


def test_stock_size_grain_and_copies_are_stated():
    said = texts(cutting_drawing(sheet(), INCH))
    assert said.count("96") == said.count("48") == said.count("grain") == 1
    assert "3/4 in plywood, 96 × 48 in; cut 2 alike" in said
    assert "grain" not in texts(cutting_drawing(replace(sheet(), grain=False), INCH))


def test_the_four_sides_of_the_stock_are_named_outside_it():
    for picture in (sheet(), narrow_board()):
        figure = cutting_drawing(picture, INCH)
        (waste,) = filled(figure, "waste")
        left, right = min(x for x, _ in waste.rings[0]), max(x for x, _ in waste.rings[0])
        upper, lower = min(y for _, y in waste.rings[0]), max(y for _, y in waste.rings[0])
        named = {item.text: item.at for item in figure.items if isinstance(item, Text)}
        assert named["lower edge"][1] > lower
        assert named["upper edge"][1] < upper
        outside = [named["left end"], named["right end"]]
        assert all(not (left < x < right and upper < y < lower) for x, y in outside)
        assert named["left end"][0] < named["right end"][0]


def test_dashed_lines_are_explained_where_there_are_offcuts():
    assert "Gray: offcut worth keeping" in texts(cutting_drawing(sheet(), INCH))[-1]
    assert "Dashed" not in texts(cutting_drawing(narrow_board(), INCH))[-1]


def test_a_sheet_that_is_all_used_has_no_hatching():
    whole = placed("A", "Panel", 0, 0, 20, 10, "20 × 10")
    full = CuttingPicture(
        "cut-9", "Sheet", "plywood", "20 × 10 in", 20 * IN, 10 * IN, "20", "10", 1, (whole,)
    )
    assert not of_kind(cutting_drawing(full, INCH), "hatch")


def test_words_list_what_comes_out_of_it():
    said = cutting_drawing(sheet(), INCH).description
    assert "4 × C Side, 12 1/4 × 14 3/4" in said
    assert "Kept: Offcut 1, 95 1/2 × 13 3/4" in said
    assert "2 are cut alike" in said


def test_a_wide_board_that_is_ripped_is_drawn_like_a_sheet():
    """A 2x10, 96 in long, 9 1/4 wide: two rails 46 × 4 side by side, ripped from one half; both cuts shown."""
    rails = tuple(placed("R", "Rail", 0.5, y, 46, 4, "46 × 4") for y in (0, 4.125))
    cuts = (
        CutStroke(1, (46.5 * IN, 0), (46.5 * IN, 9.25 * IN)),
        CutStroke(2, (0, 4 * IN), (46.5 * IN, 4 * IN)),
    )
    board = CuttingPicture(
        "cut-3", "Board 2", "2x10 pine", "96 in", 96 * IN, 9.25 * IN, "96", "9 1/4", 1, rails, (), cuts
    )
    figure = cutting_drawing(board, INCH)
    drawn = sorted(area(piece.rings[0]) * scale_of(figure) ** 2 / IN**2 for piece in filled(figure, "part"))
    assert drawn == pytest.approx([46 * 4] * 2)
    across, rip = (line.points for line in of_kind(figure, "cut"))
    assert across[0][0] == pytest.approx(across[1][0])
    assert rip[0][1] == pytest.approx(rip[1][1])
    assert sum(1 for text in texts(figure) if "46 × 4" in text) == 2
    assert {"lower edge", "upper edge"} <= set(texts(figure))


def test_no_ring_touches_the_sizes_of_the_stock():
    # two rips start at the left end, a quarter of an inch apart: there is room for one ring before the width
    long, wide = 96 * IN, 9.25 * IN
    cuts = (
        CutStroke(1, (0.0, wide - 0.25 * IN), (long, wide - 0.25 * IN)),
        CutStroke(2, (0.0, wide - 0.5 * IN), (long / 2, wide - 0.5 * IN)),
    )
    figure = cutting_drawing(replace(narrow_board(), width=wide, pieces=(), offcuts=(), cuts=cuts), INCH)
    rings = [line for line in of_kind(figure, "leader") if len(line.points) > 10]
    dimensions = [*of_kind(figure, "dimension")]
    assert len(rings) == 2
    for ring in rings:
        across, down = zip(*ring.points, strict=True)
        for line in dimensions:
            xs, ys = zip(*line.points, strict=True)
            assert max(xs) < min(across) or min(xs) > max(across) or max(ys) < min(down) or min(ys) > max(down)
