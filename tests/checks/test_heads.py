"""Screws with no wood under their heads, and screws that turn loose in a hole wider than they are."""

from collections.abc import Callable

import pytest

from plankit import Plan, stock
from plankit.checks.fastening import fastening
from plankit.checks.heads import heads
from plankit.parts import Groove
from plankit.plan.handles import PartHandle
from plankit.units import L
from tests.checks.small_builds import INCHES, footed, framed, shelved, sided

PLY = stock.sheet("plywood", "3/4")
SMALL = stock.lumber("2x2", species="Douglas-fir")
APRON = stock.lumber("1x4", species="Douglas-fir")
SLAB = stock.lumber("2x10", species="loblolly pine")

type Cut = Callable[[PartHandle, PartHandle, PartHandle], object]


def said(cut: Cut) -> list[tuple[str, str, str]]:
    """A post screwed to a side, 2 in from its front, a shelf pocket-screwed to it; then somebody cuts one of them."""
    plan = Plan("Stand")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    post = plan.board("Post", SMALL, runs="up", left=side.right, front="2", bottom=0, top="30")
    shelf = plan.panel("Shelf", PLY, left=side.right, right="12", front="4", back="12", bottom="15")
    plan.screw(post, through=side, screws="#8 x 2", each=3)  # at 1 1/2, 15 and 28 1/2 in or so
    plan.pocket_screw(shelf, into=side, face="bottom")
    cut(side, post, shelf)
    return [(one.level, one.check, one.part) for one in heads(plan.build(), INCHES)]


def test_screws_through_whole_parts_are_left_alone() -> None:
    assert said(lambda side, post, shelf: None) == []
    for build in (footed(), framed(), shelved(), sided()):
        assert heads(build, INCHES) == ()


@pytest.mark.parametrize(
    ("cut", "part"),
    [
        (lambda side, post, shelf: side.notch(front="4", top="8"), "Side"),  # one head hangs in the corner cut out
        (lambda side, post, shelf: shelf.notch(left="1", front="5"), "Shelf"),  # the pockets go with the waste
        (lambda side, post, shelf: side.notch(back="4", top="8"), ""),  # away from every screw
        (lambda side, post, shelf: shelf.notch(right="1", front="5"), ""),
    ],
)
def test_a_part_cut_away_under_a_head(cut: Cut, part: str) -> None:
    assert said(cut) == [("must fix", "nothing under its head", part)] * bool(part)


@pytest.mark.parametrize(("deep", "told"), [("1/16", []), ("1/4", ["look at"]), ("1/2", ["look at"])])
def test_a_groove_cut_under_heads_lets_them_sink(deep: str, told: list[str]) -> None:
    found = said(lambda side, post, shelf: side.groove("left", width="1", depth=deep, front="2 1/4"))
    assert [level for level, *_ in found] == told


def test_a_screw_driven_where_a_groove_is_already_sits_on_its_bottom() -> None:
    plan = Plan("Stand")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    side.groove("left", width="1", depth="1/4", front="2 1/4")
    post = plan.board("Post", SMALL, runs="up", left=side.right, front="2", bottom=0, top="30")
    plan.screw(post, through=side, screws="#8 x 2")
    assert heads(plan.build(), INCHES) == ()


@pytest.mark.parametrize(
    ("across", "deep", "front", "loose"),
    [
        ("5/8", "3", "2", True),  # the whole of its thread lies in a hole of 5/8
        ("5/8", "1/2", "2", False),  # 2 − 3/4 = 1 1/4 of thread, and 3/4 of it beyond the hole
        ("1/8", "3", "2", False),  # narrower than the screw: a lead hole
        ("5/8", "3", "4", False),  # beside it: another check tells where they meet
    ],
)
def test_a_wide_hole_on_a_screw_s_own_line_is_no_lead_hole(across: str, deep: str, front: str, loose: bool) -> None:
    plan = Plan("Stand")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    shelf = plan.panel("Shelf", PLY, left=side.right, right="12", front=0, back="12", bottom="15")
    plan.screw(shelf, through=side, screws="#8 x 2", inset="2")
    shelf.bore("left", across, depth=deep, front=front, bottom="3/8")
    assert [one.check for one in heads(plan.build(), INCHES)] == ["screw in a wide hole"] * loose


@pytest.mark.parametrize(("across", "slips"), [("1/4", False), ("3/8", True)])
def test_a_head_slips_through_a_hole_as_wide_as_it_is(across: str, slips: bool) -> None:
    # a #8 shank is 0.164 in; its head about 0.33
    plan = Plan("Stand")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    shelf = plan.panel("Shelf", PLY, left=side.right, right="12", front=0, back="12", bottom="15")
    plan.screw(shelf, through=side, screws="#8 x 2", inset="2")
    side.bore("left", across, front="2", bottom="15 3/8")
    assert [one.check for one in heads(plan.build(), INCHES)] == ["screw in a wide hole"] * slips


def test_the_groove_for_buttons_stops_short_of_the_pockets_in_its_face() -> None:
    # the pockets' mouths reach 2 1/8 in from the ends, in the very line of the groove
    plan = Plan("Table")
    frame = plan.frame("Table", SMALL, APRON, left="1", right="41", front="1", back="19", bottom=0, top="28",
                       rails_at=["top"])  # fmt: skip
    top = plan.glue_up("Top", SLAB, boards=3, left=0, right="42", front=0, back="20", bottom="28")
    plan.button_top(top, to=frame.rails)
    assert heads(plan.build(), INCHES) == ()
    (cut,) = (one.cut for one in frame.rails[0].part.features if isinstance(one, Groove))
    assert (cut.left.inches, cut.right.inches) == (2.25, 37 - 2.25)


RAIL = stock.lumber("2x4", species="loblolly pine")


def counterbored(deep: str, screws: str, *, before: bool) -> Plan:
    """A 2x4 rail screwed to a panel of 3/4 behind it, with a wide bore of that depth under one of the heads."""
    plan = Plan("Rail")
    rail = plan.board("Rail", RAIL, runs="left-right", wide="up", left=0, right="30", front=0, bottom=0)
    panel = plan.panel("Panel", PLY, left="5", right="25", front=rail.back, bottom=0, top="10")
    if before:
        rail.bore("front", "1", left="15", bottom="1 3/4", depth=deep)
    plan.screw(panel, through=rail, screws=screws, each=3)  # at 7, 15 and 23 in
    if not before:
        rail.bore("front", "1", left="15", bottom="1 3/4", depth=deep)
    return plan


def looked(plan: Plan) -> list[tuple[str, str, str]]:
    return [(one.level, one.check, plain(one.number)) for one in heads(plan.build(), INCHES)]


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_a_head_falls_to_the_bottom_of_a_bore_made_afterwards() -> None:
    # 2 in − 1 1/2 in of rail = 1/2 in into a panel of 3/4; from 1 3/8 deeper it is 1 1/8 in too long
    plan = counterbored("1 3/8", "#8 x 2", before=False)
    assert looked(plan) == [("must fix", "nothing under its head", "1 3/8 in")]
    (found,) = heads(plan.build(), INCHES)
    assert "comes out of Panel" in found.what
    # 1/4 deeper it ends just at the panel's back
    assert looked(counterbored("1/4", "#8 x 2", before=False)) == [("look at", "nothing under its head", "1/4 in")]
    assert looked(counterbored("1/8", "#8 x 2", before=False)) == []


def test_a_screw_driven_in_a_counterbore_that_is_there_is_reckoned_from_its_bottom() -> None:
    plan = counterbored("1 3/8", "#8 x 2", before=True)
    assert [one.head.y for (joint,) in [plan.build().joints] for one in joint.fasteners] == [
        L("0 in"), L("1 3/8 in"), L("0 in"),
    ]  # fmt: skip
    assert looked(plan) == []
    out = [one for one in fastening(plan.build(), INCHES) if one.check == "fastener comes through"]
    assert [(one.level, one.part, plain(one.number)) for one in out] == [("must fix", "Panel", "1 1/8 in")]


def test_a_bore_narrower_than_a_head_carries_it() -> None:
    plan = Plan("Rail")
    rail = plan.board("Rail", RAIL, runs="left-right", wide="up", left=0, right="30", front=0, bottom=0)
    panel = plan.panel("Panel", PLY, left="5", right="25", front=rail.back, bottom=0, top="10")
    rail.bore("front", "1/4", left="15", bottom="1 3/4", depth="1")  # the head is about 0.33 in across
    plan.screw(panel, through=rail, screws="#8 x 2", each=3)
    assert all(one.head.y == L(0, "in") for (joint,) in [plan.build().joints] for one in joint.fasteners)
    assert looked(plan) == []
