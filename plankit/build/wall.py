"""The wall that a piece hangs on: where its studs are, the screws into them, and cleats that hook together."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.build.fasteners import Fastener, Spec
from plankit.build.items import Item
from plankit.build.joints_screws import clearance_hole
from plankit.errors import PlanError
from plankit.parts import Bevel, Bore, Box, Face, Part, Point, tangent
from plankit.units import Angle, L, Length, told

PRACTICE = "common practice"
STUD_SCREWS = 12
"""Screws of one part in one stud, at most: more would split it (common practice)."""
FROM_END = L("1 in")
"""From a wall screw to the end of what it holds, at least (common practice)."""
STUD_SPACINGS = (L("16 in"), L("24 in"), L("400 mm"), L("600 mm"))
"""How far apart studs commonly stand, centre to centre (common practice)."""
STUD_GRAVITY = Fraction("0.42")
"""Specific gravity of the studs: spruce-pine-fir (NDS's assigned value, from memory), the lightest usual stud."""
INTO_STUD = L("1 1/2 in")
"""How deep a wall screw should lie in the stud (common practice)."""
STUD_WIDE, STUD_DEEP = L("1 1/2 in"), L("3 1/2 in")
"""A dressed 2x4 on edge (PS 20)."""


@dataclass(frozen=True, slots=True)
class WallScrew:
    """One screw into a stud.

    part  id of the part it holds
    at    where its head is, in the build
    into  how deep its tip lies in the stud; below nothing where it does not reach it
    """

    part: str
    spec: Spec
    at: Point
    into: Length


@dataclass(frozen=True, slots=True)
class Wall:
    """A framed wall behind a piece.

    apart    from the middle of one stud to the middle of the next
    first    where the middle of one stud is, along x of the build
    board    what covers the studs: wallboard, plaster
    wide     of a stud, as it is seen from the room; `deep`, into the wall
    gravity  specific gravity of the studs
    screws   what is screwed into them
    """

    apart: Length
    first: Length
    board: Length
    wide: Length = STUD_WIDE
    deep: Length = STUD_DEEP
    gravity: Fraction = STUD_GRAVITY
    screws: tuple[WallScrew, ...] = ()

    def studs(self, low: Length, high: Length) -> tuple[Length, ...]:
        """Return the middles of the studs from one place to another, those on the ends included."""
        start = -(-(low - self.first) // self.apart)
        end = (high - self.first) // self.apart
        return tuple(self.first + self.apart * number for number in range(start, end + 1))

    def screws_in(self, part: str) -> tuple[WallScrew, ...]:
        """Return the screws through a part, by its id."""
        return tuple(screw for screw in self.screws if screw.part == part)

    def with_screws(self, screws: tuple[WallScrew, ...]) -> "Wall":
        """Return the wall with more screws in it."""
        return replace(self, screws=(*self.screws, *screws))


@dataclass(frozen=True, slots=True)
class WallFixed:
    """A part screwed to the wall: the screws, what is bought for them, and the part's holes."""

    screws: tuple[WallScrew, ...]
    items: tuple[Item, ...]
    holes: tuple[Bore, ...]


def wall_screws(part: Part, wall: Wall, spec: Spec, each: int) -> WallFixed:
    """Return screws through a part, whose back lies against the wall, into every stud that it passes.

    each    how many for each stud, one above the other
    raises  PlanError where it passes no stud, or takes more screws than a stud does
    """
    box = part.box
    if each > STUD_SCREWS:
        raise PlanError(
            f"no stud takes so many screws behind one part: {STUD_SCREWS} at most.",
            where=part.name,
            given=f"each={each}",
            remedy="Use thicker screws, or let it pass more studs.",
        )
    middles = wall.studs(box.left + FROM_END, box.right - FROM_END)
    if not middles:
        raise PlanError(
            "no stud stands behind it.",
            where=part.name,
            given=f"{told(box.extent('x'))} wide; studs {told(wall.apart)} apart, one at {told(wall.first)}",
            remedy="Make it longer, move the piece along the wall, or give first= where you found a stud.",
        )
    into = spec.length - box.extent("y") - wall.board
    heights = [box.bottom + box.extent("z") * Fraction(2 * row + 1, 2 * each) for row in range(each)]
    spots = [Point(x, box.front, z) for x in middles for z in heights]
    screws = tuple(WallScrew(part.id, spec, at, into) for at in spots)
    driven = [Fastener(spec, at, at.moved("y", spec.length), "back", part.id, part.id) for at in spots]
    items = tuple(_item(part, screw) for screw in screws)
    return WallFixed(screws, items, tuple(clearance_hole(part, one) for one in driven))


def _item(part: Part, screw: WallScrew) -> Item:
    half, at = screw.spec.diameter.portion(2), screw.at
    return Item(
        f"{screw.spec.name}, into a stud",
        "wall fixing",
        (part.id,),
        Box(at.x - half, at.x + half, part.box.front, part.box.back, at.z - half, at.z + half),
        compare="for studs of wood; in any other wall, the anchors that its makers name",
        source=PRACTICE,
    )


@dataclass(frozen=True, slots=True)
class Hooked:
    """Two cleats that hook together: the space each fills, and the edge that is sawn on it."""

    piece: Box
    wall: Box
    on_piece: Bevel
    on_wall: Bevel


def hooked(upper: Box, angle: Angle) -> Hooked:
    """Return a pair of cleats of one board: the upper on the piece, the lower on the wall behind it.

    upper   the board on the piece, before its lower edge is sawn
    angle   the saw's tilt: 45 or 30 degrees
    source  geometry: the sawn edges lie in one plane, which falls towards the wall, so that weight draws them together
    """
    back = upper.extent("y") * tangent(angle)
    high = upper.extent("z")
    if not Length.zero() < back < high:
        raise PlanError(
            "the edge would be sawn away, or not at all.",
            given=f"{told(back)} off {told(high)}",
            remedy='Use a wider board, or  angle="45 deg"  or  "30 deg".',
        )
    top = upper.bottom + back
    lower = replace(upper, top=top, bottom=top - high)
    return Hooked(upper, lower, Bevel("bottom", "front", back), Bevel("top", "back", back))


def cleat_under(part: Part, others: Iterable[Part]) -> Part | None:
    """Return the cleat on the wall that a cleat on the piece hooks over; None where a part is no such cleat."""
    if not _hooks(part, "bottom", "front"):
        return None
    return next((one for one in others if _hooks(one, "top", "back") and _in_one_plane(one.box, part.box)), None)


def _hooks(part: Part, edge: Face, short: Face) -> bool:
    return any(isinstance(one, Bevel) and (one.edge, one.short) == (edge, short) for one in part.features)


def _in_one_plane(lower: Box, upper: Box) -> bool:
    """Whether two cleats lie one under the other, the lower reaching up behind the upper one's sawn edge."""
    return (lower.front, lower.back) == (upper.front, upper.back) and lower.bottom < upper.bottom < lower.top
