"""Banding on an edge that is then joined: glue and screws hold to the veneer there, not to the wood."""

from plankit.build import Build
from plankit.checks.wording import gathered
from plankit.finding import Finding
from plankit.parts import OPPOSITE, Banding, Face, Part


def banding(build: Build) -> tuple[Finding, ...]:
    """Return a finding for every banded edge that a joint closes on."""
    found = []
    for joint in build.joints:
        ends = ((joint.holds, joint.contact.face, joint.to), (joint.to, OPPOSITE[joint.contact.face], joint.holds))
        for part_id, face, other in ends:
            part = build.part(part_id)
            if _banded(part, face):
                found.append(_joined(part, face, build.part(other), joint.kind))
    return gathered(found)


def _banded(part: Part, face: Face) -> bool:
    return any(isinstance(feature, Banding) and feature.edge == face for feature in part.features)


def _joined(part: Part, face: Face, other: Part, kind: str) -> Finding:
    return Finding(
        "look at",
        "banding in a joint",
        part.name,
        f"The {face} edge of {part.name} is banded, and {other.name} is joined to it ({kind}).",
        f"against {other.name}",
        source="common practice: a joint on banding holds no better than the banding's own glue",
        remedy=f"Leave the {face} edge bare, or put the banding on after the joint, beside {other.name}.",
    )
