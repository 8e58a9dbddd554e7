"""What a drawing of something that opens says in words."""

from plankit.build import Build
from plankit.build.swing import Sweep, far_open, gone, owner_of
from plankit.drawing.words import counted, sentence
from plankit.units import Angle, Length, Notation


def picture_words(
    build: Build, swept: Sweep, notation: Notation, seen_from: str, clear: Length | None
) -> tuple[str, str, list[str]]:
    """Return the title, the description and the lines that stand below the drawing.

    clear   how wide it stands open; None where that cannot be said
    """
    moving = swept.moving
    title = f"{moving.name}, shut and {'open' if moving.pivot else 'pulled out'}"
    moves = counted([build.part(one).name for one in moving.parts])
    said = [
        f"{moving.name} from {seen_from}: {moves}, shut in full lines, and dashed {_how_far(swept, notation)}"
    ]
    if clear is not None:
        said.append(f"open, it leaves {notation.both(clear)} clear")
    met = _first_words(swept, notation)
    said.append(met)
    said += (before := [f"it opens only once {name} is open" for name in _opened_first(build, swept)])
    below = [f"Dashed: {_how_far(swept, notation)}."]
    if _meets(swept):
        below.append(f"Cross: {met}.")
    below += [f"{sentence(one)}" for one in before]
    return title, " ".join(sentence(one) for one in said), below


def _opened_first(build: Build, swept: Sweep) -> list[str]:
    """What has to be opened first, by name."""
    owners = (owner_of(build, met) for met in swept.waits if gone(met) < far_open(build, swept.moving))
    return list(dict.fromkeys(one.name for one in owners if one is not None))


def turned_words(angle: Angle, notation: Notation) -> str:
    """How far something has turned: "26°", "8.3°"."""
    return notation.angle(angle).replace(".0°", "°")


def _how_far(swept: Sweep, notation: Notation) -> str:
    if swept.moving.slides is not None:
        ends = [swept.moving.slides[1], *(one.travel for one in swept.opening[:1])]
        return f"pulled out {notation.both(min(ends, key=lambda one: one.mm))}"
    return f"open {turned_words(swept.angle, notation)}" if swept.angle is not None else "open"


def _meets(swept: Sweep) -> bool:
    if not swept.opening:
        return False
    return swept.angle is None or swept.opening[0].angle <= swept.angle


def _first_words(swept: Sweep, notation: Notation) -> str:
    if not _meets(swept):
        return "it meets nothing on its way"
    first = swept.opening[0]
    where = (
        f"at {turned_words(first.angle, notation)}" if swept.moving.pivot else f"{notation.both(first.travel)} out"
    )
    if not swept.is_stop(first):
        return f"it meets {first.name}, {where}"
    stop = "its stop" if first.name.casefold() == "stop" else f"its stop, {first.name}"
    return f"it meets {stop}, {where}"
