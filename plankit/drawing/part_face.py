"""One face of a part on paper: where its places fall, its corners, which sides are measured from."""

from collections.abc import Mapping
from dataclasses import dataclass

from plankit.drawing.edge_names import Side
from plankit.drawing.part_faces import Datum, FaceView
from plankit.drawing.part_marks import Marks
from plankit.drawing.part_notes import edge_words
from plankit.drawing.part_spots import Spot
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Bounds, Point
from plankit.parts import Axis, Face
from plankit.units import Length, Notation


@dataclass(frozen=True, slots=True)
class PartFace:
    """One face on the page, and what its drawing needs to know.

    sized   the axes whose outside size another face of the drawing gives
    called  what the face is called where it is another one in others of the same parts: "Inner face"
    """

    view: FaceView
    placing: Placing
    datum: Datum
    marks: Marks
    notation: Notation
    sized: frozenset[Axis]
    called: str = ""

    def at(self, spot: Spot) -> Point:
        """Where a spot of the face falls on the page."""
        return self.view.at(self.placing, *spot)

    @property
    def box(self) -> Bounds:
        """Left, top, right, bottom of the untouched face on the page."""
        extent = self.view.part.box.extent
        far = (extent(self.view.across), extent(self.view.upright))
        (ax, ay), (bx, by) = self.at((Length.zero(), Length.zero())), self.at(far)
        return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)

    @property
    def sides(self) -> Mapping[Side, Face]:
        """Which face of the part lies at each side of the drawing."""
        view = self.view
        return {"left": view.left, "lower": view.below, "upper": view.above, "right": view.right}

    @property
    def names(self) -> dict[Side, str]:
        """What the edges and ends round the face are called."""
        return {side: edge_words(self.view.part, face) for side, face in self.sides.items()}

    @property
    def from_left(self) -> bool:
        """Whether places along the page are measured from its left side."""
        return self.datum.face(self.view.across) == self.view.left

    @property
    def from_below(self) -> bool:
        """Whether places up the page are measured from its lower side."""
        return self.datum.face(self.view.upright) == self.view.below

    @property
    def corner(self) -> Point:
        """Where both measures start."""
        left, top, right, bottom = self.box
        return left if self.from_left else right, bottom if self.from_below else top

    @property
    def at_corner(self) -> frozenset[Side]:
        """The two sides that meet there."""
        return frozenset({"left" if self.from_left else "right", "lower" if self.from_below else "upper"})
