"""What changes where the store has only another size of a board or sheet."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

from plankit.cutting import Job, Result, StockKind
from plankit.errors import PlanError
from plankit.plan.cut_list import CutPlan
from plankit.plan.cut_material import Wanted, job_of, solved
from plankit.plan.facts import Draft
from plankit.plan.for_sale import bought, size_of
from plankit.plan.handed_over import too_long
from plankit.plan.stock_use import cost_words, one_of
from plankit.stock import Lumber
from plankit.units import Mass


def other_sizes(draft: Draft, cut: CutPlan) -> list[dict[str, Any]]:
    """Return for each stock that is bought what to buy of each other size on the price list, were it the only one.

    Where the list has no size of a stock, the next shorter one and the next longer one that it usually comes in.
    """
    draft = replace(draft, shop=replace(draft.shop, unit=draft.notation.unit))
    return [
        row
        for material, result in cut.answers
        for kind in _others(draft, material, result)
        if (row := _row(draft, material, kind)) is not None
    ]


def _others(draft: Draft, material: Wanted, result: Result) -> list[StockKind]:
    used = [kind.name for kind, _ in bought(result)]
    sold = [kind for kind in job_of(draft.shop, material).stock if not kind.on_hand]
    if not used or len(sold) < 2:
        return []
    others = [kind for kind in sold if [kind.name] != used]
    if draft.shop.prices.sizes_of(material.stock.name):
        return others
    taken = [kind.length for kind in sold if kind.name in used]
    shorter = [kind for kind in others if kind.length < min(taken)]
    longer = [kind for kind in others if kind.length > max(taken)]
    return shorter[-1:] + longer[:1]


def _row(draft: Draft, material: Wanted, kind: StockKind) -> dict[str, Any] | None:
    """What is bought where there is only one size; nothing is said where the rack alone would do."""
    write, size = draft.notation, size_of(kind, material.stock)
    try:
        result = solved(_only(job_of(draft.shop, material), kind))
    except PlanError as error:
        shown = material.shown.get(error.where)
        small = f"too small for {shown.name} ({shown.label})" if shown else "too small"
        return _columns(material, size, small, "", "")
    count = sum(many for _, many in bought(result))
    if not count:
        return None
    mass = Mass(sum(((one.mass or Fraction(0)) * many for one, many in bought(result)), Fraction(0)))
    longest = draft.shop.longest_carried if isinstance(material.stock, Lumber) else None
    over = ", longer than can be carried" if too_long(kind, longest) else ""
    buy = f"{write.count(count, one_of(material))}{over}"
    return _columns(material, size, buy, cost_words(draft, material, result), write.mass(mass))


def _only(job: Job, kind: StockKind) -> Job:
    return replace(job, stock=tuple(one for one in job.stock if one.on_hand or one.name == kind.name))


def _columns(material: Wanted, size: str, buy: str, cost: str, weight: str) -> dict[str, Any]:
    said = ", ".join(words for words in (buy, cost, weight) if words)
    text = f"If the store has only {size}: {said}."
    row = {"item": material.stock.name, "only": size, "buy": buy, "cost": cost or "—", "weight": weight or "—"}
    return row | {"text": text}
