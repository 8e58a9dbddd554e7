"""Doors, flaps and bins as an author writes them, and what their handles say in prose."""

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians, sin

import pytest

from plankit.build import Pivot
from plankit.checks.swing import swing
from plankit.errors import PlanError
from plankit.parts import Point
from plankit.plan.computed import work_out_again
from plankit.plan.document import document
from plankit.units import Angle, L
from tests.plan.sorting import PLY, case, front_of, holder, stand


def test_a_stop_placed_for_an_angle_gives_that_angle():
    _, lower, _ = stand("22 deg")
    assert float(lower.angle.degrees) == pytest.approx(22, abs=1e-4)
    assert str(lower.meets) == "Stop block at 22.0°"


def test_a_stand_with_both_stops_has_no_findings():
    plan, _, _ = stand()
    assert swing(plan.build(), plan.notation) == ()


def test_the_clear_opening_agrees_with_the_rule_and_pencil():
    """The front is 14 high; its inner edge at (3/4, 14) turns 22° about its outer lower edge. Nearest to it is
    the shelf's lower front edge, 14 1/8 above what it turns about.
    """
    _, lower, _ = stand("22 deg")
    turn = radians(22)
    y, z = 0.75 * cos(turn) - 14 * sin(turn), 14 * cos(turn) + 0.75 * sin(turn)
    assert float(lower.clear_opening.inches) == pytest.approx(hypot(y, 14.125 - z), abs=1e-4)


def test_how_far_it_stands_out_is_the_way_of_its_top_edge():
    """14 in at 22° is 14 sin 22° = 5.24 in."""
    _, lower, _ = stand("22 deg")
    assert float(lower.stands_out.inches) == pytest.approx(14 * sin(radians(22)), abs=1e-4)


def test_angles_are_read_as_people_write_them():
    plan, parts = case()
    front = front_of(plan, parts)
    one = plan.flap("Flap", front, hinged="bottom", opens="85°")
    assert plan.build().moving[0].opens == Angle.read("85 deg")
    assert one.angle == Angle.read("85 deg")


@pytest.mark.parametrize(
    ("hinged", "axis", "at", "sense"),
    [
        ("left", "z", (0, "0"), -1),
        ("right", "z", (1, "0"), 1),
        ("bottom", "x", (None, "0"), 1),
        ("top", "x", (None, "0"), -1),
    ],
)
def test_a_front_turns_outwards_about_the_outer_corner_of_the_edge_it_hangs_by(hinged, axis, at, sense):
    plan, parts = case()
    front = front_of(plan, parts)
    say = plan.door if axis == "z" else plan.flap
    say("Front", front, hinged=hinged)
    pivot = plan.build().moving[0].pivot
    assert (pivot.axis, pivot.sense) == (axis, sense)
    assert pivot.at.y == L("0 in")
    edge = getattr(front, hinged)
    assert pivot.at.along("x" if axis == "z" else "z") == edge
    assert at[1] == "0"


def test_a_lid_on_the_case_opens_upwards():
    plan, parts = case()
    lid = plan.panel("Lid", PLY, left=0, right="24", front=0, back="14", bottom=parts["top"].top)
    plan.flap("Lid", lid, hinged="back", opens="80 deg")
    pivot = plan.build().moving[0].pivot
    assert (pivot.axis, pivot.at.z, pivot.at.y) == ("x", L("36 3/4 in"), L("14 in"))
    assert pivot.sense == -1  # the front edge rises: from front to top about x is the left-handed way


def test_a_pivot_may_lie_in_from_two_faces():
    plan, parts = case()
    front = front_of(plan, parts)
    plan.tilt_out(
        "Bin", front, with_=holder(plan, front), turns_about={"bottom": "1/2", "front": "3/8"}, opens="20 deg"
    )
    pivot = plan.build().moving[0].pivot
    assert (pivot.at.y, pivot.at.z) == (L("3/8 in"), front.bottom + "1/2")


@dataclass(frozen=True)
class Hung:
    """What hinges say, with more about them that does not matter here."""

    pivot: Pivot


def test_a_door_takes_its_pivot_from_hinges():
    plan, parts = case()
    front = front_of(plan, parts)
    pivot = Pivot("z", Point(L("7/8 in"), L("1/4 in"), L("0 in")), -1)
    plan.door("Door", front, hinges=Hung(pivot))
    assert plan.build().moving[0].pivot == pivot


def test_a_door_hung_on_cup_hinges_opens_clear_of_the_side_it_hangs_on():
    plan, parts = case()
    front = front_of(plan, parts, gap="1/16")
    hung = plan.hinges(front, on=parts["left"])
    door = plan.door("Door", front, hinges=hung, opens="95 deg")
    assert str(door.meets) == "nothing"
    assert [one for one in swing(plan.build(), plan.notation) if one.level == "must fix"] == []


def test_a_bin_that_turns_about_its_inner_edge_needs_room_under_it():
    """Its outer lower edge swings down √(0.75²) under what it turns about: it meets the bottom 1/8 below at
    asin(1/8 / 3/4) = 9.6°.
    """
    plan, parts = case()
    front = front_of(plan, parts)
    one = plan.tilt_out("Bin", front, with_=holder(plan, front), turns_about="bottom back", opens="20 deg")
    assert str(one.meets) == "Bottom at 9.6°"
    assert degrees(atan2(0.125, (0.75**2 - 0.125**2) ** 0.5)) == pytest.approx(9.594, abs=1e-3)


def test_contents_have_to_be_put_in_first():
    plan, parts = case()
    front = front_of(plan, parts)
    with pytest.raises(PlanError, match=r"has not been put anywhere"):
        plan.tilt_out("Bin", front, with_=holder(plan, front), contents="Basket", opens="20 deg")


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (lambda plan, front: plan.door("Door", front), "it turns about an edge, or about hinges"),
        (lambda plan, front: plan.door("Door", front, hinged="middle"), "an edge of its front"),
        (lambda plan, front: plan.door("Door", front, hinged="front"), "an edge of its front"),
        (lambda plan, front: plan.flap("Flap", front, hinged="bottom", opens="wide"), "opens: this angle"),
        (
            lambda plan, front: plan.flap("Flap", front, hinged="bottom", opens="400 deg"),
            "between 1° and 270°",
        ),
        (lambda plan, front: plan.flap("Flap", front, hinged="bottom", towards="left"), "broad faces"),
        (lambda plan, front: plan.flap(" ", front, hinged="bottom"), "a name of its own"),
        (
            lambda plan, front: plan.tilt_out(
                "Bin", front, with_=[], turns_about={"bottom": "7", "front": 0}
            ),
            "middle",
        ),
    ],
)
def test_what_cannot_be_told_is_refused_in_words(said, words):
    plan, parts = case()
    front = front_of(plan, parts)
    with pytest.raises(PlanError, match=words):
        said(plan, front)


def test_two_bins_of_one_name_are_refused():
    plan, _, parts = stand()
    with pytest.raises(PlanError, match="a name of its own"):
        plan.tilt_out("Lower bin", parts["front"], with_=[])


def test_nothing_says_how_far_a_bin_without_stop_opens_in_free_air():
    plan, parts = case()
    front = front_of(plan, parts)
    one = plan.tilt_out("Bin", front, with_=[])
    assert one.angle.degrees > 90  # only when it hangs down before the bottom does it meet anything


def test_a_stop_s_place_holds_only_while_what_it_depends_on_stays():
    """Another width leaves the swing alone; the place was worked out for these heights and depths."""
    plan, _, _ = stand()
    draft = plan.draft()
    assert work_out_again(draft, {"width": L("30 in")}).holds


def test_a_stop_s_place_is_known_to_break_where_the_height_it_came_from_changes():
    from plankit.plan import Plan
    from tests.plan.sorting import CLEAT

    plan = Plan("Box", unit="in")
    high = plan.given(height="15")
    front = plan.panel("Front", PLY, left=0, right="20", front=0, bottom=0, top=high)
    cheek = plan.panel("Cheek", PLY, left="1", front=front.back, back="8", bottom=0, top=high - "1")
    one = plan.tilt_out("Bin", front, with_=cheek, opens="15 deg")
    back = one.stop_place("15 deg", face="back", low="15 1/4", high="17")
    plan.board("Block", CLEAT, runs="left-right", left="1", length="2", back=back, wide="up", bottom="15 1/4")
    assert work_out_again(plan.draft(), {"height": L("15 in")}).holds
    assert not work_out_again(plan.draft(), {"height": L("14 in")}).holds


def test_a_block_that_is_made_already_gives_its_own_heights():
    _, lower, parts = stand()
    again = lower.stop_place("22 deg", parts["block"], face="back")
    assert float(again.mm) == pytest.approx(float(parts["block"].back.mm), abs=1e-3)


def test_what_opens_is_drawn_for_the_page():
    plan, _, _ = stand()
    figures = document(plan.draft())["figures"]
    assert "moving-lower-bin" in figures
    assert "22°" in figures["moving-lower-bin"]["description"]
