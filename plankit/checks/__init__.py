"""Checks: what a build says about itself. Each is a pure function from a build to findings."""

from collections.abc import Callable
from dataclasses import dataclass

from plankit.build import Build
from plankit.build.movement import INDOORS
from plankit.checks.access import access
from plankit.checks.alike import told_once
from plankit.checks.assembling import assembling
from plankit.checks.balance import tip_angle
from plankit.checks.banding import banding
from plankit.checks.carrying_in import carrying_in
from plankit.checks.drawers import drawers
from plankit.checks.end_grain import end_grain
from plankit.checks.fastening import fastening
from plankit.checks.fit import fit
from plankit.checks.flush import flush
from plankit.checks.hardware import hardware
from plankit.checks.heads import heads
from plankit.checks.holes import holes
from plankit.checks.in_pieces import in_pieces
from plankit.checks.knees import knees
from plankit.checks.lengths_sold import lengths_sold
from plankit.checks.lifting import lifting, stock_lifting
from plankit.checks.lifting_equation import recommended_weight
from plankit.checks.machines import machines
from plankit.checks.measured import measured_stock
from plankit.checks.people import people
from plankit.checks.racking import racking
from plankit.checks.rounding import rounding
from plankit.checks.sides import sides
from plankit.checks.stability import stability
from plankit.checks.stock_fit import stock_fit
from plankit.checks.strength import LIMIT, Load, deflection, longest_span, sag, strength, usual_loads
from plankit.checks.swing import swing
from plankit.checks.wall import wall
from plankit.checks.wood_movement import wood_movement
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
        "cut through",
        "parts that their own cuts leave in pieces, or in none",
        lambda build, shop, notation, loads: in_pieces(build, notation),
    ),
    Check(
        "fastening",
        "screws and brads that come through, hold too little, split their part or meet one another",
        lambda build, shop, notation, loads: fastening(build, notation),
    ),
    Check(
        "heads",
        "screws with no wood under their heads or round their threads",
        lambda build, shop, notation, loads: heads(build, notation),
    ),
    Check(
        "end grain",
        "solid parts that hang together by glued end grain alone",
        lambda build, shop, notation, loads: end_grain(build, notation),
    ),
    Check(
        "holes",
        "holes of one part that run into each other, or leave next to no wood between them",
        lambda build, shop, notation, loads: holes(build, notation),
    ),
    Check(
        "lengths sold",
        "screws and brads of a length that stores seldom have",
        lambda build, shop, notation, loads: lengths_sold(build),
    ),
    Check(
        "flush faces",
        "parts that stand proud or shy of one another where they should be flush",
        lambda build, shop, notation, loads: flush(build, notation),
    ),
    Check(
        "banding",
        "banded edges that are then joined to something",
        lambda build, shop, notation, loads: banding(build),
    ),
    Check(
        "stock",
        "parts that cannot be cut from their stock",
        lambda build, shop, notation, loads: stock_fit(build, shop, notation),
    ),
    Check(
        "measured stock",
        "sheets that measure other than their class allows",
        lambda build, shop, notation, loads: measured_stock(build, notation),
    ),
    Check(
        "strength",
        "tops, shelves and seats that bend too far",
        lambda build, shop, notation, loads: strength(build, notation, loads, shop.sag_limit if shop else LIMIT),
    ),
    Check(
        "lifting",
        "what one person should not lift alone",
        lambda build, shop, notation, loads: lifting(build, shop, notation) if shop else (),
    ),
    Check(
        "hardware",
        "hinges, pins, casters, feet and pulls that meet something, break through, miss, or are too few",
        lambda build, shop, notation, loads: hardware(build, notation),
    ),
    Check(
        "drawers",
        "slides longer than the case, and drawers too wide or too narrow for their slides",
        lambda build, shop, notation, loads: drawers(build, notation),
    ),
    Check(
        "swing",
        "doors, flaps, bins and drawers that meet something or one another, have no stop, or too little room",
        lambda build, shop, notation, loads: swing(build, notation),
    ),
    Check(
        "sides",
        "hinges, pulls and catches at the wrong edge of what turns",
        lambda build, shop, notation, loads: sides(build, notation),
    ),
    Check(
        "assembling",
        "parts that cannot be put in after what is already there",
        lambda build, shop, notation, loads: assembling(build, notation),
    ),
    Check(
        "access",
        "screws that no driver gets at when their step comes",
        lambda build, shop, notation, loads: access(build, notation),
    ),
    Check(
        "wood movement",
        "solid wood held across its grain, or without room for the seasons",
        lambda build, shop, notation, loads: wood_movement(build, notation, shop.humidities if shop else INDOORS),
    ),
    Check(
        "racking",
        "cases and frames that nothing keeps from leaning over",
        lambda build, shop, notation, loads: racking(build, notation),
    ),
    Check(
        "stability",
        "pieces that tip as they stand, opened and loaded, pulled, climbed on or sat on",
        lambda build, shop, notation, loads: stability(build, notation, loads),
    ),
    Check(
        "wall",
        "what hangs on a wall by too few, too short or too weak screws",
        lambda build, shop, notation, loads: wall(build, notation, loads),
    ),
    Check(
        "machines",
        "cuts beyond the shop's tools, and pieces too small to be held",
        lambda build, shop, notation, loads: machines(build, shop, notation) if shop else (),
    ),
    Check(
        "people",
        "gaps that trap fingers, lids that fall, and what a small child gets open",
        lambda build, shop, notation, loads: people(build, notation),
    ),
    Check(
        "knees",
        "tables under which the knees of somebody who sits there have too little room",
        lambda build, shop, notation, loads: knees(build, notation),
    ),
    Check(
        "carrying in",
        "a finished piece that fits no niche and goes through no doorway",
        lambda build, shop, notation, loads: carrying_in(build, notation),
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
    "CHECKS", "Check", "Load", "access", "assembling", "banding", "carrying_in", "check", "deflection", "drawers",
    "fastening",
    "fit", "flush", "hardware", "heads", "holes", "in_pieces", "knees",
    "lengths_sold", "lifting", "longest_span", "machines",
    "measured_stock", "people", "racking", "recommended_weight", "rounding", "sag", "stability", "stock_fit",
    "stock_lifting", "strength", "swing", "tip_angle", "told_once", "usual_loads", "wall", "wood_movement",
]  # fmt: skip
