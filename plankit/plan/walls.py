"""Hung on a wall, as an author writes it: where its studs are, screws into them, cleats that hook together."""

from collections.abc import Sequence

from plankit.build import Item, screw
from plankit.build.wall import Wall, cleat_under, hooked, wall_screws
from plankit.errors import PlanError
from plankit.parts import Box, Part
from plankit.plan.asked import made_of, more_than_nothing, not_below_nothing, whole_number
from plankit.plan.handles import PartHandle, Parts, Several, flat, some
from plankit.plan.joining import Joining
from plankit.plan.jupyter import Put
from plankit.plan.placing import Given, refuse_empty
from plankit.stock import Lumber
from plankit.units import Angle, Length, largest, smallest, told

ANGLES = ("45 deg", "30 deg")


class Cleats(Several):
    """Two cleats that hook together, and the strip that keeps the piece upright; as a list, all of them.

    piece, wall  the one on the piece, the one that is screwed to the wall
    spacer       as thick as they are, at the piece's lower edge; None where the author wants none
    """

    def __init__(self, piece: PartHandle, wall: PartHandle, spacer: PartHandle | None) -> None:
        super().__init__(one for one in (piece, wall, spacer) if one is not None)
        self.piece = piece
        self.wall = wall
        self.spacer = spacer


class WallHanging(Joining):
    """The part of a plan that hangs a piece on a wall."""

    def wall(
        self,
        *,
        first: Given,
        studs: Given = "16",
        board: Given = "1/2",
        stud_width: Given = "1 1/2",
        stud_depth: Given = "3 1/2",
    ) -> Wall:
        """Say what wall the piece hangs on: `plan.wall(first="4", studs="16")`, and screw to it with plan.wall_screw.

        first   where the middle of one stud is, from the piece's left
        studs   from the middle of one to the middle of the next (common practice: 16 or 24 in, 400 or 600 mm)
        board   what covers them (common practice: 1/2 in)
        """
        if self._wall is not None:
            raise PlanError("its wall is given twice.", where=self.name, remedy="Say it once.")
        apart, wide, deep = (
            more_than_nothing(self._read("the wall", what, given), what, "the wall")
            for what, given in (("studs", studs), ("stud_width", stud_width), ("stud_depth", stud_depth))
        )
        cover = not_below_nothing(self._read("the wall", "board", board), "board", "the wall")
        self._wall = Wall(apart, self._read("the wall", "first", first), cover, wide, deep)
        return self._wall

    def wall_screw(self, parts: Parts, *, screws: str = "#10 x 3", each: int = 1) -> Put:
        """Screw parts to the wall behind them, into every stud they pass; returns the screws.

        parts  a batten, the wall's half of a cleat, a rail inside the case: their backs lie against the wall
        each   how many for each stud, one above the other
        raises PlanError for a part that does not lie against the wall, or that passes no stud
        """
        if self._wall is None:
            raise PlanError(
                "nothing is known of the wall.",
                where=", ".join(part.name for part in flat(parts)),
                remedy='Say where its studs are first:  plan.wall(first="4", studs="16")',
            )
        spec = screw(screws)
        made: list[Item] = []
        for part in some(parts, "the parts"):
            many = whole_number(each, "each", part.name)
            self._refuse_off_the_wall(part)
            fixed = wall_screws(part.part, self._wall, spec, many)
            self._wall = self._wall.with_screws(fixed.screws)
            self._items += fixed.items
            self.join_work(part.id, fixed.holes)
            made += fixed.items
        return Put(made)

    def _refuse_off_the_wall(self, part: PartHandle) -> None:
        """Refuse a part that no screw to the wall goes through: one that stands before it, or hooks over a cleat."""
        others = list(self._parts.values())
        lower = cleat_under(part.part, others)
        if lower is not None:
            raise PlanError(
                "it is the piece's cleat, which hooks over the one on the wall and must come off it.",
                where=part.name,
                remedy=f"Screw {lower.name} to the wall: plan.wall_screw(cleats.wall).",
            )
        away = largest(*(one.box.back for one in others)) - part.part.box.back
        if away > Length.zero():
            raise PlanError(
                f"its back stands {told(away)} from the wall.",
                where=part.name,
                given=f"its back at {told(part.part.box.back)}; the piece reaches back to "
                f"{told(part.part.box.back + away)}",
                remedy="Screw on a batten, a cleat or a rail that lies against the wall, as far back as the piece is.",
            )

    def cleats(
        self,
        name: str,
        stock: Lumber,
        *,
        onto: Parts,
        left: Given,
        right: Given,
        top: Given,
        angle: str = "45 deg",
        screws: str = "#8 x 1 1/2",
        spacer: bool = True,
    ) -> Cleats:
        """Make two cleats that hook together behind a piece: `plan.cleats("Cleat", one_by_four, onto=sides, …)`.

        onto    the parts whose backs the piece's cleat is screwed to
        top     the upper edge of the piece's cleat
        angle   the saw's tilt for the edges that hook: "45 deg" or "30 deg"
        spacer  a strip of the same stock at the piece's lower edge, so that it hangs upright

        Gives the cleats as a list, or by name: .piece, .wall (screw it to the studs, plan.wall_screw(cleats.wall), and
        bring it before the piece or after it) and .spacer.
        """
        made_of(stock, Lumber, name, "a cleat")
        behind = flat(onto)
        if not behind:
            raise PlanError("a cleat is screwed to something.", where=name, remedy="Add  onto=[left, right]")
        low, high, up = (
            self._read(name, what, given) for what, given in (("left", left), ("right", right), ("top", top))
        )
        back = largest(*(part.part.box.back for part in behind))
        space = Box(low, high, back, back + stock.thickness, up - stock.width, up)
        pair = hooked(space, self._cleat_angle(name, angle))
        piece = self._cleat_part(f"{name} on the piece", stock, pair.piece)
        self.work_on(piece.id, [pair.on_piece])
        lower = self._cleat_part(f"{name} on the wall", stock, pair.wall)
        self.work_on(lower.id, [pair.on_wall])
        strip = self._cleat_spacer(name, stock, space, behind) if spacer else None
        for held in (piece, strip):
            if held is not None:
                self.screw(self._reached(held, behind, back), through=held, screws=screws)
        return Cleats(piece, lower, strip)

    @staticmethod
    def _cleat_angle(name: str, angle: str) -> Angle:
        found = Angle.read(angle)
        if not 15 <= found.degrees <= 60:
            raise PlanError(
                "cleats at this angle do not hook.",
                where=name,
                given=f'angle="{angle}"',
                remedy=f"Write one of: {', '.join(ANGLES)}.",
            )
        return found

    def _cleat_part(self, name: str, stock: Lumber, box: Box) -> PartHandle:
        refuse_empty(name, box)
        return self._add(Part(self._new_id(name), name, "board", stock, box, "x", "y"))

    def _cleat_spacer(
        self, name: str, stock: Lumber, space: Box, behind: Sequence[PartHandle]
    ) -> PartHandle:
        low = smallest(*(part.part.box.bottom for part in behind))
        box = Box(space.left, space.right, space.front, space.back, low, low + stock.width)
        if box.top > space.bottom:
            raise PlanError(
                "the piece is too low for a cleat and a spacer behind it.",
                where=name,
                given=f"{told(space.top - low)} from its lower edge to the cleat's upper one",
                remedy="Leave the spacer out, spacer=False, and hang it on a batten that fills its back.",
            )
        return self._cleat_part(f"{name} spacer", stock, box)

    def _reached(self, held: PartHandle, behind: Sequence[PartHandle], back: Length) -> list[PartHandle]:
        """The parts that a cleat or a spacer lies against."""
        box = held.part.box
        found = [
            part
            for part in behind
            if part.part.box.back.mm == back.mm
            and part.part.box.left.mm < box.right.mm
            and box.left.mm < part.part.box.right.mm
            and part.part.box.bottom.mm < box.top.mm
            and box.bottom.mm < part.part.box.top.mm
        ]
        if not found:
            raise PlanError(
                "it lies against none of the parts it is to be screwed to.",
                where=held.name,
                given=", ".join(part.name for part in behind),
                remedy="Name parts whose backs lie in one plane where the cleat runs.",
            )
        return found


__all__ = ["Cleats", "WallHanging"]
