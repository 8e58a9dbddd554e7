"""Strips filled first fit, largest first: always an answer, in exact whole numbers of any size.

First-fit decreasing height: E. G. Coffman, M. R. Garey, D. S. Johnson and R. E. Tarjan, "Performance bounds for
level-oriented two-dimensional packing algorithms", SIAM Journal on Computing 9 (1980). On a board it is first-fit
decreasing. Two stages of cuts and a trimming cut; one stage where only one is allowed.
"""

from collections import deque
from dataclasses import dataclass, field

from plankit.cutting.pack import Pack, Sheet
from plankit.cutting.slicing import Axis, Spot
from plankit.cutting.whole_job import Group, Room, Want, Way


@dataclass(slots=True)
class _Strip:
    start: int
    height: int
    filled: int = 0


@dataclass(slots=True)
class _Open:
    kind: int
    length: int
    height: int
    strips: list[_Strip] = field(default_factory=list)
    spots: list[Spot] = field(default_factory=list)

    @property
    def filled(self) -> int:
        return sum(strip.height for strip in self.strips)


def first_fit(group: Group, axis: Axis = "x", *, choosy_first: bool = False) -> Pack:
    """Return a packing in strips that run along an axis, stock on hand used first; what finds no room is left out.

    choosy_first  place what may come from the fewest kinds of stock before the rest, which then fills up behind it
    """
    opened: list[_Open] = []
    with_room: list[_Open] = []
    smallest = min((want.ways[0].along for want in group.wants), default=0)
    used = [0] * len(group.rooms)
    for place, want, way in _tall_first(group, axis, choosy_first):
        if group.board:
            with_room = [board for board in with_room if board.strips[0].filled + smallest <= board.length]
        open_now = {
            on_hand: deque(s for s in with_room if s.kind in want.kinds and group.rooms[s.kind].on_hand == on_hand)
            for on_hand in (True, False)
        }
        for _ in range(want.quantity):
            for on_hand, mine in open_now.items():
                # a sheet that had no room for one of these has none for the next
                while mine and not _put(mine[0], place, way, axis, group):
                    mine.popleft()
                if mine:
                    break
                new = _open(group, want, way, used, axis, on_hand=on_hand)
                if new is not None:
                    opened.append(new)
                    with_room.append(new)
                    mine.append(new)
                    _put(new, place, way, axis, group)
                    break
    return Pack(tuple(Sheet(sheet.kind, 1, tuple(sheet.spots)) for sheet in opened))


def _tall_first(group: Group, axis: Axis, choosy: bool) -> list[tuple[int, Want, Way]]:
    rows = [(place, want, _lying(group, want, axis)) for place, want in enumerate(group.wants)]
    return sorted(
        rows,
        key=lambda row: (
            len(row[1].kinds) * choosy,
            -_spans(row[2], axis)[1],
            -_spans(row[2], axis)[0],
            row[0],
        ),
    )


def _spans(thing: Way | Room, axis: Axis) -> tuple[int, int]:
    return (thing.along, thing.across) if axis == "x" else (thing.across, thing.along)


def _lying(group: Group, want: Want, axis: Axis) -> Way:
    """Return the way that lies lowest in its strip and still fits some stock."""
    fitting = [
        way for way in want.ways
        if any(way.along <= group.rooms[n].along and way.across <= group.rooms[n].across for n in want.kinds)
    ]  # fmt: skip
    return min(fitting, key=lambda way: _spans(way, axis)[1])


def _open(group: Group, want: Want, way: Way, used: list[int], axis: Axis, *, on_hand: bool) -> _Open | None:
    """Open the stock that is cheapest for its size, on hand or to be bought."""
    fitting = [
        n for n in sorted(want.kinds)
        if used[n] < group.rooms[n].most and group.rooms[n].on_hand == on_hand
        and way.along <= group.rooms[n].along and way.across <= group.rooms[n].across
    ]  # fmt: skip
    if not fitting:
        return None
    best = min(fitting, key=lambda n: (group.rooms[n].weight / group.rooms[n].area, n))
    used[best] += 1
    return _Open(best, *_spans(group.rooms[best], axis))


def _put(sheet: _Open, place: int, way: Way, axis: Axis, group: Group) -> bool:
    length, height = _spans(way, axis)
    if group.stages == 1:
        height = sheet.height
    strip = next((s for s in sheet.strips if height <= s.height and s.filled + length <= sheet.length), None)
    if strip is None:
        if sheet.filled + height > sheet.height or length > sheet.length:
            return False
        strip = _Strip(sheet.filled, height)
        sheet.strips.append(strip)
    at = (strip.filled, strip.start) if axis == "x" else (strip.start, strip.filled)
    sheet.spots.append(Spot(place, way.turned, *at, way.along, way.across))
    strip.filled += length
    return True
