"""Values from outside, copied row by row with their sources into tests/outside."""

import csv
from fractions import Fraction
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parent / "outside"


@cache
def published(name: str) -> tuple[dict[str, str], ...]:
    """Return every row of one table of published values; each carries its source and status."""
    with (FOLDER / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        rows = tuple(csv.DictReader(file))
    assert rows
    assert all(row["source"] and row["status"] for row in rows)
    return rows


def number(text: str) -> Fraction:
    """Return a published number exactly: "9.333", "23-1/2"."""
    whole, _, part = text.rpartition("-")
    return Fraction(whole or 0) + Fraction(part)


def within(value: Fraction, answer: str, tolerance: str) -> bool:
    """Tell whether a value agrees with a published one, to the tolerance its row states."""
    wanted = Fraction(answer)
    slack = Fraction(tolerance.removeprefix("+/-").split()[0])
    if "%" in tolerance.split("(", maxsplit=1)[0]:
        slack = abs(wanted) * slack / 100
    return abs(value - wanted) <= slack
