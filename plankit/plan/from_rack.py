"""Small parts come from offcuts first."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from plankit.cutting import Job, Piece, Result, StockKind
from plankit.cutting.whole_job import fits
from plankit.finding import Finding
from plankit.units import L

SMALL = L("12 in").mm
"""A part no longer than this is small: what is shorter is not kept as an offcut either (our own rule)."""
TRIES = 3
"""So often is the cutting worked out anew, each time with one part less from the rack."""


def small_ones_first(job: Job, result: Result, solve: Callable[[Job], Result]) -> Result:
    """Return an answer in which small parts come from offcuts that nothing else needs, where that costs no more.

    result  the cheapest answer; it stays where not all parts of a label fit what is left on the rack
    """
    left = _unused(job, result)
    small = _from_new(job, result, left) if result.complete else []
    for _ in range(TRIES):
        if not small:
            break
        other = solve(_only_from(job, small, left))
        if other.complete and (other.cost or 0) <= (result.cost or 0):
            return _judged(other, result)
        small = small[:-1]
    return result


def _judged(other: Result, result: Result) -> Result:
    """What is proven of the job holds for the answer too; the proof of the narrower job does not."""
    least = result.least_cost
    proven = least is not None and other.cost is not None and other.cost <= least
    return replace(other, proven=proven, least_cost=least, least_count=result.least_count)


def _unused(job: Job, result: Result) -> list[StockKind]:
    used = {layout.stock for layout in result.layouts}
    return [kind for kind in job.stock if kind.on_hand and kind.name not in used]


def _from_new(job: Job, result: Result, left: list[StockKind]) -> list[Piece]:
    """The small parts that are cut from new stock although the rack would hold one, the smallest first."""
    new = {one.part for layout in result.layouts if not layout.kind.on_hand for one in layout.pieces}
    small = (
        piece for piece in job.pieces
        if piece.name in new and max(piece.length, piece.width or 0) <= SMALL and not piece.strip
        and any(fits(piece, kind) for kind in left)
    )  # fmt: skip
    return sorted(small, key=lambda piece: (piece.length * (piece.width or 1), piece.name))


def _only_from(job: Job, small: Iterable[Piece], left: Iterable[StockKind]) -> Job:
    names, rack = {piece.name for piece in small}, tuple(kind.name for kind in left)
    pieces = (replace(one, sources=rack) if one.name in names else one for one in job.pieces)
    return replace(job, pieces=tuple(pieces))


def rack_findings(
    job: Job, result: Result, called: Mapping[str, str], said: Mapping[str, str]
) -> tuple[Finding, ...]:
    """Return a finding for each small part from new stock that an offcut would hold which no other part needs.

    called  what the part of a label is called
    said    what an offcut is called in a sentence, by the name of its kind
    """
    left = _unused(job, result)
    found = []
    for piece in _from_new(job, result, left):
        offcut = said[next(kind.name for kind in left if fits(piece, kind))]
        one, it = ("", "it") if piece.quantity == 1 else (f"one of the {piece.quantity}", "one")
        found.append(
            Finding("for information", "offcut not used", called[piece.name],
                    f"it is cut from new stock, though offcut {offcut}, which no other part needs, would hold "
                    f"{one or 'it'}.",
                    source="common practice: small parts come from offcuts first",
                    remedy=f"Cut {it} from {offcut} where you have it at hand.")
        )  # fmt: skip
    return tuple(found)
