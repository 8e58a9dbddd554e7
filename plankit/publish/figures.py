"""Figures on pages: inline in HTML, as images with a text alternative in print, as files beside both."""

import html
import math
import re
from collections.abc import Mapping
from typing import Any

from plankit.publish.document import Document

PRINT_SCHEME = "figure:"
FOLDER = "figures/"
PRINTED = 0.88
"""Drawings are printed at this share of their size: words of 8 pt come out at 7 pt, and more fits on a page."""
_PROLOG = re.compile(r"^\s*(?:<\?xml[^>]*\?>\s*)?(?:<!DOCTYPE[^>]*>\s*)?")
_ID = re.compile(r'(\bid=")([^"]+)"')
_POINTER = re.compile(r'(url\(#|href="#)([^")]+)')
_STROKES = re.compile(r'(<g fill="none"[^>]*>\n)((?:<path d="M[^"]*"/>\n){2,})')
_ALONE = re.compile(r'<g ([^>]*)>\n(<path )(d="[^"]*"/>)\n</g>')
_PATH = re.compile(r'<path d="([^"]*)"/>')
_SCALE = re.compile(r"\bScale 1:(\d+(?:\.\d+)?)")
_FULL_SIZE = "(1:1)"
_WIDE = re.compile(r'<svg\b[^>]*\bwidth="([\d.]+)mm"')
PAGE_WIDE = 170.0
"""Millimetres that a drawing takes which does not tell its width."""
_LABELS = re.compile(r'(\baria-(?:labelledby|describedby)=")([^"]*)"')


def inline(name: str, figure: Mapping[str, Any]) -> str:
    """Return a figure's SVG to stand in an HTML page, its own names made this figure's alone."""
    svg = _PROLOG.sub("", figure["svg"], count=1).strip()
    mine = f"fig-{name}-"
    svg = _ID.sub(lambda m: f'{m[1]}{mine}{m[2]}"', svg)
    svg = _POINTER.sub(lambda m: f"{m[1]}{mine}{m[2]}", svg)
    return _LABELS.sub(lambda m: m[1] + " ".join(mine + one for one in m[2].split()) + '"', svg)


def framed(name: str, svg: str, label: str, medium: str = "screen") -> str:
    """Return a drawing that is no figure of the plan, as large as the plan's own, in a frame that keys move sideways.

    svg     the drawing, whose width is told in millimetres
    medium  "screen" or "print": on paper it is smaller, and its scale line says so
    """
    figure = {"svg": svg, "width_mm": float(found[1]) if (found := _WIDE.search(svg)) else PAGE_WIDE}
    drawn = print_svg(figure).decode() if medium == "print" else svg
    widths = f"--drawn: {figure['width_mm']:g}mm; --printed: {printed_width(figure):g}mm"
    frame = f'<div class="figure-drawing" role="group" tabindex="0" aria-label="{html.escape(label)}">'
    return f'<figure class="figure" style="{widths}">{frame}{inline(name, {"svg": drawn})}</div></figure>'


def printed(name: str, figure: Mapping[str, Any]) -> str:
    """Return a figure as an image for print, with its title and description as the text alternative."""
    words = html.escape(alternative(figure))
    return f'<img src="{PRINT_SCHEME}{name}" alt="{words}">'


def print_svg(figure: Mapping[str, Any]) -> bytes:
    """Return a figure's SVG for print: few large paths, which are sooner drawn, and the scale it is printed at."""
    svg = _STROKES.sub(lambda group: group[1] + _joined(group[2]), figure["svg"])
    svg = _ALONE.sub(r"\2\1 \3", svg)
    return _SCALE.sub(lambda found: f"Scale 1:{_scale(float(found[1]))}", svg).encode()


def printed_width(figure: Mapping[str, Any]) -> float:
    """Return how wide a figure is printed, in millimetres; one that is drawn in full size stays so."""
    share = 1 if _FULL_SIZE in figure["svg"] else PRINTED
    return math.ceil(float(figure["width_mm"]) * share * 100) / 100


def _scale(number: float) -> str:
    return f"{number / PRINTED:.1f}".removesuffix(".0")


def _joined(paths: str) -> str:
    return f'<path d="{"".join(_PATH.findall(paths))}"/>\n'


def alternative(figure: Mapping[str, Any]) -> str:
    """Return a figure's title and description as one text alternative."""
    title, description = figure["title"].strip(), figure["description"].strip()
    return description if description.startswith(title) else f"{title}. {description}".strip()


def files(document: Document) -> dict[str, bytes]:
    """Return each figure of a plan as an SVG file, by file name."""
    head = '<?xml version="1.0" encoding="UTF-8"?>\n'
    return {
        f"{name}.svg": (head + _PROLOG.sub("", figure["svg"], count=1).strip() + "\n").encode()
        for name, figure in sorted(document["figures"].items())
    }
