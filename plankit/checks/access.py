"""Whether a driver gets at each screw when its step comes."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import sqrt

from plankit.build import Build, Fastener, Joint, bite
from plankit.build.held import held_together
from plankit.checks.blocks import Ends, Taken, blocks, taken
from plankit.checks.shut_in import HAND, is_shut_in, walls_of
from plankit.checks.wording import PRACTICE, a_or_an, gathered, spot
from plankit.finding import Finding, Level
from plankit.parts import Part, spot_after, turning_back, way_after
from plankit.units import L, Length, Notation

DRILL = L("6 in")
"""Free length behind a screw's head for a drill with its bit (common practice: a compact one)."""
SHORT = L("3 in")
"""The same for a right-angle drill, or a stubby screwdriver in a fist (common practice)."""
NOTHING = L("1 in")
"""Nothing drives a screw with less behind it (common practice: the flattest offset screwdrivers take about this)."""
BIT = L("5/16 in")
"""Radius of a bit in its holder (common practice)."""
BODY = L("5/8 in")
"""Radius of a drill beyond its bit (common practice: that of a chuck; a drill is tilted a little where it must)."""
PLAIN_BIT = L("2 in")
"""Bits are so long, but those that go with pocket holes, which keep the drill clear by their 6 in (common practice)."""
_FAR = 1e6

type Spot = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class _Line:
    """A screw on its way in, seen from its head outwards, in millimetres.

    stands_out  how far the head stands out when the tip begins to bite
    """

    head: Spot
    out: Spot
    stands_out: float


def access(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every screw with too little room behind its head for a driver in its step.

    What other parts of the same step would be in the way is left to the order in which they are done, and what
    no joint holds to the screw's parts yet is not in the way; drills and bits are taken at usual sizes. Brads,
    nails and dowels, and the screws of hardware, are left out. A build whose steps are not told yet has no
    findings.
    """
    return gathered(_findings(build, notation))


def _findings(build: Build, notation: Notation) -> Iterator[Finding]:
    step_of = {part: number for number, brings in enumerate(build.order) for part in brings}
    parts = {part.id: taken(part) for part in build.parts}
    beside = _Beside(build, step_of)
    movers = {part for moving in build.moving for part in moving.parts}
    for joint in build.joints:
        when = _when(joint, step_of)
        if when is None or not joint.fasteners:
            continue
        held = beside.held_with(joint, when)
        there = [
            one for key, one in parts.items() if (key in held and step_of.get(key, when) < when) or key == joint.to
        ]
        walls = [one for one in (*there, parts[joint.holds]) if one.part.id not in movers]
        there = [one for one in there if one.part.id != joint.holds]
        for fastener in joint.fasteners:
            if "screw" in fastener.spec.kind:
                yield from _looked_at(fastener, parts, (there, walls), build, notation)


class _Beside:
    """What is held together with what when a step comes: something put together on the bench has room all round."""

    def __init__(self, build: Build, step_of: dict[str, int]) -> None:
        links: list[tuple[int | None, tuple[str, ...]]] = [
            (_when(joint, step_of), (joint.holds, joint.to)) for joint in build.joints
        ]
        links += [(_hung(item.on, step_of), item.on) for item in build.items]
        self._links = [(when, on) for when, on in links if when is not None]
        self._parts = [part.id for part in build.parts]
        self._groups: dict[int, dict[str, set[str]]] = {}

    def held_with(self, joint: Joint, when: int) -> set[str]:
        """Return the ids of all that is held to the two parts of a joint by the end of its step."""
        if when not in self._groups:
            groups = held_together(self._parts, (on for at, on in self._links if at <= when))
            self._groups[when] = {part: group for group in groups for part in group}
        return self._groups[when][joint.holds]


def _hung(on: tuple[str, ...], step_of: dict[str, int]) -> int | None:
    """The step after the last part of a piece of hardware has come: until then it need not be fitted."""
    if len(on) < 2 or any(part not in step_of for part in on):
        return None
    return max(step_of[part] for part in on) + 1


def _when(joint: Joint, step_of: dict[str, int]) -> int | None:
    if joint.holds not in step_of or joint.to not in step_of:
        return None
    return max(step_of[joint.holds], step_of[joint.to])


def _looked_at(
    fastener: Fastener,
    parts: dict[str, Taken],
    around: tuple[Sequence[Taken], Sequence[Taken]],
    build: Build,
    notation: Notation,
) -> Iterator[Finding]:
    there, walls = around
    line = _line(fastener, parts[fastener.into].part)
    others = [one for one in there if one.part.id != fastener.through]
    through = parts[fastener.through].part.name
    behind, name = _free(line, others, float(BIT.mm), 0.0)
    free = behind - line.stands_out
    if float(NOTHING.mm) <= behind < _FAR and is_shut_in(line.head, line.out, behind, walls_of(walls)):
        yield _shut_in(fastener, through, build, notation)
        return
    if free >= float(DRILL.mm):
        beside = "" if fastener.spec.kind == "pocket screw" else _too_close(line, others)
        if beside:
            yield _beside(fastener, through, beside, build, notation)
        return
    yield _tight(fastener, through, name, (behind, free), build, notation)


def _too_close(line: _Line, others: Sequence[Taken]) -> str:
    """What the body of a drill would run into, beyond a bit of the usual length; "" for nothing."""
    start = line.stands_out + float(PLAIN_BIT.mm)
    far, name = _free(line, others, float(BODY.mm), start)
    return name if far < line.stands_out + float(DRILL.mm) else ""


def _line(fastener: Fastener, into: Part) -> _Line:
    """A screw's line; it stands out by what is to be driven into the second part, through a hole in the first."""
    head, tip = fastener.ends_mm()
    way = [h - t for h, t in zip(head, tip, strict=True)]
    long = sqrt(sum(step * step for step in way))
    x, y, z = (step / long for step in way)
    stands_out = min(float(fastener.spec.length.mm), max(0.0, float(bite(fastener, into).mm)))
    return _Line(head, (x, y, z), stands_out)


def _free(line: _Line, parts: Iterable[Taken], radius: float, start: float) -> tuple[float, str]:
    """How far from the head outwards a rod of this radius is free, from `start` on; and what stops it."""
    found = [
        (reach, one.part.name) for one in parts if (reach := _reach_part(line, one, radius, start)) < _FAR
    ]
    return min(found, default=(_FAR, ""))


def _reach_part(line: _Line, one: Taken, radius: float, start: float) -> float:
    """Where a line enters a part; one that leans lies in the block around it, and in its own as it is before."""
    if not one.part.leans:
        return min(_reach([(line, block)], radius, start) for block in one.blocks)
    back = turning_back(one.part.leans)
    seen = replace(line, head=spot_after(back, line.head), out=way_after(back, line.out))
    upright = blocks(replace(one.part, leans=()))
    return min(_reach([(line, one.around), (seen, block)], radius, start) for block in upright)


def _reach(blocks_seen: Iterable[tuple[_Line, Ends]], radius: float, start: float) -> float:
    """Where a line is first in all of some blocks, each grown by a radius sideways; far off where it never is."""
    enter, leave = start, _FAR
    for line, block in blocks_seen:
        for i, (at, way) in enumerate(zip(line.head, line.out, strict=True)):
            grow = radius * sqrt(max(0.0, 1 - way * way))
            low, high = block[2 * i] - grow, block[2 * i + 1] + grow
            if abs(way) < 1e-9:
                if not low + 0.01 < at < high - 0.01:
                    return _FAR
                continue
            one, two = sorted(((low - at) / way, (high - at) / way))
            enter, leave = max(enter, one), min(leave, two)
    return enter if leave - enter > 0.01 else _FAR


def _tight(  # noqa: PLR0917 - where, what, and how far
    fastener: Fastener, part: str, against: str, room: tuple[float, float], build: Build, notation: Notation
) -> Finding:
    behind, free = room
    level: Level
    if behind < float(NOTHING.mm):
        level, what = "must fix", "no driver gets at"
        source = f"{PRACTICE}: at least {notation.length(NOTHING)} behind the head"
        remedy = (
            _on_the_bench(fastener, against, build)
            or f"Drive it before {against} arrives, from the other side, or use glue and clamps instead."
        )
    elif free < float(SHORT.mm):
        level, what = "look at", "hardly a driver gets at"
        source = f"{PRACTICE}: {notation.length(SHORT)} and the part of the screw that still stands out"
        remedy = (
            _on_the_bench(fastener, against, build)
            or f"Drive it before {against} arrives, or say in the step that a right-angle driver is needed."
        )
    else:
        level, what = "for information", "only a short driver gets at"
        source = f"{PRACTICE}: {notation.length(DRILL)} and the part of the screw that still stands out"
        remedy = "Say in the step that a short bit or a right-angle drill is needed."
    return Finding(
        level,
        "no access for a driver",
        part,
        f"When its step comes, {what} {a_or_an(fastener.spec.name)} in {part}: {against} is in the way.",
        spot(fastener.head, build.box, notation),
        f"{notation.length(_whole(behind))} behind the head",
        source,
        remedy,
    )


def _on_the_bench(fastener: Fastener, against: str, build: Build) -> str:
    """What helps two parts that come together to what is there: a face frame is joined before it meets its case."""
    step_of = {part: number for number, brings in enumerate(build.order) for part in brings}
    one, other = step_of.get(fastener.through), step_of.get(fastener.into)
    earlier = [n for part, n in step_of.items() if build.part(part).name == against and one is not None and n < one]
    if one is None or one != other or not earlier:
        return ""
    names = f"{build.part(fastener.through).name} and {build.part(fastener.into).name}"
    return (
        f"Join {names} on the bench first: bring them, with the rest of their frame, in a step before the one that "
        f"brings {against}."
    )


def _shut_in(fastener: Fastener, part: str, build: Build, notation: Notation) -> Finding:
    return Finding(
        "must fix",
        "no access for a driver",
        part,
        f"When its step comes, no driver gets at {a_or_an(fastener.spec.name)} in {part}: it is shut in on all "
        "sides.",
        spot(fastener.head, build.box, notation),
        "no way out",
        f"{PRACTICE}: an opening of {notation.length(HAND)} or more",
        "Drive it from outside, or before the last side is on, or use glue and clamps instead.",
    )


def _beside(fastener: Fastener, part: str, against: str, build: Build, notation: Notation) -> Finding:
    return Finding(
        "for information",
        "little room beside a driver",
        part,
        f"When its step comes, a drill has no room beside the line of {a_or_an(fastener.spec.name)} in {part}: "
        f"{against} is too close.",
        spot(fastener.head, build.box, notation),
        f"less than {notation.length(BODY)}",
        f"{PRACTICE}: half the width of a drill",
        f"Use a bit {notation.length(DRILL)} or longer, or a right-angle drill.",
    )


def _whole(millimetres: float) -> Length:
    return Length.of_mm(round(max(0.0, millimetres)))
