"""How findings say where, and how findings that say the same are told once."""

from collections.abc import Iterable
from dataclasses import replace

from plankit.finding import Finding
from plankit.parts import Box, Face, Point
from plankit.units import L, Length, Notation

PRACTICE = "common practice"
SAID_ALL = 3
"""Up to so many places are listed one by one."""
LENGTH_STEP = L("1/4 in")
"""Screws are sold in lengths so far apart (common practice)."""


def spot(at: Point, whole: Box, notation: Notation) -> str:
    """Return where a point lies, from the left, the front and the bottom of the whole piece."""
    from_corner = (at.x - whole.left, at.y - whole.front, at.z - whole.bottom)
    right, back, up = (notation.length(place) for place in from_corner)
    return f"{right} from the left, {back} from the front, {up} up"


def side(face: Face) -> str:
    """Return a face as it stands in a sentence: "the left side", "the top"."""
    return f"the {face} side" if face in {"left", "right"} else f"the {face}"


def gathered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings with those that differ only in their place told once, with all their places."""
    places: dict[Finding, list[str]] = {}
    for finding in findings:
        places.setdefault(replace(finding, place=""), []).append(finding.place)
    return tuple(replace(one, place=_several(found)) for one, found in places.items())


def _several(found: list[str]) -> str:
    named = list(dict.fromkeys(place for place in found if place))
    if len(named) <= SAID_ALL:
        return "; ".join(named)
    return f"{len(named)} places: {'; '.join(named[:SAID_ALL])} …"


def sold(length: Length, *, at_most: bool) -> Length:
    """Return the nearest screw length that is sold, not longer (or not shorter) than this one."""
    steps = length.mm // LENGTH_STEP.mm if at_most else -(-length.mm // LENGTH_STEP.mm)
    return LENGTH_STEP * int(steps)


def by_name(names: Iterable[str], notation: Notation) -> tuple[tuple[str, str], ...]:
    """Return each name once, in order, with how many bear it: ("Foot", "4 of them"), ("Top", "")."""
    listed = list(names)
    return tuple(
        (name, f"{notation.count(listed.count(name), 'piece')}" if listed.count(name) > 1 else "")
        for name in dict.fromkeys(listed)
    )
