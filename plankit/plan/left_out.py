"""What is the matter with a piece whose reader leaves the optional steps out."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache

from plankit.build import Build, Item
from plankit.checks import CHECKS, Load
from plankit.checks.wording import PRACTICE
from plankit.finding import Finding
from plankit.parts import HINGE_LEAF, Feature, Groove, Part
from plankit.plan.facts import Draft
from plankit.plan.operations import operation_of
from plankit.plan.optional import optional_steps, step_words, without_optional
from plankit.plan.work_when import is_hole_of, is_seat_of, when
from plankit.shop import Shop
from plankit.units import Notation

LOOKED_AT = frozenset({"fit", "strength", "wood movement", "racking", "stability", "wall", "people"})
"""Checks of what holds the piece together and upright; the others find no more where there is less."""


def left_out_findings(draft: Draft, found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return what the checks say of the piece without its optional steps, but not of the whole.

    found  what they say of the whole
    """
    bare = without_optional(draft)
    if bare is None or not bare.build.parts:
        return ()
    known = {(one.check, one.part) for one in found}
    steps = optional_steps(draft)
    build = _whole(bare.build, draft, steps)
    there = {part.id for part in build.parts}
    loads = tuple(load for load in draft.loads if load.part in there)
    says = f"Without {step_words(steps)}, which {'is' if len(steps) == 1 else 'are'} optional: "
    told = (
        one
        for one in _said(build, draft.shop, draft.notation, loads)
        if one.level != "for information" and (one.check, one.part) not in known
    )
    return tuple(replace(one, what=says + one.what) for one in (*told, *_for_nothing(draft, bare, steps)))


def _for_nothing(draft: Draft, bare: Draft, left_out: frozenset[int]) -> Iterator[Finding]:
    """What is cut and bored in parts that stay, in steps that are done, for what is left out alone."""
    known, there = when(draft), {part.id for part in bare.build.parts}
    gone = [item for item in draft.build.items if item not in bare.build.items]
    driven = [one for joint in draft.build.joints if joint not in bare.build.joints for one in joint.fasteners]
    stay = bare.build.fasteners
    for part in draft.build.parts:
        made = [known.features.get((part.id, number)) for number in range(len(part.features))]
        in_vain = tuple(
            (feature, step) for feature, step in zip(part.features, made, strict=True)
            if step is not None and step not in left_out and part.id in there
            and (any(_serves(part, feature, item) for item in gone)
                 or any(part.id in {one.through, one.into} and is_hole_of(part, feature, one) for one in driven))
            and not any(_serves(part, feature, item) for item in bare.build.items)
            and not any(part.id in {one.through, one.into} and is_hole_of(part, feature, one) for one in stay)
        )  # fmt: skip
        if in_vain:
            steps = frozenset(step for _, step in in_vain)
            does = dict.fromkeys(one for feature, _ in in_vain for one in operation_of(part, feature))
            yield _made_in_vain(part, steps, min(left_out), tuple(does))


def _serves(part: Part, feature: Feature, item: Item) -> bool:
    """Whether a hole or a recess of a part is there for a piece of hardware."""
    if part.id not in item.on:
        return False
    leaf = item.kind == "hinge" and isinstance(feature, Groove) and feature.reason == HINGE_LEAF
    return leaf or is_seat_of(part, feature, item)


def _made_in_vain(part: Part, steps: frozenset[int], optional: int, does: tuple[str, ...]) -> Finding:
    return Finding(
        "look at",
        "made for what is left out",
        part.name,
        f"In {step_words(steps)} holes or recesses are made in {part.name} that then serve nothing.",
        source=PRACTICE,
        remedy=f"Let the optional step make them: in step {optional}, name {part.name} in works_on=…, and "
        f"does=[{', '.join(repr(one) for one in does)}].",
    )


@lru_cache(maxsize=8)
def _said(build: Build, shop: Shop, notation: Notation, loads: tuple[Load, ...]) -> tuple[Finding, ...]:
    chosen = (check for check in CHECKS if check.name in LOOKED_AT)
    return tuple(finding for check in chosen for finding in check.run(build, shop, notation, loads))


def _whole(build: Build, draft: Draft, left_out: frozenset[int]) -> Build:
    """What is left, without anything that speaks of a part that is gone, in the order of the steps that are left."""
    there = {part.id for part in build.parts}
    order = (step.brings for step in draft.steps if step.number not in left_out)
    wall = build.wall
    if wall is not None:
        wall = replace(wall, screws=tuple(screw for screw in wall.screws if screw.part in there))
    return replace(
        build,
        order=tuple(order),
        moving=tuple(
            replace(one, stops=tuple(stop for stop in one.stops if stop in there))
            for one in build.moving
            if set(one.parts) <= there
        ),
        assemblies=tuple(one for one in build.assemblies if set(one.parts) <= there),
        wall=wall,
    )
