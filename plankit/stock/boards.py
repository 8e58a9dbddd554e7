"""Lumber: boards by nominal size and wood."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from plankit.errors import PlanError
from plankit.reference import Species, density_at_12_percent, dressed, hardwood_thickness
from plankit.reference import species as wood_called
from plankit.stock.names import Size, as_sold, read_size, refuse_unnamed, slug
from plankit.units import Density, L, Length, Mass, mixed, read_number, tidy

USUAL_LENGTHS = ("8 ft", "10 ft", "12 ft")
"""Lengths that lumber is sold in where the author's price list says nothing (common practice)."""


@dataclass(frozen=True, slots=True)
class Lumber:
    """A board of one nominal size and wood.

    nominal    the size it is called by: "2x10"
    species    the wood by its trade name: "loblolly pine"
    thickness, width  what it measures, dressed and dry; the thickness is the smaller
    lengths    the lengths it is sold in, shortest first
    modulus_psi stiffness in bending: an average of clear wood, no design value
    movement_tangential, movement_radial  change of width for 1 % of moisture, flat- and quarter-sawn
    """

    nominal: str
    species: str
    thickness: Length
    width: Length
    lengths: tuple[Length, ...]
    density: Density
    specific_gravity: Fraction
    modulus_psi: Fraction
    movement_tangential: Fraction
    movement_radial: Fraction
    source: str
    status: str
    measured: bool = False

    @property
    def name(self) -> str:
        """What it is called in lists: "4x4 loblolly pine"."""
        return f"{self.nominal} {self.species}"

    @property
    def key(self) -> str:
        """A name for files and keys, the same every time."""
        return slug(self.name)

    @property
    def hardwood(self) -> bool:
        """Whether its tree is one with broad leaves, by the groups of the Wood Handbook; heavy pines are softwood."""
        return wood_called(self.species).group != "softwood"

    def weight(self, length: Length) -> Mass:
        """Return what so much of it weighs."""
        return self.density.mass_of(self.thickness.mm * self.width.mm * length.mm)

    def board_feet(self, length: Length) -> Fraction:
        """Return how many board feet so much of it is sold as."""
        return board_feet(self.nominal, length)


def lumber(
    nominal: str,
    *,
    species: str = "",
    measured: tuple[Size, Size] | None = None,
    lengths: Sequence[Size] | None = None,
) -> Lumber:
    """Return lumber by its nominal size and wood.

    nominal   "2x10", "4x4", "5/4x6": softwood by PS 20. A hardwood in quarters ("4/4x7") has the surfaced
              thickness of the hardwood rules and the width as it is written
    species   "loblolly pine", "Pine, loblolly", "hard maple" …
    measured  thickness and width that your boards really have, such as ("1 7/16", "9 1/8")
    lengths   the lengths it is sold in; a number without a unit is inches; 8, 10 and 12 ft if left out
    raises    PlanError for an unknown size or wood, or a size that cannot be read
    """
    for what, said in (("nominal size", nominal), ("species", species)):
        wanted = f"lumber is named by its nominal size and its wood: its {what}"
        remedy = 'For instance  stock.lumber("2x4", species="loblolly pine")'
        refuse_unnamed(said, wanted, "stock.lumber", remedy)
    if lengths is not None and (isinstance(lengths, str) or not isinstance(lengths, Sequence)):
        raise PlanError(
            "the lengths it is sold in: a list was expected.",
            where="stock.lumber",
            given=f"lengths={lengths!r}",
            remedy='For instance  lengths=["8 ft", "10 ft"]',
        )
    wood = wood_called(species)
    density = density_at_12_percent(wood)
    thickness, width, called, source, status = _sizes(nominal, wood)
    name = f"{called} {wood.trade_name}"
    if measured is not None:
        thickness, width = _measured(measured, name)
    sold = sorted(read_size(size, "in", of=name, what="length sold").mm for size in lengths or USUAL_LENGTHS)
    return Lumber(
        called,
        wood.trade_name,
        as_sold(thickness, f"{name} thickness"),
        as_sold(width, f"{name} width"),
        tuple(Length.of_mm(mm) for mm in dict.fromkeys(sold)),
        density,
        wood.specific_gravity or Fraction(0),
        wood.modulus_psi or Fraction(0),
        wood.movement_tangential,
        wood.movement_radial,
        f"sizes: {source}; wood: {wood.source}",
        f"sizes: {status}; wood: {wood.status}",
        measured is not None,
    )


def board_feet(nominal: str, length: Length) -> Fraction:
    """Return board feet: nominal thickness × nominal width × length ÷ 144 cubic inches.

    A thickness under 1 in counts as 1 in (common rule of the lumber trade).
    raises  PlanError where the nominal size is not a thickness and a width, such as "2x10"
    """
    thickness, width = _nominal_inches(nominal)
    return max(thickness, Fraction(1)) * width * length.inches / 144


def _sizes(nominal: str, wood: Species) -> tuple[Length, Length, str, str, str]:
    quarters = re.fullmatch(r"(\d+/4)x(.+)", _plain(nominal))
    if quarters and wood.group != "softwood":
        thickness = hardwood_thickness(quarters[1])
        width = L(_nominal_inches(nominal)[1], "in")
        called = f"{quarters[1]}x{mixed(width.inches).replace(' ', '-')}"
        return thickness.surfaced, width, called, thickness.source, thickness.status
    size = dressed(nominal)
    return size.thickness, size.width, size.nominal, size.source, size.status


def _measured(measured: tuple[Size, Size], name: str) -> tuple[Length, Length]:
    if isinstance(measured, str | Length) or len(measured) != 2:
        raise PlanError(
            "measured lumber needs two sizes.",
            where=name,
            given=repr(measured),
            remedy='Give the thickness and the width: measured=("1 7/16", "9 1/8").',
        )
    thickness = read_size(measured[0], "in", of=name, what="measured thickness")
    width = read_size(measured[1], "in", of=name, what="measured width")
    return thickness, width


def _nominal_inches(nominal: str) -> tuple[Fraction, Fraction]:
    pieces = [piece.strip() for piece in _crossed(nominal).split("x")]
    try:
        thickness, width = (read_number(piece) for piece in pieces)
    except ValueError:
        raise PlanError(
            "this is not the nominal size of a board.",
            given=repr(nominal),
            remedy='Give its thickness and width in inches: "2x10", "5/4x6".',
        ) from None
    return thickness, width


def _crossed(nominal: str) -> str:
    return tidy(nominal).lower().replace("×", "x").replace('"', "")


def _plain(nominal: str) -> str:
    return _crossed(nominal).replace(" ", "")
