"""From a layout to what its drawing shows: pieces, offcuts, and every cut where the saw runs."""

from collections.abc import Iterable
from fractions import Fraction

from plankit.cutting import Cut, Layout
from plankit.drawing.cutting_picture import CutOffcut, CutStroke, CuttingPicture
from plankit.drawing.cutting_picture import CutPiece as DrawnPiece
from plankit.plan.cut_list import CutLayout
from plankit.stock import Lumber
from plankit.units import Length, Notation

type Rectangle = tuple[Fraction, Fraction, Fraction, Fraction]


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
            f"Offcut {number + 1}", float(offcut.x), float(offcut.y), float(offcut.length), float(offcut.width or deep),
            _size(write, offcut.length, offcut.width),
        )
        for number, offcut in enumerate(layout.offcuts)
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
    """Replay the cuts: each runs right across the piece it divides, on the near side of its kerf."""
    if not layout.cuts:
        return
    lying: dict[str, Rectangle] = {layout.cuts[0].of: (Fraction(0), Fraction(0), layout.kind.length, deep)}
    for made in layout.cuts:
        left, low, right, high = lying[made.of]
        at = _where(made, lying[made.of])
        if made.edge.startswith("end"):
            yield CutStroke(made.order, (float(at), float(low)), (float(at), float(high)))
            one, two = (left, low, at, high), (at, low, right, high)
        else:
            yield CutStroke(made.order, (float(left), float(at)), (float(right), float(at)))
            one, two = (left, low, right, at), (left, at, right, high)
        first, second = (one, two) if made.edge.endswith("0") else (two, one)
        lying[made.gives[0]] = first
        if made.gives[1] is not None:
            lying[made.gives[1]] = second


def _where(made: Cut, piece: Rectangle) -> Fraction:
    left, low, right, high = piece
    return {
        "end 0": left + made.setting,
        "end 1": right - made.setting,
        "edge 0": low + made.setting,
        "edge 1": high - made.setting,
    }[made.edge]
