"""Looking for the packing that makes least of what is made least: strips first fit, then what suits the stock."""

from itertools import product

from plankit.cutting.best import Best, Found, Right
from plankit.cutting.bounds import Demand, demands, least
from plankit.cutting.first_fit import first_fit
from plankit.cutting.labour import FIXED
from plankit.cutting.purse import ends_after
from plankit.cutting.search_boards import cut_boards
from plankit.cutting.search_sheets import fill_all
from plankit.cutting.slicing import Axis
from plankit.cutting.watch import Watch
from plankit.cutting.whole_job import Group

_PROOF = 24_000
"""Work of proofs that is part of the fixed work."""


def search(
    group: Group, right: Right, seconds: float | None = None, among: int = 1, watch: Watch | None = None
) -> Found:
    """Return the best packing found and what is needed at least.

    right    settles and verifies a packing; nothing is returned that it has not passed
    seconds  None for the fixed work; else harder tries go on until the clock or a proof stops them
    among    how many groups of sheets of one job share the fixed work
    watch    is told of every better packing

    Stopped from outside (Ctrl-C) while the clock decides, it returns the best packing so far.
    """
    asked = demands(group, sharp=False)
    work = (_PROOF // among, FIXED // among) if seconds is None else (10**9, 0)
    best = Best(group, right, least(group, asked), work, watch)
    try:
        _search(best, asked, ends_after(seconds))
    except KeyboardInterrupt:
        if seconds is None or best.pack is None:
            raise
        return Found(best.pack, best.floor, stopped=True)
    assert best.pack is not None
    return Found(best.pack, best.floor)


def _search(best: Best, asked: tuple[Demand, ...], stop: float | None) -> None:
    group = best.group
    axes: tuple[Axis, ...] = ("x",) if group.board else ("x", "y")
    choices = (False, True) if len({want.kinds for want in group.wants}) > 1 else (False,)
    for axis, choosy in product(axes, choices):
        best.offer(first_fit(group, axis, choosy_first=choosy))
    if not best.proven:
        asked = demands(group, sharp=True)
        best.floor = least(group, asked)
    best.asked = asked
    if group.board:
        cut_boards(best, stop)
    elif group.stages != 1:
        fill_all(best, stop)
