"""How far from an edge one can hook a tape on each arriving part of a step stands."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, product
from typing import TYPE_CHECKING

from plankit.build import Contact, touching
from plankit.drawing import dimension as dim
from plankit.drawing.direction import Vector
from plankit.drawing.figures_whole import page_way
from plankit.drawing.occupied import Occupied
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Area, Line, Point, Primitive
from plankit.drawing.view import View
from plankit.parts import AXES, HIGH, LOW, Axis, Face, Part, other_axes
from plankit.units import Length, Notation

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Place:
    """How far an arriving part stands from an edge of the part it meets.

    host      the part whose edge the tape is hooked on
    axis      along which it is measured
    from_face the host's face it is measured from
    part      the arriving part;  face: its face that the number goes to
    """

    host: Part
    axis: Axis
    from_face: Face
    part: Part
    face: Face

    @property
    def distance(self) -> Length:
        """The distance itself."""
        return abs(self.part.box.face(self.face) - self.host.box.face(self.from_face))


def places(arriving: Sequence[Part], present: Sequence[Part]) -> tuple[Place, ...]:
    """Where each arriving part stands on what is there: from one edge, or the far one if near."""
    found: dict[tuple[str, str, str, str, object], Place] = {}
    for part in sorted(arriving, key=lambda part: part.id):
        met = _host(part, grounds(part, arriving, present))
        if met is None:
            continue
        host, contact = met
        for axis in other_axes(contact.axis):
            place = _place(part, host, axis)
            if place is not None:
                found.setdefault((host.name, axis, place.from_face, part.name, place.distance.mm), place)
    return tuple(sorted(found.values(), key=lambda at: (at.host.id, at.axis, at.from_face, at.distance.mm)))


def grounds(part: Part, arriving: Sequence[Part], present: Sequence[Part]) -> list[Part]:
    """What a part is put on: the parts there that it meets, else larger ones that arrive with it."""
    there = [other for other in present if touching(part, other) is not None]
    larger = [other for other in arriving if _room(other) > _room(part)]
    return there or [other for other in larger if touching(part, other) is not None]


def _room(part: Part) -> Fraction:
    width, depth, height = (side.mm for side in part.box.size)
    return width * depth * height


def _host(part: Part, met: Sequence[Part]) -> tuple[Part, Contact] | None:
    """The part of these that it meets over the largest area, and where."""
    found = [(other, contact) for other in met if (contact := touching(part, other)) is not None]
    return max(found, key=lambda one: (round(one[1].area_mm2, 3), one[0].id)) if found else None


def _place(part: Part, host: Part, axis: Axis) -> Place | None:
    if part.leans or host.leans:
        return None  # a tape does not hook on a slant
    from_low = part.box.low(axis) - host.box.low(axis)
    from_high = host.box.high(axis) - part.box.high(axis)
    if from_low.mm <= 0 or from_high.mm <= 0:
        return None  # flush with an edge, or past it: nothing to measure
    near = host.box.extent(axis).portion(8)
    if from_high < near <= from_low:
        return Place(host, axis, HIGH[axis], part, HIGH[axis])
    return Place(host, axis, LOW[axis], part, LOW[axis])


def place_dimensions(
    found: Sequence[Place], view: View, placing: Placing, notation: Notation, drawn: Sequence[Primitive]
) -> tuple[Primitive, ...]:
    """Running dimensions of the places, one for each edge a tape is hooked on, clear of the drawing."""
    import numpy as np

    items: list[Primitive] = []
    taken = Occupied()
    busy = points_of(drawn)
    hooked: dict[tuple[str, str, str], list[Place]] = {}
    for place in found:
        hooked.setdefault((place.host.id, place.axis, place.from_face), []).append(place)
    for group in hooked.values():
        made = _edge_dimension(group, view, placing, notation, busy, taken)
        taken.add(made)
        busy = np.concatenate([busy, points_of(made)])
        items.extend(made)
    return tuple(items)


def _edge_dimension(  # noqa: PLR0917 - one edge, and the drawing it must stay clear of
    group: Sequence[Place], view: View, placing: Placing, notation: Notation,
    drawn: "Floats", taken: Occupied,
) -> tuple[Primitive, ...]:  # fmt: skip
    axis, host, way = group[0].axis, group[0].host, view.direction
    if math.hypot(*way.project(_unit_along(axis))) < 0.2:
        return ()  # it runs straight at the eye
    tried = []
    for number, (corner, out) in enumerate(_edges(host, axis)):
        if math.hypot(*way.project(out)) < 0.2:
            continue
        ends = [_on_edge(corner, axis, length, view, placing) for length in _measured(group)]
        along = dim.unit((ends[-1][0] - ends[0][0], ends[-1][1] - ends[0][1]))
        away = page_way(way, out)
        level = clear_level(ends, along, away, drawn)
        hidden = not view.sees(_outside(corner, axis, out, group[0]))
        tried.append((round(level + 15.0 * hidden, 3), number, ends, along, away, level + 3.5))
    _, _, ends, along, away, level = min(tried, key=lambda one: one[:2])
    numbers = [notation.bare(place.distance) for place in group]
    if len(numbers) == 1:
        return dim.drawn(dim.Dimension(ends[0], ends[1], along, away, level, numbers[0]), taken)
    return dim.running(dim.Running(ends[0], tuple(zip(ends[1:], numbers, strict=True)), along, away, level))


def _unit_along(axis: Axis) -> Vector:
    return float(axis == "x"), float(axis == "y"), float(axis == "z")


def _measured(group: Sequence[Place]) -> list[Length]:
    """Where the tape is hooked, then every place."""
    return [group[0].host.box.face(group[0].from_face), *(place.part.box.face(place.face) for place in group)]


def _edges(host: Part, axis: Axis) -> list[tuple[Vector, Vector]]:
    """The host's four edges along an axis, each with its two ways out."""
    low, high = host.box.mm()
    one, two = (index for index in range(3) if AXES[index] != axis)
    found = []
    for a, b in product((0, 1), repeat=2):
        corner = [0.0, 0.0, 0.0]
        corner[one], corner[two] = (low, high)[a][one], (low, high)[b][two]
        for index, end in ((one, a), (two, b)):
            out = [0.0, 0.0, 0.0]
            out[index] = 1.0 if end else -1.0
            found.append(((corner[0], corner[1], corner[2]), (out[0], out[1], out[2])))
    return found


def _on_edge(corner: Vector, axis: Axis, length: Length, view: View, placing: Placing) -> Point:
    spot = list(corner)
    spot[AXES.index(axis)] = float(length.mm)
    return placing.at(view.project((spot[0], spot[1], spot[2])))


def _outside(corner: Vector, axis: Axis, out: Vector, place: Place) -> Vector:
    """A point just off the edge, level with the place."""
    spot = [value + 1.0 * way for value, way in zip(corner, out, strict=True)]
    spot[AXES.index(axis)] = float(place.part.box.face(place.face).mm)
    return spot[0], spot[1], spot[2]


def clear_level(ends: Sequence[Point], along: Point, away: Point, drawn: "Floats") -> float:
    """How far out along `away` what is drawn reaches in the band between the ends, in mm."""
    x, y = ends[0]
    scale = along[0] * away[1] - along[1] * away[0]
    last = max(dim.split((u - x, v - y), along, away)[0] for u, v in ends)
    ahead = ((drawn[:, 0] - x) * away[1] - (drawn[:, 1] - y) * away[0]) / scale
    out = (along[0] * (drawn[:, 1] - y) - along[1] * (drawn[:, 0] - x)) / scale
    reach: float = out[(ahead > -6.0) & (ahead < last + 6.0)].max(initial=0.0)
    return reach


def points_of(drawn: Sequence[Primitive]) -> "Floats":
    """Points all along what is drawn, as an array; areas are left out, their lines are drawn too."""
    import numpy as np

    found: list[Point] = []
    for item in drawn:
        if isinstance(item, Line):
            found.extend(_dense(item.points))
        elif not isinstance(item, Area):
            found.append(item.at)
    return np.array(found).reshape(-1, 2)


def _dense(points: Sequence[Point]) -> Iterator[Point]:
    """Points along a line, no more than 4 mm apart."""
    for start, end in pairwise(points):
        count = max(1, math.ceil(math.dist(start, end) / 4.0))
        for index in range(count):
            yield (
                start[0] + (end[0] - start[0]) * index / count,
                start[1] + (end[1] - start[1]) * index / count,
            )
    yield points[-1]
