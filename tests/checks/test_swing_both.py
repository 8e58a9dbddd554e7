"""Two things open at once, as their author writes them: which must be opened first, which cannot both be open."""

from collections.abc import Callable

import pytest

from plankit import Plan, stock
from plankit.checks import check
from plankit.checks.swing import swing
from plankit.drawing.figures_swing import moving_drawing
from plankit.finding import Finding
from tests.checks.seeded import cupboard
from tests.checks.turned_builds import plain, quarter, reflected
from tests.plan.test_drawers import HALF, PLY, THIN, chest

TWO = {"one opens first", "not both open"}


def about_two(plan: Plan) -> list[Finding]:
    return [one for one in check(plan.build(), plan.shop, plan.notation) if one.check in TWO]


def drawer_behind_a_door(angle: str = "90 deg") -> Plan:
    """A drawer inside a chest, its front 1 in behind a door that closes the whole chest."""
    plan, parts = chest()
    inside = plan.panel("Packing", PLY, left=parts["left"].right, front="1", back="17", bottom="3 1/4", top="9 1/2")
    other = plan.mirror(inside, across="24")
    plan.drawer("Drawer", HALF, between=[inside, other], bottom="2 3/4", top=parts["shelf"], thin=THIN, front=PLY)
    door = plan.overlay_door(
        "Door", PLY, left=parts["left"], right=parts["right"], bottom=parts["floor"], top=parts["top"]
    )
    plan.door("Door", door, hinges=plan.hinges(door, on=parts["left"], at=["14", "20"]), opens=angle)
    return plan


def two_doors(angle: str, between: str = "1/8") -> Plan:
    """Two doors before a chest, both hung on its middle."""
    plan, parts = chest()
    middle = plan.panel("Divider", PLY, left="11 5/8", front=0, back="17 3/4", bottom=parts["shelf"].top,
                        top=parts["top"].bottom)  # fmt: skip
    ends = {"bottom": parts["shelf"], "top": parts["top"], "between": between}
    one = plan.overlay_door("Left door", PLY, left=parts["left"], right=middle, half="right", **ends)
    other = plan.overlay_door("Right door", PLY, left=middle, right=parts["right"], half="left", **ends)
    plan.door("Left door", one, hinges=plan.hinges(one, on=middle), opens=angle)
    plan.door("Right door", other, hinges=plan.hinges(other, on=middle), opens=angle)
    return plan


def test_a_drawer_behind_a_door_is_something_to_look_at_and_no_mistake() -> None:
    plan = drawer_behind_a_door()
    (one,) = about_two(plan)
    assert (one.level, one.check, one.part) == ("look at", "one opens first", "Door and Drawer")
    assert one.number == "1\u00a0in"
    assert "open Door first" in one.what
    assert "Shut Drawer before Door" in one.remedy
    assert "drawer meets something" not in {found.check for found in swing(plan.build(), plan.notation)}


def test_a_drawer_behind_a_door_that_opens_too_little_is_a_mistake() -> None:
    plan = drawer_behind_a_door("60 deg")
    checks = {(one.level, one.check) for one in swing(plan.build(), plan.notation)}
    assert ("must fix", "drawer meets something") in checks
    assert not about_two(plan)


def test_its_drawing_says_so() -> None:
    plan = drawer_behind_a_door()
    build = plan.build()
    drawer = next(one for one in build.moving if one.name == "Drawer")
    assert "opens only once Door is open" in moving_drawing(build, drawer, plan.notation).description
    door = next(one for one in build.moving if one.name == "Door")
    assert "opens only once" not in moving_drawing(build, door, plan.notation).description


def test_two_doors_on_one_divider() -> None:
    assert not about_two(two_doors("90 deg"))
    (one,) = about_two(two_doors("110 deg"))
    assert (one.level, one.check, one.part) == ("look at", "not both open", "Left door and Right door")
    assert one.number.startswith("70.")  # as worked by hand in tests/build/test_swing_both.py, for doors 11 in wide
    assert "Shut the one before the other is opened" in one.what


def test_a_door_and_a_drawer_over_it_that_pass_raise_nothing() -> None:
    assert not about_two(cupboard())


def test_a_single_door_has_no_other() -> None:
    plan, parts = chest()
    bounds = {"left": parts["left"], "right": parts["right"], "bottom": parts["floor"], "top": parts["shelf"]}
    door = plan.door_in("Door", PLY, **bounds)
    plan.door("Door", door, hinged="left", opens="100 deg")
    assert not about_two(plan)


@pytest.mark.parametrize("make", [drawer_behind_a_door, lambda: two_doors("110 deg")])
def test_turned_or_mirrored_they_are_in_each_other_s_way_all_the_same(make: Callable[[], Plan]) -> None:
    plan = make()
    build = plan.build()
    here = [one for one in swing(build, plan.notation) if one.check in TWO]
    for other in (quarter(build), reflected(build)):
        there = tuple(one for one in swing(other, plan.notation) if one.check in TWO)
        assert plain(there) == plain(tuple(here))


def test_a_flap_beside_a_door_that_swings_right_round() -> None:
    plan = Plan("Secretary")
    ply = stock.sheet("plywood", "3/4")
    flap = plan.panel("Flap", ply, left="20 1/8", right="40", front="-3/4", bottom="8", top="20")
    door = plan.panel("Door", ply, left=0, right="20", front="-3/4", bottom=0, top="24")
    plan.panel("Case", ply, left=0, right="40", front=0, bottom=0, top="24")
    plan.flap("Flap", flap, hinged="bottom")
    plan.door("Door", door, hinged="right", opens="170 deg")
    (one,) = about_two(plan)
    assert one.check == "not both open"
    assert "quarter, half" in one.source
