"""Two moving things at once: which must be opened before the other, and which cannot both be open."""

from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from plankit.build.build import Build
from plankit.build.moving import Moving
from plankit.build.swing import Meeting, far_open, gone, owner_of, sweep
from plankit.build.swing_motion import may_meet, met_open, reach_of

type How = Literal["shut", "order", "never"]
"""Why: `first` is in the way while shut; `then` is in the way once open; each is in the other's way."""


@dataclass(frozen=True, slots=True)
class Both:
    """Two things of which one is in the other's way.

    first  what must be opened first; where neither can be, the one that its author made first
    then   the other
    far    how far `then` opens while `first` is shut; else how far `first` opens while `then` is open
    also   how far `then` opens while `first` is open, where it is in the way; else None
    """

    how: How
    first: Moving
    then: Moving
    far: float
    also: float | None = None


def both_open(build: Build) -> tuple[Both, ...]:
    """Return the pairs of things that move of which one is in the other's way, shut or open.

    Each is moved as far as it opens by itself. What runs into the other while that is shut, and cannot wait for
    it, is left to its own sweep.
    source  solved for in the plane of both motions; solids at stated positions where no plane holds both
    """
    if len(build.moving) < 2:
        return ()
    reaches = {moving.name: reach_of(build, moving) for moving in build.moving}
    found = (
        _pair(build, one, other)
        for one, other in combinations(build.moving, 2)
        if may_meet(reaches[one.name], reaches[other.name])
    )
    return tuple(pair for pair in found if pair is not None)


def _pair(build: Build, one: Moving, other: Moving) -> Both | None:
    for first, then in ((other, one), (one, other)):
        waits = _meeting(build, sweep(build, then).waits, first)
        if waits is not None and gone(waits) < far_open(build, then):
            return Both("shut", first, then, gone(waits))
    ways = {moving.name: (moving, far_open(build, moving)) for moving in (one, other)}
    for own, met in ((one, other), (other, one)):
        blocked = _meeting(build, sweep(build, own).opening, met)
        if blocked is not None and gone(blocked) < ways[own.name][1]:
            return None
    far = met_open(build, ways[one.name], ways[other.name])
    also = met_open(build, ways[other.name], ways[one.name])
    if far is not None:
        return Both("never" if also is not None else "order", one, other, far, also)
    return Both("order", other, one, also) if also is not None else None


def _meeting(build: Build, met: tuple[Meeting, ...], other: Moving) -> Meeting | None:
    return next((one for one in met if owner_of(build, one) is other), None)
