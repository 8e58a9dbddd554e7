"""What moves and what stands still, as outlines in the plane of motion, each with its extent along the axis.

A part is divided into slabs along the axis: within one, its section stays the same, so that a notched part
is told exactly. Where a section changes all the way (a leg that tapers along the axis), thin slabs stand for
it, each as wide as its widest section, so that contact is told a little early and never late. Holes are
filled: nothing that moves goes into a screw hole.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from plankit.build.build import Build
from plankit.build.items import Item
from plankit.build.moving import Moving
from plankit.build.swing_geometry import Outline, Spot, rectangle
from plankit.parts import AXES, Axis, Banding, Bore, Box, Part, PocketHoles, box_of, solid

if TYPE_CHECKING:
    from manifold3d import Manifold

PLANE: dict[Axis, tuple[Axis, Axis]] = {"x": ("y", "z"), "y": ("z", "x"), "z": ("x", "y")}
"""The two axes of the plane across an axis; from the first to the second is the right-handed way about it."""
ALONG = 0.05
"""Things that share no more of the axis than this, in millimetres, pass one another."""
FLOOR = "the floor"
_THIN = 8
"""A slab whose section changes is divided into so many."""
_FAR = 1e5

type Kind = Literal["part", "thing", "item", "floor"]


@dataclass(frozen=True, slots=True)
class Slab:
    """A section, and where along the axis it holds, in millimetres."""

    low: float
    high: float
    outline: Outline

    def passes(self, other: "Slab") -> bool:
        """Tell whether two slabs lie beside each other along the axis."""
        return min(self.high, other.high) - max(self.low, other.low) <= ALONG


@dataclass(frozen=True, slots=True)
class Body:
    """One thing that moves or stands still: a part, hardware, a thing to fit round, or the floor.

    key   a part's id; the name of anything else
    """

    key: str
    name: str
    kind: Kind
    slabs: tuple[Slab, ...]


def spot_of(at: tuple[float, float, float], axis: Axis) -> Spot:
    """Return a place of the build as it lies in the plane across an axis."""
    one, two = PLANE[axis]
    return at[AXES.index(one)], at[AXES.index(two)]


def box_slab(box: Box, axis: Axis) -> Slab:
    """Return the one slab of a plain box."""
    low, high = box.mm()
    index = AXES.index(axis)
    return Slab(low[index], high[index], rectangle(spot_of(low, axis), spot_of(high, axis)))


@lru_cache(maxsize=1024)
def slabs_of(part: Part, axis: Axis) -> tuple[Slab, ...]:
    """Return the slabs of a part along an axis, holes and banding left out."""
    plain = replace(
        part, features=tuple(f for f in part.features if not isinstance(f, Bore | PocketHoles | Banding))
    )
    if not plain.features and not plain.leans:
        return (box_slab(part.box, axis),)
    return tuple(_sections(_upright(solid(plain), axis)))


def _upright(body: "Manifold", axis: Axis) -> "Manifold":
    """The solid turned so that the axis stands upright and the plane lies flat."""
    import numpy as np

    rows = np.zeros((3, 4))
    for row, one in enumerate((*PLANE[axis], axis)):
        rows[row, AXES.index(one)] = 1.0
    return body.transform(rows)


def _sections(body: "Manifold") -> Iterable[Slab]:
    import numpy as np

    heights = np.unique(np.round(body.to_mesh64().vert_properties[:, 2], 6))
    levels = [float(heights[0])]
    levels += [float(level) for level in heights[1:] if level - levels[-1] > ALONG]
    for low, high in pairwise(levels):
        if _stays(body, low, high):
            yield from _slab(low, high, _rings(body.slice((low + high) / 2)))
            continue
        steps = np.linspace(low, high, _THIN + 1)
        for start, end in pairwise(float(step) for step in steps):
            piece = body.trim_by_plane([0.0, 0.0, 1.0], start).trim_by_plane([0.0, 0.0, -1.0], -end)
            yield from _slab(start, end, _rings(piece.project()))


def _stays(body: "Manifold", low: float, high: float) -> bool:
    """Whether the section just above one level is the section just below another."""
    part = (high - low) / 100
    first, last = body.slice(low + part), body.slice(high - part)
    same = (abs(a - b) < 1e-4 for a, b in zip(first.bounds(), last.bounds(), strict=True))
    return abs(first.area() - last.area()) < 1e-3 and all(same)


def _rings(section: object) -> list[list[list[float]]]:
    rings = section.simplify(1e-6).to_polygons()  # type: ignore[attr-defined]
    return [ring.tolist() for ring in rings if len(ring) >= 3]


def _slab(low: float, high: float, rings: list[list[list[float]]]) -> Iterable[Slab]:
    if rings:
        yield Slab(low, high, Outline(rings))


def moving_bodies(build: Build, moving: Moving, axis: Axis) -> tuple[Body, ...]:
    """Return all that moves: the parts, and the hardware that is fixed to nothing else."""
    found = [Body(one, build.part(one).name, "part", slabs_of(build.part(one), axis)) for one in moving.parts]
    found += [_item_body(item, axis) for item in build.items if item.on and set(item.on) <= set(moving.parts)]
    return tuple(found)


def contents_of(build: Build, moving: Moving, axis: Axis) -> Body | None:
    """Return what a moving part carries; None where it carries nothing."""
    for thing in build.things:
        if thing.name == moving.contents:
            return Body(thing.name, thing.name, "thing", (box_slab(thing.box, axis),))
    return None


def standing_bodies(
    build: Build, moving: Moving, axis: Axis, between: tuple[float, float] = (-_FAR, _FAR)
) -> tuple[Body, ...]:
    """Return all that stands still: parts, hardware on them, things, and the floor where the piece stands on it.

    between  parts that lie wholly before or beyond these two places on the axis, in millimetres, may be left out
    """
    found = [
        Body(part.id, part.name, "part", slabs_of(part, axis))
        for part in build.parts
        if part.id not in moving.parts and _lies_between(part, axis, between)
    ]
    found += [
        _item_body(item, axis) for item in build.items if item.on and not set(item.on) & set(moving.parts)
    ]
    found += [
        Body(thing.name, thing.name, "thing", (box_slab(thing.box, axis),))
        for thing in build.things
        if thing.name != moving.contents
    ]
    return (*found, *_floor(build, axis))


def _lies_between(part: Part, axis: Axis, between: tuple[float, float]) -> bool:
    box = box_of(part)
    return float(box.high(axis).mm) > between[0] and float(box.low(axis).mm) < between[1]


def _item_body(item: Item, axis: Axis) -> Body:
    return Body(item.name, item.name, "item", (box_slab(item.box, axis),))


def _floor(build: Build, axis: Axis) -> Iterable[Body]:
    """The floor, for what turns about a level axis; what hangs on a wall has none."""
    if axis == "z" or any(item.kind == "wall fixing" for item in build.items):
        return
    level = float(min(box_of(part).bottom.mm for part in build.parts))
    low, high = [-_FAR] * 3, [_FAR] * 3
    low[2], high[2] = level - _FAR, level
    corners = spot_of((low[0], low[1], low[2]), axis), spot_of((high[0], high[1], high[2]), axis)
    yield Body(FLOOR, FLOOR, "floor", (Slab(-_FAR, _FAR, rectangle(*corners)),))
