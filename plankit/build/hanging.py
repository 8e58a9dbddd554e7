"""How a door hangs: at which edge, before the case or inside it, with how many hinges, turning about what."""

from dataclasses import dataclass
from itertools import count as counting
from typing import Literal

from plankit.build.mounting import into_face, point
from plankit.build.moving import Pivot
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Face, Part, other_axes, weight
from plankit.reference import door_kilograms_per_square_metre, hinge_classes
from plankit.units import L, Length, Mass, mixed

type Lap = Literal["inset", "half overlay", "full overlay"]

LAPS: tuple[Lap, ...] = ("inset", "half overlay", "full overlay")
FULL_FROM = L("12 mm")
"""A door that covers this much takes a straight arm, one that covers less a half-cranked one (common practice)."""
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


def hanging(door: Part, on: Part, lap: Lap | None = None) -> Hanging:
    """Return how a door hangs on another part, found from where both are.

    lap     refuse anything else: "inset", or "half overlay" or "full overlay" where the author wants that arm
    raises  PlanError where the door neither lies beside the part nor covers it
    """
    axis = _across(door, on)
    edge = LOW[axis] if on.box.middle(axis).mm < door.box.middle(axis).mm else HIGH[axis]
    cover = (
        on.box.high(axis) - door.box.low(axis)
        if edge == LOW[axis]
        else door.box.high(axis) - on.box.low(axis)
    )
    out, inset = _outwards(door, on)
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
    return Hanging(door.id, on.id, edge, out, lap or found, cover)


def _across(door: Part, on: Part) -> Axis:
    """The axis across what the door hangs on: a side, a rail or a floor is long along the hung edge."""
    one, other = other_axes(door.through)
    return one if on.box.extent(one).mm < on.box.extent(other).mm else other


def _outwards(door: Part, on: Part) -> tuple[Face, bool]:
    """The door's outer face, and whether it stands within the depth of what it hangs on."""
    axis = door.through
    if door.box.high(axis) <= on.box.low(axis):
        return LOW[axis], False
    if door.box.low(axis) >= on.box.high(axis):
        return HIGH[axis], False
    low, high = (abs(door.box.face(face).mm - on.box.face(face).mm) for face in (LOW[axis], HIGH[axis]))
    return (LOW[axis] if low <= high else HIGH[axis]), True


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
        remedy="Size it with plan.doors_in(…) or plan.overlay_doors(…).",
    )


def hinge_pivot(door: Part, on: Part, lap: Lap | None = None) -> Pivot:
    """Return the line a door on concealed hinges is taken to turn about: an estimate.

    A concealed hinge has no fixed axis: its links carry the door out as it turns, so that the door stays
    clear of what it hangs on and, opened square, stands within its own edge. A door that turned about its
    outer corner at the hung edge would do the same, so that corner is the axis here. Check against your hinge.
    """
    found = hanging(door, on, lap)
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
