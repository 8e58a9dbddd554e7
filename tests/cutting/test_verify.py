"""The verifier finds each thing that can be wrong with a layout, one at a time."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.cutting import Layout, Offcut, Placed, cut, verify
from plankit.cutting.carrying_out import carry_out
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


def test_a_piece_too_many_is_found_even_where_the_answer_admits_it() -> None:
    """Three sides are cut where two are wanted; "minus one missing" does not excuse it."""
    asked = replace(ASKED, pieces=(replace(ASKED.pieces[0], quantity=3), ASKED.pieces[1]))
    laid = cut(asked).layouts
    assert verify(asked, laid) == ()
    said = [one.what for one in verify(ASKED, laid, [("side", -1)])]
    assert said == ["1 more than wanted are cut and called missing"]


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


_PLACED = st.tuples(*(st.integers(-2, 12) for _ in range(2)), st.integers(0, 6), st.integers(1, 6))


@settings(deadline=None, max_examples=150)
@given(st.lists(_PLACED, max_size=9), st.sampled_from([Fraction(0), Fraction(1, 2), Fraction(1), Fraction(2)]))
def test_just_those_pairs_without_a_kerf_between_them_are_found(rows: list[tuple[int, ...]], kerf: Fraction) -> None:
    """Pieces thrown anywhere, some with no extent: each pair that is too near is named, in the order they lie."""
    asked = replace(ASKED, kerf=kerf)
    (good,) = cut(ASKED).layouts
    thrown = tuple(Placed(f"p{n}", *(Fraction(one) for one in row), False) for n, row in enumerate(rows))

    def gap(a: Placed, b: Placed) -> Fraction:
        along = max(a.x - b.x - b.length, b.x - a.x - a.length)
        return max(along, a.y - b.y - (b.width or 0), b.y - a.y - (a.width or 0))

    near = [
        f"{a.part}: there is no whole kerf between it and its neighbour, {b.part}"
        for n, a in enumerate(thrown) for b in thrown[n + 1 :] if gap(a, b) < kerf
    ]  # fmt: skip
    said = words(asked, [replace(good, pieces=thrown, offcuts=())]).split(" / ")
    assert [one for one in said if "kerf" in one] == near


def test_a_thousand_pieces_on_one_sheet_are_checked_and_carried_out() -> None:
    """50 columns of 20 pieces of 10 × 10 with a saw cut of 1: 50 × 11 - 1 by 20 × 11 - 1."""
    asked = job([sheet(549, 219)], [("tile", 10, 10, 1000)], kerf=1)
    found = cut(asked)
    assert (found.count, found.proven) == (1, True)
    (layout,) = found.layouts
    assert verify(asked, [layout]) == carry_out(asked, found.layouts, found.sequence) == ()
    assert "no whole kerf" in words(asked, [moved(layout, 777, x=layout.pieces[777].x + Fraction(1, 9))])
    shifted = [moved(layout, 777, y=layout.pieces[777].y + 1)]
    assert "drawn" in carry_out(asked, shifted, found.sequence)[0].what
