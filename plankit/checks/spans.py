"""What a level part rests on, and how far it spans between."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from plankit.build import Build, Contact, touching
from plankit.build.near import neighbours
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
    contacts = (touching(part, other) for other in neighbours(build, part))
    return any(contact is not None and contact.face == "top" for contact in contacts)


def span_of(part: Part, build: Build) -> Span | None:
    """Return the span that decides how far a level part bends; None where it does not span anything.

    Held along lines in one direction or in both, it is the shorter of them that carries. Held at points
    only (four feet), it is the longer. Where both are as long, lines carry along the grain; points bend it across.
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
        return min(lines, key=lambda span: (span.clear.mm, span.along != part.grain))
    return max(points, key=lambda span: (span.clear.mm, span.along != part.grain), default=None)


def _holds(part: Part, build: Build) -> Iterator[Contact]:
    """Where a part lies on another, or ends against one that a joint holds it to.

    A part that no joint holds at all lies loose: it is taken to rest on pins or ledges where its ends meet others.
    """
    jointed = {frozenset((joint.holds, joint.to)) for joint in build.joints}
    loose = not any(part.id in pair for pair in jointed)
    for other in neighbours(build, part):
        contact = touching(part, other)
        if contact is None or contact.face == "top":
            continue
        if contact.face == "bottom" or loose or frozenset((part.id, other.id)) in jointed:
            yield contact
    yield from _pins_under(part, build)


def _pins_under(part: Part, build: Build) -> Iterator[Contact]:
    """Where a shelf lies on its pins."""
    for item in build.items:
        if item.kind == "shelf pin" and part.id in item.on:
            common = part.box.common(item.box)
            if common.extent("x").mm > 0 and common.extent("y").mm > 0 and part.box.bottom == item.box.top:
                yield Contact("bottom", "z", replace(common, bottom=part.box.bottom, top=part.box.bottom))


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
        same = [one for one in held if one.low.mm <= high.mm and low.mm <= one.high.mm]
        held = [one for one in held if one not in same]
        lows, highs = [low, *(one.low for one in same)], [high, *(one.high for one in same)]
        whole = sum((one.wide for one in same), wide)
        held.append(_Held(min(lows, key=_mm), max(highs, key=_mm), whole))
    return sorted(held, key=lambda one: one.low.mm)


def _mm(length: Length) -> Fraction:
    return length.mm


def _longest_gap(held: list[_Held], part: Part, along: Axis, across: Axis) -> Span | None:
    gaps = [right.low - left.high for left, right in pairwise(held)]
    gaps = [gap for gap in gaps if gap.mm > 0]
    if not gaps:
        return None
    return Span(along, max(gaps, key=_mm), part.box.extent(across))
