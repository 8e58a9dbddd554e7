"""Which step each cut and hole belongs to, and what the build looks like before it is made."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from plankit.build import Build, Fastener, Item
from plankit.checks.bores import line_of
from plankit.checks.hollows import in_line, line_in
from plankit.parts import AXES, AXIS_OF, Bore, Box, Feature, LeftOn, Part, PocketHoles
from plankit.plan.facts import Draft, Step
from plankit.plan.operations import operation_of

FIRST_CUTS = frozenset({"break down sheets", "rip"})
"""A step that does one of these cuts parts out of stock."""


@dataclass(frozen=True, slots=True)
class When:
    """The number of the step in which each thing is done; what no step does yet is not in it.

    arrivals  of each part, by its id
    features  of each of a part's features, by the part's id and the feature's place among them
    glued     of each part that is glued up
    trimmed   likewise, of trimming it to size
    items     of each piece of hardware, by its place among them
    fitted    of measuring each part that is cut to fit, and cutting it
    """

    arrivals: Mapping[str, int]
    features: Mapping[tuple[str, int], int]
    glued: Mapping[str, int]
    trimmed: Mapping[str, int]
    items: Mapping[int, int]
    fitted: Mapping[str, int]

    def later(self, part: Part) -> tuple[tuple[Feature, int], ...]:
        """Return what is done to a part only after it has arrived, each with its step."""
        there = self.arrivals.get(part.id)
        if there is None:
            return ()
        found = [(feature, self.features.get((part.id, n), there)) for n, feature in enumerate(part.features)]
        return tuple((feature, step) for feature, step in found if step > there)


def when(draft: Draft) -> When:
    """Return when everything is done, as far as the steps say yet."""
    return when_of(draft.build, draft.steps)


@lru_cache(maxsize=64)
def when_of(build: Build, steps: tuple[Step, ...]) -> When:
    """Return when everything about a build is done, by its steps."""
    arrivals = {part_id: step.number for step in steps for part_id in step.brings}
    items = [(item, _item_step(item, steps, arrivals)) for item in build.items]
    seats = [(item, step) for item, step in items if step is not None]
    held = _held(build, steps)
    features = {}
    for part in build.parts:
        own = [step for step in steps if part.id in step.works_on or part.id in step.brings]
        for number, feature in enumerate(part.features):
            needed = [at for fastener, at in held.get(part.id, ()) if is_hole_of(part, feature, fastener)]
            needed += [at for item, at in seats if part.id in item.on and is_seat_of(part, feature, item)]
            step = _step_of(part, feature, own, min(needed, default=None))
            if step is not None:
                features[part.id, number] = step
    slabs = [part for part in build.parts if part.glue_up is not None]
    return When(
        arrivals,
        features,
        _slab_steps(slabs, steps, "glue"),
        _slab_steps(slabs, steps, "crosscut"),
        {number: step for number, (_, step) in enumerate(items) if step is not None},
        {part.id: step for part in build.parts if part.fit_to and (step := _fitting_step(part, steps))},
    )


def _held(build: Build, steps: Iterable[Step]) -> dict[str, list[tuple[Fastener, int]]]:
    """The fasteners of each part, with the step that drives them."""
    found: dict[str, list[tuple[Fastener, int]]] = {}
    for step in steps:
        for number in step.joints:
            for fastener in build.joints[number].fasteners:
                for part_id in (fastener.through, fastener.into):
                    found.setdefault(part_id, []).append((fastener, step.number))
    return found


def _step_of(part: Part, feature: Feature, own: Iterable[Step], needed: int | None) -> int | None:
    """The step that names the feature's work, unless it is needed earlier; or else the first with the part in hand.

    Countersunk holes are bored with their screws, through both parts at once, unless a step names them.

    needed  the step that drives a screw in the hole, or fits hardware there; None where none does
    """
    first: int | None = None
    for step in own:
        named = part.id in step.works_on and step.does and _named(part, feature, step)
        if named and (needed is None or step.number <= needed):
            return step.number
        if first is None and (part.id in step.brings or not step.does):
            first = step.number
    sunk = isinstance(feature, Bore) and feature.countersink and first is not None and needed is not None
    return needed if sunk else first


def _named(part: Part, feature: Feature, step: Step) -> bool:
    if isinstance(feature, LeftOn) and set(step.does) & FIRST_CUTS:
        return False
    if step.only and step.only.casefold() not in purpose(feature).casefold():
        return False
    return bool(set(operation_of(part, feature)) & set(step.does))


def purpose(feature: Feature) -> str:
    """Return what a cut or a hole is for, as its author says."""
    return str(getattr(feature, "use", "") or getattr(feature, "reason", ""))


def is_hole_of(part: Part, feature: Feature, fastener: Fastener) -> bool:
    """Tell whether a fastener sits in a hole of a part."""
    if isinstance(feature, PocketHoles):
        return fastener.through == part.id and fastener.spec.kind == "pocket screw"
    if not isinstance(feature, Bore):
        return False
    across = [axis for axis in AXES if axis != AXIS_OF[feature.face]]
    if fastener.leans != part.leans:
        return fastener.spec.kind == "dowel" and in_line(line_of(part, feature), line_in(part, fastener))
    at = dict(zip(AXES, feature.at, strict=True))
    return any(
        all(end.along(axis) == part.box.low(axis) + at[axis] for axis in across)
        for end in (fastener.head, fastener.tip)
    )


def is_seat_of(part: Part, feature: Feature, item: Item) -> bool:
    """Tell whether a hole lies where a piece of hardware sits."""
    if not isinstance(feature, Bore):
        return False
    at = dict(zip(AXES, feature.at, strict=True))
    return all(
        item.box.low(axis) <= part.box.low(axis) + at[axis] <= item.box.high(axis)
        for axis in AXES
        if axis != AXIS_OF[feature.face]
    )


def _slab_steps(slabs: Iterable[Part], steps: tuple[Step, ...], operation: str) -> dict[str, int]:
    """The first step that names an operation on a glued-up part, or else the first that has it in hand."""
    found = {}
    for part in slabs:
        own = [s for s in steps if part.id in (*s.works_on, *s.brings) and not set(s.does) & FIRST_CUTS]
        named = [s.number for s in own if part.id in s.works_on and operation in s.does]
        rest = [s.number for s in own if not s.does or part.id in s.brings]
        if named or rest:
            found[part.id] = (named or rest)[0]
    return found


def _fitting_step(part: Part, steps: tuple[Step, ...]) -> int | None:
    """The step that crosscuts a part without cutting it out of stock, or else the one that brings it."""
    own = [step for step in steps if part.id in step.works_on and "crosscut" in step.does]
    named = [step.number for step in own if not set(step.does) & FIRST_CUTS]
    return next(iter(named), next((step.number for step in steps if part.id in step.brings), None))


def _item_step(item: Item, steps: tuple[Step, ...], arrivals: Mapping[str, int]) -> int | None:
    """The step that brings the last of what an item is on, or a later one that drives screws into one of them."""
    if any(part_id not in arrivals for part_id in item.on):
        return None
    there = max(arrivals[part_id] for part_id in item.on)
    named = [
        step.number
        for step in steps
        if item.fasteners and step.number >= there and "drive screws" in step.does
        and set(step.works_on) & set(item.on)
    ]  # fmt: skip
    return (named or [there])[0]


def as_of(draft: Draft, number: int) -> Build:
    """Return the build as it is at the end of a step: what is done later is left out, what is trimmed later is large.

    The build itself where nothing is done later.
    """
    return _as_of(draft.build, draft.steps, number)


@lru_cache(maxsize=64)
def _as_of(build: Build, steps: tuple[Step, ...], number: int) -> Build:
    known = when_of(build, steps)
    parts = tuple(_part_as_of(part, known, number) for part in build.parts)
    if all(new is old for new, old in zip(parts, build.parts, strict=True)):
        return build
    return replace(build, parts=parts)


def _part_as_of(part: Part, known: When, number: int) -> Part:
    if known.arrivals.get(part.id, number + 1) > number:
        return part
    done = tuple(
        feature
        for n, feature in enumerate(part.features)
        if known.features.get((part.id, n), number) <= number
    )
    box = part.box
    if not done and known.trimmed.get(part.id, number) > number:
        box = _untrimmed(part)
    return (
        part if len(done) == len(part.features) and box is part.box else replace(part, features=done, box=box)
    )


def _untrimmed(part: Part) -> Box:
    """The box of a glued-up part before it is trimmed, the same amount on both ends and both edges."""
    assert part.glue_up is not None
    length, width, _ = part.glue_up.blank
    faces = {}
    for axis in AXES:
        more = {part.grain: length - part.length, part.across: width - part.width}.get(axis)
        half = more.portion(2) if more is not None else None
        low, high = part.box.low(axis), part.box.high(axis)
        faces[axis] = (low, high) if half is None else (low - half, high + half)
    (left, right), (front, back), (bottom, top) = (faces[axis] for axis in AXES)
    return Box(left, right, front, back, bottom, top)
