"""What stock is called, and sizes as authors write them."""

import re
import unicodedata
from functools import lru_cache

from plankit.errors import PlanError
from plankit.units import L, Length, mixed, tidy
from plankit.units.expression import Typed

_LETTERS = str.maketrans({"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "ł": "l", "þ": "th", "ı": "i"})
"""Latin letters that do not come apart into a plain one and its accent."""

type Size = Length | str | int
"""A length, or text; a number without a unit is in the unit of the nominal size."""


@lru_cache(maxsize=1024)
def slug(name: str) -> str:
    """Return a name as a key for files and addresses: "3/4 in plywood" as "3-4-in-plywood", "Ölaf" as "olaf".

    Letters lose their accents (Unicode's compatibility decomposition, NFKD); a name without Latin letters and
    figures comes to "".
    """
    apart = unicodedata.normalize("NFKD", tidy(name).lower().translate(_LETTERS))
    plain = "".join(letter for letter in apart if not unicodedata.combining(letter))
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


def refuse_unnamed(said: object, what: str, where: str, remedy: str) -> None:
    """Refuse what is no text, or an empty one, where an author names stock.

    what    what was expected of what: "lumber is named by its nominal size and its wood: its species"
    raises  PlanError with the remedy
    """
    if not isinstance(said, str) or not said.strip():
        raise PlanError(f"{what} was expected, in quotes.", where=where, given=repr(said), remedy=remedy)


def unit_of(nominal: str) -> str:
    """Return the unit a nominal size is written in: "mm" or "cm" where it says so, else "in"."""
    found = re.search(r"(mm|cm)\b", tidy(nominal).lower())
    return found[1] if found else "in"


def written(size: Length, unit: str) -> str:
    """Write a nominal size exactly, in the unit it is sold in: "3/4 in", "18 mm"."""
    if unit == "in":
        return f"{mixed(size.inches)} in"
    return f"{mixed(size.mm)} mm"


def as_sold(size: Length, label: str) -> Length:
    """Name a plainly typed size after its stock; a size that was worked out keeps the way it was."""
    return Length.stock_size(label, size) if isinstance(size.expr, Typed) else size


def read_size(value: Size, unit: str, *, of: str, what: str) -> Length:
    """Return a size of stock; a `Length` keeps the expression that made it.

    of, what  the stock and which of its sizes, for the message
    raises    PlanError where the size cannot be read or is nothing
    """
    try:
        size = L(value, unit)
    except PlanError as wrong:
        said = f"the {what}: {wrong.what}"
        raise PlanError(said, where=of, given=wrong.given, remedy=wrong.remedy) from None
    if size.mm <= 0:
        raise PlanError(
            f"the {what} comes to nothing or less.",
            where=of,
            given=written(size, unit),
            remedy=f"Give the {what} as it measures.",
        )
    return size
