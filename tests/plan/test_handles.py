"""What an author can do to a part, in the words she does it in; every sum stands beside its number."""

from fractions import Fraction

import pytest

from plankit import stock
from plankit.parts import Bore, Groove, Mitre, Notch, volume
from plankit.plan import Plan
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")
RAIL = stock.lumber("2x4", species="Douglas-fir")
POST = stock.lumber("4x4", species="loblolly pine")
CUBIC_INCH = Fraction(254, 10) ** 3


@pytest.fixture
def plan():
    return Plan("Potting cabinet")


@pytest.fixture
def shelf(plan):
    return plan.panel("Shelf", PLY, left=0, right="40", front=0, back="16", bottom="10")


def taken(handle) -> Fraction:
    """Cubic inches cut away."""
    x, y, z = (size.inches for size in handle.part.box.size)
    return x * y * z - volume(handle.part) / CUBIC_INCH


def test_five_faces_and_the_sheet_gives_the_sixth(shelf):
    assert shelf.top == L("10 3/4 in")
    assert (shelf.length, shelf.width, shelf.thickness) == (L("40 in"), L("16 in"), L("3/4 in"))


def test_a_panel_given_from_above_hangs_down_by_its_thickness(plan):
    assert plan.panel("Lid", PLY, left=0, right="9", front=0, back="9", top="20").bottom == L("19 1/4 in")


def test_grain_runs_along_the_longer_side_unless_the_author_says_otherwise(plan, shelf):
    assert shelf.part.grain == "x"
    other = plan.panel("Door", PLY, left=0, right="20", back=0, bottom=0, top="15", grain="up")
    assert (other.part.grain, other.length, other.width) == ("z", L("15 in"), L("20 in"))


def test_a_board_lies_as_its_author_says(plan):
    rail = plan.board("Rail", RAIL, runs="left-right", wide="up", left=0, right="30", front=0, top="12")
    assert (rail.length, rail.width, rail.thickness) == (L("30 in"), L("3 1/2 in"), L("1 1/2 in"))
    assert (rail.back, rail.bottom) == (L("1 1/2 in"), L("8 1/2 in"))


def test_a_corner_notch_runs_through_the_part(shelf):
    shelf.notch(back="1 1/2", right="3", reason="round the post")
    (notch,) = shelf.part.features
    assert isinstance(notch, Notch)
    assert taken(shelf) == 3 * Fraction(3, 2) * Fraction(3, 4)
    assert (notch.cut.left, notch.cut.front) == (L("37 in"), L("14 1/2 in"))  # 40 - 3 and 16 - 1 1/2


def test_a_notch_round_a_post_leaves_the_room_asked_for(plan, shelf):
    post = plan.board("Post", POST, runs="up", right="40", back="16", bottom=0, top="30")
    shelf.notch_round(post, clearance="1/8")
    # 3 1/2 + 1/8 each way
    assert taken(shelf) == Fraction(29, 8) ** 2 * Fraction(3, 4)
    assert shelf.part.features[0].reason == "round the post"


def test_a_hole_is_placed_from_two_faces(shelf):
    shelf.bore("top", "1/2", depth="3/8", right="2", front="3", use="for a pin")
    (hole,) = shelf.part.features
    assert isinstance(hole, Bore)
    assert hole.at[:2] == (L("38 in"), L("3 in"))  # 40 - 2


def test_a_mitre_of_45_degrees_sets_back_as_much_as_the_part_is_wide(plan):
    rail = plan.board("Brace", RAIL, runs="left-right", wide="up", left=0, right="30", front=0, top="12")
    rail.mitre("left", short="bottom")
    (cut,) = rail.part.features
    assert isinstance(cut, Mitre)
    assert cut.setback == L("3 1/2 in")
    assert taken(rail) == Fraction(7, 2) ** 2 / 2 * Fraction(3, 2)


def test_a_groove_for_a_drawer_bottom(plan):
    side = plan.panel("Drawer side", PLY, left=0, front=0, back="18", bottom=0, top="5")
    side.groove("right", width="1/4", depth="3/8", bottom="1/2", reason="for the bottom")
    (groove,) = side.part.features
    assert isinstance(groove, Groove)
    assert taken(side) == 18 * Fraction(1, 4) * Fraction(3, 8)
    assert (groove.cut.bottom, groove.cut.top) == (L("1/2 in"), L("3/4 in"))
    assert groove.cut.left == L("3/8 in")  # 3/4 less 3/8


def test_a_taper_over_part_of_a_leg(plan):
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, top="28")
    leg.taper(right="1", back="1", run="20")
    # the lower 20 in narrows from 3 1/2 to 2 1/2 square: a frustum, by Simpson's rule
    frustum = 20 * (Fraction(7, 2) ** 2 + 4 * 3**2 + Fraction(5, 2) ** 2) / 6
    assert taken(leg) == 20 * Fraction(7, 2) ** 2 - frustum


def test_four_corners_have_two_feet_of_each_hand_when_the_tapers_differ(plan):
    from plankit.build import alike

    foot = plan.board("Foot", POST, runs="up", left="1", front="1", bottom=0, length="4")
    foot.taper(left="1", front="1/2")
    floor = plan.panel("Bottom", PLY, left=0, right="40", front=0, back="16", bottom=foot.top)
    feet = plan.at_corners(foot, of=floor)
    assert [(f.left, f.front) for f in feet] == [
        (L("1 in"), L("1 in")),
        (L("35 1/2 in"), L("1 in")),  # 40 - 1 - 3 1/2
        (L("1 in"), L("11 1/2 in")),  # 16 - 1 - 3 1/2
        (L("35 1/2 in"), L("11 1/2 in")),
    ]
    group = alike(plan.build())[0]
    assert (len(group.parts), len(group.other)) == (2, 2)


def test_four_corners_have_four_equal_feet_when_the_tapers_are_equal(plan):
    from plankit.build import alike

    foot = plan.board("Foot", POST, runs="up", left="1", front="1", bottom=0, length="4")
    foot.taper(left="1", front="1")
    floor = plan.panel("Bottom", PLY, left=0, right="40", front=0, back="16", bottom=foot.top)
    plan.at_corners(foot, of=floor)
    group = alike(plan.build())[0]
    assert (len(group.parts), len(group.other)) == (4, 0)


def test_dividers_leave_equal_spaces(plan):
    left = plan.panel("Side", PLY, left=0, front=0, back="16", bottom=0, top="12")
    right = plan.mirror(left, across="44")
    walls = plan.spread(
        "Divider", PLY, count=2, between=[left, right], front=0, back="16", bottom=0, top="12"
    )
    # (44 - 4 × 3/4) ÷ 3 = 13 2/3
    assert walls.clear == L(Fraction(41, 3), "in")
    assert [space.extent("x") for space in walls.spaces] == [walls.clear] * 3
    assert right.left == L("43 1/4 in")


def test_lengths_take_text_in_the_plans_unit(plan):
    width = plan.given(width="40")
    assert width - "1/2" == L("39 1/2 in")
    assert "1/2" + width == L("40 1/2 in")
    assert width > "3 ft"


def test_a_metric_plan_reads_and_writes_millimetres():
    plan = Plan("Ablage", unit="mm")
    board = stock.sheet("plywood", "18 mm")
    shelf = plan.panel("Shelf", board, left=0, right=800, front=0, back="300", bottom="10 cm")
    assert plan.write(shelf.length) == "800\u00a0mm (31\u00a01/2\u00a0in)"
    assert plan.write(shelf.top) == "118\u00a0mm (4\u00a05/8\u00a0in)"
