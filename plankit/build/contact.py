"""Where two parts meet."""

from dataclasses import dataclass

from plankit.build.leaning import leaning_contact
from plankit.build.surfaces import cuts_of, largest_left, opened, surfaces
from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    OPPOSITE,
    Axis,
    Box,
    CompoundMitre,
    Face,
    Mitre,
    Part,
    box_of,
    other_axes,
)
from plankit.units import Length


@dataclass(frozen=True, slots=True)
class Contact:
    """The flat place where two parts touch.

    face    the face of the first part that touches
    axis    the axis square to that place
    region  the place itself, a box without thickness along `axis`
    """

    face: Face
    axis: Axis
    region: Box

    @property
    def long(self) -> Axis:
        """The axis along which the place is longest."""
        one, two = other_axes(self.axis)
        return one if self.region.extent(one) >= self.region.extent(two) else two

    @property
    def short(self) -> Axis:
        """The axis along which the place is shortest."""
        one, two = other_axes(self.axis)
        return two if self.long == one else one

    @property
    def area_mm2(self) -> float:
        """The area of the place in square millimetres."""
        one, two = other_axes(self.axis)
        return float(self.region.extent(one).mm * self.region.extent(two).mm)


def touching(first: Part, second: Part) -> Contact | None:
    """Return where two parts touch, or None where they do not meet face to face."""
    flat = () if first.leans != second.leans else contacts(first, second)
    if flat:
        return flat[0]
    found = leaning_contact(first, second) if _may_meet_slanting(first, second) else None
    return Contact(*found) if found is not None else None


def _may_meet_slanting(first: Part, second: Part) -> bool:
    """Whether two parts may meet where one leans, or in a corner that both are mitred into."""
    if first.leans != second.leans:
        return True
    sawn = all(any(isinstance(one, Mitre | CompoundMitre) for one in part.features) for part in (first, second))
    return sawn and all(first.box.common(second.box).extent(axis).mm > 0 for axis in AXES)


def contacts(first: Part, second: Part) -> tuple[Contact, ...]:
    """Return every flat place where two parts touch: their outer faces' first, then those inside cuts, largest first.

    Faces inside a notch, a groove or the like count; a place that cuts leave in pieces is its largest rectangle.
    Both must lean alike.
    """
    if not cuts_of(first) and not cuts_of(second):
        return _outer(first, second)
    if apart_along(first.box, second.box):
        return ()
    pairs = _facing(first, second)
    ordered = sorted(pairs, key=lambda pair: (pair[0] or pair[1], -pair[2].area_mm2, FACES.index(pair[2].face)))
    return tuple(contact for _, _, contact in ordered)


def _outer(first: Part, second: Part) -> tuple[Contact, ...]:
    """The place where two parts without cuts touch; two boxes touch face to face in one place at most."""
    for face in FACES:
        axis = AXIS_OF[face]
        meet = first.box.face(face).mm == second.box.face(OPPOSITE[face]).mm
        if meet and share_room(first.box, second.box, other_axes(axis)):
            return (Contact(face, axis, first.box.common(second.box)),)
    return ()


def _facing(first: Part, second: Part) -> list[tuple[bool, bool, Contact]]:
    """Faces that lie against each other: whether each lies inside a cut, and where they touch."""
    found = []
    theirs = surfaces(second)
    for number, mine in enumerate(surfaces(first)):
        axis = AXIS_OF[mine.face]
        for other, against in enumerate(theirs):
            if against.face != OPPOSITE[mine.face] or against.plane.mm != mine.plane.mm:
                continue
            if not share_room(mine.region, against.region, other_axes(axis)):
                continue
            common = mine.region.common(against.region)
            region = largest_left(common, axis, (*opened(first, mine), *opened(second, against)))
            if region is not None:
                found.append((number >= len(FACES), other >= len(FACES), Contact(mine.face, axis, region)))
    return found


def stays_closed(first: Part, second: Part, contact: Contact) -> bool:
    """Tell whether two parts touch where a contact says, asked of their lengths.

    Lengths remember what they are asked: with other parameter values it is known then whether they still do.
    Parts that meet slanting do so by their solids, which remember nothing.
    """
    if first.leans != second.leans or not contacts(first, second):
        return True
    at = contact.region.low(contact.axis)
    plane = _plane_at(first, contact.face, at)
    against = _plane_at(second, OPPOSITE[contact.face], at)
    across = (contact.region.extent(axis) for axis in other_axes(contact.axis))
    return plane <= against and plane >= against and all(extent > Length.zero() for extent in across)


def _plane_at(part: Part, face: Face, at: Length) -> Length:
    """The face of a part that looks this way and lies there, as it is worked out; its outer one if none does."""
    planes = [one.plane for one in surfaces(part) if one.face == face]
    return next((plane for plane in planes if plane.mm == at.mm), planes[0])


def gap(first: Part, second: Part) -> tuple[Axis, Length] | None:
    """Return the axis and width of the gap between two parts that face each other; None where none is there.

    A negative width is how deep they run into each other.
    """
    mine, theirs = (first.box, second.box) if first.leans == second.leans else (box_of(first), box_of(second))
    clear = apart_along(mine, theirs)
    if len(clear) > 1:
        return None
    region = mine.common(theirs)
    axis = clear[0] if clear else min(AXES, key=lambda a: region.extent(a).mm)
    return axis, -region.extent(axis)


def apart_along(one: Box, other: Box) -> tuple[Axis, ...]:
    """Return the axes along which there is room between two boxes; none where they touch or run into each other."""
    return tuple(
        axis
        for axis in AXES
        if one.low(axis).mm > other.high(axis).mm or other.low(axis).mm > one.high(axis).mm
    )


def share_room(one: Box, other: Box, along: tuple[Axis, ...] = AXES) -> bool:
    """Tell whether two boxes share more than a face, an edge or a corner, looked at along some axes only."""
    return all(
        min(one.high(axis).mm, other.high(axis).mm) > max(one.low(axis).mm, other.low(axis).mm) for axis in along
    )
