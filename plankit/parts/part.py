"""A part: the space it fills, the stock it is made of, and what is done to it."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from plankit.parts.features import Banding, Feature, LeftOn, plainest
from plankit.parts.lean import Leans
from plankit.parts.space import ALL_TURNS, AXES, AXIS_OF, Axis, Box, Size, Turn, mirror_along
from plankit.stock import Lumber, Sheet
from plankit.units import Length

type Kind = Literal["panel", "board", "glue-up"]


@dataclass(frozen=True, slots=True)
class GlueUp:
    """How a wide part is glued up from ripped boards.

    boards   how many
    rip      what each is ripped to before gluing
    length   what each is cut to before gluing
    blank    length, width and thickness of the glued blank, before trimming and flattening
    """

    boards: int
    rip: Length
    length: Length
    blank: Size


@dataclass(frozen=True, slots=True)
class Part:
    """One made thing, where it is in the build.

    id       a short name that no other part has ("side-2")
    name     what the reader calls it ("Side")
    box      its six faces, finished
    grain    the axis its grain (and its length) runs along
    through  the axis of its thickness
    glue_up  how it is glued up; None for a part of one piece
    leans    how it is turned as a whole with its group; its box and its cuts are told before that
    fit_to   what is measured before it is cut to its final size ("between the rails"); "" where nothing is
    spare    how much larger than its nominal size such a part is cut out first; as is usual where it is None
    strip    name of the strip it is cut from, side by side with others, so that the grain runs on; "" for none
    """

    id: str
    name: str
    kind: Kind
    stock: Sheet | Lumber
    box: Box
    grain: Axis
    through: Axis
    features: tuple[Feature, ...] = ()
    glue_up: GlueUp | None = None
    grain_matters: bool = True
    leans: Leans = ()
    fit_to: str = ""
    spare: Length | None = None
    strip: str = ""

    def __hash__(self) -> int:
        """Tell parts apart cheaply, by little of what is in them: much is remembered by its part."""
        return hash((self.id, self.name, len(self.features), self.box.left, self.box.bottom))

    @property
    def across(self) -> Axis:
        """The axis of its width."""
        (axis,) = (axis for axis in AXES if axis not in {self.grain, self.through})
        return axis

    @property
    def length(self) -> Length:
        """Its size along the grain, finished."""
        return self.box.extent(self.grain)

    @property
    def width(self) -> Length:
        """Its size across the grain, finished."""
        return self.box.extent(self.across)

    @property
    def thickness(self) -> Length:
        """Its size through, finished."""
        return self.box.extent(self.through)

    def with_features(self, more: Iterable[Feature]) -> "Part":
        """Return the part with more done to it."""
        return replace(self, features=(*self.features, *more))

    def mirrored(self, axis: Axis, middle: Length, new_id: str) -> "Part":
        """Return the part's mirror image in the plane across `axis` at `middle`."""
        features = tuple(f.turned(mirror_along(axis), self.box.size) for f in self.features)
        leans = tuple(lean.mirrored(axis, middle) for lean in self.leans)
        return replace(self, id=new_id, box=self.box.mirrored(axis, middle), features=features, leans=leans)

    def moved(self, axis: Axis, by: Length, new_id: str) -> "Part":
        """Return the same part so far along an axis."""
        leans = tuple(lean.moved(axis, by) for lean in self.leans)
        return replace(self, id=new_id, box=self.box.moved(axis, by), leans=leans)

    def cut_size(self) -> tuple[Length, Length]:
        """Return length and width as they first come off the saw.

        The finished sizes, less banding thick enough to count, and with what is left on for trimming later.
        """
        taken = {"x": Length.zero(), "y": Length.zero(), "z": Length.zero()}
        for feature in self.features:
            if isinstance(feature, Banding) and feature.thickness.mm >= THICK_BANDING_MM:
                axis = AXIS_OF[feature.edge]
                taken[axis] += feature.thickness
            elif isinstance(feature, LeftOn):
                axis = AXIS_OF[feature.face]
                taken[axis] -= feature.amount
        return self.length - taken[self.grain], self.width - taken[self.across]


THICK_BANDING_MM = 1
"""Banding thinner than this leaves the cut size alone (common practice: iron-on veneer is about 0.5 mm)."""


@dataclass(frozen=True, slots=True)
class Shape:
    """What makes two parts interchangeable: material, size, grain, and what is done to them, turning included."""

    stock: str
    thickness_mm: str
    form: tuple[str, ...]
    grain_matters: bool = True


def shape(part: Part) -> Shape:
    """Return the shape of a part; parts that can be swapped by turning them over have equal shapes."""
    return _shape(part, mirrored=False)


def mirror_shape(part: Part) -> Shape:
    """Return the shape of a part's mirror image; it equals `shape` where the part has no hand."""
    return _shape(part, mirrored=True)


def has_hand(part: Part) -> bool:
    """Tell whether a part differs from its mirror image, however it is turned."""
    return shape(part) != mirror_shape(part)


_FINE = 10**6


@lru_cache(maxsize=4096)
def _shape(part: Part, *, mirrored: bool) -> Shape:
    turns = [turn for turn in ALL_TURNS if turn.is_mirror == mirrored and _lies_right(part, turn)]
    form = min(_form(part, turn) for turn in turns)
    return Shape(part.stock.name, str(part.stock.thickness.mm), form, part.grain_matters)


def _lies_right(part: Part, turn: Turn) -> bool:
    """Grain goes to x, or any axis in the sheet where it does not matter; a sheet's thickness goes to z."""
    if isinstance(part.stock, Sheet) and turn.axis(part.through) != "z":
        return False
    return not part.grain_matters or turn.axis(part.grain) == "x"


def _form(part: Part, turn: Turn) -> tuple[str, ...]:
    size = part.box.size
    sizes = tuple(_spelled(length) for length in turn.size(size))
    done = (feature.turned(turn, size) for feature in part.features)
    fitted = (f"fit to {part.fit_to}, spare {_spelled(part.spare)}",) if part.fit_to else ()
    strip = (f"strip {part.strip}",) if part.strip else ()
    return (*sizes, *sorted(_spelled(plainest(one)) for one in done), *fitted, *strip)


def _spelled(value: object) -> str:
    """Spell a feature with every length as its millimetres, so that equal features read the same.

    Lengths that come of angles are rounded to a millionth: the last digits depend on the order of the sums.
    """
    if isinstance(value, Length):
        mm = value.mm
        return str(mm if mm.denominator <= _FINE else round(mm, 6))
    if isinstance(value, tuple):
        return "(" + " ".join(_spelled(item) for item in value) + ")"
    if hasattr(value, "__dataclass_fields__"):
        spelled = (_spelled(getattr(value, name)) for name in value.__dataclass_fields__)
        return type(value).__name__ + "(" + " ".join(spelled) + ")"
    return repr(value)
