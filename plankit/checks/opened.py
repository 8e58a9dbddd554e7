"""What moves in a build, opened: where its parts and what it carries are then."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import cos, radians, sin

from plankit.build import Build, Moving, Pivot
from plankit.checks.balance import Spot, Weighed, together, weighed
from plankit.checks.blocks import around
from plankit.checks.strength import Load
from plankit.parts import AXES, AXIS_OF, HIGH
from plankit.units import Density, Mass

USUAL_OPENING: dict[str, float] = {"door": 90.0, "flap": 90.0, "bin": 30.0, "drawer": 0.0}
"""How far things open, in degrees, where the build does not say (common practice)."""
CLOTHING = Density(Fraction(17, 2))
"""What a filled drawer or bin holds where nobody says: clothing, 8.5 lb/ft³ (16 CFR 1261 and its 2022 forerunner)."""


@dataclass(frozen=True, slots=True)
class Opened:
    """One door, flap, bin or drawer, open.

    own       its parts' weight, where it is then
    shut      the same, where it is while shut
    carried   what is in it, where that is then; no weight where it carries nothing
    corners   the eight corners of its front, where they are then
    """

    moving: Moving
    own: Weighed
    shut: Weighed
    carried: Weighed
    corners: tuple[Spot, ...]


def opened(build: Build, moving: Moving, loads: tuple[Load, ...] = ()) -> Opened:
    """Return something that moves as it is when open.

    loads  what the author says that its parts carry; else what it carries is weighed as clothing
    """
    parts = [build.part(part_id) for part_id in moving.parts]
    shut = together(weighed(part) for part in parts)
    carried = _carried(build, moving, shut, loads)
    ends = around(parts[0])
    corners = tuple(move(moving, (x, y, z)) for x, y, z in product(ends[:2], ends[2:4], ends[4:]))
    return Opened(
        moving,
        shut.moved_to(move(moving, shut.at)),
        shut,
        carried.moved_to(move(moving, carried.at)),
        corners,
    )


def move(moving: Moving, spot: Spot) -> Spot:
    """Return where a place of something that moves is when it is open."""
    if moving.slides is not None:
        face, far = moving.slides
        at, index = list(spot), AXES.index(AXIS_OF[face])
        at[index] += float(far.mm) if face == HIGH[AXIS_OF[face]] else -float(far.mm)
        return at[0], at[1], at[2]
    if moving.pivot is None:
        return spot
    return turned(moving.pivot, spot, _opens(moving))


def _opens(moving: Moving) -> float:
    return float(moving.opens.degrees) if moving.opens is not None else USUAL_OPENING[moving.kind]


def turned(pivot: Pivot, spot: Spot, degrees: float) -> Spot:
    """Return a place turned about a pivot, the way that opens it."""
    angle = radians(degrees) * pivot.sense
    index = AXES.index(pivot.axis)
    one, two = (index + 1) % 3, (index + 2) % 3
    at, middle = list(spot), pivot.at.mm()
    a, b = spot[one] - middle[one], spot[two] - middle[two]
    at[one] = middle[one] + a * cos(angle) - b * sin(angle)
    at[two] = middle[two] + a * sin(angle) + b * cos(angle)
    return at[0], at[1], at[2]


def _carried(build: Build, moving: Moving, shut: Weighed, loads: tuple[Load, ...]) -> Weighed:
    said = [load for load in loads if load.part in moving.parts]
    if said:
        return Weighed(sum(float(_mass(build, load).kg) for load in said), shut.at)
    thing = next((thing for thing in build.things if thing.name == moving.contents), None)
    if thing is not None:
        low, high = thing.box.mm()
        x, y, z = ((a + b) / 2 for a, b in zip(low, high, strict=True))
        if thing.mass.kg:
            return Weighed(float(thing.mass.kg), (x, y, z))
        size = [length.mm for length in thing.box.size]
        return Weighed(float(CLOTHING.mass_of(size[0] * size[1] * size[2]).kg), (x, y, z))
    if moving.kind in {"drawer", "bin"}:
        return _filled(build, moving)
    return Weighed(0.0, shut.at)


def _filled(build: Build, moving: Moving) -> Weighed:
    """A drawer or bin full of clothing, taken as large as the box around all its parts."""
    whole = around(build.part(moving.parts[0]))
    for part_id in moving.parts[1:]:
        ends = around(build.part(part_id))
        pairs = [(min(whole[i], ends[i]), max(whole[i + 1], ends[i + 1])) for i in (0, 2, 4)]
        whole = (*pairs[0], *pairs[1], *pairs[2])
    sizes = [Fraction(whole[i + 1] - whole[i]) for i in (0, 2, 4)]
    x, y, z = ((whole[i] + whole[i + 1]) / 2 for i in (0, 2, 4))
    return Weighed(float(CLOTHING.mass_of(sizes[0] * sizes[1] * sizes[2]).kg), (x, y, z))


def _mass(build: Build, load: Load) -> Mass:
    part = build.part(load.part)
    area = part.length.inches * part.width.inches / 144
    return Mass.of_pounds(load.psf * area) + load.middle
