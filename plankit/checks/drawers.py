"""Drawers: slides that are longer than what they go in, and boxes too wide or too narrow for their slides."""

from collections.abc import Iterator

from plankit.build import Build, Item, Moving
from plankit.build.drawers import SLIDE_STEP, room_behind
from plankit.checks.wording import PRACTICE, gathered
from plankit.finding import Finding
from plankit.parts import AXES, AXIS_OF, Axis, Face, Part
from plankit.units import L, Length, Notation, largest, smallest

PLAY = L("1 mm")
"""A box may be so much narrower than its slides ask for, and no wider (common practice: +0/−1 mm)."""
LEAST_SCREWS = 2
"""A slide turns about a single screw: so many at least in each part (common practice)."""
GEOMETRY = "geometry of the build"
_CLEARANCE = f"{PRACTICE}: what side-mounted slides take, +0/−1 mm; compare the sheet of yours"


def drawers(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about drawers and their slides; what a drawer runs into is told by the swing check."""
    return gathered(_all(build, notation))


def _all(build: Build, notation: Notation) -> Iterator[Finding]:
    beside: dict[str, list[tuple[Item, Length]]] = {}
    for item in build.items:
        if item.kind != "slide" or len(item.on) != 2:
            continue
        moving = next((one for one in build.moving if item.on[0] in one.parts), None)
        out = moving.slides[0] if moving is not None and moving.slides is not None else _out_of(item)
        yield from _too_long(build, item, moving, out, notation)
        yield from _nothing_behind(build, item, out, notation)
        name = moving.name if moving is not None else build.part(item.on[0]).name
        beside.setdefault(name, []).append((item, _gap(build, item)))
    for name, found in beside.items():
        yield from _too_wide(name, found, notation)


def _out_of(item: Item) -> Face:
    """The way a slide comes out where nobody says: to the front, or to the left where it lies across."""
    return "front" if item.box.extent("y").mm >= item.box.extent("x").mm else "left"


def _too_long(
    build: Build, item: Item, moving: Moving | None, out: Face, notation: Notation
) -> Iterator[Finding]:
    side, case = (build.part(one) for one in item.on)
    own = set(moving.parts) if moving is not None else {side.id}
    others = [part for part in build.parts if part.id not in own]
    length, room = item.box.extent(AXIS_OF[out]), room_behind(item.box.face(out), item.box, (case,), others, out)
    if length.mm > room.mm:
        fits = SLIDE_STEP * int(room.mm // SLIDE_STEP.mm)
        yield Finding(
            "must fix",
            "slide longer than the case",
            moving.name if moving is not None else side.name,
            f"Its slides are {notation.length(length)} long, and the case has {notation.length(room)} for them.",
            f"beside {case.name}",
            notation.length(length - room),
            GEOMETRY,
            f"Use slides of {notation.length(fits)} at most, or make the case deeper.",
        )
    elif length.mm > side.box.extent(AXIS_OF[out]).mm:
        yield Finding(
            "look at",
            "slide longer than the drawer",
            side.name,
            f"Its slide is {notation.length(length)} long, longer than the drawer's side.",
            f"beside {case.name}",
            notation.length(length - side.box.extent(AXIS_OF[out])),
            PRACTICE,
            "Make the drawer as deep as its slides are long, or use shorter ones.",
        )


def _nothing_behind(build: Build, item: Item, out: Face, notation: Notation) -> Iterator[Finding]:
    """What a slide is screwed to and does not lie against: a stile before it, a rail over it."""
    side = build.part(item.on[0])
    for part in (build.part(one) for one in item.on):
        along = AXIS_OF[out]
        lies = smallest(part.box.high(along), item.box.high(along)) - largest(
            part.box.low(along), item.box.low(along)
        )
        middle = item.box.middle("z")
        beside = part.box.bottom < middle < part.box.top
        if beside and sum(one.through == part.id for one in item.fasteners) >= LEAST_SCREWS:
            continue
        yield Finding(
            "must fix",
            "slide has nothing behind it",
            side.name,
            f"Its slide is to be screwed to {part.name}, which does not lie behind "
            f"{'it' if lies.mm <= 0 or not beside else 'enough of it'}: screws that miss are left out.",
            f"beside {part.name}",
            f"{notation.length(lies if lies.mm > 0 and beside else Length.zero())} of "
            f"{notation.length(item.box.extent(along))}",
            GEOMETRY,
            "Let the slides run on the case's sides, packed out flush with the frame: make the packing with "
            "plan.board(…) and name it in between=. Or use shorter slides.",
        )


def _across(item: Item, side: Part) -> Axis:
    """The axis from the drawer's side to the case: the one its slide is thin along."""
    level: tuple[Axis, ...] = ("x", "y")
    return side.through if side.through in level else min(level, key=lambda axis: item.box.extent(axis).mm)


def _gap(build: Build, item: Item) -> Length:
    """How much more room there is beside a drawer than its slide takes; below nothing, too little."""
    side, case = (build.part(one) for one in item.on)
    axis = _across(item, side)
    low, high = sorted((side.box, case.box), key=lambda box: box.middle(axis).mm)
    return high.low(axis) - low.high(axis) - item.box.extent(axis)


def _too_wide(name: str, found: list[tuple[Item, Length]], notation: Notation) -> Iterator[Finding]:
    """The two sides together: a drawer that stands a little to one side is moved by its slides."""
    more = sum((gap for _, gap in found), Length.zero())
    takes = sum((item.box.extent(_thin(item)) for item, _ in found), Length.zero())
    if more.mm < 0:
        yield Finding(
            "must fix",
            "box too wide for its slides",
            name,
            f"Its box leaves {notation.length(takes + more)} for slides that take {notation.length(takes)} together.",
            "",
            notation.length(-more),
            _CLEARANCE,
            f"Make its box {notation.length(-more)} narrower.",
        )
    elif more.mm > PLAY.mm:
        yield Finding(
            "look at",
            "box too narrow for its slides",
            name,
            f"Its box leaves {notation.length(takes + more)} for slides that take {notation.length(takes)} together.",
            "",
            notation.length(more),
            _CLEARANCE,
            f"Make its box {notation.length(more)} wider, or pack the slides out with strips.",
        )


def _thin(item: Item) -> Axis:
    return min(AXES, key=lambda axis: item.box.extent(axis).mm)
