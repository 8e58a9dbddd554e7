"""What findings advise can be done by the verb that made the trouble, and brings the part back where it belongs."""

from plankit import Plan, stock
from plankit.checks.fastening import fastening
from plankit.checks.hardware import hardware
from plankit.checks.strength import strength
from plankit.finding import Finding
from plankit.plan.document import document
from plankit.units import Notation
from tests.plan.test_copies_of_joined_parts import case

PLY = stock.sheet("plywood", "3/4")
THIN = stock.sheet("plywood", "1/4")
RAIL = stock.lumber("1x4", species="Douglas-fir")


def meet(plan: Plan) -> list[Finding]:
    return [one for one in fastening(plan.draft().build, Notation()) if one.check == "fasteners meet"]


def backed(*, rail_lies: bool = False) -> Plan:
    """A back pinned to two sides and to a rail in front of it, which also lies on a side by a screw."""
    plan, left, right, _ = case()
    ends = {"bottom": "16"}
    rail = plan.board("Rail", RAIL, runs="left-right", left=left.right, right=right.left, back="12",
                      wide="front-back" if rail_lies else "up", **ends)  # fmt: skip
    back = plan.panel("Back", THIN, left=0, right="24", front="12", bottom=0, top="20", grain="up")
    plan.about(summary="A case.", author="K. N.", version="1.0", published="2026-11-25")
    plan.pin(back, into=[rail])
    plan.step("All", brings=plan.parts, minutes=9)
    return plan


def lines(plan: Plan) -> str:
    return " ".join(line for step in document(plan.draft())["steps"] for line in step["does"]).replace("\u00a0", " ")


def test_brads_that_go_into_a_rail_s_face_are_not_said_to_go_into_its_edge() -> None:
    # the rail stands on edge before the back: its wide face lies against that
    assert "through the back into the rail" in lines(backed())
    # lying flat, it has its edge there
    assert "through the back into the edge of the rail" in lines(backed(rail_lies=True))


def test_pins_that_meet_are_moved_by_what_their_verb_takes() -> None:
    plan = backed()
    back, rail = plan.parts[-1], plan.parts[-2]
    plan.pin(back, into=[rail])
    (found, *_) = meet(plan)
    assert "spacing=…" in found.remedy
    assert "each=" not in found.remedy
    assert "inset=" not in found.remedy
    # both brads stand at the same place
    assert found.number == "their middles meet"


def test_screws_and_brads_that_meet_are_each_told_with_their_own_words() -> None:
    plan = backed()
    back, rail = plan.parts[-1], plan.parts[-2]
    brad = plan.draft().build.joints[0].fasteners[0]
    plan.screw(rail, through=back, screws="#6 x 3/4", each=2, inset=brad.head.x - rail.left)
    found = meet(plan)
    assert found
    assert all("spacing=…" in one.remedy and "inset=… or each=…" in one.remedy for one in found)


def test_a_shelf_that_is_not_deep_enough_is_not_told_to_be_longer() -> None:
    plan, left, right, _ = case()
    rows = plan.pin_rows([left, right], lowest="4", highest="18")
    # the back column stands 37 mm, 1 7/16 in, before the back edge at 12 in: 10 9/16 in; this shelf ends before it
    plan.adjustable_shelf("Shelf", PLY, on=rows, row=5, back="10")
    found = [one for one in hardware(plan.draft().build, Notation()) if one.check == "shelf falls off its pins"]
    assert found
    for one in found:
        assert "set_in_back=…" in one.remedy
        assert "longer" not in one.remedy


def test_a_shelf_too_short_for_its_pins_is_told_to_be_longer() -> None:
    plan, left, right, _ = case()
    rows = plan.pin_rows([left, right], lowest="4", highest="18")
    plan.adjustable_shelf("Shelf", PLY, on=rows, row=5, clearance="3/8")
    found = [one for one in hardware(plan.draft().build, Notation()) if one.check == "shelf falls off its pins"]
    assert {one.remedy for one in found} == {"Make the shelf longer, or use pins that stand out further."}


def bench(*, screwed: bool, wide: str = "3") -> Plan:
    """A strip 46 in long between two sides, screwed to a back along its edge or not."""
    plan = Plan("Chest")
    left = plan.panel("Side", PLY, left=0, front=0, back="18", bottom=0, top="20", grain="up")
    right = plan.mirror(left, across="48")
    back = plan.panel("Back", PLY, left=left.right, right=right.left, back="18", bottom=0, top="20", grain="left-right")
    strip = plan.panel("Strip", PLY, left=left.right, right=right.left, front=back.front - wide, back=back.front,
                       top="20", grain="left-right")  # fmt: skip
    plan.screw(strip, through=[left, right], screws="#8 x 2", each=1)
    if screwed:
        plan.screw(strip, through=back, screws="#8 x 2")
    return plan


def bends(plan: Plan) -> bool:
    draft = plan.draft()
    found = strength(draft.build, Notation(), draft.loads)
    return any(one.check == "bends too far" and one.part == "Strip" for one in found)


def test_a_strip_screwed_along_its_back_does_not_span_its_length() -> None:
    assert bends(bench(screwed=False))
    assert not bends(bench(screwed=True))
    # a shelf of 14 in bends at its front edge, whatever holds its back one
    assert bends(bench(screwed=True, wide="14"))


def test_what_carries_nothing_may_be_said_to() -> None:
    plan = bench(screwed=False)
    plan.load(plan.parts[-1], "nothing", psf=0)
    assert not bends(plan)
