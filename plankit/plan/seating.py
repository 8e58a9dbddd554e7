"""Tables as their author writes them: the frame under a top from its overhang, and who sits at it."""

from collections.abc import Callable

from plankit.build import Build
from plankit.build.seated import KNEE_DEPTH, KNEE_HEIGHT, KNEE_WIDTH, Seated, knee_room, knees_at
from plankit.errors import PlanError
from plankit.plan.asked import more_than_nothing, not_below_nothing
from plankit.plan.frames import UPRIGHTS, Frame, Framing
from plankit.plan.handles import PartHandle, single
from plankit.plan.placing import Given
from plankit.stock import Lumber
from plankit.units import Length, told


class Sitter:
    """Somebody who sits at a piece, as its author holds her."""

    def __init__(self, seated: Seated, building: Callable[[], Build]) -> None:
        self._seated = seated
        self._building = building

    @property
    def room(self) -> Length:
        """How high her knees have room, from the floor to the lowest part over them."""
        return knee_room(self._building().parts, self._seated)[0]

    def __repr__(self) -> str:
        return f"{self._seated.name}: {told(self.room)} of room for the knees"


class Seating(Framing):
    """The part of a plan that says what stands under a top, and who sits at it."""

    def under_top(
        self,
        name: str,
        leg: Lumber,
        apron: Lumber,
        *,
        top: PartHandle,
        overhang: Given | tuple[Given, Given],
        floor: Given = 0,
        aprons_at: tuple[Given, ...] = ("top",),
        glued: bool = True,
    ) -> Frame:
        """Make legs and aprons under a top from how far it overhangs: `plan.under_top(…, top=top, overhang="2")`.

        overhang   from the top's edges to the outside of legs and aprons: all round, or at the sides and then in front
                   and behind
        floor      where the legs end
        aprons_at  heights of aprons and stretchers, as those of a frame's rails
        raises     PlanError where the overhang leaves no room for legs
        """
        over = single(top, "top=").part
        sides, ends = overhang if isinstance(overhang, tuple) and len(overhang) == 2 else (overhang, overhang)
        if isinstance(sides, tuple) or isinstance(ends, tuple):
            raise PlanError(
                "an overhang is one length, or two: at the sides, and in front and behind.",
                where=name,
                given=f"overhang={overhang!r}",
                remedy='For instance  overhang="2"  or  overhang=("4", "1 1/2")',
            )
        x, y = (not_below_nothing(self._read(name, "overhang", one), "overhang", name) for one in (sides, ends))
        room = min(over.box.extent("x") - x * 2, over.box.extent("y") - y * 2, key=lambda one: one.mm)
        if room < leg.width * 2:
            raise PlanError(
                f"the overhang leaves {told(room)} for two legs.", where=name, remedy="Let the top overhang less."
            )
        return self.frame(
            name, leg, apron, rails_at=aprons_at, glued=glued,
            left=over.box.left + x, right=over.box.right - x, front=over.box.front + y, back=over.box.back - y,
            bottom=floor, top=over.box.bottom,
        )  # fmt: skip

    def seated(
        self,
        name: str,
        *,
        at: str = "front",
        knees: Given = KNEE_HEIGHT,
        wide: Given = KNEE_WIDTH,
        deep: Given = KNEE_DEPTH,
    ) -> Sitter:
        """Say that somebody sits at the middle of a side, and return the room for her knees: `plan.seated("A guest")`.

        The checks tell whether there is as much as is asked for, here or in what is made later.

        at     the side that she sits at: "left", "right", "front" or "back"
        knees  from the floor to what is over her thighs (common practice: 24 in)
        wide, deep  between legs, and in under the edge (common practice: 20 in and 16 in)
        """
        side = next((face for face in UPRIGHTS if face == at), None)
        if side is None:
            raise PlanError("one sits at an upright side.", where=name, given=f"at={at!r}",
                            remedy=f"Write one of: {', '.join(UPRIGHTS)}.")  # fmt: skip
        high, across, inwards = (
            more_than_nothing(self._read(name, what, one), what, name)
            for what, one in (("knees", knees), ("wide", wide), ("deep", deep))
        )
        made = knees_at(name, self.draft().build.box, side, across, inwards, high)
        self._seated.append(made)
        return Sitter(made, lambda: self.draft().build)
