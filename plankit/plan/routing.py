"""Channels and eased edges as an author writes them: grooves, dadoes, rabbets, chamfers, roundovers."""

from collections.abc import Mapping
from typing import Self

from plankit.parts import (
    AXES,
    AXIS_OF,
    EASED,
    FACES,
    HIGH,
    LOW,
    Box,
    Chamfer,
    Cove,
    Edge,
    Face,
    Groove,
    Roundover,
    edge_between,
    edges_round,
)
from plankit.plan.asked import known_face, maybe_words
from plankit.plan.placing import Given
from plankit.plan.worked import Worked
from plankit.units import Length, told

type Stops = Mapping[str, Given]
"""The faces a channel stops short of, and how far: `{"front": "1/2"}`."""


class Routing(Worked):
    """A part that channels are cut in, and whose edges are eased."""

    def groove(
        self,
        face: Face,
        *,
        width: Given,
        depth: Given,
        reason: str = "",
        stops: Stops | None = None,
        **start: Given,
    ) -> Self:
        """Plough a groove along a face: `groove("back", width="1/4", depth="3/8", bottom="1/2")`.

        The one other face says which edge it runs beside, and how far from it.

        stops  faces it stops short of, and by how much: `{"front": "1/2"}`; it runs right through without
        """
        known_face(face, self.name)
        across = [axis for axis in AXES if axis != AXIS_OF[face]]
        edge, away = self._one_face(start, "a groove", across)
        self._plough(face, edge, away, (width, depth), (reason, stops))
        return self

    def dado(
        self,
        face: Face,
        *,
        width: Given,
        depth: Given,
        reason: str = "",
        stops: Stops | None = None,
        **start: Given,
    ) -> Self:
        """Cut a dado, which is a groove across the grain: `dado("right", width="3/4", depth="1/4", bottom="12")`.

        stops  faces it stops short of, and by how much: `{"front": "1/2"}`; it runs right through without
        """
        known_face(face, self.name)
        if AXIS_OF[face] == self.part.grain:
            self._refuse("a dado is cut in a face or an edge, not in an end.", face)
        edge, away = self._one_face(start, "a dado", [self.part.grain])
        self._plough(face, edge, away, (width, depth), (reason, stops))
        return self

    def rabbet(
        self,
        face: Face,
        *,
        along: Face,
        width: Given,
        depth: Given,
        reason: str = "",
        stops: Stops | None = None,
    ) -> Self:
        """Cut a step out of an edge: `rabbet("right", along="back", width="1/4", depth="3/8")`.

        face   the face it is cut in, `depth` deep
        along  the edge or end it runs along, `width` wide from there
        stops  faces it stops short of, and by how much
        """
        known_face(face, self.name)
        known_face(along, self.name)
        if AXIS_OF[face] == AXIS_OF[along]:
            self._refuse("a rabbet is cut in one face along another that meets it.", f'"{face}", along="{along}"')
        self._plough(face, along, Length.zero(), (width, depth), (reason, stops))
        return self

    def _plough(
        self, face: Face, edge: Face, away: Length, size: tuple[Given, Given], why: tuple[str, Stops | None]
    ) -> None:
        wide, deep = self._read(size[0], "width"), self._read(size[1], "depth")
        axis, across = AXIS_OF[face], AXIS_OF[edge]
        thick, room = self.part.box.extent(axis), self.part.box.extent(across)
        inside = Length.zero() <= away and away + wide <= room and Length.zero() < wide < room
        if not (inside and Length.zero() < deep < thick):
            self._refuse(
                "the groove does not lie in the part.",
                f"{told(wide)} wide, {told(deep)} deep",
            )
        ends = self._whole() | self._span(face, Length.zero(), deep) | self._span(edge, away, wide)
        if not isinstance(why[1] or {}, Mapping):
            self._refuse("stops: the faces were expected, with how far short.", repr(why[1]), 'stops={"front": "1/2"}')
        for named, short in (why[1] or {}).items():
            ends |= self._stopped(named, self._more_than_nothing(short, f"stops[{named!r}]"), {axis, across}, ends)
        self._bench.work_on(self.id, [Groove(face, Box(**ends), why[0])])

    def _stopped(
        self, named: str, short: Length, taken: set[str], ends: Mapping[str, Length]
    ) -> dict[str, Length]:
        (runs,) = (axis for axis in AXES if axis not in taken)
        if named not in {LOW[runs], HIGH[runs]}:
            self._refuse(
                "it does not run towards that face, so it cannot stop short of it.",
                named,
                f"It runs between {LOW[runs]} and {HIGH[runs]}.",
            )
        low, high = ends[LOW[runs]], ends[HIGH[runs]]
        low, high = (low + short, high) if named == LOW[runs] else (low, high - short)
        if low >= high:
            self._refuse("it stops before it starts.", f"{told(short)} short of the {named}")
        return {LOW[runs]: low, HIGH[runs]: high}

    def chamfer(self, size: Given, *, edges: str = "", around: str = "") -> Self:
        """Take edges off at 45 degrees: `chamfer("1/8", edges="top-front top-left")`, or `around="top"`.

        size    what goes from either face
        edges   each edge by the two faces that meet in it
        around  a face whose four edges are all taken off
        """
        off = self._more_than_nothing(size, "size")
        self._ease([Chamfer(edge, off) for edge in self._edges(edges, around)])
        return self

    def roundover(self, radius: Given, *, edges: str = "", around: str = "") -> Self:
        """Make edges round: `roundover("1/4", edges="top-front top-left")`, or `around="top"`.

        edges   each edge by the two faces that meet in it
        around  a face whose four edges are all made round
        """
        off = self._more_than_nothing(radius, "radius")
        self._ease([Roundover(edge, off) for edge in self._edges(edges, around)])
        return self

    def _edges(self, edges: str, around: str) -> list[Edge]:
        example = 'For instance  edges="top-front top-left"  or  around="top"'
        for given, what in ((edges, "edges"), (around, "around")):
            maybe_words(given, what, example.removeprefix("For instance  "), self.name)
        if not edges.split() and not around:
            self._refuse("it takes the edges that are eased.", remedy=example)
        found: list[Edge] = []
        for word in edges.split():
            one, _, two = word.partition("-")
            if one not in FACES or two not in FACES or AXIS_OF[one] == AXIS_OF[two]:
                self._refuse("an edge is named by the two faces that meet in it.", word, example)
            found.append(edge_between(one, two))
        for word in around.split():
            known_face(word, self.name)
            found += [edge for face in FACES if face == word for edge in edges_round(face)]
        return list(dict.fromkeys(found))

    def _ease(self, made: list[Chamfer] | list[Roundover]) -> None:
        before = [one for one in self.part.features if isinstance(one, EASED)]
        whole: list[Chamfer | Roundover | Cove] = [*before, *made]
        for one in made:
            if sum(other.edge == one.edge for other in whole) > 1:
                self._refuse("this edge is eased already.", "-".join(one.edge), "Ease it once.")
            for face in one.edge:
                self._refuse_too_wide(face, one, whole)
        self._bench.work_on(self.id, made)

    def _refuse_too_wide(
        self, face: Face, one: Chamfer | Roundover, whole: list[Chamfer | Roundover | Cove]
    ) -> None:
        """Refuse an edge so far eased on one face that it meets the opposite one, or runs off the face."""
        (beside,) = (other for other in one.edge if other != face)
        across = AXIS_OF[beside]
        taken = sum(
            (two.size for two in whole if face in two.edge and across in {AXIS_OF[f] for f in two.edge}),
            Length.zero(),
        )
        room = self.part.box.extent(across)
        if taken > room:
            self._refuse(
                f"the eased edges leave nothing of the {face} face between them.",
                f"{told(taken)} off {told(room)}",
                "Take less off.",
            )
