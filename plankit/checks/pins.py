"""Shelf pins: holes that miss or come through, rows that are not level, shelves that fall off or do not go in."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from plankit.build import Build
from plankit.build.pins import PIN_USE
from plankit.checks.bores import bores_for, least_mm, line_of, middle_of, to_the_edges
from plankit.checks.clashes import closest, far_apart
from plankit.checks.on_pins import on_pins
from plankit.checks.wood import in_a_cut
from plankit.checks.wording import PRACTICE, a_or_an, fine, gathered, spot
from plankit.finding import Finding
from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Bore,
    Face,
    Groove,
    Notch,
    Part,
    other_axes,
)
from plankit.units import L, Length, Notation

THIN = L("1/2 in")
"""Parts thinner than this hold pins badly (common practice)."""
BEHIND = L("1/16 in")
"""Wood left behind a pin hole (common practice)."""
GEOMETRY = "geometry of the build"


def pins(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about shelf-pin holes and the shelves that lie on pins."""
    found = (
        *(one for part in build.parts for one in _holes(build, part, notation)),
        *_rows(build, notation),
        *_screws(build, notation),
        *on_pins(build, notation),
    )
    return gathered(found)


def _holes(build: Build, part: Part, notation: Notation) -> Iterator[Finding]:
    bores = bores_for(part, PIN_USE)
    cut = any(isinstance(one, Notch | Groove) for one in part.features)
    for bore in bores:
        if cut or not _sound(part, bore):
            yield from _one_hole(build, part, bore, notation)
    if bores and part.thickness.mm < THIN.mm:
        yield Finding(
            "look at",
            "pins in a thin part",
            part.name,
            f"{part.name} is thin for shelf pins.",
            "",
            notation.length(part.thickness),
            PRACTICE,
            f"Use a part of {notation.length(THIN)} or more.",
        )
    yield from _back_to_back(build, part, bores, notation)


def _sound(part: Part, bore: Bore) -> bool:
    """Whether there is wood enough round a hole, told quickly: most holes are as they should be."""
    behind = bore.depth is None or part.box.extent(AXIS_OF[bore.face]).mm - bore.depth.mm >= BEHIND.mm
    return behind and least_mm(part, bore) >= bore.diameter.mm


def _one_hole(build: Build, part: Part, bore: Bore, notation: Notation) -> Iterator[Finding]:
    middle = middle_of(part, bore)
    place = spot(middle, build.box, notation)
    axis = AXIS_OF[bore.face]
    deep = bore.reach(part.box.size)
    bottom = middle.moved(axis, -deep if bore.face == HIGH[axis] else deep)
    face, rim = min(to_the_edges(part, bore), key=lambda one: one[1].mm)
    cut = in_a_cut(part, middle, bottom)
    left = part.box.extent(axis) - deep
    if rim.mm < 0 or cut is not None:
        why = f"into a {cut}" if cut else f"past its {face} edge"
        yield Finding(
            "must fix",
            "pins with nothing behind",
            part.name,
            f"A shelf-pin hole of {part.name} runs {why}.",
            place,
            notation.length(-rim) if rim.mm < 0 else "",
            GEOMETRY,
            "Move the column or the row to where there is wood.",
        )
    elif bore.depth is not None and left.mm <= 0:
        yield Finding(
            "must fix",
            "pins with nothing behind",
            part.name,
            f"A shelf-pin hole comes out on the other side of {part.name}.",
            place,
            notation.exact(deep),
            GEOMETRY,
            f"Bore no deeper than {notation.exact(part.box.extent(axis) - BEHIND)}.",
        )
    elif bore.depth is not None and left.mm < BEHIND.mm:
        yield Finding(
            "look at",
            "little wood behind pins",
            part.name,
            f"A shelf-pin hole almost comes through {part.name}.",
            place,
            fine(left, notation),
            f"{PRACTICE}: leave {notation.exact(BEHIND)}",
            "Bore less deep, with a stop on the drill.",
        )
    elif rim.mm < bore.diameter.mm:
        yield Finding(
            "look at",
            "pins near an edge",
            part.name,
            f"A shelf-pin hole stands near the {face} edge of {part.name}.",
            place,
            fine(rim, notation),
            f"{PRACTICE}: a hole's width from its rim to the edge",
            "Set the column further in.",
        )


def _back_to_back(build: Build, part: Part, bores: tuple[Bore, ...], notation: Notation) -> Iterator[Finding]:
    """Holes bored from both faces of a divider that meet in its middle."""
    axis = part.through
    from_low = {_seen(b, axis): b for b in bores if b.face == LOW[axis]}
    for bore in (b for b in bores if b.face == HIGH[axis]):
        other = from_low.get(_seen(bore, axis))
        if other is None or bore.depth is None or other.depth is None:
            continue
        left = part.box.extent(axis) - bore.depth - other.depth
        if left.mm < 0:
            yield Finding(
                "look at",
                "pin holes meet",
                part.name,
                f"Shelf-pin holes from both faces of {part.name} run into each other.",
                spot(middle_of(part, bore), build.box, notation),
                notation.exact(-left),
                GEOMETRY,
                "Bore less deep, or set one side's columns in further.",
            )


def _seen(bore: Bore, axis: Axis) -> tuple[object, ...]:
    return tuple(bore.at[AXES.index(one)].mm for one in other_axes(axis))


def _rows(build: Build, notation: Notation) -> Iterator[Finding]:
    """Rows of two sides that face each other and are not level."""
    for (one, face), (other, its) in combinations(_faces(build), 2):
        axis = AXIS_OF[face]
        if its != OPPOSITE[face] or not _looks_at(one, face, other):
            continue
        if any(_between(one, face, other, third) for third in build.parts):
            continue
        heights, others = _heights(one, face), _heights(other, its)
        odd = [h for h in heights if h not in others and others and min(others) < h < max(others)]
        odd += [h for h in others if h not in heights and heights and min(heights) < h < max(heights)]
        if odd:
            off = min(abs(h - o) for h in odd for o in (others if h in heights else heights))
            yield Finding(
                "must fix",
                "pin rows not level",
                one.name,
                f"The shelf-pin rows of {one.name} and {other.name} are not level with each other.",
                _WAYS[axis],
                notation.exact(Length.of_mm(off)),
                GEOMETRY,
                "Count the rows of both from one datum: name both sides in one plan.pin_rows(…).",
            )


_WAYS: dict[Axis, str] = {"x": "left and right", "y": "front and back", "z": "bottom and top"}


def _faces(build: Build) -> list[tuple[Part, Face]]:
    return [
        (part, face)
        for part in build.parts
        for face in (LOW[part.through], HIGH[part.through])
        if part.through != "z" and any(bore.face == face for bore in bores_for(part, PIN_USE))
    ]


def _looks_at(one: Part, face: Face, other: Part) -> bool:
    axis = AXIS_OF[face]
    if face == HIGH[axis]:
        before = one.box.high(axis).mm <= other.box.low(axis).mm
    else:
        before = other.box.high(axis).mm <= one.box.low(axis).mm
    common = one.box.common(other.box)
    return before and all(common.extent(across).mm > 0 for across in other_axes(axis))


def _between(one: Part, face: Face, other: Part, third: Part) -> bool:
    """Whether an upright part of the same kind stands between two, so that no shelf spans from one to the other."""
    return (
        third.id not in {one.id, other.id}
        and third.through == one.through
        and _looks_at(one, face, third)
        and _looks_at(third, face, other)
    )


def _heights(part: Part, face: Face) -> list[Fraction]:
    found = {(part.box.bottom + bore.at[2]).mm for bore in bores_for(part, PIN_USE) if bore.face == face}
    return sorted(found)


def _screws(build: Build, notation: Notation) -> Iterator[Finding]:
    """Screws that run into a pin hole other than straight down its middle."""
    for part in build.parts:
        lines = [(line_of(part, bore), float(bore.diameter.mm)) for bore in bores_for(part, PIN_USE)]
        if not lines:
            continue
        for fastener in build.fasteners:
            if part.id not in {fastener.through, fastener.into}:
                continue
            piece, thick = fastener.ends_mm(), float(fastener.spec.diameter.mm)
            for line, wide in lines:
                clear = (wide + thick) / 2
                apart = clear if far_apart(line, piece, clear) else closest(line, piece)
                if 1e-6 < apart < clear:
                    yield Finding(
                        "look at",
                        "screw meets a pin hole",
                        part.name,
                        f"{a_or_an(fastener.spec.name, begins=True)} runs into a shelf-pin hole of {part.name}.",
                        spot(fastener.head, build.box, notation),
                        "",
                        GEOMETRY,
                        "Move the hardware or the rows, or leave that hole out.",
                    )
