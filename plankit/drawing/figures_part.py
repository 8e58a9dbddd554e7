"""Marking-out drawings: faces to scale, every place measured from one corner, waste hatched and crossed.

Faces are drawn the way up they have in the finished piece; both hands of a part are drawn with their sizes.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from plankit.drawing.below import wrapped
from plankit.drawing.metrics import text_width
from plankit.drawing.mirror_image import turn_to
from plankit.drawing.part_arranged import Arranged, arranged
from plankit.drawing.part_face import PartFace
from plankit.drawing.part_faces import FaceView, banded, datum_of, face_view, faces_shown
from plankit.drawing.part_items import face_items
from plankit.drawing.part_marks import marks_on
from plankit.drawing.part_notes import face_words
from plankit.drawing.part_words import eased_lines, first_words, part_words
from plankit.drawing.placing import TooLarge, framed, on_the_page, scale_words
from plankit.drawing.primitives import Bounds, Figure, Primitive, Text, bounds, moved
from plankit.drawing.sawn_words import point_words
from plankit.drawing.words import capital, unit_note, within
from plankit.errors import PlanError
from plankit.parts import AXES, Axis, Face, Notch, Part, slants_of
from plankit.units import Notation

_SHRUNK = 2.5
"""Both hands are drawn unless that makes them so many times as small as one alone."""
BETWEEN = 5.0
"""From one face to the next, in mm."""


def part_drawing(  # noqa: PLR0917 - all that a part's drawing says
    part: Part, label: str, count_text: str, notation: Notation, other: Part | None = None, name: str = "",
    inner: Face | None = None,
) -> Figure:  # fmt: skip
    """How to mark out one kind of part.

    label       the part's letter
    count_text  how many are made ("4: 2 of each hand")
    other       one of its mirror images; where there is one, the pair is drawn
    name        what the whole group is called ("Side / Divider"); the part's own name if left out
    inner       the part's face that looks inwards where it is another one in others of the group
    """
    named = _Named(label, name or part.name, count_text, inner)
    part = replace(part, leans=())  # it is marked out on the bench, before it leans with its group
    other = replace(other, leans=()) if other is not None else None
    if other is not None:
        try:
            return on_the_page(lambda room: _drawn(part, named, notation, other, room))
        except TooLarge:
            named = replace(named, count=f"{named.count}. Drawn: one hand; the other is its mirror image")
    try:
        return on_the_page(lambda room: _drawn(part, named, notation, None, room))
    except TooLarge:
        raise PlanError(
            "more is done to it than one drawing has room for.",
            where=part.name,
            given=f"{len(part.features)} cuts and holes on {len(faces_shown(part))} faces",
            remedy="Say rows of holes in one line (part.bore_row), bore from fewer faces, or make it of two parts.",
        ) from None


@dataclass(frozen=True, slots=True)
class _Named:
    """What a drawing says of the group of parts it stands for: label, name, how many are made, which face is inner."""

    label: str
    name: str
    count: str
    inner: Face | None = None


def _drawn(part: Part, named: _Named, notation: Notation, other: Part | None, room: float) -> Figure:
    views = faces_shown(part)
    hands = [(part, views)] if other is None else [(part, views), (other, _mirrored(part, views, other))]
    lay = arranged([_faces(*hand, notation, 1.0, named) for hand in hands], notation.unit, room)
    if other is not None:
        alone = arranged([_faces(part, views, notation, 1.0)], notation.unit, 1.0)
        if lay.scale > _SHRUNK * alone.scale:
            raise TooLarge("Both hands with their words leave the faces next to no room.", where=named.label)
    blocks = [_grid(_faces(*hand, notation, 1.0 / lay.scale, named), lay) for hand in hands]
    items = blocks[0] if len(blocks) == 1 else _as_pair(blocks[0], blocks[1], beside=lay.beside)
    left, top, _, bottom = bounds(items)
    head: tuple[Primitive, ...] = (
        Text((left, top - 8.0), f"{named.label}\u00a0 {named.name}", 10.0, bold=True),
        Text((left, top - 3.8), f"{named.count}. {_stock_words(part, views, notation)}", 8.0),
    )
    tail = [
        Text((left, bottom + 5.0 + 3.8 * row), line, 8.0)
        for row, line in enumerate(_wrapped(_foot(part, lay.scale, notation), bounds((*head, *items))))
    ]
    title = f"Part {named.label}, {named.name}: marking out"
    said = _words(part, named, notation, other)
    return framed(f"part-{named.label.lower()}", (*head, *items, *tail), title, said)


def _wrapped(said: Sequence[str], over: Bounds) -> list[str]:
    """Sentences in lines no longer than the drawing is wide, or than its first sentence."""
    most = max(over[2] - over[0], text_width(said[0], 8.0))
    return [line for sentence in said for line in wrapped(sentence, most)]


def _foot(part: Part, scale: int, notation: Notation) -> list[str]:
    """What stands below the drawing: scale, unit, where measures start, what a chain line means."""
    said = [f"{scale_words(scale)}. {unit_note(notation)}, measured from the black corner."]
    edges = banded(part)
    if edges:
        optional = all(banding.optional for banding in edges)
        said.append(f"Chain line: banding{', optional' if optional else ''}.")
    points = point_words(part, notation)
    lengths = [f"Length: {points}."] if points else []
    return [*said, *lengths, *eased_lines(part, notation), *first_words(part, notation)]


def _stock_words(part: Part, views: Sequence[FaceView], notation: Notation) -> str:
    """The stock, and the one size that no view shows."""
    shown = {axis for view in views for axis in (view.across, view.upright)}
    missing = [axis for axis in AXES if axis not in shown]
    called = {part.grain: "long", part.across: "wide", part.through: "thick"}
    sizes = ", ".join(f"{notation.bare(part.box.extent(axis))} {called[axis]}" for axis in missing)
    return f"{part.stock.name}, {sizes}" if sizes else part.stock.name


def _mirrored(part: Part, views: Sequence[FaceView], other: Part) -> tuple[FaceView, ...]:
    """The faces of the other hand that are worked on as these are, in the same order."""
    turn = turn_to(part, other)
    return faces_shown(other) if turn is None else tuple(face_view(other, turn.face(view.face)) for view in views)


def _faces(
    part: Part, views: Sequence[FaceView], notation: Notation, scale: float, named: _Named | None = None
) -> tuple[PartFace, ...]:
    """The faces of a part, each knowing which outside sizes were given before it."""
    datum = datum_of(part)
    inner_called = f"Inner face of the {within(part.name)}" if named and named.name != part.name else "Inner face"
    inner = named.inner if named else None
    found: list[PartFace] = []
    sized: set[Axis] = set()
    for view in views:
        marks = marks_on(view, notation)
        called = inner_called if view.face == inner else ""
        placing = view.placing(scale, 0.0, 0.0)
        found.append(PartFace(view, placing, datum, marks, notation, frozenset(sized), called))
        sized |= {view.across, view.upright}
    return tuple(found)


def _grid(faces: Sequence[PartFace], lay: Arranged) -> tuple[Primitive, ...]:
    """The faces side by side in rows, their upper edges in line, or one below the other, their left ends in line."""
    grained = [face.view.part.grain in {face.view.across, face.view.upright} for face in faces]
    drawn = [
        face_items(face, first=number == 0, grain=grained[number] and not any(grained[:number]))
        for number, face in enumerate(faces)
    ]
    items: list[Primitive] = []
    for start in range(0, len(faces), lay.columns):
        items.extend(_under(items, _row(drawn[start : start + lay.columns])))
    return tuple(items)


def _row(drawn: Sequence[Sequence[Primitive]]) -> tuple[Primitive, ...]:
    """Faces side by side."""
    items = list(drawn[0])
    for one in drawn[1:]:
        over = bounds(items)[2] + BETWEEN - bounds(one)[0]
        items.extend(moved(item, over, 0.0) for item in one)
    return tuple(items)


def _under(items: Sequence[Primitive], drawn: Sequence[Primitive]) -> list[Primitive]:
    """What is drawn, moved below what is there already."""
    down = bounds(items)[3] + BETWEEN - bounds(drawn)[1] if items else 0.0
    return [moved(item, 0.0, down) for item in drawn]


def _as_pair(one: Sequence[Primitive], other: Sequence[Primitive], *, beside: bool) -> tuple[Primitive, ...]:
    """Both hands, each with its sizes and under a heading of its own, side by side or one below the other."""
    items, mirror = _headed("As drawn", one), _headed("Mirrored: the other hand, same sizes", other)
    left, top, right, bottom = bounds(items)
    across, down, _, _ = bounds(mirror)
    to_right, to_down = (right + 9.0 - across, top - down) if beside else (left - across, bottom + BETWEEN - down)
    return *items, *(moved(item, to_right, to_down) for item in mirror)


def _headed(heading: str, items: Sequence[Primitive]) -> tuple[Primitive, ...]:
    left, top, _, _ = bounds(items)
    return Text((left, top - 2.0), heading, 8.5, bold=True), *items


def _words(part: Part, named: _Named, notation: Notation, other: Part | None) -> str:
    size = notation.size_both(part.length, part.width, part.thickness)
    said = f"Marking-out drawing of part {named.label}, {named.name}. {named.count}. {size} of {part.stock.name}."
    done = part_words(part, notation)
    if done:
        said += f" {capital(done)}."
    if other is not None:
        said += " Its mirror image, the other hand, is drawn with it, with the same sizes."
    shown = [view.face for view in faces_shown(part)]
    faces = ", ".join("inner face" if face == named.inner else face_words(part, face).lower() for face in shown)
    waste = any(isinstance(feature, Notch) for feature in part.features) or bool(slants_of(part))
    return said + f" Faces drawn: {faces}." + (" Waste is hatched and crossed." if waste else "")
