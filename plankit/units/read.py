"""Reading lengths as people write them, and refusing what can be read in two ways."""

import re
from fractions import Fraction
from typing import NoReturn

from plankit.errors import PlanError

MM_IN: dict[str, Fraction] = {
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
}
"""Millimetres in each unit, exactly (NIST SP 811, appendix B: 1 in = 25.4 mm, 1 ft = 0.3048 m)."""

_SPELLINGS = {
    "in": ("in", "in.", "inch", "inches", '"'),
    "ft": ("ft", "ft.", "foot", "feet", "'"),
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters"),
}
_UNITS = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings}
_SIGNS = str.maketrans(
    {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "⁄": "/", "−": "-", "–": "-", "\u00a0": " "}
)
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6",
}  # fmt: skip
_NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+\.\d+|\.\d+|\d+)"
_UNIT = "|".join(re.escape(spelling) for spelling in sorted(_UNITS, key=len, reverse=True))
_ONE = re.compile(rf"({_NUMBER})\s*({_UNIT})?")
_FEET_AND_INCHES = re.compile(rf"(\d+)\s*(ft\.?|foot|feet|')[ -]*({_NUMBER})\s*(in\.?|inch|inches|\")")
_EXAMPLES = 'Write it like "23 1/4 in", "2 ft 3 in" or "590 mm".'


def read_mm(value: object, unit: str | None = None) -> Fraction:
    """Return the exact millimetres in a text, a whole number or a fraction.

    unit    the unit of a number that carries none; without it such a number is refused
    raises  PlanError, which says what is unclear and what to write instead
    """
    if unit is not None and unit not in MM_IN:
        raise PlanError("the unit is not known.", given=repr(unit), remedy=f"Known are: {', '.join(MM_IN)}.")
    if isinstance(value, bool) or not isinstance(value, str | int | Fraction):
        _refuse_type(value)
    if isinstance(value, str):
        return _read_text(value, unit)
    return _in_unit(Fraction(value), unit, value if isinstance(value, int) else str(value))


def read_number(text: str) -> Fraction:
    """Return the exact value of a number such as "23 1/4", "23-1/4", "3/8" or "23.25"."""
    clean = tidy(text)
    if not re.fullmatch(_NUMBER, clean):
        raise PlanError(
            "this is not a number that can be read.", given=repr(text), remedy="Write it like 23 1/4."
        )
    return _value(clean, text)


def tidy(text: str) -> str:
    """Return a text with its signs in their plainest form: straight quotes, plain slashes, single spaces."""
    clean = text.translate(_SIGNS)
    for sign, plain in _VULGAR.items():
        clean = re.sub(rf"(\d)\s*{sign}", rf"\1 {plain}", clean).replace(sign, plain)
    clean = re.sub(r"'\s*'", '"', clean)
    return " ".join(clean.split())


def _read_text(text: str, unit: str | None) -> Fraction:
    clean = tidy(text)
    sign = -1 if clean.startswith("-") else 1
    body = clean.removeprefix("-").strip()
    if match := _FEET_AND_INCHES.fullmatch(body):
        inches = _value(match[3], text)
        if inches >= 12:
            _refuse(
                text, "the inches after the feet come to a foot or more.", "Carry them over into the feet."
            )
        return sign * (int(match[1]) * MM_IN["ft"] + inches * MM_IN["in"])
    if match := _ONE.fullmatch(body):
        return sign * _in_unit(_value(match[1], text), _UNITS.get(match[2] or "", unit), text)
    return _refuse_text(text, body)


def _value(number: str, text: str) -> Fraction:
    whole, _, part = number.replace("-", " ").rpartition(" ")
    if part.endswith("/0") or re.search(r"/0+$", part):
        _refuse(text, "a fraction is divided by nothing.", _EXAMPLES)
    fraction = Fraction(part)
    if whole and fraction >= 1:
        _refuse(
            text,
            "the fraction after the whole number is one or more, so a digit may be missing or misplaced.",
            f"Write {Fraction(whole) + fraction} if that is meant, or mend the fraction.",
        )
    return Fraction(whole or 0) + fraction


def _in_unit(number: Fraction, unit: str | None, text: object) -> Fraction:
    if unit is None:
        _refuse(text, "the number carries no unit.", _EXAMPLES)
    return number * MM_IN[unit]


def _refuse(text: object, why: str, remedy: str) -> NoReturn:
    raise PlanError(f"this length cannot be read: {why}", given=repr(text), remedy=remedy)


def _refuse_type(value: object) -> NoReturn:
    if isinstance(value, float):
        _refuse(value, "a float is not exact.", f'Put it in quotes: "{value}".')
    _refuse(value, "it is neither text nor a whole number.", _EXAMPLES)


def _refuse_text(text: str, body: str) -> NoReturn:
    if not body:
        _refuse(text, "there is nothing in it.", _EXAMPLES)
    if "," in body:
        _refuse(text, "a comma may part thousands or decimals.", 'Write "1.5" or "1500", without a comma.')
    if re.fullmatch(rf"(\d+)\s*(ft\.?|foot|feet|')[ -]*{_NUMBER}", body):
        _refuse(text, "what follows the feet carries no unit.", "Write it like 2 ft 3 in.")
    if re.fullmatch(rf"{_NUMBER}\s*-\s*{_NUMBER}.*", body):
        _refuse(
            text,
            "it may be a whole and its fraction, a difference or a range.",
            'Write "23 1/4" for a whole and a fraction; subtract lengths outside the quotes.',
        )
    if re.search(r"\d\s*[x×*]\s*\d", body):
        _refuse(text, "there seem to be two sizes in it.", "Give each length on its own.")
    if re.fullmatch(rf"{_NUMBER}\s*[A-Za-z.]+", body):
        _refuse(text, "its unit is not known.", f"Known units: {', '.join(MM_IN)}. {_EXAMPLES}")
    _refuse(text, "it has no form that plankit knows.", _EXAMPLES)
