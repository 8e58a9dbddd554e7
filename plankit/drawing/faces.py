"""A solid as planar faces, the edges between them, and convex pieces that cover them; the same in every view.

The solid's triangles are gathered into planar faces (a seam between coplanar triangles is no edge). Faces
that bend by less than 25° from one to the next are facets of one curved surface if there are four or more of
them, as round a bore; their shared edges are smooth. Two or three such faces are flat cuts, such as a slight
taper, and the edge between them is drawn. This module loads numpy; import it where it is used.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from manifold3d import Manifold

type Floats = NDArray[np.float64]
type Ints = NDArray[np.int64]
type Flags = NDArray[np.bool_]

FLAT = 1e-5  # mm a corner may stand off a face's plane and still belong to it
SMOOTH = np.cos(np.radians(25.0))
FACETS = 4  # so many faces with smooth edges make a curved surface
_KEPT = 512  # solids remembered


@dataclass(frozen=True, slots=True)
class Shell:
    """The faces, edges and convex pieces of one solid, as arrays.

    points     corners, in mm and build axes
    normals    a face's outward unit normal;  offsets: its plane is normal · point = offset
    edges      two corners an edge;  beside: the faces on both its sides
    smooth     edge inside a curved surface;  convex: material inside the corner;  rim: edge of a hole;
    curved     edge next to a curved surface
    sides      two corners a side, round one convex piece after the other, counter-clockwise from outside
    starts     where each piece's sides start;  piece_faces: the face each piece covers a part of
    """

    points: Floats
    normals: Floats
    offsets: Floats
    edges: Ints
    beside: Ints
    smooth: Flags
    convex: Flags
    rim: Flags
    curved: Flags
    sides: Ints
    starts: Ints
    piece_faces: Ints


@dataclass(frozen=True, slots=True)
class _Mesh:
    """Triangles with, for each of their sides, the same side seen from the neighbour."""

    points: Floats
    triangles: Ints
    start: Ints
    end: Ints
    twin: Ints
    cross: Floats
    area: Floats


_remembered: dict[int, tuple[Any, Shell]] = {}


def shells(solids: "Sequence[Manifold]") -> tuple[Shell, ...]:
    """The faces, edges and pieces of each solid; remembered, since they do not depend on the view."""
    known = {key: _remembered[key] for key in map(id, solids) if key in _remembered}
    fresh = [solid for solid in {id(solid): solid for solid in solids}.values() if id(solid) not in known]
    if fresh:
        meshes = [_raw(solid) for solid in fresh]
        known |= {id(solid): (solid, one) for solid, one in zip(fresh, _made(meshes), strict=True)}
        _remember(known)
    return tuple(known[id(solid)][1] for solid in solids)


def _remember(known: dict[int, tuple[Any, Shell]]) -> None:
    """Keep these, which holds their solids too, so that no other solid can take their place in memory."""
    _remembered.update(known)
    for key in list(_remembered)[: max(0, len(_remembered) - _KEPT)]:
        del _remembered[key]


def components(count: int, one: Ints, other: Ints) -> Ints:
    """For each of so many things the smallest one it hangs together with, through the given pairs."""
    label = np.arange(count)
    while one.size:
        lower = label.copy()
        np.minimum.at(lower, one, label[other])
        np.minimum.at(lower, other, label[one])
        lower = lower[lower]
        if np.array_equal(lower, label):
            break
        label = lower
    return label


def _made(meshes: Sequence[tuple[Floats, Ints]]) -> Iterator[Shell]:
    """One shell a mesh, all worked out at once, which is several times faster than one by one."""
    before = np.cumsum([0, *(len(points) for points, _ in meshes)])
    triangles = [triangles + first for (_, triangles), first in zip(meshes, before[:-1], strict=True)]
    whole, first_faces = _shell(np.concatenate([points for points, _ in meshes]), triangles)
    edges = np.searchsorted(whole.beside[:, 0], first_faces)
    pieces = np.searchsorted(whole.piece_faces, first_faces)
    sides = np.append(whole.starts, len(whole.sides))[pieces]
    for number in range(len(meshes)):
        face = slice(first_faces[number], first_faces[number + 1])
        edge, piece = slice(edges[number], edges[number + 1]), slice(pieces[number], pieces[number + 1])
        yield Shell(
            points=whole.points[before[number] : before[number + 1]],
            normals=whole.normals[face],
            offsets=whole.offsets[face],
            edges=whole.edges[edge] - before[number],
            beside=whole.beside[edge] - face.start,
            smooth=whole.smooth[edge],
            convex=whole.convex[edge],
            rim=whole.rim[edge],
            curved=whole.curved[edge],
            sides=whole.sides[sides[number] : sides[number + 1]] - before[number],
            starts=whole.starts[piece] - sides[number],
            piece_faces=whole.piece_faces[piece] - face.start,
        )


def _shell(points: Floats, triangles: Sequence[Ints]) -> tuple[Shell, Ints]:
    """One shell of several solids' triangles, in the solids' order, and where each solid's faces start."""
    mesh = _mesh(points, np.concatenate(triangles))
    face = _gathered(mesh)
    normals, offsets = _planes(mesh, face)
    outline = np.flatnonzero(face[np.arange(face.size * 3) // 3] != face[mesh.twin // 3])
    side_faces = face[outline // 3]
    loop, following = _loops(mesh, outline, side_faces)
    hole = _holes(mesh, normals, outline, side_faces, loop)
    chosen = outline[outline < mesh.twin[outline]]
    chosen = chosen[np.argsort(face[chosen // 3], kind="stable")]
    twins = mesh.twin[chosen]
    beside = np.stack([face[chosen // 3], face[twins // 3]], axis=1)
    in_hole = np.zeros(mesh.start.size, dtype=bool)
    in_hole[outline] = hole
    smooth, curved = _curves(normals, beside)
    heading = mesh.points[mesh.end[chosen]] - mesh.points[mesh.start[chosen]]
    bend = np.cross(normals[beside[:, 0]], normals[beside[:, 1]])
    bent = _bent_wrong(mesh, outline, normals[side_faces], following)
    convex = _convex_faces(len(normals), side_faces, loop, bent)
    sides, starts, piece_faces = _pieces(mesh, face, outline, side_faces, convex)
    found = Shell(
        points=mesh.points,
        normals=normals,
        offsets=offsets,
        edges=np.stack([mesh.start[chosen], mesh.end[chosen]], axis=1),
        beside=beside,
        smooth=smooth,
        convex=np.einsum("ij,ij->i", bend, heading) > 0,
        rim=in_hole[chosen] | in_hole[twins],
        curved=curved,
        sides=sides,
        starts=starts,
        piece_faces=piece_faces,
    )
    ends = np.cumsum([0, *(len(some) for some in triangles)])
    highest = np.maximum.accumulate(face) if face.size else face
    return found, np.array([0, *(highest[end - 1] + 1 for end in ends[1:])])


def _raw(solid: "Manifold") -> tuple[Floats, Ints]:
    raw = solid.to_mesh64()
    points = np.array(raw.vert_properties, dtype=np.float64)[:, :3]
    triangles = np.array(raw.tri_verts, dtype=np.int64)
    if len(raw.merge_from_vert):
        same = np.arange(len(points))
        same[np.array(raw.merge_from_vert, dtype=np.int64)] = np.array(raw.merge_to_vert, dtype=np.int64)
        triangles = same[triangles]
    return points, triangles


def _mesh(points: Floats, triangles: Ints) -> _Mesh:
    start, end = triangles.ravel(), np.roll(triangles, -1, axis=1).ravel()
    keys, mirrored = start * len(points) + end, end * len(points) + start
    order = np.argsort(keys, kind="stable")
    twin = order[np.minimum(np.searchsorted(keys[order], mirrored), max(len(keys) - 1, 0))]
    a, b, c = (points[triangles[:, corner]] for corner in range(3))
    cross = np.cross(b - a, c - a)
    return _Mesh(points, triangles, start, end, twin, cross, np.linalg.norm(cross, axis=1))


def _gathered(mesh: _Mesh) -> Ints:
    """Each triangle's planar face, numbered from 0."""
    count = len(mesh.triangles)
    lengths = np.linalg.norm(mesh.points[mesh.end] - mesh.points[mesh.start], axis=1)
    longest = lengths.reshape(-1, 3).max(axis=1)
    sliver = mesh.area < FLAT * longest  # its height is no more than the tolerance: its normal says nothing
    normal = mesh.cross / np.maximum(mesh.area, 1e-300)[:, None]
    mine = np.arange(count * 3) // 3
    theirs = mesh.twin // 3
    far = mesh.triangles.ravel()[mesh.twin - mesh.twin % 3 + (mesh.twin + 2) % 3]
    rise = np.abs(np.einsum("ij,ij->i", normal[mine], mesh.points[far] - mesh.points[mesh.start]))
    level = (rise < FLAT) & (rise[mesh.twin] < FLAT) & ~sliver[mine] & ~sliver[theirs]
    level &= np.einsum("ij,ij->i", normal[mine], normal[theirs]) > 0
    thin = np.flatnonzero(sliver)
    neighbours = theirs.reshape(-1, 3)[thin]
    largest = np.argmax(mesh.area[neighbours], axis=1) if thin.size else thin
    one = np.concatenate([mine[level], thin])
    other = np.concatenate([theirs[level], neighbours[np.arange(thin.size), largest]])
    face: Ints = np.unique(components(count, one, other), return_inverse=True)[1].reshape(-1)
    return face


def _planes(mesh: _Mesh, face: Ints) -> tuple[Floats, Floats]:
    count = int(face.max(initial=-1)) + 1
    total, middle = np.zeros((count, 3)), np.zeros((count, 3))
    weight = np.zeros(count)
    np.add.at(total, face, mesh.cross)
    np.add.at(weight, face, mesh.area)
    np.add.at(middle, face, mesh.points[mesh.triangles].mean(axis=1) * mesh.area[:, None])
    normals = total / np.maximum(np.linalg.norm(total, axis=1), 1e-300)[:, None]
    middle /= np.maximum(weight, 1e-300)[:, None]
    return normals, np.einsum("ij,ij->i", normals, middle)


def _loops(mesh: _Mesh, outline: Ints, side_faces: Ints) -> tuple[Ints, Ints]:
    """Each outline side's loop and the side that follows it round its face."""
    here = side_faces * len(mesh.points) + mesh.start[outline]
    ahead = side_faces * len(mesh.points) + mesh.end[outline]
    order = np.argsort(here, kind="stable")
    following = order[np.minimum(np.searchsorted(here[order], ahead), max(len(order) - 1, 0))]
    return components(outline.size, np.arange(outline.size), following), following


def _holes(mesh: _Mesh, normals: Floats, outline: Ints, side_faces: Ints, loop: Ints) -> Flags:
    """Whether each outline side runs round a hole: its loop turns against its face."""
    first = mesh.points[mesh.start[outline[loop]]] if outline.size else np.zeros((0, 3))
    spread = np.cross(mesh.points[mesh.start[outline]] - first, mesh.points[mesh.end[outline]] - first)
    area = np.zeros(outline.size)
    np.add.at(area, loop, np.einsum("ij,ij->i", spread, normals[side_faces]))
    hole: Flags = area[loop] < 0
    return hole


def _curves(normals: Floats, beside: Ints) -> tuple[Flags, Flags]:
    """Which edges lie inside a curved surface, and which next to one."""
    gentle = np.einsum("ij,ij->i", normals[beside[:, 0]], normals[beside[:, 1]]) > SMOOTH
    group = components(len(normals), beside[gentle, 0], beside[gentle, 1])
    facets = np.bincount(group, minlength=len(normals))[group] >= FACETS
    return gentle & facets[beside[:, 0]], facets[beside].any(axis=1)


def _bent_wrong(mesh: _Mesh, outline: Ints, normals: Floats, following: Ints) -> Flags:
    """Outline sides after which their face's outline turns right or straight back."""
    heading = mesh.points[mesh.end[outline]] - mesh.points[mesh.start[outline]]
    heading /= np.maximum(np.linalg.norm(heading, axis=1), 1e-300)[:, None]
    onward = heading[following]
    turn = np.einsum("ij,ij->i", np.cross(heading, onward), normals)
    wrong: Flags = (turn < -1e-9) | (np.einsum("ij,ij->i", heading, onward) < -1 + 1e-9)
    return wrong


def _convex_faces(count: int, side_faces: Ints, loop: Ints, bent: Flags) -> Flags:
    """Which faces have one loop that never turns the wrong way."""
    convex = np.ones(count, dtype=bool)
    convex[side_faces[bent]] = False
    single: Flags = np.bincount(side_faces[loop == np.arange(loop.size)], minlength=count) == 1
    return convex & single


def _pieces(
    mesh: _Mesh, face: Ints, outline: Ints, side_faces: Ints, convex: Flags
) -> tuple[Ints, Ints, Ints]:
    """Convex faces whole and triangles of the others: their sides, where each starts, whose face it is."""
    whole = np.flatnonzero(convex[side_faces])
    split = np.flatnonzero(~convex[face] & (mesh.area > 0))
    round_split = (split[:, None] * 3 + np.arange(3)).ravel()
    around = np.concatenate([outline[whole], round_split])
    owner = np.concatenate([side_faces[whole], np.repeat(len(convex) + np.arange(split.size), 3)])
    order = np.lexsort([owner, face[around // 3]])
    around, owner = around[order], owner[order]
    starts = np.flatnonzero(np.diff(owner, prepend=-1))
    sides = np.stack([mesh.start[around], mesh.end[around]], axis=1)
    return sides, starts, face[around[starts] // 3]
