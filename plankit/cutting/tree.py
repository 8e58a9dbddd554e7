"""One board or sheet as a tree of rows, in millimetres: what lies beside what, before anybody says how it is cut."""

from dataclasses import dataclass
from fractions import Fraction

from plankit.cutting.slicing import Axis


@dataclass(frozen=True, slots=True)
class Node:
    """A rectangle inside the stock's trim: a part, waste, or parts in a row along an axis, a kerf between them.

    length, width  its extents along and across the stock, mm; a board's width is 1
    part           name of the part it is; empty for waste and rows
    kept           whether it is waste worth keeping
    """

    length: Fraction
    width: Fraction
    part: str = ""
    kept: bool = False
    axis: Axis | None = None
    parts: tuple["Node", ...] = ()

    @property
    def is_waste(self) -> bool:
        """Whether nothing wanted lies in it."""
        return not self.part and self.axis is None

    def size(self, axis: Axis) -> Fraction:
        """Return its extent along an axis of the stock, mm."""
        return self.length if axis == "x" else self.width

    def reaches_far_side(self, axis: Axis) -> bool:
        """Whether a part lies against its far end (x) or far edge (y)."""
        if self.axis is None:
            return bool(self.part)
        if self.axis == axis:
            return self.parts[-1].reaches_far_side(axis)
        return any(one.reaches_far_side(axis) for one in self.parts)
