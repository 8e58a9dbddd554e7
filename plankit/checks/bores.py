"""Where a bore lies, and how much wood is round it. All in the axes of its part, before that leans."""

from fractions import Fraction
from functools import lru_cache
from math import sqrt

from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Bore,
    Face,
    Leans,
    Part,
    Point,
    Slant,
    bore_line,
    other_axes,
    slants_of,
    spot_after,
    turning,
)
from plankit.units import Length, largest, smallest


def bores_for(part: Part, use: str) -> tuple[Bore, ...]:
    """Return the bores of a part that are there for one use."""
    return tuple(one for one in part.features if isinstance(one, Bore) and one.use == use)


def middle_of(part: Part, bore: Bore) -> Point:
    """Return where a bore's middle meets the face it is bored in, before its part leans."""
    at = {axis: part.box.low(axis) + bore.at[AXES.index(axis)] for axis in AXES}
    at[AXIS_OF[bore.face]] = part.box.face(bore.face)
    return Point(at["x"], at["y"], at["z"])


def where_it_stands(at: Point, leans: Leans) -> Point:
    """Return where a place is in the build, to a tenth of a millimetre where what it belongs to leans."""
    if not leans:
        return at
    x, y, z = (Length.of_mm(round(one * 10)).portion(10) for one in spot_after(turning(leans), at.mm()))
    return Point(x, y, z)


def to_the_edges(part: Part, bore: Bore) -> tuple[tuple[Face, Length], ...]:
    """Return the wood between a bore's rim and each edge beside it; below nothing where it breaks out.

    An edge or an end that is sawn at a slant counts as it is then, by the nearest part of the bore.
    """
    radius = bore.diameter.portion(2)
    found: list[tuple[Face, Length]] = []
    for axis in other_axes(AXIS_OF[bore.face]):
        low, high = _spread(part, bore, axis)
        found += [(LOW[axis], low - radius), (HIGH[axis], part.box.extent(axis) - high - radius)]
    if not _slants(part):
        return tuple(found)
    return tuple((face, left - Length.of_mm(_slant_takes(part, bore, face))) for face, left in found)


def _spread(part: Part, bore: Bore, axis: Axis) -> tuple[Length, Length]:
    """Between which distances from the part's lower end a bore's middle runs along an axis across it."""
    place = bore.at[AXES.index(axis)]
    if not bore.sawn:
        return place, place
    mouth, bottom = (line[AXES.index(axis)] for line in bore_line(part, bore))
    slips = place + Length.of_mm(Fraction(round((bottom - mouth) * 1000), 1000))
    return smallest(place, slips), largest(place, slips)


def least_mm(part: Part, bore: Bore) -> Fraction:
    """Return the least wood between a bore's rim and an edge beside it in millimetres, quickly."""
    if _slants(part):
        return min(left.mm for _, left in to_the_edges(part, bore))
    radius = bore.diameter.mm / 2
    rooms = (
        min(bore.at[AXES.index(axis)].mm, part.box.extent(axis).mm - bore.at[AXES.index(axis)].mm) - radius
        for axis in other_axes(AXIS_OF[bore.face])
    )
    return min(rooms)


def behind(part: Part, bore: Bore) -> Length:
    """Return the wood left behind a bore's bottom, square to it; nothing or less where it comes out."""
    left = part.box.extent(AXIS_OF[bore.face]) - bore.reach(part.box.size)
    far = OPPOSITE[bore.face]
    taken = _slant_takes(part, bore, far) if _slants(part) else Fraction(0)
    return left - Length.of_mm(taken) if taken else left


@lru_cache(maxsize=256)
def _slants(part: Part) -> tuple[Slant, ...]:
    return tuple(slant for _, slant in slants_of(part))


def _slant_takes(part: Part, bore: Bore, face: Face) -> Fraction:
    """How far a face falls back at a bore by the slants it is sawn at, in millimetres; its rim included.

    source  a circle of radius r clears a line that falls by t for 1 at r √(1 + t²) from it along the fall
    """
    mouth = middle_of(part, bore)
    deep = bore.reach(part.box.size)
    axis = AXIS_OF[bore.face]
    bottom = mouth.moved(axis, -deep if bore.face == HIGH[axis] else deep)
    radius, taken = float(bore.diameter.mm) / 2, Fraction(0)
    for slant in _slants(part):
        if slant.face != face:
            continue
        falls = max(slant.depth(part, at) for at in (mouth, bottom))
        steep = sum(slope.tangent**2 for slope in slant.slopes if AXIS_OF[slope.towards] != axis)
        rim = radius * (sqrt(steep) if AXIS_OF[face] == axis else sqrt(1 + steep) - 1)
        taken = max(taken, falls + Fraction(round(rim * 10**6), 10**6) if falls else falls)
    return taken


def line_of(part: Part, bore: Bore) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Return the middle line of a bore in millimetres, from its mouth to its bottom."""
    return bore_line(part, bore)
