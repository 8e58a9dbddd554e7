"""What an author holds: names for parts that she can still work on."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NoReturn, overload, override

from plankit.build import Hung, Item
from plankit.errors import PlanError
from plankit.parts import FACES, Box, Face, box_of
from plankit.plan.asked import known_face
from plankit.plan.shaping import Shaping
from plankit.plan.spoken import answers_as
from plankit.reference.tables import did_you_mean
from plankit.units import Length, told_size

MOST_QUOTED = 120
"""So many characters of what was given are said back."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """Length, width and thickness, as attributes for prose."""

    length: Length
    width: Length
    thickness: Length


@dataclass(frozen=True, slots=True)
class Boards:
    """The boards of a glue-up: how many, and what each is cut to before gluing."""

    count: int
    length: Length
    width: Length


@answers_as("part")
class PartHandle(Shaping):
    """A part as its author holds it: its faces and sizes, and what can be done to it."""

    def __getattr__(self, name: str) -> Length:
        if name in FACES:
            return self.part.box.face(name)
        if name.startswith("_"):
            raise AttributeError(name)
        known = [*FACES, *(one for one in dir(type(self)) if not one.startswith("_"))]
        raise AttributeError(
            f"{self.name} has no “{name}”. {did_you_mean(name, known)} "
            f"It has faces ({', '.join(FACES)}), a length, a width and a thickness."
        )

    def __repr__(self) -> str:
        sizes = told_size(self.length, self.width, self.thickness, notation=self._bench.notation)
        return f"{self.name} ({self.id}): {sizes}"

    @property
    def length(self) -> Length:
        """Its size along the grain."""
        return self.part.length

    @property
    def width(self) -> Length:
        """Its size across the grain."""
        return self.part.width

    @property
    def thickness(self) -> Length:
        """Its size through."""
        return self.part.thickness

    def reaches(self, face: Face) -> Length:
        """Return where it really ends on a side, leaning and sawn as it is: `top=side.reaches("bottom")`.

        Its faces, such as side.bottom, are those before it leans.
        """
        known_face(face, self.name)
        return box_of(self.part).face(face)

    @property
    def boards(self) -> Boards:
        """The boards it is glued up from; only a glue-up has them."""
        made = self.part.glue_up
        if made is None:
            raise PlanError("it is not glued up from boards.", where=self.name)
        return Boards(made.boards, made.length, made.rip)

    @property
    def rough(self) -> Sizes:
        """Its sizes before trimming and flattening: of the blank for a glue-up, as it is first cut otherwise."""
        made = self.part.glue_up
        return Sizes(*(made.blank if made is not None else (*self.part.cut_size(), self.thickness)))


class Several(Sequence[PartHandle]):
    """Parts that are made together, as a list; what builds on it tells which are which."""

    def __init__(self, parts: Iterable[PartHandle]) -> None:
        self._parts = tuple(parts)

    @overload
    def __getitem__(self, place: int) -> PartHandle: ...

    @overload
    def __getitem__(self, place: slice) -> Sequence[PartHandle]: ...

    def __getitem__(self, place: int | slice) -> PartHandle | Sequence[PartHandle]:
        return self._parts[place]

    def __len__(self) -> int:
        return len(self._parts)


class Spread(Several):
    """Parts spread evenly between two others, left to right, and the spaces that they leave.

    spaces  the space to the left of each part, and the one to the right of the last
    clear   how wide every space is
    """

    def __init__(self, parts: Sequence[PartHandle], spaces: tuple[Box, ...], clear: Length) -> None:
        super().__init__(parts)
        self.spaces = spaces
        self.clear = clear

    @overload
    def __getitem__(self, place: int) -> PartHandle: ...

    @overload
    def __getitem__(self, place: slice) -> Sequence[PartHandle]: ...

    @override
    def __getitem__(self, place: int | slice) -> PartHandle | Sequence[PartHandle]:
        if isinstance(place, int) and not -len(self) <= place < len(self):
            raise IndexError(f"there is no part [{place}] here: only {len(self)} were spread between the two others.")
        return super().__getitem__(place)


type Parts = PartHandle | Sequence["Parts"]


def flat(*groups: Parts) -> list[PartHandle]:
    """Return the parts in nested lists, in order, each once.

    raises  PlanError for anything that is neither a part nor a list of parts
    """
    found: dict[str, PartHandle] = {}
    for group in groups:
        if isinstance(group, PartHandle):
            found.setdefault(group.id, group)
        elif isinstance(group, Sequence) and not isinstance(group, str):
            found |= {part.id: part for part in flat(*group) if part.id not in found}
        else:
            _refuse_no_part("a part, or a list of parts, was expected.", group)
    return list(found.values())


def some(parts: Parts, where: str) -> list[PartHandle]:
    """Return the parts in nested lists where there must be at least one; `where` says where they are given: "into=".

    raises  PlanError for an empty list, which would do nothing without a word
    """
    found = flat(parts)
    if not found:
        raise PlanError(
            f"{where}: no part is given, so nothing would be done.",
            given=repr(parts),
            remedy="Give at least one part, or leave the line out.",
        )
    return found


def single(part: object, what: str) -> PartHandle:
    """Return a part where just one is asked for; `what` says where: "onto="."""
    if isinstance(part, PartHandle):
        return part
    return _refuse_no_part(f"{what}: one part was expected.", part)


def pair_of(parts: object, name: str) -> tuple[PartHandle, PartHandle]:
    """Return the two parts that others are spread between, left one first."""
    if isinstance(parts, Sequence) and not isinstance(parts, str) and len(parts) == 2:
        return single(parts[0], "between="), single(parts[1], "between=")
    raise PlanError(
        "parts are spread between two others.",
        where=name,
        given=f"between={parts!r}",
        remedy="For instance  between=[left, right]",
    )


def _refuse_no_part(what: str, given: object) -> NoReturn:
    if isinstance(given, Hung | Item):
        raise PlanError(
            what,
            given="hardware",
            remedy="Leave it out: hardware comes with the parts that it is fixed to.",
        )
    several = given if isinstance(given, list | tuple) else [given]
    said = ", ".join(one.id if isinstance(one, PartHandle) else repr(one) for one in several)
    raise PlanError(
        what,
        given=said if len(said) <= MOST_QUOTED else f"{said[:MOST_QUOTED]}…",
        remedy="Use what plan.panel(…) or plan.board(…) gave back, by the name you keep it under, without quotes.",
    )
