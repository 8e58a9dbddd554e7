"""How long all checks take on a 60-part build, as a share of testing every two of its solids for overlap.

Run from the project's folder: python tests/bench/checks.py [rounds]. Prints medians of so many rounds (5).
The build is the demo bench four times side by side, each with its top hinged so that something moves. Every round
moves it a little, so that nothing is remembered from the round before. The yardstick is manifold3d's
intersection of all 1,770 pairs of the same solids, worked out anew in the same run.
"""

import statistics
import sys
import time
from collections import defaultdict
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from plankit.build import Build, Contact, Fastener, Joint, Moving, Pivot
from plankit.checks import CHECKS
from plankit.parts import Point, solid
from plankit.plan.document import in_steps
from plankit.shop import Shop
from plankit.units import Angle, L, Length, Notation
from tests.plan.demo import bench

COPIES = 4


def sixty(one: Build, shift: Length) -> Build:
    """The bench four times, 60 in apart, all of it so far to the right."""
    copies = [_copy(one, number, L("60 in") * number + shift) for number in range(COPIES)]
    return Build(
        "Four benches",
        tuple(part for copy in copies for part in copy.parts),
        tuple(joint for copy in copies for joint in copy.joints),
        moving=tuple(moving for copy in copies for moving in copy.moving),
        order=tuple(
            tuple(part for copy in copies for part in copy.order[step]) for step in range(len(one.order))
        ),
    )


def _copy(one: Build, number: int, by: Length) -> Build:
    def named(part_id: str) -> str:
        return f"{part_id}/{number}"

    top = one.part("top").box.moved("x", by)
    hinge = Pivot("x", Point(top.left, top.back, top.bottom), -1)
    return replace(
        one,
        parts=tuple(part.moved("x", by, named(part.id)) for part in one.parts),
        joints=tuple(_joint(joint, by, named) for joint in one.joints),
        moving=(Moving(f"Lid {number}", "flap", (named("top"),), hinge, Angle(Fraction(85))),),
        order=tuple(tuple(named(part) for part in step) for step in one.order),
    )


def _joint(joint: Joint, by: Length, named) -> Joint:
    contact = Contact(joint.contact.face, joint.contact.axis, joint.contact.region.moved("x", by))
    fasteners = tuple(_fastener(one, by, named) for one in joint.fasteners)
    return replace(joint, holds=named(joint.holds), to=named(joint.to), contact=contact, fasteners=fasteners)


def _fastener(one: Fastener, by: Length, named) -> Fastener:
    head, tip = one.head.moved("x", by), one.tip.moved("x", by)
    return replace(one, head=head, tip=tip, through=named(one.through), into=named(one.into))


def every_pair(build: Build) -> int:
    """How many pairs of solids share space, asked of every two of them."""
    return sum((solid(a) ^ solid(b)).volume() > 1 for a, b in combinations(build.parts, 2))


def timed(build: Build, shop: Shop, notation: Notation) -> dict[str, float]:
    """The time in ms of each check on a build that nothing is remembered of."""
    found = {}
    for check in CHECKS:
        start = time.perf_counter()
        check.run(build, shop, notation, ())
        found[check.name] = (time.perf_counter() - start) * 1000
    return found


def main() -> int:
    """Measure and print."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    plan = bench()
    one, shop, notation = in_steps(plan.draft()), plan.shop, plan.notation
    times, yardstick = defaultdict(list), []
    for number in range(rounds + 1):
        build = sixty(one, Length.of_mm(Fraction(2 * number)))
        for name, milliseconds in timed(build, shop, notation).items():
            times[name].append(milliseconds)
        again = sixty(one, Length.of_mm(Fraction(2 * number + 1)))
        start = time.perf_counter()
        every_pair(again)
        yardstick.append((time.perf_counter() - start) * 1000)
    print(f"{len(build.parts)} parts, {len(build.joints)} joints, {len(build.fasteners)} fasteners")
    peer = statistics.median(yardstick[1:])
    for name, all_times in times.items():
        own = statistics.median(all_times[1:])
        print(f"{name:16} {own:8.1f} ms {own / peer:6.2f} of the yardstick")
    whole = statistics.median(sum(each) for each in zip(*(t[1:] for t in times.values()), strict=True))
    print(f"{'all checks':16} {whole:8.1f} ms {whole / peer:6.2f} of the yardstick ({peer:.1f} ms)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
