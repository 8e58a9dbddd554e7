"""A figure of ours as the operators of a PDF page: what a layout engine would work out letter by letter.

Figures are drawn in few words: groups, straight paths, circles and single lines of text (see `drawing/svg.py`). A
figure that says anything else, or in letters that the font lacks, is left to the layout engine, which knows all of
SVG. Operators and their order: ISO 32000-1, 8.4 to 8.5 and 9.4.
"""

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from plankit.publish.fonts import PrintFont, print_font

_NAMESPACE = "{http://www.w3.org/2000/svg}"
_STATE = {
    "fill", "stroke", "stroke-width", "stroke-linejoin", "stroke-linecap", "stroke-dasharray", "fill-rule",
    "font-family", "font-weight", "font-size", "text-anchor",
}  # fmt: skip
_PLACE = {"path": {"d"}, "circle": {"cx", "cy", "r"}, "text": {"x", "y", "transform"}, "g": set[str]()}
_WORDS = {"title", "desc"}
_STRAIGHT = re.compile(r"(?:[ML]-?[\d.]+ -?[\d.]+|Z)+")
_POINT = re.compile(r"([ML])(-?[\d.]+ -?[\d.]+)")
_TURN = re.compile(r"rotate\((-?[\d.]+) (-?[\d.]+) (-?[\d.]+)\)")
_COLOUR = re.compile(r"#(?:[\da-f]{3}|[\da-f]{6})")
_JOIN, _CAP = {"miter": 0, "round": 1, "bevel": 2}, {"butt": 0, "round": 1, "square": 2}
_STAND_INS = {ord("⌀"): "Ø"}
"""Signs that the font lacks, and the letter that drawings commonly use instead."""
_ROUND = 0.5523
"""How far the control points of a quarter circle stand from its ends, as a share of the radius."""


class _NotOurs(Exception):  # noqa: N818 - it reads as a sentence
    """Something that our drawings do not say."""


@dataclass(frozen=True, slots=True)
class Ink:
    """A figure ready to be placed on a PDF page.

    width, height  its paper, in the units of its operators (y runs down)
    operators      the content of its form
    weights        of the fonts it is set in
    """

    width: str
    height: str
    operators: bytes
    weights: tuple[int, ...]


def ink(svg: bytes) -> Ink | None:
    """Return a drawing as PDF operators; None where it says something that our own drawings do not."""
    try:
        root = ET.fromstring(svg)
        left, top, width, height = root.attrib["viewBox"].split()
        if (left, top) != ("0", "0"):
            return None
        weights: dict[int, None] = {}
        said = [line for child in root for line in _drawn(child, {}, weights)]
    except (ET.ParseError, _NotOurs, KeyError, ValueError):
        return None
    return Ink(width, height, "\n".join(said).encode("ascii"), tuple(sorted(weights)))


def _drawn(element: ET.Element, around: Mapping[str, str], weights: dict[int, None]) -> Iterator[str]:
    kind = element.tag.removeprefix(_NAMESPACE)
    if kind in _WORDS:
        return
    known = _PLACE.get(kind)
    if known is None or set(element.attrib) - known - _STATE:
        raise _NotOurs
    state = {**around, **{name: element.attrib[name] for name in element.attrib if name in _STATE}}
    if kind == "g":
        for child in element:
            yield from _drawn(child, state, weights)
    elif kind == "text":
        yield from _text(element, state, weights)
    else:
        yield from _painted(_OUTLINES[kind](element), state)


def _painted(outline: str, state: Mapping[str, str]) -> Iterator[str]:
    fill, stroke = state.get("fill", "#000"), state.get("stroke", "none")
    if fill == stroke == "none":
        return
    yield "q"
    if fill != "none":
        yield f"{_colour(fill)} rg"
    if stroke != "none":
        yield f"{_colour(stroke)} RG"
        yield (
            f"{_number(state.get('stroke-width', '1'))} w {_JOIN[state.get('stroke-linejoin', 'miter')]} j "
            f"{_CAP[state.get('stroke-linecap', 'butt')]} J [{_dashes(state)}] 0 d"
        )
    star = "*" if state.get("fill-rule") == "evenodd" else ""
    yield outline
    yield {(False, True): "S", (True, False): f"f{star}", (True, True): f"B{star}"}[
        fill != "none", stroke != "none"
    ]
    yield "Q"


def _dashes(state: Mapping[str, str]) -> str:
    dashes = state.get("stroke-dasharray", "none")
    return "" if dashes == "none" else " ".join(_number(dash) for dash in dashes.split())


def _number(text: str) -> str:
    return f"{float(text):g}"


def _colour(text: str) -> str:
    if not _COLOUR.fullmatch(text):
        raise _NotOurs
    digits = text[1:] if len(text) == 7 else "".join(digit * 2 for digit in text[1:])
    return " ".join(f"{int(digits[at : at + 2], 16) / 255:.4g}" for at in (0, 2, 4))


def _path(element: ET.Element) -> str:
    said = element.attrib["d"]
    if not _STRAIGHT.fullmatch(said):
        raise _NotOurs
    return _POINT.sub(r"\2 \1 ", said).translate({ord("M"): "m", ord("L"): "l", ord("Z"): "h "})


def _circle(element: ET.Element) -> str:
    x, y, r = (float(element.attrib[name]) for name in ("cx", "cy", "r"))
    curves = [f"{x + r:g} {y:g} m"]
    for quarter in range(4):
        (c, s), (d, t) = (_corner(quarter), _corner(quarter + 1))
        near = (x + r * (c + _ROUND * d), y + r * (s + _ROUND * t))
        far = (x + r * (d + _ROUND * c), y + r * (t + _ROUND * s))
        curves.append(f"{near[0]:g} {near[1]:g} {far[0]:g} {far[1]:g} {x + r * d:g} {y + r * t:g} c")
    return " ".join((*curves, "h"))


def _corner(quarter: int) -> tuple[int, int]:
    return ((1, 0), (0, 1), (-1, 0), (0, -1))[quarter % 4]


_OUTLINES: dict[str, Callable[[ET.Element], str]] = {"path": _path, "circle": _circle}


def _text(element: ET.Element, state: Mapping[str, str], weights: dict[int, None]) -> Iterator[str]:
    if len(element) or state.get("stroke", "none") != "none":
        raise _NotOurs
    words = " ".join((element.text or "").split()).translate(_STAND_INS)
    if not words:
        return
    weight = int(state.get("font-weight", "400"))
    font = print_font(weight)
    size, width = float(state["font-size"]), _width(words, font)
    x, y = float(element.attrib["x"]), float(element.attrib["y"])
    turn = _angle(element, x, y)
    back = size * width * {"start": 0.0, "middle": 0.5, "end": 1.0}[state.get("text-anchor", "start")]
    c, s = round(math.cos(turn), 6), round(math.sin(turn), 6)
    glyphs = "".join(f"{font.glyphs[sign]:04x}" for sign in words)
    weights[weight] = None
    yield (
        f"BT {_colour(state['fill'])} rg /W{weight} {size:g} Tf "
        f"{c:g} {s:g} {s:g} {-c:g} {x - back * c:.3f} {y - back * s:.3f} Tm <{glyphs}> Tj ET"
    )


def _width(words: str, font: PrintFont) -> float:
    """Return how wide a line of text is, as a share of its size."""
    if not set(words) <= set(font.glyphs):
        raise _NotOurs
    return sum(font.advances[font.glyphs[sign]] for sign in words) / 1000


def _angle(element: ET.Element, x: float, y: float) -> float:
    turned = element.attrib.get("transform")
    if turned is None:
        return 0.0
    found = _TURN.fullmatch(turned)
    if found is None or (float(found[2]), float(found[3])) != (x, y):
        raise _NotOurs
    return math.radians(float(found[1]))
