"""The font of pages and PDFs, taken from an installed package so that it is the same everywhere."""

import base64
import io
from functools import cache
from pathlib import Path

FAMILY = "Source Sans Pro"
WEIGHTS = {400: "Regular", 700: "Bold"}
# What pages embed: Latin with its accents, punctuation, fractions, arrows and the signs of the trade.
_RANGES = ((0x20, 0x7E), (0xA0, 0x17F), (0x2010, 0x205E), (0x2150, 0x215E), (0x2190, 0x2193))
_SIGNS = "€™−√≈≠≤≥◊·×÷′″⁄"


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
