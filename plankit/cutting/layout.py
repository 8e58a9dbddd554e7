"""One board or sheet as it is to be cut: the pieces, the offcuts and the cuts, exact, in millimetres."""

from collections import deque
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from plankit.cutting.job import Job, StockKind
from plankit.cutting.slicing import Cell
from plankit.cutting.whole_job import Group

type CutKind = Literal["rip", "crosscut", "trim"]
type Edge = Literal["end 0", "end 1", "edge 0", "edge 1"]


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


@dataclass(frozen=True, slots=True)
class Layout:
    """One kind of stock, cut so; as many copies as are cut the same.

    stages  stages of cuts it takes, the trimming of stock and of single pieces not counted
    """

    kind: StockKind
    copies: int
    pieces: tuple[Placed, ...]
    offcuts: tuple[Offcut, ...]
    cuts: tuple[Cut, ...]
    stages: int

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
    return Layout(frame.kind, 1, tuple(pieces), tuple(offcuts), _cuts(cell, frame, name), cell.stages())


def _walk(cell: Cell, at: tuple[int, int], frame: Frame, pieces: list[Placed], offcuts: list[Offcut]) -> None:
    x, y = at
    at_x = frame.kind.trim_ends + x * frame.group.measure
    at_y = Fraction(0) if frame.group.board else frame.kind.trim_edges + y * frame.group.measure
    size, across = frame.size(cell.along), frame.across(cell.across)
    if cell.want >= 0:
        pieces.append(Placed(frame.group.wants[cell.want].name, at_x, at_y, size, across, cell.turned))
    elif cell.is_waste and frame.keeps(cell):
        offcuts.append(Offcut(at_x, at_y, size, across))
    for part in cell.parts:
        _walk(part, (x, y), frame, pieces, offcuts)
        x, y = (x + part.along, y) if cell.axis == "x" else (x, y + part.across)


def _cuts(cell: Cell, frame: Frame, name: str) -> tuple[Cut, ...]:
    names = _Names(name)
    cuts = _trims(frame, names)
    if cuts:  # a piece as large as the trimmed stock is freed by its last trim
        cuts[-1] = replace(cuts[-1], frees=_part(cell, frame))
    waiting = deque([(cell, cuts[-1].gives[0] if cuts else name)])
    while waiting:
        found, called = waiting.popleft()
        if found.axis is not None:
            cuts += _divide(found, called, frame, names, waiting)
    return tuple(replace(cut, order=order) for order, cut in enumerate(cuts, start=1))


class _Names:
    """Names for what comes off one sheet: s1a, s1b … s1z, s1aa."""

    def __init__(self, base: str) -> None:
        self._base = base
        self._count = 0

    def next(self) -> str:
        self._count += 1
        number, letters = self._count, ""
        while number:
            number, digit = divmod(number - 1, 26)
            letters = chr(ord("a") + digit) + letters
        return self._base + letters


def _trims(frame: Frame, names: _Names) -> list[Cut]:
    """Return the cuts that square up the raw stock: far edge and near edge, far end and near end."""
    kind, cuts, called = frame.kind, [], names._base
    edges: list[tuple[Edge, Fraction]] = []
    if kind.width is not None and kind.trim_edges:
        edges += [("edge 0", kind.width - kind.trim_edges), ("edge 1", kind.clear_width)]
    if kind.trim_ends:
        edges += [("end 0", kind.length - kind.trim_ends), ("end 1", kind.clear_length)]
    for edge, setting in edges:
        left = kind.trim_edges if edge.startswith("edge") else kind.trim_ends
        gives = (names.next(), names.next() if left > frame.job.kerf else None)
        cuts.append(Cut(0, "trim", _tool(frame), edge, setting, called, gives))
        called = gives[0]
    return cuts


def _divide(
    cell: Cell, called: str, frame: Frame, names: _Names, waiting: deque[tuple[Cell, str]]
) -> list[Cut]:
    """Return the cuts that part one row, one after the other from edge 0 or end 0."""
    cuts: list[Cut] = []
    x = cell.axis == "x"
    room = cell.along if x else cell.across
    last = len(cell.parts) - 1
    for place, part in enumerate(cell.parts[:-1]):
        size = part.along if x else part.across
        room -= size
        rest = cell.parts[last] if place == last - 1 else None
        gives = (names.next(), names.next() if frame.size(room) > 0 else None)
        cuts.append(Cut(
            0, "crosscut" if x else "rip", _tool(frame), "end 0" if x else "edge 0", frame.size(size), called, gives,
            _part(part, frame) or (_part(rest, frame) if rest else None),
            _part(rest, frame) if rest and _part(part, frame) else None,
        ))  # fmt: skip
        waiting.append((part, gives[0]))
        if rest is not None and gives[1] is not None:
            waiting.append((rest, gives[1]))
        called = gives[1] or called
    return cuts


def _part(cell: Cell, frame: Frame) -> str | None:
    return frame.group.wants[cell.want].name if cell.want >= 0 else None


def _tool(frame: Frame) -> str:
    return "miter saw" if frame.group.board else "guided saw"
