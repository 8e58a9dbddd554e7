"""How a wide part is glued up: boards side by side, grain, blank, and the outline it is trimmed to."""

from plankit.drawing import dimension as dim
from plankit.drawing.hatch import hatch
from plankit.drawing.placing import framed, ratio, scale_words
from plankit.drawing.primitives import Area, Figure, Line, Mark, Point, Primitive, Text, bounds
from plankit.drawing.words import count_word, unit_note
from plankit.errors import PlanError
from plankit.parts import GlueUp, Part
from plankit.units import Notation

WIDE, HIGH = 120.0, 90.0


def glue_up_drawing(part: Part, notation: Notation, label: str = "") -> Figure:
    """The boards of a glue-up, its blank, and the outline it is trimmed to after gluing.

    label   the part's letter
    raises  PlanError where the part is not glued up
    """
    glued = part.glue_up
    if glued is None:
        raise PlanError("this part is of one piece: there is nothing to glue up.", where=part.name)
    length, width, _ = (float(side.mm) for side in glued.blank)
    number = ratio(notation.unit, length, width, WIDE, HIGH)
    outer = (0.0, 0.0, length / number, width / number)
    long, wide = float(part.length.mm) / number, float(part.width.mm) / number
    inset = (outer[2] - long) / 2, (outer[3] - wide) / 2
    inner = (inset[0], inset[1], inset[0] + long, inset[1] + wide)
    items = (*_boards(glued, outer, inner), *_sizes(part, glued, outer, inner, notation))
    left, top, _, bottom = bounds(items)
    heading = f"{label}\u00a0 {part.name}".strip("\u00a0 ")
    head = (
        Text((left, top - 7.0), f"{heading}: glue-up", 10.0, bold=True),
        Text((left, top - 3.0), _stock_line(part, glued, notation), 8.0),
    )
    tail = Text(
        (left, bottom + 5.0),
        f"{scale_words(number)}. {unit_note(notation)}. Hatched: trimmed off after gluing.",
        8.0,
    )
    return framed(
        f"glue-up-{part.id}", (*head, *items, tail), f"{part.name}: glue-up", _words(part, glued, notation)
    )


def _stock_line(part: Part, glued: GlueUp, notation: Notation) -> str:
    return (
        f"{count_word(glued.boards).capitalize()} boards of {part.stock.name}; "
        f"blank {notation.bare(glued.blank[2])} thick, finished {notation.bare(part.thickness)}"
    )


def _boards(
    glued: GlueUp, outer: tuple[float, float, float, float], inner: tuple[float, float, float, float]
) -> tuple[Primitive, ...]:
    blank, kept = _ring(outer), _ring(inner)
    items: list[Primitive] = [
        Area((blank, kept), "waste"),
        Area((kept,), "part"),
        *hatch([blank, kept], -45.0, 1.6),
    ]
    high = (outer[3] - outer[1]) / glued.boards
    items.extend(
        Line(((outer[0], outer[1] + high * row), (outer[2], outer[1] + high * row)), "visible")
        for row in range(1, glued.boards)
    )
    items.append(Line((*blank, blank[0]), "visible"))
    items.append(Line((*kept, kept[0]), "outline"))
    for row in range(glued.boards):
        y = outer[1] + high * (row + 0.5)
        middle = (outer[0] + outer[2]) / 2
        items.append(Line(((middle - 10.0, y), (middle + 10.0, y)), "dimension"))
        items.append(Mark((middle - 10.0, y), "arrow", 2.2, 180.0))
        items.append(Mark((middle + 10.0, y), "arrow", 2.2, 0.0))
        items.append(Text((middle, y - 0.9), f"grain, board {row + 1}", 8.0, "middle"))
    return tuple(items)


def _sizes(
    part: Part, glued: GlueUp, outer: tuple[float, float, float, float],
    inner: tuple[float, float, float, float], notation: Notation,
) -> tuple[Primitive, ...]:  # fmt: skip
    """Blank below and at the left, trimmed size above and at the right; one board's rip at the left."""
    right, down, up, left = (1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (-1.0, 0.0)
    first = (outer[0], outer[1] + (outer[3] - outer[1]) / glued.boards)
    asked = (
        dim.Dimension(
            (outer[0], outer[3]), (outer[2], outer[3]), right, down, 6.0, notation.bare(glued.blank[0])
        ),
        dim.Dimension(first, (outer[0], outer[1]), up, left, 6.0, notation.bare(glued.rip)),
        dim.Dimension(
            (outer[0], outer[3]), (outer[0], outer[1]), up, left, 13.0, notation.bare(glued.blank[1])
        ),
        dim.Dimension(
            (inner[0], inner[1]), (inner[2], inner[1]), right, up, 6.0 + inner[1], notation.bare(part.length)
        ),
        dim.Dimension(
            (inner[2], inner[3]),
            (inner[2], inner[1]),
            up,
            right,
            6.0 + outer[2] - inner[2],
            notation.bare(part.width),
        ),
    )
    return tuple(item for one in asked for item in dim.drawn(one))


def _ring(box: tuple[float, float, float, float]) -> tuple[Point, ...]:
    left, top, right, bottom = box
    return (left, top), (right, top), (right, bottom), (left, bottom)


def _words(part: Part, glued: GlueUp, notation: Notation) -> str:
    return (
        f"{part.name} glued up from {count_word(glued.boards)} boards of {part.stock.name}, side by side, "
        f"grain along the length. Each board is ripped to {notation.both(glued.rip)} and cut to "
        f"{notation.both(glued.length)}. "
        f"The blank is {notation.size_both(*glued.blank)}; it is trimmed to "
        f"{notation.size_both(part.length, part.width, part.thickness)} after gluing."
    )
