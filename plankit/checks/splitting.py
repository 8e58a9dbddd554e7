"""Screws too near an end or an edge."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build, Fastener, Joint
from plankit.build.joints_rows import NARROW
from plankit.build.leaning import passage
from plankit.build.surfaces import exit_plane, on_line
from plankit.checks.wood import room, sides, where_it_enters
from plankit.checks.wording import PRACTICE, a_or_an, gathered, named, spot, told_apart
from plankit.finding import Finding
from plankit.parts import AXES, AXIS_OF, Axis, Face, Part, Point, other_axes, spot_after, turning_back
from plankit.parts.features import POCKET_DIAMETER
from plankit.stock import Lumber
from plankit.units import Length, Notation

EDGE_DIAMETERS, END_DIAMETERS = Fraction(5, 2), Fraction(5)
"""NDS commentary, guide for holes bored first: from the edge, and from an end that is pressed, not pulled."""
GUIDE = "guide in the NDS commentary (2.5 diameters to an edge, 5 to an end); the code itself gives no number"
NAILS_AT_ENDS = "Wood Handbook ch. 8: a nail no nearer to an end than the part is thick"
TOO_THIN_TO_SPLIT = frozenset({"brad", "staple", "dowel"})
"""What does not split wood: thin wire, and dowels, which have holes of their own size."""
NEAR_END_DIAMETERS = 3
"""Solid wood is likely to split where a screw stands nearer to its end than this (common practice)."""


@dataclass(frozen=True, slots=True)
class _Hole:
    """A screw or a nail as it passes through, or into, one part.

    beside  the wood between it and each face beside it
    """

    fastener: Fastener
    part: Part
    beside: tuple[tuple[Face, Length], ...]

    @property
    def to_ends(self) -> list[Length]:
        """The wood between it and each end beside it."""
        return [away for face, away in self.beside if AXIS_OF[face] == self.part.grain]

    @property
    def to_edges(self) -> list[Length]:
        """The wood between it and each edge beside it."""
        return [away for face, away in self.beside if AXIS_OF[face] != self.part.grain]


def splitting(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about screws and nails near ends and edges, and about two pocket screws in a narrow end.

    A screw centred in 3/4 in plywood is nearer its faces than the published guide likes and holds all the
    same: that guide is for information, once for the whole build.
    """
    holes = tuple(_holes(build))
    ends = (_near_an_end(hole, build, notation) for hole in holes)
    pockets = (_breaks_out(hole, build, notation) for hole in holes)
    found = [finding for finding in pockets if finding is not None]
    found += [*_two_in_a_narrow_end(build, notation), *(finding for finding in ends if finding is not None)]
    return (*gathered(found), *_beyond_the_guide(build, holes, notation))


def _holes(build: Build) -> Iterator[_Hole]:
    parts = {part.id: part for part in build.parts}
    for fastener in build.fasteners:
        if fastener.spec.kind not in TOO_THIN_TO_SPLIT:
            into = parts[fastener.into]
            if fastener.leans != into.leans:
                first = parts[fastener.through]
                plane = exit_plane(first, fastener.heading, fastener.head, fastener.tip)
                leaves = on_line(fastener.head, fastener.tip, AXIS_OF[fastener.heading], plane)
                yield _hole(fastener, first, leaves)
                yield from _in_its_own_axes(fastener, into)
                continue
            at = where_it_enters(into, fastener.heading, fastener.head, fastener.tip)
            yield _hole(fastener, into, at)
            if into.id != fastener.through:
                yield _hole(fastener, parts[fastener.through], at)


def _in_its_own_axes(fastener: Fastener, into: Part) -> Iterator[_Hole]:
    """A fastener where it enters a part that leans otherwise, told in that part's axes before it leans."""
    passes = passage(fastener.head.mm(), fastener.tip.mm(), fastener.leans, into)
    if passes is None or passes.enter >= 1:
        return
    back = turning_back(into.leans)
    head, tip = (spot_after(back, end) for end in fastener.ends_mm())
    x, y, z = (
        Length.of_mm(Fraction(round((start + (end - start) * passes.enter) * 1000), 1000))
        for start, end in zip(head, tip, strict=True)
    )
    at = Point(x, y, z)
    yield _Hole(fastener, into, tuple((face, room(into, at, face)) for face in sides(AXIS_OF[passes.by])))


def _hole(fastener: Fastener, part: Part, at: Point) -> _Hole:
    faces = sides(AXIS_OF[fastener.heading])
    return _Hole(fastener, part, tuple((face, room(part, at, face)) for face in faces))


def _two_in_a_narrow_end(build: Build, notation: Notation) -> Iterator[Finding]:
    """Narrow ends that two pocket screws or more leave by, whichever parts they go into."""
    ends: dict[tuple[str, Face], list[Joint]] = {}
    for joint in build.joints:
        if joint.kind == "pocket screws":
            ends.setdefault((joint.holds, joint.contact.face), []).append(joint)
    for (part_id, face), joints in ends.items():
        part = build.part(part_id)
        screws = [fastener for joint in joints for fastener in joint.fasteners]
        if len(screws) < 2:
            continue
        row = max(other_axes(AXIS_OF[face]), key=lambda axis: _spread(screws, axis))
        wide = min((joint.contact.region.extent(row) for joint in joints), key=lambda length: length.mm)
        if wide.mm > NARROW.mm or _spread(screws, row) > NARROW.mm:
            continue
        yield Finding(
            "must fix",
            "may split",
            part.name,
            f"{'Two' if len(screws) == 2 else len(screws)} pocket screws in an end as narrow as that of {part.name} "
            "are likely to split it.",
            spot(screws[0].head, build.box, notation),
            f"{notation.length(wide)} wide",
            PRACTICE,
            "Drill one hole in the middle, and glue the joint.",
        )


def _spread(screws: list[Fastener], axis: Axis) -> Fraction:
    places = [fastener.head.along(axis).mm for fastener in screws]
    return max(places) - min(places)


def _breaks_out(hole: _Hole, build: Build, notation: Notation) -> Finding | None:
    """A pocket hole so near the edge beside it that it opens there."""
    fastener, part = hole.fastener, hole.part
    if fastener.spec.kind != "pocket screw" or part.id != fastener.through:
        return None
    beside = (away for face, away in hole.beside if not _leans_across(fastener, face))
    left = min(beside, key=lambda length: length.mm)
    if not 0 <= left.mm < POCKET_DIAMETER.mm / 2:
        return None
    return Finding(
        "must fix",
        "may split",
        part.name,
        f"A pocket hole of {part.name} breaks out of the edge beside it.",
        spot(fastener.head, build.box, notation),
        notation.length(left),
        "geometry of the build; pockets are 3/8 in wide (common practice)",
        f"Move it at least {notation.length(POCKET_DIAMETER)} from the edge (shift=…), or glue the joint instead.",
    )


def _leans_across(fastener: Fastener, face: Face) -> bool:
    """Whether a pocket screw leans along the axis of a face, and so was drilled in it or in the opposite one."""
    axis = AXIS_OF[face]
    return fastener.head.along(axis).mm != fastener.tip.along(axis).mm


def _near_an_end(hole: _Hole, build: Build, notation: Notation) -> Finding | None:
    if not isinstance(hole.part.stock, Lumber):
        return None
    least, source = _least(hole, notation)
    left = min(hole.to_ends, key=lambda length: length.mm, default=None)
    if left is None or not 0 <= left.mm < least.mm:
        return None
    away, asked = told_apart(left, least, notation)
    return Finding(
        "look at",
        "may split",
        hole.part.name,
        f"{a_or_an(hole.fastener.spec.name, begins=True)} stands so near the end of {hole.part.name} that it may "
        "split it.",
        spot(hole.fastener.head, build.box, notation),
        away,
        source,
        f"Move it at least {asked} from the end, or bore the lead hole first.",
    )


def _least(hole: _Hole, notation: Notation) -> tuple[Length, str]:
    """How near to an end a screw or a nail may stand in solid wood."""
    if hole.fastener.spec.kind == "common nail":
        (through,) = set(AXES) - {AXIS_OF[face] for face, _ in hole.beside}
        return hole.part.box.extent(through), NAILS_AT_ENDS
    return hole.fastener.spec.diameter * NEAR_END_DIAMETERS, f"{PRACTICE}: 3 diameters"


def _beyond_the_guide(build: Build, holes: tuple[_Hole, ...], notation: Notation) -> tuple[Finding, ...]:
    """Say once which parts have screws nearer to an edge than the guide likes, and how near the nearest is."""
    nearest: dict[str, Length] = {}
    for hole in holes:
        diameter = hole.fastener.spec.diameter.mm
        for factor, distances in ((EDGE_DIAMETERS, hole.to_edges), (END_DIAMETERS, hole.to_ends)):
            for distance in distances:
                known = nearest.get(hole.part.name)
                if 0 <= distance.mm < factor * diameter and (known is None or distance.mm < known.mm):
                    nearest[hole.part.name] = distance
    if not nearest:
        return ()
    least = min(nearest.values(), key=lambda length: length.mm)
    return (
        Finding(
            "for information",
            "near an edge",
            build.name,
            f"Screws stand nearer to an edge of {named(nearest)} than a published guide for structures has them.",
            number=notation.length(least),
            source=GUIDE,
            remedy="Bore lead holes; furniture is commonly made so.",
        ),
    )
