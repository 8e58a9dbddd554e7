"""A step's miters: four legs that are one part are told once, and nothing is told that no tape shows."""

from plankit import Plan, stock
from plankit.plan.document import document

OAK = stock.lumber("8/4x2", species="red oak", measured=("1 3/4", "1 3/4"))
RAIL = stock.lumber("4/4x3", species="red oak")


def stool() -> Plan:
    """Four legs that lean both ways, and an apron between the front two."""
    plan = Plan("Stool")
    plan.about(summary="A stool.", author="K. N.", version="1.0", published="2026-11-25")
    top = plan.glue_up("Top", RAIL, boards=5, left=0, right="16", front=0, back="12", top="17")
    leg = plan.board("Leg", OAK, runs="up", left="2", front="2", bottom=0, top=top.bottom)
    plan.splay(leg, left="8 deg", front="6 deg")
    legs = plan.at_corners(leg, of=top)
    apron = plan.board(
        "Apron", RAIL, runs="left-right", wide="up", left=legs[0].right, right=legs[1].left,
        front=leg.front + "3/8", top=top.bottom,
    )  # fmt: skip
    plan.cut_against(apron, legs[0], legs[1])
    plan.step("Cut", works_on=[*legs, apron], does=["measure", "mark", "crosscut"], minutes=9)
    plan.step("Miter", works_on=[*legs, apron], minutes=9)
    plan.step("Join", brings=plan.parts, minutes=9)
    return plan


def mitred() -> list[str]:
    steps = document(stool().draft())["steps"]
    lines = (line.replace("\u00a0", " ") for step in steps for line in step["does"])
    return [line for line in lines if "miter the" in line]


def test_four_legs_that_are_one_part_are_told_in_one_sentence() -> None:
    legs = [line for line in mitred() if line.startswith("Leg:")]
    assert len(legs) == 1
    assert "miter the ends of all 4" in legs[0]
    assert "saw turned 8.0°, blade tilted 6.0°" in legs[0]
    assert "as part drawing" in legs[0]
    assert "mark on each which way round it stands" in legs[0]


def test_a_slope_that_no_tape_shows_is_not_told_as_nothing_shorter() -> None:
    # the legs lean by 6 degrees to the front, which tilts the blade by 0.8 degrees: 13/16 in × tan 0.8° = 0.011 in
    (apron,) = [line for line in mitred() if line.startswith("Apron:")]
    assert "blade tilted 0.8°" in apron
    assert "≈0" not in apron
    assert "shorter along its top face" in apron


def test_a_drawing_has_no_distance_of_nothing() -> None:
    said = str(document(stool().draft())["figures"])
    assert "≈0 " not in said
    assert "≈0<" not in said
