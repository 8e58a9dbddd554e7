"""One face of a part on paper with all that is marked on it, and its caption."""

from plankit.drawing.below import wrapped
from plankit.drawing.edge_names import side_names
from plankit.drawing.occupied import Occupied
from plankit.drawing.part_face import PartFace
from plankit.drawing.part_leaders import SIZE, leaders, standing
from plankit.drawing.part_notes import edge_words, face_words
from plankit.drawing.part_numbers import numbers
from plankit.drawing.part_surface import banding_lines, datum_corner, grain_arrow, plain_face
from plankit.drawing.primitives import Primitive, Text, bounds

_LINE = 3.6
"""From one line of a caption to the next, in mm."""
_NARROW = 52.0
"""How wide the caption of a standing face may be, in mm."""


def face_items(face: PartFace, *, first: bool, grain: bool) -> tuple[Primitive, ...]:
    """One face with everything that is marked on it.

    first  whether it is the first of its drawing, which shows the banding
    grain  whether it shows the way of the grain
    """
    base, counted = plain_face(face), numbers(face)
    edges = tuple(banding_lines(face)) if first else ()
    notes = leaders(face, (*base, *edges, *counted))
    taken = Occupied()
    taken.add((*base, *counted, *edges, *notes, *datum_corner(face)))
    named = side_names(face.box, face.names, taken, face.at_corner)
    arrow = grain_arrow(face, taken) if grain else ()
    drawn = (*base, *counted, *edges, *notes, *named, *arrow, *datum_corner(face))
    above = min(face.box[1], bounds((*edges, *notes, *named, *base, *counted))[1])
    lines = caption(face)
    said = [
        Text((face.box[0], above - 2.0 - _LINE * (len(lines) - 1 - row)), line, SIZE)
        for row, line in enumerate(lines)
    ]
    return (*drawn, *said)


def caption(face: PartFace) -> list[str]:
    """What stands over a face: which one it is, which way up, and how the saw is set for it."""
    view = face.view
    said = [f"{face.called or face_words(view.part, view.face)}, {edge_words(view.part, view.above)} up"]
    if view.face == "back":
        said.append(f"turned round: its {edge_words(view.part, view.left)} is at the left")
    said.extend(dict.fromkeys(face.marks.said))
    return [line for one in said for line in wrapped(one, _NARROW)] if standing(face) else said
