"""Parts that their own cuts leave in two pieces, or in none."""

import pytest

from plankit import Plan
from plankit.checks import in_pieces
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.plan.handles import PartHandle
from plankit.stock import sheet
from tests.checks.small_builds import INCHES, footed, framed, shelved, sided

PLY = sheet("plywood", "3/4")


def shelf() -> tuple[Plan, PartHandle]:
    """A shelf 12 in long and 6 in deep, 3/4 in thick."""
    plan = Plan("Shelf")
    return plan, plan.panel("Shelf", PLY, left=0, right="12", front=0, back="6", bottom=0)


def found(plan: Plan) -> tuple[Finding, ...]:
    return in_pieces(plan.build(), INCHES)


@pytest.mark.parametrize(("rear", "pieces"), [("2", 0), ("2 1/2", 2), ("3", 2)])
def test_notches_from_both_edges_that_meet_leave_two_pieces(rear: str, pieces: int) -> None:
    # 6 in deep: 3 1/2 + 2 leave 1/2 in between them, 3 1/2 + 2 1/2 leave nothing
    plan, part = shelf()
    part.notch_edge("front", depth="3 1/2", width="2", left="5")
    part.notch_edge("back", depth=rear, width="2", left="5")
    said = [(one.level, one.part, one.number) for one in found(plan)]
    assert said == [("must fix", "Shelf", f"{pieces}\u00a0pieces")] * (pieces > 0)


@pytest.mark.parametrize(("deep", "through"), [("1/4", False), ("3/8", True), ("1/2", True)])
def test_grooves_from_both_faces_that_meet_leave_two_pieces(deep: str, through: bool) -> None:
    # 3/4 in thick: 3/8 from below and 1/4 from above leave 1/8
    plan, part = shelf()
    part.groove("bottom", width="1", depth="3/8", front="2")
    part.groove("top", width="1", depth=deep, front="2")
    assert bool(found(plan)) == through


def test_notches_that_take_all_of_it_are_refused() -> None:
    # four corners of 11 × 5 1/2 out of 12 × 6: the third and fourth leave nothing
    plan, part = shelf()
    part.notch(left="11", front="5 1/2")
    part.notch(left="11", back="5 1/2")
    with pytest.raises(PlanError, match="nothing would be left"):
        part.notch(right="11", front="5 1/2").notch(right="11", back="5 1/2")
    assert found(plan) == ()


def test_sound_builds_are_whole() -> None:
    for build in (footed(), framed(), shelved(), sided()):
        assert in_pieces(build, INCHES) == ()
