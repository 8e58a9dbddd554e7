"""Which operations each feature takes, in the words that tools are known by."""

from plankit.parts import (
    AXIS_OF,
    HINGE_RECESS,
    Banding,
    Bevel,
    Bore,
    Chamfer,
    CompoundMitre,
    Cove,
    Feature,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Roundover,
    Taper,
    channel,
)
from plankit.units import L

WIDE_HOLE = L("5/8 in")
"""Holes with a bottom, from this width up, are bored with a bit that leaves the bottom flat (common practice)."""


def operation_of(part: Part, feature: Feature) -> tuple[str, ...]:  # noqa: PLR0911 - a case for each kind
    """Return the operations that a feature of a part takes."""
    match feature:
        case Taper():
            return ("taper",)
        case Notch():
            return ("notch",)
        case Mitre() | CompoundMitre():
            return ("miter",)
        case Bevel():
            return ("bevel",)
        case Groove():
            return _channel(part, feature)
        case PocketHoles():
            return ("pocket holes",)
        case Banding():
            return ("band edges",)
        case Chamfer():
            return ("chamfer",)
        case Roundover():
            return ("route", "round over")
        case Cove():
            return ("route",)
        case LeftOn(face=face):
            return ("crosscut",) if AXIS_OF[face] == part.grain else ("rip",)
        case Bore():
            return _bored(feature)


def _channel(part: Part, groove: Groove) -> tuple[str, ...]:
    """A channel that stops cannot be run past a saw's blade; its ends are squared by hand."""
    made = channel(part, groove)
    if made.name == HINGE_RECESS and made.stops:
        return ("chop",)
    if made.stops:
        return ("route", "stop grooves", "chop")
    return ("rabbet",) if made.name in {"rabbet", HINGE_RECESS} else ("groove",)


def _bored(bore: Bore) -> tuple[str, ...]:
    if bore.travel is not None:
        return ("bore", "file")
    if bore.countersink is not None:
        return ("bore", "countersink")
    if bore.depth is not None and bore.diameter >= WIDE_HOLE:
        return ("bore", "bore flat")
    return ("bore",)
