"""Whether a piece tips: as it stands, with its bins and doors open and loaded, pulled, climbed on, or sat on.

All of it is a static estimate from the build's own weights. It is no test, and claims no compliance.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, degrees

from plankit.build import Build
from plankit.checks.balance import (
    Corner,
    NoFooting,
    Weighed,
    centre_of_mass,
    edges,
    floor_of,
    footing,
    lean,
)
from plankit.checks.blocks import around
from plankit.checks.opened import Opened, opened
from plankit.checks.strength import LOW_ENOUGH, PERSON, Load
from plankit.checks.tipping import tipping_pull
from plankit.checks.wording import PRACTICE, masses_apart
from plankit.finding import Finding, Level
from plankit.parts import FACES, Face, Part
from plankit.units import Angle, L, Length, Mass, Notation

TALL = L("27 in")
"""Clothing storage this high, and as heavy and large as below, falls under 16 CFR 1261 (ASTM F2057-23, scope)."""
HEAVY = Mass.of_pounds(30)
LARGE = Fraction(16, 5)
"""Cubic feet of enclosed storage."""
ENCLOSED = Fraction(1, 2)
"""Share of the outside volume that counts as enclosed behind doors (US CPSC business guidance)."""
CHILD = Mass.of_pounds(60)
"""On the edge of an open drawer or pull-out (ASTM F2057-23 test 3, from memory)."""
PULL = Mass.of_pounds(10)
HAND_HOLD = L("56 in")
"""A level pull of 10 lbf, no higher than this (ASTM F2057-23 test 2, from memory)."""
CARPET = L("0.43 in")
"""Block under the rear that stands for a carpet (ASTM F2057-23 test 3, from memory)."""
SEAT_EDGE = L("3 in")
"""So far in from the edge acts the weight of somebody who sits down on it (common practice)."""
ESTIMATE = "static estimate from the build's weights, not a test, and no claim of compliance"
_ANCHOR = (
    "Fix it to a stud of the wall, and say so in the plan; or make it deeper, lower, or heavier at the back."
)
_ON_CASTERS = "Set its casters further apart, or make it deeper, lower, or heavier at the bottom."
_MM_IN_FOOT = Fraction(3048, 10)


@dataclass(frozen=True, slots=True)
class _Piece:
    """A build as it stands, with the numbers that every estimate needs."""

    build: Build
    hull: tuple[Corner, ...]
    floor: float
    whole: Weighed
    open: tuple[Opened, ...]
    height: Length

    @property
    def carpet(self) -> float:
        """How far a carpet tilts it at most, in degrees: the block under its shorter side."""
        sides = [max(c[i] for c in self.hull) - min(c[i] for c in self.hull) for i in (0, 1)]
        return degrees(atan2(float(CARPET.mm), min(sides)))

    def lean(self, weight: Weighed) -> float:
        """How far it can lean, in degrees, when its weight, and what is on it, acts there."""
        return lean(weight, self.hull, self.floor)

    def swung(self, which: Sequence[Opened], *, loaded: bool) -> Weighed:
        """The whole with some of what moves open, empty or loaded."""
        whole = self.whole
        for one in which:
            whole = whole.with_(Weighed(-one.shut.kg, one.shut.at)).with_(one.own)
            whole = whole.with_(one.carried) if loaded else whole
        return whole


def stability(build: Build, notation: Notation, loads: tuple[Load, ...] = ()) -> tuple[Finding, ...]:
    """Return findings about tipping; none for what is fixed to a wall.

    A build that is not all told in steps yet is only looked at where something in it opens.
    loads  what the author says that parts carry: it counts where the part moves
    """
    if not build.parts or any(item.kind == "wall fixing" for item in build.items):
        return ()
    try:
        piece = _piece(build, loads)
    except NoFooting:
        return ()
    if piece.lean(piece.whole) <= 0:
        return tuple(_falls(piece, notation)) if is_told(build) else ()
    found = [*_open_and_loaded(piece, notation), *_climbed(piece, notation)]
    if is_told(build):
        found += [*_pulled(piece, notation), *_sat_on(piece, notation)]
        found += () if found else _anchor(piece, notation)
    return tuple(found)


def is_told(build: Build) -> bool:
    """Tell whether every part arrives in a step: what is not all there yet need not stand."""
    arrived = {part_id for brings in build.order for part_id in brings}
    return all(part.id in arrived for part in build.parts)


def _falls(piece: _Piece, notation: Notation) -> Iterator[Finding]:
    if piece.lean(piece.whole) <= 0:
        yield _finding(
            "must fix", piece, "falls over as it stands", _said(piece, piece.whole, notation), ESTIMATE, at=piece.whole
        )


def _open_and_loaded(piece: _Piece, notation: Notation) -> Iterator[Finding]:
    """What opens, each alone and then all together, empty or loaded, whichever is worse."""
    for which in dict.fromkeys((one,) for one in piece.open):
        yield from _open(piece, which, notation)
    if len(piece.open) > 1 and all(piece.lean(_worst(piece, (one,))) > piece.carpet for one in piece.open):
        yield from _open(piece, piece.open, notation)


def _worst(piece: _Piece, which: Sequence[Opened]) -> Weighed:
    return min((piece.swung(which, loaded=full) for full in (False, True)), key=piece.lean)


def least_lean(build: Build, loads: tuple[Load, ...] = ()) -> Angle:
    """Return how far a build can lean, with whatever opens open that makes it the least stable.

    Each door, flap, bin and drawer alone, and all of them; empty, and loaded.
    raises  NoFooting where nothing with an outline stands on the floor
    """
    piece = _piece(build, loads)
    states = [(), *((one,) for one in piece.open), piece.open]
    angle = min(piece.lean(_worst(piece, which)) for which in states)
    return Angle(Fraction(round(angle * 10**6), 10**6))


def _piece(build: Build, loads: tuple[Load, ...]) -> _Piece:
    swung = tuple(opened(build, moving, loads) for moving in build.moving)
    height = Length.of_mm(Fraction(max(around(part)[5] for part in build.parts) - floor_of(build)))
    return _Piece(build, footing(build), floor_of(build), centre_of_mass(build), swung, height)


def _open(piece: _Piece, which: Sequence[Opened], notation: Notation) -> Iterator[Finding]:
    worst = _worst(piece, which)
    angle = piece.lean(worst)
    if angle > piece.carpet:
        return
    names = " and ".join(dict.fromkeys(one.moving.name for one in which))
    verb = "are" if len(which) > 1 else "is"
    carried = Mass(Fraction(sum(one.carried.kg for one in which)).limit_denominator(1000))
    load = f" and loaded with {notation.mass(carried)}" if carried.kg else ""
    if angle <= 0:
        what = f"tips over when {names} {verb} open{load}"
        yield _finding("must fix", piece, what, _said(piece, worst, notation), ESTIMATE, at=worst)
    else:
        what = f"all but tips over when {names} {verb} open{load}"
        source = f"{ESTIMATE}; a carpet tilts it as much"
        yield _finding("look at", piece, what, _said(piece, worst, notation), source, at=worst)


def _climbed(piece: _Piece, notation: Notation) -> Iterator[Finding]:
    """A child on the edge of each thing that opens, all of them open, on a carpet."""
    if not _could_be_storage(piece):
        return
    everything = piece.swung(piece.open, loaded=False)
    for one in piece.open:
        child = (everything.with_(Weighed(float(CHILD.kg), corner)) for corner in one.corners)
        worst = min(child, key=piece.lean)
        if piece.lean(worst) <= piece.carpet:
            what = f"tips when a child of {notation.mass(CHILD)} hangs on {one.moving.name}"
            yield _finding("look at", piece, what, _said(piece, worst, notation), _scope(piece), at=worst)


def _pulled(piece: _Piece, notation: Notation) -> Iterator[Finding]:
    if not _tall_and_heavy(piece):
        return
    height = min(float(HAND_HOLD.mm), float(piece.height.mm))
    open_ = piece.swung(piece.open, loaded=False)
    behind = min(edge.inside(open_.at) for edge in edges(piece.hull))
    force = float(tipping_pull(_mass(open_.kg), _length(behind), _length(height)).kg)
    if 0 < force < float(PULL.kg):
        pull, asked = masses_apart(Mass(Fraction(force).limit_denominator(1000)), PULL, notation)
        what = f"tips when it is pulled at the top with less than {asked}"
        number = pull if pull.startswith("just") else f"about {pull}"
        yield _finding("look at", piece, what, number, _scope(piece), at=open_)


def _mass(kilograms: float) -> Mass:
    return Mass(Fraction(kilograms))


def _length(millimetres: float) -> Length:
    return Length.of_mm(Fraction(millimetres))


def _anchor(piece: _Piece, notation: Notation) -> Iterator[Finding]:
    """A tall piece on a narrow footing, or one with doors and drawers, belongs fixed to a wall all the same."""
    sides = [max(c[i] for c in piece.hull) - min(c[i] for c in piece.hull) for i in (0, 1)]
    narrow = 2 * min(sides) < float(piece.height.mm)
    if not _tall_and_heavy(piece) or not (narrow or _could_be_storage(piece)):
        return
    what = "is tall enough to be pulled or climbed over, though the estimates find that it stands"
    yield _finding("for information", piece, what, _said(piece, piece.whole, notation), _scope(piece), at=piece.whole)


def _tall_and_heavy(piece: _Piece) -> bool:
    return piece.height.mm >= TALL.mm and piece.whole.kg >= float(HEAVY.kg)


def _could_be_storage(piece: _Piece) -> bool:
    return bool(piece.open) and piece.height.mm >= TALL.mm


def enclosed_volume(build: Build) -> Fraction:
    """Return how much a build stores behind doors and in drawers, in cubic feet, roughly.

    source  US CPSC business guidance: drawers by their own size, the rest by half of the outside volume
    """
    drawers = Fraction(0)
    for moving in build.moving:
        if moving.kind in {"drawer", "bin"}:
            box = build.part(moving.parts[0]).box
            for part_id in moving.parts[1:]:
                box = box.around(build.part(part_id).box)
            drawers += _cubic_feet(box.size)
    behind = any(moving.kind in {"door", "flap"} for moving in build.moving)
    return max(drawers, ENCLOSED * _cubic_feet(build.box.size) if behind else Fraction(0))


def _cubic_feet(size: tuple[Length, Length, Length]) -> Fraction:
    return size[0].mm * size[1].mm * size[2].mm / _MM_IN_FOOT**3


def in_scope(height: Length, mass: Mass, volume: Fraction) -> bool:
    """Tell whether clothing storage of this size falls under 16 CFR 1261, by all three of its numbers.

    volume  enclosed, in cubic feet
    source  ASTM F2057-23, scope, made mandatory by 16 CFR 1261.2
    """
    return height.mm >= TALL.mm and mass.kg >= HEAVY.kg and volume >= LARGE


def _scope(piece: _Piece) -> str:
    mass = Mass(Fraction(piece.whole.kg))
    if piece.open and in_scope(piece.height, mass, enclosed_volume(piece.build)):
        return (
            f"{ESTIMATE}; clothing storage as large as this falls under 16 CFR 1261 (ASTM F2057-23), "
            "whose own tests decide"
        )
    return f"{ESTIMATE}; loads as in ASTM F2057-23, from memory"


def _sat_on(piece: _Piece, notation: Notation) -> Iterator[Finding]:
    """Somebody who sits down near the edge of a low top."""
    build = piece.build
    moving = {part_id for one in build.moving for part_id in one.parts}
    top = max(around(part)[5] for part in build.parts)
    if top - piece.floor > float(LOW_ENOUGH.mm):
        return
    for part in build.parts:
        if part.through == "z" and not part.leans and around(part)[5] == top and part.id not in moving:
            face, worst = _sitting(piece, part)
            if piece.lean(worst) <= 0:
                what = f"tips under somebody of {notation.mass(PERSON)} who sits down near its {face} edge"
                number, source = _said(piece, worst, notation), f"{ESTIMATE}; {PRACTICE}"
                remedy = "Set its feet further out, or let the top stand out less."
                yield _finding("look at", piece, what, number, source, remedy, at=worst)


def _sitting(piece: _Piece, part: Part) -> tuple[Face, Weighed]:
    ends = around(part)
    middle = [(ends[0] + ends[1]) / 2, (ends[2] + ends[3]) / 2, ends[5]]
    inset = float(SEAT_EDGE.mm)
    found: list[tuple[Face, Weighed]] = []
    for number, face in enumerate(FACES[:4]):
        at = list(middle)
        half = abs(ends[number] - middle[number // 2])
        at[number // 2] = ends[number] + (1 if face in {"left", "front"} else -1) * min(inset, half)
        person = Weighed(float(PERSON.kg), (at[0], at[1], at[2]))
        found.append((face, piece.whole.with_(person)))
    return min(found, key=lambda one: round(piece.lean(one[1]), 6))


def _said(piece: _Piece, weight: Weighed, notation: Notation) -> str:
    """How far it can lean then; or how far outside its footing the weight acts."""
    angle = piece.lean(weight)
    if angle > 0:
        return f"leans {notation.angle(Angle(Fraction(round(angle * 1000), 1000)))} at most"
    out = -min(edge.inside(weight.at) for edge in edges(piece.hull))
    return f"its weight acts {notation.length(Length.of_mm(round(out)))} outside its footing"


def _over(piece: _Piece, weight: Weighed) -> str:
    """Over which side of what it stands on it would go first."""
    least = min(edges(piece.hull), key=lambda edge: round(edge.inside(weight.at), 6))
    across, deep = least.end[0] - least.start[0], least.end[1] - least.start[1]
    out: Face = ("right" if deep > 0 else "left") if abs(deep) > abs(across) else ("back" if across < 0 else "front")
    return f"over its {out} edge"


def _finding(  # noqa: PLR0917 - what a finding of this check is made of
    level: Level, piece: _Piece, what: str, number: str, source: str, remedy: str = _ANCHOR, *, at: Weighed
) -> Finding:
    return Finding(
        level,
        "tips over",
        piece.build.name,
        f"{piece.build.name} {what}, by this estimate.",
        _over(piece, at),
        number,
        source,
        _ON_CASTERS if remedy == _ANCHOR and any(item.kind == "caster" for item in piece.build.items) else remedy,
    )
