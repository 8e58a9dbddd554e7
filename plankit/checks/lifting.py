"""What one person should not lift alone."""

from collections.abc import Iterable
from fractions import Fraction

from plankit.build import Build
from plankit.finding import Finding
from plankit.parts import weight
from plankit.shop import Shop
from plankit.stock import Sheet
from plankit.units import Mass, Notation


def lifting(build: Build, shop: Shop, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for the whole, each assembly, each part and each full sheet above the shop's limit.

    Weights are those of the wood: hardware and finish are left out.
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
    sheets = [part.stock for part in build.parts if isinstance(part.stock, Sheet)]
    loads += [(one.name, f"A full sheet of {one.name}", one.weight) for one in dict.fromkeys(sheets)]
    return loads


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
        remedy=_remedy(what),
    )


def _remedy(what: str) -> str:
    if what.startswith("A full sheet"):
        return "Carry it with two people, or have the store cut it roughly in two."
    return "Lift it with two people, or carry it in pieces and join it where it will stand."
