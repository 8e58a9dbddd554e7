"""Reveals in the front view: how much stays open beside doors, drawer fronts and whatever else closes a case."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from plankit.build import Build
from plankit.drawing import dimension as dim
from plankit.drawing.occupied import Occupied
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Point, Primitive
from plankit.drawing.view import View
from plankit.drawing.words import listed, within
from plankit.parts import AXIS_OF, LOW, Axis, Face, Part
from plankit.units import L, Length, Notation

WIDEST = L("1/2 in")
"""A wider space beside a front is an opening, and no reveal (common practice: 1/16 to 1/8 in)."""
_WHOLE = 0.95
"""A front is seen whole: nothing stands before it but its knob."""
_ROUND: Final[tuple[Face, ...]] = ("left", "right", "bottom", "top")
_INWARD: Final[dict[Face, Point]] = {"left": (1.0, 0.0), "right": (-1.0, 0.0), "bottom": (0.0, -1.0), "top": (0.0, 1.0)}
_AT: Final[dict[Axis, Fraction]] = {"x": Fraction(2, 5), "z": Fraction(3, 10)}
"""Where along a front's edge its reveal is measured, from its lower or left end."""


@dataclass(frozen=True, slots=True)
class Reveal:
    """What stays open beside one edge of a front.

    between  whether the neighbour is a front too; else it is an edge of the case
    """

    front: Part
    face: Face
    beside: Part
    wide: Length
    between: bool

    @property
    def kind(self) -> tuple[Axis, Fraction, bool]:
        """What one dimension stands for, wherever it is the same."""
        return AXIS_OF[self.face], self.wide.mm, self.between


def reveals(build: Build, view: View) -> tuple[Reveal, ...]:
    """The reveals seen from the front, each sort once: fronts from left to right and upwards.

    A front lies flat, is seen whole, and is joined to nothing but what moves with it and what is laid on it.
    """
    parts = build.parts
    fronts = [part for part in parts if _closes(part, parts, view) and not _fixed(part, build)]
    fronts.sort(key=lambda part: (part.box.bottom.mm, part.box.left.mm))
    fronts = [part for part in fronts if not any(_laid_on(part, other) for other in fronts)]
    closing = {part.id for part in fronts}
    found: dict[tuple[Axis, Fraction, bool], Reveal] = {}
    for front in fronts:
        for face in _ROUND:
            one = _beside(front, face, parts, view, closing)
            if one is not None:
                found.setdefault(one.kind, one)
    return tuple(found.values())


def _fixed(part: Part, build: Build) -> bool:
    """Whether a part is joined to something that neither moves with it nor lies on it."""
    own = {one for moving in build.moving if part.id in moving.parts for one in moving.parts}
    own |= {one.id for one in build.parts if _laid_on(one, part)}
    return any(part.id in (joint.holds, joint.to) and not {joint.holds, joint.to} <= own | {part.id}
               for joint in build.joints)  # fmt: skip


def _closes(part: Part, parts: Sequence[Part], view: View) -> bool:
    """Whether a part lies flat in the front and is seen whole, but for what is laid on it."""
    box = part.box
    if part.through != "y" or part.leans:
        return False
    on_it = [part.id, *(one.id for one in parts if _laid_on(one, part))]
    area = float(box.extent("x").mm * box.extent("z").mm)
    return sum(view.visible_area(one) for one in on_it) >= _WHOLE * area


def _laid_on(one: Part, part: Part) -> bool:
    """Whether a part lies on the front of another, within its outline."""
    if one.leans or one.box.back != part.box.front:
        return False
    return all(part.box.low(way) <= one.box.low(way) and one.box.high(way) <= part.box.high(way) for way in ("x", "z"))


def _beside(front: Part, face: Face, parts: Sequence[Part], view: View, closing: set[str]) -> Reveal | None:
    """What is seen next beyond an edge of a front, where that is near."""
    edge = front.box.face(face)
    near: list[tuple[Fraction, bool, str, Part, Length]] = []
    for part in parts:
        if part.id == front.id or part.leans or view.visible_area(part.id) <= 0 or not _alongside(front, part, face):
            continue
        for other in _edges(part, face):
            apart = edge - other if face in LOW.values() else other - edge
            if 0 < apart.mm <= WIDEST.mm:
                near.append((apart.mm, part.id not in closing, part.id, part, apart))
    if not near:
        return None
    *_, part, apart = min(near, key=lambda one: one[:3])
    return Reveal(front, face, part, apart, part.id in closing)


def _alongside(front: Part, part: Part, face: Face) -> bool:
    """Whether a part runs along at least half of a front's edge."""
    along: Axis = "z" if AXIS_OF[face] == "x" else "x"
    one, other = front.box, part.box
    common = min(one.high(along).mm, other.high(along).mm) - max(one.low(along).mm, other.low(along).mm)
    return common * 2 >= one.extent(along).mm


def _edges(part: Part, face: Face) -> Iterator[Length]:
    """Both faces of a part across the edge: the outer one of what a front covers, the inner one of what it lies in."""
    axis = AXIS_OF[face]
    yield part.box.low(axis)
    yield part.box.high(axis)


def drawn_reveals(
    found: Sequence[Reveal], view: View, placing: Placing, notation: Notation, taken: Occupied
) -> tuple[Primitive, ...]:
    """A dimension across each sort of reveal, its number on the front beside it."""
    items: list[Primitive] = []
    for one in found:
        inner, outer = (placing.at(view.project(spot)) for spot in _spots(one))
        inward = _INWARD[one.face]
        turned = (-inward[1], inward[0])
        made = dim.drawn(dim.Dimension(outer, inner, inward, turned, 0.0, notation.bare(one.wide)), taken)
        taken.add(made)
        items.extend(made)
    return tuple(items)


def _spots(one: Reveal) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Both ends of a reveal, at the front's edge and beyond it, in the build."""
    box, axis = one.front.box, AXIS_OF[one.face]
    along: Axis = "z" if axis == "x" else "x"
    at = {axis: box.face(one.face), along: box.low(along) + box.extent(along) * _AT[axis], "y": box.front}
    out = -one.wide if one.face in LOW.values() else one.wide
    beyond = at | {axis: at[axis] + out}
    return _spot(at), _spot(beyond)


def _spot(at: dict[Axis, Length]) -> tuple[float, float, float]:
    return float(at["x"].mm), float(at["y"].mm), float(at["z"].mm)


def reveal_words(found: Sequence[Reveal], notation: Notation) -> str:
    """The reveals in a sentence: "Reveals: 1/16 in beside the side, 1/8 in between fronts"; "" where there are none."""
    told: dict[str, dict[str, None]] = {}
    for one in found:
        where = "between fronts" if one.between else f"at the {within(one.beside.name)}"
        told.setdefault(notation.both(one.wide), {})[where] = None
    said = listed(f"{wide} {listed(where)}" for wide, where in told.items())
    return f"Reveals: {said}." if said else ""


