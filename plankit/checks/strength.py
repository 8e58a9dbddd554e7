"""How far tops, shelves and seats bend under what lies or sits on them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import isqrt

from plankit.build import Build
from plankit.checks.spans import Carried, Overhang, Span, bare_spans, carried
from plankit.checks.weakened import weakened
from plankit.checks.wording import gathered, told_apart
from plankit.finding import Finding
from plankit.parts import AXIS_OF, Part
from plankit.stock import Lumber
from plankit.units import MM_IN, L, Length, Mass, Notation, decimal

LIMIT = Fraction(1, 144)
"""The most a loaded shelf may bend, as a share of its span (AWS 2009 section 10, 1.2.21.3)."""
SHELF_PSF = Fraction(40)
"""Load on shelves other than book shelves (AWS 2009 1.2.21.2.2)."""
MOST_ON_A_SHELF = Mass.of_pounds(200)
"""The most on any one shelf under those rules (AWS 2009 1.2.21.2)."""
PERSON = Mass.of_pounds(250)
"""Somebody who sits or stands on a piece (common practice)."""
STRIP = L("12 in")
"""How much of a part's width carries a person (common practice: two feet side by side)."""
LOW_ENOUGH = L("24 in")
"""A top no higher than this will be sat or stood on (common practice)."""
STEPS = frozenset({"seat", "step", "tread", "rung", "stool", "bench"})
"""Words in a part's name that say that it carries a person."""
CREEP_SOLID, CREEP_PANEL = Fraction(3, 2), Fraction(2)
"""Long-term over first deflection: seasoned lumber, structural panels (NDS 3.5.2)."""
ACROSS_SOLID, ACROSS_PANEL = Fraction(1, 15), Fraction(1, 2)
"""Stiffness across the grain as a share of that along it (from memory: solid wood 0.05 to 0.1; plywood of
five plies and more about a half)."""
UNIFORM, CENTRED = Fraction(5, 384), Fraction(1, 48)
"""Simply supported beams: load spread evenly, load in the middle (Wood Handbook table 9-1)."""
OVERHANG, OVERHANG_END = Fraction(1, 8), Fraction(1, 3)
"""What stands out beyond its last support, at its end: load spread evenly, load at the end (strength of materials)."""
TWICE = 2
"""What stands out counts as a span of twice its length (building codes, from memory)."""
MUCH = Fraction(1, 4)
"""An overhang of more than so much of the span behind it is told where a load says nothing of it."""
WEAK = Fraction(21, 20)
"""Cuts that make a part bend more than this many times as far are named."""
_PERSON = "common practice: 250 lb, span ÷ 144"
_BEAM = "Wood Handbook eq. 9-2, simple span"
_OUT = "strength of materials: a beam that runs on beyond its support"
_AWS = "Architectural Woodwork Standards 2009, section 10: 40 psf, span ÷ 144"
_USUAL = "span ÷ 144"
NO_WEIGHT = Mass(Fraction(0))


@dataclass(frozen=True, slots=True)
class Load:
    """What a part has to carry.

    part    its id
    what    in words: "books", "a person"
    psf     pounds on a square foot, spread evenly; 0 where there is none
    middle  a weight in the middle of the span
    lasting whether it stays for good, so that the wood creeps under it
    source  where the number comes from
    limit   the most the part may bend, as a share of its span; None where nobody says
    """

    part: str
    what: str
    psf: Fraction = Fraction(0)
    middle: Mass = NO_WEIGHT
    lasting: bool = True
    source: str = "given by the author"
    limit: Fraction | None = None


def sag(  # noqa: PLR0917 - a beam has this many numbers
    pounds: Fraction,
    span: Length,
    width: Length,
    thickness: Length,
    psi: Fraction,
    shape: Fraction = UNIFORM,
) -> Length:
    """Return how far a plain rectangular beam bends in the middle, exactly.

    pounds  the whole load; `shape` says how it lies: `UNIFORM` or `CENTRED`
    psi     stiffness in bending (E) as tabulated, shear included
    source  Wood Handbook eq. 9-2 with table 9-1: k W L³ / (E I), I = width × thickness³ / 12
    """
    inertia = width.inches * thickness.inches**3 / 12
    return Length.of_mm(shape * pounds * span.inches**3 / (psi * inertia) * MM_IN["in"])


def longest_span(
    psf: Fraction, thickness: Length, psi: Fraction, creep: Fraction = Fraction(1), limit: Fraction = LIMIT
) -> Length:
    """Return the longest simple span, down to the next 1/1000 in, that bends no more than its limit.

    psf    load spread evenly, in pounds on a square foot
    creep  long-term over first deflection; 1 where the load does not stay
    source  the same equation solved for L: L³ = limit × E × thickness³ / 12 ÷ (creep × 5/384 × psf / 144)
    """
    cubed = limit * psi * thickness.inches**3 / 12 / (creep * UNIFORM * psf / 144)
    return L(Fraction(_cube_root(int(cubed * 10**9)), 1000), "in")


def _cube_root(number: int) -> int:
    """The largest whole number whose cube is not larger."""
    low, high = 0, isqrt(number) + 1
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if middle**3 <= number else (low, middle - 1)
    return low


def stiffness(part: Part, along: str) -> Fraction:
    """Return a part's stiffness in bending along one of its axes, in psi."""
    if along == part.grain:
        return part.stock.modulus_psi
    if isinstance(part.stock, Lumber):
        return part.stock.modulus_psi * ACROSS_SOLID
    return part.stock.modulus_psi * (ACROSS_PANEL if "plywood" in part.stock.kind else 1)


def creep_of(part: Part) -> Fraction:
    """Return by how much a part's first deflection grows under a load that stays."""
    return CREEP_SOLID if isinstance(part.stock, Lumber) else CREEP_PANEL


def strength(
    build: Build, notation: Notation, loads: tuple[Load, ...] = (), limit: Fraction = LIMIT
) -> tuple[Finding, ...]:
    """Return a finding for every part that bends too far under its loads, between its supports or beyond them.

    loads  what the author says; tops and shelves that carry nothing else are taken as loaded shelves, and
           a top low enough to sit on must also carry a person, unless she says otherwise
    limit  the most a part may bend, as a share of its span, where its load does not say
    """
    spoken = {load.part for load in loads}
    taken = [load for load in usual_loads(build) if load.part not in spoken]
    found: list[Finding] = []
    held: dict[str, Carried] = {}
    for load in (*loads, *taken):
        if not load.psf and not load.middle.kg:
            continue  # its author says that it carries nothing
        part = build.part(load.part)
        if part.id not in held:
            held[part.id] = carried(part, build)
        span, asked = held[part.id].span, replace(load, limit=load.limit or limit)
        if not load.psf and not load.middle.kg:
            continue
        if span is None:
            found.append(_not_reckoned(part, load))
            continue
        found += _bends(part, span, asked, notation)
        for out in held[part.id].overhangs:
            found += _droops(part, out, asked, notation)
    return gathered(found)


def _not_reckoned(part: Part, load: Load) -> Finding:
    """What the author says a part carries, where nothing shows what holds it up at two places."""
    return Finding(
        "look at",
        "load not reckoned",
        part.name,
        f"{part.name} is to carry {load.what}, but it does not lie level between two supports that it touches, "
        "so how far it bends is not known.",
        source=_BEAM,
        remedy="Let it rest on, or end at, what holds it up; or leave the load out.",
    )


def usual_loads(build: Build) -> tuple[Load, ...]:
    """Return the loads taken for granted on level parts with supports under and nothing standing on them.

    The floor lies at 0, or where the lowest part ends if that is lower: what hangs on a wall is no seat.
    """
    found: list[Load] = []
    highest = build.box.top.mm
    floor = min(build.box.bottom.mm, Fraction(0))
    for part, span in bare_spans(build):
        area = part.length.inches * part.width.inches / 144
        psf = min(SHELF_PSF, MOST_ON_A_SHELF.lb / area)
        found.append(Load(part.id, "a loaded shelf", psf, source=_AWS))
        seat = build.wall is None and part.box.top.mm == highest and highest - floor <= LOW_ENOUGH.mm
        if (seat or _is_a_step(part)) and span.clear.mm > 0:
            found.append(Load(part.id, "a person", middle=PERSON, lasting=False, source=_PERSON))
    return tuple(found)


def _is_a_step(part: Part) -> bool:
    """Whether a part's name says that somebody stands or sits on it, however high it is and whatever is above."""
    return not STEPS.isdisjoint(part.name.lower().replace("-", " ").split())


def deflection(part: Part, span: Span, load: Load) -> Length:
    """Return how far a part bends under a load in the end, creep included where the load stays."""
    psi = stiffness(part, span.along)
    wide = span.width
    spread = load.psf * span.clear.inches * wide.inches / 144
    total = Length.zero()
    if spread:
        total += sag(spread, span.clear, wide, part.thickness, psi) * weakened(part, span, centred=False)
    if load.middle.kg:
        strip = wide if wide.mm < STRIP.mm else STRIP
        middle = sag(load.middle.lb, span.clear, strip, part.thickness, psi, CENTRED)
        total += middle * weakened(part, span, centred=True)
    return total * (creep_of(part) if load.lasting else Fraction(1))


def droop(part: Part, out: Overhang, load: Load) -> Length:
    """Return how far the end of an overhang goes down under a load in the end, creep included where it stays.

    What is spread evenly lies on the span behind as well, which lifts the end; a weight that comes and goes
    (a person) comes to the end, one that stays lies in the middle of the span and lifts it.
    source  strength of materials: W a³ (1/8 + L/6a − L³/24a³) / E I, and P a³ (1/3 + L/3a) / E I at the end
    """
    psi, wide, ratio = stiffness(part, AXIS_OF[out.face]), out.width, out.back.mm / out.out.mm
    spread = load.psf * out.out.inches * wide.inches / 144
    total = Length.zero()
    if spread:
        shape = OVERHANG + ratio / 6 - ratio**3 / 24
        total += sag(spread, out.out, wide, part.thickness, psi, max(shape, Fraction(0)))
    if load.middle.kg and not load.lasting:
        strip = wide if wide.mm < STRIP.mm else STRIP
        total += sag(load.middle.lb, out.out, strip, part.thickness, psi, OVERHANG_END + ratio / 3)
    return total * (creep_of(part) if load.lasting else Fraction(1))


def _droops(part: Part, out: Overhang, load: Load, notation: Notation) -> Iterator[Finding]:
    """An overhang that bends too far, or that a load in the middle of the span says nothing of."""
    far, limit = notation.length(out.out), load.limit or LIMIT
    if load.middle.kg and load.lasting and not load.psf and out.out.mm > out.back.mm * MUCH:
        yield Finding(
            "for information",
            "load not reckoned",
            part.name,
            f"{part.name} runs on {far} beyond its last support, and its load ({load.what}) is reckoned in the "
            "middle of its span only.",
            f"at its {out.face} end",
            source=_BEAM,
            remedy="If something lies or sits out there, say so with psf=…, or with lasting=False.",
        )
    bent, allowed = droop(part, out, load), out.out * TWICE * limit
    if bent.mm <= allowed.mm:
        return
    bends, most = told_apart(bent, allowed, notation)
    creep = ", creep included" if load.lasting else ""
    yield Finding(
        "look at",
        "bends too far",
        part.name,
        f"{part.name} stands out {far} beyond its last support and bends too far there under {load.what}{creep}; "
        f"{most} is the limit.",
        f"at its {out.face} end",
        bends,
        f"{_OUT}; {_source(load)}",
        f"Set the support further out, or use thicker stock.{_way_out(load)}",
    )


def _source(load: Load) -> str:
    """Where a load comes from, with the limit that counts for it."""
    limit = load.limit or LIMIT
    return load.source.replace(_USUAL, f"span ÷ {decimal(1 / limit, 1)}") if limit != LIMIT else load.source


def _bends(part: Part, span: Span, load: Load, notation: Notation) -> list[Finding]:
    bent = deflection(part, span, load)
    allowed = span.clear * (load.limit or LIMIT)
    if bent.mm <= allowed.mm:
        return []
    creep = ", creep included" if load.lasting else ""
    weak = max(weakened(part, span, centred=one) for one in (False, True)) > WEAK
    cut = ", weakened by its cuts," if weak else ""
    bends, most = told_apart(bent, allowed, notation)
    return [
        Finding(
            "look at",
            "bends too far",
            part.name,
            f"{part.name} spans {notation.length(span.clear)}{cut} and bends too far under {load.what}{creep}; "
            f"{most} is the limit.",
            f"across the span, {'left to right' if span.along == 'x' else 'front to back'}",
            bends,
            f"{_BEAM}; {_source(load)}",
            ("Cut less out of it. " if weak else "") + _advice(part, span, load, bent, notation) + _way_out(load),
        )
    ]


def _way_out(load: Load) -> str:
    """Tell the author that a load which was taken for granted gives way to one she names."""
    if load.source == _PERSON:
        return (
            " If nobody will sit or stand on it, say what it carries instead, "
            'for instance  plan.load(part, "jars", psf=20)'
        )
    if load.source == _AWS:
        return ' If it carries less, say so, for instance  plan.load(part, "jars", psf=20)'
    return ""


def _advice(part: Part, span: Span, load: Load, bent: Length, notation: Notation) -> str:
    """Say how short the span would have to be: deflection over span grows with its cube, or its square."""
    ratio = span.clear.mm * (load.limit or LIMIT) / bent.mm
    power = 3 if load.psf else 2
    scaled = span.clear.inches**power * ratio
    root = _cube_root(int(scaled)) if power == 3 else isqrt(int(scaled))
    keep = (
        f"keep its span under {notation.length(L(root, 'in'))}" if root else "choose something much stiffer"
    )
    fixed = span.along == part.grain or part.kind == "board"
    turn = "" if fixed else ", turn its grain to run along the span"
    return f"Add a rail under it, use thicker stock{turn}, or {keep}."
