"""Whether each part can be put in after what is already there, step by step."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from plankit.build import Build
from plankit.build.held import held_together
from plankit.build.wall import cleat_under
from plankit.checks.ajar import has_play
from plankit.checks.blocks import Ends, Taken, taken
from plankit.checks.moves import SAID, WAYS, Way, free_way, meets, moved_along, stopped_ways
from plankit.checks.taking_apart import locked
from plankit.checks.wording import gathered
from plankit.finding import Finding, Level
from plankit.parts import Notch, Part
from plankit.units import Length, Notation

GEOMETRY = "geometry of the build, with straight moves along its axes, in the order of its steps"
_CANDIDATES = 60
"""How many places along a way are tried for a way round the corner."""

_WALL = "the wall"
"""What a cleat on the wall belongs to: the piece is lifted off it, whichever of the two came first."""

type Group = tuple[Taken, ...]


@dataclass(frozen=True, slots=True)
class _Stuck:
    """A part that arrives in a step and cannot get where it belongs.

    step     the step's number, from 1
    against  all that it is locked in
    """

    step: int
    arriving: Taken
    against: Group


def assembling(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every part that cannot be put in after what its step finds in place.

    Parts of one step may go in in any order, alone or joined beforehand; parts that no joint holds yet may be
    taken out again to make way. Doors and drawers are no hindrance to the rest, nor the rest to them: that is
    for the checks of what moves. A build whose steps are not told yet has no findings.
    """
    heap = _Heap(build)
    return gathered(_finding(stuck, notation) for stuck in _all_stuck(build, heap))


class _Heap:
    """Every part of a build by its id, and what stops what, asked once."""

    def __init__(self, build: Build) -> None:
        self.parts = {part.id: taken(part) for part in build.parts}
        self.movers = {part_id: moving.name for moving in build.moving for part_id in moving.parts}
        on_the_wall = (cleat_under(part, build.parts) for part in build.parts)
        self.movers |= {one.id: _WALL for one in on_the_wall if one is not None}
        self._known: dict[tuple[str, str], frozenset[Way]] = {}

    def stopped(self, moved: Taken, other: Taken) -> frozenset[Way]:
        """The ways along which one part is stopped by another; none where only one of them moves in use."""
        pair = moved.part.id, other.part.id
        if pair not in self._known:
            apart = self.movers.get(pair[0]) != self.movers.get(pair[1])
            ways = frozenset[Way]() if apart else stopped_ways(moved, other)
            self._known[pair] = ways
            self._known[pair[1], pair[0]] = frozenset((index, -sense) for index, sense in ways)
        return self._known[pair]

    def locked(self, groups: Sequence[Group]) -> list[tuple[int, ...]]:
        """The groups that no straight move parts from one another."""

        def stopped(one: int, other: int) -> frozenset[Way]:
            ways = (self.stopped(moved, there) for moved in groups[one] for there in groups[other])
            return frozenset[Way]().union(*ways)

        return locked(len(groups), stopped)


def _all_stuck(build: Build, heap: _Heap) -> Iterable[_Stuck]:
    there: list[str] = []
    for number, brings in enumerate(build.order, start=1):
        new = tuple(heap.parts[one] for one in brings if one not in there)
        if new:
            yield from _stuck_in(heap, number, _held_together(build, heap, there), new)
        there += brings


def _held_together(build: Build, heap: _Heap, there: Sequence[str]) -> list[Group]:
    """Parts that are there, those that joints hold to one another as one."""
    groups = held_together(there, ((joint.holds, joint.to) for joint in build.joints))
    return [tuple(heap.parts[part.id] for part in build.parts if part.id in group) for group in groups]


def _stuck_in(heap: _Heap, number: int, there: list[Group], new: Group) -> Iterable[_Stuck]:
    groups = [*there, *((one,) for one in new)]
    for lock in heap.locked(groups):
        arriving = [groups[one][0] for one in lock if one >= len(there)]
        if not arriving:
            continue
        old = [groups[one] for one in lock if one < len(there)]
        alone = [one for one in arriving if old and heap.locked([*old, (one,)])]
        if alone:
            yield from (_Stuck(number, one, _flat(old)) for one in alone)
        else:
            yield _Stuck(
                number, arriving[0], _flat(groups[one] for one in lock if groups[one][0] != arriving[0])
            )


def _flat(groups: Iterable[Group]) -> Group:
    return tuple(one for group in groups for one in group)


def _finding(stuck: _Stuck, notation: Notation) -> Finding:
    part, obstacles = stuck.arriving.part, stuck.against
    level, how = _how_sure(stuck.arriving, obstacles)
    names = ", ".join(dict.fromkeys(one.part.name for one in _in_the_way(stuck.arriving, obstacles)))
    return Finding(
        level,
        "cannot be put in",
        part.name,
        f"{part.name} arrives in step {stuck.step}, but what is there by then lets it in from no side{how}.",
        f"step {stuck.step}, against {names}",
        _room(stuck.arriving, obstacles, notation),
        GEOMETRY,
        f"Bring {part.name} before what is in its way, give its notches more room, or let it stand in from it.",
    )


def _in_the_way(own: Taken, obstacles: Group) -> list[Taken]:
    """What stops a part soonest on each way."""
    found: list[Taken] = []
    for way in WAYS:
        stopping = [one for one in obstacles if way in stopped_ways(own, one)]
        found += sorted(stopping, key=lambda one: free_way(own.blocks, one.blocks, way))[:1]
    return found


def _room(own: Taken, obstacles: Group, notation: Notation) -> str:
    """How far it comes out at most, and which way."""
    many = [block for one in obstacles for block in one.blocks]
    far = {way: free_way(own.blocks, many, way) for way in WAYS}
    best = max(WAYS, key=lambda way: (round(far[way], 3), -WAYS.index(way)))
    if far[best] < 1:
        return ""
    return f"it moves {notation.length(Length.of_mm(round(far[best])))} {SAID[best]} at most"


def _how_sure(own: Taken, obstacles: Group) -> tuple[Level, str]:
    if not all(one.exact for one in (own, *obstacles)):
        return "look at", " in a straight line"
    near = [block for one in obstacles for block in one.blocks]
    if _round_a_corner(own.blocks, near):
        return (
            "for information",
            " in one straight move; it goes in in two, one after the other at a right angle",
        )
    touched = tuple(one for one in obstacles if _near(own.around, one.around))
    if has_play(own, touched):
        return "look at", " in a straight line; it may go in tilted"
    if any(_only_nominal(one.part) for one in (own, *touched)):
        return "look at", " as it is drawn; what is measured on the piece is cut with some room"
    return "must fix", ", not even tilted"


def _only_nominal(part: Part) -> bool:
    """Whether sizes of a part are only nominal: it is cut to fit, or a notch is traced from the piece itself."""
    return bool(part.fit_to) or any(isinstance(one, Notch) and one.trace for one in part.features)


def _near(one: Ends, other: Ends) -> bool:
    """Whether two blocks lie within an inch of each other."""
    return all(
        min(one[2 * i + 1], other[2 * i + 1]) - max(one[2 * i], other[2 * i]) > -25.4 for i in range(3)
    )


def _round_a_corner(own: Sequence[Ends], others: Sequence[Ends]) -> bool:
    """Whether blocks come free in two straight moves, the second square to the first."""
    for way in WAYS:
        most = free_way(own, others, way)
        for by in _worth_trying(own, others, way, most):
            there = moved_along(own, way, by)
            if any(not meets(there, others, second) for second in WAYS if second[0] != way[0]):
                return True
    return False


def _worth_trying(own: Sequence[Ends], others: Sequence[Ends], way: Way, most: float) -> list[float]:
    """Distances at which an end of a block comes level with an end of another."""
    index, sense = way
    found = {
        round(sense * (other[2 * index + b] - one[2 * index + a]), 3)
        for one in own
        for other in others
        for a in (0, 1)
        for b in (0, 1)
    }
    return sorted(by for by in found if 0 < by <= most + 0.001)[:_CANDIDATES]
