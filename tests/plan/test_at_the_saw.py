"""What a maker needs at the saw: the drawing and the saw a step names, how far it reaches, the edge to measure from."""

import re
from functools import cache
from itertools import combinations
from math import dist
from typing import Any

import pytest

from plankit import Plan, stock
from plankit.checks.fastening import fastening
from plankit.drawing.figures_around import from_around
from plankit.drawing.figures_unfolded import sides_of
from plankit.drawing.part_faces import datum_of, hinge_edge
from plankit.plan.document import document
from plankit.plan.lists import hardware_note
from plankit.plan.note_work import asked_in
from plankit.units import L, Notation
from tests.plan.demo import FOLDER, demo

PLY = stock.sheet("plywood", "3/4")
THIN = stock.sheet("plywood", "1/4")
PINE = stock.lumber("1x4", species="loblolly pine")
STRIP = stock.lumber("1x2", species="loblolly pine")
POST = stock.lumber("4x4", species="loblolly pine")
DEMOS = ("boot_bench", "sorting_stand", "potting_cabinet")
CUTTING = ["measure", "mark", "break down sheets", "rip", "crosscut"]


@cache
def page(name: str) -> dict[str, Any]:
    return document(demo(name).draft())


def plain(words: str) -> str:
    return words.replace("\u00a0", " ")


def named(written: dict[str, Any]) -> list[set[str]]:
    """The cutting drawings that each step names."""
    return [{one["figure"] for one in step["see"] if one["figure"].startswith("cut-")} for step in written["steps"]]


# Drawings and steps


@pytest.mark.parametrize("name", DEMOS)
def test_some_step_names_every_cutting_drawing(name: str) -> None:
    assert set().union(*named(page(name))) == {layout["id"] for layout in page(name)["cutting"]}


def test_a_drawing_of_pieces_that_are_all_measured_first_is_named_where_the_rest_is_cut() -> None:
    plan = Plan("Shelf")
    side = plan.panel("Side", PLY, left=0, front=0, back="10", bottom=0, top="20")
    shelf = plan.panel("Shelf", THIN, left=side.right, right="20", front=0, back="10", bottom="5")
    shelf.cut_to_fit("the opening")
    plan.step("Cut", works_on=side, does=CUTTING)
    plan.step("Fit", brings=[side, shelf])
    written = document(plan.draft())
    (thin,) = (layout["id"] for layout in written["cutting"] if "1/4" in layout["stock"])
    assert thin in named(written)[0]


def test_what_a_later_step_parts_off_has_its_drawing_there_and_no_saw_in_the_first() -> None:
    written = page("sorting_stand")
    (feet,) = (one["id"] for one in written["cutting"] if any(piece["name"] == "Foot" for piece in one["pieces"]))
    assert [feet in step for step in named(written)[:2]] == [False, True]
    assert not any("feet" in line for line in written["steps"][0]["does"])


def test_a_drawing_that_no_step_cuts_from_is_found() -> None:
    plan = Plan("Two boards")
    one = plan.board("Board", PINE, runs="left-right", wide="front-back", left=0, front=0, bottom=0, length="20")
    other = plan.panel("Panel", PLY, left=0, right="20", front=0, back="10", bottom="3/4")
    plan.step("Cut", works_on=one, does=["measure", "crosscut"])  # nobody cuts the panel
    plan.step("Place", brings=[one, other])
    found = [one["what"] for one in document(plan.draft())["findings"] if "no step names" in one["what"]]
    assert len(found) == 1
    plan = Plan("Two boards")
    one = plan.board("Board", PINE, runs="left-right", wide="front-back", left=0, front=0, bottom=0, length="20")
    plan.step("Cut", works_on=one, does=["measure", "crosscut"])
    plan.step("Place", brings=one)
    assert not [one for one in document(plan.draft())["findings"] if "no step names" in one["what"]]


@pytest.mark.parametrize("name", DEMOS)
def test_a_step_lists_every_saw_of_its_cutting_drawings(name: str) -> None:
    draft = demo(name).draft()
    saws = {tool.name for tool in draft.shop.tools if tool.led}
    for step, drawings in zip(page(name)["steps"], named(page(name)), strict=True):
        for layout in page(name)["cutting"]:
            if layout["id"] in drawings:
                asked = {saw for saw in saws for row in layout["cuts"] if row["text"].startswith(saw)}
                assert asked <= set(step["tools"]), (step["title"], layout["title"])


def test_the_caution_of_a_saw_that_only_the_drawing_asks_for_is_recalled() -> None:
    step = page("sorting_stand")["steps"][1]
    assert "Miter saw" in step["tools"]
    assert "miter saw" in step["cautions_again"]


def test_what_is_sawn_by_hand_on_the_stick_is_not_too_short_for_a_machine() -> None:
    def found(using: dict[str, str]) -> list[str]:
        plan = Plan("Foot", shop=str(FOLDER / "shop.toml"))  # its table saw asks for 12 in, its hand saw for nothing
        foot = plan.board("Foot", POST, runs="up", left=0, front=0, bottom=0, length="4")
        foot.taper(left="1")
        plan.step("Taper", works_on=foot, does=["taper", "crosscut"], using=using)
        plan.step("Stand", brings=foot)
        return [one["check"] for one in document(plan.draft())["findings"]]

    assert "too short for a machine" not in found({"taper": "Hand saw"})
    assert "too short for a machine" in found({"taper": "Table saw"})


# Sizes of tools


def test_tools_say_how_far_saws_must_reach() -> None:
    rows = {row["name"]: plain(row["for"]) for row in page("sorting_stand")["tools"]}
    # trays 9 1/2 deep in 1/2 in plywood; feet of 3 1/2 × 3 1/2; a sheet of 96 in ripped along its length
    assert "9 1/2 in (241 mm) wide and 1/2 in (13 mm) high" in rows["Miter saw"]
    assert "3 1/2 in (89 mm) wide and 3 1/2 in (89 mm) high" in rows["Miter saw"]
    assert "a guide for cuts 96 in (2438 mm) long" in rows["Guided circular saw"]
    assert "high" not in rows["Hand saw"]


def test_clamps_open_wider_than_the_work_by_two_cauls() -> None:
    for name, blank in (("boot_bench", "16 1/4"), ("potting_cabinet", "19")):
        (row,) = (plain(row["for"]) for row in page(name)["tools"] if row["name"] == "Clamps")
        assert f"that open {plain(Notation().both(L(blank, 'in') + L('1 1/2 in')))}" in row


def test_what_a_note_asks_to_rip_takes_a_saw() -> None:
    assert asked_in("Rip two props 2 in wide.") == ("rip",)
    assert "Guided circular saw" in page("sorting_stand")["steps"][4]["tools"]


# Screws


@pytest.mark.parametrize(("wood", "thread"), [("loblolly pine", "coarse"), ("cherry", "fine")])
def test_the_thread_of_pocket_screws_goes_by_the_tree(wood: str, thread: str) -> None:
    # Wood Handbook: loblolly pine, a softwood, has 0.51; black cherry, a hardwood, 0.50
    plan = Plan("Rails")
    board = stock.lumber("1x4", species=wood)
    post = plan.board("Post", board, runs="up", wide="left-right", left=0, front=0, bottom=0, length="20")
    rail = plan.board("Rail", board, runs="left-right", wide="up", left=post.right, front=0, bottom="5", length="20")
    plan.pocket_screw(rail, into=post, face="back")
    assert f"a {thread} thread" in hardware_note(plan.draft())


def test_a_stop_that_comes_off_again_is_advised_no_glue() -> None:
    build = demo("sorting_stand").draft().build
    stops = {stop for moving in build.moving for stop in moving.stops}
    assert {build.part(one).name for one in stops} >= {"Stop"}
    (found,) = (one for one in fastening(build, Notation()) if one.check == "too little bite" and one.part == "Side")
    assert "through Stop" in found.what
    assert "add glue" not in found.remedy
    assert "no glue" in found.remedy


@pytest.mark.parametrize("name", DEMOS)
def test_hardware_is_checked_before_anything_is_bored_for_it(name: str) -> None:
    for step in page(name)["steps"]:
        said = [line.partition("check against")[1] or line.partition("Check against")[1] for line in step["does"]]
        checks = [number for number, words in enumerate(said) if words]
        bores = [n for n, line in enumerate(step["does"]) if ": bore " in line or line.startswith("Fit ")]
        if checks:
            assert len(checks) == 1
            assert checks[0] < min(bores, default=99), step["title"]


# Edges to measure from


@pytest.fixture(scope="module")
def door() -> Any:
    build = demo("potting_cabinet").draft().build
    return next(part for part in build.parts if part.name == "Door")


def test_a_door_is_measured_from_its_hinge_edge_which_keeps_its_place(door: Any) -> None:
    assert door.fit_to
    assert hinge_edge(door) == "right"  # it hangs on the divider, at its right
    assert datum_of(door).face("x") == "right"


def test_its_drawing_has_0_at_the_hinge_edge_and_the_cups_in_the_makers_millimeters() -> None:
    written = page("potting_cabinet")
    (row,) = (row for row in written["parts"] if row["name"] == "Door")
    drawn = plain(written["figures"][row["figure"]]["svg"])
    assert "hinge edge" in drawn
    assert "right edge" not in drawn
    assert "22.5 mm" in drawn  # 5 mm to the rim and half of 35 mm
    assert ">32 mm<" in drawn  # 9.5 mm more to the wings' screws


def test_what_a_door_loses_in_width_comes_off_its_free_edge() -> None:
    does = [line for step in page("potting_cabinet")["steps"] for line in step["does"]]
    (line,) = (line for line in does if line.startswith("Door: measure"))
    assert "the edge across from its hinges" in line


def test_rails_worked_on_faces_that_look_at_each_other_have_an_inner_face() -> None:
    written = page("potting_cabinet")
    (row,) = (row for row in written["parts"] if row["name"] == "Frame front rail / Frame back rail")
    drawn = written["figures"][row["figure"]]["svg"]
    assert "Inner face of the frame front rail, top edge up" in drawn
    assert "Back face" not in drawn


def test_places_in_the_views_count_from_the_corner_that_a_tape_hooks_on() -> None:
    figures = page("potting_cabinet")["figures"]
    assert "0: left edge of the frame post; floor." in figures["front"]["svg"]
    assert "0: left edge of the frame post; front face of the frame post." in figures["top"]["svg"]


def test_the_height_from_behind_is_the_cases_without_its_brackets() -> None:
    draft = demo("sorting_stand").draft()
    figure = from_around(draft.build, draft.notation, "back")
    said = [item.text for item in figure.items if hasattr(item, "text")]
    assert "42" in said
    assert "43 1/2" not in said  # 42 and the bracket's leg of 1 1/2


def test_mitered_braces_that_stand_apart_are_no_sides_of_a_box() -> None:
    assert sides_of(demo("sorting_stand").draft().build) == ()
    assert "unfolded" not in page("sorting_stand")["figures"]


def test_both_ends_of_a_brace_are_said_to_be_mitered() -> None:
    (line,) = (plain(line) for line in page("sorting_stand")["steps"][0]["does"] if line.startswith("Brace"))
    # long points 9 29/32, short points 6 29/32: 3 = 2 × 1 1/2
    assert "1 1/2 in (38 mm) shorter along its bottom face at each end" in line


@pytest.mark.parametrize("step", ["step-4", "step-6"])
def test_numbers_of_screws_in_a_row_do_not_lie_on_each_other(step: str) -> None:
    drawn = page("potting_cabinet")["figures"][step]["svg"]
    spots = [(float(x), float(y)) for x, y in re.findall(r'<text x="([\d.]+)" y="([\d.]+)"[^>]*>\d+ ×</text>', drawn)]
    assert spots
    assert all(dist(one, other) > 4.0 for one, other in combinations(spots, 2))  # "5 ×" is 4 mm wide


def test_a_pull_takes_a_screwdriver() -> None:
    assert "Screwdriver" in page("sorting_stand")["steps"][9]["tools"]  # its machine screws are its own
