"""The visible region of every part, as areas without overlap.

Where one part's region ends, the nearer part's solid turns away from the eye (or two parts run into one
another). So the visible stretches of such edges are noded, made into polygons, and each polygon belongs to
the part seen at a point inside it. An edge between two faces that both face the eye has its own part on both
sides: were there another at the same depth, both solids would fill the space behind the edge. Lines too many
do no harm here; each stretch that ends behind something is drawn a little longer so that it surely meets what
hides it. This module loads numpy and shapely; import it where it is used.
"""

import numpy as np
import shapely

from plankit.drawing.scene import Scene, topmost
from plankit.drawing.visible import HIDDEN, Stretches

GRID = 1e-4  # mm; regions are exact to this
LONGER = 5e-3  # mm added where a stretch ends behind something
SPECK = 1e-3  # mm² and less is no region

type Region = tuple[int, tuple[tuple[tuple[float, float], ...], ...]]  # part, rings with the outer one first


def regions(view: Scene, found: Stretches) -> tuple[Region, ...]:
    """Each part's visible regions, in an order that depends on nothing but where they are."""
    cells = _cells(found)
    if not cells.size:
        return ()
    inside = shapely.get_coordinates(shapely.point_on_surface(cells))
    piece = topmost(view, inside)
    owner = np.where(piece >= 0, view.piece_part[piece], -1) if view.piece_part.size else piece
    areas = [(part, area) for part in np.unique(owner[owner >= 0]) for area in _united(cells[owner == part])]
    return tuple(sorted((int(part), _rings(area)) for part, area in areas))


def _cells(found: Stretches) -> "np.ndarray[tuple[int], np.dtype[np.object_]]":
    shown = found.border & (found.rank != HIDDEN)
    ends, cut = found.ends[shown], found.cut[shown]
    span = ends[:, 2:] - ends[:, :2]
    more = LONGER * span / np.linalg.norm(span, axis=1)[:, None]
    begin = ends[:, :2] - more * cut[:, :1]
    finish = ends[:, 2:] + more * cut[:, 1:]
    lines = shapely.linestrings(np.stack([begin, finish], axis=1))
    noded = shapely.union_all(lines, grid_size=GRID)
    return np.array(shapely.get_parts(shapely.polygonize(shapely.get_parts(noded))))


def _united(cells: "np.ndarray[tuple[int], np.dtype[np.object_]]") -> list[shapely.Polygon]:
    whole = cells[0] if len(cells) == 1 else shapely.coverage_union_all(cells)
    parts = shapely.get_parts(shapely.simplify(whole, 2 * GRID))
    return [part for part in parts if part.area > SPECK]


def _rings(area: shapely.Polygon) -> tuple[tuple[tuple[float, float], ...], ...]:
    holes = sorted(_ring(ring) for ring in area.interiors)
    return (_ring(area.exterior), *holes)


def _ring(ring: shapely.LinearRing) -> tuple[tuple[float, float], ...]:
    """The ring's corners with y down, once each, from the least one on."""
    corners = [(x, -y + 0.0) for x, y in shapely.get_coordinates(ring)[:-1].tolist()]
    least = corners.index(min(corners))
    return tuple(corners[least:] + corners[:least])
