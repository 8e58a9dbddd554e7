"""How much further a level part bends for the notches and grooves in it, between two supports."""

from fractions import Fraction
from itertools import pairwise

from plankit.checks.blocks import TOUCH, Ends, blocks
from plankit.checks.spans import Span
from plankit.parts import AXES, Groove, Notch, Part

_UP = AXES.index("z")
_STEP = 10**6


def weakened(part: Part, span: Span, *, centred: bool) -> Fraction:
    """Return how many times as far a part bends in the middle of a span as it would without its cuts; 1 or more.

    centred  whether the load lies in the middle of the span; else it is spread evenly
    source   virtual work: ∫ M m / E I dx, piece by piece where the section stays the same; M and m of a simple span
    """
    if part.leans or not any(isinstance(one, Notch | Groove) for one in part.features):
        return Fraction(1)
    along = AXES.index(span.along)
    low, long = float(span.low.mm), float(span.clear.mm)
    left = blocks(part)
    ends = {end for block in left for end in (block[2 * along] - low, block[2 * along + 1] - low) if 0 < end < long}
    marks = sorted({0.0, long / 2, long, *ends})
    whole = float(span.width.mm) * float(part.thickness.mm) ** 3 / 12
    bent, sound = 0.0, 0.0
    for start, end in pairwise(marks):
        work = _work(start, end, long, centred=centred)
        stiff = _inertia([block for block in left if _spans(block, along, low + start, low + end)], along)
        if end - start <= TOUCH:
            continue
        if not stiff:
            return Fraction(1)  # cut through, which another check tells
        bent += work / stiff
        sound += work / whole
    return max(Fraction(1), Fraction(round(bent / sound * _STEP), _STEP))


def _spans(block: Ends, along: int, start: float, end: float) -> bool:
    return block[2 * along] - TOUCH <= start and end <= block[2 * along + 1] + TOUCH


def _work(start: float, end: float, long: float, *, centred: bool) -> float:
    """M times m of a simple span, summed from one place to another; Simpson's rule is exact for what is cubic."""
    middle = (start + end) / 2
    values = [_moment(at, long, centred=centred) * min(at, long - at) for at in (start, middle, end)]
    return (end - start) * (values[0] + 4 * values[1] + values[2]) / 6


def _moment(at: float, long: float, *, centred: bool) -> float:
    """The bending moment of a simple span, as a share of any load."""
    return min(at, long - at) / 2 if centred else at * (long - at) / (2 * long)


def _inertia(section: list[Ends], along: int) -> float:
    """The second moment of area of what is left of a section, about its own middle; nothing where nothing is."""
    across = 1 - along
    plates = [
        (block[2 * across + 1] - block[2 * across], block[2 * _UP], block[2 * _UP + 1]) for block in section
    ]
    area = sum(wide * (high - low) for wide, low, high in plates)
    if not area:
        return 0.0
    middle = sum(wide * (high * high - low * low) / 2 for wide, low, high in plates) / area
    return sum(wide * ((high - middle) ** 3 - (low - middle) ** 3) / 3 for wide, low, high in plates)
