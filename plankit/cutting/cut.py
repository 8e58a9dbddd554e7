"""One function: a job in, a verified answer out."""

from dataclasses import replace
from fractions import Fraction

from plankit.cutting.best import Found
from plankit.cutting.carrying_out import carry_out
from plankit.cutting.job import Job, Piece, StockKind
from plankit.cutting.layout import Layout
from plankit.cutting.order import ordered
from plankit.cutting.result import Result, exact
from plankit.cutting.search import search
from plankit.cutting.settle import layouts, settled, squeezed
from plankit.cutting.strips import joined, missing_parts
from plankit.cutting.verify import verify
from plankit.cutting.watch import Watch
from plankit.cutting.whole_job import Group, fits, groups
from plankit.errors import PlanError


def cut(job: Job, seconds: float | None = None, watch: Watch | None = None) -> Result:
    """Return how to cut the job's pieces from its stock, every layout verified.

    seconds  None for a fixed amount of work and always the same answer; else how long each group of pieces and stock
             that concern each other may be worked on; the answer then depends on the machine, and Ctrl-C ends the
             search with the best answer so far
    watch    is told how the search goes
    raises   PlanError naming each part that fits no stock, the stock nearest to it, and by how much it is too large
    """
    _refuse_what_fits_nowhere(job)
    found: list[tuple[Group, Found]] = []
    laid: list[Layout] = []
    parted = groups(job)
    among = max(1, sum(not group.board for group in parted))
    allowed, watch = seconds, watch or Watch()
    for number, group in enumerate(parted, start=1):
        watch.begin(number, len(parted))
        right = lambda pack, group=group: settled(pack, group, job)  # noqa: E731
        answer = search(group, right, allowed, among, watch)
        if answer.stopped:
            watch.stopped()
            allowed = 0.0
        found.append((group, answer))
        laid += layouts(squeezed(answer.pack, group, job), group, job, first=len(laid) + 1)
    missing = _missing(job, found)
    if wrong := verify(job, laid, missing):
        raise PlanError("a layout did not pass its own check; please report the job.", where=wrong[0].part or
                        wrong[0].place, given=wrong[0].what)  # fmt: skip
    return _in_order(_result(job, found, tuple(laid), missing, repeatable=seconds is None))


def _in_order(result: Result) -> Result:
    """Return the result with its order of cuts, and with what one person cannot do of it, having carried it out."""
    laid, sequence = ordered(result.job, result.layouts)
    troubles = carry_out(result.job, laid, sequence)
    if troubles and not result.job.saws:
        first = troubles[0]
        raise PlanError("an order of cuts did not pass its own check; please report the job.",
                        where=first.place, given=first.what)  # fmt: skip
    return replace(result, layouts=laid, sequence=sequence, troubles=troubles)


def _result(
    job: Job,
    found: list[tuple[Group, Found]],
    laid: tuple[Layout, ...],
    missing: tuple[tuple[str, int], ...],
    *,
    repeatable: bool,
) -> Result:
    counts = [answer.least.count for _, answer in found]
    weights = [answer.least.weight for _, answer in found]
    least_count = None if None in counts else sum(count for count in counts if count is not None)
    least_weight = None if None in weights else sum((w for w in weights if w is not None), Fraction(0))
    used = sum((answer.pack.weight(group) for group, answer in found), Fraction(0))
    proven = not missing and least_weight is not None and used <= least_weight
    return Result(job, laid, missing, proven, least_count, least_weight if job.priced else None, repeatable)


def _missing(job: Job, found: list[tuple[Group, Found]]) -> tuple[tuple[str, int], ...]:
    lost = dict(
        missing_parts(
            job,
            (
                (want.name, number)
                for group, answer in found
                for want, number in zip(group.wants, answer.pack.missing(group), strict=True)
            ),
        )
    )
    names = dict.fromkeys(piece.name for piece in job.pieces)
    return tuple((name, lost[name]) for name in names if name in lost)


def _refuse_what_fits_nowhere(job: Job) -> None:
    lost = [
        p for p in joined(job) if p.quantity and not any(k.available != 0 and fits(p, k) for k in job.stock)
    ]
    if lost:
        others = [f"{piece.name}: {_too_large(job, piece)}" for piece in lost[1:]]
        raise PlanError(
            "; ".join([_too_large(job, lost[0]), *others]) + ".",
            where=lost[0].name,
            remedy="Make the part smaller, join it from two, or add larger stock to the list.",
        )


def _too_large(job: Job, piece: Piece) -> str:
    kind = "board" if piece.is_board else "sheet"
    size = _size(job, piece.length, piece.width)
    offered = [
        k for k in job.stock
        if k.is_board == piece.is_board and k.available != 0 and (not piece.sources or k.name in piece.sources)
    ]  # fmt: skip
    if not offered:
        return f"{size} fits no stock: there is no {kind} it may come from"
    over = [(_over(piece, k), n) for n, k in enumerate(offered)]
    (too_long, too_wide), n = min(over, key=lambda one: (sum(one[0]), one[1]))
    inside = _size(job, offered[n].clear_length, None if piece.is_board else offered[n].clear_width)
    says = [f"{exact(too_long, job.unit)} {job.unit} too long"] if too_long else []
    says += [f"{exact(too_wide, job.unit)} {job.unit} too wide"] if too_wide else []
    nearest = f"the nearest is {offered[n].name}, {inside} inside its trim"
    return f"{size} fits no stock: {nearest}, for which it is {' and '.join(says)}"


def _over(piece: Piece, kind: StockKind) -> tuple[Fraction, Fraction]:
    """Return by how much a piece is too long and too wide, lying the way it is least so."""
    ways = [
        (max(a - kind.clear_length, Fraction(0)), max(b - kind.clear_width, Fraction(0)))
        for a, b, _ in piece.ways()
    ]
    return min(ways, key=sum)


def _size(job: Job, length: Fraction, width: Fraction | None) -> str:
    across = "" if width is None else f" × {exact(width, job.unit)}"
    return f"{exact(length, job.unit)}{across} {job.unit}"
