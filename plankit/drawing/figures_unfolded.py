"""The sloping sides of a box, unfolded: each laid flat beside the next, its outer face towards the reader."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from plankit.build import Build, alike
from plankit.drawing import dimension as dim
from plankit.drawing.below import sentences_below
from plankit.drawing.labels import Wanted, labels
from plankit.drawing.occupied import Occupied
from plankit.drawing.placing import Placing, framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import Figure, Point, Primitive, Ring, Text
from plankit.drawing.sawn_words import setting_words
from plankit.drawing.seen import fills_of, lines_of, plain_kind, view_of
from plankit.drawing.view import View
from plankit.drawing.words import listed, plural, unit_note, within
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, CompoundMitre, Face, Mitre, Part, box_of, lengths_of
from plankit.units import Length, Notation

WIDE, TALL = 150.0, 90.0
_GAP: Final = 4.0
"""Between two sides on the page, in mm."""
_NUMBER = 9.0
"""A side whose dimensions are drawn stands so much clear of the next, in mm."""


@dataclass(frozen=True, slots=True)
class _Side:
    """One side as it lies flat: its outer face, and how that is seen."""

    part: Part
    outer: Face
    view: View

    @property
    def lower(self) -> Length:
        """How long the outer face's lower edge is."""
        return self._edge(LOW["z"])

    @property
    def upper(self) -> Length:
        """How long the outer face's upper edge is."""
        return self._edge(HIGH["z"])

    def _edge(self, face: Face) -> Length:
        one, two = sorted((self.outer, face), key=lambda one: AXES.index(AXIS_OF[one]))
        return lengths_of(self.part)[one, two]


def sides_of(build: Build) -> tuple[Part, ...]:
    """The leaning sides of a box, each mitred to the next: the front one first, then round to its right."""
    found = [part for part in build.parts if _is_side(part)]
    if len(found) < 3:
        return ()
    ordered = tuple(sorted(found, key=lambda part: (_turn(part, found), part.id)))
    closed = all(_meet(one, other) for one, other in zip(ordered, (*ordered[1:], ordered[0]), strict=True))
    return ordered if closed else ()


def _meet(one: Part, other: Part) -> bool:
    """Whether two parts reach as far as each other: mitered braces that stand apart are no sides of a box."""
    boxes = box_of(one), box_of(other)
    return all(
        max(box.low(axis).mm for box in boxes) <= min(box.high(axis).mm for box in boxes) for axis in AXES
    )


def _is_side(part: Part) -> bool:
    mitred = sum(isinstance(one, CompoundMitre | Mitre) and AXIS_OF[one.end] == part.grain for one in part.features)
    return len(part.leans) == 1 and part.across == "z" and mitred == 2


def _turn(part: Part, sides: Sequence[Part]) -> float:
    """How far round from the front a side stands, the way a clock does not run as one sees it from above."""
    middles = [box_of(one) for one in sides]
    x = float(sum(box.middle("x").mm for box in middles) / len(middles))
    y = float(sum(box.middle("y").mm for box in middles) / len(middles))
    box = box_of(part)
    turned = math.atan2(float(box.middle("y").mm) - y, float(box.middle("x").mm) - x) + math.pi / 2
    return round(turned % (2 * math.pi), 6) % round(2 * math.pi, 6)


def unfolded(build: Build, parts: Sequence[Part], notation: Notation) -> Figure:
    """The sides laid flat in a row, with both lengths and the width of each sort, and the saw's settings.

    raises  PlanError for parts that are no upright or leaning sides, or fewer than two
    """
    if len(parts) < 2:
        raise PlanError("one side alone is not unfolded.", given=f"{len(parts)}", remedy="Name all sides of the box.")
    sides = [_side(part, parts) for part in parts]
    return on_the_page(lambda room: _drawn(build, sides, notation, room))


def _side(part: Part, parts: Sequence[Part]) -> _Side:
    if part.across != "z" or part.grain == "z":
        raise PlanError(
            "only the sides of a box, boards on edge, are unfolded.", where=part.name, remedy="Leave it out."
        )
    axis = part.through
    middle = sum(box_of(one).middle(axis).mm for one in parts) / len(parts)
    outer = LOW[axis] if box_of(part).middle(axis).mm < middle else HIGH[axis]
    flat = replace(part, leans=())
    return _Side(part, outer, view_of((flat,), outer))


def _drawn(build: Build, sides: Sequence[_Side], notation: Notation, room: float) -> Figure:
    wides = [side.view.bounds[2] - side.view.bounds[0] for side in sides]
    high = max(side.view.bounds[3] - side.view.bounds[1] for side in sides)
    gaps = (_GAP + _NUMBER) * (len(sides) - 1)
    number = ratio(notation.unit, sum(wides), high, max(WIDE * room - gaps, 20.0), TALL * room)
    letters = {part.id: group.label for group in alike(build) for part in (*group.parts, *group.other)}
    items: list[Primitive] = []
    wanted: list[tuple[str, tuple[Ring, ...]]] = []
    at, told = 0.0, set[str]()
    for side, wide in zip(sides, wides, strict=True):
        placing = _placing(side, at, number)
        items += [*fills_of(side.view, placing, lambda _part: "part"), *lines_of(side.view, placing, plain_kind)]
        wanted += [(letters[side.part.id], tuple(placing.ring(ring) for ring in rings)) for _, rings in side.view.fills]
        if letters[side.part.id] not in told:
            items += _sizes(side, placing, notation)
        told.add(letters[side.part.id])
        at += wide / number + _GAP + _NUMBER
    taken = Occupied()
    taken.add(items)
    items += labels([Wanted(letter, (rings,)) for letter, rings in wanted], taken, [rings for _, rings in wanted])
    title = f"{build.name}: its sides unfolded"
    return framed("unfolded", [*items, *_below(items, sides, letters, notation, number)], title,
                  _words(sides, letters, notation))  # fmt: skip


def _placing(side: _Side, at: float, number: int) -> Placing:
    """Where a side lies: its left end so far right on the page, its lower edge on one line with the others."""
    left, _, _, bottom = side.view.bounds
    scale = 1.0 / number
    return Placing(scale, at - left * scale, -bottom * scale)


def _sizes(side: _Side, placing: Placing, notation: Notation) -> list[Primitive]:
    """Both lengths of the outer face, above and below, and its width at the right."""
    corners = [placing.at(point) for _, rings in side.view.fills for ring in rings for point in ring]
    low, high = max(y for _, y in corners), min(y for _, y in corners)
    found: list[Primitive] = []
    for y, length, away in ((high, side.upper, (0.0, -1.0)), (low, side.lower, (0.0, 1.0))):
        one, other = _ends(corners, y, float(length.mm) * placing.scale)
        found += dim.drawn(dim.Dimension(one, other, (1.0, 0.0), away, 6.0, notation.bare(length)))
    right = max(x for x, _ in corners)
    made = dim.Dimension((right, low), (right, high), (0.0, -1.0), (1.0, 0.0), 4.0, notation.bare(side.part.width))
    return [*found, *dim.drawn(made)]


def _ends(corners: Sequence[Point], y: float, long: float) -> tuple[Point, Point]:
    """Both ends of an edge of the outer face: it lies in the middle of the side, and is so long."""
    middle = (min(x for x, _ in corners) + max(x for x, _ in corners)) / 2
    return (middle - long / 2, y), (middle + long / 2, y)


def _below(
    items: Sequence[Primitive], sides: Sequence[_Side], letters: Mapping[str, str], notation: Notation, number: int
) -> list[Text]:
    said = [f"{scale_words(number)}. {unit_note(notation)}. Outer faces towards you."]
    said += _settings(sides, letters, notation)
    return sentences_below(items, said, least=120.0)


def _settings(sides: Sequence[_Side], letters: Mapping[str, str], notation: Notation) -> list[str]:
    """How the saw is set for the ends of each sort of side, each setting once."""
    found: dict[str, dict[str, None]] = {}
    for side in sides:
        cut = next((one for one in side.part.features if isinstance(one, CompoundMitre | Mitre)), None)
        if cut is not None:
            letter = f"{letters[side.part.id]} {within(side.part.name)}"
            found.setdefault(setting_words(side.part, cut, notation), {})[letter] = None
    return [f"Ends of {listed(names)}: {setting}." for setting, names in found.items()]


def _words(sides: Sequence[_Side], letters: Mapping[str, str], notation: Notation) -> str:
    counts: dict[str, list[_Side]] = {}
    for side in sides:
        counts.setdefault(letters[side.part.id], []).append(side)
    said = ["The sides laid flat in a row, outer faces up."]
    for ones in counts.values():
        first, name = ones[0], within(ones[0].part.name)
        said.append(
            f"{len(ones)} {plural(name) if len(ones) > 1 else name}: {notation.both(first.upper)} along the upper "
            f"edge, {notation.both(first.lower)} along the lower one, {notation.both(first.part.width)} wide."
        )
    return " ".join([*said, *_settings(sides, letters, notation)])


__all__ = ["sides_of", "unfolded"]
