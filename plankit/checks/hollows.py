"""The holes of one part with their middle lines, and the screws that make their own."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import radians, tan

from plankit.build import Fastener
from plankit.build.fasteners import WIRE_KINDS
from plankit.build.mounting import LEAD_HOLE
from plankit.checks.bores import line_of
from plankit.checks.clashes import Piece, Vector, closest, far_apart
from plankit.checks.wording import a_or_an
from plankit.parts import Bore, Face, Part, PocketHoles, pocket_line, spot_after, turning_back
from plankit.parts.features import POCKET_ANGLE, POCKET_DIAMETER

ON_ONE_LINE = 0.1
"""Holes whose middle lines lie so near, in millimeters, are on one line."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole of one part, or a screw that makes its own, before the part leans with its group; in millimeters.

    what     as it stands in a sentence: "a pocket hole in the back"
    line     its middle line, from its mouth
    room     a line that it lies around everywhere, no further away than `radius`
    feature  what bores it, and which one of a row it is; None for a screw without a hole of its own
    face     where it opens; None where it goes right through, and for a screw
    screw    the number of the screw that it is for; None where it is for none
    wire     whether it is only a brad or a staple
    """

    what: str
    line: Piece
    room: Piece
    radius: float
    feature: tuple[Bore | PocketHoles, int] | None
    face: Face | None
    screw: int | None = None
    wire: bool = False


def all_holes(part: Part, screws: tuple[Fastener, ...], driven: list[int]) -> list[Hole]:
    """Return the holes of a part, each with the screw it is for, then the screws that have none of their own in it.

    driven  the numbers of the screws that go through the part or into it
    """
    lines = {number: line_in(part, screws[number]) for number in driven}
    found = []
    for hole in bored(part):
        own = (number for number, line in lines.items() if _own_line(hole, line))
        found.append(replace(hole, screw=next(own, None)))
    taken = {hole.screw for hole in found}
    return found + [driven_in(screws[number], number, line) for number, line in lines.items() if number not in taken]


def _own_line(hole: Hole, line: Piece) -> bool:
    """Whether a screw goes along a hole's middle, and through it or out of its bottom."""
    return (
        not far_apart(hole.line, line, ON_ONE_LINE)
        and in_line(hole.line, line)
        and closest(hole.line, line) < ON_ONE_LINE
    )


def driven_in(screw: Fastener, number: int, line: Piece) -> Hole:
    """Return a screw as the hole that it makes for itself."""
    radius = float(screw.spec.diameter.mm) / 2
    return Hole(a_or_an(screw.spec.name), line, line, radius, None, None, number, screw.spec.kind in WIRE_KINDS)


def line_in(part: Part, screw: Fastener) -> Piece:
    """Return a screw's middle line, in the axes of a part before that leans."""
    if screw.leans == part.leans:
        return screw.head.mm(), screw.tip.mm()
    back = turning_back(part.leans)
    head, tip = screw.ends_mm()
    return spot_after(back, head), spot_after(back, tip)


def bored(part: Part) -> Iterator[Hole]:
    """Yield every hole that a part has, one of a row after another."""
    for feature in part.features:
        if isinstance(feature, Bore):
            line = line_of(part, feature)
            across = max(feature.diameter.mm, feature.countersink.mm if feature.countersink is not None else 0)
            radius = float(across + (feature.travel.mm if feature.travel is not None else 0)) / 2
            face = None if feature.depth is None else feature.face
            yield Hole(_named(feature), line, line, radius, (feature, 0), face)
        elif isinstance(feature, PocketHoles):
            for number, place in enumerate(feature.places):
                line = _spots(pocket_line(part, feature, place))
                yield Hole(f"a pocket hole in the {feature.face}", line, _from_outside(line),
                           float(POCKET_DIAMETER.mm) / 2, (feature, number), feature.face)  # fmt: skip


def _named(bore: Bore) -> str:
    if bore.travel is not None:
        return f"a slot in the {bore.face}"
    use = bore.use.partition(",")[0]
    if use in {LEAD_HOLE, "clearance hole"}:
        return f"a screw's hole in the {bore.face}"
    return f"a hole in the {bore.face}" + (f" ({bore.use})" if bore.use else "")


def _spots(line: tuple[tuple[float, ...], tuple[float, ...]]) -> Piece:
    (x, y, z), (a, b, c) = line
    return (x, y, z), (a, b, c)


def _from_outside(line: Piece) -> Piece:
    """A pocket's line from where the rim of its long mouth is."""
    start, end = line
    far = float(POCKET_DIAMETER.mm) / 2 / tan(radians(float(POCKET_ANGLE.degrees)))
    share = far / _length(line)
    x, y, z = (s - (e - s) * share for s, e in zip(start, end, strict=True))
    return (x, y, z), end


def _length(line: Piece) -> float:
    x, y, z = _less(line[1], line[0])
    return float((x * x + y * y + z * z) ** 0.5)


def in_line(one: Piece, other: Piece) -> bool:
    """Tell whether the ends of one line lie on the other or on its continuation."""
    start, end = other
    way, far = _less(end, start), ON_ONE_LINE * _length(other)
    return all(_length(((0.0, 0.0, 0.0), _cross(_less(spot, start), way))) < far for spot in one)


def _less(one: Vector, other: Vector) -> Vector:
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def _cross(one: Vector, other: Vector) -> Vector:
    (x, y, z), (a, b, c) = one, other
    return y * c - z * b, z * a - x * c, x * b - y * a
