"""A result as someone reads it at the saw: each board or sheet, its cuts in order, what each of them frees."""

from collections.abc import Iterator

from plankit.cutting.job import Unit
from plankit.cutting.layout import Cut, Layout
from plankit.cutting.result import Result, exact


def list_of_cuts(result: Result) -> str:
    """Return the cuts of a result, a line each, under the stock they are made in; settings in the job's unit.

    Ends and edges are called as in the result: end 0 and edge 0 are where its places are measured from.
    """
    unit = result.job.unit
    return "\n".join(line for layout in result.layouts for line in _lines(layout, unit))


def _lines(layout: Layout, unit: Unit) -> Iterator[str]:
    kind = layout.kind
    across = "" if kind.width is None else f" × {exact(kind.width, unit)}"
    copies = f", {layout.copies} cut like this" if layout.copies != 1 else ""
    yield f"{layout.stock}, {exact(kind.length, unit)}{across} {unit}{copies}:"
    saws = len({cut.tool for cut in layout.cuts}) > 1
    yield from (_line(cut, unit, saws=saws) for cut in layout.cuts)
    if layout.offcuts:
        sizes = (
            exact(one.length, unit) + ("" if one.width is None else f" × {exact(one.width, unit)}")
            for one in layout.offcuts
        )
        yield f"      keep: {', '.join(sizes)} {unit}"


def _line(cut: Cut, unit: Unit, *, saws: bool) -> str:
    freed = " and ".join(name for name in (cut.frees, cut.also_frees) if name)
    what = f" → {freed}" if freed else ""
    saw = f"{cut.tool}: " if saws else ""
    return f"  {cut.order:>2}. {saw}{cut.kind} {cut.of} at {exact(cut.setting, unit)} from its {cut.edge}{what}"
