"""Solid tops held so that they can move: screws through slots, or wooden buttons in a groove."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.build.contact import Contact
from plankit.build.fasteners import Fastener, Spec
from plankit.build.items import Item
from plankit.build.joints import Joint, meeting, spot, square
from plankit.build.joints_pocket import clear_of_pocket
from plankit.build.joints_rows import SCREW_SPACING, Row
from plankit.build.joints_screws import clearance_hole
from plankit.build.movement import INDOORS, Air, movement
from plankit.errors import PlanError
from plankit.parts import (
    AXES,
    AXIS_OF,
    HIGH,
    LOW,
    Axis,
    Box,
    Face,
    Feature,
    Groove,
    Part,
    PocketHoles,
    Point,
    other_axes,
)
from plankit.stock import Lumber
from plankit.units import L, Length, largest, mixed, smallest, told

FROM_CLEAT_END = L("1 1/2 in")
"""From a cleat's end to its outermost screw, where no pocket hole is in the way (common practice)."""


def fix_top(  # noqa: PLR0917 - a top, what it is screwed to, and how
    top: Part,
    cleat: Part,
    spec: Spec,
    fixed: Face,
    count: int = 3,
    line: Length | None = None,
    inset: Length | None = None,
    air: Air = INDOORS,
) -> tuple[Joint, tuple[Feature, ...]]:
    """Return screws up through a cleat or a rail into a solid top: round holes at the fixed edge, slots beyond it.

    fixed  the edge of the top that must not move; every slot is long enough for the wood between it and there
    count  screws in this cleat, along its length
    line   where the top is held, if other cleats hold it nearer to that edge; this one's hole nearest to it if None
    inset  from its ends to the outermost screws; 1 1/2 in where it is None, or clear of pocket holes there
    air    between which humidities the top moves
    raises PlanError where the top's grain runs the way the slots would have to, the screws would crowd, or the insets
           meet
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
    spots = _spots(cleat, contact, moves, count, inset)
    held = line if line is not None else _nearest(top, fixed, [at.along(moves) for at in spots])
    made, holes = [], []
    for at in sorted(spots, key=lambda one: abs(one.along(moves).mm - held.mm)):
        away = abs(at.along(moves) - held)
        travel = None if away.mm == 0 else slot_travel(top, away, air)
        fastener = replace(square(cleat, top, spec, contact, at), travel=travel)
        made.append(fastener)
        holes.append(clearance_hole(cleat, fastener, travel, moves))
    return Joint("top fixing", cleat.id, top.id, contact, tuple(made)), tuple(holes)


def fixed_line(
    top: Part, cleats: Sequence[Part], fixed: Face, count: int, inset: Length | None = None
) -> Length:
    """Return where a top on several cleats or rails is held: at the screws nearest to its fixed edge."""
    moves = AXIS_OF[fixed]
    found = [
        at.along(moves)
        for cleat in cleats
        for at in _spots(cleat, meeting(cleat, top, "screwed to the top"), moves, count, inset)
    ]
    return _nearest(top, fixed, found)


def _nearest(top: Part, fixed: Face, places: Sequence[Length]) -> Length:
    return min(places, key=lambda place: abs(place.mm - top.box.face(fixed).mm))


def _spots(cleat: Part, contact: Contact, moves: Axis, count: int, inset: Length | None) -> list[Point]:
    """Where the screws stand: along the longer side of what cleat and top share."""
    region = contact.region
    across = next(axis for axis in other_axes(contact.axis) if axis != moves)
    runs, beside = (moves, across) if region.extent(moves) >= region.extent(across) else (across, moves)
    row = Row(SCREW_SPACING, count, inset, _from_its_ends(cleat, runs))
    places = row.places(region.low(runs), region.high(runs), count, cleat.name)
    return [spot(contact, runs, place, beside, region.middle(beside)) for place in places]


def _from_its_ends(cleat: Part, runs: Axis) -> Length:
    """From a cleat's end to its outermost screw: further in where the end has pocket holes, which a slot would meet."""
    pockets = [one for one in cleat.features if isinstance(one, PocketHoles) and AXIS_OF[one.end] == runs]
    clear = (clear_of_pocket(cleat.box.extent(AXIS_OF[one.face])) for one in pockets)
    return largest(FROM_CLEAT_END, *clear)


def slot_travel(top: Part, distance: Length, air: Air = INDOORS) -> Length:
    """Return how much longer than wide a slot must be for a top that moves over `distance`.

    Twice the seasonal movement, so that the screw may start in the middle; up to the next 1/16 in.
    """
    if not isinstance(top.stock, Lumber):
        return Length.zero()
    step = L("1/16 in")
    needed = movement(top.stock, distance, *air) * 2
    return largest(step * 2, needed.rounded_up(step))


@dataclass(frozen=True, slots=True)
class Button:
    """A wooden button: its tongue rides in a groove of the apron, and a screw holds its other end to the top.

    thick, wide  its size; `long` is measured square to the apron, tongue included
    tongue       how thick its tongue is
    depth        how deep the groove is that the tongue rides in
    gap          left between button and apron, and between tongue and the groove's bottom, for a top that moves
    """

    thick: Length
    wide: Length
    long: Length
    tongue: Length
    depth: Length
    gap: Length

    @property
    def down(self) -> Length:
        """From the apron's upper edge to the groove: the step over the tongue, and 1/32 in to draw shut."""
        return self.thick - self.tongue + L("1/32 in")

    @property
    def name(self) -> str:
        """What to ask for or to make: "wooden button, 3/4 × 1 × 1 1/2 in"."""
        sizes = " × ".join(mixed(size.inches) for size in (self.thick, self.wide, self.long))
        return f"wooden button, {sizes} in"


BUTTON = Button(
    thick=L("3/4 in"),
    wide=L("1 in"),
    long=L("1 1/2 in"),
    tongue=L("3/8 in"),
    depth=L("3/8 in"),
    gap=L("1/8 in"),
)
"""A button as it is commonly made for 3/4 in aprons (common practice)."""
BUTTONS = Row(L("10 in"), margin=L("3 in"))
"""Buttons stand at most so far apart (common practice)."""
CLEAR_OF_POCKETS = L("2 1/4 in")
"""The mouth of a pocket hole reaches so far from the end: 9/16 in and what 15° makes of 3/8 in, and a little."""


def buttons(  # noqa: PLR0917 - a top, an apron, and how they are held
    top: Part,
    apron: Part,
    spec: Spec,
    inner: Face,
    count: int | None = None,
    button: Button = BUTTON,
    air: Air = INDOORS,
) -> tuple[Joint, tuple[Feature, ...]]:
    """Return buttons along an apron, each with its screw up into a solid top, and the groove they ride in.

    inner   the apron's face with the groove
    air     between which humidities the top moves
    raises  PlanError where the apron is too thin or too low for the groove, or the button leaves no room to move

    Buttons let the top move every way: along an apron by sliding in its groove, square to it by `button.gap`.
    """
    contact = meeting(apron, top, "fastened to the top")
    _refuse(top, apron, contact, inner, button, air)
    across, along = AXIS_OF[inner], _row(contact, inner)
    out = 1 if inner == HIGH[across] else -1
    reach = button.gap + (button.long - button.depth + button.gap).portion(2)
    row = replace(BUTTONS, count=count)
    places = row.places(contact.region.low(along), contact.region.high(along), 2, apron.name)
    face = apron.box.face(inner)
    up = -button.thick if contact.face == HIGH[contact.axis] else button.thick
    made = []
    for place in places:
        at = spot(contact, along, place, across, face + reach * out)
        head = at.moved(contact.axis, up)
        way = spec.length if contact.face == HIGH[contact.axis] else -spec.length
        tip = head.moved(contact.axis, way)
        made.append(Fastener(spec, head, tip, contact.face, apron.id, top.id, travel=button.gap * 2))
    groove = Groove(inner, _channel(apron, contact, inner, button), "for the buttons")
    return Joint("buttons", apron.id, top.id, contact, tuple(made)), (groove,)


def button_screw(top: Part, button: Button = BUTTON) -> Spec:
    """Return the screw for a button: two thirds of the top deep, and no deeper than the button is thick.

    In quarters of an inch, as screws are sold (common practice).
    """
    step = L("1/4 in")
    reach = smallest(button.thick, top.box.extent(top.through) * Fraction(2, 3))
    return Spec("wood screw", 8, step * int((button.thick + reach).mm // step.mm))


def button_items(
    top: Part, apron: Part, joint: Joint, inner: Face, button: Button = BUTTON
) -> tuple[Item, ...]:
    """Return the buttons of a joint as hardware, each where it sits: its tongue in the groove, its back to the top."""
    across, along, up = AXIS_OF[inner], _row(joint.contact, inner), joint.contact.axis
    face, out = apron.box.face(inner), 1 if inner == HIGH[across] else -1
    ends = (face - (button.depth - button.gap) * out, face + (button.long - button.depth + button.gap) * out)
    low, high = ends if out > 0 else (ends[1], ends[0])
    made = []
    for screw in joint.fasteners:
        middle, head, plane = screw.head.along(along), screw.head.along(up), joint.contact.region.low(up)
        box = Box(**{
            LOW[across]: low, HIGH[across]: high,
            LOW[along]: middle - button.wide.portion(2), HIGH[along]: middle + button.wide.portion(2),
            LOW[up]: smallest(head, plane), HIGH[up]: largest(head, plane),
        })  # fmt: skip
        made.append(Item(button.name, "other", (apron.id, top.id), box, source="common practice"))
    return tuple(made)


def _row(contact: Contact, inner: Face) -> Axis:
    (along,) = (axis for axis in other_axes(contact.axis) if axis != AXIS_OF[inner])
    return along


def _channel(apron: Part, contact: Contact, inner: Face, button: Button) -> Box:
    """The groove, measured from the apron's corner: all along it, so far below its edge.

    Where the apron is itself held by pocket screws from the same face, it stops short of them at either end.
    """
    ends = {LOW[axis]: Length.zero() for axis in AXES} | {HIGH[axis]: apron.box.extent(axis) for axis in AXES}
    across, up = AXIS_OF[inner], contact.axis
    thick, high = apron.box.extent(across), apron.box.extent(up)
    wide = button.tongue + L("1/16 in")
    ends |= {LOW[across]: thick - button.depth} if inner == HIGH[across] else {HIGH[across]: button.depth}
    top_up = contact.face == HIGH[up]
    low = high - button.down - wide if top_up else button.down
    ends |= {LOW[up]: low, HIGH[up]: low + wide}
    along = _row(contact, inner)
    if any(isinstance(one, PocketHoles) and one.face == inner for one in apron.features):
        ends |= {LOW[along]: CLEAR_OF_POCKETS, HIGH[along]: apron.box.extent(along) - CLEAR_OF_POCKETS}
    return Box(**ends)


def _refuse(  # noqa: PLR0917 - what `buttons` is asked for
    top: Part, apron: Part, contact: Contact, inner: Face, button: Button, air: Air
) -> None:
    if AXIS_OF[inner] == contact.axis or AXIS_OF[inner] == apron.grain:
        raise PlanError(
            "the groove for buttons runs along the apron, in one of its sides.",
            where=apron.name,
            given=f'inner="{inner}"',
        )
    if (
        apron.box.extent(AXIS_OF[inner]) < button.depth * 2
        or apron.box.extent(contact.axis) < button.thick * 2
    ):
        raise PlanError(
            f"a groove {told(button.depth)} deep for buttons leaves too little of it.",
            where=apron.name,
            remedy="Use a thicker apron, or screw the top on through slots: plan.fasten_top(…)",
        )
    moves = _moves(top, contact, inner, air)
    if moves.mm > button.gap.mm * 2:
        raise PlanError(
            f"buttons leave the top {told(button.gap * 2)} to move, and it moves more.",
            where=top.name,
            given=f"{float(moves.inches):.3f} in",
            remedy="Make deeper grooves and longer buttons: gap=…",
        )


def _moves(top: Part, contact: Contact, inner: Face, air: Air) -> Length:
    """How far a top moves square to this apron, from its middle to where the apron stands."""
    if AXIS_OF[inner] != top.across or not isinstance(top.stock, Lumber):
        return Length.of_mm(Fraction(0))
    away = abs(top.box.middle(top.across) - contact.region.middle(top.across))
    return movement(top.stock, away, *air)
