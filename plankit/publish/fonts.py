"""The font of pages and PDFs, taken from an installed package so that it is the same everywhere."""

import base64
import io
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

FAMILY = "Source Sans Pro"
WEIGHTS = {400: "Regular", 700: "Bold"}
# What pages embed: Latin with its accents, punctuation, fractions, arrows and the signs of the trade.
_RANGES = ((0x20, 0x7E), (0xA0, 0x17F), (0x2010, 0x205E), (0x2150, 0x215E), (0x2190, 0x2193))
_SIGNS = "€™−√≈≠≤≥◊·×÷′″⁄"
_FIGURE_SIGNS = "–—‘’“”…′″⁄−≈≤≥→←↑↓½¼¾⅛⅜⅝⅞"


def font_path(weight: int) -> Path:
    """Return the file of the font at a weight."""
    import font_source_sans_pro

    return Path(font_source_sans_pro.__file__).parent / "files" / f"SourceSansPro-{WEIGHTS[weight]}.ttf"


@cache
def page_font(weight: int) -> str:
    """Return the part of the font that pages need as a WOFF2 data address; the same bytes every time."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options()
    options.flavor = "woff2"
    options.layout_features = ["kern", "liga", "ccmp", "locl", "mark", "frac", "numr", "dnom", "tnum"]
    options.name_IDs = ["*"]
    options.hinting = False
    with TTFont(font_path(weight), lazy=True, recalcTimestamp=False) as font:
        cutter = subset.Subsetter(options)
        codes = [code for first, last in _RANGES for code in range(first, last + 1)]
        cutter.populate(unicodes=[*codes, *map(ord, _SIGNS)])
        cutter.subset(font)
        font.flavor = "woff2"
        written = io.BytesIO()
        font.save(written, reorderTables=False)
    return "data:font/woff2;base64," + base64.b64encode(written.getvalue()).decode("ascii")


@dataclass(frozen=True, slots=True)
class PrintFont:
    """The part of the font that figures in a PDF are set in.

    name        its PostScript name
    program     the TrueType font itself
    glyphs      the number of each letter's glyph
    advances    how far each glyph moves on, in thousandths of the size
    box         left, bottom, right and top of all glyphs, likewise
    ascent, descent, capital  likewise
    """

    name: str
    program: bytes
    glyphs: Mapping[str, int]
    advances: Mapping[int, int]
    box: tuple[int, int, int, int]
    ascent: int
    descent: int
    capital: int


@cache
def print_font(weight: int) -> PrintFont:
    """Return the font of figures in print at a weight; the same bytes every time.

    raises  KeyError for a weight that the pages do not use
    """
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options()
    options.layout_features = []
    options.hinting = False
    with TTFont(font_path(weight), lazy=True, recalcTimestamp=False) as font:
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=[*range(0x20, 0x7F), *range(0xA0, 0x100), *map(ord, _FIGURE_SIGNS)])
        cutter.subset(font)
        written = io.BytesIO()
        font.save(written, reorderTables=False)
        return _print_font(font, WEIGHTS[weight], written.getvalue())


def _print_font(font: Any, style: str, program: bytes) -> PrintFont:
    share = 1000 / font["head"].unitsPerEm
    head, order = font["head"], font.getReverseGlyphMap()
    glyphs = {chr(code): order[name] for code, name in font.getBestCmap().items()}
    advances = {order[name]: round(width * share) for name, (width, _) in font["hmtx"].metrics.items()}
    box = [round(edge * share) for edge in (head.xMin, head.yMin, head.xMax, head.yMax)]
    ascent, descent = (round(edge * share) for edge in (font["hhea"].ascent, font["hhea"].descent))
    capital = round(font["OS/2"].sCapHeight * share)
    name = f"FIGURE+{FAMILY.replace(' ', '')}-{style}"
    return PrintFont(
        name, program, glyphs, advances, (box[0], box[1], box[2], box[3]), ascent, descent, capital
    )


@cache
def page_faces() -> str:
    """Return the `@font-face` rules of a page that stands alone."""
    return "\n".join(_face(weight, page_font(weight), "woff2") for weight in WEIGHTS)


@cache
def print_faces() -> str:
    """Return the `@font-face` rules for print; the addresses are answered by the PDF maker."""
    return "\n".join(_face(weight, f"font:{weight}", "truetype") for weight in WEIGHTS)


def _face(weight: int, address: str, kind: str) -> str:
    return (
        f"@font-face{{font-family:'{FAMILY}';font-weight:{weight};font-style:normal;"
        f"src:url('{address}') format('{kind}')}}"
    )
