"""A piece that stands in the weather, and angles among what readers may change."""

from typing import Any

import nbformat
import pytest

from plankit import Plan, stock
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.plan.document import document
from plankit.plan.lists import hardware_note
from plankit.plan.used_up import needs
from plankit.plan.work import work_of
from plankit.plan.work_findings import order_findings
from plankit.publish.prose import with_typed_numbers
from plankit.units import Angle, L

CEDAR = stock.lumber("1x8", species="western redcedar")
OAK = stock.lumber("4/4x3", species="red oak")


def planter(wood: Any = CEDAR, **about: Any) -> Plan:
    plan = Plan("Planter")
    plan.about(summary="A box.", author="K. N.", version="1", published="2026-11-25", **about)
    front = plan.board("Front", wood, runs="left-right", wide="up", left=0, right="24", front=0, bottom=0)
    end = plan.board("End", wood, runs="front-back", wide="up", left=0, front=front.back, back="10", bottom=0)
    plan.pocket_screw(end, into=front, face="right", glued=True)
    plan.step("Cut", works_on=plan.parts, does=["crosscut"])
    plan.step("All", brings=plan.parts)
    return plan


def found(plan: Plan) -> list[Finding]:
    draft = plan.draft()
    return [one for one in order_findings(draft, work_of(draft)) if one.check == "outdoors"]


def test_outdoors_glue_is_waterproof_and_screws_do_not_rust() -> None:
    inside, outside = planter().draft(), planter(outdoors=True).draft()
    assert [one.item for one in needs(inside) if "glue" in one.item] == ["Wood glue"]
    assert [one.item for one in needs(outside) if "glue" in one.item] == ["Waterproof wood glue"]
    assert "stainless" in hardware_note(outside)
    assert "stainless" not in hardware_note(inside)


def test_outdoors_a_finish_for_indoors_and_no_finish_are_looked_at() -> None:
    plan = planter(outdoors=True)
    assert [one.level for one in found(plan)] == ["look at", "for information"]
    plan.finish("water-based varnish", coats=2, how=["Brush it on."])
    assert [one.level for one in found(plan)] == ["look at", "for information"]
    plan.finish("exterior oil", coats=2, how=["Brush it on."])
    assert [one.level for one in found(plan)] == ["for information"]
    assert not found(planter())


def test_pocket_screws_into_hardwood_have_a_fine_thread() -> None:
    assert "fine thread for hardwood" in hardware_note(planter(OAK).draft())  # red oak: 0.56 (Wood Handbook)
    assert "coarse thread" in hardware_note(planter(CEDAR).draft())  # western redcedar: 0.32


@pytest.mark.parametrize("said", ["8 deg", "8°", "8 degrees", "8deg"])
def test_an_angle_is_given_by_its_unit_and_stands_among_what_the_plan_was_worked_out_for(said: str) -> None:
    plan = planter()
    wide, lean = plan.given(wide="24", lean=said)
    assert lean == Angle.read("8 deg")
    leg = plan.board("Leg", CEDAR, runs="up", wide="left-right", left=2, front=2, bottom=0, top="16")
    plan.splay(leg, left=lean)
    assert leg.part.leans
    plan.step("Leg", brings=leg)
    written = document(plan.draft())
    assert [(row["name"], row["value"]) for row in written["given"]][1] == ("lean", "8.0°")
    assert wide == L("24 in")
    assert with_typed_numbers(nbformat.v4.new_notebook(), written) == written  # prose knows lengths alone


def test_an_angle_that_cannot_be_read_names_its_parameter() -> None:
    with pytest.raises(PlanError, match="this angle cannot be read") as refused:
        Plan("P").given(lean="eight deg")
    assert refused.value.where == "lean"
