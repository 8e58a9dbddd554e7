"""What is asked of a cutting: the stock there is, the pieces wanted, the saw's kerf."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plankit.cutting.saws import Saw
from plankit.errors import AskedWrongly
from plankit.shop.preferences import PREFERENCES
from plankit.units import MM_IN, Length

type Unit = Literal["in", "mm"]

MOST_PIECES = 10_000
"""More pieces than this in one job are refused: it is a slip of the pen or a factory's order."""


@dataclass(frozen=True, slots=True)
class StockKind:
    """One kind of board or sheet; all lengths exact, in millimetres.

    width      None for a board, of which only the length matters
    available  how many there are; None for as many as needed
    price      of one, in the list's own money; None where it is not known; 0 for an offcut on hand
    trim_ends  lost at each of the two ends, the trimming cut included
    trim_edges lost at each of a sheet's two long edges, the trimming cut included
    thickness  of the stock, mm; None where it is not known
    mass       of one whole, kg; None where it is not known
    breadth    a board's width, which is not laid out, mm; None where it is not known
    """

    name: str
    length: Fraction
    width: Fraction | None = None
    available: int | None = None
    price: Fraction | None = None
    trim_ends: Fraction = Fraction(0)
    trim_edges: Fraction = Fraction(0)
    thickness: Fraction | None = None
    mass: Fraction | None = None
    breadth: Fraction | None = None

    @property
    def is_board(self) -> bool:
        """Whether only its length matters."""
        return self.width is None

    @property
    def clear_length(self) -> Fraction:
        """Length inside the trim."""
        return self.length - 2 * self.trim_ends

    @property
    def clear_width(self) -> Fraction:
        """Width inside the trim; 1 for a board, so that areas of boards are lengths."""
        return Fraction(1) if self.width is None else self.width - 2 * self.trim_edges

    @property
    def on_hand(self) -> bool:
        """Whether it is an offcut or the like: counted, and free."""
        return self.available is not None and self.price == 0


@dataclass(frozen=True, slots=True)
class Piece:
    """One size to be cut, with its name and how many; all lengths exact, in millimetres.

    width    None for a length off a board
    turns    True where the piece may lie either way; False where its length runs along the stock's
    sources  names of the stock it may come from; empty for any of its kind
    strip    name of the strip it must come from, side by side with the others named so; empty for none
    """

    name: str
    length: Fraction
    width: Fraction | None = None
    quantity: int = 1
    turns: bool = False
    sources: tuple[str, ...] = ()
    strip: str = ""

    @property
    def is_board(self) -> bool:
        """Whether it is cut off a board."""
        return self.width is None

    def ways(self) -> tuple[tuple[Fraction, Fraction, bool], ...]:
        """Extent along the stock, extent across, turned: each way the piece may lie."""
        if self.width is None:
            return ((self.length, Fraction(1), False),)
        straight = (self.length, self.width, False)
        return (
            (straight, (self.width, self.length, True))
            if self.turns and self.width != self.length
            else (straight,)
        )


@dataclass(frozen=True, slots=True)
class Job:
    """All that is asked of one cutting.

    unit         in which the answer is written
    kerf         width of the saw's cut, mm
    stages       at most so many stages of cuts, and one trimming cut that frees a piece; None: no limit
    keep_length  an offcut shorter than this is waste, mm (12 in: our own rule, after common practice)
    keep_width   an offcut of a sheet narrower than this is waste, mm (4 in: our own rule)
    saws         those at hand, best liked first; none: a saw on a guide and one with a stop, without limits
    lifting_limit  what one person may lift, kg; None: nothing is said of weights
    prefer       what decides among ways that take equal stock, gravest first, by the names of `PREFERENCES`
    raises       AskedWrongly where two kinds of stock share a name, or two sizes of piece do
    """

    stock: tuple[StockKind, ...]
    pieces: tuple[Piece, ...]
    kerf: Fraction = Fraction(0)
    unit: Unit = "in"
    stages: int | None = None
    keep_length: Fraction = 12 * MM_IN["in"]
    keep_width: Fraction = 4 * MM_IN["in"]
    saws: tuple[Saw, ...] = ()
    lifting_limit: Fraction | None = None
    prefer: tuple[str, ...] = tuple(PREFERENCES)

    def __post_init__(self) -> None:
        _names_once(self)
        _sizes_real(self)

    def kind(self, name: str) -> StockKind:
        """Return the stock of that name."""
        return next(kind for kind in self.stock if kind.name == name)

    @property
    def priced(self) -> bool:
        """Whether every stock has a price, so that the cost is what is made least."""
        return all(kind.price is not None for kind in self.stock)


def stock_kind(
    name: str,
    length: Length,
    width: Length | None = None,
    *,
    available: int | None = None,
    price: Fraction | None = None,
    trim_ends: Length | None = None,
    trim_edges: Length | None = None,
) -> StockKind:
    """Return a kind of stock from lengths as a plan holds them; the arguments are those of StockKind."""
    return StockKind(
        name,
        length.mm,
        _mm(width),
        available,
        price,
        _mm(trim_ends) or Fraction(0),
        _mm(trim_edges) or Fraction(0),
    )


def piece(
    name: str,
    length: Length,
    width: Length | None = None,
    *,
    quantity: int = 1,
    turns: bool = False,
    sources: tuple[str, ...] = (),
) -> Piece:
    """Return a piece from lengths as a plan holds them; the arguments are those of Piece."""
    return Piece(name, length.mm, _mm(width), quantity, turns, sources)


def _mm(length: Length | None) -> Fraction | None:
    return None if length is None else length.mm


def _names_once(job: Job) -> None:
    kinds = [kind.name for kind in job.stock]
    for name in kinds:
        if kinds.count(name) > 1:
            raise AskedWrongly(
                "two kinds of stock share one name.",
                where="stock",
                given=repr(name),
                remedy="Name each differently.",
            )
    sizes: dict[str, Piece] = {}
    for wanted in job.pieces:
        same = sizes.setdefault(wanted.name, wanted)
        if (same.length, same.width, same.turns, same.sources) != (
            wanted.length, wanted.width, wanted.turns, wanted.sources,
        ):  # fmt: skip
            raise AskedWrongly(
                "two parts of different size, grain or stock share one name.",
                where="parts", given=repr(wanted.name), remedy="Name each differently.",
            )  # fmt: skip


def _sizes_real(job: Job) -> None:
    for where, size in _sizes(job):
        if size <= 0:
            raise AskedWrongly(
                "a size is nothing or less than nothing.", where=where, remedy="Give a positive size."
            )
    if job.kerf < 0:
        raise AskedWrongly("the kerf is less than nothing.", where="kerf", remedy="Give 0 or more.")
    names = [saw.name for saw in job.saws]
    for name in names:
        if names.count(name) > 1:
            raise AskedWrongly("two saws share one name.", where="saws", given=repr(name),
                               remedy="Name each differently.")  # fmt: skip
    if job.saws and all(saw.kerf > job.kerf for saw in job.saws):
        raise AskedWrongly("every saw takes a wider kerf than is planned for.", where="kerf",
                           remedy="Plan with the widest kerf of the saws you use.")  # fmt: skip
    if job.stages is not None and job.stages < 1:
        raise AskedWrongly("there is no cutting in fewer than one stage.", where="stages", given=str(job.stages),
                           remedy="Give 1 or more, or leave it out for no limit.")  # fmt: skip
    total = sum(wanted.quantity for wanted in job.pieces)
    if total > MOST_PIECES or any(wanted.quantity < 0 for wanted in job.pieces):
        raise AskedWrongly(
            "the number of pieces cannot be planned.", where="parts", given=str(total),
            remedy=f"Ask for 0 to {MOST_PIECES} pieces in one job.",
        )  # fmt: skip


def _sizes(job: Job) -> list[tuple[str, Fraction]]:
    found = [(f"part {p.name}", size) for p in job.pieces for size in (p.length, p.width) if size is not None]
    for kind in job.stock:
        found += [(f"stock {kind.name}", size) for size in (kind.length, kind.width) if size is not None]
        found += [
            (f"stock {kind.name}, inside its trim", size) for size in (kind.clear_length, kind.clear_width)
        ]
        trims = (kind.trim_ends, kind.trim_edges)
        found += [(f"stock {kind.name}, trim", trim + 1 if trim == 0 else trim) for trim in trims]
    return found
