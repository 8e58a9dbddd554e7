"""Joints as an author writes them: what is glued, screwed or pinned to what."""

from plankit.build import brads, face_screws, fix_top, glue, pocket_screws, screw
from plankit.parts import HIGH, OPPOSITE, Face, Part
from plankit.plan.asked import known_face, more_than_nothing, whole_number
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, Parts, flat, single
from plankit.plan.placing import Given
from plankit.units import largest, smallest


class Joining(Bench):
    """The part of a plan that says what holds what."""

    def glue(self, parts: Parts, onto: PartHandle) -> None:
        """Glue parts to another that they touch."""
        for part in flat(parts):
            self._joints.append(glue(part.part, single(onto, "onto=").part))

    def screw(
        self, into: Parts, *, through: Parts, screws: str, each: int | None = None, inset: Given | None = None
    ) -> None:
        """Drive wood screws through one part into others: `plan.screw(feet, through=floor, screws="#8 x 2 1/2")`.

        each   how many for each pair; as many as common spacing asks for where it is left out
        inset  from each end of the joint to the outermost screw; 2 in where there is room, if left out
        """
        spec = screw(screws)
        for first in flat(through):
            if each is not None:
                whole_number(each, "each", first.name)
            away = None if inset is None else self._read(first.name, "inset", inset)
            for second in flat(into):
                joint, holes = face_screws(first.part, second.part, spec, each, away)
                self._joints.append(joint)
                self.work_on(first.id, holes)

    def pocket_screw(
        self,
        parts: Parts,
        *,
        into: PartHandle,
        face: Face | None = None,
        each: int | None = None,
        glued: bool = False,
    ) -> None:
        """Join parts to another with pocket screws; their length and number follow from the parts.

        face   the face that is drilled; the one towards the middle of the piece where it is left out
        glued  whether glue goes between as well
        """
        for part in flat(parts):
            if face is not None:
                known_face(face, part.name)
            if each is not None:
                whole_number(each, "each", part.name)
            drilled = face or self._inner_face(part.part)
            joint, holes = pocket_screws(part.part, single(into, "into=").part, drilled, each)
            self._joints.append(joint)
            self.work_on(part.id, holes)
            if glued:
                self.glue(part, into)

    def pin(self, thin: PartHandle, *, into: Parts, brads_long: Given = "1") -> None:
        """Pin a thin part to the edges of others with brads."""
        name = single(thin, "what is pinned").name
        long = more_than_nothing(self._read(name, "brads_long", brads_long), "brads_long", name)
        for part in flat(into):
            self._joints.append(brads(thin.part, part.part, long))

    def fasten_top(
        self, top: PartHandle, *, to: Parts, fixed_along: Face, screws: str, each: int = 3
    ) -> None:
        """Screw a solid top on from below so that it can move: round holes along one edge, slots elsewhere.

        The screws are pan-head screws on washers, which slide where a sunk head would wedge.

        to           the cleats or rails under it
        fixed_along  the edge that stays where it is; the grain must run along it
        """
        spec = screw(screws, "pan-head screw")
        known_face(fixed_along, single(top, "the top").name)
        whole_number(each, "each", top.name)
        for part in flat(to):
            joint, holes = fix_top(top.part, part.part, spec, fixed_along, each)
            self._joints.append(joint)
            self.work_on(part.id, holes)

    def _inner_face(self, part: Part) -> Face:
        """The face of a panel that looks towards the middle of everything made so far."""
        axis = part.through
        low = smallest(*(other.box.low(axis) for other in self._parts.values()))
        high = largest(*(other.box.high(axis) for other in self._parts.values()))
        looks_up = part.box.middle(axis) <= (low + high).portion(2)
        return HIGH[axis] if looks_up else OPPOSITE[HIGH[axis]]
