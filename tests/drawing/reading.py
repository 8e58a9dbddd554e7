"""Reads a figure back by geometry: its numbers, what lies on what, and whether everything is on the paper."""

from itertools import combinations

from plankit.drawing.occupied import overlap, text_quad
from plankit.drawing.primitives import Area, Figure, Line, Mark, Text, bounds


def texts(figure: Figure) -> list[str]:
    return [item.text for item in figure.items if isinstance(item, Text)]


def of_kind(figure: Figure, kind: str) -> list[Line]:
    return [item for item in figure.items if isinstance(item, Line) and item.kind == kind]


def filled(figure: Figure, fill: str) -> list[Area]:
    return [item for item in figure.items if isinstance(item, Area) and item.fill == fill]


def marks(figure: Figure, kind: str) -> list[Mark]:
    return [item for item in figure.items if isinstance(item, Mark) and item.kind == kind]


def area(ring) -> float:
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))) / 2


def words_on_words(figure: Figure) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes overlap."""
    found = [item for item in figure.items if isinstance(item, Text)]
    return [
        (one.text, other.text)
        for one, other in combinations(found, 2)
        if overlap(text_quad(one), text_quad(other), -0.15)
    ]


def words_on_lines(
    figure: Figure, kinds=("outline", "visible", "receding", "leader", "dimension", "extension")
):
    """Texts that a line drawn after or before them runs through; what a white area covers does not count."""
    found = []
    for number, item in enumerate(figure.items):
        if not isinstance(item, Text):
            continue
        box = text_quad(item)
        covered = _ground(figure, number, box)
        for place, line in enumerate(figure.items):
            if isinstance(line, Line) and line.kind in kinds and not place < covered:
                pieces = zip(line.points, line.points[1:], strict=False)
                if any(overlap(piece, box, -0.35) for piece in pieces):
                    found.append((item.text, line.kind))
    return found


def _ground(figure: Figure, number: int, box) -> int:
    """The place of the last white area before a text that lies under the whole of it; 0 if there is none."""
    import shapely

    for place in range(number - 1, -1, -1):
        item = figure.items[place]
        if isinstance(item, Area) and item.fill == "paper":
            ground = shapely.Polygon(item.rings[0]).buffer(0.6)
            if ground.contains(shapely.Polygon(box)):
                return place
    return 0


def off_paper(figure: Figure) -> bool:
    left, top, right, bottom = bounds(figure)
    return left < -0.01 or top < -0.01 or right > figure.width + 0.01 or bottom > figure.height + 0.01
