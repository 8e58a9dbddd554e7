"""What leans: splayed legs with rails between them, and boxes with sloping sides."""

import re
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import cos, radians, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit import Plan, stock
from plankit.build import touching
from plankit.build.leaning import passage
from plankit.checks.access import access
from plankit.checks.hardware import hardware
from plankit.checks.holes import holes
from plankit.checks.splitting import splitting
from plankit.errors import PlanError
from plankit.parts import (
    Bore,
    CompoundMitre,
    Face,
    Mitre,
    PocketHoles,
    block,
    box_of,
    hollow,
    saw_setting,
    solid,
    turning,
    way_after,
)
from plankit.plan.document import document, in_steps
from plankit.plan.handles import PartHandle
from plankit.units import L
from tests.published import published

FOUR_SIDED = [row for row in published("compound_angles") if row["id"].startswith("AN-B") and "n=4" in row["inputs"]]
SPLAYED = [row for row in published("compound_angles") if row["id"] == "AN-D04"]
POST = stock.lumber("2x2", species="loblolly pine")


def two_numbers(text: str) -> tuple[float, float]:
    one, two = re.findall(r"\d+(?:\.\d+)?", text)
    return float(one), float(two)


def planter(tilt: str) -> tuple[Plan, list[PartHandle]]:
    r"""
    \            /    four sides, each leaning out by the same angle about its lower edge
     \__________/
    """
    plan = Plan("Planter")
    board = stock.lumber("1x8", species="western redcedar")
    front, back = (
        plan.board(name, board, runs="left-right", wide="up", left=0, right="20", bottom=0, **{face: place})
        for name, face, place in (("Front", "front", 0), ("Back", "back", "20"))
    )
    left, right = (
        plan.board(name, board, runs="front-back", wide="up", front=0, back="20", bottom=0, **{face: place})
        for name, face, place in (("Left", "left", 0), ("Right", "right", "20"))
    )
    for side, way in ((front, "front"), (back, "back"), (left, "left"), (right, "right")):
        plan.tilt(side, **{way: tilt})
    for long in (front, back):
        for short in (left, right):
            plan.mitre_corner(long, short)
    return plan, [front, back, left, right]


@pytest.mark.parametrize("row", FOUR_SIDED, ids=lambda row: row["id"])
def test_a_box_with_sloping_sides_is_cut_at_the_published_settings(row: dict[str, str]) -> None:
    """The published derivation for the tilted box, four sides; mitre from square, bevel as the blade's tilt."""
    tilt = re.search(r"tilt=([\d.]+)", row["inputs"])
    assert tilt
    wanted = two_numbers(row["answer"])
    _, sides = planter(tilt[1])
    for side in sides:
        cuts = [cut for cut in side.part.features if isinstance(cut, Mitre | CompoundMitre)]
        assert len(cuts) == 2
        for cut in cuts:
            setting = saw_setting(side.part, cut)
            assert float(setting.miter.degrees) == pytest.approx(wanted[0], abs=0.01)
            assert float(setting.tilt.degrees) == pytest.approx(wanted[1], abs=0.01)


@given(st.integers(0, 44))
@settings(max_examples=12, deadline=None)
def test_the_sides_of_a_sloping_box_meet_and_do_not_overlap(tilt: int) -> None:
    _, sides = planter(str(tilt))
    for one, other in combinations(sides, 2):
        assert (solid(one.part) ^ solid(other.part)).volume() < 0.01  # cubic millimetres: rounding alone
    front, _, left, right = sides
    assert touching(front.part, left.part) is not None
    assert touching(front.part, right.part) is not None


def test_a_sloping_box_is_wider_at_the_top_by_its_lean_on_both_sides() -> None:
    _, (front, *_) = planter("10")
    wide = 20 + 2 * 7.25 * sin(radians(10))  # the 1x8 is 7 1/4 wide; its outer face starts at the 20 in square
    assert float(box_of(front.part).extent("x").inches) == pytest.approx(wide, abs=1e-6)


def stool(left: str = "8°", front: str = "5°") -> tuple[Plan, list[PartHandle], PartHandle, PartHandle]:
    """A stool 18 in high: seat 1 1/2 in thick, four splayed 2x2 legs, a rail between the two in front."""
    plan = Plan("Stool")
    slab = stock.lumber("2x12", species="loblolly pine")
    strip = stock.lumber("1x3", species="loblolly pine")
    seat = plan.glue_up("Seat", slab, boards=1, left=0, right="16", front=0, back="11", top="18", trim_each_edge=0)
    leg = plan.board("Leg", POST, runs="up", left="2", front="2", bottom=0, top=seat.bottom)
    plan.splay(leg, left=left, front=front)
    legs = plan.at_corners(leg, of=seat)
    rail = plan.board("Front rail", strip, runs="left-right", wide="up",
                      left=legs[0].right, right=legs[1].left, front="2 3/8", top="14")  # fmt: skip
    plan.cut_against(rail, legs[0], legs[1])
    return plan, legs, rail, seat


def test_a_splayed_leg_still_reaches_from_the_floor_to_the_seat() -> None:
    _, legs, _, seat = stool()
    for leg in legs:
        box = box_of(leg.part)
        assert float(box.bottom.mm) == pytest.approx(0, abs=1e-6)
        assert float(box.top.mm) == pytest.approx(float(seat.bottom.mm), abs=1e-6)
        contact = touching(leg.part, seat.part)
        assert contact is not None
        assert contact.face == "top"


@pytest.mark.parametrize("row", SPLAYED, ids=lambda row: row["id"])
def test_a_leg_splayed_two_ways_leans_by_the_resultant(row: dict[str, str]) -> None:
    """Resultant of 5° seen from the front and 8° from the side: atan √(tan² 5° + tan² 8°)."""
    _, legs, *_ = stool(left="5°", front="8°")
    up = way_after(turning(legs[0].part.leans), (0.0, 0.0, 1.0))[2]
    assert up == pytest.approx(cos(radians(two_numbers(row["answer"])[0])), abs=1e-4)


def test_the_foot_of_a_leg_stands_out_by_its_height_times_the_slope() -> None:
    """From the seat's underside down: 16 1/2 × tan 8° to the left, 16 1/2 × tan 5° to the front."""
    _, legs, *_ = stool()
    leg = solid(legs[0].part)
    foot = leg.trim_by_plane([0, 0, -1], -1.0).bounding_box()  # the lowest millimetre
    middle = (foot[0] + foot[3]) / 2, (foot[1] + foot[4]) / 2
    assert middle[0] / 25.4 == pytest.approx(2.75 - 16.5 * tan(radians(8)), abs=0.02)
    assert middle[1] / 25.4 == pytest.approx(2.75 - 16.5 * tan(radians(5)), abs=0.02)


def test_a_rail_between_splayed_legs_lies_against_both() -> None:
    _, legs, rail, _ = stool()
    for leg, face in ((legs[0], "left"), (legs[1], "right")):
        assert (solid(rail.part) ^ solid(leg.part)).volume() < 0.01
        contact = touching(rail.part, leg.part)
        assert contact is not None
        assert contact.face == face


def test_a_rail_s_length_follows_the_lean() -> None:
    """Lower down the legs stand further apart: by twice the drop times tan 8°, an upright pair by nothing."""
    _, _, rail, _ = stool()
    _, _, straight, _ = stool(left="0", front="0")
    low = float(rail.length.inches)
    drop = 16.5 - 11.5  # from under the seat, 16 1/2, to the rail's lower edge, where it is longest
    assert low - float(straight.length.inches) == pytest.approx(2 * drop * tan(radians(8)), abs=0.06)
    assert straight.part.features == ()


@given(st.integers(0, 20), st.integers(0, 8))
@settings(max_examples=10, deadline=None)
def test_at_any_splay_the_rail_meets_its_legs(left: int, front: int) -> None:
    _, legs, rail, seat = stool(str(left), str(front))
    for leg in legs[:2]:
        assert touching(rail.part, leg.part) is not None
        assert (solid(rail.part) ^ solid(leg.part)).volume() < 0.01
        assert (solid(leg.part) ^ solid(seat.part)).volume() < 0.01


def test_worked_out_again_with_another_height_a_splayed_leg_is_as_long_as_made_anew() -> None:
    plan = Plan("Leg")
    (height,) = (plan.given(height="18"),)
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top=height)
    plan.splay(leg, left="8°", front="5°")
    taller = Plan("Leg")
    again = taller.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="24")
    taller.splay(again, left="8°", front="5°")
    assert leg.length.evaluate({"height": L("24 in")}) == again.length


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"left": "50°"}, "no longer stands"),
        ({"up": "5°"}, "stands out to the left"),
        ({"left": "steep"}, "cannot be read"),
    ],
)
def test_a_lean_that_cannot_be_is_refused(asked: dict[str, str], said: str) -> None:
    plan = Plan("Leg")
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="18")
    with pytest.raises(PlanError, match=said):
        plan.splay(leg, **asked)


def test_a_leg_is_splayed_once() -> None:
    plan = Plan("Leg")
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="18")
    plan.splay(leg, left="8°")
    assert float(leg.length.inches) == pytest.approx(18 / cos(radians(8)) + 1.5 * tan(radians(8)), abs=1e-6)
    with pytest.raises(PlanError, match="only once"):
        plan.splay(leg, left="8°")
    assert leg.part.leans[0].angle.degrees == Fraction(8)


@pytest.mark.parametrize("first", ["back", "front"])
@pytest.mark.parametrize("second", ["top", "bottom"])
@pytest.mark.parametrize(("rise", "run"), [("6", "6"), ("8", "5")])
def test_a_brace_lies_on_both_faces_of_its_corner(first: Face, second: Face, rise: str, run: str) -> None:
    r"""
      | \        rise 8, run 5: from the corner to the outer edge's two ends
      |  \
      |___\___
    """
    plan = Plan("Corner")
    ply, strip = stock.sheet("plywood", "3/4"), stock.lumber("1x2", species="loblolly pine")
    front = plan.panel("Front", ply, left=0, right="10", bottom="-20", top="20", front=0)
    tray = plan.panel("Tray", ply, left=0, right="10", front="-20", back="20", bottom=0)
    brace = plan.brace("Brace", strip, inside=((front, first), (tray, second)), rise=rise, run=run, left=0)
    for part in (front, tray):
        assert (solid(brace.part) ^ solid(part.part)).volume() < 0.01
        assert touching(brace.part, part.part) is not None
    box = box_of(brace.part)
    high = float((box.top - tray.top).inches if second == "top" else (tray.bottom - box.bottom).inches)
    deep = float((box.back - front.back).inches if first == "back" else (front.front - box.front).inches)
    assert (high, deep) == pytest.approx((float(rise), float(run)), abs=1e-5)
    assert float(brace.length.inches) == pytest.approx((float(rise) ** 2 + float(run) ** 2) ** 0.5)
    settings_ = [float(saw_setting(brace.part, one).miter.degrees) for one in brace.part.features]
    assert sum(settings_) == pytest.approx(90)  # the two ends of a brace in a square corner


def test_a_brace_too_short_for_its_width_is_refused() -> None:
    plan = Plan("Corner")
    ply, strip = stock.sheet("plywood", "3/4"), stock.lumber("1x2", species="loblolly pine")
    front = plan.panel("Front", ply, left=0, right="10", bottom=0, top="20", front=0)
    tray = plan.panel("Tray", ply, left=0, right="10", front=front.back, back="20", bottom=0)
    with pytest.raises(PlanError, match="no length left"):
        plan.brace("Brace", strip, inside=((front, "back"), (tray, "top")), rise="2", run="2", left=0)


def test_screws_into_a_sloping_side_follow_its_slope() -> None:
    r"""
       ‾‾‾‾\\        an upright front against the edge of a side that leans out by 10°:
            \\       each screw goes into the middle of the side's edge at its own height
    """
    plan = Plan("Trough")
    ply = stock.sheet("plywood", "3/4")
    side = plan.panel("Side", ply, right=0, front=0, back="12", bottom=0, top="12", grain="front-back")
    front = plan.panel("Front", ply, back=0, left="-4", right="14", bottom=0, top="12", grain="left-right")
    plan.tilt(side, left="10°")
    plan.screw(side, through=front, screws="#8 x 2")
    (joint,) = plan.build().joints
    for screw in joint.fasteners:
        middle = -float(screw.head.z.inches) * tan(radians(10)) - 0.375 / cos(radians(10))
        assert float(screw.head.x.inches) == pytest.approx(middle, abs=0.02)
    assert len(joint.fasteners) == 2


def test_a_planter_with_four_mitered_corners_says_how_its_sides_are_worked_out() -> None:
    """Each corner is worked out from the two before it: without like terms taken together that grows past telling."""
    plan, sides = planter("10")
    for side in sides:
        said = plan.why(side.length)
        assert "(1x8 western redcedar width)" in said
        assert len(said) < 200
    assert document(plan.draft())["computed"]


def test_a_corner_takes_two_parts_and_a_foot_stands_out_one_way() -> None:
    plan, sides = planter("10")
    with pytest.raises(PlanError, match="made by two parts"):
        plan.mitre_corner(sides[0], sides[0])
    with pytest.raises(PlanError, match="cut against nothing"):
        plan.cut_against(sides[0])
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="18")
    with pytest.raises(PlanError, match="one way or the other"):
        plan.splay(leg, left="5°", right="5°")


@pytest.mark.parametrize("lean", [("8°", "5°"), ("15°", "0°"), ("0°", "3°"), ("12°", "6°")], ids=str)
def test_pocket_screws_follow_the_slope_of_an_end_that_lies_against_a_leaning_leg(lean: tuple[str, str]) -> None:
    """Each goes through 9/16 in of the rail, the wood a jig leaves in 3/4 in stock, before it enters the leg."""
    plan, legs, rail, _ = stool(*lean)
    plan.pocket_screw(rail, into=legs[:2], face="back")
    build = plan.build()
    screws = [one for joint in build.joints for one in joint.fasteners]
    assert len(screws) == 4
    for screw in screws:
        passes = passage(screw.head.mm(), screw.tip.mm(), screw.leans, build.part(screw.into))
        assert passes is not None
        assert passes.enter * float(screw.spec.length.inches) == pytest.approx(9 / 16, abs=1e-3)
    backs = {hole.places[0].mm: hole.setback for hole in rail.part.features if isinstance(hole, PocketHoles)}
    if lean[0] == "0°":
        return
    (low, first), (high, second) = sorted(backs.items())
    assert first is not None
    assert second is not None
    side, ahead = (radians(float(one[:-1])) for one in lean)
    steep = tan(side) * cos(ahead) ** 2  # of a face turned about y, then about x, where a level cut of it is straight
    assert abs(float((second - first).mm)) == pytest.approx(float(high - low) * steep, abs=0.01)


def test_a_driver_passes_beside_a_leaning_leg_and_not_beside_a_box_around_it() -> None:
    plan, legs, rail, _ = stool()
    plan.pocket_screw(rail, into=legs[:2], face="back")
    plan.step("All", brings=plan.parts)
    draft = plan.draft()
    assert access(in_steps(draft), draft.notation) == ()


# Holes and hardware on parts that lean


def bored_leg(**hole: str) -> tuple[Plan, PartHandle]:
    """A 2x2 leg of 18 in that leans sideways by 15 degrees about the middle of its top, with a hole from its right."""
    plan = Plan("Leg")
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="18")
    leg.bore("right", **hole)
    plan.splay(leg, left="15°")
    return plan, leg


def told(plan: Plan) -> set[tuple[str, str]]:
    return {(one.level, one.check) for one in hardware(plan.build(), plan.notation)}


def test_a_hole_keeps_its_place_when_its_part_is_made_to_lean() -> None:
    _, leg = bored_leg(diameter="3/8", depth="1", bottom="9", front="3/4")
    (hole,) = (one for one in leg.part.features if isinstance(one, Bore))
    assert leg.part.box.bottom.mm < 0  # a leg that leans is longer
    assert leg.part.box.bottom + hole.at[2] == L("9 in")


@pytest.mark.parametrize(
    ("top", "found"),
    [
        # the top is sawn level: across 1 1/2 in of leg that is a fall of 1.5 tan 15° = 0.40 in, half of it, 0.20, below
        # the pivot on one side; the hole runs square through the leg, its rim 3/16 above its middle
        ("1", set()),
        ("7/16", {("look at", "hole near an edge")}),  # 7/16 − 0.20 − 3/16 < 1/8
        ("1/4", {("look at", "hole breaks out")}),  # 1/4 − 0.20 − 3/16 < 0
    ],
)
def test_holes_near_an_end_that_is_sawn_level_are_told(top: str, found: set[tuple[str, str]]) -> None:
    plan, leg = bored_leg(diameter="3/8", top=top, front="3/4")
    assert told(plan) == found
    (hole,) = (one for one in leg.part.features if isinstance(one, Bore))
    # what the solids say: the hole's own rod lies wholly inside the leg but for what the mouths run past
    plain = solid(replace(leg.part, leans=(), features=tuple(one for one in leg.part.features if one != hole)))
    inside = (hollow(replace(leg.part, leans=()), hole)[0] ^ plain).volume()
    whole = hollow(replace(leg.part, leans=()), hole)[0] ^ block(replace(leg.part.box, top=L("30 in")))
    assert (inside < whole.volume() - 1) == (("look at", "hole breaks out") in found)


def test_a_hole_that_leaves_by_a_face_sawn_at_a_slant_comes_through() -> None:
    plan = Plan("Wedge")
    ply = stock.sheet("plywood", "3/4")
    part = plan.panel("Panel", ply, left=0, right="12", front=0, back="8", bottom=0, grain="left-right")
    part.bevel("back", short="bottom", angle="45°")
    part.bore("front", "1/4", depth="7 1/2", left="4", bottom="3/8")
    # at half of the thickness the bevel takes half of the 3/4 off 8: 7 5/8, by the rim of the 1/4 hole 1/8 less
    assert told(plan) == {("must fix", "hole comes through")}
    less = Plan("Wedge")
    part = less.panel("Panel", ply, left=0, right="12", front=0, back="8", bottom=0, grain="left-right")
    part.bevel("back", short="bottom", angle="45°")
    part.bore("front", "1/4", depth="7 7/16", left="4", bottom="3/8")
    assert told(less) == set()


def test_two_holes_of_a_leaning_leg_meet() -> None:
    plan = Plan("Leg")
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="18")
    leg.bore("right", "3/8", bottom="9", front="3/4")
    leg.bore("front", "3/8", bottom="9 1/4", left="3/4")  # 1/4 apart, 3/8 across
    plan.splay(leg, left="15°", front="5°")
    assert [(one.level, one.check) for one in holes(plan.build(), plan.notation)] == [("must fix", "holes meet")]


@pytest.mark.parametrize(("height", "meets"), [("7", True), ("11", False)])
def test_a_pull_on_a_leaning_front_meets_what_is_before_it_where_it_leans_to(height: str, meets: bool) -> None:
    """A front 12 in high that leans forward by 30°: its top stands 6 in further out, at a height of 10.4 in."""
    plan = Plan("Bin")
    ply = stock.sheet("plywood", "3/4")
    front = plan.panel("Front", ply, left=0, right="12", front=0, bottom=0, top="12", grain="up")
    plan.tilt(front, front="30°")
    plan.pull(front, top="3")  # 9 in up along it: 4.5 out and 7.8 high, and 1 1/8 further square to it
    low = L(height, "in")
    plan.panel("Board", ply, left=0, right="12", front="-6", back="-5", bottom=low, grain="left-right")
    assert (("must fix", "pull meets something") in told(plan)) == meets


@pytest.mark.parametrize(("bottom", "splits"), [("17 3/8", True), ("15", False)])
def test_a_screw_near_the_level_end_of_a_leaning_leg_may_split_it(bottom: str, splits: bool) -> None:
    # a strip across the front of the leg, from 17 3/8 up past its top at 18: its one screw stands at 17 11/16, 5/16
    # below that; three diameters of a #8 screw are 0.49 in
    plan = Plan("Leg")
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="18")
    plan.splay(leg, left="15°")
    strip = stock.lumber("1x2", species="loblolly pine")
    front = plan.board("Strip", strip, runs="left-right", wide="up", left="-3", right="4", back=0, bottom=bottom)
    plan.screw(leg, through=front, screws="#8 x 1 1/2", each=1)
    found = {(one.check, one.part) for one in splitting(plan.build(), plan.notation)}
    assert (("may split", "Leg") in found) == splits
