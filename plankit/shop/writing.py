"""Bringing a shop file up to date when a plan has been built: offcuts taken off, offcuts put there.

The file is the author's own. Lines are taken out and put in; whatever else stands there, comments and spaces included,
stays as it is, byte for byte. What comes out is read again, and must say just what was meant.
"""

import json
import re
import tomllib
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Any

from plankit.errors import PlanError
from plankit.shop.reading import shop_of
from plankit.shop.shop import Built
from plankit.stock import Offcut
from plankit.units import MM_IN, Length, mixed

_LINE = re.compile(r"[^\n]*\n|[^\n]+")
_HEADER = re.compile(r"\s*\[")
_OFFCUT = re.compile(r"\s*\[\[\s*[\"']?offcut[\"']?\s*\]\]")


def with_built(text: str, file: str, built: Built, kept: Sequence[Offcut], mark: Fraction) -> str:
    """Return the text of a shop file after a plan was built.

    file    its name, for messages
    built   the plan and its version, the labels of the offcuts it used, and of those it leaves
    kept    the offcuts it leaves
    mark    lengths are rounded down to such a part of the file's unit, so that no offcut is less than the file says
    raises  PlanError where the file says already that this version was built, an offcut it used is not there any more
            or a new label is, or the file is written in a way that cannot be changed line by line
    """
    shop = shop_of(text, file)
    _refuse_twice(shop.built, built, file)
    labels = [offcut.label for offcut in shop.offcuts]
    _refuse_changed(labels, built, file)
    lines = _LINE.findall(text)
    new = "\r\n" if lines and lines[0].endswith("\r\n") else "\n"
    said = [_table("offcut", _fields(offcut, shop.unit, mark), new) for offcut in kept]
    changed = _changed(lines, set(built.used), said, new)
    changed = _appended(changed, _table("built", _of(built), new), new)
    _refuse_other(text, changed, built, [_fields(offcut, shop.unit, mark) for offcut in kept], file)
    return changed


def _refuse_twice(known: tuple[Built, ...], built: Built, file: str) -> None:
    if any((one.plan, one.version) == (built.plan, built.version) for one in known):
        raise PlanError(
            "the shop file says already that this version of the plan was built; its offcuts are as they were.",
            where=f"{file}, [[built]]",
            given=f"{built.plan} {built.version}".strip(),
            remedy="Give the plan a new version, or take its [[built]] out of the file if you build it once more.",
        )


def _refuse_changed(labels: list[str], built: Built, file: str) -> None:
    gone = [label for label in built.used if label not in labels]
    taken = [label for label in built.kept if label in labels and label not in built.used]
    if gone or taken:
        raise PlanError(
            "the shop file is no longer the one that the plan was made with.",
            where=f"{file}, [[offcut]]",
            given=", ".join(gone or taken),
            remedy="Make the plan again, and then say that it is built.",
        )


def _changed(lines: list[str], used: set[str], new: list[str], end: str) -> str:
    """Take the used offcuts out and put the new ones behind the last; at the end of a file that had none."""
    blocks = _offcut_blocks(lines)
    if not blocks:
        text = "".join(lines)
        for said in new:
            text = _appended(text, said, end)
        return text
    last = blocks[-1][1]
    before, after = "".join(_without(lines, blocks, used, last)), "".join(lines[last:])
    for said in new:
        before = _appended(before, said, end)
    if new and after and after[0] not in "\r\n":
        after = end + after
    return before + after


def _without(lines: list[str], blocks: list[tuple[int, int, str]], used: set[str], last: int) -> list[str]:
    """The lines up to one, without the blocks that are used and the blank line that each of them leaves over."""
    taken = [(start, stop) for start, stop, label in blocks if label in used]
    gone = {n for start, stop in taken for n in range(start, stop)}
    for start, stop in taken:
        parted = start == 0 or start - 1 in gone or not lines[start - 1].strip()
        if parted and stop < last and not lines[stop].strip():
            gone.add(stop)
    return [line for n, line in enumerate(lines[:last]) if n not in gone]


def _offcut_blocks(lines: list[str]) -> list[tuple[int, int, str]]:
    """From which line to which each offcut is told, from its header to its last key, and its label."""
    headers: list[int] = []
    for n, line in enumerate(lines):
        if _HEADER.match(line) and _complete(lines[headers[-1] if headers else 0 : n]):
            headers.append(n)
    found = []
    for n, following in pairwise((*headers, len(lines))):
        if _OFFCUT.match(lines[n]):
            told = _parsed(lines[n:following])
            while _complete(lines[n : following - 1]) and _parsed(lines[n : following - 1]) == told:
                following -= 1  # noqa: PLW2901 - what stands between two tables stays
            found.append((n, following, str(told["offcut"][0].get("label", "")).strip()))
    return found


def _complete(lines: list[str]) -> bool:
    """Whether lines end outside of every text and list, so that the next line begins something new."""
    try:
        _parsed(lines)
    except tomllib.TOMLDecodeError:
        return False
    return True


def _parsed(lines: list[str]) -> dict[str, Any]:
    return tomllib.loads("".join(lines), parse_float=str)


def _appended(text: str, said: str, end: str) -> str:
    """Put a table behind a text, with a blank line between them."""
    if text and not text.endswith("\n"):
        text += end
    blank = not text or text.endswith(("\n\n", "\n\r\n"))
    return text + ("" if blank else end) + said


def _fields(offcut: Offcut, unit: str, mark: Fraction) -> dict[str, Any]:
    fields = {"stock": offcut.stock, "length": _down(offcut.length, unit, mark)}
    if offcut.width is not None:
        fields["width"] = _down(offcut.width, unit, mark)
    return {**fields, "label": offcut.label, **({"note": offcut.note} if offcut.note else {})}


def _down(length: Length, unit: str, mark: Fraction) -> str:
    value = length.mm / MM_IN[unit]
    return mixed(value - value % mark)


def _of(built: Built) -> dict[str, Any]:
    return {"plan": built.plan, "version": built.version, "used": list(built.used), "kept": list(built.kept)}


def _table(name: str, fields: dict[str, Any], end: str) -> str:
    told = [f"{key} = {_value(value)}" for key, value in fields.items()]
    return "".join(f"{line}{end}" for line in (f"[[{name}]]", *told))


def _value(value: object) -> str:
    """Write a text or a list of texts: TOML's are JSON's, but for the delete character, which it wants escaped."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _refuse_other(text: str, changed: str, built: Built, kept: list[dict[str, Any]], file: str) -> None:
    """Read the new text as the next plan will, and compare it with what was meant."""
    meant = tomllib.loads(text, parse_float=str)
    left = [one for one in meant.pop("offcut", []) if str(one["label"]).strip() not in built.used]
    meant |= {"offcut": [*left, *kept], "built": [*meant.get("built", []), _of(built)]}
    try:
        found = tomllib.loads(changed, parse_float=str)
        shop_of(changed, file)
    except (tomllib.TOMLDecodeError, PlanError):
        found = {}
    if {"offcut": [], **found} != meant:
        raise PlanError(
            "the offcuts in the shop file are written in a way that cannot be changed line by line; it is as it was.",
            where=file,
            remedy="Head each offcut with a line [[offcut]], and each of its keys with a line of its own.",
        )
