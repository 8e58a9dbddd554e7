"""From the build to boards and sheets: which pieces are cut, from what, in which order, and what is left."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from plankit.checks import stock_lifting
from plankit.cutting import Job, Layout, Piece, Result, StockKind, cut
from plankit.drawing.words import capital
from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.parts import Part
from plankit.plan.cut_notes import fit_notes, later_notes, miter_notes
from plankit.plan.cut_words import cut_words
from plankit.plan.facts import Draft
from plankit.shop import Shop
from plankit.stock import Lumber, Sheet
from plankit.units import L, Length, Money, Notation


@dataclass(frozen=True, slots=True)
class CutPiece:
    """One size to cut: the part's label and name, the size as it comes off the saw, and how many."""

    label: str
    name: str
    length: Length
    width: Length
    count: int


@dataclass(frozen=True, slots=True)
class StockUse:
    """So many of one size of board or sheet; `on_hand` where it is an offcut from the rack."""

    item: str
    unit: str
    count: int
    price: Money | None
    on_hand: bool
    note: str = ""


@dataclass(frozen=True, slots=True)
class CutLayout:
    """One board or sheet as it is to be cut, in words; `layout` holds the places."""

    id: str
    title: str
    stock: str
    copies: int
    note: str
    pieces: tuple[CutPiece, ...]
    cuts: tuple[str, ...]
    offcut_sizes: tuple[tuple[Length, ...], ...]
    layout: Layout
    material: Sheet | Lumber


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How everything is cut."""

    layouts: tuple[CutLayout, ...]
    pieces: tuple[CutPiece, ...]
    uses: tuple[StockUse, ...]
    summary: str
    stock_words: str
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class _Material:
    """All that is cut from one stock.

    edges  what is trimmed off each edge of boards that are ripped; None for sheets, and boards of full width
    rack   whether offcuts on hand may be used; the other half of one stock has them where it is False
    """

    stock: Sheet | Lumber
    pieces: tuple[Piece, ...]
    shown: Mapping[str, CutPiece]
    edges: Length | None = None
    rack: bool = True


ROUNDED_EDGE = L("1/4 in")
"""Construction lumber has rounded corners; ripping them off takes about so much (common practice)."""


@lru_cache(maxsize=64)
def _solved(job: Job) -> Result:
    return cut(job)


def cut_plan(draft: Draft, by_part: Mapping[str, str]) -> CutPlan:
    """Return how all parts are cut from the shop's offcuts and the stores' boards and sheets.

    by_part  each part's label by its id
    raises   PlanError naming the part that fits no stock, and by how much
    """
    draft = replace(draft, shop=replace(draft.shop, unit=draft.notation.unit))
    materials = _materials(draft, by_part)
    results = [(material, _cut(draft.shop, material)) for material in materials]
    layouts: list[CutLayout] = []
    for material, result in results:
        for layout in result.layouts:
            layouts.append(_layout(draft, material, layout, len(layouts) + 1))
    return CutPlan(
        tuple(layouts),
        tuple(piece for material in materials for piece in material.shown.values()),
        tuple(use for material, result in results for use in _uses(draft, material, result)),
        _summaries(draft, results),
        _stock_words(draft, results),
        tuple(finding for material, result in results for finding in _findings(draft, material, result)),
    )


def _cut(shop: Shop, material: _Material) -> Result:
    """Cut one material; what fits no stock is called by its name and not by its letter alone."""
    try:
        return _solved(_job(shop, material))
    except PlanError as error:
        shown = material.shown.get(error.where)
        if shown is None:
            raise
        raise PlanError(
            error.what,
            where=f"{shown.name} ({shown.label})",
            given=error.given,
            remedy=error.remedy,
        ) from None


def _materials(draft: Draft, by_part: Mapping[str, str]) -> list[_Material]:
    """Gather the parts by stock; boards that are ripped for a glue-up are laid out in width as well."""
    by_stock: dict[tuple[str, bool], list[Part]] = {}
    for part in draft.build.parts:
        ripped = part.glue_up is not None
        by_stock.setdefault((f"{part.stock.key} {part.stock.thickness.mm}", ripped), []).append(part)
    return [
        replace(_material(parts, by_part), rack=not (ripped and (stock, False) in by_stock))
        for (stock, ripped), parts in by_stock.items()
    ]


def _material(parts: list[Part], by_part: Mapping[str, str]) -> _Material:
    pieces: dict[str, Piece] = {}
    shown: dict[str, CutPiece] = {}
    for part in parts:
        label = by_part[part.id]
        length, width = part.cut_size()
        times, called = 1, part.name
        if part.glue_up is not None:
            times, called = part.glue_up.boards, f"{part.name}, board"
            length, width = part.glue_up.length, part.glue_up.rip
        many = times + (shown[label].count if label in shown else 0)
        flat = isinstance(part.stock, Sheet) or part.glue_up is not None
        pieces[label] = Piece(label, length.mm, width.mm if flat else None, many, not part.grain_matters)
        names = shown[label].name if label in shown else called
        if called not in names.split(" / "):
            names = f"{names} / {called}"
        shown[label] = CutPiece(label, names, length, width, many)
    edges = _edge_trim(parts) if parts[0].glue_up is not None else None
    return _Material(parts[0].stock, tuple(pieces.values()), shown, edges)


def _edge_trim(parts: list[Part]) -> Length:
    """What comes off each edge of a board that is ripped: its rounded corner, where the rips leave room for it."""
    room = min(
        (part.stock.width - part.glue_up.rip).mm for part in parts if part.glue_up and _is_lumber(part)
    )
    return Length.of_mm(min(ROUNDED_EDGE.mm, room / 2))


def _is_lumber(part: Part) -> bool:
    return isinstance(part.stock, Lumber)


def _job(shop: Shop, material: _Material) -> Job:
    kerf = shop.sheet_kerf if isinstance(material.stock, Sheet) else shop.board_kerf
    on_hand = _on_hand(shop, material.stock) if material.rack else []
    kinds = (*on_hand, *_for_sale(shop, material.stock))
    if material.edges is not None and isinstance(material.stock, Lumber):
        wide, trim = material.stock.width.mm, material.edges.mm
        kinds = tuple(replace(kind, width=wide, trim_edges=trim) for kind in kinds)
    if any(kind.price is None for kind in kinds):
        kinds = tuple(_by_size(kind) for kind in kinds)
    return Job(kinds, material.pieces, kerf.mm, "in" if shop.unit == "in" else "mm")


def _by_size(kind: StockKind) -> StockKind:
    """Where a price is missing, the least material is best: a stock's size stands for its price."""
    size = Fraction(0) if kind.on_hand else kind.length * (kind.width or 1)
    return StockKind(
        kind.name, kind.length, kind.width, kind.available, size, kind.trim_ends, kind.trim_edges
    )


def _on_hand(shop: Shop, stock: Sheet | Lumber) -> list[StockKind]:
    trim = shop.board_trim.mm if isinstance(stock, Lumber) else Fraction(0)
    return [
        StockKind(
            f"{stock.name}, offcut {offcut.label}", offcut.length.mm, offcut.width.mm if offcut.width else None,
            1, Fraction(0), trim,
        )
        for offcut in shop.offcuts_of(stock.name)
        if (offcut.width is None) == isinstance(stock, Lumber) and offcut.length.mm > 2 * trim
    ]  # fmt: skip


def _for_sale(shop: Shop, stock: Sheet | Lumber) -> list[StockKind]:
    if isinstance(stock, Sheet):
        sold = [(e.length, e.width, e.price) for e in shop.prices.sizes_of(stock.name) if e.width is not None]
        unpriced: list[tuple[Length, Length, Money | None]] = [(stock.length, stock.width, None)]
        sizes = sold or unpriced
        return [
            StockKind(_kind_name(shop, stock, length, width), length.mm, width.mm, None,
                      price.amount if price else None, shop.sheet_trim.mm, shop.sheet_trim.mm)
            for length, width, price in sizes
        ]  # fmt: skip
    unlisted: list[tuple[Length, Money | None]] = [(length, None) for length in stock.lengths]
    boards = [(entry.length, entry.price) for entry in shop.prices.sizes_of(stock.name)]
    return [
        StockKind(
            _kind_name(shop, stock, length, None),
            length.mm,
            None,
            None,
            price.amount if price else None,
            shop.board_trim.mm,
        )
        for length, price in boards or unlisted
    ]


def _kind_name(shop: Shop, stock: Sheet | Lumber, length: Length, width: Length | None) -> str:
    return f"{stock.name}, {_store_size(length, width, shop.unit)}"


def _store_size(length: Length, width: Length | None, unit: str) -> str:
    """Sizes as stores say them: sheets in feet where they are whole, boards in feet; all in mm in a metric plan."""
    if unit == "mm":
        return Notation("mm").size(*(size for size in (width, length) if size is not None)).replace("≈", "")
    feet = [size.inches / 12 for size in (width, length) if size is not None]
    if all(size.denominator == 1 for size in feet):
        return f"{' × '.join(str(size) for size in feet)} ft"
    notation = Notation("in") if length.inches.denominator <= 64 else Notation("mm")
    return notation.size(*(size for size in (width, length) if size is not None))


def _layout(draft: Draft, material: _Material, layout: Layout, number: int) -> CutLayout:
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
    return CutLayout(
        f"cut-{number}",
        f"Cutting drawing {number}: {layout.stock}{copies}",
        layout.stock,
        layout.copies,
        _notes(draft, material, layout, pieces),
        pieces,
        cut_words(layout, {label: shown.name for label, shown in material.shown.items()}, one, write),
        offcuts,
        layout,
        material.stock,
    )


def _notes(draft: Draft, material: _Material, layout: Layout, pieces: tuple[CutPiece, ...]) -> str:
    names = [piece.name for piece in pieces]
    said = [_trim_note(draft, material.stock, layout), fit_notes(draft, names), later_notes(draft, names)]
    said += [miter_notes(draft, names)] if isinstance(material.stock, Lumber) else []
    return " ".join(words for words in said if words)


def _trim_note(draft: Draft, stock: Sheet | Lumber, layout: Layout) -> str:
    write, kerf = draft.notation, draft.shop.sheet_kerf if isinstance(stock, Sheet) else draft.shop.board_kerf
    notes = [f"Settings run to the near side of the kerf, which is {write.both(kerf)} wide."]
    ends, edges = layout.kind.trim_ends, layout.kind.trim_edges
    if ends and ends == edges:
        notes.append(f"{write.both(Length.of_mm(ends))} is trimmed off each edge first.")
    else:
        trims = [(ends, "end"), (edges, "edge")]
        said = " and ".join(
            f"{write.both(Length.of_mm(trim))} off each {where}" for trim, where in trims if trim
        )
        notes += [f"Trim {said} first."] if said else []
    if isinstance(stock, Sheet) and any(not turned for turned in (placed.turned for placed in layout.pieces)):
        notes.append("Face grain runs along the sheet's length.")
    return " ".join(notes)


def _uses(draft: Draft, material: _Material, result: Result) -> list[StockUse]:
    found = []
    for kind, count in _counts(result):
        if kind.on_hand:
            found.append(_from_rack(draft, material, kind))
            continue
        size = kind.name.removeprefix(f"{material.stock.name}, ")
        unit = f"sheet, {size}" if isinstance(material.stock, Sheet) else f"board, {size}"
        listed = _listed_price(draft.shop, material.stock, kind)
        price = Money(listed.amount, listed.currency) if listed else None
        found.append(StockUse(material.stock.name, unit, count, price, on_hand=False))
    first = next((place for place, use in enumerate(found) if use.on_hand), None)
    if first is not None:
        found[first] = replace(found[first], note=_instead(draft, material))
    return found


def _from_rack(draft: Draft, material: _Material, kind: StockKind) -> StockUse:
    sizes = [Length.of_mm(size) for size in (kind.length, kind.width) if size is not None]
    unit = f"{kind.name.removeprefix(f'{material.stock.name}, ')}, {draft.notation.size_both(*sizes)}"
    return StockUse(material.stock.name, unit, 1, None, on_hand=True)


def _instead(draft: Draft, material: _Material) -> str:
    """What a reader without these offcuts buys."""
    bare = replace(draft.shop, offcuts=())
    try:
        result = _solved(_job(bare, material))
    except PlanError:
        return "the shop has these on its rack; no stock on the price list would do instead"
    one = "sheet" if isinstance(material.stock, Sheet) else "board"
    sizes = [
        f"{draft.notation.count(count, one)} of {kind.name.removeprefix(f'{material.stock.name}, ')}"
        for kind, count in _counts(result)
    ]
    cost = (
        f", {draft.notation.money(Money(result.cost, bare.prices.currency))}"
        if _all_priced(bare, material, result) and result.cost
        else ""
    )
    return f"from the shop's rack; without such offcuts, buy {' and '.join(sizes)}{cost}"


def _all_priced(shop: Shop, material: _Material, result: Result) -> bool:
    return all(_listed_price(shop, material.stock, kind) for kind, _ in _counts(result))


def _counts(result: Result) -> list[tuple[StockKind, int]]:
    counts: dict[str, int] = {}
    kinds: dict[str, StockKind] = {}
    for layout in result.layouts:
        counts[layout.stock] = counts.get(layout.stock, 0) + layout.copies
        kinds[layout.stock] = layout.kind
    return [(kinds[name], count) for name, count in counts.items()]


def _listed_price(shop: Shop, stock: Sheet | Lumber, kind: StockKind) -> Money | None:
    for entry in shop.prices.sizes_of(stock.name):
        if _kind_name(shop, stock, entry.length, entry.width) == kind.name:
            return entry.price
    return None


def _summaries(draft: Draft, results: list[tuple[_Material, Result]]) -> str:
    """Say what each material takes; what is proven of several of them, say once."""
    said = [_summary(draft, material, result) for material, result in results]
    proofs = Counter(proof for _, proof in said if proof)
    shared, many = max(proofs.items(), key=lambda one: one[1], default=("", 0))
    if len(proofs) > 1 and many == 1:
        return " ".join(f"{words}{proof}." for words, proof in said)
    told = [f"{words}{proof if proof != shared else ''}." for words, proof in said]
    proven = shared.removeprefix("; ")
    if shared:
        told.append(f"{capital(proven)}." if len(proofs) == 1 else f"For the others {proven}.")
    return " ".join(told)


def _summary(draft: Draft, material: _Material, result: Result) -> tuple[str, str]:
    bought = [(kind, count) for kind, count in _counts(result) if not kind.on_hand]
    offcuts = [kind.name.rpartition(" ")[2] for kind, _ in _counts(result) if kind.on_hand]
    one = "sheet" if isinstance(material.stock, Sheet) else "board"
    parts = [
        f"{draft.notation.count(count, one)} of {kind.name.removeprefix(f'{material.stock.name}, ')}"
        for kind, count in bought
    ]
    if offcuts:
        parts.append(f"{'offcut' if len(offcuts) == 1 else 'offcuts'} {', '.join(offcuts)} on hand")
    words = f"{capital(material.stock.name)}: {' and '.join(parts)}"
    return words, _proof(draft, material, result) if bought else ""


def _proof(draft: Draft, material: _Material, result: Result) -> str:
    priced = all(
        _listed_price(draft.shop, material.stock, kind) for kind, _ in _counts(result) if not kind.on_hand
    )
    if result.proven:
        return (
            "; no cheaper choice from the price list exists (proven)"
            if priced
            else "; no choice needs less (proven)"
        )
    if priced and result.least_cost is not None:
        least = draft.notation.money(Money(result.least_cost, draft.shop.prices.currency))
        return f"; at least {least} is needed, whether this is the least is not proven"
    return "; whether this is the least is not proven"


def _stock_words(draft: Draft, results: list[tuple[_Material, Result]]) -> str:
    said = []
    for kind_of, one in ((Sheet, "sheet"), (Lumber, "board")):
        bought = offcuts = 0
        for material, result in results:
            if isinstance(material.stock, kind_of):
                for kind, count in _counts(result):
                    bought, offcuts = (bought, offcuts + count) if kind.on_hand else (bought + count, offcuts)
        if bought:
            said.append(draft.notation.count(bought, one))
        if offcuts:
            said.append(draft.notation.count(offcuts, f"{one} offcut"))
    return ", ".join(said)


def _findings(draft: Draft, material: _Material, result: Result) -> list[Finding]:
    if result.complete:
        return [finding for kind, _ in _counts(result) for finding in _lifting(draft, material.stock, kind)]
    missing = ", ".join(f"{count} × {label}" for label, count in result.missing)
    return [
        Finding("must fix", "cutting", "", f"there is not enough {material.stock.name}: {missing} cannot be cut.",
                source="the shop file", remedy="Add stock to the shop file.")
    ]  # fmt: skip


def _lifting(draft: Draft, stock: Sheet | Lumber, kind: StockKind) -> tuple[Finding, ...]:
    across = kind.width or (stock.width.mm if isinstance(stock, Lumber) else Fraction(0))
    mass = stock.density.mass_of(kind.length * across * stock.thickness.mm)
    one = "sheet" if isinstance(stock, Sheet) else "board"
    what = f"A {one} of {kind.name}"
    return stock_lifting(stock.name, what, mass, draft.shop, draft.notation)
