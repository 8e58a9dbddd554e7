"""Whether hinges, pulls and catches sit at the right edges of what turns: hung at one, opened and held at the other."""

from collections.abc import Iterator
from fractions import Fraction

from plankit.build import Build, Item, Moving
from plankit.checks.wording import PRACTICE
from plankit.finding import Finding, Level
from plankit.parts import AXES, Axis, Part
from plankit.units import Notation

STATICS = "statics: what is pulled or held so near to its hinges takes as many times the force"
HALF, THIRD, QUARTER = Fraction(1, 2), Fraction(1, 3), Fraction(1, 4)


def sides(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every hinge, pull and catch at the wrong edge of a door, a flap or a bin."""
    return tuple(
        finding
        for moving in build.moving
        if moving.pivot is not None
        for item in build.items
        for finding in _at_its_edge(build, moving, item, notation)
    )


def _at_its_edge(build: Build, moving: Moving, item: Item, notation: Notation) -> Iterator[Finding]:
    front = build.part(moving.parts[0])
    if front.id not in item.on or item.kind not in {"hinge", "pull", "catch"}:
        return
    share = away_from_hinges(moving, front, item)
    if share is None:
        return
    if item.kind == "hinge" and share > HALF:
        yield _hung_elsewhere(build, moving, front)
    elif item.kind == "pull" and share < THIRD:
        yield _pulled("must fix" if share < QUARTER else "look at", moving, share, notation)
    elif item.kind == "catch" and share < THIRD:
        yield _caught(moving, share, notation)


def away_from_hinges(moving: Moving, front: Part, item: Item) -> Fraction | None:
    """Return how far from its turning line something sits on a front, as a share of the way to the free edge.

    None where the front turns about a line that runs through its broad faces.
    """
    assert moving.pivot is not None
    across = _across(front, moving.pivot.axis)
    if across is None:
        return None
    line = moving.pivot.at.along(across).mm
    far = max(abs(front.box.low(across).mm - line), abs(front.box.high(across).mm - line))
    return abs(item.box.middle(across).mm - line) / far if far else None


def _across(front: Part, about: Axis) -> Axis | None:
    rest = [axis for axis in AXES if axis not in {front.through, about}]
    return rest[0] if len(rest) == 1 else None


def _hung_elsewhere(build: Build, moving: Moving, front: Part) -> Finding:
    return Finding(
        "must fix",
        "hinges at the wrong edge",
        moving.name,
        f"{front.name} is to turn about one edge, and its hinges are at the other.",
        source="geometry of the build",
        remedy='Let it turn about its hinges: hinges=…, what plan.hinges(…) gave back, in place of hinged="…".',
    )


def _pulled(level: Level, moving: Moving, share: Fraction, notation: Notation) -> Finding:
    return Finding(
        level,
        "pull at the hinged edge",
        moving.name,
        f"The pull of {moving.name} sits near its hinges: it opens hard there, and strains them.",
        number=_so_far(share, notation),
        source=STATICS,
        remedy="Put it near the free edge: the other of left= and right=, or of bottom= and top=.",
    )


def _caught(moving: Moving, share: Fraction, notation: Notation) -> Finding:
    return Finding(
        "must fix",
        "catch at the hinged edge",
        moving.name,
        f"The catch of {moving.name} sits near its hinges, where it holds hardly anything.",
        number=_so_far(share, notation),
        source=f"{STATICS}; {PRACTICE}: behind the free edge",
        remedy="Screw it to the part behind the free edge: plan.catch(door, on=…).",
    )


def _so_far(share: Fraction, notation: Notation) -> str:
    return f"{notation.percent(share)} of the way from the hinges to the free edge"
