"""What an author buys, writes or does that answers a finding: a stay for a flap, a hand saw for a short piece."""

import re

from plankit.build import Moving
from plankit.finding import Finding
from plankit.parts import Part
from plankit.plan.facts import Draft
from plankit.plan.operations import operation_of
from plankit.plan.work import Work

_IN_NOTES = re.compile(
    r"\b(?:lid|flap) (?:support|stay)s?\b|\b(?:gas|friction|folding) (?:strut|stay)s?\b|\bsoft[- ]clos\w+",
    re.IGNORECASE,
)
_BOUGHT = re.compile(
    r"\b(?:support|stay|strut|torsion hinge)s?\b|\bsoft[- ](?:clos\w+|down|catch\w*)",
    re.IGNORECASE,
)
_ANSWERED = frozenset({"falls shut", "no stop"})


_SHORT = "too short for a machine"
_HELD_AT_A_MACHINE = frozenset({"taper", "miter", "groove"})
"""Operations for which that check asks how short a piece is."""


def unanswered(draft: Draft, found: tuple[Finding, ...], works: tuple[Work, ...]) -> tuple[Finding, ...]:
    """Return findings without those that something bought, a step's note or its tools answer for the part they name.

    A thing that is bought answers where its words say what it holds: "lid support", "between the side and the lid". A
    piece too short for a machine is worked on with other tools where its step chose some.
    """
    return tuple(
        one
        for one in found
        if not (one.check in _ANSWERED and _held(draft, one.part))
        and not (one.check == _SHORT and _worked_otherwise(draft, works, one.part))
    )


def _worked_otherwise(draft: Draft, works: tuple[Work, ...], name: str) -> bool:
    """Whether every cut for which parts of a name are too short is made with a tool that asks no length of them."""
    chosen = [
        (part, tool)
        for work in works
        for part, feature in work.features
        if part.name == name
        for operation in _HELD_AT_A_MACHINE & set(operation_of(part, feature))
        for tool in dict(work.tools).get(operation, ())
    ]
    return bool(chosen) and not any(_too_short(draft, part, tool) for part, tool in chosen)


def _too_short(draft: Draft, part: Part, name: str) -> bool:
    tool = draft.shop.tool(name)
    least = tool.limit("shortest_piece") if tool is not None else None
    return least is not None and part.length.mm < least.mm


def _held(draft: Draft, name: str) -> bool:
    moving = next((one for one in draft.build.moving if one.name == name and one.kind == "flap"), None)
    if moving is None:
        return False
    flaps = [one for one in draft.build.moving if one.kind == "flap"]
    names = _names(draft, moving)
    others = {name for one in flaps if one is not moving for name in _names(draft, one)} - names
    said = [f"{one.where} {one.note}" for one in draft.bought if _BOUGHT.search(one.item)]
    said += [_IN_NOTES.sub("", step.note) for step in draft.steps if _IN_NOTES.search(step.note)]
    return any(len(flaps) == 1 or _speaks_of(names, others, words) for words in said)


def _names(draft: Draft, moving: Moving) -> set[str]:
    return {moving.name, *(draft.build.part(part_id).name for part_id in moving.parts)}


def _speaks_of(names: set[str], others: set[str], words: str) -> bool:
    """Whether words name a flap; "tray lid" names no lid where there is another flap that is called so."""
    for other in sorted(others, key=lambda one: (-len(one), one)):
        if any(name.casefold() in other.casefold() for name in names):
            words = re.sub(rf"\b{re.escape(other)}\b", "", words, flags=re.IGNORECASE)
    return any(re.search(rf"\b{re.escape(name)}\b", words, re.IGNORECASE) for name in names)
