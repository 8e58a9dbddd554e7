"""A joint cut through: the plane of the cut, what of each part it meets, and the fastener that lies in it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Final

from plankit.build import Build, Contact, Fastener, Item, Joint, touching
from plankit.drawing.primitives import Point, Ring
from plankit.errors import PlanError
from plankit.parts import AXES, Axis, Leans, Part, block, other_axes, solid, spot_after, turning
from plankit.parts.lean import way_after

if TYPE_CHECKING:
    from manifold3d import CrossSection, Manifold

type Vector = tuple[float, float, float]
_SEEN: Final[dict[Axis, tuple[Vector, Vector, Vector]]] = {
    "x": ((0, 1, 0), (0, 0, 1), (1, 0, 0)),
    "y": ((1, 0, 0), (0, 0, 1), (0, -1, 0)),
    "z": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
}
"""By the axis square to the cut: the way right on the page, the way up, and the way to the eye."""
WHOLE = 100.0
"""A part no larger than this across the cut, in mm, is shown whole; a larger one is broken off."""
_BEYOND = 30.0
"""How far past the fastener a part that is broken off is shown, in mm."""
_THIN = 1e-3


@dataclass(frozen=True)
class Cut:
    """Where a joint is cut, and what lies there; places are in mm on the plane, u right and v down.

    first, second  the part that is fastened, and the part that it is fastened to
    fastener       the one in the plane of the cut; None where glue or a groove holds
    """

    build: Build
    first: Part
    second: Part
    contact: Contact
    fastener: Fastener | None
    normal: Axis
    leans: Leans
    at: Vector

    @cached_property
    def rows(self) -> tuple[Vector, Vector, Vector]:
        """The ways right, up and to the eye, as they are in the build."""
        turn = turning(self.leans)
        right, up, eye = (way_after(turn, way) for way in _SEEN[self.normal])
        return right, up, eye

    def project(self, point: Sequence[float]) -> Point:
        """Where a place of the build falls on the plane of the cut."""
        right, up, _ = self.rows
        return _dot(right, point), -_dot(up, point)

    def way(self, axis: Axis) -> Point:
        """The way on the page that an axis of the joint's own parts runs."""
        turned = way_after(turning(self.leans), _unit(axis))
        return self.project(turned)

    def region(self, body: "Manifold") -> "CrossSection":
        """What the plane meets of a solid."""
        import numpy as np

        right, up, eye = self.rows
        flat = np.array([[*right, 0.0], [-one for one in up] + [0.0], [*eye, -_dot(eye, self.at)]])
        # v runs down, so that the solid is seen in a mirror: manifold3d turns its faces round by itself
        return body.transform(flat).slice(0.0)

    @cached_property
    def window(self) -> tuple[float, float, float, float]:
        """What is shown: the fastener and the joint, each of both parts whole where it is small."""
        ends = [self.project(self.at)]
        if self.fastener is not None:
            ends += [self.project(end) for end in self.fastener.ends_mm()]
        both = list(zip(*ends, strict=True))
        low, high = [min(one) - _BEYOND for one in both], [max(one) + _BEYOND for one in both]
        for part in (self.first, self.second):
            edges = self.region(solid(part)).bounds()
            for axis in (0, 1):
                if edges[axis + 2] - edges[axis] <= WHOLE:
                    low[axis], high[axis] = min(low[axis], edges[axis] - 1.0), max(high[axis], edges[axis + 2] + 1.0)
        return low[0], low[1], high[0], high[1]

    def shown(self) -> list[tuple[Part, tuple[Ring, ...]]]:
        """What the plane meets of each part, within the window; the two that are joined first."""
        others = [part for part in self.build.parts if part.id not in {self.first.id, self.second.id}]
        found = [(part, self._rings(self.region(solid(part)))) for part in (self.first, self.second, *others)]
        return [(part, rings) for part, rings in found if rings]

    def buttons(self) -> list[tuple[Ring, ...]]:
        """The wooden buttons that the plane meets: what of each is left beside the apron that its tongue rides in."""
        return [rings for item in self.build.items if (rings := self._button(item))]

    def _button(self, item: Item) -> tuple[Ring, ...]:
        joined = {self.first.id, self.second.id}
        if self.fastener is None or self.fastener.travel is None or not item.name.startswith("wooden button"):
            return ()
        if set(item.on) != joined:
            return ()
        body, apron = self.region(block(item.box)), self.region(solid(self.build.part(self.fastener.through)))
        if body.is_empty():
            return ()
        gap = float(self.fastener.travel.mm) / 2
        out = gap if _middle(body.bounds())[0] > _middle(apron.bounds())[0] else -gap
        return self._rings(body - apron - apron.translate((out, 0.0)))

    def _rings(self, found: "CrossSection") -> tuple[Ring, ...]:
        from manifold3d import CrossSection

        left, top, right, bottom = self.window
        inside = CrossSection.square((right - left, bottom - top)).translate((left, top))
        kept = (found ^ inside).simplify(_THIN)
        return tuple(tuple((float(x), float(y)) for x, y in ring) for ring in kept.to_polygons() if len(ring) >= 3)


def cut_through(build: Build, one: Part, other: Part) -> Cut:
    """The cut through the joint of two parts, along the fastener in the middle of its row, across the joint's length.

    raises  PlanError where nothing joins them and they do not touch
    """
    joint = _joint(build, one, other)
    if joint is None:
        contact = touching(one, other)
        if contact is None:
            raise PlanError(
                "they do not touch, so there is no joint to cut through.",
                where=one.name,
                given=f"section={other.id}",
                remedy="Name the part that it is joined to.",
            )
        joint = Joint("glue", one.id, other.id, contact)
    first, second = build.part(joint.holds), build.part(joint.to)
    fastener = _in_the_middle(joint)
    leans = fastener.leans if fastener is not None else first.leans
    normal = _normal(joint, fastener, second)
    return Cut(build, first, second, joint.contact, fastener, normal, leans, _place(joint, fastener, leans))


def _joint(build: Build, one: Part, other: Part) -> Joint | None:
    """The joint of two parts; one with fasteners before one of glue."""
    found = [joint for joint in build.joints if {joint.holds, joint.to} == {one.id, other.id}]
    return max(found, key=lambda joint: len(joint.fasteners), default=None)


def _in_the_middle(joint: Joint) -> Fastener | None:
    """The fastener in the middle of the row; of a top's, one that can slide, if any can."""
    sliding = [one for one in joint.fasteners if one.travel is not None] or list(joint.fasteners)
    return sliding[len(sliding) // 2] if sliding else None


def _normal(joint: Joint, fastener: Fastener | None, second: Part) -> Axis:
    """The axis square to the cut: a pocket's row; where a top slides, the way it does not; else the joint's length."""
    contact = joint.contact
    if fastener is not None:
        slanted = [axis for axis in AXES if fastener.head.along(axis) == fastener.tip.along(axis)]
        if len(slanted) == 1:
            return slanted[0]
        if fastener.travel is not None and joint.kind == "top fixing":
            return next(axis for axis in other_axes(contact.axis) if axis != second.across)
    if joint.kind == "buttons":
        return joint.contact.long
    return contact.long


def _place(joint: Joint, fastener: Fastener | None, leans: Leans) -> Vector:
    if fastener is not None:
        return fastener.ends_mm()[0]
    region = joint.contact.region
    x, y, z = (float(region.middle(axis).mm) for axis in AXES)
    return spot_after(turning(leans), (x, y, z))


def _unit(axis: Axis) -> Vector:
    x, y, z = (float(one == axis) for one in AXES)
    return x, y, z


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))


def _middle(edges: Sequence[float]) -> Point:
    return (edges[0] + edges[2]) / 2, (edges[1] + edges[3]) / 2
