"""A finished piece has to go where it belongs."""

import pytest

from plankit import stock
from plankit.checks.carrying_in import carrying_in
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.plan import Plan

PLY = stock.sheet("plywood", "3/4", measured="3/4")


def chest() -> Plan:
    """A box of 40 × 20 × 30 in outside."""
    plan = Plan("Chest")
    plan.panel("Left", PLY, left=0, front=0, back="20", bottom=0, top="30")
    plan.panel("Right", PLY, right="40", front=0, back="20", bottom=0, top="30")
    return plan


def found(plan: Plan) -> list[Finding]:
    return list(carrying_in(plan.build(), plan.notation))


def test_a_piece_that_goes_in_everywhere_raises_nothing():
    plan = chest()
    plan.niche(("41", "20", "31"))
    plan.doorway("30", "80")
    plan.stairs("36", "78")
    assert found(plan) == []


def test_a_niche_must_leave_its_clearance_at_both_sides():
    plan = chest()
    plan.niche(("40 1/4", "20", "31"), name="the niche in the hall")
    (one,) = found(plan)  # 40 in and twice 1/4 in are 1/4 in more than 40 1/4 in
    assert one.level == "must fix"
    assert one.what.replace("\u00a0", " ") == (
        "it is 1/4 in too wide for the niche in the hall, 1/2 in of clearance included."
    )
    assert one.remedy.replace("\u00a0", " ").startswith("Make it 39 3/4 in wide at most")


def test_a_niche_that_is_too_low_needs_clearance_above_alone():
    plan = chest()
    plan.niche(("45", "20", "30 1/4"))
    assert found(plan) == []  # 30 in and 1/4 in
    plan.niche(("45", "20", "30"))
    assert [one.number.replace("\u00a0", " ") for one in found(plan)] == ["30 in"]


def test_a_piece_that_stands_out_of_its_niche_is_looked_at():
    plan = chest()
    plan.niche(("45", "18", "35"))
    (one,) = found(plan)
    assert one.level == "look at"
    assert "2\u00a0in out of its niche" in one.what  # 20 less 18


def test_a_piece_that_goes_through_no_way_round_must_be_changed():
    plan = chest()
    plan.doorway("20 1/2", "28")  # with an inch for hands 19 1/2 in: its least size is 20
    (one,) = found(plan)
    assert (one.level, one.check) == ("must fix", "cannot be carried in")


def test_a_piece_that_goes_through_on_the_slant_alone_is_for_information():
    plan = Plan("Panel")
    plan.panel("Door", PLY, left=0, right="29", front=0, bottom=0, top="60")
    plan.doorway(
        "24", "24", name="the hatch", clearance=0
    )  # too small for 29 in, but its diagonal is 33.9 in
    (one,) = found(plan)
    assert one.level == "for information"
    assert "the hatch" in one.what


def test_an_opening_of_nothing_is_refused():
    with pytest.raises(PlanError, match="more than nothing"):
        chest().doorway("0", "80")
    with pytest.raises(PlanError, match="width, a depth and a height"):
        chest().niche(("40", "20"))  # type: ignore[arg-type]
