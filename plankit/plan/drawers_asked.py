"""What an author asks of a drawer, looked at before it is made."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from plankit.errors import PlanError
from plankit.parts import AXIS_OF, Face
from plankit.plan.asked import known_face
from plankit.plan.handles import PartHandle

type Joined = Literal["screws", "pocket screws", "brads"]

JOINED: tuple[Joined, ...] = ("screws", "pocket screws", "brads")


def share(name: str, opens: str) -> Fraction:
    """Return how far a slide comes out as a share of its length, up to 1."""
    try:
        found = Fraction(opens)
    except (ValueError, ZeroDivisionError):
        found = Fraction(0)
    if not 0 < found <= 1:
        raise PlanError(
            "opens: a share of the slide's length was expected, up to 1.",
            where=name,
            given=repr(opens),
            remedy='Write  opens="1"  for slides that come out whole, "3/4" for others.',
        )
    return found


def refuse_way(name: str, out: Face) -> None:
    """Refuse a drawer that does not come out level."""
    known_face(out, name)
    if AXIS_OF[out] == "z":
        raise PlanError(
            "a drawer comes out level.",
            where=name,
            given=f'out="{out}"',
            remedy='Write one of: "front", "back", "left", "right"; or let a lid open: plan.flap(…).',
        )


def refuse_unused(name: str, lap: str, half: str, *, gap_given: bool, bounds: Sequence[object]) -> None:
    """Refuse what would make no difference to the front that is asked for."""
    if lap == "inset" and half:
        raise PlanError(
            "an inset front shares no edge: it lies within its opening.",
            where=name,
            given=f'half="{half}"',
            remedy='Leave half= out, or write lap="overlay".',
        )
    if lap == "overlay" and gap_given and not half and all(isinstance(one, PartHandle) for one in bounds):
        raise PlanError(
            "this overlay front shares no edge with another, so that there is no gap.",
            where=name,
            given="gap=…",
            remedy='Leave gap= out, or name the edges that it shares: half="top".',
        )


def refuse_ways(name: str, joined: str, lap: str) -> None:
    """Refuse words for joints and fronts that are none."""
    ways: tuple[tuple[str, str, tuple[str, ...]], ...] = (
        ("joined", joined, JOINED),
        ("lap", lap, ("inset", "overlay")),
    )
    for word, given, known in ways:
        if given not in known:
            raise PlanError(
                "a drawer is not made like that.",
                where=name,
                given=f'{word}="{given}"',
                remedy=f"Write one of: {', '.join(known)}.",
            )


def refuse_blocks(name: str) -> None:
    """Refuse blocks for slides where no face frame is named."""
    raise PlanError(
        "blocks stand behind the stiles of a face frame, and none is named.",
        where=name,
        given="blocks=…",
        remedy="Name its parts, frame=…, or leave blocks= out.",
    )
