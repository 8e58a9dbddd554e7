"""Numbers that no line may break: a whole number stays with its fraction, and a number with its unit."""

import re
from typing import Any

_UNITS = "in|ft|mm|cm|m|lb|oz|kg|min|h"
_BREAKS = re.compile(
    rf"(?<=\d) (?=\d+/\d|×[ \u00a0]≈?\d|(?:{_UNITS})\b(?!\.?[\w-]))|(?<=\d[ \u00a0]×) (?=≈?\d)"
)
"""The space before a fraction or a unit, of "1 1/2 in" both; and those in a size, "40 × 19"."""
_DRAWN = "figures"
"""Drawings set their own text, a line at a time: nothing breaks there."""


def tied(text: str) -> str:
    """Return a text whose mixed numbers, and numbers with their units, stay on one line."""
    return _BREAKS.sub("\u00a0", text)


def tied_data(value: Any) -> Any:
    """Return plain data with every text in it tied; names of fields and drawings stay as they are."""
    if isinstance(value, str):
        return tied(value)
    if isinstance(value, dict):
        return {name: one if name == _DRAWN else tied_data(one) for name, one in value.items()}
    if isinstance(value, list):
        return [tied_data(one) for one in value]
    return value
