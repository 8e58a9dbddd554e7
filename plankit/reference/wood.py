"""Woods and sheet materials: how heavy, how stiff, and how much they move."""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from plankit.errors import PlanError
from plankit.reference.tables import Row, did_you_mean, rows
from plankit.units import Density


@dataclass(frozen=True, slots=True)
class Species:
    """A wood, as the Wood Handbook gives it: averages of small clear pieces at 12 % moisture.

    name                 as the handbook prints it: "Pine, loblolly"
    trade_name           as it is said: "loblolly pine"
    group                "softwood", "hardwood" or "imported hardwood"
    specific_gravity     at 12 % moisture; None where the handbook table gives none
    modulus_psi          stiffness in bending (E); None where there is none
    movement_tangential  C_T: change of width for 1 % of moisture, flat-sawn, from 6 to 14 %
    movement_radial      C_R: the same, quarter-sawn
    """

    name: str
    trade_name: str
    group: str
    specific_gravity: Fraction | None
    modulus_psi: Fraction | None
    movement_tangential: Fraction
    movement_radial: Fraction
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class SheetKind:
    """A sheet material: its usual weight and stiffness."""

    kind: str
    density: Density
    modulus_psi: Fraction
    source: str
    status: str


def species(name: str) -> Species:
    """Return a wood by the name it goes by: "loblolly pine", "Pine, loblolly" or "hard maple".

    raises  PlanError where the name is not known, or fits several woods; it names those that come near
    """
    asked = _folded(name)
    found = _by_name().get(asked)
    if found is None:
        names = [wood.trade_name for wood in dict.fromkeys(_by_name().values())]
        raise PlanError(_unknown(asked, names), given=repr(name), remedy=_woods_meant(asked, names))
    return found


def density_at_12_percent(wood: Species) -> Density:
    """Return the density of a wood at 12 % moisture (Wood Handbook eq. 4-14).

    raises  PlanError where the handbook table gives no specific gravity for it
    """
    if wood.specific_gravity is None:
        raise PlanError(
            "no specific gravity is known for this wood, so nothing made of it can be weighed.",
            given=repr(wood.trade_name),
            remedy="Choose a wood of the handbook's own tables, such as loblolly pine or red oak.",
        )
    return Density.of_specific_gravity(wood.specific_gravity, Fraction(12))


def sheet_kind(kind: str) -> SheetKind:
    """Return a sheet material by name, in whatever capitals.

    raises  PlanError with the kinds there are
    """
    for row in rows("sheet_kinds"):
        if row["kind"].casefold() == " ".join(kind.split()).casefold():
            source = f"weight: {row['density_source']}; stiffness: {row['modulus_source']}"
            status = f"weight: {row['density_status']}; stiffness: {row['modulus_status']}"
            density, modulus = Density(Fraction(row["density_pcf"])), Fraction(row["modulus_psi"])
            return SheetKind(row["kind"], density, modulus, source, status)
    known = [row["kind"] for row in rows("sheet_kinds")]
    raise PlanError("this kind of sheet is not known.", given=repr(kind), remedy=did_you_mean(kind, known))


@cache
def _by_name() -> dict[str, Species]:
    woods = {row["species"]: _read(row) for row in rows("wood_species")}
    found: dict[str, Species] = {}
    for wood in woods.values():
        found[_folded(wood.name)] = found[_folded(wood.trade_name)] = wood
    for row in rows("wood_names"):
        wood = woods[row["species"]]
        found[_folded(row["trade_name"])] = _called(wood, row["trade_name"])
    return found


def _called(wood: Species, trade_name: str) -> Species:
    return Species(
        wood.name, trade_name, wood.group, wood.specific_gravity, wood.modulus_psi,
        wood.movement_tangential, wood.movement_radial, wood.source, wood.status,
    )  # fmt: skip


def _read(row: Row) -> Species:
    gravity, modulus = row["sg_12pct"], row["moe_12pct_Mpsi"]
    return Species(
        row["species"],
        _trade_name(row["species"]),
        row["group"],
        Fraction(gravity) if gravity else None,
        Fraction(modulus) * 10**6 if modulus else None,
        Fraction(row["C_T"]),
        Fraction(row["C_R"]),
        row["source"],
        f"strength: {row['strength_status']}; movement: {row['coefficient_status']}",
    )


def _trade_name(printed: str) -> str:
    """Turn "Pine, loblolly" round into "loblolly pine"; a head that the rest repeats is left out."""
    head, *rest = [piece.strip() for piece in re.sub(r"\s*\(.*\)", "", printed).split(",")]
    said = head if head.startswith("Douglas") else head.lower()
    if not rest:
        return said
    return rest[-1] if said in rest[-1] else f"{rest[-1]} {said}"


def _folded(name: str) -> str:
    return re.sub(r"[\s,-]+", " ", re.sub(r"\(.*\)", "", name)).strip().casefold()


def _unknown(asked: str, names: list[str]) -> str:
    fitting = [name for name in names if _folded(name).endswith(" " + asked)]
    return "this may be any of several woods." if len(fitting) > 1 else "this wood is not known."


def _woods_meant(asked: str, names: list[str]) -> str:
    fitting = [name for name in names if _folded(name).endswith(" " + asked)]
    if len(fitting) > 1:
        return f"Name one: {', '.join(fitting)}."
    return did_you_mean(asked, names)
