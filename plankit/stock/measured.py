"""Whether a sheet that was measured is still what its label says."""

from plankit.finding import Finding
from plankit.reference import plywood
from plankit.stock.names import unit_of
from plankit.stock.sheets import Sheet
from plankit.units import Length, Notation, decimal


def check_measured(stock: Sheet, notation: Notation | None = None) -> Finding | None:
    """Return a finding where plywood was measured outside the limits of its thickness class.

    The limits are those of PS 1 for unsanded and touch-sanded grades. None where the thickness lies within
    them, was not measured, or belongs to a sheet that the standard does not cover. Inches lead without a `notation`.
    """
    if not stock.measured or stock.kind != "plywood" or unit_of(stock.nominal) != "in":
        return None
    allowed = plywood(stock.nominal)
    if allowed.least.mm <= stock.thickness.mm <= allowed.most.mm:
        return None
    unit = (notation or Notation()).unit
    way = "thinner" if stock.thickness.mm < allowed.least.mm else "thicker"
    return Finding(
        level="look at",
        check="measured thickness",
        part="",
        what=f"The {stock.name} measures {way} than its class allows.",
        place=stock.name,
        number=f"{_fine(stock.thickness, unit)}, where {_fine(allowed.least, unit)} to {_fine(allowed.most, unit)} "
        "are allowed",
        source=f"PS 1, thickness class {allowed.category} ({allowed.source})",
        remedy="Measure again at several places; name the class the sheet really belongs to, or cut every "
        "groove and notch to the sheet itself.",
    )


def _fine(length: Length, unit: str) -> str:
    """Write a thickness in thousandths, as the standard's table does, and in tenths of a millimeter."""
    pair = f"{decimal(length.inches, 3)} in", f"{decimal(length.mm, 1)} mm"
    lead, other = pair if unit == "in" else pair[::-1]
    return f"{lead} ({other})"
