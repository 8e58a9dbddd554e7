"""What a face frame leaves open for a drawer: its stiles and rails round it, and the blocks that its slides need."""

from collections.abc import Mapping, Sequence

from plankit.build.drawers import across_of
from plankit.parts import HIGH, LOW, Face, Part
from plankit.units import Length, told


def round_opening(frame: Sequence[Part], sides: tuple[Part, Part], levels: tuple[Length, Length], out: Face) -> Mapping[
    Face, Part
]:  # fmt: skip
    """Return the stiles and rails next to an opening, by the face of the opening that they bound.

    sides   the parts of the case left and right of it
    levels  where its opening begins and ends upwards
    """
    across = across_of(out)
    middle = (sides[0].box.high(across).mm + sides[1].box.low(across).mm) / 2
    height = (levels[0].mm + levels[1].mm) / 2
    found: dict[Face, Part] = {}
    for part in frame:
        box = part.box
        if box.bottom.mm < height < box.top.mm:
            side = LOW[across] if box.high(across).mm <= middle else HIGH[across]
        elif box.low(across).mm < middle < box.high(across).mm:
            side = "bottom" if box.top.mm <= height else "top"
        else:
            continue
        if side not in found or _nearer(part, found[side], side):
            found[side] = part
    return found


def _nearer(part: Part, other: Part, side: Face) -> bool:
    """Whether a part bounds an opening more closely than another at the same side of it."""
    inner = {"left": "right", "front": "back", "bottom": "top", "right": "left", "back": "front", "top": "bottom"}[side]
    more = part.box.face(inner).mm - other.box.face(inner).mm  # type: ignore[arg-type]
    return more > 0 if side in LOW.values() else more < 0


def stands_in(stile: Part, beside: Part, side: Face) -> Length:
    """Return how far a stile stands in before the part beside an opening; below nothing where it does not."""
    low = side in LOW.values()
    axis = {"left": "x", "right": "x", "front": "y", "back": "y"}[side]
    if low:
        return stile.box.high(axis) - beside.box.high(axis)  # type: ignore[arg-type]
    return beside.box.low(axis) - stile.box.low(axis)  # type: ignore[arg-type]


def wanted_blocks(by: Length, frame: str) -> str:
    """Return what to do about stiles that stand in before what a drawer's slides are screwed to."""
    return f"Let blocks at least {told(by)} thick carry its slides: blocks=ply, beside  frame={frame}."
