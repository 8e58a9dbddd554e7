"""Dimensions after ISO 129-1: gaps, arrows, numbers that read from the bottom or the right."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.drawing.dimension import (
    GAP,
    PAST,
    Dimension,
    Running,
    drawn,
    least_apart,
    readable,
    running,
    spread,
)
from plankit.drawing.labels import Wanted, labels
from plankit.drawing.occupied import Occupied, overlap, quad_of
from plankit.drawing.primitives import Line, Mark, Text
from plankit.drawing.words import counted, plural, within

RIGHT, DOWN, UP = (1.0, 0.0), (0.0, 1.0), (0.0, -1.0)


def of(kind, items):
    return [item for item in items if isinstance(item, kind)]


def test_a_wide_dimension_has_its_number_above_the_middle_and_arrows_inside():
    items = drawn(Dimension((0, 0), (60, 0), RIGHT, DOWN, 8.0, "45"))
    (number,) = of(Text, items)
    assert number.at[0] == pytest.approx(30)
    assert number.at[1] < 8.0  # above the line, which lies 8 mm below
    assert [mark.angle for mark in of(Mark, items)] == [180.0, 0.0]
    (line,) = [item for item in of(Line, items) if item.kind == "dimension"]
    assert line.points == ((0, 8.0), (60, 8.0))


def test_extension_lines_leave_a_gap_and_run_past_the_line():
    lines = [
        item
        for item in of(Line, drawn(Dimension((0, 0), (60, 5), RIGHT, DOWN, 8.0, "45")))
        if item.kind == "extension"
    ]
    # the line lies 8 mm beyond the farther place, so at 13
    assert lines[0].points == ((0, GAP), (0, 13 + PAST))
    assert lines[1].points == ((60, 5 + GAP), (60, 13 + PAST))


def test_a_narrow_dimension_has_arrows_outside_and_its_number_beside():
    items = drawn(Dimension((0, 0), (2, 0), RIGHT, DOWN, 8.0, "3/4"))
    assert [mark.angle for mark in of(Mark, items)] == [0.0, 180.0]  # they point at each other
    (number,) = of(Text, items)
    assert number.at[0] > 2


def test_an_upright_number_reads_from_the_right():
    (number,) = of(Text, drawn(Dimension((0, 0), (0, -60), UP, (-1.0, 0.0), 8.0, "18 1/2")))
    assert number.angle == -90.0
    assert number.at[0] < -8.0  # left of its line: above it, as one reads


@given(st.floats(-720, 720))
def test_no_number_is_upside_down(angle):
    turned = readable(angle)
    assert -90.0 - 1e-5 <= turned < 90.0
    assert math.cos(math.radians(2 * (turned - angle))) == pytest.approx(1.0, abs=1e-6)  # the same line


@given(st.lists(st.floats(0, 200), min_size=1, max_size=12).map(sorted), st.floats(1, 8))
def test_spread_numbers_stand_apart_in_the_same_order_and_move_no_more_than_needed(places, least):
    shown = spread(places, least)
    assert all(b - a >= least - 1e-6 for a, b in pairwise(shown))
    assert sum(shown) == pytest.approx(sum(places), abs=1e-6)  # groups move about their middle
    if all(b - a >= least for a, b in pairwise(places)):
        assert shown == pytest.approx(places)


def test_a_running_dimension_counts_from_a_circle_at_the_origin():
    places = (((10.0, 0.0), "4"), ((11.0, 0.0), "4 3/4"), ((50.0, 0.0), "20"))
    items = running(Running((0.0, 0.0), places, RIGHT, DOWN, 5.0))
    numbers = of(Text, items)
    assert [number.text for number in numbers] == ["0", "4", "4 3/4", "20"]
    tips = [mark.at[0] for mark in of(Mark, items)]
    assert tips == pytest.approx([10, 11, 50])  # arrows stay true where numbers had to move apart
    across = [number.at[0] for number in numbers]
    assert min(b - a for a, b in pairwise(across)) >= least_apart() - 1e-9


def test_boxes_that_touch_do_not_overlap_and_turned_ones_are_told_apart():
    assert not overlap(quad_of((0, 0, 10, 10)), quad_of((10, 0, 20, 10)))
    assert overlap(quad_of((0, 0, 10, 10)), quad_of((9, 0, 20, 10)))
    diamond = ((15.0, 5.0), (20.0, 10.0), (15.0, 15.0), (10.0, 10.0))
    assert not overlap(quad_of((0, 0, 12, 7)), diamond)  # their upright boxes do overlap


def test_a_label_lies_on_its_part_where_there_is_room_else_beside_with_a_leader():
    large = (((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)),)
    slim = (((60.0, 0.0), (61.0, 0.0), (61.0, 40.0), (60.0, 40.0)),)
    taken = Occupied()
    for (ring,) in (large, slim):
        taken.pieces.extend(zip(ring, (*ring[1:], ring[0]), strict=True))
    items = labels([Wanted("A", (large,)), Wanted("B", (slim,))], taken, (large, slim))
    a, b = of(Text, items)
    assert 0 < a.at[0] < 40
    assert not 60 <= b.at[0] <= 61
    assert not of(Mark, items)  # a dot would look like a hole
    leader = next(line for line in of(Line, items) if len(line.points) == 2)
    assert 60 < leader.points[-1][0] < 61  # the leader ends on the part


def test_a_leader_ends_just_past_the_outline_of_its_part():
    """A part 4 mm wide has no room for a ring of 5.4: its leader goes in by 1.2 mm, not to its middle."""
    slim = (((60.0, 0.0), (64.0, 0.0), (64.0, 40.0), (60.0, 40.0)),)
    taken = Occupied()
    taken.pieces.extend(zip(slim[0], (*slim[0][1:], slim[0][0]), strict=True))
    items = labels([Wanted("B", (slim,))], taken, (slim,))
    leader = next(line for line in of(Line, items) if len(line.points) == 2)
    (x, y), (from_x, from_y) = leader.points[-1], leader.points[0]
    long = math.dist((x, y), (from_x, from_y))
    edge = 60.0 if from_x < 60 else 64.0
    assert abs(x - edge) == pytest.approx(1.2 * abs(x - from_x) / long)


@pytest.mark.parametrize(
    ("one", "many"),
    [("Divider", "Dividers"), ("Foot", "Feet"), ("Front foot", "Front feet"), ("Shelf", "Shelves"),
     ("Box", "Boxes"), ("Tray", "Trays"), ("Caddy", "Caddies"), ("Bench", "Benches")],
)  # fmt: skip
def test_names_of_parts_have_their_plural(one, many):
    assert plural(one) == many


def test_parts_are_counted_in_words():
    assert counted(["Divider", "Divider", "Back"]) == "two dividers and one back"


@pytest.mark.parametrize(
    ("name", "within_a_sentence", "several"),
    [
        ("Side A", "side A", "Sides A"),
        ("Leg 2", "leg 2", "Legs 2"),
        ("MDF back", "MDF back", "MDF backs"),
        ("Front foot", "front foot", "Front feet"),
        ("Slats", "slats", "Slats"),
        ("Brass", "brass", "Brasses"),
        ("A frame", "A frame", "A frames"),
    ],
)
def test_names_keep_their_letters_in_a_sentence_and_in_the_plural(name, within_a_sentence, several):
    assert within(name) == within_a_sentence
    assert plural(name) == several
