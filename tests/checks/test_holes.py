"""Holes of one part that run into each other, or leave next to no wood between them; what belongs together passes."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import Build, brads, dowels, face_screws, pocket_screws, screw
from plankit.checks import holes
from plankit.checks.holes import keeps_clear
from plankit.checks.hollows import bored
from plankit.finding import Finding
from plankit.parts import Bore, Face, Feature, Lean, Part, PocketHoles, Point
from plankit.stock import lumber, sheet
from plankit.units import Angle, L, Length
from tests.checks.small_builds import INCHES, PLY, footed, framed, mirrored, sided
from tests.parts.one_of_each import POST, box

LEG = Part("leg", "Leg", "board", POST, box("0", "3 1/2", "0", "3 1/2", "0", "28"), "z", "y")
DIVIDER = Part("divider", "Divider", "panel", PLY, box("0", "3/4", "0", "12", "0", "30"), "z", "x")
RAIL = Part("rail", "Rail", "board", lumber("1x4", species="Douglas-fir"),
            box("0", "10", "0", "3/4", "0", "3 1/2"), "x", "y")  # fmt: skip


def hole(  # noqa: PLR0917 - a hole
    face: Face,
    at: tuple[str, str, str],
    across: str = "3/8",
    deep: str | None = "1",
    sunk: str | None = None,
    use: str = "",
) -> Bore:
    x, y, z = (L(one, "in") for one in at)
    wide = None if sunk is None else L(sunk, "in")
    return Bore(face, (x, y, z), L(across, "in"), None if deep is None else L(deep, "in"), use, wide)


def found(part: Part, *features: Feature) -> tuple[Finding, ...]:
    return holes(Build("One", (part.with_features(features),)), INCHES)


def levels(part: Part, *features: Feature) -> list[str]:
    return [one.level for one in found(part, *features)]


# Bores


@pytest.mark.parametrize(
    # their middles lie so far apart in height; 3/8 in across both: they meet below 3/8, and are thin below 7/16
    ("apart", "level"),
    [("0", ["must fix"]), ("5/16", ["must fix"]), ("13/32", ["look at"]), ("7/16", []), ("1", [])],
)
def test_dowels_of_two_rails_that_meet_in_a_leg_must_pass_each_other(apart: str, level: list[str]) -> None:
    from_the_right = hole("right", ("0", "1 3/4", "26"), deep="2 1/4")
    from_the_back = hole("back", ("1 3/4", "0", "26"), deep="2 1/4")
    at = (from_the_back.at[0], from_the_back.at[1], L("26 in") + L(apart, "in"))
    assert levels(LEG, from_the_right, replace(from_the_back, at=at)) == level


@pytest.mark.parametrize(
    ("second", "told"),
    [
        (hole("right", ("0", "2", "12"), "3/8", None), True),  # the same again
        (hole("right", ("0", "2", "12"), "1/4", None), True),  # all of it is gone already
        (hole("right", ("0", "2", "12"), "3/8", "1/2"), True),
        (hole("right", ("0", "2", "12"), "1/2", "1/4"), False),  # a counterbore
        (hole("right", ("0", "2", "13"), "3/8", None), False),  # another place
        (hole("left", ("0", "2", "12"), "3/8", None), False),  # bored from both faces for clean rims
    ],
)
def test_a_hole_that_lies_in_another_is_told(second: Bore, told: bool) -> None:
    twice = found(DIVIDER, hole("right", ("0", "2", "12"), "3/8", None), second)
    assert [(one.level, one.check, one.part) for one in twice] == [("look at", "hole bored twice", "Divider")] * told


def test_the_finding_says_which_holes_where_and_by_how_much() -> None:
    # side by side, 1/4 in from middle to middle: 3/8 less 1/4 of each is the other's
    (one,) = found(LEG, hole("right", ("0", "1", "10"), use="3/8 in dowel"), hole("right", ("0", "1 1/4", "10")))
    assert one.part == "Leg"
    assert one.check == "holes meet"
    assert one.what == "In Leg, a hole in the right and a hole in the right (3/8 in dowel) run into each other."
    assert one.number == "≈1/8\u00a0in is common to both"
    assert one.place.endswith("10\u00a0in up")
    (thin,) = found(LEG, hole("right", ("0", "1", "10")), hole("right", ("0", "1 13/32", "10")))
    assert "next to no wood is left between a hole in the right and another like it" in thin.what
    assert thin.number == "≈1/32\u00a0in"  # 13/32 less 3/8


@pytest.mark.parametrize(
    # two of 1/2 in go 1 in into 3/4; two of 3/8 leave nothing; two of 5/16 leave 1/8
    ("deep", "level"),
    [("1/2", ["must fix"]), ("3/8", ["look at"]), ("5/16", [])],
)
def test_pin_holes_opposite_one_another_in_a_divider_must_not_meet(deep: str, level: list[str]) -> None:
    at = ("0", "2", "12")
    assert levels(DIVIDER, hole("left", at, "1/4", deep), hole("right", at, "1/4", deep)) == level


def test_holes_that_belong_together_pass() -> None:
    at = ("0", "2", "12")
    assert not found(DIVIDER, hole("right", at, "1", "1/4"), hole("right", at, "1/4", None))  # a counterbore
    assert not found(DIVIDER, hole("right", at, "1/4", None), hole("left", at, "1/4", None))  # bored from both
    assert not found(DIVIDER, hole("right", at, "3/16", None, sunk="3/8"))


def test_a_countersink_counts_at_the_surface() -> None:
    # the cone 1/2 in wide, the other 3/16, 5/16 from middle to middle: the cone's rim alone reaches into the other
    sunk, plain = hole("right", ("0", "2", "12"), "3/16", None, "1/2"), hole("right", ("0", "2 5/16", "12"), "3/16")
    assert levels(DIVIDER, sunk, replace(plain, depth=L("1/2 in"))) == ["must fix"]
    assert levels(DIVIDER, replace(sunk, countersink=None), replace(plain, depth=L("1/2 in"))) == []


def test_a_slot_counts_as_long_as_it_is() -> None:
    # half of 3/4 in of travel and two radii of 1/8: 5/8
    slot = replace(hole("right", ("0", "2", "12"), "1/4", None), travel=L("3/4 in"), along="y")
    assert levels(DIVIDER, slot, hole("right", ("0", "2 9/16", "12"), "1/4", "1/2")) == ["must fix"]
    assert levels(DIVIDER, slot, hole("right", ("0", "2 3/4", "12"), "1/4", "1/2")) == []
    assert levels(DIVIDER, slot, hole("right", ("0", "2", "12 9/16"), "1/4", "1/2")) == []


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.integers(1, 40), st.integers(4, 16), st.integers(4, 16))
def test_round_holes_that_cross_are_told_by_the_distance_of_their_middles(apart: int, one: int, other: int) -> None:
    left = Fraction(apart, 32) - Fraction(one + other, 64)  # what is between them, in inches
    if abs(left) < Fraction(1, 64) or abs(left - Fraction(1, 16)) < Fraction(1, 64):
        return  # corners of the solids, which are no quite round, decide
    first = hole("right", ("0", "1 3/4", "20"), f"{one}/32", None)
    higher = (L("1 3/4 in"), L("0 in"), L("20 in") + L(f"{apart}/32 in"))
    second = replace(hole("back", ("1 3/4", "0", "0"), f"{other}/32", None), at=higher)
    expected = ["must fix"] if left < 0 else ["look at"] if left < Fraction(1, 16) else []
    assert levels(LEG, first, second) == expected


# Pockets


@pytest.mark.parametrize(
    # the pocket's middle leaves the back 3/8 / tan 15° = 1.40 in from the end and deepens by 0.268 an inch; its rim
    # lies 3/16 / cos 15° = 0.194 deeper. A 1/4 in hole down the middle of 3/4 begins 1/4 in deep: they meet up to
    # 1.19 in from the end, and leave less than 1/16 in up to 1.43 in
    ("from_end", "level"),
    [("7/8", ["must fix"]), ("1 1/8", ["must fix"]), ("1 5/16", ["look at"]), ("1 1/2", []), ("3", [])],
)
def test_a_hole_in_the_edge_of_a_rail_must_pass_its_slanting_pocket(from_end: str, level: list[str]) -> None:
    pocket = PocketHoles("back", "right", (L("1 3/4 in"),))
    at = (L("10 in") - L(from_end, "in"), L("3/8 in"), L("0 in"))
    assert levels(RAIL, pocket, replace(hole("top", ("0", "0", "0"), "1/4", None), at=at)) == level


def test_pockets_of_one_row_too_close_run_into_each_other() -> None:
    def row(apart: str) -> PocketHoles:
        return PocketHoles("back", "right", (L("1 in"), L("1 in") + L(apart, "in")))

    assert [levels(RAIL, row(apart)) for apart in ("5/16", "13/32", "1/2")] == [["must fix"], ["look at"], []]


# Screws


def test_a_screw_in_its_own_hole_is_no_finding() -> None:
    for build in (footed(), sided(), framed(), framed(count=2)):
        assert holes(build, INCHES) == ()


def _into_an_end(height: str, kind: str = "screw") -> Build:
    """A rail with a pocket in its middle, and a side with a screw or a brad into the rail's end, at some height."""
    post = Part("post", "Post", "panel", PLY, box("10", "10 3/4", "-1", "2", "-8", "30"), "z", "x")
    joint, pockets = pocket_screws(RAIL, post, "back", 1)
    rail = RAIL.with_features(pockets)
    back = Part("back", "Back", "panel", sheet("plywood", "1/4"),
                replace(box("0", "3", "3/4", "1", "0", "2"), left=L("8 in"), right=L("9 1/4 in"),
                        bottom=L(height, "in"), top=L(height, "in") + L("1 in")), "x", "y")  # fmt: skip
    if kind == "brad":
        made = brads(back, rail, L("3/4 in"))
        return Build("Railed", (rail, post, back), (joint, made))
    made, bores = face_screws(back, rail, screw("#6 x 3/4"), 1)
    return Build("Railed", (rail, post, back.with_features(bores)), (joint, made))


def test_a_screw_into_a_pocket_must_be_moved_and_a_brad_there_is_only_told() -> None:
    # the pocket lies 1 3/4 in up, 0.86 to 2.1 in from the end; the screw 1 3/8 in from the end
    (one,) = holes(_into_an_end("1 1/4"), INCHES)
    assert one.level == "must fix"
    assert one.what == "In Rail, a pocket hole in the back and a #6 × 3/4 in wood screw run into each other."
    assert holes(_into_an_end("2"), INCHES) == ()
    assert {one.level for one in holes(_into_an_end("1 1/4", "brad"), INCHES)} == {"for information"}


def test_two_screws_that_meet_are_not_told_a_second_time() -> None:
    side = Part("side", "Side", "panel", PLY, box("0", "12", "0", "12", "28", "28 3/4"), "x", "z")
    joint, bores = face_screws(side, LEG, screw("#8 x 2"), 1)
    twice = Build("Twice", (side.with_features((*bores, *bores)), LEG), (joint, joint))
    assert holes(twice, INCHES) == ()


def test_dowels_have_a_hole_on_one_line_in_both_parts() -> None:
    shelf = Part("shelf", "Shelf", "panel", PLY, box("3/4", "20", "0", "12", "10", "10 3/4"), "x", "z")
    side = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "12", "0", "30"), "z", "x")
    made = dowels(shelf, side)
    parts = (shelf.with_features(made.holes), side.with_features(made.into_holes))
    assert holes(Build("Doweled", parts, (made.joint,)), INCHES) == ()
    between = hole("right", ("0", "6", "0"), "1/4", "3/8")
    crossing = replace(between, at=made.into_holes[0].at, diameter=L("1/4 in"), face="left")
    meeting = replace(parts[1], features=(*parts[1].features, crossing))
    assert [one.level for one in holes(Build("Doweled", (parts[0], meeting), (made.joint,)), INCHES)] == ["must fix"]


def test_a_leaning_or_a_mirrored_part_has_the_same_findings() -> None:
    features = (hole("right", ("0", "1 3/4", "26"), deep="2 1/4"), hole("back", ("1 3/4", "0", "26"), deep="2 1/4"))
    lean = (Lean("x", Point(*(Length.zero(),) * 3), Angle(Fraction(12))),)
    leg = LEG.with_features(features)
    (upright,), (leaning,) = (holes(Build("One", (replace(leg, leans=leans),)), INCHES) for leans in ((), lean))
    assert replace(upright, place="") == replace(leaning, place="")
    assert upright.place != leaning.place
    turned = holes(mirrored(Build("One", (leg,))), INCHES)
    assert [one.level for one in turned] == ["must fix"]
    assert turned[0].number == upright.number


def test_a_screw_keeps_clear_of_a_hole_where_a_sixteenth_is_left() -> None:
    build = _into_an_end("1 1/4")
    rail = build.part("rail")
    (pocket,) = bored(rail)
    assert not keeps_clear(rail, pocket, build.joints[1].fasteners[0])
    assert keeps_clear(rail, pocket, _into_an_end("2").joints[1].fasteners[0])
