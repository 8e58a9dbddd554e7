"""Where solids run into one another, the curve where their surfaces meet is drawn as an edge too.

Parts of a sound build only touch, so this seldom finds anything; without it a part standing half inside
another would have no line where it comes out. This module loads numpy; import it where it is used.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from plankit.drawing.direction import Direction
from plankit.drawing.faces import Floats, Ints
from plankit.drawing.scene import Scene

if TYPE_CHECKING:
    from manifold3d import Manifold

DEEP = 1e-3  # mm by which boxes must overlap in each direction
THICK = 1e-5  # mm; common space thinner than this is only contact


def with_crossings(view: Scene, solids: "Sequence[Manifold]", direction: Direction) -> Scene:
    """The same scene with an edge for every line where two solids run into one another."""
    found = ((part, _curve(solids[part], solids[other])) for part, other in _overlapping(solids))
    kept = [(part, curve) for part, curve in found if curve is not None]
    if not kept:
        return view
    turn = np.array([direction.right, direction.up, direction.eye])
    ends = np.concatenate([curve for _, curve in kept]).reshape(-1, 3) @ turn.T
    owner = np.concatenate([np.full(len(curve), part) for part, curve in kept])
    count = len(owner)
    first = len(view.points)
    apart = len(view.normals)  # such an edge belongs to no face: whatever stands before it hides it
    no, yes = np.zeros(count, dtype=bool), np.ones(count, dtype=bool)
    return replace(
        view,
        points=np.concatenate([view.points, ends]),
        normals=np.concatenate([view.normals, [[0.0, 0.0, 1.0]]]),
        offsets=np.append(view.offsets, 0.0),
        facing=np.append(view.facing, 1),
        edges=np.concatenate([view.edges, first + np.arange(2 * count).reshape(-1, 2)]),
        beside=np.concatenate([view.beside, np.full((count, 2), apart)]),
        smooth=np.concatenate([view.smooth, no]),
        convex=np.concatenate([view.convex, no]),
        rim=np.concatenate([view.rim, yes]),
        curved=np.concatenate([view.curved, yes]),
        crossed=True,
        edge_part=np.concatenate([view.edge_part, owner]),
    )


def _overlapping(solids: "Sequence[Manifold]") -> Iterator[tuple[int, int]]:
    boxes = np.array([solid.bounding_box() for solid in solids])
    low, high = boxes[:, :3], boxes[:, 3:]
    overlap = np.minimum(high[:, None], high) - np.maximum(low[:, None], low)
    for one, other in np.argwhere((overlap > DEEP).all(axis=2)):
        if one < other:
            yield int(one), int(other)


def _curve(one: "Manifold", other: "Manifold") -> Floats | None:
    """Both ends of each piece of the line where the surfaces meet, in build axes; None where they only touch.

    Where two parts share space and their surfaces lie in one plane there is no such line, and the edges do.
    """
    first = one.as_original()
    common = first ^ other.as_original()
    if common.is_empty() or common.volume() < THICK * common.surface_area() / 2:
        return None
    mesh = common.to_mesh64()
    points = np.array(mesh.vert_properties)[:, :3]
    triangles = np.array(mesh.tri_verts, dtype=np.int64)
    source = _sources(mesh.run_index, mesh.run_original_id, len(triangles)) == first.original_id()
    start, end = triangles.ravel(), np.roll(triangles, -1, axis=1).ravel()
    keys, mirrored = start * len(points) + end, end * len(points) + start
    order = np.argsort(keys, kind="stable")
    twin = order[np.minimum(np.searchsorted(keys[order], mirrored), len(keys) - 1)]
    mine, theirs = source[np.arange(len(keys)) // 3], source[twin // 3]
    meets = mine & ~theirs
    return np.stack([points[start[meets]], points[end[meets]]], axis=1)


def _sources(run_index: Sequence[int], run_original: Sequence[int], count: int) -> Ints:
    edges = np.array(run_index, dtype=np.int64) // 3
    return np.repeat(np.array(run_original, dtype=np.int64), np.diff(edges))[:count]
