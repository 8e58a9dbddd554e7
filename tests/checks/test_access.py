"""Whether a driver gets at a screw when its step comes: free lines behind heads, exact to the wall."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit import Plan
from plankit.build import Build, face_screws, glue, pocket_screws, screw
from plankit.checks.access import access
from plankit.parts import Part
from plankit.plan.document import in_steps
from plankit.units import L
from tests.checks.small_builds import FLOOR, INCHES, PLY, SIDE
from tests.checks.turned_builds import plain, quarter, reflected
from tests.parts.one_of_each import box
from tests.plan.demo import bench

LATER = (("floor", "wall"), ("side",), ("cleat",))


def cleated(apart: str, order: tuple[tuple[str, ...], ...] = LATER) -> Build:
    """A cleat screwed sideways to a side, 2 in screws through 3/4 in; a wall stands so far behind their heads.

    ```
       side  cleat              wall
        ║▐██▌ ←━━━  driver →    ║
        ║                       ║
       ═══════════ floor ═══════════
    ```
    """
    cleat = Part("cleat", "Cleat", "panel", PLY, box("3/4", "1 1/2", "0", "12", "15", "17"), "y", "x")
    near = L("1 1/2 in") + L(apart, "in")
    wall = Part(
        "wall", "Wall", "panel", PLY, replace(SIDE.box, left=near, right=near + L("3/4 in")), "z", "x"
    )
    joint, holes = face_screws(cleat, SIDE, screw("#8 x 1 1/4"), 2)
    parts = (FLOOR, wall, SIDE, cleat.with_features(holes))
    return Build("Cleated", parts, (glue(SIDE, FLOOR), glue(wall, FLOOR), joint), order=order)


# 1/2 in of the 1 1/4 in screw goes into the side, and stands out when it begins to bite: a driver needs 6 1/2 in,
# a short one 3 1/2 in, and with less than 1 in behind the head none gets there
@pytest.mark.parametrize(
    ("apart", "level"),
    [
        ("13", None),
        ("6 1/2", None),
        ("6 3/8", "for information"),
        ("3 1/2", "for information"),
        ("3 3/8", "look at"),
        ("1", "look at"),
        ("7/8", "must fix"),
    ],
)
def test_room_behind_the_head(apart: str, level: str | None) -> None:
    found = access(cleated(apart), INCHES)
    assert [one.level for one in found] == ([level] if level else [])
    if found:
        assert (found[0].part, found[0].check) == ("Cleat", "no access for a driver")
        assert "Wall" in found[0].what
        assert found[0].place.count("from the left") == 2


def test_what_comes_later_or_in_the_same_step_is_in_nobodys_way() -> None:
    assert access(cleated("1", (("floor",), ("side",), ("cleat",), ("wall",))), INCHES) == ()
    assert access(cleated("1", (("floor", "wall", "side", "cleat"),)), INCHES) == ()
    assert access(cleated("1", ()), INCHES) == ()


def test_what_nothing_holds_to_it_yet_can_be_moved_out_of_the_way() -> None:
    # a bin put together on the bench, in the step after the case that it is hung in later
    crowded = cleated("7/8")
    assert access(crowded, INCHES)[0].level == "must fix"
    assert access(replace(crowded, joints=crowded.joints[:1] + crowded.joints[2:]), INCHES) == ()


def pocketed(up: str) -> Build:
    """A side on a floor; a shelf stands out over its pocket holes, so high above the floor's upper face."""
    joint, holes = pocket_screws(SIDE, FLOOR, "right")
    shelf_box = box("3/4", "20", "0", "12", "0", "3/4").moved("z", L("4 3/4 in") + L(up, "in"))
    shelf = Part("shelf", "Shelf", "panel", PLY, shelf_box, "x", "z")
    parts = (FLOOR, SIDE.with_features(holes), shelf)
    return Build("Pocketed", parts, (joint, glue(shelf, SIDE)), order=(("floor", "shelf"), ("side",)))


def test_a_pocket_screw_is_driven_along_its_slant() -> None:
    # the head stands 15° off the side, about 9/16 in up; with the shelf 12 in up there is room, with 4 in there is not
    assert access(pocketed("12"), INCHES) == ()
    (found,) = access(pocketed("4"), INCHES)
    assert found.part == "Side"
    assert found.level in {"look at", "for information"}
    assert access(pocketed("1"), INCHES)[0].level == "must fix"


def test_a_wall_beside_the_line_leaves_no_room_for_a_drill() -> None:
    # screws down into the edge of a side; a wall that stands 1/2 in from their line is in the way of a chuck, 5/8 in
    lid = Part("lid", "Lid", "panel", PLY, box("0", "30", "0", "12", "17", "17 3/4"), "x", "z")
    joint, holes = face_screws(lid, SIDE, screw("#8 x 2"), 2)

    def beside(clear: str) -> Build:
        near = L("3/8 in") + L(clear, "in")
        wall_box = replace(
            SIDE.box, left=near, right=near + L("3/4 in"), bottom=L("17 3/4 in"), top=L("40 in")
        )
        wall = Part("wall", "Wall", "panel", PLY, wall_box, "z", "x")
        parts = (SIDE, wall, lid.with_features(holes))
        return Build("Lidded", parts, (joint, glue(wall, lid)), order=(("side", "wall"), ("lid",)))

    (found,) = access(beside("1/2"), INCHES)
    assert (found.level, found.check) == ("for information", "little room beside a driver")
    assert access(beside("5/8"), INCHES) == ()


@given(st.integers(1, 160), st.integers(0, 40))
@settings(max_examples=30, deadline=None)
def test_more_room_never_makes_a_finding_graver(eighths: int, more: int) -> None:
    def grave(count: int) -> int:
        levels = ["for information", "look at", "must fix"]
        found = access(cleated(str(Fraction(count, 8))), INCHES)
        return max((levels.index(one.level) + 1 for one in found), default=0)

    assert grave(eighths + more) <= grave(eighths)


def test_the_cleat_screws_of_the_bench_can_be_driven() -> None:
    draft = bench().draft()
    build = replace(draft.build, order=tuple(step.brings for step in draft.steps))
    assert access(build, draft.notation) == ()


def test_turning_or_mirroring_changes_no_finding_but_its_words() -> None:
    for build in (cleated("3"), cleated("1/2"), cleated("13"), pocketed("4")):
        for change in (quarter, reflected):
            assert plain(access(change(build), INCHES)) == plain(access(build, INCHES))


def test_a_head_under_a_part_that_was_glued_on_in_an_earlier_step() -> None:
    """The shelf's screws go in through the side; what is glued onto the side's outer face covers them.

    ```
      outer side   shelf
       ▐██▌║▐██████████
       ▐██▌║▐██████████    the heads are between the two
    ```
    """
    outer = Part("outer", "Outer", "panel", PLY, replace(SIDE.box, left=L("-3/4 in"), right=L("0 in")), "z", "x")
    shelf = Part("shelf", "Shelf", "panel", PLY, box("3/4", "30", "0", "12", "10", "10 3/4"), "x", "z")
    joint, holes = face_screws(SIDE, shelf, screw("#8 x 2"), 2)
    parts = (SIDE.with_features(holes), outer, shelf)
    order = (("side",), ("outer",), ("shelf",))
    build = Build("Covered", parts, (glue(outer, SIDE), joint), order=order)
    (found,) = access(build, INCHES)
    assert (found.level, found.part) == ("must fix", "Side")
    assert found.what.endswith("no driver gets at a #8 × 2 in wood screw in Side: Outer is in the way.")
    # the other way round they are driven before they are covered
    assert access(replace(build, order=(("side",), ("shelf",), ("outer",))), INCHES) == ()


def shut(hole: str = "", **where: str) -> list[tuple[str, str]]:
    """A box of five panels, 12 in each way, glued; then its lid, pocket-screwed from the sides."""
    plan = Plan("Box")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="12")
    other = plan.mirror(side, across="12")
    between = {"left": side.right, "right": other.left}
    floor = plan.panel("Floor", PLY, **between, front=0, back="12", bottom=0)
    ends = [plan.panel("End", PLY, **between, front=at, bottom=floor.top, top="12") for at in (0, "11 1/4")]
    if hole:
        ends[0].bore("front", hole, left="5", bottom="5")
    lid = plan.panel("Lid", PLY, left=0, right="12", front=0, back="12", bottom="12")
    plan.glue([floor, *ends], side)
    plan.glue([floor, *ends], other)
    plan.pocket_screw(side, into=lid, **where)
    plan.step("Box", brings=[side, other, floor, *ends])
    plan.step("Lid", brings=lid)
    return [(one.level, one.number) for one in access(in_steps(plan.draft()), INCHES)]


def test_nobody_drives_a_screw_inside_a_closed_box() -> None:
    # 11 in are free behind each head, and no way leads there
    assert shut(face="right") == [("must fix", "no way out")]
    assert shut(face="left") == []  # from outside


@pytest.mark.parametrize(("hole", "shut_in"), [("1", True), ("1 7/8", True), ("2", False), ("3", False)])
def test_a_hole_that_a_hand_goes_through_opens_a_box(hole: str, shut_in: bool) -> None:
    assert bool(shut(hole, face="right")) == shut_in
