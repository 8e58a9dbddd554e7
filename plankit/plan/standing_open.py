"""Doors that must stand open while something is put in behind them."""

from collections.abc import Iterable

from plankit.build import Build, Moving
from plankit.parts import AXES, Part

_ONLY = frozenset({"door", "flap"})


def standing_open(build: Build, brings: Iterable[str], present: Iterable[str]) -> tuple[Moving, ...]:
    """Return the doors and flaps that are there already and cover something that arrives: they must stand open.

    brings, present  ids of the parts that arrive, and of those that are there
    """
    coming, there = [build.part(part_id) for part_id in brings], set(present)
    return tuple(
        moving
        for moving in build.moving
        if moving.kind in _ONLY
        and set(moving.parts) <= there
        and any(_covers(build.part(moving.parts[0]), part, build) for part in coming)
    )


def _covers(front: Part, part: Part, build: Build) -> bool:
    """Whether the middle of a part lies behind a front, on the side where most of the piece is, and nowhere past it."""
    through = front.through
    if any(not front.box.low(a) < part.box.middle(a) < front.box.high(a) for a in AXES if a != through):
        return False
    inwards = build.box.middle(through).mm - front.box.middle(through).mm
    deep = part.box.middle(through).mm - front.box.middle(through).mm
    return inwards * deep > 0
