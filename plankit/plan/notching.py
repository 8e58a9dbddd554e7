"""Notches as an author writes them: out of a corner, out of an edge, round another part."""

from typing import Self

from plankit.drawing.words import within
from plankit.parts import AXES, AXIS_OF, FACES, HIGH, LOW, Box, Face, Notch
from plankit.plan.asked import known_face, not_below_nothing
from plankit.plan.placing import Given
from plankit.plan.worked import Worked
from plankit.units import Length, told


class Notching(Worked):
    """A part that blocks are cut out of."""

    def notch(self, *, reason: str = "", **depths: Given) -> Self:
        """Cut a block out where faces meet: `notch(back="1 1/2", top="3 1/2")` is a corner notch.

        Two faces make a notch that runs the whole way along the third direction; three make a blind one.
        """
        box = self._corner(depths, "notch")
        self._bench.work_on(self.id, [Notch(box, reason)])
        return self

    def notch_edge(self, face: Face, *, depth: Given, width: Given, reason: str = "", **start: Given) -> Self:
        """Cut a block out of the middle of an edge: `notch_edge("front", depth="3/4", width="2", left="6")`.

        face   the edge or end it is cut into, `depth` deep
        width  how long it is along that edge
        start  the one other face says where it begins, and how far from there; it runs through the part
        """
        known_face(face, self.name)
        across = [axis for axis in AXES if axis != AXIS_OF[face]]
        edge, away = self._one_face(start, "a notch in an edge", across)
        deep, wide = self._more_than_nothing(depth, "depth"), self._more_than_nothing(width, "width")
        room = self.part.box.extent(AXIS_OF[edge])
        if deep >= self.part.box.extent(AXIS_OF[face]) or away < Length.zero() or away + wide > room:
            self._refuse(
                "the notch does not lie in the part.",
                f"{told(deep)} deep, from {told(away)} to {told(away + wide)}",
            )
        box = Box(**(self._whole() | self._span(face, Length.zero(), deep) | self._span(edge, away, wide)))
        self._bench.work_on(self.id, [Notch(box, reason)])
        return self

    def notch_round(self, other: Worked, clearance: Given = 0, *, trace: bool = False) -> Self:
        """Notch this part round another that runs into it, with so much room on every side.

        trace  mark it from the piece itself when it is there; the sizes are nominal then
        """
        room = not_below_nothing(self._read(clearance, "clearance"), "clearance", self.name)
        if not isinstance(other, Worked):
            self._refuse("it is notched round another part.", repr(other), "For instance  divider.notch_round(rail)")
        mine, theirs = self.part.box, other.part.box
        common = mine.common(theirs)
        if any(common.extent(axis).mm <= 0 for axis in AXES):
            self._refuse(f"it does not run into {other.name}, so there is nothing to notch round.", other.id)
        ends: dict[str, Length] = {}
        through = 0
        for axis in AXES:
            low, high = common.low(axis) - mine.low(axis), common.high(axis) - mine.low(axis)
            from_low, to_high = low <= room, mine.extent(axis) - high <= room
            ends[LOW[axis]] = Length.zero() if from_low else low - room
            ends[HIGH[axis]] = mine.extent(axis) if to_high else high + room
            through += from_low and to_high
        if through >= 2:
            self._refuse(
                f"{other.name} goes right through it, so a notch round it would cut it off or in two.",
                other.id,
                f"Let it end at a face of {other.name}, or make it from two pieces.",
            )
        self._bench.work_on(self.id, [Notch(Box(**ends), f"round the {within(other.name)}", trace)])
        return self

    def _corner(self, depths: dict[str, Given], doing: str) -> Box:
        part = self.part
        unknown = [face for face in depths if face not in FACES]
        axes = [AXIS_OF[face] for face in depths if face in FACES]
        if unknown or len(set(axes)) != len(axes) or len(axes) not in {2, 3}:
            self._refuse(
                f"a {doing} is named by two or three faces that meet.",
                ", ".join(depths),
                'For instance  notch(back="1", top="2")',
            )
        ends = {LOW[axis]: Length.zero() for axis in AXES} | {
            HIGH[axis]: part.box.extent(axis) for axis in AXES
        }
        for face, depth in depths.items():
            axis = AXIS_OF[face]  # type: ignore[index]
            deep, whole = self._read(depth, "depth"), part.box.extent(axis)
            if not Length.zero() < deep < whole:
                self._refuse(
                    f"a {doing} {told(deep)} deep from the {face} is nothing, or all of it.", face
                )
            ends[HIGH[axis] if face == LOW[axis] else LOW[axis]] = deep if face == LOW[axis] else whole - deep
        return Box(**ends)
