"""How the faces of a part share the paper: at which scale, how many side by side, the other hand beside or below."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from plankit.drawing import dimension as dim
from plankit.drawing.metrics import text_width
from plankit.drawing.part_face import PartFace
from plankit.drawing.part_items import caption
from plankit.drawing.part_leaders import SIZE, above_reach, beside, topmost
from plankit.drawing.part_numbers import interrupted, least_long, written
from plankit.drawing.part_rows import Stepped
from plankit.drawing.placing import ratio

WIDE, HIGH = 112.0, 92.0
"""Room for the faces themselves, in mm: side by side, and each up the page."""
_PAPER: Final = ((103.0, 118.0, 1.35), (166.0, 118.0, 1.5), (166.0, 174.0, 1.0))
"""Room for faces with their words, in mm, so that four drawings share a page, or two, and at most; then how many
times as coarse as the last the scale may be for it."""
_COARSE = 16
"""No drawing is made coarser than this only to share a page."""
_COARSEST = 200
_FROM_FACE = 9.0
"""From a face to its numbers, or to the words at its right, in mm."""
_BEYOND = 5.0
"""Room for a line of words beyond the numbers."""


@dataclass(frozen=True, slots=True)
class Arranged:
    """A layout: 1 : scale, so many faces side by side, and whether the other hand stands beside the first."""

    scale: int
    columns: int
    beside: bool = False


@dataclass(frozen=True, slots=True)
class _Cell:
    """A face in full size, and the paper its numbers and words take round it, in mm.

    over  for each note above it, where its leader runs to, from the left side in full size, and how wide it is
    rows  for each row of holes up the page, how long it is in full size, how long it must be on the page for its
          words, and how wide the numbers at the left are where it is shorter
    """

    wide: float
    high: float
    left: float
    right: float
    title: float
    words_high: float
    over: tuple[tuple[float, float], ...]
    rows: tuple[tuple[float, float, float], ...]

    def width(self, scale: int) -> float:
        """How wide it is at 1 : scale."""
        wide = self.wide / scale
        left, right = above_reach([(x / scale, long) for x, long in self.over], wide)
        numbers = max((label for long, least, label in self.rows if long / scale <= least), default=0.0)
        return max(self.left, left, numbers) + max(wide + max(self.right, right), self.title)

    def height(self, scale: int) -> float:
        """How high it is at 1 : scale."""
        return self.high / scale + self.words_high


@dataclass(frozen=True, slots=True)
class _Paper:
    """How wide and high faces may be with their words, in mm, and the share of it that they may take."""

    unit: str
    room: float
    wide: float
    high: float

    def holds(self, wide: float, high: float) -> bool:
        """Whether so much fits; words do not shrink with the faces."""
        share = 0.6 + 0.4 * self.room
        return wide <= self.wide * share and high <= self.high * share


def arranged(hands: Sequence[Sequence[PartFace]], unit: str, room: float) -> Arranged:
    """The layout at the largest scale, of these the one on least paper; a little coarser if two then share a page.

    hands  the faces of a part, and those of its other hand where there is one
    room   the share of the usual room that the faces may take
    """
    cells = [_cell(face) for face in hands[0]]
    pair = len(hands) > 1
    found = [
        min(
            (
                _fitting(cells, columns, (over, 2 // over if pair else 1), _Paper(unit, room, wide, high))
                for columns in range(1, len(cells) + 1)
                for over in ((1, 2) if pair else (1,))
            ),
            key=lambda choice: choice[0],
        )[1]
        for wide, high, _ in _PAPER
    ]
    finest = found[-1].scale
    most = [min(times * finest, max(finest, _COARSE)) for _, _, times in _PAPER]
    return next(lay for lay, scale in zip(found, most, strict=True) if lay.scale <= scale)


def _fitting(
    cells: Sequence[_Cell], columns: int, times: tuple[int, int], paper: _Paper
) -> tuple[tuple[int, float, int], Arranged]:
    """A layout at the largest scale that fits, and what it is judged by: scale, paper, columns.

    times  how often the faces are drawn side by side, and how often one below the other
    """
    rows = [cells[start : start + columns] for start in range(0, len(cells), columns)]
    over, down = times
    wide = max(sum(cell.wide for cell in row) for row in rows) * over
    high = max(cell.high for cell in cells)
    scale = ratio(paper.unit, wide, high, WIDE * paper.room, HIGH * paper.room)
    while True:
        across = max(sum(cell.width(scale) for cell in row) for row in rows) * over
        upright = sum(max(cell.height(scale) for cell in row) for row in rows) * down
        if scale > _COARSEST or paper.holds(across, upright):
            return (scale, round(across * upright, 3), columns), Arranged(scale, columns, over > 1)
        scale = ratio(paper.unit, scale + 0.5, 0.0, 1.0, 1.0)


def _cell(face: PartFace) -> _Cell:
    view = face.view
    numbers = [text_width(number, dim.SIZE) for number in written(face, view.upright)]
    notes = [text_width(line, SIZE) for note in face.marks.notes for line in beside(face, note)]
    below = [text_width(number, dim.SIZE) for number in written(face, view.across)]
    above_it = [note for note in face.marks.notes if not beside(face, note)]
    over = tuple((topmost(face, note)[0] - face.box[0], text_width(note.text, SIZE)) for note in above_it)
    beyond = {
        axis: _BEYOND * any(row.axis == axis and interrupted(face, row) for row in face.marks.rows)
        for axis in (view.across, view.upright)
    }
    said = caption(face)
    above = 4.2 * len(over) + 3.6 * len(said)
    return _Cell(
        wide=view.wide,
        high=view.high,
        left=_FROM_FACE + max(numbers) + beyond[view.upright] if numbers else 5.0,
        right=_FROM_FACE + max(notes) if notes else 5.0,
        title=max(text_width(line, SIZE) for line in said),
        words_high=above + 4.0 + (_FROM_FACE + max(below) + beyond[view.across] if below else 3.0),
        over=over,
        rows=tuple(_row(face, row) for row in face.marks.rows if row.axis == view.upright),
    )


def _row(face: PartFace, row: Stepped) -> tuple[float, float, float]:
    """How long a row is, how long it must be for its words, and how wide these are where they stand at its last."""
    long = float((row.places[-1] - row.places[0]).mm)
    label = f"{row.words(face.notation)} to {face.notation.bare(row.last(face.datum, face.view.part))}"
    return long, least_long(face, row), _FROM_FACE + text_width(label, dim.SIZE)
