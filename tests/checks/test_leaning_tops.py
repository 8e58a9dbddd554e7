"""Tops on legs that lean are held across their grain as those on upright legs are."""

import pytest

from plankit import Plan, stock
from plankit.checks.wood_movement import held_across, wood_movement
from plankit.units import L, Notation

OAK = stock.lumber("4/4x6", species="red oak")
LEG = stock.lumber("8/4x2", species="red oak", measured=("1 3/4", "1 3/4"))
RAIL = stock.lumber("4/4x3", species="red oak")


def table(lean: str | None, hold: str, tied: bool = True) -> Plan:
    """A top 26 in wide on four legs, two and two of them tied by an apron from front to back."""
    plan = Plan("Table")
    top = plan.glue_up("Top", OAK, boards=5, left=0, right="40", front=0, back="26", top="29")
    leg = plan.board("Leg", LEG, runs="up", left="4", front="4", bottom=0, top=top.bottom)
    if lean is not None:
        plan.splay(leg, left=lean)
    legs = plan.at_corners(leg, of=top)
    if tied:
        end = plan.board(
            "Apron", RAIL, runs="front-back", wide="up", front=leg.back, back=legs[2].front, left=leg.left,
            top=top.bottom - "1",
        )  # fmt: skip
        other = plan.mirror(end, of=top)
        plan.glue(end, onto=[legs[0], legs[2]])
        plan.glue(other, onto=[legs[1], legs[3]])
    if hold == "glue":
        plan.glue(legs, onto=top)
    else:
        plan.screw(legs, through=top, screws="#8 x 2")
    return plan


@pytest.mark.parametrize("lean", [None, "8 deg", "15 deg"])
@pytest.mark.parametrize("hold", ["glue", "screws"])
def test_legs_that_lean_hold_a_top_as_upright_ones_do(lean: str | None, hold: str) -> None:
    build = table(lean, hold).draft().build
    (found,) = [one for one in wood_movement(build, Notation()) if one.part == "Top"]
    assert (found.level, found.check) == ("must fix", "held across the grain")
    top = next(part for part in build.parts if part.name == "Top")
    # the legs stand 4 in in: glued from 4 to 22 in, 18 in; screwed in their middles, 1 3/4 in less
    wanted = L("18 in") if hold == "glue" else L("16 1/4 in")
    assert float(held_across(build, top).inches) == pytest.approx(float(wanted.inches), abs=0.01)


@pytest.mark.parametrize("lean", [None, "8 deg"])
def test_legs_that_nothing_joins_let_it_move(lean: str | None) -> None:
    build = table(lean, "glue", tied=False).draft().build
    assert wood_movement(build, Notation()) == ()
