"""The same build otherwise placed: turned a quarter about the vertical, mirrored, and what must stay the same."""

from dataclasses import replace

from plankit.build import Build, Contact, Fastener, Item, Joint, Moving, Pivot
from plankit.finding import Finding
from plankit.parts import Box, Lean, Leans, Part, Point, Turn, mirror_along
from plankit.units import Angle, Length
from tests.checks.small_builds import mirrored, mirrored_fastener

QUARTER = Turn(("y", "x", "z"), (False, True, False))
"""Left becomes front, front becomes right: a quarter to the left, seen from above."""


def quarter(build: Build) -> Build:
    """The build turned a quarter about the vertical through the origin: (x, y) goes to (−y, x)."""
    return replace(
        build,
        parts=tuple(_part(part) for part in build.parts),
        joints=tuple(_joint(joint) for joint in build.joints),
        things=tuple(replace(thing, box=_box(thing.box)) for thing in build.things),
        items=tuple(_item(item) for item in build.items),
        moving=tuple(_moving(one) for one in build.moving),
    )


def _part(part: Part) -> Part:
    features = tuple(feature.turned(QUARTER, part.box.size) for feature in part.features)
    grain, through = QUARTER.axis(part.grain), QUARTER.axis(part.through)
    leans = _leans(part.leans)
    return replace(part, box=_box(part.box), features=features, grain=grain, through=through, leans=leans)


def _leans(leans: Leans) -> Leans:
    """Turns about x become turns about y; those about y, turns about x the other way round."""
    return tuple(
        Lean(
            QUARTER.axis(one.axis),
            _point(one.at),
            Angle(-one.angle.degrees) if one.axis == "y" else one.angle,
        )
        for one in leans
    )


def _box(box: Box) -> Box:
    return Box(-box.back, -box.front, box.left, box.right, box.bottom, box.top)


def _point(point: Point) -> Point:
    return Point(-point.y, point.x, point.z)


def _joint(joint: Joint) -> Joint:
    face, axis = QUARTER.face(joint.contact.face), QUARTER.axis(joint.contact.axis)
    contact = Contact(face, axis, _box(joint.contact.region))
    flush = QUARTER.face(joint.flush) if joint.flush is not None else None
    return replace(
        joint, contact=contact, fasteners=tuple(_fastener(one) for one in joint.fasteners), flush=flush
    )


def _fastener(one: Fastener) -> Fastener:
    heading = QUARTER.face(one.heading)
    return replace(
        one, head=_point(one.head), tip=_point(one.tip), heading=heading, leans=_leans(one.leans)
    )


def _item(item: Item) -> Item:
    return replace(item, box=_box(item.box), fasteners=tuple(_fastener(one) for one in item.fasteners))


def _moving(moving: Moving) -> Moving:
    pivot, slides = moving.pivot, moving.slides
    if pivot is not None:
        sense = -pivot.sense if pivot.axis == "y" else pivot.sense
        pivot = Pivot(QUARTER.axis(pivot.axis), _point(pivot.at), sense)
    if slides is not None:
        slides = QUARTER.face(slides[0]), slides[1]
    return replace(moving, pivot=pivot, slides=slides)


def reflected(build: Build) -> Build:
    """The mirror image from left to right, what moves and the hardware included."""
    middle = build.box.middle("x")
    return replace(
        mirrored(build),
        items=tuple(_mirrored_item(item, middle) for item in build.items),
        moving=tuple(_mirrored_moving(one, middle) for one in build.moving),
    )


def _mirrored_item(item: Item, middle: Length) -> Item:
    fasteners = tuple(mirrored_fastener(one, "x", middle) for one in item.fasteners)
    return replace(item, box=item.box.mirrored("x", middle), fasteners=fasteners)


def _mirrored_moving(moving: Moving, middle: Length) -> Moving:
    turn, pivot, slides = mirror_along("x"), moving.pivot, moving.slides
    if pivot is not None:
        at = replace(pivot.at, x=middle * 2 - pivot.at.x)
        sense = pivot.sense if pivot.axis == "x" else -pivot.sense
        pivot = Pivot(pivot.axis, at, sense)
    if slides is not None:
        slides = turn.face(slides[0]), slides[1]
    return replace(moving, pivot=pivot, slides=slides)


def plain(findings: tuple[Finding, ...]) -> list[tuple[str, str, str]]:
    """What of some findings must not change when their build is turned or mirrored."""
    return sorted((one.level, one.check, one.part) for one in findings)


def told(build: Build) -> Build:
    """The same build, all its parts brought in one step."""
    return replace(build, order=(tuple(part.id for part in build.parts),))
