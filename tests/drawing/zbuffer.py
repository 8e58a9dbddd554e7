"""A second opinion on what is seen: the solids rasterised with a depth buffer, triangle by triangle.

Plain numpy and nothing of plankit's but the direction's three vectors: every triangle of every solid is
filled into a grid of pixels where it comes nearer than what is there.
"""

import numpy as np


def rasterise(solids, direction, pixel):
    """Part numbers (−1: none) on a grid of pixels; also the page place of the first pixel's middle."""
    turn = np.array([direction.right, -np.array(direction.up), direction.eye])
    meshes = []
    for _, solid in solids:
        mesh = solid.to_mesh64()
        meshes.append((np.array(mesh.vert_properties)[:, :3] @ turn.T, np.array(mesh.tri_verts, dtype=int)))
    every = np.concatenate([points for points, _ in meshes])
    origin = every[:, :2].min(axis=0) - 3 * pixel + 0.3719 * pixel
    size = np.ceil((every[:, :2].max(axis=0) - origin) / pixel).astype(int) + 3
    owner = np.full((size[1], size[0]), -1)
    depth = np.full((size[1], size[0]), -np.inf)
    for number, (points, triangles) in enumerate(meshes):
        for corners in points[triangles]:
            _fill(owner, depth, (corners[:, :2] - origin) / pixel, corners[:, 2], number)
    return owner, origin


def _fill(owner, depth, page, heights, number):
    (ax, ay), (bx, by), (cx, cy) = page
    twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
    if abs(twice) < 1e-9:
        return
    left, top = np.maximum(np.ceil(page.min(axis=0)).astype(int), 0)
    right, bottom = np.floor(page.max(axis=0)).astype(int)
    if right < left or bottom < top:
        return
    x, y = np.meshgrid(np.arange(left, right + 1), np.arange(top, bottom + 1))
    one = ((bx - x) * (cy - y) - (cx - x) * (by - y)) / twice
    two = ((cx - x) * (ay - y) - (ax - x) * (cy - y)) / twice
    three = 1 - one - two
    z = one * heights[0] + two * heights[1] + three * heights[2]
    window = (slice(top, bottom + 1), slice(left, right + 1))
    nearer = (one >= 0) & (two >= 0) & (three >= 0) & (z > depth[window] + 1e-6)
    owner[window][nearer] = number
    depth[window][nearer] = z[nearer]
