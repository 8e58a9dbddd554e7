"""Words for those who do not see a figure: counts, plurals, lists and places, made from the build."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from plankit.build import Alike
from plankit.parts import Part
from plankit.units import Length, Notation

_COUNTS: Final = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
_IRREGULAR: Final = {
    "foot": "feet",
    "shelf": "shelves",
    "half": "halves",
    "leaf": "leaves",
    "knife": "knives",
}


def count_word(number: int) -> str:
    """A number in words up to twelve, in digits beyond."""
    return _COUNTS[number] if number < len(_COUNTS) else str(number)


def within(name: str) -> str:
    """A part's name within a sentence: its first letter small, as in "side A", but not in "MDF back"."""
    first = name.partition(" ")[0]
    return name if len(first) < 2 or not first[1:].islower() else name[0].lower() + name[1:]


def plural(name: str) -> str:
    """The plural of a part's name; its last word changes ("Front foot": "Front feet").

    A letter or number at its end stays as it is ("Side A": "Sides A"), and so does what is plural already ("Slats").
    """
    head, _, last = name.rpartition(" ")
    if head and (len(last) == 1 or (not last.islower() and not last.istitle())):
        return f"{plural(head)} {last}"
    lower = last.lower()
    if (lower.endswith("s") and not lower.endswith(("ss", "us"))) or lower in _IRREGULAR.values():
        return name
    if lower in _IRREGULAR:
        many = _IRREGULAR[lower]
        many = many.capitalize() if last[:1].isupper() else many
    elif lower.endswith(("s", "x", "ch", "sh")):
        many = last + "es"
    elif lower.endswith("y") and lower[-2:-1] not in {*"aeiou"}:
        many = last[:-1] + "ies"
    else:
        many = last + "s"
    return f"{head} {many}".strip()


def listed(words: Iterable[str]) -> str:
    """Words as a list in a sentence: "a, b and c"."""
    all_words = list(words)
    if len(all_words) < 2:
        return "".join(all_words)
    return ", ".join(all_words[:-1]) + " and " + all_words[-1]


def because(reason: str) -> str:
    """Why a cut is there, to follow its name: "for the back", "round Post"; "" where nobody says."""
    reason = reason.strip()
    if not reason or reason.startswith(("for ", "round ")):
        return reason
    named = reason.startswith(("the ", "a ", "an ")) or reason[:1].isupper()
    return f"for {reason}" if named else f"for the {reason}"


def counted(names: Sequence[str]) -> str:
    """Names counted and put into a list: "two dividers and one back"."""
    totals: dict[str, int] = {}
    for name in names:
        totals[name] = totals.get(name, 0) + 1
    said = []
    for name, number in totals.items():
        words = within(plural(name) if number > 1 else name)
        said.append(f"{count_word(number)} {words}")
    return listed(said)


def capital(text: str) -> str:
    """Text with its first letter as a capital, the others as they are."""
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """The text with a capital and a full stop."""
    text = text.strip()
    return capital(text) + ("" if text.endswith((".", "!", "?")) else ".")


def outside_size(width: Length, depth: Length, height: Length, notation: Notation) -> str:
    """An outside size in words, both systems."""
    return f"{notation.both(width)} wide, {notation.both(depth)} deep and {notation.both(height)} high"


def labelled(group: Alike) -> str:
    """A group of equal parts with its label: "A, four feet"."""
    return f"{group.label}, {counted([part.name for part in (*group.parts, *group.other)])}"


def names_of(parts: Iterable[Part], labels: Mapping[str, str]) -> str:
    """Part names counted, each with its label: "two dividers (C) and one back (D)"."""
    totals: dict[tuple[str, str], int] = {}
    for part in parts:
        key = (part.name, labels.get(part.id, ""))
        totals[key] = totals.get(key, 0) + 1
    said = []
    for (name, label), number in totals.items():
        words = within(plural(name) if number > 1 else name)
        said.append(f"{count_word(number)} {words}" + (f" ({label})" if label else ""))
    return listed(said)


def unit_note(notation: Notation) -> str:
    """The line that states the unit of every number in a drawing once."""
    return "Sizes in inches" if notation.unit == "in" else "Sizes in millimeters"
