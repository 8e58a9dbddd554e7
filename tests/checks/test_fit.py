"""Parts that overlap, joints that stay open, thin gaps, loose parts, and boots that do not go in."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import Build, glue
from plankit.checks.fit import (
    fit,
    loose_parts,
    near_misses,
    open_joints,
    overlaps,
    things_that_do_not_fit,
)
from plankit.parts import Banding, Box, Groove, Notch, Part, Taper
from plankit.units import L
from tests.checks.small_builds import (
    FLOOR,
    FOOT,
    INCHES,
    PLY,
    SIDE,
    boots,
    footed,
    instead,
    mirrored,
    shelved,
    sided,
    with_part,
)
from tests.parts.one_of_each import ONE_OF_EACH, box


def moved(part: Part, axis: str, by: str) -> Box:
    return part.box.moved(axis, L(by, "in"))  # type: ignore[arg-type]


def test_parts_that_meet_face_to_face_do_not_overlap() -> None:
    assert overlaps(sided(), INCHES) == ()
    assert overlaps(footed(), INCHES) == ()


def test_a_side_an_eighth_too_low_runs_into_the_floor() -> None:
    (found,) = overlaps(instead(sided(), "side", box=moved(SIDE, "z", "-1/8")), INCHES)
    assert (found.level, found.part, found.number) == ("must fix", "Bottom", "1/8\u00a0in")
    assert "Bottom and Side run into each other" in found.what


def test_a_notch_round_a_rail_lets_it_pass_and_a_smaller_one_does_not() -> None:
    # a 1 1/2 × 3/4 rail through the corner of a panel; the notch is as large, or 1/16 too short
    rail = Part("rail", "Rail", "board", PLY, box("0", "1 1/2", "0", "3/4", "-5", "5"), "z", "y")
    panel = Part("panel", "Divider", "panel", PLY, box("0", "20", "0", "10", "0", "3/4"), "x", "z")
    fits = panel.with_features([Notch(box("0", "1 1/2", "0", "3/4", "0", "3/4"), "Rail")])
    small = panel.with_features([Notch(box("0", "1 7/16", "0", "3/4", "0", "3/4"), "Rail")])
    assert overlaps(Build("b", (rail, fits)), INCHES) == ()
    (found,) = overlaps(Build("b", (rail, small)), INCHES)
    assert found.number == "1/16\u00a0in"


def test_a_shelf_in_its_groove_does_not_overlap() -> None:
    # a 1/4 in deep groove, 3/4 wide; the shelf's end stands in it
    side = SIDE.with_features([Groove("right", box("1/2", "3/4", "0", "12", "5", "5 3/4"))])
    shelf = Part("shelf", "Shelf", "panel", PLY, box("1/2", "20", "0", "12", "9 3/4", "10 1/2"), "x", "z")
    assert overlaps(Build("b", (side, shelf)), INCHES) == ()
    assert overlaps(Build("b", (SIDE, shelf)), INCHES)[0].number == "1/4\u00a0in"


def test_banding_fills_no_space_of_its_own() -> None:
    banded = SIDE.with_features([Banding("front", L("1/4 in"))])
    assert overlaps(instead(sided(), "side", features=banded.features), INCHES) == ()


def test_a_joint_whose_part_was_moved_away_stays_open() -> None:
    assert open_joints(sided(), INCHES) == ()
    (found,) = open_joints(instead(sided(), "side", box=moved(SIDE, "z", "1/4")), INCHES)
    assert (found.level, found.part, found.number) == ("must fix", "Side", "1/4\u00a0in")
    assert "there is a gap" in found.what


def test_a_joint_at_a_place_that_is_cut_away_stays_open() -> None:
    # a foot tapered at its top end down to nothing but a corner leaves the floor nothing to stand on
    build = Build("b", (FLOOR, FOOT), (glue(FOOT, FLOOR),))
    assert open_joints(build, INCHES) == ()
    gone = Notch(box("0", "3 1/2", "0", "3 1/2", "3 3/4", "4"))
    (found,) = open_joints(instead(build, "foot", features=(gone,)), INCHES)
    assert "cut away" in found.what
    pared = Taper("left", "top", L("1 in"), L("2 in"))
    assert open_joints(instead(build, "foot", features=(pared,)), INCHES) == ()


@pytest.mark.parametrize(("apart", "count"), [("0", 0), ("1/64", 1), ("3/64", 1), ("1/16", 0), ("1/2", 0)])
def test_a_gap_below_a_sixteenth_is_looked_at(apart: str, count: int) -> None:
    build = instead(sided(), "side", box=moved(SIDE, "z", apart))
    found = near_misses(build, INCHES)
    assert len(found) == count
    assert all(f.level == "look at" and f.number == f"{apart} in" for f in found)


def test_what_no_joint_holds_is_looked_at() -> None:
    assert loose_parts(sided(), INCHES) == ()
    shelf = Part("shelf", "Shelf", "panel", PLY, box("3/4", "20", "0", "12", "9", "9 3/4"), "x", "z")
    (found,) = loose_parts(with_part(sided(), shelf), INCHES)
    assert (found.level, found.check, found.part) == ("look at", "nothing holds it", "Shelf")


def test_two_halves_that_nothing_joins_are_looked_at() -> None:
    far = [replace(p, id=f"far-{p.id}", box=p.box.moved("x", L("60 in"))) for p in (FLOOR, SIDE)]
    build = replace(sided(), parts=(*sided().parts, *far, replace(FOOT, id="lone")))
    build = replace(build, joints=(*build.joints, glue(far[1], far[0])))
    assert {f.part for f in loose_parts(build, INCHES)} == {"Bottom", "Side", "Foot"}


def test_one_part_alone_needs_no_joint() -> None:
    assert loose_parts(Build("b", (FLOOR,)), INCHES) == ()


def test_boots_that_fit_and_boots_a_half_inch_too_wide() -> None:
    build = replace(sided(), things=(boots("3/4", "12"),))
    assert things_that_do_not_fit(build, INCHES) == ()
    (found,) = things_that_do_not_fit(replace(build, things=(boots("1/4", "12"),)), INCHES)
    assert (found.level, found.part, found.number) == ("must fix", "A pair of boots", "1/2\u00a0in")
    assert "Side is in the way" in found.what


def test_two_pairs_of_boots_do_not_share_a_place() -> None:
    build = replace(sided(), things=(boots("1", "12"), replace(boots("11", "20"), name="Another pair")))
    (found,) = things_that_do_not_fit(build, INCHES)
    assert found.number == "1\u00a0in"


def test_a_thing_may_reach_into_a_notch() -> None:
    basket = replace(boots(), name="Basket", box=box("0", "3/4", "0", "2", "15", "17"))
    assert things_that_do_not_fit(replace(sided(), things=(basket,)), INCHES)
    notched = SIDE.with_features([Notch(box("0", "3/4", "0", "2", "10 1/4", "12 1/4"))])
    build = instead(sided(), "side", features=notched.features)
    assert things_that_do_not_fit(replace(build, things=(basket,)), INCHES) == ()


@given(st.integers(-32, 32), st.integers(1, 32))
@settings(max_examples=40, deadline=None)
def test_adding_clearance_never_makes_an_overlap(at: int, more: int) -> None:
    def build(sixteenths: int) -> Build:
        up = L(Fraction(sixteenths, 16), "in")
        return instead(sided(), "side", box=SIDE.box.moved("z", up))

    if not overlaps(build(at), INCHES):
        assert not overlaps(build(at + more), INCHES)


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_any_part_overlaps_itself_and_not_its_neighbour(part: Part) -> None:
    twin = replace(part, id="twin")
    beside = part.moved("x", part.box.extent("x"), "beside")
    assert len(overlaps(Build("b", (part, beside)), INCHES)) == 0
    found = overlaps(Build("b", (part, twin)), INCHES)
    assert len(found) == 1


@pytest.mark.parametrize("axis", ["x", "y"])
def test_mirroring_a_build_changes_no_finding_but_its_words(axis: str) -> None:
    broken = replace(instead(sided(), "side", box=moved(SIDE, "z", "-1/8")), things=(boots("1/4", "12"),))
    loose = with_part(broken, replace(FOOT, id="lone", box=box("40", "43 1/2", "0", "3 1/2", "0", "4")))
    for build in (loose, shelved(), footed()):
        found, image = fit(build, INCHES), fit(mirrored(build, axis), INCHES)
        assert [(f.level, f.check, f.part, f.number) for f in found] == [
            (f.level, f.check, f.part, f.number) for f in image
        ]


def test_a_groove_holds_a_thin_back_and_a_rabbet_does_not() -> None:
    """A back 1/4 thick, let in 1/4 deep at the back edge of two sides, or in the midst of them."""
    def loose(low: str, high: str) -> set[str]:
        side = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "12", "0", "20"), "z", "x").with_features(
            [Groove("right", box("1/2", "3/4", low, high, "0", "20"))]
        )
        other = side.mirrored("x", L("10 in"), "other")
        back = Part("back", "Back", "panel", PLY, box("1/2", "19 1/2", low, high, "0", "20"), "z", "y")
        floor = Part("floor", "Floor", "panel", PLY, box("3/4", "19 1/4", "0", "11", "0", "3/4"), "x", "z")
        joints = tuple(glue(floor, one) for one in (side, other))
        return {one.part for one in loose_parts(Build("b", (side, other, floor, back), joints), INCHES)}

    assert loose("11 3/4", "12") == {"Back"}
    assert loose("11 1/4", "11 1/2") == set()
