"""What one person should not lift alone."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from plankit.build import Build
from plankit.checks.lifting_equation import recommended_for
from plankit.checks.wording import masses_apart
from plankit.finding import Finding
from plankit.parts import Box, Part, box_of, weight
from plankit.shop import Shop
from plankit.units import Mass, Notation


def lifting(build: Build, shop: Shop, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for the whole, each assembly and each part above the shop's limit.

    Weights are those of the wood: hardware and finish are left out. Sheets and boards as bought are weighed
    by `stock_lifting`, once it is known which are bought.
    """
    found = []
    for name, what, mass, box in _loads(build):
        if mass.kg > shop.lifting_limit.kg:
            source = _limit(shop) + (f"; {_equation(box, notation)}" if box else "")
            found.append(_heavy(name, what, mass, source, shop, notation))
    return tuple(dict.fromkeys(found))


def _limit(shop: Shop) -> str:
    return f"the lifting limit of {shop.name}"


def _loads(build: Build) -> list[tuple[str, str, Mass, Box | None]]:
    """What is carried: its name, what it is in a sentence, its weight, and the space it takes if it has depth."""
    single = {part.id: weight(part) for part in build.parts}
    loads: list[tuple[str, str, Mass, Box | None]] = [
        (build.name, "The finished piece", _sum(single.values()), build.box)
    ]
    for assembly in build.assemblies:
        together = _sum(single[part] for part in assembly.parts)
        box = _around([build.part(part) for part in assembly.parts])
        loads.append((assembly.name, f"{assembly.name}, put together,", together, box))
    for part in build.parts:
        loads.append((part.name, part.name, single[part.id], None))
        if part.glue_up is not None:
            loads.append((part.name, f"The glued-up blank of {part.name}", blank_weight(part), None))
    return loads


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
    found = _heavy(name, what, mass, _limit(shop), shop, notation)
    return (replace(found, remedy="Carry it with two people, or have the store cut it roughly in two."),)


def _sum(weights: Iterable[Mass]) -> Mass:
    return sum(weights, Mass(Fraction(0)))


def _heavy(  # noqa: PLR0917 - what a finding of this check is made of
    name: str, what: str, mass: Mass, source: str, shop: Shop, notation: Notation
) -> Finding:
    weighs, limit = masses_apart(mass, shop.lifting_limit, notation)
    return Finding(
        "look at",
        "too heavy for one",
        name,
        f"{what} weighs more than one person should lift here ({limit}).",
        number=weighs,
        source=source,
        remedy="Lift it with two people, or carry it in pieces and join it where it will stand.",
    )
