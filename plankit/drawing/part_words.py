"""What is done to a part, in words, for those who do not see its drawing."""

from collections.abc import Iterator, Sequence

from plankit.drawing.part_faces import banded
from plankit.drawing.sawn_words import setting_words, shows
from plankit.drawing.words import because, count_word, listed, plural
from plankit.parts import (
    AXES,
    FACES,
    HINGE_RECESS,
    Bevel,
    Bore,
    Chamfer,
    CompoundMitre,
    Cove,
    Edge,
    Face,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Roundover,
    Taper,
    channel,
    edges_round,
)
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
            case Mitre() | CompoundMitre():
                said.append(_mitred(part, feature, notation))
            case Bevel(edge=edge, short=short, setback=setback):
                said.append(
                    f"the {edge} edge is beveled, {notation.both(setback)} narrower on the {short} face, "
                    + setting_words(part, feature, notation)
                )
            case Notch(cut=cut, reason=reason):
                size = notation.size(*(cut.extent(axis) for axis in AXES))
                traced = ", traced from the piece" if feature.trace else ""
                said.append(f"a notch of {size} {because(reason)}".rstrip() + traced)
            case Groove(face=face, cut=cut, reason=reason):
                size = notation.size(*(cut.extent(axis) for axis in AXES))
                name = channel(part, feature).name
                why = because(reason) if name != HINGE_RECESS else ""
                said.append(f"a {name} {why}".rstrip() + f" in the {face} face, {size}")
            case _:
                continue
    return "; ".join((*said, *_hole_words(part), *_eased_words(part, notation), *_banding_words(part)))


def _mitred(part: Part, cut: Mitre | CompoundMitre, notation: Notation) -> str:
    """An end cut at an angle: how much shorter along which faces, as far as a tape shows it, and the saw's setting."""
    slopes = [(cut.setback, cut.short)]
    if isinstance(cut, CompoundMitre):
        slopes.append((cut.also_setback, cut.also_short))
    seen = [(notation.both(by), face) for by, face in slopes if shows(by, notation)]
    said = [f"{by}{'' if number else ' shorter'} along the {face} face" for number, (by, face) in enumerate(seen)]
    both = " both ways" if isinstance(cut, CompoundMitre) else ""
    return ", ".join([f"the {cut.end} end is mitered{both}", *([" and ".join(said)] if said else []),
                      setting_words(part, cut, notation)])  # fmt: skip


def first_words(part: Part, notation: Notation) -> list[str]:
    """What a maker has to know before the part is cut to its final size, in sentences."""
    said = []
    left = [feature for feature in part.features if isinstance(feature, LeftOn)]
    if left:
        size = notation.size(*part.cut_size())
        places = listed(f"{notation.bare(one.amount)} off the {one.face}" for one in left)
        said.append(f"Cut it {size} first; trim {places} later.")
    if part.fit_to:
        said.append(f"Cut to fit: measure {part.fit_to} first. The sizes here are nominal.")
        if any(isinstance(one, Bore | Groove | PocketHoles) for one in part.features):
            said.append("What comes off then comes off the sides away from the black corner.")
    return said


def edges_named(edges: Sequence[Edge]) -> str:
    """Edges by name: "all edges of the top face", or "the top front edge and the top left edge"."""
    for face in FACES:
        if set(edges_round(face)) == set(edges):
            return f"all edges of the {face} face"
    return listed(f"the {one} {other} edge" for one, other in edges)


def _eased_words(part: Part, notation: Notation) -> Iterator[str]:
    return (line.removesuffix(".")[0].lower() + line.removesuffix(".")[1:] for line in eased_lines(part, notation))


def eased_lines(part: Part, notation: Notation) -> list[str]:
    """Which edges are eased how, in sentences for the foot of a drawing."""
    found: dict[str, list[Edge]] = {}
    for feature in part.features:
        if isinstance(feature, Chamfer):
            found.setdefault(f"Chamfer {notation.bare(feature.size)} × 45°", []).append(feature.edge)
        elif isinstance(feature, Roundover):
            found.setdefault(f"Round over, radius {notation.bare(feature.size)}", []).append(feature.edge)
        elif isinstance(feature, Cove):
            found.setdefault(f"Cove, radius {notation.bare(feature.size)}", []).append(feature.edge)
    return [f"{words}: {edges_named(edges)}." for words, edges in found.items()]


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
