"""Reading a shop file."""

import tomllib
from fractions import Fraction
from functools import cache
from importlib.resources import files
from pathlib import Path

from plankit.errors import PlanError
from plankit.shop.cautions import tool_knowledge
from plankit.shop.prices import Pack, PriceList, StockPrice
from plankit.shop.shop import Shop
from plankit.shop.table import Table
from plankit.shop.tool import LIMITS, OPERATIONS, SIGNALS, Caution, Tool
from plankit.stock import Offcut
from plankit.units import L, Mass


def read(path: str | Path) -> Shop:
    """Return the shop that a TOML file describes.

    raises  PlanError that names the file, the table, the key, what was given and what to write instead
    """
    file = Path(path)
    try:
        text = file.read_text(encoding="utf-8")
    except OSError as wrong:
        reason = (wrong.strerror or "it cannot be opened").lower()
        raise PlanError(
            f"the shop file cannot be read: {reason}.",
            where=file.name,
            given=str(path),
            remedy="Check the name and the folder, or leave the shop out to use a usual one.",
        ) from None
    except UnicodeDecodeError:
        raise PlanError(
            "the shop file is no text in UTF-8.",
            where=file.name,
            given=str(path),
            remedy="Save it as UTF-8 text.",
        ) from None
    return shop_of(text, file.name)


@cache
def usual() -> Shop:
    """Return a shop as many have it, for an author who has described none: usual tools, and no prices."""
    name = "usual.toml"
    return shop_of((files("plankit.shop") / name).read_text(encoding="utf-8"), name)


def shop_of(text: str, file: str) -> Shop:
    """Return the shop that a TOML text describes; `file` is the name used in messages."""
    try:
        contents = tomllib.loads(text, parse_float=str)
    except tomllib.TOMLDecodeError as wrong:
        raise PlanError(
            f"the shop file is no valid TOML: {wrong}.",
            where=file,
            remedy="Mend the line it names; texts and prices stand in quotes.",
        ) from None
    top = Table(file, "", contents)
    top.unit = _unit(top)
    shop = _shop(top)
    top.close()
    return shop


def _unit(top: Table) -> str:
    unit = top.text("unit", "in")
    if unit not in {"in", "mm"}:
        top.refuse("unit", "the unit is not one a shop can have.", unit, 'Write unit = "in" or unit = "mm".')
    return unit


def _shop(top: Table) -> Shop:
    currency = top.text("currency", "USD")
    kerf, trim = top.table("kerf"), top.table("trim")
    shop = Shop(
        name=top.text("name"),
        unit=top.unit,
        tools=tuple(_tool(one) for one in top.tables("tool")),
        lifting_limit=top.mass("lifting_limit", Mass.of_pounds(40)),
        waste_allowance=top.percent("waste_allowance", Fraction(1, 10)),
        sheet_kerf=kerf.length("sheets", L("1/8 in")),
        board_kerf=kerf.length("boards", L("1/8 in")),
        sheet_trim=trim.reach("sheet_edges", L("1/4 in")),
        board_trim=trim.reach("board_ends", L("1/2 in")),
        prices=_prices(top, currency),
        offcuts=_offcuts(top),
        note=top.text("note", ""),
    )
    kerf.close()
    trim.close()
    return shop


def _tool(table: Table) -> Tool:
    name = table.text("name")
    known = tool_knowledge(name)
    does = table.texts("does", OPERATIONS, known.does if known else ())
    if not does and known is None:
        table.refuse(
            "does", "this tool is not known, so say what it does.", name, 'Add a line such as does = ["rip"].'
        )
    kerf = table.length("kerf") if "kerf" in table.contents else None
    limits = tuple((key, table.length(key)) for key in LIMITS if key in table.contents)
    cautions = tuple(_caution(name, one) for one in table.tables("caution"))
    table.asked += [key for key in ("kerf", *LIMITS) if key not in table.asked]
    table.close()
    return Tool(known.name if known else name, does, kerf, limits, cautions)


def _caution(tool: str, table: Table) -> Caution:
    signal = table.text("signal")
    if signal not in SIGNALS:
        table.refuse("signal", "this is no signal word.", signal, f"Use one of: {', '.join(SIGNALS)}.")
    caution = Caution(signal, tool, table.text("text"), table.text("source", "the shop's own rule"))
    table.close()
    return caution


def _prices(top: Table, currency: str) -> PriceList:
    sheets = tuple(_price(one, currency, wide=True) for one in top.tables("sheet"))
    boards = tuple(_price(one, currency, wide=False) for one in top.tables("board"))
    packs = tuple(_pack(one, currency) for one in top.tables("pack"))
    _refuse_twice(top, (*sheets, *boards))
    return PriceList(currency, (*sheets, *boards), packs)


def _price(table: Table, currency: str, *, wide: bool) -> StockPrice:
    stock, length = table.text("stock"), table.length("length")
    width = table.length("width") if wide else None
    price = table.money("price", currency)
    table.close()
    return StockPrice(stock, length, width, price)


def _refuse_twice(top: Table, prices: tuple[StockPrice, ...]) -> None:
    seen: set[tuple[object, ...]] = set()
    for entry in prices:
        size = (entry.key, entry.length, entry.width)
        if size in seen:
            top.refuse("", "one size of a stock has two prices.", entry.stock, "Keep one of the two.")
        seen.add(size)


def _pack(table: Table, currency: str) -> Pack:
    item, holds, of = table.text("item"), table.count("holds"), table.text("of")
    pack = Pack(item, holds, of, table.text("sold_as", f"{holds} {of}"), table.money("price", currency))
    table.close()
    return pack


def _offcuts(top: Table) -> tuple[Offcut, ...]:
    found = tuple(_offcut(one) for one in top.tables("offcut"))
    labels = [offcut.label for offcut in found]
    for label in labels:
        if labels.count(label) > 1:
            top.refuse("", "two offcuts carry the same label.", label, "Give each its own label.")
    return found


def _offcut(table: Table) -> Offcut:
    width = table.length("width") if "width" in table.contents else None
    table.asked.append("width")
    offcut = Offcut(
        table.text("stock"), table.length("length"), width, table.text("label"), table.text("note", "")
    )
    table.close()
    return offcut
