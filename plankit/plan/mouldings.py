"""Strips glued on a face in a frame, mitred at the corners, as an author writes them."""

from collections.abc import Sequence
from dataclasses import dataclass

from plankit.build import glue
from plankit.errors import PlanError
from plankit.parts import (
    AXIS_OF,
    HIGH,
    LOW,
    OPPOSITE,
    Axis,
    Box,
    Chamfer,
    Cove,
    Face,
    Mitre,
    Part,
    Roundover,
    edge_between,
    other_axes,
)
from plankit.plan.asked import known_face, made_of, more_than_nothing, not_below_nothing
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, single
from plankit.plan.placing import Given
from plankit.stock import Lumber
from plankit.units import Length, smallest, told


@dataclass(frozen=True, slots=True)
class Profile:
    """What is run along a strip's outer face, from its end to its end.

    name   the trade's: "quarter round", "cove", "bead", "chamfer"; "square" for a strip left as it is
    size   the radius, or what a chamfer takes off either face
    inside whether it lies along the edge towards the opening; a bead lies along both
    """

    name: str
    size: Length
    inside: bool = True


PROFILES = ("square", "quarter round", "cove", "bead", "chamfer")
"""What a strip's outer face may be given, by its trade name."""


def profile_of(name: str, stock: Lumber, profile: str, size: Length | None, shows: str) -> Profile:
    """Return the profile of a moulding, with the size that follows from its strip where the author gives none.

    source  a quarter round has the radius of the strip's lesser side; a bead is half a round: half of its width, where
            the strip is as thick as that (trade terms, common practice)
    raises  PlanError for a profile that is not known, or larger than the strip has room for
    """
    wide, thick = stock.width, stock.thickness
    if profile not in PROFILES:
        raise PlanError(
            "there is no such profile.", where=name, given=profile, remedy=f"Use one of: {', '.join(PROFILES)}."
        )
    if shows not in {"inside", "outside"}:
        raise PlanError(
            "a profile lies along the inside of the frame or along its outside.",
            where=name, given=f'shows="{shows}"', remedy='Write shows="inside" or shows="outside".',
        )  # fmt: skip
    usual = {"quarter round": smallest(wide, thick), "bead": smallest(wide.portion(2), thick)}
    if size is None and profile in {"cove", "chamfer"}:
        raise PlanError(f"a {profile} has a size.", where=name, remedy='For instance  size="1/2"')
    asked = size if size is not None else usual.get(profile, Length.zero())
    room = usual["bead" if profile == "bead" else "quarter round"]
    if asked > room:
        raise PlanError(
            f"the strip has no room for so large a {profile}.",
            where=name,
            given=f"{told(asked)} on a strip {told(thick)} × {told(wide)}",
            remedy=f"Ask for {told(room)} or less, or use larger stock.",
        )
    return Profile(profile, asked, shows == "inside")


def run_along(profile: Profile, outer: Face, inner: Face) -> Sequence[Chamfer | Roundover | Cove]:
    """Return the cuts that make a profile on a strip.

    outer  the face of the strip that shows; `inner` its face towards the opening
    """
    beside: tuple[Face, ...] = (inner,) if profile.inside else (OPPOSITE[inner],)
    if profile.name == "bead":
        beside = inner, OPPOSITE[inner]
    edges = [edge_between(outer, one) for one in beside]
    match profile.name:
        case "quarter round" | "bead":
            return [Roundover(edge, profile.size) for edge in edges]
        case "cove":
            return [Cove(edge, profile.size) for edge in edges]
        case "chamfer":
            return [Chamfer(edge, profile.size) for edge in edges]
        case _:
            return ()


class Moulding(Bench):
    """The part of a plan that says what is put on a face for looks."""

    def moulding(
        self,
        name: str,
        stock: Lumber,
        *,
        on: PartHandle,
        face: Face,
        set_in: Given = 0,
        profile: str = "square",
        size: Given | None = None,
        shows: str = "inside",
    ) -> list[PartHandle]:
        """Glue a frame of strips on a face: `plan.moulding("Molding", strip, on=door, face="front", set_in="2")`.

        The strips lie flat, as wide and as thick as their stock, mitred at 45 degrees where they meet, so that the
        profile runs on round the corners. They come off the stock's boards as long as their long points are.

        set_in   from the face's edges to the outside of the frame
        profile  "square", "quarter round", "cove", "bead" (half a round) or "chamfer" along the strips' outer face
        size     its radius, or what a chamfer takes off either face; of a quarter round and a bead as large as the
                 strip allows, where it is left out
        shows    whether it lies along the "inside" of the frame or its "outside"; a bead lies along both
        returns  the four strips: two one way, then two the other
        raises   PlanError where the strips leave no opening between them, or have no room for the profile
        """
        base = single(on, "on=").part
        known_face(face, base.name)
        made_of(stock, Lumber, name, "a moulding")
        away = not_below_nothing(self._read(name, "set_in", set_in), "set_in", name)
        asked = None if size is None else more_than_nothing(self._read(name, "size", size), "size", name)
        run = profile_of(name, stock, profile, asked, shows)
        across = other_axes(AXIS_OF[face])
        for axis in across:
            room = base.box.extent(axis) - away * 2
            if room <= stock.width * 2:
                raise PlanError(
                    "the strips leave no opening between them.",
                    where=name,
                    given=f"{told(room)} for two strips of {told(stock.width)}",
                    remedy="Use narrower strips, or set them in less.",
                )
        made = []
        for way, beside in (across, across[::-1]):
            for at in (LOW[beside], HIGH[beside]):
                strip = self._strip(name, stock, (base, face), (way, at), away)
                strip = strip.with_features(run_along(run, face, OPPOSITE[at]))
                made.append(self._add(strip))
                self._joints.append(glue(strip, base))
        return made

    def _strip(
        self, name: str, stock: Lumber, where: tuple[Part, Face], place: tuple[Axis, Face], away: Length
    ) -> Part:
        """One strip: it runs along an axis, at one edge of the frame, its short side towards the opening."""
        (base, face), (way, at) = where, place
        ends: dict[str, Length] = {LOW[way]: base.box.low(way) + away, HIGH[way]: base.box.high(way) - away}
        ends |= _from(base.box, at, away, stock.width) | _on(base.box, face, stock.thickness)
        inner = HIGH[AXIS_OF[at]] if at == LOW[AXIS_OF[at]] else LOW[AXIS_OF[at]]
        cuts = tuple(Mitre(end, inner, stock.width) for end in (LOW[way], HIGH[way]))
        return Part(self._new_id(name), name, "board", stock, Box(**ends), way, AXIS_OF[face], cuts)


def _from(box: Box, face: Face, away: Length, wide: Length) -> dict[str, Length]:
    """The two ends of something so wide that starts so far inside a face."""
    axis = AXIS_OF[face]
    if face == LOW[axis]:
        return {LOW[axis]: box.low(axis) + away, HIGH[axis]: box.low(axis) + away + wide}
    return {LOW[axis]: box.high(axis) - away - wide, HIGH[axis]: box.high(axis) - away}


def _on(box: Box, face: Face, thick: Length) -> dict[str, Length]:
    """The two ends of something so thick that lies on a face."""
    axis = AXIS_OF[face]
    if face == HIGH[axis]:
        return {LOW[axis]: box.high(axis), HIGH[axis]: box.high(axis) + thick}
    return {LOW[axis]: box.low(axis) - thick, HIGH[axis]: box.low(axis)}
