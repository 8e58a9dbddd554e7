"""Measure cutting on published instances: python tests/bench/cutting.py FOLDER [--seconds S] [--sample N] [--sets …].

FOLDER holds instances_1d.jsonl, instances_2d.jsonl and values.csv (best known values and bounds with their sources).
Every layout of plankit is verified again. With --compare, the same instances in the same seconds by packingsolver alone
as it comes, OR-Tools' CP-SAT on boards of one length, first-fit decreasing and shelves. Lengths of the instances are
read as millimetres. With --random N, so many random jobs are cut and verified instead, and FOLDER is not read.
"""

import argparse
import csv
import json
import random
import statistics
import sys
import time
from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

from plankit.cutting import Job, Piece, Result, StockKind, cut, verify
from plankit.cutting.first_fit import first_fit
from plankit.cutting.placing import Placing, empty, put
from plankit.cutting.whole_job import Group, groups
from plankit.errors import PlanError

_HANGS = 20.0

_COST_IS_AREA = {"PS-MULTI"}
"""Sets whose values and bounds count a sheet's area as its cost, whatever cost the instance states: in all fifty rows
the bound is at or just above the area of all items, and with area as cost vbp_C06_05 comes to its 51038 exactly."""

_STAGES = {"1d": None, "guillotine_unlimited": None, "any_packing": None}


@dataclass
class Tally:
    """What came out for one set and rotation."""

    instances: int = 0
    found: Fraction = Fraction(0)
    best_known: Fraction = Fraction(0)
    bound: Fraction = Fraction(0)
    with_best: int = 0
    met: int = 0
    proven: int = 0
    provable: int = 0
    wrong: list[str] = field(default_factory=list)
    alone: Fraction = Fraction(0)
    no_answer: int = 0
    cp_sat: Fraction = Fraction(0)
    first_fit: Fraction = Fraction(0)
    shelves: Fraction = Fraction(0)
    settings: int = 0
    cuts: int = 0
    heaviest: Fraction = Fraction(0)
    seconds: list[float] = field(default_factory=list)


def job_of(instance: dict, *, turns: bool) -> Job:
    """Return a published instance as a job; every stock has its cost as price."""
    flat = instance["kind"] == "2d"
    across = ("w", "h") if flat else ("length", None)

    def size(row: dict, name: str | None) -> Fraction | None:
        return None if name is None else Fraction(row[name])

    trim = Fraction(instance["trim"])
    stock = tuple(
        StockKind(
            f"stock {n}",
            Fraction(row[across[0]]),
            size(row, across[1]),
            row["qty"],
            Fraction(row["w"] * row["h"] if instance["set"] in _COST_IS_AREA else row["cost"]),
            trim,
            trim,
        )
        for n, row in enumerate(instance["stocks"])
    )
    pieces = tuple(
        Piece(f"item {n}", Fraction(row[across[0]]), size(row, across[1]), row["qty"], turns)
        for n, row in enumerate(instance["items"])
    )
    return Job(stock, pieces, Fraction(instance["kerf"]), "mm")


def packingsolver_alone(group: Group, seconds: float) -> Fraction | None:
    """Return the cost packingsolver finds with its own settings; None where it finds no whole answer."""
    from packingsolver import onedimensional, rectangleguillotine

    module = onedimensional if group.board else rectangleguillotine
    builder, parameters = module.InstanceBuilder(), module.OptimizeParameters()
    single = len(group.rooms) == 1
    builder.set_objective(module.Objective.BinPacking if single else module.Objective.VariableSizedBinPacking)
    for room in group.rooms:
        sides = (room.along,) if group.board else (room.along, room.across)
        builder.add_bin_type(*sides, copies=room.most, cost=float(room.weight))
    for want in group.wants:
        way = want.ways[0]
        if group.board:
            builder.add_item_type(way.along, copies=want.quantity)
        else:
            builder.add_item_type(way.along, way.across, copies=want.quantity, oriented=len(want.ways) == 1)
    if not group.board:
        builder.set_number_of_stages_unlimited()
    parameters.verbosity_level = 0
    parameters.time_limit = seconds
    solution = module.optimize(builder.build(), parameters).solution
    return Fraction(solution.cost()).limit_denominator(10**6) if solution.full() else None


def measure(
    rows: list[tuple[dict, dict]], seconds: float | None, *, compare: bool
) -> dict[tuple[str, str], Tally]:
    """Plan each instance and add up what came out."""
    tallies: dict[tuple[str, str], Tally] = defaultdict(Tally)
    for instance, row in rows:
        tally = tallies[instance["set"], "turned" if row["rotation"] == "1" else "fixed"]
        job = job_of(instance, turns=row["rotation"] == "1")
        start = time.perf_counter()
        result = cut(job, seconds)
        tally.seconds.append(time.perf_counter() - start)
        cost = result.cost or Fraction(0)
        _judge(tally, instance["id"], row, cost, result.proven)
        _tell(instance["id"], row, result, tally.seconds[-1])
        if verify(job, result.layouts, result.missing) or not result.complete:
            tally.wrong.append(f"{instance['id']}: not verified or not complete")
        tally.settings += result.settings
        tally.cuts += result.cuts
        tally.heaviest = max(tally.heaviest, result.heaviest or Fraction(0))
        if compare:
            for group in groups(job):
                _compare(tally, group, seconds or 5.0)
    return tallies


def _compare(tally: Tally, group: Group, seconds: float) -> None:
    shelves = min(first_fit(group, axis).weight(group) for axis in ("x", "y")[: 1 if group.board else 2])
    decreasing = shelves if group.board else first_fit_decreasing(group)
    tally.shelves += shelves
    tally.first_fit += decreasing
    alone = packingsolver_alone(group, seconds)
    tally.alone += decreasing if alone is None else alone
    tally.no_answer += alone is None
    if group.board and len(group.rooms) == 1:
        tally.cp_sat += cp_sat(group, seconds) or decreasing


def first_fit_decreasing(group: Group) -> Fraction:
    """Return the cost of sheets filled largest piece first, each where it first fits, cut edge to edge."""
    open_now: list[tuple[int, Placing]] = []
    for place in sorted(range(len(group.wants)), key=lambda n: (-group.wants[n].area, n)):
        want = group.wants[place]
        for _ in range(want.quantity):
            for number, (kind, placing) in enumerate(open_now):
                more = put(placing, want, place) if kind in want.kinds else None
                if more is not None:
                    open_now[number] = (kind, more)
                    break
            else:
                kind = min(want.kinds, key=lambda n: (group.rooms[n].weight / group.rooms[n].area, n))
                opened = put(empty(group.rooms[kind]), want, place)
                assert opened is not None
                open_now.append((kind, opened))
    return sum((group.rooms[kind].weight for kind, _ in open_now), Fraction(0))


def cp_sat(group: Group, seconds: float) -> Fraction | None:
    """Return the cost CP-SAT finds for boards of one length, starting from nothing; None where it finds no answer."""
    from ortools.sat.python import cp_model

    room, model = group.rooms[0], cp_model.CpModel()
    boards = range(int(first_fit(group).weight(group) / room.weight))
    used = [model.new_bool_var(f"used {b}") for b in boards]
    lies = [
        [model.new_int_var(0, min(want.quantity, room.along // want.ways[0].along), "") for want in group.wants]
        for _ in boards
    ]
    for n, want in enumerate(group.wants):
        model.add(sum(lies[b][n] for b in boards) == want.quantity)
    for b in boards:
        model.add(sum(want.ways[0].along * one for want, one in zip(group.wants, lies[b], strict=True))
                  <= room.along * used[b])  # fmt: skip
        if b:
            model.add_implication(used[b], used[b - 1])
    model.minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    if solver.solve(model) not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return None
    return room.weight * round(solver.objective_value)


def random_jobs(number: int) -> list[str]:
    """Cut so many random jobs and verify each; return what went wrong.

    Kerf from nothing up, pieces tiny and as large as the sheet, equal ones by hundreds, every grain, boards as well.
    """
    wrong = []
    for seed in range(number):
        job = _random_job(random.Random(seed))
        start = time.perf_counter()
        try:
            result = cut(job)
        except PlanError as error:
            wrong.append(f"random job {seed}: {error}")
            continue
        if verify(job, result.layouts, result.missing) or not result.complete:
            wrong.append(f"random job {seed}: not verified or not complete")
        if time.perf_counter() - start > _HANGS:
            wrong.append(f"random job {seed}: took {time.perf_counter() - start:.1f} s")
    return wrong


def _random_job(dice: random.Random) -> Job:
    long, wide = dice.choice([(2440, 1220), (1525, 1525), (600, 300)])
    board = dice.random() < 0.25
    stock = [StockKind("large", Fraction(long), None if board else Fraction(wide))]
    if dice.random() < 0.3:
        stock.append(StockKind("small", Fraction(long, 2), None if board else Fraction(wide, 2), dice.randint(1, 3)))
    pieces = []
    for n in range(dice.randint(1, 12)):
        whole = dice.random() < 0.1
        along, across = (long, wide) if whole else (dice.randint(1, long), dice.randint(1, wide))
        if dice.random() < 0.5 and not whole:
            along, across = max(1, along // 6), max(1, across // 6)
        many = dice.choice([1, 1, 1, 2, 3, 8, 300 if along * across * 40 < long * wide else 2])
        size = Fraction(along * 8 + dice.choice([0, 0, 1]), 8) if along < long else Fraction(along)
        pieces.append(Piece(f"p{n}", size, None if board else Fraction(across), many, dice.random() < 0.5))
    kerf = Fraction(dice.choice([0, 1, 3, 25, 60]), dice.choice([1, 8]))
    return Job(tuple(stock), tuple(pieces), kerf, "mm", dice.choice([None, None, None, 2, 3]))


def _tell(name: str, row: dict, result: Result, seconds: float) -> None:
    least, cost = float(result.least_cost or 0), float(result.cost or 0)
    known = f"best {row['best_known']}, bound {row['bound']}"
    print(
        f"{name} {row['rotation']}: {cost:g}, at least {least:g}; {known}; {seconds:.2f} s", file=sys.stderr
    )


def _judge(tally: Tally, name: str, row: dict, cost: Fraction, proven: bool) -> None:
    tally.instances += 1
    tally.found += cost
    bound = Fraction(row["bound"]) if row["bound"] else None
    # A value without a proof may be beaten; a bound may not.
    best = Fraction(row["best_known"]) if row["best_known"] and row["cuts"] != "any_packing" else None
    if best is not None:
        tally.with_best += 1
        tally.best_known += best
        tally.met += cost <= best
        if proven and cost > best:
            tally.wrong.append(f"{name}: claims proof of {cost}, known {best}")
    if bound is not None:
        tally.bound += bound
        tally.provable += cost == bound
        if cost < bound:
            tally.wrong.append(f"{name}: {cost} is below the bound {bound}")
    tally.proven += proven


def read(folder: Path, kinds: list[str], sets: list[str], sample: int) -> list[tuple[dict, dict]]:
    """Return instances with the row of values to compare with, at most `sample` a set, spread over it."""
    instances = {}
    for kind in kinds:
        with (folder / f"instances_{kind}.jsonl").open(encoding="utf-8") as lines:
            for line in lines:
                instance = json.loads(line)
                instances[instance["id"]] = instance
    chosen: dict[tuple[str, str], dict[str, tuple[dict, dict]]] = defaultdict(dict)
    with (folder / "values.csv").open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            instance = instances.get(row["instance"])
            if instance is None or row["problem"] == "max_value" or row["cuts"] not in _STAGES:
                continue
            if sets and instance["set"] not in sets:
                continue
            known = chosen[instance["set"], row["rotation"]]
            if row["instance"] not in known or row["cuts"] != "any_packing":
                known[row["instance"]] = (instance, row)
    rows = []
    for known in chosen.values():
        every = list(known.values())
        step = max(1, len(every) // sample) if sample else 1
        rows += every[::step][: sample or None]
    return rows


def main() -> int:
    """Measure and print; 1 where anything was unverified or wrongly claimed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument(
        "--seconds", type=float, default=None, help="a group; without it the fixed work of a plan"
    )
    parser.add_argument("--sample", type=int, default=10, help="instances a set; 0 for all")
    parser.add_argument("--sets", nargs="*", default=[])
    parser.add_argument("--kinds", nargs="*", default=["1d", "2d"])
    parser.add_argument("--compare", action="store_true", help="also run the other methods")
    parser.add_argument("--random", type=int, default=0, help="cut so many random jobs instead")
    given = parser.parse_args()
    if given.random:
        wrong = random_jobs(given.random)
        print(f"{given.random} random jobs, {len(wrong)} wrong", *wrong, sep="\n")
        return 1 if wrong else 0
    rows = read(given.folder, given.kinds, given.sets, given.sample)
    tallies = measure(rows, given.seconds, compare=given.compare)
    columns = (
        "n",
        "found",
        "best",
        "n best",
        "met",
        "bound",
        "=bound",
        "proven",
        "alone",
        "none",
        "cp-sat",
        "ffd",
        "shelves",
        "settings",
        "cuts",
        "kg",
        "med s",
        "max s",
    )
    print(f"{'set':16}{'':8}" + "".join(f"{name:>9}" for name in columns))
    for (name, turned), t in tallies.items():
        row = (t.instances, t.found, t.best_known, t.with_best, t.met, t.bound, t.provable, t.proven, t.alone,
               t.no_answer, t.cp_sat, t.first_fit, t.shelves, t.settings, t.cuts, t.heaviest,
               statistics.median(t.seconds), max(t.seconds))  # fmt: skip
        print(f"{name:16}{turned:8}" + "".join(f"{float(value):9.6g}" for value in row))
    print("alone: packingsolver with its own settings, ffd counted where it had no answer (none); cp-sat: boards of "
          "one length; settings, cuts, kg: of plankit's order of cuts")
    wrong = [line for t in tallies.values() for line in t.wrong]
    print(*wrong, sep="\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
