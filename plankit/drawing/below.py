"""Sentences under a drawing, in lines that suit its width."""

from collections.abc import Sequence

from plankit.drawing.metrics import text_width
from plankit.drawing.primitives import Primitive, Text, bounds


def sentences_below(
    items: Sequence[Primitive], said: Sequence[str], least: float = 0.0, most: float | None = None
) -> list[Text]:
    """Return sentences in as few lines as the drawing is wide enough for, at its left.

    least  they may be so long in any case, mm
    most   a sentence longer than this is broken between its words, mm; none is where it is None
    """
    left, _, right, bottom = bounds(items)
    lines = [said[0]]
    for one in said[1:]:
        longer = f"{lines[-1]} {one}"
        if text_width(longer, 8.0) <= max(right - left, least):
            lines[-1] = longer
        else:
            lines += [one] if most is None else wrapped(one, most)
    return [Text((left, bottom + 5.0 + 3.8 * row), line, 8.0) for row, line in enumerate(lines)]


def wrapped(said: str, most: float) -> list[str]:
    """Words of 8 points in lines of so many mm at most; one word that is longer has a line to itself."""
    lines: list[str] = []
    line = ""
    for word in said.split(" "):
        longer = f"{line} {word}".lstrip()
        if line and text_width(longer, 8.0) > most:
            lines.append(line)
            longer = word
        line = longer
    return [*lines, line]
