"""Small jobs whose answer can be worked out by hand; the sum stands beside each number."""

from dataclasses import replace
from fractions import Fraction

import pytest

from plankit.cutting import cut, piece, result_json, result_object, stock_kind
from plankit.cutting.job import Job
from plankit.errors import AskedWrongly
from plankit.units import L
from tests.cutting.jobs import board, job, sheet


def count(asked: Job) -> int:
    return cut(asked).count


def test_a_piece_as_large_as_the_trimmed_sheet_takes_one_sheet() -> None:
    asked = job([sheet(100, 50, trim_ends=Fraction(5), trim_edges=Fraction(5))], [("all", 90, 40, 1)], kerf=3)
    result = cut(asked)
    assert (result.count, result.proven) == (1, True)
    assert (result.layouts[0].pieces[0].x, result.layouts[0].pieces[0].y) == (5, 5)
    assert [one.kind for one in result.layouts[0].cuts] == ["trim"] * 4


def test_no_kerf_is_needed_behind_the_last_piece() -> None:
    assert count(job([sheet(100, 50)], [("half", 49, 50, 2)], kerf=2)) == 1  # 49 + 2 + 49 = 100
    assert count(job([sheet(100, 50)], [("half", 49, 50, 2)], kerf=3)) == 2  # 49 + 3 + 49 = 101
    assert (
        count(job([sheet(101, 50)], [("half", 49, 50, 2)], kerf=2)) == 1
    )  # 1 left: the last cut runs off the edge
    assert count(job([board(100)], [("half", 49, 0, 2)], kerf=2)) == 1
    assert count(job([board(100)], [("half", 49, 0, 2)], kerf=3)) == 2


def test_trim_is_lost_at_both_ends_of_a_board() -> None:
    asked = job([board(100, trim_ends=Fraction(2))], [("bar", 30, 0, 3)], kerf=3)
    assert count(asked) == 1  # 2 + 30 + 3 + 30 + 3 + 30 + 2 = 100
    assert count(replace(asked, kerf=Fraction(7, 2))) == 2  # 2 + 30 + 3.5 + 30 + 3.5 + 30 + 2 = 101


def test_without_a_kerf_pieces_lie_edge_to_edge() -> None:
    result = cut(job([sheet(100, 50)], [("quarter", 50, 25, 4)]))
    assert (result.count, result.proven) == (1, True)
    assert result.layouts[0].waste == 0


def test_grain_keeps_a_piece_from_turning() -> None:
    along = job([sheet(100, 50)], [("across", 50, 100, 1, True)])
    assert cut(along).layouts[0].pieces[0].turned
    two = [("strip", 50, 24, 4)]
    assert count(job([sheet(100, 50)], two)) == 1
    assert count(job([sheet(50, 100)], [("strip", 50, 24, 4)])) == 1  # 4 × 24 = 96
    assert (
        count(job([sheet(49, 100)], [("strip", 50, 24, 4, True)])) == 1
    )  # turned: 2 × 24 = 48, 2 × 50 = 100


def test_the_cheapest_stock_is_chosen_where_all_have_prices() -> None:
    stock = [sheet(100, 50, price=Fraction(60)), sheet(50, 50, name="half", price=Fraction(35))]
    result = cut(job(stock, [("square", 50, 50, 3)]))
    assert (result.cost, result.least_cost, result.proven) == (95, 95, True)  # 60 + 35, not 3 × 35 nor 2 × 60
    assert result.totals == (("sheet", 1), ("half", 1))


def test_the_count_is_made_least_where_a_price_is_missing() -> None:
    stock = [sheet(100, 50), sheet(50, 50, name="half", price=Fraction(35))]
    result = cut(job(stock, [("square", 50, 50, 3)]))
    assert (result.count, result.least_count, result.cost, result.proven) == (2, 2, None, True)


def test_an_offcut_on_hand_is_used_first() -> None:
    stock = [sheet(100, 50, price=Fraction(60)), sheet(60, 25, name="offcut", price=Fraction(0), available=1)]
    result = cut(job(stock, [("long", 60, 25, 1), ("wide", 100, 45, 1)]))
    assert (result.totals, result.cost) == ((("sheet", 1), ("offcut", 1)), 60)
    assert cut(job(stock, [("long", 60, 25, 1)])).cost == 0


def test_stock_that_does_not_suffice_is_said_with_what_is_missing() -> None:
    result = cut(job([sheet(100, 50, available=1)], [("half", 50, 50, 3)]))
    assert (result.complete, result.proven, result.missing) == (False, False, (("half", 1),))
    assert result_object(result)["missing"] == [{"part": "half", "quantity": 1}]
    bars = cut(job([board(100, available=2)], [("half", 50, 0, 5), ("short", 10, 0, 1)]))
    assert sum(n for _, n in bars.missing) in (1, 2)  # 200 long: 4 halves, or 3 and the short one


def test_stock_of_which_none_is_available_is_not_used() -> None:
    result = cut(job([sheet(100, 50, available=0), sheet(50, 50, name="half")], [("square", 50, 50, 1)]))
    assert result.totals == (("half", 1),)


def test_a_part_comes_only_from_the_stock_it_names() -> None:
    stock = [
        sheet(100, 50, name="birch", price=Fraction(60)),
        sheet(100, 50, name="pine", price=Fraction(20)),
    ]
    asked = job(stock, [("front", 40, 20, 1), ("back", 40, 20, 1)])
    asked = replace(asked, pieces=(replace(asked.pieces[0], sources=("birch",)), asked.pieces[1]))
    result = cut(asked)
    assert (result.cost, result.proven) == (60, True)  # the back beside the front: 60, not 60 + 20


def test_boards_and_sheets_go_in_one_job() -> None:
    result = cut(job([sheet(100, 50), board(90)], [("panel", 50, 50, 2), ("rail", 30, 0, 3)]))
    assert result.totals == (("sheet", 1), ("board", 1))
    assert "width" not in result_object(result)["layouts"][1]["pieces"][0]


def test_stages_limit_how_often_the_direction_changes() -> None:
    pinwheel_free = [("a", 60, 50, 1), ("b", 40, 30, 1), ("c", 20, 20, 2)]
    # a | (b over (c | c)): across, along, across: three stages; with two, c | c finds no strip of its own
    assert count(job([sheet(100, 50)], pinwheel_free, stages=3)) == 1
    assert count(job([sheet(100, 50)], pinwheel_free, stages=2)) == 2


def test_one_stage_cuts_strips_and_trims_each() -> None:
    asked = job([sheet(100, 50)], [("bar", 30, 20, 3)], stages=1)
    assert count(asked) == 1  # 3 × 30 = 90, each trimmed to 20
    assert count(job([sheet(100, 50)], [("bar", 30, 20, 6)], stages=1)) == 2  # only three or two a sheet


def test_five_pieces_round_a_middle_cannot_be_cut_edge_to_edge() -> None:
    # the pinwheel fills 5 × 5 exactly, but no cut goes right across
    whirl = [("blade", 3, 2, 4, True), ("middle", 1, 1, 1)]
    assert count(job([sheet(5, 5)], whirl)) == 2


def test_what_is_left_is_one_big_offcut() -> None:
    result = cut(job([sheet(100, 50)], [("small", 20, 12, 4)], kerf=1))
    assert (
        max(one.area for one in result.layouts[0].offcuts) >= 58 * 50
    )  # 100 - 2 × 20 - 2 × 1 = 58, full width


def test_equal_layouts_are_one_layout_with_copies() -> None:
    result = cut(job([sheet(100, 50)], [("all", 100, 50, 7)]))
    assert [(one.copies, len(one.pieces)) for one in result.layouts] == [(7, 1)]


def test_nothing_wanted_is_nothing_cut() -> None:
    for pieces in ([], [("none", 40, 20, 0)]):
        result = cut(job([sheet(100, 50)], pieces))
        assert (result.layouts, result.complete, result.proven, result.count) == ((), True, True, 0)


def test_sizes_beyond_all_sense_are_still_exact() -> None:
    huge = 10**30
    asked = job([sheet(2 * huge, huge)], [("half", huge, huge, 2), ("rest", 1, 1, 1)])
    assert count(asked) == 2
    fine = job([sheet(100, 50)], [("third", Fraction(100, 3), 50, 3), ("seventh", Fraction(100, 7**9), 1, 1)])  # type: ignore[list-item]
    assert count(fine) == 2  # the thirds fill one sheet to the last hair
    assert count(job([board(2 * huge)], [("half", huge, 0, 2)])) == 1


def test_the_same_job_has_the_same_answer_byte_for_byte_however_it_is_listed() -> None:
    pieces = [("a", 31, 17, 3, True), ("b", 22, 13, 4), ("c", 47, 9, 2), ("d", 12, 12, 5, True)]
    first = result_json(cut(job([sheet(100, 50)], pieces, kerf=1)))
    assert first == result_json(cut(job([sheet(100, 50)], pieces, kerf=1)))
    turned_round = cut(job([sheet(100, 50)], pieces[::-1], kerf=1))
    assert result_json(turned_round) == first


def test_a_plan_builds_a_job_from_its_lengths() -> None:
    asked = Job(
        (stock_kind("plywood", L("96 in"), L("48 in"), price=Fraction(62), trim_ends=L("1/4 in")),),
        (piece("side", L("30 in"), L("15 1/4 in"), quantity=2),),
        L("1/8 in").mm,
    )
    result = cut(asked)
    assert result.layouts[0].pieces[0].length == L("30 in").mm
    assert result.in_words() == "1 piece of stock; cheaper is impossible (proven)."


def test_time_given_is_said_in_the_result() -> None:
    result = cut(job([sheet(100, 50)], [("a", 60, 30, 2)]), seconds=0.2)
    assert result_object(result)["repeatable"] is False
    assert "repeatable" not in result_object(cut(job([sheet(100, 50)], [("a", 60, 30, 2)])))


@pytest.mark.parametrize("wrong", [{"stages": 0}, {"kerf": -1}])
def test_a_job_that_makes_no_sense_is_refused(wrong: dict[str, int]) -> None:
    with pytest.raises(AskedWrongly):
        job([sheet(100, 50)], [("a", 10, 10, 1)], **wrong)


def test_a_gap_is_said_in_words() -> None:
    proven = cut(job([sheet(100, 50)], [("half", 50, 50, 3)]))
    assert proven.in_words() == "2 pieces of stock; fewer is impossible (proven)."
    open_one = replace(proven, proven=False, least_count=1)
    assert open_one.in_words() == "2 pieces of stock; at most one more than the least possible."
