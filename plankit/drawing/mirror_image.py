"""How a part's mirror image lies in the build: which of its faces each face of the part becomes."""

from collections import Counter

from plankit.parts import AXES, Part, Turn, plainest
from plankit.parts.space import ALL_TURNS
from plankit.stock import Sheet


def turn_to(part: Part, other: Part) -> Turn | None:
    """The mirroring turn that makes `other` of `part`, the one that moves fewest axes; None where there is none.

    Sizes, grain, thickness and everything that is done to the part must come out where `other` has them;
    what a hole is for and what a notch goes round may differ.
    """
    done = Counter(plainest(feature) for feature in other.features)
    fitting = [turn for turn in ALL_TURNS if turn.is_mirror and _lies_alike(part, other, turn)]
    for turn in sorted(fitting, key=_moved):
        turned = Counter(plainest(feature.turned(turn, part.box.size)) for feature in part.features)
        if turned == done:
            return turn
    return None


def _moved(turn: Turn) -> tuple[int, int, tuple[bool, bool, bool]]:
    axes = sum(1 for axis, to in zip(AXES, turn.to, strict=True) if axis != to)
    return axes, sum(turn.reversed_), turn.reversed_


def _lies_alike(part: Part, other: Part, turn: Turn) -> bool:
    if turn.size(part.box.size) != other.box.size:
        return False
    if isinstance(part.stock, Sheet) and turn.axis(part.through) != other.through:
        return False
    return not part.grain_matters or turn.axis(part.grain) == other.grain
