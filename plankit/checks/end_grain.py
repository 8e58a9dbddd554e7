"""Parts that nothing but glue on end grain holds together."""

from collections.abc import Iterator

from plankit.build import Build, Joint, contacts, touching
from plankit.build.held import held_together
from plankit.checks.fit import let_in
from plankit.checks.wording import gathered
from plankit.finding import Finding
from plankit.parts import OPPOSITE, CompoundMitre, Mitre, Part
from plankit.stock import Lumber
from plankit.units import Notation

SOURCE = "Wood Handbook ch. 10 (from memory): plain butt and miter joints of end grain carry next to nothing"
REMEDY = "Add dowels, screws or brads, or let the end into a groove; glue alone holds along the grain."


def end_grain(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every two solid parts that hang together by glued end grain alone.

    Where screws, dowels, hardware, a groove, or glue on long grain hold them to one another, straight or by way of
    others, there is none.
    """
    del notation
    weak = [joint for joint in build.joints if _is_weak(build, joint)]
    if not weak:
        return ()
    links: list[tuple[str, ...]] = [(one.holds, one.to) for one in build.joints if one not in weak]
    links += [item.on for item in build.items]
    links += [tuple(pair) for pair in let_in(build)]
    groups = held_together([part.id for part in build.parts], links)
    return gathered(_findings(build, weak, groups))


def _findings(build: Build, weak: list[Joint], groups: list[set[str]]) -> Iterator[Finding]:
    for joint in weak:
        if any({joint.holds, joint.to} <= group for group in groups):
            continue
        one, other = build.part(joint.holds), build.part(joint.to)
        mitred = _slanting(one, other)
        where = "in a miter" if mitred else "at its end" if _ends_there(one, joint) else f"at the end of {other.name}"
        yield Finding(
            "look at",
            "glued end grain",
            one.name,
            f"{one.name} is held to {other.name} by nothing but glue {where}, on end grain.",
            "",
            "",
            SOURCE,
            REMEDY,
        )


def _is_weak(build: Build, joint: Joint) -> bool:
    """Whether a joint is glue alone, on the end of a solid part, and not inside a cut of the other."""
    if joint.kind != "glue":
        return False
    one, other = build.part(joint.holds), build.part(joint.to)
    if _slanting(one, other):
        return isinstance(one.stock, Lumber) and isinstance(other.stock, Lumber)
    if one.leans == other.leans and _inside(one, other, joint):
        return False
    return _ends_there(one, joint) or _meets_an_end(other, one, joint)


def _ends_there(part: Part, joint: Joint) -> bool:
    return isinstance(part.stock, Lumber) and joint.contact.axis == part.grain


def _meets_an_end(part: Part, other: Part, joint: Joint) -> bool:
    """Whether a joint's second part is met at its end."""
    if not isinstance(part.stock, Lumber):
        return False
    if part.leans == other.leans:
        return joint.contact.axis == part.grain
    found = touching(part, other)
    return found is not None and found.axis == part.grain


def _inside(one: Part, other: Part, joint: Joint) -> bool:
    """Whether two parts meet inside a cut, whose sides hold as well."""
    at, face = joint.contact.region.low(joint.contact.axis).mm, joint.contact.face
    return one.box.face(face).mm != at or other.box.face(OPPOSITE[face]).mm != at


def _slanting(one: Part, other: Part) -> bool:
    """Whether two parts that lean alike, or are tilted into a corner, meet in the miters of their ends."""
    mitred = all(any(isinstance(cut, Mitre | CompoundMitre) for cut in part.features) for part in (one, other))
    return mitred and (one.leans != other.leans or not contacts(one, other))
