"""Findings about drawers stay the same whichever way the piece stands."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import Build
from plankit.checks import drawers
from plankit.checks.fit import loose_parts
from plankit.units import L
from tests.checks.small_builds import INCHES
from tests.checks.turned_builds import plain, quarter, reflected
from tests.plan.test_drawers import RUNNER, chest, drawn


def with_slides(length: str, each_side: str = "1/2") -> Build:
    """A chest with 17 in behind the front of its drawer, whose slides take 1/2 in at each side."""
    plan, parts = chest()
    made = drawn(plan, parts, slide=length, each_side=each_side)
    build = plan.build()
    half = L("1/2 in")
    # the slides as they would be bought, whatever room was left for them
    left, right = (
        replace(item, box=replace(item.box, right=item.box.left + half))
        if number == 0
        else replace(item, box=replace(item.box, left=item.box.right - half))
        for number, item in enumerate(made.slides)
    )
    return replace(build, items=(left, right))


@pytest.mark.parametrize(
    ("length", "each_side", "said"),
    [
        ("16", "1/2", set()),
        ("18", "1/2", {"slide longer than the case"}),
        ("16", "7/16", {"box too wide for its slides"}),
        ("16", "9/16", {"box too narrow for its slides"}),
    ],
)
def test_turned_or_mirrored_a_chest_has_the_same_findings(length: str, each_side: str, said: set[str]) -> None:
    build = with_slides(length, each_side)
    here = drawers(build, INCHES)
    assert {one.check for one in here} == said
    for other in (quarter(build), reflected(build)):
        assert plain(drawers(other, INCHES)) == plain(here)


@given(st.integers(10, 17))
@settings(max_examples=8, deadline=None)
def test_a_slide_that_fits_never_is_too_long(inches: int) -> None:
    assert not [one for one in drawers(with_slides(str(inches)), INCHES) if one.check == "slide longer than the case"]


def test_a_drawer_on_runners_is_not_loose_and_one_on_nothing_is() -> None:
    plan, parts = chest()
    made = drawn(plan, parts, runners=RUNNER)
    build = plan.build()
    assert not loose_parts(build, INCHES)
    gone = {runner.id for runner in made.runners}
    without = replace(
        build,
        parts=tuple(part for part in build.parts if part.id not in gone),
        joints=tuple(joint for joint in build.joints if not gone & {joint.holds, joint.to}),
    )
    assert {one.part for one in loose_parts(without, INCHES)} >= {"Drawer front", "Drawer side"}
