"""What is done to a part, in words, for those who do not see its drawing."""

from collections.abc import Iterator

from plankit.drawing.part_faces import banded
from plankit.drawing.words import because, count_word, plural
from plankit.parts import AXES, Bore, Face, Groove, Mitre, Notch, Part, PocketHoles, Taper
from plankit.units import Notation


def part_words(part: Part, notation: Notation) -> str:
    """What is done to a part, in words, for the figure's description."""
    said: list[str] = []
    for feature in part.features:
        match feature:
            case Taper(face=face, narrow=narrow, amount=amount, run=run):
                said.append(
                    f"the {face} face tapers by {notation.both(amount)} over {notation.both(run)} "
                    f"towards the {narrow} end, {notation.angle(feature.angle)} off"
                )
            case Mitre(end=end, short=short, setback=setback):
                said.append(
                    f"the {end} end is mitered, {notation.both(setback)} shorter along the {short} face"
                )
            case Notch(cut=cut, reason=reason):
                size = notation.size(*(cut.extent(axis) for axis in AXES))
                said.append(f"a notch of {size} {because(reason)}".rstrip())
            case Groove(face=face, cut=cut, reason=reason):
                size = notation.size(*(cut.extent(axis) for axis in AXES))
                said.append(f"a groove {because(reason)}".rstrip() + f" in the {face} face, {size}")
            case _:
                continue
    return "; ".join((*said, *_hole_words(part), *_banding_words(part)))


def _hole_words(part: Part) -> Iterator[str]:
    holes: dict[tuple[str, Face], int] = {}
    for feature in part.features:
        if isinstance(feature, Bore):
            key = ("slot" if feature.travel is not None else "hole", feature.face)
            holes[key] = holes.get(key, 0) + 1
        elif isinstance(feature, PocketHoles):
            key = ("pocket hole", feature.face)
            holes[key] = holes.get(key, 0) + len(feature.places)
    for (kind, face), number in holes.items():
        yield f"{count_word(number)} {kind if number == 1 else plural(kind)} in the {face} face"


def _banding_words(part: Part) -> Iterator[str]:
    edges = [feature.edge for feature in banded(part)]
    if edges:
        yield f"banding on the {', '.join(edges)} {'edge' if len(edges) == 1 else 'edges'}"
