"""Screws too near an end or an edge."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build, Fastener, Joint
from plankit.build.joints import NARROW
from plankit.checks.wood import room, sides, where_it_enters
from plankit.checks.wording import PRACTICE, gathered, spot
from plankit.finding import Finding
from plankit.parts import AXIS_OF, Face, Part, Point, other_axes
from plankit.stock import Lumber
from plankit.units import Length, Notation

EDGE_DIAMETERS, END_DIAMETERS = Fraction(5, 2), Fraction(5)
"""NDS commentary, guide for holes bored first: from the edge, and from an end that is pressed, not pulled."""
GUIDE = "guide in the NDS commentary (2.5 diameters to an edge, 5 to an end); the code itself gives no number"
NEAR_END_DIAMETERS = 3
"""Solid wood is likely to split where a screw stands nearer to its end than this (common practice)."""


@dataclass(frozen=True, slots=True)
class _Hole:
    """A screw as it passes through, or into, one part."""

    fastener: Fastener
    part: Part
    at: Point

    def rooms(self, *, ends: bool) -> list[tuple[Face, Length]]:
        """The wood between the screw and each end (or each edge) beside it."""
        faces = sides(AXIS_OF[self.fastener.heading])
        return [(f, room(self.part, self.at, f)) for f in faces if (AXIS_OF[f] == self.part.grain) == ends]


def splitting(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about screws near ends and edges, and about two pocket screws in a narrow end.

    A screw centred in 3/4 in plywood is nearer its faces than the published guide likes and holds all the
    same: that guide is for information, once for each kind of part.
    """
    narrow = (_two_in_a_narrow_end(build, joint, notation) for joint in build.joints)
    holes = tuple(_holes(build))
    ends = (_near_an_end(hole, build, notation) for hole in holes)
    found = [finding for finding in (*narrow, *ends) if finding is not None]
    return (*gathered(found), *_beyond_the_guide(holes, notation))


def _holes(build: Build) -> Iterator[_Hole]:
    parts = {part.id: part for part in build.parts}
    for fastener in build.fasteners:
        if fastener.spec.kind != "brad":
            into = parts[fastener.into]
            at = where_it_enters(into, fastener.heading, fastener.head, fastener.tip)
            yield _Hole(fastener, into, at)
            yield _Hole(fastener, parts[fastener.through], at)


def _two_in_a_narrow_end(build: Build, joint: Joint, notation: Notation) -> Finding | None:
    if joint.kind != "pocket screws" or len(joint.fasteners) < 2:
        return None
    part = build.part(joint.holds)
    row = max(other_axes(joint.contact.axis), key=lambda axis: _spread(joint, axis))
    wide = joint.contact.region.extent(row)
    if wide.mm > NARROW.mm:
        return None
    return Finding(
        "look at",
        "may split",
        part.name,
        f"Two pocket screws in an end as narrow as that of {part.name} may split it.",
        spot(joint.fasteners[0].head, build.box, notation),
        f"{notation.length(wide)} wide",
        PRACTICE,
        "Drill one hole in the middle, and glue the joint.",
    )


def _spread(joint: Joint, axis: str) -> Fraction:
    places = [fastener.head.along(axis).mm for fastener in joint.fasteners]  # type: ignore[arg-type]
    return max(places) - min(places)


def _near_an_end(hole: _Hole, build: Build, notation: Notation) -> Finding | None:
    if not isinstance(hole.part.stock, Lumber):
        return None
    least = hole.fastener.spec.diameter * NEAR_END_DIAMETERS
    left = min((distance for _, distance in hole.rooms(ends=True)), key=lambda d: d.mm, default=None)
    if left is None or not 0 <= left.mm < least.mm:
        return None
    return Finding(
        "look at",
        "may split",
        hole.part.name,
        f"A {hole.fastener.spec.name} stands so near the end of {hole.part.name} that it may split it.",
        spot(hole.fastener.head, build.box, notation),
        notation.length(left),
        f"{PRACTICE}: 3 diameters",
        f"Move it at least {notation.length(least)} from the end, or bore the lead hole first.",
    )


def _beyond_the_guide(holes: tuple[_Hole, ...], notation: Notation) -> tuple[Finding, ...]:
    nearest: dict[str, Length] = {}
    for hole in holes:
        diameter = hole.fastener.spec.diameter.mm
        for factor, ends in ((EDGE_DIAMETERS, False), (END_DIAMETERS, True)):
            for _, distance in hole.rooms(ends=ends):
                known = nearest.get(hole.part.name)
                if 0 <= distance.mm < factor * diameter and (known is None or distance.mm < known.mm):
                    nearest[hole.part.name] = distance
    return tuple(
        Finding(
            "for information",
            "near an edge",
            name,
            f"Screws stand nearer to an edge of {name} than a published guide for structures has them.",
            number=notation.length(distance),
            source=GUIDE,
            remedy="Bore lead holes; furniture is commonly made so.",
        )
        for name, distance in nearest.items()
    )
