"""Boards that are cut at the store so that they can be carried: what comes home is what is cut at home.

A board is handed over in pieces, each with its own ends; every piece has a cutting drawing and an order of cuts of its
own, which begin with that piece and not with the board that it was.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.cutting import Job, Layout, Piece, Placed, Result, StockKind
from plankit.cutting import cut as solve
from plankit.cutting.carrying_out import carry_out
from plankit.cutting.order import ordered
from plankit.units import Length

_SHARES = (Fraction(1), Fraction(1, 2), Fraction(1, 4), Fraction(0))
"""So much of what is trimmed off an end is left on the pieces' ends, the most that the board has room for."""


@dataclass(frozen=True, slots=True)
class Parted:
    """A board in the pieces that the store cuts it into, from its left end on.

    lengths  how long each is, mm; a kerf lies between two
    parts    what is cut from each; nothing from the last ones where more is left than one carries in one
    trim     what is left for trimming at each end of each, mm
    """

    lengths: tuple[Fraction, ...]
    parts: tuple[tuple[Placed, ...], ...]
    trim: Fraction

    def places(self, kerf: Fraction) -> tuple[Fraction, ...]:
        """Return where the store cuts, mm from the board's left end to the near side of the kerf."""
        return tuple(
            sum(self.lengths[: number + 1], Fraction(0)) + kerf * number for number in range(len(self.lengths) - 1)
        )


def parted(layout: Layout, longest: Fraction, kerf: Fraction) -> Parted | None:
    """Return a board in pieces that can be carried; None where a part alone is longer.

    Each piece is as long as its parts and what is trimmed off its ends; the last one has what is left, and if that
    is more than one carries, the ones before it are longer.
    """
    parts = sorted(layout.pieces, key=lambda one: one.x)
    for share in _SHARES:
        trim = layout.kind.trim_ends * share
        groups = _groups(parts, longest - 2 * trim, kerf)
        lengths = [_taken(group, kerf) + 2 * trim for group in groups]
        spare = layout.kind.length - sum(lengths, Fraction(0)) - kerf * (len(lengths) - 1)
        if groups and spare >= 0:
            whole = tuple(_shared_out(lengths, spare, longest, kerf))
            plain: tuple[tuple[Placed, ...], ...] = ((),) * (len(whole) - len(groups))
            return Parted(whole, (*groups, *plain), trim)
    return None


def _groups(parts: list[Placed], room: Fraction, kerf: Fraction) -> tuple[tuple[Placed, ...], ...]:
    """The parts of each piece, as many on each as it has room for; none where one is too long."""
    found: list[tuple[Placed, ...]] = []
    for part in parts:
        if part.length > room:
            return ()
        if found and _taken((*found[-1], part), kerf) <= room:
            found[-1] = (*found[-1], part)
        else:
            found.append((part,))
    return tuple(found)


def _taken(parts: tuple[Placed, ...], kerf: Fraction) -> Fraction:
    return sum((one.length for one in parts), Fraction(0)) + kerf * (len(parts) - 1)


def _shared_out(lengths: list[Fraction], spare: Fraction, longest: Fraction, kerf: Fraction) -> Iterator[Fraction]:
    """The pieces with what is left over on the last one, then on those before it, then in pieces of its own."""
    made = list(lengths)
    for number in range(len(made) - 1, -1, -1):
        more = min(spare, longest - made[number])
        made[number] += more
        spare -= more
    yield from made
    while spare > 0:
        more = max(Fraction(0), min(spare - kerf, longest))
        yield more
        spare -= kerf + more


def too_long(kind: StockKind, longest: Length | None) -> bool:
    """Whether it is bought, and longer than one carries."""
    return longest is not None and not kind.on_hand and kind.length > longest.mm


def as_handed_over(result: Result, longest: Length | None) -> Result:
    """Return an answer with the pieces that the store hands over in place of the boards that are too long to carry.

    Its cuts, weights and settings, and what one person cannot do of them, are those of the pieces. What is bought is
    told by the answer as it was.

    longest  what can be carried; None where any length can
    """
    if not any(too_long(layout.kind, longest) for layout in result.layouts):
        return result
    laid: list[Layout] = []
    for layout, pieces, names in with_pieces(result, longest):
        laid += [layout] if pieces is None else _layouts(layout, pieces, names, result.job)
    laid = [replace(layout, name=f"s{number}") for number, layout in enumerate(laid, start=1)]
    kinds = {layout.stock: layout.kind for layout in laid}
    job = replace(result.job, stock=tuple(kinds.values()))
    made, sequence = ordered(job, tuple(laid))
    return replace(result, job=job, layouts=made, sequence=sequence, troubles=carry_out(job, made, sequence))


def with_pieces(result: Result, longest: Length | None) -> Iterator[tuple[Layout, Parted | None, tuple[str, ...]]]:
    """Yield each board and sheet of an answer, in what pieces the store hands it over, and what these are called.

    None, and its own name, where it comes home whole, or a part on it is too long to carry.
    """
    several = sum(too_long(one.kind, longest) for one in result.layouts) > 1
    board = 0
    for layout in result.layouts:
        pieces = None
        if longest is not None and too_long(layout.kind, longest):
            board += 1
            pieces = parted(layout, longest.mm, result.job.kerf)
        if pieces is None:
            yield layout, None, (layout.stock,)
            continue
        called, many = f"{layout.stock}, board {board}" if several else layout.stock, len(pieces.lengths)
        yield layout, pieces, tuple(f"{called}, piece {number} of {many}" for number in range(1, many + 1))


def _layouts(layout: Layout, pieces: Parted, names: tuple[str, ...], job: Job) -> Iterator[Layout]:
    """How each piece of a board that parts are cut from is cut."""
    for name, long, parts in zip(names, pieces.lengths, pieces.parts, strict=True):
        if not parts:
            continue
        mass = None if layout.kind.mass is None else layout.kind.mass * long / layout.kind.length
        kind = replace(layout.kind, name=name, length=long, trim_ends=pieces.trim, mass=mass, available=1)
        (made,) = solve(replace(job, stock=(kind,), pieces=tuple(_wanted(parts, job)))).layouts
        yield replace(made, copies=layout.copies, kind=replace(kind, available=layout.copies), cuts=())


def _wanted(parts: tuple[Placed, ...], job: Job) -> Iterator[Piece]:
    names = [one.part for one in parts]
    for piece in job.pieces:
        if piece.name in names:
            yield replace(piece, quantity=names.count(piece.name), sources=())


def left_whole(result: Result, longest: Length | None) -> Iterator[tuple[StockKind, Length]]:
    """Yield each piece worth keeping that the store hands over and nothing is cut from, as often as there is one."""
    for layout, pieces, _ in with_pieces(result, longest):
        for long, parts in zip(pieces.lengths, pieces.parts, strict=True) if pieces else ():
            if not parts and long >= result.job.keep_length:
                yield from ((layout.kind, Length.of_mm(long)) for _ in range(layout.copies))
