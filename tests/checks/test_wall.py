"""Hung on a wall: screws that reach the studs, what they hold, cleats that hook, and the drawing of the wall."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit import Plan, stock
from plankit.build.wall import STUD_SPACINGS, Wall, hooked
from plankit.checks import Load, check, wall
from plankit.checks.fit import overlaps
from plankit.checks.strength import usual_loads
from plankit.checks.wall import COUNTED, shares
from plankit.drawing.figures_wall import wall_drawing
from plankit.drawing.primitives import Line, Mark, Text
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.parts import Bevel, Bore, solid
from plankit.plan.figures import wall_pictures
from plankit.plan.handles import PartHandle
from plankit.plan.jupyter import Put
from plankit.plan.lists import hardware_list
from plankit.plan.walls import Cleats
from plankit.units import Angle, L, Length, Mass
from tests.parts.one_of_each import box

PLY = stock.sheet("plywood", "3/4")
OAK = stock.lumber("1x4", species="red oak")


def shelf_box(width: str = "36", depth: str = "10") -> tuple[Plan, dict[str, PartHandle]]:
    """A box 24 high with a shelf, open at front and back."""
    plan = Plan("Wall box")
    left = plan.panel("Side", PLY, left=0, front=0, back=depth, bottom=0, top="24")
    right = plan.mirror(left, across=width)
    level = {"left": left.right, "right": right.left, "front": 0, "back": depth}
    rows = {name: plan.panel(name.title(), PLY, **level, bottom=at)
            for name, at in (("bottom", "0"), ("shelf", "12"), ("top", "23 1/4"))}  # fmt: skip
    plan.screw([*rows.values()], through=[left, right], screws="#8 x 2")
    return plan, {"left": left, "right": right, **rows}


def railed(screws: str = "#10 x 3", each: int = 2, first: str = "8", **more: Any) -> Plan:
    """The box with a rail of 3/4 × 3 1/2 under its top, screwed to the studs."""
    plan, parts = shelf_box(**more)
    rail = plan.board("Rail", OAK, runs="left-right", wide="up", left=parts["left"].right,
                      right=parts["right"].left, back=parts["left"].back, top=parts["top"].bottom)  # fmt: skip
    plan.glue(rail, parts["top"])
    plan.wall(first=first)
    plan.wall_screw(rail, screws=screws, each=each)
    return plan


def cleated(**more: Any) -> tuple[Plan, Cleats]:
    plan, parts = shelf_box()
    made = plan.cleats("Cleat", OAK, onto=[parts["bottom"], parts["top"]], left=0, right="36", top="24", **more)
    plan.wall(first="8")
    plan.wall_screw(made.wall, each=2)
    return plan, made


def said(plan: Plan, *loads: Load) -> list[Finding]:
    return list(wall(plan.build(), plan.notation, loads))


@pytest.mark.parametrize(
    ("low", "high", "middles"),
    [("0", "36", [8, 24]), ("8", "24", [8, 24]), ("9", "23", []), ("-10", "0", [-8])],
)
def test_studs_stand_every_16_inches(low: str, high: str, middles: list[int]) -> None:
    found = Wall(L("16 in"), L("8 in"), L("1/2 in")).studs(L(low, "in"), L(high, "in"))
    assert [one.inches for one in found] == middles


@given(st.integers(0, 3), st.integers(0, 400), st.integers(-400, 400), st.integers(0, 800))
def test_a_stud_is_never_missed_and_never_made_up(spacing: int, first: int, low: int, wide: int) -> None:
    stands = Wall(STUD_SPACINGS[spacing], L(f"{first} mm"), L("1/2 in"))
    start, end = Length.of_mm(low), Length.of_mm(low + wide)
    found = stands.studs(start, end)
    assert all(start <= one <= end for one in found)
    assert all((one - stands.first).mm % stands.apart.mm == 0 for one in found)
    assert abs(len(found) - wide / stands.apart.mm) <= 1


def test_two_screws_go_into_every_stud_that_the_rail_passes() -> None:
    plan = railed()
    build = plan.build()
    assert build.wall is not None
    # from 3/4 to 35 1/4, studs at 8 and 24; quarter points of 3 1/2 under 23 1/4: 19 3/4 + 7/8 and + 2 5/8
    assert sorted((one.at.x.inches, one.at.z.inches) for one in build.wall.screws) == [
        (x, Fraction(z)) for x in (8, 24) for z in ("20.625", "22.375")
    ]
    # 3 in less 3/4 of rail and 1/2 of board
    assert {one.into for one in build.wall.screws} == {L("1 3/4 in")}
    holes = [one for one in build.part("rail").features if isinstance(one, Bore)]
    assert len(holes) == 4
    assert all(hole.depth is None and hole.countersink for hole in holes)


def test_the_wall_s_screws_are_on_the_hardware_list() -> None:
    (row,) = (row for row in hardware_list(railed().draft()) if "into a stud" in str(row["item"]))
    assert row["count"] == 4
    assert str(row["item"]).startswith("#10 × 3 in wood screw")


@pytest.mark.parametrize(
    ("screws", "level", "number"),
    [
        ("#10 x 2 3/4", None, ""),  # 2 3/4 − 3/4 − 1/2 = 1 1/2, just enough
        ("#10 x 2 1/2", "look at", "1\u00a01/4\u00a0in"),  # more than 6 × 0.190 = 1.14 in, less than 1 1/2
        ("#10 x 2 1/4", "must fix", "1\u00a0in"),  # less than 6 diameters
        ("#10 x 1", "must fix", "it does not reach the stud"),
    ],
)
def test_a_screw_lies_an_inch_and_a_half_in_the_stud(screws: str, level: str | None, number: str) -> None:
    found = [one for one in said(railed(screws)) if one.check == "too little in the stud"]
    assert [(one.level, one.number) for one in found] == ([(level, number)] if level else [])
    assert all("2\u00a03/4\u00a0in" in one.remedy for one in found)


def test_a_screw_that_comes_out_behind_the_stud() -> None:
    # 5 − 3/4 − 1/2 = 3 3/4, and the stud is 3 1/2 deep
    (found,) = (one for one in said(railed("#12 x 5")) if one.check == "longer than the stud is deep")
    assert found.number == "1/4\u00a0in"


def test_one_stud_is_something_to_look_at_and_two_are_not() -> None:
    assert "one stud only" in {one.check for one in said(railed(width="16"))}
    assert "one stud only" not in {one.check for one in said(railed(width="28"))}


def test_no_stud_behind_it_is_refused() -> None:
    with pytest.raises(PlanError, match="no stud stands behind it"):
        railed(width="16", first="0.5")


def test_a_wall_that_holds_nothing_must_be_fixed() -> None:
    plan, _ = shelf_box()
    plan.wall(first="8")
    (found,) = said(plan)
    assert (found.level, found.check) == ("must fix", "nothing holds it to the wall")
    plan, parts = shelf_box()
    with pytest.raises(PlanError, match="nothing is known of the wall"):
        plan.wall_screw(parts["left"])


def test_what_one_screw_takes_by_hand() -> None:
    """100 lb, 6 in before the wall, on one screw 20 in over the lower edge: #10 in a stud of G 0.42.

    sideways  K D² = 23.17 × 4.826² = 539.6 N = 121.3 lb: 100 / 121.3 = 0.824
    pulled    100 × 6 / 20 = 30 lb, against 2,850 × 0.42² × 0.190 × 1.75 in = 167.2 lb: 0.179
    """
    build = railed().build()
    assert build.wall is not None
    (screw, *_) = build.wall.screws
    alone = replace(build.wall, screws=(replace(screw, at=replace(screw.at, z=L("20 in"))),))
    found = shares(build, alone, Mass.of_pounds(100), L("6 in"), Fraction(1))
    assert float(found.sideways) == pytest.approx(0.8244, abs=5e-4)
    assert float(found.pulled) == pytest.approx(0.1795, abs=5e-4)
    half = shares(build, alone, Mass.of_pounds(100), L("6 in"), COUNTED)
    assert half.sideways == found.sideways * 2


def test_screws_beyond_their_table_value_must_be_fixed() -> None:
    # four #10: 4 × 121.3 = 485 lb sideways at most, and the pull comes on top
    heavy = Load("shelf", "an anvil", middle=Mass.of_pounds(600))
    (found,) = (one for one in said(railed(), heavy) if one.check == "too much for its wall screws")
    assert found.level == "must fix"
    assert "local building codes" in found.source
    light = Load("shelf", "spools", Fraction(2)), Load("top", "hats", Fraction(2)), Load("bottom", "jars", Fraction(2))
    assert [(one.level, one.check) for one in said(railed(), *light)] == [("for information", "hangs on the wall")]


def test_a_load_that_nobody_named_is_something_to_look_at() -> None:
    # three levels of 2.4 ft² at 40 psf are nearly 290 lb: more than half of the table's value
    (found,) = (one for one in said(railed()) if one.check == "too much for its wall screws")
    assert found.level == "look at"
    assert "plan.load" in found.remedy


def test_screws_that_hold_far_less_than_what_commonly_lies_there_must_be_fixed() -> None:
    # 313 lb on screws counted on for 223 is 1.4 times too much; at 80 psf one of three levels adds 40 × 2.4 = 96 lb
    books = Load("shelf", "books", Fraction(80))
    (found,) = (one for one in said(railed(), books) if one.check == "too much for its wall screws")
    assert found.level == "must fix"
    assert "hold 223" in found.what


@given(st.integers(1, 4), st.integers(0, 500))
@settings(max_examples=20, deadline=None)
def test_more_screws_never_hold_less(each: int, pounds: int) -> None:
    def ratio(many: int) -> Fraction:
        build = railed(each=many).build()
        assert build.wall is not None
        return shares(build, build.wall, Mass.of_pounds(pounds), L("6 in"), COUNTED).whole

    assert ratio(each + 1) <= ratio(each)


def test_every_wall_finding_tells_the_reader_to_look_for_wires_and_codes() -> None:
    (found,) = said(railed(), *(Load(one, "little", Fraction(1)) for one in ("shelf", "top", "bottom")))
    assert "wires and pipes" in found.what
    assert "local building code" in found.remedy


def test_what_hangs_on_a_wall_carries_no_person() -> None:
    """The top is 24 in over the lower edge: low enough to sit on, were it a bench."""
    plan, _ = shelf_box()
    assert "a person" in {load.what for load in usual_loads(plan.build())}
    assert "a person" not in {load.what for load in usual_loads(railed().build())}


def test_a_piece_on_the_floor_has_no_wall_findings() -> None:
    plan, _ = shelf_box()
    assert said(plan) == []
    assert wall_pictures(plan.draft()) == {}


# Cleats


@pytest.mark.parametrize(("angle", "back"), [("45 deg", 0.75), ("30 deg", 0.4330)])
def test_cleats_are_sawn_back_by_thickness_times_tangent(angle: str, back: float) -> None:
    pair = hooked(box("0", "36", "10", "10 3/4", "20 1/2", "24"), Angle.read(angle))
    assert float(pair.on_piece.setback.inches) == pytest.approx(back, abs=1e-4)
    assert pair.on_piece.setback == pair.on_wall.setback
    # the wall's cleat reaches up into the saw cut of the other
    assert pair.wall.top - pair.piece.bottom == pair.on_piece.setback
    assert pair.wall.extent("z") == pair.piece.extent("z")


@pytest.mark.parametrize("angle", ["45 deg", "30 deg"])
def test_cleats_lie_on_each_other_and_do_not_overlap(angle: str) -> None:
    plan, made = cleated(angle=angle)
    build = plan.build()
    assert not overlaps(build, plan.notation)
    # let down by a sixteenth the piece would run into the wall's cleat, all along the slope: they touch
    piece, lower = (solid(one.part) for one in (made.piece, made.wall))
    assert (piece ^ lower).volume() < 1.0
    down = piece.translate([0.0, 0.0, -1.5875])
    assert (down ^ lower).volume() > 36 * 25.4 * 0.75 * 25.4 * 1.0


def test_the_piece_cannot_come_off_the_wall_without_being_lifted() -> None:
    _, made = cleated()
    piece, lower = (solid(one.part) for one in (made.piece, made.wall))
    forward, up = piece.translate([0.0, -10.0, 0.0]), piece.translate([0.0, -10.0, 20.0])
    assert (forward ^ lower).volume() > 100.0
    assert (up ^ lower).volume() < 1.0


def test_the_sawn_edges_face_each_other() -> None:
    _, made = cleated()
    (on_piece,) = (one for one in made.piece.part.features if isinstance(one, Bevel))
    (on_wall,) = (one for one in made.wall.part.features if isinstance(one, Bevel))
    assert (on_piece.edge, on_piece.short, on_wall.edge, on_wall.short) == ("bottom", "front", "top", "back")


def test_a_spacer_as_thick_as_the_cleats_keeps_the_piece_upright() -> None:
    plan, made = cleated()
    assert made.spacer is not None
    assert (made.spacer.front, made.spacer.back) == (made.wall.front, made.wall.back)
    assert made.spacer.bottom == L("0 in")
    assert not [one for one in check(plan.build(), plan.shop, plan.notation) if one.check == "nothing holds it"]
    assert cleated(spacer=False)[1].spacer is None


@pytest.mark.parametrize("angle", ["5 deg", "80 deg"])
def test_cleats_that_would_not_hook_are_refused(angle: str) -> None:
    with pytest.raises(PlanError, match="do not hook"):
        cleated(angle=angle)


# The drawing


def test_the_wall_is_drawn_with_its_studs_and_every_screw() -> None:
    plan, made = cleated()
    build = plan.build()
    figure = wall_drawing(build, plan.notation)
    assert build.wall is not None
    marks = [one for one in figure.items if isinstance(one, Mark) and one.kind == "screw"]
    assert len(marks) == len(build.wall.screws) == 4
    middles = [one for one in figure.items if isinstance(one, Line) and one.kind == "centre"]
    # 16 in apart: at −8, 8, 24 and 40, half a space beyond the piece on either side
    assert len(middles) == 4
    words = {one.text for one in figure.items if isinstance(one, Text)}
    assert {"16", "8", "24"} <= words
    assert made.wall.name in figure.description
    assert "Find yours first" in " ".join(words)


def test_each_screw_is_drawn_on_the_middle_of_a_stud() -> None:
    plan, _ = cleated()
    figure = wall_drawing(plan.build(), plan.notation)
    middles = {round(one.points[0][0], 3) for one in figure.items if isinstance(one, Line) and one.kind == "centre"}
    assert all(round(one.at[0], 3) in middles for one in figure.items if isinstance(one, Mark) and one.kind == "screw")


def test_the_picture_of_the_wall_goes_on_the_page() -> None:
    plan, _ = cleated()
    assert list(wall_pictures(plan.draft())) == ["wall"]


def test_a_piece_on_no_wall_is_not_drawn_on_one() -> None:
    plan, _ = shelf_box()
    with pytest.raises(ValueError, match="screwed to no wall"):
        wall_drawing(plan.build(), plan.notation)


@pytest.mark.parametrize("inches", ["1/4", "7 3/4"])
def test_moving_the_piece_along_the_wall_moves_its_screws(inches: str) -> None:
    one, other = railed(first="8").build(), railed(first=str(L("8 in").inches + L(inches, "in").inches)).build()
    assert one.wall is not None
    assert other.wall is not None
    assert min(a.at.x.mm for a in other.wall.screws) - min(a.at.x.mm for a in one.wall.screws) == L(inches, "in").mm


def test_only_what_lies_against_the_wall_is_screwed_to_it() -> None:
    """A shelf 3/4 in behind the front of the box's back edge, or the cleat that must come off, is refused."""
    plan, parts = shelf_box()
    plan.wall(first="8")
    rail = plan.board("Rail", OAK, runs="left-right", wide="up", left=parts["left"].right,
                      right=parts["right"].left, front=0, top=parts["top"].bottom)  # fmt: skip
    with pytest.raises(PlanError, match=r"its back stands .* from the wall"):
        plan.wall_screw(rail)
    plan, made = cleated()
    with pytest.raises(PlanError, match="it is the piece's cleat"):
        plan.wall_screw(made.piece)
    with pytest.raises(PlanError, match="no stud takes so many screws"):
        plan.wall_screw(made.wall, each=99)


def test_a_cleat_that_nobody_screws_to_the_wall_must_be_fixed() -> None:
    plan, _ = cleated()
    assert "cleat not screwed to the wall" not in {one.check for one in said(plan)}
    plan, parts = shelf_box()
    plan.cleats("Cleat", OAK, onto=[parts["bottom"], parts["top"]], left=0, right="36", top="24")
    assert [(one.level, one.check) for one in said(plan)] == [("must fix", "cleat not screwed to the wall")]


def test_screws_to_the_wall_show_nothing_by_themselves() -> None:
    plan, made = cleated()
    assert isinstance(plan.wall_screw(made.wall), Put)
