"""An order of cuts is carried out as written; whatever a person could not do is found, one thing at a time."""

import ast
import inspect
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F  # noqa: N817 - many stand in these lines
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from plankit.cutting import carrying_out, held, one_cut
from plankit.cutting.carrying_out import carry_out
from plankit.cutting.job import Job, Piece, StockKind
from plankit.cutting.layout import Cut, Layout
from tests.cutting.orders import (
    GUIDED,
    HAND,
    IN,
    MITER,
    Order,
    all_right,
    cuts,
    inch,
    made_up,
    of_a_board,
    of_a_sheet,
    of_two_sheets,
    placed,
    sheet,
)  # fmt: skip

ROOM = Path(held.__file__).parent


def words(order: Order) -> str:
    return " / ".join(f"{one.place}: {one.part}: {one.what} {one.number}" for one in carry_out(*order))


def with_cut(order: Order, number: int, layout: int = 0, /, **change: object) -> Order:
    job, layouts, sequence = order
    made = list(layouts[layout].cuts)
    made[number - 1] = replace(made[number - 1], **change)
    return job, swapped_in(layouts, layout, cuts=tuple(made)), sequence


def with_layout(order: Order, layout: int = 0, /, **change: object) -> Order:
    return order[0], swapped_in(order[1], layout, **change), order[2]


def with_job(order: Order, **change: object) -> Order:
    return replace(order[0], **change), order[1], order[2]


def with_saw(order: Order, name: str, **change: object) -> Order:
    saws = tuple(replace(saw, **change) if saw.name == name else saw for saw in order[0].saws)
    return with_job(order, saws=saws)


def swapped_in(layouts: tuple[Layout, ...], at: int, **change: object) -> tuple[Layout, ...]:
    return tuple(replace(one, **change) if n == at else one for n, one in enumerate(layouts))


def heavier(order: Order, times: F) -> Order:
    """The same order on stock of another weight, the weights beside its cuts put right."""
    job, layouts, sequence = order
    stock = tuple(replace(kind, mass=(kind.mass or 0) * times) for kind in job.stock)
    kinds = {kind.name: kind for kind in stock}
    layouts = tuple(
        replace(one, kind=kinds[one.stock],
                cuts=tuple(replace(cut, mass=(cut.mass or 0) * times) for cut in one.cuts)) for one in layouts
    )  # fmt: skip
    return replace(job, stock=stock), layouts, sequence


def test_what_carries_out_an_order_knows_nothing_of_what_makes_one() -> None:
    known = {"held", "one_cut", "job", "layout", "saws"}
    for module in (carrying_out, held, one_cut):
        imports = [node for node in ast.walk(ast.parse(inspect.getsource(module))) if isinstance(node, ast.ImportFrom)]
        rooms = [(node.module or "").removeprefix("plankit.cutting.") for node in imports]
        assert {room for room in rooms if "plankit" not in room and (ROOM / f"{room}.py").exists()} <= known
        names = {alias.name for node in imports for alias in node.names}
        assert not names & {"refusal", "layout_of", "tree_of", "Frame"}


# What is right is found right.


@pytest.mark.parametrize("order", all_right(), ids=["sheet", "board", "table saw"])
def test_an_order_a_person_can_carry_out_passes(order: Order) -> None:
    assert carry_out(*order) == ()


def test_a_part_as_large_as_the_stock_needs_no_cut() -> None:
    kind = sheet("ply", 40, 20)
    job = Job((kind,), (Piece("back", inch(40), inch(20)),))
    layout = Layout(kind, 1, (placed("back", "0", "0", "40", "20"),), (), (), 0)
    assert carry_out(job, (layout,), ()) == ()
    assert "never freed" in words((job, (replace(layout, pieces=(placed("back", "0", "0", "39", "20"),)),), ()))


def test_without_saws_named_a_guided_saw_cuts_sheets_and_a_miter_saw_boards_without_limits() -> None:
    assert "there is no miter saw" in words(with_job(of_a_sheet(), saws=()))  # crosscuts of a sheet's strips
    assert carry_out(*with_job(of_a_board(), saws=())) == ()
    assert "there is no table saw" in words(with_job(of_two_sheets(), saws=()))
    kind = sheet("ply", 9, 3)  # 3 in is narrower than a rail's 4 in: no limits where no saw is named
    made = cuts("rip | edge 0 | 1 | s | a b | lath | 1 | 0.27 | bench | guided saw")
    job = Job((kind,), (Piece("lath", inch(9), inch(1)),), F("1/8") * IN)
    layout = Layout(kind, 1, (placed("lath", "0", "0", "9", "1"),), (), made, 1, "s")
    assert "narrow side" not in words((job, (layout,), ((0, 1),)))
    assert carry_out(job, (layout,), ((0, 1),)) == ()


def test_a_board_on_a_sawhorse_may_be_cut_by_hand_where_no_saw_holds_it() -> None:
    order = with_job(of_a_board(), saws=(MITER, HAND))
    assert carry_out(*with_cut(order, 5, tool="handsaw")) == ()


def test_a_finding_says_which_cut_of_which_layout_and_which_part() -> None:
    (one,) = carry_out(*with_cut(of_two_sheets(), 1, 1, support=""))
    assert (one.level, one.check, one.part, one.place) == ("must fix", "order of cuts", "door", "layout 2, cut 1")
    assert one.stops


# Each thing that can be wrong is found, and said.

SHEET, BOARD, TWO = of_a_sheet(), of_a_board(), of_two_sheets()
SEQUENCE = SHEET[2]


@pytest.mark.parametrize(
    ("order", "said"),
    [
        # pieces and their names
        (with_cut(SHEET, 5, of="z"), "cut 5: : there is no z yet"),
        (with_cut(SHEET, 1, of="s1"), "there is no s1 yet"),
        (with_layout(TWO, 2, name="s1a"), "more than one piece is called s1a"),
        (with_cut(SHEET, 6, of="g"), "g is cut in two already"),
        (with_cut(SHEET, 8, of="m"), "m is freed already, as side"),
        (with_cut(SHEET, 6, gives=("k", "b")), "more than one piece is called b"),
        (with_cut(TWO, 1, 1, gives=("s1a", "s2b")), "more than one piece is called s1a"),
        # the sequence
        ((*SHEET[:2], SEQUENCE[:-1]), "layout 1, cut 10: : it is not made just once 0"),
        ((*SHEET[:2], (*SEQUENCE, (0, 3))), "layout 1, cut 3: : it is not made just once 2"),
        ((*SHEET[:2], (*SEQUENCE, (1, 1))), "layout 2, cut 1: : the order names it and there is no such cut"),
        ((*SHEET[:2], (*SEQUENCE, (0, 0))), "no such cut"),
        ((*SHEET[:2], (*SEQUENCE[:-2], (0, 10), (0, 9))), "cut 9: : it comes after cut 10"),
        ((*SHEET[:2], (*SEQUENCE[:-2], (0, 10), (0, 9))), "there is no r yet"),
        ((*SHEET[:2], ()), "not made just once"),
        (with_cut(SHEET, 9, order=8), "not numbered 1, 2, 3"),
        # where the blade goes
        (with_cut(SHEET, 6, setting=inch("34 7/8")), "does not lie within j 34 7/8 in"),
        (with_cut(SHEET, 6, setting=F(0)), "does not lie within j"),
        (with_cut(SHEET, 10, setting=inch("30 1/64")), "nothing that it gives has the size of shelf"),
        (with_cut(SHEET, 7, edge="end 1"), "m does not lie where side is drawn"),
        (with_cut(SHEET, 2, edge="edge 0"), "an edge of side is still the raw stock's"),
        (with_cut(SHEET, 5, kind="crosscut"), "measured from edge 0, which makes it the other"),
        (with_cut(SHEET, 10, kind="rip"), "measured from end 0, which makes it the other"),
        (with_cut(BOARD, 3, edge="edge 0"), "only cut across"),
        (with_cut(SHEET, 3, kind="crosscut"), "end 0 of c, which the setting is measured from, is raw"),
        (with_cut(SHEET, 1, kind="rip"), "edge 0 of s, which the setting is measured from, is raw"),
        (with_cut(SHEET, 10, gives=("t", None)), "has no name"),
        (with_cut(SHEET, 1, setting=inch("47 15/16")), "nothing is left beyond the kerf to be b"),
        # saws
        (with_cut(SHEET, 7, tool="bandsaw"), "there is no bandsaw"),
        (with_saw(SHEET, "guided saw", deepest=inch("5/8")), "guided saw does not cut stock so thick 3/4 in"),
        (with_saw(SHEET, "guided saw", longest=inch("95 63/64")), "guided saw does not reach so far 96 in"),
        (with_saw(SHEET, "miter saw", widest=inch("11 7/8")), "miter saw does not crosscut so wide a piece 12 in"),
        (with_saw(BOARD, "miter saw", widest=inch(7)), "miter saw does not crosscut so wide a piece 7 1/4 in"),
        (with_saw(BOARD, "miter saw", way="fence"), "wider than it is long beside the fence"),
        (with_saw(BOARD, "miter saw", shortest=inch("20 1/8")), "neither side of the cut is long enough to hold 20 in"),
        (with_saw(TWO, "table saw", widest=inch("7 63/64")), "fence of the table saw does not go so far"),
        (with_saw(TWO, "table saw", shortest=inch("40 1/64")), "too short to guide it 40 in"),
        (with_cut(TWO, 1, 2, tool="table saw", rail_on=""), "would turn"),  # 20 in along the fence, 40 in across
        (with_cut(TWO, 2, 0, setting=inch("1 15/16")), "so narrow a strip does not go between fence and blade"),
        # weights
        (with_cut(SHEET, 5, mass=F("44.66")), "the weight of g is not what is written"),
        (with_cut(SHEET, 5, mass=None), "the weight of g is not what is written"),
        (with_cut(SHEET, 5, people=0), "by one person or by two 0"),
        (heavier(TWO, F(3)), "s1 is too heavy for one person to lift to the table saw"),  # 24 kg above 20
        (heavier(TWO, F(3)), "s3 is too heavy to lift, and is cut where it lies, on bearers"),
        (with_cut(SHEET, 6, support="sawhorses"), "j is too heavy to lift"),
        (with_job(SHEET, lifting_limit=F("11.3")), "i is too heavy for one person to lift to the miter saw"),
        # what carries the work, and where the rail lies
        (with_cut(SHEET, 7, support=""), "nothing is said of what carries i"),
        (with_cut(SHEET, 5, rail_on=""), "not said which side the guide rail lies on"),
        (with_cut(SHEET, 1, rail_on="second"), "to lie on the narrow side 3/8 in"),
        (with_cut(SHEET, 1, setting=inch("47 15/16"), rail_on="second"), "nothing is left on the side the guide rail"),
        (with_cut(SHEET, 7, rail_on="first"), "the miter saw has no guide rail"),
        # parts and offcuts
        (with_cut(SHEET, 10, frees=None), "shelf: it is drawn here and never freed"),
        (with_cut(SHEET, 10, frees="side"), "nothing that it gives has the size of side"),
        (with_cut(SHEET, 10, frees="top"), "nothing that it gives has the size of top"),
        (with_cut(TWO, 1, 1, frees="oak", also_frees="door"), "has the size of oak"),
        (with_cut(TWO, 1, 1, also_frees=None), "oak: it is drawn here and never freed"),
        (with_layout(SHEET, pieces=SHEET[1][0].pieces[1:]), "does not lie where side is drawn"),
        (with_layout(SHEET, pieces=(*SHEET[1][0].pieces, SHEET[1][0].pieces[0])), "side: it is drawn here and never"),
        (with_job(TWO, pieces=(*TWO[0].pieces[:3], Piece("block", inch(20), inch(16)))), "has the size of block"),
        (with_layout(SHEET, offcuts=(replace(SHEET[1][0].offcuts[0], length=inch("95 1/64")),)), "not left as stated"),
        (with_layout(SHEET, offcuts=(SHEET[1][0].offcuts[1],) * 2), "an offcut is not left as stated 24 3/4 in"),
        (with_layout(BOARD, offcuts=(replace(BOARD[1][0].offcuts[0], x=inch(2)),)), "an offcut is not left"),
        (with_layout(SHEET, copies=0), "has no copies"),
        (with_layout(SHEET, kind=replace(SHEET[1][0].kind, mass=F(40))), "not as the job has it"),
        # settings
        (with_cut(SHEET, 1, group=0), "its setting comes after setting 0 0"),
        (with_cut(SHEET, 10, group=8), "its setting comes after setting 6 8"),
        (with_cut(SHEET, 10, group=5), "its setting comes after setting 6 5"),
        (with_cut(SHEET, 10, group=6), "it has the number of another setting 6"),
        (with_cut(SHEET, 6, tool="table saw", rail_on=""), "it has the number of another setting 5"),
        (with_cut(TWO, 1, 1, group=2), "layout 1, cut 2: panel: it has the number of another setting"),
    ],
)  # fmt: skip
def test_each_wrong_is_found(order: Order, said: str) -> None:
    assert said in words(order)


def test_a_setting_of_another_saw_or_direction_is_another_setting() -> None:
    """Two cuts of 16 in, one from an edge and one from an end, are set twice."""
    kind = sheet("ply", 40, 20)
    made = cuts("""
        rip       | edge 0 | 16 | s | a b |       | 1 | 8   | sawhorses | guided saw
        crosscut  | end 0  | 16 | a | c d | block | 1 | 6.4 | sawhorses | guided saw
    """)
    job = Job((kind,), (Piece("block", inch(16), inch(16)),), F("1/8") * IN, saws=(GUIDED,))
    order = (job, (Layout(kind, 1, (placed("block", "0", "0", "16", "16"),), (), made, 2, "s"),), ((0, 1), (0, 2)))
    assert "cut 2: block: it has the number of another setting" in words(order)
    assert carry_out(*with_cut(order, 2, group=2)) == ()


def test_a_rail_needs_a_piece_four_inches_wide() -> None:
    """Common practice: narrower than 4 in, and the rail rocks."""
    kind = sheet("ply", 40, 4)
    made = cuts("rip | edge 0 | 3 | s | a b | lath | 1 | 1.6 | sawhorses | guided saw")
    job = Job((kind,), (Piece("lath", inch(40), inch(3)),), F("1/8") * IN, saws=(GUIDED,))
    order = (job, (Layout(kind, 1, (placed("lath", "0", "0", "40", "3"),), (), made, 1, "s"),), ((0, 1),))
    assert carry_out(*order) == ()
    narrow = replace(kind, width=inch("3 7/8"), mass=F("1.55"))
    order = with_cut(with_layout(with_job(order, stock=(narrow,)), kind=narrow), 1, mass=F("1.55"))
    assert "a guide rail rocks on so narrow a piece 3 7/8 in" in words(order)


def test_two_people_may_lift_what_one_may_not() -> None:
    heavy = heavier(TWO, F(3))  # sheets of 24 kg, limit 20
    heavy = with_cut(with_cut(with_cut(heavy, 1, people=2), 1, 1, people=2), 1, 2, support="bearers")
    assert carry_out(*heavy) == ()
    assert "too heavy for one person" in words(with_cut(heavy, 1, people=1))


def test_a_thinner_saw_shifts_pieces_by_no_more_than_what_it_spares() -> None:
    """Three crosscuts with a kerf of 3/32 in drawn with 1/8 in: the third piece lies 2/32 in nearer the end."""
    kind = StockKind("board", inch(100), mass=F(10))
    made = cuts("""
        crosscut  | end 0  | 20     | b  | c d | leg  | 1 | 10         | stands | miter saw
        crosscut  | end 0  | 20     | d  | e f | leg  | 1 | 7.990625   | stands | miter saw
        crosscut  | end 0  | 20     | f  | g h | leg  | 1 | 5.98125    | stands | miter saw
    """)  # 100 - 20 3/32 = 79 29/32; 79 29/32 - 20 3/32 = 59 13/16
    legs = tuple(placed("leg", x, "0", "20") for x in ("0", "20 1/8", "40 1/4"))
    thin = replace(MITER, kerf=inch("3/32"))
    job = Job((kind,), (Piece("leg", inch(20), None, 3),), inch("1/8"), saws=(thin,))
    order = (job, (Layout(kind, 1, legs, (), made, 1, "b"),), ((0, 1), (0, 2), (0, 3)))
    assert carry_out(*order) == ()
    off = (*legs[:2], placed("leg", "40 9/32", "0", "20"))  # 40 3/16 + 3/32: all three spared; one hair more fails
    assert carry_out(*with_layout(order, pieces=off)) == ()
    off = (*legs[:2], placed("leg", "40 19/64", "0", "20"))
    assert "g does not lie where leg is drawn" in words(with_layout(order, pieces=off))


def test_a_saw_that_takes_more_than_drawn_leaves_the_last_piece_short() -> None:
    assert "does not lie where" not in words(with_saw(TWO, "guided saw", kerf=inch("1/4")))
    assert "an offcut is not left" in words(with_saw(TWO, "guided saw", kerf=inch("1/4")))  # 23 3/4 of 23 7/8
    assert "has the size of oak" in words(with_saw(TWO, "table saw", kerf=inch("1/4")))


# Orders broken at random.

ORDERS = st.sampled_from(all_right())
NUDGES = st.sampled_from([F(1, 1000), F(-1, 1000), F(1), F(-1), inch(3), -inch(3), inch(40)])


def cut_of(draw: st.DrawFn, order: Order) -> tuple[int, Cut]:
    at = draw(st.integers(0, len(order[1]) - 1))
    return at, draw(st.sampled_from(order[1][at].cuts))


def other(draw: st.DrawFn, options: list[object], than: object) -> object:
    return draw(st.sampled_from([one for one in options if one != than]))


def nudged(draw: st.DrawFn, order: Order) -> Order:
    at, cut = cut_of(draw, order)
    return with_cut(order, cut.order, at, setting=cut.setting + draw(NUDGES))


def another_edge(draw: st.DrawFn, order: Order) -> Order:
    at, cut = cut_of(draw, order)
    return with_cut(order, cut.order, at, edge=other(draw, ["end 0", "end 1", "edge 0", "edge 1"], cut.edge))


def another_piece(draw: st.DrawFn, order: Order) -> Order:
    at, cut = cut_of(draw, order)
    names = {n for one in order[1] for made in one.cuts for n in (made.of, *made.gives) if n}
    return with_cut(order, cut.order, at, of=other(draw, [*sorted(names), "zz"], cut.of))


def another_saw(draw: st.DrawFn, order: Order) -> Order:
    at, cut = cut_of(draw, order)
    return with_cut(order, cut.order, at, tool=other(draw, ["guided saw", "table saw", "miter saw", "axe"], cut.tool))


def another_part(draw: st.DrawFn, order: Order) -> Order:
    at, cut = cut_of(draw, order)
    parts = [None, "axe", *(piece.name for piece in order[0].pieces)]
    return with_cut(order, cut.order, at, frees=other(draw, parts, cut.frees))


def another_number(draw: st.DrawFn, order: Order) -> Order:
    at, cut = cut_of(draw, order)
    name, step = draw(st.sampled_from(["order", "group", "mass"])), draw(st.sampled_from([-2, -1, 1, 2]))
    return with_cut(order, cut.order, at, **{name: getattr(cut, name) + step})


def untold(draw: st.DrawFn, order: Order) -> Order:
    at, cut = cut_of(draw, order)
    name, value = draw(st.sampled_from([("support", ""), ("people", 3), ("people", 0), ("mass", None)]))
    return with_cut(order, cut.order, at, **{name: value})


def without_a_cut(draw: st.DrawFn, order: Order) -> Order:
    """Leave a cut out, a trim it may be, and number the others again."""
    at, gone = cut_of(draw, order)
    left = tuple(
        replace(cut, order=number) for number, cut in enumerate((c for c in order[1][at].cuts if c != gone), start=1)
    )
    sequence = [(n, k - 1 if n == at and k > gone.order else k) for n, k in order[2] if (n, k) != (at, gone.order)]
    return order[0], swapped_in(order[1], at, cuts=left), tuple(sequence)


def out_of_order(draw: st.DrawFn, order: Order) -> Order:
    sequence = list(order[2])
    one, two = sorted(draw(st.permutations(range(len(sequence))))[:2])
    groups = [order[1][at].cuts[number - 1].group for at, number in sequence[one : two + 1]]
    assume(len(set(groups)) > 1 or len({sequence[n][0] for n in (one, two)}) == 1)
    sequence[one], sequence[two] = sequence[two], sequence[one]
    return order[0], order[1], tuple(sequence)


def said_twice_or_not(draw: st.DrawFn, order: Order) -> Order:
    place = draw(st.integers(0, len(order[2]) - 1))
    times = draw(st.sampled_from([0, 2]))
    return order[0], order[1], (*order[2][:place], *(order[2][place],) * times, *order[2][place + 1 :])


def moved(draw: st.DrawFn, order: Order) -> Order:
    at = draw(st.integers(0, len(order[1]) - 1))
    pieces = list(order[1][at].pieces)
    place, name = draw(st.integers(0, len(pieces) - 1)), draw(st.sampled_from(["x", "y", "length"]))
    pieces[place] = replace(pieces[place], **{name: getattr(pieces[place], name) + draw(NUDGES)})
    return with_layout(order, at, pieces=tuple(pieces))


def heavier_stock(draw: st.DrawFn, order: Order) -> Order:
    """Other stock than the weights beside the cuts were worked out for."""
    times = draw(st.sampled_from([F(1001, 1000), F(2), F(1, 2)]))
    right = heavier(order, times)
    layouts = tuple(replace(one, cuts=before.cuts) for one, before in zip(right[1], order[1], strict=True))
    return right[0], layouts, order[2]


BREAKS = [
    nudged, another_edge, another_piece, another_saw, another_part, another_number, untold, without_a_cut,
    out_of_order, said_twice_or_not, moved, heavier_stock,
]  # fmt: skip


@pytest.mark.parametrize("spoil", BREAKS, ids=lambda spoil: spoil.__name__)
@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_an_order_broken_anywhere_is_found(spoil: Callable[[st.DrawFn, Order], Order], data: st.DataObject) -> None:
    assert carry_out(*spoil(data.draw, data.draw(ORDERS))) != ()


@settings(deadline=None, max_examples=150)
@given(made_up())
def test_any_sheet_cut_right_across_piece_by_piece_passes(order: Order) -> None:
    assert carry_out(*order) == ()


@settings(deadline=None, max_examples=150)
@given(made_up(), st.data())
def test_any_sheet_cut_with_one_field_changed_is_found(order: Order, data: st.DataObject) -> None:
    spoil = data.draw(st.sampled_from([nudged, another_piece, another_number, untold, said_twice_or_not, moved]))
    assert carry_out(*spoil(data.draw, order)) != ()


@settings(deadline=None, max_examples=60)
@given(
    st.sampled_from([
        (SHEET, "guided saw", "longest", 96),  # the sheet's whole length
        (SHEET, "guided saw", "deepest", F(3, 4)),
        (SHEET, "miter saw", "widest", 12),  # the strips
        (BOARD, "miter saw", "widest", F(29, 4)),
        (TWO, "table saw", "widest", 8),  # the widest setting of the fence
    ]),
    st.integers(1, 4000),
)  # fmt: skip
def test_a_saw_is_too_small_exactly_below_what_is_cut(case: tuple[Order, str, str, F], fortieths: int) -> None:
    order, saw, limit, needed = case
    assert bool(carry_out(*with_saw(order, saw, **{limit: F(fortieths, 40) * IN}))) == (F(fortieths, 40) < needed)


@settings(deadline=None, max_examples=60)
@given(st.integers(1, 80))
def test_what_is_above_the_lifting_limit_is_found_exactly_where_it_must_be_lifted(quarters: int) -> None:
    """On the sheet's order the heaviest piece that goes to a saw is a strip of 11.4 kg."""
    limit = F(quarters, 4)
    lifted = [one for one in carry_out(*with_job(SHEET, lifting_limit=limit)) if "one person to lift" in one.what]
    weights = [F("11.4"), F("6.585"), F("11.4"), F("6.585")]
    assert len(lifted) == sum(weight > limit for weight in weights)
