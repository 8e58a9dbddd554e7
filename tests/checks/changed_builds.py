"""The same build changed so that nothing may get worse: told in another order, a part left out, longer screws."""

from dataclasses import replace
from fractions import Fraction
from random import Random

from plankit.build import Build, Fastener, Item
from plankit.parts import AXES


def shuffled(build: Build, random: Random) -> Build:
    """The same build told in another order; which step brings what stays."""

    def mixed[One](many: tuple[One, ...]) -> tuple[One, ...]:
        return tuple(random.sample(many, len(many)))

    return replace(
        build,
        parts=mixed(build.parts),
        joints=mixed(build.joints),
        items=mixed(build.items),
        things=mixed(build.things),
        moving=mixed(build.moving),
        order=tuple(mixed(brings) for brings in build.order),
    )


def without(build: Build, gone: str) -> Build:
    """The build with a part left out, with its joints and the hardware on it."""
    return replace(
        build,
        parts=tuple(part for part in build.parts if part.id != gone),
        joints=tuple(one for one in build.joints if gone not in {one.holds, one.to}),
        items=tuple(_left(item, gone) for item in build.items if gone not in item.on),
        moving=tuple(
            replace(one, stops=_less(one.stops, gone)) for one in build.moving if gone not in one.parts
        ),
        order=tuple(_less(brings, gone) for brings in build.order),
        assemblies=tuple(replace(one, parts=_less(one.parts, gone)) for one in build.assemblies),
    )


def _less(ids: tuple[str, ...], gone: str) -> tuple[str, ...]:
    return tuple(one for one in ids if one != gone)


def _left(item: Item, gone: str) -> Item:
    return replace(
        item, fasteners=tuple(one for one in item.fasteners if gone not in {one.through, one.into})
    )


def longer(build: Build, share: Fraction) -> Build:
    """The build with every screw so much longer, its head where it was."""
    return replace(
        build,
        joints=tuple(
            replace(j, fasteners=tuple(_longer(one, share) for one in j.fasteners)) for j in build.joints
        ),
        items=tuple(
            replace(i, fasteners=tuple(_longer(one, share) for one in i.fasteners)) for i in build.items
        ),
    )


def _longer(one: Fastener, share: Fraction) -> Fastener:
    if "screw" not in one.spec.kind:
        return one
    tip = one.head
    for axis in AXES:
        tip = tip.moved(axis, (one.tip.along(axis) - one.head.along(axis)) * share)
    return replace(one, spec=replace(one.spec, length=one.spec.length * share), tip=tip)
