"""What a figure is made of: lines, areas, text and marks, in millimetres on the page.

The page's origin is its top left corner; x runs right and y runs down. Angles are in degrees and turn
clockwise as seen on the page, since y runs down. Every renderer reads this one list and nothing else.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

from plankit.errors import PlanError

type Point = tuple[float, float]
type Ring = tuple[Point, ...]
type Bounds = tuple[float, float, float, float]

LineKind = Literal[
    "outline",
    "visible",
    "receding",
    "dimension",
    "extension",
    "leader",
    "hidden",
    "centre",
    "cut",
    "hatch",
    "assembly",
]
Fill = Literal["part", "arriving", "receding", "waste", "offcut", "paper", "grain"]
Anchor = Literal["start", "middle", "end"]
MarkKind = Literal["arrow", "dot", "screw", "hole", "cross", "tick"]

SMALLEST_TEXT = 8.0  # points; drawings are printed at 0.88 of their size, and 7 pt are read at a workbench
MM_PER_POINT = 25.4 / 72


@dataclass(frozen=True, slots=True)
class Line:
    """A line through two or more points; its kind decides weight and pattern."""

    points: tuple[Point, ...]
    kind: LineKind = "visible"

    def __post_init__(self) -> None:
        if len(self.points) < 2:
            raise _wrong("a line", f"{len(self.points)} points", "give at least two points")
        _known(self.kind, LineKind, "line kind")


@dataclass(frozen=True, slots=True)
class Area:
    """A filled area: the outer ring first, then its holes; rings close by themselves."""

    rings: tuple[Ring, ...]
    fill: Fill = "part"

    def __post_init__(self) -> None:
        if not self.rings or any(len(ring) < 3 for ring in self.rings):
            raise _wrong("an area", "a ring of fewer than three points", "give three points or more a ring")
        _known(self.fill, Fill, "fill")


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text whose baseline starts, is centred or ends at a point; size in points, 8 or more."""

    at: Point
    text: str
    size: float = 8.0
    anchor: Anchor = "start"
    angle: float = 0.0
    bold: bool = False

    def __post_init__(self) -> None:
        if self.size < SMALLEST_TEXT:
            raise _wrong(f"the text “{self.text}”", f"{self.size} pt", "use 8 pt or more")
        _known(self.anchor, Anchor, "anchor")


@dataclass(frozen=True, slots=True)
class Mark:
    """A small sign at a point; an arrow's tip is the point and it points along the angle (0 is right)."""

    at: Point
    kind: MarkKind
    size: float = 2.0
    angle: float = 0.0

    def __post_init__(self) -> None:
        if not self.size > 0:
            raise _wrong(f"a {self.kind} mark", f"size {self.size} mm", "give a size above 0 mm")
        _known(self.kind, MarkKind, "mark")


type Primitive = Line | Area | Text | Mark


@dataclass(frozen=True, slots=True)
class Figure:
    """A finished drawing: its id on a page, paper size in mm, words, and what is drawn, back to front."""

    id: str
    width: float
    height: float
    title: str
    description: str
    items: tuple[Primitive, ...] = ()

    def __post_init__(self) -> None:
        if not self.id or not all(sign.isalnum() or sign in "-_" for sign in self.id):
            raise _wrong("a figure's id", repr(self.id), "use letters, digits, - and _")
        if not (self.width > 0 and self.height > 0):
            raise _wrong(f"figure {self.id}", f"{self.width} × {self.height} mm", "give a size above 0 mm")


def bounds(figure: Figure | Iterable[Primitive]) -> Bounds:
    """The smallest upright rectangle round what is drawn: left, top, right, bottom in mm.

    Text counts with its measured width and height. A figure without items gives its own paper.
    """
    items = figure.items if isinstance(figure, Figure) else tuple(figure)
    points = [point for item in items for point in corners(item)]
    if not points:
        return (0.0, 0.0, figure.width, figure.height) if isinstance(figure, Figure) else (0.0, 0.0, 0.0, 0.0)
    across, down = zip(*points, strict=True)
    return min(across), min(down), max(across), max(down)


def corners(item: Primitive) -> Iterator[Point]:
    """Points whose smallest upright rectangle holds the primitive."""
    if isinstance(item, Line):
        yield from item.points
    elif isinstance(item, Area):
        yield from item.rings[0]
    elif isinstance(item, Mark):
        reach = item.size if item.kind == "arrow" else item.size / 2
        yield item.at[0] - reach, item.at[1] - reach
        yield item.at[0] + reach, item.at[1] + reach
    else:
        yield from _text_corners(item)


def moved[P: Primitive](item: P, right: float, down: float) -> P:
    """The same primitive, moved by so many mm."""
    return _placed(item, 1.0, right, down)


def scaled[P: Primitive](item: P, factor: float, about: Point = (0.0, 0.0)) -> P:
    """The same primitive with its places scaled about a point; text and marks keep their size."""
    return _placed(item, factor, about[0] * (1 - factor), about[1] * (1 - factor))


def _placed[P: Primitive](item: P, factor: float, right: float, down: float) -> P:
    def place(points: Sequence[Point]) -> Ring:
        return tuple((x * factor + right, y * factor + down) for x, y in points)

    if isinstance(item, Line):
        return replace(item, points=place(item.points))
    if isinstance(item, Area):
        return replace(item, rings=tuple(place(ring) for ring in item.rings))
    return replace(item, at=place([item.at])[0])


def _text_corners(item: Text) -> Iterator[Point]:
    from plankit.drawing.metrics import text_box

    turn = math.radians(item.angle)
    left, top, right, bottom = text_box(item.text, item.size, item.anchor, bold=item.bold)
    for x, y in ((left, top), (right, top), (right, bottom), (left, bottom)):
        yield (
            item.at[0] + x * math.cos(turn) - y * math.sin(turn),
            item.at[1] + x * math.sin(turn) + y * math.cos(turn),
        )


def _known(given: str, kinds: object, what: str) -> None:
    if given not in get_args(kinds):
        raise _wrong(f"a {what}", repr(given), "use one of " + ", ".join(get_args(kinds)))


def _wrong(where: str, given: str, remedy: str) -> PlanError:
    return PlanError("This cannot be drawn.", where=where, given=given, remedy=remedy)
