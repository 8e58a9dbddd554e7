"""Screws and brads of a length that stores seldom have."""

from collections.abc import Iterator
from itertools import chain

from plankit.build import Build, Spec
from plankit.checks.wording import PRACTICE, a_or_an
from plankit.finding import Finding, Level
from plankit.units import L, Length, exactly

_MARKS = 64
_TO_TWO, _BEYOND = "1/2 5/8 3/4 7/8 1 1-1/4 1-1/2 1-3/4 2", "2-1/4 2-1/2 2-3/4 3 3-1/2 4 4-1/2 5 6"


def _lengths(unit: str, listed: str) -> tuple[Length, ...]:
    return tuple(L(one, unit) for one in listed.split())


SCREWS = {
    "in": _lengths("in", f"{_TO_TWO} {_BEYOND}"),
    "mm": _lengths("mm", "12 16 20 25 30 35 40 45 50 55 60 70 80 90 100 120"),
}
"""Lengths in which wood screws and pan-head screws are commonly sold, by the unit on their box (common practice)."""
BRADS = {"in": _lengths("in", f"{_TO_TWO} 1-1/8 1-3/8"), "mm": _lengths("mm", "15 20 25 30 35 40 45 50")}
"""The same of 18-gauge brads (common practice)."""
_SOLD = {"wood screw": SCREWS, "pan-head screw": SCREWS, "brad": BRADS}


def lengths_sold(build: Build) -> tuple[Finding, ...]:
    """Return a finding for every screw or brad of a length that is not commonly sold, with those next to it."""
    found = [
        _odd(spec, build.part(through).name)
        for spec, through in _driven(build)
        if spec.kind in _SOLD
        if all(spec.length.mm != one.mm for one in chain(*_SOLD[spec.kind].values()))
    ]
    return tuple(dict.fromkeys(found))


def _driven(build: Build) -> Iterator[tuple[Spec, str]]:
    yield from dict.fromkeys(
        (fastener.spec, fastener.through) for joint in build.joints for fastener in joint.fasteners
    )


def _odd(spec: Spec, through: str) -> Finding:
    longest = all(spec.length.mm > one.mm for one in chain(*_SOLD[spec.kind].values()))
    level: Level = "must fix" if longest else "look at"
    stores = "No store has" if longest else "Few stores have"
    return Finding(
        level,
        "odd length",
        through,
        f"{stores} {a_or_an(spec.name)}.",
        source=PRACTICE,
        remedy=f"Common lengths next to it: {' and '.join(exactly(one) for one in _beside(spec))}.",
    )


def _beside(spec: Spec) -> tuple[Length, ...]:
    """The next shorter and the next longer length that are sold; one where there is no other."""
    metric = spec.length.mm.denominator == 1 and _MARKS % spec.length.inches.denominator
    sold = sorted(_SOLD[spec.kind]["mm" if metric else "in"], key=lambda one: one.mm)
    shorter = [one for one in sold if one.mm < spec.length.mm]
    longer = [one for one in sold if one.mm > spec.length.mm]
    return (*shorter[-1:], *longer[:1])
