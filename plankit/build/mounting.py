"""How hardware is fixed: short screws driven square into one face of a part, and the lead holes they need."""

from collections.abc import Mapping

from plankit.build.fasteners import Fastener, Spec
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Bore, Box, Face, Part, Point
from plankit.reference import wood_screw
from plankit.units import L, Length, smallest, told

METAL = L("1/16 in")
"""Metal between a screw's head and the wood (common practice: the plates of small hardware)."""
OVER_TIP = L("1/8 in")
"""Wood left over the tip of a screw that must not show (common practice)."""
SCREW_STEP = L("1/8 in")
"""Short screws are sold in lengths so far apart (common practice)."""
SHORTEST = L("3/8 in")
USUAL_SCREW = L("5/8 in")
"""Screws of hinges and other small hardware, where the wood is thick enough (common practice)."""
LEAD_HOLE = "lead hole"
"""How the use of every lead hole begins."""


def short_screw(part: Part, face: Face, gauge: int = 6, most: Length = USUAL_SCREW) -> Spec:
    """Return the longest wood screw up to `most` that leaves 1/8 in of wood over its tip.

    raises  PlanError where the part is too thin for any
    """
    room = part.box.extent(AXIS_OF[face]) + METAL - OVER_TIP
    long = smallest(most, SCREW_STEP * (room // SCREW_STEP))
    if long < SHORTEST:
        raise PlanError(
            f"it is {told(part.box.extent(AXIS_OF[face]))} thick: no screw holds in it.",
            where=part.name,
            remedy="Put a block of wood behind it, or bolt the hardware through.",
        )
    return Spec("wood screw", gauge, long)


def inwards(face: Face, by: Length) -> Length:
    """Return a distance into a part from one of its faces, as a move along the face's axis."""
    return -by if face == HIGH[AXIS_OF[face]] else by


def into_face(part: Part, face: Face, by: Length) -> Length:
    """Return the place so deep below a face of a part; before it where `by` is below nothing."""
    return part.box.face(face) + inwards(face, by)


def point(places: Mapping[Axis, Length]) -> Point:
    """Return the point at three places."""
    return Point(places["x"], places["y"], places["z"])


def between(ends: Mapping[Axis, tuple[Length, Length]]) -> Box:
    """Return the box between two places along each axis, in either order."""
    faces: dict[str, Length] = {}
    for axis in AXES:
        one, other = ends[axis]
        faces[LOW[axis]], faces[HIGH[axis]] = (one, other) if one <= other else (other, one)
    return Box(**faces)


def driven(part: Part, face: Face, across: Mapping[Axis, Length], spec: Spec) -> Fastener:
    """Return a screw through a piece of hardware into a face of a part; `across` says where on the face."""
    axis = AXIS_OF[face]
    head = point({**across, axis: into_face(part, face, -METAL)})
    tip = head.moved(axis, inwards(face, spec.length))
    return Fastener(spec, head, tip, OPPOSITE[face], part.id, part.id, leans=part.leans)


def lead_hole(part: Part, fastener: Fastener, what: str) -> Bore:
    """Return the lead hole of a screw that holds hardware: as deep as the screw reaches.

    source  its drill by the wood's specific gravity: Wood Handbook FPL-GTR-282 ch. 8
    """
    assert fastener.spec.gauge is not None
    drill = wood_screw(fastener.spec.gauge).drill(part.stock.specific_gravity)
    face = OPPOSITE[fastener.heading]
    return hole(part, face, fastener.head, drill, fastener.spec.length - METAL, f"{LEAD_HOLE}, {what}")


def hole(  # noqa: PLR0917 - a hole has this many facts
    part: Part, face: Face, at: Point, diameter: Length, depth: Length | None, use: str
) -> Bore:
    """Return a round hole in a face of a part; the place of its middle is one of the build."""
    corner = part.box.corner
    spot = (at.x - corner.x, at.y - corner.y, at.z - corner.z)
    return Bore(face, spot, diameter, depth, use)
