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
    kind    what its holes have in common; a hole of another kind at one of its places is measured by itself
    """

    axis: Axis
    places: tuple[Length, ...]
    kind: object = None

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
        for kind, places in _alike(axis, shown).items():
            inside = {at.mm: at for at in places if 0 < at.mm < part.box.extent(axis).mm}
            row = Stepped(axis, tuple(inside[mm] for mm in sorted(inside)), kind)
            if len(row.places) >= LEAST and _even(row) and (row.exact(notation) or len(row.places) > MOST):
                yield row


def _alike(axis: Axis, shown: Iterable[Feature]) -> dict[object, list[Length]]:
    """Places along an axis of holes of one kind."""
    found: dict[object, list[Length]] = {}
    for feature in shown:
        if isinstance(feature, Bore):
            found.setdefault(_kind(feature), []).append(feature.at[AXES.index(axis)])
        elif isinstance(feature, PocketHoles) and feature.along == axis:
            found.setdefault(_kind(feature), []).extend(feature.places)
    return found


def _kind(feature: Feature) -> object:
    """What a feature must have in common with others to stand in a row with them; None for what is no hole."""
    if isinstance(feature, Bore):
        return feature.use, feature.diameter.mm, feature.travel is None
    return (feature.end, feature.places) if isinstance(feature, PocketHoles) else None


def _even(row: Stepped) -> bool:
    return all(
        later.mm - earlier.mm == row.pitch.mm
        for earlier, later in zip(row.places, row.places[1:], strict=False)
    )


def left_out(rows: Iterable[Stepped], axis: Axis, feature: Feature) -> frozenset[object]:
    """The places along an axis at which a hole is stepped off, in millimetres: all but the two ends of its row."""
    kind = _kind(feature)
    return frozenset(
        at.mm for row in rows if row.axis == axis and row.kind == kind is not None for at in row.places[1:-1]
    )
