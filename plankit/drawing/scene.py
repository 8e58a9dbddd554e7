"""All the solids of a view in one set of arrays, turned so that x is right, y up and z towards the eye.

This module loads numpy and shapely; import it where it is used.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from plankit.drawing.direction import Direction
from plankit.drawing.faces import Flags, Floats, Ints, Shell

EDGE_ON = 1e-7  # a face whose normal leans towards the eye by less than this shows only as a line
NEAR = 1e-6  # mm on the page within which a point counts as on a line
BEHIND = 1e-5  # mm a point must lie behind a face to be hidden by it


@dataclass(frozen=True, slots=True)
class Scene:
    """What is looked at, in the eye's axes: all faces and edges, and the pieces that face the eye.

    points       corners;  normals, offsets: planes of all faces
    facing       each face: 1 towards the eye, 0 edge-on, −1 away
    edges, beside, smooth, convex, rim, curved: as in a shell, with indices into this scene
    edge_part    whose edge it is
    lines        a, b, c of each side of the pieces, with a·x + b·y + c the distance inside it
    starts       where each piece's lines start;  sizes: how many it has
    piece_face, piece_part: what a piece belongs to;  boxes: left, low, right, high;  nearest: its greatest z
    crossed      whether parts run into one another (see crossing.py)
    """

    points: Floats
    normals: Floats
    offsets: Floats
    facing: Ints
    edges: Ints
    beside: Ints
    smooth: Flags
    convex: Flags
    rim: Flags
    curved: Flags
    edge_part: Ints
    lines: Floats
    starts: Ints
    sizes: Ints
    piece_face: Ints
    piece_part: Ints
    boxes: Floats
    nearest: Floats
    tree: shapely.STRtree
    crossed: bool = False


def scene(shells: Sequence[Shell], direction: Direction) -> Scene:
    """The shells as seen from a direction; a part's number is its place in the sequence."""
    turn = np.array([direction.right, direction.up, direction.eye])
    before = _before([len(one.points) for one in shells])
    faces_before = _before([len(one.normals) for one in shells])
    points = np.concatenate([one.points for one in shells]) @ turn.T
    normals = np.concatenate([one.normals for one in shells]) @ turn.T
    facing = np.where(normals[:, 2] > EDGE_ON, 1, np.where(normals[:, 2] < -EDGE_ON, -1, 0))
    edge_counts = [len(one.edges) for one in shells]
    sides = _shifted([one.sides for one in shells], before)
    sizes = np.concatenate([np.diff(one.starts, append=len(one.sides)) for one in shells])
    piece_face = _shifted([one.piece_faces for one in shells], faces_before)
    seen = facing[piece_face] > 0
    sides, sizes, piece_face = sides[np.repeat(seen, sizes)], sizes[seen], piece_face[seen]
    part = np.repeat(np.arange(len(shells)), [len(one.piece_faces) for one in shells])[seen]
    starts = np.cumsum(sizes) - sizes
    boxes, nearest = _boxes(points, sides, starts)
    return Scene(
        points=points,
        normals=normals,
        offsets=np.concatenate([one.offsets for one in shells]),
        facing=facing,
        edges=_shifted([one.edges for one in shells], before),
        beside=_shifted([one.beside for one in shells], faces_before),
        smooth=np.concatenate([one.smooth for one in shells]),
        convex=np.concatenate([one.convex for one in shells]),
        rim=np.concatenate([one.rim for one in shells]),
        curved=np.concatenate([one.curved for one in shells]),
        edge_part=np.repeat(np.arange(len(shells)), edge_counts),
        lines=_lines(points, sides),
        starts=starts,
        sizes=sizes,
        piece_face=piece_face,
        piece_part=part,
        boxes=boxes,
        nearest=nearest,
        tree=shapely.STRtree(shapely.box(*boxes.T)),
    )


def expanded(starts: Ints, sizes: Ints) -> tuple[Ints, Ints]:
    """Runs of indices one after the other: each run's indices, and where each run starts in the result."""
    firsts = np.cumsum(sizes) - sizes
    return np.arange(int(sizes.sum())) + np.repeat(starts - firsts, sizes), firsts


def topmost(view: Scene, places: Floats) -> Ints:
    """The piece seen at each place (x, y), −1 where none is."""
    found = np.full(len(places), -1)
    if not len(view.starts) or not len(places):
        return found
    place, piece = view.tree.query(shapely.points(places))
    index, firsts = expanded(view.starts[piece], view.sizes[piece])
    owner = np.repeat(np.arange(piece.size), view.sizes[piece])
    at = places[place]
    lines = view.lines[index]
    inside = lines[:, 0] * at[owner, 0] + lines[:, 1] * at[owner, 1] + lines[:, 2]
    within = np.minimum.reduceat(inside, firsts) > -NEAR if piece.size else np.zeros(0, dtype=bool)
    place, piece, at = place[within], piece[within], at[within]
    near = np.round(depths(view, piece, at), 5)
    order = np.lexsort([-view.piece_part[piece], near, place])
    last = np.flatnonzero(np.diff(place[order], append=-1))
    found[place[order][last]] = piece[order][last]
    return found


def depths(view: Scene, piece: Ints, at: Floats) -> Floats:
    """How near the plane of each piece comes at a place."""
    face = view.piece_face[piece]
    normal = view.normals[face]
    nearness: Floats = (view.offsets[face] - (normal[:, :2] * at).sum(axis=1)) / normal[:, 2]
    return nearness


def _before(counts: Sequence[int]) -> Ints:
    return np.cumsum([0, *counts[:-1]])


def _shifted(parts: Sequence[Ints], before: Ints) -> Ints:
    return np.concatenate([one + first for one, first in zip(parts, before, strict=True)])


def _lines(points: Floats, sides: Ints) -> Floats:
    """a, b, c of the line through each side; seen from outside the inside lies to its left."""
    start, end = points[sides[:, 0]], points[sides[:, 1]]
    across = np.stack([start[:, 1] - end[:, 1], end[:, 0] - start[:, 0]], axis=1)
    across /= np.maximum(np.linalg.norm(across, axis=1), 1e-300)[:, None]
    middle = (start + end)[:, :2] / 2
    return np.column_stack([across, -(across * middle).sum(axis=1)])


def _boxes(points: Floats, sides: Ints, starts: Ints) -> tuple[Floats, Floats]:
    if not starts.size:
        return np.zeros((0, 4)), np.zeros(0)
    corners = points[sides[:, 0]]
    low, high = np.minimum.reduceat(corners, starts), np.maximum.reduceat(corners, starts)
    return np.column_stack([low[:, :2], high[:, :2]]), high[:, 2]
