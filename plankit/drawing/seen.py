"""Parts as they are seen, drawn on the page: lines by what they belong to, fills behind them."""

from collections.abc import Callable, Iterable
from functools import lru_cache

from plankit.drawing.direction import Direction
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Area, Fill, Line, LineKind
from plankit.drawing.view import View, look
from plankit.parts import Part, solid


def view_of(
    parts: Iterable[Part], towards: str | Direction, *, hidden: bool = False, fills: bool = True
) -> View:
    """What is seen of some parts; the same parts from the same side are looked at once."""
    return _looked(tuple(sorted(parts, key=lambda part: part.id)), towards, hidden, fills)


@lru_cache(maxsize=128)
def _looked(parts: tuple[Part, ...], towards: str | Direction, hidden: bool, fills: bool) -> View:
    return look([(part.id, solid(part)) for part in parts], towards, hidden=hidden, fills=fills)


def lines_of(view: View, placing: Placing, kind: Callable[[str, str], LineKind]) -> tuple[Line, ...]:
    """The visible lines on the page; `kind` tells a line's kind from its part and how it is seen."""
    drawn = [Line(placing.ring(points), kind(part, seen)) for part, points, seen in view.lines]
    return tuple(sorted(drawn, key=lambda line: _ORDER.get(line.kind, 1)))


_ORDER = {"receding": 0, "visible": 1, "outline": 2}


def hidden_lines(view: View, placing: Placing) -> tuple[Line, ...]:
    """The hidden lines on the page, each stretch once."""
    found = {placing.ring(points): None for _, points in view.hidden}
    return tuple(Line(points, "hidden") for points in found)


def fills_of(view: View, placing: Placing, fill: Callable[[str], Fill]) -> tuple[Area, ...]:
    """The visible regions on the page, filled by part."""
    return tuple(
        Area(tuple(placing.ring(ring) for ring in rings), fill(part))
        for part, rings in view.fills
        if _solid(rings)
    )


def _solid(rings: tuple[tuple[tuple[float, float], ...], ...]) -> bool:
    return bool(rings) and all(len(ring) >= 3 for ring in rings)


def plain_kind(_part: str, seen: str) -> LineKind:
    """Outlines wide, inner edges narrower."""
    return "outline" if seen == "outline" else "visible"
