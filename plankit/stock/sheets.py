"""Sheets: plywood, hardboard, MDF, particleboard."""

from dataclasses import dataclass, field
from fractions import Fraction

from plankit.errors import PlanError
from plankit.reference import plywood, sheet_kind
from plankit.stock.names import Size, as_sold, read_size, refuse_unnamed, slug, unit_of, written
from plankit.units import Density, L, Length, Mass
from plankit.units.length import readably
from plankit.units.quantity import WATER_PCF

_FULL = {"in": ("96 in", "48 in"), "mm": ("2440 mm", "1220 mm"), "cm": ("2440 mm", "1220 mm")}
"""A full sheet: 4 × 8 ft, or its metric like (common practice)."""
MOST_OFF = Fraction(1, 4)
"""Sheets measure within a few hundredths of their name; a quarter off is another sheet, or another unit."""
_PLY = ("plywood", "hardwood plywood")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet material of one thickness.

    kind       "plywood", "MDF" …
    nominal    the thickness it is called by: "3/4", "18 mm"
    thickness  what it measures; its expression is a stock size, or the length the author gave
    length     of a full sheet, along the face grain
    width      of a full sheet
    modulus_psi stiffness in bending
    measured   whether the author measured the thickness herself
    """

    kind: str
    nominal: str
    thickness: Length
    length: Length
    width: Length
    density: Density
    modulus_psi: Fraction
    source: str
    status: str
    measured: bool = False
    usual_size: bool = field(default=True, compare=False)

    @property
    def name(self) -> str:
        """What it is called in lists: "3/4 in plywood"."""
        return f"{self.nominal} {self.kind}"

    @property
    def key(self) -> str:
        """A name for files and keys, the same every time; sheets of unusual size carry their size."""
        if self.usual_size:
            return slug(self.name)
        return slug(f"{self.name} {self.length.mm} by {self.width.mm} mm")

    @property
    def specific_gravity(self) -> Fraction:
        """Its density beside that of water, 62.4 lb/ft3."""
        return self.density.pcf / WATER_PCF

    @property
    def weight(self) -> Mass:
        """What a full sheet weighs."""
        return self.density.mass_of(self.thickness.mm * self.length.mm * self.width.mm)


def sheet(
    kind: str,
    nominal: str,
    *,
    measured: Size | None = None,
    length: Size | None = None,
    width: Size | None = None,
) -> Sheet:
    """Return a sheet material by its kind and nominal thickness.

    kind      "plywood", "hardwood plywood", "MDF", "particleboard" or "hardboard"
    nominal   as it is sold: "3/4" (inches) or "18 mm"
    measured  what your sheet really measures, such as "23/32"; a parameter of the plan keeps its name
    length, width  of a full sheet, the length along the face grain; 4 × 8 ft (2440 × 1220 mm) if left out
    raises    PlanError for an unknown kind, a thickness it is not sold in, or a size that cannot be read, or a
              measured thickness more than a quarter off the nominal one
    """
    for what, said in (("kind", kind), ("nominal thickness", nominal)):
        wanted = f"a sheet is named by its kind and its thickness: its {what}"
        remedy = 'For instance  stock.sheet("plywood", "3/4")  or  stock.sheet("MDF", "18 mm")'
        refuse_unnamed(said, wanted, "stock.sheet", remedy)
    material = sheet_kind(kind)
    unit = unit_of(nominal)
    nominal_size = read_size(nominal, unit, of=material.kind, what="nominal thickness")
    called = written(nominal_size, unit)
    name = f"{called} {material.kind}"
    if material.kind in _PLY and unit == "in":
        _must_be_a_class(nominal_size, name)
    full_length, full_width = _FULL[unit]
    sheet_length = read_size(length or full_length, unit, of=name, what="sheet length")
    sheet_width = read_size(width or full_width, unit, of=name, what="sheet width")
    return Sheet(
        material.kind,
        called,
        _thickness(name, nominal_size, measured, unit),
        sheet_length,
        sheet_width,
        material.density,
        material.modulus_psi,
        material.source,
        material.status,
        measured is not None,
        (sheet_length, sheet_width) == (L(full_length), L(full_width)),
    )


def _thickness(name: str, nominal: Length, measured: Size | None, unit: str) -> Length:
    real = nominal if measured is None else read_size(measured, unit, of=name, what="measured thickness")
    if abs(real.mm - nominal.mm) > nominal.mm * MOST_OFF:
        raise PlanError(
            "a sheet does not measure so far from the thickness it is sold as.",
            where=name,
            given=f"measured={measured!r}, which is read as {_measure(real, unit)}",
            remedy=f'Write the unit, for instance measured="{_measure(nominal, unit)}", or name the sheet it is.',
        )
    return as_sold(real, f"{name} thickness")


def _measure(size: Length, unit: str) -> str:
    """Write a size as it was read: in the unit of the sheet's name, or the other where that is plainer."""
    return readably(size, "in" if unit == "in" else "mm")


def _must_be_a_class(nominal: Length, name: str) -> None:
    try:
        plywood(written(nominal, "in"))
    except PlanError as wrong:
        raise PlanError(wrong.what, where=name, given=written(nominal, "in"), remedy=wrong.remedy) from None
