"""Better packings of sheets from the sheets of all tries, and proofs that there is none."""

from plankit.cutting.beside import Beside
from plankit.cutting.best import Best
from plankit.cutting.covering import cover
from plankit.cutting.kinds_bound import KindsBound
from plankit.cutting.purse import Purse, ends_after, is_past, share, until
from plankit.cutting.sheet_bound import FULL, SheetBound
from plankit.cutting.sheet_dive import SheetDive

_FIRST, _THIRD, _PART, _MOST = 0.2, 0.3, 0.5, 0.8
"""Shares of the time left that one method may take before the next."""

_NODES = 200
"""Nodes of the search that puts sheets together."""

_SHEET_DIVES = 5

_LOOK, _DIVING = 0.8, 0.3
"""Seconds of the first look for a proof beside the solver, and of each dive."""

_OPEN = 3
"""Numbers of each kind that nobody can decide on, after which no dearer ones are tried."""


def prove(best: Best, stop: float | None) -> None:
    """Put better packings together from all sheets filled so far, and try to prove that there is none."""
    group = best.group
    purse = Purse(best.proof_work, until(stop, _MOST))
    while best.complete and not best.proven and not purse.empty:
        if _covered(best, purse):
            continue
        if len(group.rooms) > 1:
            _refuse(best, purse)
            break
        if group.count > FULL * best.count:
            break
        best.bound = best.bound or SheetBound(group, best.pool)
        before = len(best.pool.sheets)
        _raise(best, best.bound, purse)
        better = len(best.pool.sheets) > before and _covered(best, purse)
        if not better and not _dived(best, best.bound, purse):
            break
    best.proof_work = purse.work


def prove_beside(best: Best, beside: Beside, stop: float) -> None:
    """Prove and better, with longer and longer looks, and take up what the solver finds meanwhile."""
    seconds = _LOOK
    while not best.proven and not is_past(stop):
        known = len(best.pool.sheets)
        while (pack := beside.taken(0)) is not None:
            best.offer(pack)
        beside.known = best.weight if best.complete else None
        if len(best.pool.sheets) > known:
            _cover_at_times(best, stop)
        if best.group.count > FULL * best.count:
            pack = beside.taken(share(stop, 1) or 0)
            if pack is not None:
                best.offer(pack)
            elif beside.is_over:
                return
        elif not best.proven:
            best.bound = best.bound or SheetBound(best.group, best.pool)
            _looked(best, best.bound, Purse(10**12, ends_after(min(seconds, share(stop, 1) or 0)), beside))
            seconds *= 2


def _looked(best: Best, bound: SheetBound, purse: Purse) -> None:
    """Look for a proof, then for one sheet less, until the purse is empty or something better is there."""
    assert best.floor.weight is not None
    if bound.needs(best.count, purse):
        best.raise_to(best.count)
        return
    one_less = best.weight - best.group.rooms[0].weight
    if best.floor.weight < one_less and bound.needs(best.count - 1, Purse(10**12, ends_after(_DIVING), purse.news)):
        best.raise_to(best.count - 1)
    if best.group.stages is None and (purse.news is None or not purse.news.has_better):
        # what is left of the look is there where the program itself allows one sheet less
        late = ends_after(_DIVING)
        until_then = max(purse.stop or 0, late or 0)
        _dived(best, bound, Purse(10**12, until_then, purse.news))


def _cover_at_times(best: Best, stop: float) -> None:
    if best.group.stages is None and not best.proven:
        best.offer(cover(best.pool, min(_DIVING, share(stop, _PART) or 0), _NODES))


def _refuse(best: Best, purse: Purse) -> None:
    """Try to prove of numbers of each kind that cost less than the best that they do not suffice, cheapest first."""
    best.kinds = best.kinds or KindsBound(best.group, best.pool)
    open_now = 0
    for used in best.cheaper().listed:
        if best.is_refused(used):
            continue
        if used not in best.undecided and best.kinds.refuses(used, purse):
            best.refuse(used)
            continue
        best.undecided.add(used)
        open_now += 1
        if open_now >= _OPEN or purse.empty or best.proven:
            return


def _raise(best: Best, bound: SheetBound, purse: Purse) -> None:
    """Try to prove that as many sheets are needed as the best has, or one less."""
    for number in (best.count, best.count - 1):
        part = Purse(purse.work, until(purse.stop, _THIRD if number == best.count else _FIRST), purse.news)
        known = bound.needs(number, part)
        purse.work = part.work
        if known:
            best.raise_to(number)
            return


def _dived(best: Best, bound: SheetBound, purse: Purse) -> bool:
    """Dive for one sheet less; say whether that was found."""
    sheets = bound.whole() if not best.proven else None
    if best.group.stages is not None or sheets is None or best.count < 2:
        return False
    part = Purse(purse.work, until(purse.stop, _MOST))
    diving = SheetDive(best.pool, sheets)
    goal = (best.count - 1) * best.group.rooms[0].weight
    better = False
    for _ in range(_SHEET_DIVES):
        best.dives += 1
        better = best.offer(diving.dive(part, best.dives - 1, goal))
        if better or part.empty:
            break
    purse.work = part.work
    return better


def _covered(best: Best, purse: Purse) -> bool:
    if best.proven or best.group.stages is not None:
        return False
    return best.offer(cover(best.pool, share(purse.stop, _PART), _NODES))


