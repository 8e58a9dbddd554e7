"""Strips glued on a face in a frame, mitred at the corners, as an author writes them."""

from plankit.build import glue
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, LOW, Axis, Box, Face, Mitre, Part, other_axes
from plankit.plan.asked import known_face, made_of, not_below_nothing
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, single
from plankit.plan.placing import Given
from plankit.stock import Lumber
from plankit.units import Length, told


class Moulding(Bench):
    """The part of a plan that says what is put on a face for looks."""

    def moulding(
        self, name: str, stock: Lumber, *, on: PartHandle, face: Face, set_in: Given = 0
    ) -> list[PartHandle]:
        """Glue a frame of strips on a face: `plan.moulding("Molding", strip, on=door, face="front", set_in="2")`.

        The strips lie flat, as wide and as thick as their stock, mitred at 45 degrees where they meet.

        set_in  from the face's edges to the outside of the frame
        returns the four strips: two one way, then two the other
        raises  PlanError where the strips leave no opening between them
        """
        base = single(on, "on=").part
        known_face(face, base.name)
        made_of(stock, Lumber, name, "a moulding")
        away = not_below_nothing(self._read(name, "set_in", set_in), "set_in", name)
        across = other_axes(AXIS_OF[face])
        for axis in across:
            room = base.box.extent(axis) - away * 2
            if room <= stock.width * 2:
                raise PlanError(
                    "the strips leave no opening between them.",
                    where=name,
                    given=f"{told(room)} for two strips of {told(stock.width)}",
                    remedy="Use narrower strips, or set them in less.",
                )
        made = []
        for way, beside in (across, across[::-1]):
            for at in (LOW[beside], HIGH[beside]):
                strip = self._strip(name, stock, (base, face), (way, at), away)
                made.append(self._add(strip))
                self._joints.append(glue(strip, base))
        return made

    def _strip(
        self, name: str, stock: Lumber, where: tuple[Part, Face], place: tuple[Axis, Face], away: Length
    ) -> Part:
        """One strip: it runs along an axis, at one edge of the frame, its short side towards the opening."""
        (base, face), (way, at) = where, place
        ends: dict[str, Length] = {LOW[way]: base.box.low(way) + away, HIGH[way]: base.box.high(way) - away}
        ends |= _from(base.box, at, away, stock.width) | _on(base.box, face, stock.thickness)
        inner = HIGH[AXIS_OF[at]] if at == LOW[AXIS_OF[at]] else LOW[AXIS_OF[at]]
        cuts = tuple(Mitre(end, inner, stock.width) for end in (LOW[way], HIGH[way]))
        return Part(self._new_id(name), name, "board", stock, Box(**ends), way, AXIS_OF[face], cuts)


def _from(box: Box, face: Face, away: Length, wide: Length) -> dict[str, Length]:
    """The two ends of something so wide that starts so far inside a face."""
    axis = AXIS_OF[face]
    if face == LOW[axis]:
        return {LOW[axis]: box.low(axis) + away, HIGH[axis]: box.low(axis) + away + wide}
    return {LOW[axis]: box.high(axis) - away - wide, HIGH[axis]: box.high(axis) - away}


def _on(box: Box, face: Face, thick: Length) -> dict[str, Length]:
    """The two ends of something so thick that lies on a face."""
    axis = AXIS_OF[face]
    if face == HIGH[axis]:
        return {LOW[axis]: box.high(axis), HIGH[axis]: box.high(axis) + thick}
    return {LOW[axis]: box.low(axis) - thick, HIGH[axis]: box.low(axis)}
