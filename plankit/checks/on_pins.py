"""Shelves that lie on pins: each pin in its hole, each shelf long enough to lie on it and short enough to go in."""

from collections.abc import Iterator

from plankit.build import Build, Item
from plankit.build.pins import CLEARANCE, PIN_USE
from plankit.checks.bores import bores_for, middle_of
from plankit.checks.wording import PRACTICE, fine, spot
from plankit.finding import Finding, Level
from plankit.parts import Axis, Part, other_axes
from plankit.units import L, Length, Notation

BEARS = L("1/8 in")
"""Least length of a pin that must lie under a shelf (common practice)."""
ROOM = L("1/32 in")
"""Least room at each end of a shelf that is lifted in (common practice)."""
GEOMETRY = "geometry of the build"


def on_pins(build: Build, notation: Notation) -> Iterator[Finding]:
    """Yield every finding about pins and the shelves that lie on them."""
    yield from _pins(build, notation)
    yield from _shelves(build, notation)


def _on_pins(build: Build) -> dict[str, list[Item]]:
    """The pins under each shelf, by its id."""
    found: dict[str, list[Item]] = {}
    for item in build.items:
        if item.kind == "shelf pin" and len(item.on) == 2:
            found.setdefault(item.on[1], []).append(item)
    return found


def _pins(build: Build, notation: Notation) -> Iterator[Finding]:
    """Pins without a hole, or whose shelf does not lie on them."""
    parts = {part.id: part for part in build.parts}
    for shelf_id, its in _on_pins(build).items():
        for item in its:
            side, shelf = parts[item.on[0]], parts[shelf_id]
            place = spot(item.box.corner, build.box, notation)
            if not _has_hole(side, item):
                yield Finding(
                    "must fix",
                    "pins with nothing behind",
                    side.name,
                    f"A pin that carries {shelf.name} has no hole in {side.name} behind it.",
                    place,
                    "",
                    GEOMETRY,
                    "Put the shelf at a height of the rows, and let the rows name this side.",
                )
            bears = _bearing(shelf, item, side.through)
            if bears.mm < BEARS.mm:
                yield Finding(
                    "must fix",
                    "shelf falls off its pins",
                    shelf.name,
                    f"{shelf.name} does not lie on its pins at {side.name}.",
                    place,
                    fine(bears, notation),
                    f"{PRACTICE}: {notation.exact(BEARS)} of each pin under the shelf",
                    _back_on(shelf, item, side.through),
                )


def _back_on(shelf: Part, item: Item, axis: Axis) -> str:
    """What brings a shelf back on a pin, by the direction in which it misses it."""
    (deep,) = (one for one in other_axes(axis) if one != "z")
    if shelf.box.bottom.mm != item.box.top.mm:
        return "Put the shelf at the height of a row: let plan.adjustable_shelf(…, row=…) make it."
    if shelf.box.common(item.box).extent(deep).mm > 0:
        return "Make the shelf longer, or use pins that stand out further."
    behind = item.box.middle(deep).mm > shelf.box.middle(deep).mm
    edge, other = ("back", "set_in_back") if behind else ("front", "set_in")
    where = f"{'behind' if behind else 'before'} the shelf's {edge} edge"
    return f"The pin stands {where}: make the shelf deeper there, or set that column further in ({other}=…)."


def _has_hole(side: Part, item: Item) -> bool:
    across = other_axes(side.through)
    return any(
        all(middle_of(side, bore).along(axis).mm == item.box.middle(axis).mm for axis in across)
        and side.box.face(bore.face).mm in {item.box.low(side.through).mm, item.box.high(side.through).mm}
        for bore in bores_for(side, PIN_USE)
    )


def _bearing(shelf: Part, item: Item, axis: Axis) -> Length:
    """How much of a pin lies under a shelf; nothing where the shelf floats over it or misses it."""
    common = shelf.box.common(item.box)
    (deep,) = (one for one in other_axes(axis) if one != "z")
    if shelf.box.bottom.mm != item.box.top.mm or common.extent(deep).mm <= 0:
        return Length.zero()
    return common.extent(axis) if common.extent(axis).mm > 0 else Length.zero()


def _shelves(build: Build, notation: Notation) -> Iterator[Finding]:
    """Shelves on pins that are as long as their space, or longer, or that tip off."""
    parts = {part.id: part for part in build.parts}
    for shelf_id, its in _on_pins(build).items():
        shelf, axis = parts[shelf_id], parts[its[0].on[0]].through
        middle = shelf.box.middle(axis).mm
        rooms: dict[str, Length] = {}
        for side in dict.fromkeys(item.on[0] for item in its):
            box = parts[side].box
            rooms[side] = (
                shelf.box.low(axis) - box.high(axis)
                if box.middle(axis).mm < middle
                else box.low(axis) - shelf.box.high(axis)
            )
        none = sum(room.mm for room in rooms.values()) <= 0
        for side, left in rooms.items():
            if left.mm < ROOM.mm:
                yield _too_long(shelf, parts[side], left, none=none, notation=notation)
        (deep,) = (one for one in other_axes(axis) if one != "z")
        places = [item.box.middle(deep).mm for item in its]
        if not min(places) < shelf.box.middle(deep).mm < max(places):
            yield Finding(
                "must fix",
                "shelf tips off its pins",
                shelf.name,
                f"All pins of {shelf.name} stand on one side of its middle.",
                "",
                "",
                "statics",
                "Let one column stand in front of its middle and one behind.",
            )


def _too_long(shelf: Part, side: Part, left: Length, *, none: bool, notation: Notation) -> Finding:
    """A shelf too long to be lifted in: certainly so where it has no room at both its ends together.

    One that is measured on the piece is cut with some room, so that its size here is no proof.
    """
    level: Level = "must fix" if (none or left.mm < 0) and not shelf.fit_to else "look at"
    what = f"{shelf.name} leaves hardly any room at {side.name}, so that it cannot be lifted in."
    if none:
        what = f"{shelf.name} is as long as its space, without any room at {side.name}: it cannot be lifted in."
    if left.mm < 0:
        what = f"{shelf.name} is too long for its space: it runs into {side.name}."
    return Finding(
        level,
        "shelf too long",
        shelf.name,
        what,
        f"against {side.name}",
        fine(abs(left), notation),
        f"{PRACTICE}: {notation.length(CLEARANCE)} at each end",
        "Make it shorter.",
    )
