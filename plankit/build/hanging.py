"""How a door hangs: at which edge, before the case or inside it, with how many hinges, turning about what."""

from dataclasses import dataclass
from itertools import count as counting
from typing import Literal

from plankit.build.mounting import into_face, point
from plankit.build.moving import Pivot
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Face, Part, other_axes, weight
from plankit.reference import door_kilograms_per_square_metre, hinge_classes
from plankit.units import L, Length, Mass, mixed, told

type Lap = Literal["inset", "half overlay", "full overlay"]

LAPS: tuple[Lap, ...] = ("inset", "half overlay", "full overlay")
FULL_FROM = L("12 mm")
"""A door that covers this much takes a straight arm, one that covers less a half-cranked one (common practice)."""
FLUSH = L("1/16 in")
"""A lid's edge and the outside of what it lies on may differ by so much and still take a hinge (common practice)."""
WIDEST_GAP = L("1/2 in")
"""No plain hinge lies in a wider gap under a lid (common practice)."""
CLASS_WIDTH = L("24 in")
TALLEST = L("100 in")
"""Height taken for the last row of the table of hinges by height, which has no end, to find what it carries."""


@dataclass(frozen=True, slots=True)
class Hanging:
    """How a door meets what it hangs on.

    door, on  their ids
    edge      the door's face at which it is hung: "left"; "bottom" for a flap
    out       the door's face that looks outwards
    lap       inset, half or full overlay
    cover     how far the door covers what it hangs on; below nothing, the gap beside an inset door
    """

    door: str
    on: str
    edge: Face
    out: Face
    lap: Lap
    cover: Length

    @property
    def across(self) -> Axis:
        """The axis from the hung edge to the free one."""
        return AXIS_OF[self.edge]

    @property
    def deep(self) -> Axis:
        """The axis of the door's thickness."""
        return AXIS_OF[self.out]

    @property
    def along(self) -> Axis:
        """The axis that the hinges stand along."""
        (axis,) = (axis for axis in AXES if axis not in {self.across, self.deep})
        return axis

    @property
    def inner(self) -> Face:
        """The door's face that looks into the case."""
        return OPPOSITE[self.out]

    @property
    def beside(self) -> Face:
        """The face of what it hangs on that looks into the opening."""
        return OPPOSITE[self.edge]


def front_word(front: Part) -> str:
    """Return what to call a front that hangs: one that lies level is a lid."""
    return "lid" if front.through == "z" else "door"


def hanging(door: Part, on: Part, lap: Lap | None = None, out: Face | None = None) -> Hanging:
    """Return how a door hangs on another part, found from where both are.

    lap     refuse anything else: "inset", or "half overlay" or "full overlay" where the author wants that arm
    out     the face that leads as it opens, where both lie in one plane; a lid's top, a door's front or left otherwise
    raises  PlanError where the door neither lies beside the part nor covers it
    """
    axis = _across(door, on)
    edge = LOW[axis] if on.box.middle(axis).mm < door.box.middle(axis).mm else HIGH[axis]
    cover = (
        on.box.high(axis) - door.box.low(axis)
        if edge == LOW[axis]
        else door.box.high(axis) - on.box.low(axis)
    )
    outer, inset = _outwards(door, on, out)
    if inset == (cover.mm > 0):
        _refuse(door, on, cover, inset=inset)
    found: Lap = "inset" if inset else "full overlay" if cover >= FULL_FROM else "half overlay"
    if lap is not None and (lap == "inset") != inset:
        raise PlanError(
            f"it stands {'inside' if inset else 'before'} the case, so its hinges cannot be {lap}.",
            where=door.name,
            given=f'lap="{lap}"',
            remedy="Leave lap= out, or move the door.",
        )
    return Hanging(door.id, on.id, edge, outer, lap or found, cover)


def leaf_hanging(door: Part, on: Part, out: Face | None = None) -> Hanging:
    """Return how a door hangs on plain leaves: beside its edge, or between a lid and the edge that it lies on.

    Of a lid on top of its back one leaf lies under the lid, the other on the back's upper edge, and the knuckle stands
    out behind both: what is beside an edge of a door is here under the lid.
    raises  PlanError as `hanging` does, and for a lid that is not flush with the outside of what it lies on
    """
    if door.through != "z" or door.box.bottom < on.box.top:
        return hanging(door, on, out=out)
    if out is not None and out != "top":
        raise PlanError(
            f"a lid that lies on {on.name} opens upwards.",
            where=door.name,
            given=f'towards="{out}"',
            remedy='Write towards="top", or leave it out.',
        )
    above = door.box.bottom - on.box.top
    if above > WIDEST_GAP:
        raise PlanError(
            f"it lies {told(above)} above {on.name}, so no hinge reaches from one to the other.",
            where=door.name,
            given=f"on={on.id}",
            remedy=f"Let the lid lie on it, bottom={on.id}.top, or hang it on the part that it lies on.",
        )
    across = _across(door, on)
    outside = LOW[across] if on.box.middle(across).mm < door.box.middle(across).mm else HIGH[across]
    if abs(door.box.face(outside).mm - on.box.face(outside).mm) > FLUSH.mm:
        raise PlanError(
            f"its {outside} edge is not flush with {on.name}, so a hinge between the two has no place for its knuckle.",
            where=door.name,
            given=f"{told(abs(door.box.face(outside) - on.box.face(outside)))} apart",
            remedy=f"Let the lid end where {on.name} does: {outside}={on.id}.{outside}.",
        )
    return Hanging(door.id, on.id, "bottom", outside, "inset", on.box.top - door.box.bottom)


def _across(door: Part, on: Part) -> Axis:
    """The axis across what the door hangs on: a side, a rail or a floor is long along the hung edge."""
    one, other = other_axes(door.through)
    return one if on.box.extent(one).mm < on.box.extent(other).mm else other


def _outwards(door: Part, on: Part, wanted: Face | None = None) -> tuple[Face, bool]:
    """The door's outer face, and whether it stands within the depth of what it hangs on."""
    axis = door.through
    if wanted is not None and AXIS_OF[wanted] != axis:
        raise PlanError(
            f"a {front_word(door)} opens by one of its broad faces.",
            where=door.name,
            given=f'towards="{wanted}"',
            remedy=f'Write towards="{LOW[axis]}" or towards="{HIGH[axis]}".',
        )
    found, inset = _found_outwards(door, on, axis)
    if wanted is None or wanted == found:
        return found, inset
    if not inset:
        raise PlanError(
            f"it lies before {on.name}, and opens to the {found}.",
            where=door.name,
            given=f'towards="{wanted}"',
            remedy=f'Write towards="{found}", or leave it out.',
        )
    return wanted, inset


def _found_outwards(door: Part, on: Part, axis: Axis) -> tuple[Face, bool]:
    if door.box.high(axis) <= on.box.low(axis):
        return LOW[axis], False
    if door.box.low(axis) >= on.box.high(axis):
        return HIGH[axis], False
    low, high = (abs(door.box.face(face).mm - on.box.face(face).mm) for face in (LOW[axis], HIGH[axis]))
    if low == high:  # in one plane with it
        return ("top" if axis == "z" else LOW[axis]), True
    return (LOW[axis] if low < high else HIGH[axis]), True


def _refuse(door: Part, on: Part, cover: Length, *, inset: bool) -> None:
    size = mixed(abs(cover.inches))
    what = (
        f"it runs {size} in into {on.name}"
        if inset
        else f"it stands before {on.name} and {size} in beside it"
    )
    raise PlanError(
        f"{what}, so it cannot be hung there.",
        where=door.name,
        given=f"on={on.id}",
        remedy=f'Let it end before {on.name} with a gap, or lie on it: the other\'s face less "1/16".'
        if door.through == "z"
        else "Size it with plan.doors_in(…) or plan.overlay_doors(…).",
    )


def hinge_pivot(door: Part, on: Part, lap: Lap | None = None, out: Face | None = None) -> Pivot:
    """Return the line a door on concealed hinges is taken to turn about: an estimate.

    A concealed hinge has no fixed axis: its links carry the door out as it turns, so that the door stays
    clear of what it hangs on and, opened square, stands within its own edge. A door that turned about its
    outer corner at the hung edge would do the same, so that corner is the axis here. Check against your hinge.
    """
    found = hanging(door, on, lap, out)
    return pivot_at(door, found, Length.zero(), Length.zero())


def pivot_at(door: Part, found: Hanging, beyond: Length, before: Length) -> Pivot:
    """Return the axis so far beyond a door's hung edge and so far before its outer face."""
    places = {
        found.across: into_face(door, found.edge, -beyond),
        found.deep: into_face(door, found.out, -before),
        found.along: door.box.low(found.along),
    }
    return Pivot(found.along, point(places), sense_of(found))


def sense_of(found: Hanging) -> Literal[1, -1]:
    """Return which way a hung door opens about the axis its hinges stand along.

    Its free edge must start outwards: axis × (hung edge → free edge) points the way the outer face looks.
    """
    order = AXES.index(found.along), AXES.index(found.across), AXES.index(found.deep)
    even = order in {(0, 1, 2), (1, 2, 0), (2, 0, 1)}
    into_door = found.edge == LOW[found.across]
    towards_high = found.out == HIGH[found.deep]
    return 1 if (even == into_door) == towards_high else -1


def hinge_count(door: Part, along: Axis) -> int:
    """Return how many hinges a door takes: by its height, and more where it is heavier than its height assumes.

    along   the axis the hinges stand along: a flap's is its width
    source  common practice for furniture doors; what a height assumes is the table's own widest door, 24 in
            of 19 mm particleboard
    """
    tall, heavy = door.box.extent(along), weight(door)
    for row in hinge_classes():
        if row.holds(tall) and heavy.kg <= carried_by(row.count).kg:
            return row.count
    most = hinge_classes()[-1].count
    return next(number for number in counting(most) if heavy.kg <= carried_by(number).kg)


def carried_by(count: int) -> Mass:
    """Return the heaviest door that so many hinges are meant for, by the table of hinges by height.

    Beyond the table each further hinge carries as much as one of the last row.
    """
    _, square = door_kilograms_per_square_metre()
    rows = hinge_classes()
    known = {row.count: row.up_to or TALLEST for row in rows}
    if count in known:
        return Mass(square * known[count].mm * CLASS_WIDTH.mm / 10**6)
    if count < rows[0].count:
        return Mass(carried_by(rows[0].count).kg * count / rows[0].count)
    return Mass(carried_by(rows[-1].count).kg * count / rows[-1].count)
