"""Drawers that come out at the back, the left or the right: those of the front, turned about the vertical."""

from typing import Any

import pytest

from plankit import Plan, stock
from plankit.build import Build
from plankit.build.swing import sweep
from plankit.checks import check
from plankit.drawing.figures_swing import moving_drawing
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.parts import AXIS_OF, Face, Groove, Part
from plankit.plan.document import document
from plankit.plan.drawers import Drawer
from plankit.plan.handles import PartHandle
from plankit.units import L, Length
from tests.checks.turned_builds import plain, quarter

PLY, HALF, THIN = stock.sheet("plywood", "3/4"), stock.sheet("plywood", "1/2"), stock.sheet("plywood", "1/4")
RUNNER = stock.lumber("1x2", species="red oak")
TURNS: dict[Face, int] = {"front": 0, "right": 1, "back": 2, "left": 3}
"""How many quarter turns to the left, seen from above, bring the front to a face."""
ZERO = Length.zero()

type Ends = dict[str, Length]


def turned(ends: Ends, times: int) -> Ends:
    """Four faces of a box, or five, after quarter turns: (x, y) goes to (−y, x)."""
    for _ in range(times):
        level = {"left": "front", "right": "back"}
        found = {level[face]: at for face, at in ends.items() if face in level}
        swapped = {"front": "right", "back": "left"}
        found |= {swapped[face]: -at for face, at in ends.items() if face in swapped}
        ends = found | {face: at for face, at in ends.items() if face in {"bottom", "top"}}
    return ends


def inch(**ends: str) -> Ends:
    return {face: L(at, "in") for face, at in ends.items()}


def chest(out: Face) -> tuple[Plan, dict[str, PartHandle], list[PartHandle]]:
    """The chest of the other drawers' tests, turned so that it is open at a face; its sides in a plan's order."""
    plan, times = Plan("Chest"), TURNS[out]

    def panel(name: str, **ends: str) -> PartHandle:
        made: PartHandle = plan.panel(name, THIN if name == "Back" else PLY, **turned(inch(**ends), times))
        return made

    left = panel("Side", left="0", front="0", back="17 3/4", bottom="0", top="24")
    right = panel("Side", right="24", front="0", back="17 3/4", bottom="0", top="24")
    level = {"left": "3/4", "right": "23 1/4", "front": "0", "back": "17 3/4"}
    parts = {
        "floor": panel("Bottom", **level, bottom="2"),
        "shelf": panel("Shelf", **level, bottom="10"),
        "top": panel("Top", **level, top="24"),
        "back": panel("Back", left="0", right="24", front="17 3/4", bottom="0", top="24"),
    }
    plan.screw([parts["floor"], parts["shelf"], parts["top"]], through=[left, right], screws="#8 x 2")
    plan.pin(parts["back"])
    along = "left" if out in {"front", "back"} else "front"
    sides = sorted([left, right], key=lambda one: getattr(one.part.box, along).mm)
    return plan, parts, sides


def drawn(out: Face, **more: Any) -> tuple[Plan, Drawer]:
    plan, parts, sides = chest(out)
    given: dict[str, Any] = {"between": sides, "bottom": parts["floor"], "top": parts["shelf"], "out": out}
    return plan, plan.drawer("Drawer", HALF, **{**given, "thin": THIN, "front": PLY, **more})


def round_to(build: Build, out: Face) -> Build:
    for _ in range(TURNS[out]):
        build = quarter(build)
    return build


def found(plan: Plan) -> tuple[Finding, ...]:
    return check(plan.build(), plan.shop, plan.notation)


def places(parts: tuple[Part, ...]) -> list[tuple[object, ...]]:
    return sorted((part.name, *part.box.mm(), part.grain, part.through) for part in parts)


SIDEWAYS: list[Face] = ["back", "left", "right"]
WAYS: list[dict[str, Any]] = [{}, {"lap": "overlay"}, {"runners": RUNNER}, {"joined": "pocket screws"}]


@pytest.mark.parametrize("out", SIDEWAYS)
@pytest.mark.parametrize("more", WAYS)
def test_it_is_the_front_s_drawer_turned(out: Face, more: dict[str, Any]) -> None:
    (front, _), (plan, made) = drawn("front", **more), drawn(out, **more)
    there, here = round_to(front.build(), out), plan.build()
    assert places(here.parts) == places(there.parts)
    assert sorted(item.box.mm() for item in here.items) == sorted(item.box.mm() for item in there.items)
    assert made.wide == L("22 3/8 in") if "runners" in more else made.wide == L("21 1/2 in")
    assert [one.slides for one in here.moving] == [one.slides for one in there.moving]
    assert len(here.fasteners) == len(there.fasteners)


@pytest.mark.parametrize("out", SIDEWAYS)
def test_it_raises_the_findings_of_the_front_s(out: Face) -> None:
    (front, _), (plan, _) = drawn("front"), drawn(out)
    assert plain(found(plan)) == plain(found(front))


@pytest.mark.parametrize("out", SIDEWAYS)
def test_its_bottom_runs_in_grooves_that_open_inwards(out: Face) -> None:
    _, made = drawn(out)
    for part in (*made.sides, made.box_front):
        (groove,) = (one for one in part.part.features if isinstance(one, Groove))
        axis = AXIS_OF[groove.face]
        middle = made.bottom.part.box.middle(axis)
        assert abs((part.part.box.face(groove.face) - middle).mm) < abs((part.part.box.middle(axis) - middle).mm)
        assert part.part.box.extent(axis) == L("1/2 in")


@pytest.mark.parametrize("out", SIDEWAYS)
def test_seeded_slides_longer_than_the_case_are_told_there_too(out: Face) -> None:
    plan, _ = drawn(out, slide="18")
    (long,) = (one for one in found(plan) if one.check == "slide longer than the case")
    assert (long.level, long.number) == ("must fix", "1\u00a0in")


@pytest.mark.parametrize(
    ("out", "stile"),
    [
        ("back", {"left": "-23 1/4", "right": "-22", "back": "3/4", "bottom": "0", "top": "24"}),
        ("left", {"front": "-23 1/4", "back": "-22", "right": "-1/4", "bottom": "0", "top": "24"}),
        ("right", {"front": "3/4", "back": "2", "left": "1/4", "bottom": "0", "top": "24"}),
    ],
)
def test_seeded_a_front_that_meets_a_stile(out: Face, stile: dict[str, str]) -> None:
    plan, _ = drawn(out)
    plan.panel("Stile", PLY, **inch(**stile))
    (moving,) = plan.build().moving
    met = sweep(plan.build(), moving).in_the_way()
    assert met is not None
    assert met.name == "Stile"
    assert "drawer meets something" in {one.check for one in found(plan)}


@pytest.mark.parametrize("out", SIDEWAYS)
def test_it_is_drawn_pulled_out(out: Face) -> None:
    plan, _ = drawn(out)
    build = plan.build()
    (moving,) = build.moving
    assert not sweep(build, moving).opening
    assert moving.slides == (out, L("16 in"))
    figure = moving_drawing(build, moving, plan.notation)
    assert "pulled out 16\u00a0in" in figure.description
    assert "meets nothing" in figure.description


@pytest.mark.parametrize("out", ["left", "back"])
def test_its_page_is_made(out: Face) -> None:
    plan, made = drawn(out)
    cases = [part for part in plan.parts if part.id not in {one.id for one in made}]
    plan.step("Make the case", brings=cases)
    plan.step("Make the drawer", brings=made)
    assert "Drawer front" in str(document(plan.draft()))


def test_a_drawer_comes_out_level() -> None:
    plan, parts, sides = chest("front")
    with pytest.raises(PlanError, match="comes out level") as caught:
        plan.drawer("Drawer", HALF, between=sides, bottom=parts["floor"], top=parts["shelf"], thin=THIN, out="top")
    assert "plan.flap" in caught.value.remedy


def test_what_bounds_it_is_named_from_front_to_back_where_it_comes_out_at_a_side() -> None:
    plan, parts, sides = chest("left")
    with pytest.raises(PlanError, match="wrong way round") as caught:
        plan.drawer("D", HALF, between=sides[::-1], bottom=parts["floor"], top=parts["shelf"], thin=THIN, out="left")
    assert "stands before it first" in caught.value.remedy
