"""Covering all pieces with as few sheets as can be, from a pool of sheets: a linear program, and its whole numbers.

P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
(1961). The programs are solved by HiGHS in floating point. Nothing rests on that: prices are taken over as whole
numbers and the bound is worked out from them exactly (see `sheet_bound`); packings are verified as all others are.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from plankit.cutting.pack import Pack, Sheet
from plankit.cutting.slicing import Spot
from plankit.cutting.together import Kinds
from plankit.cutting.whole_job import Group

type Held = tuple[int, Kinds]
"""A kind of stock, by position, and the pieces on one of it."""

_MOST_COLUMNS = 6000


class Pool:
    """Every sheet that any try has filled, once for each set of pieces, with where they lie."""

    def __init__(self, group: Group) -> None:
        self.group = group
        self.sheets: dict[Held, tuple[Spot, ...]] = {}

    def take(self, pack: Pack) -> None:
        """Keep all sheets of a packing."""
        for sheet in pack.sheets:
            self.keep(sheet.kind, sheet.spots)

    def keep(self, kind: int, spots: tuple[Spot, ...]) -> None:
        """Keep one sheet."""
        self.sheets.setdefault((kind, tuple(sorted(spot.want for spot in spots))), spots)


def prices(columns: Sequence[Kinds], needs: Sequence[int]) -> tuple[float, list[float]]:
    """Return how many sheets, in fractions, the columns need for all pieces, and what one of each is worth then."""
    import numpy as np

    highs = _model([(1.0, one) for one in columns], needs, whole=False)
    highs.setOptionValue("solver", "ipx")
    highs.setOptionValue("run_crossover", "off")
    highs.run()
    worth = np.maximum(0.0, np.array(highs.getSolution().row_dual))
    return float(highs.getInfo().objective_function_value), worth.tolist()


def cover(pool: Pool, seconds: float | None, nodes: int) -> Pack | None:
    """Return the packing of least weight that can be put together from the pool's sheets; None where none is found.

    seconds  a limit on the clock, None for none
    nodes    nodes of the search that may be looked at
    """
    group = pool.group
    held = sorted(pool.sheets)
    if not held or len(held) > _MOST_COLUMNS:
        return None
    needs = [want.quantity for want in group.wants]
    columns = [(float(group.rooms[kind].weight), kinds) for kind, kinds in held]
    highs = _model(columns, needs, whole=True)
    for n, room in enumerate(group.rooms):
        mine = [place for place, (kind, _) in enumerate(held) if kind == n]
        highs.addRow(0.0, float(room.most), len(mine), mine, [1.0] * len(mine))
    highs.setOptionValue("mip_max_nodes", nodes)
    highs.setOptionValue("random_seed", 1)
    if seconds is not None:
        highs.setOptionValue("time_limit", max(0.05, seconds))
    highs.run()
    taken = [round(value) for value in highs.getSolution().col_value]
    if len(taken) != len(held) or not any(taken):
        return None
    return only_wanted(pool, [(one, number) for one, number in zip(held, taken, strict=True) if number > 0])


def only_wanted(pool: Pool, chosen: Iterable[tuple[Held, int]]) -> Pack:
    """Return the sheets chosen, each with only those pieces that are still wanted."""
    left = Counter({place: want.quantity for place, want in enumerate(pool.group.wants)})
    sheets = []
    for held, number in chosen:
        for _ in range(number):
            spots = []
            for spot in pool.sheets[held]:
                if left[spot.want] > 0:
                    left[spot.want] -= 1
                    spots.append(spot)
            if spots:
                sheets.append(Sheet(held[0], 1, tuple(spots)))
    return Pack(_counted(sheets))


def _counted(sheets: list[Sheet]) -> tuple[Sheet, ...]:
    counts = Counter(sheets)
    return tuple(replace(sheet, copies=number) for sheet, number in counts.items())


def program() -> Any:
    """Return an empty linear program that says nothing and works in one thread, so always the same way."""
    import highspy

    class Quiet(highspy.Highs):
        """HiGHS without the line it writes to standard output when it wakes up, and alone in its process."""

        def enableCallbacks(self) -> None:  # noqa: N802 - its own name
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()  # type: ignore[no-untyped-call]

        def run(self) -> Any:
            """Solve; where somebody had HiGHS start more threads in this process, end them first and ask again."""
            status = super().run()
            if status == highspy.HighsStatus.kError:
                self.resetGlobalScheduler(True)
                status = super().run()
            return status

    made: Any = Quiet
    highs = made()
    highs.setOptionValue("threads", 1)
    return highs


def _model(columns: Sequence[tuple[float, Kinds]], needs: Sequence[int], *, whole: bool) -> Any:
    import highspy
    import numpy as np

    starts, rows, values = [0], [], []
    for _, kinds in columns:
        for kind, number in sorted(Counter(kinds).items()):
            rows.append(kind)
            values.append(float(number))
        starts.append(len(rows))
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(columns), len(needs)
    model.col_cost_ = np.array([cost for cost, _ in columns])
    model.col_lower_, model.col_upper_ = np.zeros(len(columns)), np.full(len(columns), highspy.kHighsInf)
    model.row_lower_, model.row_upper_ = np.array(needs, float), np.full(len(needs), highspy.kHighsInf)
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_, model.a_matrix_.index_ = np.array(starts), np.array(rows)
    model.a_matrix_.value_ = np.array(values)
    if whole:
        model.integrality_ = [highspy.HighsVarType.kInteger] * len(columns)
    highs = program()
    highs.passModel(model)
    return highs
