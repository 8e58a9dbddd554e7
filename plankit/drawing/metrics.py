"""How much paper a text takes, measured from the font the drawings are set in.

Widths are sums of the font's advance widths (TrueType `hmtx`), without kerning: kerning only draws letters
closer, so a text never takes more room than is said here. Heights are those of ascenders and descenders.
"""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from plankit.drawing.primitives import MM_PER_POINT, Anchor, Bounds

FAMILY = "Source Sans Pro"


@dataclass(frozen=True, slots=True)
class Face:
    """A font's measures as shares of its size: advance widths, ascender, descender, height of capitals."""

    widths: dict[str, float]
    unknown: float
    ascender: float
    descender: float
    capital: float


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """The width in mm of one line of text set at a size in points."""
    font = face(bold=bold)
    return sum(font.widths.get(sign, font.unknown) for sign in text) * size * MM_PER_POINT


def text_height(size: float, *, bold: bool = False) -> float:
    """The height in mm from descender to ascender of one line of text at a size in points."""
    font = face(bold=bold)
    return (font.ascender + font.descender) * size * MM_PER_POINT


def capital_height(size: float, *, bold: bool = False) -> float:
    """The height in mm of capitals and figures above the baseline, to centre a label on a point."""
    return face(bold=bold).capital * size * MM_PER_POINT


def text_box(text: str, size: float, anchor: Anchor = "start", *, bold: bool = False) -> Bounds:
    """The room a text takes round its anchor, not turned: left, top, right, bottom in mm, y down."""
    font, width = face(bold=bold), text_width(text, size, bold=bold)
    left = -width * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
    scale = size * MM_PER_POINT
    return left, -font.ascender * scale, left + width, font.descender * scale


def font_file(*, bold: bool = False) -> Path:
    """Where the installed font package keeps the font of drawings."""
    import font_source_sans_pro

    style = "Bold" if bold else "Regular"
    return Path(font_source_sans_pro.__file__).parent / "files" / f"SourceSansPro-{style}.ttf"


@lru_cache(maxsize=2)
def face(*, bold: bool = False) -> Face:
    """The measures of the drawings' font, read once."""
    from fontTools.ttLib import TTFont

    with TTFont(font_file(bold=bold), lazy=True) as font:
        em = font["head"].unitsPerEm
        advances, names, outlines = font["hmtx"].metrics, font.getBestCmap(), font["glyf"]
        widths = {chr(code): advances[name][0] / em for code, name in names.items()}
        return Face(
            widths=widths,
            unknown=max(widths["M"], 1.0),
            ascender=outlines[names[ord("d")]].yMax / em,
            descender=-outlines[names[ord("g")]].yMin / em,
            capital=outlines[names[ord("H")]].yMax / em,
        )
