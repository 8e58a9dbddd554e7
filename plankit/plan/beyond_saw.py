"""What a step says where a piece is wider or thicker than the saw that crosscuts there reaches, and the other way."""

from collections import Counter
from collections.abc import Iterator

from plankit.checks.wording import told_apart
from plankit.drawing.words import listed, plural, within
from plankit.parts import Part
from plankit.plan.cut_notes import parted_later
from plankit.plan.facts import Draft
from plankit.plan.work import Work
from plankit.plan.work_when import FIRST_CUTS
from plankit.shop import Tool
from plankit.stock import Sheet
from plankit.units import Length, largest, smallest


def beyond_saw(draft: Draft, work: Work) -> list[str]:
    """Return a sentence for each saw of a step that does not reach across some of its pieces.

    Pieces of sheets count where they are crosscut from strips: while sheets are broken down, no such saw is in use.
    """
    names = dict(work.tools).get("crosscut", ())
    said = []
    for name in names:
        tool = draft.shop.tool(name)
        beyond = [] if tool is None else [part for part in _crosscut(work, draft) if _too_much(tool, part) is not None]
        if tool is not None and beyond:
            said.append(_said(draft, tool, beyond))
    return said


def _crosscut(work: Work, draft: Draft) -> Iterator[Part]:
    """The pieces that get their length in a step; what a later step parts off stays on its stick here."""
    yield from (*work.fitted, *work.trims)
    if "crosscut" not in work.step.does:
        return
    stays = _parted_later(draft) if set(work.step.does) & FIRST_CUTS else frozenset()
    for part_id in (part_id for part_id in work.step.works_on if part_id not in stays):
        part = draft.build.part(part_id)
        strips = isinstance(part.stock, Sheet) and "break down sheets" not in work.step.does
        if part.glue_up is None and part not in work.fitted and (strips or not isinstance(part.stock, Sheet)):
            yield part


def _too_much(tool: Tool, part: Part) -> tuple[Length, Length] | None:
    """A saw's limit and what a piece asks of it, where that is more: how wide it cuts, else how deep."""
    sizes = largest(part.width, part.thickness), smallest(part.width, part.thickness)
    for name, size in zip(("widest_crosscut", "deepest_cut"), sizes, strict=True):
        limit = tool.limit(name)
        if limit is not None and size.mm > limit.mm:
            return limit, size
    return None


def _said(draft: Draft, tool: Tool, beyond: list[Part]) -> str:
    first = max(beyond, key=lambda part: (part.width.mm, part.id))
    over = _too_much(tool, first) or _too_much(tool, beyond[0])
    assert over is not None
    reach, size = told_apart(*over, draft.notation)
    counts = Counter(within(part.name) for part in beyond)
    names = listed(f"the {plural(name) if number > 1 else name}" for name, number in counts.items())
    return (
        f"The {tool.name.lower()} cuts {reach}, and {names} {'takes' if len(beyond) == 1 else 'take'} {size}: "
        f"{_otherwise(draft, tool, beyond)}."
    )


def _otherwise(draft: Draft, tool: Tool, beyond: list[Part]) -> str:
    """Another tool of the shop that reaches across all of them; else how it is done without one."""
    for other in draft.shop.tools_for("crosscut"):
        if other.key != tool.key and not any(_too_much(other, part) for part in beyond):
            return f"crosscut with the {other.name.lower()} there, square across"
    return "mark all round, saw from both sides, and plane to the line"


def _parted_later(draft: Draft) -> frozenset[str]:
    """The ids of parts that stay on their stick until a later step parts them off."""
    named = parted_later(draft, [part.name for part in draft.build.parts])
    return frozenset(part_id for parts in named.values() for ids in parts.values() for part_id in ids)
