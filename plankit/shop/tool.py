"""One tool of a shop."""

from dataclasses import dataclass
from typing import Literal

from plankit.stock import slug
from plankit.units import Length

type Signal = Literal["danger", "warning", "caution", "notice"]

SIGNALS: tuple[Signal, ...] = ("danger", "warning", "caution", "notice")
"""Signal words of ANSI Z535.6, gravest first."""

OPERATIONS = (
    "break down sheets", "rip", "crosscut", "miter", "bevel", "taper", "notch", "groove", "rabbet", "route",
    "stop grooves", "chop", "chamfer", "round over", "file", "bore", "bore flat", "countersink", "drive screws",
    "pocket holes", "drive pins", "plane", "sand", "clamp", "glue", "band edges", "finish",
    "measure", "mark",
)  # fmt: skip
"""What a tool can do, in the words that plans use."""

LIMITS = {
    "longest_cut": "the longest straight cut, such as a guide rail's length",
    "widest_rip": "the most between fence and blade",
    "widest_crosscut": "the widest board it cuts square across",
    "deepest_cut": "the thickest stock it cuts through",
    "shortest_piece": "the shortest piece it is used on",
    "widest_opening": "the most it spans",
}
"""How far a tool reaches: the keys a shop file may give a tool, and what each means."""


LEADS = {
    "guide": "it goes to the work, along a rail laid on it",
    "fence": "the work is pushed past it along a fence",
    "stop": "the work lies still against a fence, and against a stop at its end",
    "hand": "it goes to the work, along a line",
}
"""How a saw that cuts straight is led: what a shop file may say of a tool in `led`."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution for readers of a plan: the hazard, what it can do, and how to avoid it, in that order.

    signal  the signal word, as ANSI Z535.6 defines it
    about   what it is about: a tool's name, "dust", "finish"
    """

    signal: Signal
    about: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool as this shop has it.

    does      what it is used for here, in the words of `OPERATIONS`
    kerf      what its blade turns into dust; None where it takes none
    limits    how far it reaches, by the names of `LIMITS`
    cautions  the shop's own, for a tool that plankit knows nothing of
    led       how a saw for straight cuts is led, by the names of `LEADS`; empty for every other tool
    """

    name: str
    does: tuple[str, ...]
    kerf: Length | None = None
    limits: tuple[tuple[str, Length], ...] = ()
    cautions: tuple[Caution, ...] = ()
    led: str = ""

    @property
    def key(self) -> str:
        """The name as a key."""
        return slug(self.name)

    def limit(self, name: str) -> Length | None:
        """Return one of its limits, such as "widest_rip"; None where the shop names none."""
        return dict(self.limits).get(name)
