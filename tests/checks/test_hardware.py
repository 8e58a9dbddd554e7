"""Hardware that breaks through, meets something, misses, falls off, or is too little."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import CUP_HINGE, Build, Fastener, Item, casters, face_screws, levelling_feet, screw
from plankit.build.fittings import CASTER, LEVELLING_FOOT, middle_below
from plankit.checks import fit, hardware
from plankit.checks.fastening import fastening
from plankit.checks.spans import span_of
from plankit.finding import Finding
from plankit.parts import Bore, Notch, Part, Point
from plankit.stock import sheet
from plankit.units import L, Length
from tests.build.hung import FLOOR, OTHER, OVER, SIDE
from tests.checks.fitted import CASE, ROWS, SHELF, TOP, hung, pinned, raised
from tests.checks.small_builds import INCHES, instead, with_part
from tests.parts.one_of_each import POST, box, size
from tests.plan.demo import bench


def named(found: tuple[Finding, ...], check: str) -> Finding:
    (one,) = (finding for finding in found if finding.check == check)
    return one


def checks(build: Build) -> set[str]:
    return {finding.check for finding in hardware(build, INCHES)}


@pytest.mark.parametrize("build", [CASE, hung(), pinned()])
def test_what_is_right_raises_nothing(build: Build) -> None:
    assert hardware(build, INCHES) == ()


def test_the_demo_bench_has_no_hardware_to_complain_of() -> None:
    assert hardware(bench().build(), INCHES) == ()


# Hinges


def test_a_cup_deeper_than_the_door_less_2_mm_breaks_through() -> None:
    # 3/4 in is 19.05 mm: 17.05 leaves 2 mm just, 17.1 leaves 1.95
    assert hardware(hung(replace(CUP_HINGE, depth=L("17.05 mm"))), INCHES) == ()
    found = named(hardware(hung(replace(CUP_HINGE, depth=L("17.1 mm"))), INCHES), "hinge cup breaks through")
    assert (found.level, found.part) == ("must fix", "Door")
    through = named(hardware(hung(replace(CUP_HINGE, depth=L("20 mm"))), INCHES), "hinge cup breaks through")
    assert "right through" in through.what


def test_a_12_mm_door_takes_no_usual_cup() -> None:
    thin = replace(OVER, stock=sheet("plywood", "1/2"), box=replace(OVER.box, front=L("-1/2 in")))
    # 12.7 − 12.5 = 0.2 mm
    assert named(hardware(hung(door=thin), INCHES), "hinge cup breaks through").number == "0.2\u00a0mm"


@pytest.mark.parametrize(
    ("off", "check", "level"),
    [
        ("-1", "hinge cup breaks out", "must fix"),
        ("2", "hinge cup near an edge", "look at"),
        ("8", "hinge cup far from an edge", "look at"),
    ],
)
def test_a_cup_too_near_its_edge_or_too_far(off: str, check: str, level: str) -> None:
    # hardware.csv: 3 to 7 mm from the rim to the edge; the cup is moved along in the finished build
    build = hung()
    door = build.part("door")
    moved = tuple(
        replace(one, at=(Length.of_mm(int(off)) + L("17.5 mm"), *one.at[1:]))
        if isinstance(one, Bore)
        else one
        for one in door.features
    )
    found = named(hardware(instead(build, "door", features=moved), INCHES), check)
    assert found.level == level


@given(tab=st.integers(30, 70))
def test_no_tab_that_hinges_have_is_flagged(tab: int) -> None:
    kind = replace(CUP_HINGE, tab=L(f"{tab / 10} mm"))
    assert not {one for one in checks(hung(kind)) if one.startswith("hinge cup")}


def test_a_shelf_at_the_height_of_a_hinge_meets_it() -> None:
    # the plate is 50 mm high: 4 in ± 0.98; a shelf whose front is 1/4 in back, from 3 1/2 to 4 1/4
    shelf = replace(SHELF, box=SHELF.box.moved("z", L("3 1/2 in")))
    found = named(hardware(with_part(hung(), shelf), INCHES), "hinge meets something")
    assert (found.level, found.part) == ("must fix", "Door")
    assert "meets Shelf" in found.what


def test_the_same_shelf_set_back_behind_the_hinge_does_not() -> None:
    # the hinge reaches 60 mm behind the door: 2.36 in
    back = replace(SHELF, box=replace(SHELF.box, front=L("2 3/8 in")).moved("z", L("3 1/2 in")))
    assert "hinge meets something" not in checks(with_part(hung(), back))


@settings(max_examples=25)
@given(height=st.integers(16, 16 * 34))
def test_a_shelf_meets_a_hinge_just_where_their_heights_overlap(height: int) -> None:
    bottom = L("1/16 in") * height
    build = with_part(hung(), replace(SHELF, box=SHELF.box.moved("z", bottom)))
    meets = any(bottom < item.box.top and bottom + L("3/4 in") > item.box.bottom for item in build.items)
    assert ("hinge meets something" in checks(build)) == meets


def test_a_screw_through_a_cup_is_found() -> None:
    # a screw from the door's edge at the height of its upper cup, 3/8 in behind its face
    block = Part(
        "strip", "Strip", "panel", OVER.stock, box("-11/16", "1/16", "-3/4", "0", "0", "36"), "z", "x"
    )
    joint, _ = face_screws(block, OVER, screw("#8 x 2"), 1)
    build = with_part(hung(at=("4", "18")), block)
    found = named(hardware(replace(build, joints=(*build.joints, joint)), INCHES), "hinge meets a screw")
    assert (found.level, found.part) == ("must fix", "Door")


def test_one_hinge_too_few_for_the_height() -> None:
    # 35 7/8 in takes two (common practice: under 40 in)
    found = named(hardware(hung(at=("18",)), INCHES), "too few hinges")
    assert (found.level, found.part) == ("must fix", "Door")
    tall = replace(OVER, box=replace(OVER.box, top=L("50 in")))
    assert named(hardware(hung(door=tall, at=("4", "46")), INCHES), "too few hinges").level == "look at"


def test_too_few_hinges_for_the_weight() -> None:
    # 48 × 35 7/8 in of MDF weigh more than the 8.9 kg that two hinges are meant for
    wide = replace(OVER, stock=sheet("MDF", "3/4"), box=replace(OVER.box, right=L("48 in")))
    found = named(hardware(hung(door=wide), INCHES), "too few hinges")
    assert "so heavy" in found.what
    assert "lb" in found.number


# Pins


def test_rows_counted_from_different_ends_are_not_level() -> None:
    found = named(hardware(pinned(other=raised(ROWS, L("1/4 in"))), INCHES), "pin rows not level")
    assert (found.level, found.number) == ("must fix", "1/4 in")


@settings(max_examples=20)
@given(off=st.integers(-12, 12))
def test_rows_are_level_only_where_they_are_the_same(off: int) -> None:
    build = pinned(other=raised(ROWS, L("1/16 in") * off))
    assert ("pin rows not level" in checks(build)) == (off != 0)


def test_rows_that_stop_lower_on_one_side_are_level_all_the_same() -> None:
    shorter = replace(ROWS, heights=ROWS.heights[:-4])
    assert hardware(pinned(other=shorter), INCHES) == ()


def test_a_shelf_between_the_rows_has_no_holes_behind_its_pins() -> None:
    build = pinned()
    up = L("1/2 in")
    items = tuple(replace(item, box=item.box.moved("z", up)) for item in build.items)
    shelf = build.part("shelf")
    moved = replace(instead(build, "shelf", box=shelf.box.moved("z", up)), items=items)
    found = [one for one in hardware(moved, INCHES) if one.check == "pins with nothing behind"]
    assert [one.level for one in found] == ["must fix"]
    assert "no hole" in found[0].what


def test_a_column_past_the_edge_has_nothing_behind_it() -> None:
    off = replace(ROWS, columns=(L("0 in"), L("12 in")))
    found = [
        one
        for one in hardware(pinned(rows=off, other=off), INCHES)
        if one.check == "pins with nothing behind"
    ]
    assert found
    assert "past its front edge" in found[0].what


def test_a_column_that_runs_into_a_notch_has_nothing_behind_it() -> None:
    build = pinned()
    side = build.part("side")
    notch = Notch(box("0", "3/4", "10", "14", "5", "7"))
    found = [
        one
        for one in hardware(instead(build, "side", features=(*side.features, notch)), INCHES)
        if one.check == "pins with nothing behind"
    ]
    assert [("into a notch" in one.what, one.level) for one in found] == [(True, "must fix")]


@pytest.mark.parametrize(
    ("depth", "check"),
    [("3/4", "pins with nothing behind"), ("23/32", "little wood behind pins"), ("11/16", None)],
)
def test_a_hole_as_deep_as_the_side_comes_through(depth: str, check: str | None) -> None:
    deep = replace(ROWS, depth=L(depth, "in"))
    assert checks(pinned(rows=deep, other=deep)) == ({check} if check else set())


def test_pins_in_a_thin_side_are_looked_at() -> None:
    build = pinned(rows=replace(ROWS, depth=L("1/4 in")), other=replace(ROWS, depth=L("1/4 in")))
    thin = replace(build.part("side"), box=replace(SIDE.box, left=L("3/8 in")))
    # the holes keep their place: only the wood behind them goes
    found = hardware(instead(build, "side", box=thin.box), INCHES)
    assert "pins in a thin part" in {one.check for one in found}


def test_holes_from_both_faces_of_a_divider_meet_where_they_are_too_deep() -> None:
    holes = tuple(
        Bore(face, (L("0 in"), L("2 in"), L("6 in")), L("5 mm"), L(depth, "in"), "shelf pin")
        for face, depth in (("left", "1/2"), ("right", "3/8"))
    )
    build = replace(CASE, parts=(SIDE.with_features(holes), *CASE.parts[1:]))
    # 1/2 + 3/8 − 3/4 = 1/8
    found = named(hardware(build, INCHES), "pin holes meet")
    assert (found.level, found.number) == ("look at", "1/8 in")


def test_a_shelf_an_inch_too_long_does_not_go_in() -> None:
    long = replace(SHELF, box=replace(SHELF.box, right=L("30 3/16 in")))
    found = named(hardware(pinned(shelf=long), INCHES), "shelf too long")
    assert (found.level, found.number) == ("must fix", "15/16 in")


@pytest.mark.parametrize(
    ("left", "right", "fit_to", "level"),
    [
        ("3/4", "29 1/4", "", "must fix"),  # no room at either end: it cannot be lifted in
        ("3/4", "29 1/4", "between the sides", "look at"),  # measured on the piece, and cut to that
        ("3/4", "29 3/16", "", "look at"),  # 1/16 in at one end: it may go in
        ("5/8", "29 1/4", "between the sides", "look at"),
    ],
)
def test_a_shelf_without_room_at_its_ends_does_not_go_in_and_one_with_little_may(
    left: str, right: str, fit_to: str, level: str
) -> None:
    tight = replace(SHELF, box=replace(SHELF.box, left=L(left, "in"), right=L(right, "in")), fit_to=fit_to)
    found = [one for one in hardware(pinned(shelf=tight), INCHES) if one.check == "shelf too long"]
    assert {one.level for one in found} == {level}


@pytest.mark.parametrize(("short", "falls"), [("1/16", False), ("3/16", False), ("1/4", True), ("1/2", True)])
def test_a_shelf_too_short_falls_off_its_pins(short: str, falls: bool) -> None:
    # a pin stands out 5/16 in; 3/16 short at one end leaves 1/8 on it, 1/4 leaves 1/16
    less = replace(SHELF, box=replace(SHELF.box, right=L("29 1/4 in") - L(short, "in")))
    assert ("shelf falls off its pins" in checks(pinned(shelf=less))) == falls


def test_a_shelf_that_reaches_far_over_its_pins_tips() -> None:
    near = replace(ROWS, columns=(L("2 in"), L("5 in")))
    # its middle lies 7 1/8 in back
    found = named(hardware(pinned(rows=near, other=near), INCHES), "shelf tips off its pins")
    assert found.level == "must fix"


def test_a_screw_beside_a_pin_hole_runs_into_it_and_one_down_its_middle_does_not() -> None:
    row = ROWS.heights[0]
    for aside, meets in (("0", False), ("1/8", True), ("1/2", False)):
        build = pinned()
        at = Point(L("13/16 in"), L("2 in") + L(aside, "in"), row)
        spec = screw("#6 x 5/8")
        made = Fastener(spec, at, at.moved("x", -spec.length), "left", "side", "side")
        item = Item("plate", "other", ("side",), box("3/4", "13/16", "2", "3", "5", "5 1/4"), (made,))
        found = checks(replace(build, items=(*build.items, item)))
        assert ("screw meets a pin hole" in found) == meets


def test_a_shelf_on_pins_counts_as_held_and_spans_from_pin_to_pin() -> None:
    build = pinned()
    assert not [one for one in fit(build, INCHES) if one.check == "nothing holds it"]
    span = span_of(build.part("shelf"), build)
    assert span is not None
    # 28 1/2 in between the sides, less 5/16 in of pin at each end
    assert (span.along, span.clear) == ("x", L("27 7/8 in"))


# What it stands on


def standing(*heights: str) -> Build:
    low = [Point(L(x, "in"), L("7 in"), FLOOR.box.bottom) for x in ("4", "26")]
    made = [
        casters(FLOOR, [spot], replace(CASTER, height=L(high, "in")))
        for spot, high in zip(low, heights, strict=True)
    ]
    items = tuple(item for one in made for item in one.items)
    return replace(CASE, items=items)


def test_casters_of_one_height_stand_level() -> None:
    assert hardware(standing("3", "3"), INCHES) == ()
    assert named(hardware(standing("3", "2 1/2"), INCHES), "does not stand level").number == "1/2\u00a0in"


def test_a_side_lower_than_the_casters_stands_on_the_floor() -> None:
    build = instead(standing("3", "3"), "side", box=replace(SIDE.box, bottom=L("-3 1/2 in")))
    found = named(hardware(build, INCHES), "does not stand on its feet")
    assert (found.part, found.number) == ("Side", "1/2\u00a0in")


def test_a_casters_screws_that_come_through_are_found() -> None:
    (item, other) = standing("3", "3").items
    long = tuple(
        replace(one, spec=screw("#10 x 1"), tip=one.head.moved("z", L("1 in"))) for one in item.fasteners
    )
    # 1 in, 1/16 of it in the plate: 15/16 in 3/4
    build = replace(CASE, items=(replace(item, fasteners=long), other))
    found = [one for one in fastening(build, INCHES) if one.check == "fastener comes through"]
    assert [(one.level, one.part, one.number) for one in found] == [("must fix", "Bottom", "3/16\u00a0in")]


def test_a_caster_that_swings_past_the_outside_is_looked_at() -> None:
    fitted = casters(FLOOR, [Point(L("1 in"), L("7 in"), FLOOR.box.bottom)], CASTER)
    # 1 3/4 in of swing, 1 in from the outside
    found = named(hardware(replace(CASE, items=fitted.items), INCHES), "caster stands out")
    assert (found.level, found.number) == ("look at", "3/4\u00a0in")


def test_an_insert_in_a_panel_comes_out_on_top_and_in_a_post_does_not() -> None:
    post = Part("post", "Post", "board", POST, size("3 1/2", "3 1/2", "20"), "z", "y")
    for part, caught in ((post, False), (TOP, True)):
        ((_, holes),) = levelling_feet(part, [middle_below(part)], LEVELLING_FOOT).bored
        build = Build("One", (part.with_features(holes),))
        assert ("hole comes through" in checks(build)) == caught


def test_hardware_in_a_part_that_it_is_not_fixed_to_is_found() -> None:
    item = Item("magnetic catch", "catch", ("side",), box("3/4", "1 1/4", "5", "6", "0", "2"))
    found = named(hardware(replace(CASE, items=(item,)), INCHES), "catch meets something")
    # the floor is 3/4 in thick, the catch 1/2 in wide: least along left to right
    assert (found.number, "meets Bottom" in found.what) == ("1/2\u00a0in", True)


def test_hardware_in_a_notch_cut_for_it_is_not() -> None:
    item = Item("magnetic catch", "catch", ("side",), box("3/4", "1 1/4", "5", "6", "0", "2"))
    notched = FLOOR.with_features([Notch(box("0", "1", "4", "8", "0", "3/4"))])
    build = replace(CASE, parts=(SIDE, OTHER, notched, TOP), items=(item,))
    assert hardware(build, INCHES) == ()


def test_two_pieces_of_hardware_in_one_place_are_found() -> None:
    build = hung()
    item = Item("magnetic catch", "catch", ("side-2",), build.items[0].box)
    assert "hinge meets something" in checks(replace(build, items=(*build.items, item)))


def test_a_screw_of_hardware_is_called_by_what_it_holds() -> None:
    (one,) = casters(FLOOR, [middle_below(FLOOR)], CASTER).items
    first = one.fasteners[0]
    through = replace(first, tip=replace(first.tip, z=FLOOR.box.top + L("1/4 in")))
    long = replace(through, spec=replace(first.spec, length=abs(through.tip.z - first.head.z)))
    build = Build("On casters", (FLOOR,), items=(replace(one, fasteners=(long,)),))
    found = named(fastening(build, INCHES), "fastener comes through")
    assert " of the caster on " in found.what
    assert f"through {FLOOR.name}" not in found.what
    assert found.number == "1/4\u00a0in"
