"""Reading a job file: every field that cannot be used is answered with its name, its value and what was expected."""

import json
import re
from fractions import Fraction
from typing import Any, NoReturn, cast

from plankit.cutting.job import Job, Piece, StockKind, Unit
from plankit.cutting.saws import Saw, Way
from plankit.errors import AskedWrongly, PlanError
from plankit.reference.tables import meant
from plankit.shop.tool import LEADS
from plankit.units import Mass, Money, read_mm

_JOB = {"unit", "kerf", "stock", "parts", "stages", "saws", "lifting_limit"}
_STOCK = {"name", "length", "width", "available", "price", "trim", "thickness", "weight", "breadth"}
_SAW = {"name", "led", "kerf", "longest_cut", "widest_rip", "widest_crosscut", "deepest_cut", "shortest_piece"}
_PART = {"name", "length", "width", "quantity", "grain", "from", "strip"}
_PRICE = re.compile(r"\$?\d{1,15}(\.\d{1,15})?", re.ASCII)
_MASS = re.compile(r"(\d{1,9}(?:\.\d{1,9})?)\s*(lb|kg)?", re.ASCII)
_LONGEST = Fraction(1_000_000)
"""No length in a job is above this, in mm (a kilometre): it is a slip of the pen."""
_A_LENGTH = 'a length such as "23 1/4", "2 ft 3 in" or "590 mm"'


def read_job(text: str) -> Job:
    """Return the job a JSON text describes.

    raises  AskedWrongly, which names the field, gives its value and says what was expected
    """
    try:
        found = json.loads(text, object_pairs_hook=_each_field_once)
    except (json.JSONDecodeError, RecursionError) as problem:
        raise AskedWrongly("this is not JSON.", where="job", given=str(problem)) from None
    except ValueError as problem:  # a number of thousands of digits
        raise AskedWrongly("a number in it cannot be read.", where="job", given=str(problem)[:80]) from None
    return job_from(found)


def job_from(found: object) -> Job:
    """Return the job a decoded JSON value describes; raises AskedWrongly as `read_job` does."""
    fields = _object(found, "job", _JOB, needed=("stock", "parts"))
    unit = _unit(fields.get("unit", "in"))
    stock = tuple(_stock(one, f"stock[{n}]", unit) for n, one in enumerate(_list(fields["stock"], "stock")))
    if not stock:
        _wrong("stock", [], "at least one board or sheet")
    pieces = tuple(
        _part(one, f"parts[{n}]", unit, stock) for n, one in enumerate(_list(fields["parts"], "parts"))
    )
    kerf = _length(fields.get("kerf", "0"), "kerf", unit, least=0)
    stages = None if fields.get("stages") is None else _whole(fields["stages"], "stages", least=1)
    saws = tuple(
        _saw(one, f"saws[{n}]", unit, kerf) for n, one in enumerate(_list(fields.get("saws", []), "saws"))
    )
    limit = None if fields.get("lifting_limit") is None else _mass(fields["lifting_limit"], "lifting_limit", unit)
    if limit is not None and all(kind.mass is None for kind in stock):
        _wrong("lifting_limit", fields["lifting_limit"], "the weight of a stock beside it, or no lifting limit")
    return Job(stock, pieces, kerf, unit, stages, saws=saws, lifting_limit=limit)


def _stock(found: object, where: str, unit: Unit) -> StockKind:
    fields = _object(found, where, _STOCK, needed=("name", "length"))
    width = None if fields.get("width") is None else _length(fields["width"], f"{where}.width", unit)
    available = fields.get("available")
    price = fields.get("price")
    ends, edges = _trim(fields.get("trim", "0"), f"{where}.trim", unit)
    kind = StockKind(
        name=_text(fields["name"], f"{where}.name"),
        length=_length(fields["length"], f"{where}.length", unit),
        width=width,
        available=None if available is None else _whole(available, f"{where}.available", least=0),
        price=None if price is None else _price(price, f"{where}.price"),
        trim_ends=ends,
        trim_edges=Fraction(0) if width is None else edges,
        thickness=_some_length(fields, "thickness", where, unit),
        mass=None if fields.get("weight") is None else _mass(fields["weight"], f"{where}.weight", unit),
        breadth=_some_length(fields, "breadth", where, unit),
    )
    if kind.clear_length <= 0 or kind.clear_width <= 0:
        _wrong(f"{where}.trim", fields.get("trim"), "a trim that leaves some of the stock")
    return kind


def _part(found: object, where: str, unit: Unit, stock: tuple[StockKind, ...]) -> Piece:
    fields = _object(found, where, _PART, needed=("name", "length"))
    width = None if fields.get("width") is None else _length(fields["width"], f"{where}.width", unit)
    grain = fields.get("grain", "length")
    if grain not in ("length", "any"):
        _wrong(f"{where}.grain", grain, '"length" or "any"')
    return Piece(
        name=_text(fields["name"], f"{where}.name"),
        length=_length(fields["length"], f"{where}.length", unit),
        width=width,
        quantity=_whole(fields.get("quantity", 1), f"{where}.quantity", least=0),
        turns=grain == "any" and width is not None,
        sources=_sources(fields.get("from"), f"{where}.from", stock, board=width is None),
        strip=_text(fields["strip"], f"{where}.strip") if "strip" in fields else "",
    )


def _saw(found: object, where: str, unit: Unit, kerf: Fraction) -> Saw:
    """Return a saw from the words that a shop file has for it."""
    fields = _object(found, where, _SAW, needed=("name", "led"))
    led = fields["led"]
    if not isinstance(led, str) or led not in LEADS:
        _wrong(f"{where}.led", led, " or ".join(f'"{way}"' for way in LEADS))
    reach = "widest_rip" if led == "fence" else "widest_crosscut"
    longest, widest, deepest, shortest = (
        _some_length(fields, name, where, unit)
        for name in ("longest_cut", reach, "deepest_cut", "shortest_piece")
    )
    for name in {"widest_rip", "widest_crosscut"} - {reach if led in ("fence", "stop") else ""}:
        if name in fields:
            _wrong(f"{where}.{name}", fields[name], f"no such field: a saw led by {led} has no such limit")
    own = kerf if fields.get("kerf") is None else _length(fields["kerf"], f"{where}.kerf", unit, least=0)
    return Saw(_text(fields["name"], f"{where}.name"), cast(Way, led), own, longest, widest, deepest, shortest)


def _some_length(fields: dict[str, Any], name: str, where: str, unit: Unit) -> Fraction | None:
    return None if fields.get(name) is None else _length(fields[name], f"{where}.{name}", unit)


def _mass(found: object, where: str, unit: Unit) -> Fraction:
    """Return a weight in kg; one without a unit is in pounds beside inches, in kilograms beside millimetres."""
    read = _MASS.fullmatch(str(found).strip()) if isinstance(found, str | int) else None
    if read is None or isinstance(found, bool) or not Fraction(read[1]):
        _wrong(where, found, 'a weight such as "40 lb" or "18 kg"')
    number, name = Fraction(read[1]), read[2] or ("lb" if unit == "in" else "kg")
    return Mass.of_pounds(number).kg if name == "lb" else number


def _sources(found: object, where: str, stock: tuple[StockKind, ...], *, board: bool) -> tuple[str, ...]:
    if found is None:
        return ()
    names = [_text(one, f"{where}[{n}]") for n, one in enumerate(_list(found, where))]
    kind = "board" if board else "sheet"
    fitting = [one.name for one in stock if one.is_board == board]
    for name in names:
        if name not in fitting:
            _wrong(
                where, name, f"the name of a {kind} in the stock ({', '.join(fitting) or 'there is none'})"
            )
    if not names:
        _wrong(where, [], f"the name of a {kind}, or no such field for any")
    return tuple(dict.fromkeys(names))


def _trim(found: object, where: str, unit: Unit) -> tuple[Fraction, Fraction]:
    if not isinstance(found, dict):
        both = _length(found, where, unit, least=0)
        return both, both
    fields = _object(found, where, {"ends", "edges"}, needed=())
    ends = _length(fields.get("ends", "0"), f"{where}.ends", unit, least=0)
    return ends, _length(fields.get("edges", "0"), f"{where}.edges", unit, least=0)


def _length(found: object, where: str, unit: Unit, least: int | None = None) -> Fraction:
    if isinstance(found, bool) or not isinstance(found, str | int):
        _wrong(where, found, f"{_A_LENGTH}, in quotes")
    try:
        length = read_mm(found, unit)
    except (PlanError, ValueError) as problem:
        why = problem.what if isinstance(problem, PlanError) else "it cannot be read."
        _wrong(where, found, f"{_A_LENGTH} ({why.rstrip('.')})")
    if length < 0 or (length == 0 and least is None):
        _wrong(where, found, "a length greater than nothing" if least is None else "a length of 0 or more")
    if length > _LONGEST:
        _wrong(where, found, "a length of a kilometre at the most")
    return length


def _price(found: object, where: str) -> Fraction:
    if isinstance(found, bool) or not isinstance(found, str | int):
        _wrong(where, found, 'a price such as "62.00", in quotes')
    if not _PRICE.fullmatch(str(found).strip()):
        _wrong(where, found, 'a price of 0 or more such as "62.00"')
    return Money.read(found).amount


def _whole(found: object, where: str, *, least: int) -> int:
    if isinstance(found, bool) or not isinstance(found, int) or found < least:
        _wrong(where, found, f"a whole number, {least} or more")
    return found


def _text(found: object, where: str) -> str:
    if not isinstance(found, str) or not found.strip():
        _wrong(where, found, "a name in quotes")
    if any("\ud800" <= letter <= "\udfff" for letter in found):
        _wrong(where, found, "a name without half letters (\\ud800 to \\udfff stand for nothing alone)")
    return found


def _unit(found: object) -> Unit:
    if found not in ("in", "mm"):
        _wrong("unit", found, '"in" or "mm"')
    return "in" if found == "in" else "mm"


def _list(found: object, where: str) -> list[Any]:
    if not isinstance(found, list):
        _wrong(where, found, "a list in square brackets")
    return found


def _object(found: object, where: str, known: set[str], needed: tuple[str, ...]) -> dict[str, Any]:
    if not isinstance(found, dict):
        _wrong(where, found, "fields in curly brackets")
    for name in found:
        if name not in known:
            guess = meant(name, known)
            fields = f"one of the fields {', '.join(sorted(known))}"
            _wrong(f"{where}.{name}", found[name], f"{fields}. {guess}".strip() if guess else fields)
    missing = [name for name in needed if name not in found]
    if missing:
        _refuse_missing(where, missing, needed, known)
    return found


def _refuse_missing(where: str, missing: list[str], needed: tuple[str, ...], known: set[str]) -> NoReturn:
    are = f"the field {missing[0]} is" if len(missing) == 1 else f"the fields {' and '.join(missing)} are"
    others = sorted(known - set(needed))
    raise AskedWrongly(
        f"{are} missing.",
        where=where,
        remedy=f"It needs {' and '.join(needed)}; it may also have {', '.join(others)}.",
    )


def _each_field_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, value in pairs:
        if name in found:
            _wrong(name, value, "this field once, not twice")
        found[name] = value
    return found


def _wrong(where: str, given: object, expected: str) -> NoReturn:
    shown = json.dumps(given, ensure_ascii=False, default=str).encode("utf-8", "backslashreplace").decode()
    short = shown if len(shown) <= 80 else f"{shown[:77]}..."
    raise AskedWrongly("this field cannot be used.", where=where, given=short, remedy=f"Expected {expected}.")
