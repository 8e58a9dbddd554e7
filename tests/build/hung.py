"""A case with a door in each way that one can hang, for the tests of hardware."""

from plankit.parts import Box, Part
from plankit.stock import sheet
from plankit.units import L, Length
from tests.parts.one_of_each import PLY, box

SIDE = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "14", "0", "36"), "z", "x")
OTHER = Part("side-2", "Side", "panel", PLY, box("29 1/4", "30", "0", "14", "0", "36"), "z", "x")
FLOOR = Part("bottom", "Bottom", "panel", PLY, box("3/4", "29 1/4", "0", "14", "0", "3/4"), "x", "z")
INSET = Part("door", "Door", "panel", PLY, box("13/16", "15", "0", "3/4", "13/16", "35 3/16"), "z", "y")
"""Between the sides, 1/16 in beside the left one, flush with its front."""
OVER = Part("door", "Door", "panel", PLY, box("1/16", "15", "-3/4", "0", "1/16", "35 15/16"), "z", "y")
"""Before the case, 1/16 in of the left side in sight: it covers 11/16 in."""
HALF = Part("door", "Door", "panel", PLY, box("7/16", "15", "-3/4", "0", "1/16", "35 15/16"), "z", "y")
"""Before the case, half of the left side's edge covered, less 1/16 in: it covers 5/16 in."""
FLAP = Part("flap", "Flap", "panel", PLY, box("13/16", "29 3/16", "0", "3/4", "13/16", "12"), "x", "y")
"""Between the sides, standing 1/16 in above the floor: hung at its bottom."""


def door(width: str, height: str, thickness: str = "3/4", kind: str = "plywood") -> Part:
    """An inset door beside the left side, so wide and high."""
    ply = sheet(kind, thickness)
    left, bottom = L("13/16 in"), L("0 in")
    ends = Box(left, left + L(width, "in"), Length.zero(), ply.thickness, bottom, L(height, "in"))
    return Part("door", "Door", "panel", ply, ends, "z", "y")
