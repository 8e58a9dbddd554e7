"""The bench a plan is made on: the parts, joints and hardware made so far, and how its author's words are read."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from plankit.build import Assembly, Item, Joint, Moving, Thing
from plankit.build.seated import Seated
from plankit.build.surroundings import Surrounding
from plankit.build.wall import Wall
from plankit.errors import PlanError
from plankit.parts import Feature, Part, solid, volume
from plankit.plan.asked import words
from plankit.plan.handles import PartHandle
from plankit.plan.jupyter import show_after_each_cell, show_numbers_as
from plankit.plan.placing import Given, read_length
from plankit.plan.telling import Telling
from plankit.shop import Shop, read, usual
from plankit.stock import slug
from plankit.units import Angle, ConditionBook, Length, Notation, read_number


class Bench(Telling):
    """What has been made so far; what is made next is added by the classes that build on this one."""

    def __init__(
        self,
        name: str,
        *,
        unit: str = "in",
        mark: str = "1/16",
        metric_mark: str = "1",
        shop: str | Path | Shop | None = None,
    ) -> None:
        words(name, "the plan's name", 'Plan("Boot bench")', "Plan")
        notation = Notation(unit, read_number(mark), read_number(metric_mark))
        bench = shop if isinstance(shop, Shop) else read(Path(shop)) if shop is not None else usual()
        notation = _as_they_measure(notation, bench.sheet_kerf, bench.board_kerf)
        super().__init__(name, notation, bench)
        show_numbers_as(notation)
        show_after_each_cell(self._steps_left)
        self.unit = unit
        self.book = ConditionBook()
        self._givens: dict[str, Length | Angle] = {}
        self._parts: dict[str, Part] = {}
        self._joints: list[Joint] = []
        self._joined_by: dict[str, list[Feature]] = {}
        self._things: list[Thing] = []
        self._assemblies: list[Assembly] = []
        self._items: list[Item] = []
        self._moving: list[Moving] = []
        self._surroundings: list[Surrounding] = []
        self._wall: Wall | None = None
        self._seated: list[Seated] = []

    @property
    def parts(self) -> list[PartHandle]:
        """Every part made so far."""
        return [PartHandle(self, part_id) for part_id in self._parts]

    def part(self, part_id: str) -> Part:
        """Return a part as it is now."""
        return self._parts[part_id]

    def join_work(self, part_id: str, features: Sequence[Feature]) -> None:
        """Do to a part what a joint or a piece of hardware asks for: a copy of the part does not take it along.

        raises  PlanError where nothing would be left of it
        """
        self.work_on(part_id, features)
        self._joined_by.setdefault(part_id, []).extend(features)

    def without_joints(self, part: Part) -> Part:
        """Return a part without the holes and grooves that its joints and its hardware brought."""
        brought = list(self._joined_by.get(part.id, ()))
        kept: list[Feature] = []
        for feature in reversed(part.features):
            if feature in brought:
                brought.remove(feature)
            else:
                kept.insert(0, feature)
        return replace(part, features=tuple(kept))

    def work_on(self, part_id: str, features: Sequence[Feature]) -> None:
        """Do more to a part; raises PlanError where nothing would be left of it."""
        made = self._parts[part_id].with_features(features)
        if volume(made) <= 0 and solid(made).is_empty():
            raise PlanError(
                "nothing would be left of it: its cuts take all of it away.",
                where=made.name,
                remedy="Make this cut smaller, or leave one of them out.",
            )
        self._parts[part_id] = made

    def measure_first(self, part_id: str, how: str = "", spare: Length | None = None) -> None:
        """Say that a part is cut to what is measured then, and how much larger it is cut out first."""
        if part_id not in self._parts:
            raise PlanError(
                "which part is to be measured first is said of the part itself.",
                where="plan.measure_first",
                given=repr(part_id),
                remedy="For instance  door.measure_first(…)",
            )
        self._parts[part_id] = replace(self._parts[part_id], fit_to=how, spare=spare)

    def _add(self, part: Part) -> PartHandle:
        self._parts[part.id] = part
        self.notation = _as_they_measure(self.notation, part.thickness)
        return PartHandle(self, part.id)

    def _new_id(self, name: str) -> str:
        if not isinstance(name, str) or not name.strip():
            raise PlanError(
                "a part needs a name.", where=self.name, given=repr(name), remedy='For instance  plan.panel("Side", …)'
            )
        base = slug(name) or "part"
        number = 2
        part_id = base
        while part_id in self._parts:
            part_id = f"{base}-{number}"
            number += 1
        return part_id

    def _read(self, name: str, what: str, value: Given) -> Length:
        return read_length(name, what, value, self.unit)


def _as_they_measure(notation: Notation, *lengths: Length) -> Notation:
    """Return how a plan writes its numbers with some lengths more that are never rounded to its mark."""
    known = set(notation.plain)
    more = {length.mm for length in lengths} - known
    return replace(notation, plain=tuple(sorted(known | more))) if more else notation
