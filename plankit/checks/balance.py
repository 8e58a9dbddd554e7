"""Statics of a piece that stands on the floor: what it weighs, where its weight acts, what it stands on."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import atan2, degrees, hypot

from plankit.build import Build
from plankit.checks.blocks import around, outline
from plankit.errors import PlanError
from plankit.parts import Bore, Part, PocketHoles, Point, weight
from plankit.units import Angle, Mass

type Spot = tuple[float, float, float]
type Corner = tuple[float, float]

LEVEL = 1.0
"""What ends within so many millimetres of the lowest place stands on the floor too."""
SLICE = 0.05
"""How far above the floor the footing is cut through, in millimetres, to see its outline."""
_STEP = 10**6


class NoFooting(PlanError):  # noqa: N818 - it says what is missing
    """Nothing that stands on the floor has an outline: the build has no parts, or they meet it at one point."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A weight and where it acts: kilograms, and millimetres along x, y and z of the build."""

    kg: float
    at: Spot

    def with_(self, other: "Weighed") -> "Weighed":
        """Return two weights as one."""
        whole = self.kg + other.kg
        if whole == 0:
            return self
        x, y, z = ((self.kg * a + other.kg * b) / whole for a, b in zip(self.at, other.at, strict=True))
        return Weighed(whole, (x, y, z))

    def moved_to(self, at: Spot) -> "Weighed":
        """Return the same weight elsewhere."""
        return Weighed(self.kg, at)


NO_WEIGHT = Weighed(0.0, (0.0, 0.0, 0.0))


def together(weights: Iterable[Weighed]) -> Weighed:
    """Return several weights as one."""
    whole = NO_WEIGHT
    for one in weights:
        whole = whole.with_(one)
    return whole


@lru_cache(maxsize=1024)
def weighed(part: Part) -> Weighed:
    """Return what a part weighs and where its weight acts; holes for screws shift nothing that matters.

    source  centre of a solid bounded by triangles: pyramids from the origin, each with its centre at a quarter
            of the sum of its corners
    """
    return Weighed(float(weight(part).kg), _middle(part))


def _middle(part: Part) -> Spot:
    plain = not part.leans and all(isinstance(feature, Bore | PocketHoles) for feature in part.features)
    return _box_middle(part) if plain else solid_centre(part)


def _box_middle(part: Part) -> Spot:
    ends = around(part)
    return (ends[0] + ends[1]) / 2, (ends[2] + ends[3]) / 2, (ends[4] + ends[5]) / 2


def solid_centre(part: Part) -> Spot:
    """Return the centre of mass of a part's solid, its round holes filled."""
    import numpy as np

    mesh = outline(part).to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    origin = corners.mean(axis=(0, 1))
    corners = corners - origin
    pyramids = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6
    x, y, z = origin + (pyramids[:, None] * corners.sum(axis=1) / 4).sum(axis=0) / pyramids.sum()
    return float(x), float(y), float(z)


def centre_of_mass(build: Build) -> Weighed:
    """Return what a build weighs, its hardware included where its weight is known, and where that acts."""
    return together([*(weighed(part) for part in build.parts), *items_weighed(build)])


def items_weighed(build: Build) -> list[Weighed]:
    """Return the weight of each piece of hardware that has one, in the middle of its box."""
    found = []
    for item in build.items:
        if item.mass.kg:
            low, high = item.box.mm()
            x, y, z = ((a + b) / 2 for a, b in zip(low, high, strict=True))
            found.append(Weighed(float(item.mass.kg), (x, y, z)))
    return found


def footing(build: Build) -> tuple[Corner, ...]:
    """Return the outline of what stands on the floor, counter-clockwise from above, in millimetres.

    The floor lies at 0, or where the lowest part ends if that is lower: what hangs on a wall has no footing.
    raises  NoFooting where nothing with an outline stands there
    """
    floor = floor_of(build)
    corners: list[Corner] = []
    for part in build.parts:
        if around(part)[4] - floor <= LEVEL:
            corners += _standing_on(part)
    for item in build.items:
        low, high = item.box.mm()
        if low[2] - floor <= LEVEL:
            corners += _under(item.kind, low, high)
    hull = _hull(corners)
    if len(hull) < 3:
        lowest = min(build.parts, key=lambda part: around(part)[4], default=None)
        raise NoFooting(
            "the piece stands on nothing that has an outline.",
            where=lowest.name if lowest else build.name,
            remedy="Let some part end level at the floor.",
        )
    return hull


def _standing_on(part: Part) -> list[Corner]:
    ends = around(part)
    if not part.features and not part.leans:
        return [(x, y) for x in ends[:2] for y in ends[2:4]]
    polygons = outline(part).slice(ends[4] + SLICE).to_polygons()
    return [(float(x), float(y)) for polygon in polygons for x, y in polygon]


def _under(kind: str, low: Spot, high: Spot) -> list[Corner]:
    """Where hardware meets the floor: a caster at its middle, as it may swivel inwards; the rest all over."""
    if kind == "caster":
        return [((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)]
    return [(x, y) for x in (low[0], high[0]) for y in (low[1], high[1])]


def _hull(corners: Sequence[Corner]) -> tuple[Corner, ...]:
    """The convex outline of points, counter-clockwise (Andrew's monotone chain)."""
    ordered = sorted({(round(x, 4), round(y, 4)) for x, y in corners})
    lower, upper = _chain(ordered), _chain(ordered[::-1])
    return tuple(lower[:-1] + upper[:-1])


def _chain(ordered: Sequence[Corner]) -> list[Corner]:
    chain: list[Corner] = []
    for point in ordered:
        while len(chain) > 1 and _turns(chain[-2], chain[-1], point) <= 0:
            chain.pop()
        chain.append(point)
    return chain


def _turns(a: Corner, b: Corner, c: Corner) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


@dataclass(frozen=True, slots=True)
class Edge:
    """One side of the footing: two corners, and how far inside of it a place lies (below nothing: outside)."""

    start: Corner
    end: Corner

    def inside(self, at: Spot) -> float:
        """Return how far inside a place lies, in millimetres."""
        long = hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])
        return _turns(self.start, self.end, (at[0], at[1])) / long


def edges(hull: Sequence[Corner]) -> tuple[Edge, ...]:
    """Return the sides of a footing."""
    return tuple(Edge(hull[i], hull[(i + 1) % len(hull)]) for i in range(len(hull)))


def lean(weight: Weighed, hull: Sequence[Corner], floor: float) -> float:
    """Return how far, in degrees, a weight on a footing can lean before it falls over its nearest side."""
    high = max(weight.at[2] - floor, 1e-6)
    return min(degrees(atan2(edge.inside(weight.at), high)) for edge in edges(hull))


def floor_of(build: Build) -> float:
    """Return how high the floor is in the build: at 0, or where the lowest part ends if that is lower."""
    lows = [*(around(part)[4] for part in build.parts), *(item.box.mm()[0][2] for item in build.items)]
    return min(0.0, *lows) if lows else 0.0


def tip_angle(build: Build, load: Mass, at: Point) -> Angle:
    """Return how far the piece can lean before it falls over.

    load, at   weight put on it, and where (build axes: x right, y back, z up)
    returns    the smallest lean over any side of its footing; 0 or less: it falls as it stands
    raises     NoFooting: nothing with an outline touches the floor
    source     statics of a rigid body: the centre of mass over the footing's convex outline
    """
    whole = centre_of_mass(build).with_(Weighed(float(load.kg), at.mm()))
    return Angle(Fraction(round(lean(whole, footing(build), floor_of(build)) * _STEP), _STEP))
