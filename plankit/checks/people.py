"""Fingers and children: gaps beside doors and drawers that trap, lids that fall, and what a child gets open."""

from collections.abc import Iterator
from itertools import combinations

from plankit.build import Build, Moving, gap
from plankit.checks.balance import floor_of, together, weighed
from plankit.checks.blocks import around, shares
from plankit.checks.opened import move
from plankit.checks.wording import PRACTICE, gathered
from plankit.finding import Finding
from plankit.parts import AXES, Axis, Part
from plankit.units import L, Length, Notation

FINGER_IN, FINGER_OUT = L("7 mm"), L("18 mm")
"""Parts that move past each other with a gap between these two shear and squeeze a finger (European standards
for tables; the definition read on a standards body's page)."""
REACH = L("46 in")
"""So high reaches a small child (from memory: about 46 in at four years)."""
_TRAP = "European table standards: a gap between 7 and 18 mm shears and squeezes fingers"
_LID = "ASTM F834 (toy chests): falling lids have killed children; its scope read, its limits not"
_WAY: dict[Axis, str] = {"x": "left to right", "y": "front to back", "z": "up and down"}


def people(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about fingers and children; none for a build in which nothing moves."""
    found = [*_gaps(build, notation), *_lids(build), *_within_reach(build, notation)]
    return gathered(found)


def _gaps(build: Build, notation: Notation) -> Iterator[Finding]:
    """Gaps in the plane of a front, between it and what stands beside it, or another front."""
    movers = {part_id: moving for moving in build.moving for part_id in moving.parts}
    fronts = [build.part(moving.parts[0]) for moving in build.moving]
    fixed = [part for part in build.parts if part.id not in movers]
    pairs = [*((front, other) for front in fronts for other in fixed), *combinations(fronts, 2)]
    for front, other in pairs:
        if not _in_plane(front, other):
            continue
        apart = gap(front, other)
        if apart is None or apart[0] == front.through:
            continue
        if FINGER_IN.mm < apart[1].mm < FINGER_OUT.mm and not _between(front, other, apart[0], fixed):
            yield Finding(
                "look at",
                "traps fingers",
                movers[front.id].name,
                f"The gap between {front.name} and {other.name} lets a finger in, and is too narrow to let it out "
                "when one of them moves.",
                _WAY[apart[0]],
                notation.length(apart[1]),
                _TRAP,
                f"Make it narrower than {notation.length(FINGER_IN)}, or wider than {notation.length(FINGER_OUT)}.",
            )


def _in_plane(front: Part, other: Part) -> bool:
    """Whether another part reaches into the plane of a front, so that the gap is seen and felt."""
    index = AXES.index(front.through)
    return not other.leans and not front.leans and shares(around(front), around(other), index)


def _between(front: Part, other: Part, axis: Axis, parts: list[Part]) -> bool:
    """Whether a third part fills the gap."""
    low = min(front.box.high(axis), other.box.high(axis), key=lambda x: x.mm)
    high = max(front.box.low(axis), other.box.low(axis), key=lambda x: x.mm)
    for part in parts:
        if (
            part.id in {front.id, other.id}
            or part.box.low(axis).mm >= high.mm
            or part.box.high(axis).mm <= low.mm
        ):
            continue
        if all(part.box.common(front.box).extent(a).mm > 0 for a in AXES if a != axis):
            return True
    return False


def _lids(build: Build) -> Iterator[Finding]:
    for moving in build.moving:
        if moving.kind == "flap" and _falls_shut(build, moving) and not supported(build, moving):
            yield Finding(
                "look at",
                "falls shut",
                moving.name,
                f"{moving.name} opens upwards, and nothing keeps it from falling on hands and heads.",
                "",
                "",
                _LID,
                'Fit a lid support that holds it at any angle: plan.buy("lid support", 2, where="from the sides to the '
                f'{moving.name.lower()}"), and say in its step how it goes on.',
            )


def _falls_shut(build: Build, moving: Moving) -> bool:
    """Whether a flap turns about a level line and is higher when open than shut."""
    if moving.pivot is None or moving.pivot.axis == "z":
        return False
    shut = together(weighed(build.part(part_id)) for part_id in moving.parts).at
    return move(moving, shut)[2] > shut[2] + 1


def supported(build: Build, moving: Moving) -> bool:
    """Return whether a stay or a support is fitted to what moves."""
    return any(
        set(item.on) & set(moving.parts) and ("support" in item.name.lower() or "stay" in item.name.lower())
        for item in build.items
    )


def _within_reach(build: Build, notation: Notation) -> Iterator[Finding]:
    if build.wall is not None:
        return  # how high it hangs nobody says
    floor = floor_of(build) if build.moving else 0.0
    low = [moving for moving in build.moving if _height(build, moving, floor) < float(REACH.mm)]
    if not low:
        return
    height = min(_height(build, moving, floor) for moving in low)
    names = ", ".join(dict.fromkeys(moving.name for moving in low))
    yield Finding(
        "for information",
        "within a child's reach",
        build.name,
        f"A small child gets at {names}.",
        names,
        f"from {notation.length(Length.of_mm(round(height)))} up",
        f"{PRACTICE}: small children reach about {notation.length(REACH)} (from memory)",
        "Keep what is sharp, heavy or poisonous higher up, or fit a catch that a child cannot open.",
    )


def _height(build: Build, moving: Moving, floor: float) -> float:
    """How high the lower edge of a front is above the floor."""
    return around(build.part(moving.parts[0]))[4] - floor
