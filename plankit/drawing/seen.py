"""Parts as they are seen, drawn on the page: lines by what they belong to, fills behind them."""

from collections.abc import Callable, Iterable
from functools import lru_cache

from plankit.build import Item, ItemKind
from plankit.drawing.direction import Direction
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Area, Fill, Line, LineKind
from plankit.drawing.view import View, look
from plankit.parts import Box, Part, block, solid

OUTSIDE: frozenset[ItemKind] = frozenset({"caster", "levelling foot", "pull", "catch", "wall fixing", "other"})
"""Hardware that is drawn as a plain block; hinges, slides and pins hide behind the parts they hold."""


HARDWARE = "hardware "
"""What the ids of hardware begin with in a view; a number follows, in the order it was given."""


def outside(items: Iterable[Item]) -> tuple[Item, ...]:
    """The hardware that is drawn."""
    return tuple(item for item in items if item.kind in OUTSIDE)


def shown_in_steps(items: Iterable[Item]) -> tuple[Item, ...]:
    """The hardware that is drawn in the step that fits it: all but what is pushed into its holes."""
    return tuple(item for item in items if item.kind != "shelf pin")


def view_of(
    parts: Iterable[Part],
    towards: str | Direction,
    *,
    items: Iterable[Item] = (),
    every: bool = False,
    hidden: bool = False,
    fills: bool = True,
) -> View:
    """What is seen of some parts and hardware; the same from the same side is looked at once.

    every  whether all hardware that is given is drawn, and not only what stands outside
    """
    blocks = tuple(item.box for item in (items if every else outside(items)))
    return _looked(tuple(sorted(parts, key=lambda part: part.id)), blocks, towards, hidden, fills)


@lru_cache(maxsize=128)
def _looked(
    parts: tuple[Part, ...], blocks: tuple[Box, ...], towards: str | Direction, hidden: bool, fills: bool
) -> View:
    solids = [(part.id, solid(part)) for part in parts]
    solids += [(f"{HARDWARE}{number}", block(box)) for number, box in enumerate(blocks)]
    return look(solids, towards, hidden=hidden, fills=fills)


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
