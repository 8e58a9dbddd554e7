"""The faces of a part as they are after notches, grooves and dadoes are cut: outer ones, and those inside a cut.

Exact, and in the part's own axes: of a part that leans with its group, before it is turned.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Bore,
    Box,
    Face,
    Part,
    Point,
    other_axes,
)
from plankit.units import Length


@dataclass(frozen=True, slots=True)
class Surface:
    """A flat face of a part.

    face    which way it looks
    region  where it lies: a box without thickness along the axis it looks along
    """

    face: Face
    region: Box

    @property
    def plane(self) -> Length:
        """Where it lies on the axis it looks along."""
        return self.region.low(AXIS_OF[self.face])


def cuts_of(part: Part) -> tuple[Box, ...]:
    """Return the blocks that are cut out of a part (notches, grooves and the like), where they are in the build."""
    return tuple(cut for _, cut in named_cuts(part))


def named_cuts(part: Part) -> tuple[tuple[str, Box], ...]:
    """Return the blocks that are cut out of a part, each with what it is called: "notch", "groove"."""
    found: list[tuple[str, Box]] = []
    for feature in part.features:
        cut = getattr(feature, "cut", None)
        if isinstance(cut, Box):
            found.append((type(feature).__name__.lower(), _placed(part, cut)))
    return tuple(found)


def _placed(part: Part, cut: Box) -> Box:
    for axis in AXES:
        cut = cut.moved(axis, part.box.low(axis))
    return cut


def surfaces(part: Part) -> tuple[Surface, ...]:
    """Return a part's six outer faces, then the walls and bottoms inside each of its cuts, each as if it were whole.

    `opened` says what other cuts take of one.
    """
    outer = [Surface(face, _flat(part.box, face, part.box.face(face))) for face in FACES]
    return (*outer, *(inner for cut in cuts_of(part) for inner in _inside(part.box, cut)))


def opened(part: Part, surface: Surface) -> tuple[Box, ...]:
    """Return the cuts of a part that take away the wood right behind one of its faces."""
    axis = AXIS_OF[surface.face]
    return tuple(cut for cut in cuts_of(part) if _opens(cut, axis, surface))


def _flat(box: Box, face: Face, plane: Length) -> Box:
    axis = AXIS_OF[face]
    return replace(box, **{LOW[axis]: plane, HIGH[axis]: plane})


def _inside(whole: Box, cut: Box) -> list[Surface]:
    """The walls and the bottom of a cut: on each side where wood is left beside it."""
    inner = whole.common(cut)
    found = []
    for face in FACES:
        axis = AXIS_OF[face]
        beside = (
            whole.high(axis).mm > cut.high(axis).mm
            if face == HIGH[axis]
            else whole.low(axis).mm < cut.low(axis).mm
        )
        if beside:
            found.append(Surface(OPPOSITE[face], _flat(inner, face, inner.face(face))))
    return found


def _opens(cut: Box, axis: Axis, surface: Surface) -> bool:
    """Whether a cut takes away the wood right behind a face."""
    plane, low, high = surface.plane.mm, cut.low(axis).mm, cut.high(axis).mm
    return low < plane <= high if surface.face == HIGH[axis] else low <= plane < high


def largest_left(region: Box, axis: Axis, taken: Iterable[Box]) -> Box | None:
    """Return the largest rectangle of a flat region that none of some boxes reaches into; None where none is left.

    axis    the one that the region lies across
    source  maximal empty rectangles: each that a box reaches into gives way to the up to four beside the box
    """
    left = [region]
    for cut in taken:
        left = [piece for one in left for piece in _beside(one, axis, cut)]
    if not left:
        return None
    return max(
        left, key=lambda one: (_area(one, axis), *(-end.mm for end in (one.left, one.front, one.bottom)))
    )


def _area(region: Box, axis: Axis) -> object:
    one, two = other_axes(axis)
    return region.extent(one).mm * region.extent(two).mm


def _beside(region: Box, axis: Axis, cut: Box) -> list[Box]:
    across = other_axes(axis)
    common = region.common(cut)
    if any(common.extent(a).mm <= 0 for a in across):
        return [region]
    found = []
    for a in across:
        if region.low(a).mm < cut.low(a).mm:
            found.append(replace(region, **{HIGH[a]: cut.low(a)}))
        if cut.high(a).mm < region.high(a).mm:
            found.append(replace(region, **{LOW[a]: cut.high(a)}))
    return found


def entry_plane(part: Part, heading: Face, head: Point, tip: Point) -> Length:
    """Return the plane of the face by which a straight line enters a part: of the bottom of a cut, where one is open.

    heading    the face it drives towards
    head, tip  two places on the line; where it meets no wood at all, the plane of the outer face
    """
    return _walk(part, heading, head, tip, part.box.face(OPPOSITE[heading]))


def exit_plane(part: Part, heading: Face, head: Point, tip: Point) -> Length:
    """Return the plane of the face by which a straight line leaves a part that it is driven through."""
    return _walk(part, OPPOSITE[heading], tip, head, part.box.face(heading))


def counterbored(part: Part, face: Face, at: Point, wide: Fraction, plane: Length) -> Length:
    """Return where a head so wide comes to lie that is driven in at a face: at the bottom of the blind bore it fits in.

    at     a place on its middle line
    wide   across the head, mm
    plane  of the face, or of the bottom of a cut; where there is no such bore, it stays there
    """
    found = plane
    for bore in part.features:
        if isinstance(bore, Bore) and bore.face == face and _takes(part, bore, at, wide):
            bottom = part.box.face(face) - bore.reach(part.box.size) * (1 if face == HIGH[AXIS_OF[face]] else -1)
            deeper = bottom < found if face == HIGH[AXIS_OF[face]] else bottom > found
            found = bottom if deeper else found
    return found


def _takes(part: Part, bore: Bore, at: Point, wide: Fraction) -> bool:
    """Whether a head fits in a blind bore; not in one that is square to a slanting cut, nor in a slot."""
    if bore.depth is None or bore.sawn or bore.travel is not None:
        return False
    away = [part.box.low(a).mm + bore.at[AXES.index(a)].mm - at.along(a).mm for a in other_axes(AXIS_OF[bore.face])]
    room = (bore.diameter.mm - wide) / 2
    return room >= 0 and sum(one * one for one in away) <= room * room


def _walk(part: Part, heading: Face, head: Point, tip: Point, plane: Length) -> Length:
    """From an outer face on through every cut that is open there, until wood comes."""
    axis = AXIS_OF[heading]
    left = list(cuts_of(part))
    while left:
        at = on_line(head, tip, axis, plane)
        inside = next((cut for cut in left if _holds(cut, axis, heading, at, plane)), None)
        if inside is None:
            break
        left.remove(inside)
        plane = inside.face(heading)
    return plane


def _holds(cut: Box, axis: Axis, heading: Face, at: Point, plane: Length) -> bool:
    near, far = cut.low(axis).mm, cut.high(axis).mm
    ahead = near <= plane.mm < far if heading == HIGH[axis] else near < plane.mm <= far
    return ahead and all(cut.low(a).mm < at.along(a).mm < cut.high(a).mm for a in other_axes(axis))


def on_line(head: Point, tip: Point, axis: Axis, plane: Length) -> Point:
    """Return where a straight line passes a plane across an axis."""
    start, way = head.along(axis).mm, tip.along(axis).mm - head.along(axis).mm
    share = (plane.mm - start) / way
    found = {axis: Length.of_mm(plane.mm)}
    for a in other_axes(axis):
        begin, end = head.along(a).mm, tip.along(a).mm
        found[a] = Length.of_mm(begin if begin == end else begin + (end - begin) * share)
    return Point(found["x"], found["y"], found["z"])
