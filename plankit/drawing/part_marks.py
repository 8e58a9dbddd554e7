"""What has to be marked on one face of a part: places from the datum, waste, and what is said beside it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from plankit.drawing.part_faces import Datum, FaceView
from plankit.drawing.words import because
from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    LOW,
    Axis,
    Bore,
    Box,
    Face,
    Feature,
    Groove,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Taper,
)
from plankit.parts.features import POCKET_DIAMETER
from plankit.parts.solid import pocket_entry
from plankit.units import Angle, Length, Notation

type Spot = tuple[Length, Length]
"""Distances from the part's lower ends: along the page's across axis, along its upright axis."""


@dataclass(frozen=True, slots=True)
class Note:
    """Words with a leader to a place on the face; `reach` is how far the hole extends round it, in mm."""

    spot: Spot
    text: str
    reach: float = 0.0


@dataclass(frozen=True, slots=True)
class Setback:
    """How far in a sloping cut ends where it takes most: between two places on one line."""

    first: Spot
    second: Spot
    length: Length
    upright: bool


@dataclass(frozen=True, slots=True)
class Marks:
    """Everything marked on one face.

    across, upright  distances from the part's lower ends that lines or middles lie at
    waste            outlines of what is sawn off;  centres: middles of holes
    setbacks         amounts of tapers and mitres;  notes: words with leaders;  said: words under the caption
    """

    across: tuple[Length, ...]
    upright: tuple[Length, ...]
    waste: tuple[tuple[Spot, ...], ...]
    centres: tuple[Spot, ...]
    setbacks: tuple[Setback, ...]
    notes: tuple[Note, ...]
    said: tuple[str, ...]


def marks_on(view: FaceView, datum: Datum, notation: Notation) -> Marks:
    """What a maker marks on this face, in the part's own measures."""
    part = view.part
    shown = [feature for feature in part.features if _shows(view, feature)]
    across: list[Length] = []
    upright: list[Length] = []
    for feature in shown:
        for axis, offset in _offsets(view, feature):
            (across if axis == view.across else upright).append(offset)
    return Marks(
        _inside(part, view.across, across),
        _inside(part, view.upright, upright),
        tuple(outline for feature in shown for outline in _waste(view, feature)),
        tuple(_spot(view, feature.at) for feature in shown if isinstance(feature, Bore)),
        tuple(setback for feature in shown for setback in _setbacks(view, feature)),
        tuple(_notes(view, shown, notation)),
        tuple(_said(view, shown, datum, notation)),
    )


def _shows(view: FaceView, feature: Feature) -> bool:
    """Whether this face is where a feature is marked."""
    normal = AXIS_OF[view.face]
    match feature:
        case Bore(face=face) | Groove(face=face) | PocketHoles(face=face):
            return face == view.face
        case Taper(narrow=narrow) if narrow == view.face:
            return True
        case Taper(face=one, narrow=two) | Mitre(end=one, short=two):
            return normal not in {AXIS_OF[one], AXIS_OF[two]}
        case Notch(cut=cut):
            index = AXES.index(normal)
            low, high = cut.mm()
            at_low, at_high = low[index] <= 1e-6, high[index] >= float(view.part.box.extent(normal).mm) - 1e-6
            return (at_high if view.face == HIGH[normal] else at_low) or (at_low and at_high)
        case _:
            return False


def _offsets(view: FaceView, feature: Feature) -> Iterator[tuple[Axis, Length]]:
    """The distances from the part's lower ends that a feature is marked at."""
    part = view.part
    match feature:
        case Bore(at=at):
            yield from ((axis, at[AXES.index(axis)]) for axis in (view.across, view.upright))
        case PocketHoles(places=places):
            yield from ((feature.along, place) for place in places)
        case Notch(cut=cut) | Groove(cut=cut):
            for axis in (view.across, view.upright):
                yield from ((axis, cut.low(axis)), (axis, cut.high(axis)))
        case Taper(face=face, narrow=narrow, amount=amount) if narrow == view.face:
            yield _from_end(part, face, amount)
        case Taper(narrow=narrow, run=run):
            yield _from_end(part, narrow, run)
        case Mitre():
            return
        case _:
            return


def _from_end(part: Part, end: Face, far: Length) -> tuple[Axis, Length]:
    axis = AXIS_OF[end]
    return axis, far if end == LOW[axis] else part.box.extent(axis) - far


def _inside(part: Part, axis: Axis, offsets: Iterable[Length]) -> tuple[Length, ...]:
    """Distances that are not at an end, each once, ascending."""
    kept = {offset.mm: offset for offset in offsets if 0 < offset.mm < part.box.extent(axis).mm}
    return tuple(kept[mm] for mm in sorted(kept))


def _waste(view: FaceView, feature: Feature) -> Iterator[tuple[Spot, ...]]:
    match feature:
        case Taper(face=face, narrow=narrow, amount=amount) if narrow == view.face:
            yield _strip(view, face, amount)
        case Taper(face=face, narrow=narrow, amount=amount, run=run):
            yield _triangle(view, face, narrow, amount, run)
        case Mitre(end=end, short=short, setback=setback):
            yield _triangle(view, end, short, setback, view.part.box.extent(AXIS_OF[short]))
        case Notch(cut=cut):
            yield _rectangle(view, cut)
        case _:
            return


def _triangle(view: FaceView, face: Face, towards: Face, amount: Length, run: Length) -> tuple[Spot, ...]:
    """What a sloping cut takes off `face`: nothing at `run` from `towards`, `amount` there."""
    part = view.part
    surface, end = _end(part, face), _end(part, towards)
    start = _from_end(part, towards, run)[1]
    deep = _from_end(part, face, amount)[1]
    along = AXIS_OF[towards]
    return tuple(
        _ordered(view, along, one, two) for one, two in ((start, surface), (end, surface), (end, deep))
    )


def _strip(view: FaceView, face: Face, amount: Length) -> tuple[Spot, ...]:
    """What tapers take off the end grain at the narrow end."""
    axis = AXIS_OF[face]
    other = view.upright if axis == view.across else view.across
    surface, deep, whole = (
        _end(view.part, face),
        _from_end(view.part, face, amount)[1],
        view.part.box.extent(other),
    )
    ends = ((surface, Length.zero()), (surface, whole), (deep, whole), (deep, Length.zero()))
    return tuple(_ordered(view, axis, one, two) for one, two in ends)


def _ordered(view: FaceView, axis: Axis, on_axis: Length, on_other: Length) -> Spot:
    return (on_axis, on_other) if axis == view.across else (on_other, on_axis)


def _end(part: Part, face: Face) -> Length:
    axis = AXIS_OF[face]
    return part.box.extent(axis) if face == HIGH[axis] else Length.zero()


def _rectangle(view: FaceView, cut: Box) -> tuple[Spot, ...]:
    a, b = view.across, view.upright
    return (
        (cut.low(a), cut.low(b)),
        (cut.high(a), cut.low(b)),
        (cut.high(a), cut.high(b)),
        (cut.low(a), cut.high(b)),
    )


def _setbacks(view: FaceView, feature: Feature) -> Iterator[Setback]:
    match feature:
        case Taper(narrow=narrow) if narrow == view.face:
            return
        case Taper(face=face, amount=amount) | Mitre(end=face, setback=amount):
            _, end, deep = next(_waste(view, feature))
            yield Setback(end, deep, amount, AXIS_OF[face] == view.upright)
        case _:
            return


def _spot(view: FaceView, at: tuple[Length, Length, Length]) -> Spot:
    return at[AXES.index(view.across)], at[AXES.index(view.upright)]


def _notes(view: FaceView, shown: Iterable[Feature], notation: Notation) -> Iterator[Note]:
    """One note for each kind of hole or cut, its leader to the first of them."""
    found: dict[str, list[tuple[Spot, float]]] = {}
    for feature in shown:
        if isinstance(feature, Bore):
            wide = float(max(feature.diameter.mm, feature.countersink.mm if feature.countersink else 0)) / 2
            found.setdefault(_bore_words(feature, notation), []).append((_spot(view, feature.at), wide))
        elif isinstance(feature, PocketHoles):
            many = "pocket hole, screw" if len(feature.places) == 1 else "pocket holes, screws"
            words = f"{many} out of the {edge_words(view.part, feature.end)}"
            reach = float(POCKET_DIAMETER.mm) / 2
            found.setdefault(words, []).extend((spot, reach) for spot in _pocket_spots(view, feature))
        elif isinstance(feature, Groove | Notch) and (words := _cut_words(view, feature, notation)):
            middle = (feature.cut.middle(view.across), feature.cut.middle(view.upright))
            found.setdefault(words, []).append((middle, 0.0))
    for words, spots in found.items():
        first, reach = min(spots, key=lambda at: (_down(view, at[0]), at[0][0].mm))
        yield Note(first, f"{len(spots)} × {words}" if len(spots) > 1 else words, reach)


def _down(view: FaceView, spot: Spot) -> float:
    """How far below the upper edge of the view a place lies."""
    return -float(spot[1].mm) if view.below == LOW[view.upright] else float(spot[1].mm)


def drill_words(length: Length, notation: Notation) -> str:
    """A drill's size as it is stamped: exact fractions of an inch, or millimetres."""
    return notation.exact(length).removesuffix(" in") if notation.unit == "in" else notation.bare(length)


def _bore_words(bore: Bore, notation: Notation) -> str:
    """What is said of a hole: diameter, slot, depth, countersink."""
    drill = "⌀" + drill_words(bore.diameter, notation)
    if bore.travel is not None:
        said = f"slot {drill}, end holes {notation.bare(bore.travel)} apart"
        said += "" if bore.depth is None else f", {notation.bare(bore.depth)} deep"
    else:
        said = f"{drill} through" if bore.depth is None else f"{drill}, {notation.bare(bore.depth)} deep"
    if bore.countersink is not None:
        said += f", countersink ⌀{drill_words(bore.countersink, notation)}"
    return said


def _cut_words(view: FaceView, feature: Groove | Notch, notation: Notation) -> str:
    axis = AXIS_OF[view.face]
    deep = feature.cut.extent(axis)
    said = because(feature.reason)
    if deep < view.part.box.extent(axis):
        return ", ".join(words for words in (f"{notation.bare(deep)} deep", said) if words)
    return said


def _pocket_spots(view: FaceView, holes: PocketHoles) -> list[Spot]:
    """Where the middles of the pockets meet the face."""
    inwards = Length.of_mm(round(pocket_entry(float(view.part.box.extent(AXIS_OF[holes.face]).mm))))
    axis, at = _from_end(view.part, holes.end, inwards)
    return [_ordered(view, axis, at, place) for place in holes.places]


def _said(view: FaceView, shown: Iterable[Feature], datum: Datum, notation: Notation) -> Iterator[str]:
    for feature in shown:
        if isinstance(feature, Taper) and feature.narrow != view.face:
            yield f"Taper {notation.angle(feature.angle)} off the {edge_words(view.part, feature.face)}"
        elif isinstance(feature, Mitre):
            across = view.part.box.extent(AXIS_OF[feature.short])
            setting = notation.angle(Angle.of_slope(feature.setback, across))
            yield f"{edge_words(view.part, feature.end).capitalize()} mitered, {setting} off square"


def face_words(part: Part, face: Face) -> str:
    """What a face is called on the drawing: "Top face", or "Bottom end" where the grain runs into it."""
    kind = "end" if AXIS_OF[face] == part.grain else "face"
    return f"{face.capitalize()} {kind}"


def edge_words(part: Part, face: Face) -> str:
    """What an edge or end is called: ends are those the grain runs into."""
    return f"{face} {'end' if AXIS_OF[face] == part.grain else 'edge'}"
