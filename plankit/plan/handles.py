"""What an author holds: names for parts that she can still work on."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NoReturn, overload

from plankit.errors import PlanError
from plankit.parts import FACES, Box
from plankit.plan.shaping import Shaping
from plankit.units import Length, mixed


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


class PartHandle(Shaping):
    """A part as its author holds it: its faces and sizes, and what can be done to it."""

    def __getattr__(self, name: str) -> Length:
        if name in FACES:
            return self.part.box.face(name)
        raise AttributeError(
            f"{self.name} has no “{name}”. It has faces ({', '.join(FACES)}), a length, a width and a thickness."
            if not name.startswith("_")
            else name
        )

    def __repr__(self) -> str:
        sizes = " × ".join(mixed(size.inches) for size in (self.length, self.width, self.thickness))
        return f"{self.name} ({self.id}): {sizes} in"

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

    @property
    def boards(self) -> Boards:
        """The boards it is glued up from; only a glue-up has them."""
        made = self.part.glue_up
        if made is None:
            raise PlanError("it is not glued up from boards.", where=self.name)
        return Boards(made.boards, made.length, made.rip)

    @property
    def rough(self) -> Sizes:
        """Its sizes before trimming and flattening: of the blank for a glue-up, the finished ones otherwise."""
        made = self.part.glue_up
        return Sizes(*(made.blank if made is not None else (self.length, self.width, self.thickness)))


class Spread(Sequence[PartHandle]):
    """Parts spread evenly between two others, left to right, and the spaces that they leave.

    spaces  the space to the left of each part, and the one to the right of the last
    clear   how wide every space is
    """

    def __init__(self, parts: Sequence[PartHandle], spaces: tuple[Box, ...], clear: Length) -> None:
        self._parts = tuple(parts)
        self.spaces = spaces
        self.clear = clear

    @overload
    def __getitem__(self, place: int) -> PartHandle: ...

    @overload
    def __getitem__(self, place: slice) -> Sequence[PartHandle]: ...

    def __getitem__(self, place: int | slice) -> PartHandle | Sequence[PartHandle]:
        if isinstance(place, int) and not -len(self) <= place < len(self):
            raise IndexError(f"there is no part [{place}] here: only {len(self)} were spread between the two others.")
        return self._parts[place]

    def __len__(self) -> int:
        return len(self._parts)


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
    raise PlanError(
        what,
        given=", ".join(one.id for one in flat(given)) if isinstance(given, list | tuple) else repr(given),
        remedy="Use what plan.panel(…) or plan.board(…) gave back, by the name you keep it under, without quotes.",
    )
