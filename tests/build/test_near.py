"""Parts that lie near one another: whatever exact lengths find is among them, and each as `combinations` has it."""

from dataclasses import replace
from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from plankit.build import touching
from plankit.build.contact import apart_along, share_room
from plankit.build.near import near_pairs, near_to, neighbours
from plankit.parts import AXES, Box
from plankit.units import Length
from tests.plan.demo import bench

sixteenths = st.integers(-40, 40)


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    """A box of whole sixteenths of an inch, of at least one each way."""
    ends = []
    for _ in AXES:
        low = draw(sixteenths)
        ends += [low, low + draw(st.integers(1, 30))]
    left, right, front, back, bottom, top = (Length.of_mm(end).portion(16) * 127 for end in ends)
    return Box(left, right, front, back, bottom, top)


@given(st.lists(boxes(), max_size=8))
def test_every_two_boxes_that_touch_or_share_room_are_near(several: list[Box]) -> None:
    near = near_pairs(several)
    pairs = list(combinations(range(len(several)), 2))
    assert list(near) == [pair for pair in pairs if not apart_along(several[pair[0]], several[pair[1]])]


@given(boxes(), boxes())
def test_boxes_share_room_where_what_they_have_in_common_is_thick_every_way(one: Box, other: Box) -> None:
    common = one.common(other)
    assert share_room(one, other) == all(common.extent(axis).mm > 0 for axis in AXES)


@given(boxes(), st.lists(boxes(), max_size=6))
def test_what_lies_near_one_box_is_what_pairs_say(box: Box, others: list[Box]) -> None:
    paired = {second - 1 for first, second in near_pairs([box, *others], 5.0) if first == 0}
    assert set(near_to(box, others, 5.0)) == paired


def test_a_gap_counts_as_near_up_to_the_distance_asked_for() -> None:
    one = bench().draft().build.parts[0].box
    apart = one.moved("x", one.extent("x") + "1 mm")
    assert near_pairs([one, apart]) == ()
    assert near_pairs([one, apart], 1.0) == ((0, 1),)


def test_whatever_touches_a_part_is_among_its_neighbours() -> None:
    build = bench().draft().build
    for part in build.parts:
        touched = [other for other in build.parts if other.id != part.id and touching(part, other)]
        assert touched
        assert {other.id for other in touched} <= {other.id for other in neighbours(build, part)}


def test_neighbours_come_in_the_order_of_the_build() -> None:
    build = bench().draft().build
    places = {part.id: place for place, part in enumerate(build.parts)}
    turned = replace(build, parts=build.parts[::-1])
    for part in build.parts:
        found = [places[other.id] for other in neighbours(build, part)]
        assert found == sorted(found)
        assert [places[other.id] for other in neighbours(turned, part)] == found[::-1]
