"""How many clamps a plan takes, and how far they open: across glued-up boards, and across frames and cases."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from plankit.build import Build, Joint
from plankit.finding import Finding
from plankit.parts import HIGH, LOW, Axis, box_of
from plankit.plan.facts import Draft
from plankit.plan.step_words import CAULS, clamps
from plankit.plan.work import JOINT_WORK, Work
from plankit.units import Length, Notation, largest, smallest

ACROSS = 2
"""So many clamps draw a frame or a case together (common practice)."""


@dataclass(frozen=True, slots=True)
class Clamping:
    """Something that clamps draw together.

    opening  how far they must open at least, cauls between them and the work included
    slab     whether boards are glued up edge to edge
    """

    step: int
    count: int
    opening: Length
    slab: bool


def clampings(build: Build, works: Iterable[Work]) -> Iterator[Clamping]:
    """Yield what clamps draw together: glued-up boards, and whatever stands between two parts that it is joined to."""
    for work in works:
        number = work.step.number
        for part in work.glues_up:
            if part.glue_up is not None:
                yield Clamping(number, clamps(part), part.glue_up.blank[1] + CAULS, slab=True)
        for opening in _across(build, work.joints):
            yield Clamping(number, ACROSS, opening + CAULS, slab=False)


def _across(build: Build, joints: Iterable[Joint]) -> Iterator[Length]:
    """The outside measures of what stands between two others, as far as clamps hold it for its glue or its screws."""
    held: dict[tuple[str, Axis], dict[str, list[str]]] = {}
    for joint in joints:
        if "clamp" in JOINT_WORK[joint.kind]:
            sides = held.setdefault((joint.holds, joint.contact.axis), {})
            sides.setdefault(joint.contact.face, []).append(joint.to)
    for (part_id, axis), sides in held.items():
        if {LOW[axis], HIGH[axis]} <= set(sides):
            boxes = [box_of(build.part(one)) for one in (part_id, *sides[LOW[axis]], *sides[HIGH[axis]])]
            yield largest(*(box.high(axis) for box in boxes)) - smallest(*(box.low(axis) for box in boxes))


def clamp_words(build: Build, works: Iterable[Work], write: Notation) -> str:
    """Say how many clamps it takes and how far they open: "4 that open 19 in, 2 that open 37 in"; "" where unknown."""
    found = list(clampings(build, works))
    slabs = [one for one in found if one.slab]
    across = [one.opening for one in found if not one.slab]
    said = []
    widest = largest(*(one.opening for one in slabs)) if slabs else None
    if widest is not None:
        said.append(f"{max(one.count for one in slabs)} that open {write.both(widest)}")
    if across and (widest is None or largest(*across).mm > widest.mm):
        said.append(f"{ACROSS} that open {write.both(largest(*across))}, or a strap")
    return ", ".join(said)


def clamp_findings(draft: Draft, works: Iterable[Work]) -> tuple[Finding, ...]:
    """Return a finding where the shop's clamps do not open as far as the widest of what they draw together."""
    spans = [
        (limit, tool.name) for tool in draft.shop.tools_for("clamp") if (limit := tool.limit("widest_opening"))
    ]
    found = list(clampings(draft.build, works))
    if not spans or not found:
        return ()
    limit, name = max(spans, key=lambda one: one[0].mm)
    worst = max(found, key=lambda one: one.opening.mm)
    if worst.opening.mm <= limit.mm:
        return ()
    write = draft.notation
    return (
        Finding("look at", "tools", "", f"what is clamped here is wider than the shop's {name.lower()} open.",
                f"step {worst.step}", f"{write.length(worst.opening)}; they open {write.length(limit)}",
                "the shop file", "Use longer ones, a strap, or two clamps hooked into each other."),
    )  # fmt: skip
