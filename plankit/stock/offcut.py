"""Offcuts: what is left of earlier stock and still good for something."""

from dataclasses import dataclass
from fractions import Fraction

from plankit.stock.names import slug
from plankit.units import Length


@dataclass(frozen=True, slots=True)
class Offcut:
    """One piece of stock on hand.

    stock    the name of the stock it came from: "4x4 loblolly pine"
    length   along the grain, or along the longer side of the sheet it came from
    width    across; None for a board of full width
    label    how it is marked on the rack
    note     anything to know before cutting it: a painted face, nails drawn
    defects  knots, splits and the like, right across it: from where to where, from its left end
    """

    stock: str
    length: Length
    width: Length | None
    label: str
    note: str = ""
    defects: tuple[tuple[Length, Length], ...] = ()

    @property
    def key(self) -> str:
        """The key of the stock it came from."""
        return slug(self.stock)

    def clear(self, kerf: Fraction = Fraction(0)) -> tuple["Clear", ...]:
        """Return its lengths without a defect, from its left end on; the whole where it has none.

        kerf  of the cut that takes a defect off, mm: one narrower than that takes more than itself
        """
        found: list[Clear] = []
        begins = Length.zero()
        for start, end in sorted(self.defects, key=lambda one: (one[0].mm, one[1].mm)):
            if start.mm > begins.mm:
                found.append(Clear(begins, start, begins.mm > 0, ends=True))
            after = end if end.mm >= start.mm + kerf else Length.of_mm(start.mm + kerf)
            begins = after if after.mm > begins.mm else begins
        if begins.mm < self.length.mm:
            found.append(Clear(begins, self.length, begins.mm > 0, ends=False))
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Clear:
    """A clear length of an offcut: from where to where, and which of its ends must be cut first."""

    start: Length
    end: Length
    begins: bool
    ends: bool

    @property
    def length(self) -> Length:
        """How long it is."""
        return self.end - self.start

    @property
    def whole(self) -> bool:
        """Whether it is the whole offcut."""
        return not (self.begins or self.ends)
