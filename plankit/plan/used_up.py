"""What is used up: screws with some to spare, glue by the area of the joints, finish and abrasives by the surface."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build, hardware
from plankit.parts import AXES, AXIS_OF, Banding
from plankit.parts.part import THICK_BANDING_MM
from plankit.plan.facts import Coating, Draft
from plankit.plan.hardware_rows import item_needs
from plankit.units import MM_IN, L, Length, decimal, exactly, mixed

GLUE_SPREAD = Fraction(45, 1000)
"""Pounds of white or yellow glue a square foot of joint takes (35 to 50 lb for 1000 sq ft; from memory)."""
GLUE_POUNDS_A_GALLON = Fraction(91, 10)
"""What a gallon of it weighs (9.0 to 9.2 lb; from memory)."""
COVERAGE = Fraction(400)
"""Square feet that a gallon of finish covers, one coat (400 to 500; common practice)."""
FIRST_COAT_OF_OIL = Fraction(200)
"""The same for the first coat of an oil that soaks into bare wood (150 to 250; common practice)."""
OUNCES_IN_GALLON = 128
DISC_COVERS = Fraction(10)
"""Square feet that a 5 in sanding disc smooths before it is worn (common practice)."""
BARE_GRITS = (120, 180)
"""Grits for bare wood, one after the other (80 to 120 to 150, then 180 to 220; common practice)."""
BETWEEN_COATS = 320
"""Grit for sanding between coats (220 to 320; common practice)."""
OUTDOOR_GLUE = "Waterproof wood glue"
SQUARE_FOOT = MM_IN["ft"] ** 2
_UNITS = {
    ("ft", "m"): MM_IN["ft"] / 1000,
    ("fl oz", "ml"): Fraction("29.5735295625"),
    ("fl oz", "l"): Fraction("0.0295735295625"),
}
"""What one of the first unit is in the second (the US fluid ounce by definition: 231 in³ / 128)."""


@dataclass(frozen=True, slots=True)
class Need:
    """Something that is bought by the pack: how much is needed, and in what."""

    item: str
    amount: Fraction
    of: str

    def in_units(self, unit: str) -> Fraction | None:
        """Return the amount in another unit; None where it cannot be told in that one."""
        if unit == self.of or not self.of:
            return self.amount
        factor = _UNITS.get((self.of, unit))
        return None if factor is None else self.amount * factor

    def words(self, unit: str) -> str:
        """Write the amount as a plan in inches or millimetres does: "12.3 ft", "3.8 m"."""
        if not self.of:
            return decimal(self.amount, 0)
        shown = {"ft": "m", "fl oz": "ml"}.get(self.of, self.of) if unit == "mm" else self.of
        amount = self.in_units(shown)
        return f"{decimal(amount or self.amount, 0 if shown == 'ml' else 1)} {shown}"


def needs(draft: Draft) -> tuple[Need, ...]:
    """Return what is bought by the pack, the author's allowance for waste and loss included."""
    spare = 1 + draft.shop.waste_allowance
    found = [_pieces(spec.name, count * spare) for spec, count in hardware(draft.build)]
    found += [_pieces(item, count * spare) for item, count in washers(draft)]
    found += [Need(item, count, "") for item, count in item_needs(draft)]
    found += [Need(bought.item, Fraction(bought.count), "") for bought in draft.bought]
    glued = glued_area(draft)
    if glued:
        glue = OUTDOOR_GLUE if draft.facts.outdoors else "Wood glue"
        found.append(Need(glue, glue_ounces(glued / SQUARE_FOOT) * spare, "fl oz"))
    for item, length in banding_length(draft):
        found.append(Need(item, length.mm / MM_IN["ft"] * spare, "ft"))
    area = surface(draft.build) / SQUARE_FOOT
    if draft.coating is not None:
        found.append(Need(draft.coating.product, finish_ounces(draft.coating, area) * spare, "fl oz"))
    found += _abrasives(draft, area * spare)
    return tuple(found)


def _pieces(item: str, amount: Fraction) -> Need:
    """So many of something that comes whole: the next whole number."""
    return Need(item, Fraction(-int(-amount // 1)), "")


def washers(draft: Draft) -> list[tuple[str, int]]:
    """Return the washers that pan-head screws lie on, by their gauge."""
    joined = (fastener for joint in draft.build.joints for fastener in joint.fasteners)
    counts = Counter(f.spec.gauge for f in joined if f.spec.kind == "pan-head screw")
    return [(f"#{gauge} washer", count) for gauge, count in sorted(counts.items(), key=str)]


def glue_ounces(square_feet: Fraction) -> Fraction:
    """Return the fluid ounces of glue that joints of so large an area take."""
    return square_feet * GLUE_SPREAD / GLUE_POUNDS_A_GALLON * OUNCES_IN_GALLON


def finish_ounces(coating: Coating, square_feet: Fraction) -> Fraction:
    """Return the fluid ounces of finish that a surface takes, all coats together."""
    first = FIRST_COAT_OF_OIL if "oily rags" in coating.topics else COVERAGE
    gallons = square_feet / first + square_feet * (coating.coats - 1) / COVERAGE
    return gallons * OUNCES_IN_GALLON


def _abrasives(draft: Draft, square_feet: Fraction) -> list[Need]:
    """Discs for bare wood, and for between the coats; none where the author buys her own or nothing is sanded."""
    own = any(
        word in bought.item.casefold() for bought in draft.bought for word in ("sand", "abrasive", "grit")
    )
    coats = draft.coating.coats if draft.coating else 0
    if own or not (coats or any("sand" in step.does for step in draft.steps)):
        return []
    found = [_pieces(f"Sanding disc, {grit} grit", square_feet / DISC_COVERS) for grit in BARE_GRITS]
    between = square_feet * (coats - 1) / DISC_COVERS
    return [*found, _pieces(f"Sanding disc, {BETWEEN_COATS} grit", between)] if coats > 1 else found


def glued_area(draft: Draft) -> Fraction:
    """Return the area of all glue lines in square millimetres, glue-ups included."""
    total = sum((Fraction(joint.contact.area_mm2) for joint in draft.build.joints if joint.glue), Fraction(0))
    for part in draft.build.parts:
        if part.glue_up is not None:
            length, _, thickness = part.glue_up.blank
            total += (part.glue_up.boards - 1) * length.mm * thickness.mm
    return total


def banding_length(draft: Draft) -> list[tuple[str, Length]]:
    """Return how long the banded edges are together, for each banding as it is sold.

    Veneer is asked for by its width alone; a strip so thick that the part is cut smaller, by its thickness too.
    """
    found: dict[tuple[Fraction, Fraction], Length] = {}
    for part in draft.build.parts:
        for feature in part.features:
            if isinstance(feature, Banding):
                (along,) = (a for a in AXES if a not in {AXIS_OF[feature.edge], part.through})
                thick = feature.thickness.mm if feature.thickness.mm >= THICK_BANDING_MM else Fraction(0)
                key = (_nominal(part.thickness, draft.notation.unit).mm, thick)
                found[key] = found.get(key, Length.zero()) + part.box.extent(along)
    return [
        (
            f"{_width(Length.of_mm(wide), draft.notation.unit)} edge banding"
            + (f", {exactly(Length.of_mm(thick))} thick" if thick else ""),
            length,
        )
        for (wide, thick), length in sorted(found.items())
    ]


def _nominal(thickness: Length, unit: str) -> Length:
    """Banding is sold for nominal thicknesses: the next quarter of an inch, or the next whole millimetre."""
    step = L("1/4 in") if unit == "in" else L("1 mm")
    return step * -int(-thickness.mm // step.mm)


def _width(length: Length, unit: str) -> str:
    return f"{mixed(length.inches)} in" if unit == "in" else f"{decimal(length.mm, 0)} mm"


def surface(build: Build) -> Fraction:
    """Return the area that is finished in square millimetres: all faces of all parts, joints taken off twice."""
    total = Fraction(0)
    for part in build.parts:
        x, y, z = (size.mm for size in part.box.size)
        total += 2 * (x * y + y * z + x * z)
    pairs = {frozenset((joint.holds, joint.to)): joint.contact.area_mm2 for joint in build.joints}
    return total - 2 * sum((Fraction(area) for area in pairs.values()), Fraction(0))
