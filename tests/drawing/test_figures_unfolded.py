"""The sides of a box that slope, laid flat: as long above and below as the angle makes them."""

from math import asin, atan, cos, degrees, radians, sin, tan
from typing import Any

import pytest
from reading import filled, texts

from plankit import Plan, stock
from plankit.drawing.figures_unfolded import sides_of, unfolded
from plankit.errors import PlanError

CEDAR = stock.lumber("1x8", species="western redcedar")
LEAN = 10


def planter(lean: int = LEAN) -> tuple[Plan, list[Any]]:
    plan = Plan("Planter")
    long: dict[str, Any] = {"runs": "left-right", "wide": "up", "left": 0, "right": "24", "bottom": 0}
    short: dict[str, Any] = {"runs": "front-back", "wide": "up", "front": 0, "back": "12", "bottom": 0}
    walls = [
        plan.board("Long side", CEDAR, front=0, **long), plan.board("Long side", CEDAR, back="12", **long),
        plan.board("Short side", CEDAR, left=0, **short), plan.board("Short side", CEDAR, right="24", **short),
    ]  # fmt: skip
    for wall, way in zip(walls, ("front", "back", "left", "right"), strict=True):
        plan.tilt(wall, **{way: f"{lean}°"})
    for one in walls[:2]:
        for other in walls[2:]:
            plan.mitre_corner(one, other)
    return plan, walls


def test_each_side_is_longer_above_by_what_it_leans_at_both_ends() -> None:
    plan, walls = planter()
    figure = unfolded(plan.build(), [one.part for one in walls], plan.notation)
    said = texts(figure)
    # the upper edge of a side 7 1/4 wide goes out by 7 1/4 × sin 10° at either end: 24 + 2 × 1.259 = 26.518
    assert 24 + 2 * 7.25 * sin(radians(LEAN)) == pytest.approx(26.518, abs=1e-3)
    assert {"24", "12", "7 1/4", "≈26 1/2", "≈14 1/2"} <= set(said)
    assert len(filled(figure, "part")) == 4


def test_the_saw_is_set_as_the_formula_for_splayed_sides_says() -> None:
    plan, walls = planter()
    figure = unfolded(plan.build(), [one.part for one in walls], plan.notation)
    # a side that leans by s from upright, corners of 90°: miter atan(sin s), tilt asin(cos s × sin 45°)
    s = radians(LEAN)
    miter, tilt = degrees(atan(sin(s))), degrees(asin(cos(s) * sin(radians(45))))
    assert f"saw turned {miter:.1f}°, blade tilted {tilt:.1f}°" in " ".join(texts(figure))
    assert tan(s) > sin(s)  # so that the sum above is no other


def test_they_are_found_and_told_round_from_the_front() -> None:
    plan, walls = planter()
    assert [one.id for one in sides_of(plan.build())] == [walls[0].id, walls[3].id, walls[1].id, walls[2].id]
    assert "Long side" in plan.build().part(walls[0].id).name
    assert sides_of(planter(0)[0].build()) == ()
    assert "laid flat" in plan.unfold()._repr_mimebundle_()["text/plain"]


def test_what_is_no_side_is_not_unfolded() -> None:
    plan, walls = planter()
    post = plan.board("Post", CEDAR, runs="up", wide="left-right", left=0, front="30", bottom=0, length="9")
    with pytest.raises(PlanError, match="sides of a box"):
        plan.unfold(walls[0], post)._repr_mimebundle_()
    with pytest.raises(PlanError, match="alone"):
        plan.unfold(walls[0])._repr_mimebundle_()
