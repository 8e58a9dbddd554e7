"""Hinges let in, as their author writes them: one word, and the recess is in steps, lists, tools and drawings."""

from typing import Any

import pytest

from plankit import Plan
from plankit.build import Hung, alike
from plankit.drawing.figures_part import part_drawing
from plankit.drawing.primitives import Text
from plankit.errors import PlanError
from plankit.parts import Groove
from plankit.plan.document import document
from plankit.plan.handles import PartHandle
from plankit.plan.lists import part_note
from plankit.units import L
from tests.plan.test_drawers import PLY, chest


def hung(**how: Any) -> tuple[Plan, PartHandle, Hung, list[PartHandle]]:
    plan, parts = chest()
    door = plan.door_in(
        "Door", PLY, left=parts["left"], right=parts["right"], bottom=parts["shelf"], top=parts["top"]
    )
    hinges = plan.hinges(door, on=parts["left"], **{"sort": "butt", **how})
    plan.door("Door", door, hinges=hinges, opens="100 deg")
    plan.step("Make the case", brings=list(parts.values()))
    plan.step("Hang the door", brings=door)
    return plan, door, hinges, list(parts.values())


def step(plan: Plan) -> dict[str, Any]:
    found: dict[str, Any] = document(plan.draft())["steps"][1]
    return found


def test_one_word_lets_the_hinges_in_and_the_gap_stays() -> None:
    _, door, hinges, _ = hung(recess="gap")
    assert hinges.leaves is not None
    # door_in leaves 1/16 in all round: (3/16 − 1/16) / 2 = 1/16 in each
    assert (hinges.leaves.gap, hinges.leaves.in_door) == (L("1/16 in"), L("1/16 in"))
    assert len([one for one in door.part.features if isinstance(one, Groove)]) == 2


def test_its_step_says_where_the_recess_goes_and_how_large_it_is() -> None:
    plan, *_ = hung(recess="gap", at=["3", "9"])
    said = " ".join(step(plan)["does"]).replace("\u00a0", " ")
    assert "Door: cut a hinge recess in the left face, 2 in (51 mm) long, 5/8 in (16 mm) wide and 1/16 in" in said
    assert "starting 2 in (51 mm) from its bottom edge; mark it with a knife round the leaf" in said  # 3 − 2 / 2
    assert "each leaf is let in 1/16 in" in said
    assert "groove" not in said


def test_a_chisel_is_among_the_tools_only_where_hinges_are_let_in() -> None:
    assert "Chisel" in step(hung(recess="gap")[0])["tools"]
    assert "Chisel" not in step(hung()[0])["tools"]


def test_the_parts_list_says_hinge_recesses_and_not_grooved() -> None:
    plan, *_ = hung(recess="gap")
    draft = plan.draft()
    notes = {group.first.name: part_note(draft, group) for group in alike(plan.build())}
    assert "hinge recesses" in notes["Door"]
    assert "grooved" not in notes["Door"]


def test_the_part_drawing_shows_the_recess_with_its_size() -> None:
    plan, door, *_ = hung(recess="gap", at=["3", "9"])
    figure = part_drawing(door.part, "D", "1 piece", plan.notation)
    words = [one.text for one in figure.items if isinstance(one, Text)]
    assert "2 × hinge recess 1/16 deep" in words
    # from the bottom end: 3 − 1 and 3 + 1, 9 − 1 and 9 + 1; as wide as a leaf
    assert {"2", "4", "8", "10", "5/8"} <= set(words)
    assert "hinge recess in the left face, 1/16 × 5/8 × 2\u00a0in" in figure.description
    assert "hinge recess" not in part_drawing(hung()[1].part, "D", "1 piece", plan.notation).description


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"sort": "cup", "recess": "gap"}, "a cup hinge is bored in"),
        ({"recess": "0"}, "recess"),
        ({"recess": "gap", "recess_in": "lid"}, "there is no such hinge"),
        ({"recess": "gap", "shut": "1/16"}, "there is nothing to let in"),
    ],
)
def test_what_cannot_be_let_in_is_refused(how: dict[str, Any], said: str) -> None:
    with pytest.raises(PlanError, match=said):
        hung(**how)


def test_the_case_alone() -> None:
    _, door, hinges, parts = hung(recess="gap", recess_in="case")
    assert not [one for one in door.part.features if isinstance(one, Groove)]
    cuts = [one for one in parts[0].part.features if isinstance(one, Groove)]
    assert {one.cut.extent("x") for one in cuts} == {L("1/8 in")}  # 3/16 − 1/16
    assert "let 1/8 in into the case alone" in hinges.items[0].compare
