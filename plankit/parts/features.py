"""What is done to a part: cuts and holes, each measured from the part's front left bottom corner.

Every feature can be turned with its part (`turned`), so that mirror images and equal parts are found by
geometry. Distances are exact lengths.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.parts.edge_features import Chamfer, Cove, Roundover, edge_between
from plankit.parts.space import AXES, AXIS_OF, FACES, LOW, Axis, Box, Face, Size, Turn
from plankit.units import Angle, L, Length, largest

POCKET_ANGLE = Angle(Fraction(15))
"""Pocket holes run 15 degrees to the face (common practice)."""
POCKET_DIAMETER = L("3/8 in")
"""The stepped bit of a pocket-hole jig (common practice)."""
POCKET_SHOULDER = L("9/16 in")
"""Least wood, along the hole, between a pocket's bottom and the end its screw leaves (common practice)."""


def pocket_shoulder(thickness: Length) -> Length:
    """Return the wood left along a pocket hole between its bottom and the end, by the part's thickness.

    Nine sixteenths, or three quarters of the thickness in stock over 3/4 in: drills are collared further
    back there, so that a 2 1/2 in screw through 1 1/2 in stock stays inside the next (common practice).
    """
    return largest(POCKET_SHOULDER, thickness * Fraction(3, 4))


@dataclass(frozen=True, slots=True)
class Notch:
    """A block cut out of a corner or an edge; `reason` says what it goes round.

    trace  whether it is marked from the piece itself, so that its sizes are only nominal
    """

    cut: Box
    reason: str = ""
    trace: bool = False

    def turned(self, turn: Turn, size: Size) -> "Notch":
        """Return the notch as it lies after the part is turned."""
        return replace(self, cut=turn.box(self.cut, size))


@dataclass(frozen=True, slots=True)
class Taper:
    """A face that leans in towards one end.

    face    the face that is sawn
    narrow  the end towards which the part gets thinner
    amount  what is taken off at that end
    run     how far from that end the taper starts
    """

    face: Face
    narrow: Face
    amount: Length
    run: Length

    @property
    def angle(self) -> Angle:
        """The saw's setting: the angle between the tapered face and the face it was."""
        return Angle.of_slope(self.amount, self.run)

    def turned(self, turn: Turn, size: Size) -> "Taper":
        """Return the taper as it lies after the part is turned."""
        return replace(self, face=turn.face(self.face), narrow=turn.face(self.narrow))


@dataclass(frozen=True, slots=True)
class Mitre:
    """An end cut at an angle.

    end      the end that is sawn
    short    the face along which the part ends up shorter
    setback  by how much
    """

    end: Face
    short: Face
    setback: Length

    def turned(self, turn: Turn, size: Size) -> "Mitre":
        """Return the mitre as it lies after the part is turned."""
        return replace(self, end=turn.face(self.end), short=turn.face(self.short))


@dataclass(frozen=True, slots=True)
class CompoundMitre:
    """An end cut slanting both ways across: it falls back along two faces that meet.

    end             the end that is sawn
    short           one face along which the part ends up shorter
    setback         by how much, where the other slope takes nothing
    also_short      the other such face, beside the first
    also_setback    by how much, where the first slope takes nothing
    """

    end: Face
    short: Face
    setback: Length
    also_short: Face
    also_setback: Length

    def turned(self, turn: Turn, size: Size) -> "CompoundMitre":
        """Return the mitre as it lies after the part is turned."""
        return replace(
            self,
            end=turn.face(self.end),
            short=turn.face(self.short),
            also_short=turn.face(self.also_short),
        )


@dataclass(frozen=True, slots=True)
class Bevel:
    """A long edge sawn at an angle, the whole way along.

    edge     the edge that is sawn
    short    the face along which the part ends up narrower
    setback  by how much
    """

    edge: Face
    short: Face
    setback: Length

    def turned(self, turn: Turn, size: Size) -> "Bevel":
        """Return the bevel as it lies after the part is turned."""
        return replace(self, edge=turn.face(self.edge), short=turn.face(self.short))


@dataclass(frozen=True, slots=True)
class Bore:
    """A round hole, or a slot where `travel` is given.

    face         the face it is bored from
    at           its middle; the distance along the face's own axis is not used
    diameter     across the hole
    depth        how deep; the whole way through where it is None
    use          what it is for ("clearance hole")
    countersink  across the cone for a screw's head; None where there is none
    travel       how much longer than wide a slot is; `along` is its direction
    sawn         whether it is bored square to the slanting cut at its face, and so deep from there
    """

    face: Face
    at: Size
    diameter: Length
    depth: Length | None = None
    use: str = ""
    countersink: Length | None = None
    travel: Length | None = None
    along: Axis = "x"
    sawn: bool = False

    def turned(self, turn: Turn, size: Size) -> "Bore":
        """Return the hole as it lies after the part is turned."""
        return replace(
            self, face=turn.face(self.face), at=turn.offsets(self.at, size), along=turn.axis(self.along)
        )

    def plainest(self) -> "Bore":
        """Return the same hole without what makes no difference to it, so that equal holes are equal.

        That is the place along its own axis, a direction without travel, and the end that a plain hole
        through the whole part is bored from.
        """
        axis = AXIS_OF[self.face]
        x, y, z = (Length.zero() if own == axis else at for own, at in zip(AXES, self.at, strict=True))
        face = LOW[axis] if self.depth is None and self.countersink is None else self.face
        along = self.along if self.travel is not None else "x"
        return replace(self, face=face, at=(x, y, z), along=along)

    def reach(self, size: Size) -> Length:
        """Return how deep the hole goes in a part of this size."""
        return self.depth if self.depth is not None else size[AXES.index(AXIS_OF[self.face])]


@dataclass(frozen=True, slots=True)
class Groove:
    """A channel ploughed in a face: `cut` is what is taken away."""

    face: Face
    cut: Box
    reason: str = ""

    def turned(self, turn: Turn, size: Size) -> "Groove":
        """Return the groove as it lies after the part is turned."""
        return replace(self, face=turn.face(self.face), cut=turn.box(self.cut, size))


@dataclass(frozen=True, slots=True)
class PocketHoles:
    """Pocket holes in a row.

    face    the face they are drilled in
    end     the end or edge their screws come out of
    places  each hole's distance along that edge from the part's corner
    setback how far that edge lies in from the part's end, as inside a notch; None where it is the end itself
    """

    face: Face
    end: Face
    places: tuple[Length, ...]
    setback: Length | None = None

    @property
    def along(self) -> Axis:
        """The axis along which the holes stand in a row."""
        (axis,) = (axis for axis in AXES if axis not in {AXIS_OF[self.face], AXIS_OF[self.end]})
        return axis

    def turned(self, turn: Turn, size: Size) -> "PocketHoles":
        """Return the holes as they lie after the part is turned."""
        moved = (turn.offset(self.along, place, size) for place in self.places)
        places = sorted(moved, key=lambda place: place.mm)
        return replace(self, face=turn.face(self.face), end=turn.face(self.end), places=tuple(places))


@dataclass(frozen=True, slots=True)
class Banding:
    """Veneer or a strip glued on an edge; cut sizes shrink by `thickness` where it is thick enough."""

    edge: Face
    thickness: Length
    optional: bool = False

    def turned(self, turn: Turn, size: Size) -> "Banding":
        """Return the banding as it lies after the part is turned."""
        return replace(self, edge=turn.face(self.edge))


@dataclass(frozen=True, slots=True)
class LeftOn:
    """What is left on at a face when the part is cut out, and trimmed off later."""

    face: Face
    amount: Length

    def turned(self, turn: Turn, size: Size) -> "LeftOn":
        """Return the allowance as it lies after the part is turned."""
        return replace(self, face=turn.face(self.face))


type Feature = (
    Notch
    | Taper
    | Mitre
    | CompoundMitre
    | Bevel
    | Bore
    | Groove
    | PocketHoles
    | Banding
    | Chamfer
    | Roundover
    | Cove
    | LeftOn
)


def plainest(feature: Feature) -> Feature:  # noqa: PLR0911 - a case for each kind
    """Return a feature without what makes no difference to the wood, so that equal ones are equal."""
    match feature:
        case Bore():
            return replace(feature.plainest(), use="")
        case Notch():
            return replace(feature, reason="", trace=False)
        case Groove():
            return replace(feature, reason="")
        case Bevel(edge=edge, short=short, setback=setback):
            return Mitre(edge, short, setback)
        case CompoundMitre() if FACES.index(feature.short) > FACES.index(feature.also_short):
            return CompoundMitre(
                feature.end, feature.also_short, feature.also_setback, feature.short, feature.setback
            )
        case Chamfer() | Roundover() | Cove():
            return replace(feature, edge=edge_between(*feature.edge))
        case _:
            return feature
