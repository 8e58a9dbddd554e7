"""What is to be cut from one stock, and the answer to that: which pieces, from what there is, cut how."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache
from itertools import zip_longest

from plankit.cutting import Job, Piece, Result, cut
from plankit.cutting.job import Unit
from plankit.cutting.shop_saws import saws_of, weighed
from plankit.errors import PlanError
from plankit.parts import Part
from plankit.plan.carried import as_carried
from plankit.plan.facts import Draft
from plankit.plan.for_sale import OnHand, by_size, for_sale, on_hand
from plankit.plan.from_rack import small_ones_first
from plankit.shop import Shop
from plankit.stock import Lumber, Sheet
from plankit.units import L, Length


@dataclass(frozen=True, slots=True)
class CutPiece:
    """One size to cut: the part's label and name, the size as it comes off the saw, and how many."""

    label: str
    name: str
    length: Length
    width: Length
    count: int


@dataclass(frozen=True, slots=True)
class Wanted:
    """All that is cut from one stock.

    spared what each part that is measured first has to spare here, by its id: in length, and in width where laid flat
    edges  what is trimmed off each edge of boards that are ripped; None for sheets, and boards of full width
    rack   whether offcuts on hand may be used; the other half of one stock has them where it is False
    """

    stock: Sheet | Lumber
    pieces: tuple[Piece, ...]
    shown: Mapping[str, CutPiece]
    edges: Length | None = None
    rack: bool = True
    spared: Mapping[str, tuple[Length, ...]] = field(default_factory=dict)


ROUNDED_EDGE = L("1/4 in")
"""Construction lumber has rounded corners; ripping them off takes about so much (common practice)."""


SPARE = {"in": L("1/2 in"), "mm": L("12 mm")}
"""What a piece that is measured first is cut larger by, where its author says nothing (common practice)."""
SHARES = (Fraction(1), Fraction(1, 2), Fraction(1, 4))
"""So much of that it has, the most first, that no more stock is bought for it; none where even the least costs more."""


@lru_cache(maxsize=128)
def _solved(job: Job) -> Result:
    return cut(job)


@lru_cache(maxsize=128)
def solved(job: Job) -> Result:
    """Return the answer to a job, with small parts from the rack where that costs no more."""
    return small_ones_first(job, _solved(job), _solved)


def answered(shop: Shop, material: Wanted) -> Result:
    """Cut one material; what fits no stock is called by its name and not by its letter alone."""
    try:
        return solved(as_carried(job_of(shop, material), longest_carried(shop, material), _solved))
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


def longest_carried(shop: Shop, material: Wanted) -> Length | None:
    """Return how long a board can be to be carried; None for sheets, and where any length can."""
    return shop.longest_carried if isinstance(material.stock, Lumber) else None


def materials(draft: Draft, by_part: Mapping[str, str]) -> list[Wanted]:
    """Gather the parts by stock; boards that are ripped for a glue-up are laid out in width as well."""
    by_stock: dict[tuple[str, bool], list[Part]] = {}
    for part in draft.build.parts:
        ripped = part.glue_up is not None
        by_stock.setdefault((f"{part.stock.key} {part.stock.thickness.mm}", ripped), []).append(part)
    return [
        _with_spare(draft.shop, parts, by_part, rack=not (ripped and (stock, False) in by_stock))
        for (stock, ripped), parts in by_stock.items()
    ]


def _with_spare(shop: Shop, parts: list[Part], by_part: Mapping[str, str], *, rack: bool) -> Wanted:
    """One material; its pieces that are measured first as large as they can be without buying more for it."""
    bare = replace(_material(shop, parts, by_part, Fraction(0)), rack=rack)
    if not any(part.fit_to and part.spare is None and part.glue_up is None for part in parts):
        return bare
    least = answered(shop, bare).cost or 0
    larger = (replace(_material(shop, parts, by_part, share), rack=rack) for share in SHARES)
    return next((one for one in larger if (answered(shop, one).cost or 0) <= least), bare)


def _material(shop: Shop, parts: list[Part], by_part: Mapping[str, str], share: Fraction) -> Wanted:
    spared: dict[str, tuple[Length, ...]] = {}
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
        if part.fit_to and part.glue_up is None:
            spared[part.id] = _to_spare(shop, part, share, (length, width) if flat else (length,))
            length, width = (size + more for size, more in zip_longest(
                (length, width), spared[part.id], fillvalue=Length.zero()))  # fmt: skip
        wide, turns = width.mm if flat else None, not part.grain_matters
        pieces[label] = Piece(label, length.mm, wide, many, turns, strip=part.strip)
        names = shown[label].name if label in shown else called
        if called not in names.split(" / "):
            names = f"{names} / {called}"
        shown[label] = CutPiece(label, names, length, width, many)
    edges = _edge_trim(parts) if parts[0].glue_up is not None else None
    return Wanted(parts[0].stock, tuple(pieces.values()), shown, edges, spared=spared)


def _to_spare(shop: Shop, part: Part, share: Fraction, sizes: tuple[Length, ...]) -> tuple[Length, ...]:
    """How much larger than its nominal size a piece is laid out each way: as far as the largest stock has room."""
    wanted = part.spare if part.spare is not None else SPARE["mm" if shop.unit == "mm" else "in"] * share
    kinds = [*for_sale(shop, part.stock), *(one.kind for one in on_hand(shop, part.stock))]
    largest = [max(kind.length - 2 * kind.trim_ends for kind in kinds)]
    largest.append(max((kind.width or Fraction(0)) - 2 * kind.trim_edges for kind in kinds))
    rooms = (Length.of_mm(max(Fraction(0), most - size.mm)) for most, size in zip(largest, sizes, strict=False))
    return tuple(wanted if wanted.mm <= room.mm else room for room in rooms)


def _edge_trim(parts: list[Part]) -> Length:
    """What comes off each edge of a board that is ripped: its rounded corner, where the rips leave room for it."""
    room = min(
        (part.stock.width - part.glue_up.rip).mm for part in parts if part.glue_up and _is_lumber(part)
    )
    return Length.of_mm(min(ROUNDED_EDGE.mm, room / 2))


def _is_lumber(part: Part) -> bool:
    return isinstance(part.stock, Lumber)


def rack_of(shop: Shop, material: Wanted) -> tuple[OnHand, ...]:
    """Return what lies on the rack for one material."""
    return on_hand(shop, material.stock, ripped=material.edges is not None) if material.rack else ()


def job_of(shop: Shop, material: Wanted) -> Job:
    """Return what is asked of the cutting of one material: all that is sold of it, and all that is on hand."""
    kerf = shop.sheet_kerf if isinstance(material.stock, Sheet) else shop.board_kerf
    kinds = (*(one.kind for one in rack_of(shop, material)), *for_sale(shop, material.stock))
    if material.edges is not None and isinstance(material.stock, Lumber):
        whole, trim = material.stock.width.mm, material.edges.mm
        kinds = tuple(
            replace(kind, width=whole, trim_edges=trim) if kind.width is None else kind for kind in kinds
        )
    if any(kind.price is None for kind in kinds):
        kinds = tuple(by_size(kind) for kind in kinds)
    kinds = tuple(weighed(kind, material.stock) for kind in kinds)
    saws = saws_of(shop, boards=kinds[0].is_board)
    unit: Unit = "in" if shop.unit == "in" else "mm"
    limit = shop.lifting_limit.kg
    return Job(kinds, material.pieces, kerf.mm, unit, saws=saws, lifting_limit=limit, prefer=shop.prefer)
