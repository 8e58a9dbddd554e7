"""What opens, drawn across what it turns about: shut and open, with its arc, its angle and what it meets.

Open positions are dashed; cut parts that stay, and the moving parts shut, are outlined. A cross marks the
first thing that is met.
"""

import math
from collections.abc import Sequence
from typing import Any, Final

from plankit.build import Build, Moving, alike
from plankit.build.moving import NO_ANGLE
from plankit.build.swing import Meeting, Sweep, pivot_of, sweep, turning
from plankit.build.swing_geometry import Motion, Spot
from plankit.build.swing_outlines import Body, contents_of, moving_bodies, spot_of, standing_bodies
from plankit.build.swing_room import Clear, clear_opening, edge_spot
from plankit.drawing import dimension as dim
from plankit.drawing.labels import Wanted, labels
from plankit.drawing.metrics import text_width
from plankit.drawing.occupied import Occupied, text_quad
from plankit.drawing.placing import Placing, framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import (
    Area,
    Figure,
    Line,
    Mark,
    Point,
    Primitive,
    Ring,
    Text,
    bounds,
)
from plankit.drawing.swing_shapes import dot, drawn, less, lines_below, union
from plankit.drawing.swing_words import picture_words, turned_words
from plankit.drawing.words import unit_note
from plankit.parts import AXES, AXIS_OF, HIGH, Axis
from plankit.stock import slug
from plankit.units import Angle, Notation

WIDE, TALL = 110.0, 110.0
SEEN_FROM: Final[dict[Axis, str]] = {"x": "the right", "y": "the front", "z": "above"}
_SIZE = 8.5
_CROSS = 3.2
_CLOSE = 0.02
"""Outlines that turning has parted by less than this, in millimetres, touch."""
_ARC = 7.0
"""The arc of the angle lies so far beyond the front's edge, in mm on the page."""


def moving_drawing(build: Build, moving: Moving, notation: Notation) -> Figure:
    """What opens, shut and open, to scale: a door from above, a bin or a flap from its side, a drawer pulled out.

    raises  KeyError where its parts are not in the build
    """
    return on_the_page(lambda room: _Picture(build, moving, notation, room).figure())


class _Picture:
    """One drawing while it is made: the plane, the motion, and where the plane lies on the page."""

    def __init__(self, build: Build, moving: Moving, notation: Notation, room: float) -> None:
        self.build, self.moving, self.notation = build, moving, notation
        self.swept = sweep(build, moving)
        self.axis: Axis = pivot_of(moving).axis if moving.pivot else _across(moving)
        self.own = moving_bodies(build, moving, self.axis)
        self.motion: Motion | None = turning(pivot_of(moving)) if moving.pivot else None
        self.angle = self.swept.angle or NO_ANGLE
        self.placing = Placing(1.0)
        self.number = self._scale(room)
        self.placing = Placing(1.0 / self.number)

    def figure(self) -> Figure:
        """The finished drawing."""
        standing = self._standing()
        carried = contents_of(self.build, self.moving, self.axis)
        shapes: list[Primitive] = [
            *(Line((*ring, ring[0]), "receding") for ring in self._rings(self._whole())),
            *(one for body in standing for one in drawn(self._rings(union(body)), "part", "visible")),
            *(one for body in self.own for one in drawn(self._rings(union(body)), "arriving", "outline")),
            *(Line((*ring, ring[0]), "hidden") for ring in self._rings(self._opened())),
            *(Line((*ring, ring[0]), "centre") for ring in (self._rings(union(carried)) if carried else ())),
        ]
        clear = clear_opening(self.build, self.moving, self.angle) if self.moving.pivot else None
        taken = Occupied()
        taken.add(shapes)
        signs = [*self._travel(taken), *self._clear(clear), *self._pivot(), *self._met()]
        taken.add(signs)
        signs += self._angle_words(taken)
        taken.add(signs[-1:])
        letters = labels(
            self._wanted(standing), taken, [one.rings for one in shapes if isinstance(one, Area)]
        )
        items = (*shapes, *signs, *letters)
        sized = any(isinstance(one, Text) and "°" not in one.text for one in signs)
        items = (*items, *self._front(items))
        title, said, below = picture_words(
            self.build, self.swept, self.notation, SEEN_FROM[self.axis], clear.width if clear else None
        )
        unit = [f"{unit_note(self.notation)}."] if sized else []
        seen = f"Seen from {SEEN_FROM[self.axis]}, cut through the middle."
        foot = [seen, " ".join([f"{scale_words(self.number)}.", *unit]), *below]
        if carried:
            foot.append(f"Chain line, not made: {carried.name}.")
        return framed(f"moving-{slug(self.moving.name)}", (*items, *lines_below(items, foot)), title, said)

    def _front(self, items: Sequence[Primitive]) -> tuple[Text, ...]:
        """The word "front" at the front of the build, where it is not what one looks at."""
        left, top, right, bottom = bounds(items)
        if self.axis == "z":
            return (Text(((left + right) / 2, bottom + 4.5), "front", 9.0, "middle", bold=True),)
        if self.axis == "x":
            return (Text((left - 2.0, (top + bottom) / 2), "front", 9.0, "middle", -90.0, bold=True),)
        return ()

    def page(self, spot: Spot) -> Point:
        """Where a place of the plane of motion falls on the page."""
        one, two = spot
        return self.placing.at((two, -one) if self.axis == "y" else (one, -two))

    def _scale(self, room: float) -> int:
        points = [p for body in self._standing() for p in self._points(union(body))] + self._points(self._whole())
        points += [p for body in self.own for p in self._points(union(body))] + self._points(self._opened())
        across, down = zip(*points, strict=True)
        wide, high = max(across) - min(across), max(down) - min(down)
        return ratio(self.notation.unit, wide, high, WIDE * room, TALL * room)

    def _points(self, shape: Any) -> list[Point]:
        return [point for ring in self._rings(shape) for point in ring]

    def _rings(self, shape: Any) -> list[Ring]:
        pieces = [piece for piece in getattr(shape, "geoms", [shape]) if piece.geom_type == "Polygon"]
        rings = [ring for piece in pieces for ring in (piece.exterior, *piece.interiors)]
        return [tuple(self.page((x, y)) for x, y in ring.coords[:-1]) for ring in rings]

    def _standing(self) -> list[Body]:
        """What the section through the middle of the front cuts, and what is met beside it."""
        low, high = self._along(self.moving.parts[0])
        middle = (low + high) / 2
        met = {one.met for one in (*self.swept.opening[:1], *self.swept.inwards[:1])} | set(self.moving.stops)
        found = []
        for body in standing_bodies(self.build, self.moving, self.axis):
            cut = tuple(one for one in body.slabs if one.low < middle < one.high)
            if body.kind == "part" and (cut or body.key in met):
                found.append(Body(body.key, body.name, body.kind, cut or body.slabs))
        return found

    def _whole(self) -> Any:
        """The outline of all parts that stay, so that one sees what the cut ones belong to."""
        import shapely

        bodies = standing_bodies(self.build, self.moving, self.axis)
        shapes = [union(body) for body in bodies if body.kind == "part"]
        return shapely.union_all(shapes).buffer(_CLOSE, join_style="mitre").buffer(-_CLOSE, join_style="mitre")

    def _along(self, part_id: str) -> tuple[float, float]:
        box = self.build.part(part_id).box
        return float(box.low(self.axis).mm), float(box.high(self.axis).mm)

    def _opened(self) -> Any:
        """All that moves, as one shape, where it is open."""
        import shapely

        placed = [self._placed(slab.outline) for body in self.own for slab in body.slabs]
        return (
            shapely.union_all(placed).buffer(_CLOSE, join_style="mitre").buffer(-_CLOSE, join_style="mitre")
        )

    def _placed(self, outline: Any) -> Any:
        import shapely

        if self.motion is not None:
            turn = math.radians(float(self.angle.degrees))
            rings = [self.motion.placed(ring, turn) for ring in outline.rings]
        else:
            rings = [ring + self._way() for ring in outline.rings]
        return shapely.union_all([shapely.polygons(ring) for ring in rings])

    def _way(self) -> tuple[float, float]:
        """How far a drawer comes out, in the plane."""
        assert self.moving.slides is not None
        face, far = self.moving.slides
        travel = min([far.mm, *(one.travel.mm for one in self.swept.opening[:1])])
        ahead = [0.0, 0.0, 0.0]
        ahead[AXES.index(AXIS_OF[face])] = float(travel) * (1 if face == HIGH[AXIS_OF[face]] else -1)
        return spot_of((ahead[0], ahead[1], ahead[2]), self.axis)

    def _edge(self, share: float) -> Spot:
        """The outer free edge of the front after a share of its turn."""
        turned = Angle(self.angle.degrees * round(share * 1000) / 1000)
        return edge_spot(self.build, self.moving, inner=False, angle=turned)

    def _travel(self, taken: Occupied) -> list[Primitive]:
        """The arc of the angle beyond the front's edge, or how far a drawer comes out."""
        if self.motion is None:
            return self._pulled(taken)
        if not self.angle.degrees:
            return []  # it meets something before it opens at all
        steps = max(8, int(float(self.angle.degrees) / 3))
        arc = tuple(self._beyond(step / steps, _ARC) for step in range(steps + 1))
        sides = [
            Line((self._beyond(share, dim.GAP), self._beyond(share, _ARC + dim.PAST)), "extension")
            for share in (0, 1)
        ]
        ends = ((arc[1], arc[0]), (arc[-2], arc[-1]))
        heads = [Mark(tip, "arrow", dim.ARROW, dim.angle_of(dim.unit(less(tip, tail)))) for tail, tip in ends]
        return [*sides, Line(arc, "dimension"), *heads]

    def _beyond(self, share: float, far: float) -> Point:
        """So far beyond the front's edge, seen from the pivot, after a share of its turn, on the page."""
        pivot = pivot_of(self.moving)
        at, centre = self.page(self._edge(share)), self.page(spot_of(pivot.at.mm(), pivot.axis))
        return dim.shift(at, dim.unit(less(at, centre)), far)

    def _pulled(self, taken: Occupied) -> list[Primitive]:
        shut = [p for body in self.own for p in self._points(union(body))]
        opened = self._points(self._opened())
        way = spot_of(self._way_3d(), self.axis)
        ahead = dim.unit(less(self.page(way), self.page((0.0, 0.0))))
        first = max(shut, key=lambda p: (round(dot(p, ahead), 6), p[1]))
        last = max(opened, key=lambda p: (round(dot(p, ahead), 6), p[1]))
        lower = max(p[1] for p in (*shut, *opened)) - first[1]
        travel = self.notation.bare(_pulled_by(self.swept))
        down = (0.0, 1.0) if abs(ahead[0]) > 0.5 else (1.0, 0.0)
        return list(dim.drawn(dim.Dimension(first, last, ahead, down, max(lower, 0.0) + 6.0, travel), taken))

    def _way_3d(self) -> tuple[float, float, float]:
        assert self.moving.slides is not None
        face = self.moving.slides[0]
        ahead = [0.0, 0.0, 0.0]
        ahead[AXES.index(AXIS_OF[face])] = 1.0 if face == HIGH[AXIS_OF[face]] else -1.0
        return ahead[0], ahead[1], ahead[2]

    def _clear(self, clear: Clear | None) -> list[Primitive]:
        """The clear opening, from the inner edge of the front to what is nearest."""
        if clear is None or self.moving.kind == "door":
            return []
        first, last = self.page(clear.edge), self.page(clear.other)
        if math.dist(first, last) < 1.0:
            return []
        along = dim.unit(less(last, first))
        return list(
            dim.drawn(dim.Dimension(first, last, along, (along[1], -along[0]), 0.0, self._wide(clear)))
        )

    def _wide(self, clear: Clear) -> str:
        return self.notation.bare(clear.width)

    def _pivot(self) -> list[Primitive]:
        if self.motion is None:
            return []
        pivot = pivot_of(self.moving)
        x, y = self.page(spot_of(pivot.at.mm(), pivot.axis))
        arms = (((x - 3, y), (x + 3, y)), ((x, y - 3), (x, y + 3)))
        return [Line(dim.circle((x, y), 1.1), "dimension"), *(Line(arm, "centre") for arm in arms)]

    def _first(self) -> Meeting | None:
        """What is met when it is open, or before."""
        first = self.swept.opening[0] if self.swept.opening else None
        if first is None or (self.motion is not None and first.angle > self.angle):
            return None
        return first

    def _met(self) -> list[Primitive]:
        first = self._first()
        return [Mark(self.page(spot_of(first.at, self.axis)), "cross", _CROSS)] if first else []

    def _angle_words(self, taken: Occupied) -> list[Primitive]:
        """The angle beside the arc, where least is in its way."""
        if self.motion is None:
            return []
        text = turned_words(self.angle, self.notation)
        pivot = pivot_of(self.moving)
        centre = self.page(spot_of(pivot.at.mm(), pivot.axis))
        tried: list[tuple[float, int, Text]] = []
        for far in (2.0, 4.0, 7.0, -4.0):
            for share in (0.5, 0.35, 0.65, 0.8, 1.0):
                at = self._beyond(share, _ARC + far)
                out = dim.unit(less(at, centre))
                spot = dim.shift(at, out, abs(out[0]) * text_width(text, _SIZE) / 2)
                word = Text((spot[0], spot[1] + 1.2), text, _SIZE, "middle")
                tried.append((taken.cost(text_quad(word)), len(tried), word))
        return [min(tried, key=lambda one: one[:2])[2]]

    def _wanted(self, standing: Sequence[Body]) -> list[Wanted]:
        """The letters of all that moves, and of what is met or stops it, best places first."""
        letters = {p.id: g.label for g in alike(self.build) for p in (*g.parts, *g.other)}
        first = self._first()
        told = {first.met} if first else set()
        told |= set(self.moving.stops)
        regions: dict[str, list[tuple[Ring, ...]]] = {}
        for body in (*self.own, *(one for one in standing if one.key in told)):
            if body.key in letters:
                regions.setdefault(letters[body.key], []).append(tuple(self._rings(union(body))))
        return [Wanted(letter, tuple(found)) for letter, found in regions.items()]


def _across(moving: Moving) -> Axis:
    assert moving.slides is not None
    return "x" if AXIS_OF[moving.slides[0]] != "x" else "y"


def _pulled_by(swept: Sweep) -> Any:
    assert swept.moving.slides is not None
    ends = [swept.moving.slides[1], *(one.travel for one in swept.opening[:1])]
    return min(ends, key=lambda one: one.mm)


__all__ = ["moving_drawing"]
