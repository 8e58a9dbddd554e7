"""From rectangles side by side to a tree of edge-to-edge cuts, put in a maker's order.

A tree says only what is cut apart from what and in which direction; sizes come back when it is laid into a sheet, so
a layout found with coarser numbers is laid out with the exact ones. Strips of one cutting direction may change places
freely: equal sizes come together, what is too small to hold first, then the widest, all waste in one piece at the
far side.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

type Axis = Literal["x", "y"]


@dataclass(frozen=True, slots=True)
class Spot:
    """A rectangle a solver placed: which want, turned or not, and where, a kerf included."""

    want: int
    turned: bool
    x: int
    y: int
    along: int
    across: int


@dataclass(frozen=True)
class Shape:
    """A tree of cuts without sizes: one piece, or parts in a row along an axis."""

    want: int = -1
    turned: bool = False
    along: int = 0
    across: int = 0
    axis: Axis | None = None
    parts: tuple["Shape", ...] = ()

    @cached_property
    def room(self) -> tuple[int, int]:
        """The least room it needs along and across."""
        if self.axis is None:
            return self.along, self.across
        rooms = [part.room for part in self.parts]
        along, across = [room[0] for room in rooms], [room[1] for room in rooms]
        return (sum(along), max(across)) if self.axis == "x" else (max(along), sum(across))


@dataclass(frozen=True, slots=True)
class Cell:
    """A rectangle of the sheet as cut: a piece, waste, or parts in a row along an axis; a kerf included."""

    along: int
    across: int
    want: int = -1
    turned: bool = False
    axis: Axis | None = None
    parts: tuple["Cell", ...] = ()

    @property
    def is_waste(self) -> bool:
        """Whether nothing wanted lies in it."""
        return self.want < 0 and self.axis is None

    def pieces(self) -> Iterable["Cell"]:
        """Every piece in it."""
        if self.want >= 0:
            yield self
        for part in self.parts:
            yield from part.pieces()

    def wastes(self) -> Iterable["Cell"]:
        """Every piece of waste in it."""
        if self.is_waste:
            yield self
        for part in self.parts:
            yield from part.wastes()

    def stages(self) -> int:
        """How many stages of cuts it takes, a trimming cut that only frees a piece not counted."""
        if self.axis is None or _frees_one(self):
            return 0
        return 1 + max(part.stages() for part in self.parts)

    def settings(self) -> int:
        """How many different settings its cuts take, each size along and across counted once."""
        return len(set(self._settings()))

    def _settings(self) -> Iterable[tuple[Axis, int]]:
        if self.axis is None:
            return
        kept = [part for part in self.parts if not part.is_waste]
        set_off = kept if len(kept) < len(self.parts) else kept[:-1]
        for part in set_off:
            yield self.axis, part.along if self.axis == "x" else part.across
        for part in self.parts:
            yield from part._settings()

    def cuts(self) -> int:
        """How many cuts it takes."""
        return max(0, len(self.parts) - 1) + sum(part.cuts() for part in self.parts)


def shapes_of(spots: tuple[Spot, ...]) -> tuple[Shape, ...]:
    """Return the trees that cut the rectangles apart, one for each first direction; none where no tree does."""
    found = [shape for axis in ("x", "y") if (shape := _shape(spots, axis)) is not None]
    return tuple(dict.fromkeys(found))


def laid_out(
    shape: Shape, along: int, across: int, first: Axis, small: tuple[int, int] = (0, 0)
) -> Cell | None:
    """Lay a tree into a sheet, the first cut in the given direction; None where it does not fit.

    small  extents along and across below which a strip comes first in its row, to be cut off while the stock is large
    """
    need = shape.room
    if need[0] > along or need[1] > across:
        return None
    if shape.axis == first:
        return _cell(shape, along, across, small)
    return _row(first, [(shape, *need)], along, across, small)


def _shape(spots: tuple[Spot, ...], axis: Axis, stuck: bool = False) -> Shape | None:
    if len(spots) == 1:
        one = spots[0]
        return Shape(one.want, one.turned, one.along, one.across)
    rows = _apart(spots, axis)
    other: Axis = "y" if axis == "x" else "x"
    if len(rows) == 1:
        return None if stuck else _shape(spots, other, stuck=True)
    parts = [_shape(row, other) for row in rows]
    if any(part is None for part in parts):
        return None
    return Shape(axis=axis, parts=tuple(part for part in parts if part is not None))


def _apart(spots: tuple[Spot, ...], axis: Axis) -> list[tuple[Spot, ...]]:
    """Part rectangles at every line across the axis that cuts none of them."""
    rows: list[list[Spot]] = []
    reach = -1
    for spot in sorted(spots, key=lambda s: (s.x, s.y) if axis == "x" else (s.y, s.x)):
        start, size = (spot.x, spot.along) if axis == "x" else (spot.y, spot.across)
        if not rows or start >= reach:
            rows.append([])
        rows[-1].append(spot)
        reach = max(reach, start + size)
    return [tuple(row) for row in rows]


def _cell(shape: Shape, along: int, across: int, small: tuple[int, int]) -> Cell:
    if shape.axis is not None:
        return _row(shape.axis, [(part, *part.room) for part in shape.parts], along, across, small)
    if (shape.along, shape.across) == (along, across):
        return Cell(along, across, shape.want, shape.turned)
    return _row("x" if shape.along < along else "y", [(shape, *shape.room)], along, across, small)


def _row(
    axis: Axis, parts: list[tuple[Shape, int, int]], along: int, across: int, small: tuple[int, int]
) -> Cell:
    x = axis == "x"
    cells = [_cell(part, a if x else along, across if x else b, small) for part, a, b in parts]
    left = (along - sum(c.along for c in cells)) if x else (across - sum(c.across for c in cells))
    least = small[0] if x else small[1]
    cells.sort(key=lambda c: ((c.along if x else c.across) >= least, -(c.along if x else c.across), _content(c)))
    if left:
        cells.append(Cell(left if x else along, across if x else left))
    return cells[0] if len(cells) == 1 else Cell(along, across, axis=axis, parts=tuple(cells))


def _content(cell: Cell) -> tuple[tuple[int, bool], ...]:
    return tuple(sorted((piece.want, piece.turned) for piece in cell.pieces()))


def _frees_one(cell: Cell) -> bool:
    return len(cell.parts) == 2 and cell.parts[0].want >= 0 and cell.parts[1].is_waste
