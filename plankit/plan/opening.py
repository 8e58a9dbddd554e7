"""What opens, as an author writes it: doors, flaps, and bins that tilt out."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal, Protocol, runtime_checkable

from plankit.build import Build, Moving, MovingKind, Pivot
from plankit.build.hanging import hanging
from plankit.build.hinges import Hung
from plankit.build.swing_outlines import PLANE
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, FACES, OPPOSITE, Axis, Face, Part, Point
from plankit.plan.asked import known_face
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, Parts, flat, single
from plankit.plan.opened import Opened, outside_of
from plankit.plan.placing import Given
from plankit.units import Angle, Length


@runtime_checkable
class Hinged(Protocol):
    """Anything that knows what a front turns about, as `plan.hinges(…)` gives back."""

    @property
    def pivot(self) -> Pivot:
        """The line it turns about."""


type Turns = str | Mapping[str, Given] | Pivot | Hinged
"""What a front turns about: an edge in words, places in from two of its faces, or what hinges say."""

USUAL = "90 deg"
"""How far doors and flaps open where nobody says (common practice)."""


class Opening(Bench):
    """The part of a plan that says what opens and how far."""

    def door(
        self,
        name: str,
        front: PartHandle,
        *,
        hinged: str = "",
        hinges: Pivot | Hinged | None = None,
        with_: Parts = (),
        opens: Angle | str | None = None,
        stop: Parts = (),
        inwards: Angle | str = "0 deg",
        towards: Face | None = None,
    ) -> Opened:
        """Let a front turn about one side: `plan.door("Door", front, hinged="left", opens="110 deg")`.

        hinged   "left" or "right": the outer corner of that edge is what it turns about
        hinges   instead: what plan.hinges(…) gave back
        with_    what is fixed to it and moves with it
        opens    how far it is meant to open; a right angle, or to its stop, where it is left out
        stop     the parts that stop it, out or in
        inwards  how far an adjustable stop lets it go in past shut
        towards  the face of the front that leads; the one away from the piece where it is left out
        raises   PlanError where it cannot be told what it turns about
        """
        turns = self._hung_by_one(name, hinged, hinges)
        return self._opens("door", name, front, turns, (with_, stop, towards), (opens, inwards))

    def flap(
        self,
        name: str,
        front: PartHandle,
        *,
        hinged: str = "",
        hinges: Pivot | Hinged | None = None,
        with_: Parts = (),
        opens: Angle | str | None = None,
        stop: Parts = (),
        inwards: Angle | str = "0 deg",
        towards: Face | None = None,
    ) -> Opened:
        """Let a front or a lid turn about its bottom, top or back edge: `plan.flap("Flap", front, hinged="bottom")`.

        hinged  "bottom" or "top"; of a lid "back", "front", "left" or "right"; the rest as for a door
        """
        turns = self._hung_by_one(name, hinged, hinges)
        return self._opens("flap", name, front, turns, (with_, stop, towards), (opens, inwards))

    def tilt_out(
        self,
        name: str,
        front: PartHandle,
        *,
        with_: Parts,
        turns_about: Turns = "bottom",
        opens: Angle | str | None = None,
        stop: Parts = (),
        inwards: Angle | str = "0 deg",
        contents: str = "",
        towards: Face | None = None,
    ) -> Opened:
        """Let a front and the holder behind it tilt out: `plan.tilt_out("Bin", front, with_=holder, stop=block)`.

        turns_about  "bottom" for the outer lower edge of the front, "bottom back" for its inner one;
                     {"bottom": "1/2", "front": "3/8"} for a place in from those faces; or what plan.hinges(…) gave
        opens        how far it is meant to open; to its stop where it is left out
        contents     name of the thing it carries, put there with plan.thing(…)
        raises       PlanError where it cannot be told what it turns about, or there is no such thing
        """
        if contents and contents not in {thing.name for thing in self._things}:
            raise PlanError(
                "what it is to carry has not been put anywhere.",
                where=name,
                given=f'contents="{contents}"',
                remedy=f"There is: {', '.join(one.name for one in self._things) or 'nothing yet: plan.thing(…)'}",
            )
        return self._opens(
            "bin", name, front, turns_about, (with_, stop, towards), (opens, inwards), contents
        )

    def _hung_by_one(self, name: str, hinged: str, hinges: Pivot | Hinged | None) -> Turns:
        if bool(hinged) == (hinges is not None):
            raise PlanError(
                "it turns about an edge, or about hinges.",
                where=name,
                given="both hinged= and hinges=" if hinged else "neither hinged= nor hinges=",
                remedy='For instance  hinged="left"',
            )
        return hinges if hinges is not None else hinged

    def _opens(  # noqa: PLR0917 - what moves, about what, with what, and how far
        self,
        kind: MovingKind,
        name: str,
        front: PartHandle,
        turns: Turns,
        around: tuple[Parts, Parts, Face | None],
        angles: tuple[Angle | str | None, Angle | str],
        contents: str = "",
    ) -> Opened:
        part = single(front, "the front").part
        self._refuse_opening_name(name)
        self._refuse_opening_twice(name, part)
        with_, stop, towards = around
        stops = tuple(one.id for one in flat(stop))
        opens, inwards = angles
        if opens is None and not stops and kind != "bin":
            opens = USUAL
        moving = Moving(
            name,
            kind,
            tuple(dict.fromkeys((part.id, *(one.id for one in flat(with_))))),
            self._turning_line(name, part, turns, towards),
            None if opens is None else _angle(name, "opens", opens, least=1),
            stops=stops,
            inwards=_angle(name, "inwards", inwards),
            contents=contents,
        )
        self._moving.append(moving)
        return Opened(name, self.build, self._change_opening, self.notation, self._read)

    def _refuse_other_hinges(self, name: str, front: Part, turns: Turns) -> None:
        """Refuse an edge at which a front does not hang although its hinges are there already, and another's hinges."""
        hung = next((item for item in self._items if item.kind == "hinge" and item.on[0] == front.id), None)
        if isinstance(turns, Hung):
            if hung is not None and turns.hanging.door != front.id:
                raise PlanError(
                    "these are another one's hinges.",
                    where=name,
                    given=f"hinges of {self.part(turns.hanging.door).name}",
                    remedy=f"Give what plan.hinges(…) gave back for {front.name}.",
                )
            return
        if hung is None or not isinstance(turns, str):
            return
        on = self.part(hung.on[1])
        edge = hanging(front, on).edge
        named = [face for face in turns.split() if face in FACES and AXIS_OF[face] != front.through]
        if named and edge not in named:
            raise PlanError(
                f"its hinges are at its {edge} edge, on {on.name}, and it is to turn about its {named[0]} one.",
                where=name,
                given=f'hinged="{turns}"',
                remedy=f'Write hinged="{edge}", or hinges=…, what plan.hinges(…) gave; or hang it at its {named[0]}.',
            )

    def build(self) -> Build:
        """Return the build as it is now, frozen."""
        raise NotImplementedError

    def _change_opening(self, changed: Moving) -> None:
        self._moving = [changed if one.name == changed.name else one for one in self._moving]

    def _refuse_opening_name(self, name: str) -> None:
        if not isinstance(name, str) or not name.strip() or any(one.name == name for one in self._moving):
            raise PlanError(
                "what opens needs a name of its own.",
                where=self.name,
                given=repr(name),
                remedy='For instance  "Lower bin"',
            )

    def _refuse_opening_twice(self, name: str, front: Part) -> None:
        there = next((one for one in self._moving if one.parts[0] == front.id), None)
        if there is not None:
            raise PlanError(
                f"{front.name} opens already.",
                where=name,
                given=f"as “{there.name}”",
                remedy="Say it once, or name the other front.",
            )

    def _turning_line(self, name: str, front: Part, turns: Turns, towards: Face | None) -> Pivot:
        if towards is not None:
            known_face(towards, name)
        self._refuse_other_hinges(name, front, turns)
        if isinstance(turns, Pivot | Hinged):
            pivot = turns if isinstance(turns, Pivot) else turns.pivot
            _refuse_the_other_way(name, front, pivot, towards)
            return pivot
        outer = towards or outside_of(front, list(self._parts.values()))
        if AXIS_OF[outer] != front.through:
            raise PlanError(
                "a front opens by one of its broad faces.",
                where=name,
                given=f'towards="{outer}"',
                remedy=f"Its broad faces are: {', '.join(f for f in FACES if AXIS_OF[f] == front.through)}",
            )
        return pivot_by(name, front, self._edge_places(name, front, turns, outer), outer)

    def _edge_places(
        self, name: str, front: Part, turns: str | Mapping[str, Given], outer: Face
    ) -> dict[Face, Length]:
        """How far in from which two faces of the front the pivot lies."""
        if not isinstance(turns, str | Mapping):
            raise PlanError(
                "what it turns about is an edge of its front, places in from its faces, or hinges.",
                where=name,
                given=repr(turns),
                remedy='For instance  "left", or {"bottom": "1/2", "front": "3/8"}',
            )
        named = dict.fromkeys(turns.split(), 0) if isinstance(turns, str) else dict(turns)
        places: dict[Face, Length] = {}
        for face in FACES:
            if face in named:
                places[face] = self._read(name, f"in from the {face}", named.pop(face))
        edges = [face for face in places if AXIS_OF[face] != front.through]
        if named or len(edges) != 1 or len(places) > 2:
            raise PlanError(
                "what it turns about is an edge of its front.",
                where=name,
                given=repr(turns),
                remedy=f"Name one of its edges: {', '.join(f for f in FACES if AXIS_OF[f] != front.through)}.",
            )
        if len(places) == 1:
            places[outer] = Length.zero()
        return places


def pivot_by(name: str, front: Part, places: Mapping[Face, Length], outer: Face) -> Pivot:
    """Return the pivot that lies so far in from two faces of a front, opening so that the face `outer` leads.

    raises  PlanError where it lies in the middle of the front, so that neither way is out
    """
    used = {AXIS_OF[face] for face in places}
    (axis,) = (one for one in AXES if one not in used)
    at = front.box.corner
    for face, far in places.items():
        along = AXIS_OF[face]
        inwards = far if face in {"left", "front", "bottom"} else -far
        at = replace(at, **{along: front.box.face(face) + inwards})
    sense = _sense(front, at, (AXIS_OF[outer], outer in {"right", "back", "top"}), axis)
    if sense is None:
        raise PlanError(
            "it would turn about its own middle.",
            where=name,
            remedy=f"Let it turn about one of its edges, or nearer to its {OPPOSITE[outer]}.",
        )
    return Pivot(axis, at, sense)


def _sense(front: Part, at: Point, outer: tuple[Axis, bool], axis: Axis) -> Literal[1, -1] | None:
    """Which way about the axis the middle of the front goes outwards: velocity is axis × arm."""
    one, two = PLANE[axis]
    along, high = outer
    arm = (front.box.middle(one).mm - at.along(one).mm, front.box.middle(two).mm - at.along(two).mm)
    out = -arm[1] if along == one else arm[0]
    if out == 0:
        return None
    return 1 if (out > 0) == high else -1


def _refuse_the_other_way(name: str, front: Part, pivot: Pivot, towards: Face | None) -> None:
    """Refuse a face that does not lead where a front turns about hinges: they say which way it opens."""
    if towards is None or AXIS_OF[towards] != front.through or pivot.axis == front.through:
        return
    if _sense(front, pivot.at, (AXIS_OF[towards], towards in {"right", "back", "top"}), pivot.axis) == -pivot.sense:
        raise PlanError(
            f"its hinges let it open to the {OPPOSITE[towards]}.",
            where=name,
            given=f'towards="{towards}"',
            remedy=f'Say it where it is hung: plan.hinges(…, towards="{towards}").',
        )


def _angle(name: str, what: str, value: Angle | str, least: int = 0) -> Angle:
    try:
        angle = Angle.read(value)
    except PlanError as error:
        raise PlanError(f"{what}: {error.what}", where=name, given=error.given, remedy=error.remedy) from None
    if not least <= angle.degrees <= 270:
        raise PlanError(
            f"{what}: it is between {least}° and 270°.",
            where=name,
            given=repr(value),
            remedy='For instance  "35 deg"',
        )
    return angle
