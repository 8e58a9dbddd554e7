"""Wood screws and nails: diameters and the holes to drill for them."""

from dataclasses import dataclass
from fractions import Fraction

from plankit.errors import PlanError
from plankit.reference.tables import Row, rows
from plankit.units import L, Length

_DENSE = Fraction(6, 10)
_NEEDS_HOLE = Fraction(1, 2)
_DRILL_STEP = L("1/64 in")


@dataclass(frozen=True, slots=True)
class WoodScrew:
    """A wood screw's gauge.

    shank  diameter of the plain part: 0.060 + 0.013 × gauge, in inches (ASME B18.6.1)
    root   diameter at the foot of the thread (NDS appendix L; two thirds of the shank where it has none)
    """

    gauge: int
    shank: Length
    root: Length
    source: str
    status: str

    def lead_hole(self, gravity: Fraction) -> Length:
        """Return the lead hole for wood of this specific gravity: 90 % of the root above 0.6, else 70 %.

        source  Wood Handbook FPL-GTR-282 ch. 8; NDS 12.1.5.2
        """
        return self.root * (Fraction(9, 10) if gravity > _DENSE else Fraction(7, 10))

    def drill(self, gravity: Fraction) -> Length:
        """Return the lead hole as the nearest drill in 64ths of an inch."""
        return self.lead_hole(gravity).rounded(_DRILL_STEP)

    @staticmethod
    def must_be_drilled(gravity: Fraction) -> bool:
        """Tell whether wood of this specific gravity needs a lead hole at all (NDS 12.1.5.2: above 0.5)."""
        return gravity > _NEEDS_HOLE


@dataclass(frozen=True, slots=True)
class CommonNail:
    """A common nail by its penny size."""

    size: str
    length: Length
    diameter: Length
    source: str
    status: str


def wood_screw(gauge: int | str) -> WoodScrew:
    """Return a wood screw by its gauge: 8, "8" or "#8".

    raises  PlanError with the gauges there are
    """
    asked = str(gauge).strip().removeprefix("#").strip()
    for row in rows("wood_screws"):
        if row["gauge"] == asked:
            return _screw(row)
    known = ", ".join(f"#{row['gauge']}" for row in rows("wood_screws"))
    raise PlanError("there is no wood screw of this gauge.", given=repr(gauge), remedy=f"Known are: {known}.")


def common_nail(size: str) -> CommonNail:
    """Return a common nail by its penny size: "8d".

    raises  PlanError with the sizes there are
    """
    for row in rows("common_nails"):
        if row["size"] == str(size).strip().lower():
            length, diameter = L(row["length_in"], "in"), L(row["diameter_in"], "in")
            return CommonNail(row["size"], length, diameter, row["source"], row["status"])
    known = ", ".join(row["size"] for row in rows("common_nails"))
    raise PlanError("there is no common nail of this size.", given=repr(size), remedy=f"Known are: {known}.")


def _screw(row: Row) -> WoodScrew:
    root = row["root_in_NDS_app_L"] or row["root_in_two_thirds_rule"]
    return WoodScrew(
        int(row["gauge"]), L(row["shank_in_rule"], "in"), L(root, "in"), row["source"], row["status"]
    )
