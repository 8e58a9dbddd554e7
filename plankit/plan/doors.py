"""Doors as an author writes them: sized from what they close, so that nobody adds up thicknesses and gaps."""

from collections.abc import Mapping, Sequence

from plankit.build.doors import BETWEEN, INSET_GAP, REVEAL, equal_leaves, inset_edge, overlay_edge
from plankit.checks.stock_fit import sheet_sizes
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, OPPOSITE, Box, Face, Part
from plankit.plan.asked import made_of, not_below_nothing, whole_number
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, Several, Sizes, single
from plankit.plan.placing import RUNS, Given, refuse_empty
from plankit.shop import Shop
from plankit.stock import Sheet
from plankit.units import L, Length, told

NARROWEST_DOOR = L("2 in")
"""A narrower front holds no hinge: a cup is 35 mm across, and wood stays on both sides of it (common practice)."""

type Bound = PartHandle | Given
type Bounds = Mapping[Face, Bound]


class Doors(Several):
    """Doors of equal size, left to right, and what is left open round them.

    gap      round inset doors, or what overlay doors leave in sight of the case
    between  from one door to the next
    shop     its saw for sheets takes a kerf between two, and its sheets are so long
    """

    def __init__(self, doors: Sequence[PartHandle], gap: Length, between: Length, shop: Shop) -> None:
        super().__init__(doors)
        self.gap = gap
        self.between = between
        self._kerf = shop.sheet_kerf
        self._shop = shop

    @property
    def strip(self) -> Sizes:
        """One ripped strip that all of them are crosscut from: its length counts a kerf between two doors.

        Nothing is added for squaring its ends.

        raises  PlanError where no sheet that is sold, trimmed, is so long or so wide
        """
        first = self._parts[0]
        length = first.length * len(self) + self._kerf * (len(self) - 1)
        self._refuse_too_long(first.part, length, first.width)
        return Sizes(length, first.width, first.thickness)

    @property
    def stop(self) -> Length:
        """What the saw's stop is set to when they are crosscut from a strip: the length of one door."""
        return self._parts[0].length

    def _refuse_too_long(self, door: Part, length: Length, width: Length) -> None:
        if not isinstance(door.stock, Sheet):
            return
        sizes, source = sheet_sizes(door.stock, self._shop)
        ways = [(length, width)] if door.grain_matters else [(length, width), (width, length)]
        if any(long <= size[0] and wide <= size[1] for long, wide in ways for size in sizes):
            return
        raise PlanError(
            f"no sheet is large enough for one strip of {len(self)} doors ({source}).",
            where=door.name,
            given=f"a strip {told(length)} long and {told(width)} wide",
            remedy="Crosscut them from two strips, or one by one.",
        )


class SizingDoors(Bench):
    """The part of a plan that sizes doors."""

    def doors_in(
        self,
        name: str,
        stock: Sheet,
        *,
        left: Bound,
        right: Bound,
        bottom: Bound,
        top: Bound,
        count: int = 1,
        front: Given | None = None,
        gap: Given = INSET_GAP,
        between: Given | None = None,
        grain: str = "up",
    ) -> Doors:
        """Make doors of equal width inside an opening: `plan.doors_in("Door", ply, left=side, right=other, …)`.

        left, right, bottom, top  the parts round the opening, or where it ends
        front    their outer face; flush with the part at the left (or at 0) where it is left out
        gap      all round (common practice: 1/16 in)
        between  two doors; as wide as `gap` where it is left out
        """
        bounds: Bounds = {"left": left, "right": right, "bottom": bottom, "top": top}
        space = not_below_nothing(self._read(name, "gap", gap), "gap", name)
        apart = space if between is None else self._between(name, between)
        edges = {face: inset_edge(self._bound(name, face, one), face, space) for face, one in bounds.items()}
        flush = left.part.box.front if isinstance(left, PartHandle) else Length.zero()
        face = flush if front is None else self._read(name, "front", front)
        depth = (face, face + stock.thickness)
        doors = self._leaves(name, stock, edges, depth, (count, apart), grain)
        return Doors(doors, space, apart, self.shop)

    def door_in(self, name: str, stock: Sheet, **given: Bound) -> PartHandle:
        """Make one door inside an opening; it takes what `doors_in` takes, but for `count` and `between`."""
        return self.doors_in(name, stock, **given)[0]  # type: ignore[arg-type]

    def overlay_doors(
        self,
        name: str,
        stock: Sheet,
        *,
        left: PartHandle,
        right: PartHandle,
        bottom: PartHandle,
        top: PartHandle,
        count: int = 1,
        half: str = "",
        reveal: Given = REVEAL,
        between: Given = BETWEEN,
        grain: str = "up",
    ) -> Doors:
        """Make doors of equal width that stand before a case and cover its edges.

        left, right, bottom, top  the parts whose edges they cover; their backs lie against the part at the left
        half     faces where they share an edge with the next door and cover half of it: "right"
        reveal   what stays in sight of an edge that they cover whole (common practice: 1/16 in)
        between  two doors that meet (common practice: 1/8 in)
        """
        bounds: Mapping[Face, PartHandle] = {"left": left, "right": right, "bottom": bottom, "top": top}
        seen = not_below_nothing(self._read(name, "reveal", reveal), "reveal", name)
        apart = self._between(name, between)
        _refuse_other_faces(name, half, bounds)
        edges = {
            face: overlay_edge(
                single(one, f"{face}=").part,
                face,
                AXIS_OF[face],
                None if face in half.split() else seen,
                apart,
            )
            for face, one in bounds.items()
        }
        case = left.part.box.front
        doors = self._leaves(name, stock, edges, (case - stock.thickness, case), (count, apart), grain)
        return Doors(doors, seen, apart, self.shop)

    def overlay_door(self, name: str, stock: Sheet, **given: Bound) -> PartHandle:
        """Make one door before a case; it takes what `overlay_doors` takes, but for `count`."""
        return self.overlay_doors(name, stock, **given)[0]  # type: ignore[arg-type]

    def _between(self, name: str, between: Given) -> Length:
        return not_below_nothing(self._read(name, "between", between), "between", name)

    def _bound(self, name: str, face: Face, bound: Bound) -> Length:
        """Where an opening ends: at the facing side of a part, or at a length."""
        if isinstance(bound, PartHandle):
            return bound.part.box.face(OPPOSITE[face])
        return self._read(name, f"the {face} of its opening", bound)

    def _leaves(  # noqa: PLR0917 - the six faces of a row of doors
        self,
        name: str,
        stock: Sheet,
        edges: Mapping[Face, Length],
        depth: tuple[Length, Length],
        row: tuple[int, Length],
        grain: str,
    ) -> list[PartHandle]:
        made_of(stock, Sheet, name, "a door")
        if grain not in {"up", "left-right"}:
            raise PlanError(
                "face grain runs one of two ways in a door.",
                where=name,
                given=f'grain="{grain}"',
                remedy='Write one of: "up", "left-right"',
            )
        made = []
        for leaf in equal_leaves(edges["left"], edges["right"], whole_number(row[0], "count", name), row[1]):
            box = Box(leaf.low, leaf.high, *depth, edges["bottom"], edges["top"])
            refuse_empty(name, box)
            _refuse_narrow(name, box)
            made.append(self._add(Part(self._new_id(name), name, "panel", stock, box, RUNS[grain], "y")))
        return made


def _refuse_narrow(name: str, box: Box) -> None:
    wide = box.extent("x")
    if wide < NARROWEST_DOOR:
        raise PlanError(
            f"a door would be {told(wide)} wide between its gaps: it holds no hinge.",
            where=name,
            remedy="Make fewer doors, or smaller gaps.",
        )


def _refuse_other_faces(name: str, words: str, bounds: Mapping[Face, object]) -> None:
    unknown = [word for word in words.split() if word not in bounds]
    if unknown:
        raise PlanError(
            "doors share an edge at one of four faces.",
            where=name,
            given=f'half="{words}"',
            remedy=f"Write one or more of: {' '.join(bounds)}.",
        )
