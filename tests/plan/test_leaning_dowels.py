"""Dowels into legs that lean: both holes of each on one line, and drawings that the page holds."""

from dataclasses import replace
from math import cos, pi, radians

import pytest

from plankit import Plan, stock
from plankit.build import dowels
from plankit.build.joints_dowels import DEEPER
from plankit.checks import check, fastening
from plankit.drawing.figures_part import part_drawing
from plankit.drawing.primitives import Text
from plankit.errors import PlanError
from plankit.parts import Bevel, Bore, bore_line, has_hand, solid, spot_after, turning
from plankit.plan.document import document
from plankit.plan.handles import PartHandle
from plankit.units import L, Notation

OAK = stock.lumber("8/4x2", species="red oak", measured=("1 3/4", "1 3/4"))
RAIL = stock.lumber("4/4x3", species="red oak")
type Line = tuple[tuple[float, float, float], tuple[float, float, float]]


def frame(front: str | None) -> tuple[Plan, PartHandle, list[PartHandle]]:
    r"""
    /‾‾‾‾‾‾\    an apron between two legs that lean out by 8 degrees, and by so much to the front as well
    /      \
    """
    plan = Plan("Frame")
    plan.about(summary="A frame.", author="K. N.", version="1.0", published="2026-11-25")
    leg = plan.board("Leg", OAK, runs="up", left="2", front="2", bottom=0, top="16")
    plan.splay(leg, left="8 deg", **({"front": front} if front else {}))
    other = plan.mirror(leg, across="16")
    apron = plan.board(
        "Apron", RAIL, runs="left-right", wide="up", left=leg.right, right=other.left, front="2 3/8", top=leg.top
    )
    plan.cut_against(apron, leg, other)
    plan.dowel(apron, into=[leg, other])
    plan.step("Cut", works_on=[leg, other, apron], does=["measure", "mark", "crosscut", "bore"], minutes=9)
    plan.step("Join", brings=[leg, other, apron], minutes=9)
    return plan, apron, [leg, other]


def stands(handle: PartHandle) -> list[Line]:
    """The middle lines of a part's bores where it stands, each from its mouth to its bottom."""
    turn = turning(handle.part.leans)
    lines = (bore_line(handle.part, one) for one in handle.part.features if isinstance(one, Bore))
    return [(spot_after(turn, mouth), spot_after(turn, bottom)) for mouth, bottom in lines]


def far_from_line(spot: tuple[float, float, float], line: Line) -> float:
    start, end = line
    way = [b - a for a, b in zip(start, end, strict=True)]
    long = sum(one * one for one in way) ** 0.5
    off = [s - a for s, a in zip(spot, start, strict=True)]
    along = sum(o * w for o, w in zip(off, way, strict=True)) / long
    return (sum(o * o for o in off) - along * along) ** 0.5 if sum(o * o for o in off) > along * along else 0.0


@pytest.mark.parametrize("front", [None, "6 deg"])
def test_both_holes_of_a_dowel_lie_on_one_line(front: str | None) -> None:
    plan, apron, legs = frame(front)
    own, theirs = stands(apron), [line for leg in legs for line in stands(leg)]
    assert len(own) == len(theirs) == 4
    for mine in own:
        on_it = [line for line in theirs if all(far_from_line(spot, line) < 0.01 for spot in mine)]
        assert len(on_it) == 1
        # they open against each other: mouth on mouth
        assert mine[0] == pytest.approx(on_it[0][0], abs=0.01)
    # the dowels lie in them, and the two holes together are as much deeper as they should be
    (one, *_) = plan.draft().build.joints
    for peg in one.fasteners:
        line = peg.ends_mm()
        assert any(all(far_from_line(spot, mine) < 0.01 for spot in line) for mine in own)
        depths = [bore.depth for part in (apron, legs[0]) for bore in part.part.features if isinstance(bore, Bore)]
        assert depths[0] + depths[-1] == peg.spec.length + DEEPER


def test_a_dowel_s_hole_is_square_to_the_end_it_is_bored_in() -> None:
    # the leg leans by 8 degrees, so its face does, and a line square to that falls by sin 8 for each inch
    _, apron, _ = frame(None)
    for mouth, bottom in stands(apron):
        long = sum((b - a) ** 2 for a, b in zip(mouth, bottom, strict=True)) ** 0.5
        assert abs(mouth[0] - bottom[0]) == pytest.approx(long * cos(radians(8)), rel=1e-6)
        assert mouth[1] == pytest.approx(bottom[1], abs=1e-9)


def test_a_hole_square_to_a_sawn_end_takes_its_whole_depth_out_of_the_wood() -> None:
    _, apron, _ = frame("6 deg")
    part = apron.part
    bores = [one for one in part.features if isinstance(one, Bore)]
    plain = replace(part, features=tuple(one for one in part.features if not isinstance(one, Bore)))
    taken = solid(plain).volume() - solid(part).volume()
    # π r² × depth, less what a polygon leaves of a circle
    whole = sum(pi * float(one.diameter.mm) ** 2 / 4 * float(one.reach(part.box.size).mm) for one in bores)
    assert taken == pytest.approx(whole, rel=0.03)


@pytest.mark.parametrize("front", [None, "6 deg"])
def test_dowels_of_leaning_legs_do_not_meet_themselves(front: str | None) -> None:
    plan, _, _ = frame(front)
    found = check(plan.draft().build, None, Notation())
    assert [one.check for one in found if one.check in {"holes meet", "fasteners meet", "nothing behind it"}] == []


@pytest.mark.parametrize("front", [None, "6 deg"])
def test_mirrored_legs_stay_a_pair(front: str | None) -> None:
    plan, _, legs = frame(front)
    assert has_hand(legs[0].part)
    assert len([one for one in document(plan.draft())["parts"] if one["name"] == "Leg"]) == 1


def test_the_drawing_of_a_leg_with_much_to_mark_fits_the_page() -> None:
    _, _, legs = frame("6 deg")
    figure = part_drawing(legs[0].part, "A", "2: 1 of each hand", Notation(), legs[1].part)
    assert (figure.width <= 170, figure.height <= 200) == (True, True)
    words = " ".join(one.text for one in figure.items if isinstance(one, Text))
    assert "Drawn: one hand; the other is its mirror image" in words


def test_two_parts_both_sawn_at_a_slant_are_refused_in_words() -> None:
    _, apron, legs = frame(None)
    sawn = replace(legs[0].part, features=(*legs[0].part.features, Bevel("right", "front", L("0.01 mm"))))
    with pytest.raises(PlanError, match="both sawn at a slant"):
        dowels(apron.part, sawn)


def test_a_drawing_that_no_page_holds_is_refused_in_words_an_author_can_act_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    _, _, legs = frame("6 deg")
    monkeypatch.setattr("plankit.drawing.placing.WIDEST", 40.0)
    with pytest.raises(PlanError) as refused:
        part_drawing(legs[0].part, "A", "2: 1 of each hand", Notation(), legs[1].part)
    assert refused.value.where == "Leg"
    assert "part.bore_row" in (refused.value.remedy or "")
    assert "label" not in str(refused.value)


def test_a_dowel_too_long_for_a_leaning_joint_comes_out_where_it_does() -> None:
    # square to a leg that leans by 20 degrees, 4 1/2 in of it fall by 4 1/2 × sin 20 = 1 1/2 in in an apron of 3 in
    plan = Plan("Steep")
    leg = plan.board("Leg", OAK, runs="up", left="2", front="2", bottom=0, top="16")
    plan.splay(leg, left="20 deg")
    other = plan.mirror(leg, across="40")
    apron = plan.board(
        "Apron", RAIL, runs="left-right", wide="up", left=leg.right, right=other.left, front="2 3/8", top=leg.top
    )
    plan.cut_against(apron, leg, other)
    plan.dowel(apron, into=[leg, other], pins="3/8 x 6")
    out = [one for one in fastening(plan.build(), Notation()) if one.check == "fastener comes through"]
    said = {one.what.partition(" comes out of ")[2] for one in out}
    # the lower of two dowels falls out of the bottom, the upper one stays in; the leg's top is another matter
    assert said - {"the top of Leg."} == {"the bottom of Apron."}
