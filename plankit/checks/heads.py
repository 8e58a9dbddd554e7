"""Screws with no wood under their heads, and screws that turn loose in a hole wider than they are."""

from collections.abc import Iterator, Sequence

from plankit.build import Build, Fastener, Joint
from plankit.build.joints import HEADS
from plankit.build.surfaces import counterbored, cuts_of
from plankit.checks.clashes import Piece, Vector
from plankit.checks.hollows import Hole, bored, in_line
from plankit.checks.wording import PRACTICE, a_or_an, gathered, spot
from plankit.finding import Finding
from plankit.parts import AXES, AXIS_OF, OPPOSITE, Bore, Part, slants_of
from plankit.parts.slants import Slant
from plankit.units import L, Length, Notation

STEPS = 16
"""A fastener is looked at in so many places along its way through a part."""
SINKS = L("1/8 in")
"""A head that hangs no further over the wood than this is drawn down to it (common practice)."""
OWN = 0.5
"""A hole wider than a screw by no more than so many millimetres is its own, bored with the nearest drill."""
GEOMETRY = "geometry of the build"
_UNDER, _LOOSE = "nothing under its head", "screw in a wide hole"


def heads(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every fastener of a joint with no wood under its head, or none round its thread.

    Fasteners of hardware are left out, and those in parts that lean otherwise than they do.
    """
    parts = {part.id: part for part in build.parts}
    worked = {part.id: _Worked(part) for part in build.parts if part.features}
    found: list[Finding] = []
    for joint in build.joints:
        for fastener in joint.fasteners:
            for part_id in (fastener.through, fastener.into):
                if part_id in worked and parts[part_id].leans == fastener.leans:
                    found += _looked_at(joint, fastener, worked[part_id], build, notation)
    return gathered(found)


class _Worked:
    """A part with what is cut out of it, sawn off it and bored in it, in millimetres."""

    def __init__(self, part: Part) -> None:
        self.part = part
        self.cuts = [cut.mm() for cut in cuts_of(part)]
        self.slants: Sequence[Slant] = [slant for _, slant in slants_of(part)]
        self.holes = list(bored(part))

    def sinks(self, fastener: Fastener) -> Length:
        """How deep its head falls into a bore that it fits in and that does not go right through."""
        heading, spec = fastener.heading, fastener.spec
        if spec.gauge is None or spec.kind == "pocket screw":
            return Length.zero()
        head = fastener.head
        plane = head.along(AXIS_OF[heading])
        return abs(counterbored(self.part, OPPOSITE[heading], head, spec.diameter.mm * HEADS, plane) - plane)

    def in_air(self, at: Vector) -> bool:
        """Whether a place within the part's box is cut out, or sawn off."""
        if any(all(low[i] < at[i] < high[i] for i in range(3)) for low, high in self.cuts):
            return True
        return any(self._sawn_off(slant, at) for slant in self.slants)

    def _sawn_off(self, slant: Slant, at: Vector) -> bool:
        box = self.part.box
        away = abs(at[AXES.index(AXIS_OF[slant.face])] - float(box.face(slant.face).mm))
        falls = 0.0
        for slope in slant.slopes:
            out = abs(at[AXES.index(AXIS_OF[slope.towards])] - float(box.face(slope.towards).mm))
            falls += float(slope.amount.mm) * max(0.0, 1 - out / float(slope.run.mm))
        return away < falls - 0.01


def _looked_at(
    joint: Joint, fastener: Fastener, worked: _Worked, build: Build, notation: Notation
) -> Iterator[Finding]:
    lines = _at_the_joint(joint, fastener)
    if lines is None:
        return
    if fastener.through == worked.part.id:
        if worked.cuts or worked.slants:
            yield from _under_the_head(fastener, lines[0], worked, build, notation)
        if worked.sinks(fastener).mm > SINKS.mm:
            yield _in_a_bore(joint, fastener, lines, worked, build, notation)
        if "screw" in fastener.spec.kind and fastener.spec.kind != "pocket screw":
            yield from _head_through(fastener, lines[0], worked, build, notation)
    elif fastener.spec.kind != "dowel":
        yield from _turns(fastener, lines[1], worked, build, notation)


def _at_the_joint(joint: Joint, fastener: Fastener) -> tuple[Piece, Piece] | None:
    """A fastener's line in its two parts, divided where they meet; None where it does not pass there."""
    axis = AXIS_OF[fastener.heading]
    if joint.contact.axis != axis:
        return None
    index = AXES.index(axis)
    head, tip, plane = fastener.head.mm(), fastener.tip.mm(), float(joint.contact.region.low(axis).mm)
    if not min(head[index], tip[index]) < plane < max(head[index], tip[index]):
        return None
    middle = _along((head, tip), (plane - head[index]) / (tip[index] - head[index]))
    return (head, middle), (middle, tip)


def _along(line: Piece, share: float) -> Vector:
    (a, b, c), (x, y, z) = line
    return a + (x - a) * share, b + (y - b) * share, c + (z - c) * share


def _places(line: Piece) -> list[Vector]:
    return [_along(line, (2 * step + 1) / (2 * STEPS)) for step in range(STEPS)]


def _long(line: Piece) -> float:
    return float(sum((a - b) ** 2 for a, b in zip(*line, strict=True)) ** 0.5)


def _under_the_head(
    fastener: Fastener, line: Piece, worked: _Worked, build: Build, notation: Notation
) -> Iterator[Finding]:
    """A fastener of which nothing, or not what lies towards the joint, or not its head, is in its first part's wood."""
    air = [worked.in_air(at) for at in _places(line)]
    if not any(air):
        return
    part, step = worked.part, _long(line) / STEPS
    hangs, ends = (Length.of_mm(round(_run(one) * step)) for one in (air, air[::-1]))
    called = f"{a_or_an(fastener.spec.name)} through {part.name}"
    where = spot(fastener.head, build.box, notation)
    remedy = f"Move it to where {part.name} is whole, or cut {part.name} elsewhere."
    if all(air):
        what = f"Under the head of {called} there is no wood: it is cut away."
        yield Finding("must fix", _UNDER, part.name, what, where, "", GEOMETRY, remedy)
    elif ends.mm > SINKS.mm:
        what = f"Before it gets to the other part, {called} comes out into a cut."
        yield Finding("must fix", _UNDER, part.name, what, where, notation.length(ends), GEOMETRY, remedy)
    elif hangs.mm > SINKS.mm:
        what = f"The head of {called} hangs over a cut; drawn down to the wood, it reaches in that much further."
        yield Finding("look at", _UNDER, part.name, what, where, notation.length(hangs), GEOMETRY, remedy)


def _in_a_bore(  # noqa: PLR0917 - a screw, where it is driven, and how to speak of it
    joint: Joint, fastener: Fastener, lines: tuple[Piece, Piece], worked: _Worked, build: Build, notation: Notation
) -> Finding:
    """A head that falls to the bottom of a bore that its joint knows nothing of; its tip goes as much further."""
    by, part, into = worked.sinks(fastener), worked.part, build.part(fastener.into)
    room = abs(into.box.face(fastener.heading) - fastener.tip.along(AXIS_OF[fastener.heading]))
    out = by.mm > room.mm and into.leans == fastener.leans
    through = out or _long(lines[0]) <= float(by.mm)
    name = a_or_an(fastener.spec.name)
    does = f"comes out of {into.name}" if out else "reaches in that much further"
    what = f"The head of {name} through {part.name} falls into a bore; drawn down to its bottom, the screw {does}."
    return Finding(
        "must fix" if through else "look at", _UNDER, part.name, what, spot(fastener.head, build.box, notation),
        notation.length(by), GEOMETRY,
        "Bore it before you screw through it, and the screw is reckoned from its bottom; or move one of them.",
    )  # fmt: skip


def _run(air: Sequence[bool]) -> int:
    """How many are air before the first that is not."""
    return next((number for number, one in enumerate(air) if not one), len(air))


def _head_through(
    fastener: Fastener, line: Piece, worked: _Worked, build: Build, notation: Notation
) -> Iterator[Finding]:
    """A head that slips through a hole, right through the first part, on its own line."""
    wide = HEADS * float(fastener.spec.diameter.mm)
    for hole in worked.holes:
        if hole.face is None and not _is_slot(hole) and _across(hole) >= wide and in_line(line, hole.line):
            yield _wide(fastener, hole, worked.part, "slips through", build, notation)


def _turns(
    fastener: Fastener, line: Piece, worked: _Worked, build: Build, notation: Notation
) -> Iterator[Finding]:
    """A screw whose thread lies, over more than half of what it holds by, in a hole wider than itself."""
    places = _places(line)
    for hole in worked.holes:
        if _across(hole) <= float(fastener.spec.diameter.mm) + OWN or not in_line(line, hole.line):
            continue
        if 2 * sum(_within(at, hole.line) for at in places) > STEPS:
            yield _wide(fastener, hole, worked.part, "turns loose in", build, notation)


def _within(at: Vector, line: Piece) -> bool:
    """Whether a place on a line lies between its ends."""
    return all(min(a, b) - 0.01 <= place <= max(a, b) + 0.01 for place, a, b in zip(at, *line, strict=True))


def _across(hole: Hole) -> float:
    """How wide a hole is, its countersink left out; nothing for a pocket, whose screw sits in it."""
    bore = hole.feature[0] if hole.feature is not None else None
    return float(bore.diameter.mm) if isinstance(bore, Bore) else 0.0


def _is_slot(hole: Hole) -> bool:
    return hole.feature is not None and getattr(hole.feature[0], "travel", None) is not None


def _wide(  # noqa: PLR0917 - a screw, its hole, and how to speak of them
    fastener: Fastener, hole: Hole, part: Part, what: str, build: Build, notation: Notation
) -> Finding:
    return Finding(
        "must fix",
        _LOOSE,
        part.name,
        f"{a_or_an(fastener.spec.name, begins=True)} {what} {hole.what} of {part.name}, which is wider than it "
        "holds in.",
        spot(fastener.head, build.box, notation),
        f"{notation.length(Length.of_mm(round(10 * _across(hole))).portion(10))} across",
        f"{PRACTICE}: no wider than the screw where its thread holds, narrower than its head where that lies",
        "Leave that hole out, or move it or the screw.",
    )
