"""Joints as an author writes them: frames, panels let in, face frames, dowels, nails, pins, tops."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.checks import holes
from plankit.checks.fastening import fastening
from plankit.checks.fit import fit
from plankit.checks.flush import flush
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.parts import Bore, Groove, PocketHoles
from plankit.plan import Plan
from plankit.plan.document import document
from plankit.stock import lumber, sheet
from plankit.units import L

SMALL = lumber("2x2", species="Douglas-fir")
BATTEN = lumber("1x2", species="Douglas-fir")
APRON = lumber("1x4", species="Douglas-fir")
SLAB = lumber("2x10", species="loblolly pine")
PLY = sheet("plywood", "3/4")
THIN = sheet("plywood", "1/4")


def found(plan: Plan) -> tuple[Finding, ...]:
    """What is said about how parts fit and what holds them, but for information."""
    build = plan.build()
    said = (*fit(build, plan.notation), *fastening(build, plan.notation), *flush(build, plan.notation))
    return tuple(finding for finding in said if finding.level != "for information")


def framed(plan: Plan, high: str = "34"):
    return plan.frame("Cabinet", SMALL, left=0, right="36", front=0, back="16", bottom=0, top=high)


def test_a_frame_of_posts_and_rails_is_one_line() -> None:
    plan = Plan("Cabinet")
    frame = framed(plan)
    assert (len(frame.uprights), len(frame.rails)) == (4, 8)
    front = frame.side("front")
    assert [part.name for part in front] == ["Cabinet post"] * 2 + ["Cabinet front rail"] * 2
    assert front[2].length == L("33 in")  # 36 less two posts of 1 1/2
    assert frame.side("left")[2].length == L("13 in")
    assert {len(joint.fasteners) for joint in plan.build().joints if joint.kind == "pocket screws"} == {1}
    assert sum(joint.glue for joint in plan.build().joints) == 16  # every rail at both ends
    assert found(plan) == ()


def test_rails_meet_a_post_without_their_screws_meeting() -> None:
    """Front rails are drilled 1/4 in above the middle, side rails 1/4 in below; at one height they would cross.

    In a 1 1/2 in post each reaches (2 1/2 − 1 1/8) × cos 15° = 1.33 in, past its middle.
    """
    plan = Plan("Cabinet")
    post, other = (
        plan.board("Post", SMALL, runs="up", left=0, front=0, bottom=0, top="30"),
        plan.board("Rail", SMALL, runs="left-right", left="1 1/2", right="20", front=0, bottom="4"),
    )
    side = plan.board("Side rail", SMALL, runs="front-back", front="1 1/2", back="16", left=0, bottom="4")
    plan.pocket_screw(other, into=post, face="back")
    plan.pocket_screw(side, into=post, face="right")
    (clash,) = found(plan)
    assert (clash.check, clash.part) == ("fasteners meet", "Post")
    mended = Plan("Cabinet")
    post = mended.board("Post", SMALL, runs="up", left=0, front=0, bottom=0, top="30")
    other = mended.board("Rail", SMALL, runs="left-right", left="1 1/2", right="20", front=0, bottom="4")
    side = mended.board("Side rail", SMALL, runs="front-back", front="1 1/2", back="16", left=0, bottom="4")
    mended.pocket_screw(other, into=post, face="back", shift="1/4")
    mended.pocket_screw(side, into=post, face="right", shift="-1/4")
    assert found(mended) == ()


def test_narrow_ends_take_one_screw_and_glue_by_themselves() -> None:
    plan = Plan("Frame")
    post = plan.board("Post", SMALL, runs="up", left=0, front=0, bottom=0, top="30")
    rail = plan.board(
        "Rail", BATTEN, runs="left-right", wide="up", left="1 1/2", right="20", front=0, bottom="4"
    )
    plan.pocket_screw(rail, into=post)
    assert [(joint.kind, len(joint.fasteners)) for joint in plan.build().joints] == [
        ("pocket screws", 1),
        ("glue", 0),
    ]
    wide = plan.board(
        "Apron", APRON, runs="left-right", wide="up", left="1 1/2", right="20", front=0, bottom="20"
    )
    plan.pocket_screw(wide, into=post)
    assert [(joint.kind, len(joint.fasteners)) for joint in plan.build().joints][2:] == [("pocket screws", 2)]


def test_two_pocket_holes_on_a_1x2_end_are_caught() -> None:
    plan = Plan("Frame")
    post = plan.board("Post", SMALL, runs="up", left=0, front=0, bottom=0, top="30")
    rail = plan.board(
        "Rail", BATTEN, runs="left-right", wide="up", left="1 1/2", right="20", front=0, bottom="4"
    )
    plan.pocket_screw(rail, into=post, each=2)
    (split,) = found(plan)
    assert (split.level, split.check, split.part) == ("must fix", "may split", "Rail")


def test_a_shift_off_the_joint_is_refused() -> None:
    plan = Plan("Frame")
    post = plan.board("Post", SMALL, runs="up", left=0, front=0, bottom=0, top="30")
    rail = plan.board(
        "Rail", BATTEN, runs="left-right", wide="up", left="1 1/2", right="20", front=0, bottom="4"
    )
    with pytest.raises(PlanError, match="off the joint") as error:
        plan.pocket_screw(rail, into=post, shift="3/4")
    assert error.value.where.startswith("Rail")


# Panels let in


def test_a_panel_let_in_is_the_size_of_its_opening_and_flush() -> None:
    plan = Plan("Cabinet")
    frame = framed(plan)
    panel = plan.let_in("Side panel", PLY, frame=frame.side("left"), flush="left")
    # 34 less rails of 1 1/2 at either end; 16 less two posts
    assert (panel.length, panel.width) == (L("31 in"), L("13 in"))
    assert panel.left == L("0 in")
    holes = [one for one in panel.part.features if isinstance(one, PocketHoles)]
    assert {one.face for one in holes} == {"right"}  # hidden: the face opposite the flush one
    assert {one.end for one in holes} == {"front", "back", "bottom", "top"}
    # 31 in, 2 from each end: 27, four gaps of at most 7; 13 in, 3 from each end: 7, one gap
    assert sorted(len(one.places) for one in holes) == [2, 2, 5, 5]
    assert found(plan) == ()


def test_the_drilled_face_and_the_spacing_may_be_chosen() -> None:
    plan = Plan("Cabinet")
    panel = plan.let_in(
        "Back panel", PLY, frame=framed(plan).side("back"), flush="back", drilled="back", spacing="4"
    )
    holes = [one for one in panel.part.features if isinstance(one, PocketHoles)]
    assert {one.face for one in holes} == {"back"}
    assert max(len(one.places) for one in holes) == 8  # 27 in, or 33 − 6 = 27: seven gaps of at most 4


def test_a_panel_that_is_not_flush_with_all_of_its_frame_is_caught() -> None:
    plan = Plan("Cabinet")
    left = plan.board("Post", SMALL, runs="up", left=0, front=0, bottom=0, top="30")
    right = plan.board("Post", SMALL, runs="up", right="20", front=0, bottom=0, top="30")
    low = plan.board(
        "Low rail", SMALL, runs="left-right", left=left.right, right=right.left, front="1/4", bottom=0
    )
    high = plan.board(
        "Top rail", SMALL, runs="left-right", left=left.right, right=right.left, front=0, top="30"
    )
    plan.let_in("Panel", PLY, frame=[left, right, low, high])
    (proud,) = [f for f in found(plan) if f.check == "not flush"]
    assert (proud.level, proud.part, proud.number) == ("must fix", "Panel", "1/4\u00a0in")
    assert "proud of it" in proud.what


def test_a_panel_is_let_in_between_four_parts() -> None:
    plan = Plan("Cabinet")
    frame = framed(plan)
    with pytest.raises(PlanError, match="between four parts"):
        plan.let_in("Panel", PLY, frame=frame.side("left")[:3], flush="left")


@given(st.integers(20, 60), st.integers(12, 40), st.integers(10, 30))
@settings(max_examples=15, deadline=None)
def test_frames_of_any_size_with_panels_all_round_have_nothing_to_fix(
    high: int, wide: int, deep: int
) -> None:
    plan = Plan("Cabinet")
    frame = plan.frame(
        "Cabinet", SMALL, left=0, right=str(wide), front=0, back=str(deep), bottom=0, top=str(high)
    )
    for side in ("left", "right", "back"):
        plan.let_in(f"{side} panel", PLY, frame=frame.side(side), flush=side)
    assert [f for f in found(plan) if f.level == "must fix"] == []


# Dividers, shelves


def test_a_divider_notched_round_rails_is_screwed_on_both_edges_in_one_line() -> None:
    plan = Plan("Cabinet")
    frame = framed(plan)
    divider = plan.panel("Divider", PLY, left="18", front=0, back="16", bottom=0, top="34")
    rails = [one for one in frame.rails if "side" not in one.id]
    for rail in rails:
        divider.notch_round(rail)
    for rail, towards in zip(rails, ("front bottom", "back bottom", "front top", "back top"), strict=True):
        plan.pocket_screw(divider, into=rail, face="right", towards=towards)
    joints = [joint for joint in plan.build().joints if joint.holds == "divider"]
    assert [joint.contact.face for joint in joints] == [
        "front", "bottom", "back", "bottom", "front", "top", "back", "top",
    ]  # fmt: skip
    assert found(plan) == ()


def test_a_pocket_hole_that_breaks_out_of_a_short_edge_is_caught() -> None:
    # the divider covers only 3/4 in of the rail: 1/4 in from the middle leaves 1/8 in beside a pocket 3/8 in wide
    plan = Plan("Cabinet")
    rail = framed(plan).rails[0]
    divider = plan.panel("Divider", PLY, left="18", front="3/4", back="14", bottom=0, top="30")
    divider.notch_round(rail)
    plan.pocket_screw(divider, into=rail, face="right", towards="bottom", shift="-1/4")
    (broken,) = found(plan)
    assert (broken.level, broken.check, broken.part, broken.number) == (
        "must fix", "may split", "Divider", "1/8\u00a0in",
    )  # fmt: skip
    assert "breaks out" in broken.what


def test_a_shelf_in_dadoes_is_glued_and_screwed_there() -> None:
    plan = Plan("Case")
    left = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    shelf = plan.panel("Shelf", PLY, left="1/2", right="24", front=0, back="12", bottom="10")
    left.dado(
        "right", width=shelf.thickness, depth=left.thickness - "1/2", bottom="10", reason="for the shelf"
    )
    plan.glue(shelf, onto=left)
    plan.screw(shelf, through=left, screws="#8 x 1 3/4")
    assert {joint.contact.region.left for joint in plan.build().joints} == {L("1/2 in")}
    assert found(plan) == ()


# Face frames


def cased(plan: Plan):
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="30")
    other = plan.mirror(side, across="36")
    floor = plan.panel("Floor", PLY, left=side.right, right=other.left, front=0, back="12", bottom=0)
    shelf = plan.panel("Shelf", PLY, left=side.right, right=other.left, front=0, back="12", bottom="15")
    plan.dowel([floor, shelf], into=[side, other])
    return side, other, floor, shelf


def test_a_face_frame_takes_its_sizes_from_the_case() -> None:
    plan = Plan("Case")
    side, other, floor, shelf = cased(plan)
    frame = plan.face_frame("Face frame", BATTEN, on=[side, other, floor, shelf], rails_on=[shelf])
    left, right = frame.uprights
    assert (left.left, right.right, left.length) == (L("0 in"), L("36 in"), L("30 in"))
    assert left.front == L("-3/4 in")
    assert [rail.length for rail in frame.rails] == [L("33 in")] * 3  # 36 less two stiles of 1 1/2
    # a plywood shelf of 23/32 from 15 in up
    assert [rail.top for rail in frame.rails] == [L("1 1/2 in"), shelf.top, L("30 in")]
    pocketed = [joint for joint in plan.build().joints if joint.kind == "pocket screws"]
    assert {joint.flush for joint in pocketed} == {"front"}
    assert len(pocketed) == 6
    assert found(plan) == ()


def test_stiles_in_the_middle_cover_dividers_and_break_the_shelf_rails() -> None:
    plan = Plan("Case")
    side, other, floor, shelf = cased(plan)
    divider = plan.panel("Divider", PLY, left="18", front=0, back="12", bottom=shelf.top, top="30")
    frame = plan.face_frame(
        "Face frame", BATTEN, on=[side, other, floor], stiles_on=[divider], rails_on=[shelf]
    )
    middle = frame.uprights[1]
    assert (middle.bottom, middle.top) == (L("1 1/2 in"), L("28 1/2 in"))
    assert middle.part.box.middle("x") == divider.part.box.middle("x")
    assert len(frame.rails) == 4


# Dowels, nails, pins, tops


def test_dowels_bore_both_parts() -> None:
    plan = Plan("Case")
    side, _, floor, _ = cased(plan)
    assert sum(isinstance(one, Bore) for one in floor.part.features) == 6
    assert sum(isinstance(one, Bore) for one in side.part.features) == 6
    assert all(joint.glue for joint in plan.build().joints)


def test_a_slat_is_nailed() -> None:
    plan = Plan("Rack")
    post = plan.board("Post", lumber("2x4", species="Douglas-fir"), runs="up", wide="front-back",
                      left=0, front=0, bottom=0, top="30")  # fmt: skip
    slat = plan.board("Slat", APRON, runs="left-right", wide="up", left=0, right="30", back=0, bottom="4")
    plan.nail(post, through=slat, nails_of="8d")
    assert {one.spec.name for one in plan.build().fasteners} == {"8d × 2 1/2 in common nail"}
    assert found(plan) == ()
    with pytest.raises(PlanError, match="no common nail"):
        plan.nail(post, through=slat, nails_of="7d")


def test_a_back_is_pinned_on_some_sections_only() -> None:
    plan = Plan("Case")
    side, other, floor, shelf = cased(plan)
    back = plan.panel("Back", THIN, left=0, right="36", front="12", bottom=0, top=shelf.top)
    plan.pin(back, into=[side, floor], spacing="4")
    plan.staple(back, into=shelf)
    kinds = [(joint.kind, joint.to) for joint in plan.build().joints if joint.holds == "back"]
    assert kinds == [("brads", "side"), ("brads", "floor"), ("staples", "shelf")]
    assert [f for f in found(plan) if f.part == "Back"] == []
    assert other.id not in {to for _, to in kinds}


def test_a_back_is_pinned_to_all_it_lies_on_where_nothing_is_said() -> None:
    plan = Plan("Case")
    side, other, floor, shelf = cased(plan)
    back = plan.panel("Back", THIN, left=0, right="36", front="12", bottom=0, top="30")
    plan.pin(back)
    assert [joint.to for joint in plan.build().joints if joint.kind == "brads"] == [
        side.id, other.id, floor.id, shelf.id,
    ]  # fmt: skip


def test_pins_along_an_edge_with_nothing_behind_are_caught() -> None:
    plan = Plan("Case")
    cased(plan)
    back = plan.panel("Back", THIN, left=0, right="36", front="12", bottom=0, top="30")
    plan.pin(back, edges="left right bottom")
    assert [f for f in found(plan) if f.part == "Back"] == []
    plan.pin(back, edges="top")  # no part stands along the top
    bare = [f for f in found(plan) if f.part == "Back"]
    assert {(f.level, f.check) for f in bare} == {("must fix", "nothing behind it")}
    # 36 in, 1 in from the corners: 34 in, seven gaps of at most 5
    assert sum(int(f.number.split()[0]) for f in bare) == 8
    assert all(f.what.startswith("An 18-gauge × 1 in brad through Back") for f in bare)


def test_a_back_that_lies_against_nothing_cannot_be_pinned() -> None:
    plan = Plan("Case")
    cased(plan)
    away = plan.panel("Back", THIN, left=0, right="36", front="13", bottom=0, top="30")
    with pytest.raises(PlanError, match="lies against nothing"):
        plan.pin(away)


def table(plan: Plan, wide: str = "20"):
    frame = plan.frame("Table", SMALL, APRON, left="1", right="41", front="1", back=L(wide, "in") - "1",
                       bottom=0, top="28", rails_at=["top"])  # fmt: skip
    boards = 3 if wide == "20" else 6
    top = plan.glue_up("Top", SLAB, boards=boards, left=0, right="42", front=0, back=wide, bottom="28")
    return frame, top


def test_buttons_hold_a_top_so_that_it_can_move() -> None:
    plan = Plan("Table")
    frame, top = table(plan)
    plan.button_top(top, to=frame.rails)
    build = plan.build()
    assert {joint.kind for joint in build.joints if joint.to == "top"} == {"buttons"}
    assert {item.name for item in build.items} == {"wooden button, 3/4 × 1 × 1 1/2 in"}
    assert all(any(isinstance(one, Groove) for one in rail.part.features) for rail in frame.rails)
    assert found(plan) == ()


def test_a_top_too_wide_for_its_buttons_is_refused_with_a_way_out() -> None:
    plan = Plan("Table")
    frame, top = table(plan, "42")
    with pytest.raises(PlanError, match="it moves more") as error:
        plan.button_top(top, to=frame.rails)
    assert "gap=" in error.value.remedy
    plan.button_top(top, to=frame.rails, gap="1/4")


def test_steps_tell_every_kind_of_joint() -> None:
    plan = Plan("Case")
    cased(plan)
    back = plan.panel("Back", THIN, left=0, right="36", front="12", bottom=0, top="30")
    plan.staple(back)
    frame, top = table(plan)
    plan.button_top(top, to=frame.rails)
    plan.step("All", brings=plan.parts)
    said = " ".join(document(plan.draft())["steps"][0]["does"])
    for words in (
        "dowels, 3/8 in × 2 in, with glue",
        "staples, 18-gauge × 3/4 in",
        "through the buttons in the grooves",
    ):
        assert words in said


def test_a_bottom_let_in_keeps_its_screws_clear_of_the_pockets_of_its_rails() -> None:
    plan = Plan("Cabinet")
    frame = framed(plan)
    floor = plan.let_in("Bottom", PLY, frame=frame.rails[:4], flush="top")
    assert holes(plan.build(), plan.notation) == ()
    # in 1 1/2 in stock a pocket's mouth ends 1.866 × 1 1/2 + 0.724 = 3.52 in from the rail's end; 3/16 more, to the
    # next 1/4: 3 3/4 in, where 3 in would lie in it
    front = next(
        joint for joint in plan.build().joints if (joint.holds, joint.to) == (floor.id, frame.rails[0].id)
    )
    assert front.fasteners[0].head.x - frame.rails[0].left == L("3 3/4 in")
