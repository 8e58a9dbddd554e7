"""Solid tops on cleats and rails: one line is fixed for all of them, and everything else is a slot."""

import pytest

from plankit.checks import holes
from plankit.errors import PlanError
from plankit.parts import Bore
from plankit.plan import Plan
from plankit.plan.handles import PartHandle
from plankit.stock import lumber
from plankit.units import L, Length

STRIP = lumber("1x2", species="Douglas-fir")
POST = lumber("2x2", species="Douglas-fir")
SLAB = lumber("2x10", species="loblolly pine")


def top_on(plan: Plan) -> PartHandle:
    return plan.glue_up("Top", SLAB, boards=3, left=0, right="40", front=0, back="24", bottom="28")


def cleat(plan: Plan, left: str, front: str, back: str) -> PartHandle:
    """A cleat that runs from front to back under the top."""
    return plan.board("Cleat", STRIP, runs="front-back", wide="left-right", left=left, front=front, back=back, top="28")


def holes_of(part: PartHandle) -> list[tuple[Length, Length | None]]:
    """How far back each hole of a cleat lies, and how much longer than wide it is."""
    at = [(part.front + one.at[1], one.travel) for one in part.part.features if isinstance(one, Bore)]
    return sorted(at, key=lambda one: one[0].mm)


def test_cleats_that_begin_at_different_places_share_one_line() -> None:
    plan = Plan("Table")
    top, cleats = top_on(plan), [cleat(plan, "4", "2", "22"), cleat(plan, "34", "6", "22")]
    plan.fasten_top(top, to=cleats, fixed_along="front", screws="#8 x 2")
    first, second = (holes_of(one) for one in cleats)
    # 1 1/2 in from the first cleat's front end at 2: there alone the top is held
    assert [at for at, travel in first if travel is None] == [L("3 1/2 in")]
    assert [at for at, travel in second if travel is None] == []
    # the further from that line, the longer; as far from it, as long
    for row in (first, second):
        travels = [travel.mm for _, travel in row if travel is not None]
        assert travels == sorted(travels)
    assert first[-1] == second[-1]  # both 1 1/2 in from their back ends at 22


def test_of_two_rails_one_has_round_holes_and_the_other_slots_alike() -> None:
    plan = Plan("Table")
    frame = plan.frame("Frame", POST, left="1", right="39", front="1", back="23", bottom=0, top="28", rails_at=["top"])
    front, back, *_ = frame.rails
    plan.fasten_top(top_on(plan), to=[front, back], fixed_along="back", screws="#8 x 2 1/4")
    assert {travel for _, travel in holes_of(back)} == {None}
    (slots,) = {travel for _, travel in holes_of(front)}
    assert slots is not None
    assert slots.mm > 0


def test_the_screws_of_a_rail_stay_clear_of_the_pockets_in_its_ends() -> None:
    plan = Plan("Table")
    frame = plan.frame("Frame", POST, STRIP, left="1", right="39", front="1", back="23", bottom=0, top="28",
                       rails_at=["top"])  # fmt: skip
    front = frame.rails[0]
    plan.fasten_top(top_on(plan), to=front, fixed_along="back", screws="#8 x 2 1/4", each=2)
    # the mouth of a pocket in 3/4 in ends 1.866 × 3/4 + 0.724 = 2.12 in from the end; with 3/16, up to the next 1/4
    places = [one.at[0] for one in front.part.features if isinstance(one, Bore)]
    assert places == [L("2 1/2 in"), front.length - "2 1/2"]
    assert holes(plan.build(), plan.notation) == ()


def test_an_inset_is_kept_and_one_that_leaves_no_room_is_refused() -> None:
    plan = Plan("Table")
    top, one = top_on(plan), cleat(plan, "4", "2", "12")
    plan.fasten_top(top, to=one, fixed_along="front", screws="#8 x 2", each=2, inset="3")
    assert [at for at, _ in holes_of(one)] == [L("5 in"), L("9 in")]  # 3 from the ends at 2 and 12
    with pytest.raises(PlanError, match="beyond each other"):
        plan.fasten_top(top, to=one, fixed_along="front", screws="#8 x 2", each=2, inset="5 1/4")


def test_more_screws_than_a_cleat_has_room_for_are_refused() -> None:
    plan = Plan("Table")
    top, one = top_on(plan), cleat(plan, "4", "2", "12")
    with pytest.raises(PlanError, match="no room for so many"):
        plan.fasten_top(top, to=one, fixed_along="front", screws="#8 x 2", each=40)
    assert holes_of(one) == []


@pytest.mark.parametrize("verb", ["fasten_top", "button_top"])
def test_a_top_on_nothing_is_refused(verb: str) -> None:
    plan = Plan("Table")
    top = top_on(plan)
    more = {"fixed_along": "front", "screws": "#8 x 2"} if verb == "fasten_top" else {}
    with pytest.raises(PlanError, match="to=: no part is given"):
        getattr(plan, verb)(top, to=[], **more)
