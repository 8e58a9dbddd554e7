"""The tools of a plan, from what its steps do: what each is for, and other ways for one who has none."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from plankit.drawing.words import listed
from plankit.plan.clamping import clamp_words
from plankit.plan.facts import Draft
from plankit.plan.optional import only_in
from plankit.plan.tool_extras import Extra, bit_sizes, extras
from plankit.plan.work import FINISHING, SETS, Work, tools_for
from plankit.shop import Shop, known_tools, tool_knowledge

MOST_WAYS = 3
"""So many other tools are named for one operation; more would only fill the page."""
_TOGETHER = SETS | {
    "measure",
    "mark",
    "sand",
    "finish",
    "glue",
    "clamp",
    "plane",
    "drive screws",
    "file",
    "chop",
}
"""Operations whose tools go together, or are no substitute for one another: their other way is told in words."""


@dataclass(slots=True)
class _Use:
    """What one tool is used for, and in which steps."""

    steps: list[int] = field(default_factory=list)
    operations: dict[str, None] = field(default_factory=dict)


def tool_list(draft: Draft, works: tuple[Work, ...], saws: Mapping[str, str]) -> list[dict[str, Any]]:
    """Return the tools that the steps need, with what each is for and other ways to do it.

    saws  what the plan asks of each saw, by its name
    """
    uses: dict[str, _Use] = {}
    for work in works:
        for operation, names in work.tools:
            for name in names:
                use = uses.setdefault(name, _Use())
                use.steps.append(work.step.number)
                use.operations[operation] = None
    finishing = FINISHING if draft.coating is not None and draft.finishing is None else ()
    for operation in finishing:
        for name in tools_for(draft.shop, operation):
            uses.setdefault(name, _Use()).operations[operation] = None
    rows = [_row(draft, name, use, finishing) for name, use in uses.items()]
    by_name = {row["name"]: row for row in rows}
    for does, said in _sizes(draft, works):
        able = [name for name, use in uses.items() if does in use.operations]
        if able:  # the bits themselves rather than the drill they are put in
            by_name[min(able, key=lambda name: len(uses[name].operations))]["for"] += f": {said}"
    for name, said in saws.items():
        if name in by_name:
            by_name[name]["for"] += f": {said}"
    return [*rows, *(_extra_row(draft, extra) for extra in extras(draft, works))]


def _sizes(draft: Draft, works: tuple[Work, ...]) -> list[tuple[str, str]]:
    """What is said of the tools that do one thing: which bits, and how large the clamps."""
    bits = bit_sizes(draft.build, works, draft.notation)
    said = [*bits.items(), ("clamp", clamp_words(draft.build, works, draft.notation))]
    return [(does, words) for does, words in said if words]


def _extra_row(draft: Draft, extra: Extra) -> dict[str, Any]:
    optional = "" if extra.finish else only_in(draft, frozenset(extra.steps))
    when = ", ".join(piece for piece in (_steps(list(extra.steps)), "finish" if extra.finish else "") if piece)
    return {
        "name": extra.name,
        "for": f"{extra.use} ({when}{', optional' if optional else ''})",
        "otherwise": extra.otherwise,
        "optional": optional,
        "ways": [],
    }


def _row(draft: Draft, name: str, use: _Use, finishing: tuple[str, ...]) -> dict[str, Any]:
    ways = other_ways(draft.shop, name, tuple(use.operations))
    finishes = bool(set(use.operations) & set(finishing))
    optional = "" if finishes else only_in(draft, frozenset(use.steps))
    when = ", ".join(piece for piece in (_steps(use.steps), "finish" if finishes else "") if piece)
    return {
        "name": name,
        "for": f"{', '.join(use.operations)} ({when}{', optional' if optional else ''})",
        "otherwise": _otherwise(name, tuple(use.operations), ways),
        "optional": optional,
        "ways": [{"operation": operation, "tools": list(names)} for operation, names in ways],
    }


def other_ways(shop: Shop, name: str, operations: tuple[str, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return, for each operation, the other tools that can do it: those of the shop first, then those known."""
    found = []
    for operation in operations:
        if operation in _TOGETHER:
            continue
        owned = [tool.name for tool in shop.tools_for(operation)]
        known = [tool for tool in known_tools() if (it := tool_knowledge(tool)) and operation in it.does]
        others = [tool for tool in dict.fromkeys((*owned, *known)) if tool != name]
        if others:
            found.append((operation, tuple(others[:MOST_WAYS])))
    return tuple(found)


def _otherwise(name: str, operations: tuple[str, ...], ways: tuple[tuple[str, tuple[str, ...]], ...]) -> str:
    """Say the other ways in one line: "rip: table saw or hand saw; crosscut: miter saw"."""
    same: dict[tuple[str, ...], list[str]] = {}
    for operation, names in ways:
        same.setdefault(names, []).append(operation)
    said = [f"{listed(alike)}: {_or(names)}" for names, alike in same.items()]
    known = tool_knowledge(name)
    alone = [one for one in operations if one not in _TOGETHER and one not in dict(ways)]
    if known and known.otherwise and (alone or not said):
        said.append(f"{listed(alone)}: {known.otherwise}" if alone and said else known.otherwise)
    return "; ".join(said)


def _or(names: tuple[str, ...]) -> str:
    lower = [name.lower() for name in names]
    return " or ".join(piece for piece in (", ".join(lower[:-1]), lower[-1]) if piece)


def _steps(steps: list[int]) -> str:
    numbers = sorted(set(steps))
    return (
        f"{'step' if len(numbers) == 1 else 'steps'} {', '.join(str(n) for n in numbers)}" if numbers else ""
    )
