"""Solid wood held across its grain, panels without room, against the Wood Handbook's equations."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import Build, Moving, Pivot, face_screws, fix_top, glue, movement, screw
from plankit.build.movement import DAMP, DRY, equilibrium_moisture
from plankit.checks.wood_movement import held_across, wood_movement
from plankit.parts import Groove, Part, Point
from plankit.reference import species
from plankit.stock import lumber
from plankit.units import L
from tests.checks.small_builds import BATTEN, FLOOR, FOOT, INCHES, PLY, SLAB, footed, shelved, sided
from tests.checks.turned_builds import plain, quarter, reflected
from tests.parts.one_of_each import box
from tests.plan.demo import bench
from tests.published import published, within

MOVES = {row["id"]: row for row in published("movement")}
CHERRY = lumber("1x12", species="black cherry")
STUD = lumber("2x4", species="Douglas-fir")


def slab(wide: str = "18") -> Part:
    return Part("top", "Top", "glue-up", SLAB, box("0", "40", "0", wide, "17", "18 1/2"), "x", "z")


def cleat(at: str = "2", deep: str = "18") -> Part:
    ends = box(at, str(Fraction(at) + Fraction(3, 2)), "0", deep, "16 1/4", "17")
    return Part(f"cleat{at}", "Cleat", "board", BATTEN, ends, "y", "z")


def test_a_top_held_by_round_holes_at_both_edges_must_be_fixed() -> None:
    # three screws from 2 in to 16 in: 14 in of loblolly pine, C 0.00259, 6.2 % to 13.1 % of moisture
    joint, holes = face_screws(cleat(), slab(), screw("#8 x 1 3/4"), 3)
    build = Build("Rigid", (slab(), cleat().with_features(holes)), (joint,))
    (found,) = wood_movement(build, INCHES)
    assert (found.level, found.check, found.part) == ("must fix", "held across the grain", "Top")
    assert held_across(build, slab()) == L("14 in")
    change = equilibrium_moisture(DAMP) - equilibrium_moisture(DRY)
    assert float(movement(SLAB, L("14 in")).inches) == pytest.approx(
        14 * float(species("loblolly pine").movement_tangential * change), abs=1e-6
    )


def test_slots_let_it_move() -> None:
    joint, holes = fix_top(slab(), cleat(), screw("#8 x 1 3/4", "pan-head screw"), "back")
    build = Build("Free", (slab(), cleat().with_features(holes)), (joint,))
    assert wood_movement(build, INCHES) == ()
    assert held_across(build, slab()).mm == 0


def test_a_top_glued_to_a_batten_across_it() -> None:
    build = Build("Glued", (slab(), cleat()), (glue(cleat(), slab()),))
    (found,) = wood_movement(build, INCHES)
    assert (found.level, held_across(build, slab())) == ("must fix", L("18 in"))


@pytest.mark.parametrize(
    ("wide", "level"), [("5 1/2", None), ("6", None), ("9 1/4", "look at"), ("18", "must fix")]
)
def test_narrow_boards_are_left_alone(wide: str, level: str | None) -> None:
    board, batten = slab(wide), cleat(deep=wide)
    found = wood_movement(Build("b", (board, batten), (glue(batten, board),)), INCHES)
    assert [one.level for one in found] == ([level] if level else [])


def test_plywood_and_wood_that_moves_along_hold_nothing() -> None:
    ply = replace(slab(), stock=PLY)
    assert wood_movement(Build("b", (ply, cleat()), (glue(cleat(), ply),)), INCHES) == ()
    # a solid side, its grain upright: it widens from front to back as the top does
    side = Part("side", "Side", "glue-up", SLAB, box("0", "1 1/2", "0", "18", "0", "17"), "z", "x")
    assert wood_movement(Build("b", (slab(), side), (glue(side, slab()),)), INCHES) == ()


def test_two_rails_hold_a_top_only_where_something_stiff_joins_them() -> None:
    front = Part("front", "Rail", "board", BATTEN, box("0", "40", "0", "3/4", "15 1/2", "17"), "x", "y")
    back = replace(front, id="back", box=front.box.moved("y", L("17 1/4 in")))
    joints = (glue(front, slab()), glue(back, slab()))
    apart = Build("b", (slab(), front, back), joints)
    assert wood_movement(apart, INCHES) == ()
    end = Part("end", "End", "panel", PLY, box("0", "3/4", "3/4", "17 1/4", "0", "17"), "z", "x")
    joined = Build("b", (slab(), front, back, end), (*joints, glue(end, front), glue(end, back)))
    assert wood_movement(joined, INCHES)[0].level == "must fix"
    # a solid end moves with the top and takes the rails along
    solid_end = replace(end, stock=SLAB)
    moving = Build(
        "b", (slab(), front, back, solid_end), (*joints, glue(solid_end, front), glue(solid_end, back))
    )
    assert wood_movement(moving, INCHES) == ()


def panelled(clearance: str, stock=CHERRY) -> Build:
    """A panel 14 in wide in the grooves of two stiles, so much room at the bottom of each."""
    more = L(clearance, "in")
    left = Part("left", "Stile", "board", BATTEN, box("0", "1 1/2", "0", "3/4", "0", "30"), "z", "y")
    left = left.with_features([Groove("right", box("1", "1 1/2", "1/4", "1/2", "0", "30"))])
    right = left.mirrored("x", L("8 in") + more, "right")
    ends = box("1", "15", "1/4", "1/2", "2", "28").moved("x", more)
    return Build("Panelled", (left, right, Part("panel", "Panel", "board", stock, ends, "z", "y")))


def test_a_panel_needs_room_in_its_grooves() -> None:
    # 14 in of cherry, C 0.00248, between 30 % and 70 %: 0.24 in; 1/16 in at each side is 0.125 in
    (found,) = wood_movement(panelled("1/16"), INCHES)
    assert (found.level, found.check, found.part) == ("look at", "no room to move", "Panel")
    assert wood_movement(panelled("1/8"), INCHES) == ()
    assert wood_movement(panelled("0", PLY), INCHES) == ()


def test_the_movement_of_that_panel_against_the_handbook_s_example() -> None:
    # MV-F1: the same panel between 30 % and 65 % at 70 °F
    row = MOVES["MV-F1"]
    dry, damp = (Fraction(int(one), 100) for one in re.findall(r"(\d+) % RH", row["inputs"]))
    found = movement(CHERRY, L("14 in"), dry, damp)
    assert within(found.inches, row["answer"], row["tolerance"])


def test_a_solid_door_needs_its_gap() -> None:
    def cupboard(gap: str) -> Build:
        far = L("12 3/4 in") + L(gap, "in")
        left = Part("left", "Side", "panel", PLY, box("0", "3/4", "0", "12", "0", "30"), "z", "x")
        right = replace(left, id="right", box=left.box.moved("x", far))
        door = Part("door", "Door", "board", CHERRY, box("3/4", "12 3/4", "0", "3/4", "1", "29"), "z", "y")
        hinge = Pivot("z", Point(L("3/4 in"), L("0 in"), L("0 in")), -1)
        return Build("Cupboard", (left, right, door), moving=(Moving("Door", "door", ("door",), hinge),))

    (found,) = wood_movement(cupboard("1/8"), INCHES)
    assert (found.check, found.part) == ("no room to move", "Door")
    assert wood_movement(cupboard("1/4"), INCHES) == ()


@given(st.integers(0, 12), st.integers(0, 12))
def test_more_room_never_makes_a_panel_tighter(sixteenths: int, more: int) -> None:
    def found(count: int) -> int:
        return len(wood_movement(panelled(str(Fraction(count, 16))), INCHES))

    assert found(sixteenths + more) <= found(sixteenths)


def test_right_builds_and_the_bench_have_no_findings() -> None:
    for build in (sided(), footed(), shelved(), bench().draft().build):
        assert wood_movement(build, INCHES) == ()
    assert wood_movement(Build("b", (FLOOR, FOOT), (glue(FOOT, FLOOR),)), INCHES) == ()


@pytest.mark.parametrize("change", [quarter, reflected])
def test_turning_or_mirroring_changes_no_finding_but_its_words(change) -> None:
    joint, holes = face_screws(cleat(), slab(), screw("#8 x 1 3/4"), 3)
    rigid = Build("Rigid", (slab(), cleat().with_features(holes)), (joint,))
    for build in (rigid, panelled("1/16"), panelled("1/8")):
        assert plain(wood_movement(change(build), INCHES)) == plain(wood_movement(build, INCHES))


def cheeked(gap: str, *, ply: bool = False, joined: bool = True) -> Build:
    """A glue-up 24 in wide between two 2x4 cheeks, glued to the left one; a base holds both cheeks.

    ```
     ║▒▒▒▒▒▒▒▒▒▒▒ ║   cheeks on edge, the slab between them, grain front to back
     ══════════════   base
    ```
    """
    wide = L("24 in")
    slab_box = replace(box("1 1/2", "2", "0", "30", "1", "2 1/2"), right=L("1 1/2 in") + wide)
    own = Part("slab", "Slab", "panel" if ply else "glue-up", PLY if ply else SLAB, slab_box, "y", "z")
    left = Part("left", "Cheek", "board", STUD, box("0", "1 1/2", "0", "30", "3/4", "4 1/4"), "y", "x")
    right = replace(left, id="right", box=left.box.moved("x", slab_box.right + L(gap, "in")))
    under = replace(box("0", "1", "0", "30", "0", "3/4"), right=right.box.right)
    base = Part("base", "Base", "panel", PLY, under, "y", "z")
    joints = [glue(own, left), glue(left, base), *([glue(right, base)] if joined else [])]
    return Build("Cheeked", (base, left, right, own), tuple(joints))


@pytest.mark.parametrize(("gap", "tight"), [("0", True), ("1/8", True), ("3/4", False)])
def test_a_slab_between_two_rigid_cheeks_needs_room(gap: str, tight: bool) -> None:
    # 24 in of loblolly pine, 6.2 to 13.1 %: 24 × 0.00259 × 6.9 = 0.43 in
    found = wood_movement(cheeked(gap), INCHES)
    assert [(one.level, one.check, one.part) for one in found] == [("look at", "no room to move", "Slab")] * tight
    if tight:
        assert "between Cheek" in found[0].what


def test_plywood_and_cheeks_that_nothing_joins_pinch_nothing() -> None:
    assert wood_movement(cheeked("0", ply=True), INCHES) == ()
    assert wood_movement(cheeked("0", joined=False), INCHES) == ()


def test_drier_and_damper_air_moves_wood_further() -> None:
    # 30 to 70 %: 0.43 in; 45 to 55 %: about a quarter of it; 20 to 80 % more than half as much again
    build = cheeked("3/8")
    assert wood_movement(build, INCHES)
    assert wood_movement(build, INCHES, (Fraction(45, 100), Fraction(55, 100))) == ()
    (found,) = wood_movement(cheeked("1/2"), INCHES, (Fraction(20, 100), Fraction(80, 100)))
    assert "between 20\u00a0% and 80\u00a0%" in found.what
