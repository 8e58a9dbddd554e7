"""Joints: what holds what, with how many fasteners, where. Each maker is a pure function."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from plankit.build.contact import Contact, gap, stays_closed, touching
from plankit.build.fasteners import Fastener, FastenerKind, Spec, pocket_screw_for, slope_of_pocket
from plankit.build.movement import movement
from plankit.errors import PlanError
from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Bore,
    Face,
    Feature,
    Groove,
    Notch,
    Part,
    PocketHoles,
    Point,
    other_axes,
    pocket_shoulder,
)
from plankit.reference import wood_screw
from plankit.stock import Lumber
from plankit.units import L, Length, largest, mixed

type JointKind = Literal["glue", "face screws", "pocket screws", "brads", "top fixing"]

END_DISTANCE = L("2 in")
"""From a screw in a row to the end of the joint, where there is room (common practice)."""
POCKET_SPACING = L("7 in")
"""Pocket holes stand at most so far apart (common practice: 6 to 8 in)."""
NARROW = L("1 9/16 in")
"""Ends up to this wide take one pocket hole, with glue: two would split them (common practice)."""
SCREW_SPACING = L("8 in")
"""Face screws stand at most so far apart (common practice)."""
BRAD_SPACING = L("5 in")
"""Brads in a back stand at most so far apart (common practice)."""


@dataclass(frozen=True, slots=True)
class Joint:
    """One joint between two parts.

    holds, to   ids of the part that is fastened and the part it is fastened to
    contact     where they touch
    fasteners   every screw or brad; none where glue alone holds
    glue        whether glue goes between them
    """

    kind: JointKind
    holds: str
    to: str
    contact: Contact
    fasteners: tuple[Fastener, ...] = ()
    glue: bool = False


def meeting(first: Part, second: Part, doing: str) -> Contact:
    """Return where two parts touch, or say how far apart they are."""
    contact = touching(first, second)
    if contact is not None and stays_closed(first, second, contact):
        return contact
    apart = gap(first, second)
    cut = _meets_in_a_cut(first, second) or _meets_in_a_cut(second, first)
    if cut:
        raise PlanError(
            f"it meets {second.name} inside {cut}, where no fasteners are placed yet, so it cannot be {doing}.",
            where=first.name,
            remedy="Join them where their outer faces meet, or say in the step's note how they are held there.",
        )
    if apart is None:
        how = "they lie nowhere near each other"
    elif apart[1].mm > 0:
        how = f"there are {mixed(apart[1].inches)} in between them along {apart[0]}"
    else:
        how = f"they run {mixed(-apart[1].inches)} in into each other"
    raise PlanError(
        f"it does not touch {second.name}, so it cannot be {doing}: {how}.",
        where=first.name,
        remedy=f"Give one the other's face, for instance  {_shared_face(first, second, apart)}",
    )


def _meets_in_a_cut(inner: Part, outer: Part) -> str:
    """Name the notch or groove of one part that another reaches into; "" where there is none."""
    for feature in outer.features:
        if isinstance(feature, Notch | Groove):
            cut = feature.cut
            for axis in AXES:
                cut = cut.moved(axis, outer.box.low(axis))
            common = cut.common(inner.box)
            if all(common.extent(axis).mm > 0 for axis in AXES):
                return f"a {'notch' if isinstance(feature, Notch) else 'groove'} of {outer.name}"
    return ""


def _shared_face(first: Part, second: Part, apart: tuple[Axis, Length] | None) -> str:
    axis = apart[0] if apart else "z"
    above = first.box.middle(axis).mm >= second.box.middle(axis).mm
    mine, other = (LOW[axis], HIGH[axis]) if above else (HIGH[axis], LOW[axis])
    return f"{mine}={second.id}.{other}"


def in_a_row(low: Length, high: Length, spacing: Length, least: int, margin: Length) -> tuple[Length, ...]:
    """Return evenly spaced places between two ends: as few as `spacing` allows, at least `least`.

    The outermost stand `margin` in from the ends, or a quarter of the way where there is less room.
    """
    room = high - low
    if least == 1 and room <= NARROW:
        return ((low + high).portion(2),)
    from_end = _from_end(room, margin)
    inner = room - from_end * 2
    gaps = max(least - 1, -(-inner // spacing))
    if gaps == 0:
        return ((low + high).portion(2),)
    return tuple(low + from_end + inner.portion(gaps) * step for step in range(gaps + 1))


def _from_end(room: Length, margin: Length) -> Length:
    return margin if room >= margin * 4 else room.portion(4)


def exactly(low: Length, high: Length, count: int, margin: Length) -> tuple[Length, ...]:
    """Return so many evenly spaced places between two ends; one stands in the middle.

    raises  PlanError where there would be none
    """
    if count < 1:
        raise PlanError(
            "a joint cannot be held by no screws.", given=str(count), remedy="Ask for 1 or more, or glue it."
        )
    if count == 1:
        return ((low + high).portion(2),)
    from_end = _from_end(high - low, margin)
    inner = high - low - from_end * 2
    return tuple(low + from_end + inner.portion(count - 1) * step for step in range(count))


def glue(first: Part, second: Part) -> Joint:
    """Return a glued joint between two parts that touch."""
    return Joint("glue", first.id, second.id, meeting(first, second, "glued"), glue=True)


def face_screws(
    through: Part, into: Part, spec: Spec, count: int | None = None, inset: Length | None = None
) -> tuple[Joint, tuple[Feature, ...]]:
    """Return screws driven square through one part into another, and the holes they need in the first.

    count  how many; as many as `SCREW_SPACING` asks for where it is None
    inset  from each end of the joint to the outermost screw; `END_DISTANCE`, where there is room, if None
    raises PlanError where the parts do not touch, or the insets meet
    """
    contact = meeting(through, into, "screwed")
    region, row = contact.region, contact.long
    low, high = region.low(row), region.high(row)
    if inset is not None:
        low, high = _inset(through, low, high, inset)
    margin = END_DISTANCE if inset is None else Length.zero()
    places = _places(low, high, count, margin)
    across = contact.short
    spots = [_spot(contact, row, place, across, region.middle(across)) for place in places]
    made = tuple(_square(through, into, spec, contact, spot) for spot in spots)
    holes = tuple(clearance_hole(through, fastener) for fastener in made)
    return Joint("face screws", through.id, into.id, contact, made), holes


def _places(low: Length, high: Length, count: int | None, margin: Length) -> tuple[Length, ...]:
    if count is None:
        return in_a_row(low, high, SCREW_SPACING, 2, margin)
    return exactly(low, high, count, margin)


def _inset(part: Part, low: Length, high: Length, inset: Length) -> tuple[Length, Length]:
    if inset <= Length.zero() or low + inset >= high - inset:
        raise PlanError(
            "the outermost screws would lie beyond each other, or beyond the joint.",
            where=part.name,
            given=f"{mixed(inset.inches)} in from each end of a joint {mixed((high - low).inches)} in long",
            remedy="Keep them nearer to the ends, or drive one.",
        )
    return low + inset, high - inset


def _spot(contact: Contact, one: Axis, at_one: Length, two: Axis, at_two: Length) -> Point:
    found = {one: at_one, two: at_two, contact.axis: contact.region.low(contact.axis)}
    return Point(found["x"], found["y"], found["z"])


def _square(through: Part, into: Part, spec: Spec, contact: Contact, spot: Point) -> Fastener:
    """A fastener square to the contact, its head flush with the far face of the part it goes through."""
    axis = contact.axis
    back = OPPOSITE[contact.face]
    head = spot.moved(axis, through.box.face(back) - spot.along(axis))
    way = spec.length if contact.face == HIGH[axis] else -spec.length
    return Fastener(spec, head, head.moved(axis, way), contact.face, through.id, into.id)


def clearance_hole(part: Part, fastener: Fastener, travel: Length | None = None, along: Axis = "x") -> Bore:
    """Return a screw's hole in the part it goes through: its shank's width, the countersink of a flat head twice that.

    travel  makes a slot of it, so much longer than wide, along `along`
    """
    gauge = fastener.spec.gauge
    if gauge is None:
        raise PlanError("brads need no clearance hole.", where=part.name)
    drill = drill_size(wood_screw(gauge).shank)
    corner = part.box.corner
    at = (fastener.head.x - corner.x, fastener.head.y - corner.y, fastener.head.z - corner.z)
    use = f"clearance hole, #{gauge} screw"
    sunk = drill * 2 if fastener.spec.kind == "wood screw" else None
    return Bore(OPPOSITE[fastener.heading], at, drill, None, use, sunk, travel, along)


def drill_size(diameter: Length) -> Length:
    """Return the smallest drill, in 64ths of an inch, that is not thinner than a diameter."""
    step = L("1/64 in")
    return step * -int(-diameter.mm // step.mm)


def pocket_screws(
    part: Part, into: Part, face: Face, count: int | None = None
) -> tuple[Joint, tuple[Feature, ...]]:
    """Return pocket screws from one part into another, and the pocket holes in the first.

    face   the face of `part` that is drilled
    count  how many; by the joint's width where it is None: one up to 1 9/16 in, else two or more
    """
    contact = meeting(part, into, "pocket-screwed")
    if face == contact.face or AXIS_OF[face] == contact.axis:
        raise PlanError(
            "pocket holes are drilled in a face beside the joint, not in the one that meets the other part.",
            where=part.name,
            given=f'face="{face}"',
            remedy=f"Use one of: {', '.join(_beside(contact))}.",
        )
    (row,) = (axis for axis in other_axes(contact.axis) if axis != AXIS_OF[face])
    low, high = contact.region.low(row), contact.region.high(row)
    if count is None:
        places = in_a_row(low, high, POCKET_SPACING, 1 if high - low <= NARROW else 2, END_DISTANCE)
    else:
        places = exactly(low, high, count, END_DISTANCE)
    thickness = part.box.extent(AXIS_OF[face])
    spec = pocket_screw_for(part, thickness)
    made = tuple(_leaning(part, into, spec, contact, face, row, place) for place in places)
    holes = PocketHoles(face, contact.face, tuple(place - part.box.low(row) for place in places))
    return Joint("pocket screws", part.id, into.id, contact, made), (holes,)


def _beside(contact: Contact) -> tuple[Face, ...]:
    return tuple(face for axis in other_axes(contact.axis) for face in (LOW[axis], HIGH[axis]))


def _leaning(  # noqa: PLR0917 - where a leaning screw goes takes this much to say
    part: Part, into: Part, spec: Spec, contact: Contact, face: Face, row: Axis, place: Length
) -> Fastener:
    """A pocket screw: out of the end at half the thickness, 15 degrees off; its head is at the shoulder."""
    cosine, sine = slope_of_pocket()
    axis, through = contact.axis, AXIS_OF[face]
    shoulder = pocket_shoulder(part.box.extent(through))
    exit_at = _spot(contact, row, place, through, part.box.middle(through))
    out = 1 if contact.face == HIGH[axis] else -1
    lean = 1 if face != HIGH[through] else -1
    head = exit_at.moved(axis, shoulder * (-out * cosine)).moved(through, shoulder * (-lean * sine))
    tip = head.moved(axis, spec.length * (out * cosine)).moved(through, spec.length * (lean * sine))
    return Fastener(spec, head, tip, contact.face, part.id, into.id)


def brads(thin: Part, into: Part, length: Length, spacing: Length = BRAD_SPACING) -> Joint:
    """Return brads through a thin part into the edge of another, in one row."""
    contact = meeting(thin, into, "pinned")
    row, across = contact.long, contact.short
    places = in_a_row(contact.region.low(row), contact.region.high(row), spacing, 2, L("1 in"))
    kind: FastenerKind = "brad"
    spec = Spec(kind, None, length)
    middle = contact.region.middle(across)
    made = tuple(_square(thin, into, spec, contact, _spot(contact, row, at, across, middle)) for at in places)
    return Joint("brads", thin.id, into.id, contact, made)


def fix_top(
    top: Part, cleat: Part, spec: Spec, fixed: Face, count: int = 3
) -> tuple[Joint, tuple[Feature, ...]]:
    """Return screws up through a cleat into a solid top: a round hole at the fixed edge, slots beyond it.

    fixed  the edge of the top that must not move; every slot is long enough for the wood between it and there
    count  screws in this cleat
    raises PlanError where the top's grain runs the way the slots would have to
    """
    contact = meeting(cleat, top, "screwed to the top")
    moves = AXIS_OF[fixed]
    if not isinstance(top.stock, Lumber) or moves != top.across:
        raise PlanError(
            "only a solid top that moves between the fixed edge and the opposite one needs slots.",
            where=top.name,
            given=f'fixed="{fixed}"',
            remedy="Name an edge that the grain runs along.",
        )
    region = contact.region
    places = exactly(region.low(moves), region.high(moves), count, L("1 1/2 in"))
    across = next(axis for axis in other_axes(contact.axis) if axis != moves)
    ordered = sorted(places, key=lambda place: abs(place.mm - top.box.face(fixed).mm))
    made, holes = [], []
    for number, place in enumerate(ordered):
        spot = _spot(contact, moves, place, across, region.middle(across))
        fastener = _square(cleat, top, spec, contact, spot)
        made.append(fastener)
        travel = None if number == 0 else slot_travel(top, abs(place - ordered[0]))
        holes.append(clearance_hole(cleat, fastener, travel, moves))
    return Joint("top fixing", cleat.id, top.id, contact, tuple(made)), tuple(holes)


def slot_travel(top: Part, distance: Length) -> Length:
    """Return how much longer than wide a slot must be for a top that moves over `distance`.

    Twice the seasonal movement, so that the screw may start in the middle; up to the next 1/16 in.
    """
    if not isinstance(top.stock, Lumber):
        return Length.zero()
    step = L("1/16 in")
    needed = movement(top.stock, distance) * 2
    return largest(step * 2, needed.rounded_up(step))


def all_fasteners(joints: Sequence[Joint]) -> tuple[Fastener, ...]:
    """Return every fastener of several joints, in order."""
    return tuple(fastener for joint in joints for fastener in joint.fasteners)
