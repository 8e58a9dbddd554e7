"""A part as plain blocks, in millimetres: what is left of its box when its notches and grooves are out.

Straight moves of blocks can be told apart by comparing numbers. Parts that lean or are sawn at a slant are no
blocks; `outline` gives their solid, small holes filled.
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from plankit.parts import AXES, Bevel, CompoundMitre, Cove, Groove, Mitre, Notch, Part, Taper, box_of, solid

if TYPE_CHECKING:
    from manifold3d import Manifold

type Ends = tuple[float, float, float, float, float, float]
"""Lower and higher end along x, y and z, in that order."""

TOUCH = 0.02
"""Blocks that share less than so many millimetres along an axis are taken to touch."""
SLANTS = (Taper, Mitre, CompoundMitre, Bevel)
_BLOCKS = (Notch, Groove)


@lru_cache(maxsize=1024)
def around(part: Part) -> Ends:
    """Return the smallest block round a part."""
    return _ends(*box_of(part).mm())


@lru_cache(maxsize=1024)
def blocks(part: Part) -> tuple[Ends, ...]:
    """Return the blocks that fill a part; one round the whole where it leans or is sawn at a slant.

    Round holes count as filled: nothing that is put in goes through them.
    """
    left = [around(part)]
    if is_blocks(part):
        x, y, z = part.box.corner.mm()
        for cut in (feature.cut for feature in part.features if isinstance(feature, _BLOCKS)):
            low, high = cut.mm()
            gone = _ends((low[0] + x, low[1] + y, low[2] + z), (high[0] + x, high[1] + y, high[2] + z))
            left = [piece for block in left for piece in _without(block, gone)]
    return tuple(left)


@dataclass(frozen=True, slots=True)
class Taken:
    """The space one part takes, worked out once for all the questions of a check.

    exact  whether its blocks fill it exactly
    """

    part: Part
    around: Ends
    blocks: tuple[Ends, ...]
    exact: bool


def taken(part: Part) -> Taken:
    """Return the space that a part takes."""
    return Taken(part, around(part), blocks(part), is_blocks(part))


def is_blocks(part: Part) -> bool:
    """Tell whether blocks fill a part exactly, small holes and eased edges aside."""
    return not part.leans and not any(isinstance(feature, SLANTS) for feature in part.features)


def outline(part: Part) -> "Manifold":
    """Return a part's solid with its round holes filled and its edges sharp but where they are hollowed."""
    kept = tuple(feature for feature in part.features if isinstance(feature, (*SLANTS, *_BLOCKS, Cove)))
    return solid(part if len(kept) == len(part.features) else replace(part, features=kept))


def share(one: Ends, other: Ends) -> bool:
    """Tell whether two blocks share more than a touch along every axis."""
    return shares(one, other, 0) and shares(one, other, 1) and shares(one, other, 2)


def shares(one: Ends, other: Ends, index: int) -> bool:
    """Tell whether two blocks share more than a touch along one axis (0, 1, 2 for x, y, z)."""
    low, high = 2 * index, 2 * index + 1
    return (
        other[high] - one[low] > TOUCH < one[high] - other[low]
        and min(one[high] - one[low], other[high] - other[low]) > TOUCH
    )


def shifted(block: Ends, index: int, by: float) -> Ends:
    """Return a block so far along one axis."""
    ends = list(block)
    ends[2 * index] += by
    ends[2 * index + 1] += by
    return (ends[0], ends[1], ends[2], ends[3], ends[4], ends[5])


def _ends(low: tuple[float, float, float], high: tuple[float, float, float]) -> Ends:
    return low[0], high[0], low[1], high[1], low[2], high[2]


def _without(block: Ends, gone: Ends) -> list[Ends]:
    """What is left of a block when another is taken out of it: up to six blocks."""
    if not share(block, gone):
        return [block]
    left, rest = [], list(block)
    for index in range(len(AXES)):
        low, high = 2 * index, 2 * index + 1
        if gone[low] - rest[low] > TOUCH:
            piece = list(rest)
            piece[high] = gone[low]
            left.append(piece)
            rest[low] = gone[low]
        if rest[high] - gone[high] > TOUCH:
            piece = list(rest)
            piece[low] = gone[high]
            left.append(piece)
            rest[high] = gone[high]
    return [(p[0], p[1], p[2], p[3], p[4], p[5]) for p in left]
