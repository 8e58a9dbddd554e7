"""Holes as an author writes them: one, a row of them, a grid; every place counted from two named faces."""

from collections.abc import Mapping, Sequence
from itertools import product
from typing import Self

from plankit.parts import AXES, AXIS_OF, FACES, HIGH, LOW, Axis, Bore, Face
from plankit.plan.asked import known_face, whole_number
from plankit.plan.placing import RUNS, Given
from plankit.plan.worked import Worked
from plankit.units import Length, told


class Boring(Worked):
    """A part that can be bored."""

    def bore(
        self, face: Face, diameter: Given, *, depth: Given | None = None, use: str = "", **places: Given
    ) -> Self:
        """Bore a hole in a face; two distances from other faces say where: `bore("top", "1/2", left="2", front="3")`.

        depth  how deep; the whole way through where it is left out
        """
        spot = self._spot(face, places)
        self._bench.work_on(self.id, [self._hole(face, spot, diameter, depth, use)])
        return self

    def bore_row(
        self,
        face: Face,
        diameter: Given,
        *,
        runs: str,
        count: int,
        every: Given,
        depth: Given | None = None,
        use: str = "",
        **places: Given,
    ) -> Self:
        """Bore a row of holes, each counted from the same faces as the first.

        For instance `bore_row("right", "1/4", depth="3/8", runs="up", count=10, every="1 1/4", bottom="6", front="2")`

        runs    the way the row goes: "left-right", "front-back" or "up"
        every   from middle to middle
        places  two distances that say where the first hole is; the row goes away from the face named
        """
        way = self._way(runs, face)
        steps = {way: (whole_number(count, "count", self.name), every)}
        self._bore_all(face, diameter, depth, use, places, steps)
        return self

    def bore_grid(
        self,
        face: Face,
        diameter: Given,
        *,
        counts: Mapping[str, int],
        every: Mapping[str, Given],
        depth: Given | None = None,
        use: str = "",
        **places: Given,
    ) -> Self:
        """Bore rows and columns of holes, each counted from the same two faces.

        For instance
        `bore_grid("right", "1/4", counts={"up": 10, "front-back": 2}, every={"up": "1 1/4", "front-back": "9"},
        bottom="6", front="2", depth="3/8")`

        counts  how many holes stand along each of the two ways
        every   from middle to middle along each of them
        """
        both = isinstance(counts, Mapping) and isinstance(every, Mapping)
        if not both:
            self._refuse(
                "a grid goes two ways, and needs a count and a distance for both.",
                f"counts={counts!r}, every={every!r}",
                'For instance  counts={"up": 10, "front-back": 2}, every={"up": "1 1/4", "front-back": "9"}',
            )
        if set(counts) != set(every) or len(counts) != 2:
            self._refuse(
                "a grid goes two ways, and needs a count and a distance for both.",
                f"counts for {', '.join(counts)}; every for {', '.join(every)}",
                'For instance  counts={"up": 10, "front-back": 2}, every={"up": "1 1/4", "front-back": "9"}',
            )
        steps = {
            self._way(way, face): (whole_number(count, f'counts["{way}"]', self.name), every[way])
            for way, count in counts.items()
        }
        self._bore_all(face, diameter, depth, use, places, steps)
        return self

    def _bore_all(  # noqa: PLR0917 - a hole, where the first is, and how the others follow
        self,
        face: Face,
        diameter: Given,
        depth: Given | None,
        use: str,
        places: Mapping[str, Given],
        steps: Mapping[Axis, tuple[int, Given]],
    ) -> None:
        first = self._spot(face, places)
        from_face = {AXIS_OF[one]: one for one in FACES if one in places}
        rows = [
            [
                (axis, self._more_than_nothing(every, "every") * number, from_face[axis])
                for number in range(count)
            ]
            for axis, (count, every) in steps.items()
        ]
        holes = []
        for moves in product(*rows):
            spot = list(first)
            for axis, far, start in moves:
                index = AXES.index(axis)
                spot[index] = spot[index] + far if start == LOW[axis] else spot[index] - far
            holes.append(self._hole(face, spot, diameter, depth, use))
        apart = [every for count, every in steps.values() if count > 1]
        if any(self._read(every, "every") <= holes[0].diameter for every in apart):
            self._refuse(
                "the holes run into each other.",
                f"{told(holes[0].diameter)} across, every {', '.join(str(every) for every in apart)}",
                "Bore smaller ones, or set them further apart.",
            )
        self._bench.work_on(self.id, holes)

    def _way(self, runs: str, face: Face) -> Axis:
        known_face(face, self.name)
        ways = {way: axis for way, axis in RUNS.items() if axis != AXIS_OF[face]}
        if runs not in ways:
            self._refuse(
                f"a row in the {face} face goes one of two ways.",
                f'"{runs}"',
                "Write one of: " + ", ".join(f'"{way}"' for way in ways),
            )
        return ways[runs]

    def _spot(self, face: Face, places: Mapping[str, Given]) -> list[Length]:
        part = self.part
        known_face(face, part.name)
        axes = {AXIS_OF[f]: f for f in places if f in FACES}
        if len(axes) != 2 or len(places) != 2 or AXIS_OF[face] in axes:
            self._refuse(
                "a hole is placed by its distances from two faces beside the one it is bored in.",
                ", ".join(places),
            )
        spot = []
        for axis in AXES:
            named = axes.get(axis)
            away = self._read(places[named], named) if named else part.box.extent(axis).portion(2)
            spot.append(part.box.extent(axis) - away if named == HIGH[axis] else away)
        return spot

    def _hole(self, face: Face, spot: Sequence[Length], diameter: Given, depth: Given | None, use: str) -> Bore:
        deep = None if depth is None else self._read(depth, "depth")
        size = self._read(diameter, "diameter")
        self._refuse_hole(face, spot, size, deep)
        return Bore(face, (spot[0], spot[1], spot[2]), size, deep, use)

    def _refuse_hole(self, face: Face, spot: Sequence[Length], size: Length, deep: Length | None) -> None:
        part = self.part
        if size <= Length.zero():
            self._refuse("a hole has a diameter.", f"{told(size)}")
        if deep is not None and not Length.zero() < deep <= part.box.extent(AXIS_OF[face]):
            self._refuse(
                "a hole goes into the part, and no deeper than it is thick.", f"{told(deep)}"
            )
        across = [axis for axis in AXES if axis != AXIS_OF[face]]
        if any(size >= part.box.extent(axis) for axis in across):
            self._refuse(
                "the hole is as wide as the part.", f"{told(size)}", "Bore a smaller one."
            )
        for axis, place in zip(AXES, spot, strict=True):
            if axis != AXIS_OF[face] and not Length.zero() <= place <= part.box.extent(axis):
                self._refuse(
                    "the hole lies beside the part.", f"{told(place)} from its {LOW[axis]} face"
                )
