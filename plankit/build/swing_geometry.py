"""Outlines that turn about a point, or slide, in one plane: where they first meet others, and how far they reach.

What two outlines share changes only where a corner of one lies on an edge of the other. Those moments are
solved for, not stepped to: a corner runs along a circle (or a straight line), and meets an edge where the
two cross. Between two such moments, one look in the middle tells whether the outlines share anything.

Places are millimetres in the plane, as floats; turning is counter-clockwise, in radians.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import atan2, ceil, cos, hypot, inf, pi, sin
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Floats = NDArray[np.float64]
    type Places = NDArray[np.intp]
    type Found = tuple[Floats, Floats]
    type Hits = tuple[Floats, Floats, Places]

type Spot = tuple[float, float]

HAIR = 0.05
"""Outlines that share no more than a sliver so wide, in millimetres, only touch."""
_SAME = 1e-7
"""Moments closer than this, in radians or millimetres, are one."""
_ON = 1e-6
"""A corner this near to an edge, in millimetres, lies on it."""


class Outline:
    """The outline of a section: rings of corners, of which those inside others are holes."""

    def __init__(self, rings: "Iterable[Floats | Sequence[Sequence[float]]]") -> None:
        import numpy as np

        self.rings: tuple[Floats, ...] = tuple(np.array(ring, dtype=np.float64) for ring in rings)
        self.corners: Floats = np.concatenate(self.rings)
        self.ends: Floats = np.concatenate([np.roll(ring, -1, axis=0) for ring in self.rings])

    @cached_property
    def area(self) -> Any:
        """The outline as a polygon."""
        return _filled(self.rings)


def rectangle(low: Spot, high: Spot) -> Outline:
    """Return the outline of a rectangle between two opposite corners."""
    return Outline([[low, (high[0], low[1]), high, (low[0], high[1])]])


def _filled(rings: "Sequence[Floats]") -> Any:
    import shapely

    found = shapely.polygons(rings[0])
    for ring in rings[1:]:
        found = shapely.symmetric_difference(found, shapely.polygons(ring))
    return found


class Motion(Protocol):
    """A way of moving: how far is an amount from nothing up."""

    def placed(self, ring: "Floats", amount: float) -> "Floats":
        """Return corners after so much of the motion."""

    def hits(self, moving: Outline, corners: "Floats", ends: "Floats") -> "Hits":
        """Return the amounts at which a corner of one lies on an edge of the other, where, and of which fixed edge.

        corners, ends  where each fixed edge begins and ends
        """

    def band(self, outline: Outline) -> tuple[float, float]:
        """Return the range that an outline keeps to while it moves; ranges apart never meet."""


@dataclass(frozen=True, slots=True)
class Turning:
    """Turning about a centre: counter-clockwise where the sense is 1, clockwise where it is −1."""

    centre: Spot
    sense: int

    def placed(self, ring: "Floats", amount: float) -> "Floats":
        """Return corners after a turn of so many radians."""
        import numpy as np

        c, s = cos(self.sense * amount), sin(self.sense * amount)
        turned: Floats = (ring - self.centre) @ np.array([[c, s], [-s, c]]) + self.centre
        return turned

    def hits(self, moving: Outline, corners: "Floats", ends: "Floats") -> "Hits":
        """Return the angles at which a corner lies on an edge, from 0 to a full turn, where, and which edge it is."""
        import numpy as np

        centre = np.array(self.centre)
        own, own_ends = moving.corners - centre, moving.ends - centre
        other, other_ends = corners - centre, ends - centre
        start, end, spots, _, edge = _on_circles(own, other, other_ends)
        end_back, start_back, there, corner, _ = _on_circles(other, own, own_ends)
        angles = np.concatenate([end - start, end_back - start_back]) * self.sense % (2 * pi)
        angles[angles > 2 * pi - _SAME] = 0.0
        fixed_corners = np.stack([np.cos(end_back), np.sin(end_back)], axis=1)
        fixed_corners *= np.hypot(there[:, 0], there[:, 1])[:, None]
        return angles, np.concatenate([spots, fixed_corners]) + centre, np.concatenate([edge, corner])

    def band(self, outline: Outline) -> tuple[float, float]:
        """Return the nearest and the furthest that an outline comes to the centre."""
        import shapely

        away = outline.corners - self.centre
        return float(shapely.distance(outline.area, shapely.Point(self.centre))), float(
            max(hypot(x, y) for x, y in away)
        )


@dataclass(frozen=True, slots=True)
class Sliding:
    """Sliding straight, the way a vector of length 1 points."""

    way: Spot

    def placed(self, ring: "Floats", amount: float) -> "Floats":
        """Return corners after so many millimetres."""
        import numpy as np

        moved: Floats = ring + np.array(self.way) * amount
        return moved

    def hits(self, moving: Outline, corners: "Floats", ends: "Floats") -> "Hits":
        """Return how far it slides until a corner lies on an edge, where, and which edge it is."""
        import numpy as np

        way = np.array(self.way)
        far, spots, _, edge = _on_lines(moving.corners, way, corners, ends)
        far_back, starts, corner, _ = _on_lines(corners, -way, moving.corners, moving.ends)
        amounts, where, which = (
            np.concatenate([far, far_back]),
            np.concatenate([spots, starts + far_back[:, None] * way]),
            np.concatenate([edge, corner]),
        )
        ahead = amounts > -_SAME
        return np.maximum(amounts[ahead], 0.0), where[ahead], which[ahead]

    def band(self, outline: Outline) -> tuple[float, float]:
        """Return the range of an outline across the way."""
        across = outline.corners @ (-self.way[1], self.way[0])
        return float(across.min()), float(across.max())


def _on_circles(
    points: "Floats", starts: "Floats", ends: "Floats"
) -> "tuple[Floats, Floats, Floats, Places, Places]":
    """Where the circles of points about the origin cross edges.

    The points' angles, the crossings', the places, and which point and which edge it is.

    source  |a + t (b − a)|² = r² solved for t
    """
    import numpy as np

    run = ends - starts
    square = (run**2).sum(axis=1)
    lean = (starts * run).sum(axis=1)
    radii = (points**2).sum(axis=1)
    within = lean**2 - square * ((starts**2).sum(axis=1) - radii[:, None])
    touch = within >= -square * _ON
    root = np.sqrt(np.maximum(within, 0.0))
    found = []
    for sign in (-1.0, 1.0):
        share = (-lean + sign * root) / square
        slack = _ON / np.sqrt(square)
        point, edge = np.nonzero(touch & (share >= -slack) & (share <= 1 + slack) & (radii[:, None] > _ON**2))
        spots = starts[edge] + share[point, edge][:, None] * run[edge]
        turned = np.arctan2(points[point, 1], points[point, 0])
        found.append((turned, np.arctan2(spots[:, 1], spots[:, 0]), spots, point, edge))
    turned, met, spots, point, edge = (np.concatenate(column) for column in zip(*found, strict=True))
    return turned, met, spots, point, edge


def _on_lines(
    points: "Floats", way: "Floats", starts: "Floats", ends: "Floats"
) -> "tuple[Floats, Floats, Places, Places]":
    """How far along a way points cross edges, forwards or backwards, where, and which point and which edge it is."""
    import numpy as np

    run = ends - starts
    slant = way[0] * run[:, 1] - way[1] * run[:, 0]
    long = np.hypot(run[:, 0], run[:, 1])
    slanted = np.abs(slant) > 1e-9 * long
    apart = starts - points[:, None]
    safe = np.where(slanted, slant, 1.0)
    far = (apart[..., 0] * run[:, 1] - apart[..., 1] * run[:, 0]) / safe
    share = (apart[..., 0] * way[1] - apart[..., 1] * way[0]) / safe
    slack = _ON / long
    point, edge = np.nonzero(slanted & (share >= -slack) & (share <= 1 + slack))
    found: Floats = far[point, edge]
    return found, points[point] + found[:, None] * way, point, edge


def crossings(motion: Motion, moving: Outline, fixed: Sequence[Outline]) -> "list[Found]":
    """Return for each of several outlines how far another moves until corners lie on edges, and where: all at once."""
    import numpy as np

    if not fixed:
        return []
    corners, ends = (np.concatenate([getattr(one, name) for one in fixed]) for name in ("corners", "ends"))
    amounts, spots, which = motion.hits(moving, corners, ends)
    owners = np.repeat(np.arange(len(fixed)), [len(one.corners) for one in fixed])[which]
    order = np.argsort(owners, kind="stable")
    cuts = np.searchsorted(owners[order], np.arange(1, len(fixed)))
    return list(zip(np.split(amounts[order], cuts), np.split(spots[order], cuts), strict=True))


def first_meeting(  # noqa: PLR0917 - two outlines, a motion, and how far to look
    motion: Motion,
    moving: Outline,
    fixed: Outline,
    limit: float,
    crossing: "Found | None" = None,
    until: float = inf,
) -> tuple[float, Spot] | None:
    """Return how far an outline moves until it runs into another, and where they meet; None up to the limit.

    Outlines that only touch, at first or on the way, do not meet: what they share must be wider than a hair.

    crossing  what `crossings` found for the two; worked out where it is left out
    until     a meeting that begins later than this need not be told
    """
    (amounts, spots), *_ = [crossing] if crossing is not None else crossings(motion, moving, [fixed])
    moments = sorted({0.0, limit, *amounts[amounts < limit].tolist()})
    for start, end in pairwise(moments):
        if start > until:
            return None
        if end - start < _SAME:
            continue
        shared = _shared(motion, moving, fixed, (start + end) / 2)
        if shared is not None:
            return start, _where(shared, start, amounts, spots)
    return None


def _shared(motion: Motion, moving: Outline, fixed: Outline, amount: float) -> Any:
    """What two outlines share after so much motion; None for a hair or nothing."""
    import shapely

    there = _filled([motion.placed(ring, amount) for ring in moving.rings])
    shared = shapely.intersection(there, fixed.area)
    return shared if _wider_than_a_hair(shared) else None


def _wider_than_a_hair(shared: Any) -> bool:
    """Whether a disc as wide as a hair fits in.

    For sure where area / perimeter says so, which is never more than the radius of the largest disc that fits.
    """
    import shapely

    if shared.area <= 0:
        return False
    return (
        shared.area * 2 > HAIR * shared.length or not shapely.buffer(shared, -HAIR / 2, quad_segs=2).is_empty
    )


def _where(shared: Any, start: float, amounts: "Floats", spots: "Floats") -> Spot:
    """The place of contact nearest to what is shared just afterwards; its middle where they began in touch."""
    import numpy as np

    middle = shared.centroid
    at = spots[np.abs(amounts - start) < 2 * _SAME]
    if not len(at):
        return float(middle.x), float(middle.y)
    far = np.hypot(at[:, 0] - middle.x, at[:, 1] - middle.y)
    found = at[int(np.argmin(np.round(far, 6)))]
    return float(found[0]), float(found[1])


def reach(turning: Turning, outline: Outline, limit: float, way: Spot) -> float:
    """Return how far along a way an outline comes at most while it turns up to a limit, from the origin.

    source  a corner at radius r and angle φ comes furthest where its angle is that of the way, or at an end
    """
    most = -inf
    ahead = atan2(way[1], way[0])
    level = turning.centre[0] * way[0] + turning.centre[1] * way[1]
    for x, y in outline.corners - turning.centre:
        radius, phase = hypot(x, y), atan2(y, x)
        until = (ahead - phase) * turning.sense % (2 * pi)
        ends = (0.0, limit, until) if until <= limit else (0.0, limit)
        most = max(most, *(level + radius * cos(phase + turning.sense * turn - ahead) for turn in ends))
    return float(most)


def swept(turning: Turning, outlines: Sequence[Outline], limit: float, step: float = pi / 90) -> Any:
    """Return all that outlines run over while they turn up to a limit, as one polygon.

    Arcs are drawn by chords of a step: on a circle of 600 mm, 2° stay within 0.1 mm of it.
    """
    import numpy as np
    import shapely

    count = max(1, ceil(limit / step))
    turns = [limit * number / count for number in range(count + 1)]
    pieces = [shapely.Polygon()]
    for outline in outlines:
        for ring in outline.rings:
            placed = np.array([turning.placed(ring, turn) for turn in turns])
            ahead = np.roll(placed, -1, axis=1)
            quads = np.stack([placed[:-1], ahead[:-1], ahead[1:], placed[1:]], axis=2)
            pieces.extend(shapely.convex_hull(shapely.multipoints(quads.reshape(-1, 4, 2))))
        pieces.append(outline.area)
        pieces.append(_filled([turning.placed(ring, limit) for ring in outline.rings]))
    return shapely.union_all([piece for piece in pieces if piece.geom_type == "Polygon"])
