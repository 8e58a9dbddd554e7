"""Figures put onto the pages of a PDF, in the places that the layout kept for them.

While a page is laid out, each figure is stood in for by a mark of its size; afterwards the mark's outline is found
among the operators of the page and the figure is drawn there, as a form (ISO 32000-1, 8.10) in the mark's own
units. The layout's tags and alternative texts stay as they are.
"""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from plankit.publish.fonts import PrintFont, print_font
from plankit.publish.ink import Ink

_MARK = -7919
"""Where marks begin: so far off that no drawing of ours has a point there."""
_FOUND = re.compile(rb"-7919 (\d+) m\s(?:-7918 \d+ l\s){2}h\s(?:f|B|S|n)\*?\s")
_CMAP = """/CIDInit /ProcSet findresource begin 12 dict begin begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def /CMapType 2 def
1 begincodespacerange <0000> <ffff> endcodespacerange
{}
endcmap CMapName currentdict /CMap defineresource pop end end"""
_BLOCK = 100
"""The most pairs that a block of a character map may hold."""


def stand_in(number: int, figure: Mapping[str, Any], ink: Ink) -> bytes:
    """Return a drawing of a figure's size that holds nothing but its mark."""
    outline = f"M{_MARK} {number}L{_MARK + 1} {number}L{_MARK + 1} {number + 1}Z"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{figure["width_mm"]}mm" height="{figure["height_mm"]}mm" '
        f'viewBox="0 0 {ink.width} {ink.height}"><path d="{outline}"/></svg>'
    ).encode()


def stamp(pdf: Any, inks: Sequence[Ink]) -> bool:
    """Draw every figure where its mark stands; false where a mark was not found, and the PDF is then of no use."""
    if not inks:
        return True
    forms = _forms(pdf, inks)
    stamped: set[int] = set()
    for page in pdf.pages:
        content = page.Contents.read_bytes()
        here = {int(number) for number in _FOUND.findall(content)}
        if here:
            page.Contents.write(_FOUND.sub(rb"/Figure\1 Do\n", content))
            _give(page, {f"/Figure{number}": forms[number] for number in sorted(here)})
            stamped |= here
    return stamped == set(range(len(inks)))


def _give(page: Any, forms: Mapping[str, Any]) -> None:
    import pikepdf

    resources = page.Resources
    if "/XObject" not in resources:
        resources["/XObject"] = pikepdf.Dictionary()
    for name, form in forms.items():
        resources.XObject[name] = form


def _forms(pdf: Any, inks: Sequence[Ink]) -> list[Any]:
    import pikepdf

    weights = sorted({weight for ink in inks for weight in ink.weights})
    fonts = {f"/W{weight}": pdf.make_indirect(_font(pdf, print_font(weight))) for weight in weights}
    resources = pdf.make_indirect(pikepdf.Dictionary(Font=pikepdf.Dictionary(fonts)))
    return [
        pdf.make_stream(
            ink.operators,
            Type=pikepdf.Name.XObject,
            Subtype=pikepdf.Name.Form,
            BBox=[0, 0, float(ink.width), float(ink.height)],
            Resources=resources,
        )
        for ink in inks
    ]


def _font(pdf: Any, font: PrintFont) -> Any:
    """Return a font whose codes are its own glyph numbers (ISO 32000-1, 9.7)."""
    import pikepdf

    name = pikepdf.Name(f"/{font.name}")
    descriptor = pikepdf.Dictionary(
        Type=pikepdf.Name.FontDescriptor, FontName=name, Flags=4, FontBBox=list(font.box), ItalicAngle=0,
        Ascent=font.ascent, Descent=font.descent, CapHeight=font.capital, StemV=80,
        FontFile2=pdf.make_stream(font.program, Length1=len(font.program)),
    )  # fmt: skip
    widths = [font.advances[number] for number in range(len(font.advances))]
    letters = pikepdf.Dictionary(
        Type=pikepdf.Name.Font, Subtype=pikepdf.Name.CIDFontType2, BaseFont=name,
        CIDSystemInfo=pikepdf.Dictionary(Registry="Adobe", Ordering="Identity", Supplement=0),
        CIDToGIDMap=pikepdf.Name.Identity, FontDescriptor=pdf.make_indirect(descriptor), W=[0, widths],
    )  # fmt: skip
    return pikepdf.Dictionary(
        Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type0, BaseFont=name, Encoding=pikepdf.Name("/Identity-H"),
        DescendantFonts=[pdf.make_indirect(letters)], ToUnicode=pdf.make_stream(_letters_of(font).encode("ascii")),
    )  # fmt: skip


def _letters_of(font: PrintFont) -> str:
    """Return the character map that tells a reader which letter each glyph stands for."""
    first: dict[int, str] = {}
    for letter, glyph in sorted(font.glyphs.items()):
        first.setdefault(glyph, letter)
    pairs = [f"<{glyph:04x}> <{ord(letter):04x}>" for glyph, letter in sorted(first.items())]
    blocks = [pairs[at : at + _BLOCK] for at in range(0, len(pairs), _BLOCK)]
    said = [f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks]
    return _CMAP.format("\n".join(said))
