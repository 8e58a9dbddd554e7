"""Hinges: cups that break out, arms that meet something, doors that hang on too few."""

from collections.abc import Iterator

from plankit.build import Build, Item
from plankit.build.hanging import carried_by, hanging, hinge_count, leaf_hanging
from plankit.build.hinges import CUP_USE
from plankit.build.items import Leaves
from plankit.checks.bores import bores_for, line_of, middle_of, to_the_edges
from plankit.checks.clashes import closest, far_apart
from plankit.checks.wording import PRACTICE, a_or_an, gathered, spot
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.parts import AXIS_OF, Bore, Part, weight
from plankit.stock import Sheet
from plankit.units import L, Length, Notation, decimal, exactly

UNDER_A_CUP = L("2 mm")
"""Wood left under a cup (common practice)."""
TAB_LEAST, TAB_MOST = L("3 mm"), L("7 mm")
"""From a cup's rim to the door's edge (hardware.csv)."""
NOTICED = L("1/64 in")
"""Gaps that differ by more from what is drawn are told (common practice)."""
TABS = "common practice: 3 to 7 mm from a cup's rim to the door's edge"


def hinges(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about cups, about screws that meet them, and about how many hinges a door has."""
    return (
        *gathered(_cups(build, notation)),
        *gathered(_screws_in_cups(build, notation)),
        *too_few(build, notation),
        *gathered(_in_edges(build, notation)),
        *gathered(_in_the_gap(build, notation.unit)),
    )


def _in_the_gap(build: Build, unit: str) -> Iterator[Finding]:
    """Plain leaves in a gap that is too narrow for them, or another than they leave."""
    for item in build.items:
        if item.leaves is None:
            continue
        door, on = (build.part(one) for one in item.on)
        try:
            gap = -leaf_hanging(door, on).cover
        except PlanError:
            continue  # it has been moved away from what it hangs on: the check of joints tells
        if item.leaves.gap.mm < 0:
            yield _sunk(door, on, item.leaves, unit)
        elif gap.mm < item.leaves.least_gap.mm:
            yield _binds(door, on, item.leaves, gap, unit)
        elif _leaves_another(item.leaves, gap):
            yield _other_gap(door, on, item.leaves, gap, unit)


def _leaves_another(leaves: Leaves, gap: Length) -> bool:
    """Whether hinges leave another gap than is drawn: leaves that lie on the faces close between leaf and knuckle."""
    more = gap.mm - leaves.gap.mm
    return abs(more) > NOTICED.mm if leaves.let_in else more > NOTICED.mm


def _binds(door: Part, on: Part, leaves: Leaves, gap: Length, unit: str) -> Finding:
    takes = leaves.least_gap
    into = " beyond their recesses" if leaves.let_in else ""
    return Finding(
        "must fix",
        "gap narrower than its hinges",
        door.name,
        f"The leaves of its hinges take {exactly(takes, unit)}{into}, and {door.name} stands "
        f"{exactly(gap, unit)} beside {on.name}: it does not shut.",
        f"beside {on.name}",
        exactly(gap, unit),
        "geometry of the build: two leaves, one on the other",
        f'Leave {exactly(takes, unit)}, or let the hinges in: recess="gap".',
    )


def _sunk(door: Part, on: Part, leaves: Leaves, unit: str) -> Finding:
    deep = leaves.in_door + leaves.in_on
    return Finding(
        "must fix",
        "hinges leave no gap",
        door.name,
        f"Its hinges are let in {exactly(deep, unit)} and are {exactly(leaves.shut, unit)} thick when shut: "
        f"{door.name} would have to shut {exactly(-leaves.gap, unit)} inside {on.name}.",
        f"beside {on.name}",
        exactly(-leaves.gap, unit),
        "geometry of the build: what a hinge leaves is its thickness shut, less both recesses",
        'Let them in less deep: recess="gap" works it out; or give the thickness of yours: shut=….',
    )


def _other_gap(door: Part, on: Part, leaves: Leaves, gap: Length, unit: str) -> Finding:
    left = leaves.gap
    how = f"hinges let in so deep leave {exactly(left, unit)}" if leaves.let_in else "its hinges are thinner"
    if not leaves.let_in:
        do = "Pack them out, or make the gap as narrow as they leave it"
    else:
        deep = "deeper" if left.mm > gap.mm else "less deep"
        do = f'Let them in {deep}: recess="gap" works it out'
    return Finding(
        "look at",
        "hinges leave another gap",
        door.name,
        f"{door.name} stands {exactly(gap, unit)} beside {on.name}, and {how}.",
        f"beside {on.name}",
        exactly(abs(left - gap), unit),
        f"{PRACTICE}: a hinge shut is as thick as its knuckle; measure yours",
        f"{do}; or give the thickness of yours: shut=….",
    )


def _in_edges(build: Build, notation: Notation) -> Iterator[Finding]:
    """Hinge screws that hold between the layers of a sheet, in its edge."""
    for item in build.items:
        for fastener in item.fasteners if item.kind == "hinge" else ():
            part = build.part(fastener.into)
            if isinstance(part.stock, Sheet) and AXIS_OF[fastener.heading] != part.through:
                yield Finding(
                    "for information",
                    "hinge screws in an edge",
                    part.name,
                    f"Screws of {a_or_an(item.name.partition(',')[0])} go into an edge of {part.name}, "
                    "where they hold between its layers and less than in its face.",
                    source=PRACTICE,
                    number=notation.length(part.thickness),
                    remedy="Bore lead holes and use the longest screws the leaf takes, or let solid wood in there.",
                )


def _cups(build: Build, notation: Notation) -> Iterator[Finding]:
    for part in build.parts:
        for cup in bores_for(part, CUP_USE):
            place = spot(middle_of(part, cup), build.box, notation)
            yield from _under(part, cup, place)
            yield from _beside(part, cup, place)


def _mm(length: Length) -> str:
    """Sizes of cup hinges are named in millimetres everywhere."""
    return f"{decimal(length.mm, 2)}\u00a0mm"


def _under(part: Part, cup: Bore, place: str) -> Iterator[Finding]:
    left = part.box.extent(AXIS_OF[cup.face]) - cup.reach(part.box.size)
    if left.mm >= UNDER_A_CUP.mm:
        return
    deepest = part.box.extent(AXIS_OF[cup.face]) - UNDER_A_CUP
    through = left.mm <= 0
    yield Finding(
        "must fix",
        "hinge cup breaks through",
        part.name,
        f"A hinge cup goes right through {part.name}."
        if through
        else f"A hinge cup leaves too little wood in {part.name}.",
        place,
        _mm(left),
        f"{PRACTICE}: leave {_mm(UNDER_A_CUP)}",
        f"Use a hinge with a cup no deeper than {_mm(deepest)}, or a thicker door.",
    )


def _beside(part: Part, cup: Bore, place: str) -> Iterator[Finding]:
    face, left = min(to_the_edges(part, cup), key=lambda one: one[1].mm)
    if left.mm < 0:
        yield Finding(
            "must fix",
            "hinge cup breaks out",
            part.name,
            f"A hinge cup breaks out of the {face} edge of {part.name}.",
            place,
            _mm(-left),
            "geometry of the build",
            f"Keep its rim {_mm(TAB_LEAST)} or more from the edge.",
        )
    elif not TAB_LEAST.mm <= left.mm <= TAB_MOST.mm:
        near = left.mm < TAB_LEAST.mm
        yield Finding(
            "look at",
            "hinge cup near an edge" if near else "hinge cup far from an edge",
            part.name,
            f"A hinge cup stands {'nearer to' if near else 'farther from'} the {face} edge of {part.name} "
            "than hinges are made for.",
            place,
            _mm(left),
            TABS,
            "Compare with your hinge, or move the cup.",
        )


def _screws_in_cups(build: Build, notation: Notation) -> Iterator[Finding]:
    for part in build.parts:
        for cup in bores_for(part, CUP_USE):
            line, radius = line_of(part, cup), cup.diameter.mm / 2
            for fastener in build.fasteners:
                if part.id not in {fastener.through, fastener.into}:
                    continue
                clear = float(radius + fastener.spec.diameter.mm / 2)
                piece = fastener.ends_mm()
                if not far_apart(line, piece, clear) and closest(line, piece) < clear:
                    yield Finding(
                        "must fix",
                        "hinge meets a screw",
                        part.name,
                        f"{a_or_an(fastener.spec.name, begins=True)} runs into the bore of a hinge cup in {part.name}.",
                        spot(fastener.head, build.box, notation),
                        "",
                        "geometry of the build",
                        "Move the hinge or the screw along the edge.",
                    )


def too_few(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every door that hangs on fewer hinges than its height and weight ask for."""
    parts = {part.id: part for part in build.parts}
    hung: dict[tuple[str, ...], list[Item]] = {}
    for item in build.items:
        if item.kind == "hinge" and len(item.on) == 2 and not item.name.startswith("piano"):
            hung.setdefault(item.on, []).append(item)
    found = []
    for (door_id, on_id), its in hung.items():
        door, on = parts[door_id], parts[on_id]
        try:
            along = hanging(door, on).along
        except PlanError:
            continue  # it has been moved away from what it hangs on: the check of joints tells
        wanted = hinge_count(door, along)
        if len(its) < wanted:
            found.append(_too_few(door, len(its), wanted, door.box.extent(along), notation))
    return gathered(found)


def _too_few(door: Part, has: int, wanted: int, tall: Length, notation: Notation) -> Finding:
    heavy, most = weight(door), carried_by(has)
    by_weight = heavy.kg > most.kg
    return Finding(
        "must fix" if has < 2 else "look at",
        "too few hinges",
        door.name,
        f"{door.name} hangs on {notation.count(has, 'hinge')}, and a door so {'heavy' if by_weight else 'high'} "
        f"takes {wanted}.",
        "",
        notation.mass(heavy) if by_weight else notation.length(tall),
        "common practice for furniture doors up to 24 in wide, of 19 mm particleboard",
        f"Ask for count={wanted}, or follow the chart of your hinge's maker.",
    )
