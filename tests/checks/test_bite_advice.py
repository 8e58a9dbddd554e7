"""What is advised about a screw's length is a length that the other checks let pass."""

import re

import pytest

from plankit import Plan, stock
from plankit.checks.fastening import fastening
from plankit.finding import Finding
from plankit.units import Notation

OAK = stock.lumber("4/4x6", species="red oak")
RAIL = stock.lumber("4/4x2", species="red oak")


def about(plan: Plan) -> list[Finding]:
    found = fastening(plan.draft().build, Notation())
    return [one for one in found if one.check in {"too little bite", "fastener comes through", "fastener too short"}]


def plain(words: str) -> str:
    """Words with common spaces."""
    return words.replace("\u00a0", " ")


def table(screws: str, way: str) -> list[Finding]:
    """A top 13/16 in thick on two cleats of 13/16 in, held by slots or rigidly."""
    plan = Plan("Table")
    top = plan.glue_up("Top", OAK, boards=3, left=0, right="30", front=0, back="14", top="20")
    cleat = plan.board(
        "Cleat", RAIL, runs="front-back", wide="left-right", front="1", back="13", left="4", top=top.bottom
    )
    cleats = [cleat, plan.mirror(cleat, of=top)]
    if way == "slots":
        plan.fasten_top(top, to=cleats, fixed_along="front", screws=screws)
    else:
        plan.screw(top, through=cleats, screws=screws)
    return about(plan)


@pytest.mark.parametrize("way", ["slots", "rigid"])
@pytest.mark.parametrize("long", ["3/4", "1", "1 1/4", "1 3/4", "2"])
def test_the_length_that_is_advised_passes(way: str, long: str) -> None:
    # 13/16 + 13/16 in less 1/8 in over the tip leaves 1 1/2 in, and that is what is advised, from either side
    (found,) = table(f"#8 x {long}", way)
    advised = re.search(r"Use one (?:no longer than )?(1 1/2) in", plain(found.remedy))
    assert advised is not None, found.remedy
    assert [one.level for one in table(f"#8 x {advised[1]}", way)] == ([] if way == "slots" else ["for information"])


@pytest.mark.parametrize("long", ["1", "1 1/4", "1 1/2"])
def test_glue_is_never_advised_where_a_top_must_move(long: str) -> None:
    for way in ("slots", "rigid"):
        for one in table(f"#8 x {long}", way):
            assert "add glue" not in one.remedy.lower()


def test_the_usual_screw_of_a_button_is_right_and_called_by_what_it_goes_through() -> None:
    plan = Plan("Table")
    top = plan.glue_up("Top", OAK, boards=3, left=0, right="30", front=0, back="14", top="20")
    rail = plan.board(
        "Apron", stock.lumber("4/4x3", species="red oak"), runs="left-right", wide="up", left="2", right="28",
        front="2", top=top.bottom,
    )  # fmt: skip
    plan.button_top(top, to=[rail])
    assert about(plan) == []
    # a screw through a 3/4 in button that comes out of a 13/16 in top
    plan.button_top(top, to=[plan.mirror(rail, of=top, axis="front-back")], screws="#8 x 1 3/4")
    (found,) = about(plan)
    assert plain(found.what) == "A #8 × 1 3/4 in wood screw through a button on Apron comes out of the top of Top."


def test_a_leg_screwed_on_by_its_end_is_not_to_be_glued_across_a_wide_top() -> None:
    plan = Plan("Stool")
    top = plan.glue_up("Top", OAK, boards=3, left=0, right="30", front=0, back="14", top="20")
    leg = plan.board("Leg", stock.lumber("2x2", species="red oak"), runs="up", left="2", front="2", bottom=0,
                     top=top.bottom)  # fmt: skip
    plan.screw(leg, through=top, screws="#8 x 2")
    found = [one for one in fastening(plan.draft().build, Notation()) if one.check == "screw in end grain"]
    assert [one.remedy for one in found] == ["Put in a second screw, and do not rely on it to hang anything."]
