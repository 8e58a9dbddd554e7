"""Screws, pins, nails and dowels: what is written on the box, and where each one goes."""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import Literal

from plankit.build.leaning import bite_leaning
from plankit.build.surfaces import entry_plane
from plankit.errors import PlanError
from plankit.parts import AXIS_OF, HIGH, Face, Leans, Part, Point, spot_after, turning
from plankit.reference import common_nail, wood_screw
from plankit.units import L, Length, exactly, told

type Spot = tuple[float, float, float]
type FastenerKind = Literal[
    "wood screw", "pan-head screw", "pocket screw", "brad", "staple", "common nail", "dowel"
]
_WRITE_SCREWS = 'Write it like "#8 x 1 1/4".'


BRAD_WIRE = L("0.0475 in")
"""Diameter of 18-gauge steel wire."""
WIRE_KINDS: tuple[FastenerKind, ...] = ("brad", "staple", "common nail")
"""What is driven without a thread and without a hole bored first."""


@cache
def _shank(gauge: int) -> Length:
    return wood_screw(gauge).shank


@dataclass(frozen=True, slots=True)
class Spec:
    """What to ask for in the store: the kind, the gauge (None for what is no screw) and the length.

    Wood screws have flat heads that are sunk; pan-head screws lie on a washer and can slide in a slot.

    thick   the diameter of a nail or a dowel; None for screws, brads and staples, whose gauge says it
    called  a nail's size in the trade: "8d"
    """

    kind: FastenerKind
    gauge: int | None
    length: Length
    thick: Length | None = None
    called: str = ""

    @property
    def diameter(self) -> Length:
        """Its diameter: a screw's shank; 18-gauge wire, 0.0475 in, for brads and staples (steel wire gauge)."""
        if self.thick is not None:
            return self.thick
        return _shank(self.gauge) if self.gauge is not None else BRAD_WIRE

    @property
    def name(self) -> str:
        """What it says on the box: its length in inches, or in millimetres where those are the round number."""
        size = exactly(self.length)
        if self.gauge is not None:
            return f"#{self.gauge} × {size} {self.kind}"
        if self.kind == "dowel":
            return f"{exactly(self.diameter)} × {size} dowel"
        return f"{self.called or '18-gauge'} × {size} {self.kind}"


@dataclass(frozen=True, slots=True)
class Fastener:
    """One screw, pin, nail or dowel in its place.

    head, tip  its two ends in the build
    heading    the face it drives towards ("top": upwards)
    through    id of the part its head sits in
    into       id of the part that its thread holds in
    leans      how both its ends are turned with the part it is driven through
    travel     how far it can slide in a slot, from end to end; None where it sits tight
    """

    spec: Spec
    head: Point
    tip: Point
    heading: Face
    through: str
    into: str
    leans: Leans = ()
    travel: Length | None = None

    def ends_mm(self) -> tuple[Spot, Spot]:
        """Return its head and tip where they are in the build, in millimetres, for drawing."""
        head, tip = self.head.mm(), self.tip.mm()
        if not self.leans:
            return head, tip
        turn = turning(self.leans)
        return spot_after(turn, head), spot_after(turn, tip)


def screw(text: str, kind: FastenerKind = "wood screw") -> Spec:
    """Return a screw as its box names it: "#8 x 2 1/2" (gauge, then length in inches unless it says mm)."""
    match = re.fullmatch(r"\s*#(\d+)\s*[x×]\s*(.+)", str(text))
    if match is None:
        raise PlanError("this is not how a screw is written.", given=repr(text), remedy=_WRITE_SCREWS)
    length = L(match[2], "in")
    if length.mm <= 0:
        raise PlanError("a screw has no length.", given=repr(text), remedy=_WRITE_SCREWS)
    wood_screw(int(match[1]))
    return Spec(kind, int(match[1]), length)


def nail(size: str) -> Spec:
    """Return a common nail by its penny size: "8d" (Wood Handbook table 8-1).

    raises  PlanError with the sizes there are
    """
    found = common_nail(size)
    return Spec("common nail", None, found.length, found.diameter, found.size)


POCKET_SCREWS = (
    (L("1/2 in"), L("1 in")),
    (L("5/8 in"), L("1 in")),
    (L("3/4 in"), L("1 1/4 in")),
    (L("7/8 in"), L("1 1/2 in")),
    (L("1 in"), L("1 1/2 in")),
    (L("1 1/4 in"), L("2 in")),
    (L("1 1/2 in"), L("2 1/2 in")),
)
"""Length of a pocket screw by the thickness of the part it is driven through (common practice)."""


def pocket_screw_for(part: Part, through: Length) -> Spec:
    """Return the pocket screw for a part of this thickness: the length for the nearest one listed.

    raises  PlanError where the part is thinner or thicker than any listed
    """
    thin, thick = POCKET_SCREWS[0][0], POCKET_SCREWS[-1][0]
    nearer = (low for low, high in pairwise(POCKET_SCREWS) if through <= (low[0] + high[0]).portion(2))
    near = next(nearer, POCKET_SCREWS[-1])
    if not thin.mm - 2 <= through.mm <= thick.mm + 2:
        raise PlanError(
            f"no common pocket screw suits stock {told(through)} thick.",
            where=part.name,
            remedy="Use pocket screws in stock from 1/2 to 1 1/2 in, or face screws instead.",
        )
    return Spec("pocket screw", 8 if through.mm >= L("5/8 in").mm else 7, near[1])


def bite(fastener: Fastener, into: Part) -> Length:
    """Return how deep a fastener's tip lies in the part it holds in, measured square to the face it enters.

    That is the bottom of a notch or a groove, where the fastener passes through one that is open to it.
    Below nothing: it ends so far short of that face. More than the part is thick: it comes through.
    """
    axis = AXIS_OF[fastener.heading]
    if fastener.leans != into.leans:
        return bite_leaning(fastener.head.mm(), fastener.tip.mm(), fastener.leans, axis, into)
    entry = entry_plane(into, fastener.heading, fastener.head, fastener.tip)
    deep = fastener.tip.along(axis) - entry
    return deep if fastener.heading == HIGH[axis] else -deep


def slope_of_pocket() -> tuple[Fraction, Fraction]:
    """Return cosine and sine of a pocket hole's 15 degrees, to nine places."""
    return Fraction(965925826, 10**9), Fraction(258819045, 10**9)
