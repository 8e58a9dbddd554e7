"""Whether somebody who sits at a piece has room for her knees."""

from plankit.build import Build
from plankit.build.seated import knee_room
from plankit.checks.wording import PRACTICE, told_apart
from plankit.finding import Finding
from plankit.units import Notation


def knees(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for each sitter whose knees have less room than is asked for."""
    found = []
    for one in build.seated:
        room, over = knee_room(build.parts, one)
        wanted = one.box.extent("z")
        if over is None or room >= wanted:
            continue
        there, asked = told_apart(room, wanted, notation)
        found.append(
            Finding(
                "look at",
                "knee room",
                over.name,
                f"{one.name}: {over.name} leaves too little room for the knees.",
                f"at the {one.side}",
                f"{there} from the floor; {asked} is asked",
                f"{PRACTICE}: 24 in or more for a grown person on a chair",
                "Make it higher or narrower, set it further in, or move a leg out of the way.",
            )
        )
    return tuple(found)
