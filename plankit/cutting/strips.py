"""Pieces that must come from one strip, side by side along the grain: drawer fronts and doors whose grain runs on.

To the solver such a strip is one piece, as long as its pieces and the kerfs between them; where the layout is drawn and
cut it is its pieces again. A board's pieces that must come from one board, for their colour, are a strip as well.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.cutting.job import Job, Piece
from plankit.errors import AskedWrongly


@dataclass(frozen=True, slots=True)
class Member:
    """One piece of a strip: its name, where it begins from the strip's near end, its length along it; mm."""

    name: str
    start: Fraction
    length: Fraction


def joined(job: Job) -> tuple[Piece, ...]:
    """Return what is to be cut, every strip as one piece.

    raises  AskedWrongly where the pieces of a strip differ in width, grain or stock, or stages are limited
    """
    singles = tuple(piece for piece in job.pieces if not piece.strip)
    return (*singles, *(_whole(job, name) for name in _names(job)))


def members(job: Job, name: str) -> tuple[Member, ...]:
    """Return the pieces of a strip by the name it has among the pieces to cut, in order; none for any other piece."""
    found, start = [], Fraction(0)
    strip = next((one for one in _names(job) if _called(job, one) == name), "")
    for piece in _of(job, strip) if strip else ():
        for _ in range(piece.quantity):
            found.append(Member(piece.name, start, piece.length))
            start += piece.length + job.kerf
    return tuple(found)


def parts_of(job: Job, name: str) -> Iterator[str]:
    """Give the names of the parts a piece to cut stands for, one for each."""
    found = members(job, name)
    yield from (member.name for member in found) if found else (name,)


def missing_parts(job: Job, missing: Iterable[tuple[str, int]]) -> tuple[tuple[str, int], ...]:
    """Return how many of each part lie nowhere, from how many of each piece to cut do; the others left out."""
    lost = Counter[str]()
    for name, number in missing:
        for part in parts_of(job, name):
            lost[part] += number
    return tuple((name, number) for name, number in lost.items() if number)


def _names(job: Job) -> tuple[str, ...]:
    return tuple(dict.fromkeys(piece.strip for piece in job.pieces if piece.strip and piece.quantity))


def _called(job: Job, strip: str) -> str:
    """The name of a strip among the pieces to cut, which no part has."""
    name = f"strip {strip}"
    while any(piece.name == name for piece in job.pieces):
        name += "*"
    return name


def _of(job: Job, strip: str) -> tuple[Piece, ...]:
    return tuple(piece for piece in job.pieces if piece.strip == strip and piece.quantity)


def _whole(job: Job, strip: str) -> Piece:
    pieces = _of(job, strip)
    first = pieces[0]
    if any((p.width, p.turns, p.sources) != (first.width, first.turns, first.sources) for p in pieces):
        raise AskedWrongly(
            "pieces of one strip differ in width, grain or stock.", where=f"strip {strip}",
            given=", ".join(p.name for p in pieces), remedy="Make them as wide as each other, or name two strips.",
        )  # fmt: skip
    if job.stages is not None:
        raise AskedWrongly(
            "a strip needs a stage of cuts of its own.", where="stages", given=str(job.stages),
            remedy="Leave the stages out, or the strip.",
        )  # fmt: skip
    count = sum(piece.quantity for piece in pieces)
    length = sum((piece.length * piece.quantity for piece in pieces), job.kerf * (count - 1))
    return replace(first, name=_called(job, strip), length=length, quantity=1, strip="")
