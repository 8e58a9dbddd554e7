"""Cutting by the clock: it tells how it goes, and Ctrl-C ends it with the best answer so far."""

import signal
from fractions import Fraction

import pytest

from plankit.cutting import Job, Piece, Result, StockKind, Watch, cut, search_sheets, verify
from tests.cutting.jobs import board, job, sheet


class Heard(Watch):
    """Writes down what it hears, and presses Ctrl-C at the first answer to a group."""

    def __init__(self, *, stops_in: int = 0) -> None:
        self.groups: list[tuple[int, int]] = []
        self.answers: list[tuple[int, int | None]] = []
        self.stops = 0
        self._stops_in = stops_in

    def begin(self, group: int, groups: int) -> None:
        self.groups.append((group, groups))

    def better(self, used: int, least: int | None) -> None:
        self.answers.append((used, least))
        if self.groups[-1][0] == self._stops_in:
            self._stops_in = 0
            signal.raise_signal(signal.SIGINT)

    def stopped(self) -> None:
        self.stops += 1


def hard_job() -> Job:
    """60 invented pieces that fill their sheets well but not wholly, and lengths off a board."""
    flat = [Piece(f"p{n}", Fraction(210 + 61 * n % 470), Fraction(150 + 47 * n % 330), 1) for n in range(60)]
    rails = [Piece(f"r{n}", Fraction(300 + 131 * n % 700), None, 2) for n in range(12)]
    stock = (StockKind("sheet", Fraction(1000), Fraction(800)), StockKind("board", Fraction(2000)))
    return Job(stock, (*flat, *rails), Fraction(3), "mm")


def check(asked: Job, found: Result) -> None:
    assert verify(asked, found.layouts, found.missing) == ()
    assert found.complete
    assert found.troubles == ()
    assert not found.repeatable


@pytest.mark.parametrize("group", [1, 2])
def test_stopped_in_a_group_the_best_answers_so_far_are_given(group: int) -> None:
    asked, heard = hard_job(), Heard(stops_in=group)
    found = cut(asked, 3600, heard) if group == 1 else cut(asked, 1, heard)
    check(asked, found)
    assert heard.stops == 1
    assert heard.groups == [(1, 2), (2, 2)]


def test_it_tells_of_every_better_answer_and_of_how_few_would_do() -> None:
    """Four pieces of 50 × 50 and two of 40 × 50 on sheets of 100 × 100: 14 000 of 10 000 a sheet, so two."""
    heard = Heard()
    found = cut(job([sheet(100, 100)], [("a", 50, 50, 4), ("b", 40, 50, 2)]), 5, heard)
    assert found.proven
    assert heard.answers[-1] == (2, 2)
    assert heard.stops == 0


def test_without_a_clock_ctrl_c_means_what_it_always_means() -> None:
    with pytest.raises(KeyboardInterrupt):
        cut(hard_job(), None, Heard(stops_in=1))


def test_stopped_before_there_is_any_answer_there_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("plankit.cutting.search.first_fit", stop)
    with pytest.raises(KeyboardInterrupt):
        cut(job([board(100)], [("a", 30, 0, 2)]), 5)


def test_what_stock_on_hand_does_not_hold_is_still_named_when_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    """One sheet of 100 × 100 and three of 60 × 60: two are left over, and the answer says so."""

    def stop(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(search_sheets, "fill_short", stop)
    found = cut(job([sheet(100, 100, available=1)], [("a", 60, 60, 3)]), 5)
    assert found.missing == (("a", 2),)
    assert not found.complete
