"""Stock of several kinds: what is said not to suffice, against all packings counted out by other means."""

from collections import Counter
from fractions import Fraction
from itertools import product

import highspy
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.cutting import Job, Piece, StockKind, cut
from plankit.cutting.bounds import demands
from plankit.cutting.completing import Completing
from plankit.cutting.covering import Pool
from plankit.cutting.kinds_bound import KindsBound
from plankit.cutting.numbers import Cheaper
from plankit.cutting.purse import Purse
from plankit.cutting.sheet_bound import SheetBound
from plankit.cutting.together import Together
from plankit.cutting.whole_job import Group, groups
from tests.cutting.jobs import board, job, sheet

SOME = settings(deadline=None, max_examples=40)


def boards_of(sizes: list[int]) -> Group:
    """Boards of 30 and of 50, and pieces of those lengths."""
    pieces = tuple(Piece(f"p{size}", Fraction(size), None, number) for size, number in sorted(Counter(sizes).items()))
    stock = (StockKind("short", Fraction(30)), StockKind("long", Fraction(50)))
    return groups(Job(stock, pieces, Fraction(0), "mm"))[0]


def go_on(sizes: list[int], rooms: list[int]) -> bool:
    """Whether pieces go on boards of such lengths, piece by piece on every board: slow, and plain."""
    if not sizes:
        return True
    first, *rest = sizes
    return any(
        room >= first and go_on(rest, [*rooms[:n], room - first, *rooms[n + 1 :]]) for n, room in enumerate(rooms)
    )


@SOME
@given(st.lists(st.integers(4, 30), min_size=1, max_size=8), st.integers(0, 3), st.integers(0, 3))
def test_boards_are_completed_just_where_pieces_go_on_them(sizes: list[int], short: int, long: int) -> None:
    group = boards_of(sizes)
    numbers = tuple(short if room.name == "short" else long for room in group.rooms)
    pack, sure = Completing(group, Purse(10**6)).fill(numbers)
    assert sure
    assert (pack is not None) == go_on(sorted(sizes, reverse=True), [30] * short + [50] * long)
    if pack is not None:
        assert not any(pack.missing(group))
        assert all(used <= number for used, number in zip(pack.used(group), numbers, strict=True))
        for one in pack.sheets:
            assert sum(spot.along for spot in one.spots) <= group.rooms[one.kind].along


def test_a_search_cut_short_says_nothing() -> None:
    group = boards_of([17, 16, 15, 14, 13, 12, 11, 10, 9, 8])
    assert Completing(group, Purse(3)).fill((2, 2)) == (None, False)


@SOME
@given(
    st.lists(st.tuples(st.integers(2, 10), st.integers(2, 10), st.booleans()), min_size=1, max_size=5),
    st.tuples(st.integers(0, 2), st.integers(0, 2)),
)
def test_sheets_said_not_to_suffice_do_not(sizes: list[tuple[int, int, bool]], numbers: tuple[int, int]) -> None:
    """Each piece on each sheet in turn; what goes on one sheet is worked out by `Together`, which has its own test."""
    pieces = tuple(Piece(f"p{n}", Fraction(a), Fraction(b), 1, turns) for n, (a, b, turns) in enumerate(sizes))
    stock = (StockKind("large", Fraction(10), Fraction(10)), StockKind("small", Fraction(10), Fraction(6)))
    group = groups(Job(stock, pieces, Fraction(0), "mm"))[0]
    numbers = numbers[: len(group.rooms)]
    together = [Together(room, group.wants) for room in group.rooms]
    rooms = [n for n, number in enumerate(numbers) for _ in range(number)]
    suffice = False
    for where in product(range(len(rooms)), repeat=len(sizes)):
        held = [tuple(n for n, at in enumerate(where) if at == r) for r in range(len(rooms))]
        suffice |= all(not mine or together[kind].corners(mine) for kind, mine in zip(rooms, held, strict=True))
    refused = KindsBound(group, Pool(group)).refuses(numbers, Purse(10**6))
    assert not (refused and suffice)


def test_two_large_pieces_do_not_go_on_one_sheet_of_twice_their_area() -> None:
    """Two of 60 × 60 fill 7200 of 100 × 80 = 8000, and lie neither side by side (120) nor one above the other."""
    asked = job([sheet(100, 80, price=Fraction(9)), sheet(60, 60, name="square", price=Fraction(6))],
                [("table", 60, 60, 2)])  # fmt: skip
    group = groups(asked)[0]
    bound = KindsBound(group, Pool(group))
    assert bound.refuses((1, 0), Purse(10**6))
    assert bound.refuses((0, 1), Purse(10**6))
    assert not bound.refuses((1, 1), Purse(10**6))
    found = cut(asked)
    assert (found.cost, found.proven) == (12, True)


def test_a_proof_does_not_suffer_from_other_programs_that_ran_before() -> None:
    """HiGHS keeps the threads of whoever asked it first; with several, it would not solve ours that asks for one."""
    highspy.Highs.resetGlobalScheduler(True)
    other = highspy.Highs()
    other.silent()
    other.setOptionValue("threads", 2)
    wanted = other.addVariable(lb=0, obj=1)
    other.addConstr(wanted >= 3)
    other.minimize()
    assert other.getObjectiveValue() == 3
    group = groups(job([sheet(9, 9)], [("square", 5, 5, 5)]))[0]
    assert SheetBound(group, Pool(group)).needs(5, Purse(10**5))


def test_all_cheaper_numbers_are_listed() -> None:
    """Boards of 30 for 3 and 50 for 4, 100 wanted, less than 10: 2 × 50 (8), and nothing else is 100 long."""
    stock = [board(30, "short", price=Fraction(3)), board(50, "long", price=Fraction(4))]
    group = groups(job(stock, [("rail", 25, 0, 4)]))[0]
    names = [room.name for room in group.rooms]
    cheaper = Cheaper(group, demands(group, sharp=False), Fraction(10))
    assert [dict(zip(names, used, strict=True)) for used in cheaper.listed] == [{"short": 0, "long": 2}]
    assert cheaper.least() == 8
    cheaper.refuse(cheaper.listed[0])
    assert cheaper.least() == 10


def test_boards_of_two_lengths_are_proven_where_a_price_per_length_says_less() -> None:
    """Five of 61: no two on 96 or on 120, so a board each, 5 × 3 = 15; by the cheapest length alone 305 / 32 = 9.53."""
    stock = [board(96, "eight", price=Fraction(3)), board(120, "ten", price=Fraction(4))]
    found = cut(job(stock, [("leg", 61, 0, 5)]))
    assert (found.cost, found.proven) == (15, True)
    shorter = cut(job(stock, [("leg", 60, 0, 5)]))  # two on each of two tens, one on an eight: 4 + 4 + 3
    assert (shorter.cost, shorter.proven) == (11, True)
