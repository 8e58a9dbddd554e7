"""Hardware in lists: how many of each, what they are fixed to, and what to compare with the ones bought."""

from collections import Counter
from fractions import Fraction

from plankit.build import Item, Spec
from plankit.drawing.words import listed, plural, within
from plankit.plan.facts import Draft

CHECKED = "check against"
"""What begins a note about sizes that a maker's own may differ from."""


def item_rows(draft: Draft) -> list[dict[str, object]]:
    """Return a row for each kind of hardware: its count, what it is on, and the note to compare."""
    found: dict[tuple[str, str], list[Item]] = {}
    for item in draft.build.items:
        found.setdefault((item.name, item.compare), []).append(item)
    rows: list[dict[str, object]] = []
    for (name, compare), items in found.items():
        where = Counter(_on(draft, item) for item in items)
        said = (
            "; ".join(f"{on} ({count})" for on, count in where.items())
            if len(where) > 1
            else next(iter(where))
        )
        checked, _, rest = compare.partition(": ")
        note = f" — {rest if rest and checked.startswith(CHECKED) else compare}" if compare else ""
        rows.append({"item": name, "count": len(items), "where": f"{said}{note}"})
    return rows


def item_needs(draft: Draft) -> list[tuple[str, Fraction]]:
    """Return how many of each piece of hardware are bought."""
    counts = Counter(item.name for item in draft.build.items)
    return [(name, Fraction(count)) for name, count in counts.items()]


def screws_of_items(draft: Draft, spec: Spec) -> Counter[str]:
    """Return where hardware takes screws of one kind, in words, with how many."""
    found = Counter[str]()
    several = Counter(plain_name(item) for item in draft.build.items)
    for item in draft.build.items:
        many = sum(fastener.spec == spec for fastener in item.fasteners)
        if many:
            name = plain_name(item)
            found[f"for the {plural(name) if several[name] > 1 else name}"] += many
    return found


def plain_name(item: Item) -> str:
    """Return what a piece of hardware is called, without its sizes."""
    return item.name.partition(",")[0].partition(" with ")[0]


def _on(draft: Draft, item: Item) -> str:
    return listed(within(draft.build.part(part_id).name) for part_id in item.on)
