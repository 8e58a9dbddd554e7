"""From a layout to what its drawing shows: pieces, offcuts, and every cut where the saw runs."""

from collections.abc import Iterable
from fractions import Fraction

from plankit.cutting import Layout
from plankit.drawing.cutting_picture import CutOffcut, CutStroke, CuttingPicture
from plankit.drawing.cutting_picture import CutPiece as DrawnPiece
from plankit.plan.cut_list import CutLayout
from plankit.plan.cut_places import after_each_cut, where
from plankit.stock import Lumber
from plankit.units import Length, Notation


def cutting_picture(shown: CutLayout, write: Notation) -> CuttingPicture:
    """Return what the drawing of one board or sheet shows."""
    layout = shown.layout
    deep = _depth(shown)
    names = {piece.label: piece.name for piece in shown.pieces}
    pieces = tuple(
        DrawnPiece(
            placed.part, names[placed.part], float(placed.x), float(placed.y), float(placed.length),
            float(placed.width or deep), _size(write, placed.length, placed.width),
        )
        for placed in layout.pieces
    )  # fmt: skip
    offcuts = tuple(
        CutOffcut(
            name, float(offcut.x), float(offcut.y), float(offcut.length), float(offcut.width or deep),
            _size(write, offcut.length, offcut.width),
        )
        for name, offcut in zip(shown.offcut_names, layout.offcuts, strict=True)
    )  # fmt: skip
    kind = layout.kind
    trims = (kind.trim_ends, kind.trim_ends, kind.trim_edges, kind.trim_edges)
    sizes = [Length.of_mm(size) for size in (kind.length, kind.width) if size is not None]
    return CuttingPicture(
        shown.id, f"Cutting drawing {shown.id.removeprefix('cut-')}", layout.stock, write.size_both(*sizes),
        float(kind.length), float(deep), write.bare(Length.of_mm(kind.length)), write.bare(Length.of_mm(deep)),
        layout.copies, pieces, offcuts, tuple(_strokes(layout, deep)), tuple(float(trim) for trim in trims),  # type: ignore[arg-type]
    )  # fmt: skip


def _depth(shown: CutLayout) -> Fraction:
    """How wide the drawn stock is: a sheet's width, or the board's."""
    if shown.layout.kind.width is not None:
        return shown.layout.kind.width
    assert isinstance(shown.material, Lumber)
    return shown.material.width.mm


def _size(write: Notation, length: Fraction, width: Fraction | None) -> str:
    return write.size(*(Length.of_mm(size) for size in (length, width) if size is not None)).removesuffix(
        f"\u00a0{write.unit}"
    )


def _strokes(layout: Layout, deep: Fraction) -> Iterable[CutStroke]:
    """Each cut runs right across the piece it divides, on the near side of its kerf."""
    places = after_each_cut(layout, deep)
    for made in layout.cuts:
        left, low, right, high = places[made.of]
        at = float(where(made, places[made.of]))
        if made.edge.startswith("end"):
            yield CutStroke(made.order, (at, float(low)), (at, float(high)))
        else:
            yield CutStroke(made.order, (float(left), at), (float(right), at))
