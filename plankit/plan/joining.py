"""Joints as an author writes them: what is glued, screwed, nailed or doweled to what."""

from dataclasses import replace

from plankit.build import (
    Joint,
    Row,
    contacts,
    dowel,
    dowels,
    face_screws,
    glue,
    nail,
    nails,
    pocket_screws,
    screw,
)
from plankit.build.joints_dowels import with_count
from plankit.build.joints_pocket import POCKETED
from plankit.build.joints_screws import NAILED
from plankit.parts import AXES, AXIS_OF, HIGH, OPPOSITE, Axis, Face, Part
from plankit.parts.features import POCKET_DIAMETER
from plankit.plan.asked import known_face, maybe_words, more_than_nothing, whole_number
from plankit.plan.bench import Bench
from plankit.plan.handles import Parts, some
from plankit.plan.placing import Given
from plankit.units import L, largest, smallest

FROM_CORNER = L("1/4 in")
"""Pocket screws on two edges of a notch stand so far from the middle, away from its corner (common practice)."""


class Joining(Bench):
    """The part of a plan that says what holds what."""

    def glue(self, parts: Parts, onto: Parts) -> None:
        """Glue parts to another that they touch; to each of several where `onto` is a list."""
        for part in some(parts, "the parts"):
            for other in some(onto, "onto="):
                self._joints.append(glue(part.part, other.part))

    def screw(
        self,
        into: Parts,
        *,
        through: Parts,
        screws: str,
        each: int | None = None,
        inset: Given | None = None,
        towards: str = "",
    ) -> None:
        """Drive wood screws through one part into others: `plan.screw(feet, through=floor, screws="#8 x 2 1/2")`.

        each     how many for each pair; as many as common spacing asks for where it is left out
        inset    from each end of the joint to the outermost screw; 2 in where there is room, if left out
        towards  the faces of the first part that the screws leave by, where it meets the other in several, as
                 round a notch: "back top"
        """
        spec = screw(screws)
        for first in some(through, "through="):
            self._count(each, first.name)
            away = None if inset is None else self._read(first.name, "inset", inset)
            for second in some(into, "into="):
                for way in _ways(towards, first.name):
                    joint, holes = face_screws(first.part, second.part, spec, each, away, towards=way)
                    self._joints.append(joint)
                    self.join_work(first.id, holes)

    def nail(
        self, into: Parts, *, through: Parts, nails_of: str, each: int | None = None, towards: str = ""
    ) -> None:
        """Drive common nails through one part into others: `plan.nail(posts, through=slats, nails_of="8d")`."""
        spec = nail(nails_of)
        for first in some(through, "through="):
            row = replace(NAILED, count=self._count(each, first.name))
            for second in some(into, "into="):
                for way in _ways(towards, first.name):
                    self._joints.append(nails(first.part, second.part, spec, row, way))

    def pocket_screw(
        self,
        parts: Parts,
        *,
        into: Parts,
        face: Face | None = None,
        each: int | None = None,
        towards: str = "",
        shift: Given | None = None,
        spacing: Given | None = None,
        glued: bool | None = None,
    ) -> None:
        """Join parts to another, or to several, with pocket screws; their length and number follow from the parts.

        face     the face that is drilled; the one towards the middle of the piece where it is left out
        each     how many; one in an end up to 1 9/16 in wide, two or more in a wider one, where it is left out
        towards  the edges they leave by, where a part meets the other in several, as round a notch: "back top";
                 the screws of two are set 1/4 in away from the corner between them, where they would meet
        shift    moves them along the joint, to the right, back or up ("-1/4": the other way), where they would
                 meet the screws of another part in the same post
        spacing  at most so far apart: 7 in where it is left out
        glued    whether glue goes between as well; where it is left out, only in narrow ends that one screw holds
        """
        for part in some(parts, "the parts"):
            if face is not None:
                known_face(face, part.name)
            row = self._row(POCKETED, part.name, self._count(each, part.name), shift, spacing)
            drilled = face or self._inner_face(part.part)
            for other in some(into, "into="):
                ways = _ways(towards, part.name)
                for way in ways:
                    moved = _from_corner(row, part.part, other.part, way, ways)
                    joint, holes = pocket_screws(part.part, other.part, drilled, row=moved, towards=way)
                    self._joints.append(joint)
                    self.join_work(part.id, holes)
                if glued or (glued is None and _one_in_an_end(part.part, joint)):
                    self.glue(part, other)

    def dowel(
        self,
        parts: Parts,
        *,
        into: Parts,
        pins: str | None = None,
        each: int | None = None,
        shift: Given | None = None,
        towards: str = "",
    ) -> None:
        """Join parts to others with glued dowels: `plan.dowel(shelf, into=sides)`; both get the holes.

        pins   diameter and length, "3/8 x 2"; the thickest that suits the joint, as sold, where it is left out
        each   how many for each pair; at most 5 in apart where it is left out
        shift  moves them along the joint, to the right, back or up
        """
        spec = None if pins is None else dowel(pins)
        for part in some(parts, "the parts"):
            row = self._row(with_count(self._count(each, part.name)), part.name, each, shift, None)
            for other in some(into, "into="):
                for way in _ways(towards, part.name):
                    made = dowels(part.part, other.part, spec, row, way)
                    self._joints.append(made.joint)
                    self.join_work(part.id, made.holes)
                    self.join_work(other.id, made.into_holes)

    @staticmethod
    def _count(each: int | None, name: str) -> int | None:
        return None if each is None else whole_number(each, "each", name)

    def _row(
        self, usual: Row, name: str, count: int | None, shift: Given | None, spacing: Given | None
    ) -> Row:
        """A row with what the author says about it."""
        row = usual if count is None else replace(usual, count=count)
        if spacing is not None:
            apart = more_than_nothing(self._read(name, "spacing", spacing), "spacing", name)
            row = row.at_most(apart)
        return row if shift is None else replace(row, shift=self._read(name, "shift", shift))

    def _inner_face(self, part: Part) -> Face:
        """The face of a part that looks towards the middle of everything made so far.

        Of stock as thick as it is wide, a face that looks sideways rather than up or down.
        """
        axis = _drilled_axis(part)
        low = smallest(*(other.box.low(axis) for other in self._parts.values()))
        high = largest(*(other.box.high(axis) for other in self._parts.values()))
        looks_up = part.box.middle(axis) <= (low + high).portion(2)
        return HIGH[axis] if looks_up else OPPOSITE[HIGH[axis]]


def _drilled_axis(part: Part) -> Axis:
    if part.thickness.mm != part.width.mm or part.grain == "z":
        return part.through
    return next(axis for axis in AXES if axis not in {part.grain, "z"})


def _ways(towards: str, name: str) -> list[Face | None]:
    """The faces that an author names; one that is left open where she names none."""
    faces: list[Face | None] = []
    for face in maybe_words(towards, "towards", 'towards="left"', name).split():
        known_face(face, name)
        faces.append(face)  # type: ignore[arg-type]
    return faces or [None]


def _from_corner(row: Row, part: Part, into: Part, way: Face | None, ways: list[Face | None]) -> Row:
    """A row on one edge of a notch, moved away from the corner where the screws of its other edge would meet it.

    Not so far that a pocket comes near the far end of the edge: a short edge stays as it is, for a check to tell.
    """
    other = next((one for one in ways if one != way), None)
    met = next((one for one in contacts(part, into) if one.face == way), None)
    if row.shift is not None or other is None or met is None or AXIS_OF[other] == met.axis:
        return row
    axis = AXIS_OF[other]
    room = met.region.extent(axis).portion(2) - POCKET_DIAMETER
    if room.mm <= 0:
        return row
    by = smallest(room, FROM_CORNER)
    return replace(row, shift=by if other == HIGH[axis] else -by)


def _one_in_an_end(part: Part, joint: Joint) -> bool:
    """Whether a single screw holds the end of a narrow board, which would turn without glue."""
    at_end = AXIS_OF[joint.contact.face] == part.grain
    return part.kind == "board" and at_end and len(joint.fasteners) == 1
