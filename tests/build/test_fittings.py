"""Doors sized from what they close; casters, feet, pulls, catches and brackets with their holes."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import Bracket, bracket, casters, catch, corners, levelling_feet, pull, restraint
from plankit.build.brackets import BRACKET
from plankit.build.doors import BETWEEN, INSET_GAP, equal_leaves, overlay_edge
from plankit.build.fittings import CASTER, CATCH, KNOB, LEVELLING_FOOT, PULL, middle_below
from plankit.build.mounting import short_screw
from plankit.errors import PlanError
from plankit.parts import Bore, Part, Point
from plankit.reference import wood_screw
from plankit.stock import sheet
from plankit.units import L
from tests.build.hung import FLOOR, INSET, SIDE
from tests.parts.one_of_each import POST, box, size

ZERO = L("0 in")


def test_gaps_are_those_of_the_trade() -> None:
    # hardware.csv: full overlay reveal 3 mm (1/8 in) between doors; inset gap 1.5-2 mm (1/16 in)
    assert (L("1/8 in"), L("1/16 in")) == (BETWEEN, INSET_GAP)


def test_two_doors_in_a_28_in_opening() -> None:
    # 28 less 2 × 1/16 beside and 1/16 between is 27 13/16; half of it 13 29/32
    first, second = equal_leaves(L("1/16 in"), L("27 15/16 in"), 2, L("1/16 in"))
    assert first.high - first.low == L("13 29/32 in")
    assert second.low - first.high == L("1/16 in")
    assert second.high == L("27 15/16 in")


@given(
    low=st.fractions(0, 5, max_denominator=16), wide=st.fractions(12, 90, max_denominator=64),
    count=st.integers(1, 6), gap=st.fractions(0, 1, max_denominator=32),
)  # fmt: skip
def test_doors_and_gaps_add_up_to_the_opening(
    low: Fraction, wide: Fraction, count: int, gap: Fraction
) -> None:
    start, end, between = L(low, "in"), L(low + wide, "in"), L(gap, "in")
    leaves = equal_leaves(start, end, count, between)
    total = sum((leaf.high - leaf.low for leaf in leaves), between * (count - 1))
    assert start + total == end
    assert len({(leaf.high - leaf.low).mm for leaf in leaves}) == 1
    assert (leaves[0].low, leaves[-1].high) == (start, end)


def test_doors_that_gaps_eat_up_are_refused() -> None:
    with pytest.raises(PlanError, match="nothing is left"):
        equal_leaves(ZERO, L("1 in"), 9, L("1/8 in"))


def test_two_doors_that_share_an_edge_leave_their_gap_in_its_middle() -> None:
    divider = replace(SIDE, box=box("14", "14 3/4", "0", "14", "0", "36"))
    # the middle is 14 3/8; half of 1/8 to each side
    right_edge = overlay_edge(divider, "right", "x", None, L("1/8 in"))
    left_edge = overlay_edge(divider, "left", "x", None, L("1/8 in"))
    assert (right_edge, left_edge) == (L("14 5/16 in"), L("14 7/16 in"))


def test_a_short_screw_leaves_an_eighth_over_its_tip() -> None:
    # 3/4 + 1/16 of metal − 1/8 = 11/16: the next eighth down is 5/8. In 1/2 in: 7/16, so 3/8
    half = replace(FLOOR, stock=sheet("plywood", "1/2"), box=box("0", "20", "0", "10", "0", "1/2"))
    assert short_screw(FLOOR, "top").length == L("5/8 in")
    assert short_screw(half, "top").length == L("3/8 in")


def test_no_screw_holds_in_a_quarter_inch() -> None:
    thin = replace(FLOOR, stock=sheet("plywood", "1/4"), box=box("0", "20", "0", "10", "0", "1/4"))
    with pytest.raises(PlanError, match="no screw holds"):
        short_screw(thin, "top")


def test_casters_stand_in_the_corners_set_in_alike_from_both_sides() -> None:
    reach = (CASTER.reach(0), CASTER.reach(1))
    spots = corners(FLOOR, (L("1/2 in"), L("1 in")), reach)
    # 3/4 + 1/2 + 1 3/4 from the left end, and as much from the right; 1 + 1 3/4 from front and back
    assert [(spot.x, spot.y) for spot in spots] == [
        (L("3 in"), L("2 3/4 in")), (L("27 in"), L("2 3/4 in")),
        (L("3 in"), L("11 1/4 in")), (L("27 in"), L("11 1/4 in")),
    ]  # fmt: skip
    fitted = casters(FLOOR, spots, CASTER)
    assert [item.box.bottom for item in fitted.items] == [ZERO - CASTER.height] * 4
    assert {item.box.left for item in fitted.items} == {L("1 1/4 in"), L("25 1/4 in")}


def test_casters_too_large_for_a_floor_are_refused() -> None:
    with pytest.raises(PlanError, match="too short from front to back"):
        corners(FLOOR, (ZERO, L("4 in")), (CASTER.reach(0), CASTER.reach(1)))


def test_each_caster_takes_four_screws_with_lead_holes() -> None:
    fitted = casters(FLOOR, [Point(L("4 in"), L("4 in"), ZERO)], CASTER)
    (item,), ((_, holes),) = fitted.items, fitted.bored
    assert len(item.fasteners) == len(holes) == 4
    xs = {screw.head.x for screw in item.fasteners}
    assert max(xs, key=lambda x: x.mm) - min(xs, key=lambda x: x.mm) == CASTER.holes[0]
    # Wood Handbook FPL-GTR-282 ch. 8: 70 % of the root for wood of this density
    (hole, *_) = (one for one in holes if isinstance(one, Bore))
    gravity = FLOOR.stock.density.pcf / Fraction(624, 10)  # type: ignore[union-attr]
    assert hole.diameter == wood_screw(10).drill(gravity)
    assert hole.depth == item.fasteners[0].spec.length - L("1/16 in")


def test_a_levelling_foot_goes_into_the_middle_of_a_post() -> None:
    post = Part("post", "Post", "board", POST, size("3 1/2", "3 1/2", "20"), "z", "y")
    fitted = levelling_feet(post, [middle_below(post)], LEVELLING_FOOT)
    ((_, (hole,)),) = fitted.bored
    assert isinstance(hole, Bore)
    assert (hole.at[0], hole.at[1], hole.face) == (L("1 3/4 in"), L("1 3/4 in"), "bottom")
    assert fitted.items[0].box.top == post.box.bottom


def test_a_pull_has_its_screws_as_far_apart_as_asked() -> None:
    middle = Point(L("13 in"), INSET.box.front, L("20 in"))
    fitted = pull(INSET, "front", middle, "z", PULL)
    ((_, holes),) = fitted.bored
    places = [hole.at[2] + INSET.box.bottom for hole in holes if isinstance(hole, Bore)]
    assert places == [L("18 1/2 in"), L("21 1/2 in")]
    assert all(isinstance(hole, Bore) and hole.depth is None for hole in holes)
    assert fitted.items[0].box.front == INSET.box.front - PULL.stands


def test_a_knob_has_one() -> None:
    middle = Point(L("13 in"), INSET.box.front, L("20 in"))
    ((_, holes),) = pull(INSET, "front", middle, "z", KNOB).bored
    assert len(holes) == 1


@pytest.mark.parametrize(
    ("thick", "screw"), [("3/4 in", "1 in"), ("18 mm", "1 in"), ("1 in", "1 1/4 in"), ("1/2 in", "3/4 in")]
)
def test_a_pulls_screws_go_through_the_front_and_a_quarter_inch_into_it(thick: str, screw: str) -> None:
    # 3/4 + 1/4 = 1; 18 mm is 0.709 + 0.25 = 0.959, next quarter 1
    assert PULL.screw_for(L(thick)) == L(screw)


def test_a_catch_lies_behind_the_door_against_the_side() -> None:
    right = replace(SIDE, id="right", box=box("15 1/16", "15 13/16", "0", "14", "0", "36"))
    fitted = catch(INSET, right, L("18 in"), CATCH)
    (item,) = fitted.items
    assert item.on == ("right", "door")
    assert item.box == box("14 5/16", "15 1/16", "3/4", "1 3/8", "17", "19")
    assert [screw.into for screw in item.fasteners] == ["right", "right", "door"]


def test_a_bracket_lies_in_the_corner_of_two_parts() -> None:
    fitted = bracket(FLOOR, SIDE, "top", None, BRACKET)
    (item,) = fitted.items
    # the corner: the floor's top at 3/4, the side's inner face at 3/4; legs 1 1/2 long; 5/8 wide in the middle of 14
    assert item.box == box("3/4", "2 1/4", "6 11/16", "7 5/16", "3/4", "2 1/4")
    assert [(screw.into, screw.heading) for screw in item.fasteners] == [("bottom", "bottom")] * 2 + [
        ("side", "left")
    ] * 2


def test_a_bracket_where_nothing_meets_is_refused() -> None:
    far = replace(SIDE, box=SIDE.box.moved("x", L("-2 in")))
    with pytest.raises(PlanError, match="do not touch"):
        bracket(FLOOR, far, "top", None, BRACKET)


def test_a_restraint_stands_against_the_wall() -> None:
    (item,) = restraint(FLOOR, "back", "top", L("6 in"), BRACKET).items
    assert (item.kind, item.box.back, item.box.bottom) == ("wall fixing", FLOOR.box.back, FLOOR.box.top)
    assert "stud" in item.compare


def test_a_restraint_goes_round_an_edge() -> None:
    with pytest.raises(PlanError, match="round an edge"):
        restraint(
            FLOOR, "back", "front", L("6 in"), Bracket(L("1 in"), L("1/2 in"), (L("1/4 in"), L("3/4 in")))
        )
