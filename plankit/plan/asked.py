"""What an author hands in beside lengths, looked at before it is used: faces, counts, names of things to do."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from plankit.errors import PlanError
from plankit.parts import AXIS_OF, FACES, Banding, Face, Part
from plankit.shop.tool import OPERATIONS
from plankit.stock import Lumber, Sheet
from plankit.units import Length, read_number, told


def known_face(face: object, name: str) -> None:
    """Refuse a word that names none of a part's six faces."""
    if face not in FACES:
        raise PlanError(
            "this is not one of a part's six faces.",
            where=name,
            given=repr(face),
            remedy=f"The faces are: {', '.join(FACES)}.",
        )


def whole_number(value: object, what: str, name: str, least: int = 1) -> int:
    """Return a count of something, or refuse what is no whole number, or fewer than `least`."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise PlanError(
            f"{what}: a whole number was expected.",
            where=name,
            given=repr(value),
            remedy=f"Write a number without quotes: {max(least, 2)}",
        )
    if value < least:
        raise PlanError(
            f"{what}: there can be no fewer than {least}.",
            where=name,
            given=str(value),
            remedy=f"Ask for {least} or more.",
        )
    return value


def known_operations(where: str, named: tuple[str, ...]) -> tuple[str, ...]:
    """Return the operations an author names, or refuse one that no tool does."""
    for operation in named:
        if operation not in OPERATIONS:
            raise PlanError(
                "this is not one of the things a tool does.",
                where=where,
                given=operation,
                remedy=f"Write one of: {', '.join(OPERATIONS)}.",
            )
    return named


def made_of(stock: object, kind: type[Sheet] | type[Lumber], name: str, what: str) -> None:
    """Refuse stock of the wrong kind: `what` says what the part is, "a panel"."""
    if isinstance(stock, kind):
        return
    sheet = kind is Sheet
    raise PlanError(
        f"{what} is made of {'a sheet' if sheet else 'lumber'}.",
        where=name,
        given=stock.name if isinstance(stock, Sheet | Lumber) else repr(stock),
        remedy="For instance  "
        + ('stock.sheet("plywood", "3/4")' if sheet else 'stock.lumber("2x4", species="loblolly pine")'),
    )


def not_below_nothing(length: Length, what: str, name: str) -> Length:
    """Return a length, or refuse one below nothing."""
    if length < Length.zero():
        raise PlanError(
            f"{what}: it cannot be less than nothing.",
            where=name,
            given=f"{told(length)}",
            remedy="Leave the minus sign out.",
        )
    return length


def more_than_nothing(length: Length, what: str, name: str) -> Length:
    """Return a length, or refuse one of nothing or less."""
    if length <= Length.zero():
        raise PlanError(
            f"{what}: it must be more than nothing.",
            where=name,
            given=f"{told(length)}",
            remedy="Give it as it measures.",
        )
    return length


def read_weight(name: str, pounds: int | str) -> Fraction:
    """Return so many pounds; refuses what is no number, or below nothing."""
    try:
        return read_number(str(pounds))
    except PlanError:
        raise PlanError(
            "a load is a number of pounds, not below nothing.",
            where=name,
            given=repr(pounds),
            remedy="For instance  psf=40  or  middle=250",
        ) from None


def three_sizes[T](name: str, size: Sequence[T]) -> Sequence[T]:
    """Return a width, a depth and a height, or refuse any other number of them."""
    if isinstance(size, str) or not isinstance(size, Sequence) or len(size) != 3:
        raise PlanError(
            "its size is a width, a depth and a height.",
            where=name,
            given=repr(size),
            remedy='For instance  size=("11", "13", "12")',
        )
    return size


def two_sizes[T](name: str, what: str, sizes: tuple[T, T]) -> tuple[T, T]:
    """Return two sizes, from left to right and from front to back, or refuse anything else."""
    if isinstance(sizes, str) or not isinstance(sizes, Sequence) or len(sizes) != 2:
        raise PlanError(
            f"{what}: two sizes were expected, from left to right and from front to back.",
            where=name,
            given=repr(sizes),
            remedy=f'For instance  {what}=("2 1/2", "3 1/2")',
        )
    return sizes


def words(text: object, what: str, example: str, where: str = "") -> str:
    """Return text that an author gives, or refuse what is no text, or is empty."""
    if isinstance(text, str) and text.strip():
        return text
    raise PlanError(
        f"{what}: words were expected.",
        where=where,
        given=repr(text),
        remedy=f"For instance  {example}",
    )


def maybe_words(text: object, what: str, example: str, where: str = "") -> str:
    """Return text that an author gives, or none; refuse what is no text."""
    return text if text == "" and isinstance(text, str) else words(text, what, example, where)


def spread_faces(name: str, faces: Mapping[Face, Length]) -> Mapping[Face, Length]:
    """Return the faces that spread panels share; each one's place from left to right is worked out."""
    needed = ("front", "back", "bottom", "top")
    missing = [face for face in needed if face not in faces]
    more = [face for face in faces if face not in needed]
    if missing or more:
        raise PlanError(
            "panels spread from left to right share their front, back, bottom and top; the rest is worked out.",
            where=name,
            given=", ".join(faces) or "none",
            remedy=f"{'Add' if missing else 'Leave out'} {', '.join(f'{face}=…' for face in missing or more)}",
        )
    return faces


def banding(part: Part, edge: str, thickness: Length, *, optional: bool) -> Banding:
    """Return banding for one edge of a part.

    raises  PlanError for a face that is no edge, an edge that is banded already, or banding that leaves nothing
    """
    edges = [face for face in FACES if AXIS_OF[face] != part.through]
    if edge not in edges:
        raise PlanError(
            "banding goes on an edge.",
            where=part.name,
            given=edge,
            remedy=f"Its edges are: {', '.join(edges)}",
        )
    made = Banding(edge, thickness, optional)
    if any(isinstance(one, Banding) and one.edge == edge for one in part.features):
        raise PlanError("this edge is banded already.", where=part.name, given=edge, remedy="Band it once.")
    if any(size <= Length.zero() for size in replace(part, features=(*part.features, made)).cut_size()):
        raise PlanError(
            "the banding is so thick that nothing is left to put it on.",
            where=part.name,
            given=f"{told(thickness)} on the {edge} edge",
            remedy="Use thinner banding.",
        )
    return made
