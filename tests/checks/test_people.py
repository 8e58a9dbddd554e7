"""Gaps that trap fingers, lids that fall, what a child gets open; and cases that lean over."""

from dataclasses import replace
from fractions import Fraction

import pytest

from plankit.build import Build, Item, Moving, Pivot
from plankit.checks.people import people
from plankit.checks.racking import racking
from plankit.finding import Finding
from plankit.parts import Mitre, Part, Point
from plankit.units import Angle, L
from tests.checks.small_builds import BATTEN, INCHES, PLY, footed, framed, shelved, sided, with_part
from tests.checks.turned_builds import plain, quarter, reflected, told
from tests.parts.one_of_each import box
from tests.plan.demo import bench


def doored(gap: str = "1/8") -> Build:
    """A door between two sides, with a gap to the right one; both reach from the floor to 30 in."""
    left = Part("left", "Side", "panel", PLY, box("0", "3/4", "0", "12", "0", "30"), "z", "x")
    right = replace(left, id="right", box=left.box.moved("x", L("15 in") + L(gap, "in")))
    door = Part("door", "Door front", "panel", PLY, box("7/8", "15", "0", "3/4", "1", "29"), "z", "y")
    hinge = Pivot("z", Point(L("7/8 in"), L("0 in"), L("0 in")), -1)
    return Build("Cupboard", (left, right, door), moving=(Moving("Door", "door", ("door",), hinge),))


def racked(build: Build) -> tuple[Finding, ...]:
    """What is found once every part arrives in a step; before that nothing is."""
    assert racking(replace(build, order=()), INCHES) == ()
    return racking(told(build), INCHES)


def checks(build: Build) -> list[str]:
    return [one.check for one in people(build, INCHES)]


@pytest.mark.parametrize(
    ("gap", "traps"), [("1/8", False), ("7/32", False), ("3/8", True), ("11/16", True), ("3/4", False)]
)
def test_a_gap_that_lets_a_finger_in_but_not_out(gap: str, traps: bool) -> None:
    # between 7 and 18 mm: 7/32 in is 5.6, 3/8 in 9.5, 11/16 in 17.5, 3/4 in 19.05
    assert ("traps fingers" in checks(doored(gap))) == traps


def test_a_gap_behind_a_front_is_nobody_s_business() -> None:
    # a drawer's box with 1/2 in to the side, as slides need, behind a front that closes the opening
    build = doored()
    behind = Part("box", "Drawer side", "panel", PLY, box("1 1/4", "2", "3/4", "11", "2", "8"), "y", "x")
    drawer = Moving("Drawer", "drawer", ("door", "box"), slides=("front", L("10 in")))
    assert "traps fingers" not in checks(replace(with_part(build, behind), moving=(drawer,)))


def test_two_doors_that_nearly_meet() -> None:
    build = doored()
    other = Part("door2", "Door front", "panel", PLY, box("15 3/8", "29", "0", "3/4", "1", "29"), "z", "y")
    pair = replace(build.moving[0], name="Right door", parts=("door2",))
    both = replace(build, parts=(build.part("left"), build.part("door"), other), moving=(*build.moving, pair))
    (found, *_) = people(both, INCHES)
    assert (found.level, found.check, found.number) == ("look at", "traps fingers", "3/8\u00a0in")


def test_a_lid_that_falls_and_one_that_is_held() -> None:
    lid = Part("lid", "Lid", "panel", PLY, box("0", "30", "0", "14", "18", "18 3/4"), "x", "z")
    back = Part("back", "Back", "panel", PLY, box("0", "30", "14", "14 3/4", "0", "18 3/4"), "x", "y")
    hinge = Pivot("x", Point(L("0 in"), L("14 in"), L("18 3/4 in")), -1)
    chest = Build("Chest", (back, lid), moving=(Moving("Lid", "flap", ("lid",), hinge, Angle(Fraction(95))),))
    assert "falls shut" in checks(chest)
    held = Item("lid support", "other", ("lid", "back"), box("1", "2", "6", "14", "12", "18"))
    assert "falls shut" not in checks(replace(chest, items=(held,)))
    # a front that is hinged at its lower edge opens downwards
    front = Part("lid", "Front", "panel", PLY, box("0", "30", "0", "3/4", "4", "16"), "x", "y")
    low = replace(hinge, at=Point(L("0 in"), L("0 in"), L("4 in")), sense=1)
    dropped = replace(chest, parts=(back, front), moving=(replace(chest.moving[0], pivot=low),))
    assert "falls shut" not in checks(dropped)


def test_what_a_small_child_gets_open() -> None:
    assert checks(doored()) == ["within a child's reach"]
    high = doored()
    parts = tuple(replace(part, box=part.box.moved("z", L("50 in"))) for part in high.parts)
    assert checks(replace(high, parts=parts)) == []


def test_builds_without_moving_parts_have_no_findings() -> None:
    for build in (sided(), footed(), framed(), shelved(), bench().draft().build):
        assert people(build, INCHES) == ()


def test_a_bare_shelf_on_two_uprights_may_rack() -> None:
    (found,) = racked(shelved())
    assert (found.level, found.check, found.part) == ("look at", "may rack", "Shelved")
    back = Part("back", "Back", "panel", PLY, box("0", "32 1/2", "10", "10 3/4", "0", "30 3/4"), "x", "y")
    assert racked(with_part(shelved(), back)) == ()


def test_a_rail_or_a_brace_keeps_it_square() -> None:
    # a rail 2 in high is too low to keep corners square, one 3 in high is not; a brace is at any height
    rail = Part("rail", "Rail", "board", BATTEN, box("3/4", "31 3/4", "9", "9 3/4", "28", "30"), "x", "y")
    assert racked(with_part(shelved(), rail))
    wide = replace(rail, box=replace(rail.box, bottom=L("27 in")))
    assert racked(with_part(shelved(), wide)) == ()
    brace = rail.with_features([Mitre("left", "bottom", L("2 in")), Mitre("right", "bottom", L("2 in"))])
    assert racked(with_part(shelved(), brace)) == ()


def test_what_is_fixed_to_a_wall_or_low_does_not_rack() -> None:
    strap = Item("bracket", "wall fixing", ("left",), box("0", "1", "9", "10", "20", "21"))
    assert racked(replace(shelved(), items=(strap,))) == ()
    for build in (sided(), footed(), framed(), bench().draft().build):
        assert racked(build) == ()


@pytest.mark.parametrize("change", [quarter, reflected])
def test_turning_or_mirroring_changes_no_finding_but_its_words(change) -> None:
    for build in (doored("3/8"), doored(), shelved()):
        assert plain(people(change(build), INCHES)) == plain(people(build, INCHES))
        assert plain(racked(change(build))) == plain(racked(build))
