"""The names of a rectangle's four sides, in small print along them: inside it, just outside, or beyond all else."""

from collections.abc import Iterator, Mapping
from typing import Final, Literal

from plankit.drawing.metrics import text_box
from plankit.drawing.occupied import Occupied, Quad, text_quad
from plankit.drawing.primitives import Bounds, Point, Text

type Side = Literal["left", "right", "lower", "upper"]

SIZE = 8.0
"""Points; the height of edge names."""
_OFF = 0.9
"""From a side to its name, in mm."""
_OPEN = 14.0
"""A rectangle narrower than this has no names inside: one could not tell which of two sides is meant."""
_SHARES: Final = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9, 0.25, 0.75)
_ROOM: Final = 0.25
_WORDS_APART: Final = 1.2
"""Where there is a choice, a name stands so far from other words, in mm: nearer, they read as one."""


def side_names(
    box: Bounds,
    names: Mapping[Side, str],
    taken: Occupied,
    needed: frozenset[Side] = frozenset(),
    *,
    outside: bool = False,
) -> tuple[Text, ...]:
    """The names beside their sides, each clear of what is drawn; `taken` learns where they went.

    box     left, top, right, bottom of the rectangle, page mm
    needed  sides that get their name beyond everything else where there is no room nearer
    outside whether names stay out of the rectangle
    """
    found: list[Text] = []
    for side, name in names.items():
        text = _best(_near(box, side, name, outside=outside), taken)
        if text is None and side in needed:
            text = next(spot for spot in _beyond(box, side, name, taken) if _clear(spot, taken))
        if text is not None:
            found.append(text)
            taken.add((text,))
    return tuple(found)


def _best(spots: Iterator[Text], taken: Occupied) -> Text | None:
    """The first place that is clear and apart from other words; the first that is clear where none is."""
    first = None
    for spot in spots:
        if _clear(spot, taken):
            if not taken.near_words(text_quad(spot), _WORDS_APART):
                return spot
            first = first or spot
    return first


def _clear(text: Text, taken: Occupied) -> bool:
    return taken.is_free(text_quad(text), _ROOM)


def _near(box: Bounds, side: Side, name: str, *, outside: bool) -> Iterator[Text]:
    """Places close to a side: inside and along it, outside and along it, then level beside an upright side."""
    left, top, right, bottom = box
    lying = side in {"lower", "upper"}
    wide = right - left if lying else bottom - top
    deep = bottom - top if lying else right - left
    long = text_box(name, SIZE)[2]
    if deep >= _OPEN and not outside:
        yield from (text for text in _along(box, side, name, inside=True) if _within(text, box))
    if long <= wide + 4.0:
        yield from _along(box, side, name, inside=False)
    if not lying:
        yield from _beside(box, side, name)
        yield from _at_corner(box, side, name)


def _along(box: Bounds, side: Side, name: str, *, inside: bool) -> Iterator[Text]:
    """Places along a side, its middle first; upright sides have their name upright."""
    left, top, right, bottom = box
    _, up, _, down = text_box(name, SIZE)
    far = (_OFF,) if inside else (_OFF, 2 * _OFF, 3 * _OFF)
    for off in far:
        for share in _SHARES:
            x, y = left + (right - left) * share, bottom + (top - bottom) * share
            spots: dict[Side, tuple[Point, Point]] = {
                "lower": ((x, bottom - off - down), (x, bottom + off - up)),
                "upper": ((x, top + off - up), (x, top - off - down)),
                "left": ((left + off - up, y), (left - off - down, y)),
                "right": ((right - off - down, y), (right + off - up, y)),
            }
            angle = 0.0 if side in {"lower", "upper"} else -90.0
            yield Text(spots[side][0 if inside else 1], name, SIZE, "middle", angle)


def _beside(box: Bounds, side: Side, name: str) -> Iterator[Text]:
    """Level words outside an upright side."""
    left, top, right, bottom = box
    _, up, _, _ = text_box(name, SIZE)
    for off in (_OFF, 2 * _OFF, 3 * _OFF, 5 * _OFF):
        for share in _SHARES:
            y = bottom + (top - bottom) * share - up / 2
            yield (
                Text((left - off, y), name, SIZE, "end")
                if side == "left"
                else Text((right + off, y), name, SIZE)
            )


def _at_corner(box: Bounds, side: Side, name: str) -> Iterator[Text]:
    """Level words over or under the corner at an upright side."""
    left, top, right, bottom = box
    _, up, _, down = text_box(name, SIZE)
    for off in (_OFF, 3 * _OFF):
        for y in (top - off - down, bottom + off - up):
            yield Text((left, y), name, SIZE) if side == "left" else Text((right, y), name, SIZE, "end")


def _beyond(box: Bounds, side: Side, name: str, taken: Occupied) -> Iterator[Text]:
    """Level words farther and farther out; the last of these lies beyond everything."""
    left, top, right, bottom = box
    _, up, _, down = text_box(name, SIZE)
    points = [
        *(spot for quad in taken.boxes for spot in quad),
        *(spot for piece in taken.pieces for spot in piece),
    ]
    reach = (
        max((abs(x) + abs(y) for x, y in points), default=0.0)
        + abs(left)
        + abs(top)
        + abs(right)
        + abs(bottom)
    )
    x, y = (left + right) / 2, (top + bottom) / 2 - up / 2
    for step in range(1, int(reach) + 4):
        far = float(step)
        if side in {"left", "right"}:
            yield (
                Text((left - far, y), name, SIZE, "end")
                if side == "left"
                else Text((right + far, y), name, SIZE)
            )
        else:
            level = bottom + far - up if side == "lower" else top - far - down
            yield Text((x, level), name, SIZE, "middle")


def _within(text: Text, box: Bounds) -> bool:
    left, top, right, bottom = box
    quad: Quad = text_quad(text)
    return all(left + 0.5 < x < right - 0.5 and top + 0.5 < y < bottom - 0.5 for x, y in quad)
