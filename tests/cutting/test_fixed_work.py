"""The fixed work of a job ends by itself: what it may try is weighed beforehand, never timed."""

from fractions import Fraction

import pytest

from plankit.cutting import Job, Piece, Result, StockKind, cut, search_sheets
from plankit.cutting.labour import FIXED, labour
from plankit.cutting.solver import Offer, Work
from plankit.cutting.whole_job import Group

KINDS = [("full", 2440, 1220, 60), ("half", 1220, 1220, 35), ("long", 2440, 610, 34), ("quarter", 1220, 610, 19)]


def large_job() -> Job:
    """57 pieces of 19 sizes on four kinds of sheet, in two stages of cuts: an invented job that took long."""
    stock = tuple(StockKind(name, Fraction(a), Fraction(b), None, Fraction(price)) for name, a, b, price in KINDS)
    pieces = tuple(
        Piece(f"p{n}", Fraction(120 + 97 * n % 780), Fraction(60 + 61 * n % 500), 3, n % 2 == 0) for n in range(19)
    )
    return Job(stock, pieces, Fraction(3), "mm", 2)


@pytest.fixture
def tried(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """What each try weighed that was really made."""
    weights: list[int] = []
    fill = search_sheets.fill_sheets

    def weighed(group: Group, offers: tuple[Offer, ...], work: Work) -> object:
        weights.append(labour(group, offers, work))
        return fill(group, offers, work)

    monkeypatch.setattr(search_sheets, "fill_sheets", weighed)
    return weights


def test_a_large_job_is_tried_no_more_than_the_fixed_work_allows(tried: list[int]) -> None:
    found = cut(large_job())
    assert found.complete
    assert 0 < sum(tried) <= FIXED


def test_the_same_job_is_tried_in_the_same_way_again(tried: list[int]) -> None:
    first: Result = cut(large_job())
    once = list(tried)
    assert cut(large_job()) == first
    assert tried == once * 2


def test_a_small_job_is_tried_in_every_way(tried: list[int]) -> None:
    """Seven pieces on one kind of sheet weigh little, whatever is tried."""
    pieces = tuple(Piece(f"p{n}", Fraction(500 + 90 * n), Fraction(400 + 50 * n), 1, True) for n in range(7))
    stock = (StockKind("sheet", Fraction(1500), Fraction(1250)),)
    found = cut(Job(stock, pieces, Fraction(3), "mm"))
    assert found.proven or len(tried) >= 5
    assert sum(tried) <= FIXED
