"""Two moving things at once: hand calculations, and solids turned in fine steps beside them."""

from math import atan2, cos, degrees, hypot, radians, sin
from typing import TYPE_CHECKING

import pytest

from plankit.build import Build, Item, Moving, Pivot
from plankit.build.swing import far_open, sweep
from plankit.build.swing_both import Both, both_open
from plankit.build.swing_motion import common_axis, met_open
from plankit.parts import AXES, AXIS_OF, HIGH, Axis, Face, Part, Point, solid
from plankit.units import Angle, L
from tests.parts.one_of_each import PLY, box

if TYPE_CHECKING:
    from manifold3d import Manifold


def part(name: str, *faces: str, through: Axis = "y") -> Part:
    return Part(name.lower(), name, "panel", PLY, box(*faces), "z" if through != "z" else "x", through)


def at(x: str, y: str, z: str) -> Point:
    return Point(L(x, "in"), L(y, "in"), L(z, "in"))


def turns(name: str, own: Part, pivot: Pivot, angle: str) -> Moving:
    return Moving(name, "door", (own.id,), pivot, Angle.read(angle))


def slides(name: str, *own: Part, out: Face = "front", far: str = "12") -> Moving:
    return Moving(name, "drawer", tuple(one.id for one in own), slides=(out, L(far, "in")))


def build(*parts: Part, moving: tuple[Moving, ...], items: tuple[Item, ...] = ()) -> Build:
    return Build("Case", parts, moving=moving, items=items)


LEFT = part("Left", "0", "11", "-3/4", "0", "0", "24")
RIGHT = part("Right", "11 1/8", "22 1/8", "-3/4", "0", "0", "24")
FRAME = part("Frame", "0", "22 1/8", "0", "14", "24", "24 3/4", through="z")
ON_THE_LEFT, ON_THE_RIGHT = Pivot("z", at("0", "-3/4", "0"), -1), Pivot("z", at("22 1/8", "-3/4", "0"), 1)
MIDDLE_LEFT, MIDDLE_RIGHT = Pivot("z", at("11", "-3/4", "0"), 1), Pivot("z", at("11 1/8", "-3/4", "0"), -1)


def doors(one: Pivot, other: Pivot, angle: str) -> Build:
    """Two doors 11 in wide beside each other, 1/8 in apart."""
    return build(
        LEFT, RIGHT, FRAME, moving=(turns("Left door", LEFT, one, angle), turns("Right door", RIGHT, other, angle))
    )


@pytest.mark.parametrize("angle", ["90 deg", "110 deg", "170 deg"])
def test_doors_hung_at_their_outer_edges_part(angle: str) -> None:
    assert not both_open(doors(ON_THE_LEFT, ON_THE_RIGHT, angle))


def test_doors_on_one_divider_open_square_beside_each_other() -> None:
    assert not both_open(doors(MIDDLE_LEFT, MIDDLE_RIGHT, "90 deg"))


def test_doors_on_one_divider_that_open_further_run_into_each_other() -> None:
    (both,) = both_open(doors(MIDDLE_LEFT, MIDDLE_RIGHT, "110 deg"))
    assert (both.how, both.first.name, both.then.name) == ("never", "Left door", "Right door")
    # the open one leans 20° past square: its outer edge is 11 sin 20° − 1/8 past the other's pivot and 11 cos 20° out,
    # within the reach of 11 in, and lies on the face of the other when that is as far round
    past, out = 11 * sin(radians(20)) - 1 / 8, 11 * cos(radians(20))
    assert hypot(past, out) < 11
    wanted = degrees(atan2(out, past))
    assert wanted == pytest.approx(70.6, abs=0.1)
    assert degrees(both.far) == pytest.approx(wanted, abs=1e-6)
    assert both.also is not None
    assert degrees(both.also) == pytest.approx(wanted, abs=1e-6)


DOOR = part("Door", "0", "20", "-3/4", "0", "0", "24")
FRONT = part("Front", "1", "19", "1/2", "1 1/4", "2", "10")
TRAY = part("Tray", "1", "19", "1 1/4", "13", "2", "2 3/4", through="z")


def behind(angle: str = "90 deg") -> Build:
    """A drawer that comes out 12 in behind an overlay door, 1/2 in behind it."""
    hung = turns("Door", DOOR, Pivot("z", at("0", "-3/4", "0"), -1), angle)
    return build(DOOR, FRONT, TRAY, FRAME, moving=(hung, slides("Drawer", FRONT, TRAY)))


def test_a_drawer_behind_a_door_waits_for_it() -> None:
    # shut, the door is met when the drawer is 1/2 in out; open square, it stands before x = 3/4
    case = behind()
    (both,) = both_open(case)
    assert (both.how, both.first.name, both.then.name) == ("shut", "Door", "Drawer")
    assert both.far == pytest.approx(12.7)
    drawer = sweep(case, case.moving[1])
    assert not drawer.opening
    assert [met.met for met in drawer.waits] == ["door"]


def test_a_door_that_does_not_open_far_enough_stays_in_the_drawer_s_way() -> None:
    case = behind("60 deg")
    assert [met.met for met in sweep(case, case.moving[1]).opening] == ["door"]
    assert not both_open(case)  # the drawer's own sweep tells


def test_a_drawer_passes_a_door_that_stands_square_and_not_a_hook_on_it() -> None:
    case = behind()
    # 3/8 in of a hook inside the door reaches from x = 3/4 to 1 1/8, and the drawer's front begins at 1
    hook = Item("hook", "pull", ("door",), box("8", "9", "0", "3/8", "5", "6"))
    with_hook = build(*case.parts, moving=case.moving, items=(hook,))
    assert not sweep(with_hook, case.moving[1]).waits
    assert [met.met for met in sweep(with_hook, case.moving[1]).opening] == ["hook", "door"]


def test_a_door_with_a_lip_over_the_other_opens_first() -> None:
    # the left door's lip stands before the right door's edge
    lip = part("Lip", "10", "12", "-1 1/4", "-3/4", "0", "24")
    one = Moving("Left door", "door", (LEFT.id, lip.id), Pivot("z", at("0", "-1 1/4", "0"), -1), Angle.read("90 deg"))
    other = turns("Right door", RIGHT, ON_THE_RIGHT, "90 deg")
    (both,) = both_open(build(LEFT, RIGHT, lip, FRAME, moving=(one, other)))
    assert (both.how, both.first.name, both.then.name) == ("shut", "Left door", "Right door")
    assert degrees(both.far) < 1


def test_a_drawer_that_comes_out_beside_an_inner_corner() -> None:
    """Two drawers at right angles in the corner of two cases: out together they run into each other."""
    one = part("One", "0", "10", "0", "3/4", "0", "8")
    other = part("Other", "12", "12 3/4", "-12", "-2", "0", "8", through="x")
    case = build(one, other, moving=(slides("One", one, far="10"), slides("Other", other, out="left", far="10")))
    (both,) = both_open(case)
    assert both.how == "never"
    # the other's front, from y = −2 on, stands from x = 2 when it is out: met after 2 in; that one is met at x = 10
    assert both.far == pytest.approx(2 * 25.4)
    assert both.also == pytest.approx(2 * 25.4)


def test_short_drawers_in_a_corner_pass() -> None:
    one = part("One", "0", "10", "0", "3/4", "0", "8")
    other = part("Other", "12", "12 3/4", "-12", "-2", "0", "8", through="x")
    # 1 in out the one ends at y = −1, before the other's edge at −2
    assert not both_open(build(one, other, moving=(slides("One", one, far="1"), slides("Other", other, out="left"))))


def test_a_door_that_swings_through_where_a_drawer_stands_opens_first() -> None:
    """A drawer at a right angle to a door comes out before it; the door, right round, is out of its way."""
    till = part("Till", "22", "22 3/4", "-12", "-2", "0", "8", through="x")
    for moving in ("door first", "drawer first"):
        hung = turns("Door", DOOR, Pivot("z", at("0", "-3/4", "0"), -1), "170 deg")
        drawer = slides("Till", till, out="left")
        pair = (hung, drawer) if moving == "door first" else (drawer, hung)
        (both,) = both_open(build(DOOR, till, moving=pair))
        assert (both.how, both.first.name, both.then.name, both.also) == ("order", "Door", "Till", None)
        # out 12 in, the till's nearest corner is at x = 10 3/4, y = −2: 10 3/4 across and 1 1/4 out from the axis,
        # on whose line the door's outer face lies
        assert degrees(both.far) == pytest.approx(degrees(atan2(1.25, 10.75)), abs=1e-6)


BIN, UPPER = part("Bin", "0", "20", "0", "3/4", "1", "13"), part("Upper", "0", "20", "0", "3/4", "13 1/8", "25")


def bins(handle: str = "1 1/2") -> Build:
    """A bin above a bin, each turning about its outer lower edge; a handle on the lower one's upper edge."""
    low = Moving("Lower bin", "bin", ("bin", "grip"), Pivot("x", at("0", "0", "1"), 1), Angle.read("30 deg"))
    high = Moving("Upper bin", "bin", ("upper",), Pivot("x", at("0", "0", "13 1/8"), 1), Angle.read("100 deg"))
    grip = Part("grip", "Grip", "board", PLY, box("4", "16", f"-{handle}", "0", "12", "12 3/4"), "x", "z")
    return build(BIN, UPPER, grip, moving=(low, high))


def test_a_bin_above_a_bin_that_comes_down_onto_it() -> None:
    case = bins()
    (both,) = both_open(case)
    assert {both.first.name, both.then.name} == {"Lower bin", "Upper bin"}
    assert common_axis(*case.moving) == "x"


def test_the_same_bins_opened_less_far_pass() -> None:
    case = bins()
    low, high = case.moving
    less = Moving("Upper bin", "bin", ("upper",), high.pivot, Angle.read("60 deg"))
    assert not both_open(build(*case.parts, moving=(low, less)))


def flap_and_door(angle: str) -> Build:
    """A drop front 20 in wide beside a door that is hung between the two: their axes lie square to each other."""
    flap = part("Flap", "20 1/8", "40", "-3/4", "0", "8", "20")
    door = part("Door", "0", "20", "-3/4", "0", "0", "24")
    down = Moving("Flap", "flap", ("flap",), Pivot("x", at("20 1/8", "-3/4", "8"), 1), Angle.read("90 deg"))
    round_ = turns("Door", door, Pivot("z", at("20", "-3/4", "0"), 1), angle)
    return build(flap, door, FRAME, moving=(down, round_))


def test_axes_that_are_not_parallel_are_judged_by_solids() -> None:
    case = flap_and_door("170 deg")
    assert common_axis(*case.moving) is None
    (both,) = both_open(case)
    assert both.how == "never"
    # square to the case it stands clear of the flap; at three quarters of its way, 127.5°, it stands in it
    assert degrees(both.also or 0) == pytest.approx(0.75 * 170)
    assert not both_open(flap_and_door("90 deg"))


def brute(case: Build, own: tuple[Moving, float], other: tuple[Moving, float], steps: int = 600) -> float | None:
    """The first of fine steps at which solids share more than a touch."""
    there = [placed(case, other[0], one, other[1]) for one in other[0].parts]
    for step in range(steps + 1):
        far = own[1] * step / steps
        if any((placed(case, own[0], one, far) ^ that).volume() > 50.0 for one in own[0].parts for that in there):
            return far
    return None


def placed(case: Build, moving: Moving, one: str, far: float) -> "Manifold":
    body, way = solid(case.part(one)), [0.0, 0.0, 0.0]
    if moving.slides is not None:
        axis = AXIS_OF[moving.slides[0]]
        way[AXES.index(axis)] = far if moving.slides[0] == HIGH[axis] else -far
        return body.translate(way)
    assert moving.pivot is not None
    middle = list(moving.pivot.at.mm())
    way[AXES.index(moving.pivot.axis)] = degrees(far) * moving.pivot.sense
    return body.translate([-v for v in middle]).rotate(way).translate(middle)


@pytest.mark.parametrize(
    "case", [doors(MIDDLE_LEFT, MIDDLE_RIGHT, "110 deg"), doors(MIDDLE_LEFT, MIDDLE_RIGHT, "91 deg"), bins(), behind()]
)
def test_solids_moved_in_fine_steps_agree(case: Build) -> None:
    first, second = ((one, far_open(case, one)) for one in case.moving)
    for own, other in ((first, second), (second, first)):
        found, stepped = met_open(case, own, other), brute(case, own, other)
        assert (found is None) == (stepped is None)
        if found is not None and stepped is not None:
            assert found <= stepped + 1e-9
            assert stepped - found < own[1] / 600 + (2.0 if own[0].slides else 0.02)


def test_what_moves_far_away_is_not_looked_at() -> None:
    away = part("Away", "80", "90", "0", "3/4", "0", "9")
    case = doors(MIDDLE_LEFT, MIDDLE_RIGHT, "110 deg")
    more = build(*case.parts, away, moving=(*case.moving, slides("Away", away)))
    assert [_names(one) for one in both_open(more)] == [("Left door", "Right door")]


def _names(both: Both) -> tuple[str, str]:
    return both.first.name, both.then.name
