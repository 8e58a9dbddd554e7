"""What is the matter with a piece whose reader leaves the optional steps out."""

from plankit import Plan, stock
from plankit.finding import Finding
from plankit.plan.cut_list import cut_plan
from plankit.plan.document import findings
from plankit.plan.work import labels, work_of
from tests.plan.demo import bench
from tests.plan.test_drawers import chest

PLY = stock.sheet("plywood", "3/4")
THIN = stock.sheet("plywood", "1/4")
STRIP = stock.lumber("1x2", species="Douglas-fir")


def case(*, optional: bool) -> Plan:
    """A case 60 in high with a thin back, which comes in a step of its own."""
    plan = Plan("Bookcase")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="60")
    other = plan.mirror(side, across="24")
    between = {"left": side.right, "right": other.left, "front": 0, "back": "12"}
    shelves = [plan.panel(name, PLY, **between, bottom=at) for name, at in (("Bottom", 0), ("Top", "59 1/4"))]
    plan.screw(shelves, through=[side, other], screws="#8 x 2")
    back = plan.panel("Back", THIN, left=0, right="24", front="12", bottom=0, top="60")
    plan.pin(back, into=[side, other, *shelves])
    plan.step("Case", brings=[side, other, *shelves])
    plan.step("Back", brings=back, optional=optional)
    return plan


def said(plan: Plan) -> list[Finding]:
    draft = plan.draft()
    found = findings(draft, work_of(draft), cut_plan(draft, labels(draft)[1]))
    return [one for one in found if one.what.startswith("Without step")]


def test_a_case_racks_without_a_back_that_is_optional() -> None:
    assert said(case(optional=False)) == []
    (found,) = said(case(optional=True))
    assert (found.level, found.check, found.place) == ("look at", "may rack", "sideways")
    assert found.what.startswith("Without step 2, which is optional: Nothing keeps Bookcase from leaning over")


def cleated(*, optional: bool) -> Plan:
    """A top that is screwed to a cleat and to nothing else; the cleat comes in a step of its own."""
    plan = Plan("Shelf")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="8")
    other = plan.mirror(side, across="24")
    floor = plan.panel("Bottom", PLY, left=side.right, right=other.left, front=0, back="12", bottom=0)
    cleat = plan.board("Cleat", STRIP, runs="front-back", wide="left-right", left=side.right, front=0, length="12",
                       top=side.top)  # fmt: skip
    top = plan.panel("Top", PLY, left=0, right="24", front=0, back="12", bottom=side.top)
    plan.screw(floor, through=[side, other], screws="#8 x 2")
    plan.screw(cleat, through=side, screws="#8 x 1 1/4")
    plan.screw(top, through=cleat, screws="#8 x 1 1/4")
    plan.step("Box", brings=[side, other, floor])
    plan.step("Cleat", brings=cleat, optional=optional)
    plan.step("Top", brings=top)
    return plan


def test_a_part_that_only_an_optional_one_holds() -> None:
    assert said(cleated(optional=False)) == []
    assert [(one.check, one.part) for one in said(cleated(optional=True))] == [("nothing holds it", "Top")]


def test_a_plan_whose_optional_steps_hold_nothing_together_says_nothing_of_them() -> None:
    assert said(bench()) == []


def cupboard(*, optional: bool, does: tuple[str, ...] = ()) -> Plan:
    """A chest with a door on butt hinges let in, which comes in a step of its own."""
    plan, parts = chest()
    door = plan.door_in(
        "Door", PLY, left=parts["left"], right=parts["right"], bottom=parts["floor"], top=parts["shelf"], gap="1/16"
    )
    hinges = plan.hinges(door, on=parts["left"], sort="butt", recess="gap")
    plan.door("Door", door, hinges=hinges, opens="100 deg")
    plan.step("Case", brings=list(parts.values()))
    plan.step("Door", brings=door, optional=optional, **({"works_on": parts["left"], "does": does} if does else {}))
    return plan


def test_recesses_and_holes_for_a_door_that_is_optional_are_not_to_be_made_before() -> None:
    assert said(cupboard(optional=False)) == []
    (found,) = said(cupboard(optional=True))
    assert (found.level, found.check, found.part) == ("look at", "made for what is left out", "Side")
    assert "In step 1 holes or recesses are made in Side that then serve nothing." in found.what
    assert "does=['chop', 'bore']" in found.remedy
    assert said(cupboard(optional=True, does=("chop", "bore"))) == []
