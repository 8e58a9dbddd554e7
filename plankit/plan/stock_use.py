"""What the cutting takes, in words: each board, sheet and offcut, and how near to the least possible that is."""

from collections import Counter
from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.cutting import Result
from plankit.drawing.words import capital
from plankit.errors import PlanError
from plankit.plan.cut_material import Wanted, answered, job_of, rack_of
from plankit.plan.facts import Draft
from plankit.plan.for_sale import OnHand, bought, listed_price, of_rack, size_of, store_size
from plankit.plan.handed_over import too_long
from plankit.shop import Shop
from plankit.stock import Lumber, Sheet
from plankit.units import Length, Mass, Money


@dataclass(frozen=True, slots=True)
class StockUse:
    """So many of one size of board or sheet; `on_hand` where it is an offcut from the rack.

    mass  of all of them together
    """

    item: str
    unit: str
    count: int
    price: Money | None
    on_hand: bool
    note: str = ""
    mass: Mass | None = None


def stock_uses(draft: Draft, material: Wanted, result: Result) -> list[StockUse]:
    """Return what one material takes: from the rack first, then what is bought."""
    rack = [_from_rack(draft, one) for one in of_rack(rack_of(draft.shop, material), result)]
    if rack:
        rack[0] = replace(rack[0], note=_instead(draft, material))
    found = []
    for kind, count in bought(result):
        unit = f"{one_of(material)}, {size_of(kind, material.stock)}"
        listed = listed_price(draft.shop, material.stock, kind)
        price = Money(listed.amount, listed.currency) if listed else None
        mass = Mass((kind.mass or Fraction(0)) * count)
        found.append(StockUse(material.stock.name, unit, count, price, on_hand=False, mass=mass))
    return [*rack, *found]


def one_of(material: Wanted) -> str:
    """Return what one whole of the material is called: "sheet" or "board"."""
    return "sheet" if isinstance(material.stock, Sheet) else "board"


def _from_rack(draft: Draft, one: OnHand) -> StockUse:
    sizes = [Length.of_mm(size) for size in (one.kind.length, one.kind.width) if size is not None]
    unit = f"offcut {one.said}, {draft.notation.size_both(*sizes)}"
    return StockUse(one.offcut.stock, unit, 1, None, on_hand=True)


def _instead(draft: Draft, material: Wanted) -> str:
    """What a reader without these offcuts buys."""
    bare = replace(draft.shop, offcuts=())
    try:
        result = answered(bare, material)
    except PlanError:
        return "the shop has these on its rack; no stock on the price list would do instead"
    return f"from the shop's rack; without such offcuts, buy {buy_words(draft, material, result)}"


def buy_words(draft: Draft, material: Wanted, result: Result) -> str:
    """Say what is bought for an answer and what it costs: "1 sheet of 4 × 8 ft, $62.00"."""
    sizes = [
        f"{draft.notation.count(count, one_of(material))} of {size_of(kind, material.stock)}"
        for kind, count in bought(result)
    ]
    cost = cost_words(draft, material, result)
    return f"{' and '.join(sizes)}{f', {cost}' if cost else ''}"


def cost_words(draft: Draft, material: Wanted, result: Result) -> str:
    """Write what an answer's stock costs; "" where a price is missing, or nothing is bought."""
    if not (_all_priced(draft.shop, material, result) and result.cost):
        return ""
    return draft.notation.money(Money(result.cost, draft.shop.prices.currency))


def _all_priced(shop: Shop, material: Wanted, result: Result) -> bool:
    return all(listed_price(shop, material.stock, kind) for kind, _ in bought(result))


def summaries(draft: Draft, results: list[tuple[Wanted, Result]]) -> str:
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


def _summary(draft: Draft, material: Wanted, result: Result) -> tuple[str, str]:
    new = bought(result)
    offcuts = [one.said for one in of_rack(rack_of(draft.shop, material), result)]
    parts = [
        f"{draft.notation.count(count, one_of(material))} of {size_of(kind, material.stock)}" for kind, count in new
    ]
    if offcuts:
        parts.append(f"{'offcut' if len(offcuts) == 1 else 'offcuts'} {', '.join(offcuts)} on hand")
    words = f"{capital(material.stock.name)}: {' and '.join(parts)}"
    return words, _proof(draft, material, result) if new else ""


def _proof(draft: Draft, material: Wanted, result: Result) -> str:
    """Say what is proven; where boards are left out that one cannot carry, only of the others."""
    priced = _all_priced(draft.shop, material, result)
    longest, among = draft.shop.longest_carried, ""
    boards = isinstance(material.stock, Lumber) and job_of(draft.shop, material).stock
    if longest is not None and boards and any(too_long(kind, longest) for kind in boards):
        most = store_size(longest, None, draft.shop.unit)
        if any(too_long(kind, longest) for kind, _ in bought(result)):
            return f"; boards over {most} are bought where nothing shorter would do"
        among = f" of boards up to {most}"
    if result.proven:
        if among:
            return f"; no {'cheaper' if priced else 'smaller'} choice{among} exists (proven)"
        return (
            "; no cheaper choice from the price list exists (proven)"
            if priced
            else "; no choice needs less (proven)"
        )
    if priced and result.least_cost is not None:
        least = draft.notation.money(Money(result.least_cost, draft.shop.prices.currency))
        return f"; at least {least} is needed{among}, whether this is the least is not proven"
    return "; whether this is the least is not proven"


def stock_words(draft: Draft, results: list[tuple[Wanted, Result]]) -> str:
    """Say how many sheets and boards are bought, and how many offcuts are used."""
    said = []
    for kind_of, one in ((Sheet, "sheet"), (Lumber, "board")):
        these = [(m, r) for m, r in results if isinstance(m.stock, kind_of)]
        new = sum(count for _, result in these for _, count in bought(result))
        rack = {use.offcut.label for m, r in these for use in of_rack(rack_of(draft.shop, m), r)}
        if new:
            said.append(draft.notation.count(new, one))
        if rack:
            said.append(draft.notation.count(len(rack), f"{one} offcut"))
    return ", ".join(said)
