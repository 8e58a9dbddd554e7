"""From where a build is looked at, and how its points fall on the page.

Build axes: x right, y back, z up. Orthographic views are arranged in the third angle (ISO 128-3): the view
from the right stands on the right of the front view and the view from the top above it, so each view's
nearest edge lies beside the front view. A page point is (u, v) in millimetres with u to the right and v down.
"""

import math
from dataclasses import dataclass
from typing import Final

from plankit.errors import PlanError
from plankit.reference.tables import meant

type Vector = tuple[float, float, float]

_ORTHOGRAPHIC: Final[dict[str, tuple[Vector, Vector, Vector]]] = {
    "front": ((0, -1, 0), (1, 0, 0), (0, 0, 1)),
    "back": ((0, 1, 0), (-1, 0, 0), (0, 0, 1)),
    "left": ((-1, 0, 0), (0, -1, 0), (0, 0, 1)),
    "right": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "top": ((0, 0, 1), (1, 0, 0), (0, 1, 0)),
    "bottom": ((0, 0, -1), (1, 0, 0), (0, -1, 0)),
}
_CORNERS: Final[dict[str, Vector]] = {
    "front right": (1, -1, 1),
    "front left": (-1, -1, 1),
    "back right": (1, 1, 1),
    "back left": (-1, 1, 1),
}
_SHORT: Final[dict[str, str]] = {
    "isometric": "isometric front right",
    "from above": "isometric front right",
    "from below": "from below front right",
}


@dataclass(frozen=True, slots=True)
class Direction:
    """A way of looking: unit vectors from the build to the eye, to the page's right and up the page."""

    name: str
    eye: Vector
    right: Vector
    up: Vector

    def project(self, point: Vector) -> tuple[float, float]:
        """Where a point of the build (mm, build axes) falls on the page, (u, v) in mm with v down."""
        return _dot(point, self.right), -_dot(point, self.up)

    def nearness(self, point: Vector) -> float:
        """How far a point lies towards the eye, in mm; of two on one place the larger hides the other."""
        return _dot(point, self.eye)

    @property
    def words(self) -> str:
        """The direction to open a description with, for instance "Isometric view from the front right"."""
        if self.name in _ORTHOGRAPHIC:
            return f"View from the {self.name}"
        if self.name.startswith("isometric "):
            return f"Isometric view from the {self.name.removeprefix('isometric ')}"
        if self.name.startswith("from below "):
            return f"Isometric view from below the {self.name.removeprefix('from below ')}"
        return "View from a chosen direction"

    @property
    def orthographic(self) -> bool:
        """Whether this is one of the six views square to the build's faces."""
        return self.name in _ORTHOGRAPHIC


def direction(given: "str | Vector | Direction") -> Direction:
    """The direction an author names, or gives as a vector that points from the build to the eye.

    given      "front", "isometric back left", "from below front right" …, or (right, back, up)
    raises     PlanError for a name that is not known (with the nearest known one) or a vector without length
    """
    if isinstance(given, Direction):
        return given
    if isinstance(given, str):
        return _named(given)
    return _towards("a chosen direction", given)


def names() -> tuple[str, ...]:
    """Every named direction: six square views, four corners from above, four from below."""
    above = (f"isometric {corner}" for corner in _CORNERS)
    below = (f"from below {corner}" for corner in _CORNERS)
    return (*_ORTHOGRAPHIC, *above, *below)


def _named(given: str) -> Direction:
    name = " ".join(given.lower().split())
    name = _SHORT.get(name, name)
    if name in _ORTHOGRAPHIC:
        return Direction(name, *_ORTHOGRAPHIC[name])
    for prefix, sign in (("isometric ", 1.0), ("from below ", -1.0)):
        corner = _CORNERS.get(name.removeprefix(prefix)) if name.startswith(prefix) else None
        if corner is not None:
            return _towards(name, (corner[0], corner[1], sign * corner[2]))
    remedy = f"{meant(name, names(), most=1)} Known are: {', '.join(names())}.".strip()
    raise PlanError("No view has this name.", where="view", given=given, remedy=remedy)


def _towards(name: str, vector: Vector) -> Direction:
    if not math.hypot(*vector) > 0 or not all(map(math.isfinite, vector)):
        remedy = "Give right, back and up as three numbers that are not all 0, for instance (1, -1, 1)."
        raise PlanError("This direction has no length.", where="view", given=str(vector), remedy=remedy)
    eye = _unit(vector)
    if math.hypot(eye[0], eye[1]) < 1e-9:
        return Direction(name, *_ORTHOGRAPHIC["top" if eye[2] > 0 else "bottom"])
    right = _unit((-eye[1], eye[0], 0.0))
    return Direction(name, eye, right, _cross(eye, right))


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _unit(a: Vector) -> Vector:
    length = math.hypot(*a)
    return (a[0] / length, a[1] / length, a[2] / length)
