"""Straight moves: whether one part can be moved out of another's way along an axis of the build."""

import atexit
from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from plankit.checks.blocks import TOUCH, Ends, Taken, outline, share, shares, shifted
from plankit.parts import Part

if TYPE_CHECKING:
    from manifold3d import Manifold

type Way = tuple[int, int]
"""An axis (0, 1, 2 for x, y, z), and 1 or −1 for which way along it."""

WAYS: tuple[Way, ...] = ((0, 1), (0, -1), (1, 1), (1, -1), (2, 1), (2, -1))
FAR = 20_000.0
"""How far a part is moved to be out of the way of everything, in millimetres."""
LEAST_SHARED = 20.0
"""Solids that share less than so many cubic millimetres on their way are taken to slide past each other."""
_NONE: frozenset[Way] = frozenset()
SAID: dict[Way, str] = {
    (0, 1): "to the right", (0, -1): "to the left", (1, 1): "out at the back", (1, -1): "out at the front",
    (2, 1): "upwards", (2, -1): "downwards",
}  # fmt: skip
"""How a way is said to the reader."""


def stopped_ways(moved: Taken, other: Taken) -> frozenset[Way]:
    """Return the ways along which a part cannot be moved out, because another stands in its path.

    Parts that fill the same space even before they move stop each other nowhere: that is another check's matter.
    source  geometry: along a line a part is stopped where some of the other lies ahead of some of it
    """
    near = _nearly(moved.around, other.around)
    if not near or _in_each_other(moved, other):
        return _NONE
    if moved.exact and other.exact:
        if len(moved.blocks) == len(other.blocks) == 1:
            return frozenset(near)
        return frozenset(way for way in near if meets(moved.blocks, other.blocks, way))
    return frozenset(way for way in near if _swept_meets(moved.part, other.part, way))


def _nearly(one: Ends, other: Ends) -> list[Way]:
    """The ways along which one block would run into another; quick, as most parts pass by most others."""
    x, y, z = shares(one, other, 0), shares(one, other, 1), shares(one, other, 2)
    if x + y + z < 2:
        return []
    return [way for way in WAYS if (x, y, z)[way[0]] == (x and y and z) and _ahead(one, other, way)]


def meets(moved: Sequence[Ends], others: Sequence[Ends], way: Way) -> bool:
    """Tell whether any of some blocks runs into any of others when moved far along an axis."""
    return any(_ahead(one, other, way) for one in moved for other in others)


def free_way(moved: Sequence[Ends], others: Sequence[Ends], way: Way) -> float:
    """Return how far blocks can be moved along an axis before they meet others, in millimetres."""
    gaps = [_gap(one, other, way) for one in moved for other in others if _ahead(one, other, way)]
    return max(0.0, min(gaps, default=FAR))


def moved_along(many: Sequence[Ends], way: Way, by: float) -> list[Ends]:
    """Return blocks after a move."""
    return [shifted(block, way[0], way[1] * by) for block in many]


def _ahead(one: Ends, other: Ends, way: Way) -> bool:
    index, sense = way
    if not (shares(one, other, (index + 1) % 3) and shares(one, other, (index + 2) % 3)):
        return False
    if sense > 0:
        return other[2 * index + 1] - one[2 * index] > TOUCH
    return one[2 * index + 1] - other[2 * index] > TOUCH


def _gap(one: Ends, other: Ends, way: Way) -> float:
    index, sense = way
    return other[2 * index] - one[2 * index + 1] if sense > 0 else one[2 * index] - other[2 * index + 1]


def _in_each_other(one: Taken, other: Taken) -> bool:
    if not share(one.around, other.around):
        return False
    if one.exact and other.exact:
        return any(share(a, b) for a in one.blocks for b in other.blocks)
    return bool((outline(one.part) ^ outline(other.part)).volume() > LEAST_SHARED)


def _swept_meets(moved: Part, other: Part, way: Way) -> bool:
    swept = _swept(moved, way)
    shared = (swept ^ outline(other)).volume()
    return bool(shared > LEAST_SHARED)


@lru_cache(maxsize=512)
def _swept(part: Part, way: Way) -> "Manifold":
    """All the space that a part goes through on its way out: prisms on the triangles that look back."""
    from manifold3d import Manifold

    body = outline(part)
    out = [0.0, 0.0, 0.0]
    out[way[0]] = way[1] * FAR
    hull = body.hull()
    if hull.volume() - body.volume() < LEAST_SHARED:
        return Manifold.batch_hull([body, body.translate(out)])
    return _prisms(body, way, out) + body


atexit.register(_swept.cache_clear)  # manifold3d complains of solids that outlive it when Python ends


def _prisms(body: "Manifold", way: Way, out: list[float]) -> "Manifold":
    import numpy as np
    from manifold3d import Manifold, OpType

    mesh = body.to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    looks = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])[:, way[0]] * way[1]
    back = corners[looks < -1e-6]
    ends = [Manifold.hull_points(np.vstack((three, three + out)).tolist()) for three in back]
    return Manifold.batch_boolean(ends, OpType.Add)
