"""What comes back from a cutting, and its form as JSON."""

import json
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Any

from plankit.cutting.job import Job, Unit
from plankit.cutting.layout import Cut, Layout, Offcut, Placed
from plankit.finding import Finding
from plankit.units import MM_IN, Mass, mixed


@dataclass(frozen=True, slots=True)
class Result:
    """A verified answer to a cutting job.

    complete     whether every piece wanted is placed; `missing` has the others, by name and number
    proven       whether what is made least (the cost where every stock has a price, else the count) cannot be less
    totals       name of each stock used and how many
    cost         of all that is used; None where a price is missing
    least_count  no way of cutting needs fewer; None where the stock available is proven not to suffice
    least_cost   no way of cutting costs less; None as for cost and least_count
    repeatable   whether the same job always gives this same answer
    sequence     the cuts of all layouts in the order they are made: number of the layout, from 0, and of the cut in
                 it, from 1; a layout of several copies is cut that often at each of them
    troubles     what one person cannot do of the order of cuts with the job's saws, as found by carrying it out
    """

    job: Job
    layouts: tuple[Layout, ...]
    missing: tuple[tuple[str, int], ...]
    proven: bool
    least_count: int | None
    least_cost: Fraction | None
    repeatable: bool = True
    sequence: tuple[tuple[int, int], ...] = ()
    troubles: tuple[Finding, ...] = ()

    @property
    def complete(self) -> bool:
        """Whether every piece wanted is placed."""
        return not self.missing

    @property
    def totals(self) -> tuple[tuple[str, int], ...]:
        """Stock used, by name, in the order the job lists it."""
        counts = [
            (kind.name, sum(one.copies for one in self.layouts if one.stock == kind.name))
            for kind in self.job.stock
        ]
        return tuple((name, count) for name, count in counts if count)

    @property
    def count(self) -> int:
        """How many boards and sheets are used."""
        return sum(count for _, count in self.totals)

    @property
    def settings(self) -> int:
        """How often a saw is set, for all cuts of all layouts."""
        return max((made.group for layout in self.layouts for made in layout.cuts), default=0)

    @property
    def cuts(self) -> int:
        """How many cuts are made, copies counted."""
        return sum(len(layout.cuts) * layout.copies for layout in self.layouts)

    @property
    def heaviest(self) -> Fraction | None:
        """The heaviest piece that has to be lifted to a saw, kg; None where no weight is known or nothing is lifted."""
        going = {saw.name for saw in self.job.saws if saw.goes_to_the_work}
        masses = [c.mass for one in self.layouts for c in one.cuts if c.mass is not None and c.tool not in going]
        return max(masses, default=None)

    @property
    def cost(self) -> Fraction | None:
        """What the stock used costs; None where some stock of the job has no price."""
        if not self.job.priced:
            return None
        return sum(
            ((self.job.kind(name).price or Fraction(0)) * count for name, count in self.totals), Fraction(0)
        )

    def in_words(self) -> str:
        """Say in one line how close to the least possible the material is."""
        if not self.complete:
            return "The stock available does not hold every piece."
        if not self.layouts:
            return "Nothing is to be cut."
        pieces = "piece" if self.count == 1 else "pieces"
        used = f"{self.count} {pieces} of stock"
        if self.proven:
            return f"{used}; {'cheaper' if self.job.priced else 'fewer'} is impossible (proven)."
        return f"{used}; {self._gap()}."

    def _gap(self) -> str:
        """Say how far above the least possible the stock may be, where it is not proven."""
        if self.job.priced:
            return f"the cost is {_money(self.cost)}, and less than {_money(self.least_cost)} is impossible"
        if self.least_count is None:
            return "how few would do is not known"
        over = self.count - self.least_count
        return f"at most {_COUNTED.get(over, str(over))} more than the least possible"


_COUNTED = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine"}


def result_json(result: Result) -> str:
    """Return the result as JSON text, every length exact in the job's unit, always the same for the same result."""
    return json.dumps(result_object(result), indent=1, ensure_ascii=False) + "\n"


def result_object(result: Result) -> dict[str, Any]:
    """Return the result as plain objects, lists and strings."""
    found: dict[str, Any] = {
        "unit": result.job.unit,
        "complete": result.complete,
        "proven": result.proven,
        "totals": [{"stock": name, "count": count} for name, count in result.totals],
        "cost": _money(result.cost),
        "least_count": result.least_count,
        "least_cost": _money(result.least_cost),
        "layouts": [_layout(layout, result.job.unit) for layout in result.layouts],
    }
    if result.missing:
        found["missing"] = [{"part": name, "quantity": count} for name, count in result.missing]
    if not result.repeatable:
        found["repeatable"] = False
    found["settings"] = result.settings
    found["sequence"] = [{"layout": layout + 1, "cut": order} for layout, order in result.sequence]
    if result.troubles:
        found["troubles"] = [{"place": one.place, "part": one.part, "what": one.what, "number": one.number}
                             for one in result.troubles]  # fmt: skip
    return found


def exact(length: Fraction, unit: Unit) -> str:
    """Write millimetres exactly in a unit: `15 1/4`, `387.35`, and `3 1/3` where no decimals would end."""
    value = length / MM_IN[unit]
    if unit == "in":
        return mixed(value)
    rest = value.denominator
    for factor in (2, 5):
        while rest % factor == 0:
            rest //= factor
    return mixed(value) if rest != 1 else _decimals(value)


def _decimals(value: Fraction) -> str:
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
    digits = str(int(value * 10**places)).rjust(places + 1, "0")
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits


def _money(amount: Fraction | None) -> str | None:
    if amount is None:
        return None
    if (amount * 100).denominator == 1:
        cents = int(amount * 100)
        return f"{cents // 100}.{cents % 100:02d}"
    return exact(amount, "mm")


def _layout(layout: Layout, unit: Unit) -> dict[str, Any]:
    return {
        "stock": layout.stock,
        "copies": layout.copies,
        "pieces": [_placed(piece, unit) for piece in layout.pieces],
        "offcuts": [_offcut(offcut, unit) for offcut in layout.offcuts],
        "cuts": [_cut(cut, unit) for cut in layout.cuts],
    }


def _placed(piece: Placed, unit: Unit) -> dict[str, Any]:
    return {"part": piece.part, **_place(piece, unit), "turned": piece.turned}


def _offcut(offcut: Offcut, unit: Unit) -> dict[str, Any]:
    return _place(offcut, unit)


def _place(thing: Placed | Offcut, unit: Unit) -> dict[str, Any]:
    """Write a place and a size; a board's has neither y nor width."""
    if thing.width is None:
        return {"x": exact(thing.x, unit), "length": exact(thing.length, unit)}
    return {
        "x": exact(thing.x, unit), "y": exact(thing.y, unit),
        "length": exact(thing.length, unit), "width": exact(thing.width, unit),
    }  # fmt: skip


def _cut(cut: Cut, unit: Unit) -> dict[str, Any]:
    found = {
        "order": cut.order, "kind": cut.kind, "tool": cut.tool, "from": cut.edge, "setting": exact(cut.setting, unit),
        "of": cut.of, "gives": list(cut.gives), "frees": cut.frees,
    }  # fmt: skip
    if cut.also_frees:
        found["also_frees"] = cut.also_frees
    found |= {"group": cut.group, "people": cut.people, "support": cut.support}
    if cut.rail_on:
        found["rail_on"] = cut.rail_on
    return found if cut.mass is None else {**found, "weight": _mass(cut.mass, unit)}


def _mass(kg: Fraction, unit: Unit) -> str:
    """Write a weight to a hundredth of a pound or a kilogram, rounded up."""
    name, each = ("lb", Mass.of_pounds(1).kg) if unit == "in" else ("kg", Fraction(1))
    return f"{float(ceil(kg / each * 100)) / 100:.2f} {name}"
