"""Faces that are meant to lie in one plane, and do not."""

from plankit.build import Build, Joint
from plankit.checks.wording import PRACTICE, gathered
from plankit.finding import Finding
from plankit.parts import AXIS_OF, HIGH, OPPOSITE
from plankit.units import Notation


def flush(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every two joined parts of which one stands proud of the other where they should be flush."""
    return gathered(
        found
        for joint in build.joints
        if joint.flush is not None and (found := _uneven(build, joint, notation))
    )


def _uneven(build: Build, joint: Joint, notation: Notation) -> Finding | None:
    assert joint.flush is not None
    part, other = build.part(joint.holds), build.part(joint.to)
    if part.leans != other.leans:
        return None
    face, axis = joint.flush, AXIS_OF[joint.flush]
    out = part.box.face(face) - other.box.face(face)
    if not out.mm:
        return None
    proud = (out.mm > 0) == (face == HIGH[axis])
    how = "proud of" if proud else "shy of"
    return Finding(
        "must fix",
        "not flush",
        part.name,
        f"{part.name} should be flush with {other.name} at the {face}, and stands {how} it.",
        f"the {face}, against {other.name}",
        notation.length(abs(out)),
        f"{PRACTICE}: faces that are flush are sanded as one",
        f"Give {part.name} the {face} face of {other.name}, and let the {OPPOSITE[face]} fall where it may.",
    )
