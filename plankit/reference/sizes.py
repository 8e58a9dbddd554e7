"""Sizes as sold: softwood lumber (PS 20), hardwood lumber, and plywood thickness classes (PS 1)."""

from dataclasses import dataclass
from fractions import Fraction

from plankit.errors import PlanError
from plankit.reference.tables import did_you_mean, rows
from plankit.units import L, Length, read_number, tidy

_THIN_PANEL = Fraction(13, 16)
"""Up to this class (inches) PS 1 allows 1/32 in either way, above it 5 %."""


@dataclass(frozen=True, slots=True)
class DressedSize:
    """What a nominal softwood size measures once it is dry and planed."""

    nominal: str
    thickness: Length
    width: Length
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class HardwoodThickness:
    """A hardwood thickness in quarters: as sawn, and surfaced on two sides."""

    quarters: str
    rough: Length
    surfaced: Length
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class PlywoodClass:
    """A plywood thickness class, and how thin or thick a sheet of it may measure.

    The limits are those of unsanded, touch-sanded and overlaid grades: 1/32 in either way up to 13/16,
    5 % above (PS 1-19).
    """

    category: str
    nominal: Length
    least: Length
    most: Length
    source: str
    status: str


def plain(nominal: str) -> str:
    """Return a nominal size in its plainest spelling: "2 × 10" and "2x10" are one."""
    return tidy(nominal).replace("×", "x").replace("*", "x").replace('"', "").replace(" ", "").lower()


def dressed(nominal: str) -> DressedSize:
    """Return what a softwood board of this nominal size measures, dry and planed (PS 20).

    nominal  such as "2x10" or "5/4x6"
    raises   PlanError with the sizes that come near
    """
    asked = plain(nominal)
    for row in rows("dressed_lumber"):
        if row["nominal"] == asked:
            thickness, width = L(row["thickness_in"], "in"), L(row["width_in"], "in")
            return DressedSize(asked, thickness, width, row["source"], row["status"])
    known = tuple(row["nominal"] for row in rows("dressed_lumber"))
    raise PlanError(
        "no softwood lumber is sold in this nominal size.",
        given=repr(nominal),
        remedy=f'{did_you_mean(asked, known)} Write it like "2x10".',
    )


def hardwood_thickness(quarters: str) -> HardwoodThickness:
    """Return what hardwood of a thickness in quarters ("4/4", "8/4") measures rough and surfaced."""
    asked = plain(quarters)
    for row in rows("hardwood_thickness"):
        if row["rough_designation"] == asked:
            rough, surfaced = L(row["rough_thickness_in"], "in"), L(row["surfaced_two_sides_in"], "in")
            return HardwoodThickness(asked, rough, surfaced, row["source"], row["status"])
    known = tuple(row["rough_designation"] for row in rows("hardwood_thickness"))
    raise PlanError(
        "no hardwood is sold in this thickness.",
        given=repr(quarters),
        remedy=f"Known are: {', '.join(known)}.",
    )


def plywood_categories() -> tuple[str, ...]:
    """Return the names of all plywood thickness classes of PS 1, thinnest first."""
    return tuple(row["performance_category"] for row in rows("plywood_ps1"))


def plywood(category: str) -> PlywoodClass:
    """Return a plywood thickness class of PS 1 with the limits within which a sheet may measure.

    category  such as "3/4", "23/32" or "1-1/8"
    raises    PlanError with the classes there are
    """
    inches = _inches(category)
    for row in rows("plywood_ps1"):
        if read_number(row["performance_category"]) == inches:
            slack = Fraction(1, 32) if inches <= _THIN_PANEL else inches / 20
            least, most = L(inches - slack, "in"), L(inches + slack, "in")
            name = row["performance_category"]
            return PlywoodClass(name, L(inches, "in"), least, most, row["source"], row["status"])
    raise PlanError(
        "there is no plywood thickness class of this size.",
        given=repr(category),
        remedy=f'Known are: {", ".join(plywood_categories())}. Write metric sheets with their unit: "18 mm".',
    )


def _inches(category: str) -> Fraction:
    return L(category, "in").inches
