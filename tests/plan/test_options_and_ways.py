"""Optional steps with all they bring, and other ways with other tools."""

import pytest

from plankit import stock
from plankit.plan import Plan
from plankit.plan.document import document
from plankit.plan.optional import without_optional
from plankit.plan.tool_list import other_ways
from plankit.shop import usual
from plankit.shop.reading import shop_of
from tests.plan.demo import bench

PLY = stock.sheet("plywood", "3/4")
SHOP = """
name = "A shop of the tests"
unit = "in"
[[tool]]
name = "Guided circular saw"
[[tool]]
name = "Hand saw"
[[tool]]
name = "Drill/driver"
[[tool]]
name = "Drill bits"
[[tool]]
name = "Countersink bit"
[[tool]]
name = "Tape measure"
[[tool]]
name = "Square"
[[sheet]]
stock = "3/4 in plywood"
length = "96"
width = "48"
price = "60.00"
[[pack]]
item = "#8 × 2 in wood screw"
holds = 10
of = "screws"
sold_as = "pack of 10"
price = "2.00"
[[pack]]
item = "#8 × 1 1/2 in wood screw"
holds = 10
of = "screws"
sold_as = "pack of 10"
price = "1.50"
"""


def shelves(*, optional: bool = True) -> Plan:
    """Two sides on a bottom; a ledge that is screwed on in a step of its own."""
    plan = Plan("Shelves", shop=shop_of(SHOP, "shop.toml"))
    side = plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="30")
    other = plan.mirror(side, across="24")
    bottom = plan.panel("Bottom", PLY, left=side.right, right=other.left, front=0, back="11", bottom="3")
    ledge = plan.panel("Ledge", PLY, left=0, right="24", front=0, back="11", bottom=side.top)
    plan.screw(bottom, through=[side, other], screws="#8 x 2", each=2)
    plan.screw([side, other], through=ledge, screws="#8 x 1 1/2", each=2)
    plan.step("Cut", works_on=plan.parts, does=["measure", "mark", "rip", "crosscut"])
    plan.step("Case", brings=[side, other, bottom])
    plan.step("Ledge", brings=ledge, optional=optional)
    return plan


@pytest.fixture(scope="module")
def made():
    return document(shelves().draft())


def value(plan: dict, label: str) -> str:
    return next(row["value"] for row in plan["glance"] if row["label"] == label).replace("\u00a0", " ")


def test_the_cost_is_told_with_and_without_the_optional_step(made):
    # one sheet 60.00 and one pack of each screw, 2.00 and 1.50; without the ledge its screws fall away
    assert value(made, "Cost") == "$63.50 for what is bought new; $62.00 without the optional step 3"


def test_pieces_and_weight_are_told_without_the_optional_step(made):
    assert value(made, "Pieces to cut") == "4"
    assert value(made, "Without the extras").startswith(
        "leaving out the optional step 3: 3 pieces to cut from 1 sheet"
    )


def test_lists_mark_what_only_the_optional_step_takes(made):
    marked = "with step 3, optional"
    assert {row["name"]: row["optional"] for row in made["parts"]} == {
        "Side": "",
        "Bottom": "",
        "Ledge": marked,
    }
    assert [row["item"] for row in made["hardware"] if row["optional"]] == ["#8 × 1 1/2 in wood screw"]
    assert [row["item"] for row in made["shopping"] if row["note"].endswith(marked)] == [
        "#8 × 1 1/2 in wood screw"
    ]
    assert next(row for row in made["parts"] if row["name"] == "Ledge")["note"].endswith(marked)


def test_a_plan_without_optional_steps_is_told_once():
    plan = document(shelves(optional=False).draft())
    assert value(plan, "Cost") == "$63.50 for what is bought new"
    assert not any(row["label"] == "Without the extras" for row in plan["glance"])
    assert without_optional(shelves(optional=False).draft()) is None


def test_the_bench_costs_less_without_its_banding():
    plan = document(bench().draft())
    row = next(row for row in plan["shopping"] if row["item"] == "3/4 in edge banding")
    assert row["note"].endswith("with step 4, optional")
    less = without_optional(bench().draft())
    assert less is not None
    assert not any(type(f).__name__ == "Banding" for part in less.build.parts for f in part.features)
    with_it, without = (piece.split()[0] for piece in value(plan, "Cost").split("; "))
    # the roll of banding is all that falls away
    assert float(with_it[1:]) - float(without[1:]) == float(row["cost"][1:])


def test_tools_of_the_optional_step_alone_are_marked():
    tools = {row["name"]: row for row in document(bench().draft())["tools"]}
    assert tools["Household iron"]["optional"] == "with step 4, optional"
    assert tools["Household iron"]["for"] == "band edges (step 4, optional)"
    assert tools["Drill/driver"]["optional"] == ""


# Other ways


def test_other_ways_name_the_shops_own_tools_first():
    shop = shop_of(SHOP, "shop.toml")
    ways = dict(other_ways(shop, "Guided circular saw", ("rip", "crosscut")))
    assert ways["rip"][0] == "Hand saw"  # the shop has one; a table saw is only known
    assert "Table saw" in ways["rip"]
    assert "Miter saw" in dict(other_ways(usual(), "Hand saw", ("crosscut",)))["crosscut"]


def test_what_is_used_together_is_no_other_way():
    # drill, bits and countersink all bore, and none stands for another
    assert other_ways(usual(), "Drill bits", ("bore",)) == ()


def test_the_tool_list_says_the_other_ways_in_words(made):
    saw = next(row for row in made["tools"] if row["name"] == "Guided circular saw")
    assert saw["otherwise"].startswith("rip: hand saw, ")
    assert {way["operation"] for way in saw["ways"]} == {"rip", "crosscut"}


def test_a_tool_that_is_chosen_but_not_listed_is_looked_at():
    plan = shelves()
    plan.step("Taper", works_on=plan.parts[0], does="crosscut", using={"crosscut": "Miter saw"})
    found = [f for f in document(plan.draft())["findings"] if f["check"] == "tools"]
    assert len(found) == 1
    assert "Miter saw" in found[0]["what"]
    assert found[0]["remedy"].endswith(
        'using={"crosscut": "Guided circular saw"}.'
    )  # which the shop has for it


def test_a_plan_whose_only_way_needs_a_tool_not_listed_is_looked_at():
    plan = shelves()
    plan.step("Plane", works_on=plan.parts[0], does="plane")
    found = [f for f in document(plan.draft())["findings"] if f["check"] == "tools"]
    assert [f["what"] for f in found] == ["the shop file names no tool for this: plane."]


def test_the_glance_says_how_the_piece_is_carried_in_and_how_much_room_is_left():
    plan = shelves()  # 24 × 11 × 30 3/4 in
    plan.niche(("25", "12", "36"), name="the niche")
    plan.doorway("30", "80")
    told = document(plan.draft())
    assert value(told, "The niche") == "1/2 in (13 mm) free at each side, 5 1/4 in (133 mm) above"
    assert value(told, "The doorway") == (
        "goes through an opening 11 in (279 mm) wide and 24 in (610 mm) high"
    )
