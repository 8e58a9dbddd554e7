"""Dimensioned views square to the build: front, side and top, each place counted from one edge."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Final

from plankit.build import Build, Thing
from plankit.build.seated import Seated
from plankit.drawing import dimension as dim
from plankit.drawing.below import sentences_below
from plankit.drawing.figures_reveals import drawn_reveals, reveal_words, reveals
from plankit.drawing.occupied import Occupied, quad_of
from plankit.drawing.placing import Placing, framed, on_the_page, ratio, scale_words
from plankit.drawing.primitives import Bounds, Figure, Line, Point, Primitive
from plankit.drawing.seen import fills_of, hidden_lines, lines_of, plain_kind, view_of
from plankit.drawing.view import View
from plankit.drawing.words import counted, listed, sentence, unit_note, within
from plankit.errors import PlanError
from plankit.parts import LOW, Axis, Bore, Box, Part, PocketHoles, box_of, volume
from plankit.parts import Point as Point3
from plankit.units import Length, Notation

WIDE, TALL = 118.0, 100.0
_SIDES: Final[dict[str, tuple[str, Axis, Axis]]] = {
    "front": ("front", "x", "z"),
    "side": ("right", "y", "z"),
    "top": ("top", "x", "y"),
}
"""View, the axis along the page and the axis up the page."""
_OUTSIDE: Final[dict[Axis, str]] = {"x": "left outside", "y": "front"}
_SEEN = 0.25
"""A part of which a smaller share is seen, through a gap beside a door for instance, is not measured in a view."""
_FLAT = 3
"""A part lies flat, and things stand on its upper face, where it is so many times as wide as it is thick."""
_APART = 0.6
"""Places on a view that lie closer together, in mm on the page, are not both measured."""
_FROM: Final = {"front": "the front", "side": "the right side", "top": "above"}


def orthographic(build: Build, notation: Notation, side: str) -> Figure:
    """The build from the front, the right side or above, to scale, with outside sizes and places inside.

    side    "front", "side" or "top"; from above what the top covers is shown dashed
    raises  PlanError for another name
    """
    if side not in _SIDES:
        raise PlanError("there is no such view.", where="view", given=side, remedy="Use front, side or top.")
    return on_the_page(lambda room: _drawn(build, notation, side, room))


def _drawn(build: Build, notation: Notation, side: str, room: float) -> Figure:
    name, along, up = _SIDES[side]
    covered = side == "top"
    view = view_of(build.parts, name, items=build.items)
    number = scale_of(build, notation, room)
    placing = Placing(1.0 / number, -view.bounds[0] / number, -view.bounds[1] / number)
    dashed = _covered(build.parts, name, placing) if covered else ()
    drawing: tuple[Primitive, ...] = (
        *fills_of(view, placing, lambda _part: "part"),
        *dashed,
        *lines_of(view, placing, plain_kind),
        *(_things(build, view, placing) if side == "front" else ()),
    )
    shown = build.parts if covered else tuple(p for p in build.parts if view.visible_area(p.id) > 0)
    sized = build.parts if covered else tuple(p for p in shown if _well_seen(p, view, along, up))
    chains = (
        _thinned(counted_along(sized, build.box, along, build.parts), placing.scale),
        _thinned(counted_along(sized, build.box, up, build.parts), placing.scale),
    )
    items: tuple[Primitive, ...] = (
        *drawing,
        *_across(view, placing, chains[0], notation, build.box),
        *_upwards(view, placing, chains[1], notation, build.box),
    )
    open_beside = reveals(build, view) if side == "front" else ()
    if open_beside:
        taken = Occupied()
        taken.add(items)
        items = (*items, *drawn_reveals(open_beside, view, placing, notation, taken))
    said_below = _foot(build.parts, chains, f"{scale_words(number)}. {unit_note(notation)}.", dashed=bool(dashed))
    if side == "front" and _not_made(build):
        said_below.append(f"Chain line, not made: {listed(within(thing.name) for thing in _not_made(build))}.")
    tail = sentences_below(items, said_below)
    title = f"{build.name} from {_FROM[side]}"
    said = f"{_words(build, shown, view, chains, notation)} {reveal_words(open_beside, notation)}".strip()
    return framed(side, (*items, *tail), title, said)


def _not_made(build: Build) -> tuple[Thing | Seated, ...]:
    """What is not made and must find room, somebody's knees included."""
    return (*build.things, *build.seated)


def _things(build: Build, view: View, placing: Placing) -> tuple[Line, ...]:
    """The outline of everything that is not made but must find room in the piece."""
    found = []
    for thing in _not_made(build):
        box = thing.box
        corners = Point3(box.left, box.front, box.bottom), Point3(box.right, box.front, box.top)
        (left, low), (right, high) = (placing.at(view.project(corner.mm())) for corner in corners)
        ring = ((left, low), (right, low), (right, high), (left, high), (left, low))
        found.append(Line(ring, "assembly"))
    return tuple(found)


def _covered(parts: Sequence[Part], name: str, placing: Placing) -> tuple[Line, ...]:
    """What the top covers, without the holes in it: they would be more dashes than can be read."""
    plain = (
        replace(part, features=tuple(f for f in part.features if not isinstance(f, Bore | PocketHoles)))
        for part in parts
    )
    return hidden_lines(view_of(plain, name, hidden=True, fills=False), placing)


def _foot(parts: Sequence[Part], chains: Sequence["Chain"], first: str, *, dashed: bool) -> list[str]:
    """What stands below the view: scale and unit, where the 0 of each chain lies, what is dashed."""
    zeros = [zero_words(parts, chain, chains) for chain in chains if chain.places]
    said = [first]
    if zeros:
        said.append(f"0: {'; '.join(zeros)}.")
    if dashed:
        said.append("Dashed: under the top.")
    return said


def _well_seen(part: Part, view: View, along: Axis, up: Axis) -> bool:
    """Whether so much of a part is seen that one looks for its sizes in the view."""
    box = box_of(part)
    face = float(box.extent(along).mm * box.extent(up).mm)
    return view.visible_area(part.id) >= _SEEN * face


def _thinned(chain: "Chain", scale: float) -> "Chain":
    """The chain without places that lie so close after another, on the page, that no line could be told from it."""
    kept: list[tuple[Length, tuple[str, ...]]] = []
    last = 0.0
    for at, names in chain.places:
        far = float(at.mm) * scale
        if far - last >= _APART:
            kept.append((at, names))
            last = far
    return replace(chain, places=tuple(kept))


def zero_words(parts: Sequence[Part], chain: "Chain", chains: Sequence["Chain"]) -> str:
    """Where a chain's 0 lies: "floor", or the end or edge of the largest part that begins there.

    A part that begins where all chains of the view do goes before larger ones: one corner to measure from.
    """
    if chain.axis == "z":
        return "floor"
    if not chain.start.mm:
        return _OUTSIDE[chain.axis]
    there = [part for part in parts if box_of(part).low(chain.axis) == chain.origin]
    corner = [part for part in there if all(box_of(part).low(one.axis) == one.origin for one in chains)]
    host = max(corner or there, key=lambda part: (volume(part), part.id))
    kind = "end" if host.grain == chain.axis else "face" if host.through == chain.axis else "edge"
    return f"{LOW[chain.axis]} {kind} of the {within(host.name)}"


@dataclass(frozen=True, slots=True)
class Chain:
    """Places counted along one axis from one origin, with the names of the parts that begin there.

    whole   the outside size along the axis;  start: how far the origin lies from its lower end
    origin  where the tape is hooked, in the build
    first   names of the parts that stand out beyond the origin as far as anything does
    """

    axis: Axis
    whole: Length
    start: Length
    places: tuple[tuple[Length, tuple[str, ...]], ...]
    origin: Length
    first: tuple[str, ...] = ()


def counted_along(parts: Sequence[Part], whole: Box, axis: Axis, every: Sequence[Part] = ()) -> Chain:
    """Where parts begin along an axis, counted from where the tape hooks; what begins there is left out.

    Heights also tell the upper face of what lies flat, on which things stand.

    every  all parts, of which a view measures some: the tape hooks on what stands outermost, seen or not
    """
    origin = origin_of(every or parts, whole, axis)
    found: dict[Fraction, tuple[Length, dict[str, None]]] = {}
    for part in parts:
        for at, name in _ends(part, axis):
            if origin < at < whole.high(axis):
                found.setdefault(at.mm, (at - origin, {}))[1][name] = None
    places = tuple((found[mm][0], tuple(sorted(found[mm][1]))) for mm in sorted(found))
    start = origin - whole.low(axis)
    out = {part.name for part in parts if box_of(part).low(axis) == whole.low(axis)} if start.mm else set()
    return Chain(axis, whole.extent(axis), start, places, origin, tuple(sorted(out)))


def _ends(part: Part, axis: Axis) -> Iterator[tuple[Length, str]]:
    """What is measured of a part along an axis: where it begins, and the upper face of one that lies flat."""
    box = box_of(part)
    yield box.low(axis), part.name
    thick = box.extent("z").mm
    if axis == "z" and not part.leans and min(box.extent("x").mm, box.extent("y").mm) >= _FLAT * thick:
        yield box.high(axis), f"upper face of the {within(part.name)}"


def origin_of(parts: Sequence[Part], whole: Box, axis: Axis) -> Length:
    """Where the tape is hooked: the floor for heights, else the outermost edge that parts share.

    One part that stands out alone, such as a top that overhangs, is no edge to measure the others from.
    """
    if axis == "z":
        return whole.low(axis)
    lows = sorted((box_of(part).low(axis) for part in parts), key=lambda low: low.mm)
    return next((one for one, other in pairwise(lows) if one == other), whole.low(axis))


def scale_of(build: Build, notation: Notation, room: float = 1.0) -> int:
    """One scale for all three views, 1 : so many."""
    width, depth, height = (float(side.mm) for side in build.box.size)
    return ratio(notation.unit, max(width, depth), max(height, depth), WIDE * room, TALL * room)


def _of_wood(view: View, placing: Placing, box: Box) -> tuple[Point, Point]:
    """Two corners of the parts alone on the page: a pull or a bracket that stands out is not measured."""
    far = Point3(box.right, box.back, box.top)
    return placing.at(view.project(box.corner.mm())), placing.at(view.project(far.mm()))


def _across(view: View, placing: Placing, chain: Chain, notation: Notation, box: Box) -> tuple[Primitive, ...]:
    """The outside size above the view; places below it, so that no extension line runs through a number."""
    (_, top), (_, bottom) = placing.at(view.bounds[:2]), placing.at(view.bounds[2:])
    left, right = sorted(x for x, _ in _of_wood(view, placing, box))
    whole = dim.Dimension((left, top), (right, top), (1.0, 0.0), (0.0, -1.0), 6.0, notation.bare(chain.whole))
    origin = (left + float(chain.start.mm) * placing.scale, bottom)
    spots = tuple(
        ((origin[0] + float(at.mm) * placing.scale, bottom), notation.bare(at)) for at, _ in chain.places
    )
    out = _overhang((left, bottom), origin, (1.0, 0.0), (0.0, 1.0), _bare_start(chain, notation))
    return *dim.drawn(whole), *out, *_places(origin, spots, (1.0, 0.0), (0.0, 1.0), beyond=bool(out))


def _upwards(view: View, placing: Placing, chain: Chain, notation: Notation, box: Box) -> tuple[Primitive, ...]:
    """The outside size at the left of the view; places at its right."""
    (left, _), (right, _) = placing.at(view.bounds[:2]), placing.at(view.bounds[2:])
    top, bottom = sorted(y for _, y in _of_wood(view, placing, box))
    whole = dim.Dimension(
        (left, bottom), (left, top), (0.0, -1.0), (-1.0, 0.0), 6.0, notation.bare(chain.whole)
    )
    origin = (right, bottom - float(chain.start.mm) * placing.scale)
    spots = tuple(
        ((right, origin[1] - float(at.mm) * placing.scale), notation.bare(at)) for at, _ in chain.places
    )
    out = _overhang((right, bottom), origin, (0.0, -1.0), (1.0, 0.0), _bare_start(chain, notation))
    return *dim.drawn(whole), *out, *_places(origin, spots, (0.0, -1.0), (1.0, 0.0), beyond=bool(out))


def _bare_start(chain: Chain, notation: Notation) -> str:
    """How far something stands out beyond the origin, as a number; "" where nothing does."""
    return notation.bare(chain.start) if chain.start.mm > 0 and chain.places else ""


def _overhang(end: Point, origin: Point, along: Point, away: Point, text: str) -> tuple[Primitive, ...]:
    """What stands out beyond the origin, nearer to the view than the places; its number lies outside."""
    if not text:
        return ()
    inner = Occupied(boxes=[quad_of(_ahead_of(origin, along))])
    return dim.drawn(dim.Dimension(end, origin, along, away, 4.0, text), inner)


def _ahead_of(origin: Point, along: Point) -> Bounds:
    """The paper beyond the origin, where the places' extension lines run."""
    x, y = origin
    return (x, y - 1e3, x + 1e3, y + 1e3) if along[0] else (x - 1e3, y - 1e3, x + 1e3, y)


def _places(
    origin: Point, spots: tuple[tuple[Point, str], ...], along: Point, away: Point, *, beyond: bool
) -> tuple[Primitive, ...]:
    """Places counted from the origin, beyond the dimension of what stands out past it."""
    far = 9.5 if beyond else 5.0
    return dim.running(dim.Running(origin, spots, along, away, far)) if spots else ()


_EDGES: Final[dict[Axis, tuple[str, str]]] = {
    "x": ("From the left edge", "across"),
    "y": ("From the front edge", "deep"),
    "z": ("From the floor", "high"),
}


def _words(
    build: Build, shown: Sequence[Part], view: View, chains: tuple[Chain, Chain], notation: Notation
) -> str:
    sizes = listed(f"{notation.both(chain.whole)} {_EDGES[chain.axis][1]}" for chain in chains)
    said = [
        f"{view.direction.words}. {build.name}, {sizes}.",
        f"Parts shown: {counted([part.name for part in shown])}.",
    ]
    for chain in chains:
        if chain.places:
            places = "; ".join(
                f"{listed(within(name) for name in names)} at {notation.both(at)}" for at, names in chain.places
            )
            said.append(sentence(f"{_EDGES[chain.axis][0]}: {places}"))
        if chain.first and chain.places:
            stands = "stands" if len(chain.first) == 1 else "stand"
            said.append(
                sentence(
                    f"the {listed(within(name) for name in chain.first)} {stands} out "
                    f"{notation.both(chain.start)} beyond it"
                )
            )
    return " ".join(said)
