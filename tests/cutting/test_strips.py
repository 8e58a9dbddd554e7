from fractions import Fraction

import pytest

from plankit.cutting import Piece, cut
from plankit.cutting.job import Job
from plankit.errors import AskedWrongly, PlanError
from tests.cutting.jobs import board, sheet


def fronts(*pieces: tuple[str, int, int, int], kerf: int = 1, more: tuple[Piece, ...] = (), turns: bool = False) -> Job:
    made = tuple(
        Piece(name, Fraction(a), Fraction(b) if b else None, count, turns, strip="fronts")
        for name, a, b, count in pieces
    )
    stock = [sheet(100, 50), board(100)]
    return Job(tuple(stock), (*made, *more), Fraction(kerf), "mm", None, Fraction(20), Fraction(10))


def test_fronts_of_one_strip_lie_side_by_side_along_the_grain_in_the_order_named() -> None:
    filler = Piece("side", Fraction(60), Fraction(30), 1)
    result = cut(fronts(("left", 20, 12, 1), ("middle", 30, 12, 1), ("right", 20, 12, 1), more=(filler,)))
    placed = {p.part: (p.x, p.y, p.length) for one in result.layouts for p in one.pieces}
    x, y, _ = placed["left"]
    assert placed["middle"] == (x + 21, y, 30)  # 20 and a kerf of 1
    assert placed["right"] == (x + 52, y, 20)  # 20 + 1 + 30 + 1
    assert result.troubles == ()


def test_equal_doors_of_one_strip_are_crosscut_with_one_setting() -> None:
    (layout,) = cut(fronts(("door", 30, 20, 3))).layouts
    doors = [made for made in layout.cuts if made.frees == "door"]
    assert len({made.group for made in doors}) == 1
    assert {made.kind for made in doors} == {"crosscut"}
    assert len({p.y for p in layout.pieces}) == 1


def test_a_strip_may_lie_across_where_its_pieces_have_no_grain() -> None:
    (layout,) = cut(fronts(("a", 15, 60, 2), turns=True)).layouts  # two of 15 and a kerf make 31 × 60
    assert len(layout.pieces) == 2
    a, b = layout.pieces
    assert {abs(a.x - b.x), abs(a.y - b.y)} == {0, 16}


def test_a_pair_cut_from_one_board_matches_in_colour() -> None:
    others = tuple(Piece(f"o{n}", Fraction(58), None, 1) for n in range(2))
    result = cut(fronts(("left leg", 40, 0, 1), ("right leg", 40, 0, 1), more=others))
    homes = [n for n, one in enumerate(result.layouts) for p in one.pieces if p.part.endswith("leg")]
    # first fit by length alone would put a leg beside each 58: 58 + 1 + 40 = 99
    assert len(homes) == 2
    assert len(set(homes)) == 1


def test_a_strip_that_fits_no_stock_is_named() -> None:
    with pytest.raises(PlanError, match="strip fronts"):
        cut(fronts(("a", 40, 12, 3)))  # 3 × 40 + 2 > 100


def test_what_cannot_be_one_strip_is_refused() -> None:
    with pytest.raises(AskedWrongly, match="differ in width"):
        cut(fronts(("a", 20, 12, 1), ("b", 20, 13, 1)))


def test_a_part_may_be_called_as_a_strip_is() -> None:
    part = Piece("strip fronts", Fraction(10), Fraction(5), 1)
    result = cut(fronts(("x", 20, 8, 2), more=(part,)))
    assert sorted(p.part for one in result.layouts for p in one.pieces) == ["strip fronts", "x", "x"]
