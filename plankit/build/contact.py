"""Where two parts meet."""

from dataclasses import dataclass

from plankit.parts import AXES, HIGH, LOW, OPPOSITE, Axis, Box, Face, Part, other_axes
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
    for axis in AXES:
        for face, plane, against in (
            (HIGH[axis], first.box.high(axis), second.box.low(axis)),
            (LOW[axis], first.box.low(axis), second.box.high(axis)),
        ):
            if plane.mm == against.mm:
                region = first.box.common(second.box)
                if all(region.extent(other).mm > 0 for other in other_axes(axis)):
                    return Contact(face, axis, region)
    return None


def stays_closed(first: Part, second: Part, contact: Contact) -> bool:
    """Tell whether two parts touch where a contact says, asked of their lengths.

    Lengths remember what they are asked: with other parameter values it is known then whether they still do.
    """
    plane = first.box.face(contact.face)
    against = second.box.face(OPPOSITE[contact.face])
    across = (contact.region.extent(axis) for axis in other_axes(contact.axis))
    return plane <= against and plane >= against and all(extent > Length.zero() for extent in across)


def gap(first: Part, second: Part) -> tuple[Axis, Length] | None:
    """Return the axis and width of the gap between two parts that face each other; None where none is there.

    A negative width is how deep they run into each other.
    """
    region = first.box.common(second.box)
    clear = [axis for axis in AXES if region.extent(axis).mm < 0]
    if len(clear) > 1:
        return None
    axis = clear[0] if clear else min(AXES, key=lambda a: region.extent(a).mm)
    return axis, -region.extent(axis)
