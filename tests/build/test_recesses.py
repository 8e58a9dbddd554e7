"""Hinges let into the wood: how deep, how long, how wide, and the gap they leave."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import BUTT, PIANO, Hung, butt_hinges
from plankit.build.butts import RecessIn
from plankit.errors import PlanError
from plankit.parts import Bore, Groove, Part, channel, solid
from plankit.units import L, Length
from tests.build.hung import FLAP, FLOOR, INSET, OTHER, SIDE

NOTHING = L("0 in")


def recesses(features: tuple[object, ...]) -> list[Groove]:
    return [one for one in features if isinstance(one, Groove)]


def gap(hung: Hung) -> Length:
    assert hung.leaves is not None
    return hung.leaves.gap


def test_leaves_on_the_faces_cut_nothing() -> None:
    hung = butt_hinges(INSET, SIDE)
    assert not recesses((*hung.in_door, *hung.in_on))
    assert "both leaves lie in the gap" in hung.items[0].compare


def test_let_in_by_half_the_knuckle_less_half_the_gap_the_gap_stays() -> None:
    # common practice: a knuckle of 3/16 in a gap of 1/16: (3/16 − 1/16) / 2 = 1/16 in each
    hung = butt_hinges(INSET, SIDE, recess="gap")
    in_door, in_on = recesses(hung.in_door), recesses(hung.in_on)
    assert {one.cut.extent("x") for one in (*in_door, *in_on)} == {L("1/16 in")}
    assert gap(hung) == L("1/16 in")
    assert len(in_door) == len(in_on) == len(hung.items) == 2


def test_a_recess_is_as_long_as_the_hinge_and_as_wide_as_its_leaf() -> None:
    hung = butt_hinges(INSET, SIDE, recess="gap")
    for recess, spot in zip(recesses(hung.in_door), hung.places, strict=True):
        assert recess.face == "left"
        assert (recess.cut.front, recess.cut.back) == (NOTHING, L("5/8 in"))  # from the outer face in
        low = spot - INSET.box.bottom - L("1 in")  # a hinge 2 in long
        assert (recess.cut.bottom, recess.cut.top) == (low, low + L("2 in"))
    for recess, spot in zip(recesses(hung.in_on), hung.places, strict=True):
        assert recess.face == "right"
        assert recess.cut.right == L("3/4 in")
        assert recess.cut.middle("z") == spot


def test_let_in_by_a_leaf_s_thickness_the_knuckle_less_two_leaves_is_left() -> None:
    # 3/16 − 2 × 1/32 = 1/8
    assert gap(butt_hinges(INSET, SIDE, recess="leaf")) == L("1/8 in")


@pytest.mark.parametrize(("where", "in_door", "in_on"), [("door", "1/8", "0"), ("case", "0", "1/8")])
def test_all_of_it_in_one_part(where: RecessIn, in_door: str, in_on: str) -> None:
    # 3/16 − 1/16 = 1/8 in the one
    hung = butt_hinges(INSET, SIDE, recess="gap", recess_in=where)
    leaves = hung.leaves
    assert leaves is not None
    assert (leaves.in_door, leaves.in_on, leaves.gap) == (L(in_door, "in"), L(in_on, "in"), L("1/16 in"))
    # the pin's middle lies midway between the leaves: in the gap's middle, moved by half of what is let in
    middle = L("25/32 in") + (leaves.in_door - leaves.in_on).portion(2)
    assert hung.pivot.at.x == middle


def test_the_pin_stays_in_the_middle_of_the_gap_where_both_are_let_in_alike() -> None:
    assert butt_hinges(INSET, SIDE, recess="gap").pivot == butt_hinges(INSET, SIDE).pivot


def test_screws_go_deeper_by_the_recess_and_their_holes_too() -> None:
    plain, let_in = butt_hinges(INSET, SIDE), butt_hinges(INSET, SIDE, recess="gap")
    for one, other in zip(plain.items[0].fasteners, let_in.items[0].fasteners, strict=True):
        assert abs(other.head.x - one.head.x) == L("1/16 in")
    holes = [[f.depth for f in hung.in_door if isinstance(f, Bore)] for hung in (plain, let_in)]
    assert all(
        deep is not None and flat is not None and deep - flat == L("1/16 in")
        for flat, deep in zip(*holes, strict=True)
    )


def test_a_screw_of_a_leaf_let_in_still_leaves_wood_over_its_tip() -> None:
    # 3/4 − 1/4 let in: 1/2 + 1/16 − 1/8 = 7/16, so 3/8 long instead of 5/8
    hung = butt_hinges(INSET, SIDE, recess=L("1/4 in"))
    assert {screw.spec.length for screw in hung.items[0].fasteners[2:]} == {L("3/8 in")}
    assert min(screw.tip.x for screw in hung.items[0].fasteners[2:]) >= L("1/8 in")


def test_a_piano_hinge_is_let_in_from_end_to_end() -> None:
    # a knuckle of 1/8, a gap of 1/16: 1/32 in each, a rabbet along the whole edge of the door
    hung = butt_hinges(INSET, SIDE, PIANO, recess="gap")
    (one,) = recesses(hung.in_door)
    assert one.cut.extent("z") == INSET.box.extent("z")
    assert one.cut.extent("x") == L("1/32 in")
    assert not channel(INSET, one).stops
    (other,) = recesses(hung.in_on)
    assert [face for face, _ in channel(SIDE, other).stops] == ["bottom", "top"]


def test_a_flap_s_hinges_are_let_into_its_lower_edge_and_the_floor() -> None:
    hung = butt_hinges(FLAP, FLOOR, recess="gap")
    assert {one.face for one in recesses(hung.in_door)} == {"bottom"}
    assert {one.face for one in recesses(hung.in_on)} == {"top"}


def test_a_door_hung_at_the_right_is_its_mirror_image() -> None:
    box = replace(INSET.box, left=L("15 in"), right=L("29 3/16 in"))
    hung = butt_hinges(replace(INSET, box=box), OTHER, recess="gap")
    assert {one.face for one in recesses(hung.in_door)} == {"right"}
    assert {one.face for one in recesses(hung.in_on)} == {"left"}
    assert gap(hung) == L("1/16 in")


def test_a_recess_is_a_hinge_recess_to_a_maker() -> None:
    (one, _) = recesses(butt_hinges(INSET, SIDE, recess="gap").in_door)
    made = channel(INSET, one)
    assert (made.name, made.edge, made.deep, made.wide) == ("hinge recess", "front", L("1/16 in"), L("5/8 in"))


@given(sixteenths=st.integers(1, 5), knuckle=st.integers(6, 8))
def test_whatever_the_gap_letting_in_to_the_gap_leaves_it(sixteenths: int, knuckle: int) -> None:
    wide = L("1 in") * Fraction(sixteenths, 16)
    door = replace(INSET, box=replace(INSET.box, left=SIDE.box.right + wide))
    hung = butt_hinges(door, SIDE, replace(BUTT, pin=L("1 in") * Fraction(knuckle, 16)), recess="gap")
    assert gap(hung) == wide
    assert hung.leaves is not None
    assert hung.leaves.in_door == hung.leaves.in_on


def test_wood_taken_is_what_the_solid_lacks() -> None:
    hung = butt_hinges(INSET, SIDE, recess="gap")
    cut = INSET.with_features(recesses(hung.in_door))
    taken = solid(INSET).volume() - solid(cut).volume()
    # manifold3d's own volume against two blocks of 1/16 × 5/8 × 2 in
    assert taken == pytest.approx(2 * (25.4**3) * (1 / 16) * (5 / 8) * 2, rel=1e-9)


def away(by: str) -> Part:
    return replace(INSET, box=replace(INSET.box, left=SIDE.box.right + L(by, "in")))


def test_a_gap_as_wide_as_the_knuckle_has_nothing_to_let_in() -> None:
    with pytest.raises(PlanError, match="there is nothing to let in"):
        butt_hinges(away("3/16"), SIDE, recess="gap")


def test_a_recess_half_as_deep_as_the_wood_is_refused() -> None:
    with pytest.raises(PlanError, match="leaves less than half of it"):
        butt_hinges(INSET, SIDE, recess=L("3/8 in"))


def test_a_recess_that_misses_what_the_door_hangs_on_is_refused() -> None:
    short = replace(SIDE, box=replace(SIDE.box, top=L("20 in")))
    with pytest.raises(PlanError, match="does not lie on it"):
        butt_hinges(INSET, short, recess="gap")
