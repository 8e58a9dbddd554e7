"""Cuts beyond the reach of the shop's tools, and pieces too small to be held."""

from dataclasses import replace

import pytest

from plankit.build import Build
from plankit.checks.machines import machines
from plankit.parts import Bevel, Feature, Mitre, Part, Taper
from plankit.shop import Shop, usual
from plankit.stock import lumber
from plankit.units import L
from tests.checks.small_builds import INCHES, PLY, SLAB
from tests.checks.turned_builds import plain, quarter, reflected
from tests.parts.one_of_each import ONE_OF_EACH, TAPERED, size
from tests.plan.demo import bench

SHOP = usual()
TABLE_SAW_ONLY = replace(SHOP, tools=tuple(tool for tool in SHOP.tools if tool.name == "Table saw"))
MITRE_SAW_ONLY = replace(SHOP, tools=tuple(tool for tool in SHOP.tools if tool.name == "Miter saw"))
RAIL = lumber("1x4", species="Douglas-fir")


def one(part: Part) -> Build:
    return Build("One", (part,))


def found(part: Part, shop: Shop = SHOP) -> list[tuple[str, str]]:
    return [(finding.level, finding.check) for finding in machines(one(part), shop, INCHES)]


def board(*sizes: str, features: tuple[Feature, ...] = ()) -> Part:
    return Part("board", "Board", "board", SLAB, size(*sizes), "x", "z", features)


def test_a_short_foot_is_tapered_by_hand_or_on_a_longer_piece() -> None:
    # 4 in long; the usual table saw asks for 12 in, a hand saw for nothing
    (finding,) = machines(one(TAPERED), SHOP, INCHES)
    assert (finding.level, finding.check) == ("for information", "too short for a machine")
    assert "hand saw" in finding.remedy
    assert "12" in finding.number
    assert ("look at", "too short for a machine") in found(TAPERED, TABLE_SAW_ONLY)
    long = replace(TAPERED, box=size("3 1/2", "3 1/2", "12"))
    assert found(long) == []


@pytest.mark.parametrize(("wide", "beyond"), [("9 1/4", False), ("12", False), ("12 1/8", True)])
def test_a_board_wider_than_the_mitre_saw_crosscuts(wide: str, beyond: bool) -> None:
    # the usual mitre saw cuts 12 in square across; a glued-up top is trimmed with what else there is
    part = Part("panel", "Panel", "panel", PLY, size("20", wide, "3/4"), "x", "z")
    assert (("look at", "beyond the tools") in found(part, MITRE_SAW_ONLY)) == beyond
    assert found(part) == []


def test_a_panel_wider_than_the_table_saw_rips_and_longer_than_the_guide() -> None:
    # 24 in beside the blade; the guided saw's rail reaches 98 in
    part = Part("panel", "Panel", "panel", PLY, size("40", "30", "3/4"), "x", "z")
    (finding, *_) = machines(one(part), TABLE_SAW_ONLY, INCHES)
    assert finding.check == "beyond the tools"
    assert "24" in finding.number
    assert found(part) == []


def test_stock_thicker_than_a_blade_is_high() -> None:
    # 3 1/2 in: the usual table saw cuts 3 in, the mitre saw 3 5/8 in
    post = Part(
        "post",
        "Post",
        "board",
        lumber("4x4", species="loblolly pine"),
        size("3 1/2", "3 1/2", "30"),
        "z",
        "y",
    )
    assert found(post, TABLE_SAW_ONLY) == [("look at", "beyond the tools")]
    assert found(post, MITRE_SAW_ONLY) == []


@pytest.mark.parametrize(("wide", "narrow"), [("1/2", True), ("3/4", False), ("3 1/2", False)])
def test_a_strip_too_narrow_to_rip(wide: str, narrow: bool) -> None:
    strip = Part("strip", "Strip", "board", RAIL, size("20", wide, "3/4"), "x", "z")
    assert (("look at", "narrow strip") in found(strip)) == narrow


def test_a_mitre_beyond_the_scale_of_a_saw() -> None:
    # setback over the width it is cut across: 4 1/2 over 3 1/2 is atan(1.286) = 52.1°, 3 1/2 over 3 1/2 is 45°
    steep = replace(board("30", "3 1/2", "1 1/2"), features=(Mitre("right", "back", L("4 1/2 in")),))
    (finding,) = machines(one(steep), SHOP, INCHES)
    assert finding.check == "needs a jig"
    assert finding.number == "52.1°, or 37.9° to the edge"
    assert found(board("30", "3 1/2", "1 1/2", features=(Mitre("right", "back", L("3 1/2 in")),))) == []


def test_a_blade_that_tilts_no_further_than_45_degrees() -> None:
    # 1 1/2 in thick: 1 1/2 in of setback is 45°, 1 9/16 in is 46.2°
    for setback, count in (("1 1/2", 0), ("1 9/16", 1)):
        part = board("30", "9 1/4", "1 1/2", features=(Bevel("front", "top", L(setback, "in")),))
        assert [check for _, check in found(part)].count("needs a jig") == count


def test_a_taper_steeper_than_a_jig_opens() -> None:
    # 4 in over 12 in is 18.4°; a hand saw or band saw needs no jig
    part = board("24", "9 1/4", "1 1/2", features=(Taper("front", "right", L("4 in"), L("12 in")),))
    assert ("look at", "needs a jig") in found(part, TABLE_SAW_ONLY)
    assert found(part) == []


def test_the_bench_is_within_reach_of_its_shop() -> None:
    draft = bench().draft()
    findings = machines(draft.build, draft.shop, draft.notation)
    assert [(one.level, one.check, one.part) for one in findings] == [
        ("for information", "too short for a machine", "Foot")
    ]


@pytest.mark.parametrize("change", [quarter, reflected])
def test_turning_or_mirroring_changes_no_finding_but_its_words(change) -> None:
    build = Build("All", ONE_OF_EACH)
    for shop in (SHOP, TABLE_SAW_ONLY, MITRE_SAW_ONLY):
        assert plain(machines(change(build), shop, INCHES)) == plain(machines(build, shop, INCHES))
