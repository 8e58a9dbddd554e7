"""The order of cuts in words, for someone who stands at the saw with the drawing beside her.

What stays keeps its name while pieces come off it; a piece that is cut again is called by the cut that took it off.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from plankit.cutting import Cut, Layout, Result
from plankit.cutting.saws import HELD
from plankit.drawing.words import listed, within
from plankit.plan.cut_places import Rectangle, after_each_cut
from plankit.units import Length, Mass, Notation

EDGES = {"edge 0": "lower edge", "edge 1": "upper edge", "end 0": "left end", "end 1": "right end"}
"""Edges and ends as the cutting drawing shows them."""
_OTHER = {"edge 0": "edge 1", "edge 1": "edge 0", "end 0": "end 1", "end 1": "end 0"}
_VERBS = {"rip": "Rip", "crosscut": "Crosscut"}
CARRIED = {
    "bearers": "flat on boards laid on the floor",
    "sawhorses": "on boards across sawhorses",
    "bench": "on the bench",
    "outfeed": "support behind the saw",
    "stands": "its end on a stand",
    "": "",
}
"""What carries the work, as a table says it."""


READING = (
    "Rings in the drawings number the cuts. Piece 3 is what cut 3 takes off; it keeps that number while parts come off "
    "it, and so the sheet or board stays the sheet or board. Edges and ends are called as they lie in the drawing."
)
"""How the order of cuts is read, told once."""


@dataclass(frozen=True, slots=True)
class Told:
    """What is known of the pieces on a board or sheet beside their sizes.

    names    what each label's part is called
    one      what is cut: "sheet" or "board"
    offcuts  what its offcuts are called: "Offcut 1"
    mitered  how the saw is set for pieces mitered at both ends: "saw turned 45°", by label
    later    the step that parts a piece off, by label; such cuts are not made with the others
    stops    the saws that are used with a stop
    """

    names: Mapping[str, str]
    one: str
    offcuts: tuple[str, ...] = ()
    mitered: Mapping[str, str] = field(default_factory=dict)
    later: Mapping[str, int] = field(default_factory=dict)
    stops: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class CutRow:
    """One cut as a row of the table.

    saw      as this shop calls it
    setting  the size and the edge it is measured from
    same     whether the saw is still set as for the row before
    work     what is cut, and what comes off
    rest     what is left when nothing more is cut off it: "the rest is waste"; "" where more is
    carried  the weight of the piece that is cut, and what carries it
    """

    order: int
    saw: str
    setting: str
    same: bool
    work: str
    rest: str
    carried: str

    @property
    def text(self) -> str:
        """The whole row as sentences."""
        return f"{self.set_to}: {_ended(self.work, self.rest)}{f' ({self.carried})' if self.carried else ''}"

    @property
    def set_to(self) -> str:
        """The saw and how it is set."""
        return f"{self.saw}, {'still ' if self.same else ''}{self.setting}"


def cut_rows(layout: Layout, told: Told, write: Notation) -> tuple[CutRow, ...]:
    """Return the cuts of one board or sheet as rows, in their order."""
    words = _Words(layout, told, write)
    rows: list[CutRow] = []
    for made in layout.cuts:
        before = layout.cuts[made.order - 2] if made.order > 1 else None
        same = before is not None and made.kind != "trim" and before.group == made.group > 0
        work, rest = words.work(made)
        step = told.later.get(made.frees or "")
        saw, carried = (f"Not now but in step {step}", "") if step else (made.tool, words.carried(made))
        rows.append(CutRow(made.order, saw, _setting(layout, made, write), same, work, rest, carried))
    return tuple(rows)


def _setting(layout: Layout, made: Cut, write: Notation) -> str:
    """What is measured: how much a trim takes off, or what a cut leaves on the side it is measured from."""
    if made.kind == "trim":
        return f"{_trim(layout, made, write)} off the {EDGES[_OTHER[made.edge]]}"
    return f"{write.both(Length.of_mm(made.setting))} from the {EDGES[made.edge]}"


def _trim(layout: Layout, made: Cut, write: Notation) -> str:
    kind = layout.kind
    return write.both(Length.of_mm(kind.trim_edges if made.edge.startswith("edge") else kind.trim_ends))


@dataclass(frozen=True, slots=True)
class CutLine:
    """One line of the table: cuts alike that follow each other, "2–4"; the rest as in a row."""

    cuts: str
    set_to: str
    work: str
    carried: str


def cut_table(rows: tuple[CutRow, ...]) -> tuple[CutLine, ...]:
    """Return the rows as lines; cuts with one setting that free the same part one after the other share a line."""
    runs: list[list[CutRow]] = []
    for row in rows:
        if runs and row.same and row.work == runs[-1][0].work and not runs[-1][-1].rest:
            runs[-1].append(row)
        else:
            runs.append([row])
    return tuple(_line(run) for run in runs)


def _line(run: list[CutRow]) -> CutLine:
    first, last, many = run[0], run[-1], len(run)
    if many == 1:
        return CutLine(str(first.order), first.set_to, _ended(first.work, first.rest), first.carried)
    work = _ended(f"{many} times: {within(first.work)}", last.rest)
    return CutLine(f"{first.order}–{last.order}", first.set_to, work, first.carried)


def _ended(work: str, rest: str) -> str:
    return f"{work}; {rest}." if rest else f"{work}."


class _Words:
    """What the pieces of one layout are called as they come off."""

    def __init__(self, layout: Layout, told: Told, write: Notation) -> None:
        self.layout, self.told, self.write = layout, told, write
        self.called = {layout.name: f"the {told.one}"}
        self.places = after_each_cut(layout)
        self.cut_again = {cut.of for cut in layout.cuts}

    def work(self, made: Cut) -> tuple[str, str]:
        """Return what is cut and comes off, and what is left of it for good."""
        piece = self.called[made.of]
        if made.kind == "trim":
            self.called[made.gives[0]] = piece
            freed = f"; this frees {self._part(made.frees)}" if made.frees else ""
            return f"Trim {piece}, the blade on the waste side{freed}", ""
        apart, rest = (made.gives[1], made.gives[0]) if made.edge.endswith("1") else made.gives
        verb = f"{_VERBS[made.kind]} {piece}"
        if made.frees in self.told.mitered and not made.also_frees:
            verb = self._miter(made.frees or "", piece)
        return f"{verb}: {self._off(made, apart)}", self._rest(piece, rest, made)

    def _miter(self, label: str, piece: str) -> str:
        """Say how a piece with two miters comes off: the end of the stick is mitered first, and is so after each."""
        setting = self.told.mitered[label]
        return (
            f"Miter {piece} ({setting}) from long point to long point, its end mitered first with the long point at "
            "the corner, and the stick turned over for each"
        )

    def carried(self, made: Cut) -> str:
        mass = self.write.mass(Mass(made.mass)) if made.mass is not None else ""
        who = "two people" if made.people > 1 else ""
        is_short = made.tool in self.told.stops and made.setting < HELD
        short = "the stick clamped, no stop block" if is_short else ""
        return ", ".join(said for said in (mass, CARRIED[made.support], who, short) if said)

    def _off(self, made: Cut, name: str | None) -> str:
        freed = [label for label in (made.frees, made.also_frees) if label]
        if name is not None and name in self.cut_again:
            self.called[name] = f"piece {made.order}"
            wanted = self._inside(self.places[name])
            frees = f"; {self._part(freed[0])} is what is left" if freed else ""
            return f"piece {made.order} comes off, for {listed(wanted)}{frees}"
        said = " and ".join(self._part(label) for label in freed) or "waste"
        return f"{said} {'come' if len(freed) > 1 else 'comes'} off"

    def _rest(self, piece: str, name: str | None, made: Cut) -> str:
        if name is None or made.also_frees:
            return ""
        if name in self.cut_again:
            self.called[name] = piece
            return ""
        kept = [
            f"offcut {called.removeprefix('Offcut ')}"
            for called, place in zip(self.told.offcuts, self._offcuts(), strict=True)
            if _holds(self.places[name], place)
        ]
        parts = self._inside(self.places[name])
        return "" if parts else f"the rest is {listed(kept) if kept else 'waste'}"

    def _part(self, label: str | None) -> str:
        return f"{label} ({self.told.names[label]})" if label else ""

    def _inside(self, place: Rectangle) -> list[str]:
        labels = [p.part for p in self.layout.pieces if _holds(place, _place(p.x, p.y, p.length, p.width))]
        return sorted(set(labels))

    def _offcuts(self) -> list[Rectangle]:
        return [_place(o.x, o.y, o.length, o.width) for o in self.layout.offcuts]


def _place(x: Fraction, y: Fraction, length: Fraction, width: Fraction | None) -> Rectangle:
    return (x, y, x + length, y + (width or 1))


def _holds(outer: Rectangle, inner: Rectangle) -> bool:
    """Whether one rectangle's middle lies in another; thinner kerfs may shift its sides by a hair."""
    x, y = (inner[0] + inner[2]) / 2, (inner[1] + inner[3]) / 2
    return outer[0] <= x <= outer[2] and outer[1] <= y <= outer[3]


@dataclass(frozen=True, slots=True)
class SharedLine:
    """One setting that serves several drawings: how the saw is set, and the cuts made with it."""

    set_to: str
    cuts: str


def shared_lines(result: Result, first: int, write: Notation) -> tuple[SharedLine, ...]:
    """Return the order in which the drawings of one stock are cut together, a line for each setting.

    first  number of the first of these drawings; nothing where each is cut by itself
    """
    runs: list[tuple[int, list[tuple[int, int]]]] = []
    for layout, order in result.sequence:
        group = result.layouts[layout].cuts[order - 1].group
        if not runs or runs[-1][0] != group:
            runs.append((group, []))
        runs[-1][1].append((layout, order))
    if all(len({layout for layout, _ in cuts}) == 1 for _, cuts in runs):
        return ()
    lines = []
    for _, cuts in runs:
        made = result.layouts[cuts[0][0]].cuts[cuts[0][1] - 1]
        by_drawing: dict[int, list[int]] = {}
        for layout, order in cuts:
            by_drawing.setdefault(layout + first, []).append(order)
        said = "; ".join(f"drawing {number}: {_cuts(orders)}" for number, orders in by_drawing.items())
        lines.append(SharedLine(f"{made.tool}, {_setting(result.layouts[cuts[0][0]], made, write)}", said))
    return tuple(lines)


def _cuts(orders: list[int]) -> str:
    """Write numbers of cuts, those that follow each other as a range: "cuts 2–4 and 6"."""
    runs: list[list[int]] = []
    for order in orders:
        if runs and order == runs[-1][-1] + 1:
            runs[-1].append(order)
        else:
            runs.append([order])
    said = [str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs]
    return f"{'cut' if len(orders) == 1 else 'cuts'} {listed(said)}"
