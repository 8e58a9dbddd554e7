"""An offcut with defects is as many pieces of stock as it has clear lengths."""

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as some

from plankit.stock import Offcut
from plankit.units import L


def clear(length: str, *defects: tuple[str, str], kerf: Fraction = Fraction(0)) -> list[tuple[Fraction, Fraction]]:
    told = tuple((L(start, "in"), L(end, "in")) for start, end in defects)
    offcut = Offcut("2x4 x", L(length, "in"), None, "R5", defects=told)
    return [(one.start.inches, one.end.inches) for one in offcut.clear(kerf)]


def test_an_offcut_without_defects_is_clear_from_end_to_end():
    assert clear("48") == [(0, 48)]


def test_a_knot_leaves_a_clear_length_on_either_side():
    assert clear("48", ("20", "24")) == [(0, 20), (24, 48)]


def test_a_split_at_an_end_leaves_the_rest():
    assert clear("48", ("0", "3")) == [(3, 48)]
    assert clear("48", ("44", "48")) == [(0, 44)]


def test_defects_told_out_of_order_and_over_each_other_count_once():
    assert clear("48", ("30", "34"), ("20", "32"), ("22", "23")) == [(0, 20), (34, 48)]


def test_nothing_is_clear_of_an_offcut_that_is_all_defect():
    assert clear("48", ("0", "48")) == []


def test_a_nail_hole_narrower_than_the_kerf_costs_the_kerf():
    # 1/16 in of nail hole, 1/8 in of kerf: the second length begins a kerf after the first ends
    assert clear("48", ("20", "20 1/16"), kerf=L("1/8 in").mm) == [(0, 20), (Fraction(161, 8), 48)]


PLACES = some.lists(
    some.tuples(some.integers(0, 400), some.integers(1, 60)).map(lambda one: (one[0], min(one[0] + one[1], 480))),
    max_size=6,
)


@given(PLACES)
def test_clear_lengths_and_defects_make_up_the_whole(places):
    told = tuple((L(f"{start}/10 in"), L(f"{end}/10 in")) for start, end in places)
    lengths = Offcut("2x4 x", L("48 in"), None, "R5", defects=told).clear()
    bad = {tenth for start, end in places for tenth in range(start, end)}
    good = {t for one in lengths for t in range(int(one.start.inches * 10), int(one.end.inches * 10))}
    assert good == set(range(480)) - bad
    assert all(one.end.mm < other.start.mm for one, other in pairwise(lengths))
