"""Asking packingsolver: whole numbers in, a packing out. Nothing it answers is believed before it is verified.

Kerf and trim are already inside the numbers (see `whole_job`), so the solver sees pieces without a kerf. Only its
tree search, its value correction and (on boards) its column generation are used, each with a fixed amount of work in
the one mode its makers call deterministic; some of its other methods take memory by the length of the sheet, so sizes
beyond `FINE` are handed over coarser and the packing is laid out exactly afterwards.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from plankit.cutting.pack import Pack, Sheet
from plankit.cutting.slicing import Spot
from plankit.cutting.whole_job import Group

FINE = 200_000
"""The longest side handed to the solver in whole numbers; longer ones are divided by a coarser step."""

_ROUND = 55_440
"""Steps to the longest side where it is divided: a number that halves, thirds, … twelfths go into."""


@dataclass(frozen=True, slots=True)
class Work:
    """How hard one run may try.

    stages   stages of cuts; None for no limit
    queue    nodes the tree search keeps side by side
    rounds   rounds of value correction; 0 for the tree search alone
    seconds  a limit on the clock; None where the same answer must come every time
    """

    stages: int | None
    queue: int = 64
    rounds: int = 0
    seconds: float | None = None


@dataclass(frozen=True, slots=True)
class Offer:
    """So many of one of the group's kinds, to be used in the order offered."""

    kind: int
    most: int


def fill_sheets(group: Group, offers: tuple[Offer, ...], work: Work) -> Pack | None:
    """Return all pieces on as few of the sheets offered as are found, in the order offered; None where none are."""
    from packingsolver import rectangleguillotine as rg

    return _run(group, offers, work, rg.Objective.BinPacking)


def fill_short(group: Group, offers: tuple[Offer, ...], work: Work) -> Pack | None:
    """Return as large a part of the pieces as is found to fit on all the sheets offered together."""
    from packingsolver import rectangleguillotine as rg

    return _run(group, offers, work, rg.Objective.Knapsack)


def squeeze(group: Group, kind: int, work: Work, *, along: bool) -> Pack | None:
    """Return all pieces on one sheet, pushed together along its length or across it, to leave one big offcut."""
    from packingsolver import rectangleguillotine as rg

    objective = rg.Objective.OpenDimensionX if along else rg.Objective.OpenDimensionY
    return _run(group, (Offer(kind, 1),), work, objective)


def fill_boards(group: Group, work: Work, *, columns: bool) -> Pack | None:
    """Return all lengths on boards of the least weight found, with the weight no packing can beat.

    columns  whether to try column generation, which also gives the sharper bound
    """
    from packingsolver import onedimensional as od

    builder, parameters = od.InstanceBuilder(), od.OptimizeParameters()
    builder.set_objective(od.Objective.VariableSizedBinPacking)
    allowed = sorted({want.kinds for want in group.wants}, key=sorted)
    for n, room in enumerate(group.rooms):
        marks = [mark for mark, kinds in enumerate(allowed) if n in kinds]
        builder.add_bin_type(room.along, copies=room.most, cost=_cost(room.weight), eligibility_ids=marks)
    for want in group.wants:
        builder.add_item_type(
            want.ways[0].along, copies=want.quantity, eligibility_id=allowed.index(want.kinds)
        )
    _tune(od, parameters, work)
    parameters.use_sequential_value_correction = True
    parameters.use_column_generation = columns
    parameters.column_generation_subproblem_tree_search_queue_size = 128
    output = _optimise(od, builder, parameters)
    if output is None:
        return None
    sheets = []
    for n in range(output.solution.number_of_different_bins()):
        found = output.solution.bin(n)
        spots = (
            Spot(item.item_type_id, False, item.start, 0, group.wants[item.item_type_id].ways[0].along, 1)
            for item in found.items
        )
        sheets.append(Sheet(found.bin_type_id, found.copies, tuple(spots)))
    return Pack(tuple(sheets), _bound(output.variable_sized_bin_packing_bound))


def _run(group: Group, offers: tuple[Offer, ...], work: Work, objective: Any) -> Pack | None:
    from packingsolver import rectangleguillotine as rg

    builder, parameters = rg.InstanceBuilder(), rg.OptimizeParameters()
    builder.set_objective(objective)
    step = _step(group, offers)
    if any(min(group.rooms[offer.kind].along, group.rooms[offer.kind].across) < step for offer in offers):
        return None  # so narrow beside its length that nothing of it is left in coarser numbers
    for offer in offers:
        room = group.rooms[offer.kind]
        builder.add_bin_type(int(room.along / step), int(room.across / step), copies=offer.most, cost=1)
    for want in group.wants:
        along, across = (
            max(1, round(Fraction(size) / step)) for size in (want.ways[0].along, want.ways[0].across)
        )
        builder.add_item_type(along, across, copies=want.quantity, oriented=len(want.ways) == 1)
    builder.set_cut_type(rg.CutType.NonExact)
    builder.set_first_stage_orientation(rg.CutOrientation.Any)
    if work.stages is None:
        builder.set_number_of_stages_unlimited()
    else:
        builder.set_number_of_stages(work.stages)
    _tune(rg, parameters, work)
    parameters.use_tree_search = work.rounds == 0
    parameters.use_sequential_value_correction = work.rounds > 0
    output = _optimise(rg, builder, parameters)
    if output is None:
        return None
    solution = output.solution
    sheets = (_sheet(solution.bin(n), offers) for n in range(solution.number_of_different_bins()))
    return Pack(tuple(sheet for sheet in sheets if sheet.spots))


def _sheet(found: Any, offers: tuple[Offer, ...]) -> Sheet:
    spots = (
        Spot(node.item_type_id, False, node.l, node.b, node.r - node.l, node.t - node.b)
        for node in found.nodes
        if node.f >= 0 and node.item_type_id >= 0 and not node.children
    )
    return Sheet(offers[found.bin_type_id].kind, found.copies, tuple(spots))


def _step(group: Group, offers: tuple[Offer, ...]) -> Fraction:
    """Return the size of one of the solver's whole numbers in the group's: 1 unless sides are very long."""
    longest = max(max(group.rooms[offer.kind].along, group.rooms[offer.kind].across) for offer in offers)
    return Fraction(1) if longest <= FINE else Fraction(longest, _ROUND)


def _tune(module: Any, parameters: Any, work: Work) -> None:
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    parameters.optimization_mode = module.OptimizationMode.NotAnytimeSequential
    parameters.not_anytime_tree_search_queue_size = work.queue
    parameters.sequential_value_correction_subproblem_tree_search_queue_size = min(work.queue, 64)
    parameters.not_anytime_sequential_value_correction_number_of_iterations = max(1, work.rounds)
    if work.seconds is not None:
        parameters.time_limit = max(0.01, work.seconds)


def _optimise(module: Any, builder: Any, parameters: Any) -> Any:
    """Run the solver; None where it finds nothing or gives up on the numbers."""
    try:
        output = module.optimize(builder.build(), parameters)
    except (ValueError, RuntimeError, MemoryError, OverflowError, IndexError):
        return None
    return output if output.solution.number_of_bins() else None


def _cost(weight: Fraction) -> float:
    """Return a price the solver accepts: what is free costs it next to nothing."""
    return float(weight) if weight else 1e-9


def _bound(found: float) -> Fraction:
    """Return a solver's bound made safe: lowered by more than its floating point can be off."""
    return (
        Fraction(0) if not 0 < found < 1e15 else Fraction(found) - max(Fraction(1), Fraction(found)) / 100_000
    )
