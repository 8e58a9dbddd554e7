"""Solids for the drawing tests: one of each, and random builds from a seed."""

import math
import random

from manifold3d import Manifold

Solids = list[tuple[str, Manifold]]


def box(x=100.0, y=50.0, z=18.0, at=(0.0, 0.0, 0.0)) -> Manifold:
    return Manifold.cube((x, y, z)).translate(at)


def notched(x, y, z, share=0.4) -> Manifold:
    return box(x, y, z) - box(x * share, y * share, z * 2, (-1, -1, -z / 2))


def tapered(x, y, z, lean=0.3) -> Manifold:
    top = [(0, 0, z), (x, 0, z), (x, y, z), (0, y, z)]
    foot = [(x * lean, y * lean / 2, 0), (x, y * lean / 2, 0), (x, y, 0), (x * lean, y, 0)]
    return Manifold.hull_points([*top, *foot])


def bored(x, y, z, share=0.25, segments=24) -> Manifold:
    radius = min(x, y) * share
    return box(x, y, z) - Manifold.cylinder(z * 3, radius, radius, segments).translate((x / 2, y / 2, -z))


def one_of_each() -> dict[str, Manifold]:
    return {
        "plain panel": box(300, 200, 18),
        "board": box(18, 18, 400),
        "notched": notched(120, 80, 18),
        "tapered": tapered(80, 80, 120),
        "bored": bored(120, 90, 40),
        "turned": box(100, 40, 18).rotate((10, 20, 35)),
        "tiny": box(0.5, 0.5, 0.5),
        "empty": Manifold(),
    }


def random_build(seed: int, count: int = 8, *, apart: bool = False) -> Solids:
    """Boxes, notched, tapered, bored solids in a heap; a quarter turned, others on a grid: they touch."""
    draw = random.Random(seed)
    made: Solids = []
    for number in range(count):
        x, y, z = (draw.choice((20, 40, 60, 90)) for _ in range(3))
        solid = draw.choice((box, notched, tapered, bored))(x, y, z)
        if draw.random() < 0.25 and not apart:
            solid = solid.rotate(tuple(draw.uniform(-60, 60) for _ in range(3)))
        spot = tuple(20.0 * draw.randrange(8) for _ in range(3))
        solid = solid.translate((400.0 * number, 0, 0) if apart else spot)
        made.append((f"part {number}", solid))
    return made


def cabinet(columns: int = 4, rows: int = 4) -> Solids:
    """An invented case of notched sides, bored shelves, tapered feet; 41 parts with 4 columns of 4 rows."""
    wide, high, deep, ply = 320.0, 260.0, 380.0, 18.0
    made: Solids = [("bottom", box(columns * wide + ply, deep, ply))]
    for column in range(columns + 1):
        side = box(ply, deep, rows * high, (column * wide, 0, ply))
        side -= box(ply * 3, 60, 40, (column * wide - ply, deep - 60, ply))
        made.append((f"side {column}", side))
    for column in range(columns):
        for row in range(rows):
            left, low = column * wide + ply, ply + row * high + 90
            shelf = box(wide - ply, deep - 40, ply, (left, 20, low))
            for hole in (60.0, 150.0, 240.0):
                shelf -= Manifold.cylinder(ply * 3, 8, 8, 24).translate((left + hole, 60, low - ply))
            made.append((f"shelf {column}-{row}", shelf))
            if row % 2:
                door = box(wide - ply - 4, 16, high - 114, (left + 2, -16, low + ply + 2))
                made.append((f"front {column}-{row}", door))
            else:
                made.append((f"rail {column}-{row}", box(wide - ply, 20, 60, (left, 0, low - 60))))
    top = box(columns * wide + ply + 40, deep + 40, 30, (-20, -20, ply + rows * high))
    made.append(("top", top))
    feet = max(0, 41 - len(made)) if columns * rows == 16 else 2
    for foot in range(feet):
        at = (foot * (columns * wide + ply - 70) / max(1, feet - 1), 20, -100)
        made.append((f"foot {foot}", tapered(70, 70, 100).translate(at)))
    return made


def circle_area(radius: float, segments: int) -> float:
    """Area of a regular polygon in a circle: n/2 r² sin(2π/n)."""
    return segments / 2 * radius**2 * math.sin(2 * math.pi / segments)
