"""What the checks say of doors, bins and drawers: each build is right, and one change makes it wrong."""

from dataclasses import replace
from math import asin, atan2, degrees

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import Build, Item, Moving, Thing
from plankit.checks.swing import swing
from plankit.finding import Finding
from plankit.parts import Part
from plankit.units import Angle, L, Notation
from tests.build.bins import box, drawn, solid_part, tilting, turning
from tests.checks.small_builds import mirrored

INCHES = Notation()


def found(build: Build) -> dict[str, Finding]:
    return {one.check: one for one in swing(build, INCHES)}


def deg(text: str) -> Angle:
    return Angle.read(text)


def bin_with(*others: Part, **more: object) -> Build:
    """A bin that stops at 35° on a block, closes on a strip behind its front, and has room all round.

    The block's back face stands at 15.2 − …: its lower edge, 15 1/4 high, lies on the bin's top at 35°,
    where z cos θ − y sin θ = 15: y = (15.25 cos 35° − 15) / sin 35° = −4.372.
    """
    stop = solid_part("Stop block", box("2", "4", "-5", "-4.372", "15 1/4", "16"))
    strip = solid_part("Strip", box("0", "10", "3", "4", "-1", "0"))
    usual: dict[str, object] = {"stops": ("stop-block",), "opens": deg("35 deg")}
    return tilting("18", stop, strip, *others, **(usual | more))


def test_a_bin_with_room_and_both_stops_is_silent():
    assert found(bin_with()) == {}


def test_a_rail_in_the_way_is_told_with_its_angle_and_what_to_do():
    """A rail whose underside is at 16 over the back: asin(16/17) − atan(15/8) = 8.32°."""
    rail = solid_part("Rail", box("0", "10", "0", "9", "16", "17"))
    one = found(bin_with(rail))["swing meets something"]
    assert one.level == "must fix"
    assert one.number == f"{degrees(asin(16 / 17) - atan2(15, 8)):.1f}°"
    assert "Bin meets Rail at 8.3°, and is to open to 35.0°." in one.what
    assert "Make about" in one.remedy
    assert "up and down between Bin and Rail" in one.remedy


def test_a_front_that_meets_its_neighbour_at_once_is_a_knuckle_gap():
    strip = solid_part("Moulding", box("0", "10", "-1", "0", "10", "11"))
    one = found(bin_with(strip))["knuckle gap"]
    assert one.level == "must fix"
    assert "as soon as it begins to open" in one.what


def test_a_bin_without_a_stop_falls_out():
    one = found(bin_with(stops=()))["no stop"]
    assert one.level == "must fix"
    assert "falls open" in one.what


def test_a_chain_is_a_stop():
    chain = Item("Chain, 8 in", "stop", ("holder", "shelf"), box("5", "6", "8", "9", "10", "11"))
    assert "no stop" not in found(replace(bin_with(stops=()), items=(chain,)))


def test_a_stop_beside_the_bin_misses():
    aside = solid_part("Stop block", box("12", "13", "-5", "-4", "15 1/4", "16"))
    build = bin_with()
    build = replace(build, parts=tuple(aside if p.id == "stop-block" else p for p in build.parts))
    assert {"stop that misses", "no stop"} <= set(found(build))


def test_a_stop_that_comes_after_something_else_is_of_no_use():
    """The rail is met at 8.3°, the block only at 35°."""
    rail = solid_part("Rail", box("0", "10", "0", "9", "16", "17"))
    one = found(bin_with(rail, opens=None))["swing meets something"]
    assert "its stop is at 35.0°" in one.what


def test_a_stop_that_gives_another_angle_is_to_be_looked_at():
    one = found(bin_with(opens=deg("40 deg")))["stop at another angle"]
    assert one.level == "look at"
    assert one.number == "35.0°"
    assert "stop at another angle" not in found(bin_with(opens=deg("35.4 deg")))


def test_a_bin_that_closes_on_nothing_is_to_be_looked_at():
    build = bin_with()
    without = replace(build, parts=tuple(p for p in build.parts if p.id != "strip"))
    one = found(without)["no inward stop"]
    assert one.level == "look at"
    catch = Item("Magnetic catch", "catch", ("holder", "shelf"), box("5", "6", "7", "8", "15", "18"))
    assert "no inward stop" not in found(replace(without, items=(catch,)))


def test_an_adjustable_stop_set_too_far_lets_the_bin_into_what_is_behind():
    """A ledge 1/2 in under the rear lower corner, 8 in from the pivot: met at asin(0.5/8) = 3.6° past shut."""
    ledge = solid_part("Ledge", box("0", "10", "5", "13", "-1 1/2", "-1/2"))
    build = bin_with(ledge, inwards=deg("5 deg"))
    loose = replace(build, parts=tuple(p for p in build.parts if p.id != "strip"))
    one = found(loose)["goes in too far"]
    assert (one.level, one.number) == ("must fix", "3.6°")
    held = replace(loose, moving=(replace(loose.moving[0], inwards=deg("3 deg")),))
    assert found(held) == {}


def sacked(high: str, **more: object) -> dict[str, Finding]:
    sack = Thing("Sack of pegs", box("1", "9", "1", "7", "0", high))
    return found(replace(bin_with(contents="Sack of pegs", **more), things=(sack,)))


def test_contents_that_stand_up_too_high_do_not_come_out():
    assert "contents do not fit" not in sacked("12")
    one = sacked("17 3/4")["contents do not fit"]
    assert one.level == "must fix"
    assert "Sack of pegs meets Shelf" in one.what


def fronted(depth: str, high: str = "5", front_high: str = "15") -> dict[str, Finding]:
    """A bin with a thin front that opens 20°, under a top whose front edge is right above it."""
    parts = (
        solid_part("Front", box("0", "10", "0", "3/4", "0", front_high)),
        solid_part("Tray", box("1", "9", "3/4", "12", "0", "3/4")),
        solid_part("Top", box("-1", "11", "0", "13", "15 1/4", "16")),
        solid_part("Stop", box("3", "4", "12", "13", "1", "2")),
        solid_part("Strip", box("0", "10", "3", "4", "-1", "0")),
    )
    moving = turning(
        "bin", ("front", "tray"), "0", "0", "0", opens=deg("20 deg"), contents="Sack", stops=("strip",)
    )
    sack = Thing("Sack", box("1", "9", "1", str(1 + int(depth)), "3/4", high))
    return found(Build("Bin", parts, (), (sack,), moving=(moving,)))


def test_contents_deeper_than_the_open_top_do_not_go_in():
    """Its inner edge goes from (0.75, 15) to (−4.43, 14.35): 4.52 from the top's edge at (0, 15 1/4)."""
    assert "contents do not go in" not in fronted("4")
    assert "only goes in lying" in fronted("5", high="4")["contents do not go in"].what
    assert fronted("6", high="9")["contents do not go in"].level == "must fix"


def test_contents_that_tip_over_a_low_front_are_to_be_looked_at():
    """From the tray at 3/4: it tips where h/2 − (d/2)/tan 20° is over the front above it, 5 1/4 in:
    4 deep, that is for h over 2 (5.25 + 5.49) = 21.5 in.
    """
    assert "contents fall out" not in fronted("4", high="22", front_high="6")
    assert fronted("4", high="22 1/2", front_high="6")["contents fall out"].level == "look at"


def door(left: str = "1/8", right: str = "1/8", *, top: str = "1/8", **more: object) -> Build:
    """An inset door in an opening 20 wide and 30 high, on hinges at its left."""
    opening = L("20 in"), L("30 in")
    space = replace(
        box("0", "20", "0", "3/4", "1/8", "29 7/8"),
        left=L(left, "in"), right=opening[0] - L(right, "in"), top=opening[1] - L(top, "in"),
    )  # fmt: skip
    parts = (
        solid_part("Door", space),
        solid_part("Left", box("-3/4", "0", "0", "12", "0", "30")),
        solid_part("Right", box("20", "20 3/4", "0", "12", "0", "30")),
        solid_part("Top", box("0", "20", "0", "12", "30", "30 3/4")),
        solid_part("Bottom", box("0", "20", "0", "12", "-3/4", "0")),
    )
    hung = turning("door", ("door",), left, "0", "0", axis="z", sense=-1, opens=deg("90 deg"), **more)
    hinge = Item("35 mm cup hinge, inset", "hinge", ("door", "left"), box("0", "2", "3/4", "3", "3", "5"))
    return Build("Door", parts, items=(hinge,), moving=(hung,))


def test_a_door_with_even_gaps_is_silent():
    assert found(door()) == {}


def test_a_gap_under_a_sixteenth_is_to_be_looked_at():
    assert found(door("1/32", "1/32")).keys() == {"small gap"}
    assert found(door("1/16", "1/16")) == {}


def test_uneven_gaps_at_the_sides_are_to_be_looked_at_and_above_only_told():
    assert found(door("1/8", "1/4"))["unequal gaps"].level == "look at"
    assert found(door(top="1/4"))["unequal gaps"].level == "for information"
    assert found(door("1/8", "5/32")) == {}


def test_a_holder_that_rubs_on_the_side_is_to_be_looked_at():
    tray = solid_part("Tray", box("0", "9 31/32", "8", "9", "0", "2"))
    side = solid_part("Side", box("10", "11", "0", "13", "0", "15"))
    build = bin_with(side)
    build = replace(
        build, parts=(*build.parts, tray), moving=(replace(build.moving[0], parts=("holder", "tray")),)
    )
    assert "Tray swings past Side" in found(build)["small gap"].what


def test_a_drawer_that_meets_a_rail_before_it_is_out_must_be_mended():
    assert found(drawn("5")) == {}
    one = found(drawn("6"))["drawer meets something"]
    assert one.level == "must fix"
    assert one.number == "3\u00a0in"
    assert "is to come out 9\u00a0in" in one.what


@pytest.mark.parametrize("build", [bin_with(), bin_with(stops=()), tilting("16", opens=deg("35 deg"))])
def test_the_mirror_image_of_a_bin_gets_the_same_findings(build):
    """Left and right swapped, a pivot along that axis turns as before; only places change."""
    other = replace(mirrored(build), moving=build.moving)

    def told(one: Build) -> list[tuple[str, str, str]]:
        return [(f.level, f.check, f.number) for f in swing(one, INCHES)]

    assert told(other) == told(build)


@given(st.integers(1, 64), st.integers(1, 64))
@settings(max_examples=40, deadline=None)
def test_more_room_above_a_bin_never_adds_a_finding_about_its_swing(room, more):
    def told(sixteenths: int) -> set[str]:
        shelf = L("15 in") + L("1/16 in") * sixteenths
        return {one.check for one in swing(tilting(str(shelf.inches), opens=deg("35 deg")), INCHES)}

    assert told(room + more) <= told(room)


def test_a_plan_without_anything_that_moves_says_nothing():
    build = bin_with()
    assert swing(replace(build, moving=()), INCHES) == ()


def test_a_drawer_has_no_hinges_to_look_at():
    assert [type(one) for one in drawn("5").moving] == [Moving]
    assert swing(drawn("5"), INCHES) == ()
