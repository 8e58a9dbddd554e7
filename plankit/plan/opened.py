"""What an author holds of something that opens: how far, how wide, what it meets, and where its stop goes."""

from collections.abc import Callable
from dataclasses import replace

from plankit.build import Build, Moving
from plankit.build.swing import Sweep, furthest, pivot_of, sweep
from plankit.build.swing_outlines import PLANE
from plankit.build.swing_room import clear_opening, outer_face
from plankit.build.swing_stops import stop_place
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, FACES, HIGH, LOW, OPPOSITE, Axis, Box, Face, Part, other_axes
from plankit.plan.asked import known_face
from plankit.plan.handles import PartHandle, Parts, flat, single
from plankit.plan.placing import Given
from plankit.plan.telling import Words
from plankit.units import Angle, L, Length, Notation

_NEAR = L("1/2 in")
"""What stands no further beside a front frames it (common practice: gaps of 1/16 to 1/8 in)."""


class Opened:
    """A door, a flap or a bin as its author holds it; what it says is worked out from the build as it is then."""

    def __init__(
        self,
        name: str,
        building: Callable[[], Build],
        change: Callable[[Moving], None],
        notation: Notation,
        read: Callable[[str, str, Given], Length],
    ) -> None:
        self.name = name
        self._building = building
        self._change = change
        self._notation = notation
        self._read = read

    def __repr__(self) -> str:
        swept = self._swept()
        angle = f" {self._notation.angle(swept.angle)}" if swept.angle is not None else ""
        return f"{self.name}: opens{angle}, meets {self.meets}"

    @property
    def angle(self) -> Angle:
        """How far it opens: to the first thing it meets, or as far as it is meant to if that comes first.

        raises  PlanError where neither its author nor anything in its way says
        """
        found = self._swept().angle
        if found is None:
            raise PlanError(
                "nothing says how far it opens.",
                where=self.name,
                remedy='Add opens="35 deg", or stop=… with the block that stops it.',
            )
        return found

    @property
    def meets(self) -> Words:
        """The first thing it meets on the way out, and at which angle: "Stop block at 35.0°"; or "nothing"."""
        swept = self._swept()
        first = swept.opening[0] if swept.opening else None
        angle = swept.angle
        if first is None or angle is None or first.angle > angle:
            return Words("nothing")
        return Words(f"{first.name} at {self._notation.angle(first.angle)}")

    @property
    def clear_opening(self) -> Length:
        """How wide it stands open: from the inner edge of its front to the nearest part that stays.

        raises  PlanError where nothing stays beyond that edge
        """
        found = clear_opening(self._building(), self._moving(), self.angle)
        if found is None:
            raise PlanError(
                "no part stays where it opens away from.",
                where=self.name,
                remedy="Make the parts above it (or beside it) first.",
            )
        return found.width

    @property
    def stands_out(self) -> Length:
        """How far it reaches out beyond where its front is shut, at most, on its way open."""
        build, moving = self._building(), self._moving()
        outer = outer_face(build, moving)
        axis = AXIS_OF[outer]
        way = [0.0, 0.0, 0.0]
        way[AXES.index(axis)] = 1.0 if outer == HIGH[axis] else -1.0
        most = furthest(build, moving, self.angle, (way[0], way[1], way[2]))
        shut = build.part(moving.parts[0]).box.face(outer)
        return most - shut if outer == HIGH[axis] else most + shut

    def stop_place(
        self,
        angle: Angle | str,
        block: PartHandle | None = None,
        *,
        face: Face,
        low: Given | None = None,
        high: Given | None = None,
    ) -> Length:
        """Return where a face of a stop block must lie, so that what opens meets it at just this angle.

        block      the block, where it is made already; only its `face` moves then
        face       the face of the block that is met: "back", for a block before what swings forwards
        low, high  without a block: its bottom and top (its front and back, for a face at its bottom or top)
        raises     PlanError where nothing comes past there, or something would meet it before that angle
        """
        known_face(face, self.name)
        build, moving = self._building(), self._moving()
        self._pin(build, moving)
        (across, *_) = (one for one in PLANE[pivot_of(moving).axis] if one != AXIS_OF[face])
        along = None
        if block is not None:
            part = single(block, "the block").part
            ends = part.box.low(across), part.box.high(across)
            along = part.box.low(pivot_of(moving).axis), part.box.high(pivot_of(moving).axis)
            moving = replace(moving, parts=tuple(one for one in moving.parts if one != part.id))
        elif low is None or high is None:
            raise PlanError(
                "a stop's place depends on where else it stands.",
                where=self.name,
                remedy=f"Give the block, or low=… and high=…: its {LOW[across]} and its {HIGH[across]}.",
            )
        else:
            ends = self._read(self.name, "low", low), self._read(self.name, "high", high)
        return stop_place(build, moving, Angle.read(angle), face, *ends, along)

    def stopped_by(self, *stops: Parts) -> None:
        """Name parts that stop it, made after it was."""
        moving = self._moving()
        ids = dict.fromkeys((*moving.stops, *(part.id for part in flat(*stops))))
        self._change(replace(moving, stops=tuple(ids)))

    def _moving(self) -> Moving:
        return next(one for one in self._building().moving if one.name == self.name)

    def _swept(self) -> Sweep:
        return sweep(self._building(), self._moving())

    @staticmethod
    def _pin(build: Build, moving: Moving) -> None:
        """Ask every length the place depends on for its own value, so that it is known where the place holds."""
        pivot = pivot_of(moving)
        asked = [pivot.at.along(axis) for axis in PLANE[pivot.axis]]
        asked += [build.part(one).box.face(face) for one in moving.parts for face in _across(pivot.axis)]
        for length in asked:
            value = Length.of_mm(length.mm)
            assert length <= value
            assert length >= value


def _across(axis: Axis) -> tuple[Face, ...]:
    return tuple(face for face in FACES if AXIS_OF[face] != axis)


def outside_of(front: Part, others: list[Part]) -> Face:
    """Return the face of a front that looks away from what it closes.

    That is what one of its broad faces lies against, else the middle of what stands round it, else of everything.
    """
    axis = front.through
    boxes = [part.box for part in others if part.id != front.id]
    against = {face for face in (LOW[axis], HIGH[axis]) if any(_lies_on(front.box, face, box) for box in boxes)}
    if len(against) == 1:
        return OPPOSITE[against.pop()]
    rest = [box for box in boxes if _beside(front.box, box, axis)] or boxes or [front.box]
    middle = min(box.low(axis).mm for box in rest) + max(box.high(axis).mm for box in rest)
    return LOW[axis] if front.box.middle(axis).mm * 2 <= middle else HIGH[axis]


def _lies_on(front: Box, face: Face, other: Box) -> bool:
    """Whether a front lies with a face on something that reaches beyond it, so that it is no moulding of its own."""
    axis = AXIS_OF[face]
    if front.face(face) != other.face(OPPOSITE[face]):
        return False
    shared = front.common(other)
    across = other_axes(axis)
    beyond = any(other.low(way) < front.low(way) or front.high(way) < other.high(way) for way in across)
    return beyond and all(shared.extent(way).mm > 0 for way in across)


def _beside(front: Box, other: Box, axis: Axis) -> bool:
    """Whether something stands right beside a front, in its plane."""
    if min(front.high(axis).mm, other.high(axis).mm) <= max(front.low(axis).mm, other.low(axis).mm):
        return False
    apart = (max(front.low(way).mm, other.low(way).mm) - min(front.high(way).mm, other.high(way).mm)
             for way in other_axes(axis))  # fmt: skip
    return all(one <= _NEAR.mm for one in apart)
