"""The lists of a plan: parts, hardware, and what to buy."""

from collections import Counter
from fractions import Fraction
from typing import Any

from plankit.build import Alike, Joint, hardware
from plankit.drawing.words import sentence, within
from plankit.parts import (
    HINGE_LEAF,
    Banding,
    Bevel,
    Bore,
    Chamfer,
    CompoundMitre,
    Cove,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    PocketHoles,
    Roundover,
    Taper,
    has_hand,
)
from plankit.plan.cut_list import CutPlan
from plankit.plan.facts import Draft
from plankit.plan.hardware_rows import CHECKED, item_rows, screws_of_items
from plankit.plan.optional import only_in, optional_steps, without_optional
from plankit.plan.used_up import Need, needs, washers
from plankit.plan.work_when import when
from plankit.plan.work_words import later_words
from plankit.shop.prices import Pack
from plankit.stock import Lumber
from plankit.units import Money

OUTDOORS = (
    "For outdoors ask for screws, pins and hardware of stainless steel, or coated for use outdoors: others rust, and "
    "stain woods rich in tannin."
)


def parts_list(draft: Draft, groups: tuple[Alike, ...], drawn: dict[str, str]) -> list[dict[str, Any]]:
    """Return the parts list, a row for each kind of part; `drawn` gives each label's drawing."""
    write = draft.notation
    return [
        {
            "label": group.label,
            "name": group.name,
            "count": group.count,
            "length": write.both(group.first.length),
            "width": write.both(group.first.width),
            "thickness": write.both(group.first.thickness),
            "material": group.first.stock.name,
            "note": part_note(draft, group),
            "optional": _with_step(draft, group),
            "figure": drawn.get(group.label),
        }
        for group in groups
    ]


def part_note(draft: Draft, group: Alike) -> str:
    """Return what a reader must know about a part before cutting it."""
    part, write = group.first, draft.notation
    notes = []
    if part.glue_up is not None:
        notes.append(
            f"glued up from {part.glue_up.boards} boards {write.size(part.glue_up.length, part.glue_up.rip)}"
        )
    later = [feature for feature, _ in when(draft).later(part)]
    first = [feature for feature in part.features if feature not in later]
    recessed = [one for one in first if isinstance(one, Groove) and one.reason == HINGE_LEAF]
    others = [one for one in first if one not in recessed]
    notes += [word for kind, word in _DONE if any(isinstance(feature, kind) for feature in others)]
    notes += ["hinge recesses"] * bool(recessed)
    if any(isinstance(feature, LeftOn) for feature in part.features):
        notes.append(f"cut {write.size(*part.cut_size())} first, trimmed later")
    edges = [feature for feature in part.features if isinstance(feature, Banding)]
    if edges:
        optional = " (optional)" if all(edge.optional for edge in edges) else ""
        notes.append(f"banded on {write.count(len(edges), 'edge')}{optional}")
    if group.other:
        notes.append(f"{len(group.parts)} of one hand, {len(group.other)} of the other")
    elif has_hand(part) and group.count > 1:
        notes.append("all of one hand")
    if part.fit_to:
        notes.append(f"measure first: {part.fit_to}")
    notes += [words for words in (later_words(draft, group), _with_step(draft, group)) if words]
    return "; ".join(notes)


def _with_step(draft: Draft, group: Alike) -> str:
    """Say that parts of a kind come in an optional step alone; "" where they do not."""
    known = when(draft).arrivals
    steps = {known.get(part.id, 0) for part in (*group.parts, *group.other)}
    return only_in(draft, frozenset(steps))


_DONE = (
    (Taper, "tapered"),
    (Notch, "notched"),
    (Mitre | CompoundMitre, "mitered"),
    (Bevel, "beveled"),
    (Groove, "grooved"),
    (PocketHoles, "pocket holes"),
    (Bore, "bored"),
    (Chamfer, "chamfered"),
    (Roundover, "edges rounded"),
    (Cove, "coved"),
)


def hardware_list(draft: Draft) -> list[dict[str, Any]]:
    """Return the hardware list: every screw and brad counted from the joints, and what else is bought."""
    needed = _needed_anyway(draft)
    rows: list[dict[str, Any]] = []
    for spec, count in hardware(draft.build):
        where = Counter[str]()
        for joint in draft.build.joints:
            matching = sum(fastener.spec == spec for fastener in joint.fasteners)
            if matching:
                where[_joint_words(draft, joint)] += matching
        where += screws_of_items(draft, spec)
        rows.append(
            {"item": spec.name, "count": count, "where": "; ".join(f"{w} ({n})" for w, n in where.items())}
        )
    rows += [
        {"item": item, "count": count, "where": "under the heads of the pan-head screws"}
        for item, count in washers(draft)
    ]
    rows += item_rows(draft)
    rows += [
        {"item": b.item, "count": b.count, "where": f"{b.where} ({b.note})" if b.note else b.where}
        for b in draft.bought
    ]
    for row in rows:
        row["optional"] = "" if needed is None or row["item"] in needed else _optional_words(draft)
        row["where"] += f"; {row['optional']}" if row["optional"] else ""
    return rows


def _needed_anyway(draft: Draft) -> frozenset[str] | None:
    """What is bought by the pack even without the optional steps; None where no step is optional."""
    bare = without_optional(draft)
    return None if bare is None else frozenset(need.item for need in needs(bare))


def _optional_words(draft: Draft) -> str:
    return only_in(draft, optional_steps(draft))


def hardware_note(draft: Draft) -> str:
    """Return what a reader must ask for beside the sizes: the heads and threads of the screws."""
    kinds = {fastener.spec.kind for fastener in draft.build.fasteners}
    said = [
        words
        for kind, words in (
            ("wood screw", "wood screws have flat heads"),
            ("pan-head screw", "pan-head screws lie on washers"),
            ("pocket screw", f"pocket screws have washer heads and {_pocket_thread(draft)}"),
        )
        if kind in kinds
    ]
    heads = sentence(", ".join(said)) if said else ""
    sizes = any(item.compare.startswith(CHECKED) for item in draft.build.items)
    compare = "Sizes of hardware are those of common kinds: check them against what you bought before you bore."
    weather = OUTDOORS if draft.facts.outdoors and (draft.build.fasteners or draft.build.items) else ""
    return " ".join(words for words in (heads, weather, compare if sizes else "") if words)


def _pocket_thread(draft: Draft) -> str:
    """Which thread pocket screws want: a fine one in hardwood, by the tree, not by weight (common practice)."""
    woods = [draft.build.part(f.into).stock for f in draft.build.fasteners if f.spec.kind == "pocket screw"]
    hard = {isinstance(wood, Lumber) and wood.hardwood for wood in woods}
    if hard == {True}:
        return "a fine thread for hardwood"
    coarse = "a coarse thread for softwood and plywood"
    return f"{coarse}; those that go into hardwood have a fine one" if True in hard else coarse


def _joint_words(draft: Draft, joint: Joint) -> str:
    first, second = draft.build.part(joint.holds).name, draft.build.part(joint.to).name
    verb = {"face screws": "through", "top fixing": "up through", "brads": "through", "staples": "through",
            "nails": "through"}  # fmt: skip
    return f"{verb.get(joint.kind, 'from')} {within(first)} into {within(second)}"


def shopping_list(draft: Draft, cut: CutPlan) -> tuple[list[dict[str, str]], str, str]:
    """Return what to buy by the store's unit, the total, and what readers are told about the prices."""
    rows: list[dict[str, str]] = []
    total = Money(Fraction(0), draft.shop.prices.currency)
    unpriced: list[str] = []
    for use in cut.uses:
        if use.on_hand:
            rows.append(_columns(use.item, str(use.count), use.unit, use.note or "from the shop's rack"))
            continue
        note = _joined(f"weighs {draft.notation.mass(use.mass)}" if use.mass and use.mass.kg else "", use.note)
        total, row = _row(draft, total, unpriced, use.item, use.count, use.unit, use.price, note)
        rows.append(row)
    needed = _needed_anyway(draft)
    for need in needs(draft):
        amount = need.words(draft.notation.unit)
        extra = "" if needed is None or need.item in needed else _optional_words(draft)
        packs = _packs(draft, need)
        if not packs:
            unpriced.append(need.item)
            rows.append(_columns(need.item, amount, "", _joined("not on the price list", extra)))
        for pack, count in packs:
            said = _joined(f"{amount} needed, spare included", extra)
            total, row = _row(draft, total, unpriced, pack.item, count, pack.sold_as, pack.price, said)
            rows.append(row)
    note = draft.shop.note
    if unpriced:
        note = f"{note} The total leaves out what has no price here: {', '.join(dict.fromkeys(unpriced))}.".strip()
    return rows, _total(draft, total, unpriced), note


def _packs(draft: Draft, need: Need) -> tuple[tuple[Pack, int], ...]:
    """Which packs to buy; what is listed in another unit is worked out in that one."""
    listed = draft.shop.prices.packs_of(need.item)
    amount = need.in_units(listed[0].of) if listed and need.of else need.amount
    return draft.shop.prices.cheapest_packs(need.item, need.amount if amount is None else amount)


def _joined(*said: str) -> str:
    return "; ".join(words for words in said if words)


def _total(draft: Draft, total: Money, unpriced: list[str]) -> str:
    """Write the sum; where prices are missing it is only the least that is spent, or not known at all."""
    if not unpriced:
        return draft.notation.money(total)
    return f"at least {draft.notation.money(total)}" if total.amount else "not known"


def _row(  # noqa: PLR0917 - the columns of the list
    draft: Draft,
    total: Money,
    unpriced: list[str],
    item: str,
    count: int,
    unit: str,
    price: Money | None,
    note: str,
) -> tuple[Money, dict[str, str]]:
    if price is None:
        unpriced.append(item)
        return total, _columns(item, str(count), unit, note)
    write, cost = draft.notation.money, price * count
    return total + cost, _columns(item, str(count), unit, note, write(price), write(cost))


def _columns(  # noqa: PLR0917 - the columns of the list
    item: str, count: str, unit: str, note: str, each: str = "—", cost: str = "—"
) -> dict[str, str]:
    return {"item": item, "count": count, "unit": unit, "each": each, "cost": cost, "note": note}
