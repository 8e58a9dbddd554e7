"""Places on one face of a part, as distances from the part's lower ends."""

from plankit.drawing.part_faces import FaceView
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, Axis, Face, Part
from plankit.units import Length

type Spot = tuple[Length, Length]
"""Distances from the part's lower ends: along the page's across axis, along its upright axis."""


def spot_of(view: FaceView, at: tuple[Length, Length, Length]) -> Spot:
    """Where a place of the part falls on a face."""
    return at[AXES.index(view.across)], at[AXES.index(view.upright)]


def from_end(part: Part, end: Face, far: Length) -> tuple[Axis, Length]:
    """A distance from one end, told from the part's lower end of that axis."""
    axis = AXIS_OF[end]
    return axis, far if end == LOW[axis] else part.box.extent(axis) - far


def ordered(view: FaceView, axis: Axis, on_axis: Length, on_other: Length) -> Spot:
    """A spot, whichever of the page's two axes it was told on."""
    return (on_axis, on_other) if axis == view.across else (on_other, on_axis)


def end_of(part: Part, face: Face) -> Length:
    """Where a face lies, from the part's lower end of its axis."""
    axis = AXIS_OF[face]
    return part.box.extent(axis) if face == HIGH[axis] else Length.zero()
