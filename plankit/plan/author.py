"""The plan as its author writes it, line by line: parts, joints, steps, and what comes of them."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from plankit.build import (
    Assembly,
    Build,
    Thing,
)
from plankit.checks import Load
from plankit.errors import PlanError
from plankit.parts import FACES, Axis, Box, GlueUp, Part
from plankit.plan.asked import (
    banding,
    made_of,
    more_than_nothing,
    not_below_nothing,
    read_weight,
    spread_faces,
    three_sizes,
    whole_number,
    words,
)
from plankit.plan.drawers import Drawers
from plankit.plan.drawn import Drawn
from plankit.plan.face_frames import FaceFraming
from plankit.plan.facts import Draft
from plankit.plan.fittings import Fitting
from plankit.plan.handles import PartHandle, Parts, Spread, flat, pair_of, single, some
from plankit.plan.leaning import Leaning
from plankit.plan.mouldings import Moulding
from plankit.plan.opening import Opening
from plankit.plan.outdoor import Outdoor
from plankit.plan.pinning import Pinning
from plankit.plan.placing import Given, board_box, grain_axis, panel_box, read_faces, refuse_empty, slab_box
from plankit.plan.seating import Seating
from plankit.plan.spoken import answers_as
from plankit.plan.surroundings import Surroundings
from plankit.plan.tops import Topping
from plankit.plan.walls import WallHanging
from plankit.stock import Lumber, Sheet, slug
from plankit.units import Angle, L, Length, Mass, is_angle, told

THIN_BANDING = "0.5 mm"
"""Iron-on veneer (common practice)."""
NARROWEST_STRIP = L("1/2 in")
"""Narrower strips break as they are ripped, and slip as they are clamped (common practice)."""


@answers_as("plan", made_by="Plan")
class Plan(
    Drawn, Drawers, WallHanging, FaceFraming, Seating, Pinning, Topping, Leaning, Opening, Fitting, Moulding, Outdoor,
    Surroundings,
):
    """A plan for one piece of furniture.

    name         what the reader calls it
    unit         the unit of every number written without one, and the system that leads: "in" or "mm"
    mark         the smallest mark on the reader's tape: "1/16", "1/32"
    metric_mark  metric lengths go to whole ("1") or half ("1/2") millimetres
    shop         the author's shop file, beside the notebook; common practice where it is left out
    """

    # What is given

    def given(self, **values: Given | Angle) -> Any:
        """Return the plan's parameters as lengths, in the order they are named; one alone if there is one.

        Everything worked out from them remembers how, so that it can be explained and worked out again. An angle
        is told by its unit, lean="8 deg", and is one: `plan.splay(leg, left=lean)`.
        """
        found = []
        for name, value in values.items():
            if name in self._givens:
                raise PlanError(
                    "this parameter is given twice.", where=name, remedy="Use another name, or drop one."
                )
            try:
                self._givens[name] = self._told(value, name)
            except PlanError as error:
                raise PlanError(error.what, where=name, given=error.given, remedy=error.remedy) from None
            found.append(self._givens[name])
        return found[0] if len(found) == 1 else tuple(found)

    def _told(self, value: Given | Angle, name: str) -> Length | Angle:
        """A parameter as it was written: an angle where its unit says so, else a length that remembers its name."""
        if isinstance(value, Angle) or (isinstance(value, str) and is_angle(value)):
            return Angle.read(value)
        return Length.given(name, L(value, self.unit), book=self.book)

    def count(self, *, least: int = 1, **values: int) -> Any:
        """Return a number of things that readers may change: `cubbies = plan.count(cubbies=cubbies, least=2)`.

        least   the plan works for no fewer
        raises  PlanError for what is no whole number, or too few
        """
        if not values:
            raise PlanError("a count has a name.", remedy="For instance  cubbies = plan.count(cubbies=cubbies)")
        found = [whole_number(value, name, "", least) for name, value in values.items()]
        return found[0] if len(found) == 1 else tuple(found)

    # Parts

    def panel(self, name: str, stock: Sheet, *, grain: str | None = None, **faces: Given) -> PartHandle:
        """Make a part of sheet material: five faces are given, the sheet's thickness gives the sixth.

        grain  the way the face grain runs: "left-right", "front-back", "up", or "any" where it does not
               matter; along the longer side where it is left out
        """
        self._known_faces(name, faces)
        made_of(stock, Sheet, name, "a panel")
        box, through = panel_box(name, stock, read_faces(name, faces, self.unit))
        axis = grain_axis(name, grain, box, through)
        return self._add(
            Part(self._new_id(name), name, "panel", stock, box, axis, through, grain_matters=grain != "any")
        )

    def board(
        self,
        name: str,
        stock: Lumber,
        *,
        runs: str,
        wide: str | None = None,
        length: Given | None = None,
        **faces: Given,
    ) -> PartHandle:
        """Make a part of lumber: both ends or one end and a length, and one face in each direction across.

        runs  the way its length lies: "left-right", "front-back" or "up"
        wide  the way its width lies; a square one needs none
        """
        self._known_faces(name, faces)
        made_of(stock, Lumber, name, "a board")
        long = None if length is None else self._read(name, "length", length)
        box, grain, through = board_box(name, stock, runs, wide, read_faces(name, faces, self.unit), long)
        return self._add(Part(self._new_id(name), name, "board", stock, box, grain, through))

    def glue_up(
        self,
        name: str,
        stock: Lumber,
        *,
        boards: int,
        trim_each_end: Given = "1/2",
        trim_each_edge: Given = "1/8",
        flatten: Given = 0,
        **faces: Given,
    ) -> PartHandle:
        """Make a slab glued up from ripped boards; its five faces are the finished ones.

        boards          how many boards lie side by side
        trim_each_end   what is left on for trimming to length after gluing
        trim_each_edge  what is left on for trimming to width after gluing
        flatten         what planing and sanding take off the thickness
        raises          PlanError where the boards are too narrow for the finished width
        """
        self._known_faces(name, faces)
        made_of(stock, Lumber, name, "a glue-up")
        whole_number(boards, "boards", name)
        off, end, edge = (
            not_below_nothing(self._read(name, what, value), what, name)
            for what, value in (
                ("flatten", flatten),
                ("trim_each_end", trim_each_end),
                ("trim_each_edge", trim_each_edge),
            )
        )
        box, through = slab_box(name, stock.thickness - off, read_faces(name, faces, self.unit))
        grain = grain_axis(name, None, box, through)
        part = Part(self._new_id(name), name, "glue-up", stock, box, grain, through)
        blank = (part.length + end * 2, part.width + edge * 2, stock.thickness)
        rip = blank[1].portion(boards)
        together = f"one board of {stock.nominal} is" if boards == 1 else f"{boards} boards of {stock.nominal} are"
        if rip < NARROWEST_STRIP:
            raise PlanError(
                f"{boards} boards would be strips {told(rip)} wide each: too narrow to rip and to glue.",
                where=name,
                given=f"boards={boards}",
                remedy=f"Use {-int(-blank[1].mm // stock.width.mm)} boards, or up to {blank[1] // NARROWEST_STRIP}.",
            )
        if rip > stock.width:
            raise PlanError(
                f"{together} {told(stock.width * boards)} wide{'' if boards == 1 else ' together'}, "
                f"and {told(blank[1])} are needed before trimming.",
                where=name,
                remedy=f"Use {-int(-blank[1].mm // stock.width.mm)} boards, or wider ones.",
            )
        made = GlueUp(boards, rip, blank[0], blank)
        return self._add(Part(part.id, name, "glue-up", stock, box, grain, through, glue_up=made))

    def mirror(
        self,
        part: PartHandle,
        *,
        of: PartHandle | None = None,
        across: Given | None = None,
        axis: str = "left-right",
    ) -> PartHandle:
        """Return the mirror image of a part in the middle of another: `plan.mirror(side, of=floor)`.

        It has the part's cuts and the holes bored in it, but none that came with its joints or its hardware: say
        those of the image too.

        across  instead of `of`: the width (or depth) of a piece that starts at the origin
        axis    "left-right" or "front-back"
        """
        part = single(part, "what is mirrored")
        ways: dict[str, Axis] = {"left-right": "x", "front-back": "y"}
        if axis not in ways or (of is None) == (across is None):
            raise PlanError(
                "a mirror image takes one middle: that of a part, or of a width.",
                where=part.name,
                given=f'axis="{axis}"' if axis not in ways else "both of= and across=, or neither",
                remedy="For instance  plan.mirror(side, of=floor)",
            )
        way = ways[axis]
        if of is not None:
            middle = single(of, "of=").part.box.middle(way)
        else:
            middle = self._read(part.name, "across", across or 0).portion(2)
        return self._add(self.without_joints(part.part).mirrored(way, middle, self._new_id(part.name)))

    def at_corners(self, part: PartHandle, *, of: PartHandle) -> list[PartHandle]:
        """Return a part and its mirror images at the other corners of another: both in front, then both behind."""
        right = self.mirror(single(part, "what stands at the corners"), of=of)
        return [part, right, *(self.mirror(one, of=of, axis="front-back") for one in (part, right))]

    def spread(
        self,
        name: str,
        stock: Sheet,
        *,
        count: int,
        between: Sequence[PartHandle],
        room: Given = 0,
        grain: str | None = None,
        **faces: Given,
    ) -> Spread:
        """Make panels that stand evenly between two parts, left to right, and return them with their spaces.

        room    refuse spaces narrower than this
        raises  PlanError where the spaces would be nothing, or narrower than `room`
        """
        self._known_faces(name, faces)
        first, last = pair_of(between, name)
        whole_number(count, "count", name, least=0)
        across = spread_faces(name, read_faces(name, faces, self.unit))
        start, end = first.right, last.left
        clear = (end - start - stock.thickness * count).portion(count + 1)
        least = self._read(name, "room", room)
        if clear <= Length.zero() or clear < least:
            raise PlanError(
                f"the spaces between them would be {told(clear)} wide.",
                where=name,
                given=f"{count} between {first.id} and {last.id}",
                remedy="Make fewer, or make the piece wider.",
            )
        made = []
        for number in range(count):
            left = start + (clear + stock.thickness) * number + clear
            made.append(self.panel(name, stock, grain=grain, left=left, **faces))
        edges = [start, *(part.right for part in made)], [*(part.left for part in made), end]
        spaces = tuple(
            Box(low, high, across["front"], across["back"], across["bottom"], across["top"])
            for low, high in zip(*edges, strict=True)
        )
        self._spaces.append((f"{made[0].id if made else slug(name)} spaces", clear))
        return Spread(made, spaces, clear)

    def space(self, **faces: Given) -> Box:
        """Return the space between six faces, for what goes into it: `plan.space(left=tray.left, …)`."""
        self._known_faces("a space", faces)
        read = read_faces("a space", faces, self.unit)
        missing = [face for face in FACES if face not in read]
        if missing:
            raise PlanError(
                "a space lies between six faces.",
                where="plan.space",
                given=", ".join(read),
                remedy=f"Add {', '.join(f'{face}=…' for face in missing)}.",
            )
        box = Box(**read)
        refuse_empty("a space", box)
        return box

    def thing(
        self, name: str, *, size: tuple[Given, Given, Given], inside: Box, pounds: int | str = 0
    ) -> Box:
        """Put something that is not made (boots, a basket) into a space, in its middle, on its floor.

        The checks tell whether it fits.

        pounds  what it weighs when it is full, for the checks of what tips over
        """
        words(name, "what it is", 'plan.thing("A basket", …)')
        if not isinstance(inside, Box):
            raise PlanError(
                "a thing goes into a space.",
                where=name,
                given=inside.id if isinstance(inside, PartHandle) else repr(inside),
                remedy="Give the space between parts: inside=plan.space(left=…, right=…, front=…, back=…, …)",
            )
        wide, deep, high = (self._read(name, "size", one) for one in three_sizes(name, size))
        left = inside.middle("x") - wide.portion(2)
        front = inside.middle("y") - deep.portion(2)
        box = Box(left, left + wide, front, front + deep, inside.bottom, inside.bottom + high)
        refuse_empty(name, box)
        self._things.append(Thing(name, box, Mass.of_pounds(read_weight(name, pounds))))
        return box

    def band(
        self, *parts: Parts, edges: str, thickness: Given = THIN_BANDING, optional: bool = False
    ) -> None:
        """Put banding on edges: `plan.band(floor, edges="front left right")`.

        thickness  as applied; from 1 mm up, the part is cut smaller by it
        """
        thick = more_than_nothing(self._read("banding", "thickness", thickness), "thickness", "banding")
        named = words(edges, "edges", 'edges="front left right"', "banding").split()
        for part in flat(*parts):
            for edge in named:
                self.work_on(part.id, [banding(part.part, edge, thick, optional=optional)])

    def one_strip(self, name: str, *parts: Parts) -> None:
        """Cut parts side by side from one strip, so that the grain runs on: `plan.one_strip("fronts", upper, lower)`.

        Doors, drawer fronts, or two legs that are to match in color; in the order named, and as wide as each other.
        """
        words(name, "the strip's name", 'plan.one_strip("fronts", upper, lower)')
        inside = some(parts, "the parts after its name")
        sizes = {(part.part.stock.key, part.part.cut_size()[1].mm) for part in inside}
        if len(inside) < 2 or len(sizes) > 1:
            raise PlanError(
                "a strip holds two or more parts of one stock and one width.",
                where=f"the strip {name}",
                given=", ".join(
                    f"{p.name}: {self.notation.length(p.part.cut_size()[1])} of {p.part.stock.name}" for p in inside
                ),
                remedy="Make them as wide as each other, across the grain.",
            )
        for part in inside:
            self._parts[part.id] = replace(self._parts[part.id], strip=slug(name))

    def assembly(self, name: str, *parts: Parts) -> None:
        """Name parts that are carried as one once they are joined; the checks weigh them."""
        words(name, "the assembly's name", 'plan.assembly("Box", sides, floor)')
        inside = some(parts, "the parts after its name")
        self._assemblies.append(Assembly(name, tuple(part.id for part in inside)))

    def load(
        self,
        part: PartHandle,
        what: str,
        *,
        psf: int | str | None = None,
        middle: int | str | None = None,
        lasting: bool = True,
        limit: int | None = None,
    ) -> None:
        """Say what a part has to carry; tops and shelves without a load get a usual one.

        psf      pounds on every square foot; 0 where it carries nothing
        middle   pounds in the middle of the span: a person is commonly taken as 250
        lasting  whether it stays for good, so that the wood creeps under it
        limit    the most it may bend: 240 for a 240th of its span; the shop's limit where it is left out
        """
        part = single(part, "what carries the load")
        words(what, "what the load is", 'plan.load(shelf, "books", psf=40)', part.name)
        spread, pounds = (read_weight(part.name, one or 0) for one in (psf, middle))
        heavy = Mass.of_pounds(pounds)
        most = None if limit is None else Fraction(1, whole_number(limit, "limit", part.name))
        if psf is None and middle is None:
            raise PlanError(
                "how much it carries is not said.",
                where=part.name,
                given=what,
                remedy="Add psf=… or middle=…; psf=0 where it carries nothing",
            )
        self._loads.append(Load(part.id, what, spread, heavy, lasting, limit=most))

    # What comes of it

    def build(self) -> Build:
        """Return the build as it is now, frozen."""
        if not self._parts:
            raise PlanError(
                "nothing is made yet.",
                where=self.name,
                remedy="Make a part first: plan.panel(…) or plan.board(…)",
            )
        return Build(
            self.name,
            tuple(self._parts.values()),
            tuple(self._joints),
            tuple(self._things),
            tuple(self._assemblies),
            tuple(self._items),
            tuple(self._moving),
            surroundings=tuple(self._surroundings),
            wall=self._wall,
            seated=tuple(self._seated),
        )

    def draft(self) -> Draft:
        """Return the whole plan as it is now, frozen."""
        return self._draft(self.build(), tuple(self._givens.items()), tuple(self.book.conditions))

    @staticmethod
    def _known_faces(name: str, faces: dict[str, Any]) -> None:
        unknown = [face for face in faces if face not in FACES]
        if unknown:
            raise PlanError(
                "this is not one of a part's six faces.",
                where=name,
                given=", ".join(f"{face}=" for face in unknown),
                remedy=f"The faces are: {', '.join(FACES)}.",
            )
