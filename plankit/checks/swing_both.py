"""Whether two things that move are in each other's way: which opens first, and which cannot both be open."""

from collections.abc import Iterator
from math import degrees

from plankit.build import Build, Moving
from plankit.build.swing import angle_of, length_of
from plankit.build.swing_both import Both, both_open
from plankit.build.swing_motion import common_axis
from plankit.finding import Finding
from plankit.units import Notation

_EXACT = "geometry of both motions, in their plane"
_SOLIDS = "geometry of their solids, a quarter, half, three quarters and all the way open"


def open_together(build: Build, notation: Notation) -> Iterator[Finding]:
    """Return a finding for every two things that move of which one is in the other's way, shut or open."""
    for both in both_open(build):
        yield _finding(both, notation)


def _finding(both: Both, notation: Notation) -> Finding:
    first, then = both.first.name, both.then.name
    moved = both.then if both.how == "shut" else both.first
    number = _far(moved, both.far, notation)
    when = _when(moved, both.far, notation)
    match both.how:
        case "shut":
            what = f"{then} runs into {first} {when} while that is shut: open {first} first."
        case "order":
            what = f"Once {then} is open, {first} runs into it {when}: open {first} first."
        case "never":
            assert both.also is not None
            what = (
                f"{first} and {then} cannot both be open: once {then} is open, {first} runs into it {when}; "
                f"and once {first} is open, {then} runs into it {_when(both.then, both.also, notation)}. "
                "Shut the one before the other is opened."
            )
    apart = both.how == "never"
    return Finding(
        "look at",
        "not both open" if apart else "one opens first",
        f"{first} and {then}",
        what,
        "",
        number,
        _SOLIDS if common_axis(both.first, both.then) is None else _EXACT,
        "Let one of them open less far, or move them apart; or say it in the plan."
        if apart
        else f"Shut {then} before {first}, and say so in the plan; or move them apart.",
    )


def _far(moving: Moving, far: float, notation: Notation) -> str:
    return notation.length(length_of(far)) if moving.slides is not None else notation.angle(angle_of(far))


def _when(moving: Moving, far: float, notation: Notation) -> str:
    """When on its way: "at 35.0°", "3 in out", "as soon as it begins to open"."""
    begins = far < 1.0 if moving.slides is not None else degrees(far) < 0.05
    if begins:
        return "as soon as it begins to open"
    said = _far(moving, far, notation)
    return f"when it is {said} out" if moving.slides is not None else f"at {said}"
