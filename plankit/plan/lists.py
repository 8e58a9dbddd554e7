"""The lists of a plan: parts, hardware, shopping, tools, cautions, and what stands at a glance."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from plankit.build import Alike, Joint, hardware
from plankit.drawing.words import sentence
from plankit.parts import AXES, AXIS_OF, Banding, Bore, Groove, Mitre, Notch, PocketHoles, Taper, has_hand
from plankit.parts.part import THICK_BANDING_MM
from plankit.plan.cut_list import CutPlan
from plankit.plan.facts import Draft
from plankit.plan.work import FINISHING, Work, tools_for
from plankit.shop import tool_knowledge
from plankit.units import MM_IN, L, Length, Money, decimal, exactly, mixed

GLUE_SPREAD = Fraction(45, 1000)
"""Pounds of white or yellow glue a square foot of joint takes (35 to 50 lb for 1000 sq ft; from memory)."""
GLUE_POUNDS_A_GALLON = Fraction(91, 10)
COVERAGE = Fraction(400)
"""Square feet that a gallon of finish covers, one coat (400 to 500; common practice)."""
OUNCES_IN_GALLON = 128
_SQUARE_FOOT = MM_IN["ft"] ** 2


@dataclass(frozen=True, slots=True)
class Need:
    """Something that is bought by the pack: how much is needed, and in what."""

    item: str
    amount: Fraction
    of: str


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
    notes += [word for kind, word in _DONE if any(isinstance(feature, kind) for feature in part.features)]
    edges = [feature for feature in part.features if isinstance(feature, Banding)]
    if edges:
        optional = " (optional)" if all(edge.optional for edge in edges) else ""
        notes.append(f"banded on {write.count(len(edges), 'edge')}{optional}")
    if group.other:
        notes.append(f"{len(group.parts)} of one hand, {len(group.other)} of the other")
    elif has_hand(part) and group.count > 1:
        notes.append("all of one hand")
    return "; ".join(notes)


_DONE = (
    (Taper, "tapered"),
    (Notch, "notched"),
    (Mitre, "mitered"),
    (Groove, "grooved"),
    (PocketHoles, "pocket holes"),
    (Bore, "bored"),
)


def hardware_list(draft: Draft) -> list[dict[str, Any]]:
    """Return the hardware list: every screw and brad counted from the joints, and what else is bought."""
    rows = []
    for spec, count in hardware(draft.build):
        where = Counter[str]()
        for joint in draft.build.joints:
            matching = sum(fastener.spec == spec for fastener in joint.fasteners)
            if matching:
                where[_joint_words(draft, joint)] += matching
        rows.append(
            {"item": spec.name, "count": count, "where": "; ".join(f"{w} ({n})" for w, n in where.items())}
        )
    rows += [
        {"item": item, "count": count, "where": "under the heads of the pan-head screws"}
        for item, count in washers(draft)
    ]
    rows += [
        {"item": b.item, "count": b.count, "where": f"{b.where} ({b.note})" if b.note else b.where}
        for b in draft.bought
    ]
    return rows


def hardware_note(draft: Draft) -> str:
    """Return what a reader must ask for beside the sizes: the heads and threads of the screws."""
    kinds = {fastener.spec.kind for fastener in draft.build.fasteners}
    said = [
        words
        for kind, words in (
            ("wood screw", "wood screws have flat heads"),
            ("pan-head screw", "pan-head screws lie on washers"),
            ("pocket screw", "pocket screws have washer heads and a coarse thread for softwood and plywood"),
        )
        if kind in kinds
    ]
    return sentence(", ".join(said)) if said else ""


def _joint_words(draft: Draft, joint: Joint) -> str:
    first, second = draft.build.part(joint.holds).name, draft.build.part(joint.to).name
    verb = {"face screws": "through", "top fixing": "up through", "brads": "through", "pocket screws": "from"}
    return f"{verb.get(joint.kind, 'from')} {first.lower()} into {second.lower()}"


def washers(draft: Draft) -> list[tuple[str, int]]:
    """Return the washers that pan-head screws lie on, by their gauge."""
    counts = Counter(f.spec.gauge for f in draft.build.fasteners if f.spec.kind == "pan-head screw")
    return [(f"#{gauge} washer", count) for gauge, count in sorted(counts.items(), key=str)]


def needs(draft: Draft) -> tuple[Need, ...]:
    """Return what is bought by the pack: fasteners with spares, glue, banding, finish."""
    spare = 1 + draft.shop.waste_allowance
    found = [
        Need(spec.name, Fraction(-int(-count * spare // 1)), "") for spec, count in hardware(draft.build)
    ]
    found += [Need(item, Fraction(count), "") for item, count in washers(draft)]
    found += [Need(bought.item, Fraction(bought.count), "") for bought in draft.bought]
    glued = glued_area(draft)
    if glued:
        ounces = glued / _SQUARE_FOOT * GLUE_SPREAD / GLUE_POUNDS_A_GALLON * OUNCES_IN_GALLON
        found.append(Need("Wood glue", ounces * spare, "fl oz"))
    for item, length in banding_length(draft):
        found.append(Need(item, length.mm / MM_IN["ft"] * spare, "ft"))
    if draft.coating is not None:
        gallons = surface(draft) / _SQUARE_FOOT * draft.coating.coats / COVERAGE
        found.append(Need(draft.coating.product, gallons * OUNCES_IN_GALLON * spare, "fl oz"))
    return tuple(found)


def glued_area(draft: Draft) -> Fraction:
    """Return the area of all glue lines in square millimetres, glue-ups included."""
    total = sum((Fraction(joint.contact.area_mm2) for joint in draft.build.joints if joint.glue), Fraction(0))
    for part in draft.build.parts:
        if part.glue_up is not None:
            length, _, thickness = part.glue_up.blank
            total += (part.glue_up.boards - 1) * length.mm * thickness.mm
    return total


def banding_length(draft: Draft) -> list[tuple[str, Length]]:
    """Return how long the banded edges are together, for each banding as it is sold.

    Veneer is asked for by its width alone; a strip so thick that the part is cut smaller, by its thickness too.
    """
    found: dict[tuple[Fraction, Fraction], Length] = {}
    for part in draft.build.parts:
        for feature in part.features:
            if isinstance(feature, Banding):
                (along,) = (a for a in AXES if a not in {AXIS_OF[feature.edge], part.through})
                thick = feature.thickness.mm if feature.thickness.mm >= THICK_BANDING_MM else Fraction(0)
                key = (_nominal(part.thickness).mm, thick)
                found[key] = found.get(key, Length.zero()) + part.box.extent(along)
    return [
        (
            f"{_inches(Length.of_mm(wide))} edge banding"
            + (f", {exactly(Length.of_mm(thick))} thick" if thick else ""),
            length,
        )
        for (wide, thick), length in sorted(found.items())
    ]


def _nominal(thickness: Length) -> Length:
    """Banding is sold for nominal thicknesses: the next quarter of an inch."""
    step = L("1/4 in")
    return step * -int(-thickness.mm // step.mm)


def _inches(length: Length) -> str:
    return f"{mixed(length.inches)} in"


def surface(draft: Draft) -> Fraction:
    """Return the area that is finished in square millimetres: all faces of all parts, joints taken off twice."""
    total = Fraction(0)
    for part in draft.build.parts:
        x, y, z = (size.mm for size in part.box.size)
        total += 2 * (x * y + y * z + x * z)
    pairs = {frozenset((joint.holds, joint.to)): joint.contact.area_mm2 for joint in draft.build.joints}
    return total - 2 * sum((Fraction(area) for area in pairs.values()), Fraction(0))


def shopping_list(draft: Draft, cut: CutPlan) -> tuple[list[dict[str, str]], str, str]:
    """Return what to buy by the store's unit, the total, and what readers are told about the prices."""
    rows: list[dict[str, str]] = []
    total = Money(Fraction(0), draft.shop.prices.currency)
    unpriced: list[str] = []
    for use in cut.uses:
        if use.on_hand:
            rows.append(_columns(use.item, str(use.count), use.unit, use.note or "from the shop's rack"))
            continue
        total, row = _row(draft, total, unpriced, use.item, use.count, use.unit, use.price, use.note)
        rows.append(row)
    for need in needs(draft):
        packs = draft.shop.prices.cheapest_packs(need.item, need.amount)
        amount = f"{decimal(need.amount, 1)} {need.of}" if need.of else decimal(need.amount, 0)
        if not packs:
            unpriced.append(need.item)
            rows.append(_columns(need.item, amount, "", "not on the price list"))
        for pack, count in packs:
            note = f"{amount} needed, spare included"
            total, row = _row(draft, total, unpriced, pack.item, count, pack.sold_as, pack.price, note)
            rows.append(row)
    note = draft.shop.note
    if unpriced:
        note = f"{note} The total leaves out what has no price here: {', '.join(dict.fromkeys(unpriced))}.".strip()
    return rows, _total(draft, total, unpriced), note


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


def tool_list(draft: Draft, works: tuple[Work, ...]) -> list[dict[str, str]]:
    """Return the tools that the steps need, with what each is for and another way."""
    uses: dict[str, list[int]] = {}
    operations: dict[str, dict[str, None]] = {}
    for work in works:
        for operation, names_ in work.tools:
            for name in names_:
                uses.setdefault(name, []).append(work.step.number)
                operations.setdefault(name, {})[operation] = None
    finishing = FINISHING if draft.coating is not None else ()
    for operation in finishing:
        for name in tools_for(draft.shop, operation):
            uses.setdefault(name, [])
            operations.setdefault(name, {})[operation] = None
    return [
        {
            "name": name,
            "for": f"{', '.join(operations[name])} ({_when(steps, set(operations[name]) & set(finishing))})",
            "otherwise": known.otherwise if (known := tool_knowledge(name)) else "",
        }
        for name, steps in uses.items()
    ]


def _when(steps: list[int], finishing: object) -> str:
    numbers = sorted(set(steps))
    said = f"{'step' if len(numbers) == 1 else 'steps'} {', '.join(str(n) for n in numbers)}" if numbers else ""
    return ", ".join(piece for piece in (said, "finish" if finishing else "") if piece)


def glance(draft: Draft, cut: CutPlan, total: str) -> list[dict[str, str]]:
    """Return what a reader wants to know first: size, weight, cost, time, stock."""
    write, box = draft.notation, draft.build.box
    minutes = draft.minutes
    extra = sum(step.minutes for step in draft.steps if step.optional)
    time = write.minutes(minutes) if minutes or extra else "not given"
    time += f", and {write.minutes(extra)} for optional steps" if extra else ""
    dries = draft.coating is not None or any(step.waits for step in draft.steps)
    rows = [
        (
            "Outside size",
            f"{write.size_both(box.extent('x'), box.extent('y'), box.extent('z'))} (width × depth × height)",
        ),
        ("Weight", f"about {write.mass(draft.build.weight)}, without hardware and finish"),
        (
            "Cost",
            f"{total} for what is bought new" if total != "not known" else f"{total}: no prices are listed",
        ),
        ("Working time", f"{time}; drying comes on top" if dries else time),
        ("Boards and sheets", cut.stock_words),
        ("Pieces to cut", str(sum(piece.count for piece in cut.pieces))),
    ]
    if draft.facts.skill:
        rows.append(("Skill", draft.facts.skill))
    return [{"label": label, "value": value} for label, value in rows]
