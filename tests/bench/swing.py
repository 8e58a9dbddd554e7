"""How long the sweep of one moving part takes, against fine steps of turned solids on the same build.

Run from the project's folder: python tests/bench/swing.py [rounds]. Prints medians of so many rounds (5).
The named peer is manifold3d: every solid that moves is turned by a tenth of a degree at a time, up to the angle
that the sweep found, and the volume it shares with every solid that stays is asked for.
"""

import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from plankit.build import Build, Moving
from plankit.build.swing import _alone, _swept, pivot_of, run_over, sweep
from plankit.build.swing_both import both_open
from plankit.build.swing_outlines import slabs_of
from plankit.checks.swing import swing
from plankit.drawing.figures_swing import moving_drawing
from plankit.parts import AXES, Part, solid
from plankit.units import L, Notation
from tests.build.test_swing_both import MIDDLE_LEFT, MIDDLE_RIGHT, doors, flap_and_door
from tests.plan.sorting import stand

STEP = 0.1


def standing(more: int) -> tuple[Build, Moving]:
    """The sorting stand, and so many shelves behind and above what swings."""
    plan, _, parts = stand()
    build = plan.build()
    shelf = parts["shelf"].part
    others = tuple(
        replace(shelf, id=f"more-{number}", box=shelf.box.moved("z", L("1/4 in") * number))
        for number in range(1, more + 1)
    )
    return replace(build, parts=(*build.parts, *others)), build.moving[0]


def stepped(build: Build, moving: Moving) -> float | None:
    """The first step at which a turned solid shares more than a cubic millimetre with one that stays."""
    pivot = pivot_of(moving)
    at = pivot.at.mm()
    back = [-value for value in at]
    own = [solid(build.part(one)).translate(back) for one in moving.parts]
    others = [solid(part).translate(back) for part in build.parts if part.id not in moving.parts]
    for step in range(1, int(270 / STEP)):
        turned = [0.0, 0.0, 0.0]
        turned[AXES.index(pivot.axis)] = step * STEP * pivot.sense
        for one in own:
            moved = one.rotate(turned)
            if any((moved ^ other).volume() > 1.0 for other in others):
                return step * STEP
    return None


def median(rounds: int, work: Callable[[], object], *, fresh: bool) -> float:
    """The median time in ms of one piece of work, nothing remembered but, where not fresh, the sections of parts."""
    times = []
    for _ in range(rounds):
        for remembered in (_swept, _alone, sweep):
            remembered.cache_clear()
        if fresh:
            slabs_of.cache_clear()
        began = time.perf_counter()
        work()
        times.append((time.perf_counter() - began) * 1000)
    return statistics.median(times)


def parts_of(build: Build) -> tuple[Part, ...]:
    """The parts of a build, their solids worked out."""
    for part in build.parts:
        solid(part).num_tri()
    return build.parts


def pairs(rounds: int) -> None:
    """Time two doors against each other, and a flap and a door, whose axes lie square to one another."""
    for name, build in (
        ("two doors in their plane", doors(MIDDLE_LEFT, MIDDLE_RIGHT, "110 deg")),
        ("a flap and a door by their solids", flap_and_door("170 deg")),
    ):
        taken = median(rounds, lambda build=build: both_open(build), fresh=True)
        print(f"{taken:8.1f} ms  {name}, their sweeps included")


def main(rounds: int) -> None:
    """Time the sweep, its outline, its findings and its drawing, on a small and on a 60-part build."""
    for more in (0, 50):
        build, moving = standing(more)
        parts_of(build)
        sweep(build, moving)
        print(
            f"{len(build.parts)} parts; first met at {float(sweep(build, moving).opening[0].angle.degrees):.3f}°"
        )
        began = time.perf_counter()
        found = stepped(build, moving)
        peer = (time.perf_counter() - began) * 1000
        print(f"{peer:8.1f} ms  manifold3d in steps of {STEP}°: first shared at {found:.1f}°")
        angle = sweep(build, moving).angle
        assert angle is not None
        rows: dict[str, Callable[[], object]] = {
            "the whole sweep, out and in, to 270°": lambda build=build, moving=moving: sweep(build, moving),
            "the outline that is run over": lambda build=build, moving=moving, angle=angle: run_over(
                build, moving, angle
            ),
            "the sweep and all findings about it": lambda build=build: swing(build, Notation()),
            "the sweep and its drawing": lambda build=build, moving=moving: moving_drawing(
                build, moving, Notation()
            ),
        }
        for name, work in rows.items():
            for fresh in (True, False):
                taken = median(rounds, work, fresh=fresh)
                told = "sections worked out" if fresh else "sections remembered"
                print(f"{taken:8.1f} ms  {taken / peer:7.4f} of the peer  {name}, {told}")
    pairs(rounds)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
