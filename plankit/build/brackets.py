"""Angle brackets: between two parts in the corner they make, and at the back of a piece against tipping."""

from dataclasses import dataclass

from plankit.build.contact import Contact, touching
from plankit.build.fasteners import Fastener
from plankit.build.fittings import CHECK, PRACTICE, Fitted
from plankit.build.items import Item
from plankit.build.mounting import between, driven, into_face, inwards, lead_hole, short_screw
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, OPPOSITE, Axis, Bore, Face, Part, other_axes
from plankit.units import L, Length, exactly


@dataclass(frozen=True, slots=True)
class Bracket:
    """An angle bracket.

    leg    from its corner to the end of a leg
    wide   across it
    holes  how far from the corner the two holes of a leg are
    """

    leg: Length
    wide: Length
    holes: tuple[Length, Length]
    gauge: int = 8


BRACKET = Bracket(L("1 1/2 in"), L("5/8 in"), (L("1/2 in"), L("1 1/8 in")))
"""An angle bracket of a usual size (common practice)."""
LEG_SCREW = L("3/4 in")


def bracket(part: Part, to: Part, face: Face, at: Length | None, kind: Bracket) -> Fitted:
    """Return an angle bracket in the corner that a face of a part makes with another part.

    face    the face of `part` that one leg lies on; the other leg lies on the part it meets
    at      the bracket's middle along that corner; in the middle of it where it is None
    raises  PlanError where the parts do not touch, or the face does not stand on the other part
    """
    contact = touching(part, to)
    if contact is None or AXIS_OF[face] == contact.axis:
        raise PlanError(
            f"no bracket goes in the corner of its {face} face and {to.name}: "
            + ("they do not touch." if contact is None else "that face lies against it."),
            where=part.name,
            given=f"to={to.id}",
            remedy="Name the part it touches, and a face of it beside that place.",
        )
    row = _along(contact, face)
    spot = contact.region.middle(row) if at is None else at
    corner = part.box.face(face), to.box.face(OPPOSITE[contact.face])
    one = _leg(part, face, (row, spot), contact.axis, (corner[1], OPPOSITE[contact.face]), kind)
    two = _leg(to, OPPOSITE[contact.face], (row, spot), AXIS_OF[face], (corner[0], face), kind)
    half = kind.wide.portion(2)
    room = between(
        {
            AXIS_OF[face]: (corner[0], corner[0] + _out(face, kind.leg)),
            contact.axis: (corner[1], corner[1] + _out(OPPOSITE[contact.face], kind.leg)),
            row: (spot - half, spot + half),
        }
    )
    name = f"angle bracket, {exactly(kind.leg)} legs, {exactly(kind.wide)} wide"
    item = Item(
        name, "other", (part.id, to.id), room, (*one, *two), compare=f"{CHECK}: its holes", source=PRACTICE
    )
    leads = [
        (p.id, tuple(lead_hole(p, s, "bracket") for s in screws)) for p, screws in ((part, one), (to, two))
    ]
    return Fitted((item,), tuple(leads))


def _along(contact: Contact, face: Face) -> Axis:
    (row,) = (axis for axis in other_axes(contact.axis) if axis != AXIS_OF[face])
    return row


def _out(face: Face, by: Length) -> Length:
    """A move out of a part through one of its faces."""
    return by if face == HIGH[AXIS_OF[face]] else -by


def _leg(  # noqa: PLR0917 - a face, a row on it and the corner it starts from
    part: Part, face: Face, row: tuple[Axis, Length], away: Axis, corner: tuple[Length, Face], kind: Bracket
) -> tuple[Fastener, ...]:
    """The screws of one leg: in a row away from the corner."""
    spec = short_screw(part, face, kind.gauge, LEG_SCREW)
    start, side = corner
    places = ({row[0]: row[1], away: start + _out(side, far)} for far in kind.holes)
    return tuple(driven(part, face, place, spec) for place in places)


def restraint(
    part: Part, wall: Face, face: Face, at: Length, kind: Bracket, *, studs: bool = False
) -> Fitted:
    """Return a bracket that ties a piece to the wall behind it, so that it cannot tip.

    wall    the face of `part` that stands against the wall: "back"
    face    the face of `part` that the other leg is screwed to: "top", "bottom", "left" …
    at      the bracket's middle along the edge between the two
    studs   whether its place is found on the day, at a stud: `at` only shows one, and no hole is bored ahead
    raises  PlanError where the two faces do not meet in an edge
    """
    row = edge_between(part, wall, face)
    spec = short_screw(part, face, kind.gauge, LEG_SCREW)
    screws = tuple(
        driven(part, face, {row: at, AXIS_OF[wall]: into_face(part, wall, far)}, spec) for far in kind.holes
    )
    half, back = kind.wide.portion(2), part.box.face(wall)
    room = between(
        {
            AXIS_OF[wall]: (back, back + inwards(wall, kind.leg)),
            AXIS_OF[face]: (part.box.face(face), into_face(part, face, -kind.leg)),
            row: (at - half, at + half),
        }
    )
    leads = tuple(lead_hole(part, screw, "bracket") for screw in screws)
    item = Item(
        f"anti-tip bracket, {exactly(kind.leg)} legs",
        "wall fixing",
        (part.id,),
        room,
        screws,
        compare=_at_a_stud(leads[0]) if studs else _TO_THE_WALL,
        source=PRACTICE,
    )
    return Fitted((item,), () if studs else ((part.id, leads),))


_TO_THE_WALL = (
    "fix its other leg into a stud, or with what your wall's makers say; the wall's screws are not counted: buy "
    "what suits your wall"
)


def _at_a_stud(lead: Bore) -> str:
    """What is done on the day where the wall says where a bracket goes."""
    assert lead.depth is not None
    return (
        "find two studs and set a bracket before the middle of each, clear of other screws: the places drawn only show "
        f"how it sits; bore its {exactly(lead.diameter)} lead holes there, {exactly(lead.depth)} deep, and fix its "
        "other leg into the stud, or with what your wall's makers say; the wall's screws are not counted: buy what "
        "suits your wall"
    )


def edge_between(part: Part, wall: Face, face: Face) -> Axis:
    """Return the axis of the edge that two faces of a part meet in.

    raises  PlanError where they do not
    """
    if AXIS_OF[face] == AXIS_OF[wall]:
        raise PlanError(
            "a bracket to the wall goes round an edge.",
            where=part.name,
            given=f'wall="{wall}", face="{face}"',
            remedy='Name two faces that meet, such as wall="back", face="top".',
        )
    (row,) = (axis for axis in other_axes(AXIS_OF[wall]) if axis != AXIS_OF[face])
    return row
