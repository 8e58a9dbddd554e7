"""A figure as SVG: small, the same bytes every time, one element a line, and readable without colour.

Widths and patterns follow ISO 128-2: wide lines twice as wide as narrow ones (0.5 and 0.25 mm, with 0.35 and
0.18 of the next group for inner edges and dimensions); dashes of 12 widths with gaps of 3; long-dash dotted
lines of 24, 3, ½, 3 widths (these lengths from memory). What arrives has a wide line and a tint; what recedes
has a narrow grey one and none.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from plankit.drawing.metrics import FAMILY
from plankit.drawing.primitives import (
    MM_PER_POINT,
    Area,
    Figure,
    Fill,
    Line,
    LineKind,
    Mark,
    Point,
    Primitive,
    Text,
)

INK: Final = "#111"
GREY: Final = "#767676"  # darkest of what recedes; still 4.5 : 1 against white paper


@dataclass(frozen=True, slots=True)
class Pen:
    """How a kind of line is drawn: width in mm, colour, and dashes and gaps as multiples of the width."""

    width: float
    colour: str = INK
    dashes: tuple[float, ...] = ()


PENS: Final[dict[LineKind, Pen]] = {
    "outline": Pen(0.5),
    "visible": Pen(0.35),
    "receding": Pen(0.25, GREY),
    "dimension": Pen(0.18),
    "extension": Pen(0.18),
    "leader": Pen(0.18),
    "hidden": Pen(0.25, INK, (12, 3)),
    "centre": Pen(0.18, INK, (24, 3, 0.5, 3)),
    "cut": Pen(0.5),
    "hatch": Pen(0.18),
    "assembly": Pen(0.25, INK, (12, 3, 0.5, 3)),
}
TINTS: Final[dict[Fill, str]] = {
    "part": "#fff",
    "arriving": "#f0dfbf",
    "receding": "#fff",
    "waste": "#f3f3f3",
    "offcut": "#e6ece9",
    "paper": "#fff",
    "grain": "#efe8dc",
}


def svg(figure: Figure) -> str:
    """The figure as a standing-alone `svg` element that may also be put into a page."""
    title, words = f"{figure.id}-title", f"{figure.id}-desc"
    width, height = _number(figure.width), _number(figure.height)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" id={quoteattr(figure.id)} width="{width}mm" '
        f'height="{height}mm" viewBox="0 0 {width} {height}" role="img" aria-labelledby="{title} {words}">'
    )
    lines = [
        head,
        f'<title id="{title}">{_words(figure.title)}</title>',
        f'<desc id="{words}">{_words(figure.description)}</desc>',
    ]
    for opening, group in groupby(figure.items, key=_group):
        lines += [opening, *(_element(item) for item in group), "</g>"]
    return "\n".join((*lines, "</svg>", ""))


def _group(item: Primitive) -> str:
    """The opening of the group an item is drawn in; items that follow one another share it."""
    if isinstance(item, Line):
        return _pen_group(PENS[item.kind])
    if isinstance(item, Area):
        return f'<g fill="{TINTS[item.fill]}" fill-rule="evenodd">'
    if isinstance(item, Mark):
        return f'<g fill="{INK}" stroke="{INK}" stroke-width="0.25">'
    return f'<g fill="{INK}" font-family="\'{FAMILY}\', \'Source Sans 3\', sans-serif">'


def _pen_group(pen: Pen) -> str:
    dashes = " ".join(_number(dash * pen.width) for dash in pen.dashes)
    pattern = f' stroke-dasharray="{dashes}"' if dashes else ' stroke-linecap="round"'
    width = _number(pen.width)
    return f'<g fill="none" stroke="{pen.colour}" stroke-width="{width}" stroke-linejoin="round"{pattern}>'


def _element(item: Primitive) -> str:
    if isinstance(item, Line):
        closed = len(item.points) > 2 and item.points[0] == item.points[-1]
        return f'<path d="{_ring(item.points[:-1])}"/>' if closed else f'<path d="{_path(item.points)}"/>'
    if isinstance(item, Area):
        return f'<path d="{"".join(_ring(ring) for ring in item.rings)}"/>'
    return _text(item) if isinstance(item, Text) else "".join(_mark(item))


def _text(item: Text) -> str:
    x, y = (_number(value) for value in item.at)
    anchor = "" if item.anchor == "start" else f' text-anchor="{item.anchor}"'
    turn = f' transform="rotate({_number(item.angle)} {x} {y})"' if item.angle else ""
    weight = ' font-weight="700"' if item.bold else ""
    size = f"{item.size * MM_PER_POINT:.3f}"
    return f'<text x="{x}" y="{y}" font-size="{size}"{weight}{anchor}{turn}>{_words(item.text)}</text>'


def _mark(item: Mark) -> Iterator[str]:
    """A mark's elements, on one line."""
    x, y = item.at
    half = item.size / 2
    if item.kind == "arrow":
        yield f'<path stroke="none" d="{_ring(_arrow(item))}"/>'
    elif item.kind == "dot":
        yield f'<circle cx="{_number(x)}" cy="{_number(y)}" r="{_number(half)}" stroke="none"/>'
    elif item.kind in ("screw", "hole"):
        yield f'<circle cx="{_number(x)}" cy="{_number(y)}" r="{_number(half)}" fill="#fff"/>'
    if item.kind in ("screw", "cross", "tick"):
        reach = half * (0.7 if item.kind == "screw" else 1.0)
        turns = (-45.0,) if item.kind == "tick" else (45.0, -45.0)
        strokes = (_path(_stroke(item.at, reach, item.angle + turn)) for turn in turns)
        yield f'<path fill="none" d="{"".join(strokes)}"/>'


def _arrow(item: Mark) -> tuple[Point, ...]:
    """A closed arrowhead of 30° whose tip is the mark's place (ISO 129-1 allows 15° to 90°)."""
    back = [math.radians(item.angle + 180 + side) for side in (15, -15)]
    x, y = item.at
    return ((x, y), *((x + item.size * math.cos(turn), y + item.size * math.sin(turn)) for turn in back))


def _stroke(at: Point, reach: float, angle: float) -> tuple[Point, Point]:
    x, y = reach * math.cos(math.radians(angle)), reach * math.sin(math.radians(angle))
    return (at[0] - x, at[1] - y), (at[0] + x, at[1] + y)


def _path(points: Iterable[Point]) -> str:
    return "M" + "L".join(f"{_number(x)} {_number(y)}" for x, y in points)


def _ring(points: Iterable[Point]) -> str:
    return _path(points) + "Z"


def _number(value: float) -> str:
    """To 0.01, without ending noughts and without a nought below nought."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _words(text: str) -> str:
    """Text for XML: its own signs escaped, and control characters, which XML does not know, left out."""
    return escape("".join(sign for sign in text if sign >= " " or sign in "\t\n"))
