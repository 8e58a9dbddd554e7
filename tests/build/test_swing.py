"""What a bin, a door or a drawer meets, against sums worked by hand and against fine steps with solids."""

from dataclasses import replace
from fractions import Fraction
from math import acos, asin, atan2, cos, degrees, hypot, radians, sin, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from plankit.build import Build, Item, Moving, Pivot, Thing
from plankit.build.swing import FLOOR, furthest, run_over, sweep
from plankit.build.swing_geometry import HAIR, Turning, first_meeting, reach, rectangle, swept
from plankit.build.swing_room import (
    clear_opening,
    falls_out,
    free_face,
    goes_in,
    missing_room,
    outer_face,
    reveals,
    side_gaps,
)
from plankit.build.swing_stops import stop_place
from plankit.errors import PlanError
from plankit.parts import Bore, Box, Notch, Part, Point, Roundover, Taper, block
from plankit.units import Angle, L, Length
from tests.build.bins import box, drawn, inches, solid_part, tilting, turning
from tests.checks.small_builds import mirrored

IN = 25.4


def opened(build: Build) -> dict[str, float]:
    """What is met on the way out, and at how many degrees."""
    return {one.met: float(one.angle.degrees) for one in sweep(build, build.moving[0]).opening}


def angle(value: float) -> Angle:
    return Angle(Fraction(value).limit_denominator(10**9))


# By hand


def test_the_rear_corner_of_a_bin_meets_a_shelf_where_its_circle_is_as_high():
    """It lies √(8² + 15²) = 17 from the pivot, at atan(15/8) = 61.93°; it is 16 high at asin(16/17) = 70.25°."""
    expected = degrees(asin(16 / 17) - atan2(15, 8))
    found = sweep(tilting("16"), tilting("16").moving[0]).opening[0]
    assert found.met == "shelf"
    assert found.moved == "holder"
    assert float(found.angle.degrees) == pytest.approx(expected, abs=1e-6)
    assert float(found.angle.degrees) == pytest.approx(8.32, abs=0.005)
    y, z = 17 * cos(asin(16 / 17)), 16
    assert found.at[1:] == pytest.approx((y * IN, z * IN), abs=1e-5)


def test_a_bin_clears_a_shelf_that_its_corner_only_just_reaches():
    """Radius 17 under a shelf at 17: they touch at 28.07° and part again."""
    assert "shelf" not in opened(tilting("17"))
    assert "shelf" not in opened(tilting("17 1/64"))
    assert opened(tilting("16 63/64"))["shelf"] == pytest.approx(
        degrees(asin(16.984375 / 17) - atan2(15, 8)), abs=1e-6
    )


def test_an_edge_meets_a_fixed_corner_where_the_circle_of_that_corner_crosses_it():
    """A rail's lower back corner at (3, 16) lies ρ = √(3² + 16²) = 16.28 from the pivot, at 79.38°. The bin's top,
    15 from the pivot, comes up to it where it is seen at asin(15/ρ) = 67.14° in the bin: after 12.24°.
    """
    rho = hypot(3, 16)
    rail = solid_part("Rail", box("0", "10", "2", "3", "16", "18"))
    build = tilting("30", rail)
    assert opened(build)["rail"] == pytest.approx(degrees(atan2(16, 3) - asin(15 / rho)), abs=1e-6)
    assert opened(build)["rail"] == pytest.approx(12.24, abs=0.005)


def test_a_flap_that_opens_down_meets_the_floor():
    """A flap 10 high, hinged 3 above the floor at its outer edge: 3 + 10 cos θ = 0 at 107.46°."""
    flap = solid_part("Flap", box("0", "20", "0", "3/4", "3", "13"))
    foot = solid_part("Foot", box("30", "31", "0", "1", "0", "3"))
    build = Build("Flap", (flap, foot), moving=(turning("flap", ("flap",), "0", "0", "3"),))
    assert opened(build) == {FLOOR: pytest.approx(degrees(acos(-0.3)), abs=1e-6)}


def test_what_hangs_on_a_wall_meets_no_floor():
    flap = solid_part("Flap", box("0", "20", "0", "3/4", "3", "13"))
    foot = solid_part("Foot", box("30", "31", "0", "1", "0", "3"))
    cleat = Item("Cleat screw", "wall fixing", ("foot",), box("30", "31", "1", "2", "0", "1"))
    build = Build("Flap", (flap, foot), items=(cleat,), moving=(turning("flap", ("flap",), "0", "0", "3"),))
    assert opened(build) == {}


def test_an_inset_door_pivoted_at_its_inner_edge_needs_a_gap_of_its_thickness_times_the_sine():
    """Its outer corner swings t sin θ past its edge: 3/4 thick with 3/8 beside it meets the side at 30°."""
    door = solid_part("Door", box("3/8", "20", "0", "3/4", "0", "30"))
    side = solid_part("Side", box("-3/4", "0", "-1", "12", "0", "30"))
    hung = turning("door", ("door",), "3/8", "3/4", "0", axis="z", sense=-1)
    assert opened(Build("Door", (door, side), moving=(hung,)))["side"] == pytest.approx(30.0, abs=1e-6)


def test_an_inset_door_pivoted_at_its_outer_edge_needs_no_gap_beside_it():
    door = solid_part("Door", box("0", "20", "0", "3/4", "0", "30"))
    side = solid_part("Side", box("-3/4", "0", "0", "12", "0", "30"))
    hung = turning("door", ("door",), "0", "0", "0", axis="z", sense=-1)
    build = Build("Door", (door, side), moving=(hung,))
    assert "side" not in {one.met for one in sweep(build, hung).opening if one.angle.degrees < 180}


def test_a_rounded_edge_lets_a_door_turn_further():
    """The rounded outer corner stays nearer to the pivot than the square one did."""

    def at(*features: object) -> float:
        door = solid_part("Door", box("3/8", "20", "0", "3/4", "0", "30"), *features)
        side = solid_part("Side", box("-3/4", "0", "-1", "12", "0", "30"))
        hung = turning("door", ("door",), "3/8", "3/4", "0", axis="z", sense=-1)
        return opened(Build("Door", (door, side), moving=(hung,)))["side"]

    assert at(Roundover(("front", "left"), inches("1/4"))) > at() + 1


def test_a_notch_round_a_rail_lets_the_bin_past_it():
    rail = solid_part("Rail", box("0", "10", "6", "8", "14", "18"))
    holder = box("0", "10", "0", "8", "0", "13")
    build = tilting("30", rail, high="13")
    assert opened(build)["rail"] == pytest.approx(degrees(asin(14 / hypot(8, 13)) - atan2(13, 8)), abs=1e-6)
    notch = Notch(box("0", "10", "4", "8", "9", "13"), "Rail")
    cut = replace(build, parts=(solid_part("Holder", holder, notch), *build.parts[1:]))
    assert opened(cut).get("rail", 360.0) > opened(build)["rail"] + 10


def test_a_notch_only_helps_where_it_is():
    """A rail beside the notch is met as before: slabs along the axis keep the two apart."""
    rail = solid_part("Rail", box("0", "3", "6", "8", "14", "18"))
    build = tilting("30", rail, high="13")
    notch = Notch(box("5", "10", "4", "8", "9", "13"), "Rail")
    cut = replace(build, parts=(solid_part("Holder", build.parts[0].box, notch), *build.parts[1:]))
    assert opened(cut)["rail"] == pytest.approx(opened(build)["rail"], abs=1e-6)


def test_a_screw_hole_is_no_way_through():
    hole = Bore("bottom", (inches("5"), inches("5"), inches("0")), inches("6"))
    build = tilting("16")
    drilled = replace(
        build, parts=(build.parts[0], replace(build.parts[1], features=(hole,)), *build.parts[2:])
    )
    assert opened(drilled) == opened(build)


def test_a_side_that_tapers_along_the_pivot_meets_a_little_early_and_never_late():
    """Eight thin slabs stand for the taper: each as high as its highest section, 1/8 of 4 in at most too high."""
    taper = Taper("top", "left", inches("4"), inches("10"))
    beam = solid_part("Beam", box("4", "5", "0", "13", "13 1/2", "15"))
    build = tilting("30", beam, high="15")
    tapered = replace(build, parts=(solid_part("Holder", build.parts[0].box, taper), *build.parts[1:]))
    highest_there = 15 - 4 * (1 - 5 / 10)
    exact = degrees(asin(13.5 / hypot(8, highest_there)) - atan2(highest_there, 8))
    found = opened(tapered)["beam"]
    assert exact - 4 <= found <= exact + 1e-6


def test_parts_side_by_side_along_the_pivot_never_meet():
    beside = solid_part("Cheek", box("10", "11", "0", "13", "0", "30"))
    assert "cheek" not in opened(tilting("30", beside))


def test_what_touches_when_shut_and_moves_away_is_not_met():
    under = solid_part("Ledge", box("0", "10", "0", "13", "-1", "0"))
    behind = solid_part("Back", box("0", "10", "8", "9", "-1", "20"))
    assert {"ledge", "back"} & {k for k, v in opened(tilting("30", under, behind)).items() if v < 90} == set()


def test_what_moves_into_another_at_once_is_met_at_nothing():
    """A strip that touches the front of the bin: opening drives straight into it."""
    strip = solid_part("Strip", box("0", "10", "-1", "0", "10", "11"))
    assert opened(tilting("30", strip))["strip"] == 0.0


def test_a_knob_moves_with_the_door_and_hardware_of_the_case_stands_still():
    knob = Item("Knob", "pull", ("holder",), box("4", "5", "7", "8", "15", "15 3/4"))
    catch = Item("Catch", "catch", ("shelf",), box("4", "5", "3", "4", "15 1/2", "16"))
    both = Item("Hinge", "hinge", ("holder", "shelf"), box("0", "1", "0", "1", "15", "16"))
    build = replace(tilting("16"), items=(knob, catch, both))
    found = sweep(build, build.moving[0]).opening
    assert found[0].moved == "Knob"
    corner = hypot(8, 15.75)
    assert float(found[0].angle.degrees) == pytest.approx(
        degrees(asin(16 / corner) - atan2(15.75, 8)), abs=1e-6
    )
    assert "Catch" in {one.met for one in found}
    assert "Hinge" not in {one.met for one in found}


def test_the_way_in_is_looked_at_as_well():
    """The lower rear corner, 8 from the pivot, meets a ledge 1/2 in under the bin at asin(0.5/8) = 3.58°."""
    ledge = solid_part("Ledge", box("0", "10", "2", "13", "-1 1/2", "-1/2"))
    build = tilting("30", ledge)
    found = sweep(build, build.moving[0]).inwards[0]
    assert (found.met, float(found.angle.degrees)) == (
        "ledge",
        pytest.approx(degrees(asin(0.5 / 8)), abs=1e-6),
    )


def test_a_drawer_is_stopped_by_a_rail_in_front_of_it_only_if_it_is_as_high():
    """From its front at 1 to the rail's back at −2 it goes 3 in."""
    found = sweep(drawn("6"), drawn("6").moving[0]).opening
    assert [(one.met, one.travel) for one in found] == [("rail", L("3 in"))]
    assert sweep(drawn("5"), drawn("5").moving[0]).opening == ()


def test_how_far_a_corner_reaches_is_exact():
    """The front corner of a bin 15 high reaches 15 sin θ out; past 118.07° its rear corner, 17 away, leads."""
    build = tilting("30")
    out = (0.0, -1.0, 0.0)
    found = furthest(build, build.moving[0], angle(30), out)
    assert float(found.inches) == pytest.approx(15 * sin(radians(30)), abs=1e-6)
    assert float(furthest(build, build.moving[0], angle(120), out).inches) == pytest.approx(17, abs=1e-6)
    up = furthest(build, build.moving[0], angle(90), (0.0, 0.0, 1.0))
    assert float(up.inches) == pytest.approx(17, abs=1e-6)  # its rear corner passes right above the pivot


def test_what_is_run_over_is_a_sector_and_what_stands_beside_it():
    """A bar from the pivot, L long and T thick, turned by θ: its own area, and a sector of its diagonal less
    what lies in the bar: ½ (L² + T²) θ + L T / 2 + …, here against Pappus: area = L T + ½ θ L² for the edge
    that leads, plus ½ θ T² for the corner that trails past it.
    """
    long, thick, turn = 300.0, 20.0, radians(40)
    bar = rectangle((0, 0), (long, thick))
    area = swept(Turning((0.0, 0.0), 1), [bar], turn).area
    diagonal, lean = hypot(long, thick), atan2(thick, long)
    # the lower edge at first, the arc of the far corner from lean to lean + θ, joined by the end's chord:
    expected = long * thick / 2 + diagonal**2 * turn / 2 + long * thick / 2
    assert area == pytest.approx(expected, rel=2e-4)
    assert lean < turn


def test_the_outline_run_over_has_one_ring_for_a_bin():
    build = tilting("30")
    assert len(run_over(build, build.moving[0], angle(35))) == 1


# Stops, openings, contents

FASCIA = solid_part("Fascia", box("0", "10", "-16", "-15", "29", "30"))
"""Far out and high up, to hang stops from."""


def test_a_stop_set_for_an_angle_is_met_at_that_angle():
    """A block under the shelf, its back face met by the bin's rear corner as it comes forward."""
    build = tilting("17 1/2", FASCIA)
    for wanted in (12, 20, 35.5):
        at = stop_place(build, build.moving[0], angle(wanted), "back", inches("15 1/2"), inches("17 1/2"))
        stop = Part(
            "stop",
            "Stop",
            "board",
            build.parts[0].stock,
            replace(box("2", "4", "0", "1", "15 1/2", "17 1/2"), front=at - "1 in", back=at),
            "x",
            "y",
        )
        with_stop = replace(build, parts=(*build.parts, stop))
        assert opened(with_stop)["stop"] == pytest.approx(wanted, abs=1e-4)


def test_where_a_stop_goes_agrees_with_the_line_of_the_bin_s_top():
    """Its lower edge at 15 1/2 lies on the bin's top, 15 from the pivot: z cos θ − y sin θ = 15,
    so at 20° y = (15.5 cos 20° − 15) / sin 20° = −1.27. An underside from 2 to 5 in meets the rear corner, which
    is 17 sin(61.93° + 20°) = 16.83 high then and rises until 90°.
    """
    build = tilting("17 1/2", FASCIA)
    at = stop_place(build, build.moving[0], angle(20), "back", inches("15 1/2"), inches("17 1/2"))
    assert float(at.inches) == pytest.approx((15.5 * cos(radians(20)) - 15) / sin(radians(20)), abs=1e-5)
    under = stop_place(build, build.moving[0], angle(20), "bottom", inches("2"), inches("5"))
    assert float(under.inches) == pytest.approx(17 * sin(atan2(15, 8) + radians(20)), abs=1e-5)


def test_a_stop_where_nothing_comes_past_is_refused():
    build = tilting("17 1/2", FASCIA)
    with pytest.raises(PlanError, match="nothing of it comes to meet"):
        stop_place(build, build.moving[0], angle(20), "back", inches("40"), inches("41"))
    with pytest.raises(PlanError, match="across the way it turns"):
        stop_place(build, build.moving[0], angle(20), "left", inches("40"), inches("41"))


def test_a_stop_outside_the_piece_is_no_stop():
    """Without the fascia nothing reaches out to y = −1.27, where the block would have to be."""
    build = tilting("17 1/2")
    with pytest.raises(PlanError, match="nothing of it comes to meet"):
        stop_place(build, build.moving[0], angle(20), "back", inches("15 1/2"), inches("17 1/2"))


def test_a_stop_that_the_bin_would_meet_earlier_is_refused():
    """A block over the bin, its underside low: the corner passes higher on its way to 60°."""
    build = tilting("30", FASCIA)
    with pytest.raises(PlanError, match="would be met earlier"):
        stop_place(build, build.moving[0], angle(60), "bottom", inches("-2"), inches("8"))


def test_the_clear_opening_of_a_bin_is_from_its_front_to_the_part_above():
    """Front 3/4 thick and 15 high, opened 30°: its inner top edge goes from (3/4, 15) to
    (3/4 cos 30° − 15 sin 30°, 15 cos 30° + 3/4 sin 30°); the top's lower front edge stays at (0, 15 1/4).
    """
    parts = (
        solid_part("Front", box("0", "10", "0", "3/4", "0", "15")),
        solid_part("Holder", box("1", "9", "3/4", "8", "0", "12")),
        solid_part("Top", box("-1", "11", "0", "13", "15 1/4", "16")),
        solid_part("Side", box("-1", "0", "0", "13", "0", "15 1/4")),
        solid_part("Floor", box("-1", "11", "0", "13", "-1", "0")),
    )
    moving = turning("bin", ("front", "holder"), "0", "0", "0")
    build = Build("Bin", parts, moving=(moving,))
    found = clear_opening(build, moving, angle(30))
    c, s = sqrt(3) / 2, 0.5
    y, z = 0.75 * c - 15 * s, 15 * c + 0.75 * s
    assert found is not None
    assert found.past == "Top"
    assert float(found.width.inches) == pytest.approx(hypot(y, 15.25 - z), abs=1e-6)
    assert (outer_face(build, moving), free_face(build, moving)) == ("front", "top")


def test_a_tall_block_tips_over_a_low_front_and_a_low_one_does_not():
    """Bin front 6 high, open 30°. A block 4 deep leaning on it tips where its middle is higher up the front
    than the line of its weight allows: h/2 − 2 / tan 30° > 6, so for h > 2 (6 + 3.46) = 18.93 in.
    """
    front = solid_part("Front", box("0", "10", "0", "3/4", "0", "6"))
    moving = turning("bin", ("front",), "0", "0", "0", contents="Sack")
    for high, falls in (("18 7/8", False), ("19", True)):
        sack = Thing("Sack", box("1", "9", "2", "6", "0", high))
        build = Build("Bin", (front,), (), (sack,), moving=(moving,))
        assert falls_out(build, moving, sack, angle(30)) is falls


def test_a_thing_goes_in_upright_lying_or_not_at_all():
    sack = Thing("Sack", box("0", "9", "0", "6", "0", "4"))
    assert [goes_in(sack, inches(wide), "x") for wide in ("6", "5", "3")] == ["upright", "lying", ""]


def test_what_a_bin_carries_is_swept_by_itself():
    sack = Thing("Sack", box("1", "9", "1", "8", "0", "15 1/2"))
    build = replace(tilting("16", contents="Sack"), things=(sack,))
    found = sweep(build, build.moving[0])
    corner = hypot(8, 15.5)
    assert found.carried[0].met == "shelf"
    assert float(found.carried[0].angle.degrees) == pytest.approx(
        degrees(asin(16 / corner) - atan2(15.5, 8)), abs=1e-6
    )
    assert "Sack" not in {one.met for one in found.opening}


def test_the_room_that_is_missing_is_how_far_the_corner_would_go_into_the_shelf():
    """Under a shelf at 16 the corner goes up to 17 on its way to 40°."""
    build = tilting("16")
    met = sweep(build, build.moving[0]).opening[0]
    found = missing_room(build, build.moving[0], met, angle(40))
    assert found is not None
    axis, amount = found
    assert axis == "z"
    assert float(amount.inches) == pytest.approx(1.0, abs=0.01)  # chords of 2°: a little less than the arc


def test_reveals_are_measured_to_the_nearest_part_in_the_front_s_own_thickness():
    parts = (
        solid_part("Front", box("1/16", "9 7/8", "0", "3/4", "1/8", "14 15/16")),
        solid_part("Left", box("-3/4", "0", "0", "13", "0", "15")),
        solid_part("Right", box("10", "10 3/4", "0", "13", "0", "15")),
        solid_part("Top", box("0", "10", "0", "13", "15", "15 3/4")),
        solid_part("Rail", box("0", "10", "2", "3", "14", "15")),
    )
    moving = turning("bin", ("front",), "0", "0", "1/8")
    found = {one.face: (one.gap, one.part) for one in reveals(Build("Bin", parts, moving=(moving,)), moving)}
    assert found == {
        "left": (L("1/16 in"), "left"), "right": (L("1/8 in"), "right"), "top": (L("1/16 in"), "top"),
    }  # fmt: skip


def test_gaps_beside_a_holder_are_measured_along_the_pivot():
    cheek = solid_part("Cheek", box("10 1/32", "11", "0", "13", "0", "30"))
    holder = solid_part("Box", box("0", "10", "1", "8", "0", "12"))
    front = solid_part("Front", box("0", "9", "0", "1", "0", "12"))
    moving = turning("bin", ("front", "box"), "0", "0", "0")
    found = side_gaps(Build("Bin", (front, holder, cheek), moving=(moving,)), moving)
    assert [(part.id, one.face, one.gap) for part, one in found] == [("box", "right", L("1/32 in"))]


# Against fine steps with solids, and what must always hold

sizes = st.integers(1, 30)
places = st.integers(-40, 40)


@st.composite
def boxes(draw: st.DrawFn) -> tuple[float, float, float, float]:
    low = draw(places), draw(places)
    return *low, low[0] + draw(sizes), low[1] + draw(sizes)


def _solids(axis: str, one: tuple[float, ...], other: tuple[float, ...]) -> tuple[Part, Part]:
    """Two blocks 10 and 6 mm long along an axis, by their rectangles in the plane across it."""
    from plankit.build.swing_outlines import PLANE

    made = []
    for name, (u1, v1, u2, v2), long in (("Front", one, 10), ("Case", other, 6)):
        first, second = PLANE[axis]  # type: ignore[index]
        ends = {first: (u1, u2), second: (v1, v2), axis: (0, long)}
        (a, b), (c, d), (e, f) = ends["x"], ends["y"], ends["z"]
        space = Box(*(Length.of_mm(Fraction(end)) for end in (a, b, c, d, e, f)))
        made.append(solid_part(name, space))
    return made[0], made[1]


@given(boxes(), boxes(), st.sampled_from("xyz"), st.sampled_from((1, -1)))
@settings(max_examples=60, deadline=None)
def test_the_sweep_agrees_with_fine_steps_of_turned_solids(moved, fixed, axis, sense):
    """No step before the angle shares more than a hair; just after it, something is shared.

    source  manifold3d: the volume two solids share, every 2° and a hundredth of a degree past the angle
    """
    front, case = _solids(axis, moved, fixed)
    hung = Moving("Front", "door", ("front",), Pivot(axis, Point(*(Length.zero(),) * 3), sense))
    build = Build("Two", (front, case), moving=(hung,))
    shut, still = block(front.box), block(case.box)
    met = [one for one in sweep(build, hung).opening if one.met == "case"]
    first = float(met[0].angle.degrees) if met else 270.0

    def shared(at: float) -> float:
        turned = [0.0, 0.0, 0.0]
        turned["xyz".index(axis)] = sense * at
        return float((shut.rotate(turned) ^ still).volume())

    hair = HAIR * 2 * (30 + 30) * 6
    assert all(shared(step) <= hair for step in range(0, int(first), 2) if step < first)
    if met:
        assert shared(first + 0.01) > 0


@given(boxes(), boxes(), st.integers(1, 5))
@settings(max_examples=80, deadline=None)
def test_more_clearance_never_brings_contact_or_brings_it_earlier(moved, fixed, less):
    u1, v1, u2, v2 = fixed
    assume(u2 - u1 > 2 * less and v2 - v1 > 2 * less)
    motion, outline = Turning((0.0, 0.0), 1), rectangle(moved[:2], moved[2:])
    whole = first_meeting(motion, outline, rectangle((u1, v1), (u2, v2)), 4.0)
    small = first_meeting(motion, outline, rectangle((u1 + less, v1 + less), (u2 - less, v2 - less)), 4.0)
    assert small is None or (whole is not None and small[0] >= whole[0] - 1e-9)


@given(boxes(), boxes())
@settings(max_examples=80, deadline=None)
def test_the_mirror_image_meets_at_the_same_angle_the_other_way_about(moved, fixed):
    there = first_meeting(
        Turning((0.0, 0.0), 1), rectangle(moved[:2], moved[2:]), rectangle(fixed[:2], fixed[2:]), 4.0
    )

    def flipped(one: tuple[float, ...]):
        return rectangle((-one[2], one[1]), (-one[0], one[3]))

    back = first_meeting(Turning((0.0, 0.0), -1), flipped(moved), flipped(fixed), 4.0)
    assert (there is None) == (back is None)
    if there and back:
        assert back[0] == pytest.approx(there[0], abs=1e-6)


@given(boxes(), st.floats(0.1, 4.0), st.floats(0, 6.28))
@settings(max_examples=60, deadline=None)
def test_no_step_of_a_turn_reaches_further_than_the_reach(moved, limit, towards):
    import numpy as np

    way = (cos(towards), sin(towards))
    motion, outline = Turning((3.0, -2.0), 1), rectangle(moved[:2], moved[2:])
    most = reach(motion, outline, limit, way)
    stepped = [
        float((motion.placed(outline.corners, at) @ np.array(way)).max()) for at in np.linspace(0, limit, 400)
    ]
    assert max(stepped) <= most + 1e-9
    assert most - max(stepped) <= 60 * (limit / 399) ** 2  # a sagitta of the largest circle, 60 mm at most


def test_turning_a_whole_build_upside_down_left_to_right_changes_nothing_but_names():
    build = tilting("16")
    other = mirrored(build)
    moving = build.moving[0]
    assert opened(replace(other, moving=(moving,))) == opened(build)
