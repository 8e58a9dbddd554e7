"""What a step says of cuts, holes and edges, and which tools it asks for."""

import pytest

from plankit import stock
from plankit.plan import Plan
from plankit.plan.document import document
from plankit.plan.operations import operation_of
from plankit.plan.work import work_of
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")
RAIL = stock.lumber("1x4", species="Douglas-fir")
POST = stock.lumber("4x4", species="loblolly pine")


@pytest.fixture
def plan():
    return Plan("Potting cabinet")


def panel(plan):
    return plan.panel("Side", PLY, left=0, front=0, back="14", bottom=0, top="30")


def board(plan):
    return plan.board("Rail", RAIL, runs="left-right", wide="up", left=0, right="24", front=0, bottom=0)


def said(plan, part) -> list[str]:
    plan.step("Shape", works_on=part)
    return [line.replace("\u00a0", " ") for line in document(plan.draft())["steps"][0]["does"]]


def tools(plan) -> tuple[str, ...]:
    (work,) = work_of(plan.draft())
    return work.tool_names


def test_a_mitre_is_told_by_the_saw_and_from_point_to_point(plan):
    part = board(plan).mitre("left", short="top", angle="35°").mitre("right", short="top", angle="35°")
    (line,) = said(plan, part)
    assert line == (
        "Rail: miter the left and right ends, the piece on its wide face and the saw turned 35.0° off square: "
        "≈2 7/16 in (62 mm) shorter along its top face at each end, 24 in (610 mm) to the long points, "
        "≈19 1/8 in (485 mm) to the short points."
    )
    assert "Miter saw" in tools(plan)


def test_a_compound_mitre_gives_both_settings(plan):
    # 1 over 3 1/2 is 15.945°; 1/4 over 3/4 times cos 15.945° is 17.773°: trigonometry
    (line,) = said(plan, board(plan).compound_mitre("right", bottom="1", front="1/4"))
    assert "saw turned 15.9°, blade tilted 17.8° off square" in line
    assert "1/4 in (6 mm) shorter along its front face and 1 in (25 mm) along its bottom face" in line
    assert "22 3/4 in (578 mm) to the short points" in line  # 24 − 1 − 1/4


def test_a_bevel_is_ripped_with_the_blade_tilted(plan):
    (line,) = said(plan, board(plan).bevel("top", short="back", angle=45))
    assert line == (
        "Rail: rip a bevel along the top edge with the blade tilted 45.0°, 3/4 in (19 mm) narrower on the back face."
    )
    assert "Table saw" in tools(plan)


def test_a_short_foot_is_tapered_on_a_longer_piece(plan):
    foot = plan.board("Foot", POST, runs="up", left=0, front=0, bottom=0, length="4").taper(left="1")
    lines = said(plan, foot)
    # the usual shop lets nothing under 12 in near its table saw (shop/usual.toml, common practice)
    assert any("a piece at least 12 in (305 mm) long" in line for line in lines)


def test_a_long_leg_is_tapered_as_it_is(plan):
    leg = plan.board("Leg", POST, runs="up", left=0, front=0, bottom=0, length="28").taper(left="1", run="20")
    assert not any("too short" in line for line in said(plan, leg))


@pytest.mark.parametrize(
    ("verb", "name", "place", "tool"),
    [
        ({"width": "3/4", "depth": "1/4", "bottom": "10"}, "dado", "10 in (254 mm) from its bottom edge", "Table saw"),
        ({"width": "1/4", "depth": "1/4", "front": "2"}, "groove", "2 in (51 mm) from its front edge", "Table saw"),
        ({"width": "1/4", "depth": "3/8", "back": 0}, "rabbet", "along its back edge", "Table saw"),
    ],
)
def test_a_channel_is_called_what_it_is(plan, verb, name, place, tool):
    part = panel(plan).groove("right", **verb)
    (line,) = said(plan, part)
    assert f"cut a {name} in the right face" in line
    assert place in line
    assert ("across the grain" in line) == (name == "dado")
    assert tool in tools(plan)


def test_a_channel_that_stops_is_routed_and_squared(plan):
    part = panel(plan).dado("right", width="3/4", depth="1/4", bottom="10", stops={"front": "1/2"})
    (line,) = said(plan, part)
    assert "stop it 1/2 in (13 mm) short of the front edge and square the end with a chisel" in line
    assert {"Router", "Straight router bit", "Chisel"} <= set(tools(plan))


def test_round_edges_name_their_edges_and_their_bit(plan):
    (line,) = said(plan, panel(plan).roundover("1/4", around="right"))
    assert line == "Side: round over all edges of the right face, to a radius of 1/4 in (6 mm)."
    assert {"Router", "Roundover bit"} <= set(tools(plan))


def test_a_chamfer_is_planed(plan):
    (line,) = said(plan, board(plan).chamfer("1/8", edges="top-front bottom-front"))
    assert line.startswith("Rail: chamfer the front top edge and the front bottom edge, 1/8 in (3 mm)")
    assert "Block plane" in tools(plan)


def test_a_traced_notch_is_marked_from_the_piece(plan):
    rail = plan.board("Brace", RAIL, runs="left-right", wide="up", left="-5", right="5", front=0, bottom=0)
    (line,) = said(plan, panel(plan).notch_round(rail, trace=True))
    assert "trace the notch from the piece itself" in line
    assert "about 3 1/2 in (89 mm) along the grain" in line


def test_a_hinge_cup_asks_for_a_bit_with_a_flat_bottom(plan):
    door = panel(plan).bore("right", "35 mm", depth="12 mm", use="hinge cup", front="22 mm", bottom="3")
    (line,) = said(plan, door)
    assert "35 mm across and 12 mm deep (hinge cup)" in line
    assert "Flat-bottom bit" in tools(plan)


def test_a_metric_plan_asks_for_metric_drills():
    plan = Plan("Ablage", unit="mm")
    ply = stock.sheet("plywood", "18 mm")
    shelf = plan.panel("Shelf", ply, left=0, right=800, front=0, back=300, bottom=100)
    side = plan.panel("Side", ply, right=0, front=0, back=300, bottom=0, top=400)
    plan.screw(shelf, through=side, screws="#8 x 1 1/2", each=2)
    plan.step("Join", brings=[side, shelf])
    lines = " ".join(document(plan.draft())["steps"][0]["does"]).replace("\u00a0", " ")
    # a #8 screw's shank is 0.164 in, 4.17 mm: the next half millimetre up is 4.5
    assert "countersink 4.5 mm holes" in lines
    assert " in holes" not in lines


def test_each_operation_is_one_that_tools_are_known_by(plan):
    from plankit.shop.tool import OPERATIONS
    from tests.parts.one_of_each import ONE_OF_EACH

    for part in ONE_OF_EACH:
        for feature in part.features:
            assert set(operation_of(part, feature)) <= set(OPERATIONS)
            assert operation_of(part, feature)


def test_the_cut_list_has_the_first_size_and_the_parts_list_both(plan):
    part = panel(plan).leave("1/2", on="ends")
    plan.step("Cut", brings=part)
    (row,) = document(plan.draft())["parts"]
    assert "cut 31 × 14 in first, trimmed later" in row["note"].replace("\u00a0", " ")
    assert L("31 in") == part.part.cut_size()[0]
