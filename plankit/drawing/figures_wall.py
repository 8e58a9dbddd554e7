"""The wall that a piece hangs on, from the front: its studs, what is screwed to them, and every screw."""

from collections.abc import Sequence

from plankit.build import Build, alike
from plankit.build.wall import Wall
from plankit.drawing import dimension as dim
from plankit.drawing.below import sentences_below
from plankit.drawing.placing import Placing, framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import Area, Figure, Line, Mark, Point, Primitive, Ring, Text
from plankit.drawing.words import count_word, sentence, unit_note
from plankit.parts import Box, Part
from plankit.units import Length, Notation

WIDE, TALL = 110.0, 95.0
_SCREW = 2.4
_LETTER = 9.0


def wall_drawing(build: Build, notation: Notation) -> Figure:
    """The wall behind a piece, to scale: stud lines, the outline of the piece, what is screwed to the studs.

    raises  ValueError for a build that hangs on no wall, or that nothing holds there
    """
    if build.wall is None or not build.wall.screws:
        raise ValueError(f"{build.name} is screwed to no wall")
    drawn = _Drawn(build, build.wall, notation)
    return on_the_page(drawn.figure)


class _Drawn:
    """One drawing of a wall, and the scale it is drawn at."""

    def __init__(self, build: Build, wall: Wall, notation: Notation) -> None:
        self.build, self.wall, self.notation = build, wall, notation
        ids = dict.fromkeys(screw.part for screw in wall.screws)
        self.held = [build.part(one) for one in ids]
        box = build.box
        low, high = wall.wide + wall.wide, wall.apart.portion(2)
        self.studs = wall.studs(box.left - high, box.right + high)
        self.low, self.high = box.bottom - low, box.top + low
        self.placing = Placing(1.0)
        self.number = 1

    def figure(self, room: float) -> Figure:
        """Draw it in a share of the room that there is."""
        ends = [*(one.mm for one in self.studs), self.build.box.left.mm, self.build.box.right.mm]
        wide, high = float(max(ends) - min(ends)), float((self.high - self.low).mm)
        self.number = ratio(self.notation.unit, wide, high, WIDE * room, TALL * room)
        self.placing = Placing(1.0 / self.number)
        shapes = [*self._stud_lines(), *self._piece(), *self._boards(), *self._screws()]
        sizes = [*self._along(), *self._upwards(), *self._spacing()]
        items = [*shapes, *sizes]
        return framed("wall", (*items, *self._below(items)), self._title(), self._description())

    def _at(self, x: Length, z: Length) -> Point:
        return self.placing.at((float(x.mm), -float(z.mm)))

    def _ring(self, box: Box) -> Ring:
        corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
        return tuple(self._at(x, z) for x, z in corners)

    def _stud_lines(self) -> list[Primitive]:
        """Both edges of each stud, dashed, and its middle."""
        half = self.wall.wide.portion(2)
        found: list[Primitive] = []
        for middle in self.studs:
            for at, kind in ((middle - half, "hidden"), (middle + half, "hidden"), (middle, "centre")):
                found.append(Line((self._at(at, self.high), self._at(at, self.low)), kind))  # type: ignore[arg-type]
        return found

    def _piece(self) -> list[Primitive]:
        """The outline of the whole piece, lightly: it hangs before what is screwed to the wall."""
        ring = self._ring(self.build.box)
        return [Line((*ring, ring[0]), "receding")]

    def _boards(self) -> list[Primitive]:
        letters = {part.id: group.label for group in alike(self.build) for part in (*group.parts, *group.other)}
        found: list[Primitive] = []
        for part in self.held:
            ring = self._ring(part.box)
            found += [Area((ring,), "arriving"), Line((*ring, ring[0]), "outline")]
            found.append(self._letter(part, letters[part.id]))
        return found

    def _letter(self, part: Part, letter: str) -> Text:
        """The part's label between two of its screws, where no stud line runs."""
        own = sorted(screw.at.x.mm for screw in self.wall.screws if screw.part == part.id)
        middle = (own[0] + part.box.left.mm) / 2
        x, y = self._at(Length.of_mm(middle), part.box.middle("z"))
        return Text((x, y + 1.2), letter, _LETTER, "middle", bold=True)

    def _screws(self) -> list[Primitive]:
        return [Mark(self._at(screw.at.x, screw.at.z), "screw", _SCREW) for screw in self.wall.screws]

    def _along(self) -> list[Primitive]:
        """Each screw, counted from the left end of the piece, as one hooks a tape."""
        box = self.build.box
        y = self._at(box.left, self.low)[1]
        origin = (self._at(box.left, box.bottom)[0], y)
        across = {screw.at.x.mm: screw.at.x for screw in self.wall.screws}
        places = tuple(
            ((self._at(across[mm], self.low)[0], y), self.notation.bare(across[mm] - box.left)) for mm in sorted(across)
        )
        return list(dim.running(dim.Running(origin, places, (1.0, 0.0), (0.0, 1.0), 4.0)))

    def _upwards(self) -> list[Primitive]:
        """Each row of screws, and the edges of what they hold, counted from the piece's lower edge."""
        box = self.build.box
        x = max(self._at(box.right, box.top)[0], self._at(self.studs[-1] + self.wall.wide, box.top)[0])
        found = {screw.at.z.mm: screw.at.z for screw in self.wall.screws}
        found |= {part.box.top.mm: part.box.top for part in self.held}
        origin = (x, self._at(box.left, box.bottom)[1])
        heights = [found[mm] for mm in sorted(found) if mm > box.bottom.mm]
        places = tuple(((x, self._at(box.left, z)[1]), self.notation.bare(z - box.bottom)) for z in heights)
        return list(dim.running(dim.Running(origin, places, (0.0, -1.0), (1.0, 0.0), 4.0)))

    def _spacing(self) -> list[Primitive]:
        """From the middle of one stud to the middle of the next, above."""
        if len(self.studs) < 2:
            return []
        one, two = (self._at(at, self.high) for at in self.studs[:2])
        asked = dim.Dimension(one, two, (1.0, 0.0), (0.0, -1.0), 5.0, self.notation.bare(self.wall.apart))
        return list(dim.drawn(asked))

    def _below(self, items: Sequence[Primitive]) -> list[Text]:
        said = [
            f"{scale_words(self.number)}. {unit_note(self.notation)}.",
            "Dashed: studs. Find yours first: they may stand elsewhere.",
            "0: the piece's left end, and its lower edge.",
        ]
        return sentences_below(items, said, least=100.0)

    def _title(self) -> str:
        return f"The wall behind the {self.build.name.lower()}"

    def _description(self) -> str:
        said = [
            f"The wall from the front, with studs {self.notation.both(self.wall.apart)} from middle to middle, "
            f"and the outline of {self.build.name}"
        ]
        box = self.build.box
        for part in self.held:
            own = [screw for screw in self.wall.screws if screw.part == part.id]
            across = {screw.at.x.mm: screw.at.x - box.left for screw in own}
            places = ", ".join(self.notation.both(across[mm]) for mm in sorted(across))
            said.append(
                f"{part.name}, its upper edge {self.notation.both(part.box.top - box.bottom)} over the lower edge of "
                f"the piece, is held by {count_word(len(own))} {own[0].spec.name}{'s' * (len(own) > 1)}, "
                f"{places} from the piece's left end"
            )
        return " ".join(sentence(one) for one in said)


__all__ = ["wall_drawing"]
