"""One group of stock and pieces that concern each other, in whole numbers, every kerf taken along.

Inside the trim, n pieces in a row need n - 1 kerfs between them: a + kerf + b <= room. That is the same as
(a + kerf) + (b + kerf) <= room + kerf, so every piece and every room is made one kerf larger and the saw's cut
nothing wide. A leftover thinner than the kerf needs no kerf of its own: the last cut runs off the edge.
"""

from dataclasses import dataclass
from fractions import Fraction
from itertools import chain

from plankit.cutting.job import Job, Piece, StockKind
from plankit.cutting.strips import joined
from plankit.cutting.whole_numbers import common_measure, whole


@dataclass(frozen=True, slots=True)
class Way:
    """One way a piece may lie: its extents along and across, a kerf included."""

    along: int
    across: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Want:
    """One size wanted.

    ways    as the grain allows
    kinds   positions in the group's rooms of the stock it may come from and fits into
    """

    name: str
    quantity: int
    ways: tuple[Way, ...]
    kinds: frozenset[int]

    @property
    def area(self) -> int:
        """Area of one with its kerfs."""
        return self.ways[0].along * self.ways[0].across


@dataclass(frozen=True, slots=True)
class Room:
    """What one kind of stock offers inside its trim, a kerf added each way.

    most    how many may be used: what is available, or as many as there are pieces
    weight  what one adds to what is made least
    """

    name: str
    along: int
    across: int
    most: int
    weight: Fraction
    on_hand: bool

    @property
    def area(self) -> int:
        """Area of one with its kerf."""
        return self.along * self.across


@dataclass(frozen=True, slots=True)
class Group:
    """Pieces and stock that only concern each other.

    measure  millimetres of one whole number
    kerf     in whole numbers
    """

    rooms: tuple[Room, ...]
    wants: tuple[Want, ...]
    measure: Fraction
    kerf: int
    board: bool
    stages: int | None

    @property
    def area(self) -> int:
        """Area of all that is wanted, kerfs included."""
        return sum(want.area * want.quantity for want in self.wants)

    @property
    def count(self) -> int:
        """How many pieces are wanted."""
        return sum(want.quantity for want in self.wants)


def fits(wanted: Piece, kind: StockKind) -> bool:
    """Whether the piece may come from that stock and fits inside its trim."""
    if wanted.is_board != kind.is_board or (wanted.sources and kind.name not in wanted.sources):
        return False
    return any(a <= kind.clear_length and b <= kind.clear_width for a, b, _ in wanted.ways())


def groups(job: Job) -> tuple[Group, ...]:
    """Part a job into groups that can be planned apart; pieces of which none are wanted are left out."""
    found: list[tuple[set[str], list[Piece]]] = []
    for wanted in _merged(job):
        kinds = {kind.name for kind in job.stock if kind.available != 0 and fits(wanted, kind)}
        touching = [one for one in found if one[0] & kinds]
        found = [one for one in found if not one[0] & kinds]
        pieces = [*chain.from_iterable(one[1] for one in touching), wanted]
        found.append((kinds.union(*(one[0] for one in touching)), pieces))
    return tuple(_group(job, names, pieces) for names, pieces in found)


def _merged(job: Job) -> list[Piece]:
    """Return each size once, equal names added up; none of which none are wanted."""
    counts: dict[str, int] = {}
    first: dict[str, Piece] = {}
    for wanted in joined(job):
        counts[wanted.name] = counts.get(wanted.name, 0) + wanted.quantity
        first.setdefault(wanted.name, wanted)
    return [
        Piece(one.name, one.length, one.width, counts[one.name], one.turns, one.sources)
        for one in first.values()
        if counts[one.name]
    ]


def _group(job: Job, names: set[str], pieces: list[Piece]) -> Group:
    kinds = [kind for kind in job.stock if kind.name in names]
    board = kinds[0].is_board
    measure = common_measure([job.kerf, *_all_sizes(kinds, pieces)])
    kerf = whole(job.kerf, measure)
    count = sum(one.quantity for one in pieces)

    def across(size: Fraction) -> int:
        return 1 if board else whole(size, measure) + kerf

    rooms = tuple(
        Room(
            kind.name,
            whole(kind.clear_length, measure) + kerf,
            across(kind.clear_width),
            count if kind.available is None else min(kind.available, count),
            kind.price if job.priced and kind.price is not None else Fraction(1),
            kind.on_hand,
        )
        for kind in kinds
    )
    wants = tuple(
        Want(
            one.name,
            one.quantity,
            tuple(Way(whole(a, measure) + kerf, across(b), turned) for a, b, turned in one.ways()),
            frozenset(n for n, kind in enumerate(kinds) if fits(one, kind)),
        )
        for one in sorted(pieces, key=_largest_first)
    )
    return Group(rooms, wants, measure, kerf, board, None if board else job.stages)


def _largest_first(one: Piece) -> tuple[Fraction, Fraction, str]:
    """Put the same pieces in the same order, however the job listed them."""
    across = one.width or Fraction(1)
    return (-one.length * across, -one.length, one.name)


def _all_sizes(kinds: list[StockKind], pieces: list[Piece]) -> list[Fraction]:
    sizes = [kind.clear_length for kind in kinds] + [one.length for one in pieces]
    sizes += [kind.clear_width for kind in kinds if kind.width is not None]
    return sizes + [one.width for one in pieces if one.width is not None]
