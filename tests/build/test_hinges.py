"""Hinges: how a door hangs, where its cups and plates go, how many it takes, what it turns about."""

import itertools
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import (
    CUP_HINGE,
    PIANO,
    Lap,
    Pivot,
    butt_hinges,
    carried_by,
    cup_hinges,
    hanging,
    hinge_count,
    hinge_pivot,
    hinge_places,
)
from plankit.build.hinges import CRANKS, plate_height
from plankit.errors import PlanError
from plankit.parts import Axis, Bore, Part, Point, mirror_along, weight
from plankit.reference import practice
from plankit.units import L, Length
from tests.build.hung import FLAP, FLOOR, HALF, INSET, OTHER, OVER, SIDE, door

ZERO = L("0 in")


def bores(features: tuple[object, ...]) -> list[Bore]:
    return [one for one in features if isinstance(one, Bore)]


@pytest.mark.parametrize(
    ("hung", "on", "lap", "edge", "cover"),
    [
        (INSET, SIDE, "inset", "left", "-1/16"),
        (OVER, SIDE, "full overlay", "left", "11/16"),  # 3/4 of edge less 1/16 in sight
        (HALF, SIDE, "half overlay", "left", "5/16"),  # 3/4 less 7/16
        (FLAP, FLOOR, "inset", "bottom", "-1/16"),
    ],
)
def test_how_a_door_hangs_is_found_from_where_it_is(
    hung: Part, on: Part, lap: Lap, edge: str, cover: str
) -> None:
    found = hanging(hung, on)
    assert (found.lap, found.edge, found.out, found.cover) == (lap, edge, "front", L(cover, "in"))


def test_a_door_beside_the_part_it_is_to_cover_is_refused() -> None:
    aside = replace(OVER, box=OVER.box.moved("x", L("1 in")))
    with pytest.raises(PlanError, match="beside it"):
        hanging(aside, SIDE)
    inside = replace(INSET, box=INSET.box.moved("x", L("-1/2 in")))
    with pytest.raises(PlanError, match="7/16 in into Side"):
        hanging(inside, SIDE)


def test_inset_hinges_are_refused_for_a_door_before_the_case() -> None:
    with pytest.raises(PlanError, match="cannot be inset"):
        hanging(OVER, SIDE, "inset")


@pytest.mark.parametrize(("hung", "edge"), [(INSET, "13/16"), (OVER, "1/16"), (HALF, "7/16")])
def test_the_middle_of_a_cup_stands_22_and_a_half_mm_from_the_edge(hung: Part, edge: str) -> None:
    # hardware.csv: bore 35 mm, 5 mm from its rim to the edge: 5 + 35 / 2 = 22.5 mm
    cups = [one for one in bores(cup_hinges(hung, SIDE).in_door) if one.use == "hinge cup"]
    assert [cup.at[0] for cup in cups] == [practice("cup edge distance (tab)").sizes[3]] * 2
    assert {(cup.diameter, cup.face, cup.use) for cup in cups} == {(L("35 mm"), "back", "hinge cup")}
    least, most = practice("cup depth of bore").sizes[:2]
    assert all(cup.depth is not None and least <= cup.depth <= most for cup in cups)
    assert hung.box.left == L(edge, "in")


def test_the_screws_beside_a_cup_are_led_into_the_door() -> None:
    # hardware.csv: 45 mm apart, 9.5 mm behind the middle of the cup: 22.5 + 9.5 = 32 mm from the edge
    apart, _, behind, *_ = practice("cup screw pattern").sizes
    hung = cup_hinges(OVER, SIDE)
    leads = [one for one in bores(hung.in_door) if one.use == "lead hole, hinge cup's screw"]
    assert {one.at[0] for one in leads} == {L("22.5 mm") + behind}
    first, last = leads[0], leads[1]
    assert last.at[2] - first.at[2] == apart
    # as deep as their screws reach: 5/8 in, 1/16 of it in the metal
    assert {one.depth for one in leads} == {L("9/16 in")}
    assert len(leads) == 2 * len(hung.items)


def test_plate_screws_stand_37_mm_back_and_32_mm_apart() -> None:
    # hardware.csv: 37 mm from the front edge for overlay doors
    over = cup_hinges(OVER, SIDE)
    holes = bores(over.in_on)
    assert {hole.at[1] for hole in holes} == {L("37 mm")}
    assert {hole.face for hole in holes} == {"right"}
    first = over.places[0]
    assert [hole.at[2] for hole in holes[:2]] == [first - L("16 mm"), first + L("16 mm")]


def test_plate_screws_of_an_inset_door_stand_back_by_its_thickness_more() -> None:
    # hardware.csv: 37 mm plus door thickness: 37 + 19.05 = 56.05 mm
    assert {hole.at[1] for hole in bores(cup_hinges(INSET, SIDE).in_on)} == {L("56.05 mm")}


def test_a_hinge_takes_two_screws_in_the_door_and_two_in_the_case() -> None:
    (first, _) = cup_hinges(OVER, SIDE).items
    assert [screw.into for screw in first.fasteners] == ["door", "door", "side", "side"]
    # 5/8 in long, 1/16 of it in the metal: 9/16 in in 3/4 in wood leaves 3/16
    assert {screw.spec.length for screw in first.fasteners} == {L("5/8 in")}
    assert {screw.tip.x for screw in first.fasteners[2:]} == {L("3/16 in")}


def test_the_arm_lies_behind_the_door_beside_the_side() -> None:
    (first, _) = cup_hinges(OVER, SIDE).items
    # the rim of the cup: 1/16 in + 5 + 35 = 41.5875 mm from the left, further in than 3/4 in + 22 mm = 41.05
    assert (first.box.left, first.box.right) == (L("3/4 in"), L("41.5875 mm"))
    assert (first.box.front, first.box.back) == (ZERO, L("60 mm"))
    assert first.box.extent("z") == L("50 mm")
    assert "check against your hinge" in first.compare


@pytest.mark.parametrize(
    ("hung", "plate"),
    [
        (OVER, "0.5375"),  # 13 + 5 − 0 − 17.4625
        (HALF, "0.5625"),  # 13 + 5 − 9.5 − 7.9375
        (INSET, "1.5875"),  # 13 + 5 − 18 + 1.5875
    ],
)
def test_the_plate_makes_up_for_what_the_door_covers(hung: Part, plate: str) -> None:
    assert plate_height(CUP_HINGE, hanging(hung, SIDE)) == L(plate, "mm")


def test_a_gap_that_no_plate_makes_up_for_is_refused() -> None:
    away = replace(INSET, box=replace(INSET.box, left=L("2 in")))  # a gap of 1 1/4 in = 31.75 mm
    with pytest.raises(PlanError, match=r"an inset hinge cannot reach: the door leaves a gap of 1 1/4 in"):
        cup_hinges(away, SIDE)


def test_the_same_gap_with_a_crank_that_reaches_is_taken() -> None:
    away = replace(INSET, box=replace(INSET.box, left=L("2 in")))
    # 13 + 5 − crank + 31.75 is at most 9 mm from a crank of 40.75 on
    assert cup_hinges(away, SIDE, replace(CUP_HINGE, crank=L("42 mm"))).items


@given(cover=st.integers(-5 * 16, 18 * 16), tab=st.integers(3, 7))
def test_what_a_plate_adds_up_to(cover: int, tab: int) -> None:
    # cover + plate + crank = 13 + tab, whatever the lap
    found = replace(hanging(OVER, SIDE), cover=Length.of_mm(Fraction(cover, 16)))
    kind = replace(CUP_HINGE, tab=Length.of_mm(tab))
    for lap, crank in CRANKS.items():
        own = replace(found, lap=lap)
        assert own.cover + plate_height(kind, own) + crank == Length.of_mm(13 + tab)


def test_the_first_hinge_stands_3_to_4_in_from_each_end() -> None:
    # hardware.csv: first centre about 80-100 mm (3-4 in) from each end
    low, high = practice("hinge placement").sizes[:2]
    first, last = hinge_places(OVER, "z")
    assert low <= first - OVER.box.bottom <= high
    assert first - OVER.box.bottom == OVER.box.top - last


def test_the_hinges_of_a_short_door_keep_a_quarter_from_its_ends() -> None:
    low = door("10", "8")
    assert hinge_places(low, "z", 2) == (L("2 in"), L("6 in"))


def test_a_first_hinge_past_the_middle_is_refused() -> None:
    with pytest.raises(PlanError, match="past its middle"):
        hinge_places(door("10", "8"), "z", 2, L("4 in"))


@given(height=st.integers(8 * 16, 96 * 16), count=st.integers(2, 6))
def test_hinges_stand_evenly_and_in_the_middle(height: int, count: int) -> None:
    one = door("12", str(Fraction(height, 16)))
    places = hinge_places(one, "z", count)
    gaps = {(b - a).mm for a, b in itertools.pairwise(places)}
    assert len(places) == count
    assert len(gaps) == 1
    assert places[0] - one.box.bottom == one.box.top - places[-1]


def test_two_hinges_for_a_low_light_door_and_more_for_a_high_one() -> None:
    # common practice, hardware.csv: under 40 in 2, 40 to 60 in 3, 60 to 80 in 4
    assert [hinge_count(door("16", high), "z") for high in ("30", "48", "72")] == [2, 3, 4]


def test_a_heavy_low_door_takes_more_than_its_height_asks_for() -> None:
    # 19 mm, 24 × 40 in is what two hinges are meant for: 14.3 × 0.6096 × 1.016 = 8.857 kg
    assert carried_by(2).kg == Fraction(143, 10) * Fraction(6096, 10**4) * Fraction(1016, 1000)
    wide = door("48", "38", "3/4", "MDF")
    assert weight(wide).kg > carried_by(2).kg
    assert hinge_count(wide, "z") > 2


@given(more=st.integers(0, 40))
def test_a_wider_door_never_takes_fewer_hinges(more: int) -> None:
    assert hinge_count(door(str(12 + more), "38"), "z") <= hinge_count(door(str(13 + more), "38"), "z")


def test_a_left_door_opens_clockwise_seen_from_above_and_a_right_one_the_other_way() -> None:
    right = replace(OVER, box=OVER.box.mirrored("x", L("15 in")))
    # the outer corner of the hung edge: 1/16 in from the left, 3/4 in before the case
    assert hinge_pivot(OVER, SIDE) == Pivot("z", Point(L("1/16 in"), L("-3/4 in"), L("1/16 in")), -1)
    assert hinge_pivot(right, OTHER) == Pivot("z", Point(L("29 15/16 in"), L("-3/4 in"), L("1/16 in")), 1)


def test_a_flap_hung_at_its_bottom_falls_forward() -> None:
    # the right-handed turn about x takes y to z and z to −y: what points up comes to point to the front
    pivot = hinge_pivot(FLAP, FLOOR)
    assert (pivot.axis, pivot.sense) == ("x", 1)
    assert (pivot.at.y, pivot.at.z) == (ZERO, L("13/16 in"))


@pytest.mark.parametrize("hung", [INSET, OVER, HALF])
def test_opened_square_a_door_stands_within_its_own_edge(hung: Part) -> None:
    """Turning a point about the axis by 90 degrees, by hand: right of the axis becomes before it."""
    pivot = hinge_pivot(hung, SIDE)
    corners = [
        (x - pivot.at.x, y - pivot.at.y)
        for x in (hung.box.left, hung.box.right)
        for y in (hung.box.front, hung.box.back)
    ]
    opened = [(pivot.at.x + dy, pivot.at.y - dx) for dx, dy in corners]
    assert min(x.mm for x, _ in opened) == hung.box.left.mm
    assert max(y.mm for _, y in opened) == hung.box.front.mm


def test_mirroring_a_door_and_its_side_mirrors_the_cups() -> None:
    axis: Axis = "x"
    middle = L("15 in")
    hung = cup_hinges(OVER, SIDE)
    other = cup_hinges(replace(OVER, box=OVER.box.mirrored(axis, middle)), OTHER)
    turned = tuple(one.turned(mirror_along(axis), OVER.box.size) for one in hung.in_door)
    assert other.in_door == turned
    assert [one.box for one in other.items] == [one.box.mirrored(axis, middle) for one in hung.items]


def test_a_butt_hinge_turns_about_its_knuckle() -> None:
    # in the middle of the 1/16 in gap, half of a 3/16 in pin before the face
    hung = butt_hinges(INSET, SIDE)
    assert (hung.pivot.at.x, hung.pivot.at.y) == (L("25/32 in"), L("-3/32 in"))
    assert [item.on for item in hung.items] == [("door", "side")] * 2


def test_both_leaves_of_a_butt_hinge_take_screws() -> None:
    hung = butt_hinges(FLAP, FLOOR)
    first = hung.items[0]
    # 2 in long: two screws 3/8 in from its ends in each leaf
    assert [(screw.into, screw.heading) for screw in first.fasteners] == [("flap", "top")] * 2 + [
        ("bottom", "bottom")
    ] * 2
    apart = first.fasteners[1].head.x - first.fasteners[0].head.x
    assert apart == L("1 1/4 in")


def test_a_piano_hinge_runs_the_whole_edge() -> None:
    (item,) = butt_hinges(FLAP, FLOOR, PIANO).items
    assert item.box.extent("x") == FLAP.length
    # 28 3/8 in: at most 2 in between, 3/8 in from the ends: 27 5/8 / 2 is 13.8, so 14 gaps and 15 screws a leaf
    assert len(item.fasteners) == 30


def test_a_butt_hinge_is_refused_before_the_case() -> None:
    with pytest.raises(PlanError, match="no gap between them"):
        butt_hinges(OVER, SIDE)
