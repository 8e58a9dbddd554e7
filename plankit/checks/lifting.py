"""What one person should not lift alone."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from plankit.build import Build
from plankit.finding import Finding
from plankit.parts import weight
from plankit.shop import Shop
from plankit.units import Mass, Notation


def lifting(build: Build, shop: Shop, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for the whole, each assembly and each part above the shop's limit.

    Weights are those of the wood: hardware and finish are left out. Sheets and boards as bought are weighed
    by `stock_lifting`, once it is known which are bought.
    """
    found = [
        _heavy(name, what, mass, shop, notation)
        for name, what, mass in _loads(build)
        if mass.kg > shop.lifting_limit.kg
    ]
    return tuple(dict.fromkeys(found))


def _loads(build: Build) -> list[tuple[str, str, Mass]]:
    single = {part.id: weight(part) for part in build.parts}
    loads = [(build.name, "The finished piece", _sum(single.values()))]
    for assembly in build.assemblies:
        together = _sum(single[part] for part in assembly.parts)
        loads.append((assembly.name, f"{assembly.name}, put together,", together))
    loads += [(part.name, part.name, single[part.id]) for part in build.parts]
    return loads


def stock_lifting(name: str, what: str, mass: Mass, shop: Shop, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding where a sheet or board, as it is bought, is above the shop's limit.

    name, what  the stock, and this piece of it in words: "A sheet, 4 × 8 ft, of 3/4 in plywood"
    """
    if mass.kg <= shop.lifting_limit.kg:
        return ()
    found = _heavy(name, what, mass, shop, notation)
    return (replace(found, remedy="Carry it with two people, or have the store cut it roughly in two."),)


def _sum(weights: Iterable[Mass]) -> Mass:
    return sum(weights, Mass(Fraction(0)))


def _heavy(name: str, what: str, mass: Mass, shop: Shop, notation: Notation) -> Finding:
    return Finding(
        "look at",
        "too heavy for one",
        name,
        f"{what} weighs more than one person should lift here ({notation.mass(shop.lifting_limit)}).",
        number=notation.mass(mass),
        source=f"the lifting limit of {shop.name}",
        remedy="Lift it with two people, or carry it in pieces and join it where it will stand.",
    )
