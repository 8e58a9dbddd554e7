"""Pocket screws: how many, how long, in which face of the part, and where they come out."""

from dataclasses import replace
from fractions import Fraction

from plankit.build.contact import Contact
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
    other_axes,
    pocket_shoulder,
)
from plankit.units import L, Length

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
    spec = pocket_screw_for(part, part.box.extent(AXIS_OF[face]))
    made = tuple(_leaning(part, into, spec, contact, face, along, place) for place in places)
    holes = PocketHoles(face, contact.face, tuple(place - part.box.low(along) for place in places))
    back = _set_back(part, contact)
    if back is not None:
        holes = replace(holes, setback=back)
    return Joint("pocket screws", part.id, into.id, contact, made), (holes,)


def _set_back(part: Part, contact: Contact) -> Length | None:
    """How far the edge that the screws leave by lies in from the part's end, as inside a notch."""
    axis, plane = contact.axis, contact.region.low(contact.axis)
    back = part.box.high(axis) - plane if contact.face == HIGH[axis] else plane - part.box.low(axis)
    return back if back.mm else None


def _beside(contact: Contact) -> tuple[Face, ...]:
    return tuple(face for axis in other_axes(contact.axis) for face in (LOW[axis], HIGH[axis]))


def _leaning(  # noqa: PLR0917 - where a leaning screw goes takes this much to say
    part: Part, into: Part, spec: Spec, contact: Contact, face: Face, along: Axis, place: Length
) -> Fastener:
    """A pocket screw: out of the end at half the thickness, 15 degrees off; its head is at the shoulder."""
    cosine, sine = slope_of_pocket()
    axis, through = contact.axis, AXIS_OF[face]
    shoulder = pocket_shoulder(part.box.extent(through))
    exit_at = spot(contact, along, place, through, part.box.middle(through))
    out = 1 if contact.face == HIGH[axis] else -1
    lean = 1 if face != HIGH[through] else -1
    head = exit_at.moved(axis, shoulder * (-out * cosine)).moved(through, shoulder * (-lean * sine))
    tip = head.moved(axis, spec.length * (out * cosine)).moved(through, spec.length * (lean * sine))
    return Fastener(spec, head, tip, contact.face, part.id, into.id, leans=part.leans)
