"""Carries out an order of cuts as written, holding every piece: written apart from what made it."""

from collections import Counter
from fractions import Fraction

from plankit.cutting import Layout
from plankit.cutting.job import Job

type Rect = tuple[Fraction, Fraction, Fraction, Fraction]


def carry_out(job: Job, layout: Layout) -> Counter[tuple[str, Fraction, Fraction]]:
    """Cut one sheet or board; return the parts freed, with their sizes, that stand where they were drawn."""
    kind = layout.kind
    name = layout.cuts[0].of if layout.cuts else "whole"
    held: dict[str, Rect] = {name: (Fraction(0), kind.length, Fraction(0), kind.width or Fraction(1))}
    freed: dict[str, str] = {}
    for order, cut in enumerate(layout.cuts, start=1):
        assert cut.order == order
        piece = held.pop(cut.of)
        kept, rest = divided(piece, cut.edge, cut.setting, job.kerf)
        held[cut.gives[0]] = kept
        assert cut.gives[0] not in freed
        assert (cut.gives[1] is not None) == (rest is not None)
        if rest is not None and cut.gives[1] is not None:
            held[cut.gives[1]] = rest
        if cut.frees:
            first = cut.also_frees or matches(layout, kept, cut.frees)
            freed[cut.gives[0] if first else cut.gives[1] or ""] = cut.frees
        if cut.also_frees:
            freed[cut.gives[1] or ""] = cut.also_frees
    return Counter((part, held[n][1] - held[n][0], held[n][3] - held[n][2]) for n, part in freed.items() if
                   matches(layout, held[n], part))  # fmt: skip


def divided(piece: Rect, edge: str, setting: Fraction, kerf: Fraction) -> tuple[Rect, Rect | None]:
    left, right, low, high = piece
    size = right - left if edge.startswith("end") else high - low
    assert 0 < setting < size
    rest = size - setting - kerf
    if edge == "end 0":
        return (left, left + setting, low, high), (right - rest, right, low, high) if rest > 0 else None
    if edge == "end 1":
        return (right - setting, right, low, high), (left, left + rest, low, high) if rest > 0 else None
    if edge == "edge 0":
        return (left, right, low, low + setting), (left, right, high - rest, high) if rest > 0 else None
    return (left, right, high - setting, high), (left, right, low, low + rest) if rest > 0 else None


def matches(layout: Layout, rect: Rect, part: str) -> bool:
    return any(
        p.part == part and (p.x, p.x + p.length, p.y, p.y + (p.width or 1)) == rect for p in layout.pieces
    )
