"""Visible regions against a depth buffer: no pixel inside a face may belong to another part.

Only a band of one pixel along the drawn lines is left out: a pixel's middle nearer than that to a line may
fall on either side of it by rounding, and every border between two regions is a drawn line.
"""

import random

import numpy as np
import pytest
import shapely
from builds import cabinet, random_build
from zbuffer import rasterise

from plankit.drawing.direction import direction, names
from plankit.drawing.view import look


def differing(solids, way, pixel):
    """Pixels that differ and lie more than one pixel from a drawn line; and how many show a part at all."""
    seen = look(solids, way)
    owner, origin = rasterise(solids, seen.direction, pixel)
    rows, columns = owner.shape
    u, v = np.meshgrid(np.arange(columns) * pixel + origin[0], np.arange(rows) * pixel + origin[1])
    number = {name: index for index, (name, _) in enumerate(solids)}
    ours = np.full(owner.shape, -1)
    for name, rings in seen.fills:
        ours[shapely.contains_xy(shapely.Polygon(rings[0], rings[1:]), u, v)] = number[name]
    wrong = ours != owner
    lines = shapely.MultiLineString([corners for _, corners, _ in seen.lines])
    far = shapely.distance(lines, shapely.points(u[wrong], v[wrong])) > pixel
    return int(far.sum()), int((owner >= 0).sum())


@pytest.mark.parametrize("seed", range(80))
def test_random_builds_from_random_directions(seed):
    draw = random.Random(seed)
    way = draw.choice(names()) if seed % 2 else tuple(draw.uniform(-1, 1) for _ in range(3))
    wrong, shown = differing(random_build(seed, 6), way, 1.0)
    assert shown > 500
    assert wrong == 0


@pytest.mark.parametrize("way", ["isometric front right", "from below back left", "front", (0.3, -1, 0.2)])
def test_a_case_of_touching_parts(way):
    wrong, shown = differing(cabinet(2, 2), way, 2.0)
    assert shown > 10_000
    assert wrong == 0


@pytest.mark.parametrize("seed", range(40))
def test_regions_do_not_overlap_and_together_cover_the_silhouette(seed):
    solids = random_build(1000 + seed, 6)
    seen = look(solids, "isometric back left")
    areas = [shapely.Polygon(rings[0], rings[1:]) for _, rings in seen.fills]
    assert all(area.is_valid for area in areas)
    silhouette = shapely.union_all([_shadow(solid, seen.direction) for _, solid in solids])
    total = sum(area.area for area in areas)
    assert total == pytest.approx(silhouette.area, rel=1e-5)
    assert shapely.union_all(areas).area == pytest.approx(total, rel=1e-5)
    assert sum(seen.visible_area(name) for name, _ in solids) == pytest.approx(total, rel=1e-9)


def _shadow(solid, way):
    """The solid's silhouette as the union of its projected triangles, by shapely."""
    mesh = solid.to_mesh64()
    page = np.array(mesh.vert_properties)[:, :3] @ np.array([way.right, -np.array(way.up)]).T
    triangles = shapely.polygons(page[np.array(mesh.tri_verts, dtype=int)])
    return shapely.union_all(triangles[shapely.area(triangles) > 1e-9], grid_size=1e-6)


def test_the_depth_buffer_itself_tells_a_wrong_drawing():
    solids = cabinet(2, 2)
    owner, _ = rasterise(solids, direction("front"), 2.0)
    other, _ = rasterise(solids, direction("back"), 2.0)
    assert owner.shape == other.shape
    assert (owner != other).sum() > 1000
