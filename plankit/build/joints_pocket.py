"""Pocket screws: how many, how long, in which face of the part, and where they come out."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from plankit.build.contact import Contact, contacts
from plankit.build.fasteners import Fastener, Spec, pocket_screw_for, slope_of_pocket
from plankit.build.joints import Joint, meeting, spot
from plankit.build.joints_rows import NARROW, Row
from plankit.errors import PlanError
from plankit.parts import (
    AXIS_OF,
    HIGH,
    LOW,
    Axis,
    Face,
    Feature,
    Part,
    PocketHoles,
    Point,
    other_axes,
    pocket_shoulder,
    slants_of,
)
from plankit.units import L, Length, largest

POCKET_SPACING = L("7 in")
"""Pocket holes stand at most so far apart (common practice: 6 to 8 in)."""
POCKETED = Row(POCKET_SPACING)

MOUTH_REACHES = Fraction(1866, 1000), L("0.7245 in")
"""From an end to the far rim of a pocket's mouth: so many times the stock's thickness, and so much more.

source  the middle leaves by t/2 and 15 degrees: t/2/tan 15° = 1.866 t; half the mouth is 3/16 in/sin 15° = 0.7244 in
"""


def clear_of_pocket(thickness: Length) -> Length:
    """Return how far from the end of a part with pocket holes another hole clears them: up to the next 1/4 in."""
    slope, mouth = MOUTH_REACHES
    return (thickness * slope + mouth + L("3/16 in")).rounded_up(L("1/4 in"))


def pocket_screws(
    part: Part,
    into: Part,
    face: Face,
    count: int | None = None,
    *,
    row: Row = POCKETED,
    towards: Face | None = None,
) -> tuple[Joint, tuple[Feature, ...]]:
    """Return pocket screws from one part into another, and the pocket holes in the first.

    Where the first part's end is sawn at a slant to lie against the other, each hole stands back from it alike:
    they follow the slope, and there is a row for each place.

    face     the face of `part` that is drilled
    count    how many; by the joint's width where it is None: one up to 1 9/16 in, else two or more
    row      how they stand otherwise
    towards  the edge they come out of, where the two parts meet in several, as round a notch
    """
    contact = meeting(part, into, "pocket-screwed", towards)
    if face == contact.face or AXIS_OF[face] == contact.axis:
        raise PlanError(
            "pocket holes are drilled in a face beside the joint, not in the one that meets the other part.",
            where=part.name,
            given=f'face="{face}"',
            remedy=f"Use one of: {', '.join(_beside(contact))}.",
        )
    (along,) = (axis for axis in other_axes(contact.axis) if axis != AXIS_OF[face])
    low, high = contact.region.low(along), contact.region.high(along)
    row = row if count is None else replace(row, count=count)
    places = row.places(low, high, 1 if high - low <= NARROW else 2, part.name)
    through = AXIS_OF[face]
    spec = pocket_screw_for(part, part.box.extent(through))
    spots = [spot(contact, along, place, through, part.box.middle(through)) for place in places]
    if part.leans != into.leans or not contacts(part, into):
        spots = [_on_the_slope(part, contact.face, at) for at in spots]
    made = tuple(_leaning(part, into, spec, contact.face, face, at) for at in spots)
    return Joint("pocket screws", part.id, into.id, contact, made), _rows(part, contact.face, face, along, spots)


def _on_the_slope(part: Part, end: Face, at: Point) -> Point:
    """A place on an end, moved to where the end is after it is sawn at a slant."""
    axis = AXIS_OF[end]
    deep = Length.zero()
    for _, slant in slants_of(part):
        for slope in slant.slopes if slant.face == end else ():
            across = AXIS_OF[slope.towards]
            away = at.along(across) - part.box.low(across)
            if slope.towards == HIGH[across]:
                away = part.box.extent(across) - away
            deep += largest(Length.zero(), slope.amount - away * (slope.amount / slope.run))
    return at.moved(axis, part.box.face(end) + (-deep if end == HIGH[axis] else deep) - at.along(axis))


def _rows(part: Part, end: Face, face: Face, along: Axis, spots: Sequence[Point]) -> tuple[PocketHoles, ...]:
    """The holes whose screws leave at these spots: one row, or several where some stand further back than others."""
    rows: dict[Fraction, tuple[Length | None, list[Length]]] = {}
    for at in spots:
        back = _set_back(part, end, at)
        key = back.mm if back is not None else Fraction(0)
        rows.setdefault(key, (back, []))[1].append(at.along(along) - part.box.low(along))
    return tuple(PocketHoles(face, end, tuple(places), back) for back, places in rows.values())


def _set_back(part: Part, end: Face, at: Point) -> Length | None:
    """How far inside the part's end a screw leaves, as inside a notch."""
    axis = AXIS_OF[end]
    back = part.box.high(axis) - at.along(axis) if end == HIGH[axis] else at.along(axis) - part.box.low(axis)
    return back if back.mm else None


def _beside(contact: Contact) -> tuple[Face, ...]:
    return tuple(face for axis in other_axes(contact.axis) for face in (LOW[axis], HIGH[axis]))


def _leaning(  # noqa: PLR0917 - where a leaning screw goes takes this much to say
    part: Part, into: Part, spec: Spec, end: Face, face: Face, leaves_at: Point
) -> Fastener:
    """A pocket screw: out of the end at half the thickness, 15 degrees off; its head is at the shoulder."""
    cosine, sine = slope_of_pocket()
    axis, through = AXIS_OF[end], AXIS_OF[face]
    shoulder = pocket_shoulder(part.box.extent(through))
    out = 1 if end == HIGH[axis] else -1
    lean = 1 if face != HIGH[through] else -1
    head = leaves_at.moved(axis, shoulder * (-out * cosine)).moved(through, shoulder * (-lean * sine))
    tip = head.moved(axis, spec.length * (out * cosine)).moved(through, spec.length * (lean * sine))
    return Fastener(spec, head, tip, end, part.id, into.id, leans=part.leans)
