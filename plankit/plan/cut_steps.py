"""Which step cuts from which cutting drawing, with which saws, and what that asks of them."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from plankit.cutting import Layout
from plankit.drawing.words import listed
from plankit.finding import Finding
from plankit.plan.cut_list import CutLayout, CutPlan
from plankit.plan.cut_notes import parted_later
from plankit.plan.facts import Draft
from plankit.plan.work import SAWING, Work
from plankit.plan.work_when import FIRST_CUTS
from plankit.stock import Sheet
from plankit.units import Length, largest, smallest

type Drawings = Mapping[int, tuple[CutLayout, ...]]
"""The cutting drawings of each step, by its number."""


def drawings_of(draft: Draft, by_part: Mapping[str, str], cut: CutPlan) -> Drawings:
    """Return the cutting drawings that each step works from.

    A step that cuts parts out has those that these lie on, and one that parts pieces off has those they stay on till
    then. A drawing of which all pieces are measured first belongs to the first step that cuts anything out: they are
    cut out with the rest, and get their size later.
    """
    later = {by_part[part_id]: step for step, part_id in _parted(draft)}
    cutting = [step for step in draft.steps if set(step.does) & FIRST_CUTS]
    found: dict[int, list[CutLayout]] = {}
    for layout in cut.layouts:
        on_it = {piece.label for piece in layout.pieces}
        steps = {step.number for step in cutting if _cut_out(step.works_on, by_part, later) & on_it}
        steps |= {later[label] for label in on_it if label in later}
        for number in steps or {step.number for step in cutting[:1]}:
            found.setdefault(number, []).append(layout)
    return {number: tuple(layouts) for number, layouts in found.items()}


def _parted(draft: Draft) -> list[tuple[int, str]]:
    """The steps that part pieces off, each with the id of such a part."""
    named = parted_later(draft, [part.name for part in draft.build.parts])
    return [(step, part_id) for step, parts in named.items() for ids in parts.values() for part_id in ids]


def _cut_out(works_on: Sequence[str], by_part: Mapping[str, str], later: Mapping[str, int]) -> set[str]:
    return {label for part_id in works_on if (label := by_part[part_id]) not in later}


def drawing_findings(draft: Draft, cut: CutPlan, drawings: Drawings) -> tuple[Finding, ...]:
    """Return a finding for each cutting drawing that no step names, where steps cut at all: nobody would cut it."""
    if not any(set(step.does) & SAWING for step in draft.steps):
        return ()
    named = {layout.id for layouts in drawings.values() for layout in layouts}
    return tuple(
        Finding("look at", "order of steps", layout.pieces[0].name if layout.pieces else "",
                f"no step names {layout.title.partition(':')[0].lower()}, so nobody cuts what is on it.",
                source="the plan itself",
                remedy='Add a step that cuts it out: works_on=…, does=["break down sheets", "rip", "crosscut"].')
        for layout in cut.layouts
        if layout.id not in named
    )  # fmt: skip


def with_saws(works: Sequence[Work], drawings: Drawings) -> tuple[Work, ...]:
    """Return the steps with the saws that their cutting drawings ask for among their tools."""
    return tuple(_with_saws(work, drawings.get(work.step.number, ())) for work in works)


def _with_saws(work: Work, layouts: Sequence[CutLayout]) -> Work:
    tools = {operation: dict.fromkeys(names) for operation, names in work.tools}
    for made in (made for layout in layouts for made in layout.layout.cuts):
        if made.tool and made.tool not in {name for names in tools.values() for name in names}:
            tools.setdefault("crosscut" if made.edge.startswith("end") else "rip", {})[made.tool] = None
    return replace(work, tools=tuple((operation, tuple(names)) for operation, names in tools.items()))


def saw_words(draft: Draft, works: Sequence[Work], cut: CutPlan) -> dict[str, str]:
    """Return what a plan asks of each machine saw: "crosscuts 9 1/2 in wide, 3 1/2 in high", by its name."""
    asked: dict[str, list[tuple[Length, Length]]] = {}
    for layout in cut.layouts:
        for tool, along, deep in _cuts(draft, layout):
            asked.setdefault(tool, []).append((along, deep))
    for work in works:
        for tool in dict(work.tools).get("crosscut", ())[:1]:
            asked.setdefault(tool, []).extend((part.width, part.thickness) for part in (*work.trims, *work.fitted))
    return {name: said for name, sizes in asked.items() if sizes and (said := _asked(draft, name, sizes))}


def _asked(draft: Draft, name: str, sizes: Sequence[tuple[Length, Length]]) -> str:
    """What the cuts made with one saw ask of it; "" where it is led by hand along a line."""
    tool, write = draft.shop.tool(name), draft.notation
    along, deep = largest(*(along for along, _ in sizes)), largest(*(deep for _, deep in sizes))
    match tool.led if tool is not None else "":
        case "stop":
            each = (f"{write.both(wide)} wide and {write.both(high)} high" for wide, high in _hardest(sizes))
            return f"crosscuts {listed(each)}"
        case "guide":
            return f"a guide for cuts {write.both(along)} long, {write.both(deep)} deep"
        case "fence":
            return f"cuts {write.both(deep)} deep"
        case _:
            return ""


def _hardest(sizes: Sequence[tuple[Length, Length]]) -> list[tuple[Length, Length]]:
    """The sizes of which no other is as wide and as high, the widest first."""
    each = {(wide.mm, high.mm): (wide, high) for wide, high in sizes}
    return [
        each[wide, high]
        for wide, high in sorted(each, reverse=True)
        if not any(w >= wide and h >= high and (w, h) != (wide, high) for w, h in each)
    ]


def _cuts(draft: Draft, shown: CutLayout) -> list[tuple[str, Length, Length]]:
    """Each cut of a drawing: the saw, how long the cut is, how deep."""
    kerf = (draft.shop.sheet_kerf if isinstance(shown.material, Sheet) else draft.shop.board_kerf).mm
    deep = smallest(shown.material.thickness, shown.material.width)
    wide = shown.layout.kind.width or shown.material.width.mm
    return [(tool, Length.of_mm(along), deep) for tool, along in _along(shown.layout, kerf, wide)]


def _along(layout: Layout, kerf: Fraction, wide: Fraction) -> list[tuple[str, Fraction]]:
    """Each saw with how long its cut is, mm: how far the piece reaches the other way."""
    sizes = {layout.name: (layout.kind.length, wide)}
    found = []
    for made in layout.cuts:
        long, across = sizes[made.of]
        if made.edge.startswith("end"):
            first, second, along = (made.setting, across), (long - made.setting - kerf, across), across
        else:
            first, second, along = (long, made.setting), (long, across - made.setting - kerf), long
        sizes[made.gives[0]] = first
        if made.gives[1] is not None:
            sizes[made.gives[1]] = second
        found.append((made.tool, along))
    return found
