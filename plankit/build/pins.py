"""Shelf pins: rows of holes on a stated grid, level on every side, and the pins that carry a shelf."""

from collections.abc import Sequence
from dataclasses import dataclass

from plankit.build.items import Item
from plankit.build.mounting import between, hole, into_face, inwards, point
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Bore, Face, Part, other_axes
from plankit.reference import practice
from plankit.units import L, Length, exactly, told

PIN_USE = "shelf pin"
"""What a pin hole is for; checks know it by this."""
PITCH = practice("system-hole spacing").sizes[0]
"""Holes stand so far apart (hardware.csv: 32 mm)."""
METRIC_PIN = practice("system-hole diameter").sizes[0]
"""The metric pin (hardware.csv: 5 mm)."""
SET_IN = practice("front system row set-back, overlay doors").sizes[0]
"""From the front edge of a side to the front column, and from its back edge to the back one (hardware.csv: 37 mm)."""
DEPTH = L("3/8 in")
"""How deep a pin hole is (common practice)."""
REACHES = L("5/16 in")
"""How far a pin stands out of its hole (common practice)."""
CLEARANCE = L("1/16 in")
"""Room at each end of a shelf that lies on pins (common practice)."""
CHECK = "check against your pins"


@dataclass(frozen=True, slots=True)
class PinRows:
    """A grid of pin holes, the same on every side that carries a shelf.

    heights  the middle of every row, counted in the build, lowest first
    columns  the middle of each column, along the depth
    deep     the axis of the depth: front to back for sides that stand left and right
    pin      across a hole
    depth    how deep each is
    """

    heights: tuple[Length, ...]
    columns: tuple[Length, ...]
    deep: Axis
    pin: Length
    depth: Length


def row_heights(lowest: Length, highest: Length, pitch: Length = PITCH) -> tuple[Length, ...]:
    """Return the heights of rows from the lowest up, a pitch apart, none above the highest.

    raises  PlanError where the highest lies below the lowest
    """
    if highest < lowest or pitch <= Length.zero():
        raise PlanError(
            "there is no room for a row of pin holes.",
            given=f"from {told(lowest)} to {told(highest)}, {told(pitch)} apart",
            remedy="Give the height of the lowest row and one above it.",
        )
    return tuple(lowest + pitch * number for number in range((highest - lowest) // pitch + 1))


def pin_holes(side: Part, face: Face, rows: PinRows) -> tuple[Bore, ...]:
    """Return the pin holes in one face of a side, column by column, from the bottom up."""
    axis, plane = AXIS_OF[face], side.box.face(face)
    spots = [
        point({axis: plane, rows.deep: column, "z": height})
        for column in rows.columns
        for height in rows.heights
    ]
    return tuple(hole(side, face, spot, rows.pin, rows.depth, PIN_USE) for spot in spots)


def facing(sides: Sequence[Part]) -> tuple[tuple[Part, Face], ...]:
    """Return which face of each side looks at another: the outer ones look inwards, those between look both ways.

    raises  PlanError for fewer than two sides, or sides that do not stand in one line
    """
    if len(sides) < 2:
        raise PlanError(
            "pin holes go in two sides or more that face each other.",
            given=", ".join(one.name for one in sides) or "none",
            remedy="For instance  plan.pin_rows([left, right], …)",
        )
    axis = sides[0].through
    if axis == "z" or any(one.through != axis for one in sides):
        raise PlanError(
            "the sides that carry a shelf stand upright and face each other.",
            where=sides[0].name,
            given=", ".join(one.name for one in sides),
            remedy="Name sides and dividers that stand parallel.",
        )
    ordered = sorted(sides, key=lambda one: one.box.low(axis).mm)
    found: list[tuple[Part, Face]] = []
    for number, one in enumerate(ordered):
        found += [(one, LOW[axis])] if number > 0 else []
        found += [(one, HIGH[axis])] if number < len(ordered) - 1 else []
    return tuple(found)


def deep_axis(side: Part) -> Axis:
    """Return the axis of a side's depth: level, and across its thickness."""
    (axis,) = (axis for axis in other_axes(side.through) if axis != "z")
    return axis


def shelf_pins(
    shelf: Part, sides: Sequence[tuple[Part, Face]], rows: PinRows, height: Length
) -> tuple[Item, ...]:
    """Return the pins that carry a shelf at one row: one in every column of each side it ends at."""
    return tuple(
        _pin(shelf, side, face, rows, column, height) for side, face in sides for column in rows.columns
    )


def _pin(  # noqa: PLR0917 - a shelf, a side, and where on it
    shelf: Part, side: Part, face: Face, rows: PinRows, column: Length, height: Length
) -> Item:
    axis, half = AXIS_OF[face], rows.pin.portion(2)
    wall = into_face(side, face, Length.zero())
    room = between(
        {
            axis: (wall, wall + inwards(OPPOSITE[face], REACHES)),
            rows.deep: (column - half, column + half),
            "z": (height - half, height + half),
        }
    )
    return Item(
        f"{exactly(rows.pin, 'mm' if rows.pin == METRIC_PIN else 'in')} shelf pin",
        "shelf pin",
        (side.id, shelf.id),
        room,
        compare=f"{CHECK}: holes {exactly(rows.depth)} deep",
        source="common practice",
    )
