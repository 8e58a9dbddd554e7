"""What can be done to a part, as its author writes it: sawn, bored, ploughed."""

from collections.abc import Sequence
from typing import NoReturn, Protocol, Self

from plankit.errors import PlanError
from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    LOW,
    Bore,
    Box,
    Face,
    Feature,
    Groove,
    Mitre,
    Notch,
    Part,
    Taper,
)
from plankit.plan.asked import known_face, not_below_nothing
from plankit.plan.placing import Given, read_length
from plankit.units import Length, mixed


class Workbench(Protocol):
    """Where the parts lie while the author works on them."""

    unit: str

    def part(self, part_id: str) -> Part:
        """Return a part as it is now."""

    def work_on(self, part_id: str, features: Sequence[Feature]) -> None:
        """Do more to a part."""


class Shaping:
    """A part that its author can still work on; `PartHandle` adds its faces and sizes."""

    def __init__(self, bench: Workbench, part_id: str) -> None:
        self._bench = bench
        self.id = part_id

    @property
    def part(self) -> Part:
        """The part as it is now; it does not change when more is done to it."""
        return self._bench.part(self.id)

    @property
    def name(self) -> str:
        """What the reader calls it."""
        return self.part.name

    def taper(self, *, towards: Face = "bottom", run: Given | None = None, **amounts: Given) -> Self:
        """Taper one or more faces: `foot.taper(left="1", front="1/2")` takes so much off each at the narrow end.

        towards  the end that gets narrower
        run      how far from that end the tapers start; the whole part where it is left out
        raises   PlanError for a taper that leaves nothing, or a face that cannot be tapered that way
        """
        part = self.part
        known_face(towards, part.name)
        if not amounts:
            self._refuse(
                "a taper takes something off a face.", remedy='For instance  taper(left="1", front="1/2")'
            )
        whole = part.box.extent(AXIS_OF[towards])
        over = whole if run is None else self._read(run, "run")
        if not Length.zero() < over <= whole:
            self._refuse(
                "a taper runs over some of the part, and no further than it is long.",
                f"run {mixed(over.inches)} in",
            )
        tapers = [
            self._one_taper(face, towards, self._read(amount, face), over) for face, amount in amounts.items()
        ]
        before = [t for t in part.features if isinstance(t, Taper) and t.narrow == towards]
        for axis in AXES:
            taken = sum((t.amount for t in [*before, *tapers] if AXIS_OF[t.face] == axis), Length.zero())
            if taken >= part.box.extent(axis):
                self._refuse(
                    "the tapers leave nothing of it.",
                    f"{mixed(taken.inches)} in off {mixed(part.box.extent(axis).inches)} in",
                    "Take less off at the narrow end.",
                )
        self._bench.work_on(self.id, tapers)
        return self

    def _one_taper(self, face: str, towards: Face, amount: Length, run: Length) -> Taper:
        if face not in FACES or AXIS_OF[face] == AXIS_OF[towards]:
            beside = ", ".join(f for f in FACES if AXIS_OF[f] != AXIS_OF[towards])
            self._refuse(
                f"a taper towards the {towards} is sawn on one of its sides.", face, f"Name one of: {beside}"
            )
        if amount <= Length.zero():
            self._refuse("a taper takes something off.", f"{face} {mixed(amount.inches)} in")
        return Taper(face, towards, amount, run)

    def notch(self, *, reason: str = "", **depths: Given) -> Self:
        """Cut a block out where faces meet: `notch(back="1 1/2", top="3 1/2")` is a corner notch.

        Two faces make a notch that runs the whole way along the third direction; three make a blind one.
        """
        box = self._corner(depths, "notch")
        self._bench.work_on(self.id, [Notch(box, reason)])
        return self

    def notch_round(self, other: "Shaping", clearance: Given = 0) -> Self:
        """Notch this part round another that runs into it, with so much room on every side."""
        room = not_below_nothing(self._read(clearance, "clearance"), "clearance", self.name)
        mine, theirs = self.part.box, other.part.box
        common = mine.common(theirs)
        if any(common.extent(axis).mm <= 0 for axis in AXES):
            self._refuse(f"it does not run into {other.name}, so there is nothing to notch round.", other.id)
        ends: dict[str, Length] = {}
        through = 0
        for axis in AXES:
            low, high = common.low(axis) - mine.low(axis), common.high(axis) - mine.low(axis)
            from_low, to_high = low <= room, mine.extent(axis) - high <= room
            ends[LOW[axis]] = Length.zero() if from_low else low - room
            ends[HIGH[axis]] = mine.extent(axis) if to_high else high + room
            through += from_low and to_high
        if through >= 2:
            self._refuse(
                f"{other.name} goes right through it, so a notch round it would cut it off or in two.",
                other.id,
                f"Let it end at a face of {other.name}, or make it from two pieces.",
            )
        self._bench.work_on(self.id, [Notch(Box(**ends), f"round {other.name}")])
        return self

    def _corner(self, depths: dict[str, Given], doing: str) -> Box:
        part = self.part
        unknown = [face for face in depths if face not in FACES]
        axes = [AXIS_OF[face] for face in depths if face in FACES]
        if unknown or len(set(axes)) != len(axes) or len(axes) not in {2, 3}:
            self._refuse(
                f"a {doing} is named by two or three faces that meet.",
                ", ".join(depths),
                'For instance  notch(back="1", top="2")',
            )
        ends = {LOW[axis]: Length.zero() for axis in AXES} | {
            HIGH[axis]: part.box.extent(axis) for axis in AXES
        }
        for face, depth in depths.items():
            axis = AXIS_OF[face]  # type: ignore[index]
            deep, whole = self._read(depth, "depth"), part.box.extent(axis)
            if not Length.zero() < deep < whole:
                self._refuse(
                    f"a {doing} {mixed(deep.inches)} in deep from the {face} is nothing, or all of it.", face
                )
            ends[HIGH[axis] if face == LOW[axis] else LOW[axis]] = deep if face == LOW[axis] else whole - deep
        return Box(**ends)

    def bore(
        self, face: Face, diameter: Given, *, depth: Given | None = None, use: str = "", **places: Given
    ) -> Self:
        """Bore a hole in a face; two distances from other faces say where: `bore("top", "1/2", left="2", front="3")`.

        depth  how deep; the whole way through where it is left out
        """
        part = self.part
        known_face(face, part.name)
        axes = {AXIS_OF[f]: f for f in places if f in FACES}
        if len(axes) != 2 or len(places) != 2 or AXIS_OF[face] in axes:
            self._refuse(
                "a hole is placed by its distances from two faces beside the one it is bored in.",
                ", ".join(places),
            )
        spot = []
        for axis in AXES:
            named = axes.get(axis)
            away = self._read(places[named], named) if named else part.box.extent(axis).portion(2)
            spot.append(part.box.extent(axis) - away if named == HIGH[axis] else away)
        deep = None if depth is None else self._read(depth, "depth")
        size = self._read(diameter, "diameter")
        self._refuse_hole(face, spot, size, deep)
        self._bench.work_on(self.id, [Bore(face, (spot[0], spot[1], spot[2]), size, deep, use)])
        return self

    def _refuse_hole(self, face: Face, spot: list[Length], size: Length, deep: Length | None) -> None:
        part = self.part
        if size <= Length.zero():
            self._refuse("a hole has a diameter.", f"{mixed(size.inches)} in")
        if deep is not None and not Length.zero() < deep <= part.box.extent(AXIS_OF[face]):
            self._refuse(
                "a hole goes into the part, and no deeper than it is thick.", f"{mixed(deep.inches)} in"
            )
        across = [axis for axis in AXES if axis != AXIS_OF[face]]
        if any(size >= part.box.extent(axis) for axis in across):
            self._refuse(
                "the hole is as wide as the part.", f"{mixed(size.inches)} in", "Bore a smaller one."
            )
        for axis, place in zip(AXES, spot, strict=True):
            if axis != AXIS_OF[face] and not Length.zero() <= place <= part.box.extent(axis):
                self._refuse(
                    "the hole lies beside the part.", f"{mixed(place.inches)} in from its {LOW[axis]} face"
                )

    def mitre(self, end: Face, *, short: Face, setback: Given | None = None) -> Self:
        """Cut an end at an angle: the part ends `setback` shorter along its face `short`; 45 degrees if left out."""
        part = self.part
        if (
            end not in FACES
            or short not in FACES
            or AXIS_OF[end] != part.grain
            or AXIS_OF[short] == part.grain
        ):
            self._refuse(
                "a miter is cut on an end, and shortens one of the sides.", f'end="{end}", short="{short}"'
            )
        back = part.box.extent(AXIS_OF[short]) if setback is None else self._read(setback, "setback")
        if not Length.zero() < back <= part.length:
            self._refuse(
                "a miter takes something off, and no more than there is.", f"{mixed(back.inches)} in"
            )
        others = [one for one in part.features if isinstance(one, Mitre)]
        if any(one.end == end for one in others):
            self._refuse("this end is mitered already.", f'end="{end}"')
        taken = sum((one.setback for one in others if one.short == short), back)
        if taken > part.length:
            self._refuse(
                "the miters at both ends meet before they reach its short side.",
                f"{mixed(taken.inches)} in off {mixed(part.length.inches)} in",
                "Make it longer, or set the cuts back less.",
            )
        self._bench.work_on(self.id, [Mitre(end, short, back)])
        return self

    def groove(
        self, face: Face, *, width: Given, depth: Given, reason: str = "", **start: Given
    ) -> Self:
        """Plough a groove the whole way along a face: `groove("back", width="1/4", depth="3/8", bottom="1/2")`.

        The one other face says which edge it runs beside, and how far from it.
        """
        part = self.part
        known_face(face, part.name)
        if len(start) != 1 or (edge := next(iter(start))) not in FACES or AXIS_OF[edge] == AXIS_OF[face]:
            self._refuse(
                "a groove runs beside one edge, at a distance from it.",
                ", ".join(start),
                'For instance  bottom="1/2"',
            )
        deep, wide, away = (
            self._read(depth, "depth"),
            self._read(width, "width"),
            self._read(start[edge], edge),
        )
        axis, across = AXIS_OF[face], AXIS_OF[edge]
        thick, room = part.box.extent(axis), part.box.extent(across)
        if not (
            Length.zero() < deep < thick
            and Length.zero() < wide
            and Length.zero() <= away
            and away + wide <= room
        ):
            self._refuse(
                "the groove does not lie in the part.",
                f"{mixed(wide.inches)} in wide, {mixed(deep.inches)} in deep",
            )
        ends = {LOW[a]: Length.zero() for a in AXES} | {HIGH[a]: part.box.extent(a) for a in AXES}
        ends |= (
            {LOW[axis]: Length.zero(), HIGH[axis]: deep} if face == LOW[axis] else {LOW[axis]: thick - deep}
        )
        low = away if edge == LOW[across] else room - away - wide
        ends |= {LOW[across]: low, HIGH[across]: low + wide}
        self._bench.work_on(self.id, [Groove(face, Box(**ends), reason)])
        return self

    def _read(self, value: Given, what: str) -> Length:
        return read_length(self.name, what, value, self._bench.unit)

    def _refuse(self, what: str, given: str = "", remedy: str = "") -> NoReturn:
        raise PlanError(what, where=self.name, given=given, remedy=remedy)
