"""The author's rack of offcuts: what a plan takes from it, and what it puts there, marked as hers go on."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import count, islice

from plankit.cutting import Job, Layout, Result
from plankit.plan.for_sale import Material, OnHand, of_rack
from plankit.shop import Shop
from plankit.stock import Offcut
from plankit.units import Length

FIRST = "R"
"""Where nothing on the rack is marked with a number, marks begin so."""
_LEFT_OF = "left of "
_NUMBERED = re.compile(r"(.*?)(\d+)")


@dataclass(frozen=True, slots=True)
class Kept:
    """An offcut to keep: its mark, its stock, its size, and what it is left of.

    note  what the author noted of the offcut that it is left of
    """

    label: str
    stock: str
    length: Length
    width: Length | None
    left_of: str
    note: str = ""

    @property
    def sizes(self) -> tuple[Length, ...]:
        """Its length, and its width where it has one."""
        return (self.length,) if self.width is None else (self.length, self.width)


def has_rack(shop: Shop) -> bool:
    """Whether offcuts are marked: the shop has a file of its own, or some on hand."""
    return bool(shop.file or shop.offcuts)


def new_labels(shop: Shop) -> Iterator[str]:
    """Return the marks that go on from those on the rack, without end: R4, R5 … after R3.

    A mark that a plan once used or gave is not given again.
    """
    on_rack = [offcut.label for offcut in shop.offcuts]
    earlier = [label for built in shop.built for label in (*built.used, *built.kept)]
    known = [found for label in (*on_rack, *earlier) if (found := _NUMBERED.fullmatch(label))]
    prefixes = Counter(found[1] for found in known)
    prefix = prefixes.most_common(1)[0][0] if prefixes else FIRST
    numbers = [found[2] for found in known if found[1] == prefix]
    wide = max((len(number) for number in numbers if number.startswith("0")), default=0)
    begins = max((int(number) for number in numbers), default=0) + 1
    return (f"{prefix}{number:0{wide}}" for number in count(begins))


def kept_of(
    layout: Layout, stock: Material, left_of: str, labels: Iterator[str], rack: Iterable[OnHand] = ()
) -> tuple[tuple[Kept, ...], ...]:
    """Return the offcuts of a layout, each as often as the layout is cut, and mark them.

    rack  what lies there: of what is left of an offcut, its author's note is true as well
    """
    note = next((own_note(one.offcut) for one in rack if one.kind.name == layout.stock), "")
    return tuple(
        tuple(
            Kept(label, stock.name, Length.of_mm(one.length), _length(one.width), left_of, note)
            for label in islice(labels, layout.copies)
        )
        for one in layout.offcuts
    )


def note_of(left_of: str, own: str) -> str:
    """Return what the shop file says of an offcut: what it is left of, then its author's own note."""
    return f"{_LEFT_OF}{left_of}{f'; {own}' if own else ''}"


def own_note(offcut: Offcut) -> str:
    """Return what the author noted of an offcut, without what it was left of: "one face painted"."""
    if not offcut.note.startswith(_LEFT_OF):
        return offcut.note
    return offcut.note.partition("; ")[2]


def _length(mm: Fraction | None) -> Length | None:
    return None if mm is None else Length.of_mm(mm)


def still_clear(
    rack: Iterable[OnHand], job: Job, result: Result, labels: Iterator[str]
) -> tuple[Kept, ...]:
    """Return the clear lengths that are not used of offcuts that are, where they are worth keeping."""
    rack = tuple(rack)
    used = {one.kind.name for one in of_rack(rack, result)}
    begun = {one.offcut.label for one in rack if one.kind.name in used}
    return tuple(
        Kept(next(labels), one.offcut.stock, one.clear.length, one.offcut.width, f"offcut {one.offcut.label}",
             own_note(one.offcut))
        for one in rack
        if one.offcut.label in begun and one.kind.name not in used and _worth_keeping(one, job)
    )  # fmt: skip


def _worth_keeping(one: OnHand, job: Job) -> bool:
    length, width = one.clear.length.mm, one.offcut.width
    if width is None:
        return length >= job.keep_length
    return min(length, width.mm) >= job.keep_width and max(length, width.mm) >= job.keep_length


def name_of(labels: Iterable[str]) -> str:
    """Return what a drawing calls offcuts alike by their marks: "R4", "R4–R6", "Offcut 7"."""
    found = tuple(labels)
    said = found[0] if len(found) == 1 else f"{found[0]}–{found[-1]}"
    return f"Offcut {said}" if said[0].isdigit() else said
