"""Whether a driver gets at each screw when its step comes."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

from plankit.build import Build, Fastener, Joint, bite
from plankit.build.held import held_together
from plankit.checks.blocks import Ends, Taken, taken
from plankit.checks.wording import PRACTICE, a_or_an, gathered, spot
from plankit.finding import Finding, Level
from plankit.parts import Part
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
    for joint in build.joints:
        when = _when(joint, step_of)
        if when is None or not joint.fasteners:
            continue
        held = beside.held_with(joint, when)
        there = [
            one for key, one in parts.items() if (key in held and step_of.get(key, when) < when) or key == joint.to
        ]
        there = [one for one in there if one.part.id != joint.holds]
        for fastener in joint.fasteners:
            if "screw" in fastener.spec.kind:
                yield from _looked_at(fastener, parts, there, build, notation)


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
    fastener: Fastener, parts: dict[str, Taken], there: Sequence[Taken], build: Build, notation: Notation
) -> Iterator[Finding]:
    line = _line(fastener, parts[fastener.into].part)
    others = [one for one in there if one.part.id != fastener.through]
    through = parts[fastener.through].part.name
    behind, name = _free(line, others, float(BIT.mm), 0.0)
    free = behind - line.stands_out
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
        (reach, one.part.name)
        for one in parts
        for block in one.blocks
        if (reach := _reach(line, block, radius, start)) < _FAR
    ]
    return min(found, default=(_FAR, ""))


def _reach(line: _Line, block: Ends, radius: float, start: float) -> float:
    """Where a line enters a block grown by a radius sideways; far off where it does not."""
    enter, leave = start, _FAR
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
        remedy = f"Drive it before {against} arrives, from the other side, or use glue and clamps instead."
    elif free < float(SHORT.mm):
        level, what = "look at", "hardly a driver gets at"
        source = f"{PRACTICE}: {notation.length(SHORT)} and the part of the screw that still stands out"
        remedy = f"Drive it before {against} arrives, or say in the step that a right-angle driver is needed."
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
