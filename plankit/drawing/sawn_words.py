"""How a saw is set for a slanting cut, and how long a part is from point to point, in words."""

from plankit.parts import Part, points_of, saw_setting
from plankit.parts.slants import Sawn
from plankit.units import Length, Notation
from plankit.units.notation import ROUNDED


def setting_words(part: Part, cut: Sawn, notation: Notation) -> str:
    """Say how the saw is set: "saw turned 31.6°, blade tilted 33.9°"; both away from square."""
    setting = saw_setting(part, cut)
    said = []
    if setting.miter.degrees:
        said.append(f"saw turned {notation.angle(setting.miter)}")
    if setting.tilt.degrees:
        said.append(f"blade tilted {notation.angle(setting.tilt)}")
    return ", ".join(said) or "saw set square"


def point_words(part: Part, notation: Notation, *, both: bool = False) -> str:
    """Say how long a part is to its long points and to its short ones; "" where its ends are square."""
    long, short = points_of(part)
    if long == short:
        return ""
    write = notation.both if both else notation.bare
    return f"{write(long)} to the long points, {write(short)} to the short points"


def shows(length: Length, notation: Notation) -> bool:
    """Tell whether a length is more than nothing to the nearest mark: "≈0 in shorter" helps nobody."""
    return notation.bare(length).removeprefix(ROUNDED) != "0"
