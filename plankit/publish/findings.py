"""What the checks said, told once for all the parts it is true of."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

_PART = "\0"
"""Stands for the part's name while sentences are compared."""


@dataclass(frozen=True, slots=True)
class Told:
    """One thing the checks said, as a page tells it.

    level     how grave it is, in words
    check     the check that noticed it
    parts     the parts it is about, in one string; "" where it is about the whole
    what      what is the matter
    here      the values found, each with its parts where there are several
    remedy    what to change
    accepted  the author's reason for living with it
    source    the source of the limit
    """

    level: str
    check: str
    parts: str
    what: str
    here: str
    remedy: str
    accepted: str
    source: str


def told(findings: Iterable[Mapping[str, Any]]) -> tuple[Told, ...]:
    """Return findings in their order, those that differ in nothing but part and value as one."""
    alike: dict[tuple[str, ...], list[Mapping[str, Any]]] = {}
    for finding in findings:
        alike.setdefault(_sentences(finding), []).append(finding)
    return tuple(_told(key, group) for key, group in alike.items())


def _sentences(finding: Mapping[str, Any]) -> tuple[str, ...]:
    """What must be the same for two findings to be told as one."""
    part = finding["part"]

    def without_part(words: str) -> str:
        return re.sub(rf"(?<!\w){re.escape(part)}(?!\w)", _PART, words) if part else words

    texts = [without_part(finding[name]) for name in ("what", "remedy")]
    return (finding["level"], finding["check"], finding["accepted"], finding["source"], *texts)


def _told(key: tuple[str, ...], group: Sequence[Mapping[str, Any]]) -> Told:
    level, check, accepted, source, what, remedy = key
    parts = tuple(dict.fromkeys(finding["part"] for finding in group))
    one_of = _listed(parts, "or")
    return Told(
        level=level,
        check=check,
        parts=", ".join(filter(None, parts)),
        what=what.replace(_PART, one_of),
        here=_here(group),
        remedy=remedy.replace(_PART, one_of),
        accepted=accepted,
        source=source,
    )


def _here(group: Sequence[Mapping[str, Any]]) -> str:
    """The values, the same value once: "≈3/8 in (Bottom, Side), 1/2 in (Cleat)"."""
    values: dict[str, list[str]] = {}
    for finding in group:
        if finding["number"]:
            values.setdefault(finding["number"], []).append(finding["part"])
    if len(values) < 2:
        return next(iter(values), "")
    return "; ".join(f"{value} ({', '.join(dict.fromkeys(parts))})" for value, parts in values.items())


def _listed(words: Sequence[str], last: str) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
