"""Parts that their own cuts leave in two pieces, or in none."""

from plankit.build import Build
from plankit.checks.wording import gathered, spot
from plankit.finding import Finding
from plankit.parts import Bore, Groove, Notch, Part, Point, solid
from plankit.parts.slants import SAWN
from plankit.units import Length, Notation

LEAST = 1.0
"""Pieces of less than so many cubic millimetres are crumbs of rounding."""
SOURCE = "geometry of the build"
_DEEP = (Notch, Groove, *SAWN)


def in_pieces(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every part that is cut through, so that it falls in pieces, or away altogether."""
    found = []
    for part in build.parts:
        if _may_part(part):
            pieces = _pieces(part)
            if len(pieces) != 1:
                found.append(_told(part, pieces, build, notation))
    return gathered(found)


def _may_part(part: Part) -> bool:
    """Whether a part has more than one cut that takes off more than a hole, or a hole as wide as it is."""
    deep = sum(isinstance(feature, _DEEP) for feature in part.features)
    wide = any(isinstance(one, Bore) and one.diameter.mm >= part.thickness.mm for one in part.features)
    return deep + wide > 1 or wide


def _pieces(part: Part) -> list[tuple[float, ...]]:
    """The ends of each piece that is left, the largest first."""
    left = [(piece.volume(), piece.bounding_box()) for piece in solid(part).decompose()]
    return [ends for volume, ends in sorted(left, reverse=True) if volume > LEAST]


def _told(part: Part, pieces: list[tuple[float, ...]], build: Build, notation: Notation) -> Finding:
    if not pieces:
        what, number = f"Nothing is left of {part.name}: its cuts take all of it away.", ""
        place = ""
    else:
        what = f"{part.name} falls in pieces: its cuts meet and go right through it."
        number = notation.count(len(pieces), "piece")
        least = pieces[-1]
        middle = (Length.of_mm(round((least[i] + least[i + 3]) * 5)).portion(10) for i in range(3))
        place = f"the smallest: {spot(Point(*middle), build.box, notation)}"
    return Finding(
        "must fix",
        "cut through",
        part.name,
        what,
        place,
        number,
        SOURCE,
        "Make one of its cuts shallower, or shorter, or move it.",
    )
