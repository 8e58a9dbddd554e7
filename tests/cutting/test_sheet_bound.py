"""What no sheet can hold, against all packings counted out by other means, and bounds against published optima."""

from collections import Counter
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.cutting import Job, Piece, StockKind
from plankit.cutting.board_columns import Boards, dearest
from plankit.cutting.covering import Pool, cover
from plankit.cutting.first_fit import first_fit
from plankit.cutting.placing import placed
from plankit.cutting.pricing import Sheets
from plankit.cutting.purse import Purse
from plankit.cutting.sheet_bound import SheetBound
from plankit.cutting.slicing import shapes_of
from plankit.cutting.together import Few, Together
from plankit.cutting.whole_job import Group, groups
from tests.cutting.test_published import BOTH, job_of

SIZES = st.lists(st.tuples(st.integers(1, 10), st.integers(1, 10), st.booleans()), min_size=1, max_size=6)


def group_of(sizes: list[tuple[int, int, bool]], side: int = 10) -> Group:
    pieces = tuple(Piece(f"p{n}", Fraction(a), Fraction(b), 1, turns) for n, (a, b, turns) in enumerate(sizes))
    return groups(Job((StockKind("sheet", Fraction(side), Fraction(side)),), pieces, Fraction(0), "mm"))[0]


def fits(group: Group, kinds: tuple[int, ...], along: int, across: int) -> bool:
    """Whether pieces can be cut from a room, by trying every first cut at every whole place: slow, and plain."""
    if not kinds:
        return True
    if len(kinds) == 1:
        return any(way.along <= along and way.across <= across for way in group.wants[kinds[0]].ways)
    for number in range(1, len(kinds)):
        for one in combinations(kinds[1:], number - 1):
            mine = (kinds[0], *one)
            other = tuple(kind for kind in kinds if kind not in mine)
            if any(fits(group, mine, x, across) and fits(group, other, along - x, across) for x in range(1, along)):
                return True
            if any(fits(group, mine, along, y) and fits(group, other, along, across - y) for y in range(1, across)):
                return True
    return False


@settings(deadline=None, max_examples=25)
@given(SIZES.filter(lambda sizes: len(sizes) <= 4))
def test_what_goes_together_is_what_some_cuts_free(sizes: list[tuple[int, int, bool]]) -> None:
    group = group_of(sizes)
    room, every = group.rooms[0], range(len(group.wants))
    together, few = Together(room, group.wants), Few(room, group.wants)
    for number in range(1, len(sizes) + 1):
        for kinds in combinations(every, number):
            truth = fits(group, kinds, room.along, room.across)
            assert bool(together.corners(kinds)) == truth
            if number == 3:
                assert few.triples[kinds] == truth
            if number == 4:
                assert few.four(*kinds) == truth
            if truth:
                assert shapes_of(together.spots(kinds))
            if placed(room, group.wants, kinds):
                assert truth


@settings(deadline=None, max_examples=40)
@given(SIZES, st.lists(st.integers(0, 40), min_size=6, max_size=6), st.integers(0, 120))
def test_a_sheet_worth_more_than_the_limit_is_found_if_there_is_one(
    sizes: list[tuple[int, int, bool]], prices: list[int], limit: int
) -> None:
    group = group_of(sizes)
    room, together = group.rooms[0], Together(group.rooms[0], group.wants)
    sets = (kinds for n in range(1, len(sizes) + 1) for kinds in combinations(range(len(sizes)), n))
    best = max(sum(prices[kind] for kind in kinds) for kinds in sets if together.corners(kinds))
    found = Sheets(room, group.wants).above(prices[: len(sizes)], limit, 10**6, 10**6)
    assert found.sure
    assert bool(found.sets) == (best > limit)
    assert all(placing is not None for placing in found.sets.values())


@settings(deadline=None, max_examples=40)
@given(SIZES, st.integers(1, 6))
def test_no_more_sheets_are_ever_called_needed_than_a_cutting_uses(
    sizes: list[tuple[int, int, bool]], number: int
) -> None:
    group = group_of(sizes)
    pool = Pool(group)
    pool.take(first_fit(group))
    proven = SheetBound(group, pool).needs(number, Purse(10**5))
    best = cover(pool, None, 100)
    assert best is not None
    assert not any(best.missing(group))
    assert not proven or number <= sum(sheet.copies for sheet in best.sheets)


@pytest.mark.parametrize("number", range(len(BOTH)), ids=[one["id"] + "rf"[not k["turns"]] for one, k in BOTH])
def test_a_published_optimum_is_never_called_too_few(number: int) -> None:
    """Best known values of the instances' own sources: one sheet more must never be proven."""
    group = groups(job_of(number))[0]
    pool = Pool(group)
    for axis in ("x", "y"):
        pool.take(first_fit(group, axis))  # type: ignore[arg-type]
    assert not SheetBound(group, pool).needs(BOTH[number][1]["best_known"] + 1, Purse(20_000))


def test_a_bound_beyond_area_and_dual_feasible_functions() -> None:
    """Five squares of 5 on sheets of 9: one a sheet, though 5 × 25 = 125 is less than two sheets of 81."""
    group = group_of([(5, 5, True)] * 5, side=9)
    assert SheetBound(group, Pool(group)).needs(5, Purse(10**5))
    assert not SheetBound(group, Pool(group)).needs(6, Purse(10**5))


@settings(deadline=None, max_examples=60)
@given(st.lists(st.tuples(st.integers(1, 30), st.integers(0, 50), st.integers(1, 3)), min_size=1, max_size=6))
def test_the_dearest_board_is_the_dearest(rows: list[tuple[int, int, int]]) -> None:
    room = groups(Job((StockKind("b", Fraction(40)),), (Piece("p", Fraction(1)),), Fraction(0), "mm"))[0].rooms[0]
    sizes, prices, most = [r[0] for r in rows], [r[1] for r in rows], [r[2] for r in rows]
    pieces = [n for n, count in enumerate(most) for _ in range(count)]
    sets = (kinds for k in range(len(pieces) + 1) for kinds in combinations(pieces, k))
    truth = max(sum(prices[n] for n in kinds) for kinds in sets if sum(sizes[n] for n in kinds) <= 40)
    value, kinds = dearest(room.along, sizes, prices, most)
    assert value == truth == sum(prices[n] for n in kinds)
    assert sum(sizes[n] for n in kinds) <= 40


def test_diving_reaches_what_the_program_promises() -> None:
    """Triplets: 20 boards of 1000, each filled by three pieces to the last millimetre (invented, sums by hand)."""
    thirds = [(400 + n, 300 - 2 * n, 300 + n) for n in range(20)]  # 400 + n + 300 - 2n + 300 + n = 1000
    sizes = [size for three in thirds for size in three]
    pieces = tuple(Piece(f"p{n}", Fraction(size)) for n, size in enumerate(sizes))
    group = groups(Job((StockKind("board", Fraction(1000)),), pieces, Fraction(0), "mm"))[0]
    boards = Boards(group)
    assert boards.prove(Purse(10**7)) > 19  # area alone: 60 pieces, 20 000 in all
    found = boards.dive(Purse(10**7), 0, Fraction(20))
    assert found is not None
    assert sum(sheet.copies for sheet in found.sheets) == 20


def test_boards_taken_twice_hold_no_more_than_is_wanted() -> None:
    """Two boards of two 40s and a board of a 60 and a 40 are taken where four 40s are wanted: the fifth is left off."""
    pieces = (Piece("a", Fraction(60), None, 1), Piece("b", Fraction(40), None, 4))
    group = groups(Job((StockKind("board", Fraction(100)),), pieces, Fraction(0), "mm"))[0]
    pack = Boards(group).packed(Counter({(0, (1, 1)): 2, (0, (0, 1)): 1}))
    assert pack.placed() == {0: 1, 1: 4}
    assert not any(pack.missing(group))
