"""The plan document: its lists agree with the build and with each other, and follow every change."""

import json
import re
from fractions import Fraction
from functools import cache
from importlib.resources import files

import jsonschema
import pytest

from plankit.errors import PlanError
from plankit.plan import computed
from plankit.plan.document import document
from plankit.plan.facts import Draft
from plankit.units import Notation
from tests.plan.demo import bench


@cache
def made(**parameters: str) -> tuple[Draft, dict]:
    draft = bench(**dict(parameters)).draft()
    return draft, document(draft)


@pytest.fixture(scope="module")
def plan():
    return made()[1]


CHANGES = [{"width": "51"}, {"depth": "15"}, {"plywood": "3/4"}]
IDS = ["six inches wider", "an inch less deep", "thicker plywood"]


def test_the_document_is_what_the_published_schema_says(plan):
    schema = json.loads((files("plankit.plan") / "schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schema, format_checker=jsonschema.FormatChecker()).validate(plan)


def test_the_same_sources_give_the_same_bytes():
    first, second = (json.dumps(document(bench().draft()), ensure_ascii=False) for _ in range(2))
    assert first == second


def test_at_least_twelve_pieces_are_cut_from_sheets_and_lumber(plan):
    pieces = sum(
        piece["count"] * layout["copies"] for layout in plan["cutting"] for piece in layout["pieces"]
    )
    assert pieces == 16  # 4 feet, 1 bottom, 2 sides, 2 dividers, 1 back, 2 boards of the top, 4 cleats
    assert next(row["value"] for row in plan["glance"] if row["label"] == "Pieces to cut") == "16"
    kinds = {layout["stock"].split(",")[0] for layout in plan["cutting"]}
    assert {"3/4 in plywood", "1/4 in plywood", "2x10 loblolly pine", "4x4 loblolly pine"} <= kinds


def test_every_label_means_the_same_part_everywhere(plan):
    names = {row["label"]: set(row["name"].split(" / ")) for row in plan["parts"]}
    for step in plan["steps"]:
        for piece in step["brings"]:
            assert set(piece["name"].split(" / ")) <= names[piece["label"]]
    for layout in plan["cutting"]:
        for piece in layout["pieces"]:
            assert {name.removesuffix(", board") for name in piece["name"].split(" / ")} <= names[
                piece["label"]
            ]


def test_every_part_arrives_once_and_counts_agree(plan):
    arrived: dict[str, int] = {}
    for step in plan["steps"]:
        if step["number"] >= 5:  # before that, loose parts are worked on
            for piece in step["brings"]:
                arrived[piece["label"]] = arrived.get(piece["label"], 0) + piece["count"]
    assert arrived == {row["label"]: row["count"] for row in plan["parts"]}


def test_screws_of_the_steps_add_up_to_the_hardware_list(plan):
    driven: dict[str, int] = {}
    for step in plan["steps"]:
        for row in step["fasteners"]:
            driven[row["item"]] = driven.get(row["item"], 0) + row["count"]
    listed = {
        row["item"]: row["count"]
        for row in plan["hardware"]
        if "screw" in row["item"] or "brad" in row["item"]
    }
    assert driven == listed


def test_the_shopping_list_adds_up(plan):
    costs = [
        Fraction(row["cost"].replace("$", "").replace(",", ""))
        for row in plan["shopping"]
        if row["cost"] != "—"
    ]
    assert sum(costs) == Fraction(plan["shopping_total"].replace("$", "").replace(",", ""))


def test_nothing_must_be_fixed_and_what_is_accepted_says_why(plan):
    assert [f for f in plan["findings"] if f["level"] == "must fix"] == []
    assert [f["part"] for f in plan["findings"] if f["accepted"]] == ["Foot", "Boot bench"]


def test_every_tool_of_a_step_is_on_the_tool_list_and_has_its_cautions(plan):
    tools = {row["name"] for row in plan["tools"]}
    warned: set[str] = set()
    silent = {"Tape measure", "Square", "Drill bits", "Countersink bit", "Glue brush",  # none of these hurts
              "Two sawhorses", "Dust mask that fits", "Clean rags"}  # fmt: skip
    for step in plan["steps"]:
        assert set(step["tools"]) <= tools
        warned |= {caution["about"] for caution in step["cautions"]}
        assert set(step["tools"]) <= warned | silent, step["title"]
    assert {"eyes and ears", "dust"} <= {caution["about"] for caution in plan["cautions"]}


def test_a_later_step_points_back_to_the_cautions_that_hold_there_too(plan):
    last = plan["steps"][-1]
    assert "step 1 (guided circular saw)" in last["cautions_again"]
    assert "Guided circular saw" not in {caution["about"] for caution in last["cautions"]}


def test_finishing_warns_of_vapors_and_of_rags_that_catch_fire(plan):
    assert {"finish", "oily rags"} <= {caution["about"] for caution in plan["finish_cautions"]}


def test_the_step_that_makes_it_too_heavy_calls_for_a_second_person(plan):
    heavy = [step["number"] for step in plan["steps"] if "lifting" in {c["about"] for c in step["cautions"]}]
    assert heavy == [9]  # the top makes 49 lb of it, and the shop's limit is 40 lb


def test_each_hand_of_a_part_has_its_place(plan):
    feet = next(step for step in plan["steps"] if step["title"].startswith("Stand the feet"))
    assert "A (foot) as drawn: front left and back right; mirrored: front right and back left." in feet["does"]
    panels = next(step for step in plan["steps"] if step["title"].startswith("Stand the sides"))
    assert any("right face of the first and second from the left" in line for line in panels["does"])


def test_a_saw_is_warned_of_in_full_at_the_step_that_first_uses_it(plan):
    first = next(step for step in plan["steps"] if "Guided circular saw" in step["tools"])
    warning = next(c for c in first["cautions"] if c["about"] == "Guided circular saw")
    assert warning["signal"] == "warning"
    assert "kicks" in warning["text"]


def test_a_tool_that_nobody_can_caution_about_stops_the_plan():
    plan = bench()
    plan._steps[2] = plan._steps[2].__class__(
        **{
            **{name: getattr(plan._steps[2], name) for name in plan._steps[2].__dataclass_fields__},
            "using": (("taper", "Laser"),),
        }
    )
    with pytest.raises(PlanError, match="no cautions are known"):
        document(plan.draft())


def test_a_plan_without_steps_is_told_so_once():
    plan = bench()
    plan._steps.clear()
    draft = plan.draft()
    found = [one for one in document(draft)["findings"] if one["check"] == "order of steps"]
    assert len(found) == 1
    assert found[0]["level"] == "must fix"
    assert "it has no steps yet" in found[0]["what"]


def test_a_part_that_no_step_brings_must_be_fixed():
    plan = bench()
    plan._steps.pop()
    found = document(plan.draft())["findings"]
    assert any(
        f["level"] == "must fix" and f["part"] == "Top" and "no step brings" in f["what"] for f in found
    )


@pytest.mark.parametrize("change", CHANGES, ids=IDS)
def test_every_list_follows_a_change(change):
    (before, old), (after, new) = made(), made(**change)
    write: Notation = before.notation
    moved = {
        one.what: (one.length, two.length)
        for one, two in zip(computed(before), computed(after), strict=False)
        if one.what == two.what and write.both(one.length) != write.both(two.length)
    }
    assert moved
    for row_old, row_new in zip(old["computed"], new["computed"], strict=True):
        assert row_old["what"] == row_new["what"]
        assert (row_old["value"] != row_new["value"]) == (row_old["what"] in moved), row_old["what"]
    for label, row in ((row["label"], row) for row in new["parts"]):
        group = next(r for r in old["parts"] if r["label"] == label)
        part = next(part for part in after.build.parts if part.name == row["name"].split(" / ")[0])
        assert row["length"] == write.both(part.length), group
        assert row["width"] == write.both(part.width)
        assert row["thickness"] == write.both(part.thickness)


@pytest.mark.parametrize("change", CHANGES, ids=IDS)
def test_no_old_size_is_left_anywhere_after_a_change(change):
    (before, old), (after, new) = made(), made(**change)
    write = before.notation
    values = {write.both(one.length) for one in computed(after)}
    gone = {write.both(one.length) for one in computed(before)} - values
    page = json.dumps({key: value for key, value in new.items() if key != "figures"}, ensure_ascii=False)
    left = [value for value in gone if re.search(rf"(?<![\d/ ]){re.escape(value)}", page)]
    assert not left
    assert any(
        re.search(rf"(?<![\d/ ]){re.escape(value)}", json.dumps(old, ensure_ascii=False)) for value in gone
    )


@pytest.mark.parametrize(
    ("change", "still"),
    [
        # the feet and the cleats have no size that the width moves, nor have the sides and their offcuts
        ({"width": "51"}, {"part-a", "part-d", "part-f", "side", "cut-1", "cut-5", "step-3"}),
        # the back has the width and height of the case
        ({"depth": "15"}, {"part-a", "front", "cut-1", "cut-4", "step-3"}),
        # thicker plywood shortens sides and dividers and moves all that stands on or between them; the back covers
        # bottom and sides together, so what one gains the other loses
        ({"plywood": "3/4"}, {"part-a", "part-c", "part-f", "cut-1", "cut-3", "cut-4", "cut-5", "step-2", "step-3"}),
    ],
    ids=IDS,
)
def test_every_drawing_follows_a_change(change, still):
    old, new = made()[1]["figures"], made(**change)[1]["figures"]
    assert set(old) == set(new)
    same = {name for name in old if old[name]["svg"] == new[name]["svg"]}
    assert same <= still, sorted(same - still)
    described = {name for name in old if old[name]["description"] != new[name]["description"]}
    assert {"whole", "step-5"} & described or "plywood" in change


def test_steps_are_six_to_nine_and_each_says_how_long_it_takes(plan):
    assert 6 <= len(plan["steps"]) <= 9
    assert all(step["minutes"] for step in plan["steps"])


def test_the_optional_step_costs_time_that_is_told_apart(plan):
    time = next(row["value"] for row in plan["glance"] if row["label"] == "Working time")
    assert "for optional steps" in time
    assert [step["title"] for step in plan["steps"] if step["optional"]] == ["Band the front edges"]


def test_what_the_author_says_about_something_bought_is_on_the_hardware_list(plan):
    (paper,) = [row for row in plan["hardware"] if row["item"] == "Sandpaper"]
    assert paper["where"] == "top and case (discs for the sander, 120 and 180 grit)"
