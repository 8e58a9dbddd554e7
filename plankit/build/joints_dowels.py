"""Dowels: how thick, how many, and the holes for them in both parts."""

from dataclasses import dataclass, replace

from plankit.build.contact import Contact
from plankit.build.fasteners import Fastener, Spec
from plankit.build.joints import Joint, meeting, spot
from plankit.build.joints_dowels_leaning import bores, peg, seat, spots_along, thinner_side
from plankit.build.joints_rows import Row
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, OPPOSITE, Bore, Face, Part, Point
from plankit.units import L, Length, exactly, smallest, told

SOLD: tuple[tuple[Length, Length], ...] = (
    (L("1/4 in"), L("1 1/4 in")),
    (L("5/16 in"), L("1 1/2 in")),
    (L("3/8 in"), L("2 in")),
    (L("1/2 in"), L("2 in")),
)
"""Diameter and length of fluted dowel pins as stores commonly have them (common practice)."""
DEEPER = L("1/16 in")
"""The two holes together are so much deeper than the dowel is long (joinery textbooks, common practice)."""
OVER_END = L("3/16 in")
"""Wood left between a hole and the far face of the part (common practice)."""
DOWEL_SPACING = L("5 in")
"""Dowels stand at most so far apart (common practice: 4 to 6 in)."""
DOWELLED = Row(DOWEL_SPACING, margin=L("1 1/4 in"))


@dataclass(frozen=True, slots=True)
class Doweled:
    """A doweled joint, with the holes it needs in the part that is fastened and in the other."""

    joint: Joint
    holes: tuple[Bore, ...]
    into_holes: tuple[Bore, ...]


def dowel_for(part: Part, thickness: Length) -> Spec:
    """Return the dowel for a joint this thick: the thickest that is sold of one third to one half of it.

    raises  PlanError where none suits
    source  joinery textbooks: one third to one half of the stock's thickness
    """
    fits = [(thick, long) for thick, long in SOLD if thick.mm * 2 <= thickness.mm]
    if not fits:
        raise PlanError(
            f"no dowel that is sold suits a joint {told(thickness)} thick.",
            where=part.name,
            remedy=f"Dowels need {told(SOLD[0][0] * 2)} or more.",
        )
    thick, long = fits[-1]
    return Spec("dowel", None, long, thick)


def dowel(text: str) -> Spec:
    """Return a dowel as it is written: "3/8 x 2" (diameter, then length; inches unless it says mm)."""
    sizes = [piece.strip() for piece in str(text).replace("×", "x").split("x")]
    if len(sizes) != 2 or not all(sizes):
        raise PlanError(
            "this is not how a dowel is written.", given=repr(text), remedy='Write it like "3/8 x 2".'
        )
    thick, long = (L(size, "in") for size in sizes)
    if thick.mm <= 0 or long.mm <= thick.mm:
        raise PlanError(
            "a dowel is longer than it is thick.", given=repr(text), remedy='Write it like "3/8 x 2".'
        )
    return Spec("dowel", None, long, thick)


def dowels(
    part: Part, into: Part, spec: Spec | None = None, row: Row = DOWELLED, towards: Face | None = None
) -> Doweled:
    """Return dowels in a row between two parts, half in each where the second is thick enough.

    spec    by the joint's thickness where it is None
    raises  PlanError where they meet inside a cut, or a part is too thin for the holes
    """
    contact = meeting(part, into, "doweled", towards)
    if part.leans != into.leans:
        return _slanting(part, into, contact, spec, row)
    _refuse_inside(part, into, contact)
    along, across = contact.long, contact.short
    made = spec or dowel_for(part, contact.region.extent(across))
    room = into.box.extent(contact.axis) - OVER_END - DEEPER.portion(2)
    beyond = smallest(made.length.portion(2), room)
    _refuse_deep(part, into, contact, made, beyond)
    low, high = contact.region.low(along), contact.region.high(along)
    least = 1 if (high - low).mm < made.diameter.mm * 4 else 2
    spots = [
        spot(contact, along, place, across, contact.region.middle(across))
        for place in row.places(low, high, least, part.name)
    ]
    pegs = tuple(_peg(part, into, contact, made, at, beyond) for at in spots)
    hole = DEEPER.portion(2)
    own = tuple(_bore(part, contact.face, at, made, made.length - beyond + hole) for at in spots)
    theirs = tuple(_bore(into, OPPOSITE[contact.face], at, made, beyond + hole) for at in spots)
    return Doweled(Joint("dowels", part.id, into.id, contact, pegs, glue=True), own, theirs)


def _slanting(part: Part, into: Part, contact: Contact, spec: Spec | None, row: Row) -> Doweled:
    """Dowels into a part that leans otherwise: square to the face that is not sawn, both holes on one line."""
    at = seat(part, into, contact)
    made = spec or dowel_for(part, thinner_side(at))
    theirs = at.own if at.inwards else at.contact
    room = into.box.extent(theirs.axis) - OVER_END - DEEPER.portion(2)
    beyond = smallest(made.length.portion(2), room)
    _refuse_deep(part, into, at.own, made, beyond)
    places = spots_along(at, row, made.diameter, part.name)
    hole = DEEPER.portion(2)
    holes = [bores(at, made, place, (made.length - beyond + hole, beyond + hole)) for place in places]
    pegs = tuple(peg(at, made, place, beyond) for place in places)
    joint = Joint("dowels", part.id, into.id, contact, pegs, glue=True)
    return Doweled(joint, tuple(own for own, _ in holes), tuple(other for _, other in holes))


def _peg(  # noqa: PLR0917 - a dowel lies in two parts
    part: Part, into: Part, contact: Contact, spec: Spec, at: Point, beyond: Length
) -> Fastener:
    out = 1 if contact.face == HIGH[contact.axis] else -1
    head = at.moved(contact.axis, (spec.length - beyond) * -out)
    tip = at.moved(contact.axis, beyond * out)
    return Fastener(spec, head, tip, contact.face, part.id, into.id, leans=part.leans)


def _bore(part: Part, face: Face, at: Point, spec: Spec, depth: Length) -> Bore:
    corner = part.box.corner
    places = (at.x - corner.x, at.y - corner.y, at.z - corner.z)
    return Bore(face, places, spec.diameter, depth, f"{exactly(spec.diameter)} dowel")


def _refuse_inside(part: Part, into: Part, contact: Contact) -> None:
    at = contact.region.low(contact.axis).mm
    outer = part.box.face(contact.face).mm, into.box.face(OPPOSITE[contact.face]).mm
    if any(plane != at for plane in outer):
        raise PlanError(
            f"it meets {into.name} inside a cut, where no dowel holes are bored.",
            where=part.name,
            remedy="Glue it there, or use screws.",
        )


def _refuse_deep(part: Part, into: Part, contact: Contact, spec: Spec, beyond: Length) -> None:
    deep = spec.length - beyond + DEEPER.portion(2)
    if beyond.mm <= 0 or deep.mm > part.box.extent(AXIS_OF[contact.face]).mm - OVER_END.mm:
        thin = into if beyond.mm <= 0 else part
        raise PlanError(
            f"{thin.name} is too thin for the holes of a {spec.name}.",
            where=part.name,
            remedy='Use shorter dowels: pins="1/4 x 1 1/4"',
        )


def with_count(count: int | None) -> Row:
    """Return the usual row of dowels with so many of them; as many as it asks for where it is None."""
    return replace(DOWELLED, count=count)
