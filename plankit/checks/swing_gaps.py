"""Whether the gaps round a front, and beside what swings with it, are wide enough and alike."""

from collections.abc import Iterable

from plankit.build import Build, Moving
from plankit.build.swing import pivot_of
from plankit.build.swing_room import Reveal, reveals, side_gaps
from plankit.checks.wording import PRACTICE
from plankit.finding import Finding
from plankit.parts import AXIS_OF, Face
from plankit.units import L, Notation

LEAST_GAP = L("1/16 in")
"""Least gap round an inset front, and beside what swings (common practice)."""
UNEVEN = L("1/32 in")
"""Gaps that differ by more are seen (common practice)."""


def gaps(build: Build, moving: Moving, notation: Notation) -> Iterable[Finding]:
    """Return findings about gaps round a front, and beside what swings with it, that are too small or unequal."""
    found = reveals(build, moving)
    hinge_side = _hinge_side(build, moving)
    for one in found:
        if one.gap.mm < LEAST_GAP.mm and one.face != hinge_side:
            yield _small(moving.name, f"The gap between {moving.name} and {one.beside}", one, notation)
    for part, one in side_gaps(build, moving):
        if one.gap.mm < LEAST_GAP.mm:
            yield _small(
                moving.name, f"{part.name} swings past {one.beside}, and the gap between them", one, notation
            )
    for low, high in (("left", "right"), ("bottom", "top"), ("front", "back")):
        pair = [one for one in found if one.face in {low, high} and (one.gap.mm or one.face != hinge_side)]
        if len(pair) == 2 and abs(pair[0].gap.mm - pair[1].gap.mm) > UNEVEN.mm:
            yield _uneven(moving.name, pair[0], pair[1], notation, grave=_is_seen(build, moving, pair[0]))


def small_gaps(build: Build, moving: Moving, notation: Notation) -> Iterable[Finding]:
    """Return findings about gaps round a drawer's front that are too small."""
    for one in reveals(build, moving):
        if one.gap.mm < LEAST_GAP.mm:
            yield _small(moving.name, f"The gap between {moving.name} and {one.beside}", one, notation)


def _hinge_side(build: Build, moving: Moving) -> Face | None:
    """The edge of the front that lies along what it turns about, where hinges fill the gap."""
    front, pivot = build.part(moving.parts[0]), pivot_of(moving)
    near = front.thickness.mm
    faces = [face for face, axis in AXIS_OF.items() if axis not in {front.through, pivot.axis}]
    away = {face: abs(front.box.face(face).mm - pivot.at.along(AXIS_OF[face]).mm) for face in faces}
    face = min(faces, key=lambda one: away[one])
    return face if away[face] <= near else None


def _is_seen(build: Build, moving: Moving, one: Reveal) -> bool:
    """Whether unequal gaps catch the eye: those to either side of a front; of a lid, those at its hinge's ends."""
    axis = AXIS_OF[one.face]
    level = build.part(moving.parts[0]).through == "z"
    return axis != "z" and (not level or axis == pivot_of(moving).axis)


def _small(name: str, what: str, gap: Reveal, notation: Notation) -> Finding:
    return Finding(
        "look at",
        "small gap",
        name,
        f"{what} is {notation.length(gap.gap)}: it may rub when the wood swells or the finish builds up.",
        f"{gap.face}, against {gap.beside}",
        notation.length(gap.gap),
        PRACTICE,
        f"Leave at least {notation.length(LEAST_GAP)}.",
    )


def _uneven(name: str, one: Reveal, other: Reveal, notation: Notation, *, grave: bool) -> Finding:
    return Finding(
        "look at" if grave else "for information",
        "unequal gaps",
        name,
        f"The gaps beside {name} differ: {notation.length(one.gap)} at its {one.face}, "
        f"{notation.length(other.gap)} at its {other.face}.",
        f"{one.face} and {other.face}",
        notation.length(abs(one.gap - other.gap)),
        PRACTICE,
        "If both should be the same, move it by half the difference.",
    )
