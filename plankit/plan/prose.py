"""Numbers typed in prose that the build also computes, and that will go stale when it changes.

The rule, made to raise few false alarms. A length in running text counts when it carries a unit, is longer
than `TOO_COMMON`, and comes out the same, at the plan's mark, as a length that was worked out or is a
parameter. Lengths that somebody typed in the code, and plain sizes of stock, never count: nothing changes
them. A whole number of inches below `WHOLE_INCHES` meets something by chance, so it counts only where it is
a parameter. Code, computed values, addresses, screws ("#8 × 1 1/4 in"), and lengths that name a material
or a tool ("3/4 in plywood") are left alone.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from typing import TYPE_CHECKING

from plankit.errors import PlanError
from plankit.finding import Finding
from plankit.units import L, Length, Notation, tidy
from plankit.units.expression import Given, StockSize, Typed

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

TOO_COMMON = L("1 in")
"""Lengths up to this (kerfs, reveals, drills, thicknesses) are everywhere and say nothing."""
WHOLE_INCHES = L("12 in")
"""Below this, whole inches in prose ("a clamp every 6 in") meet computed ones by chance."""

NAMES_UP_TO = L("4 in")
"""Longer than this, "a 44 in board" speaks of a length, and no longer names a material or a tool."""

_NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+\.\d+|\d+)"
_INCH = r"(?:inches|inch|in\.?(?![\w-])|\")"
_FOOT = r"(?:feet|foot|ft\.?|')"
_METRIC = r"(?:mm|cm|m|milli(?:metres?|meters?)|centi(?:metres?|meters?))\b"
_LENGTH = re.compile(
    rf"(?<![\w./#])(?:\d+\s?{_FOOT}[ -]?{_NUMBER}\s?{_INCH}"
    rf"|{_NUMBER}[ -]?(?:{_INCH}|{_FOOT}(?!\w)|{_METRIC}))"
)
_SCREW = re.compile(r"#\s?\d+\s?[x×]\s?$")
_AFTER_IN = re.compile(
    r"\s+(?:the|an?|one|two|three|each|every|this|that|these|those|your|its?|all|place|turn|order|front|total)\b"
)
_NAMES_A_THING = re.compile(
    r"[\s-]+(?:thick\s+)?(?:(?:hard|soft)wood\s+)?(?:plywood|ply|mdf|hardboard|particleboard|board|dowels?|drill"
    r"|bit|bits|screws?|brads?|pins?|nails?|chisel|router|wood\s+screws?|pocket\s+screws?|marks?|sheets?)\b",
    re.IGNORECASE,
)


def typed_numbers(
    markdown: str, known: Sequence[tuple[str, Length]], where: str, notation: Notation
) -> tuple[Finding, ...]:
    """Return a finding for every length typed in prose that the build computes too.

    markdown  the source of one Markdown cell
    known     what the build computes: an expression to write in its stead ("walls.clear"), and its length
    where     what to call the cell
    notation  its mark is how closely two lengths must agree
    """
    found: dict[str, Finding] = {}
    for text in _running_text(markdown):
        for words, length in lengths_in(text):
            match = _same(length, words, known, notation)
            if match is not None and words not in found:
                found[words] = _finding(words, match, where, notation)
    return tuple(found.values())


def lengths_in(text: str) -> Iterator[tuple[str, Length]]:
    """Yield every length with a unit in a piece of running text, as it is written and as it is read."""
    plain = tidy(text)
    for match in _LENGTH.finditer(plain):
        words, after = match[0], plain[match.end() :]
        if _SCREW.search(plain[: match.start()]):
            continue
        if words.endswith("in") and _AFTER_IN.match(after):
            continue
        try:
            length = L(re.sub(r"(?<=\d)-(?=[a-z])", " ", words))
        except PlanError:
            continue
        if length.mm > NAMES_UP_TO.mm or not _NAMES_A_THING.match(after):
            yield words, length


@cache
def _parser() -> "MarkdownIt":
    from markdown_it import MarkdownIt
    from mdit_py_plugins.myst_role import myst_role_plugin

    return MarkdownIt("commonmark").enable(["table", "strikethrough"]).use(myst_role_plugin)


def _running_text(markdown: str) -> Iterator[str]:
    """Yield the plain text of each paragraph, heading and table cell, broken where anything else stands."""
    for block in _parser().parse(markdown):
        yield from _texts(block.children or ())


def _texts(tokens: Iterable["Token"]) -> Iterator[str]:
    text = ""
    for token in tokens:
        if token.type in {"text", "softbreak", "hardbreak"}:
            text += token.content or " "
            continue
        if token.type.startswith(("strong_", "em_", "link_", "s_")):
            continue
        yield text
        text = ""
        yield from _texts(token.children or ())
    yield text


def _same(
    length: Length, words: str, known: Sequence[tuple[str, Length]], notation: Notation
) -> tuple[str, Length] | None:
    """Return the first computed length that a typed one agrees with at the mark, by the rule above."""
    if length.mm <= TOO_COMMON.mm:
        return None
    step = _step(words, notation)
    common = length.mm < WHOLE_INCHES.mm and length.inches.denominator == 1
    for what, computed in known:
        if isinstance(computed.expr, Typed | StockSize) or (common and not isinstance(computed.expr, Given)):
            continue
        if length.rounded(step).mm == computed.rounded(step).mm:
            return what, computed
    return None


def _step(words: str, notation: Notation) -> Length:
    """The smallest mark of the system a length is typed in."""
    if re.search(r"[mc]m|\dm|\bm\b|met", words):
        return Length.of_mm(notation.metric_mark)
    return L(notation.mark, "in")


def _finding(words: str, match: tuple[str, Length], where: str, notation: Notation) -> Finding:
    what, computed = match
    instead = f"Write {{eval}}`{what}` in its place."
    if not _is_expression(what):
        instead = f"Let the plan write {what}."
    return Finding(
        "look at",
        "typed number",
        "",
        f"“{words}” is typed, and the build computes the same length ({what}): it will go stale.",
        where,
        notation.length(computed),
        "the plan's own numbers",
        instead,
    )


def _is_expression(what: str) -> bool:
    return re.fullmatch(r"[A-Za-z_][\w.\[\]()'\"]*", what) is not None
