"""Strips glued on a face in a mitred frame."""

import pytest

from plankit import stock
from plankit.checks import fit
from plankit.errors import PlanError
from plankit.parts import Mitre, points_of, solid
from plankit.plan import Plan
from plankit.units import L, Notation

PLY = stock.sheet("plywood", "3/4")
STRIP = stock.lumber("1x2", species="loblolly pine")


@pytest.fixture
def door():
    plan = Plan("Cabinet")
    return plan, plan.panel("Door", PLY, left=0, right="16", back=0, bottom=0, top="24", grain="up")


def test_four_strips_meet_at_45_degrees_and_leave_the_opening(door):
    plan, panel = door
    strips = plan.moulding("Molding", STRIP, on=panel, face="front", set_in="2")
    # 16 − 2 × 2 = 12 and 24 − 2 × 2 = 20 outside; 2 × 1 1/2 less inside
    assert [points_of(strip.part) for strip in strips] == [
        (L("12 in"), L("9 in")), (L("12 in"), L("9 in")), (L("20 in"), L("17 in")), (L("20 in"), L("17 in")),
    ]  # fmt: skip
    assert all(strip.back == panel.front for strip in strips)
    cuts = [cut for strip in strips for cut in strip.part.features]
    assert all(isinstance(cut, Mitre) and cut.setback == L("1 1/2 in") for cut in cuts)


def test_the_strips_fit_each_other_and_are_glued_to_the_door(door):
    plan, panel = door
    strips = plan.moulding("Molding", STRIP, on=panel, face="front")
    build = plan.build()
    assert not fit(build, Notation())
    assert [(joint.kind, joint.to) for joint in build.joints] == [("glue", panel.id)] * 4
    # together they are a frame of 3/4 in strips: 16 × 24 less 13 × 21
    whole = sum(solid(strip.part).volume() for strip in strips)
    assert whole == pytest.approx(0.75 * (16 * 24 - 13 * 21) * 25.4**3, rel=1e-9)


def test_alike_strips_are_cut_alike(door):
    from plankit.build import alike

    plan, panel = door
    plan.moulding("Molding", STRIP, on=panel, face="front", set_in="1")
    groups = {group.first.name: group.count for group in alike(plan.build()) if group.first.length == L("14 in")}
    assert groups == {"Molding": 2}  # 16 − 2 × 1, and neither has a hand


def test_strips_too_wide_for_an_opening_are_refused(door):
    plan, panel = door
    with pytest.raises(PlanError, match="no opening between them"):
        plan.moulding("Molding", STRIP, on=panel, face="front", set_in="7")
