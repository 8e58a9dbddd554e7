"""Cutting boards: packingsolver, then every way to complete a board where pieces are few, then column generation."""

from fractions import Fraction

from plankit.cutting.best import Best, price_step, raised
from plankit.cutting.board_columns import Boards, is_heavy, suits
from plankit.cutting.completing import Completing
from plankit.cutting.pack import Pack
from plankit.cutting.purse import Purse, share, until
from plankit.cutting.solver import Work, fill_boards

_FIRST, _PART = 0.2, 0.5
"""Shares of the time left that one method may take before the next."""

_BOARD_WORK, _DIVES = 200_000, 500

_FEW, _COMPLETING = 80, 60_000
"""Pieces up to which boards are completed in every way, and the steps this may take."""

_LENGTHS = 150
"""Different lengths up to which column generation is part of the fixed work."""


def cut_boards(best: Best, stop: float | None) -> None:
    """Better the best packing of boards, until nothing can be better, the work is done or the clock has run out."""
    group = best.group
    if max(room.along for room in group.rooms) > 2**50:
        return
    for columns in (False, True):
        if (
            best.proven
            or best.floor.weight is None
            or (columns and stop is None and len(group.wants) > _LENGTHS)
        ):
            return
        if columns:
            _completed(best, stop)
            if best.proven:
                return
        ours = stop is not None and suits(group) and not is_heavy(group)
        if columns and ours:
            _columns(best, None, stop)
            continue
        pack = fill_boards(group, Work(None, 64, 16, share(stop, _FIRST if ours else _PART)), columns=columns)
        best.offer(pack)
        if pack is not None and columns:
            best.floor = raised(group, best.floor, pack.bound)
        if columns:
            _columns(best, pack, stop)


def _completed(best: Best, stop: float | None) -> None:
    """Try numbers of boards that weigh less, cheapest first, in every way to complete one board after another."""
    group = best.group
    if not best.complete or group.count > _FEW:
        return
    purse = Purse(_COMPLETING, until(stop, _FIRST))
    completing = Completing(group, purse)
    for used in best.cheaper().listed:
        pack, sure = completing.fill(used)
        if pack is not None:
            best.offer(pack)
            return
        if not sure:
            return
        best.refuse(used)


def _one_less(best: Best) -> Fraction | None:
    return best.weight - price_step(best.group) if best.complete else None


def _columns(best: Best, pack: Pack | None, stop: float | None) -> None:
    """Prove and better a cutting of boards by our own column generation."""
    if best.proven or not suits(best.group) or (stop is None and is_heavy(best.group)):
        return
    boards = Boards(best.group)
    for known in (pack, best.pack):
        if known is not None:
            boards.learn(known)
    purse = Purse(_BOARD_WORK if stop is None else 10**12, stop)
    best.floor = raised(best.group, best.floor, boards.prove(purse, _one_less(best)))
    for number in range(1 if stop is None else _DIVES):
        if best.proven or purse.empty:
            return
        assert best.floor.weight is not None
        best.offer(boards.dive(purse, number, best.floor.weight))
