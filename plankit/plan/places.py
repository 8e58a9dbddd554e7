"""Where parts that look alike stand in the piece, in words: "front left", "second from the left"."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from plankit.build import Alike
from plankit.drawing.words import listed
from plankit.parts import AXES, HIGH, LOW, Axis, Face, Part, PocketHoles

_ENDS: dict[Axis, tuple[str, str]] = {"x": ("left", "right"), "y": ("front", "back"), "z": ("lower", "upper")}
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def places_of(parts: Sequence[Part]) -> dict[str, str]:
    """Return where each of several parts stands among them, by its id.

    Two stand left and right, front and back, lower and upper; more in a row are counted from the left, the
    front or below. A part that is alone is nowhere in particular: "".
    """
    rows = {axis: sorted({_middle(part, axis) for part in parts}) for axis in _ENDS}
    return {part.id: _place(part, rows) for part in parts}


def _middle(part: Part, axis: Axis) -> Fraction:
    return part.box.middle(axis).mm


def _place(part: Part, rows: dict[Axis, list[Fraction]]) -> str:
    short, counted = [], []
    for axis in ("z", "y", "x"):
        row = rows[axis]
        number = row.index(_middle(part, axis))
        if len(row) == 2:
            short.append(_ENDS[axis][number])
        elif len(row) > 2:
            counted.append(f"{ordinal(number)} from {_start(axis)}")
    return " ".join([*short, *counted])


def _start(axis: Axis) -> str:
    return {"x": "the left", "y": "the front", "z": "below"}[axis]


def ordinal(number: int) -> str:
    """Return "first" for 0, "second" for 1 and so on."""
    return _ORDINALS[number] if number < len(_ORDINALS) else f"{number + 1}th"


def together(places: Iterable[str]) -> str:
    """Return several places as a list, what they share said once: "first and second from the left"."""
    found = list(dict.fromkeys(places))
    for tail in (f" from {_start(axis)}" for axis in _ENDS):
        if len(found) > 1 and all(place.endswith(tail) for place in found):
            return listed(place.removesuffix(tail) for place in found) + tail
    return listed(found)


def look_inwards(faces: Mapping[Face, Sequence[Part]]) -> bool:
    """Tell whether parts stand in two places across from each other, and all their faces look at those across.

    faces  the parts by the face in question
    """
    axes = {axis for axis in AXES if {LOW[axis], HIGH[axis]} == set(faces)}
    if not axes:
        return False
    (axis,) = axes
    low, high = ({_middle(part, axis) for part in faces[face]} for face in (HIGH[axis], LOW[axis]))
    return len(low) == len(high) == 1 and max(low) < min(high)


def inner_face(group: Alike) -> Face | None:
    """Return the face of a group's first part that has its pocket holes, where in others that is the face across."""
    found: dict[Face, list[Part]] = {}
    for part in group.parts:
        drilled = {feature.face for feature in part.features if isinstance(feature, PocketHoles)}
        if len(drilled) != 1:
            return None
        found.setdefault(drilled.pop(), []).append(part)
    return next((face for face, parts in found.items() if group.first in parts), None) if look_inwards(found) else None


def hands(group: Alike) -> str:
    """Say which places take the part as drawn and which its mirror image; "" where there is only one hand."""
    if not group.other:
        return ""
    where = places_of((*group.parts, *group.other))
    if len(set(where.values())) < len(where):
        return ""
    own, other = (
        together(where[part.id] for part in sorted(parts, key=lambda part: (_middle(part, "y"), _middle(part, "x"))))
        for parts in (group.parts, group.other)
    )
    return f"as drawn: {own}; mirrored: {other}"
