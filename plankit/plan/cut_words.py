"""The order of cuts in words, for someone who stands at the saw with the drawing beside her."""

from collections.abc import Mapping

from plankit.cutting import Cut, Layout
from plankit.units import Length, Notation

EDGES = {"edge 0": "lower edge", "edge 1": "upper edge", "end 0": "left end", "end 1": "right end"}
"""Edges and ends as the cutting drawing shows them."""
_OTHER = {"edge 0": "edge 1", "edge 1": "edge 0", "end 0": "end 1", "end 1": "end 0"}
_VERBS = {"rip": "Rip", "crosscut": "Crosscut"}


def cut_words(layout: Layout, names: Mapping[str, str], one: str, write: Notation) -> tuple[str, ...]:
    """Return each cut as a sentence or two.

    names  what each label's part is called
    one    what is cut: "sheet" or "board"
    """
    comes_from: dict[str, str] = {}
    said = []
    for made in layout.cuts:
        said.append(_said(made, comes_from.get(made.of, f"the {one}"), names, write))
        if made.kind == "trim":
            comes_from[made.gives[0]] = f"the trimmed {one}"
            continue
        comes_from[made.gives[0]] = f"the piece from cut {made.order}"
        if made.gives[1] is not None:
            comes_from[made.gives[1]] = f"what cut {made.order} left"
    return tuple(said)


def _said(made: Cut, piece: str, names: Mapping[str, str], write: Notation) -> str:
    setting = write.both(Length.of_mm(made.setting))
    where = f"{setting} from its {EDGES[made.edge]}"
    if made.kind == "trim":
        return f"Trim the {EDGES[_OTHER[made.edge]]} of {piece}: cut {where}."
    freed = [f"{label} ({names[label]})" for label in (made.frees, made.also_frees) if label]
    what = f" This frees {' and '.join(freed)}." if freed else ""
    return f"{_VERBS[made.kind]} {piece}, {where}.{what}"
