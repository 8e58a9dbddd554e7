"""Hardware: what meets it, whether it stands level, whether its holes come through, and hinges and pins."""

from collections.abc import Iterator
from itertools import combinations
from typing import get_args

from plankit.build import Build, Item, ItemKind
from plankit.build.fittings import BOLT_USE, STEM_USE
from plankit.build.hinges import CUP_SCREW_USE, CUP_USE
from plankit.build.mounting import LEAD_HOLE
from plankit.build.pins import PIN_USE
from plankit.checks.bores import behind, middle_of, to_the_edges, where_it_stands
from plankit.checks.hinges import hinges
from plankit.checks.hung import hung
from plankit.checks.pins import pins
from plankit.checks.room_of import Shared, run_together, runs_into
from plankit.checks.wording import PRACTICE, a_or_an, gathered, side, spot
from plankit.finding import Finding
from plankit.parts import OPPOSITE, Axis, Bore, Box, Part, Point
from plankit.units import L, Length, Notation

GEOMETRY = "geometry of the build"
ROUND_A_HOLE = L("3/8 in")
"""Wood between the rim of an insert's hole and an edge (common practice)."""
BESIDE_A_HOLE = L("1/8 in")
"""The same for any other hole (common practice)."""
_LOOKED_AT_ELSEWHERE = (PIN_USE, CUP_USE, CUP_SCREW_USE, LEAD_HOLE, "clearance hole", "dowel")
"""How the uses of holes begin that other checks look at: those of pins, hinges, screws and dowels."""
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
    leans = {part.id: part.leans for part in build.parts}
    for item in build.items:
        for part in build.parts:
            shared = runs_into(item.box, part, leans[item.on[0]]) if part.id not in item.on else None
            if shared is not None:
                yield _meets(build, item, part.name, shared, notation)
    for one, other in combinations(sorted(build.items, key=lambda item: _FIRST.index(item.kind)), 2):
        shared = run_together((one.box, leans[one.on[0]]), (other.box, leans[other.on[0]]))
        if shared is not None:
            yield _meets(build, one, a_or_an(_called(other)), shared, notation)


def _meets(build: Build, item: Item, other: str, shared: Shared, notation: Notation) -> Finding:
    axis, deep = shared
    host = build.part(item.on[0])
    return Finding(
        "must fix",
        f"{item.kind} meets something" if item.kind != "other" else "hardware meets something",
        host.name,
        f"{a_or_an(_called(item), begins=True)} on {host.name} meets {other}.",
        f"{spot(where_it_stands(_middle(item.box), host.leans), build.box, notation)}; {_WAY[axis]}",
        notation.length(deep),
        GEOMETRY,
        "Move one of them; compare the room it takes with the hardware you have.",
    )


def _called(item: Item) -> str:
    return item.name.partition(",")[0]


def _middle(box: Box) -> Point:
    return Point(box.middle("x"), box.middle("y"), box.middle("z"))


def _holes(build: Build, notation: Notation) -> Iterator[Finding]:
    """Holes for inserts and pulls, and an author's own, that come through, or break out; in the part's own axes."""
    for part in build.parts:
        for bore in part.features:
            if isinstance(bore, Bore) and not bore.use.startswith(_LOOKED_AT_ELSEWHERE):
                yield from _hole(build, part, bore, notation)


def _hole(build: Build, part: Part, bore: Bore, notation: Notation) -> Iterator[Finding]:
    place = spot(where_it_stands(middle_of(part, bore), part.leans), build.box, notation)
    left = behind(part, bore)
    face, rim = min(to_the_edges(part, bore), key=lambda one: one[1].mm)
    hardware_s = bore.use in {STEM_USE, BOLT_USE}
    called = f"hole for {a_or_an(bore.use)}" if hardware_s else f"hole{f' ({bore.use})' if bore.use else ''}"
    least = ROUND_A_HOLE if bore.use == STEM_USE else BESIDE_A_HOLE
    if rim.mm < 0:
        yield Finding(
            "must fix" if hardware_s else "look at",
            "hole breaks out",
            part.name,
            f"The {called} breaks out of the {face} of {part.name}.",
            place,
            notation.length(-rim),
            GEOMETRY,
            "Move it inwards." if hardware_s else "Move it inwards, unless it is meant to be open there.",
        )
    elif rim.mm < least.mm and bore.use != BOLT_USE:
        yield Finding(
            "look at",
            "hole near an edge",
            part.name,
            f"The {called} stands near the {face} of {part.name}, and may split it.",
            place,
            notation.length(rim),
            f"{PRACTICE}: {notation.length(least)}",
            "Move it inwards.",
        )
    if bore.depth is not None and left.mm <= 0:
        yield _through(part, bore, called, place, notation)


def _through(part: Part, bore: Bore, called: str, place: str, notation: Notation) -> Finding:
    far = OPPOSITE[bore.face]
    remedy = "Bore less deep."
    if bore.use == STEM_USE:
        remedy = "Bore less deep and use a shorter thread, or put a block of wood over it."
    where = "on top" if far == "top" else f"of {side(far)}"
    return Finding(
        "must fix",
        "hole comes through",
        part.name,
        f"The {called} comes out {where} of {part.name}.",
        place,
        notation.length(bore.reach(part.box.size)),
        GEOMETRY,
        remedy,
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
