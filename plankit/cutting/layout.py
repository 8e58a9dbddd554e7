"""One board or sheet as it is to be cut: the pieces, the offcuts and the cuts, exact, in millimetres."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from plankit.cutting.job import Job, StockKind
from plankit.cutting.slicing import Axis, Cell
from plankit.cutting.strips import members
from plankit.cutting.tree import Node
from plankit.cutting.whole_job import Group

type CutKind = Literal["rip", "crosscut", "trim"]
type Edge = Literal["end 0", "end 1", "edge 0", "edge 1"]
type Support = Literal["bearers", "sawhorses", "outfeed", "stands", "bench", ""]


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece where it comes off the stock.

    x, y    its corner nearest to end 0 and edge 0, from the raw stock's corner, mm
    length  its extent along the stock's length, width across it (None on a board), mm
    turned  whether the part's own length runs across the stock
    """

    part: str
    x: Fraction
    y: Fraction
    length: Fraction
    width: Fraction | None
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Offcut:
    """What is left and worth keeping; places and sizes as for a piece, mm."""

    x: Fraction
    y: Fraction
    length: Fraction
    width: Fraction | None

    @property
    def area(self) -> Fraction:
        """Area, or length for a board's, in mm."""
        return self.length * (self.width or 1)


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut right across one named piece, which it divides into two.

    edge     the edge of that piece the setting is measured from
    setting  from that edge to the near side of the kerf, mm: the size of the first piece it gives
    gives    names of the two it gives; the second is None where the cut runs off the edge
    frees    the part it frees first, also_frees the one on the other side of the kerf
    group    number of the setting it is made with, counted through the whole answer; 0 where nobody counted
    mass     of the piece it divides, kg, as it comes to the cut; None where it is not known
    people   how many it takes: two where the piece must be lifted and is above the limit
    support  what carries the work: "bearers" flat under all of it, "sawhorses", "outfeed" behind the saw, "stands"
             beside it, "bench"
    rail_on  which of the two it gives a guide rail lies on: "first" or "second"; empty for other saws
    """

    order: int
    kind: CutKind
    tool: str
    edge: Edge
    setting: Fraction
    of: str
    gives: tuple[str, str | None]
    frees: str | None = None
    also_frees: str | None = None
    group: int = 0
    mass: Fraction | None = None
    people: int = 1
    support: Support = ""
    rail_on: Literal["first", "second", ""] = ""


@dataclass(frozen=True, slots=True)
class Layout:
    """One kind of stock, cut so; as many copies as are cut the same.

    stages  stages of cuts it takes, the trimming of stock and of single pieces not counted
    name    what the whole is called in its cuts: s1
    tree    what lies beside what, from which the cuts are made
    """

    kind: StockKind
    copies: int
    pieces: tuple[Placed, ...]
    offcuts: tuple[Offcut, ...]
    cuts: tuple[Cut, ...]
    stages: int
    name: str = "s1"
    tree: Node | None = None

    @property
    def stock(self) -> str:
        """Name of the stock."""
        return self.kind.name

    @property
    def waste(self) -> Fraction:
        """Share of the raw stock that is neither a piece nor an offcut worth keeping, 0 to 1."""
        whole = self.kind.length * (self.kind.width or 1)
        used = sum((p.length * (p.width or 1) for p in self.pieces), Fraction(0))
        return 1 - (used + sum((o.area for o in self.offcuts), Fraction(0))) / whole


@dataclass(frozen=True, slots=True)
class Frame:
    """What it takes to turn whole numbers into places on one kind of stock."""

    group: Group
    kind: StockKind
    job: Job

    def size(self, whole: int) -> Fraction:
        """Return the millimetres of a whole size without its kerf."""
        return (whole - self.group.kerf) * self.group.measure

    def across(self, whole: int) -> Fraction | None:
        """Return the width without its kerf; None on a board."""
        return None if self.group.board else self.size(whole)

    def keeps(self, cell: Cell) -> bool:
        """Whether waste of that size is worth keeping."""
        length, width = self.size(cell.along), self.across(cell.across)
        if width is None:
            return length >= self.job.keep_length
        return min(length, width) >= self.job.keep_width and max(length, width) >= self.job.keep_length


def layout_of(cell: Cell, frame: Frame, name: str = "s1") -> Layout:
    """Return the layout of one sheet or board from the tree of cuts laid into it."""
    pieces: list[Placed] = []
    offcuts: list[Offcut] = []
    _walk(cell, (0, 0), frame, pieces, offcuts)
    return Layout(frame.kind, 1, tuple(pieces), tuple(offcuts), (), cell.stages(), name, tree_of(cell, frame))


def _placed(whole: Placed, frame: Frame) -> Iterator[Placed]:
    """Give the piece, or where it is a strip, its pieces along it."""
    strip = members(frame.job, whole.part)
    if not strip:
        yield whole
    for one in strip:
        if whole.turned:
            yield replace(whole, part=one.name, y=whole.y + one.start, width=one.length)
        else:
            yield replace(whole, part=one.name, x=whole.x + one.start, length=one.length)


def tree_of(cell: Cell, frame: Frame) -> Node:
    """Return the same tree in millimetres, without kerfs."""
    length = frame.size(cell.along)
    width = Fraction(1) if frame.group.board else frame.size(cell.across)
    name = frame.group.wants[cell.want].name if cell.want >= 0 else ""
    if strip := members(frame.job, name):
        axis: Axis = "y" if cell.turned else "x"
        sizes = [(length, one.length) if cell.turned else (one.length, width) for one in strip]
        row = tuple(Node(*size, one.name) for size, one in zip(sizes, strip, strict=True))
        return row[0] if len(row) == 1 else Node(length, width, axis=axis, parts=row)
    return Node(
        length,
        width,
        name,
        cell.is_waste and frame.keeps(cell),
        cell.axis,
        tuple(tree_of(part, frame) for part in cell.parts),
    )


def _walk(cell: Cell, at: tuple[int, int], frame: Frame, pieces: list[Placed], offcuts: list[Offcut]) -> None:
    x, y = at
    at_x = frame.kind.trim_ends + x * frame.group.measure
    at_y = Fraction(0) if frame.group.board else frame.kind.trim_edges + y * frame.group.measure
    size, across = frame.size(cell.along), frame.across(cell.across)
    if cell.want >= 0:
        pieces += _placed(Placed(frame.group.wants[cell.want].name, at_x, at_y, size, across, cell.turned), frame)
    elif cell.is_waste and frame.keeps(cell):
        offcuts.append(Offcut(at_x, at_y, size, across))
    for part in cell.parts:
        _walk(part, (x, y), frame, pieces, offcuts)
        x, y = (x + part.along, y) if cell.axis == "x" else (x, y + part.across)
