"""Gaps that trap fingers, lids that fall, what a child gets open; and cases that lean over."""

from dataclasses import replace
from fractions import Fraction

import pytest

from plankit import Plan
from plankit.build import Build, Item, Moving, Pivot, glue
from plankit.checks.people import people
from plankit.checks.racking import racking
from plankit.finding import Finding
from plankit.parts import Mitre, Part, Point
from plankit.plan.document import in_steps
from plankit.stock import lumber
from plankit.units import Angle, L
from tests.checks.small_builds import BATTEN, INCHES, PLY, footed, framed, shelved, sided, with_part
from tests.checks.turned_builds import plain, quarter, reflected, told
from tests.parts.one_of_each import box
from tests.plan.demo import bench

SQUARE = lumber("2x2", species="Douglas-fir")
WIDE = lumber("1x4", species="Douglas-fir")


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
    assert racked(held_by_both(shelved(), back)) == ()
    assert racked(with_part(shelved(), back))  # it only stands there
    one = with_part(shelved(), back)
    assert racked(replace(one, joints=(*one.joints, glue(back, one.part("left")))))


def held_by_both(build: Build, part: Part) -> Build:
    """The build with one part more, glued to both uprights."""
    both = with_part(build, part)
    return replace(both, joints=(*both.joints, *(glue(part, both.part(one)) for one in ("left", "right"))))


def test_a_rail_or_a_brace_keeps_it_square() -> None:
    # a rail 2 in high is too low to keep corners square, one 3 in high is not; a brace is, across a corner
    rail = Part("rail", "Rail", "board", BATTEN, box("3/4", "31 3/4", "9", "9 3/4", "28", "30"), "x", "y")
    assert racked(held_by_both(shelved(), rail))
    wide = replace(rail, box=replace(rail.box, bottom=L("27 in")))
    assert racked(held_by_both(shelved(), wide)) == ()
    mitred = rail.with_features([Mitre("left", "bottom", L("2 in")), Mitre("right", "bottom", L("2 in"))])
    assert racked(held_by_both(shelved(), mitred))  # a slant at its ends alone braces nothing


def stand(*, brace: bool = False, bevel: bool = False) -> Plan:
    """Two sides under a top, 30 in high and 12 in deep, with or without a brace in one corner."""
    plan = Plan("Stand")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="29 1/4")
    other = plan.mirror(side, across="24")
    top = plan.panel("Top", PLY, left=0, right="24", front=0, back="12", bottom=side.top)
    plan.screw([side, other], through=top, screws="#8 x 2")
    if bevel:
        top.bevel("front", short="bottom", angle="20 deg")
    if brace:
        across = plan.brace("Brace", BATTEN, inside=((side, "right"), (top, "bottom")), rise="8", run="8", back="12")
        plan.glue(across, side)
        plan.glue(across, top)
    plan.step("All", brings=plan.parts)
    return plan


def rack_of(plan: Plan) -> list[str]:
    return [one.place for one in racking(in_steps(plan.draft()), INCHES)]


def test_a_brace_stiffens_in_its_own_plane_and_a_bevel_nowhere() -> None:
    assert rack_of(stand()) == ["sideways"]
    assert rack_of(stand(bevel=True)) == ["sideways"]
    assert rack_of(stand(brace=True)) == []


def splayed(*, apron: bool) -> Plan:
    """A top 16 in up on four legs that lean 10° and 2°, glued; with 4 in aprons all round, or none."""
    plan = Plan("Stool")
    leg = plan.board("Leg", SQUARE, runs="up", left="4", front="4", bottom=0, top="16")
    plan.splay(leg, left="10 deg", front="2 deg")
    right = plan.mirror(leg, across="20")
    rear = [plan.mirror(one, across="20", axis="front-back") for one in (leg, right)]
    top = plan.panel("Top", PLY, left=0, right="20", front=0, back="20", bottom="16")
    plan.glue([leg, right, *rear], top)
    for one, two in ((leg, right), rear) if apron else ():
        rail = plan.board("Apron", WIDE, runs="left-right", wide="up", left=one.right, right=two.left,
                          front=one.front + "3/8", top="16")  # fmt: skip
        plan.cut_against(rail, one, two)
        plan.glue(rail, one)
        plan.glue(rail, two)
    plan.step("All", brings=plan.parts)
    return plan


def test_splayed_legs_need_rails_as_upright_ones_do() -> None:
    assert rack_of(splayed(apron=False)) == ["sideways", "to the front and back"]
    assert rack_of(splayed(apron=True)) == ["to the front and back"]


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
