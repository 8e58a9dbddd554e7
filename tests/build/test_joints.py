"""How many screws a joint takes, where they go, what holes they need, and what is bought for them."""

import itertools
from dataclasses import replace
from fractions import Fraction
from math import cos, radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import (
    Build,
    bite,
    brads,
    drill_size,
    face_screws,
    fix_top,
    glue,
    hardware,
    pocket_screw_for,
    pocket_screws,
    screw,
    slot_travel,
    weight_of,
)
from plankit.build.joints_rows import SCREW_SPACING, exactly, in_a_row
from plankit.errors import PlanError
from plankit.parts import Bore, Box, Part, PocketHoles, weight
from plankit.stock import lumber, sheet
from plankit.units import L, Length
from tests.parts.one_of_each import PLY, POST, RAIL, TAPERED, box
from tests.published import published, within

FLOOR = Part("floor", "Bottom", "panel", PLY, box("0", "44", "0", "15", "4", "4 3/4"), "x", "z")
SIDE = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "14 3/4", "4 3/4", "17"), "z", "x")
FOOT = replace(TAPERED, box=box("1/2", "4", "1/2", "4", "0", "4"))
SLAB = lumber("2x10", species="loblolly pine")
TOP = Part("top", "Top", "glue-up", SLAB, box("0", "44", "0", "15", "17", "18 1/2"), "x", "z")
CLEAT = Part("cleat", "Cleat", "board", lumber("1x2", species="Douglas-fir"),
             box("3/4", "1 1/2", "1", "14", "15 1/2", "17"), "y", "x")  # fmt: skip


def rail(wide: str, thick: str = "3/4") -> Part:
    """A rail that ends against a post at its right, so wide up and down.

    ```
      ══════╗
      rail  ║ post
      ══════╝
    ```
    """
    ends = Box(L("0 in"), L("10 in"), L("0 in"), L(thick, "in"), L("0 in"), L(wide, "in"))
    return Part("rail", "Rail", "board", RAIL, ends, "x", "y")


def post(thick: str = "3 1/2") -> Part:
    ends = Box(L("10 in"), L("10 in") + L(thick, "in"), L("-1 in"), L("3 in"), L("-5 in"), L("30 in"))
    return Part("post", "Post", "board", POST, ends, "z", "y")


def test_one_screw_stands_in_the_middle_of_a_foot() -> None:
    joint, holes = face_screws(FLOOR, FOOT, screw("#8 x 2 1/2"), 1)
    (fastener,) = joint.fasteners
    # middle of the foot: 1/2 + 3 1/2 ÷ 2; head on the floor's top, tip 2 1/2 in lower
    assert fastener.head == fastener.tip.moved("z", L("2 1/2 in"))
    assert (fastener.head.x, fastener.head.y, fastener.head.z) == (
        L("2 1/4 in"),
        L("2 1/4 in"),
        L("4 3/4 in"),
    )
    assert bite(fastener, FOOT) == L("1 3/4 in")  # 2 1/2 less 3/4 of plywood
    (hole,) = holes
    assert isinstance(hole, Bore)
    assert (hole.face, hole.diameter, hole.countersink) == ("top", L("11/64 in"), L("11/32 in"))
    assert hole.depth is None


def test_a_screw_that_is_too_short_has_less_than_no_bite() -> None:
    joint, _ = face_screws(FLOOR, FOOT, screw("#8 x 1/2"), 1)
    assert bite(joint.fasteners[0], FOOT) == L("-1/4 in")  # 1/2 less 3/4


def test_a_number_8_screw_takes_an_11_64_drill() -> None:
    # shank 0.164 in (0.060 + 0.013 × 8, ASME B18.6.1): 10/64 is 0.156, 11/64 is 0.172
    assert drill_size(L("0.164 in")) == L("11/64 in")
    assert drill_size(L("11/64 in")) == L("11/64 in")


@pytest.mark.parametrize(
    ("wide", "count"),
    # common practice: one hole on ends of 1x2 (1 1/2 in wide), else two or more at most 7 in apart
    [("1 1/2", 1), ("2 1/2", 2), ("3 1/2", 2), ("5 1/2", 2), ("11 1/4", 3), ("14 3/4", 3), ("24", 4)],
)
def test_pocket_screws_by_the_width_of_the_joint(wide: str, count: int) -> None:
    joint, holes = pocket_screws(rail(wide), post(), "front")
    assert len(joint.fasteners) == count
    (row,) = holes
    assert isinstance(row, PocketHoles)
    assert len(row.places) == count


def test_the_one_hole_in_a_1x2_stands_in_its_middle() -> None:
    joint, holes = pocket_screws(rail("1 1/2"), post(), "front")
    assert holes[0].places == (L("3/4 in"),)
    assert joint.fasteners[0].head.z == L("3/4 in")


def test_a_pocket_screw_in_3_4_stock_ends_two_thirds_of_an_inch_in() -> None:
    # it crosses the joint at 15°, 9/16 in from its head: (1 1/4 − 9/16) × cos 15° = 0.6641 in
    joint, _ = pocket_screws(rail("3 1/2"), post(), "front")
    (fastener, _) = joint.fasteners
    assert fastener.spec.length == L("1 1/4 in")
    wanted = (1.25 - 0.5625) * cos(radians(15))
    assert float(bite(fastener, post()).inches) == pytest.approx(wanted, abs=1e-6)
    assert wanted == pytest.approx(0.6641, abs=1e-4)


def test_reach_of_a_pocket_screw_is_length_left_times_cos_15() -> None:
    # the published sum, with 1/2 in left in the first part; our shoulder is 9/16 in
    (row,) = (one for one in published("tapers") if one["id"] == "AN-P01")
    assert within(Fraction((1.25 - 0.5) * cos(radians(15))), row["answer"], row["tolerance"])
    (entry,) = (one for one in published("tapers") if one["id"] == "AN-P03")
    assert within(Fraction(0.75 / 2 / tan(radians(15))), entry["answer"], entry["tolerance"])


@pytest.mark.parametrize("thickness", ["1/2", "5/8", "3/4", "7/8", "1", "1 1/4", "1 1/2"])
def test_a_pocket_screw_stays_inside_stock_of_its_own_thickness(thickness: str) -> None:
    # common practice: 3/4 in into the face of 3/4 in with 1 1/4 in screws, 1 1/2 in with 2 1/2 in screws
    mate = post(thickness)
    joint, _ = pocket_screws(rail("3 1/2", thickness), mate, "front")
    for fastener in joint.fasteners:
        assert Length.zero().mm < bite(fastener, mate).mm < L(thickness, "in").mm


def test_pocket_screws_lean_away_from_the_drilled_face() -> None:
    front, _ = pocket_screws(rail("3 1/2"), post(), "front")
    back, _ = pocket_screws(rail("3 1/2"), post(), "back")
    assert front.fasteners[0].head.y.mm < front.fasteners[0].tip.y.mm
    assert back.fasteners[0].head.y.mm > back.fasteners[0].tip.y.mm


def test_pocket_holes_are_not_drilled_in_the_end_that_meets() -> None:
    with pytest.raises(PlanError, match="beside the joint") as error:
        pocket_screws(rail("3 1/2"), post(), "right")
    assert "front, back, bottom, top" in error.value.remedy


@pytest.mark.parametrize(
    ("thickness", "length"),
    [("1/2", "1"), ("3/4", "1 1/4"), ("23/32", "1 1/4"), ("1", "1 1/2"), ("1 1/2", "2 1/2")],
)
def test_pocket_screw_by_thickness(thickness: str, length: str) -> None:
    # common practice; 23/32 is sold as 3/4
    assert pocket_screw_for(rail("3 1/2"), L(thickness, "in")).length == L(length, "in")


def test_quarter_inch_plywood_takes_no_pocket_screw() -> None:
    with pytest.raises(PlanError, match="no common pocket screw"):
        pocket_screw_for(rail("3 1/2"), L("1/4 in"))


def test_a_back_is_pinned_every_five_inches() -> None:
    # joint 12 1/4 in high, 1 in from each end: 10 1/4 in between the outer two, three gaps of at most 5 in
    back = Part(
        "back",
        "Back",
        "panel",
        sheet("plywood", "1/4"),
        box("0", "44", "14 3/4", "15", "4 3/4", "17"),
        "x",
        "y",
    )
    joint = brads(back, SIDE, L("1 in"))
    assert len(joint.fasteners) == 4
    assert {bite(f, SIDE) for f in joint.fasteners} == {L("3/4 in")}  # 1 in less 1/4 of back
    assert {f.heading for f in joint.fasteners} == {"front"}
    assert {f.head.x for f in joint.fasteners} == {L("3/8 in")}  # middle of a 3/4 in edge


@given(st.integers(1, 9), st.integers(8, 900), st.integers(0, 64))
def test_so_many_screws_are_so_many_and_evenly_spread(count: int, long: int, start: int) -> None:
    low, high = L(Fraction(start, 16), "in"), L(Fraction(start + long, 16), "in")
    places = exactly(low, high, count, L("2 in"))
    assert len(places) == count
    assert low.mm < places[0].mm
    assert places[-1].mm < high.mm
    assert places[0] - low == high - places[-1]
    assert len({(two - one).mm for one, two in itertools.pairwise(places)}) <= 1


@given(st.integers(8, 1600))
def test_screws_in_a_row_are_never_further_apart_than_asked(long: int) -> None:
    places = in_a_row(L("0 in"), L(Fraction(long, 16), "in"), SCREW_SPACING, 2, L("2 in"))
    steps = [(two - one).mm for one, two in itertools.pairwise(places)]
    assert len(places) >= 2
    assert max(steps) <= SCREW_SPACING.mm
    assert len(set(steps)) == 1


def test_a_joint_of_no_screws_is_refused() -> None:
    with pytest.raises(PlanError, match="held by no screws"):
        face_screws(FLOOR, FOOT, screw("#8 x 2 1/2"), 0)


@pytest.mark.parametrize("text", ["8 x 2", "#8", "#8 x", "#8 x 0", "#99 x 2"])
def test_a_screw_that_cannot_be_read_says_how_to_write_one(text: str) -> None:
    with pytest.raises(PlanError) as error:
        screw(text)
    assert error.value.remedy


def test_the_top_is_fixed_at_one_edge_and_slotted_beyond() -> None:
    joint, holes = fix_top(TOP, CLEAT, screw("#8 x 2 1/2"), "front")
    assert len(joint.fasteners) == 3
    assert [hole.travel is None for hole in holes] == [True, False, False]
    places = [fastener.head.y for fastener in joint.fasteners]
    assert places == [L("2 1/2 in"), L("7 1/2 in"), L("12 1/2 in")]  # cleat 1 to 14, 1 1/2 in from each end
    assert {hole.along for hole in holes if hole.travel is not None} == {"y"}


def test_slots_grow_with_the_distance_from_the_fixed_edge() -> None:
    # loblolly pine, C_T 0.00259 (Wood Handbook table 13-5); 70 °F, 30 to 70 %: 6.17 to 13.09 % (table 4-2)
    # 10 in × 0.00259 × 6.92 = 0.1792 in; twice that, up to the next 1/16 in: 3/8 in
    assert slot_travel(TOP, L("10 in")) == L("3/8 in")
    assert slot_travel(TOP, L("5 in")) == L("3/16 in")  # 0.0896 × 2 = 0.179
    assert slot_travel(TOP, L("1/4 in")) == L("1/8 in")  # never less than two sixteenths


@given(st.integers(0, 960), st.integers(0, 960))
def test_a_longer_way_never_has_a_shorter_slot(one: int, other: int) -> None:
    short, long = sorted((one, other))
    assert slot_travel(TOP, L(Fraction(short, 16), "in")) <= slot_travel(TOP, L(Fraction(long, 16), "in"))


@pytest.mark.parametrize("edge", ["left", "right", "top"])
def test_a_top_has_no_slots_along_its_grain(edge: str) -> None:
    with pytest.raises(PlanError, match="needs slots"):
        fix_top(TOP, CLEAT, screw("#8 x 2 1/2"), edge)


def test_hardware_is_counted_from_the_joints() -> None:
    one, holes = face_screws(FLOOR, FOOT, screw("#8 x 2 1/2"), 1)
    two, _ = pocket_screws(SIDE, FLOOR, "right")
    build = Build("b", (FLOOR.with_features(holes), FOOT, SIDE), (one, two, glue(FOOT, FLOOR)))
    # side 14 3/4 in deep: 2 in from each end leaves 10 3/4 in, two gaps of at most 7: three screws
    assert [(spec.name, count) for spec, count in hardware(build)] == [
        ("#8 × 1 1/4 in pocket screw", 3),
        ("#8 × 2 1/2 in wood screw", 1),
    ]


def test_the_whole_weighs_what_its_parts_do() -> None:
    build = Build("b", (FLOOR, FOOT, SIDE))
    assert build.weight == weight(FLOOR) + weight(FOOT) + weight(SIDE)
    assert weight_of(()).kg == 0
