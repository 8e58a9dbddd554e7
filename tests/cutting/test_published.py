"""Published instances: never below the bound, never a proof claimed wrongly, no more sheets than the best known."""

import json
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from plankit.cutting import Job, Piece, Result, StockKind, cut, verify
from plankit.cutting.first_fit import first_fit
from plankit.cutting.whole_job import groups

INSTANCES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "instances" / "two_dimensional.json").read_text("utf-8")
)["instances"]
BOTH = [(one, known) for one in INSTANCES for known in one["known"]]


def job_of(number: int) -> Job:
    one, known = BOTH[number]
    stock = (StockKind("sheet", Fraction(one["sheet"][0]), Fraction(one["sheet"][1])),)
    pieces = tuple(
        Piece(f"item {n}", Fraction(a), Fraction(b), quantity, known["turns"])
        for n, (a, b, quantity) in enumerate(one["items"])
    )
    return Job(stock, pieces, Fraction(0), "mm")


@cache
def answer(number: int) -> Result:
    return cut(job_of(number))


@pytest.mark.parametrize(
    "number", range(len(BOTH)), ids=[f"{o['id']}{'r' if k['turns'] else ''}" for o, k in BOTH]
)
def test_a_published_instance_is_verified_and_within_its_bounds(number: int) -> None:
    known = BOTH[number][1]
    result = answer(number)
    assert result.complete
    assert verify(result.job, result.layouts) == ()
    assert result.least_count is not None
    assert known["bound"] <= result.count <= known["best_known"] + 1
    assert result.least_count <= known["best_known"]
    assert not result.proven or result.count <= known["best_known"]


def test_twenty_instances_fixed_and_turned_take_no_more_sheets_than_the_best_known() -> None:
    best = sum(known["best_known"] for _, known in BOTH)
    found = sum(answer(number).count for number in range(len(BOTH)))
    strips = sum(min(first_fit(groups(job_of(n))[0], axis).weight(groups(job_of(n))[0]) for axis in ("x", "y"))
                 for n in range(len(BOTH)))  # fmt: skip
    assert len(INSTANCES) == 20
    assert found <= best < strips


def test_most_of_them_are_proven() -> None:
    assert sum(answer(number).proven for number in range(len(BOTH))) >= 0.7 * len(BOTH)
