"""A build seen from a direction: visible lines, visible regions, and where its points fall on the page."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Literal

from plankit.drawing.direction import Direction, Vector, direction
from plankit.errors import PlanError

if TYPE_CHECKING:
    from manifold3d import Manifold

type Point = tuple[float, float]
type Rings = tuple[tuple[Point, ...], ...]
type Seen = Literal["outline", "visible"]


@dataclass(frozen=True, slots=True)
class View:
    """What is seen of a set of solids, in mm on the projection plane (u right, v down), whole size.

    lines      part, corners, and "outline" where the part turns away from the eye or "visible" inside it
    fills      part and the rings of one visible region, outer ring first, then its holes
    hidden     part and corners of lines that are behind something; empty unless asked for
    """

    direction: Direction
    parts: tuple[str, ...]
    lines: tuple[tuple[str, tuple[Point, ...], Seen], ...]
    fills: tuple[tuple[str, Rings], ...]
    hidden: tuple[tuple[str, tuple[Point, ...]], ...]
    _scene: Any = field(repr=False, compare=False)

    def project(self, point: Vector) -> Point:
        """Where a point of the build (mm, build axes) falls on the projection plane."""
        return self.direction.project(point)

    def visible_area(self, part: str) -> float:
        """How much of a part is seen, in mm² of the projection plane; 0 if it is hidden or not there."""
        return sum(_area(rings) for name, rings in self.fills if name == part)

    def part_at(self, place: Point) -> str | None:
        """The part seen at a place of the projection plane, or None where there is none."""
        piece = self._piece_at(place)
        return None if piece < 0 else self.parts[self._scene.piece_part[piece]]

    def sees(self, point: Vector, slack: float = 0.01) -> bool:
        """Whether no part stands before a point of the build; slack: mm a point may lie inside a face."""
        import numpy as np

        from plankit.drawing.scene import depths

        u, v = self.project(point)
        piece = self._piece_at((u, v))
        if piece < 0:
            return True
        nearest = depths(self._scene, np.array([piece]), np.array([[u, -v]]))[0]
        return bool(nearest <= self.direction.nearness(point) + slack)

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """The smallest upright rectangle round the visible lines: left, top, right, bottom in mm."""
        points = [point for _, corners, _ in self.lines for point in corners]
        if not points:
            return 0.0, 0.0, 0.0, 0.0
        across, down = zip(*points, strict=True)
        return min(across), min(down), max(across), max(down)

    def _piece_at(self, place: Point) -> int:
        import numpy as np

        from plankit.drawing.scene import topmost

        if self._scene is None:
            return -1
        return int(topmost(self._scene, np.array([[place[0], -place[1]]]))[0])


def look(
    solids: "Sequence[tuple[str, Manifold]]",
    towards: str | Vector | Direction = "isometric front right",
    *,
    hidden: bool = False,
    fills: bool = True,
) -> View:
    """What is seen of the solids from a direction; their order does not matter.

    solids     part id and solid (mm, build axes); empty solids are left out
    towards    a named direction, or a vector from the build to the eye
    hidden     also give the hidden lines;  fills: also give the visible regions
    raises     PlanError where two parts have one id, or the direction is not known
    """
    way = direction(towards)
    filled = [(name, solid) for name, solid in solids if not solid.is_empty()]
    ordered = sorted(filled, key=lambda one: one[0])
    names = tuple(name for name, _ in ordered)
    _refuse_twice(names)
    if not ordered:
        return View(way, (), (), (), (), None)
    from plankit.drawing.crossing import with_crossings
    from plankit.drawing.faces import shells
    from plankit.drawing.merging import paths
    from plankit.drawing.regions import regions
    from plankit.drawing.scene import scene
    from plankit.drawing.visible import HIDDEN, INNER, stretches

    bodies = [solid for _, solid in ordered]
    view = with_crossings(scene(shells(bodies), way), bodies, way)
    found = stretches(view, hidden=hidden)
    drawn = paths(found)
    return View(
        direction=way,
        parts=names,
        lines=tuple(
            (names[part], corners, "visible" if rank == INNER else "outline")
            for part, rank, corners in drawn
            if rank != HIDDEN
        ),
        fills=tuple((names[part], rings) for part, rings in regions(view, found)) if fills else (),
        hidden=tuple((names[part], corners) for part, rank, corners in drawn if rank == HIDDEN),
        _scene=view,
    )


def _refuse_twice(names: Sequence[str]) -> None:
    for name, following in pairwise(names):
        if name == following:
            remedy = "Give each part its own id."
            raise PlanError("Two parts of a view have one id.", where=name, remedy=remedy)


def _area(rings: Rings) -> float:
    outer, *holes = (abs(_shoelace(ring)) for ring in rings)
    return outer - sum(holes)


def _shoelace(ring: Sequence[Point]) -> float:
    x0, y0 = ring[0]
    around = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum((ax - x0) * (by - y0) - (bx - x0) * (ay - y0) for (ax, ay), (bx, by) in around) / 2
