"""Whether hinges can be screwed on where they hang, and whether what hangs on them opens as far as it should."""

from collections.abc import Iterator

from plankit.build import Build, Item
from plankit.build.swing import sweep
from plankit.checks.wording import PRACTICE, gathered
from plankit.finding import Finding
from plankit.units import Angle, Notation

REACHED = Angle.read(80)
"""A leaf in the gap under a front can be screwed on from here: the front then stands square to it (common practice)."""

WIDEST = Angle.read(170)
"""No cup hinge opens further (common practice; check against yours)."""


def hung(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about what hangs on hinges: hinge screws out of reach, no way to open, open too far."""
    return (*gathered(_hidden(build, notation)), *_too_far(build, notation))


def _hidden(build: Build, notation: Notation) -> Iterator[Finding]:
    for moving in build.moving:
        own = [item for item in build.items if _in_the_gap(item) and item.on[0] in moving.parts]
        if moving.pivot is None or not own:
            continue
        angle = sweep(build, moving).angle
        if angle is None or angle >= REACHED:
            continue
        yield Finding(
            "look at",
            "hinge out of reach",
            moving.name,
            f"{moving.name} opens {notation.angle(angle)}, and its hinges lie in the gap: no driver gets at their "
            "screws once its stops are in.",
            number=notation.angle(angle),
            source=f"{PRACTICE}: from {notation.angle(REACHED)} on both leaves are reached",
            remedy='Hang it on loose-pin hinges (sort="loose pin"), or say in the steps that it is hung, and comes '
            "off, without its stops.",
        )


def never_opened(build: Build) -> tuple[Finding, ...]:
    """Return a finding for every front on hinges of which nobody says how it opens: no check looks at its way."""
    moved = {part for moving in build.moving for part in moving.parts}
    hung = (item.on[0] for item in build.items if item.kind == "hinge" and item.on[0] not in moved)
    return tuple(
        Finding(
            "for information",
            "never opened",
            build.part(one).name,
            f"{build.part(one).name} hangs on hinges, and nothing says how it opens: no check looks at what it meets.",
            source="the plan itself",
            remedy='Say so: plan.door("Door", door, hinges=…), or plan.flap(…), or plan.tilt_out(…).',
        )
        for one in dict.fromkeys(hung)
    )


def _too_far(build: Build, notation: Notation) -> Iterator[Finding]:
    for moving in build.moving:
        own = [item for item in build.items if item.kind == "hinge" and item.on[0] in moving.parts]
        cups = any("cup hinge" in item.name for item in own)
        if cups and moving.opens is not None and moving.opens > WIDEST:
            yield Finding(
                "look at",
                "opens further than its hinges",
                moving.name,
                f"{moving.name} is to open {notation.angle(moving.opens)}, further than cup hinges do.",
                number=notation.angle(moving.opens),
                source=f"{PRACTICE}: cup hinges open 95° to {notation.angle(WIDEST)}, as their makers say",
                remedy="Check against your hinge, or hang it on butt hinges.",
            )


def _in_the_gap(item: Item) -> bool:
    return item.kind == "hinge" and item.name.startswith(("butt hinge", "piano hinge"))
