"""The whole build from the front right above, with its outside size and a label on each kind of part."""

from collections.abc import Mapping, Sequence

from plankit.build import Alike, Build, alike
from plankit.drawing import dimension as dim
from plankit.drawing.direction import Direction, Vector, direction
from plankit.drawing.labels import Wanted, labels
from plankit.drawing.occupied import Occupied
from plankit.drawing.placing import Placing, framed, on_the_page
from plankit.drawing.primitives import Figure, Point, Primitive, Ring, Text, bounds
from plankit.drawing.seen import fills_of, lines_of, plain_kind, view_of
from plankit.drawing.view import View
from plankit.drawing.words import labelled, listed, outside_size, unit_note
from plankit.parts import AXES, Axis, Box
from plankit.units import Notation

WIDE, HIGH = 118.0, 120.0
"""Room for the view itself on the page, in mm."""


def whole(build: Build, notation: Notation, towards: str = "isometric front right") -> Figure:
    """The build as it will stand, with outside width, depth and height and the parts' labels.

    towards  the isometric direction it is seen from
    """
    return on_the_page(lambda room: _drawn(build, notation, direction(towards), room))


def _drawn(build: Build, notation: Notation, way: Direction, room: float) -> Figure:
    view = view_of(build.parts, way, items=build.items)
    placing = fitted(view, WIDE * room, HIGH * room)
    groups = alike(build)
    drawing: tuple[Primitive, ...] = (
        *fills_of(view, placing, lambda _part: "part"),
        *lines_of(view, placing, plain_kind),
    )
    taken = Occupied()
    taken.add(drawing)
    sizes = outside_dimensions(build.box, way, placing, notation, taken)
    taken.add(sizes)
    named = labels(wanted(groups, view, placing), taken, regions(view, placing))
    items: tuple[Primitive, ...] = (*drawing, *sizes, *named)
    return framed("whole", (*items, note_below(items, unit_note(notation))), f"{build.name}: the whole piece",
                  _words(build, groups, view, notation))  # fmt: skip


def fitted(view: View, wide: float, high: float) -> Placing:
    """The placing that makes a view fill a room on the page."""
    left, top, right, bottom = view.bounds
    scale = min(wide / max(right - left, 1e-9), high / max(bottom - top, 1e-9))
    return Placing(scale, -left * scale, -top * scale)


def regions(view: View, placing: Placing) -> tuple[tuple[Ring, ...], ...]:
    """Every visible region on the page."""
    return tuple(tuple(placing.ring(ring) for ring in rings) for _, rings in view.fills)


def wanted(
    groups: Sequence[Alike], view: View, placing: Placing, only: frozenset[str] | None = None
) -> list[Wanted]:
    """One label for each kind of part that is seen, on the part of that kind that is seen best."""
    found = []
    for group in groups:
        ids = [part.id for part in (*group.parts, *group.other) if only is None or part.id in only]
        seen = sorted(
            ((round(view.visible_area(part), 3), part) for part in ids), key=lambda one: (-one[0], one[1])
        )
        if seen and seen[0][0] > 0:
            best = seen[0][1]
            shown = [
                tuple(placing.ring(ring) for ring in rings) for part, rings in view.fills if part == best
            ]
            found.append(
                Wanted(group.label, tuple(sorted(shown, key=lambda rings: (-_extent(rings[0]), rings))))
            )
    return found


def outside_dimensions(
    box: Box, way: Direction, placing: Placing, notation: Notation, taken: Occupied
) -> tuple[Primitive, ...]:
    """Width, depth and height along the axes of an isometric view, outside the drawing."""
    items: list[Primitive] = []
    for axis in AXES:
        first, second, away = silhouette_edge(box, way, axis)
        ends = [placing.at(way.project(point)) for point in (first, second)]
        along = dim.unit((ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]))
        made = dim.Dimension(
            ends[0], ends[1], along, page_way(way, away), 8.0, notation.bare(box.extent(axis))
        )
        items.extend(dim.drawn(made, taken))
    return tuple(items)


def silhouette_edge(box: Box, way: Direction, axis: Axis) -> tuple[Vector, Vector, Vector]:
    """Both ends of the box's edge along an axis where a dimension stands clear, and the way out."""
    low, high = box.mm()
    near = [high[i] if way.eye[i] > 0 else low[i] for i in range(3)]
    far = [low[i] if way.eye[i] > 0 else high[i] for i in range(3)]
    index = AXES.index(axis)
    out = {0: 1, 1: 0, 2: 0}[index]
    corner = list(near)
    if axis == "z":  # the upright edge at the left of the page
        sides = [(way.project((far[0], near[1], 0))[0], 0), (way.project((near[0], far[1], 0))[0], 1)]
        out = min(sides)[1]
        corner[out] = far[out]
    else:
        corner[2] = far[2]
    first, second = list(corner), list(corner)
    first[index], second[index] = low[index], high[index]
    sign = 1.0 if corner[out] == high[out] else -1.0
    away = [0.0, 0.0, 0.0]
    away[out] = sign
    return _vector(first), _vector(second), _vector(away)


def page_way(way: Direction, vector: Vector) -> Point:
    """The way on the page that a way in the build becomes, of length 1."""
    return dim.unit(way.project(vector))


def note_below(items: Sequence[Primitive], text: str) -> Text:
    """A line of words under the drawing, at its left."""
    left, _, _, bottom = bounds(items)
    return Text((left, bottom + 5.0), text, 8.0)


def ids_to_labels(groups: Sequence[Alike]) -> Mapping[str, str]:
    """Which label each part carries."""
    return {part.id: group.label for group in groups for part in (*group.parts, *group.other)}


def _words(build: Build, groups: Sequence[Alike], view: View, notation: Notation) -> str:
    seen = [g for g in groups if any(view.visible_area(part.id) > 0 for part in (*g.parts, *g.other))]
    unseen = [g for g in groups if g not in seen]
    size = outside_size(*build.box.size, notation)
    said = (
        f"{view.direction.words}. {build.name}, {size}. Parts seen: {'; '.join(labelled(g) for g in seen)}."
    )
    return said + (f" Not seen from here: {listed(labelled(g) for g in unseen)}." if unseen else "")


def _extent(ring: Ring) -> float:
    across, down = zip(*ring, strict=True)
    extent: float = round((max(across) - min(across)) * (max(down) - min(down)), 3)
    return extent


def _vector(values: Sequence[float]) -> Vector:
    return values[0], values[1], values[2]
