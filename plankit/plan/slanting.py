"""Parts that lean, and ends sawn to lie against them: where each face comes to lie, and the cut that follows.

The turns' numbers are rounded to twelve places once; lengths stay exact beside them and remember what made them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from plankit.errors import PlanError
from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    LOW,
    Axis,
    Bore,
    Box,
    CompoundMitre,
    Face,
    Feature,
    Groove,
    Lean,
    Leans,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Point,
    box_of,
    spread_out,
    turning,
    way_after,
)
from plankit.stock import Lumber
from plankit.units import Angle, Length, diagonal

STEEPEST = Angle(Fraction(45))
_FINE = 10**12
type Vector = tuple[Fraction, Fraction, Fraction]


def splayed(leg: Part, sideways: Angle, frontways: Angle) -> Part:
    """Return an upright board leaning about the middle of its top, with both ends sawn level.

    sideways, frontways  positive where its top goes to the right, or to the front
    """
    if leg.grain != "z" or leg.leans:
        raise PlanError("only an upright board can be splayed, and only once.", where=leg.name)
    _square_ends(leg, ("bottom", "top"))
    box = leg.box
    at = Point(box.middle("x"), box.middle("y"), box.top)
    leans = spread_out(at, sideways, frontways)
    if not leans:
        return leg
    up = _way(_back(leans), (0.0, 0.0, 1.0))
    slopes: dict[Axis, Fraction] = {"x": -up[0] / up[2], "y": -up[1] / up[2]}
    spare = sum((box.extent(axis) * abs(slope) for axis, slope in slopes.items()), Length.zero()).portion(2)
    long = box.extent("z") * _fine(1 / _plumb(leans))
    made = replace(box, bottom=(box.top - long - spare).gathered(), top=(box.top + spare).gathered())
    ends = (_end(made, "top", slopes), _end(made, "bottom", slopes))
    return replace(leg, box=made, leans=leans, features=(*_kept(leg, made), *ends))


def tilted(part: Part, towards: Face, by: Angle) -> Part:
    """Return a part leaning about its lower edge, its top going towards a face."""
    if part.leans:
        raise PlanError("it leans already.", where=part.name)
    axis = AXIS_OF[towards]
    about: Axis = "y" if axis == "x" else "x"
    at = Point(part.box.face("left"), part.box.face("front"), part.box.bottom)
    at = replace(at, **{axis: part.box.face(towards)})
    sign = 1 if towards in {"right", "front"} else -1
    return replace(part, leans=(Lean(about, at, Angle(by.degrees * sign)),)) if by.degrees else part


def braced(  # noqa: PLR0917 - two faces, two lengths, and where it lies
    part_id: str,
    name: str,
    stock: Lumber,
    first: tuple[Part, Face],
    second: tuple[Part, Face],
    lengths: tuple[Length, Length],
    side: Mapping[Face, Length],
) -> Part:
    """Return a brace from a face up, or across, to another; its outer edge reaches `lengths` from their corner.

    source  a strip of width w at an angle a to one face: its inner edge is w × tan a shorter at that end, and
            w ÷ tan a at the other
    """
    (one, face), (other, other_face) = first, second
    axis, across = AXIS_OF[face], AXIS_OF[other_face]
    if axis == across or one.leans or other.leans:
        raise PlanError(
            "a brace lies across a corner of two upright parts.", where=name, given=f"{face}, {other_face}"
        )
    (thick,) = (own for own in AXES if own not in {axis, across})
    if len(side) != 1 or AXIS_OF[next(iter(side))] != thick:
        raise PlanError(
            "one face more says where it lies.", where=name, remedy=f"Add {LOW[thick]}=… or {HIGH[thick]}=…"
        )
    rise, run = lengths
    if rise <= Length.zero() or run <= Length.zero():
        raise PlanError(
            "a brace reaches along both faces.", where=name, remedy="Give rise and run above nothing."
        )
    width, ratio = stock.width, rise / run
    away = (1 if face == HIGH[axis] else -1), (1 if other_face == HIGH[across] else -1)
    long = diagonal(rise, run)
    corner = {axis: one.box.face(face), across: other.box.face(other_face)}
    high = corner[across] + rise * away[1]
    ends = {axis: sorted_pair(corner[axis], corner[axis] + long * away[0])}
    ends[across] = sorted_pair(high, high - width * away[1])
    ((named, place),) = side.items()
    ends[thick] = sorted_pair(place, place + stock.thickness * (1 if named == LOW[thick] else -1))
    box = Box(*ends["x"], *ends["y"], *ends["z"])
    start, end = (LOW[axis], HIGH[axis]) if away[0] > 0 else (HIGH[axis], LOW[axis])
    inner: Face = LOW[across] if away[1] > 0 else HIGH[across]
    backs = width * ratio, width * (1 / ratio)
    if backs[0] + backs[1] >= long:
        raise PlanError(
            "its inner edge has no length left.",
            where=name,
            remedy="Reach further along both faces, or use narrower stock.",
        )
    zero = Length.zero()
    found = {axis: corner[axis], across: high, thick: zero}
    at = Point(found["x"], found["y"], found["z"])
    falls = Angle.of_slope(rise, run)
    turned = (AXES.index(axis) + 1) % 3 == AXES.index(across)  # whether axis → across is the right-handed way
    sign = -1 if (away[0] * away[1] > 0) == turned else 1
    lean = Lean(thick, at, Angle(falls.degrees * sign))
    cuts = (Mitre(start, inner, backs[0]), Mitre(end, inner, backs[1]))
    return Part(part_id, name, "board", stock, box, axis, thick, cuts, leans=(lean,))


def sorted_pair(one: Length, other: Length) -> tuple[Length, Length]:
    """Return two places, the lower one first."""
    return (one, other) if one <= other else (other, one)


def cut_against(rail: Part, other: Part) -> Part:
    """Return a board with one end moved to, and sawn to lie against, the nearest face of another part."""
    end = _end_towards(rail, other)
    ahead = _way(rail.leans, _along(end))
    found = []
    for face in FACES:
        normal = _way(other.leans, _along(face))
        found.append((-sum(a * b for a, b in zip(normal, ahead, strict=True)), face, normal))
    _, face, normal = max(found, key=lambda one: (one[0], one[1]))
    return _sawn(rail, end, normal, _stands(other, face), other)


def mitred_with(one: Part, other: Part) -> Part:
    """Return a part whose end is sawn in the plane that lies evenly between its outer face and the other's.

    raises  PlanError where the two are the same part, or do not meet in a corner
    source  the plane of points as far inside the one face as the other: (p − a)·A = (p − b)·B
    """
    end = _end_towards(one, other)
    sides = [(part, _outer(part, against)) for part, against in ((one, other), (other, one))]
    (own, face), (second, other_face) = sides
    first_way, second_way = _way(own.leans, _along(face)), _way(second.leans, _along(other_face))
    first, point = _stands(own, face), _stands(second, other_face)
    x, y, z = (a - b for a, b in zip(first_way, second_way, strict=True))
    level = sum((first.along(axis) * way for axis, way in zip(AXES, first_way, strict=True)), Length.zero())
    level -= sum((point.along(axis) * way for axis, way in zip(AXES, second_way, strict=True)), Length.zero())
    square = x * x + y * y + z * z
    if not square:
        raise PlanError(
            f"it makes no corner with {other.name}.", where=one.name, remedy="Name the two that meet in it."
        )
    spot = Point(*(level * _fine(float(way / square)) for way in (x, y, z)))
    return _sawn(one, end, (x, y, z), spot, other)


def _outer(part: Part, other: Part) -> Face:
    """The face of a part, across its thickness, that looks away from another."""
    axis = part.through
    return LOW[axis] if box_of(other).middle(axis).mm > box_of(part).middle(axis).mm else HIGH[axis]


def _sawn(part: Part, end: Face, normal: Vector, point: Point, other: Part) -> Part:
    """The part with an end moved to, and sawn in, a plane of the build."""
    _square_ends(part, (end,))
    axis, back = AXIS_OF[end], _back(part.leans)
    way = _way(back, (float(normal[0]), float(normal[1]), float(normal[2])))
    spot = _moved(point, back)
    index = AXES.index(axis)
    if abs(way[index]) < Fraction(1, 10):
        raise PlanError(f"its {end} end does not look towards {other.name}.", where=part.name)
    slopes: dict[Axis, Fraction] = {
        own: -way[AXES.index(own)] / way[index] for own in AXES if own != axis and way[AXES.index(own)]
    }
    middle = spot.along(axis)
    for own, slope in slopes.items():
        middle += (part.box.middle(own) - spot.along(own)) * slope
    spare = sum((part.box.extent(own) * abs(slope) for own, slope in slopes.items()), Length.zero()).portion(
        2
    )
    at = middle + spare if end == HIGH[axis] else middle - spare
    made = replace(part.box, **{end: at.gathered()})
    if made.extent(axis) <= Length.zero():
        raise PlanError(f"nothing of it is left between its other end and {other.name}.", where=part.name)
    cut = (_end(made, end, slopes),) if slopes else ()
    return replace(part, box=made, features=(*_kept(part, made), *cut))


def _kept(part: Part, made: Box) -> tuple[Feature, ...]:
    """A part's cuts and holes where they were, after its ends are moved: they are told from its lower corner."""
    by = {axis: (part.box.low(axis) - made.low(axis)).gathered() for axis in AXES}
    return tuple(_carried(feature, by) for feature in part.features)


def _carried(feature: Feature, by: Mapping[Axis, Length]) -> Feature:
    match feature:
        case Notch(cut=cut) | Groove(cut=cut):
            for axis in AXES:
                cut = cut.moved(axis, by[axis])
            return replace(feature, cut=cut)
        case Bore(at=at):
            x, y, z = (place + by[axis] for axis, place in zip(AXES, at, strict=True))
            return replace(feature, at=(x, y, z))
        case PocketHoles(places=places):
            return replace(feature, places=tuple(place + by[feature.along] for place in places))
        case _:
            return feature


def _end(box: Box, end: Face, slopes: dict[Axis, Fraction]) -> Feature:
    """The cut of an end that rises by a slope along each axis across it."""
    outwards = end == HIGH[AXIS_OF[end]]
    backs: list[tuple[Face, Length]] = []
    for axis, slope in slopes.items():
        if slope:
            short = LOW[axis] if (slope > 0) == outwards else HIGH[axis]
            backs.append((short, (box.extent(axis) * abs(slope)).gathered()))
    if len(backs) == 1:
        return Mitre(end, *backs[0])
    return CompoundMitre(end, *backs[0], *backs[1])


def _end_towards(part: Part, other: Part) -> Face:
    axis = part.grain
    return HIGH[axis] if box_of(other).middle(axis).mm > box_of(part).middle(axis).mm else LOW[axis]


def _along(face: Face) -> tuple[float, float, float]:
    x, y, z = (float(face == HIGH[axis]) - float(face == LOW[axis]) for axis in AXES)
    return x, y, z


def _stands(other: Part, face: Face) -> Point:
    """The middle of a face where the part stands."""
    box, axis = other.box, AXIS_OF[face]
    x, y, z = (box.face(face) if own == axis else box.middle(own) for own in AXES)
    return _moved(Point(x, y, z), other.leans)


def _moved(point: Point, leans: Leans) -> Point:
    """A place after turns whose numbers are rounded to twelve places: its lengths remember where they come from."""
    spot = [point.x, point.y, point.z]
    for lean in leans:
        turn = turning((replace(lean, at=Point(*(Length.zero(),) * 3)),))
        away = [place - lean.at.along(own) for place, own in zip(spot, AXES, strict=True)]
        spot = [
            lean.at.along(own)
            + sum((one * _fine(share) for one, share in zip(away, row[:3], strict=True)), Length.zero())
            for own, row in zip(AXES, turn, strict=True)
        ]
        spot = [one.gathered() for one in spot]
    return Point(spot[0], spot[1], spot[2])


def _back(leans: Leans) -> Leans:
    return tuple(replace(lean, angle=Angle(-lean.angle.degrees)) for lean in reversed(leans))


def _way(leans: Leans, way: tuple[float, float, float]) -> Vector:
    x, y, z = way_after(turning(leans), way)
    return _fine(x), _fine(y), _fine(z)


def _plumb(leans: Leans) -> float:
    """How far up a leaning board gets for each length of it."""
    return way_after(turning(leans), (0.0, 0.0, 1.0))[2]


def _fine(value: float) -> Fraction:
    return Fraction(round(value * _FINE), _FINE)


def _square_ends(part: Part, ends: Sequence[Face]) -> None:
    cut = [one.end for one in part.features if isinstance(one, Mitre | CompoundMitre)]
    sawn = [end for end in ends if end in cut]
    if sawn:
        raise PlanError(
            f"its {sawn[0]} end is mitered already.",
            where=part.name,
            remedy="Leave the miter out: it is worked out here.",
        )
