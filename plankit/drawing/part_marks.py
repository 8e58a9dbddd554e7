"""What has to be marked on one face of a part: places from the datum, waste, and what is said beside it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from plankit.drawing.part_faces import FaceView
from plankit.drawing.part_notes import Note, notes_on, said_of
from plankit.drawing.part_rows import Stepped, left_out, stepped
from plankit.drawing.part_spots import Spot, end_of, from_end, ordered, spot_of
from plankit.drawing.sawn_words import shows
from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    OPPOSITE,
    Axis,
    Bevel,
    Bore,
    Box,
    CompoundMitre,
    Face,
    Feature,
    Groove,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Slope,
    Taper,
    slant_of,
)
from plankit.parts.slants import profile_axes
from plankit.units import Length, Notation


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
    rows             evenly spaced holes, of which `across` and `upright` keep the two ends
    setbacks         amounts of tapers and mitres;  notes: words with leaders;  said: words under the caption
    """

    across: tuple[Length, ...]
    upright: tuple[Length, ...]
    waste: tuple[tuple[Spot, ...], ...]
    centres: tuple[Spot, ...]
    setbacks: tuple[Setback, ...]
    notes: tuple[Note, ...]
    said: tuple[str, ...]
    rows: tuple[Stepped, ...] = ()


def marks_on(view: FaceView, notation: Notation) -> Marks:
    """What a maker marks on this face, in the part's own measures."""
    part = view.part
    shown = [feature for feature in part.features if _shows(view, feature)]
    across: list[Length] = []
    upright: list[Length] = []
    rows = tuple(stepped(part, (view.across, view.upright), shown, notation))
    for feature in shown:
        for axis, offset in _offsets(view, feature):
            if offset.mm not in left_out(rows, axis, feature):
                (across if axis == view.across else upright).append(offset)
    return Marks(
        _inside(part, view.across, across),
        _inside(part, view.upright, upright),
        tuple(outline for feature in shown for outline in _waste(view, feature)),
        tuple(spot_of(view, feature.at) for feature in shown if isinstance(feature, Bore)),
        tuple(one for feature in shown for one in _setbacks(view, feature) if shows(one.length, notation)),
        tuple(notes_on(view, shown, notation)),
        tuple(said_of(view, shown, notation)),
        rows,
    )


def _shows(view: FaceView, feature: Feature) -> bool:
    """Whether this face is where a feature is marked."""
    normal = AXIS_OF[view.face]
    match feature:
        case Bore(face=face) | Groove(face=face) | PocketHoles(face=face):
            return face == view.face
        case Taper(narrow=narrow) if narrow == view.face:
            return True
        case Taper() | Mitre() | Bevel():
            return normal in profile_axes(feature)
        case CompoundMitre(short=short, also_short=also):
            return view.face in {OPPOSITE[short], OPPOSITE[also]}
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
            yield from_end(part, face, amount)
        case Taper(narrow=narrow, run=run):
            yield from_end(part, narrow, run)
        case _:
            return


def _inside(part: Part, axis: Axis, offsets: Iterable[Length]) -> tuple[Length, ...]:
    """Distances that are not at an end, each once, ascending."""
    kept = {offset.mm: offset for offset in offsets if 0 < offset.mm < part.box.extent(axis).mm}
    return tuple(kept[mm] for mm in sorted(kept))


def _waste(view: FaceView, feature: Feature) -> Iterator[tuple[Spot, ...]]:
    match feature:
        case Taper(face=face, narrow=narrow, amount=amount) if narrow == view.face:
            yield _strip(view, face, amount)
        case Taper() | Mitre() | Bevel() | CompoundMitre():
            yield from (_triangle(view, face, slope) for face, slope in _slopes(view, feature))
        case Notch(cut=cut):
            yield _rectangle(view, cut)
        case _:
            return


def _slopes(view: FaceView, feature: Feature) -> Iterator[tuple[Face, Slope]]:
    """The slopes of a slanting cut that one sees on this face, with the face each takes off."""
    slant = slant_of(view.part.box.size, feature)
    if slant is not None:
        yield from (
            (slant.face, slope) for slope in slant.slopes if AXIS_OF[slope.towards] != AXIS_OF[view.face]
        )


def _triangle(view: FaceView, face: Face, slope: Slope) -> tuple[Spot, Spot, Spot]:
    """What a sloping cut takes off a face: nothing at the far end of its run, its whole amount at the near one."""
    part, towards = view.part, slope.towards
    surface, end = end_of(part, face), end_of(part, towards)
    start = from_end(part, towards, slope.run)[1]
    deep = from_end(part, face, slope.amount)[1]
    along = AXIS_OF[towards]
    return (
        ordered(view, along, start, surface),
        ordered(view, along, end, surface),
        ordered(view, along, end, deep),
    )


def _strip(view: FaceView, face: Face, amount: Length) -> tuple[Spot, ...]:
    """What tapers take off the end grain at the narrow end."""
    axis = AXIS_OF[face]
    other = view.upright if axis == view.across else view.across
    surface, deep, whole = (
        end_of(view.part, face),
        from_end(view.part, face, amount)[1],
        view.part.box.extent(other),
    )
    ends = ((surface, Length.zero()), (surface, whole), (deep, whole), (deep, Length.zero()))
    return tuple(ordered(view, axis, one, two) for one, two in ends)


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
        case Taper() | Mitre() | Bevel() | CompoundMitre():
            for face, slope in _slopes(view, feature):
                _, end, deep = _triangle(view, face, slope)
                yield Setback(end, deep, slope.amount, AXIS_OF[face] == view.upright)
        case _:
            return
