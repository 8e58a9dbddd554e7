"""A packing: which want lies where on which sheet, in whole numbers, with how it compares."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from plankit.cutting.slicing import Cell, Spot
from plankit.cutting.whole_job import Group

type Score = tuple[int, Fraction, int, int, int]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet or board: its kind by position in the group's rooms, copies cut the same, what lies on it.

    cell  how it is cut apart, once that has been worked out
    """

    kind: int
    copies: int
    spots: tuple[Spot, ...]
    cell: Cell | None = None


@dataclass(frozen=True, slots=True)
class Pack:
    """Sheets with what lies on them, and a weight the solver says cannot be beaten (0 where it says nothing)."""

    sheets: tuple[Sheet, ...]
    bound: Fraction = Fraction(0)

    def used(self, group: Group) -> tuple[int, ...]:
        """How many of each of the group's kinds are used."""
        numbers = Counter[int]()
        for sheet in self.sheets:
            numbers[sheet.kind] += sheet.copies
        return tuple(numbers[n] for n in range(len(group.rooms)))

    def placed(self) -> Counter[int]:
        """How many of each want lie somewhere."""
        found = Counter[int]()
        for sheet in self.sheets:
            for spot in sheet.spots:
                found[spot.want] += sheet.copies
        return found

    def missing(self, group: Group) -> tuple[int, ...]:
        """How many of each want lie nowhere."""
        placed = self.placed()
        return tuple(want.quantity - placed[place] for place, want in enumerate(group.wants))

    def weight(self, group: Group) -> Fraction:
        """Return the sum of what is made least."""
        return sum((group.rooms[sheet.kind].weight * sheet.copies for sheet in self.sheets), Fraction(0))

    def score(self, group: Group) -> Score:
        """Compare packings, least first: area not placed, weight, new stock, little from stock on hand, stock used."""
        lost = sum(n * want.area for n, want in zip(self.missing(group), group.wants, strict=True))
        new = sum(sheet.copies for sheet in self.sheets if not group.rooms[sheet.kind].on_hand)
        return (
            lost,
            self.weight(group),
            new,
            -self._from_hand(group),
            sum(sheet.copies for sheet in self.sheets),
        )

    def _from_hand(self, group: Group) -> int:
        return sum(
            spot.along * spot.across * sheet.copies
            for sheet in self.sheets
            if group.rooms[sheet.kind].on_hand
            for spot in sheet.spots
        )
