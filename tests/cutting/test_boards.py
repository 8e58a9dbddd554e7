"""Boards against an exact model of another kind, solved by HiGHS: which piece lies on which board, in 0 and 1."""

from fractions import Fraction

import highspy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.cutting import Job, Piece, StockKind, cut
from plankit.cutting.job_file import job_from
from tests.cutting.jobs import board, job


def least_boards(room: int, pieces: list[int], kerf: int) -> int:
    """The least number of boards: sum of (piece + kerf) on a board is at most room + kerf."""
    highs = highspy.Highs()
    highs.silent()
    boards = range(len(pieces))
    used = [highs.addBinary(obj=1) for _ in boards]
    for number, size in enumerate(pieces):
        assert size <= room, number
    lies = [[highs.addBinary() for _ in pieces] for _ in boards]
    for n in range(len(pieces)):
        highs.addConstr(sum(lies[b][n] for b in boards) == 1)
    for b in boards:
        highs.addConstr(
            sum((size + kerf) * lies[b][n] for n, size in enumerate(pieces)) <= (room + kerf) * used[b]
        )
        if b:
            highs.addConstr(used[b] <= used[b - 1])
    highs.minimize()
    return round(highs.getObjectiveValue())


@settings(deadline=None, max_examples=40)
@given(st.lists(st.integers(5, 60), min_size=1, max_size=9), st.integers(0, 4))
def test_no_exact_model_needs_fewer_boards(sizes: list[int], kerf: int) -> None:
    result = cut(job([board(60)], [(f"p{n}", size, 0, 1) for n, size in enumerate(sizes)], kerf=kerf))
    truth = least_boards(60, sizes, kerf)
    assert result.least_count is not None
    assert result.least_count <= truth == result.count
    if result.proven:
        assert result.count == truth


@pytest.mark.parametrize(
    ("sizes", "boards"),
    [
        ([("a", 27, 3), ("b", 26, 3), ("c", 23, 3), ("d", 24, 3)], 5),  # 300 in all; no four are 100
        ([("triplet", 33, 9)], 3),  # 3 × 33 = 99
        ([("long", 51, 4)], 4),  # two would be 102
        ([("a", 50, 2), ("b", 30, 2), ("c", 20, 2)], 2),  # 50 + 30 + 20 = 100, twice
    ],
)
def test_boards_counted_by_hand(sizes: list[tuple[str, int, int]], boards: int) -> None:
    found = cut(job([board(100)], [(name, size, 0, n) for name, size, n in sizes]))
    pieces = [size for _, size, n in sizes for _ in range(n)]
    assert found.count == min(boards, least_boards(100, pieces, 0))


def test_several_lengths_of_board_at_their_prices() -> None:
    stock = [board(96, "8 ft", price=Fraction(8)), board(144, "12 ft", price=Fraction(11))]
    result = cut(job(stock, [("rail", 70, 0, 2), ("post", 45, 0, 2)]))
    # 70 + 70 = 140 on one of 12 ft, 45 + 45 = 90 on one of 8 ft: 19; any other pair costs more
    assert (result.cost, result.proven) == (19, True)


def test_a_board_only_from_the_length_it_names() -> None:
    found = job_from({
        "unit": "in", "kerf": "1/8", "stock": [{"name": "pine", "length": "96"}, {"name": "oak", "length": "96"}],
        "parts": [{"name": "top", "length": "40", "quantity": 3, "from": ["oak"]},
                  {"name": "cleat", "length": "15", "quantity": 1}],
    })  # fmt: skip
    result = cut(found)
    assert dict(result.totals).get("oak", 0) == 2
    assert result.count == 2  # the cleat beside two tops: 40 + 40 + 15 + 2 kerfs = 95 1/4
    assert result.proven


def test_a_thousand_equal_lengths_are_planned_as_one() -> None:
    asked = Job(
        (StockKind("board", Fraction(100)),), (Piece("slat", Fraction(9), None, 1000),), Fraction(1), "mm"
    )
    result = cut(asked)
    assert (result.count, result.proven) == (100, True)  # ten a board: 10 × 9 + 9 × 1 = 99
    assert [layout.copies for layout in result.layouts] == [100]
