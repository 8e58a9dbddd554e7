"""A piece that stands in the weather, as its author writes it: its air, how water leaves it, boards with gaps."""

from dataclasses import replace
from fractions import Fraction

from plankit.build.movement import movement
from plankit.errors import PlanError
from plankit.parts import AXES, HIGH, LOW, Axis, Bore, Box, Face, Part
from plankit.plan.asked import known_face, made_of, more_than_nothing, not_below_nothing
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, Several, single
from plankit.plan.placing import RUNS, Given, read_faces
from plankit.stock import Lumber
from plankit.units import L, Length, told

DRAIN_HOLE = "1/2"
"""A hole so wide lets water through, and does not clog at once (common practice)."""
DRAIN_EVERY = "6"
"""Holes stand at most so far apart (common practice)."""
NARROWEST = L("1 in")
"""Slats are ripped no narrower (common practice)."""


class Outdoor(Bench):
    """The part of a plan that says that a piece stands outdoors, and lets water out of it."""

    def outdoors(self, *, dry: int | str = "40 %", wet: int | str = "90 %") -> None:
        """Say that the piece stands in the weather, before anything is made: `plan.outdoors()`.

        Slots and gaps are worked out for that air; water that stays, and wood that decays, are looked for; glue,
        screws and finish are asked for that last there.

        dry, wet  relative humidity in the dry season and in the wet one (common practice, out of the ground)
        raises    PlanError where these are no two percentages, the wet one the greater
        """
        ends = tuple(_share(one, what) for what, one in (("dry", dry), ("wet", wet)))
        if ends[0] >= ends[1]:
            raise PlanError(
                "the wet season is damper than the dry one.",
                where="plan.outdoors",
                given=f"dry={dry!r}, wet={wet!r}",
                remedy='For instance  plan.outdoors(dry="40 %", wet="90 %")',
            )
        self.shop = replace(self.shop, humidities=(ends[0], ends[1]))
        self._outdoors = True

    def drain(
        self,
        part: PartHandle,
        *,
        holes: Given = DRAIN_HOLE,
        every: Given = DRAIN_EVERY,
        inset: Given = "2",
    ) -> int:
        """Bore holes down through a bottom so that water leaves it, and return how many: `plan.drain(floor)`.

        holes  how wide each is
        every  they stand evenly, at most so far apart both ways
        inset  from the bottom's edges to the outermost holes; less where the bottom is narrow
        raises PlanError for a part that does not lie flat, or too narrow for a hole
        """
        floor = single(part, "what is drained").part
        if floor.through != "z":
            raise PlanError("only what lies flat is drained.", where=floor.name, remedy="Name the bottom.")
        wide = more_than_nothing(self._read(floor.name, "holes", holes), "holes", floor.name)
        apart = more_than_nothing(self._read(floor.name, "every", every), "every", floor.name)
        away = not_below_nothing(self._read(floor.name, "inset", inset), "inset", floor.name)
        if apart <= wide:
            given = f"{told(wide)} every {told(apart)}"
            raise PlanError("the holes run into each other.", where=floor.name, given=given)
        across = {axis: _evenly(floor, axis, wide, apart, away) for axis in ("x", "y")}
        made = [
            Bore("top", _at(floor, x, y), wide, None, "drain hole") for x in across["x"] for y in across["y"]
        ]
        self.work_on(floor.id, made)
        return len(made)

    def slats(
        self, name: str, stock: Lumber, *, runs: str, gap: Given = "1/4", **faces: Given
    ) -> Several:
        """Lay boards side by side, flat, with gaps that water leaves through, and return them.

        All are ripped to one width, so that the gaps are just what is asked for.

        runs    the way they run: "left-right" or "front-back"
        gap     between two of them
        faces   left, right, front and back of them all, and bottom or top
        raises  PlanError where a wet board would close the gap, or no board fits
        """
        made_of(stock, Lumber, name, "slats")
        for face in faces:
            known_face(face, name)
        space = more_than_nothing(self._read(name, "gap", gap), "gap", name)
        whole = self._slab(name, stock, read_faces(name, faces, self.unit))
        if RUNS.get(runs) not in {"x", "y"}:
            raise PlanError("slats lie flat.", where=name, given=f'runs="{runs}"',
                            remedy='Write runs="left-right" or runs="front-back".')  # fmt: skip
        along = RUNS[runs]
        across: Axis = "y" if along == "x" else "x"
        room = whole.extent(across)
        count = -int(-(room + space).mm // (stock.width + space).mm)
        wide = (room - space * (count - 1)).portion(max(count, 1))
        swells = movement(stock, wide, *self.shop.humidities)
        if swells >= space:
            raise PlanError(
                f"a wet board {told(wide)} wide swells by {told(swells)} and closes the gap.",
                where=name,
                given=f"gap={told(space)}",
                remedy=f"Leave {told(swells.rounded_up(L('1/16 in')) + L('1/16 in'))} or more, or use narrower boards.",
            )
        if wide < NARROWEST:
            raise PlanError(
                f"{count} slats would be {told(wide)} wide each.", where=name, remedy="Make the gap smaller."
            )
        made = []
        for number in range(count):
            low = whole.low(across) + (wide + space) * number
            box = replace(whole, **{LOW[across]: low, HIGH[across]: low + wide})
            made.append(self._add(Part(self._new_id(name), name, "board", stock, box, along, "z")))
        return Several(made)

    def _slab(self, name: str, stock: Lumber, given: dict[Face, Length]) -> Box:
        """The room of all slats: four faces across, and one of bottom and top."""
        missing = [face for face in ("left", "right", "front", "back") if face not in given]
        upright = [face for face in ("bottom", "top") if face in given]
        if missing or len(upright) != 1:
            raise PlanError(
                "slats lie between four faces, on a bottom or under a top.",
                where=name,
                given=", ".join(given),
                remedy=f"Add {', '.join(f'{face}=…' for face in missing)}." if missing else "Give bottom= or top=.",
            )
        low = given["bottom"] if "bottom" in given else given["top"] - stock.thickness
        box = Box(given["left"], given["right"], given["front"], given["back"], low, low + stock.thickness)
        if any(box.extent(axis).mm <= 0 for axis in AXES):
            raise PlanError("there is no room for slats here.", where=name, given=", ".join(given))
        return box


def _share(given: int | str, what: str) -> Fraction:
    text = str(given).strip().removesuffix("%").strip()
    if not text.isdigit() or not 0 < int(text) < 100:
        raise PlanError(
            "a humidity is a percentage.",
            where="plan.outdoors",
            given=f"{what}={given!r}",
            remedy=f'For instance  {what}="40 %"',
        )
    return Fraction(int(text), 100)


def _evenly(floor: Part, axis: Axis, wide: Length, apart: Length, away: Length) -> list[Length]:
    """Where holes stand along one way of a bottom, from its lower end."""
    size = floor.box.extent(axis)
    inset = away if away * 2 < size else size.portion(2)
    if inset.portion(2) < wide:
        raise PlanError("it is too narrow for such holes.", where=floor.name, given=f"{told(wide)} in {told(size)}",
                        remedy="Bore smaller ones.")  # fmt: skip
    between = size - inset * 2
    spaces = -int(-between.mm // apart.mm)
    if spaces == 0:
        return [size.portion(2)]
    return [inset + between.portion(spaces) * number for number in range(spaces + 1)]


def _at(floor: Part, x: Length, y: Length) -> tuple[Length, Length, Length]:
    return (x, y, floor.box.extent("z").portion(2))
