"""Twelve traps in public tables of wood and woodworking, each walked into on purpose. Sources beside each."""

from dataclasses import replace
from fractions import Fraction
from math import atan, degrees

import pytest

from plankit import Plan, stock
from plankit.build import equilibrium_moisture, movement
from plankit.checks import check, longest_span, stability
from plankit.checks.stability import ESTIMATE, in_scope
from plankit.parts import Mitre, saw_setting
from plankit.reference import (
    dressed,
    hardwood_thickness,
    plywood,
    screw_pull,
    screw_withdrawal,
    species,
    wood_screw,
)
from plankit.stock.boards import board_feet
from plankit.units import L, Mass
from tests.plan.sorting import stand
from tests.plan.test_leaning import planter
from tests.published import published

F = Fraction
COEFFICIENTS = {row["species"]: row for row in published("coefficients")}


def from_shrinkage(name: str, start: int) -> float:
    """C = (S/100/M) ÷ (1 − (S/100)(M − 10)/M), the width being that at 10 % (derived; tangential)."""
    share = float(COEFFICIENTS[name]["shrink_tangential_pct"]) / 100
    return share / start / (1 - share * (start - 10) / start)


@pytest.mark.parametrize(
    ("name", "group", "own"), [("Oak, northern red", 0.00369, 0.00304), ("Oak, white", 0.00365, 0.00376)]
)
def test_trap_1_red_and_white_oak_move_as_their_commercial_group(name: str, group: float, own: float) -> None:
    # Wood Handbook table 13-5 prints the group's coefficient; the species' own shrinkage gives another
    wood = species(name)
    assert float(wood.movement_tangential) == group
    assert from_shrinkage(name, 30) == pytest.approx(own, abs=5e-6)


@pytest.mark.parametrize(
    "name", ["Cedar, western redcedar", "Cedar, northern white", "Redwood, old-growth", "Cherry, black"]
)
def test_trap_2_some_cedars_and_redwood_begin_to_shrink_at_22_percent(name: str) -> None:
    wood = float(species(name).movement_tangential)
    other, start = (30, 22) if name != "Cherry, black" else (22, 30)
    assert from_shrinkage(name, start) == pytest.approx(wood, abs=1.1e-5)
    assert abs(from_shrinkage(name, other) - wood) > 5e-5


def test_trap_3_shrinkage_is_from_green_to_ovendry_and_spread_over_30_percent() -> None:
    # cherry shrinks 7.1 % in all; 20 in between 30 and 70 % humidity moves by a fraction of that, not by S × change
    change = equilibrium_moisture(F(70, 100)) - equilibrium_moisture(F(30, 100))
    moved = movement(stock.lumber("1x12", species="black cherry"), L("20 in"))
    shrinkage = F(COEFFICIENTS["Cherry, black"]["shrink_tangential_pct"]) / 100
    assert float(moved.inches) == pytest.approx(float(20 * shrinkage * change / 30), rel=0.06)
    assert moved.inches * 25 < 20 * shrinkage * change


def test_trap_4_withdrawal_that_breaks_is_5_and_a_half_times_what_may_be_counted_on() -> None:
    # 15,700 G² D L (Wood Handbook eq. 8-10) over 2,850 G² D L (NDS 12.2) = 5.51, for any wood and screw
    for wood, gauge in (("sugar maple", 8), ("eastern white pine", 12)):
        gravity = species(wood).specific_gravity
        assert gravity is not None
        sizes = wood_screw(gauge).shank, L("3/4 in")
        ratio = screw_withdrawal(gravity, *sizes).lb / screw_pull(gravity, *sizes).lb
        assert ratio == F(15_700, 2_850)
        assert float(ratio) == pytest.approx(5.5, abs=0.02)


def test_trap_5_board_feet_go_by_nominal_size_and_weight_by_dressed_size() -> None:
    # an 8 ft 1x6 is 4 board feet (Engineering Aid Basic ch. 6), but 3/4 × 5 1/2 in of it weigh something
    board = stock.lumber("1x6", species="northern red oak")
    assert board_feet("1x6", L("8 ft")) == 4
    assert board_feet("3/4x6", L("8 ft")) == 4  # under an inch counts as an inch
    dressed_volume = F(3, 4) * F(11, 2) * 96
    density = 62.4 * 0.63 * 1.12  # lb/ft³, eq. 4-14
    assert float(board.weight(L("8 ft")).lb) == pytest.approx(density * float(dressed_volume) / 1728, rel=0.005)


def test_trap_6_five_quarters_differ_between_softwood_and_hardwood() -> None:
    # PS 20: 1 in; hardwood grading rules: 1 1/16 in (fairly sure, hence only that it is more)
    assert dressed("5/4x6").thickness == L("1 in")
    assert hardwood_thickness("5/4").surfaced > dressed("5/4x6").thickness


def test_trap_7_joists_lose_three_quarters_and_timbers_a_half() -> None:
    # PS 20: 8 in wide and wider less 3/4, 5 in thick and thicker less 1/2
    for nominal, width in (("2x6", "5 1/2"), ("2x8", "7 1/4"), ("2x12", "11 1/4"), ("6x6", "5 1/2"), ("8x8", "7 1/2")):
        assert dressed(nominal).width == L(width, "in"), nominal


def test_trap_8_a_panel_s_label_is_not_its_thickness() -> None:
    # PS 1-19: 23/32 ± 1/32; a drawer's groove is as wide as the sheet measures
    label = plywood("23/32")
    assert (label.least.inches, label.most.inches) == (F("0.6875"), F("0.75"))
    thin = stock.sheet("plywood", "1/4", measured="7/32")
    half = stock.sheet("plywood", "1/2")
    plan = Plan("Tray")
    left = plan.panel("Side", half, left=0, front=0, back="18", bottom=0, top="8")
    made = plan.drawer("Drawer", half, between=[left, plan.mirror(left, across="20")], bottom=0, top="8", thin=thin)
    grooves = [one for part in made for one in part.part.features if type(one).__name__ == "Groove"]
    assert [groove.cut.extent("z") for groove in grooves] == [L("7/32 in")] * 3


@pytest.mark.parametrize("row", [r for r in published("compound_angles") if r["id"].startswith("AN-U3")])
def test_trap_9_the_wider_piece_gets_the_smaller_setting(row: dict[str, str]) -> None:
    """Two pieces lie flat and meet in a square corner: 3 1/2 wide and 5 wide, mitred corner to corner."""
    plan = Plan("Corner")
    pieces = {}
    for wide, size in (("narrow", "3 1/2"), ("wide", "5")):
        sheet = stock.sheet("plywood", "3/4")
        ends = (
            {"left": 0, "right": "30", "front": 0, "back": size}
            if wide == "narrow"
            else {"left": 0, "right": size, "front": 0, "back": "30"}
        )
        pieces[wide] = plan.panel(wide.title(), sheet, **ends, bottom=0)
    settings = {}
    for wide, other in (("narrow", "5"), ("wide", "3 1/2")):
        end, short = ("left", "back") if wide == "narrow" else ("front", "right")
        settings[wide] = saw_setting(pieces[wide].part, Mitre(end, short, L(other, "in"))).miter  # type: ignore[arg-type]
    assert settings["wide"] < settings["narrow"]
    assert float(settings["wide"].degrees) == pytest.approx(degrees(atan(3.5 / 5)), abs=1e-6)
    assert "on w2 piece 34.992; on w1 piece 55.008" in row["answer"]
    assert float(settings["narrow"].degrees) == pytest.approx(55.008, abs=0.005)


def test_trap_10_a_side_s_lean_from_upright_is_a_crown_s_spring_from_the_wall() -> None:
    # 38° from upright: 31.62 / 33.86, as crown tables print for a spring of 38°; 38° from level is another cut
    for tilt, wanted in (("38", (31.62, 33.86)), ("52", (38.24, 25.81))):
        _, sides = planter(tilt)
        cut = next(one for one in sides[0].part.features if type(one).__name__ == "CompoundMitre")
        found = saw_setting(sides[0].part, cut)  # type: ignore[arg-type]
        assert (float(found.miter.degrees), float(found.tilt.degrees)) == pytest.approx(wanted, abs=0.006)


def test_trap_11_printed_shelf_spans_are_rounded_down_but_for_one() -> None:
    # AWS 2009: at 50 psf, 3/4 in hardwood-faced plywood of 1.8 million psi spans 45.979 in and is printed as 46
    spans = {row["id"]: row for row in published("shelves")}
    grace = spans["SH-A06"]
    found = longest_span(F(50), L("3/4 in"), F(1_800_000))
    assert int(found.inches) == int(grace["answer"]) - 1
    assert int(found.inches + F(3, 100)) == int(grace["answer"])
    # and one that must not be rounded to the nearest: 49.712 is 49
    oak = longest_span(F(40), L("3/4 in"), F(1_820_000))
    assert int(oak.inches) == int(spans["SH-A09"]["answer"]) == 49
    assert round(oak.inches) == 50


def test_trap_12_tipping_is_an_estimate_and_never_said_to_comply() -> None:
    # 16 CFR 1261 holds for clothing storage by height, mass and volume together; an estimate is no test
    (limits,) = {tuple(row["value"] for row in published("tip_over") if row["item"].startswith("scope"))}
    assert [text.split(" (")[0] for text in limits] == ["at least 27 in", "at least 30 lb", "at least 3.2 ft3"]
    sizes = L("27 in"), Mass.of_pounds(30), F("3.2")
    assert in_scope(*sizes)
    assert not in_scope(sizes[0] - L("1/16 in"), *sizes[1:])
    plan, *_ = stand()
    build = plan.build()
    tall = replace(build, order=(tuple(part.id for part in build.parts),))
    said = [one for one in stability(tall, plan.notation) if one.source]
    assert said
    assert all(ESTIMATE in one.source for one in said)
    assert "no claim of compliance" in ESTIMATE
    everything = check(tall, plan.shop, plan.notation)
    assert not any("complies" in f"{one.what} {one.remedy} {one.source}".lower() for one in everything)
