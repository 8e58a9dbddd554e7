"""Which stretches of which edges are seen.

A face is planar, so how far an edge lies behind it is linear along the edge, and so is its distance inside
each side of a convex piece of the face. What a piece hides of an edge is therefore one stretch between two
roots (Cyrus and Beck's clipping of lines by convex shapes, 1978, with the face's own plane as one more side).
An edge is seen where no piece hides it. A piece hides what lies behind its rim too, so that of two edges on
one place the nearer is drawn. This module loads numpy and shapely; import it where it is used.
"""

from dataclasses import dataclass

import numpy as np
import shapely

from plankit.drawing.faces import Flags, Floats, Ints
from plankit.drawing.scene import BEHIND, NEAR, Scene, expanded

SHORTEST = 1e-7  # mm; anything less is no stretch
OUTLINE, INNER, HIDDEN = 0, 1, 2


@dataclass(frozen=True, slots=True)
class Stretches:
    """Pieces of edges on the page.

    ends       x, y of both ends, y up;  part: whose it is;  rank: OUTLINE, INNER or HIDDEN
    curved     edge beside a curved surface, to be chained to its neighbours
    cut        at each end, whether it ends where something hides the rest (and not at the edge's own end)
    border     whether another part may be seen on one side: not so between two faces that both face the eye
    """

    ends: Floats
    part: Ints
    rank: Ints
    curved: Flags
    cut: Flags
    border: Flags


def stretches(view: Scene, *, hidden: bool = False) -> Stretches:
    """All visible stretches of the scene's edges, and on request the hidden ones after them."""
    silhouette, inner = _candidates(view)
    chosen = np.flatnonzero(silhouette | inner)
    edge, low, high = _hidden(view, chosen)
    seen = _gaps(chosen.size, edge, low, high)
    found = _cut_out(view, chosen, seen, np.where((silhouette & ~view.rim)[chosen], OUTLINE, INNER))
    if not hidden:
        return found
    away = np.flatnonzero(~view.smooth & ~silhouette & ~inner)
    covered = _merged(edge, low, high)
    behind = _cut_out(view, chosen, covered, np.full(chosen.size, HIDDEN))
    every = np.arange(away.size), np.zeros(away.size), np.ones(away.size)
    return joined(found, behind, _cut_out(view, away, every, np.full(away.size, HIDDEN)))


def joined(*some: Stretches) -> Stretches:
    """Several sets of stretches as one."""
    return Stretches(
        ends=np.concatenate([one.ends for one in some]),
        part=np.concatenate([one.part for one in some]),
        rank=np.concatenate([one.rank for one in some]),
        curved=np.concatenate([one.curved for one in some]),
        cut=np.concatenate([one.cut for one in some]),
        border=np.concatenate([one.border for one in some]),
    )


def _candidates(view: Scene) -> tuple[Flags, Flags]:
    """Edges where the solid turns away from the eye, and edges between two faces that are both seen.

    An edge in an inner corner with one face turned away lies behind that corner's own material.
    """
    one, other = view.facing[view.beside].T
    silhouette = ((one > 0) ^ (other > 0)) & view.convex
    return silhouette, (one > 0) & (other > 0) & ~view.smooth


def _hidden(view: Scene, chosen: Ints) -> tuple[Ints, Floats, Floats]:
    """Hidden stretches: which of the chosen edges, from which to which share of its length."""
    start, end = view.points[view.edges[chosen, 0]], view.points[view.edges[chosen, 1]]
    length = np.linalg.norm((end - start)[:, :2], axis=1)
    edge, piece = _pairs(view, chosen, start, end)
    face = view.piece_face[piece]
    first = -BEHIND - _above(view, face, start[edge])
    last = -BEHIND - _above(view, face, end[edge])
    behind = (first > 0) | (last > 0)
    edge, piece, first, last = edge[behind], piece[behind], first[behind], last[behind]
    low, high = _inside(view, piece, start[edge], end[edge])
    _narrow(low, high, first, last)
    kept = (high - low) * length[edge] > SHORTEST
    return edge[kept], low[kept], high[kept]


def _pairs(view: Scene, chosen: Ints, start: Floats, end: Floats) -> tuple[Ints, Ints]:
    """Edges and pieces whose boxes meet, where the piece comes nearer to the eye than the edge somewhere."""
    low, high = np.minimum(start, end), np.maximum(start, end)
    boxes = shapely.box(low[:, 0] - NEAR, low[:, 1] - NEAR, high[:, 0] + NEAR, high[:, 1] + NEAR)
    edge, piece = view.tree.query(boxes)
    other = (view.piece_face[piece][:, None] != view.beside[chosen[edge]]).all(axis=1)
    kept = other & (view.nearest[piece] > low[edge, 2] + BEHIND)
    return edge[kept], piece[kept]


def _above(view: Scene, face: Ints, point: Floats) -> Floats:
    height: Floats = np.einsum("ij,ij->i", view.normals[face], point) - view.offsets[face]
    return height


def _inside(view: Scene, piece: Ints, start: Floats, end: Floats) -> tuple[Floats, Floats]:
    """From where to where each edge runs inside its piece as seen on the page."""
    if not piece.size:
        return np.zeros(0), np.zeros(0)
    index, firsts = expanded(view.starts[piece], view.sizes[piece])
    lines, pair = view.lines[index], np.repeat(np.arange(piece.size), view.sizes[piece])
    first = lines[:, 0] * start[pair, 0] + lines[:, 1] * start[pair, 1] + lines[:, 2] + NEAR
    last = lines[:, 0] * end[pair, 0] + lines[:, 1] * end[pair, 1] + lines[:, 2] + NEAR
    low, high = np.zeros(pair.size), np.ones(pair.size)
    _narrow(low, high, first, last)
    return np.maximum.reduceat(low, firsts), np.minimum.reduceat(high, firsts)


def _narrow(low: Floats, high: Floats, first: Floats, last: Floats) -> None:
    """Narrow stretches to where a value that goes evenly from first to last is above 0."""
    fall = first - last
    root = first / np.where(fall == 0, 1.0, fall)
    enters, leaves = (first < 0) & (last > 0), (first > 0) & (last < 0)
    low[enters] = np.maximum(low[enters], root[enters])
    high[leaves] = np.minimum(high[leaves], root[leaves])
    high[(first <= 0) & (last <= 0)] = -1.0


def _merged(edge: Ints, low: Floats, high: Floats) -> tuple[Ints, Floats, Floats]:
    """Overlapping stretches of one edge as one."""
    order = np.lexsort([low, edge])
    edge, low, high = edge[order], low[order] + 2.0 * edge[order], high[order] + 2.0 * edge[order]
    reach = np.maximum.accumulate(high) if edge.size else high
    opens = np.ones(edge.size, dtype=bool)
    opens[1:] = low[1:] > reach[:-1]
    firsts = np.flatnonzero(opens)
    lasts = np.append(firsts[1:], edge.size) - 1 if firsts.size else firsts
    return edge[firsts], low[firsts] - 2.0 * edge[firsts], reach[lasts] - 2.0 * edge[firsts]


def _gaps(count: int, edge: Ints, low: Floats, high: Floats) -> tuple[Ints, Floats, Floats]:
    """What is left of so many edges between their hidden stretches."""
    edge, low, high = _merged(edge, low, high)
    owner = np.concatenate([np.arange(count), edge])
    begin = np.concatenate([np.zeros(count), high])
    order = np.lexsort([begin, owner])
    finish = np.concatenate([low, np.ones(count)])
    ending = np.lexsort([finish, np.concatenate([edge, np.arange(count)])])
    return owner[order], begin[order], finish[ending]


def _cut_out(view: Scene, chosen: Ints, shares: tuple[Ints, Floats, Floats], rank: Ints) -> Stretches:
    """Shares of the chosen edges, given as their edge, from and to, as stretches on the page."""
    edge, low, high = shares
    start, end = view.points[view.edges[chosen, 0], :2], view.points[view.edges[chosen, 1], :2]
    length = np.linalg.norm(end - start, axis=1)
    kept = (high - low) * length[edge] > SHORTEST
    edge, low, high = edge[kept], low[kept], high[kept]
    span = end[edge] - start[edge]
    begin = np.where((low == 0)[:, None], start[edge], start[edge] + low[:, None] * span)
    finish = np.where((high == 1)[:, None], end[edge], start[edge] + high[:, None] * span)
    return Stretches(
        ends=np.concatenate([begin, finish], axis=1),
        part=view.edge_part[chosen[edge]],
        rank=rank[edge],
        curved=view.curved[chosen[edge]],
        cut=np.stack([low != 0, high != 1], axis=1),
        border=(view.facing[view.beside[chosen[edge]]] <= 0).any(axis=1) | view.crossed,
    )
