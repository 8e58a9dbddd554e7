"""What a level part rests on, and how far it spans between."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from plankit.build import Build, Contact, touching
from plankit.parts import LOW, Axis, Part
from plankit.units import Length

LINE = Fraction(3, 5)
"""Supports that hold this share of a part's width hold it along a line; less is a point (common practice)."""


@dataclass(frozen=True, slots=True)
class Span:
    """The longest stretch of a level part between two supports.

    along  the axis it runs along
    clear  its length from support to support
    width  how wide the part is across it
    """

    along: Axis
    clear: Length
    width: Length


@dataclass(frozen=True, slots=True)
class _Held:
    """A stretch of a part that is held from below or at an end."""

    low: Length
    high: Length
    wide: Length


def bare_spans(build: Build) -> Iterator[tuple[Part, Span]]:
    """Yield the level parts on which nothing else of the build stands, each with its span."""
    for part in build.parts:
        if part.through != "z" or part.thickness.mm <= 0 or _stood_on(part, build):
            continue
        span = span_of(part, build)
        if span is not None:
            yield part, span


def _stood_on(part: Part, build: Build) -> bool:
    contacts = (touching(part, other) for other in build.parts if other.id != part.id)
    return any(contact is not None and contact.face == "top" for contact in contacts)


def span_of(part: Part, build: Build) -> Span | None:
    """Return the span that decides how far a level part bends; None where it does not span anything.

    Held along lines in one direction or in both, it is the shorter of them that carries. Held at points
    only (four feet), it is the longer.
    """
    if part.through != "z":
        return None
    holds = tuple(_holds(part, build))
    lines: list[Span] = []
    points: list[Span] = []
    for along, across in (("x", "y"), ("y", "x")):
        held = _stretches(holds, part, along, across)  # type: ignore[arg-type]
        span = _longest_gap(held, part, along, across)  # type: ignore[arg-type]
        if span is None:
            continue
        whole = part.box.extent(across).mm  # type: ignore[arg-type]
        (lines if all(one.wide.mm >= LINE * whole for one in held) else points).append(span)
    if lines:
        return min(lines, key=lambda span: span.clear.mm)
    return max(points, key=lambda span: span.clear.mm, default=None)


def _holds(part: Part, build: Build) -> Iterator[Contact]:
    """Where a part lies on another, or ends against one that a joint holds it to.

    A part that no joint holds at all lies loose: it is taken to rest on pins or ledges where its ends meet others.
    """
    jointed = {frozenset((joint.holds, joint.to)) for joint in build.joints}
    loose = not any(part.id in pair for pair in jointed)
    for other in build.parts:
        contact = touching(part, other) if other.id != part.id else None
        if contact is None or contact.face == "top":
            continue
        if contact.face == "bottom" or loose or frozenset((part.id, other.id)) in jointed:
            yield contact


def _stretches(holds: tuple[Contact, ...], part: Part, along: Axis, across: Axis) -> list[_Held]:
    """The stretches held along an axis, those at the same place taken together, in order."""
    held: list[_Held] = []
    for contact in holds:
        if contact.axis == across:
            continue
        low, high = contact.region.low(along), contact.region.high(along)
        wide = contact.region.extent(across)
        if contact.axis == along:
            low = high = part.box.low(along) if contact.face == LOW[along] else part.box.high(along)
        if 2 * (high - low).mm > part.box.extent(along).mm:
            continue
        same = next((one for one in held if one.low.mm <= high.mm and low.mm <= one.high.mm), None)
        if same is None:
            held.append(_Held(low, high, wide))
        else:
            held.remove(same)
            first, last = (low, same.low), (high, same.high)
            held.append(_Held(min(first, key=_mm), max(last, key=_mm), same.wide + wide))
    return sorted(held, key=lambda one: one.low.mm)


def _mm(length: Length) -> Fraction:
    return length.mm


def _longest_gap(held: list[_Held], part: Part, along: Axis, across: Axis) -> Span | None:
    gaps = [right.low - left.high for left, right in pairwise(held)]
    gaps = [gap for gap in gaps if gap.mm > 0]
    if not gaps:
        return None
    return Span(along, max(gaps, key=_mm), part.box.extent(across))
