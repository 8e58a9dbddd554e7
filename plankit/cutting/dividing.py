"""How a row is parted, cut by cut: which saw, from which edge, what it needs; nothing yet of the order between rows.

Small parts lie at the near side of a row and come off first, while the stock is still large enough to hold; a piece
too heavy to carry to a saw is first parted where it lies. Where a saw's kerf is not the planned one, every size still
comes from a setting, and what is lost or gained is the waste's.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from plankit.cutting.job import Job, StockKind
from plankit.cutting.layout import Cut, CutKind, Edge, Support
from plankit.cutting.saws import LEDGE, Saw, Way, refusal
from plankit.cutting.slicing import Axis
from plankit.cutting.tree import Node
from plankit.units import MM_IN

_NEAR: dict[Axis, Edge] = {"x": "end 0", "y": "edge 0"}
_FAR: dict[Axis, Edge] = {"x": "end 1", "y": "edge 1"}
_SIDES: frozenset[Edge] = frozenset(("end 0", "end 1", "edge 0", "edge 1"))
_LONG = 36 * MM_IN["in"]
_BENCH = (48 * MM_IN["in"], 24 * MM_IN["in"])


@dataclass(frozen=True, slots=True)
class Held:
    """A piece in hand: what it still is to become, its true size, its straight sides.

    number  tells it from the others off the same stock
    """

    number: int
    node: Node
    length: Fraction
    width: Fraction
    straight: frozenset[Edge]

    def size(self, axis: Axis) -> Fraction:
        """Return its true extent along an axis of the stock, mm."""
        return self.length if axis == "x" else self.width


@dataclass(frozen=True, slots=True)
class Draft:
    """A cut that still waits for its number and its names: the piece it divides, the two it gives, by number."""

    cut: Cut
    of: int
    gives: tuple[int, int | None]


class Divider:
    """Divides one board or sheet; `drafts` are its cuts, none before the cut its piece comes from."""

    def __init__(self, job: Job, kind: StockKind, tree: Node) -> None:
        self.job, self.kind = job, kind
        self.saws = job.saws or (_plain_saw(job, kind),)
        self.drafts: list[Draft] = []
        self._count = 0
        whole = Held(0, tree, kind.length, kind.width or Fraction(1), self._straight())
        self._divide(self._trimmed(whole))

    def _straight(self) -> frozenset[Edge]:
        rough: set[Edge] = {"end 0", "end 1"} if self.kind.trim_ends else set()
        return _SIDES - (rough | ({"edge 0", "edge 1"} if self.kind.trim_edges else set()))

    def _new(self) -> int:
        self._count += 1
        return self._count

    # -- trimming -------------------------------------------------------------------------------------------------

    def _trimmed(self, held: Held) -> Held:
        """Cut off the trim where a part lies against it, and at the near sides, from which all is measured."""
        axes: tuple[tuple[Axis, Fraction], ...] = (("y", self.kind.trim_edges), ("x", self.kind.trim_ends))
        for axis, trim in axes:
            if trim and held.node.reaches_far_side(axis):
                held = self._trim(held, axis, _NEAR[axis], trim)
            if trim:
                held = self._trim(held, axis, _FAR[axis], trim)
        if held.number and held.node.part:
            self._free([held.node.part])
        return held

    def _trim(self, held: Held, axis: Axis, edge: Edge, trim: Fraction) -> Held:
        setting = held.size(axis) - trim
        made = _OPPOSITE[edge]
        saw = self._saw(held, axis, setting)
        gives = (self._new(), self._new() if trim > saw.kerf else None)
        self._add(held, saw, "trim", edge, setting, gives)
        return _cut_down(held, gives[0], axis, setting, made)

    # -- rows -----------------------------------------------------------------------------------------------------

    def _divide(self, held: Held) -> None:
        node = held.node
        if node.axis is None:
            return
        if self._is_heavy(held) and len(node.parts) > 2 and not self._goes_on_where_it_lies(held):
            self._halved(held)
            return
        for piece in self._row(held):
            self._divide(piece)

    def _goes_on_where_it_lies(self, held: Held) -> bool:
        """Whether the saw that would part the row, were it light, comes to the work anyway."""
        axis = held.node.axis or "x"
        return self._liked(held, axis, held.node.parts[0].size(axis), light=True).goes_to_the_work

    def _halved(self, held: Held) -> None:
        """Part a row between two of its parts, as near its middle as can be, and go on with both halves."""
        node, axis = held.node, held.node.axis or "x"
        places = range(1, len(node.parts))
        sizes = [sum((p.size(axis) for p in node.parts[:n]), Fraction(0)) + self.job.kerf * (n - 1) for n in places]
        place = min(places, key=lambda n: (abs(2 * sizes[n - 1] - held.size(axis)), n))
        setting = sizes[place - 1]
        saw = self._saw(held, axis, setting)
        rest = held.size(axis) - setting - saw.kerf
        if saw.kerf > self.job.kerf or rest <= 0:
            for piece in self._row(held):
                self._divide(piece)
            return
        gives = (self._new(), self._new())
        self._add(held, saw, _kind(axis), _NEAR[axis], setting, gives)
        one = _cut_down(held, gives[0], axis, setting, _FAR[axis])
        two = _cut_down(held, gives[1], axis, rest, _NEAR[axis])
        halves = [
            replace(half, node=_row_of(node, axis, parts, half.size(axis)))
            for half, parts in ((one, node.parts[:place]), (two, node.parts[place:]))
        ]
        self._free(half.node.part for half in halves)
        for half in halves:
            self._divide(half)

    def _free(self, parts: Iterable[str]) -> None:
        """Say of the last cut which parts it frees."""
        freed = (*(part for part in parts if part), None, None)
        last = self.drafts[-1]
        self.drafts[-1] = replace(last, cut=replace(last.cut, frees=freed[0], also_frees=freed[1]))

    def _row(self, held: Held) -> Iterator[Held]:
        """Cut the parts of a row off one after the other; give each as it comes."""
        axis = held.node.axis or "x"
        wanted = [part for part in held.node.parts if not part.is_waste]
        for place, part in enumerate(wanted):
            size, is_last = part.size(axis), place == len(wanted) - 1
            if is_last and held.size(axis) == size:
                yield replace(held, node=part)
                return
            piece, held = self._off(held, axis, part, wanted[place + 1 :])
            yield piece

    def _off(self, held: Held, axis: Axis, part: Node, after: list[Node]) -> tuple[Held, Held]:
        """Cut one part off the near side of a row."""
        size = part.size(axis)
        saw = self._saw(held, axis, size, self._need(held.node, axis, after))
        rest = held.size(axis) - size - saw.kerf
        lone = after[0] if len(after) == 1 and rest == after[0].size(axis) else None
        gives = (self._new(), self._new() if rest > 0 else None)
        freed = [one.part for one in (part, *([lone] if lone else [])) if one.part]
        edge, setting, given = _NEAR[axis], size, gives
        if self._is_flipped(saw, held, axis, size):
            edge, setting, given = _FAR[axis], rest, (gives[1] or 0, gives[0])
            freed.reverse()
        self._add(held, saw, _kind(axis), edge, setting, given, ((*freed, None, None)[0], (*freed, None, None)[1]))
        piece = replace(_cut_down(held, gives[0], axis, size, _FAR[axis]), node=part)
        return piece, _cut_down(held, gives[1] or 0, axis, max(rest, Fraction(0)), _NEAR[axis])

    def _need(self, node: Node, axis: Axis, after: list[Node]) -> Fraction:
        """What a cut must leave of a row: the parts still to come, and the offcut that was promised."""
        last = [node.parts[-1]] if node.parts[-1].kept else []
        still = [*after, *last]
        return sum((one.size(axis) for one in still), self.job.kerf * max(0, len(still) - 1))

    # -- saws -----------------------------------------------------------------------------------------------------

    def _saw(self, held: Held, axis: Axis, setting: Fraction, need: Fraction = Fraction(0)) -> Saw:
        return self._liked(held, axis, setting, need=need, light=not self._is_heavy(held))

    def _liked(
        self, held: Held, axis: Axis, setting: Fraction, *, need: Fraction = Fraction(0), light: bool
    ) -> Saw:
        """Return the saw for a cut: one with a stop where the piece is no wider than it takes, else the best liked."""
        order = sorted(self.saws, key=lambda saw: (saw.way == "hand", saw.way != "stop"))
        able = [saw for saw in order if self._can(saw, held, axis, setting, need)]
        lifted = [saw for saw in able if light or saw.goes_to_the_work]
        wide = self.job.kerf
        return (lifted or able or sorted(order, key=lambda s: (s.kerf > wide, not s.goes_to_the_work)))[0]

    def _can(self, saw: Saw, held: Held, axis: Axis, setting: Fraction, need: Fraction) -> bool:
        across = held.size(axis)
        rest = across - setting - saw.kerf
        if need and rest < need + max(Fraction(0), saw.kerf - self.job.kerf) * len(held.node.parts):
            return False
        if not self.job.saws:
            return True
        along = held.size("y" if axis == "x" else "x") if self.kind.width is not None else self._breadth()
        from_edge = rest if self._is_flipped(saw, held, axis, setting) else setting
        ripped = axis == "y" and self.kind.breadth is not None
        return not refusal(saw, along, across, from_edge, self.kind.thickness, with_grain=ripped)

    def _breadth(self) -> Fraction:
        """A board's own width; one that is not known refuses nothing."""
        return self.kind.breadth or LEDGE

    def _is_flipped(self, saw: Saw, held: Held, axis: Axis, setting: Fraction) -> bool:
        """Whether the far side goes to the fence, so that a narrow strip falls away from it."""
        if saw.way != "fence" or _FAR[axis] not in held.straight:
            return False
        across, along = held.size(axis), held.size("y" if axis == "x" else "x")
        return bool(refusal(saw, along, across, setting, None)) and not refusal(
            saw, along, across, across - setting - saw.kerf, None
        )

    def _is_heavy(self, held: Held) -> bool:
        limit, mass = self.job.lifting_limit, self._mass(held)
        return limit is not None and mass is not None and mass > limit

    def _mass(self, held: Held) -> Fraction | None:
        if self.kind.mass is None:
            return None
        return self.kind.mass * held.length * held.width / (self.kind.length * (self.kind.width or 1))

    # -- a cut ----------------------------------------------------------------------------------------------------

    def _add(  # noqa: PLR0917 - what a cut is made of
        self,
        held: Held,
        saw: Saw,
        kind: CutKind,
        edge: Edge,
        setting: Fraction,
        gives: tuple[int, int | None],
        frees: tuple[str | None, str | None] = (None, None),
    ) -> None:
        axis: Axis = "x" if edge.startswith("end") else "y"
        people = 2 if self._is_heavy(held) and not saw.goes_to_the_work else 1
        made = Cut(
            0, kind, saw.name, edge, setting, "", ("", None), *frees, 0, self._mass(held), people,
            self._support(held, saw, axis), _rail_on(saw, held.size(axis), setting),
        )  # fmt: skip
        self.drafts.append(Draft(made, held.number, gives))

    def _support(self, held: Held, saw: Saw, axis: Axis) -> Support:
        long, short = held.length, held.width if self.kind.width is not None else Fraction(0)
        long, short = max(long, short), min(long, short)
        if saw.goes_to_the_work:
            if self._is_heavy(held) or short > _BENCH[0]:
                return "bearers"
            return "bench" if long <= _BENCH[0] and short <= _BENCH[1] else "sawhorses"
        reach = held.size("y" if axis == "x" else "x") if saw.way == "fence" else held.size(axis)
        if reach <= _LONG:
            return "bench"
        return "outfeed" if saw.way == "fence" else "stands"


_OPPOSITE: dict[Edge, Edge] = {"edge 0": "edge 1", "edge 1": "edge 0", "end 0": "end 1", "end 1": "end 0"}


def _plain_saw(job: Job, kind: StockKind) -> Saw:
    """The saw where the job names none: without limits, of the job's kerf."""
    way: Way = "guide" if kind.width is not None else "stop"
    return Saw("guided saw" if way == "guide" else "miter saw", way, job.kerf)


def _kind(axis: Axis) -> CutKind:
    return "crosscut" if axis == "x" else "rip"


def _cut_down(held: Held, number: int, axis: Axis, size: Fraction, made: Edge) -> Held:
    """Return what a cut leaves of a piece: its number, its new size along an axis, the side the blade made."""
    length, width = (size, held.width) if axis == "x" else (held.length, size)
    return replace(held, number=number, length=length, width=width, straight=held.straight | {made})


def _row_of(node: Node, axis: Axis, parts: tuple[Node, ...], room: Fraction) -> Node:
    """Return some parts of a row as what a piece of that extent is to become."""
    if len(parts) == 1 and (parts[0].size(axis) == room or parts[0].is_waste):
        return parts[0]
    return replace(node, parts=parts)


def _rail_on(saw: Saw, across: Fraction, setting: Fraction) -> Literal["first", "second", ""]:
    if saw.way != "guide":
        return ""
    rest = across - setting - saw.kerf
    return "second" if setting < LEDGE and rest > setting else "first"
