"""Dowels between parts that lean differently: both holes of a dowel on one line, square to the face they meet at."""

from dataclasses import dataclass
from fractions import Fraction

from plankit.build.contact import Contact, touching
from plankit.build.fasteners import Fastener, Spec
from plankit.build.joints import spot
from plankit.build.joints_rows import Row
from plankit.build.leaning import middles
from plankit.errors import PlanError
from plankit.parts import (
    AXES,
    HIGH,
    OPPOSITE,
    Bore,
    Box,
    Face,
    Part,
    Point,
    slants_of,
    spot_after,
    turning,
    turning_back,
)
from plankit.units import Length, exactly

_FINE = 8000
"""Places are told to an eight-thousandth of a millimetre, of which 1/64 in is a whole number."""


@dataclass(frozen=True, slots=True)
class Seat:
    """Where two parts that lean differently are doweled, told by the one whose face there is not sawn at a slant.

    host     the part whose axes everything is told in; the dowels stand square to its face
    contact  where the other part touches it
    own      where the first part touches the second, in the first part's axes
    inwards  whether the first part is the host
    """

    host: Part
    other: Part
    contact: Contact
    own: Contact
    inwards: bool


def seat(part: Part, into: Part, own: Contact) -> Seat:
    """Return where dowels from one part into another that leans differently stand.

    own     where the first touches the second
    raises  PlanError where both are sawn at a slant there
    """
    back = touching(into, part)
    if back is None or not _sawn(into, back.face):
        return Seat(into, part, _on_the_face(into, back or own), own, inwards=False)
    if _sawn(part, own.face):
        raise PlanError(
            f"it and {into.name} are both sawn at a slant where they meet, and neither shows which way to bore.",
            where=part.name,
            remedy="Glue it there, or use screws.",
        )
    return Seat(part, into, _on_the_face(part, own), own, inwards=True)


def _sawn(part: Part, face: Face) -> bool:
    return any(slant.face == face for _, slant in slants_of(part))


def _on_the_face(part: Part, contact: Contact) -> Contact:
    """A contact found from solids, moved into the exact plane of its face."""
    plane, ends = part.box.face(contact.face), {}
    for axis in AXES:
        flat = axis == contact.axis
        ends[axis] = (plane, plane) if flat else (contact.region.low(axis), contact.region.high(axis))
    return Contact(contact.face, contact.axis, Box(*ends["x"], *ends["y"], *ends["z"]))


def thinner_side(at: Seat) -> Length:
    """Return how thick the joint is: what meets there may lie askew on the host's face, but not on its own."""
    one = at.contact.region.extent(at.contact.short)
    other = at.own.region.extent(at.own.short)
    return one if one.mm <= other.mm else other


def spots_along(at: Seat, row: Row, diameter: Length, name: str) -> list[Point]:
    """Return where dowels pierce the host's face, in its axes: in the middle of what is shared there.

    raises  PlanError where the row asks for none, or for too many
    """
    contact = at.contact
    low, high = contact.region.low(contact.long), contact.region.high(contact.long)
    least = 1 if (high - low).mm < diameter.mm * 4 else 2
    places = [_told(place, at.host.box.low(contact.long)) for place in row.places(low, high, least, name)]
    found = []
    for place, across in zip(
        places, middles(at.host, at.other, contact.face, contact.long, places), strict=True
    ):
        middle = across if across is not None else contact.region.middle(contact.short)
        told = _told(middle, at.host.box.low(contact.short))
        found.append(spot(contact, contact.long, place, contact.short, told))
    return found


def peg(at: Seat, spec: Spec, place: Point, beyond: Length) -> Fastener:
    """Return a dowel through a place of the host's face, so deep in the second part."""
    heading = at.contact.face if at.inwards else OPPOSITE[at.contact.face]
    way = 1 if heading == HIGH[at.contact.axis] else -1
    head = place.moved(at.contact.axis, (spec.length - beyond) * -way)
    tip = place.moved(at.contact.axis, beyond * way)
    through, into = (at.host, at.other) if at.inwards else (at.other, at.host)
    return Fastener(spec, head, tip, heading, through.id, into.id, leans=at.host.leans)


def bores(at: Seat, spec: Spec, place: Point, deep: tuple[Length, Length]) -> tuple[Bore, Bore]:
    """Return the two holes of a dowel, the first part's and then the second's.

    deep  how deep each is, in that order
    """
    here = at.host.box.corner
    hosts = (place.x - here.x, place.y - here.y, place.z - here.z)
    use = f"{exactly(spec.diameter)} dowel"
    face = at.own.face if not at.inwards else _face_of(at)
    of_other = Bore(face, _in_the_other(at, place), spec.diameter, deep[1 if at.inwards else 0], use)
    if _sawn(at.other, face):
        of_other = Bore(of_other.face, of_other.at, spec.diameter, of_other.depth, use, sawn=True)
    of_host = Bore(at.contact.face, hosts, spec.diameter, deep[0 if at.inwards else 1], use)
    return (of_host, of_other) if at.inwards else (of_other, of_host)


def _face_of(at: Seat) -> Face:
    """The other part's face where it touches the host."""
    back = touching(at.other, at.host)
    assert back is not None
    return back.face


def _in_the_other(at: Seat, place: Point) -> tuple[Length, Length, Length]:
    """A place of the host's face, from the other part's corner."""
    stands = spot_after(turning(at.host.leans), place.mm())
    x, y, z = spot_after(turning_back(at.other.leans), stands)
    return tuple(  # type: ignore[return-value]
        _fine(one - float(at.other.box.low(axis).mm)) for one, axis in zip((x, y, z), AXES, strict=True)
    )


def _told(place: Length, corner: Length) -> Length:
    return corner + _fine(float((place - corner).mm))


def _fine(mm: float) -> Length:
    return Length.of_mm(Fraction(round(mm * _FINE), _FINE))
