"""What a shop costs, what its tools can do, and what readers are cautioned about."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.errors import PlanError
from plankit.shop import (
    Pack,
    PriceList,
    cautions_for,
    general_cautions,
    known_tools,
    tool_knowledge,
    usual,
)
from plankit.shop.reading import shop_of
from plankit.shop.tool import OPERATIONS, SIGNALS
from plankit.units import L, Money

F = Fraction


def packs(*sizes: tuple[int, str]) -> PriceList:
    return PriceList(
        packs=tuple(Pack("screw", F(n), "screws", f"pack of {n}", Money.read(cost)) for n, cost in sizes)
    )


@pytest.mark.parametrize(
    ("needed", "bought"),
    # 50 for 5.60, 100 for 9.20: two packs of 50 cost 11.20, so one of 100 is cheaper from 51 on
    [
        (0, {}),
        (1, {50: 1}),
        (50, {50: 1}),
        (51, {100: 1}),
        (120, {50: 1, 100: 1}),
        (151, {100: 2}),
        (200, {100: 2}),
    ],
)
def test_screws_are_bought_in_the_packs_that_cost_least(needed: int, bought: dict[int, int]) -> None:
    chosen = packs((50, "5.60"), (100, "9.20")).cheapest_packs("Screw", needed)
    assert {int(pack.holds): count for pack, count in chosen} == bought


def test_for_the_same_money_the_fuller_pack_is_bought() -> None:
    chosen = packs((50, "5"), (100, "5")).cheapest_packs("screw", 20)
    assert [(pack.sold_as, count) for pack, count in chosen] == [("pack of 100", 1)]


def test_what_the_list_does_not_have_is_not_bought() -> None:
    assert packs((50, "5")).cheapest_packs("hinge", 2) == ()


@given(
    st.lists(
        st.tuples(st.integers(1, 60), st.integers(1, 99)), min_size=1, max_size=3, unique_by=lambda s: s[0]
    ),
    st.integers(1, 200),
)
def test_the_packs_bought_suffice_and_no_other_choice_is_cheaper(
    sizes: list[tuple[int, int]], needed: int
) -> None:
    prices = packs(*((size, str(cost)) for size, cost in sizes))
    chosen = prices.cheapest_packs("screw", needed)
    assert sum(pack.holds * count for pack, count in chosen) >= needed
    # the least cost by the textbook recurrence: cost(n) = least of price + cost(n − size)
    least = [0]
    for amount in range(1, needed + 1):
        least.append(min(cost + least[max(0, amount - size)] for size, cost in sizes))
    assert sum(pack.price.amount * count for pack, count in chosen) == least[needed]


def test_an_item_is_found_however_its_cross_is_written() -> None:
    shop = shop_of(
        'name = "x"\n[[pack]]\nitem = "#8 × 2 in wood screw"\nholds = 50\nof = "screws"\nprice = "1"', "x"
    )
    assert shop.prices.packs_of("#8 x 2 in Wood Screw")


def test_a_price_is_that_of_the_exact_size_or_none() -> None:
    shop = shop_of('name = "x"\n[[board]]\nstock = "2x4 Douglas-fir"\nlength = "8 ft"\nprice = "4.10"', "x")
    assert shop.prices.price_of("2x4 Douglas-fir", L("96 in")) == Money.read("4.10")
    assert shop.prices.price_of("2x4 Douglas-fir", L("10 ft")) is None
    assert shop.prices.price_of("2x4 Douglas-fir", L("96 in"), L("4 ft")) is None
    assert shop.prices.price_of("2x6 Douglas-fir", L("96 in")) is None


def test_a_tool_is_found_by_any_name_it_goes_by() -> None:
    shop = usual()
    for name in ("chop saw", "Mitre saw", "miter saw"):
        tool = shop.tool(name)
        assert tool is not None
        assert tool.name == "Miter saw"
    assert shop.tool("loom") is None
    assert shop.tool("Band saw") is None


@pytest.mark.parametrize("name", known_tools())
def test_what_is_known_of_a_tool_is_said_in_words_that_plans_use(name: str) -> None:
    known = tool_knowledge(name)
    assert known is not None
    assert set(known.does) <= set(OPERATIONS)
    assert known.purpose


POWERED = ("Guided circular saw", "Table saw", "Miter saw", "Jigsaw", "Band saw", "Drill/driver", "Sander",
           "Brad nailer", "Pocket-hole jig", "Router")  # fmt: skip


@pytest.mark.parametrize("name", POWERED)
def test_every_powered_tool_carries_a_caution_that_defers_to_its_manual(name: str) -> None:
    cautions = cautions_for([name])
    assert cautions
    assert any("manual" in caution.text for caution in cautions)


def test_every_caution_has_a_signal_word_a_source_and_no_promise() -> None:
    every = (
        *cautions_for(known_tools()),
        *general_cautions("glue", "finish", "oily rags", "lifting", "tall furniture"),
    )
    for caution in every:
        assert caution.signal in SIGNALS
        assert caution.source
        # hazard and consequence first, then how to avoid it: at least two sentences
        assert len(re.findall(r"[.](?:\s|$)", caution.text)) >= 2
        assert not re.search(r"\b(safe|safely|guarantee[ds]?|foolproof)\b", caution.text)
    assert len({caution.text for caution in every}) == len(every)


def test_cautions_come_gravest_first_and_each_once() -> None:
    cautions = cautions_for(["drill", "table saw", "Table saw", "cordless drill"])
    assert [(caution.signal, caution.about) for caution in cautions] == [
        ("warning", "Table saw"), ("caution", "Drill/driver"),
    ]  # fmt: skip


def test_a_tape_and_a_square_need_no_caution() -> None:
    assert cautions_for(["tape measure", "square"]) == ()


def test_a_tool_without_known_cautions_stops_the_plan() -> None:
    with pytest.raises(PlanError, match="a plan is not made without them") as refused:
        cautions_for(["lathe"])
    assert refused.value.given == "'lathe'"
    assert "[[tool.caution]]" in refused.value.remedy


def test_a_shop_may_bring_its_own_cautions() -> None:
    text = """
name = "Shed"
[[tool]]
name = "Lathe"
does = ["groove"]
[[tool.caution]]
signal = "warning"
text = "The bit grabs. Fingers are cut. Clamp the work."
[[tool]]
name = "Table saw"
[[tool.caution]]
signal = "notice"
text = "The fence of this saw is out by a hair. Parts come out wide. Measure from the blade."
source = "the shop's steward"
"""
    shop = shop_of(text, "shed.toml")
    found = shop.cautions(("Lathe", "table saw"))
    assert [(caution.signal, caution.about) for caution in found] == [
        ("warning", "Lathe"), ("warning", "Table saw"), ("notice", "Table saw"),
    ]  # fmt: skip
    assert found[0].source == "the shop's own rule"


def test_eyes_ears_dust_and_the_manual_come_with_every_plan_and_the_rest_where_it_belongs() -> None:
    always = {caution.about for caution in general_cautions()}
    assert always == {"eyes and ears", "dust", "clothing", "manuals and local rules"}
    rags = general_cautions("oily rags")[-1]
    assert rags.about == "oily rags"
    assert "water" in rags.text
    with pytest.raises(KeyError):
        general_cautions("weather")
