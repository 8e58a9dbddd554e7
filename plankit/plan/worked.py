"""A part that its author can still work on: what every verb that shapes it needs."""

from collections.abc import Mapping, Sequence
from typing import NoReturn, Protocol

from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, FACES, HIGH, LOW, Axis, Face, Feature, Part
from plankit.plan.placing import Given, read_length
from plankit.units import Angle, Length, Notation, told

type GivenAngle = Angle | str | int


class Workbench(Protocol):
    """Where the parts lie while the author works on them."""

    unit: str
    notation: Notation

    def part(self, part_id: str) -> Part:
        """Return a part as it is now."""

    def work_on(self, part_id: str, features: Sequence[Feature]) -> None:
        """Do more to a part."""

    def measure_first(self, part_id: str, how: str, spare: Length | None) -> None:
        """Say that a part is cut to what is measured then."""


class Worked:
    """A part by its name; the verbs that work on it are added by the classes that build on this one."""

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

    def _read(self, value: Given, what: str) -> Length:
        return read_length(self.name, what, value, self._bench.unit)

    def _more_than_nothing(self, value: Given, what: str) -> Length:
        length = self._read(value, what)
        if length <= Length.zero():
            self._refuse(f"{what}: it must be more than nothing.", f"{told(length)}")
        return length

    def _angle(self, value: GivenAngle, what: str) -> Angle:
        try:
            angle = Angle.read(value)
        except PlanError as error:
            self._refuse(f"{what}: {error.what}", error.given, error.remedy)
        if not 0 < angle.degrees < 90:
            self._refuse(
                f"{what}: a saw's setting away from square lies between 0 and 90 degrees.",
                str(value),
                'For instance  angle="35°", which leaves 55° to the edge.',
            )
        return angle

    def _one_face(self, places: Mapping[str, Given], doing: str, across: Sequence[Axis]) -> tuple[Face, Length]:
        """Return the one face something is measured from, and how far."""
        usual = ", ".join(f"{face}=…" for face in FACES if AXIS_OF[face] in across)
        if len(places) != 1:
            given = ", ".join(places)
            self._refuse(f"{doing} is placed by its distance from one face.", given, f"Give one of: {usual}")
        ((named, far),) = places.items()
        face = next((one for one in FACES if one == named), None)
        if face is None or AXIS_OF[face] not in across:
            self._refuse(f"{doing} is not placed by its distance from there.", named, f"Give one of: {usual}")
        return face, self._read(far, face)

    def _whole(self) -> dict[str, Length]:
        """The six faces of the part, measured from its own corner."""
        box = self.part.box
        ends: dict[str, Length] = {}
        for axis in AXES:
            ends |= {LOW[axis]: Length.zero(), HIGH[axis]: box.extent(axis)}
        return ends

    def _span(self, face: Face, far: Length, wide: Length) -> dict[str, Length]:
        """The two ends of something so wide that starts so far from a face, from the part's own corner."""
        axis = AXIS_OF[face]
        low = far if face == LOW[axis] else self.part.box.extent(axis) - far - wide
        return {LOW[axis]: low, HIGH[axis]: low + wide}

    def _refuse(self, what: str, given: str = "", remedy: str = "") -> NoReturn:
        raise PlanError(what, where=self.name, given=given, remedy=remedy)
