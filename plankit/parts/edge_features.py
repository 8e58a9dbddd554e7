"""What is done to the corner between two faces of a part: taken off at 45 degrees, made round, or hollowed."""

from dataclasses import dataclass, replace

from plankit.parts.space import AXES, AXIS_OF, FACES, Axis, Face, Size, Turn
from plankit.units import Length

type Edge = tuple[Face, Face]
"""The two faces that meet along an edge, in the order of `FACES`."""


def edge_between(one: Face, other: Face) -> Edge:
    """Return the edge along which two faces meet."""
    first, second = sorted((one, other), key=FACES.index)
    return first, second


def edges_round(face: Face) -> tuple[Edge, ...]:
    """Return the four edges round a face."""
    return tuple(edge_between(face, other) for other in FACES if AXIS_OF[other] != AXIS_OF[face])


def runs_along(edge: Edge) -> Axis:
    """Return the axis an edge runs along."""
    (axis,) = (axis for axis in AXES if axis not in {AXIS_OF[face] for face in edge})
    return axis


@dataclass(frozen=True, slots=True)
class Chamfer:
    """An edge taken off at 45 degrees, the whole way along; `size` is what goes from either face."""

    edge: Edge
    size: Length

    def turned(self, turn: Turn, size: Size) -> "Chamfer":
        """Return the chamfer as it lies after the part is turned."""
        return replace(self, edge=edge_between(*(turn.face(face) for face in self.edge)))


@dataclass(frozen=True, slots=True)
class Roundover:
    """An edge made round, the whole way along; `size` is the radius."""

    edge: Edge
    size: Length

    def turned(self, turn: Turn, size: Size) -> "Roundover":
        """Return the roundover as it lies after the part is turned."""
        return replace(self, edge=edge_between(*(turn.face(face) for face in self.edge)))


@dataclass(frozen=True, slots=True)
class Cove:
    """An edge hollowed by a quarter of a circle about its corner, the whole way along; `size` is the radius."""

    edge: Edge
    size: Length

    def turned(self, turn: Turn, size: Size) -> "Cove":
        """Return the cove as it lies after the part is turned."""
        return replace(self, edge=edge_between(*(turn.face(face) for face in self.edge)))


type Eased = Chamfer | Roundover | Cove
EASED = (Chamfer, Roundover, Cove)
"""The same, to ask what a feature is."""


def meeting_corner(one: Eased, other: Eased) -> bool:
    """Tell whether two eased edges run into each other at a corner of the part."""
    shared = set(one.edge) & set(other.edge)
    return len(shared) == 1 and runs_along(one.edge) != runs_along(other.edge)
