"""A shop file is read exactly; what is wrong in it is said with file, table, key, value and remedy."""

from fractions import Fraction
from pathlib import Path

import pytest

from plankit.errors import PlanError
from plankit.shop import Shop, known_tools, read, usual
from plankit.shop.reading import shop_of
from plankit.units import L, Mass, Money

F = Fraction
DEMO = Path(__file__).parents[2] / "notebooks" / "shop.toml"
SMALL = 'name = "Shed"\n'
SHEET = '[[sheet]]\nstock = "3/4 in plywood"\n'
BOARD = '[[board]]\nstock = "2x4 x"\n'
LOOM = '[[tool]]\nname = "Loom"\n'
DRILL = '[[tool]]\nname = "Drill"\n'
OFFCUT = '[[offcut]]\nstock = "4x4 x"\n'
PACK = '[[pack]]\nitem = "screw"\n'


def test_the_demonstration_shop_reads_and_says_that_its_prices_are_invented() -> None:
    shop = read(DEMO)
    assert "invented" in shop.name
    assert "invented" in shop.note
    assert "invented" in DEMO.read_text(encoding="utf-8").split("\n\n")[0]
    assert shop.prices.price_of("3/4 in plywood", L("8 ft"), L("4 ft")) == Money.read("62.00")
    assert [offcut.label for offcut in shop.offcuts_of("4x4 loblolly pine")] == ["R1", "R2"]
    sold = shop.prices.sizes_of("2x10 loblolly pine")
    assert [entry.length for entry in sold] == [
        L("8 ft"),
        L("10 ft"),
        L("12 ft"),
    ]


def test_everything_on_the_demonstration_rack_and_list_is_stock_that_exists() -> None:
    from plankit.stock import lumber, sheet

    shop = read(DEMO)
    for name in {entry.stock for entry in shop.prices.stocks} | {offcut.stock for offcut in shop.offcuts}:
        first, rest = name.split(" ", 1)
        found = (
            sheet(rest.removeprefix("in "), first) if rest.startswith("in ") else lumber(first, species=rest)
        )
        assert found.name == name


WORK = """break down sheets, rip, crosscut, taper, bore, drive screws, pocket holes, drive pins, plane, sand,
clamp, glue, band edges, finish, measure, mark"""


@pytest.mark.parametrize("shop", [usual(), read(DEMO)], ids=["usual", "demonstration"])
def test_a_shop_has_a_tool_for_every_kind_of_work(shop: Shop) -> None:
    for operation in " ".join(WORK.split()).split(", "):
        assert shop.tools_for(operation), operation


def test_the_usual_shop_has_no_prices() -> None:
    assert usual().prices.stocks == ()
    assert usual().prices.price_of("3/4 in plywood", L("8 ft"), L("4 ft")) is None


def test_a_shop_that_says_little_has_the_common_values_for_the_rest() -> None:
    shop = shop_of(SMALL, "shed.toml")
    # common practice: 1/8 in kerf, 40 lb for one person, a tenth to waste
    assert (shop.sheet_kerf, shop.board_kerf) == (L("1/8 in"), L("1/8 in"))
    assert shop.lifting_limit == Mass.of_pounds(40)
    assert shop.waste_allowance == F(1, 10)
    assert shop.tools == ()
    # a 144th of the span; 30 and 70 % relative humidity indoors; nothing lifted by the equation
    assert (shop.sag_limit, shop.humidities, shop.lift) == (F(1, 144), (F(3, 10), F(7, 10)), None)


def test_values_are_read_exactly_whether_or_not_they_stand_in_quotes() -> None:
    text = (
        SMALL
        + """
unit = "mm"
currency = "EUR"
lifting_limit = "18 kg"
waste_allowance = 12.5
sag_limit = 240
[humidity]
dry = "45 %"
damp = 60
[lift]
from = 500
[kerf]
sheets = 2.4
boards = "1/8 in"
[trim]
sheet_edges = 0
[[board]]
stock = "4x4 loblolly pine"
length = 2440
price = 13.60
[[tool]]
name = "chop saw"
kerf = 3
widest_crosscut = "305"
[[pack]]
item = "dowel"
holds = "1 1/2"
of = "m"
price = 2
"""
    )
    shop = shop_of(text, "shed.toml")
    assert shop.lifting_limit == Mass(F(18))
    assert shop.waste_allowance == F(1, 8)
    assert (shop.sag_limit, shop.humidities) == (F(1, 240), (F(45, 100), F(6, 10)))
    assert shop.lift == (L("500 mm"), L("30 in"))
    assert (shop.sheet_kerf, shop.board_kerf, shop.sheet_trim) == (L("2.4 mm"), L("1/8 in"), L("0 in"))
    assert shop.prices.price_of("4x4 loblolly pine", L("2440 mm")) == Money(F("13.6"), "EUR")
    assert shop.tools[0].name == "Miter saw"
    assert shop.tools[0].limit("widest_crosscut") == L("305 mm")
    assert shop.tools[0].limit("widest_rip") is None
    assert shop.prices.packs_of("Dowel")[0].sold_as == "3/2 m"


@pytest.mark.parametrize(
    ("added", "where", "what", "remedy"),
    [
        ("", "shed.toml, name", '"name" is missing', "name = …"),
        ('nmae = "Shed"', "shed.toml, name", '"name" is missing', 'There is "nmae"'),
        ('name = ""', "shed.toml, name", "a text was expected", "quotes"),
        ("name = 3", "shed.toml, name", "a text was expected", "quotes"),
        (SMALL + "lifting_limt = 3", "shed.toml, lifting_limt", "this key is not known", "lifting_limit"),
        (SMALL + "[kerfs]", "shed.toml, kerfs", "this key is not known", "kerf"),
        (SMALL + "kerf = 3", "shed.toml, [kerf]", "a table was expected", "[kerf] as a table"),
        (SMALL + "[kerf]\nsheet = 3", "shed.toml, [kerf], sheet", "this key is not known", "sheets"),
        (SMALL + '[kerf]\nsheets = "thin"', "shed.toml, [kerf], sheets", "cannot be read", "Write it like"),
        (
            SMALL + "[kerf]\nsheets = 0",
            "shed.toml, [kerf], sheets",
            "the length is nothing",
            "more than nothing",
        ),
        (SMALL + "[trim]\nboard_ends = -1", "shed.toml, [trim], board_ends", "below nothing", "minus sign"),
        (SMALL + 'unit = "cubit"', "shed.toml, unit", "the unit is not one", '"in"'),
        (SMALL + "lifting_limit = 40", "shed.toml, lifting_limit", "a weight with its unit", '"40 lb"'),
        (
            SMALL + 'lifting_limit = "much lb"',
            "shed.toml, lifting_limit",
            "the weight cannot be read",
            '"40 lb"',
        ),
        (SMALL + 'lifting_limit = "0 kg"', "shed.toml, lifting_limit", "the weight is nothing", '"40 lb"'),
        (
            SMALL + 'waste_allowance = "some"',
            "shed.toml, waste_allowance",
            "a percentage was expected",
            '"10 %"',
        ),
        (SMALL + 'waste_allowance = "150 %"', "shed.toml, waste_allowance", "from 0 to 100", '"10 %"'),
        (SMALL + "waste_allowance = true", "shed.toml, waste_allowance", "a percentage", '"10 %"'),
        (SMALL + "sag_limit = 0", "shed.toml, sag_limit", "divided by", "sag_limit = 144"),
        (SMALL + 'sag_limit = "1/144"', "shed.toml, sag_limit", "divided by", "sag_limit = 144"),
        (SMALL + "[humidity]\ndry = 80", "shed.toml, [humidity], damp", "damper than the dry one", '"30 %"'),
        (SMALL + "[humidity]\nwet = 80", "shed.toml, [humidity], wet", "not known", "damp"),
        (SMALL + '[lift]\nfrom = "low"', "shed.toml, [lift], from", "cannot be read", "Write it like"),
        (SMALL + "tool = 3", "shed.toml, tool", "a list of tables was expected", "[[tool]]"),
        (SMALL + "tool = [3]", "shed.toml, [[tool]] 1", "a table was expected", "[[tool]] 1 as a table"),
        (SMALL + LOOM, "shed.toml, [[tool]] 1, does", "say what it does", "does = "),
        (SMALL + LOOM + 'does = ["knit"]', "shed.toml, [[tool]] 1, does", "not known here", "Known"),
        (SMALL + LOOM + 'does = "rip"', "shed.toml, [[tool]] 1, does", "a list of texts", '["rip"'),
        (SMALL + DRILL + "speed = 3", "shed.toml, [[tool]] 1, speed", "this key is not known", "Known are"),
        (
            SMALL + DRILL + '[[tool.caution]]\nsignal = "beware"\ntext = "x"',
            "shed.toml, [[tool]] 1, [[tool.caution]] 1, signal",
            "no signal word",
            "warning",
        ),
        (
            SMALL + SHEET + 'length = "96"\nprice = "62"',
            "shed.toml, [[sheet]] 1, width",
            '"width" is missing',
            "width = …",
        ),
        (
            SMALL + BOARD + 'length = "96"\nprice = "62,00"',
            "shed.toml, [[board]] 1, price",
            "a price cannot be read",
            '"62.00"',
        ),
        (
            SMALL + BOARD + 'length = "96"\nprice = "-1"',
            "shed.toml, [[board]] 1, price",
            "below nothing",
            '"62.00"',
        ),
        (SMALL + 2 * (BOARD + 'length = "96"\nprice = "1"\n'), "shed.toml", "two prices", "Keep one"),
        (
            SMALL + PACK + 'holds = "many"\nof = "screws"\nprice = 1',
            "shed.toml, [[pack]] 1, holds",
            "above nothing",
            "how many",
        ),
        (
            SMALL + PACK + 'holds = true\nof = "screws"\nprice = 1',
            "shed.toml, [[pack]] 1, holds",
            "a number was expected",
            "100",
        ),
        (SMALL + 2 * (OFFCUT + 'length = 9\nlabel = "R1"\n'), "shed.toml", "the same label", "its own"),
        (SMALL + OFFCUT + "length = 9", "shed.toml, [[offcut]] 1, label", '"label" is missing', "label = …"),
        ("name = ", "shed.toml", "no valid TOML", "Mend the line"),
    ],
)
def test_what_is_wrong_in_a_shop_file_is_said_where_it_stands(
    added: str, where: str, what: str, remedy: str
) -> None:
    with pytest.raises(PlanError) as refused:
        shop_of(added, "shed.toml")
    assert refused.value.where == where
    assert what in refused.value.what
    assert remedy in refused.value.remedy


def test_the_value_that_was_given_is_quoted() -> None:
    with pytest.raises(PlanError) as refused:
        shop_of(SMALL + '[kerf]\nsheets = "1/0"', "shed.toml")
    assert refused.value.given == "'1/0'"


def test_a_shop_file_that_is_not_there_or_no_text_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PlanError, match="no such file") as refused:
        read(tmp_path / "shed.toml")
    assert refused.value.where == "shed.toml"
    with pytest.raises(PlanError, match="cannot be read"):
        read(tmp_path)
    (tmp_path / "shed.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(PlanError, match="no text in UTF-8"):
        read(tmp_path / "shed.toml")


def test_every_known_tool_may_stand_in_a_shop_by_name_alone() -> None:
    for name in known_tools():
        shop = shop_of(f'{SMALL}[[tool]]\nname = "{name}"', "shed.toml")
        assert shop.tools[0].does


def test_a_text_where_a_list_belongs_is_answered_with_words_the_key_knows() -> None:
    for line, hint in (('prefer = "few settings"', 'prefer = ["few settings"]'),
                       ("prefer = 3", 'prefer = ["large offcut", "few settings"]'),
                       ('[[tool]]\nname = "Saw"\ndoes = "rip"', "does = [")):  # fmt: skip
        with pytest.raises(PlanError) as refused:
            shop_of(f'name = "Shed"\n{line}\n', "shed.toml")
        assert hint in refused.value.remedy
        written = refused.value.remedy.removeprefix("Write it like ").removesuffix(".")
        first = line.rpartition("\n")[0]
        assert shop_of(f'name = "Shed"\n{first}\n{written}\n', "shed.toml").name == "Shed"
