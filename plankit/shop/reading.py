"""Reading a shop file."""

import os
import tomllib
from dataclasses import replace
from fractions import Fraction
from functools import cache
from importlib.resources import files
from pathlib import Path

from plankit.errors import PlanError
from plankit.shop.cautions import tool_knowledge
from plankit.shop.preferences import PREFERENCES
from plankit.shop.prices import Pack, PriceList, StockPrice
from plankit.shop.shop import Built, Shop
from plankit.shop.table import Table
from plankit.shop.tool import LEADS, LIMITS, OPERATIONS, SIGNALS, Caution, Tool
from plankit.stock import Offcut
from plankit.units import L, Length, Mass

DRY, DAMP = Fraction(30, 100), Fraction(70, 100)
"""How dry and how damp the air is where a shop file does not say."""


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
    return replace(shop_of(text, file.name), file=_from_here(file))


def _from_here(file: Path) -> str:
    """Name a file as it lies from the folder of the work, so that no page tells where that folder is."""
    try:
        return Path(os.path.relpath(file)).as_posix()
    except ValueError:  # on another drive
        return file.name


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
        prefer=tuple(dict.fromkeys((*top.texts("prefer", tuple(PREFERENCES), ()), *PREFERENCES))),
        sag_limit=_sag_limit(top),
        humidities=_humidities(top.table("humidity")),
        lift=_lift(top),
        longest_carried=top.length("longest_carried", None),
        built=tuple(_built(one) for one in top.tables("built")),
    )
    kerf.close()
    trim.close()
    return shop


def _sag_limit(top: Table) -> Fraction:
    """The number that a span is divided by, as its share of one."""
    given = top.raw("sag_limit", 144)
    if not isinstance(given, int) or isinstance(given, bool) or given < 1:
        top.refuse("sag_limit", "what a span is divided by was expected.", given, "Write it like sag_limit = 144.")
    return Fraction(1, given)


def _humidities(table: Table) -> tuple[Fraction, Fraction]:
    dry, damp = table.percent("dry", DRY), table.percent("damp", DAMP)
    if not 0 < dry < damp < 1:
        table.refuse(
            "damp",
            "the damp season is damper than the dry one, and neither is 0 or 100 %.",
            table.contents.get("damp", "70 %"),
            'Write for instance dry = "30 %" and damp = "70 %".',
        )
    table.close()
    return dry, damp


def _lift(top: Table) -> tuple[Length, Length] | None:
    """The table [lift], which says that the lifting equation counts: from which height to which."""
    table = top.table("lift")
    if "lift" not in top.contents:
        return None
    ends = table.reach("from", L("15 in")), table.reach("to", L("30 in"))
    table.close()
    return ends


def _tool(table: Table) -> Tool:
    name = table.text("name")
    known = tool_knowledge(name)
    does = table.texts("does", OPERATIONS, known.does if known else ())
    if not does and known is None:
        table.refuse(
            "does", "this tool is not known, so say what it does.", name, 'Add a line such as does = ["rip"].'
        )
    led = table.text("led", known.led if known else "")
    if led and led not in LEADS:
        table.refuse("led", "no saw is led that way.", led, f"Use one of: {', '.join(LEADS)}.")
    kerf = table.length("kerf") if "kerf" in table.contents else None
    limits = tuple((key, table.length(key)) for key in LIMITS if key in table.contents)
    cautions = tuple(_caution(name, one) for one in table.tables("caution"))
    table.asked += [key for key in ("kerf", *LIMITS) if key not in table.asked]
    table.close()
    return Tool(known.name if known else name, does, kerf, limits, cautions, led)


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
    length = table.length("length")
    offcut = Offcut(
        table.text("stock"), length, width, table.text("label"), table.text("note", ""), _defects(table, length)
    )
    table.close()
    return offcut


def _defects(table: Table, length: Length) -> tuple[tuple[Length, Length], ...]:
    return tuple(_defect(table, one, length) for one in table.words("defects"))


def _defect(table: Table, given: str, length: Length) -> tuple[Length, Length]:
    """A place of an offcut that nothing is cut from: "20 to 24", from its left end."""
    remedy = 'Write from where to where it lies, from the left end: defects = ["20 to 24"].'
    start, to, end = given.partition(" to ")
    try:
        found = L(start, table.unit), L(end, table.unit)
    except PlanError:
        table.refuse("defects", "this is no place on the offcut.", given, remedy)
    if not to or not 0 <= found[0].mm < found[1].mm <= length.mm:
        table.refuse("defects", "this place does not lie on the offcut.", given, remedy)
    return found


def _built(table: Table) -> Built:
    built = Built(table.text("plan"), table.text("version", ""), table.words("used"), table.words("kept"))
    table.close()
    return built
