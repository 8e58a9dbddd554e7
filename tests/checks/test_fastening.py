"""Screws that come through, hold too little, split, miss or meet; the nearest right ones raise nothing."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import Build, brads, face_screws, glue, screw
from plankit.checks import fastening
from plankit.checks.clashes import closest
from plankit.checks.driven import all_driven
from plankit.finding import LEVELS, Finding
from plankit.parts import Notch, Part, Taper
from plankit.stock import lumber, sheet
from plankit.units import L, Notation
from tests.checks.small_builds import (
    FLOOR,
    FOOT,
    INCHES,
    SIDE,
    THIN,
    footed,
    framed,
    instead,
    mirrored,
    sided,
)
from tests.parts.one_of_each import PLY, POST, box

BACK = Part("back", "Back", "panel", THIN, box("0", "30", "12", "12 1/4", "4 3/4", "17"), "x", "y")


def said(build: Build, check: str) -> tuple[Finding, ...]:
    return tuple(finding for finding in fastening(build, INCHES) if finding.check == check)


def alarms(build: Build) -> tuple[Finding, ...]:
    """Everything that is more than for information, but for end grain."""
    found = fastening(build, INCHES)
    return tuple(f for f in found if f.level != "for information" and f.check != "screw in end grain")


def test_a_foot_screw_of_two_and_a_half_inches_is_right() -> None:
    assert alarms(footed("#8 x 2 1/2")) == ()


@pytest.mark.parametrize(
    # floor 3/4 and foot 4: 4 3/4 in of wood
    ("length", "level"),
    [("4 1/2", None), ("4 5/8", None), ("4 11/16", "look at"), ("4 3/4", "look at"), ("5", "must fix")],
)
def test_a_foot_screw_too_long_comes_through(length: str, level: str | None) -> None:
    found = said(footed(f"#8 x {length}"), "fastener comes through") + said(
        footed(f"#8 x {length}"), "little wood over the tip"
    )
    assert [f.level for f in found] == ([level] if level else [])


def test_the_finding_says_where_by_how_much_and_what_to_use() -> None:
    (found,) = said(footed("#8 x 5"), "fastener comes through")
    assert found.part == "Foot"
    assert "comes out of the bottom of Foot" in found.what
    assert found.number == "1/4\u00a0in"  # 5 less 4 3/4
    assert found.remedy == "Use one no longer than 4\u00a01/2\u00a0in."  # 4 3/4 less 1/8, sold by quarters
    assert found.place.startswith("2\u00a01/4\u00a0in from the left")


def test_a_screw_near_a_tapered_face_comes_out_of_its_side() -> None:
    # the screw stands 1 3/4 in from the foot's left face, which leans in by 3 in towards the floor
    steep = (Taper("left", "bottom", L("3 in"), L("4 in")),)
    build = instead(footed("#8 x 3 1/2"), "foot", features=steep)
    # tip 2 3/4 in into the foot, 1 1/4 above the floor: there 3 × (1 − 1.25/4) = 2.0625 in is taken off
    (found,) = said(build, "fastener comes through")
    assert "the left side of Foot" in found.what
    short = instead(footed("#8 x 2 1/2"), "foot", features=steep)
    # tip 1 3/4 in: taken off 3 × (1 − 2.25/4) = 1.3125 of 1 3/4, less half of 0.164
    assert said(short, "fastener comes through") == ()


@pytest.mark.parametrize("thick", ["3/4", "23/32"])
def test_pocket_screws_into_plywood_of_their_own_thickness_are_right(thick: str) -> None:
    # common practice: 1 1/4 in pocket screws in 3/4 in stock, tip 0.664 in deep
    assert alarms(framed(thick=thick)) == ()
    assert alarms(sided()) == ()


def test_pocket_screws_into_half_inch_plywood_come_through() -> None:
    found = said(framed(thick="1/2"), "fastener comes through")
    assert {f.level for f in found} == {"must fix"}
    assert "right side of Post" in found[0].what


def test_brads_through_a_thin_back_into_a_plywood_edge_are_right() -> None:
    # 1 in through 1/4, 3/4 in in the edge: 14 diameters of 18-gauge wire are 0.665 in
    build = Build("b", (SIDE, BACK), (brads(BACK, SIDE, L("1 in")),))
    assert fastening(build, INCHES) == ()


def test_short_brads_hold_too_little() -> None:
    build = Build("b", (SIDE, BACK), (brads(BACK, SIDE, L("3/4 in")),))
    (found,) = fastening(build, INCHES)
    assert (found.level, found.check, found.number) == ("look at", "too little bite", "1/2\u00a0in")
    assert found.remedy == "Use one 1\u00a0in long."


def test_pins_with_nothing_behind_them() -> None:
    # the side is moved 2 in inwards after the pins were placed on it
    joint = brads(BACK, SIDE, L("1 in"))
    build = Build("b", (replace(SIDE, box=SIDE.box.moved("x", L("2 in"))), BACK), (joint,))
    (found,) = said(build, "nothing behind it")
    assert found.level == "must fix"
    assert "passes beside Side" in found.what
    near = Build("b", (replace(SIDE, box=SIDE.box.moved("x", L("1/4 in"))), BACK), (joint,))
    assert said(near, "nothing behind it") == ()  # pins 1/8 in from the edge still meet it


def test_a_pin_that_runs_into_a_notch_has_nothing_behind_it() -> None:
    notched = replace(SIDE, features=(Notch(box("0", "3/4", "11", "12", "0", "3")),))
    build = Build("b", (notched, BACK), (brads(BACK, SIDE, L("1 in")),))
    (found,) = said(build, "nothing behind it")
    assert "runs into the notch" in found.what
    assert found.number == "1\u00a0place"  # of four pins, 1 in from the ends and 5 apart, one is below 3 in
    low = replace(
        SIDE, features=(Notch(box("0", "3/4", "0", "1", "0", "3")),)
    )  # at the front, away from the pins
    assert said(Build("b", (low, BACK), (brads(BACK, SIDE, L("1 in")),)), "nothing behind it") == ()


def test_a_screw_that_does_not_get_through_its_first_part() -> None:
    (found,) = said(footed("#8 x 1/2"), "fastener too short")
    assert (found.level, found.number) == ("must fix", "1/4\u00a0in")
    # 3/4 of plywood and as much again (less than 6 diameters, 0.984 in)
    assert found.remedy == "Use one 1\u00a01/2\u00a0in long."


@pytest.mark.parametrize(
    ("length", "level"),
    # 3/4 in lies in the floor. 2 diameters of #8: 0.328 in; wanted: as much as the floor is thick, 3/4 in
    # (6 diameters, NDS 12.1.5.6, would be 0.984 in)
    [("1", "must fix"), ("1 1/4", "look at"), ("1 1/2", None), ("2 1/2", None)],
)
def test_bite(length: str, level: str | None) -> None:
    found = said(footed(f"#8 x {length}"), "too little bite")
    assert [f.level for f in found] == ([level] if level else [])


def test_six_diameters_count_where_the_first_part_is_thick() -> None:
    # through a 1 1/2 in rail: 6 × 0.164 = 0.984 in is enough, 7/8 in is not (NDS 12.1.5.6)
    thick = replace(FLOOR, stock=sheet("plywood", "3/4"), box=box("0", "30", "0", "12", "4", "5 1/2"))
    for length, count in (("2 3/8", 1), ("2 1/2", 0)):
        joint, _ = face_screws(thick, FOOT, screw(f"#8 x {length}"), 1)
        assert len(said(Build("b", (thick, FOOT), (joint,)), "too little bite")) == count


def test_where_no_longer_screw_fits_little_bite_is_for_information() -> None:
    # 3/4 in into the face of 3/4 in plywood: 1 1/4 in leaves 1/4 over the tip, 1 1/2 in would come through
    cleat = Part("cleat", "Cleat", "panel", PLY, box("3/4", "1 1/2", "0", "12", "10", "12"), "y", "x")
    joint, _ = face_screws(cleat, SIDE, screw("#8 x 1 1/4"))
    (found,) = said(Build("b", (cleat, SIDE), (joint,)), "too little bite")
    assert found.level == "for information"
    assert "no room for a longer one" in found.remedy


def test_where_glue_holds_as_well_no_glue_is_asked_for() -> None:
    cleat = Part("cleat", "Cleat", "panel", PLY, box("3/4", "1 1/2", "0", "12", "10", "12"), "y", "x")
    joint, _ = face_screws(cleat, SIDE, screw("#8 x 1 1/4"))
    (bare,) = said(Build("b", (cleat, SIDE), (joint,)), "too little bite")
    (glued,) = said(Build("b", (cleat, SIDE), (joint, glue(SIDE, cleat))), "too little bite")
    assert "add glue" in bare.remedy
    assert "add glue" not in glued.remedy
    assert "glue holds it as well" in glued.remedy
    assert replace(glued, remedy="") == replace(bare, remedy="")


def test_where_screws_slide_in_slots_no_glue_is_asked_for() -> None:
    # the same cleat with slots: what is screwed on so widens and shrinks, and glue would split it
    cleat = Part("cleat", "Cleat", "panel", PLY, box("3/4", "1 1/2", "0", "12", "10", "12"), "y", "x")
    joint, _ = face_screws(cleat, SIDE, screw("#8 x 1 1/4"))
    slotted = replace(joint, fasteners=tuple(replace(one, travel=L("1/4 in")) for one in joint.fasteners))
    (found,) = said(Build("b", (cleat, SIDE), (slotted,)), "too little bite")
    assert "add glue" not in found.remedy
    assert "no glue" in found.remedy


def test_what_is_held_and_what_is_wanted_differ_in_words_too() -> None:
    # 1 less 0.51 is 0.49, and 0.51 is wanted: both ≈1/2 at sixteenths; 31/64 is 0.484, 33/64 is 0.516
    thin = sheet("plywood", "1/2", measured="0.51")
    floor = replace(FLOOR, stock=thin, box=box("0", "30", "0", "12", "4", "4.51"))
    joint, _ = face_screws(floor, FOOT, screw("#8 x 1"), 1)
    (found,) = said(Build("b", (floor, FOOT), (joint,)), "too little bite")
    assert "≈33/64\u00a0in is wanted" in found.what
    assert found.number == "≈31/64\u00a0in"


@given(st.integers(2, 24), st.integers(1, 6))
@settings(max_examples=60, deadline=None)
def test_a_longer_screw_never_raises_the_bite_finding(quarters: int, more: int) -> None:
    def level(count: int) -> int:
        found = said(footed(f"#8 x {count}/4"), "too little bite") + said(
            footed(f"#8 x {count}/4"), "fastener too short"
        )
        return min((LEVELS.index(f.level) for f in found), default=len(LEVELS))

    assert level(quarters + more) >= level(quarters)


def test_end_grain_is_looked_at_and_side_grain_is_not() -> None:
    (found,) = said(footed(), "screw in end grain")
    assert (found.level, found.part) == ("look at", "Foot")
    assert "75 %" in found.number  # Wood Handbook ch. 8
    lying = instead(footed(), "foot", grain="x", features=())
    assert said(lying, "screw in end grain") == ()
    assert said(sided(), "screw in end grain") == ()  # plywood has no end grain of that kind


def test_two_pocket_screws_in_the_end_of_a_1x2_may_split_it() -> None:
    # common practice: one hole on ends of 1x2 and 2x2, with glue
    assert said(framed("1 1/2"), "may split") == ()
    (found,) = said(framed("1 1/2", count=2), "may split")
    assert (found.level, found.part) == ("must fix", "Rail")
    assert said(framed("3 1/2", count=2), "may split") == ()


def test_a_screw_at_the_very_end_of_a_board_may_split_it() -> None:
    pine = lumber("1x4", species="Douglas-fir")
    rail = Part("rail", "Rail", "board", pine, box("0", "12", "0", "3 1/2", "4", "4 3/4"), "x", "z")
    for left, count in (("0", 1), ("4", 0)):  # the post stands at the rail's end, or 4 in from it
        ends = box("0", "3/4", "0", "3 1/2", "0", "4")
        post = Part("post", "Post", "board", POST, ends.moved("x", L(left, "in")), "z", "y")
        joint, _ = face_screws(rail, post, screw("#8 x 2"), 1)
        # 3/8 in from the end: 3 diameters are 0.492 in
        assert len(said(Build("b", (rail, post), (joint,)), "may split")) == count


def test_a_screw_centred_in_plywood_is_for_information_only() -> None:
    # the published guide asks 2 1/2 diameters, 0.41 in; the middle of 3/4 in leaves 3/8
    (found,) = said(sided(), "near an edge")
    assert "Bottom" in found.what
    assert (found.level, found.number) == ("for information", "3/8\u00a0in")


def test_two_screws_that_meet_in_a_post() -> None:
    # rails from the right and from the back meet one post at one height; then one stands 1 in higher
    post = Part("post", "Post", "board", POST, box("0", "3 1/2", "0", "3 1/2", "0", "30"), "z", "y")
    right = Part(
        "right", "Right rail", "panel", PLY, box("3 1/2", "4 1/4", "1", "2 1/2", "10", "12"), "z", "x"
    )
    for up, count in (("0", 1), ("1", 0)):
        ends = box("1", "2 1/2", "3 1/2", "4 1/4", "10", "12").moved("z", L(up, "in"))
        back = Part("back", "Back rail", "panel", PLY, ends, "z", "y")
        one, _ = face_screws(right, post, screw("#8 x 3"), 1)
        two, _ = face_screws(back, post, screw("#8 x 3"), 1)
        found = said(Build("b", (post, right, back), (one, two)), "fasteners meet")
        assert len(found) == count
        assert all(f.level == "must fix" and f.part == "Post" for f in found)


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        (((0, 0, 0), (10, 0, 0)), ((5, -5, 3), (5, 5, 3)), 3),  # crossing, three above
        (((0, 0, 0), (10, 0, 0)), ((0, 4, 0), (10, 4, 0)), 4),  # side by side
        (((0, 0, 0), (10, 0, 0)), ((13, 4, 0), (20, 4, 0)), 5),  # past the end: 3 along, 4 across
        (((0, 0, 0), (0, 0, 0)), ((3, 4, 0), (3, 9, 0)), 5),  # a point
        (((0, 0, 0), (10, 0, 0)), ((5, 0, 0), (5, 5, 0)), 0),  # touching
    ],
)
def test_distance_between_two_pieces_of_line(one, other, apart: float) -> None:
    assert closest(one, other) == pytest.approx(apart)
    assert closest(other, one) == pytest.approx(apart)


COORDINATE = st.integers(-20, 20).map(float)
SPOT = st.tuples(COORDINATE, COORDINATE, COORDINATE)


@given(st.tuples(SPOT, SPOT), st.tuples(SPOT, SPOT))
@settings(max_examples=60, deadline=None)
def test_distance_between_lines_against_a_fine_grid(one, other) -> None:
    # brute force: every 1/40 of each piece against every 1/40 of the other is never nearer, and nearly so
    def along(piece, share: float):
        return tuple(a + (b - a) * share for a, b in zip(*piece, strict=True))

    steps = [step / 40 for step in range(41)]
    grid = min(
        sum((p - q) ** 2 for p, q in zip(along(one, s), along(other, t), strict=True)) ** 0.5
        for s in steps
        for t in steps
    )
    longest = max(sum((b - a) ** 2 for a, b in zip(*piece, strict=True)) ** 0.5 for piece in (one, other))
    assert closest(one, other) <= grid + 1e-9
    assert grid <= closest(one, other) + longest / 40 + 1e-9


@pytest.mark.parametrize("axis", ["x", "y"])
@pytest.mark.parametrize(
    "build",
    [footed(), footed("#8 x 5"), footed("#8 x 1"), sided(), framed(thick="1/2"), framed("1 1/2", count=2)],
    ids=["right", "long", "short", "sided", "through", "split"],
)
def test_mirroring_a_build_changes_no_finding_but_its_words(build: Build, axis: str) -> None:
    found, image = fastening(build, INCHES), fastening(mirrored(build, axis), INCHES)
    assert [(f.level, f.check, f.part, f.number) for f in found] == [
        (f.level, f.check, f.part, f.number) for f in image
    ]


def test_what_lies_in_the_two_parts_is_the_whole_screw() -> None:
    for build in (footed(), sided(), framed()):
        for driven in all_driven(build):
            assert driven.first + driven.held == driven.fastener.spec.length


def test_every_number_a_reader_sees_is_in_the_plan_s_unit() -> None:
    metric = Notation("mm")
    found = fastening(footed("#8 x 5"), metric)
    assert all("mm" in f.number for f in found if f.check == "fastener comes through")
    assert Fraction(1, 4) == L(
        found[0].number.replace("\u00a0", " ").removeprefix("≈")
    ).inches.limit_denominator(4)


@pytest.mark.parametrize(("amount", "count"), [("2 5/8", 0), ("2 11/16", 1)])
def test_half_the_screw_s_thickness_counts_beside_a_tapered_face(amount: str, count: int) -> None:
    # tip of a 3 1/4 in screw 1 1/2 in above the floor, 1 3/4 in from the face as it was: the taper takes
    # 5/8 of its amount there, which leaves 0.109 or 0.070 in; half of a #8 is 0.082
    steep = (Taper("left", "bottom", L(amount, "in"), L("4 in")),)
    build = instead(footed("#8 x 3 1/4"), "foot", features=steep)
    assert len(said(build, "fastener comes through")) == count
