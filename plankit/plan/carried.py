"""Boards that one can carry home: longer ones are bought only where they must be, and are cut at the store."""

from collections.abc import Callable
from dataclasses import replace

from plankit.cutting import Job, Layout, Result
from plankit.cutting.whole_job import fits
from plankit.drawing.words import listed
from plankit.finding import Finding
from plankit.plan.for_sale import bought, store_size
from plankit.plan.handed_over import parted, too_long, with_pieces
from plankit.units import Length, Notation


def as_carried(job: Job, longest: Length | None, solve: Callable[[Job], Result]) -> Job:
    """Return a job whose list has no board that is longer than one carries, but for those that nothing can replace.

    Of these there are as many as the pieces take that no shorter board holds; what is left of them may be used.

    longest  None where any length can be carried
    """
    if longest is None or not any(too_long(kind, longest) for kind in job.stock):
        return job
    short = replace(job, stock=tuple(kind for kind in job.stock if not too_long(kind, longest)))
    sold = [kind for kind in short.stock if not kind.on_hand]
    must = tuple(piece for piece in job.pieces if not any(fits(piece, kind) for kind in sold))
    rack_may_do = all(any(fits(piece, kind) for kind in short.stock) for piece in must)
    if not must or (rack_may_do and solve(short).complete):
        return short
    needed = {kind.name: count for kind, count in bought(solve(replace(job, pieces=must)))}
    stock = (
        replace(kind, available=needed.get(kind.name, 0)) if too_long(kind, longest) else kind
        for kind in job.stock
    )
    return replace(job, stock=tuple(kind for kind in stock if kind.available != 0))


def carrying_notes(result: Result, longest: Length | None, write: Notation) -> dict[str, str]:
    """Say of each board that is too long to carry in what pieces it is cut at the store, by the names of these.

    result  the answer with whole boards
    """
    found: dict[str, str] = {}
    for whole, pieces, names in with_pieces(result, longest):
        if longest is None or not too_long(whole.kind, longest):
            continue
        most = store_size(longest, None, write.unit)
        over = f"A board of {whole.stock} is longer than the {most} that can be carried"
        if pieces is None:
            found[whole.stock] = f"{over}, and a part on it is longer as well: have it brought."
            continue
        said = listed(write.both(Length.of_mm(place)) for place in pieces.places(result.job.kerf))
        cut = f"{over}: have it cut at the store, {said} from its left end."
        for number, name in enumerate(names, start=1):
            found[name] = f"{cut} This is piece {number}, counted from there."
    return found


def carrying_findings(
    layouts: tuple[Layout, ...], longest: Length | None, kerf: Length, write: Notation
) -> tuple[Finding, ...]:
    """Return a finding for each kind of board that is bought although it is too long to carry."""
    found: dict[str, Finding] = {}
    for layout in layouts:
        if longest is None or not too_long(layout.kind, longest):
            continue
        pieces = parted(layout, longest.mm, kerf.mm)
        remedy = (
            "Have it cut at the store where its cutting drawing says."
            if pieces is not None
            else "Make the longest part on it shorter or in two pieces, or have the board brought."
        )
        found[f"{layout.stock}{pieces is None}"] = Finding(
            "look at", "too long to carry", "",
            f"A board of {layout.stock} is bought, for nothing shorter would do; it is longer than can be carried.",
            number=f"carried: {store_size(longest, None, write.unit)}", source="longest_carried in the shop file",
            remedy=remedy,
        )  # fmt: skip
    return tuple(found.values())
