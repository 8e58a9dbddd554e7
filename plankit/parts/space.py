"""Where things are in a build: axes, faces, points, boxes, and how a box may be turned.

Right is x, back is y, up is z; the front left bottom corner of the piece is the origin.
"""

from dataclasses import dataclass, replace
from itertools import permutations, product
from typing import Literal

from plankit.units import Length, largest, smallest

type Axis = Literal["x", "y", "z"]
type Face = Literal["left", "right", "front", "back", "bottom", "top"]
type Size = tuple[Length, Length, Length]

AXES: tuple[Axis, ...] = ("x", "y", "z")
FACES: tuple[Face, ...] = ("left", "right", "front", "back", "bottom", "top")
AXIS_OF: dict[Face, Axis] = {"left": "x", "right": "x", "front": "y", "back": "y", "bottom": "z", "top": "z"}
LOW: dict[Axis, Face] = {"x": "left", "y": "front", "z": "bottom"}
HIGH: dict[Axis, Face] = {"x": "right", "y": "back", "z": "top"}
OPPOSITE: dict[Face, Face] = {
    "left": "right", "right": "left", "front": "back", "back": "front", "bottom": "top", "top": "bottom",
}  # fmt: skip


def other_axes(axis: Axis) -> tuple[Axis, Axis]:
    """Return the two axes across one axis, in the order x, y, z."""
    first, second = (other for other in AXES if other != axis)
    return first, second


@dataclass(frozen=True, slots=True)
class Point:
    """A place: how far right, back and up."""

    x: Length
    y: Length
    z: Length

    def along(self, axis: Axis) -> Length:
        """Return one of the three distances."""
        distance: Length = getattr(self, axis)
        return distance

    def moved(self, axis: Axis, by: Length) -> "Point":
        """Return the place so far along an axis from here."""
        return replace(self, **{axis: self.along(axis) + by})

    def mm(self) -> tuple[float, float, float]:
        """Return the place in millimetres, for drawing."""
        return float(self.x.mm), float(self.y.mm), float(self.z.mm)


@dataclass(frozen=True, slots=True)
class Box:
    """The space between six faces."""

    left: Length
    right: Length
    front: Length
    back: Length
    bottom: Length
    top: Length

    def face(self, face: Face) -> Length:
        """Return where a face lies on its axis."""
        place: Length = getattr(self, face)
        return place

    def low(self, axis: Axis) -> Length:
        """Return the lower end along an axis."""
        place: Length = getattr(self, LOW[axis])
        return place

    def high(self, axis: Axis) -> Length:
        """Return the upper end along an axis."""
        place: Length = getattr(self, HIGH[axis])
        return place

    def extent(self, axis: Axis) -> Length:
        """Return how long the box is along an axis."""
        return self.high(axis) - self.low(axis)

    def middle(self, axis: Axis) -> Length:
        """Return the middle along an axis."""
        return (self.low(axis) + self.high(axis)).portion(2)

    @property
    def size(self) -> Size:
        """The three extents, in the order x, y, z."""
        return self.extent("x"), self.extent("y"), self.extent("z")

    @property
    def corner(self) -> Point:
        """The front left bottom corner."""
        return Point(self.left, self.front, self.bottom)

    def moved(self, axis: Axis, by: Length) -> "Box":
        """Return the box so far along an axis from here."""
        return replace(self, **{LOW[axis]: self.low(axis) + by, HIGH[axis]: self.high(axis) + by})

    def mirrored(self, axis: Axis, middle: Length) -> "Box":
        """Return the mirror image of the box in the plane across `axis` at `middle`."""
        low, high = middle * 2 - self.high(axis), middle * 2 - self.low(axis)
        return replace(self, **{LOW[axis]: low, HIGH[axis]: high})

    def common(self, other: "Box") -> "Box":
        """Return what two boxes have in common; an extent is negative where they have nothing."""
        ends: dict[str, Length] = {}
        for axis in AXES:
            ends[LOW[axis]] = largest(self.low(axis), other.low(axis))
            ends[HIGH[axis]] = smallest(self.high(axis), other.high(axis))
        return Box(**ends)

    def around(self, *others: "Box") -> "Box":
        """Return the smallest box around this one and others."""
        if not others:
            return self
        ends: dict[str, Length] = {}
        for axis in AXES:
            ends[LOW[axis]] = smallest(self.low(axis), *(other.low(axis) for other in others))
            ends[HIGH[axis]] = largest(self.high(axis), *(other.high(axis) for other in others))
        return Box(**ends)

    def mm(self) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
        """Return the lower and the upper corner in millimetres, for drawing."""
        low = Point(self.left, self.front, self.bottom).mm()
        return low, Point(self.right, self.back, self.top).mm()


@dataclass(frozen=True, slots=True)
class Turn:
    """A quarter-turn position or mirror image of a box: where each axis goes, and whether it is reversed.

    to         the axis that x, y and z become, in that order
    reversed_  whether each of x, y and z runs the other way then
    """

    to: tuple[Axis, Axis, Axis]
    reversed_: tuple[bool, bool, bool]

    @property
    def is_mirror(self) -> bool:
        """Whether the turn makes a left-handed thing right-handed."""
        even = self.to in {("x", "y", "z"), ("y", "z", "x"), ("z", "x", "y")}
        return (sum(self.reversed_) % 2 == 1) == even

    def axis(self, axis: Axis) -> Axis:
        """Return the axis that one axis becomes."""
        return self.to[AXES.index(axis)]

    def reverses(self, axis: Axis) -> bool:
        """Tell whether what runs along an axis runs the other way afterwards."""
        return self.reversed_[AXES.index(axis)]

    def face(self, face: Face) -> Face:
        """Return the face that one face becomes."""
        axis = AXIS_OF[face]
        ends = (LOW, HIGH) if (face == LOW[axis]) != self.reverses(axis) else (HIGH, LOW)
        return ends[0][self.axis(axis)]

    def offset(self, axis: Axis, offset: Length, size: Size) -> Length:
        """Return a distance from the lower end of `axis`, measured after the turn."""
        return size[AXES.index(axis)] - offset if self.reverses(axis) else offset

    def offsets(self, spot: Size, size: Size) -> Size:
        """Return the three distances of a spot from the front left bottom corner, after the turn."""
        found = {self.axis(axis): self.offset(axis, spot[i], size) for i, axis in enumerate(AXES)}
        return found["x"], found["y"], found["z"]

    def box(self, box: Box, size: Size) -> Box:
        """Return a box inside a part (distances from its front left bottom corner) after the turn."""
        one = self.offsets((box.left, box.front, box.bottom), size)
        two = self.offsets((box.right, box.back, box.top), size)
        ends: dict[str, Length] = {}
        for i, axis in enumerate(AXES):
            swapped = self.reverses(AXES[self.to.index(axis)])
            ends[LOW[axis]], ends[HIGH[axis]] = (two[i], one[i]) if swapped else (one[i], two[i])
        return Box(**ends)

    def size(self, size: Size) -> Size:
        """Return the extents after the turn."""
        found = {self.axis(axis): size[i] for i, axis in enumerate(AXES)}
        return found["x"], found["y"], found["z"]


def mirror_along(axis: Axis) -> Turn:
    """Return the mirror image that runs one axis the other way."""
    x, y, z = (other == axis for other in AXES)
    return Turn(AXES, (x, y, z))  # type: ignore[arg-type]


ALL_TURNS: tuple[Turn, ...] = tuple(
    Turn(to, way)  # type: ignore[arg-type]
    for to in permutations(AXES)
    for way in product((False, True), repeat=3)
)
"""The 48 ways a box can lie along the axes, mirror images included."""
