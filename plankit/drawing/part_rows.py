"""Rows of holes at one distance from the next: the first is measured, the others are stepped off."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from plankit.drawing.part_faces import Datum
from plankit.parts import AXES, Axis, Bore, Feature, Part, PocketHoles
from plankit.units import Length, Notation, told

LEAST = 5
"""So many holes or more are stepped off; fewer are measured one by one."""
MOST = 16
"""More are stepped off even where their distance is on no tape: the last one is measured then."""


@dataclass(frozen=True, slots=True)
class Stepped:
    """A row of evenly spaced holes along one axis.

    places  distances from the part's lower end, ascending
    """

    axis: Axis
    places: tuple[Length, ...]

    @property
    def pitch(self) -> Length:
        """From one to the next."""
        return self.places[1] - self.places[0]

    @property
    def gaps(self) -> int:
        """How many distances there are from the first to the last."""
        return len(self.places) - 1

    def last(self, datum: Datum, part: Part) -> Length:
        """The place furthest from the face that is measured from."""
        return max((self.places[0], self.places[-1]), key=lambda at: datum.distance(part, self.axis, at).mm)

    def exact(self, notation: Notation) -> bool:
        """Whether a tape, or a rule in the other system, shows the distance from one to the next."""
        return not notation.rounds(self.pitch) or (self.pitch.mm * 2).denominator == 1

    def words(self, notation: Notation) -> str:
        """What is said of it between its first place and its last: "then 17 × 32 mm"."""
        if not self.exact(notation):
            return f"then {self.gaps} equal spaces"
        return f"then {self.gaps} × {told(self.pitch, notation).removesuffix(f' {notation.unit}')}"


def stepped(part: Part, axes: tuple[Axis, Axis], shown: Iterable[Feature], notation: Notation) -> Iterator[Stepped]:
    """The rows among what is marked on a face, on either axis of the page."""
    for axis in axes:
        for places in _alike(axis, shown).values():
            inside = {at.mm: at for at in places if 0 < at.mm < part.box.extent(axis).mm}
            row = Stepped(axis, tuple(inside[mm] for mm in sorted(inside)))
            if len(row.places) >= LEAST and _even(row) and (row.exact(notation) or len(row.places) > MOST):
                yield row


def _alike(axis: Axis, shown: Iterable[Feature]) -> dict[object, list[Length]]:
    """Places along an axis of holes of one kind."""
    found: dict[object, list[Length]] = {}
    for feature in shown:
        if isinstance(feature, Bore):
            key = (feature.use, feature.diameter.mm, feature.travel is None)
            found.setdefault(key, []).append(feature.at[AXES.index(axis)])
        elif isinstance(feature, PocketHoles) and feature.along == axis:
            found.setdefault((feature.end, feature.places), []).extend(feature.places)
    return found


def _even(row: Stepped) -> bool:
    return all(
        later.mm - earlier.mm == row.pitch.mm
        for earlier, later in zip(row.places, row.places[1:], strict=False)
    )


def left_out(rows: Iterable[Stepped], axis: Axis) -> frozenset[object]:
    """The places along an axis that are stepped off, in millimetres: all but the two ends of each row."""
    return frozenset(at.mm for row in rows if row.axis == axis for at in row.places[1:-1])
