"""Joints: what holds what. Each maker, here and in the modules beside it, is a pure function."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from plankit.build.contact import Contact, contacts, gap, stays_closed, touching
from plankit.build.fasteners import Fastener, Spec
from plankit.build.surfaces import counterbored, exit_plane, named_cuts
from plankit.errors import PlanError
from plankit.parts import AXES, HIGH, LOW, OPPOSITE, Axis, Face, Part, Point, box_of
from plankit.units import Length, told

type JointKind = Literal[
    "glue", "face screws", "pocket screws", "brads", "staples", "nails", "dowels", "top fixing", "buttons"
]

HEADS = 2
"""A flat head is about twice as wide as its shank (ASME B18.6.1, from memory)."""
_WAY: dict[Axis, str] = {"x": "left to right", "y": "front to back", "z": "up and down"}


@dataclass(frozen=True, slots=True)
class Joint:
    """One joint between two parts.

    holds, to   ids of the part that is fastened and the part it is fastened to
    contact     where they touch; `contact.face` is a face of `holds`
    fasteners   every screw, pin or dowel; none where glue alone holds
    glue        whether glue goes between them
    flush       a face of both that is meant to lie in one plane; None where it does not matter
    """

    kind: JointKind
    holds: str
    to: str
    contact: Contact
    fasteners: tuple[Fastener, ...] = ()
    glue: bool = False
    flush: Face | None = None


def meeting(first: Part, second: Part, doing: str, towards: Face | None = None) -> Contact:
    """Return where two parts touch, inside notches and grooves too, or say how far apart they are.

    towards  the face of the first part that must meet the second, where they meet in several; the outer one or
             the largest where it is None
    raises   PlanError where they do not touch, or not there
    """
    found = touching(first, second) if towards is None else _meeting_at(first, second, towards)
    if found is not None and stays_closed(first, second, found):
        return found
    others = contacts(first, second) if first.leans == second.leans else ()
    if towards is not None and others:
        raise PlanError(
            f"no face of it that looks to the {towards} meets {second.name}, so it cannot be {doing} there.",
            where=first.name,
            given=f'towards="{towards}"',
            remedy=f"They meet at its {', '.join(dict.fromkeys(one.face for one in others))}.",
        )
    raise _apart(first, second, doing)


def _meeting_at(first: Part, second: Part, towards: Face) -> Contact | None:
    if first.leans != second.leans:
        found = touching(first, second)
        return found if found is not None and found.face == towards else None
    return next((one for one in contacts(first, second) if one.face == towards), None)


def _apart(first: Part, second: Part, doing: str) -> PlanError:
    apart = gap(first, second)
    cut = _lies_in_a_cut(first, second) or _lies_in_a_cut(second, first)
    if cut:
        return PlanError(
            f"it meets {second.name} inside {cut} without touching it anywhere, so it cannot be {doing}.",
            where=first.name,
            remedy="Leave no clearance where they are joined, or leave the joint out: a groove holds by itself.",
        )
    if apart is None:
        how = "they lie nowhere near each other"
    elif apart[1].mm > 0:
        how = f"there are {told(apart[1])} between them, {_WAY[apart[0]]}"
    elif apart[1].mm == 0:
        return _only_an_edge(first, second, doing)
    elif first.leans != second.leans:
        return PlanError(
            f"it does not lie flat on {second.name}, so it cannot be {doing}: one of them leans.",
            where=first.name,
            remedy="Saw one to lie against the other, plan.cut_against(rail, leg), or let both lean alike.",
        )
    else:
        how = f"they run {told(-apart[1])} into each other"
    return PlanError(
        f"it does not touch {second.name}, so it cannot be {doing}: {how}.",
        where=first.name,
        remedy=f"Give one the other's face, for instance  {_shared_face(first, second, apart)}",
    )


def _only_an_edge(first: Part, second: Part, doing: str) -> PlanError:
    """What is wrong with parts that touch nowhere face to face although nothing is between them."""
    one, two = (first.box, second.box) if first.leans == second.leans else (box_of(first), box_of(second))
    common = one.common(two)
    if first.leans != second.leans:
        leaning = first if first.leans else second
        return PlanError(
            f"it meets {second.name} only along an edge, so it cannot be {doing}: {leaning.name} leans.",
            where=first.name,
            remedy=f"Saw the edge of {leaning.name} level where the two meet, before it leans: "
            f'{leaning.id}.bevel("bottom", short=…, angle=…), by as much as it leans; '
            f'{leaning.id}.reaches("bottom") then says where that edge lies.',
        )
    where = ("where one of them is cut away", "along an edge", "at a corner")[
        sum(common.extent(axis).mm == 0 for axis in AXES) - 1
    ]
    return PlanError(
        f"it meets {second.name} only {where}, so it cannot be {doing}.",
        where=first.name,
        remedy="Move one of them, or make it thicker, until a face of one lies on a face of the other.",
    )


def _lies_in_a_cut(inner: Part, outer: Part) -> str:
    """Name the notch or groove of one part that another reaches into; "" where there is none."""
    for what, cut in named_cuts(outer):
        common = cut.common(inner.box)
        if all(common.extent(axis).mm > 0 for axis in AXES):
            return f"a {what} of {outer.name}"
    return ""


def _shared_face(first: Part, second: Part, apart: tuple[Axis, Length] | None) -> str:
    axis = apart[0] if apart else "z"
    above = first.box.middle(axis).mm >= second.box.middle(axis).mm
    mine, other = (LOW[axis], HIGH[axis]) if above else (HIGH[axis], LOW[axis])
    return f'{mine}={second.id}.reaches("{other}")' if second.leans else f"{mine}={second.id}.{other}"


def glue(first: Part, second: Part) -> Joint:
    """Return a glued joint between two parts that touch."""
    return Joint("glue", first.id, second.id, meeting(first, second, "glued"), glue=True)


def spot(contact: Contact, one: Axis, at_one: Length, two: Axis, at_two: Length) -> Point:
    """Return the place in the plane of a contact that lies there along two axes."""
    found = {one: at_one, two: at_two, contact.axis: contact.region.low(contact.axis)}
    return Point(found["x"], found["y"], found["z"])


def square(through: Part, into: Part, spec: Spec, contact: Contact, at: Point) -> Fastener:
    """Return a fastener square to a contact, its head flush with the far face of the part it goes through.

    A screw's head lies at the bottom of a counterbore that is there.
    """
    axis = contact.axis
    back = exit_plane(through, OPPOSITE[contact.face], at, at.moved(axis, through.box.face(OPPOSITE[contact.face])
                      - through.box.face(contact.face)))  # fmt: skip
    if spec.kind == "wood screw":
        back = counterbored(through, OPPOSITE[contact.face], at, spec.diameter.mm * HEADS, back)
    head = at.moved(axis, back - at.along(axis))
    way = spec.length if contact.face == HIGH[axis] else -spec.length
    return Fastener(spec, head, head.moved(axis, way), contact.face, through.id, into.id, leans=through.leans)


def all_fasteners(joints: Sequence[Joint]) -> tuple[Fastener, ...]:
    """Return every fastener of several joints, in order."""
    return tuple(fastener for joint in joints for fastener in joint.fasteners)
