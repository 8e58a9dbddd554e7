"""Hardware: what meets it, whether it stands level, whether its holes come through, and hinges and pins."""

from collections.abc import Iterator
from itertools import combinations
from typing import get_args

from plankit.build import Build, Item, ItemKind
from plankit.build.fittings import BOLT_USE, STEM_USE
from plankit.checks.bores import middle_of, to_the_edges
from plankit.checks.hinges import hinges
from plankit.checks.hung import hung
from plankit.checks.pins import pins
from plankit.checks.room_of import Shared, runs_into, shared_by
from plankit.checks.wording import PRACTICE, a_or_an, gathered, spot
from plankit.finding import Finding
from plankit.parts import AXIS_OF, Axis, Bore, Box, Part, Point
from plankit.units import L, Length, Notation

GEOMETRY = "geometry of the build"
ROUND_A_HOLE = L("3/8 in")
"""Wood between the rim of an insert's hole and an edge (common practice)."""
_FIRST: tuple[ItemKind, ...] = get_args(ItemKind.__value__)
"""Of two pieces of hardware that meet, the kind that comes first here is named first, whichever is told first."""
_LEVEL: tuple[Axis, ...] = ("x", "y")
_WAY: dict[Axis, str] = {"x": "left to right", "y": "front to back", "z": "up and down"}


def hardware(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about the hardware of a build."""
    if not build.items and not any(isinstance(one, Bore) for part in build.parts for one in part.features):
        return ()
    return (
        *gathered(_in_the_way(build, notation)),
        *gathered(_holes(build, notation)),
        *gathered(_stands(build, notation)),
        *hinges(build, notation),
        *hung(build, notation),
        *pins(build, notation),
    )


def _in_the_way(build: Build, notation: Notation) -> Iterator[Finding]:
    """Hardware that runs into a part it is not fixed to, or into other hardware."""
    for item in build.items:
        for part in build.parts:
            shared = runs_into(item.box, part) if part.id not in item.on else None
            if shared is not None:
                yield _meets(build, item, part.name, shared, notation)
    for one, other in combinations(sorted(build.items, key=lambda item: _FIRST.index(item.kind)), 2):
        shared = shared_by(one.box, other.box)
        if shared is not None:
            yield _meets(build, one, a_or_an(_called(other)), shared, notation)


def _meets(build: Build, item: Item, other: str, shared: Shared, notation: Notation) -> Finding:
    axis, deep = shared
    host = next(part.name for part in build.parts if part.id == item.on[0])
    return Finding(
        "must fix",
        f"{item.kind} meets something" if item.kind != "other" else "hardware meets something",
        host,
        f"{a_or_an(_called(item), begins=True)} on {host} meets {other}.",
        f"{spot(_middle(item.box), build.box, notation)}; {_WAY[axis]}",
        notation.length(deep),
        GEOMETRY,
        "Move one of them; compare the room it takes with the hardware you have.",
    )


def _called(item: Item) -> str:
    return item.name.partition(",")[0]


def _middle(box: Box) -> Point:
    return Point(box.middle("x"), box.middle("y"), box.middle("z"))


def _holes(build: Build, notation: Notation) -> Iterator[Finding]:
    """Holes for inserts and pulls that come through, or break out."""
    for part in build.parts:
        for bore in part.features:
            if isinstance(bore, Bore) and bore.use in {STEM_USE, BOLT_USE}:
                yield from _hole(build, part, bore, notation)


def _hole(build: Build, part: Part, bore: Bore, notation: Notation) -> Iterator[Finding]:
    place = spot(middle_of(part, bore), build.box, notation)
    left = part.box.extent(AXIS_OF[bore.face]) - bore.reach(part.box.size)
    face, rim = min(to_the_edges(part, bore), key=lambda one: one[1].mm)
    if rim.mm < 0:
        yield Finding(
            "must fix",
            "hole breaks out",
            part.name,
            f"The hole for {a_or_an(bore.use)} breaks out of the {face} of {part.name}.",
            place,
            notation.length(-rim),
            GEOMETRY,
            "Move it inwards.",
        )
    elif bore.use == STEM_USE and rim.mm < ROUND_A_HOLE.mm:
        yield Finding(
            "look at",
            "hole near an edge",
            part.name,
            f"The hole for {a_or_an(bore.use)} stands near the {face} of {part.name}, and may split it.",
            place,
            notation.length(rim),
            f"{PRACTICE}: {notation.length(ROUND_A_HOLE)}",
            "Move it inwards.",
        )
    if bore.use == STEM_USE and left.mm <= 0:
        yield Finding(
            "must fix",
            "hole comes through",
            part.name,
            f"The hole for {a_or_an(bore.use)} comes out on top of {part.name}.",
            place,
            notation.length(bore.reach(part.box.size)),
            GEOMETRY,
            "Bore less deep and use a shorter thread, or put a block of wood over it.",
        )


def _stands(build: Build, notation: Notation) -> Iterator[Finding]:
    """Casters and feet that end at different heights, or above the lowest part."""
    standing = [item for item in build.items if item.kind in {"caster", "levelling foot"}]
    if not standing:
        return
    lows = sorted({item.box.bottom.mm for item in standing})
    if len(lows) > 1:
        yield Finding(
            "must fix",
            "does not stand level",
            "",
            "Its casters and feet end at different heights.",
            "",
            notation.length(Length.of_mm(lows[-1] - lows[0])),
            GEOMETRY,
            "Give them the same height, or fix them to parts that end at the same height.",
        )
    lowest = min(build.parts, key=lambda part: (part.box.bottom.mm, part.id))
    if lowest.box.bottom.mm < lows[0]:
        yield Finding(
            "must fix",
            "does not stand on its feet",
            lowest.name,
            f"{lowest.name} reaches lower than the casters or feet.",
            "",
            notation.length(Length.of_mm(lows[0] - lowest.box.bottom.mm)),
            GEOMETRY,
            "Use higher ones, or end that part higher.",
        )
    yield from _past_the_edge(build, standing, notation)


def _past_the_edge(build: Build, standing: list[Item], notation: Notation) -> Iterator[Finding]:
    parts = {part.id: part for part in build.parts}
    whole = build.box
    for item in standing:
        host = parts[item.on[0]]
        room = (
            max((whole.low(axis) - item.box.low(axis)).mm, (item.box.high(axis) - whole.high(axis)).mm)
            for axis in _LEVEL
        )
        out = max(room)
        if out > 0:
            yield Finding(
                "look at",
                f"{item.kind} stands out",
                host.name,
                f"{a_or_an(_called(item), begins=True)} under {host.name} reaches past the outside of the piece.",
                spot(_middle(item.box), whole, notation),
                notation.length(Length.of_mm(out)),
                PRACTICE,
                "Set it in further, so that nobody trips over it.",
            )
