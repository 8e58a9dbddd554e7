"""What one person should not lift alone."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.build import Build
from plankit.checks.lifting_equation import recommended_between, recommended_for
from plankit.checks.wording import masses_apart
from plankit.finding import Finding
from plankit.parts import Box, Part, box_of, weight
from plankit.shop import Shop
from plankit.units import Length, Mass, Notation, smallest


def lifting(build: Build, shop: Shop, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for the whole, each assembly and each part above the shop's limit.

    Weights are those of the wood: hardware and finish are left out. Sheets and boards as bought are weighed
    by `stock_lifting`, once it is known which are bought.
    """
    found = []
    for load in _loads(build):
        limit, source = _limit(load, shop, notation)
        if load.mass.kg > limit.kg:
            place = "as a whole" if load.box is not None else "by itself"
            found.append(_heavy(load.name, load.what, load.mass, (limit, source), notation, place))
    return tuple(dict.fromkeys(found))


@dataclass(frozen=True, slots=True)
class _Load:
    """What is carried: its name, what it is in a sentence, its weight, how deep it is held before the body.

    box  the space it takes, where it is more than a single part
    """

    name: str
    what: str
    mass: Mass
    deep: Length
    box: Box | None = None


def _limit(load: _Load, shop: Shop, notation: Notation) -> tuple[Mass, str]:
    """The most one should lift of something, and where that comes from; by the equation, where the shop says so."""
    own = f"the lifting limit of {shop.name}"
    if shop.lift is not None:
        low, high = shop.lift
        best = recommended_between(load.deep, low, high)
        if best.kg < shop.lifting_limit.kg:
            way = f"hands {notation.length(low)} to {notation.length(high)} up, it {notation.length(load.deep)} deep"
            return best, f"NIOSH lifting equation (94-110): {way}"
    return shop.lifting_limit, own + (f"; {_equation(load.box, notation)}" if load.box else "")


def _loads(build: Build) -> list[_Load]:
    """What is carried: the whole, each assembly, each part, each glued-up blank."""
    single = {part.id: weight(part) for part in build.parts}
    whole = build.box
    loads = [_Load(build.name, "The finished piece", _sum(single.values()), _depth(whole), whole)]
    for assembly in build.assemblies:
        together = _sum(single[part] for part in assembly.parts)
        box = _around([build.part(part) for part in assembly.parts])
        loads.append(_Load(assembly.name, f"{assembly.name}, put together,", together, _depth(box), box))
    for part in build.parts:
        loads.append(_Load(part.name, part.name, single[part.id], part.thickness))
        if part.glue_up is not None:
            blank = f"The glued-up blank of {part.name}"
            loads.append(_Load(part.name, blank, blank_weight(part), part.glue_up.blank[2]))
    return loads


def _depth(box: Box) -> Length:
    return smallest(box.extent("x"), box.extent("y"))


def _around(parts: list[Part]) -> Box:
    box = box_of(parts[0])
    for part in parts[1:]:
        box = box.around(box_of(part))
    return box


def blank_weight(part: Part) -> Mass:
    """Return what a glued-up blank weighs before it is flattened and trimmed; nothing for a part of one piece."""
    if part.glue_up is None:
        return Mass(Fraction(0))
    length, width, thick = (size.mm for size in part.glue_up.blank)
    return part.stock.density.mass_of(length * width * thick)


def _equation(box: Box, notation: Notation) -> str:
    """What the lifting equation says of a thing of this size, for comparison."""
    best = recommended_for(box)
    if not best.kg:
        return "by the NIOSH lifting equation it is too deep for one to hold close enough"
    return f"the NIOSH lifting equation gives {notation.mass(best)} for one lift of its size"


def stock_lifting(name: str, what: str, mass: Mass, shop: Shop, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding where a sheet or board, as it is bought, is above the shop's limit.

    name, what  the stock, and this piece of it in words: "A sheet, 4 × 8 ft, of 3/4 in plywood"
    """
    if mass.kg <= shop.lifting_limit.kg:
        return ()
    by = shop.lifting_limit, f"the lifting limit of {shop.name}"
    found = _heavy(name, what, mass, by, notation, "as it is bought")
    return (replace(found, remedy="Carry it with two people, or have the store cut it roughly in two."),)


def _sum(weights: Iterable[Mass]) -> Mass:
    return sum(weights, Mass(Fraction(0)))


def _heavy(  # noqa: PLR0917 - what a finding of this check is made of
    name: str, what: str, mass: Mass, by: tuple[Mass, str], notation: Notation, place: str = ""
) -> Finding:
    most, source = by
    weighs, limit = masses_apart(mass, most, notation)
    return Finding(
        "look at",
        "too heavy for one",
        name,
        f"{what} weighs more than one person should lift here ({limit})."
        if most.kg
        else f"{what} is too deep for one person to hold close enough.",
        place=place,
        number=weighs,
        source=source,
        remedy="Lift it with two people, or carry it in pieces and join it where it will stand.",
    )
