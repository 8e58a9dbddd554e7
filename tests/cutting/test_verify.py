"""The verifier finds each thing that can be wrong with a layout, one at a time."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from plankit.cutting import Layout, Offcut, Placed, cut, verify
from plankit.cutting.job import Job
from tests.cutting.jobs import job, sheet

ASKED = job([sheet(100, 50, available=1, trim_ends=Fraction(1), trim_edges=Fraction(1))],
            [("side", 40, 20, 2), ("shelf", 30, 15, 1, True)], kerf=2)  # fmt: skip


def words(asked: Job, layouts: list[Layout]) -> str:
    return " / ".join(f"{one.part}: {one.what}" for one in verify(asked, layouts))


def moved(layout: Layout, place: int, **change: object) -> Layout:
    pieces = list(layout.pieces)
    pieces[place] = replace(pieces[place], **change)
    return replace(layout, pieces=tuple(pieces))


def test_a_good_layout_passes() -> None:
    assert verify(ASKED, cut(ASKED).layouts) == ()


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda one: replace(one, pieces=one.pieces[1:]), "are wanted"),
        (lambda one: replace(one, pieces=(*one.pieces, one.pieces[0])), "no whole kerf"),
        (lambda one: replace(one, copies=2), "are available"),
        (lambda one: replace(one, copies=0), "has no copies"),
        (lambda one: replace(one, kind=replace(one.kind, length=Fraction(101))), "not as the job has it"),
        (lambda one: moved(one, 0, x=Fraction(0)), "inside the stock's trim"),
        (lambda one: moved(one, 0, x=Fraction(-50)), "inside the stock's trim"),
        (lambda one: moved(one, 0, y=Fraction(48)), "inside the stock's trim"),
        (lambda one: moved(one, 1, x=one.pieces[0].x, y=one.pieces[0].y), "no whole kerf"),
        (lambda one: moved(one, 0, length=Fraction(39)), "another size"),
        (lambda one: moved(one, 0, part="door"), "no such part"),
        (lambda one: moved(one, 0, turned=True, length=one.pieces[0].width, width=one.pieces[0].length), "grain"),
        (lambda one: replace(one, offcuts=(Offcut(Fraction(1), Fraction(1), Fraction(30), Fraction(30)),)), "kerf"),
        (lambda one: replace(one, offcuts=(Offcut(Fraction(60), Fraction(1), Fraction(40), Fraction(9)),)), "trim"),
    ],
)  # fmt: skip
def test_each_wrong_is_found(spoil: Callable[[Layout], Layout], said: str) -> None:
    (good,) = cut(ASKED).layouts
    assert said in words(ASKED, [spoil(good)])


def test_a_kerf_short_by_a_hair_is_found() -> None:
    asked = job([sheet(100, 50)], [("half", 49, 50, 2)], kerf=2)
    (good,) = cut(asked).layouts
    assert verify(asked, [good]) == ()
    assert "no whole kerf" in words(asked, [moved(good, 1, x=good.pieces[1].x - Fraction(1, 1000))])
    assert "no whole kerf" in words(replace(asked, kerf=Fraction(2001, 1000)), [good])


def placed(name: str, x: int, y: int, length: int, width: int, *, turned: bool = False) -> Placed:
    return Placed(name, Fraction(x), Fraction(y), Fraction(length), Fraction(width), turned)


def laid(asked: Job, *pieces: Placed, offcuts: tuple[Offcut, ...] = ()) -> list[Layout]:
    return [Layout(asked.stock[0], 1, pieces, offcuts, (), 0)]


def test_a_pinwheel_cannot_be_cut_edge_to_edge() -> None:
    asked = job([sheet(5, 5)], [("blade", 3, 2, 4, True), ("middle", 1, 1, 1)])
    wheel = laid(
        asked, placed("blade", 0, 0, 3, 2), placed("blade", 3, 0, 2, 3, turned=True), placed("blade", 2, 3, 3, 2),
        placed("blade", 0, 2, 2, 3, turned=True), placed("middle", 2, 2, 1, 1),
    )  # fmt: skip
    assert "edge to edge" in words(asked, wheel)


def three_stages(stages: int | None) -> tuple[Job, list[Layout]]:
    asked = job([sheet(100, 50)], [("a", 60, 50, 1), ("b", 40, 30, 1), ("c", 20, 20, 2)], stages=stages)
    return asked, laid(asked, placed("a", 0, 0, 60, 50), placed("b", 60, 0, 40, 30), placed("c", 60, 30, 20, 20),
                       placed("c", 80, 30, 20, 20))  # fmt: skip


@pytest.mark.parametrize(("stages", "good"), [(None, True), (4, True), (3, True), (2, False), (1, False)])
def test_stages_are_counted(stages: int | None, good: bool) -> None:
    asked, layouts = three_stages(stages)
    assert (verify(asked, layouts) == ()) == good


def test_one_trimming_cut_frees_a_piece_but_not_two() -> None:
    asked = job([sheet(100, 50)], [("a", 60, 50, 1), ("b", 40, 30, 1)], stages=1)
    assert verify(asked, laid(asked, placed("a", 0, 0, 60, 50), placed("b", 60, 0, 40, 30))) == ()
    # in the middle of its strip it would need two trimming cuts
    assert "edge to edge" in words(asked, laid(asked, placed("a", 0, 0, 60, 50), placed("b", 60, 10, 40, 30)))


def test_an_offcut_kept_may_not_stand_in_the_way_of_a_cut() -> None:
    asked = job([sheet(100, 50)], [("a", 50, 25, 2)], kerf=0)
    good = [placed("a", 0, 0, 50, 25), placed("a", 0, 25, 50, 25)]
    beside = Offcut(Fraction(50), Fraction(0), Fraction(50), Fraction(50))
    assert verify(asked, laid(asked, *good, offcuts=(beside,))) == ()
    whirl = job([sheet(5, 5)], [("blade", 3, 2, 4, True)])
    blades = (placed("blade", 0, 0, 3, 2), placed("blade", 3, 0, 2, 3, turned=True), placed("blade", 2, 3, 3, 2),
              placed("blade", 0, 2, 2, 3, turned=True))  # fmt: skip
    middle = (Offcut(Fraction(2), Fraction(2), Fraction(1), Fraction(1)),)
    assert "edge to edge" in words(whirl, laid(whirl, *blades, offcuts=middle))


def test_what_is_missing_must_be_admitted() -> None:
    asked = job([sheet(100, 50, available=1)], [("half", 50, 50, 3)])
    result = cut(asked)
    assert verify(asked, result.layouts, result.missing) == ()
    assert "3 are wanted, 2" in words(asked, list(result.layouts))
    assert verify(asked, result.layouts, [("half", 2)])
