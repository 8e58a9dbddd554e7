"""Does the finished piece go where it belongs: through the doorways, and into its niche."""

from plankit.build import Build
from plankit.build.surroundings import Niche, Passage, carried
from plankit.checks.wording import PRACTICE
from plankit.finding import Finding
from plankit.parts.space import Axis, Size
from plankit.units import Length, Notation

GEOMETRY = "the build's own sizes"
_IN: dict[Axis, str] = {"x": "wide", "y": "deep", "z": "high"}


def carrying_in(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about every niche and opening that the author names."""
    box = build.box
    size = (box.extent("x"), box.extent("y"), box.extent("z"))
    found: list[Finding] = []
    for place in build.surroundings:
        if isinstance(place, Niche):
            found += _into(build.name, size, place, notation)
        else:
            found += _through(build.name, size, place, notation)
    return tuple(found)


def _into(piece: str, size: Size, niche: Niche, notation: Notation) -> list[Finding]:
    free = {"x": niche.clearance * 2, "y": Length.zero(), "z": niche.clearance}
    found = []
    for (axis, way), own, room in zip(_IN.items(), size, niche.size, strict=True):
        over = own + free[axis] - room
        if over.mm <= 0:
            continue
        if axis == "y":
            found.append(_stands_out(piece, niche, over, notation))
        else:
            found.append(_too_large(piece, niche, way, (own, over, free[axis]), notation))
    return found


def _too_large(
    piece: str, niche: Niche, way: str, sizes: tuple[Length, Length, Length], notation: Notation
) -> Finding:
    own, over, free = sizes
    wanted = f", {notation.length(free)} of clearance included" if free.mm else ""
    return Finding(
        "must fix", "does not fit its place", piece,
        f"it is {notation.length(over)} too {way} for {niche.name}{wanted}.",
        number=notation.length(own), source=GEOMETRY,
        remedy=f"Make it {notation.length(own - over)} {way} at most, or ask for less clearance.",
    )  # fmt: skip


def _stands_out(piece: str, niche: Niche, over: Length, notation: Notation) -> Finding:
    return Finding(
        "look at", "does not fit its place", piece, f"it stands {notation.length(over)} out of {niche.name}.",
        number=notation.length(over), source=GEOMETRY, remedy="Make it less deep, or accept it.",
    )  # fmt: skip


def _through(piece: str, size: Size, passage: Passage, notation: Notation) -> list[Finding]:
    way = carried(size, passage)
    room = notation.size(passage.width, passage.height)
    if way is None:
        least = sorted(size, key=lambda one: one.mm)[:2]
        return [
            Finding(
                "must fix", "cannot be carried in", piece, f"it does not go through {passage.name} ({room}), whichever "
                "way it is turned.", number=notation.size(*least), source=GEOMETRY,
                remedy="Make it smaller, make it in parts that are joined inside, or build it in its room.",
            )
        ]  # fmt: skip
    if way.tilted:
        return [
            Finding(
                "for information", "cannot be carried in", piece,
                f"it goes through {passage.name} ({room}) on the slant only.", number=notation.size(*way.face),
                source=f"{GEOMETRY}; clearance {PRACTICE}",
                remedy="Try it with a frame of battens before you build, and take off what comes off.",
            )
        ]  # fmt: skip
    return []
