"""The gallery: every section is there, runs, and its numbers are those of a hand sum beside them."""

import re
from functools import cache
from math import atan, cos, degrees, hypot, radians, sin, tan
from pathlib import Path
from typing import Any

import nbformat
import pytest

from plankit.build import alike
from plankit.checks import carrying_in, check
from plankit.checks.weather import weather
from plankit.errors import PlanError
from plankit.parts import Bore, CompoundMitre, Mitre, Notch, PocketHoles, Taper, box_of, saw_setting
from plankit.plan.media import PLAN_TYPE
from plankit.plan.step_words import step_words
from plankit.plan.work import work_of
from plankit.publish.settings import read_settings
from plankit.units import L

GALLERY = Path(__file__).parents[2] / "notebooks" / "gallery.ipynb"
ROWS = (1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 25, 26, 27)
WIDE = 7.25
"""A 1x8 is 3/4 by 7 1/4 in."""


@cache
def _cells() -> tuple[tuple[int, str], ...]:
    """Every cell of code, with the number of the section it stands in; 0 before the first."""
    found, number = [], 0
    for cell in nbformat.read(GALLERY, as_version=4).cells:
        heading = re.match(r"## (\d+)", cell.source)
        number = int(heading[1]) if heading else number
        if cell.cell_type == "code":
            found.append((number, cell.source))
    return tuple(found)


@cache
def _sections() -> dict[int, tuple[dict[str, Any], ...]]:
    """What the names stand for after each cell, by section."""
    found: dict[int, tuple[dict[str, Any], ...]] = {}
    space: dict[str, Any] = {}
    for number, source in _cells():
        exec(source, space)
        found[number] = (*found.get(number, ()), dict(space))
    return found


def section(number: int, cell: int = -1) -> Any:
    """The names after one cell of a section, the last one unless told."""
    return _Names(_sections()[number][cell])


class _Names:
    def __init__(self, space: dict[str, Any]) -> None:
        self._space = space

    def __getattr__(self, name: str) -> Any:
        return self._space[name]


def inches(length: Any) -> float:
    return float(length.inches)


def cuts(part: Any) -> list[Any]:
    return [one for one in part.part.features if isinstance(one, Mitre | CompoundMitre)]


def must_fix(plan: Any) -> list[str]:
    return [one.what for one in check(plan.build(), None, plan.notation) if one.level == "must fix"]


def test_every_capability_about_wood_has_its_section() -> None:
    assert tuple(_sections()) == (0, *ROWS)


def test_the_gallery_is_no_plan_and_leaves_none_to_publish() -> None:
    assert not any(".complete(" in source or PLAN_TYPE in source for _, source in _cells())


def test_the_demo_site_publishes_every_notebook_but_the_gallery() -> None:
    named = set(read_settings(GALLERY.parents[1] / "site").notebooks)
    assert named == {path.resolve() for path in GALLERY.parent.glob("*.ipynb")} - {GALLERY.resolve()}


def test_no_section_shows_what_must_be_fixed() -> None:
    for number in (1, 2, 3, 6, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 19, 20, 21, 25, 26):
        assert must_fix(section(number).plan) == [], number


# Solid wood


def test_tapered_feet_are_two_of_each_hand() -> None:
    one = section(1)
    (group,) = (group for group in alike(one.plan.build()) if group.name == "Foot")
    assert (len(group.parts), len(group.other)) == (2, 2)
    tapers = [cut for cut in one.foot.part.features if isinstance(cut, Taper)]
    # 1 in over 4: atan 1/4 = 14.0°; 1/2 over 4: atan 1/8 = 7.1°
    angles = sorted(degrees(atan(inches(cut.amount) / 4)) for cut in tapers)
    assert angles == pytest.approx([7.125, 14.036], abs=0.001)


def test_a_glue_up_is_ripped_and_cut_with_what_is_trimmed_later() -> None:
    top = section(2).top
    # 14 and 1/8 at either edge, halved; 30 and 1/2 at either end; 1 1/2 less 1/8
    assert (top.boards.count, top.boards.width, top.boards.length) == (2, L("7 1/8 in"), L("31 in"))
    assert top.thickness == L("1 3/8 in")


def test_slots_are_as_long_as_the_wood_moves() -> None:
    """The cleat's screws lie 0, 6 3/4 and 13 1/2 in from the fixed line. Loblolly pine, flat-sawn: 0.00259 for each
    percent (Wood Handbook table 13-5); 6.2 % at 30 % relative humidity and 13.1 % at 70 % (table 4-2). A slot is
    twice that, up to the next 1/16: 2 × 6.75 × 0.00259 × 6.9 = 0.241; 2 × 13.5 × … = 0.483.
    """
    cleat = section(3, 0).cleats[0]
    travels = [one.travel for one in cleat.part.features if isinstance(one, Bore) and one.face == "bottom"]
    assert travels == [None, L("1/4 in"), L("1/2 in")]


def test_buttons_stand_at_most_ten_inches_apart() -> None:
    # front and back 37 in, 3 from each end: 31 in, 4 gaps, 5 buttons; sides 15 in: 9 in, 1 gap, 2 buttons
    counts = sorted(len(one.fasteners) for one in section(3).plan.build().joints if one.kind == "buttons")
    assert counts == [2, 2, 5, 5]


def test_a_brace_is_as_long_as_its_hypotenuse_and_its_ends_make_a_right_angle() -> None:
    brace = section(4, 0).brace
    assert inches(brace.length) == pytest.approx(hypot(9, 7), abs=1e-6)
    turned = sorted(float(saw_setting(brace.part, cut).miter.degrees) for cut in cuts(brace))
    assert turned == pytest.approx([degrees(atan(7 / 9)), degrees(atan(9 / 7))], abs=0.01)  # 37.9° and 52.1°


def test_a_leaning_corner_is_sawn_at_the_settings_of_the_textbook() -> None:
    # four sides leaning 15°: miter atan sin 15° = 14.5°; tilt asin (cos 15° sin 45°) = 43.1°
    (cut,) = cuts(section(4).front)
    setting = saw_setting(section(4).front.part, cut)
    assert float(setting.miter.degrees) == pytest.approx(degrees(atan(sin(radians(15)))), abs=0.01)
    assert sin(radians(float(setting.tilt.degrees))) == pytest.approx(cos(radians(15)) * sin(radians(45)), abs=1e-4)


def test_a_splayed_leg_reaches_the_floor_and_stands_out_by_its_slopes() -> None:
    stool = section(5)
    box = box_of(stool.leg.part)
    assert (inches(box.bottom), inches(box.top)) == pytest.approx((0, 16.5), abs=1e-6)  # 18 less a seat 1 1/2 thick
    # sawn level it is 1.5 (1 + …) wide at both ends alike, so its sides stand apart by the way of its foot
    wide = 1.5 / cos(radians(8))
    assert inches(box.extent("x")) == pytest.approx(16.5 * tan(radians(8)) + wide, abs=0.02)


def test_a_box_with_sloping_sides_is_two_and_two_and_wider_at_the_top() -> None:
    planter = section(6)
    counts = [(group.name, group.count) for group in alike(planter.plan.build())]
    assert counts == [("Long side", 2), ("Short side", 2), ("Bottom", 3)]
    wide = 24 + 2 * WIDE * sin(radians(10))  # both sides lean out
    assert inches(box_of(planter.walls[0].part).extent("x")) == pytest.approx(wide, abs=1e-6)


def test_water_leaves_the_planter_between_its_slats_and_the_tray_through_its_holes() -> None:
    outside = section(6)
    # 13/16 to 11 3/16 is 10 3/8: three boards, (10 3/8 − 2 × 3/8) / 3 = 3 5/24 wide, as 1x4s of 3 1/2 are ripped
    assert [inches(one.width) for one in outside.slats] == [pytest.approx(3 + 5 / 24)] * 3
    assert outside.holes == 5 * 3  # 16 in and 5 1/4 in between insets of 2, at most 5 apart
    for plan in (outside.plan, outside.wet):
        assert "water trapped" not in [one.check for one in weather(plan.build(), plan.notation)]


def test_a_table_under_its_top_leaves_the_room_for_knees_that_is_asked() -> None:
    table = section(5)
    assert inches(table.guest.room) == 28.5 - 3.5  # the apron's lower edge
    assert inches(table.under.rails[0].length) == 48 - 2 * 3 - 2 * 1.5


# Sheets and cases


def test_thick_banding_makes_the_part_smaller() -> None:
    # 30 less 1/8 at both ends; 11 less 1/8 at the front
    assert section(8).shelf.part.cut_size() == (L("29 3/4 in"), L("10 7/8 in"))


def test_a_frame_has_one_screw_and_glue_at_every_end() -> None:
    frame = section(9)
    assert {inches(rail.length) for rail in frame.frame.rails} == {27, 11}  # 30 and 14 less two posts of 1 1/2
    own = {rail.id for rail in frame.frame.rails}  # sections 10 and 11 put more into the same frame
    joints = [one for one in frame.plan.build().joints if one.holds in own]
    assert [len(one.fasteners) for one in joints if one.kind == "pocket screws"] == [1] * 16
    assert sum(one.glue for one in joints) == 16


def test_a_panel_let_in_fills_its_opening_and_is_flush() -> None:
    let_in = section(10)
    # 30 less rails of 1 1/2 below and above; 14 less two posts
    assert (let_in.panel.length, let_in.panel.width) == (L("27 in"), L("11 in"))
    assert let_in.panel.left == let_in.frame.uprights[0].left


def test_a_divider_is_notched_by_the_size_of_the_rails() -> None:
    features = section(11).divider.part.features
    notches = [one for one in features if isinstance(one, Notch)]
    sizes = {(inches(one.cut.extent("y")), inches(one.cut.extent("z"))) for one in notches}
    assert (len(notches), sizes) == (4, {(0.75, 1.5)})
    # two edges at each of four notches
    assert len([one for one in features if isinstance(one, PocketHoles)]) == 8


def test_pin_rows_stand_32_mm_apart() -> None:
    pins = section(12)
    # 24 in are 609.6 mm: 19 × 32 = 608, so 20 rows, in two columns
    assert len(pins.rows.heights) == 20
    assert len([one for one in pins.sides[0].part.features if isinstance(one, Bore) and "pin" in one.use]) == 40
    assert pins.shelf.length == L("28 3/8 in")  # 28 1/2 less 1/16 at each end
    # the eighth row, and half a pin of 5 mm
    assert pins.shelf.bottom == L("6 in") + L("32 mm") * 7 + L("2 1/2 mm")


def test_a_back_on_one_section_leaves_the_other_open() -> None:
    half = section(13)
    assert half.back.top == half.middle.top
    pinned = {joint.to: len(joint.fasteners) for joint in half.plan.build().joints if joint.kind == "brads"}
    assert "top" not in pinned
    assert sum(pinned.values()) == sum(work_of(half.plan.draft())[1].fastener_counts.values())


def test_feet_stand_where_they_are_told() -> None:
    cart = section(14, 0)
    assert len(cart.wheels) == 4
    # four screws in the plate of each
    assert len([one for one in cart.floor.part.features if isinstance(one, Bore)]) == 16
    (bore,) = (one for one in section(14).leg.part.features if isinstance(one, Bore))
    assert [inches(one) for one in bore.at[:2]] == [1.75, 1.75]  # half of 3 1/2


def test_a_face_frame_and_overlay_doors_follow_the_case() -> None:
    face = section(15, 0).face
    assert {inches(rail.length) for rail in face.rails} == {27}  # 30 less two stiles of 1 1/2
    doors = section(15).doors
    assert {inches(door.width) for door in doors} == {14.875}  # (30 − 2 × 1/16 − 1/8) ÷ 2


# What opens


def test_doors_from_one_strip_and_their_molding() -> None:
    made = section(16)
    assert made.doors[0].width * 3 == L("34 1/4 in")  # 36 − 2 × 3/4 − 4 × 1/16
    # 24 − 2 × 3/4 − 2 × 1/16 is 22 3/8; three of them and two kerfs of 1/8
    assert made.doors.strip.length == L("67 3/8 in")
    assert made.molding[0].length == made.doors[0].width - "3"  # 1 1/2 in from either edge


def test_hinges_follow_from_where_the_door_is() -> None:
    hung = section(17).hung
    assert [one.hanging.lap for one in hung] == ["full overlay", "half overlay", "inset"]
    cup = next(one for one in section(17).over.part.features if isinstance(one, Bore))
    assert cup.diameter == L("35 mm")
    assert L("22 1/2 mm") in {cup.at[0], section(17).over.width - cup.at[0]}  # 5 mm to the rim, and half of 35


def test_hinges_let_in_leave_the_gap_that_the_door_was_sized_with() -> None:
    # a knuckle of 3/16 in a gap of 1/16: (3/16 − 1/16) / 2 in each
    leaves = section(17).let_in.leaves
    assert (leaves.in_door, leaves.in_on, leaves.gap) == (L("1/16 in"), L("1/16 in"), L("1/16 in"))


def test_a_drawer_comes_out_at_the_back() -> None:
    drawn = section(20)
    (moving,) = drawn.both.build().moving
    assert moving.slides == ("back", drawn.behind.travel)
    assert drawn.behind.front.back == drawn.walls[0].back


def test_the_clear_opening_of_a_bin_agrees_with_rule_and_pencil() -> None:
    """The front is 18 1/4 high; its inner upper edge turns 16° about its outer lower one. Nearest to it is the lower
    front edge of the top, 18 3/8 above what it turns about.
    """
    turn = radians(16)
    y, z = 0.75 * cos(turn) - 18.25 * sin(turn), 18.25 * cos(turn) + 0.75 * sin(turn)
    assert inches(section(19).tilting.clear_opening) == pytest.approx(hypot(y, 18.375 - z), abs=1e-4)


def test_a_stop_block_stands_where_the_holder_comes_at_the_wanted_angle() -> None:
    """The cheeks' upper edge is 15 1/4 above what they turn about, and the block's lower one 16 7/8. Turned 16°, the
    upper edge is all (y, z) with z cos 16° − y sin 16° = 15 1/4; so it is 16 7/8 up where y is this:
    """
    turn = radians(16)
    place = (16.875 * cos(turn) - 15.25) / sin(turn)
    assert inches(section(19).block.back) == pytest.approx(place, abs=1e-4)
    assert str(section(19).tilting.meets) == "Stop block at 16.0°"


def test_a_drawer_follows_from_its_opening() -> None:
    drawer = section(20).drawer
    assert drawer.wide == L("17 1/2 in")  # 20 − 2 × 3/4 − 2 × 1/2 for the slides
    assert drawer.high == L("5 1/2 in")  # 7 1/4 − 3/4, and 1/2 free below and above
    assert drawer.travel == L("14 in")  # 16 − 3/4 is 15 1/4: the next shorter slide
    # 1/8 all round in 18 1/2 by 6 1/2
    assert (drawer.front.length, drawer.front.width) == (L("18 1/4 in"), L("6 1/4 in"))


def test_a_drawing_can_be_shown_alone() -> None:
    drawer = section(20)
    shown = drawer.plan.picture(drawer.drawer.sides[0])._repr_mimebundle_()
    assert "Drawer side" in shown["text/plain"]
    assert shown["text/html"].startswith("<svg")
    out = drawer.plan.picture(drawer.drawer)._repr_mimebundle_()["text/plain"]
    assert "pulled out 14\u00a0in" in out
    with pytest.raises(PlanError, match="cut to size and no more"):
        drawer.plan.picture(drawer.floor)._repr_mimebundle_()
    with pytest.raises(PlanError, match="none of these parts opens"):
        drawer.plan.picture([drawer.floor])


def test_the_wall_is_shown_only_where_there_is_one() -> None:
    assert "stud" in section(21).plan.view("wall")._repr_mimebundle_()["text/plain"]
    with pytest.raises(PlanError, match="no such view"):
        section(20).plan.view("wall")._repr_mimebundle_()


def test_a_wall_cleat_is_screwed_into_every_stud_behind_it() -> None:
    hung = section(21)
    assert len(hung.screws) == 2  # studs at 5 and 21; the next, at 37, lies beyond 30
    assert hung.cleats.piece.back == hung.sides[0].back + "3/4"


# The work


def test_work_waits_for_its_time() -> None:
    timed = section(25)
    assert timed.rail.part.fit_to == "between the sides"
    case, pins, _ = work_of(timed.plan.draft())
    assert (case.step.fitting, case.step.pause) == ("dry", 60)
    # 40 holes in each side are bored when the case stands, none before
    assert len([one for _, one in pins.features if one.use == "shelf pin"]) == 80
    assert not [one for _, one in case.features if isinstance(one, Bore) and one.use == "shelf pin"]


def test_things_not_made_fit_and_the_piece_is_carried_in() -> None:
    hall = section(26)
    build = hall.plan.build()
    assert [thing.name for thing in build.things] == ["A basket"]
    # 30 × 14 × 36 stands in 32 × 16 × 40 and goes through 28 × 78 on its narrow side
    assert carrying_in(build, hall.plan.notation) == ()


def test_what_is_used_up_is_counted() -> None:
    bought = section(27).bought
    # four joints 14 in long, 2 from each end, at most 8 apart: 3 screws each; 12 and a tenth, the next whole screw
    assert bought["#8 × 2 in wood screw"] == "14"
    # sides 2 × (2 × 36 × 14 + 3/4 × 100), bottom and top 2 × (2 × 28 1/2 × 14 + 3/4 × 85), less four joints of
    # 14 × 3/4 on two faces: 3805 1/2 sq in are 26.43 sq ft; two coats at 400 sq ft to 128 fl oz, a tenth to spare
    assert bought["Varnish"] == f"{26.427 * 2 / 400 * 128 * 1.1:.1f} fl oz"


# What is drawn


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (3, "free to slide"),
        (3, "wood screw, 3/4"),
        (10, "pocket screw"),
        (6, "laid flat in a row"),
        (13, "brads through the back"),
        (14, "four casters"),
        (15, "Reveals: 1/16"),
        (16, "long points"),
    ],
)
def test_each_section_shows_its_own_drawing(number: int, words: str) -> None:
    """What the last line of every cell shows, run again in order."""
    space: dict[str, Any] = {}
    shown = []
    sources = [(place, source) for place, source in _cells() if place in {0, number, number - 1}]
    for place, source in sources:
        exec(source, space)
        last = source.splitlines()[-1]
        if place == number and last.startswith(("plan.view", "plan.picture", "plan.unfold")):
            shown.append(eval(last, space)._repr_mimebundle_()["text/plain"].replace("\u00a0", " "))
    assert any(words in one for one in shown), shown


def test_the_step_that_crosscuts_wide_doors_names_another_saw() -> None:
    wide = section(16)
    draft = wide.other.draft()
    (said,) = step_words(draft, work_of(draft)[0])[-1:]
    assert "miter saw cuts 12" in said.replace("\u00a0", " ")
    assert "guided circular saw" in said
