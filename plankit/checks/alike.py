"""Findings about one part that differ in nothing but which other part is named: told once, with all their names."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from plankit.finding import Finding

_NAME = "\0"
"""Stands for the name that differs while findings are compared."""


def told_once(findings: Sequence[Finding], names: Iterable[str]) -> tuple[Finding, ...]:
    """Return findings with those about one part, that say the same of several others, drawn together.

    What must be fixed is told one by one: each has to be mended.

    names  of the parts there are
    """
    known = sorted(dict.fromkeys(names), key=lambda name: (-len(name), name))
    groups: dict[Finding, list[tuple[int, str]]] = {}
    for number, finding in enumerate(findings):
        for name, key in _without_a_name(finding, known):
            groups.setdefault(key, []).append((number, name))
    merged: dict[int, Finding] = {}
    gone: set[int] = set()
    for key, found in groups.items():
        numbers = [number for number, _ in found]
        if len(set(numbers)) < 2 or gone.intersection(numbers) or any(number in merged for number in numbers):
            continue
        called = list(dict.fromkeys(name for _, name in found))
        places = [findings[number].place for number in numbers]
        what = key.what.replace(_NAME, f"{', '.join(called[:-1])} or {called[-1]}")
        merged[numbers[0]] = replace(key, what=what, place="; ".join(dict.fromkeys(filter(None, places))))
        gone |= set(numbers[1:])
    return tuple(merged.get(number, one) for number, one in enumerate(findings) if number not in gone)


def _without_a_name(finding: Finding, names: Iterable[str]) -> Iterator[tuple[str, Finding]]:
    """A finding without its place, once for each other part it names, with that name left open."""
    if finding.level == "must fix" or not finding.part:
        return
    for name in names:
        what, count = re.subn(rf"(?<!\w){re.escape(name)}(?!\w)", _NAME, finding.what)
        if name != finding.part and count == 1:
            yield name, replace(finding, what=what, place="")
