"""Brads and staples: thin backs pinned to the edges of what stands in front of them."""

from collections.abc import Sequence
from fractions import Fraction

from plankit.build.contact import Contact, contacts
from plankit.build.fasteners import Spec
from plankit.build.joints import Joint, JointKind, meeting, spot, square
from plankit.build.joints_rows import Row
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, FACES, HIGH, Axis, Face, Part, Point, other_axes
from plankit.units import L, Length, smallest

BRAD_SPACING = L("5 in")
"""Brads and staples in a back stand at most so far apart (common practice)."""
FROM_CORNER = L("1 in")
"""From the first pin in a row to the end of the joint (common practice)."""
FROM_EDGE = L("3/8 in")
"""From a pin to the edge of a back: the middle of 3/4 in stock behind it (common practice)."""


def brads(thin: Part, into: Part, length: Length, spacing: Length = BRAD_SPACING) -> Joint:
    """Return brads through a thin part into the edge of another, in one row."""
    return pinned(thin, into, Spec("brad", None, length), spacing)


def pinned(thin: Part, into: Part, spec: Spec, spacing: Length = BRAD_SPACING) -> Joint:
    """Return brads or staples through a thin part into the edge of another, in one row."""
    contact = meeting(thin, into, "pinned")
    row, across = contact.long, contact.short
    places = Row(spacing, margin=FROM_CORNER).places(
        contact.region.low(row), contact.region.high(row), 2, thin.name
    )
    middle = contact.region.middle(across)
    made = tuple(square(thin, into, spec, contact, spot(contact, row, at, across, middle)) for at in places)
    return Joint(_kind(spec), thin.id, into.id, contact, made)


def _kind(spec: Spec) -> JointKind:
    return "staples" if spec.kind == "staple" else "brads"


def pinned_along(  # noqa: PLR0917 - what, into what, where, with what
    thin: Part,
    behind: Sequence[Part],
    edge: Face,
    spec: Spec,
    spacing: Length = BRAD_SPACING,
    in_from: Length = FROM_EDGE,
) -> tuple[Joint, ...]:
    """Return pins along the whole of one edge of a thin part, whatever lies behind it.

    behind   the parts that may lie there; a pin with none behind it is told with the nearest, for a check to find
    edge     the edge of the thin part that the pins follow
    in_from  from the edge to the pins
    raises   PlanError where the thin part touches none of them, or the face is none of its edges
    """
    if AXIS_OF[edge] == thin.through:
        raise PlanError(
            "pins follow an edge.",
            where=thin.name,
            given=edge,
            remedy=f"Its edges are: {', '.join(face for face in FACES if AXIS_OF[face] != thin.through)}.",
        )
    met = [(part, found) for part in behind if (found := _lying_on(thin, part)) is not None]
    if not met:
        raise PlanError(
            f"it touches nothing that it could be pinned to along its {edge} edge.",
            where=thin.name,
            remedy="Pin it where something stands behind it.",
        )
    face = met[0][1].face
    spots = _along(thin, edge, met[0][1], Row(spacing, margin=FROM_CORNER), in_from)
    by_part: dict[str, list[Point]] = {}
    for at in spots:
        nearest = min(met, key=lambda one: _off(one[1], at))
        by_part.setdefault(nearest[0].id, []).append(at)
    return tuple(
        Joint(_kind(spec), thin.id, part.id, contact,
              tuple(square(thin, part, spec, contact, at) for at in by_part[part.id]))
        for part, contact in met
        if part.id in by_part and contact.face == face
    )  # fmt: skip


def _lying_on(thin: Part, part: Part) -> Contact | None:
    return next((one for one in contacts(thin, part) if one.axis == thin.through), None)


def _along(thin: Part, edge: Face, contact: Contact, row: Row, in_from: Length) -> list[Point]:
    across = AXIS_OF[edge]
    (along,) = (axis for axis in other_axes(thin.through) if axis != across)
    away = smallest(in_from, thin.box.extent(across).portion(2))
    line = thin.box.face(edge) - away if edge == HIGH[across] else thin.box.face(edge) + away
    places = row.places(thin.box.low(along), thin.box.high(along), 2, thin.name)
    return [spot(contact, along, place, across, line) for place in places]


def _off(contact: Contact, at: Point) -> Fraction:
    """How far a place lies outside a contact; nothing where it lies within."""
    return sum((_beyond(contact, axis, at) for axis in other_axes(contact.axis)), Fraction(0))


def _beyond(contact: Contact, axis: Axis, at: Point) -> Fraction:
    low, high, here = contact.region.low(axis).mm, contact.region.high(axis).mm, at.along(axis).mm
    return max(low - here, here - high, Fraction(0))
