"""Frames of posts and rails as an author asks for them, and panels let into frames."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from plankit.build import Row, pocket_screws
from plankit.build.joints_pocket import POCKETED, clear_of_pocket
from plankit.checks.clashes import closest
from plankit.checks.holes import keeps_clear
from plankit.checks.hollows import bored
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Box, Face, Part, other_axes
from plankit.plan.asked import known_face, made_of
from plankit.plan.handles import PartHandle, Parts, Several, flat
from plankit.plan.joining import Joining
from plankit.plan.placing import Given, grain_axis, panel_box, refuse_empty
from plankit.stock import Lumber, Sheet
from plankit.units import L, Length

STAGGER = L("1/4 in")
"""Screws of the rails that meet a post from two sides stand so far above and below the middle (common practice)."""
CLEAR_SHIFTS = (L("0 in"), L("3/8 in"), L("-3/8 in"), L("3/4 in"), L("-3/4 in"))
"""How far a let-in panel's screws are moved along an edge, tried in this order, to pass others (common practice)."""
CLEAR_BY = float(L("1/4 in").mm)
"""Middles of screws that pass in a rail stay so many millimeters apart (common practice)."""
PAST_CORNER = L("3 in")
"""From a let-in panel's corner to its first hole along the top and the bottom at least, so that it clears the pocket
of the rail beside the corner (common practice)."""
POSTS_OF: dict[Face, tuple[int, int]] = {"front": (0, 1), "back": (2, 3), "left": (0, 2), "right": (1, 3)}
"""Which two of the four posts stand on each side."""
UPRIGHTS: tuple[Face, ...] = ("front", "back", "left", "right")


class Frame(Several):
    """The parts of a frame: all of them in order, or by what they are.

    uprights  posts or stiles: of four posts front left, front right, back left, back right; of stiles left to right
    rails     from the lowest up; of a frame of posts, each height's front, back, left and right
    """

    def __init__(self, uprights: Sequence[PartHandle], rails: Sequence[PartHandle]) -> None:
        super().__init__((*uprights, *rails))
        self.uprights = tuple(uprights)
        self.rails = tuple(rails)

    def side(self, face: Face) -> list[PartHandle]:
        """Return the two posts and the rails of one side of a frame of posts, the lowest rail first."""
        known_face(face, "the frame")
        if face not in UPRIGHTS or len(self.uprights) != 4:
            raise PlanError(
                "a frame of four posts has four sides.",
                given=face,
                remedy=f"Name one of: {', '.join(UPRIGHTS)}.",
            )
        number = UPRIGHTS.index(face)
        posts = POSTS_OF[face]
        return [*(self.uprights[one] for one in posts), *self.rails[number::4]]


@dataclass(frozen=True, slots=True)
class _Opening:
    """What four parts leave open between them: the parts on the low and the high side along each of two axes."""

    beside: tuple[PartHandle, PartHandle]
    above: tuple[PartHandle, PartHandle]
    across: tuple[Axis, Axis]

    def faces(self) -> dict[Face, Length]:
        one, two = self.across
        return {
            LOW[one]: self.beside[0].part.box.high(one),
            HIGH[one]: self.beside[1].part.box.low(one),
            LOW[two]: self.above[0].part.box.high(two),
            HIGH[two]: self.above[1].part.box.low(two),
        }


class Framing(Joining):
    """The part of a plan that makes frames."""

    def let_in(
        self,
        name: str,
        stock: Sheet,
        *,
        frame: Parts,
        flush: Face = "front",
        drilled: Face | None = None,
        spacing: Given | None = None,
        shift: Given | None = None,
        grain: str | None = None,
    ) -> PartHandle:
        """Let a panel into a frame of four parts, flush with them on one face, with pocket screws all round.

        frame    the four parts round the opening, in any order: the panel's size is the opening's
        flush    the face that lies in one plane with theirs
        drilled  the face with the pocket holes; the opposite one where it is left out
        spacing  holes at most so far apart: 7 in where it is left out
        shift    moves the holes of every edge along it, to the right, back or up; where it is left out, only
                 those of an edge whose screws would meet others that the rail or post has already
        """
        made_of(stock, Sheet, name, "a panel")
        known_face(flush, name)
        back = drilled or OPPOSITE[flush]
        known_face(back, name)
        opening = _opening(flat(frame), AXIS_OF[flush], name)
        edge = opening.beside[0].part.box.face(flush)
        box, through = panel_box(name, stock, opening.faces() | {flush: edge})
        panel = self._add(
            Part(self._new_id(name), name, "panel", stock, box, grain_axis(name, grain, box, through), through,
                 grain_matters=grain != "any")
        )  # fmt: skip
        row = self._row(POCKETED, name, None, shift, spacing)
        for part in opening.beside:
            self._pocketed(panel, part, back, self._clear(panel, part, back, (row,)), flush)
        for part in opening.above:
            rows = [replace(row, margin=margin) for margin in (PAST_CORNER, clear_of_pocket(part.thickness))]
            self._pocketed(panel, part, back, self._clear(panel, part, back, rows), flush)
        return panel

    def _clear(self, panel: PartHandle, into: PartHandle, face: Face, rows: Sequence[Row]) -> Row:
        """The first of several rows, moved along its edge as little as keeps its screws clear of screws and holes."""
        there = [
            one.ends_mm()
            for joint in self._joints
            for one in joint.fasteners
            if into.id in {one.into, one.through}
        ]
        holes = tuple(bored(into.part))
        if rows[0].shift is not None:
            return rows[0]
        shifted = [row if by.mm == 0 else replace(row, shift=by) for row in rows for by in CLEAR_SHIFTS]
        for moved in shifted if there or holes else ():
            screws = pocket_screws(panel.part, into.part, face, row=moved)[0].fasteners
            if all(closest(one.ends_mm(), other) >= CLEAR_BY for one in screws for other in there) and all(
                keeps_clear(into.part, hole, one) for one in screws for hole in holes
            ):
                return moved
        return rows[0]

    def frame(
        self,
        name: str,
        post: Lumber,
        rail: Lumber | None = None,
        *,
        rails_at: Sequence[Given] = ("bottom", "top"),
        glued: bool = True,
        **faces: Given,
    ) -> Frame:
        """Make a frame of four posts with rails between them, all flush outside; pocket screws and glue hold it.

        faces     its six outer faces: left, right, front, back, bottom, top
        rail      the same stock as the posts where it is left out; its width stands upright
        rails_at  heights of the rails: "bottom", "top", or the height of a rail's underside

        The screws of rails that meet a post from two sides are set a little above and below one another.
        """
        made_of(post, Lumber, name, "a post")
        rail = rail or post
        made_of(rail, Lumber, name, "a rail")
        whole = self._whole(name, faces)
        posts = [
            self._piece(f"{name} post", post, _corner(whole, post, x, y), "z", "y")
            for y in ("front", "back")
            for x in ("left", "right")
        ]
        if not isinstance(rails_at, list | tuple):
            raise PlanError(
                "rails_at: a list of heights was expected.",
                where=name,
                given=repr(rails_at),
                remedy=f"For instance  rails_at=[{rails_at!r}]",
            )
        heights = [self._height(name, at, whole, rail) for at in rails_at]
        made = [self._rail(name, side, rail, posts, low) for low in heights for side in UPRIGHTS]
        frame = Frame(posts, made)
        self._stagger(frame, glued)
        return frame

    def _whole(self, name: str, faces: dict[str, Given]) -> Box:
        missing = [face for face in (*UPRIGHTS, "bottom", "top") if face not in faces]
        more = [face for face in faces if face not in {*UPRIGHTS, "bottom", "top"}]
        if missing or more:
            raise PlanError(
                "a frame takes its six outer faces.",
                where=name,
                given=", ".join(faces) or "none",
                remedy=f"{'Add' if missing else 'Leave out'} {', '.join(f'{face}=…' for face in missing or more)}",
            )
        whole = Box(**{face: self._read(name, f"the {face} face", value) for face, value in faces.items()})
        refuse_empty(name, whole)
        return whole

    def _height(self, name: str, at: Given, whole: Box, rail: Lumber) -> Length:
        if at == "bottom":
            return whole.bottom
        if at == "top":
            return whole.top - rail.width
        return self._read(name, "rails_at", at)

    def _rail(
        self, name: str, side: Face, rail: Lumber, posts: Sequence[PartHandle], low: Length
    ) -> PartHandle:
        """One rail between the two posts of a side, its outer face flush with theirs."""
        axis = AXIS_OF[side]
        along: Axis = "x" if axis == "y" else "y"
        first, last = POSTS_OF[side]
        start, end = posts[first].part.box, posts[last].part.box
        outer = start.face(side)
        ends = {
            LOW[along]: start.high(along),
            HIGH[along]: end.low(along),
            "bottom": low,
            "top": low + rail.width,
        }
        ends |= (
            {HIGH[axis]: outer, LOW[axis]: outer - rail.thickness}
            if side == HIGH[axis]
            else {LOW[axis]: outer, HIGH[axis]: outer + rail.thickness}
        )
        word = "side" if axis == "x" else side
        return self._piece(f"{name} {word} rail", rail, Box(**ends), along, axis)

    def _stagger(self, frame: Frame, glued: bool) -> None:
        posts = frame.uprights
        for number, rail in enumerate(frame.rails):
            side = UPRIGHTS[number % 4]
            first, last = POSTS_OF[side]
            shift = STAGGER if AXIS_OF[side] == "y" else -STAGGER
            for post in (posts[first], posts[last]):
                self._pocketed(rail, post, OPPOSITE[side], replace(POCKETED, shift=shift), side)
                if glued:
                    self.glue(rail, post)

    def _pocketed(self, part: PartHandle, into: PartHandle, face: Face, row: Row, flush: Face) -> None:
        """Pocket screws between two parts that are to be flush on a face."""
        joint, holes = pocket_screws(part.part, into.part, face, row=row)
        self._joints.append(replace(joint, flush=flush))
        self.join_work(part.id, holes)

    def _piece(self, name: str, stock: Lumber, box: Box, grain: Axis, through: Axis) -> PartHandle:
        refuse_empty(name, box)
        return self._add(Part(self._new_id(name), name, "board", stock, box, grain, through))


def _corner(whole: Box, post: Lumber, x: Face, y: Face) -> Box:
    """The box of the post at one corner of a frame."""
    ends: dict[str, Length] = {"bottom": whole.bottom, "top": whole.top}
    for face, size in ((x, post.thickness), (y, post.width)):
        axis = AXIS_OF[face]
        at = whole.face(face)
        ends |= (
            {LOW[axis]: at - size, HIGH[axis]: at}
            if face == HIGH[axis]
            else {LOW[axis]: at, HIGH[axis]: at + size}
        )
    return Box(**ends)


def _opening(frame: Sequence[PartHandle], through: Axis, name: str) -> _Opening:
    """Sort four parts into those on either side of an opening, and those below and above it."""
    one, two = other_axes(through)
    beside = [part for part in frame if part.part.box.extent(two).mm > part.part.box.extent(one).mm]
    above = [part for part in frame if part.part.box.extent(one).mm > part.part.box.extent(two).mm]
    if len(frame) != 4 or len(beside) != 2 or len(above) != 2:
        raise PlanError(
            "a panel is let in between four parts: two on either side, one below and one above.",
            where=name,
            given=", ".join(part.id for part in frame) or "none",
            remedy="For instance  frame=[left_post, right_post, bottom_rail, top_rail]",
        )
    left, right = sorted(beside, key=lambda part: part.part.box.low(one).mm)
    low, high = sorted(above, key=lambda part: part.part.box.low(two).mm)
    return _Opening((left, right), (low, high), (one, two))
