"""What a level part rests on, and how far it spans between."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from plankit.build import Build, Contact, touching
from plankit.build.near import neighbours
from plankit.parts import HIGH, LOW, Axis, Face, Part
from plankit.units import L, Length

LINE = Fraction(3, 5)
"""Supports that hold this share of a part's width hold it along a line; less is a point (common practice)."""

STRIP = L("4 in")
"""A strip no wider that is joined to something along one edge does not bend between its ends (common practice)."""


@dataclass(frozen=True, slots=True)
class Span:
    """The longest stretch of a level part between two supports.

    along  the axis it runs along
    clear  its length from support to support
    width  how wide the part is across it
    low    where it begins
    """

    along: Axis
    clear: Length
    width: Length
    low: Length = Length.zero()  # noqa: RUF009 - a frozen value


@dataclass(frozen=True, slots=True)
class Overhang:
    """How far a level part stands out beyond its last support.

    face   the face that it ends with
    out    from that support to the face
    back   the clear span behind the support; nothing where the support runs on there
    width  how wide the part is across it
    """

    face: Face
    out: Length
    back: Length
    width: Length


@dataclass(frozen=True, slots=True)
class Carried:
    """What holds a level part: its deciding span, and what stands out beyond its supports."""

    span: Span | None
    overhangs: tuple[Overhang, ...] = ()


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
    """Return the span that decides how far a level part bends; None where it does not span anything."""
    return carried(part, build).span


def carried(part: Part, build: Build) -> Carried:
    """Return the span that decides how far a level part bends, and its overhangs.

    Held along lines in one direction or in both, it is the shorter of them that carries. Held at points
    only (four feet), it is the longer. Where both are as long, lines carry along the grain; points bend it across.
    """
    if part.through != "z":
        return Carried(None)
    holds = tuple(_holds(part, build))
    lines: list[Span] = []
    points: list[Span] = []
    out: list[Overhang] = []
    for along, across in (("x", "y"), ("y", "x")):
        if _screwed_along(holds, build, part, along, across):  # type: ignore[arg-type]
            continue
        held = _stretches(holds, part, along, across)  # type: ignore[arg-type]
        span = _longest_gap(held, part, along, across)  # type: ignore[arg-type]
        out += _overhangs(held, holds, part, along, across)  # type: ignore[arg-type]
        if span is None:
            continue
        whole = part.box.extent(across).mm  # type: ignore[arg-type]
        (lines if all(one.wide.mm >= LINE * whole for one in held) else points).append(span)
    if lines:
        return Carried(min(lines, key=lambda span: (span.clear.mm, span.along != part.grain)), tuple(out))
    longest = max(points, key=lambda span: (span.clear.mm, span.along != part.grain), default=None)
    return Carried(longest, tuple(out))


def _screwed_along(
    holds: tuple[Contact, ...], build: Build, part: Part, along: Axis, across: Axis
) -> bool:
    """Whether a narrow strip is joined to something along an edge: it spans nothing that way."""
    if part.box.extent(across).mm > STRIP.mm or not any(part.id in {one.holds, one.to} for one in build.joints):
        return False
    whole = part.box.extent(along).mm
    edges = (one for one in holds if one.axis == across)
    return any(one.region.extent(along).mm >= LINE * whole for one in edges)


def _overhangs(
    held: list[_Held], holds: tuple[Contact, ...], part: Part, along: Axis, across: Axis
) -> Iterator[Overhang]:
    """What stands out along an axis beyond all that holds a part; behind a support that runs that way is no span."""
    if not holds:
        return
    wide, low, high = part.box.extent(across), part.box.low(along), part.box.high(along)
    first = min((one.region.low(along) for one in holds), key=_mm)
    last = max((one.region.high(along) for one in holds), key=_mm)
    none = Length.zero()
    if first.mm > low.mm:
        ends_there = len(held) > 1 and held[0].low.mm == first.mm
        yield Overhang(LOW[along], first - low, held[1].low - held[0].high if ends_there else none, wide)
    if last.mm < high.mm:
        ends_there = len(held) > 1 and held[-1].high.mm == last.mm
        yield Overhang(HIGH[along], high - last, held[-1].low - held[-2].high if ends_there else none, wide)


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
    gaps = [(right.low - left.high, left.high) for left, right in pairwise(held)]
    gaps = [gap for gap in gaps if gap[0].mm > 0]
    if not gaps:
        return None
    clear, low = max(gaps, key=lambda gap: gap[0].mm)
    return Span(along, clear, part.box.extent(across), low)
