"""Where every piece lies on its board or sheet after the cut that makes it."""

from fractions import Fraction

from plankit.cutting import Cut, Layout

type Rectangle = tuple[Fraction, Fraction, Fraction, Fraction]
"""Left, lower, right, upper side on the stock, mm; a board is 1 wide."""


def after_each_cut(layout: Layout, deep: Fraction | None = None) -> dict[str, Rectangle]:
    """Return the place of every piece by its name; the kerf counts with the second of two.

    deep  how wide a board is drawn, mm
    """
    wide = layout.kind.width or deep or Fraction(1)
    places = {layout.name: (Fraction(0), Fraction(0), layout.kind.length, wide)}
    for made in layout.cuts:
        left, low, right, high = places[made.of]
        at = where(made, places[made.of])
        ends = made.edge.startswith("end")
        one, two = (
            ((left, low, at, high), (at, low, right, high))
            if ends
            else ((left, low, right, at), (left, at, right, high))
        )
        first, second = (one, two) if made.edge.endswith("0") else (two, one)
        places[made.gives[0]] = first
        if made.gives[1] is not None:
            places[made.gives[1]] = second
    return places


def where(made: Cut, piece: Rectangle) -> Fraction:
    """Return where along the stock, or across it, the saw runs."""
    left, low, right, high = piece
    return {
        "end 0": left + made.setting,
        "end 1": right - made.setting,
        "edge 0": low + made.setting,
        "edge 1": high - made.setting,
    }[made.edge]
