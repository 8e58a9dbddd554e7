"""What is used up: glue, finish, abrasives, banding, screws to spare, each with the sum beside it."""

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest

from plankit import stock
from plankit.plan import Plan, used_up
from plankit.plan.cut_list import cut_plan
from plankit.plan.facts import Coating
from plankit.plan.lists import shopping_list
from plankit.plan.used_up import Need, finish_ounces, glue_ounces, needs, surface
from plankit.plan.work import labels
from plankit.shop.reading import shop_of
from tests.plan.demo import bench

PLY = stock.sheet("plywood", "3/4")
with (Path(__file__).parents[1] / "outside" / "finish.csv").open(encoding="utf-8") as file:
    OUTSIDE = {row["id"]: row for row in csv.DictReader(file)}


def within(row: str, value: Fraction) -> bool:
    low, high = (Fraction(number) for number in re.findall(r"[\d.]+", OUTSIDE[row]["answer"]))
    return low <= value <= high


def test_glue_for_a_glue_line_is_its_spread_over_its_weight():
    # 18 sq ft at 45 lb/1000 sq ft are 0.81 lb; at 9.1 lb/gal 0.089 gal, 11.4 fl oz
    assert float(glue_ounces(Fraction(18))) == pytest.approx(18 * 45 / 1000 / 9.1 * 128)


def test_every_rate_lies_in_the_range_that_is_common_practice():
    assert within("RF-01", used_up.COVERAGE)
    assert within("RF-02", used_up.FIRST_COAT_OF_OIL)
    assert within("RF-05", Fraction(used_up.BETWEEN_COATS))


def test_the_first_coat_of_oil_takes_twice_a_later_one():
    oil = Coating("Oil", 2, ("Wipe it on.",), ("finish", "oily rags"))
    # 100 sq ft: 100/200 + 100/400 of a gallon
    assert finish_ounces(oil, Fraction(100)) == Fraction(3, 4) * 128
    varnish = Coating("Varnish", 2, ("Brush it on.",))
    assert finish_ounces(varnish, Fraction(100)) == Fraction(1, 2) * 128  # 2 × 100/400


def board(**more: str) -> Plan:
    plan = Plan("Board", **more)
    plan.panel(
        "Panel",
        stock.sheet("plywood", "3/4", measured="3/4"),
        left=0,
        right="48",
        front=0,
        back="24",
        bottom=0,
    )
    return plan


def amounts(plan: Plan) -> dict[str, str]:
    return {need.item: need.words(plan.unit) for need in needs(plan.draft())}


def test_abrasives_follow_the_surface_and_the_grits():
    plan = board()
    plan.finish("Varnish", coats=2, how=["Brush it on."])
    # two faces of 8 sq ft and edges of 144 in × 3/4 in: 16.75 sq ft, a tenth more: 18.425, a disc for every 10
    assert surface(plan.draft().build) / used_up.SQUARE_FOOT == Fraction(67, 4)
    assert {item: n for item, n in amounts(plan).items() if "disc" in item} == {
        "Sanding disc, 120 grit": "2",
        "Sanding disc, 180 grit": "2",
        "Sanding disc, 320 grit": "2",  # once, between the two coats
    }


def test_one_coat_is_not_sanded_between():
    plan = board()
    plan.finish("Varnish", coats=1, how=["Brush it on."])
    assert "Sanding disc, 320 grit" not in amounts(plan)


def test_an_author_who_buys_her_own_abrasives_gets_no_others():
    assert not any("disc" in item for item in amounts(bench()))


def test_nothing_is_sanded_where_nobody_sands():
    assert amounts(board()) == {}


def test_a_tenth_of_the_screws_is_to_spare_and_one_at_least():
    plan = Plan("Case")
    side = plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="30")
    bottom = plan.panel("Bottom", PLY, left=side.right, right="24", front=0, back="11", bottom="3")
    plan.screw(bottom, through=side, screws="#8 x 2", each=2)
    assert amounts(plan) == {"#8 × 2 in wood screw": "3"}  # 2 and a tenth: the next whole screw


def test_the_authors_own_allowance_counts():
    shop = shop_of('name = "S"\nunit = "in"\nwaste_allowance = "50 %"\n', "shop.toml")
    plan = Plan("Case", shop=shop)
    side = plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="30")
    bottom = plan.panel("Bottom", PLY, left=side.right, right="24", front=0, back="11", bottom="3")
    plan.screw(bottom, through=side, screws="#8 x 2", each=4)
    assert amounts(plan)["#8 × 2 in wood screw"] == "6"  # 4 and half as many


# Units


def test_a_metric_plan_reads_metres_and_millilitres():
    plan = board(unit="mm")
    assert Need("Banding", Fraction(10), "ft").words(plan.unit) == "3 m"  # 10 × 0.3048
    assert Need("Glue", Fraction(8), "fl oz").words(plan.unit) == "237 ml"  # 8 × 29.5735
    assert Need("Glue", Fraction(8), "fl oz").words("in") == "8 fl oz"


def test_packs_listed_in_metric_units_are_counted_in_them():
    shop = shop_of(
        'name = "S"\nunit = "mm"\n[[pack]]\nitem = "20 mm edge banding"\nholds = 1\nof = "m"\nsold_as = "1 m"\n'
        'price = "2.00"\n',
        "shop.toml",
    )
    plan = Plan("Panel", unit="mm", shop=shop)
    panel = plan.panel("Panel", PLY, left=0, right="1000", front=0, back="600", bottom=0)
    plan.band(panel, edges="front")
    draft = plan.draft()
    rows, _, _ = shopping_list(draft, cut_plan(draft, labels(draft)[1]))
    banding = next(row for row in rows if row["item"] == "20 mm edge banding")  # 19.05 mm
    assert banding["count"] == "2"  # 1 m and a tenth: two rolls of 1 m, not four of a foot
    assert banding["note"].startswith("1.1 m needed")


def test_sheets_of_a_metric_plan_are_sold_in_millimetres():
    plan = Plan("Panel", unit="mm")
    plan.panel("Panel", PLY, left=0, right="1000", front=0, back="600", bottom=0)
    draft = plan.draft()
    rows, _, _ = shopping_list(draft, cut_plan(draft, labels(draft)[1]))
    assert rows[0]["unit"].replace("\u00a0", " ") == "sheet, 1219 × 2438 mm"  # 4 × 8 ft
