"""Screws and nails driven square through one part into another."""

from plankit.build.fasteners import Fastener, Spec
from plankit.build.joints import Joint, JointKind, meeting, spot, square
from plankit.build.joints_rows import SCREW_SPACING, Row
from plankit.build.leaning import middles
from plankit.errors import PlanError
from plankit.parts import OPPOSITE, Axis, Bore, Face, Feature, Part
from plankit.reference import wood_screw
from plankit.units import L, Length

NAIL_SPACING = L("6 in")
"""Nails stand at most so far apart (common practice)."""
NAILED = Row(NAIL_SPACING)


def face_screws(
    through: Part,
    into: Part,
    spec: Spec,
    count: int | None = None,
    inset: Length | None = None,
    *,
    towards: Face | None = None,
) -> tuple[Joint, tuple[Feature, ...]]:
    """Return screws driven square through one part into another, and the holes they need in the first.

    count    how many; as many as `SCREW_SPACING` asks for where it is None
    inset    from each end of the joint to the outermost screw; `END_DISTANCE`, where there is room, if None
    towards  the face of the first part that the screws leave by, where the two meet in several
    raises   PlanError where the parts do not touch, or the insets meet
    """
    row = Row(SCREW_SPACING, count, inset)
    joint = _in_a_row(through, into, spec, row, towards, "face screws")
    return joint, tuple(clearance_hole(through, fastener) for fastener in joint.fasteners)


def nails(through: Part, into: Part, spec: Spec, row: Row = NAILED, towards: Face | None = None) -> Joint:
    """Return nails driven square through one part into another, in a row."""
    return _in_a_row(through, into, spec, row, towards, "nails")


def _in_a_row(  # noqa: PLR0917 - what, where, and with what
    through: Part, into: Part, spec: Spec, row: Row, towards: Face | None, kind: JointKind
) -> Joint:
    contact = meeting(through, into, "nailed" if kind == "nails" else "screwed", towards)
    region, along, across = contact.region, contact.long, contact.short
    places = row.places(region.low(along), region.high(along), 2, through.name)
    middle = region.middle(across)
    centred: tuple[Length | None, ...] = (middle,) * len(places)
    if through.leans != into.leans:
        centred = middles(through, into, contact.face, along, places)
    spots = [
        spot(contact, along, place, across, at or middle) for place, at in zip(places, centred, strict=True)
    ]
    made = tuple(square(through, into, spec, contact, at) for at in spots)
    return Joint(kind, through.id, into.id, contact, made)


def clearance_hole(part: Part, fastener: Fastener, travel: Length | None = None, along: Axis = "x") -> Bore:
    """Return a screw's hole in the part it goes through: its shank's width, the countersink of a flat head twice that.

    travel  makes a slot of it, so much longer than wide, along `along`
    """
    gauge = fastener.spec.gauge
    if gauge is None:
        raise PlanError("only screws need a clearance hole.", where=part.name)
    drill = drill_size(wood_screw(gauge).shank)
    corner = part.box.corner
    at = (fastener.head.x - corner.x, fastener.head.y - corner.y, fastener.head.z - corner.z)
    use = f"clearance hole, #{gauge} screw"
    sunk = drill * 2 if fastener.spec.kind == "wood screw" else None
    return Bore(OPPOSITE[fastener.heading], at, drill, None, use, sunk, travel, along)


def drill_size(diameter: Length) -> Length:
    """Return the smallest drill, in 64ths of an inch, that is not thinner than a diameter."""
    step = L("1/64 in")
    return step * -int(-diameter.mm // step.mm)
