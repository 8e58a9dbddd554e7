"""Hardware comes in the step that brings the last of what it is on, or where the author has it screwed on."""

from typing import Any

import pytest

from plankit import stock
from plankit.plan import Plan
from plankit.plan.document import document
from plankit.plan.work import work_of

PLY = stock.sheet("plywood", "3/4")


def trolley(*, later: bool) -> dict[str, Any]:
    """A floor on four casters, with a side that has a pull."""
    plan = Plan("Trolley")
    floor = plan.panel("Floor", PLY, left=0, right="24", front=0, back="16", bottom="3")
    side = plan.panel("Side", PLY, left=0, front=0, back="16", bottom=floor.top, top="20")
    plan.pocket_screw(side, into=floor)
    plan.casters(floor, set_in="1/2")
    plan.pull(side, face="left", runs="up")
    plan.step("Floor", brings=floor)
    plan.step("Side", brings=side, onto=floor)
    if later:
        plan.step("Casters at the end", works_on=floor, does="drive screws")
    assert len(work_of(plan.draft())) == (3 if later else 2)
    return document(plan.draft())


@pytest.mark.parametrize(("later", "step"), [(False, 0), (True, 2)])
def test_casters_come_with_the_floor_unless_a_later_step_screws_them_on(later: bool, step: int):
    steps = trolley(later=later)["steps"]
    with_casters = [n for n, one in enumerate(steps) if any("caster" in f["item"] for f in one["fittings"])]
    assert with_casters == [step]


def test_a_step_says_what_is_fitted_with_which_screws_and_what_to_compare():
    does = trolley(later=False)["steps"][0]["does"]
    (checked,) = (line for line in does if "check against" in line)
    bored, fitted = does[-2:]
    assert does.index(checked) < does.index(bored)
    assert fitted == "Fit 4 casters to the floor, each with 4 × #10 × 5/8 in wood screw."
    assert bored.startswith("Floor: bore 16")
    assert checked.startswith("Before you bore, check against what you bought. Caster: height, plate and holes")


def test_screws_of_hardware_are_counted_with_the_steps_fasteners():
    step = trolley(later=False)["steps"][0]
    assert step["fasteners"] == [
        {"item": "#10 × 5/8 in wood screw", "count": 16}
    ]  # four casters, four screws each
    assert "Drill/driver" in step["tools"]


def test_hardware_is_on_the_lists_once():
    plan = trolley(later=True)
    casters = [row["count"] for row in plan["hardware"] if row["item"].startswith("caster")]
    assert casters == [4]
    bought = [row["count"] for row in plan["shopping"] if row["item"].startswith("caster")]
    assert bought == ["4"]  # none to spare: they are not lost like screws


def test_holes_of_hardware_are_bored_before_it_is_fitted_even_where_a_later_step_bores():
    plan = Plan("Trolley")
    floor = plan.panel("Floor", PLY, left=0, right="24", front=0, back="16", bottom="3")
    floor.bore("top", "1", left="12", front="8", use="cable")
    plan.casters(floor, set_in="1/2")
    plan.step("Floor", brings=floor)
    plan.step("Hole for the cable", works_on=floor, does="bore")
    first, last = work_of(plan.draft())
    assert len(first.features) == 16  # lead holes of four casters
    assert [getattr(feature, "use", "") for _, feature in last.features] == ["cable"]
