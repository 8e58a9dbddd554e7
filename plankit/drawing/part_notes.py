"""What is said beside the marks on one face of a part: of holes and cuts with a leader, of saws in a line above."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from plankit.drawing.drills import depth_words, drill_words
from plankit.drawing.part_faces import FaceView, hinge_edge
from plankit.drawing.part_spots import Spot, from_end, ordered, spot_of
from plankit.drawing.sawn_words import setting_words
from plankit.drawing.words import because
from plankit.parts import (
    AXIS_OF,
    HINGE_LEAF,
    HINGE_RECESS,
    LOW,
    OPPOSITE,
    Bevel,
    Bore,
    CompoundMitre,
    Face,
    Feature,
    Groove,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Taper,
    channel,
)
from plankit.parts.features import POCKET_DIAMETER
from plankit.parts.solid import pocket_entry
from plankit.units import Length, Notation

_POCKET = "pocket hole, screw"


@dataclass(frozen=True, slots=True)
class Note:
    """Words with a leader to one of the places they are true of; `reach` is how far a hole extends round it, in mm.

    beside  whether the words stand at the right of the face, level with the place
    """

    spots: tuple[Spot, ...]
    text: str
    reach: float = 0.0
    beside: bool = False


def notes_on(view: FaceView, shown: Iterable[Feature], notation: Notation) -> Iterator[Note]:
    """One note for each kind of hole or cut; one for each notch at the right."""
    found: dict[tuple[str, float], list[Spot]] = {}
    for feature in shown:
        if isinstance(feature, Bore):
            wide = float(max(feature.diameter.mm, feature.countersink.mm if feature.countersink else 0)) / 2
            found.setdefault((_bore_words(feature, notation), wide), []).append(spot_of(view, feature.at))
        elif isinstance(feature, PocketHoles):
            words = f"{_POCKET} out of the {edge_words(view.part, feature.end)}"
            reach = float(POCKET_DIAMETER.mm) / 2
            found.setdefault((words, reach), []).extend(_pocket_spots(view, feature))
        elif isinstance(feature, Groove | Notch) and (words := _cut_words(view, feature, notation)):
            middle = (feature.cut.middle(view.across), feature.cut.middle(view.upright))
            if isinstance(feature, Notch) and _at_right(view, feature):
                yield Note((middle,), words, beside=True)
            else:
                found.setdefault((words, 0.0), []).append(middle)
    for (words, reach), spots in found.items():
        many = words.replace(_POCKET, "pocket holes, screws")
        yield Note(tuple(spots), f"{len(spots)} × {many}" if len(spots) > 1 else words, reach)


def _at_right(view: FaceView, notch: Notch) -> bool:
    """Whether a notch takes off the right side of the face as it is drawn."""
    if view.right == LOW[view.across]:
        return notch.cut.low(view.across).mm <= 0
    return notch.cut.high(view.across) >= view.part.box.extent(view.across)


def _bore_words(bore: Bore, notation: Notation) -> str:
    """What is said of a hole: diameter, slot, depth, countersink."""
    drill = "ø" + drill_words(bore.diameter, notation, loose=bore.use.startswith("clearance"))
    if bore.travel is not None:
        said = f"slot {drill}, end holes {notation.bare(bore.travel)} apart"
        said += "" if bore.depth is None else f", {depth_words(bore.depth, notation)} deep"
    else:
        said = f"{drill} through" if bore.depth is None else f"{drill}, {depth_words(bore.depth, notation)} deep"
    if bore.sawn:
        said += ", square to the sawn face"
    if bore.countersink is not None:
        said += f", countersink ø{drill_words(bore.countersink, notation)}"
    return said


def _cut_words(view: FaceView, feature: Groove | Notch, notation: Notation) -> str:
    deep = feature.cut.extent(AXIS_OF[view.face])
    said = [because(feature.reason) if feature.reason != HINGE_LEAF else ""]
    if isinstance(feature, Notch) and feature.trace:
        said.append("trace it from the piece: sizes are nominal")
    if deep < view.part.box.extent(AXIS_OF[view.face]):
        kind = channel(view.part, feature).name if isinstance(feature, Groove) else ""
        words = f"{notation.bare(deep)} deep"
        said.insert(0, f"{kind} {words}" if kind in {"dado", "rabbet", HINGE_RECESS} else words)
    if isinstance(feature, Notch):
        wide, high = (feature.cut.extent(axis) for axis in (view.across, view.upright))
        said.append(f"{notation.bare(wide)} × {notation.bare(high)}")
    return ", ".join(words for words in said if words)


def _pocket_spots(view: FaceView, holes: PocketHoles) -> list[Spot]:
    """Where the middles of the pockets meet the face."""
    inwards = Length.of_mm(round(pocket_entry(float(view.part.box.extent(AXIS_OF[holes.face]).mm))))
    inwards += holes.setback or Length.zero()
    axis, at = from_end(view.part, holes.end, inwards)
    return [ordered(view, axis, at, place) for place in holes.places]


def said_of(view: FaceView, shown: Iterable[Feature], notation: Notation) -> Iterator[str]:
    """Lines above the face: the saw's settings."""
    part = view.part
    for feature in shown:
        match feature:
            case Taper(face=face, narrow=narrow) if narrow != view.face:
                yield f"Taper {notation.angle(feature.angle)} off the {edge_words(part, face)}"
            case Mitre(end=end):
                setting = setting_words(part, feature, notation)
                yield f"{edge_words(part, end).capitalize()} mitered: {setting} off square"
            case CompoundMitre(end=end, also_short=also) if view.face == OPPOSITE[also]:
                setting = setting_words(part, feature, notation)
                yield f"{edge_words(part, end).capitalize()} mitered: {setting}, both off square"
            case Bevel(edge=edge):
                setting = setting_words(part, feature, notation)
                yield f"{edge_words(part, edge).capitalize()} beveled: {setting}"
            case _:
                continue


def face_words(part: Part, face: Face) -> str:
    """What a face is called on the drawing: "Top face", or "Bottom end" where the grain runs into it."""
    kind = "end" if AXIS_OF[face] == part.grain else "face"
    return f"{face.capitalize()} {kind}"


def edge_words(part: Part, face: Face) -> str:
    """What an edge or end is called: ends are those the grain runs into; "hinge edge" where hinge cups lie along it."""
    called = "hinge" if face == hinge_edge(part) else face
    return f"{called} {'end' if AXIS_OF[face] == part.grain else 'edge'}"
