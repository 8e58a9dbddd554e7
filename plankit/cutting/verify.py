"""Checking layouts against the job, trusting nobody: no solver's numbers, no tree of cuts, only where things lie."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from heapq import heappop, heappush
from itertools import combinations

from plankit.cutting.job import Job, Piece, StockKind
from plankit.cutting.layout import Layout
from plankit.finding import Finding


@dataclass(frozen=True, slots=True)
class _Rect:
    name: str
    left: Fraction
    right: Fraction
    low: Fraction
    high: Fraction
    is_piece: bool


def verify(
    job: Job, layouts: Iterable[Layout], missing: Sequence[tuple[str, int]] = ()
) -> tuple[Finding, ...]:
    """Return everything that is wrong with the layouts as an answer to the job; nothing where all is right.

    missing  parts and numbers the answer admits it could not place

    Checked: every piece wanted is there, none twice; each has its size, lies as its grain allows, comes from stock it
    may come from, and lies inside the trim; a whole kerf between neighbours, pieces and kept offcuts alike; everything
    can be cut edge to edge in the stages asked for; no more stock than is available.
    """
    layouts = tuple(layouts)
    found = [*_counts(job, layouts, missing), *_stock_counts(job, layouts)]
    for number, layout in enumerate(layouts, start=1):
        place = f"layout {number}, {layout.stock}"
        found += [_finding(part, place, what) for part, what in _layout(job, layout)]
    return tuple(found)


def _layout(job: Job, layout: Layout) -> list[tuple[str, str]]:
    kind = next((one for one in job.stock if one.name == layout.stock), None)
    if kind is None or kind != layout.kind or layout.copies < 1:
        return [("", "it is no stock of the job, or not as the job has it, or has no copies")]
    rects = _rects(layout)
    found = [*_sizes(job, layout, kind), *_inside(rects, kind), *_apart(rects, job.kerf)]
    if not found and not _cuttable(rects, kind, job):
        found.append(("", "it cannot be cut edge to edge in the stages asked for"))
    return found


def _rects(layout: Layout) -> list[_Rect]:
    one = Fraction(1)
    rects = [_Rect(p.part, p.x, p.x + p.length, p.y, p.y + (p.width or one), True) for p in layout.pieces]
    return rects + [
        _Rect("offcut", o.x, o.x + o.length, o.y, o.y + (o.width or one), False) for o in layout.offcuts
    ]


def _sizes(job: Job, layout: Layout, kind: StockKind) -> Iterable[tuple[str, str]]:
    wanted: dict[str, Piece] = {piece.name: piece for piece in job.pieces}
    for placed in layout.pieces:
        piece = wanted.get(placed.part)
        if piece is None:
            yield placed.part, "no such part is wanted"
            continue
        size = (placed.length, placed.width)
        if size != ((piece.width, piece.length) if placed.turned else (piece.length, piece.width)):
            yield placed.part, "it has another size than wanted"
        if placed.turned and not piece.turns:
            yield placed.part, "it lies across the grain"
        if piece.is_board != kind.is_board or (piece.sources and kind.name not in piece.sources):
            yield placed.part, "it may not come from this stock"


def _inside(rects: list[_Rect], kind: StockKind) -> Iterable[tuple[str, str]]:
    left, right = kind.trim_ends, kind.length - kind.trim_ends
    low = Fraction(0) if kind.width is None else kind.trim_edges
    high = Fraction(1) if kind.width is None else kind.width - kind.trim_edges
    for r in rects:
        if (
            r.left < left
            or r.right > right
            or r.low < low
            or r.high > high
            or r.left >= r.right
            or r.low >= r.high
        ):
            yield r.name, "it does not lie inside the stock's trim"


def _apart(rects: list[_Rect], kerf: Fraction) -> Iterable[tuple[str, str]]:
    if _all_apart(rects, kerf):
        return
    for a, b in combinations(rects, 2):
        along = max(a.left - b.right, b.left - a.right)
        across = max(a.low - b.high, b.low - a.high)
        if max(along, across) < kerf:
            yield a.name, f"there is no whole kerf between it and its neighbour, {b.name}"


def _all_apart(rects: list[_Rect], kerf: Fraction) -> bool:
    """Whether a kerf goes between any two, seen from left to right: no pair is looked at that is not near.

    Those that end less than a kerf before the next begins lie apart across the sheet, or one of them failed before:
    so only the two between which the next lies there need be looked at.
    """
    if any(r.left >= r.right or r.low >= r.high for r in rects):
        return False  # turned inside out: for the slow look
    lows: list[tuple[Fraction, int]] = []
    ends: list[tuple[Fraction, int]] = []
    for number, r in sorted(enumerate(rects), key=lambda one: one[1].left):
        while ends and r.left - ends[0][0] >= kerf:
            _, gone = heappop(ends)
            del lows[bisect_left(lows, (rects[gone].low, gone))]
        at = bisect_left(lows, (r.low, number))
        if at and r.low - rects[lows[at - 1][1]].high < kerf:
            return False
        if at < len(lows) and lows[at][0] - r.high < kerf:
            return False
        lows.insert(at, (r.low, number))
        heappush(ends, (r.right, number))
    return True


def _cuttable(rects: list[_Rect], kind: StockKind, job: Job) -> bool:
    """Whether cuts right across free everything, first along or first across."""
    if not rects:
        return True
    if kind.width is None:
        return True  # kerfs between neighbours are all a board's crosscuts need
    clear = (kind.trim_ends, kind.length - kind.trim_ends, kind.trim_edges, kind.width - kind.trim_edges)
    return any(_parts(rects, clear, x_first, job.stages, job.kerf) for x_first in (True, False))


type _Room = tuple[Fraction, Fraction, Fraction, Fraction]


def _parts(rects: list[_Rect], room: _Room, along: bool, stages: int | None, kerf: Fraction) -> bool:
    """Whether rectangles in a room come free, cutting in one direction first with so many stages left.

    Cutting at every line that can be cut is never worse than at fewer: nothing that could be cut later is lost.
    """
    if _free(rects, room):
        return True
    if stages == 0:
        return _trimmed(rects, room, along, kerf)
    rows = _rows(rects, along, kerf)
    tight = [(row, _tight(row, room, along)) for row in rows]
    if len(rows) == 1 and tight[0][1] == room:
        return (
            stages is None
            and not _stuck(rects, room, along, kerf)
            and _parts(rects, room, not along, stages, kerf)
        )
    left = None if stages is None else stages - 1
    return all(_parts(row, its_room, not along, left, kerf) for row, its_room in tight)


def _free(rects: list[_Rect], room: _Room) -> bool:
    """Whether a room holds one piece exactly, or one offcut with whatever waste lies round it."""
    one = rects[0]
    return len(rects) == 1 and (not one.is_piece or (one.left, one.right, one.low, one.high) == room)


def _trimmed(rects: list[_Rect], room: _Room, along: bool, kerf: Fraction) -> bool:
    """Whether one cut frees the only piece in a room: waste, or an offcut, on one side of it only."""
    pieces = [r for r in rects if r.is_piece]
    if not pieces:
        return True
    if len(pieces) > 1 or len(rects) > 2:
        return False
    one = pieces[0]
    whole_across = (one.low, one.high) == room[2:] if along else (one.left, one.right) == room[:2]
    ends = (one.left, one.right) if along else (one.low, one.high)
    reach = room[:2] if along else room[2:]
    rows = _rows(rects, along, kerf)
    return whole_across and (ends[0] == reach[0] or ends[1] == reach[1]) and len(rows) == len(rects)


def _stuck(rects: list[_Rect], room: _Room, along: bool, kerf: Fraction) -> bool:
    """Whether no cut across the other direction helps either."""
    rows = _rows(rects, not along, kerf)
    return len(rows) == 1 and _tight(rows[0], room, not along) == room


def _rows(rects: list[_Rect], along: bool, kerf: Fraction) -> list[list[_Rect]]:
    """Part rectangles wherever a whole kerf goes through between them."""
    rows: list[list[_Rect]] = []
    reach = Fraction(0)
    for r in sorted(rects, key=lambda r: r.left if along else r.low):
        start, end = (r.left, r.right) if along else (r.low, r.high)
        if rows and start - reach < kerf:
            rows[-1].append(r)
            reach = max(reach, end)
        else:
            rows.append([r])
            reach = end
    return rows


def _tight(row: list[_Rect], room: _Room, along: bool) -> _Room:
    if along:
        return (min(r.left for r in row), max(r.right for r in row), room[2], room[3])
    return (room[0], room[1], min(r.low for r in row), max(r.high for r in row))


def _counts(job: Job, layouts: Sequence[Layout], missing: Sequence[tuple[str, int]]) -> Iterable[Finding]:
    wanted: Counter[str] = Counter()
    for piece in job.pieces:
        wanted[piece.name] += piece.quantity
    found: Counter[str] = Counter(dict(missing))
    for name in sorted(name for name, number in missing if number < 0):
        yield _finding(name, "all layouts", f"{-found[name]} more than wanted are cut and called missing")
    for layout in layouts:
        for placed in layout.pieces:
            found[placed.part] += layout.copies
    for name in sorted(wanted.keys() | found.keys()):
        if wanted[name] != found[name]:
            yield _finding(name, "all layouts", f"{wanted[name]} are wanted, {found[name]} are accounted for")


def _stock_counts(job: Job, layouts: Sequence[Layout]) -> Iterable[Finding]:
    used: Counter[str] = Counter()
    for layout in layouts:
        used[layout.stock] += layout.copies
    for kind in job.stock:
        if kind.available is not None and used[kind.name] > kind.available:
            yield _finding("", kind.name, f"{kind.available} are available, {used[kind.name]} are used")


def _finding(part: str, place: str, what: str) -> Finding:
    return Finding("must fix", "cutting layout", part, what, place=place, source="the job itself")
