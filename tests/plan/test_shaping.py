"""What can be done to a part beyond a hole and a corner: each verb in one line, and what it refuses."""

from fractions import Fraction
from math import pi

import pytest

from plankit import stock
from plankit.errors import PlanError
from plankit.parts import (
    Bevel,
    Bore,
    Chamfer,
    CompoundMitre,
    Groove,
    LeftOn,
    Mitre,
    Roundover,
    points_of,
    volume,
)
from plankit.plan import Plan
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")
RAIL = stock.lumber("1x4", species="Douglas-fir")
POST = stock.lumber("4x4", species="loblolly pine")
CUBIC_INCH = Fraction(254, 10) ** 3


@pytest.fixture
def plan():
    return Plan("Potting cabinet")


@pytest.fixture
def side(plan):
    """14 in deep, 30 in high; the grain runs up."""
    return plan.panel("Side", PLY, left=0, front=0, back="14", bottom=0, top="30")


@pytest.fixture
def rail(plan):
    """24 in long, 3 1/2 in high, 3/4 in deep."""
    return plan.board("Rail", RAIL, runs="left-right", wide="up", left=0, right="24", front=0, bottom=0)


def taken(handle) -> Fraction:
    x, y, z = (size.inches for size in handle.part.box.size)
    return x * y * z - volume(handle.part) / CUBIC_INCH


def test_a_mitre_is_given_by_the_saw_s_angle(rail):
    rail.mitre("left", short="top", angle="35°")
    (cut,) = rail.part.features
    assert isinstance(cut, Mitre)
    assert float(cut.setback.inches) == pytest.approx(2.4507, abs=1e-4)  # 3 1/2 × tan 35° = 3 1/2 × 0.70021


def test_a_compound_mitre_is_given_by_what_it_takes_off_two_faces(rail):
    rail.compound_mitre("right", bottom="2", front="1/2")
    (cut,) = rail.part.features
    assert isinstance(cut, CompoundMitre)
    assert points_of(rail.part) == (L("24 in"), L("21 1/2 in"))  # 24 − 2 − 1/2


def test_a_compound_mitre_is_given_by_the_saw_s_two_settings(rail):
    # the widely printed pair for a moulding that springs 38° from the wall, in a square corner
    rail.compound_mitre("left", short=("front", "bottom"), miter="31.62°", bevel="33.86°")
    (cut,) = rail.part.features
    assert float(cut.setback.inches + cut.also_setback.inches) == pytest.approx(
        3.5 * 0.61566 + 0.75 * 0.78801,
        abs=1e-3,  # sin 38° and cos 38°, of the width and of the thickness
    )


def test_a_bevel_is_given_by_the_blade_s_tilt(rail):
    rail.bevel("top", short="front", angle=45)
    assert rail.part.features == (Bevel("top", "front", L("3/4 in")),)
    rail.bevel("bottom", short="front", setback="1/4")
    # two triangles of 3/4 × 3/4 and 3/4 × 1/4
    assert taken(rail) == 24 * (Fraction(9, 32) + Fraction(3, 32))


def test_a_dado_stops_where_it_is_told_to(side):
    side.dado("right", width="3/4", depth="1/4", bottom="10", stops={"front": "1/2"})
    (cut,) = side.part.features
    assert isinstance(cut, Groove)
    assert (cut.cut.front, cut.cut.back) == (L("1/2 in"), L("14 in"))
    assert (cut.cut.bottom, cut.cut.top) == (L("10 in"), L("10 3/4 in"))
    assert taken(side) == Fraction(3, 4) * Fraction(1, 4) * Fraction(27, 2)


def test_a_groove_stops_at_both_ends(side):
    side.groove("right", width="1/4", depth="1/4", front="1", stops={"top": "2", "bottom": "3"})
    assert taken(side) == Fraction(1, 16) * 25  # 30 − 2 − 3


def test_a_rabbet_runs_along_an_edge(side):
    side.rabbet("right", along="back", width="1/4", depth="3/8", reason="for the back")
    (cut,) = side.part.features
    assert (cut.cut.front, cut.cut.back, cut.cut.left) == (L("13 3/4 in"), L("14 in"), L("3/8 in"))


def test_a_notch_in_the_middle_of_an_edge(side):
    side.notch_edge("front", depth="1", width="2", bottom="6")
    assert taken(side) == 2 * 1 * Fraction(3, 4)
    cut = side.part.features[0].cut
    assert (cut.bottom, cut.top, cut.back) == (L("6 in"), L("8 in"), L("1 in"))
    side.notch_edge("top", depth="1", width="3", back="2")
    assert (side.part.features[1].cut.front, side.part.features[1].cut.back) == (L("9 in"), L("12 in"))


def test_a_divider_is_notched_round_two_rails_and_one_is_traced(plan, side):
    low = plan.board("Low rail", RAIL, runs="left-right", wide="up", left="-5", right="5", front=0, bottom=0)
    high = plan.board("High rail", RAIL, runs="left-right", wide="up", left="-5", right="5", front=0, top="30")
    side.notch_round(low, clearance="1/16").notch_round(high, trace=True)
    assert [notch.trace for notch in side.part.features] == [False, True]
    # 3 1/2 + 1/16 by 3/4 + 1/16, and 3 1/2 by 3/4
    wanted = (Fraction(57, 16) * Fraction(13, 16) + Fraction(7, 2) * Fraction(3, 4)) * Fraction(3, 4)
    assert taken(side) == wanted


def test_a_row_of_holes_is_counted_from_one_face(side):
    side.bore_row("right", "1/4", depth="3/8", runs="up", count=4, every="1 1/4", bottom="6", front="2")
    places = [hole.at[2] for hole in side.part.features]
    assert places == [L("6 in"), L("7 1/4 in"), L("8 1/2 in"), L("9 3/4 in")]
    assert {hole.at[1] for hole in side.part.features} == {L("2 in")}


def test_a_row_counted_from_above_goes_down(side):
    side.bore_row("right", "5 mm", depth="10 mm", runs="up", count=3, every="32 mm", top="6", back="37 mm")
    assert [hole.at[2] for hole in side.part.features] == [L("24 in") - L("32 mm") * n for n in range(3)]
    assert side.part.features[0].at[1] == L("14 in") - L("37 mm")


def test_a_grid_of_holes(side):
    side.bore_grid(
        "right",
        "1/4",
        depth="3/8",
        counts={"up": 3, "front-back": 2},
        every={"up": "2", "front-back": "9"},
        bottom="6",
        front="2",
        use="shelf pin",
    )
    holes = side.part.features
    assert all(isinstance(hole, Bore) and hole.use == "shelf pin" for hole in holes)
    assert {(hole.at[1], hole.at[2]) for hole in holes} == {
        (L(y, "in"), L(z, "in")) for y in (2, 11) for z in (6, 8, 10)
    }


def test_all_edges_of_a_face_are_rounded_in_one_line(side):
    side.roundover("1/4", around="right")
    assert len(side.part.features) == 4
    assert all(isinstance(one, Roundover) for one in side.part.features)
    plain = (1 - pi / 4) * 0.25**2 * 88  # 2 × (30 + 14)
    assert float(taken(side)) == pytest.approx(plain - 4 * 0.25**3 * (5 / 3 - pi / 2), rel=1e-9)


def test_single_edges_are_chamfered(rail):
    rail.chamfer("1/8", edges="top-front front-bottom")
    assert rail.part.features == (
        Chamfer(("front", "top"), L("1/8 in")),
        Chamfer(("front", "bottom"), L("1/8 in")),
    )


def test_what_is_left_on_makes_the_first_cut_larger(side):
    side.leave("1/2", on="ends").leave("1/4", on="front")
    assert side.part.cut_size() == (L("31 in"), L("14 1/4 in"))
    assert (side.length, side.width) == (L("30 in"), L("14 in"))
    assert [one.face for one in side.part.features if isinstance(one, LeftOn)] == ["bottom", "top", "front"]


def test_a_part_is_measured_before_it_is_cut(rail, plan):
    rail.cut_to_fit("measure between the sides")
    assert rail.part.fit_to == "between the sides"
    assert plan.mirror(rail, across="60").part.fit_to == "between the sides"


REFUSED = {
    "an angle and a setback": (lambda one: one.mitre("left", short="top", setback="1", angle=30), "not both"),
    "a saw lying flat": (lambda one: one.mitre("left", short="top", angle=90), "between 0 and 90"),
    "no angle": (lambda one: one.mitre("left", short="top", angle="steep"), "cannot be read"),
    "a mitre on an edge": (lambda one: one.mitre("top", short="left"), "on an end"),
    "two opposite faces": (lambda one: one.compound_mitre("left", top="1", bottom="1"), "two faces that meet"),
    "one face": (lambda one: one.compound_mitre("left", top="1"), "two faces that meet"),
    "one setting": (lambda one: one.compound_mitre("left", short=("top", "front"), miter=30), "two settings"),
    "an end sawn twice": (
        lambda one: one.mitre("left", short="top").compound_mitre("left", top="1", front="1/4"),
        "mitered already",
    ),
    "slopes that meet": (
        lambda one: one.compound_mitre("left", top="12", front="1/2").mitre("right", short="top", setback="12"),
        "meet before",
    ),
    "a bevel on an end": (lambda one: one.bevel("left", short="top"), "long edge"),
    "a bevel twice": (lambda one: one.bevel("top", short="front").bevel("top", short="back"), "already"),
    "bevels that meet": (
        lambda one: one.bevel("top", short="front", setback="2").bevel("bottom", short="front", setback="2"),
        "leave nothing",
    ),
    "a dado in an end": (lambda one: one.dado("left", width="1/4", depth="1/4", top="1"), "not in an end"),
    "a dado with the grain": (lambda one: one.dado("front", width="1/4", depth="1/4", top="1"), "distance from there"),
    "a dado from nowhere": (lambda one: one.dado("front", width="1/4", depth="1/4"), "from one face"),
    "a rabbet along its own face": (
        lambda one: one.rabbet("front", along="back", width="1/4", depth="1/4"),
        "meets it",
    ),
    "a rabbet too deep": (lambda one: one.rabbet("front", along="top", width="1/4", depth="1"), "does not lie"),
    "a stop at its side": (
        lambda one: one.rabbet("front", along="top", width="1/4", depth="1/4", stops={"bottom": "1"}),
        "does not run towards",
    ),
    "stops that overlap": (
        lambda one: one.rabbet("front", along="top", width="1/4", depth="1/4", stops={"left": "14", "right": "14"}),
        "before it starts",
    ),
    "a notch beyond the end": (lambda one: one.notch_edge("top", depth="1", width="3", left="22"), "does not lie"),
    "a row into the end": (
        lambda one: one.bore_row("front", "1/4", runs="left-right", count=9, every="3", left="2", top="1"),
        "beside the part",
    ),
    "holes in one another": (
        lambda one: one.bore_row("front", "1/4", runs="left-right", count=3, every="1/4", left="2", top="1"),
        "into each other",
    ),
    "a row into the wood": (
        lambda one: one.bore_row("front", "1/4", runs="front-back", count=3, every="1", left="2", top="1"),
        "one of two ways",
    ),
    "a grid that goes one way": (
        lambda one: one.bore_grid("front", "1/4", counts={"up": 2}, every={"up": "1"}, left="2", top="1"),
        "two ways",
    ),
    "no edge": (lambda one: one.chamfer("1/8"), "takes the edges"),
    "an edge between opposite faces": (lambda one: one.chamfer("1/8", edges="top-bottom"), "two faces that meet"),
    "an edge twice": (
        lambda one: one.chamfer("1/8", edges="top-front").roundover("1/8", edges="front-top"),
        "eased already",
    ),
    "too round": (lambda one: one.roundover("1/2", edges="top-front top-back"), "leave nothing"),
    "nothing rounded": (lambda one: one.roundover(0, around="top"), "more than nothing"),
    "left on a face": (lambda one: one.leave("1/2", on="front"), "ends and edges"),
    "left on twice": (lambda one: one.leave("1/2", on="left").leave("1/2", on="ends"), "already"),
    "nothing measured": (lambda one: one.cut_to_fit(" "), "what is measured"),
}


@pytest.mark.parametrize("case", REFUSED, ids=str)
def test_what_cannot_be_done_is_refused_in_words(rail, case):
    doing, words = REFUSED[case]
    with pytest.raises(PlanError, match=words) as refused:
        doing(rail)
    assert refused.value.where == "Rail"


def test_a_glue_up_has_its_own_allowance(plan):
    slab = stock.lumber("2x10", species="loblolly pine")
    top = plan.glue_up("Top", slab, boards=2, left=0, right="40", front=0, back="15", bottom="20")
    with pytest.raises(PlanError, match="own allowance"):
        top.leave("1/2", on="ends")
