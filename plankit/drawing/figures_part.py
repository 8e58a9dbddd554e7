"""Marking-out drawings: faces to scale, every place measured from one corner, waste hatched and crossed."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from plankit.drawing.mirror_image import turn_to
from plankit.drawing.part_faces import FaceView, banded, datum_of, faces_shown
from plankit.drawing.part_items import PartFace, face_items, mirrored_face
from plankit.drawing.part_marks import marks_on
from plankit.drawing.part_notes import face_words
from plankit.drawing.part_words import eased_lines, first_words, part_words
from plankit.drawing.placing import framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import Figure, Primitive, Text, bounds, moved
from plankit.drawing.sawn_words import point_words
from plankit.drawing.words import capital, unit_note
from plankit.parts import AXES, Axis, Notch, Part, slants_of
from plankit.units import Notation

WIDE, HIGH = 112.0, 92.0
"""Room for the faces themselves, in mm; dimensions and words come on top."""
BETWEEN = 5.0


def part_drawing(  # noqa: PLR0917 - all that a part's drawing says
    part: Part, label: str, count_text: str, notation: Notation, other: Part | None = None, name: str = ""
) -> Figure:
    """How to mark out one kind of part.

    label       the part's letter
    count_text  how many are made ("4: 2 of each hand")
    other       one of its mirror images; where there is one, the pair is drawn
    name        what the whole group is called ("Side / Divider"); the part's own name if left out
    """
    named = _Named(label, name or part.name, count_text)
    part = replace(part, leans=())  # it is marked out on the bench, before it leans with its group
    other = replace(other, leans=()) if other is not None else None
    return on_the_page(lambda room: _drawn(part, named, notation, other, room))


@dataclass(frozen=True, slots=True)
class _Named:
    """What a drawing says of the group of parts it stands for: label, name, how many are made."""

    label: str
    name: str
    count: str


def _drawn(part: Part, named: _Named, notation: Notation, other: Part | None, room: float) -> Figure:
    views = faces_shown(part)
    columns = 2 if room < 0.8 and other is None and len(views) > 2 else 1
    scale, beside = _scale(views, notation.unit, room / columns, pair=other is not None)
    faces = _faces(part, notation, 1.0 / scale)
    items = _columns(faces, columns)
    if other is not None:
        items = _with_mirror(items, faces, other, beside=beside)
    left, top, _, bottom = bounds(items)
    head: tuple[Primitive, ...] = (
        Text((left, top - 8.0), f"{named.label}\u00a0 {named.name}", 10.0, bold=True),
        Text((left, top - 3.8), f"{named.count}. {_stock_words(part, views, notation)}", 8.0),
    )
    tail = [
        Text((left, bottom + 5.0 + 3.8 * row), line, 8.0)
        for row, line in enumerate(_foot(part, scale, notation))
    ]
    title = f"Part {named.label}, {named.name}: marking out"
    said = _words(part, named, notation, other)
    return framed(f"part-{named.label.lower()}", (*head, *items, *tail), title, said)


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


def _scale(views: Sequence[FaceView], unit: str, room: float, *, pair: bool) -> tuple[int, bool]:
    """One scale for every face, and whether a mirror image stands beside the faces or below them."""
    wide, high = max(view.wide for view in views), sum(view.high for view in views)
    if not pair:
        return ratio(unit, wide, high, WIDE * room, HIGH * room), False
    beside = ratio(unit, wide, high, (WIDE / 2 - 2.0) * room, HIGH * room)
    below = ratio(unit, wide, high * 2, WIDE * room, (HIGH - 10.0) * room)
    return (beside, True) if beside <= below else (below, False)


def _stock_words(part: Part, views: Sequence[FaceView], notation: Notation) -> str:
    """The stock, and the one size that no view shows."""
    shown = {axis for view in views for axis in (view.across, view.upright)}
    missing = [axis for axis in AXES if axis not in shown]
    called = {part.grain: "long", part.across: "wide", part.through: "thick"}
    sizes = ", ".join(f"{notation.bare(part.box.extent(axis))} {called[axis]}" for axis in missing)
    return f"{part.stock.name}, {sizes}" if sizes else part.stock.name


def _faces(part: Part, notation: Notation, scale: float) -> tuple[PartFace, ...]:
    """The faces of a part, each knowing which outside sizes were given before it."""
    datum = datum_of(part)
    found: list[PartFace] = []
    sized: set[Axis] = set()
    for view in faces_shown(part):
        marks = marks_on(view, notation)
        found.append(PartFace(view, view.placing(scale, 0.0, 0.0), datum, marks, notation, frozenset(sized)))
        sized |= {view.across, view.upright}
    return tuple(found)


def _columns(faces: Sequence[PartFace], columns: int) -> tuple[Primitive, ...]:
    """The faces in one column, or in two where one would be too long for the page."""
    if columns == 1:
        return _column(faces)
    half = (len(faces) + 1) // 2
    first, second = _column(faces[:half]), _column(faces[half:], first=half)
    to_right, to_down = bounds(first)[2] + 8.0 - bounds(second)[0], bounds(first)[1] - bounds(second)[1]
    return *first, *(moved(item, to_right, to_down) for item in second)


def _column(faces: Sequence[PartFace], first: int = 0) -> tuple[Primitive, ...]:
    """The faces one below the other, their datum ends in line."""
    items: list[Primitive] = []
    for number, face in enumerate(faces, first):
        drawn = face_items(face, first=number == 0)
        items.extend(_under(items, drawn))
    return tuple(items)


def _under(items: Sequence[Primitive], drawn: Sequence[Primitive]) -> list[Primitive]:
    """What is drawn, moved below what is there already."""
    down = bounds(items)[3] + BETWEEN - bounds(drawn)[1] if items else 0.0
    return [moved(item, 0.0, down) for item in drawn]


def _with_mirror(
    items: tuple[Primitive, ...], faces: Sequence[PartFace], other: Part, *, beside: bool
) -> tuple[Primitive, ...]:
    """A pair: the part with its numbers, and its mirror image beside or below, which has the same numbers."""
    mirror: list[Primitive] = []
    turn = turn_to(faces[0].view.part, other)
    for number, face in enumerate(faces):
        mirror.extend(_under(mirror, mirrored_face(face, other, turn, first=number == 0)))
    left, top, right, bottom = bounds(items)
    across, down, _, _ = bounds(mirror)
    to_right = (right + 9.0 - across) if beside else 0.0
    to_down = (top + 3.5 - down) if beside else (bottom + 10.0 - down)
    placed = [moved(item, to_right, to_down) for item in mirror]
    edge, level, _, _ = bounds(placed)
    heading = Text((edge, level - 2.0), "Mirror image: same numbers", 8.5, bold=True)
    return (Text((left, top - 2.0), "As drawn", 8.5, bold=True), *items, *placed, heading)


def _words(part: Part, named: _Named, notation: Notation, other: Part | None) -> str:
    size = notation.size_both(part.length, part.width, part.thickness)
    said = f"Marking-out drawing of part {named.label}, {named.name}. {named.count}. {size} of {part.stock.name}."
    done = part_words(part, notation)
    if done:
        said += f" {capital(done)}."
    if other is not None:
        said += " Its mirror image is drawn with it."
    faces = ", ".join(face_words(part, view.face).lower() for view in faces_shown(part))
    waste = any(isinstance(feature, Notch) for feature in part.features) or bool(slants_of(part))
    return said + f" Faces drawn: {faces}." + (" Waste is hatched and crossed." if waste else "")
