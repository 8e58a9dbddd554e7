"""Where a finished piece goes: the niche it stands in, the doorways and stairs it is carried through."""

import math
from dataclasses import dataclass
from itertools import combinations

from plankit.parts.space import Size
from plankit.units import Length


@dataclass(frozen=True, slots=True)
class Niche:
    """A place between walls that the piece is pushed into.

    size       its width, depth and height
    clearance  what is to stay free at each side and above
    """

    name: str
    size: Size
    clearance: Length


@dataclass(frozen=True, slots=True)
class Passage:
    """An opening that the piece is carried through, straight on: a doorway, stairs between walls.

    clearance  what hands and hinges need, in width and in height
    """

    name: str
    width: Length
    height: Length
    clearance: Length


type Surrounding = Niche | Passage


@dataclass(frozen=True, slots=True)
class Carried:
    """How a piece goes through an opening.

    face    the two sizes of the piece that lead through it, the smaller first
    tilted  whether it goes through on the slant only
    """

    face: tuple[Length, Length]
    tilted: bool


def carried(size: Size, passage: Passage) -> Carried | None:
    """Return how a piece of a size goes through an opening, turned as it must be; None where it does not.

    The smallest face leads where several would do; a face that goes through without tilting comes before one that
    does not.
    """
    room = (passage.width - passage.clearance, passage.height - passage.clearance)
    faces = [(min(pair), max(pair)) for pair in combinations(size, 2)]
    faces.sort(key=lambda face: face[0].mm * face[1].mm)
    for tilted in (False, True):
        for face in faces:
            if fits_through(face, room, tilted=tilted):
                return Carried(face, tilted)
    return None


def fits_through(face: tuple[Length, Length], room: tuple[Length, Length], *, tilted: bool) -> bool:
    """Tell whether a rectangle goes into another; turned by any angle where `tilted` says so.

    source  the condition for a rectangle in a rectangle (Carver 1957; Wetzel, "Rectangles in rectangles", 2000; from
            memory), which the tests compare with turning it in small steps
    """
    short, long = sorted(float(one.mm) for one in face)
    narrow, wide = sorted(float(one.mm) for one in room)
    if short <= narrow and long <= wide:
        return True
    if not tilted or short > narrow or narrow <= 0:
        return False
    square = long**2 + short**2
    least = (2 * short * long * wide + (long**2 - short**2) * math.sqrt(square - wide**2)) / square
    return narrow >= least
