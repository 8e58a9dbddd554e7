"""The tables themselves: one CSV file each, with `source` and `status` on every row."""

import csv
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from types import MappingProxyType

type Row = Mapping[str, str]


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return every row of one table, such as "dressed_lumber", in the table's own order.

    raises  KeyError where there is no table of that name
    """
    file = files("plankit.reference") / f"{name}.csv"
    if not file.is_file():
        raise KeyError(name)
    lines = file.read_text(encoding="utf-8").splitlines()
    return tuple(MappingProxyType(row) for row in csv.DictReader(lines))


def near(word: str, known: Iterable[str], most: int = 4) -> tuple[str, ...]:
    """Return the known names that a misspelt or half-remembered one may have meant, likeliest first."""
    names = {name.casefold(): name for name in known}
    asked = word.casefold()
    close = get_close_matches(asked, names, n=most, cutoff=0.6)
    wanted = set(asked.replace(",", " ").split())
    shared = [name for name in names if wanted & set(name.replace(",", " ").split())]
    return tuple(names[name] for name in list(dict.fromkeys([*close, *shared]))[:most])


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return the sentence that names what may have been meant, or else all that is known."""
    every = tuple(known)
    return meant(word, every) or f"Known are: {', '.join(every)}."


def meant(word: str, known: Iterable[str], most: int = 4) -> str:
    """Return the sentence that names what may have been meant; "" where nothing comes near."""
    close = near(word, known, most)
    return f"Did you mean {' or '.join(close)}?" if close else ""
