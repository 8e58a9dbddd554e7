"""Shelf pins as an author writes them: rows of holes, and the shelves that lie on pins in them."""

from collections.abc import Sequence
from dataclasses import dataclass

from plankit.build.pins import (
    CLEARANCE,
    DEPTH,
    METRIC_PIN,
    PITCH,
    SET_IN,
    PinRows,
    deep_axis,
    facing,
    pin_holes,
    row_heights,
    shelf_pins,
)
from plankit.errors import PlanError
from plankit.parts import HIGH, LOW, Box, Face, Part
from plankit.plan.asked import made_of, more_than_nothing, not_below_nothing, whole_number
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, flat
from plankit.plan.placing import RUNS, Given, refuse_empty
from plankit.stock import Sheet
from plankit.units import Length, largest, smallest, told


@dataclass(frozen=True, slots=True)
class PinGrid:
    """Rows of pin holes as an author holds them.

    rows   where the holes are
    sides  each side with the face they are bored in, left to right: two faces for each bay
    """

    rows: PinRows
    sides: tuple[tuple[Part, Face], ...]

    @property
    def heights(self) -> tuple[Length, ...]:
        """The middle of every row, lowest first."""
        return self.rows.heights

    def bay(self, number: int) -> tuple[tuple[Part, Face], tuple[Part, Face]]:
        """Return the two faces of one bay, counted from 0 at the left (or the front)."""
        pairs = list(zip(self.sides[::2], self.sides[1::2], strict=True))
        if not 0 <= number < len(pairs):
            raise PlanError(
                "there is no such bay.",
                given=f"bay={number}",
                remedy=f"Count from 0 to {len(pairs) - 1}.",
            )
        return pairs[number]

    def under(self, row: int) -> Length:
        """Return where the underside of a shelf lies in one row, counted from 1 at the bottom."""
        if not 1 <= row <= len(self.heights):
            raise PlanError(
                "there is no such row of pin holes.",
                given=f"row={row}",
                remedy=f"Count from 1 at the bottom to {len(self.heights)}.",
            )
        return self.heights[row - 1] + self.rows.pin.portion(2)


class BoringPins(Bench):
    """The part of a plan that puts shelves on pins."""

    def pin_rows(
        self,
        sides: Sequence[PartHandle],
        *,
        lowest: Given,
        highest: Given,
        pin: Given = METRIC_PIN,
        pitch: Given = PITCH,
        set_in: Given = SET_IN,
        set_in_back: Given | None = None,
        depth: Given = DEPTH,
    ) -> PinGrid:
        """Bore rows of shelf-pin holes, level on every side: `plan.pin_rows([left, right], lowest="6", highest="24")`.

        lowest, highest  heights in the piece: of the lowest row, and of what no row may pass
        pin     across a hole: 5 mm, or "1/4"
        pitch   from row to row (32 mm)
        set_in  from the front edge to the front column, and from the back edge to the back one unless
                `set_in_back` says otherwise (37 mm)
        """
        parts = [side.part for side in flat(sides)]
        faces = facing(parts)
        name, deep = parts[0].name, deep_axis(parts[0])
        front = more_than_nothing(self._read(name, "set_in", set_in), "set_in", name)
        back = (
            front
            if set_in_back is None
            else more_than_nothing(self._read(name, "set_in_back", set_in_back), "set_in_back", name)
        )
        low = largest(*(part.box.low(deep) for part in parts)) + front
        high = smallest(*(part.box.high(deep) for part in parts)) - back
        if high - low < more_than_nothing(self._read(name, "pin", pin), "pin", name) * 2:
            raise PlanError(
                "the two columns of holes meet or cross.",
                where=name,
                given=f"{told(front)} from the front and {told(back)} from the back",
                remedy="Set them in less.",
            )
        heights = row_heights(
            self._read(name, "lowest", lowest),
            self._read(name, "highest", highest),
            more_than_nothing(self._read(name, "pitch", pitch), "pitch", name),
        )
        rows = PinRows(
            heights,
            (low, high),
            deep,
            more_than_nothing(self._read(name, "pin", pin), "pin", name),
            more_than_nothing(self._read(name, "depth", depth), "depth", name),
        )
        for part, face in faces:
            self.work_on(part.id, pin_holes(part, face, rows))
        return PinGrid(rows, faces)

    def adjustable_shelf(
        self,
        name: str,
        stock: Sheet,
        *,
        on: PinGrid,
        row: int,
        bay: int = 0,
        front: Given | None = None,
        back: Given | None = None,
        clearance: Given = CLEARANCE,
        grain: str = "left-right",
    ) -> PartHandle:
        """Make a shelf that lies on pins, and count the pins: `plan.adjustable_shelf("Shelf", ply, on=rows, row=5)`.

        on         what `plan.pin_rows` gave back
        row        the row it is drawn in, counted from 1 at the bottom
        bay        which space, counted from 0 at the left, where there are dividers
        front, back its faces; those of the sides where they are left out
        clearance  room at each end (common practice: 1/16 in)
        """
        made_of(stock, Sheet, name, "an adjustable shelf")
        if not isinstance(on, PinGrid):
            raise PlanError(
                "a shelf on pins lies on rows of holes.",
                where=name,
                given="on= something else",
                remedy="Keep what plan.pin_rows(…) gives back, and name it:  rows = plan.pin_rows(…), then  on=rows",
            )
        whole_number(row, "row", name)
        whole_number(bay, "bay", name, least=0)
        (first, low_face), (second, high_face) = on.bay(bay)
        room = not_below_nothing(self._read(name, "clearance", clearance), "clearance", name)
        axis, deep = first.through, on.rows.deep
        bottom = on.under(row)
        depth = (
            largest(first.box.low(deep), second.box.low(deep))
            if front is None
            else self._read(name, "front", front),
            smallest(first.box.high(deep), second.box.high(deep))
            if back is None
            else self._read(name, "back", back),
        )
        ends = {
            LOW[axis]: first.box.face(low_face) + room,
            HIGH[axis]: second.box.face(high_face) - room,
            LOW[deep]: depth[0],
            HIGH[deep]: depth[1],
            "bottom": bottom,
            "top": bottom + stock.thickness,
        }
        box = Box(**ends)
        refuse_empty(name, box)
        runs = RUNS.get(grain)
        if runs not in {"x", "y"}:
            raise PlanError(
                "face grain of a shelf is level.",
                where=name,
                given=f'grain="{grain}"',
                remedy='Write one of: "left-right", "front-back"',
            )
        shelf = self._add(Part(self._new_id(name), name, "panel", stock, box, runs or "x", "z"))
        self._items += shelf_pins(shelf.part, on.bay(bay), on.rows, on.heights[row - 1])
        return shelf
