"""Checks: what a build says about itself. Each is a pure function from a build to findings."""

from collections.abc import Callable
from dataclasses import dataclass

from plankit.build import Build
from plankit.checks.fastening import fastening
from plankit.checks.fit import fit
from plankit.checks.lifting import lifting, stock_lifting
from plankit.checks.measured import measured_stock
from plankit.checks.rounding import rounding
from plankit.checks.stock_fit import stock_fit
from plankit.checks.strength import Load, deflection, longest_span, sag, strength, usual_loads
from plankit.finding import Finding, in_order
from plankit.shop import Shop
from plankit.units import Notation

type Run = Callable[[Build, Shop | None, Notation, tuple[Load, ...]], tuple[Finding, ...]]


@dataclass(frozen=True, slots=True)
class Check:
    """One check: its name, what it looks for, and how to run it."""

    name: str
    looks_for: str
    run: Run


CHECKS: tuple[Check, ...] = (
    Check(
        "fit",
        "parts that overlap or do not meet, thin gaps, loose parts, things that do not fit",
        lambda build, shop, notation, loads: fit(build, notation),
    ),
    Check(
        "fastening",
        "screws and brads that come through, hold too little, split their part or meet one another",
        lambda build, shop, notation, loads: fastening(build, notation),
    ),
    Check(
        "stock",
        "parts that cannot be cut from their stock",
        lambda build, shop, notation, loads: stock_fit(build, shop, notation),
    ),
    Check(
        "measured stock",
        "sheets that measure other than their class allows",
        lambda build, shop, notation, loads: measured_stock(build),
    ),
    Check(
        "strength",
        "tops, shelves and seats that bend too far",
        lambda build, shop, notation, loads: strength(build, notation, loads),
    ),
    Check(
        "lifting",
        "what one person should not lift alone",
        lambda build, shop, notation, loads: lifting(build, shop, notation) if shop else (),
    ),
    Check(
        "rounding",
        "rounded places that do not add up",
        lambda build, shop, notation, loads: rounding(build, notation),
    ),
)
"""Every check there is, in the order they are run."""


def check(
    build: Build, shop: Shop | None, notation: Notation, loads: tuple[Load, ...] = ()
) -> tuple[Finding, ...]:
    """Return what every check says about a build, the gravest first.

    shop   for stock sizes and the lifting limit; without one, usual sizes count and nothing is too heavy
    loads  what parts must carry, where the author says so
    """
    found: list[Finding] = []
    for one in CHECKS:
        found += one.run(build, shop, notation, loads)
    return in_order(tuple(dict.fromkeys(found)))


__all__ = [
    "CHECKS", "Check", "Load", "check", "deflection", "fastening", "fit", "lifting", "longest_span",
    "measured_stock", "rounding", "sag", "stock_fit", "stock_lifting", "strength", "usual_loads",
]  # fmt: skip
