"""Holes of one part that run into each other, or leave next to no wood between them."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from plankit.build import Build, Fastener
from plankit.build.mounting import LEAD_HOLE
from plankit.build.near import near_ends
from plankit.checks.clashes import Vector, closest, far_apart, hardware_of, room_of
from plankit.checks.hollows import Hole, all_holes, bored, driven_in, in_line
from plankit.checks.wording import PRACTICE, gathered, sharper, spot
from plankit.finding import Finding
from plankit.parts import Bore, Part, PocketHoles, Point, hollow, rod, solid, spot_after, turning
from plankit.units import L, Length, Notation, largest

if TYPE_CHECKING:
    from manifold3d import Manifold

THIN = L("1/16 in")
"""Less wood than this between two holes crumbles (common practice)."""
HAIR = 0.2
"""Holes that share no more than so many millimeters touch by rounding."""
REMEDY = "Move one of them, make it less deep, or bore it from another face."


def holes(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about holes of one part that run into each other or nearly do, screws into holes included.

    Two screws that meet are told by another check. Holes on one line that belong together pass: a counterbore,
    a screw in its own hole; so do the holes of one piece of hardware. A hole that another has taken is told too.
    """
    screws = tuple(build.fasteners)
    belongs = hardware_of(build)
    driven: dict[str, list[int]] = defaultdict(list)
    for number, screw in enumerate(screws):
        for part_id in {screw.through: None, screw.into: None}:
            driven[part_id].append(number)
    found: list[Finding] = []
    for part in build.parts:
        if any(isinstance(feature, Bore | PocketHoles) for feature in part.features):
            told: dict[object, Finding] = {}
            for one, other in _pairs(part, all_holes(part, screws, driven[part.id]), screws, belongs):
                finding = _meeting(part, one, other, build, notation)
                if finding is not None:
                    told.setdefault(_once(one, other), finding)
            found += told.values()
            found += _bored_twice(part, build, notation)
    return gathered(found)


def _bored_twice(part: Part, build: Build, notation: Notation) -> Iterator[Finding]:
    """Holes for no screw that lie wholly in another, which is as wide and as deep."""
    whole = [hole for hole in bored(part) if _for_no_screw(hole)]
    for number, hole in enumerate(whole):
        if any(_taken(hole, other) and (rank < number or not _taken(other, hole))
               for rank, other in enumerate(whole) if rank != number):  # fmt: skip
            place = _said_at(part, hole.line[0], build, notation)
            yield Finding(
                "look at", "hole bored twice", part.name,
                f"In {part.name}, {hole.what} lies wholly in another.", place, "", "geometry of the build",
                "Leave one of them out.",
            )  # fmt: skip


def _for_no_screw(hole: Hole) -> bool:
    bore = hole.feature[0] if hole.feature is not None else None
    if not isinstance(bore, Bore) or bore.travel is not None or bore.countersink is not None:
        return False
    return bore.use.partition(",")[0] not in {LEAD_HOLE, "clearance hole"}


def _taken(hole: Hole, by: Hole) -> bool:
    """Whether a hole lies in one on the same line from the same face; from both faces a hole is bored for its rims."""
    if hole.radius > by.radius or not in_line(hole.line, by.line) or _face(hole) != _face(by):
        return False
    deep, deeper = (max(abs(a - b) for a, b in zip(*one.line, strict=True)) for one in (hole, by))
    return deep <= deeper


def _face(hole: Hole) -> object:
    return hole.feature[0].face if hole.feature is not None else None


def _pairs(
    part: Part, found: list[Hole], screws: tuple[Fastener, ...], belongs: list[int | None]
) -> Iterator[tuple[Hole, Hole]]:
    """Two and two of a part's holes that may meet and are not meant to, but for two screws that meet."""
    wide = 2 * max(hole.radius for hole in found) + float(THIN.mm)
    for i, j in near_ends([room_of(hole.room) for hole in found], wide):
        one, other = found[i], found[j]
        if _nowhere_near(one, other) or _meant(one, other, belongs):
            continue
        if one.screw is None or other.screw is None or not _clash(screws[one.screw], screws[other.screw]):
            yield one, other


def _once(one: Hole, other: Hole) -> object:
    """What two holes count as once: the two screws that they are for, else themselves."""
    of_screws = one.screw is not None and other.screw is not None
    return frozenset({one.screw, other.screw}) if of_screws else (one, other)


def _nowhere_near(one: Hole, other: Hole) -> bool:
    clear = one.radius + other.radius + float(THIN.mm)
    return far_apart(one.room, other.room, clear) or closest(one.room, other.room) >= clear


def _clash(one: Fastener, other: Fastener) -> bool:
    """Whether these are two screws that meet, which another check tells."""
    clear = float(largest(one.spec.diameter, other.spec.diameter).mm)
    return one is not other and closest(one.ends_mm(), other.ends_mm()) < clear


def _meant(one: Hole, other: Hole, belongs: list[int | None]) -> bool:
    """Whether two holes belong together, or both are screws, which another check looks at."""
    if one.feature is None and other.feature is None:
        return True
    if one.screw is not None and other.screw is not None and one.screw != other.screw:
        hardware = belongs[one.screw]
        if hardware is not None and hardware == belongs[other.screw]:
            return True
    from_two_sides = one.face is not None and other.face is not None and one.face != other.face
    return not from_two_sides and in_line(one.line, other.line)


@dataclass(frozen=True, slots=True)
class _Meeting:
    """How near two holes come: what both share, and the wood left between them, in millimeters; and where."""

    shared: float
    left: float
    at: Vector


def _between(part: Part, one: Hole, other: Hole) -> _Meeting | None:
    """How near two holes come inside the wood of a part; None where one of them lies in none."""
    plain = tuple(feature for feature in part.features if not isinstance(feature, Bore | PocketHoles))
    wood = solid(replace(part, leans=(), features=plain))
    first, second = _solid(part, one) ^ wood, _solid(part, other) ^ wood
    if first.is_empty() or second.is_empty():
        return None
    both = first ^ second
    if not both.is_empty():
        left, front, bottom, right, back, top = both.bounding_box()
        shared = min(right - left, back - front, top - bottom)
        if shared > HAIR:
            return _Meeting(shared, 0.0, ((left + right) / 2, (front + back) / 2, (bottom + top) / 2))
    return _Meeting(0.0, first.min_gap(second, float(THIN.mm)), one.line[0])


def _meeting(part: Part, one: Hole, other: Hole, build: Build, notation: Notation) -> Finding | None:
    found = _between(part, one, other)
    if found is None or found.left >= float(THIN.mm):
        return None
    place = _said_at(part, found.at, build, notation)
    if found.shared:
        return _run_together(part, (one, other), found.shared, place, notation)
    return None if one.wire or other.wire else _nearly(part, (one, other), found.left, place, notation)


def _solid(part: Part, hole: Hole) -> "Manifold":
    if hole.feature is None:
        return rod(hole.line, hole.radius)
    feature, number = hole.feature
    return hollow(part, feature)[number]


def _said_at(part: Part, at: Vector, build: Build, notation: Notation) -> str:
    place = spot_after(turning(part.leans), at) if part.leans else at
    x, y, z = (Length.of_mm(round(one * 10)).portion(10) for one in place)
    return spot(Point(x, y, z), build.box, notation)


def keeps_clear(part: Part, hole: Hole, screw: Fastener) -> bool:
    """Tell whether a screw leaves enough wood beside a hole of a part that leans as it does."""
    other = driven_in(screw, 0, (screw.head.mm(), screw.tip.mm()))
    if _nowhere_near(hole, other):
        return True
    meeting = _between(part, hole, other)
    return meeting is None or meeting.left >= float(THIN.mm)


def _run_together(part: Part, two: tuple[Hole, Hole], shared: float, place: str, notation: Notation) -> Finding:
    one, other = _screw_last(two)
    wire = one.wire or other.wire
    return Finding(
        "for information" if wire else "must fix",
        "holes meet",
        part.name,
        f"In {part.name}, {_both_said(one, other)} run into each other.",
        place,
        f"{_small(shared, notation)} is common to both",
        "geometry of the build",
        REMEDY,
    )


def _nearly(part: Part, two: tuple[Hole, Hole], left: float, place: str, notation: Notation) -> Finding:
    one, other = _screw_last(two)
    return Finding(
        "look at",
        "holes meet",
        part.name,
        f"In {part.name}, next to no wood is left between {_both_said(one, other)}.",
        place,
        _small(left, notation),
        f"{PRACTICE}: {notation.length(THIN)} or more",
        REMEDY,
    )


def _both_said(one: Hole, other: Hole) -> str:
    return f"{one.what} and {other.what if other.what != one.what else 'another like it'}"


def _screw_last(two: tuple[Hole, Hole]) -> tuple[Hole, Hole]:
    one, other = sorted(two, key=lambda hole: (hole.feature is None, hole.what))
    return one, other


def _small(mm: float, notation: Notation) -> str:
    return sharper(notation).length(Length.of_mm(round(mm * 100)).portion(100))
