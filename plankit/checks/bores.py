"""Where a bore lies in the build, and how much wood is round it."""

from fractions import Fraction

from plankit.parts import AXES, AXIS_OF, HIGH, LOW, Bore, Face, Part, Point, other_axes
from plankit.units import Length


def bores_for(part: Part, use: str) -> tuple[Bore, ...]:
    """Return the bores of a part that are there for one use."""
    return tuple(one for one in part.features if isinstance(one, Bore) and one.use == use)


def middle_of(part: Part, bore: Bore) -> Point:
    """Return where a bore's middle meets the face it is bored in, in the build."""
    at = {axis: part.box.low(axis) + bore.at[AXES.index(axis)] for axis in AXES}
    at[AXIS_OF[bore.face]] = part.box.face(bore.face)
    return Point(at["x"], at["y"], at["z"])


def to_the_edges(part: Part, bore: Bore) -> tuple[tuple[Face, Length], ...]:
    """Return the wood between a bore's rim and each edge beside it; below nothing where it breaks out."""
    radius = bore.diameter.portion(2)
    found: list[tuple[Face, Length]] = []
    for axis in other_axes(AXIS_OF[bore.face]):
        place = bore.at[AXES.index(axis)]
        found += [(LOW[axis], place - radius), (HIGH[axis], part.box.extent(axis) - place - radius)]
    return tuple(found)


def least_mm(part: Part, bore: Bore) -> Fraction:
    """Return the least wood between a bore's rim and an edge beside it in millimetres, quickly."""
    radius = bore.diameter.mm / 2
    rooms = (
        min(bore.at[AXES.index(axis)].mm, part.box.extent(axis).mm - bore.at[AXES.index(axis)].mm) - radius
        for axis in other_axes(AXIS_OF[bore.face])
    )
    return min(rooms)


def line_of(part: Part, bore: Bore) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Return the middle line of a bore in millimetres, from its mouth to its bottom."""
    low, high = part.box.mm()
    index = AXES.index(AXIS_OF[bore.face])
    mouth = [start + float(at.mm) for start, at in zip(low, bore.at, strict=True)]
    from_high = bore.face == HIGH[AXIS_OF[bore.face]]
    mouth[index] = high[index] if from_high else low[index]
    deep = float(bore.depth.mm) if bore.depth is not None else high[index] - low[index]
    bottom = list(mouth)
    bottom[index] += -deep if from_high else deep
    return (mouth[0], mouth[1], mouth[2]), (bottom[0], bottom[1], bottom[2])
