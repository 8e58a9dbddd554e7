"""Plain hinges in their gap: too narrow for two leaves, or another gap than they leave; and a shelf in their way."""

from dataclasses import replace
from typing import Any

import pytest

from plankit import Plan
from plankit.build import Build
from plankit.checks import check, hardware
from plankit.finding import Finding
from plankit.parts import Part
from plankit.units import L
from tests.checks.small_builds import INCHES, with_part
from tests.parts.one_of_each import PLY, box
from tests.plan.test_drawers import chest


def hung(gap: str = "1/16", **how: Any) -> Build:
    """A door under the shelf of a chest, its gap so wide, on butt hinges."""
    plan, parts = chest()
    door = plan.door_in(
        "Door", PLY, left=parts["left"], right=parts["right"], bottom=parts["floor"], top=parts["shelf"], gap=gap
    )
    hinges = plan.hinges(door, on=parts["left"], **{"sort": "butt", "at": ["1 1/2", "5 1/2"], **how})
    plan.door("Door", door, hinges=hinges, opens="100 deg")
    build: Build = plan.build()
    return build


def about_gaps(build: Build) -> list[Finding]:
    return [one for one in hardware(build, INCHES) if "gap" in one.check]


@pytest.mark.parametrize(
    ("gap", "how"),
    [
        ("1/16", {}),  # two leaves of 1/32
        ("1/8", {}),  # between two leaves and a knuckle of 3/16
        ("1/16", {"recess": "gap"}),
        ("1/32", {"recess": "gap"}),  # narrower than two leaves, which are let in
        ("1/8", {"recess": "leaf"}),  # 3/16 − 2 × 1/32
        ("1/16", {"recess": "leaf", "shut": "1/8"}),  # 1/8 − 2 × 1/32
        ("1/16", {"sort": "piano", "at": None, "recess": "gap"}),
    ],
)
def test_hinges_that_suit_their_gap(gap: str, how: dict[str, Any]) -> None:
    assert not about_gaps(hung(gap, **how))


def test_a_gap_smaller_than_two_leaves() -> None:
    (found,) = about_gaps(hung("1/32"))
    assert (found.level, found.check, found.part) == ("must fix", "gap narrower than its hinges", "Door")
    assert found.number == "1/32 in"
    assert "1/16" in found.what
    assert 'recess="gap"' in found.remedy


def test_thicker_leaves_need_a_wider_gap() -> None:
    (found,) = about_gaps(hung("1/16", metal="1/16"))
    assert found.check == "gap narrower than its hinges"


def test_let_in_by_a_leaf_the_hinges_leave_more_than_is_drawn() -> None:
    (found,) = about_gaps(hung("1/16", recess="leaf"))
    # they leave 3/16 − 2 × 1/32 = 1/8, and 1/16 is drawn
    assert (found.level, found.check, found.number) == ("look at", "hinges leave another gap", "1/16 in")
    assert "deeper" in found.remedy


def test_let_in_too_deep_they_leave_less() -> None:
    (found,) = about_gaps(hung("1/8", recess="1/16"))
    assert (found.check, found.number) == ("hinges leave another gap", "1/16 in")
    assert "less deep" in found.remedy


def test_let_in_deeper_than_they_are_thick_no_door_shuts() -> None:
    (found,) = about_gaps(hung("1/16", recess="1/4"))
    # 3/16 − 2 × 1/4 = −5/16
    assert (found.level, found.check, found.number) == ("must fix", "hinges leave no gap", "5/16 in")
    assert 'recess="gap"' in found.remedy
    # 3/16 − 2 × 3/32 = 0: the door shuts against the side, and that is only another gap than is drawn
    (found,) = about_gaps(hung("1/16", recess="3/32"))
    assert (found.level, found.check, found.number) == ("look at", "hinges leave another gap", "1/16 in")


def test_a_gap_wider_than_the_knuckle_wants_packing() -> None:
    (found,) = about_gaps(hung("1/4"))
    assert (found.check, found.number) == ("hinges leave another gap", "1/16 in")


@pytest.mark.parametrize("recess", [None, "gap"])
def test_a_hinge_that_meets_a_shelf_is_told_let_in_or_not(recess: str | None) -> None:
    build = hung(recess=recess)
    (hinge, _) = (item for item in build.items if item.kind == "hinge")
    shelf = Part("in", "Low shelf", "panel", PLY, box("3/4", "23 1/4", "1/2", "17", "4", "4 3/4"), "x", "z")
    assert hinge.box.middle("z") == L("4 5/16 in")
    assert hinge.box.back == L("5/8 in")
    met = [one for one in hardware(with_part(build, shelf), INCHES) if one.check == "hinge meets something"]
    assert [one.level for one in met] == ["must fix"]
    assert "Low shelf" in met[0].what
    back = replace(shelf, box=replace(shelf.box, front=L("3/4 in")))
    assert not [one for one in hardware(with_part(build, back), INCHES) if one.check == "hinge meets something"]


def test_a_door_let_in_is_as_sound_as_one_on_the_faces() -> None:
    plan = Plan("Whose notation")
    plain, let_in = (
        [(one.level, one.check) for one in check(hung(recess=recess), plan.shop, plan.notation)]
        for recess in (None, "gap")
    )
    assert let_in == plain
