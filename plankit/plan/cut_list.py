"""From the build to boards and sheets: which pieces are cut, from what, in which order, and what is left."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.checks import stock_lifting
from plankit.cutting import Layout, Result, StockKind
from plankit.drawing.words import capital
from plankit.finding import Finding
from plankit.plan.carried import carrying_findings, carrying_notes
from plankit.plan.cut_material import CutPiece, Wanted, answered, job_of, longest_carried, materials, rack_of
from plankit.plan.cut_notes import (
    fit_notes,
    later_notes,
    miter_notes,
    miter_settings,
    parted_later,
    strip_notes,
)
from plankit.plan.cut_words import CutRow, SharedLine, Told, cut_rows, shared_lines
from plankit.plan.facts import Draft
from plankit.plan.for_sale import counts, of_rack, parting_words
from plankit.plan.from_rack import rack_findings
from plankit.plan.handed_over import as_handed_over, left_whole
from plankit.plan.rack import Kept, has_rack, kept_of, name_of, new_labels, own_note, still_clear
from plankit.plan.stock_use import StockUse, stock_uses, stock_words, summaries
from plankit.shop import Shop
from plankit.stock import Lumber, Sheet
from plankit.units import Length, Notation


@dataclass(frozen=True, slots=True)
class CutLayout:
    """One board or sheet as it is to be cut, in words; `layout` holds the places.

    shared  the order in which it and the ones after it of its stock are cut together, setting by setting
    kept    each offcut as often as it is cut, with its mark; none where the author has no rack
    offcut_names  what the drawing calls each offcut
    """

    id: str
    title: str
    stock: str
    copies: int
    note: str
    pieces: tuple[CutPiece, ...]
    cuts: tuple[CutRow, ...]
    offcut_sizes: tuple[tuple[Length, ...], ...]
    layout: Layout
    material: Sheet | Lumber
    shared: tuple[SharedLine, ...] = ()
    shared_title: str = ""
    kept: tuple[tuple[Kept, ...], ...] = ()
    offcut_names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How everything is cut.

    kept     what goes to the author's rack; none where she has no rack
    used     the marks of the offcuts that are taken from it
    answers  what was to be cut of each material, and how
    """

    layouts: tuple[CutLayout, ...]
    pieces: tuple[CutPiece, ...]
    uses: tuple[StockUse, ...]
    summary: str
    stock_words: str
    findings: tuple[Finding, ...] = ()
    kept: tuple[Kept, ...] = ()
    used: tuple[str, ...] = ()
    answers: tuple[tuple[Wanted, Result], ...] = ()


def cut_plan(draft: Draft, by_part: Mapping[str, str]) -> CutPlan:
    """Return how all parts are cut from the shop's offcuts and the stores' boards and sheets.

    by_part  each part's label by its id
    raises   PlanError naming the part that fits no stock, and by how much
    """
    draft = replace(draft, shop=replace(draft.shop, unit=draft.notation.unit))
    wanted = materials(draft, by_part)
    results = [(material, answered(draft.shop, material)) for material in wanted]
    labels = new_labels(draft.shop) if has_rack(draft.shop) else iter(())
    homes = [as_handed_over(result, longest_carried(draft.shop, material)) for material, result in results]
    layouts: list[CutLayout] = []
    for (material, result), home in zip(results, homes, strict=True):
        first = len(layouts) + 1
        carrying = carrying_notes(result, longest_carried(draft.shop, material), draft.notation)
        for layout in home.layouts:
            made = _layout(draft, material, layout, len(layouts) + 1, labels)
            layouts.append(replace(made, note=f"{carrying.get(layout.stock, '')} {made.note}".strip()))
        if shared := shared_lines(home, first, draft.notation):
            layouts[first - 1 :] = _together(layouts[first - 1 :], shared, first)
    return CutPlan(
        tuple(layouts),
        tuple(piece for material in wanted for piece in material.shown.values()),
        tuple(use for material, result in results for use in stock_uses(draft, material, result)),
        summaries(draft, results),
        stock_words(draft, results),
        tuple(
            finding
            for (material, result), home in zip(results, homes, strict=True)
            for finding in _findings(draft, material, result, home)
        ),
        (*(kept for layout in layouts for alike in layout.kept for kept in alike),
         *(kept for material, result in results for kept in _still_clear(draft, material, result, labels))),
        tuple(dict.fromkeys(
            one.offcut.label for m, result in results for one in of_rack(rack_of(draft.shop, m), result))),
        tuple(results),
    )  # fmt: skip


def _still_clear(draft: Draft, material: Wanted, result: Result, labels: Iterator[str]) -> tuple[Kept, ...]:
    """What is left whole of offcuts that were parted, and of boards that the store cuts."""
    whole = left_whole(result, longest_carried(draft.shop, material)) if has_rack(draft.shop) else ()
    return (
        *still_clear(rack_of(draft.shop, material), result.job, result, labels),
        *(Kept(next(labels), material.stock.name, long, None, f"a board of {kind.name}") for kind, long in whole),
    )


def _layout(draft: Draft, material: Wanted, layout: Layout, number: int, labels: Iterator[str]) -> CutLayout:
    write = draft.notation
    counts: dict[str, int] = {}
    for placed in layout.pieces:
        counts[placed.part] = counts.get(placed.part, 0) + 1
    shown = [material.shown[label] for label in sorted(counts)]
    pieces = tuple(replace(s, count=counts[s.label]) for s in shown)
    offcuts = tuple(
        tuple(Length.of_mm(size) for size in (offcut.length, offcut.width) if size is not None)
        for offcut in layout.offcuts
    )
    one = "sheet" if isinstance(material.stock, Sheet) else "board"
    copies = f" ({write.count(layout.copies, one)} cut alike)" if layout.copies > 1 else ""
    rack = rack_of(draft.shop, material)
    kept = kept_of(layout, material.stock, f"cutting drawing {number}", labels, rack) if has_rack(draft.shop) else ()
    named = tuple(name_of(mark.label for mark in alike) for alike in kept)
    named = named or tuple(f"Offcut {place}" for place in range(1, len(offcuts) + 1))
    names = {label: shown.name for label, shown in material.shown.items()}
    return CutLayout(
        f"cut-{number}",
        f"Cutting drawing {number}: {layout.stock}{copies}",
        layout.stock,
        layout.copies,
        _notes(draft, material, layout, pieces),
        pieces,
        cut_rows(layout, _told(draft, names, one, named), write),
        offcuts,
        layout,
        material.stock,
        kept=kept,
        offcut_names=named,
    )


def _together(layouts: list[CutLayout], shared: tuple[SharedLine, ...], first: int) -> list[CutLayout]:
    """Give the drawings that are cut together the order of their cuts: the first of them in full."""
    note = f"Cut together with drawing {first}: the table there gives the order."
    rest = [replace(one, note=f"{note} {one.note}") for one in layouts[1:]]
    last = first + len(layouts) - 1
    title = f"Drawings {first} {'and' if len(layouts) == 2 else 'to'} {last} are cut together, in this order"
    return [replace(layouts[0], shared=shared, shared_title=title), *rest]


def _told(draft: Draft, names: Mapping[str, str], one: str, offcuts: tuple[str, ...]) -> Told:
    """Gather what the rows of cuts say of the pieces."""
    later = {
        label: step
        for step, parts in parted_later(draft, names.values()).items()
        for label, name in names.items()
        if parts.keys() & set(name.split(" / "))
    }
    stops = frozenset(tool.name for tool in draft.shop.tools if tool.led == "stop")
    return Told(names, one, offcuts, miter_settings(draft, names), later, stops)


def _notes(draft: Draft, material: Wanted, layout: Layout, pieces: tuple[CutPiece, ...]) -> str:
    names = [piece.name for piece in pieces]
    said = [_parting_note(draft, material, layout)]
    said += [_trim_note(draft, material.stock, layout), fit_notes(draft, names, material.spared)]
    said += [strip_notes(draft, names), later_notes(draft, names)]
    said += [miter_notes(draft, names)] if isinstance(material.stock, Lumber) else []
    return " ".join(words for words in said if words)


def _parting_note(draft: Draft, material: Wanted, layout: Layout) -> str:
    rack = rack_of(draft.shop, material)
    one = next((one for one in rack if one.kind.name == layout.stock), None)
    if one is None:
        return ""
    noted = f"{one.offcut.label}: {note}." if (note := own_note(one.offcut).rstrip(".")) else ""
    return f"{noted} {parting_words(one.clear, one.offcut.label, draft.notation)}".strip()


def _trim_note(draft: Draft, stock: Sheet | Lumber, layout: Layout) -> str:
    write, kerf = draft.notation, draft.shop.sheet_kerf if isinstance(stock, Sheet) else draft.shop.board_kerf
    notes = [f"Settings run to the near side of the kerf, which is reckoned as {write.both(kerf)}."]
    trims = [(layout.kind.trim_ends, "end"), (layout.kind.trim_edges, "edge")]
    said = " and ".join(f"{write.both(Length.of_mm(trim))} at each {where}" for trim, where in trims if trim)
    if said:
        notes.append(f"No piece is laid into {said}; the cuts trim only where pieces begin.")
    if isinstance(stock, Sheet) and any(not turned for turned in (placed.turned for placed in layout.pieces)):
        notes.append("Face grain runs along the sheet's length.")
    return " ".join(notes)


def _findings(draft: Draft, material: Wanted, result: Result, home: Result) -> list[Finding]:
    """What is the matter with the cutting of one material; `home` is what is cut at home of it."""
    if result.complete:
        heavy = [finding for kind, _ in counts(result) for finding in _lifting(draft, material.stock, kind)]
        return [*heavy, *_troubles(material, home), *_of_stock(draft.shop, material, result, draft.notation)]
    missing = ", ".join(f"{count} × {label}" for label, count in result.missing)
    return [
        Finding("must fix", "cutting", "", f"there is not enough {material.stock.name}: {missing} cannot be cut.",
                source="the shop file", remedy="Add stock to the shop file.")
    ]  # fmt: skip


def _of_stock(shop: Shop, material: Wanted, result: Result, write: Notation) -> tuple[Finding, ...]:
    """What is the matter with the stock: boards too long to carry, offcuts that lie idle."""
    longest = longest_carried(shop, material)
    called = {label: shown.name for label, shown in material.shown.items()}
    said = {one.kind.name: one.said for one in rack_of(shop, material)}
    return (
        *carrying_findings(result.layouts, longest, shop.board_kerf, write),
        *rack_findings(job_of(shop, material), result, called, said),
    )


def _troubles(material: Wanted, result: Result) -> Iterator[Finding]:
    """What one person cannot do of the order of cuts with this shop's saws, once for each kind of trouble."""
    for trouble in {one.what: one for one in result.troubles}.values():
        shown = material.shown.get(trouble.part)
        yield replace(
            trouble,
            level="look at",
            part=shown.name if shown else material.stock.name,
            what=f"{capital(trouble.what)}.",
            remedy="Cut it by hand, cut it from a larger piece, or list a saw in the shop file that can.",
        )


def _lifting(draft: Draft, stock: Sheet | Lumber, kind: StockKind) -> tuple[Finding, ...]:
    across = kind.width or (stock.width.mm if isinstance(stock, Lumber) else Fraction(0))
    mass = stock.density.mass_of(kind.length * across * stock.thickness.mm)
    one = "sheet" if isinstance(stock, Sheet) else "board"
    what = f"A {one} of {kind.name}"
    return stock_lifting(stock.name, what, mass, draft.shop, draft.notation)
