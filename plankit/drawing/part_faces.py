"""Which faces of a part a marking-out drawing shows, which way up, and the edges measured from."""

from collections.abc import Iterable
from dataclasses import dataclass

from plankit.build.hinges import CUP_USE
from plankit.drawing.direction import Direction, Vector, direction
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Point
from plankit.parts import (
    AXES,
    AXIS_OF,
    EASED,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Banding,
    Bevel,
    Bore,
    Box,
    CompoundMitre,
    Cove,
    Face,
    Feature,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Taper,
    runs_along,
    slant_of,
    slants_of,
)
from plankit.parts.slants import profile_axes
from plankit.units import Length

_USUAL: dict[Axis, Face] = {"x": "right", "y": "front", "z": "top"}


@dataclass(frozen=True, slots=True)
class Datum:
    """The three faces of a part that places are measured from, one for each axis."""

    faces: tuple[Face, Face, Face]

    def face(self, axis: Axis) -> Face:
        """The face on one axis."""
        return self.faces[AXES.index(axis)]

    def distance(self, part: Part, axis: Axis, offset: Length) -> Length:
        """A distance from the part's lower end, as measured from the datum face."""
        return offset if self.face(axis) == LOW[axis] else part.box.extent(axis) - offset


@dataclass(frozen=True, slots=True)
class FaceView:
    """One face of a part as it lies on the page, the way up it has in the finished piece.

    face     the face one looks at
    across   the axis along the page, with the face at its left end
    upright  the axis up the page, with the face at its lower end
    """

    part: Part
    face: Face
    across: Axis
    left: Face
    upright: Axis
    below: Face

    @property
    def wide(self) -> float:
        """Full size along the page, in mm."""
        return float(self.part.box.extent(self.across).mm)

    @property
    def high(self) -> float:
        """Full size up the page, in mm."""
        return float(self.part.box.extent(self.upright).mm)

    @property
    def right(self) -> Face:
        """The face at the right end of the page."""
        return OPPOSITE[self.left]

    @property
    def above(self) -> Face:
        """The face at the upper end of the page."""
        return OPPOSITE[self.below]

    @property
    def way(self) -> Direction:
        """The direction one looks from."""
        return Direction(
            f"{self.face} of {self.part.id}",
            _outward(self.face),
            _outward(self.right),
            _outward(self.above),
        )

    def placing(self, scale: float, left: float, top: float) -> Placing:
        """The placing that puts the part's projection on the page with its upper left corner there."""
        low, high = self.part.box.mm()
        corners = [self.way.project(point) for point in (low, high)]
        return Placing(
            scale, left - min(u for u, _ in corners) * scale, top - min(v for _, v in corners) * scale
        )

    def at(self, placing: Placing, across: Length, upright: Length) -> Point:
        """Where a place falls on the page, given by its distances from the part's lower ends of both axes."""
        spot = {axis: self.part.box.low(axis) for axis in AXES}
        spot[self.across] = spot[self.across] + across
        spot[self.upright] = spot[self.upright] + upright
        return placing.at(self.way.project((float(spot["x"].mm), float(spot["y"].mm), float(spot["z"].mm))))


def datum_of(part: Part) -> Datum:
    """The faces to measure from: those a tape hooks on from first to last, and the front left bottom ones of these.

    A face that is sawn, notched or trimmed later is none, if the one across from it is not. A door is measured from
    the edge that its hinge cups are bored along: the free edge is planed until the gap is even.
    """
    sawn: set[Face] = {feature.face for feature in part.features if isinstance(feature, LeftOn)}
    for feature in part.features:
        slant = slant_of(part.box.size, feature)
        if slant is not None:
            sawn |= {slant.face, *(slope.towards for slope in slant.slopes)}
        elif isinstance(feature, Notch):
            sawn |= set(opened(feature.cut.mm(), part))
    hung = hinge_edge(part)
    if hung is not None:
        sawn = (sawn - {hung}) | {OPPOSITE[hung]}
    low, middle, high = (_datum_face(axis, sawn) for axis in AXES)
    return Datum((low, middle, high))


def hinge_edge(part: Part) -> Face | None:
    """The edge of a door that its hinge cups are bored along, the one nearest to a cup; None where it has no cups."""
    cups = [one for one in part.features if isinstance(one, Bore) and one.use == CUP_USE]
    near = [
        (far.mm, face)
        for cup in cups
        for axis, at in zip(AXES, cup.at, strict=True)
        if axis != AXIS_OF[cup.face]
        for face, far in ((LOW[axis], at), (HIGH[axis], part.box.extent(axis) - at))
    ]
    return min(near)[1] if near else None


def _datum_face(axis: Axis, sawn: set[Face]) -> Face:
    return HIGH[axis] if LOW[axis] in sawn and HIGH[axis] not in sawn else LOW[axis]


def opened(
    cut: tuple[tuple[float, float, float], tuple[float, float, float]], part: Part
) -> tuple[Face, ...]:
    """The faces of a part that a cut reaches, a cut through and through left out."""
    found: list[Face] = []
    for index, axis in enumerate(AXES):
        whole = float(part.box.extent(axis).mm)
        ends = (cut[0][index] <= 1e-6, cut[1][index] >= whole - 1e-6)
        if ends == (True, False):
            found.append(LOW[axis])
        elif ends == (False, True):
            found.append(HIGH[axis])
    return tuple(found)


def faces_shown(part: Part) -> tuple[FaceView, ...]:
    """The views a maker needs to mark the part out, the one with most to mark first."""
    wanted: dict[Face, int] = {}
    for feature in part.features:
        if isinstance(feature, Bore | Groove | PocketHoles):
            wanted[feature.face] = wanted.get(feature.face, 0) + 1
    for feature in part.features:
        for face in _outlined_on(part, feature, wanted):
            wanted[face] = wanted.get(face, 0) + 1
    if not wanted:
        wanted[_seen_along(part, part.through, {})] = 1
    ordered = sorted(wanted, key=lambda face: (-wanted[face], list(AXIS_OF).index(face)))
    ends = {feature.narrow for feature in part.features if isinstance(feature, Taper)}
    tapers = sum(1 for feature in part.features if isinstance(feature, Taper))
    more = sorted(ends - set(ordered)) if tapers > 1 else []
    more += [end for end in _profiled(part) if end not in {*ordered, *more}]
    return tuple(face_view(part, face) for face in (*ordered, *more))


def _profiled(part: Part) -> tuple[Face, ...]:
    """The end that shows a strip's profile: of a board whose long edges are hollowed, or eased by half of it."""
    shown = any(
        isinstance(one, EASED)
        and runs_along(one.edge) == part.grain
        and (isinstance(one, Cove) or one.size * 2 >= part.thickness)
        for one in part.features
    )
    return (HIGH[part.grain],) if shown and part.kind == "board" else ()


def _outlined_on(part: Part, feature: Feature, wanted: Iterable[Face]) -> tuple[Face, ...]:
    """The faces on which the outline of a slanting cut or a notch is marked."""
    match feature:
        case CompoundMitre(short=short, also_short=also):
            return OPPOSITE[also], OPPOSITE[short]  # the faces on which each line starts at the corner
        case Taper() | Mitre() | Bevel():
            return tuple(_seen_along(part, axis, wanted) for axis in profile_axes(feature))
        case Notch(cut=cut):
            return (_seen_along(part, _notched_along(part, cut), wanted),)
        case _:
            return ()


def _notched_along(part: Part, cut: Box) -> Axis:
    """The axis along which a notch shows its outline: one that it runs through, the thickness before others."""
    spans = [
        axis
        for axis in AXES
        if cut.low(axis) <= Length.zero() and cut.high(axis) >= part.box.extent(axis)
    ]
    return part.through if part.through in spans or not spans else spans[0]


def _seen_along(part: Part, axis: Axis, wanted: Iterable[Face]) -> Face:
    """A face on an axis: one that is drawn anyway, else one that nothing is sawn off."""
    for face in (LOW[axis], HIGH[axis]):
        if face in wanted:
            return face
    sawn = {slant.face for _, slant in slants_of(part)}
    usual = _USUAL[axis]
    return OPPOSITE[usual] if usual in sawn else usual


def face_view(part: Part, face: Face) -> FaceView:
    """A face the way up it has in the finished piece.

    Upright faces have the part's top up the page, as one sees them standing before them; one that looks to the back
    is turned about the vertical. Faces that lie have their front edge below, the bottom one the front edge above, and
    a part whose grain runs from front to back lies along the page, its front end at the left.
    """
    lying = AXIS_OF[face] == "z"
    if lying and part.grain == "y":
        return FaceView(part, face, "y", "front", "x", "right" if face == "top" else "left")
    way = direction(face)
    return FaceView(part, face, *_reached(_back(way.right)), *_reached(_back(way.up)))


def _reached(way: Vector) -> tuple[Axis, Face]:
    """The axis along which a direction runs, and the face it leads to."""
    axis = next(axis for axis, far in zip(AXES, way, strict=True) if far)
    return axis, HIGH[axis] if way[AXES.index(axis)] > 0 else LOW[axis]


def _back(way: Vector) -> Vector:
    """The opposite direction."""
    return -way[0], -way[1], -way[2]


def banded(part: Part) -> tuple[Banding, ...]:
    """The edges that get banding."""
    return tuple(feature for feature in part.features if isinstance(feature, Banding))


def _outward(face: Face) -> Vector:
    way = [0.0, 0.0, 0.0]
    axis = AXIS_OF[face]
    way[AXES.index(axis)] = 1.0 if face == HIGH[axis] else -1.0
    return way[0], way[1], way[2]
