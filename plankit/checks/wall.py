"""What hangs on a wall: whether its screws reach the studs, how many studs they hit, and what they hold.

All of it is an estimate for a sound framed wall; what a wall really is, and what local codes ask, nobody sees here.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build
from plankit.build.wall import INTO_STUD, Wall, WallScrew, cleat_under
from plankit.checks.balance import centre_of_mass
from plankit.checks.strength import Load, usual_loads
from plankit.checks.wording import PRACTICE, gathered, masses_apart, named, sold, spot, told_apart
from plankit.finding import Finding
from plankit.parts import Part, box_of
from plankit.reference import screw_pull, screw_sideways
from plankit.units import Length, Mass, Notation

LEAST_DIAMETERS = 6
"""A screw that lies less deep holds nothing that counts: so many diameters, tip included (NDS 12.1.5.6)."""
COUNTED = Fraction(1, 2)
"""Share of what a screw holds sideways by the table that is counted on for loads nobody has named: the board between
stud and part lets it bend, and things are put down hard (common practice)."""
FAR_TOO_MUCH = Fraction(7, 4)
"""So many times what is counted on is no matter of opinion: it must be fixed, or the load be told (common practice)."""
THREADED = Fraction(2, 3)
"""Share of a wood screw's length that is threaded (ASME B18.6.1, from memory)."""
SOURCE = (
    "Wood Handbook eq. 8-13 (sideways; half of it for loads nobody has named) and NDS 12.2 (pulled out), "
    "studs of spruce-pine-fir: an estimate; local building codes decide"
)
_FIND = "Find the studs, and the wires and pipes beside them, before you drill."


def wall(build: Build, notation: Notation, loads: tuple[Load, ...] = ()) -> tuple[Finding, ...]:
    """Return every finding about how a build hangs on its wall; none for one that stands on the floor.

    loads  what the author says its parts carry; shelves without one count as loaded shelves
    """
    if build.wall is None:
        return _unscrewed(build)
    if not build.wall.screws:
        return (_nothing_holds(build),)
    return (
        *_unscrewed(build),
        *gathered(_reach(build, build.wall, notation)),
        *gathered(_studs(build, build.wall)),
        *_load(build, build.wall, loads, notation),
    )


def _nothing_holds(build: Build) -> Finding:
    return Finding(
        "must fix",
        "nothing holds it to the wall",
        build.name,
        "It is to hang on a wall, and no screw holds it there.",
        source=PRACTICE,
        remedy="Screw a batten, a cleat or a rail to the studs: plan.wall_screw(batten).",
    )


def _unscrewed(build: Build) -> tuple[Finding, ...]:
    """A finding for every cleat on the wall that no screw holds there."""
    held = {screw.part for screw in build.wall.screws} if build.wall is not None else set()
    lower = (cleat_under(part, build.parts) for part in build.parts)
    return tuple(
        Finding(
            "must fix",
            "cleat not screwed to the wall",
            one.name,
            f"{one.name} carries the piece, and no screw holds it to a stud.",
            source=PRACTICE,
            remedy=("" if build.wall is not None else 'Say where the studs are, plan.wall(first="4"). ')
            + "Screw it there: plan.wall_screw(cleats.wall).",
        )
        for one in dict.fromkeys(one for one in lower if one is not None and one.id not in held)
    )


def _reach(build: Build, stands: Wall, notation: Notation) -> Iterator[Finding]:
    """Screws that lie too little in the stud, or come out behind it."""
    for screw in stands.screws:
        part, least = build.part(screw.part), screw.spec.diameter * LEAST_DIAMETERS
        place = spot(screw.at, build.box, notation)
        if screw.into.mm >= INTO_STUD.mm:
            if screw.into.mm > stands.deep.mm:
                yield _through(screw, part, stands, place, notation)
            continue
        grave = screw.into.mm < least.mm
        wanted = sold(screw.spec.length - screw.into + INTO_STUD, at_most=False)
        lies, asked = told_apart(screw.into, INTO_STUD, notation)
        yield Finding(
            "must fix" if grave else "look at",
            "too little in the stud",
            part.name,
            f"A {screw.spec.name} through {part.name} and {notation.length(stands.board)} of wallboard lies too little "
            f"in the stud; {asked} is wanted.",
            place,
            lies if screw.into.mm > 0 else "it does not reach the stud",
            f"NDS 12.1.5.6: {LEAST_DIAMETERS} diameters at least" if grave else f"{PRACTICE}: 1 1/2 in",
            f"Use one {notation.length(wanted)} long.",
        )


def _through(screw: WallScrew, part: Part, stands: Wall, place: str, notation: Notation) -> Finding:
    return Finding(
        "look at",
        "longer than the stud is deep",
        part.name,
        f"A {screw.spec.name} through {part.name} comes out behind the stud.",
        place,
        notation.length(screw.into - stands.deep),
        PRACTICE,
        "Use a shorter one: wires and pipes may lie behind.",
    )


def _studs(build: Build, stands: Wall) -> Iterator[Finding]:
    """A piece that hangs on a single stud can turn about it."""
    hit = {screw.at.x.mm for screw in stands.screws}
    if len(hit) > 1:
        return
    parts = named(dict.fromkeys(build.part(screw.part).name for screw in stands.screws))
    yield Finding(
        "look at",
        "one stud only",
        build.part(stands.screws[0].part).name,
        f"{parts} meets one stud only: the piece can turn about it, and all its weight hangs there.",
        number="1 stud",
        source=PRACTICE,
        remedy="Let it pass two studs, or move the piece along the wall.",
    )


@dataclass(frozen=True, slots=True)
class _Hung:
    """The weight on the wall, and how far before it that acts."""

    weight: Mass
    ahead: Length


def hung(build: Build, stands: Wall, loads: tuple[Load, ...]) -> _Hung:
    """Return what hangs on the wall, what it carries included, and where its weight acts before the wall."""
    back = max((build.part(screw.part).box.back for screw in stands.screws), key=lambda one: one.mm)
    own = centre_of_mass(build)
    pounds = Fraction(round(own.kg * 10**6), 10**6) / Mass.of_pounds(1).kg
    moment = pounds * (back.inches - Length.of_mm(round(own.at[1])).inches)
    for load in loads:
        part = build.part(load.part)
        carried = load.psf * part.length.inches * part.width.inches / 144 + load.middle.lb
        pounds += carried
        moment += carried * (back - box_of(part).middle("y")).inches
    ahead = moment / pounds if pounds else Fraction(0)
    return _Hung(Mass.of_pounds(pounds), Length.of_mm(ahead * Fraction(254, 10)))


@dataclass(frozen=True, slots=True)
class _Share:
    """What one screw takes of what it may: sideways, and pulled out of the wall."""

    sideways: Fraction
    pulled: Fraction

    @property
    def whole(self) -> Fraction:
        return self.sideways + self.pulled


_HOLDS_NOTHING = _Share(Fraction(50), Fraction(50))


def shares(build: Build, stands: Wall, weight: Mass, ahead: Length, counted: Fraction) -> _Share:
    """Return what the screw that is worst off takes, as shares of what it may.

    counted  the share of the table's value sideways that is counted on
    source   statics: every screw carries the same weight; the piece turns about its lower edge, which lies against
             the wall, so that a screw at height h pulls with W × d × h ÷ Σ h²
    """
    low = build.box.bottom
    heights = [(screw.at.z - low).inches for screw in stands.screws]
    squares = sum(height**2 for height in heights if height > 0)
    found = []
    for screw, height in zip(stands.screws, heights, strict=True):
        down = Fraction(weight.lb) / len(stands.screws)
        out = weight.lb * ahead.inches * max(height, Fraction(0)) / squares if squares else Fraction(weight.lb)
        sideways, pulled = _held(stands, screw)
        if sideways and pulled:
            found.append(_Share(down / (sideways * counted), out / pulled))
        else:
            found.append(_HOLDS_NOTHING)
    return max(found, key=lambda one: one.whole)


def _held(stands: Wall, screw: WallScrew) -> tuple[Fraction, Fraction]:
    """Pounds that one screw may take sideways and pulled, by the tables."""
    if screw.into.mm <= 0:
        return Fraction(0), Fraction(0)
    thick = screw.spec.diameter
    deep = min(screw.into, stands.deep, key=lambda one: one.mm)
    thread = min(deep, screw.spec.length * THREADED, key=lambda one: one.mm)
    return screw_sideways(stands.gravity, thick, deep).lb, screw_pull(stands.gravity, thick, thread).lb


@dataclass(frozen=True, slots=True)
class _Weighs:
    """What hangs there against what the screws hold: above 1 is too much."""

    weight: Mass
    most: Mass
    ratio: Fraction


def _weighs(build: Build, stands: Wall, loads: tuple[Load, ...], counted: Fraction) -> _Weighs:
    found = hung(build, stands, loads)
    worst = shares(build, stands, found.weight, found.ahead, counted).whole
    return _Weighs(found.weight, Mass.of_pounds(found.weight.lb / worst), worst)


def _load(build: Build, stands: Wall, loads: tuple[Load, ...], notation: Notation) -> Iterator[Finding]:
    """What is known to hang there, against the tables; and what may come to lie there, against half of them."""
    spoken = {load.part for load in loads}
    usual = tuple(one for one in usual_loads(build) if one.part not in spoken)
    known = _weighs(build, stands, loads, Fraction(1))
    all_of_it = _weighs(build, stands, (*loads, *usual), COUNTED)
    many = notation.count(len(stands.screws), "screw")
    found = known if known.ratio > 1 else all_of_it
    level = "must fix" if known.ratio > 1 or all_of_it.ratio > FAR_TOO_MUCH else "look at"
    what = "what its author says it carries" if loads else "nothing in it"
    what = what if found is known else "what commonly lies on its shelves" if usual else what
    weight = notation.mass(found.weight)
    said = f"{build.name}, with {what}, weighs {weight}, on {many} into studs"
    if found.ratio > 1:
        weight, holds = masses_apart(found.weight, found.most, notation)
        more = -int(-(found.ratio * len(stands.screws)) // 1)
        yield Finding(
            level,  # type: ignore[arg-type]
            "too much for its wall screws",
            build.name,
            f"{said}, which hold {holds}.",
            number=weight,
            source=SOURCE,
            remedy=f"Use about {more} screws like these, or thicker ones; or say what it really carries: plan.load(…).",
        )
        return
    yield Finding(
        "for information",
        "hangs on the wall",
        build.name,
        f"{said}, which hold {notation.mass(found.most)} by estimate. {_FIND}",
        number=weight,
        source=SOURCE,
        remedy="Follow the local building code, and what the makers of other walls' fixings say.",
    )
