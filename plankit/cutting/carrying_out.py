"""Carries out an order of cuts as written, piece by piece, and says where a person could not go on.

It knows the job, the layouts and the order, and nothing of how any of them was found.
"""

from bisect import bisect_left
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import islice, takewhile

from plankit.cutting.held import Held, Span, is_end, raw
from plankit.cutting.job import Job, Piece, StockKind
from plankit.cutting.layout import Cut, Layout, Placed
from plankit.cutting.one_cut import Fault, Stroke, at_hand, faults, length
from plankit.cutting.saws import Saw
from plankit.finding import Finding


def carry_out(
    job: Job, layouts: Sequence[Layout], sequence: Sequence[tuple[int, int]]
) -> tuple[Finding, ...]:
    """Return everything a person could not do who makes the cuts as they are written; nothing where all goes well.

    sequence  number of the layout, from 0, and of the cut in it, from 1, in the order the cuts are made; copies of a
              layout are cut alike, one like the other

    Followed are the pieces on the bench and which of their edges are straight; what each saw reaches, and takes away;
    what each piece weighs; the settings, each made once; which parts are freed, of what size and where in the stock;
    and what is left of offcuts.
    """
    found = [*_names(layouts), *_sequence(layouts, sequence), *_settings(layouts, sequence)]
    benches = [_Bench(job, layout, number) for number, layout in enumerate(layouts, start=1)]
    for at, number in sequence:
        if _exists(layouts, at, number):
            found += benches[at].make(layouts[at].cuts[number - 1])
    for bench in benches:
        found += bench.left()
    return tuple(found)


class _Bench:
    """What has become of one sheet or board."""

    def __init__(self, job: Job, layout: Layout, number: int) -> None:
        self._job, self._layout, self._number = job, layout, number
        self._kind = next((kind for kind in job.stock if kind.name == layout.stock), layout.kind)
        self._saws = {saw.name: saw for saw in at_hand(job, self._kind)}
        self._slack = _slack(job, layout, self._saws)
        self._loose = {layout.name: raw(self._kind)}
        self._gone: dict[str, str] = {}
        self._drawn = _Drawn(layout.pieces)
        whole = None if layout.cuts else self._spot(raw(self._kind), None)
        if whole is not None:  # a part as large as the stock needs no cut
            self._drawn.remove(whole)
            self._loose.clear()

    def make(self, cut: Cut) -> Iterator[Finding]:
        """Make one cut, and say what is the matter with it."""
        place = f"layout {self._number}, cut {cut.order}"
        return (_finding(place, cut.frees or "", fault) for fault in self._make(cut))

    def left(self) -> Iterator[Finding]:
        """Say what is not as promised once all is cut."""
        place = f"layout {self._number}"
        if self._kind != self._layout.kind or self._kind not in self._job.stock or self._layout.copies < 1:
            yield _finding(place, "", Fault("it is no stock of the job, or not as the job has it, or has no copies"))
        for placed in self._drawn.left.values():
            yield _finding(place, placed.part, Fault("it is drawn here and never freed"))
        for fault in self._offcuts():
            yield _finding(place, "", fault)

    def _make(self, cut: Cut) -> Iterator[Fault]:
        piece = self._loose.get(cut.of)
        if piece is None:
            yield Fault(self._gone.get(cut.of, f"there is no {cut.of} yet"))
            return
        if self._kind.is_board and not is_end(cut.edge):
            yield Fault("a board is only cut across")
            return
        if not 0 < cut.setting < piece.span(cut.edge).size:
            yield Fault(f"the setting does not lie within {cut.of}", length(self._job, cut.setting))
            return
        saw = self._saws.get(cut.tool)
        if saw is None:
            yield Fault(f"there is no {cut.tool} for this stock")
        yield from self._part(cut, piece, saw)

    def _part(self, cut: Cut, piece: Held, saw: Saw | None) -> Iterator[Fault]:
        first, rest = piece.parted(cut.edge, cut.setting, saw.kerf if saw else self._job.kerf)
        del self._loose[cut.of]
        self._gone[cut.of] = f"{cut.of} is cut in two already"
        self._loose[cut.gives[0]] = first
        if rest is not None and cut.gives[1] is not None:
            self._loose[cut.gives[1]] = rest
        elif rest is not None:
            yield Fault("a piece is left beyond the kerf and has no name")
        elif cut.gives[1] is not None:
            yield Fault(f"nothing is left beyond the kerf to be {cut.gives[1]}")
        if saw:
            yield from faults(
                Stroke(self._job, self._kind, cut, saw, piece, first, rest, _mass(piece, self._kind))
            )
        yield from self._frees(cut)

    def _frees(self, cut: Cut) -> Iterator[Fault]:
        """Take off the bench what a cut frees: a part on each side, or one on either."""
        given = [name for name in cut.gives if name in self._loose]
        if cut.frees and cut.also_frees:
            for part, name in zip((cut.frees, cut.also_frees), cut.gives, strict=True):
                yield from self._free(part, [name] if name in given else [])
        elif cut.frees or cut.also_frees:
            yield from self._free(cut.frees or cut.also_frees or "", given)

    def _free(self, part: str, given: list[str]) -> Iterator[Fault]:
        wanted = next((piece for piece in self._job.pieces if piece.name == part), None)
        sized = [name for name in given if wanted is not None and _is_size(self._loose[name], wanted)]
        if not sized:
            yield Fault(f"nothing that it gives has the size of {part}, lying as it may")
            return
        name = next((one for one in sized if self._spot(self._loose[one], part)), sized[0])
        held = self._loose.pop(name)
        self._gone[name] = f"{name} is freed already, as {part}"
        spot = self._spot(held, part)
        if spot is None:
            yield Fault(f"{name} does not lie where {part} is drawn", length(self._job, held.along.start))
        else:
            self._drawn.remove(spot)
        if not held.all_straight:
            yield Fault(f"an edge of {part} is still the raw stock's, not trimmed")

    def _spot(self, held: Held, part: str | None) -> Placed | None:
        """Return the nearest drawn piece, not yet freed, that this one is; any part's where none is named."""
        size = (held.along.size, held.across.size)
        reach = (held.along.start - self._slack[True], held.along.start + self._slack[True])
        near = [
            (off, number) for number, placed in self._drawn.near(size, reach)
            if part in (None, placed.part) and (off := self._off(held, placed)) is not None
        ]  # fmt: skip
        return self._drawn.left[min(near)[1]] if near else None

    def _off(self, held: Held, placed: Placed) -> Fraction | None:
        """Return how far a piece lies from where one as large is drawn, mm; None where it is too far off."""
        x, y = abs(held.along.start - placed.x), abs(held.across.start - placed.y)
        return x + y if x <= self._slack[True] and y <= self._slack[False] else None

    def _offcuts(self) -> Iterator[Fault]:
        for offcut in self._layout.offcuts:
            name = next((name for name, held in self._loose.items() if (
                _reaches(held.along, offcut.x, offcut.length, self._slack[True])
                and _reaches(held.across, offcut.y, offcut.width or Fraction(1), self._slack[False])
            )), None)  # fmt: skip
            if name is None:
                yield Fault("an offcut is not left as stated", length(self._job, offcut.length))
            else:
                del self._loose[name]


class _Drawn:
    """The pieces drawn on a sheet or board and not yet freed, found by their size and where along it they begin."""

    def __init__(self, pieces: Sequence[Placed]) -> None:
        self.left = dict(enumerate(pieces))
        self._starts: dict[_Size, list[tuple[Fraction, int]]] = defaultdict(list)
        for number, placed in self.left.items():
            self._starts[_size(placed)].append((placed.x, number))
        for starts in self._starts.values():
            starts.sort()

    def near(self, size: "_Size", reach: tuple[Fraction, Fraction]) -> list[tuple[int, Placed]]:
        """Return those of that size that begin within reach, with their numbers as drawn."""
        starts = self._starts.get(size, [])
        first = bisect_left(starts, (reach[0], -1))
        inside = takewhile(lambda one: one[0] <= reach[1], islice(starts, first, None))
        return [(number, self.left[number]) for _, number in inside]

    def remove(self, placed: Placed) -> None:
        """Take one away: it is freed."""
        starts = self._starts[_size(placed)]
        first = bisect_left(starts, (placed.x, -1))
        at = next(n for n in range(first, len(starts)) if self.left[starts[n][1]] == placed)
        del self.left[starts.pop(at)[1]]


type _Size = tuple[Fraction, Fraction]


def _size(placed: Placed) -> _Size:
    return placed.length, placed.width or Fraction(1)


def _slack(job: Job, layout: Layout, saws: dict[str, Saw]) -> dict[bool, Fraction]:
    """Return how far pieces may lie from where they are drawn, along (True) and across: the kerfs' differences."""
    found = {True: Fraction(0), False: Fraction(0)}
    for cut in layout.cuts:
        if cut.tool in saws:
            found[is_end(cut.edge)] += abs(saws[cut.tool].kerf - job.kerf)
    return found


def _reaches(span: Span, start: Fraction, size: Fraction, slack: Fraction) -> bool:
    return span.size >= size and span.start <= start + slack and span.end >= start + size - slack


def _is_size(held: Held, wanted: Piece) -> bool:
    return any((held.along.size, held.across.size) == (along, across) for along, across, _ in wanted.ways())


def _mass(piece: Held, kind: StockKind) -> Fraction | None:
    return None if kind.mass is None else kind.mass * piece.area / raw(kind).area


def _exists(layouts: Sequence[Layout], at: int, number: int) -> bool:
    return 0 <= at < len(layouts) and 1 <= number <= len(layouts[at].cuts)


def _names(layouts: Sequence[Layout]) -> Iterator[Finding]:
    """Say which names stand for more than one piece, and where cuts are not numbered as they stand."""
    counts: Counter[str] = Counter()
    for layout in layouts:
        counts.update([layout.name] if layout.cuts else [])
        counts.update(name for cut in layout.cuts for name in cut.gives if name is not None)
    for name in (name for name, count in counts.items() if count > 1):
        yield _finding("all layouts", "", Fault(f"more than one piece is called {name}"))
    for number, layout in enumerate(layouts, start=1):
        if [cut.order for cut in layout.cuts] != list(range(1, len(layout.cuts) + 1)):
            yield _finding(f"layout {number}", "", Fault("its cuts are not numbered 1, 2, 3 …"))


def _sequence(layouts: Sequence[Layout], sequence: Sequence[tuple[int, int]]) -> Iterator[Finding]:
    """Say where the sequence leaves a cut out, makes one twice or too early, or names one there is not."""
    counts, last = Counter(sequence), [0] * len(layouts)
    for at, number in counts:
        if not _exists(layouts, at, number):
            yield _finding(_place(at, number), "", Fault("the order names it and there is no such cut"))
    for at, number in sequence:
        if _exists(layouts, at, number):
            if number < last[at]:
                yield _finding(_place(at, number), "", Fault(f"it comes after cut {last[at]}"))
            last[at] = max(last[at], number)
    for at, layout in enumerate(layouts):
        for number in range(1, len(layout.cuts) + 1):
            if counts[at, number] != 1:
                yield _finding(_place(at, number), "", Fault("it is not made just once", str(counts[at, number])))


def _settings(layouts: Sequence[Layout], sequence: Sequence[tuple[int, int]]) -> Iterator[Finding]:
    """Say where settings are not numbered as they come, or two of one number differ."""
    last, made = 0, dict[int, tuple[str, bool, Fraction]]()
    for at, number in sequence:
        if not _exists(layouts, at, number):
            continue
        cut = layouts[at].cuts[number - 1]
        part = cut.frees or ""
        if cut.group not in (max(last, 1), last + 1):
            yield _finding(_place(at, number), part, Fault(f"its setting comes after setting {last}", str(cut.group)))
        last, setting = cut.group, (cut.tool, is_end(cut.edge), cut.setting)
        if made.setdefault(cut.group, setting) != setting:
            yield _finding(_place(at, number), part, Fault("it has the number of another setting", str(cut.group)))


def _place(at: int, number: int) -> str:
    return f"layout {at + 1}, cut {number}"


def _finding(place: str, part: str, fault: Fault) -> Finding:
    return Finding(
        "must fix", "order of cuts", part, fault.what, place=place, number=fault.number, source=fault.source
    )
