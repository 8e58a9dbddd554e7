"""How findings say where, and how findings that say the same are told once."""

import re
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from plankit.finding import Finding
from plankit.parts import Box, Face, Point
from plankit.units import L, Length, Mass, Notation, decimal
from plankit.units.notation import ROUNDED

PRACTICE = "common practice"
SAID_ALL = 3
"""Up to so many places are listed one by one."""
FINEST = 128
"""Fractions of an inch finer than this mean nothing to a reader."""
LENGTH_STEP = L("1/4 in")
"""Screws are sold in lengths so far apart (common practice)."""


def a_or_an(name: str, *, begins: bool = False) -> str:
    """Return a name with its article, as it is spoken: "an 18-gauge × 1 in brad", "a #8 × 2 in wood screw".

    begins  whether a sentence begins with it
    """
    vowel = name[:1].lower() in {*"aeio"} or re.match(r"(8|11|18)(?!\d)|8\d", name) is not None
    article = "an" if vowel else "a"
    return f"{article.capitalize() if begins else article} {name}"


def spot(at: Point, whole: Box, notation: Notation) -> str:
    """Return where a point lies, from the left, the front and the bottom of the whole piece."""
    from_corner = (at.x - whole.left, at.y - whole.front, at.z - whole.bottom)
    right, back, up = (notation.length(place) for place in from_corner)
    return f"{right} from the left, {back} from the front, {up} up"


def fine(length: Length, notation: Notation) -> str:
    """Return a small length as it is where a rule shows it, else to the nearest mark: metric holes in inch parts."""
    return notation.exact(length) if length.inches.denominator <= FINEST else notation.length(length)


def sharper(notation: Notation) -> Notation:
    """Return a notation that writes small lengths finely: to a 64th of an inch, or half a millimetre."""
    return replace(notation, mark=min(notation.mark, Fraction(1, 64)), metric_mark=Fraction(1, 2))


def told_apart(one: Length, other: Length, notation: Notation) -> tuple[str, str]:
    """Return two lengths in words that differ where the lengths do: as usual, else finely, else in decimals."""
    for words in (notation.length, sharper(notation).length):
        said = words(one), words(other)
        if (one.mm == other.mm) == (said[0].removeprefix(ROUNDED) == said[1].removeprefix(ROUNDED)):
            return said
    for places in range(2, 9):
        said = _in_decimals(one, places, notation), _in_decimals(other, places, notation)
        if said[0].removeprefix(ROUNDED) != said[1].removeprefix(ROUNDED):
            return said
    return notation.exact(one), notation.exact(other)


def _in_decimals(length: Length, places: int, notation: Notation) -> str:
    number = length.inches if notation.unit == "in" else length.mm
    sign = "" if number == round(number, places) else ROUNDED
    return f"{sign}{decimal(Fraction(number), places)}\u00a0{notation.unit}"


def masses_apart(one: Mass, other: Mass, notation: Notation) -> tuple[str, str]:
    """Return two weights in words; where rounding makes them the same, the first is "just over" the other or under."""
    said, against = notation.mass(one), notation.mass(other)
    if said != against or one.kg == other.kg:
        return said, against
    return f"just {'over' if one.kg > other.kg else 'under'} {said}", against


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


def named(names: Iterable[str]) -> str:
    """Return names as a list in a sentence: "Side, Shelf and Top"."""
    *first, last = list(names)
    return f"{', '.join(first)} and {last}" if first else last


def by_name(names: Iterable[str], notation: Notation) -> tuple[tuple[str, str], ...]:
    """Return each name once, in order, with how many bear it: ("Foot", "4 of them"), ("Top", "")."""
    listed = list(names)
    return tuple(
        (name, f"{notation.count(listed.count(name), 'piece')}" if listed.count(name) > 1 else "")
        for name in dict.fromkeys(listed)
    )
