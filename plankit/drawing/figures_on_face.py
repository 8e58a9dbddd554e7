"""A face with what is laid out on it: a door and its moulding, each strip's place and its length to the long points."""

from dataclasses import replace
from typing import Final

from plankit.build import Build
from plankit.drawing.figures_around import Around, Counted, Sight
from plankit.drawing.placing import on_the_page
from plankit.drawing.primitives import Figure
from plankit.drawing.words import count_word, listed, plural, within
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, Face, Mitre, Part, other_axes
from plankit.units import Notation

_RIGHT, _UP, _DOWN = (1.0, 0.0), (0.0, -1.0), (0.0, 1.0)
_BELOW, _BESIDE = (0.0, 1.0), (1.0, 0.0)
_HIGH: Final = Counted("z", "bottom", _UP, _BESIDE)
_WAYS: Final[dict[Face, tuple[Counted, Counted]]] = {
    "front": (Counted("x", "left", _RIGHT, _BELOW), _HIGH),
    "back": (Counted("x", "right", _RIGHT, _BELOW), _HIGH),
    "right": (Counted("y", "front", _RIGHT, _BELOW), _HIGH),
    "left": (Counted("y", "back", _RIGHT, _BELOW), _HIGH),
    "top": (Counted("x", "left", _RIGHT, _BELOW), Counted("y", "front", _UP, _BESIDE)),
    "bottom": (Counted("x", "left", _RIGHT, _BELOW), Counted("y", "front", _DOWN, _BESIDE)),
}


def laid_on(build: Build, part: Part) -> dict[Face, tuple[Part, ...]]:
    """The strips and plates that are glued on each large face of a part, within its outline."""
    found: dict[Face, list[Part]] = {}
    for joint in build.joints:
        if joint.kind != "glue" or joint.to != part.id or joint.contact.axis != part.through or part.leans:
            continue
        one = build.part(joint.holds)
        across = other_axes(part.through)
        if one.leans or any(
            one.box.low(way) < part.box.low(way) or one.box.high(way) > part.box.high(way) for way in across
        ):
            continue
        at = joint.contact.region.low(part.through)
        face = next((face for face in _WAYS if AXIS_OF[face] == part.through and part.box.face(face) == at), None)
        if face is not None:
            found.setdefault(face, []).append(one)
    return {face: tuple(ones) for face, ones in found.items()}


def face_drawing(build: Build, part: Part, face: Face, notation: Notation) -> Figure:
    """One face of a part, square to it, with the place and the length of everything that is glued on it.

    raises  PlanError where nothing is
    """
    laid = laid_on(build, part).get(face, ())
    if not laid:
        raise PlanError("nothing is glued on this face.", where=part.name, given=f'face="{face}"')
    shown = replace(build, name=part.name, parts=(part, *laid), joints=(), items=(), moving=(), things=(), wall=None,
                    assemblies=(), surroundings=())  # fmt: skip
    names = listed(dict.fromkeys(within(one.name) for one in laid))
    sight = Sight(
        f"on-{part.id}-{face}",
        f"{part.name}, its {face}, with the {names}",
        face,
        _WAYS[face],
        frozenset(one.id for one in laid),
        (_lengths(laid, notation),),
    )
    return on_the_page(lambda room: Around(shown, notation, sight, room).figure())


def _lengths(laid: tuple[Part, ...], notation: Notation) -> str:
    """How long the strips are: "Two moldings 9 in and two moldings 20 in, to the long points of the miters."."""
    counts: dict[tuple[str, str], int] = {}
    for one in laid:
        key = (within(one.name), notation.both(one.length))
        counts[key] = counts.get(key, 0) + 1
    said = listed(
        f"{count_word(number)} {plural(name) if number > 1 else name} {long}" for (name, long), number in counts.items()
    )
    mitred = any(isinstance(cut, Mitre) for one in laid for cut in one.features)
    return f"{said[:1].upper()}{said[1:]}{', to the long points' if mitred else ''}."
