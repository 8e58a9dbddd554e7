"""Things of the wrong kind, verb by verb: each is refused with words, and none with a traceback."""

from collections.abc import Callable
from typing import Any

import pytest

from plankit import stock
from plankit.errors import PlanError
from plankit.plan import Plan
from plankit.plan.work import work_of
from plankit.plan.work_findings import order_findings

PLY = stock.sheet("plywood", "3/4")
POST = stock.lumber("2x2", species="Douglas-fir")
STRIP = stock.lumber("1x2", species="Douglas-fir")


class Case:
    """Two sides with a floor between them, and a door before them."""

    def __init__(self) -> None:
        self.plan = Plan("Case")
        self.side = self.plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
        self.other = self.plan.mirror(self.side, across="24")
        between: dict[str, Any] = {"left": self.side.right, "right": self.other.left, "front": 0, "back": "12"}
        self.floor = self.plan.panel("Floor", PLY, **between, bottom=0)
        self.top = self.plan.panel("Top", PLY, **between, top="30")
        self.door = self.plan.overlay_door(
            "Door", PLY, left=self.side, right=self.other, bottom=self.floor, top=self.top
        )


WRONG: dict[str, tuple[str, Callable[[Case], Any]]] = {
    "a number for a name": ("needs a name", lambda c: c.plan.panel(3, PLY, left=0, right=9, front=0, back=9, bottom=0)),  # type: ignore[arg-type]
    "no name": ("needs a name", lambda c: c.plan.panel(None, PLY, left=0, right=9, front=0, back=9, bottom=0)),  # type: ignore[arg-type]
    "a plan without a name": ("the plan's name", lambda c: Plan("")),
    "a part for a space": ("goes into a space", lambda c: c.plan.thing("A basket", size=(1, 1, 1), inside=c.side)),  # type: ignore[arg-type]
    "towards": ("towards: words", lambda c: c.plan.pocket_screw(c.floor, into=c.side, towards=3)),  # type: ignore[arg-type]
    "hinged": ("turns about", lambda c: c.plan.door("D", c.door, hinged=3)),  # type: ignore[arg-type]
    "a door without a name": ("name of its own", lambda c: c.plan.door(None, c.door, hinged="left")),  # type: ignore[arg-type]
    "turns about": ("turns about", lambda c: c.plan.tilt_out("B", c.door, with_=[], turns_about=5)),  # type: ignore[arg-type]
    "three lengths set in": ("or two", lambda c: c.plan.casters(c.floor, set_in=(1, 2, 3))),  # type: ignore[arg-type]
    "using": ("using", lambda c: c.plan.step("A", brings=c.side, using=3)),  # type: ignore[arg-type]
    "note": ("note: words", lambda c: c.plan.step("A", brings=c.side, note=3)),  # type: ignore[arg-type]
    "a step without a title": ("the step's title", lambda c: c.plan.step("", brings=c.side)),
    "no reason": ("written reason", lambda c: c.plan.accept("end grain", reason=None)),  # type: ignore[arg-type]
    "why a part": ("a length was expected", lambda c: c.plan.why(c.side)),  # type: ignore[arg-type]
    "why a word": ("a length was expected", lambda c: c.plan.why("x")),  # type: ignore[arg-type]
    "why a number": ("a length was expected", lambda c: c.plan.why(3)),  # type: ignore[arg-type]
    "notched round nothing": ("round another part", lambda c: c.side.notch_round(None)),  # type: ignore[arg-type]
    "stops": ("stops", lambda c: c.side.dado("right", width="1/4", depth="1/4", bottom="9", stops=3)),  # type: ignore[arg-type]
    "a grid's counts": ("a grid goes two ways", lambda c: c.side.bore_grid("right", "1/4", counts=3, every=3)),  # type: ignore[arg-type]
    "edges": ("edges: words", lambda c: c.side.chamfer("1/8", edges=3)),  # type: ignore[arg-type]
    "left on": ("on: words", lambda c: c.side.leave("1/8", on=3)),  # type: ignore[arg-type]
    "a brace in a number": ("between two faces", lambda c: c.plan.brace("B", STRIP, inside=3, rise=3, run=3, front=0)),  # type: ignore[arg-type]
    "a brace between parts": (
        "between two faces",
        lambda c: c.plan.brace("B", STRIP, inside=(c.side, c.floor), rise=3, run=3, front=0),  # type: ignore[arg-type]
    ),
    "one height for rails": (
        "a list of heights",
        lambda c: c.plan.frame("F", POST, left=0, right=20, front=0, back=9, bottom=0, top=20, rails_at=3),  # type: ignore[arg-type]
    ),
    "a load of nothing": ("what the load is", lambda c: c.plan.load(c.floor, None, psf=3)),  # type: ignore[arg-type]
    "a side that lies": ("lies more than it stands", lambda c: c.plan.tilt(c.side, left="89 deg")),
    "doors like laths": ("between its gaps", lambda c: c.plan.doors_in(
        "D", PLY, left=c.side, right=c.other, bottom=c.floor, top=c.top, count=30)),
    "columns that cross": ("meet or cross", lambda c: c.plan.pin_rows(
        [c.side, c.other], lowest="4", highest="20", set_in="7")),
    "a picture of nothing": ("was expected", lambda c: c.plan.picture(None)),  # type: ignore[arg-type]
    "a section with a number": ("section=", lambda c: c.plan.picture(c.side, section=3)),  # type: ignore[arg-type]
    "a face that is none": ("six faces", lambda c: c.plan.picture(c.side, face="inside")),  # type: ignore[arg-type]
    "a leaning leg and an upright rail": ("one of them leans", lambda c: _beside_a_leaning_leg(c.plan)),
}  # fmt: skip


def _beside_a_leaning_leg(plan: Plan) -> None:
    leg = plan.board("Leg", POST, runs="up", left="40", front=0, bottom=0, top="18")
    rail = plan.board("Rail", STRIP, runs="left-right", wide="up", left=leg.right, right="60", front="3/8", top="12")
    plan.splay(leg, left="8°")
    plan.glue(rail, leg)


@pytest.mark.parametrize("name", WRONG)
def test_what_is_of_the_wrong_kind_is_refused_in_words(name: str) -> None:
    said, call = WRONG[name]
    with pytest.raises(PlanError) as refused:
        call(Case())
    assert said in str(refused.value)
    assert str(refused.value.remedy)


def test_a_hinge_that_cannot_reach_is_told_in_the_plans_own_unit() -> None:
    plan = Plan("Case")
    thick = stock.lumber("4x4", species="Douglas-fir")
    post = plan.board("Post", thick, runs="up", left=0, front=0, bottom=0, top="30")
    door = plan.panel("Door", PLY, left="1/2", right="30", back=0, bottom=0, top="30", grain="up")
    with pytest.raises(PlanError) as refused:
        plan.hinges(door, on=post)
    assert "covers 3 in" in refused.value.what  # 3 1/2 − 1/2
    assert "mm" not in refused.value.what


def test_a_step_narrowed_down_to_nothing_is_looked_at() -> None:
    case = Case()
    case.plan.step("All", brings=case.plan.parts)
    case.plan.step("Bore", works_on=case.side, does="bore", only="nonsense")
    draft = case.plan.draft()
    said = [one.what for one in order_findings(draft, work_of(draft))]
    assert any("nonsense" in one for one in said)
    case = Case()
    case.plan.pin_rows([case.side, case.other], lowest="4", highest="20")
    case.plan.step("All", brings=case.plan.parts)
    case.plan.step("Bore", works_on=[case.side, case.other], does="bore", only="shelf pin")
    draft = case.plan.draft()
    assert not any("does nothing" in one.what for one in order_findings(draft, work_of(draft)))
