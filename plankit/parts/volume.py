"""The volume of a part by arithmetic, exact but for the circle's ratio; and its weight."""

from fractions import Fraction
from functools import lru_cache
from itertools import combinations, pairwise, product
from math import asin, pi, radians, sqrt, tan

from plankit.parts.edge_features import EASED, Chamfer, Cove, Eased, Roundover, meeting_corner, runs_along
from plankit.parts.features import (
    POCKET_ANGLE,
    POCKET_DIAMETER,
    Banding,
    Bevel,
    Bore,
    CompoundMitre,
    Feature,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    PocketHoles,
    Taper,
)
from plankit.parts.part import Part
from plankit.parts.slants import Slant, slant_of, slants_of
from plankit.parts.solid import pocket_length, solid
from plankit.parts.space import AXES, AXIS_OF, HIGH, LOW, Axis, Box, Point
from plankit.units import L, Length, Mass

PI = Fraction(pi)
WIDE = L("1/2 in")
"""Narrower holes are those of screws and pins; where they run into something, it weighs next to nothing."""


def volume(part: Part) -> Fraction:
    """Return the part's volume in cubic millimetres.

    Blocks and slanting cuts are exact; what is round uses the double nearest to pi. Edges eased alike are
    counted once where two of them meet at a corner. Other cuts that run into one another are each counted
    whole, so keep them apart or use the solid's volume.
    source  solid geometry; a tapered post by Simpson's rule, which is exact for its quadratic sections
    """
    tapers = [feature for feature in part.features if isinstance(feature, Taper)]
    taken = sum((_taken(part, feature) for feature in part.features), Fraction(0))
    twice = sum((_corner(one) for one, _ in _meeting(part)), Fraction(0))
    return _tapered(part, tapers) - taken + twice


@lru_cache(maxsize=1024)
def weight(part: Part) -> Mass:
    """Return what the part weighs, from its volume and its stock's density.

    Where cuts may run into one another, the volume is that of its solid, to the cubic millimetre.
    """
    return part.stock.density.mass_of(_solid_volume(part) if _may_overlap(part) else volume(part))


def _may_overlap(part: Part) -> bool:
    """Whether a part has a block cut out of it, or a slant sawn off, where something else may be cut too."""
    blocks = [feature.cut for feature in part.features if isinstance(feature, Notch | Groove)]
    slants = [feature for feature, _ in slants_of(part)]
    ways = {(taper.face, taper.narrow) for taper in slants if isinstance(taper, Taper)}
    crossing = len({narrow for _, narrow in ways}) > 1 or len(ways) < sum(
        isinstance(s, Taper) for s in slants
    )
    return (
        crossing
        or bool(blocks and slants)
        or (any(not isinstance(one, Taper) for one in slants) and len(slants) > 1)
        or _eased_oddly(part, others=bool(blocks or slants))
        or any(_share(one, other) for one, other in combinations(blocks, 2))
        or _bored_oddly(part, blocks)
    )


def _bored_oddly(part: Part, blocks: list[Box]) -> bool:
    """Whether a wide hole breaks out of an edge, or runs into a cut or another such hole; small ones weigh nothing."""
    bores = [one for one in part.features if isinstance(one, Bore) and one.diameter.mm >= WIDE.mm]
    taken = [_around(part, bore) for bore in bores]
    slants = [slant for _, slant in slants_of(part)] if bores else []
    return (
        any(_breaks_out(part, bore, box) for bore, box in zip(bores, taken, strict=True))
        or any(_share(box, block) for box in taken for block in blocks)
        or any(_share(one, other) for one, other in combinations(taken, 2))
        or any(_reached(part, slant, box) for slant in slants for box in taken)
    )


def _around(part: Part, bore: Bore) -> Box:
    """The smallest box round a hole, from the part's corner."""
    axis, deep = AXIS_OF[bore.face], bore.reach(part.box.size)
    ends: dict[Axis, tuple[Length, Length]] = {}
    for index, (own, at) in enumerate(zip(AXES, bore.at, strict=True)):
        half = bore.diameter.portion(2)
        if own == axis:
            whole = part.box.size[index]
            ends[own] = (whole - deep, whole) if bore.face == HIGH[own] else (Length.zero(), deep)
        else:
            ends[own] = (at - half, at + half)
    return Box(*ends["x"], *ends["y"], *ends["z"])


def _breaks_out(part: Part, bore: Bore, box: Box) -> bool:
    across = [axis for axis in AXES if axis != AXIS_OF[bore.face]]
    return any(box.low(axis).mm < 0 or box.high(axis).mm > part.box.extent(axis).mm for axis in across)


def _reached(part: Part, slant: Slant, box: Box) -> bool:
    """Whether a slant that is sawn off takes a corner of a box."""
    axis = AXIS_OF[slant.face]
    for corner in product(*((box.low(own), box.high(own)) for own in AXES)):
        at = Point(*(part.box.low(own) + away for own, away in zip(AXES, corner, strict=True)))
        if abs(at.along(axis).mm - part.box.face(slant.face).mm) < slant.depth(part, at):
            return True
    return False


def _eased_edges(part: Part) -> list[Eased]:
    return [feature for feature in part.features if isinstance(feature, EASED)]


def _meeting(part: Part) -> list[tuple[Eased, Eased]]:
    """Eased edges that meet at a corner, two and two."""
    return [pair for pair in combinations(_eased_edges(part), 2) if meeting_corner(*pair)]


def _eased_oddly(part: Part, *, others: bool) -> bool:
    """Whether eased edges meet other cuts, or one another in more ways than two alike at a corner."""
    edges = _eased_edges(part)
    pairs = _meeting(part)
    unlike = any(type(one) is not type(two) or one.size != two.size for one, two in pairs)
    three = len({runs_along(one.edge) for one in edges}) == 3
    return bool(edges) and (others or unlike or three)


def _corner(one: Eased) -> Fraction:
    """What two edges eased alike take both, where they meet at a corner.

    source  two chamfers c: ∫(c − z)² dz = c³/3; two roundovers r: ∫(r − √(r² − u²))² du = r³(5/3 − π/2);
            two coves r: ∫(r² − z²) dz = 2r³/3
    """
    if isinstance(one, Cove):
        return one.size.mm**3 * Fraction(2, 3)
    share = Fraction(5, 3) - PI / 2 if isinstance(one, Roundover) else Fraction(1, 3)
    return one.size.mm**3 * share


def _share(one: Box, other: Box) -> bool:
    common = one.common(other)
    return all(common.extent(axis).mm > 0 for axis in AXES)


def _solid_volume(part: Part) -> Fraction:
    return Fraction(round(solid(part).volume()))


def _tapered(part: Part, tapers: list[Taper]) -> Fraction:
    """Volume of the body with its tapers; one that narrows along another axis than the first is a wedge."""
    if not tapers:
        return _product(part)
    axis = AXIS_OF[tapers[0].narrow]
    crossing = [taper for taper in tapers if AXIS_OF[taper.narrow] != axis]
    tapers = [taper for taper in tapers if AXIS_OF[taper.narrow] == axis]
    whole = part.box.extent(axis).mm
    breaks = {Fraction(0), whole}
    for taper in tapers:
        breaks.add(taper.run.mm if taper.narrow == LOW[axis] else whole - taper.run.mm)
    stations = sorted(breaks)
    total = -sum((_wedge(part, taper) for taper in crossing), Fraction(0))
    for start, end in pairwise(stations):
        middle = (start + end) / 2
        areas = [_section(part, tapers, at) for at in (start, middle, end)]
        total += (end - start) * (areas[0] + 4 * areas[1] + areas[2]) / 6
    return total


def _section(part: Part, tapers: list[Taper], at: Fraction) -> Fraction:
    axis = AXIS_OF[tapers[0].narrow]
    sides = {other: part.box.extent(other).mm for other in AXES if other != axis}
    for taper in tapers:
        from_narrow = at if taper.narrow == LOW[axis] else part.box.extent(axis).mm - at
        left = max(Fraction(0), 1 - from_narrow / taper.run.mm)
        sides[AXIS_OF[taper.face]] -= taper.amount.mm * left
    area = Fraction(1)
    for side in sides.values():
        area *= side
    return area


def _wedge(part: Part, taper: Taper) -> Fraction:
    (wide,) = (axis for axis in AXES if axis not in {AXIS_OF[taper.face], AXIS_OF[taper.narrow]})
    return taper.amount.mm * taper.run.mm * part.box.extent(wide).mm / 2


def _product(part: Part) -> Fraction:
    x, y, z = part.box.size
    return x.mm * y.mm * z.mm


def _taken(part: Part, feature: Feature) -> Fraction:  # noqa: PLR0911 - a case for each kind
    match feature:
        case Notch(cut=cut) | Groove(cut=cut):
            x, y, z = cut.size
            return x.mm * y.mm * z.mm
        case Mitre() | CompoundMitre() | Bevel():
            return _slanted(part, feature)
        case Chamfer(edge=edge, size=size):
            return size.mm**2 / 2 * part.box.extent(runs_along(edge)).mm
        case Roundover(edge=edge, size=size):
            return (1 - PI / 4) * size.mm**2 * part.box.extent(runs_along(edge)).mm
        case Cove(edge=edge, size=size):
            return PI / 4 * size.mm**2 * part.box.extent(runs_along(edge)).mm
        case Bore():
            return _bored(part, feature)
        case PocketHoles(face=face, places=places):
            return len(places) * _pocket(part.box.extent(AXIS_OF[face]).mm)
        case Taper() | Banding() | LeftOn():
            return Fraction(0)


def _slanted(part: Part, feature: Feature) -> Fraction:
    """What a plane takes off a whole face: the face's area times how deep it goes in the middle."""
    slant = slant_of(part.box.size, feature)
    assert slant is not None
    one, two = (part.box.extent(axis).mm for axis in AXES if axis != AXIS_OF[slant.face])
    return one * two * slant.deepest.mm / 2


def _bored(part: Part, bore: Bore) -> Fraction:
    radius, depth = bore.diameter.mm / 2, bore.reach(part.box.size).mm
    travel = bore.travel.mm if bore.travel is not None else Fraction(0)
    taken = (PI * radius**2 + travel * 2 * radius) * depth
    if bore.countersink is not None:
        wide = bore.countersink.mm / 2
        deep = wide - radius
        cone = PI * deep * (wide**2 + wide * radius + radius**2) / 3 + travel * deep * (wide + radius)
        taken += cone - (PI * radius**2 + travel * 2 * radius) * deep
    return taken


def _pocket(thickness: Fraction) -> Fraction:
    """What one pocket takes away: a round hole of the length of its middle, cut off by a slanting face.

    Where its flat bottom lies wholly in the wood, the slant adds as much on one side as it takes on the
    other; in thin stock part of the bottom lies above the face, and only the rest is integrated.
    """
    radius, length = float(POCKET_DIAMETER.mm) / 2, pocket_length(float(thickness))
    lean = tan(radians(float(POCKET_ANGLE.degrees)))
    start = max(-radius, min(radius, -length * lean))
    chord = sqrt(radius**2 - start**2)
    area = pi * radius**2 / 2 - start * chord - radius**2 * asin(start / radius)
    return Fraction(length * area + 2 / 3 * chord**3 / lean)
