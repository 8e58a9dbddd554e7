"""One part of each kind: plain, board, notched, tapered, mitred, bored, slotted, grooved, banded, tiny …"""

from dataclasses import replace

from plankit.parts import Banding, Bore, Box, Groove, Mitre, Notch, Part, PocketHoles, Taper, Turn
from plankit.stock import lumber, sheet
from plankit.units import L, Length

PLY = sheet("plywood", "3/4")
POST = lumber("4x4", species="loblolly pine")
RAIL = lumber("1x4", species="Douglas-fir")
NOTHING = Length.zero()


def box(*ends: str) -> Box:
    """A box from its six faces in inches: left, right, front, back, bottom, top."""
    return Box(*(L(end, "in") for end in ends))


def size(*extents: str) -> Box:
    """A box from the origin, so wide, deep and high in inches."""
    x, y, z = (L(extent, "in") for extent in extents)
    return Box(NOTHING, x, NOTHING, y, NOTHING, z)


PLAIN = Part("panel", "Panel", "panel", PLY, size("30", "12", "3/4"), "x", "z")
BOARD = Part("rail", "Rail", "board", RAIL, box("2", "26", "1", "1 3/4", "3", "6 1/2"), "x", "y")
NOTCHED = replace(PLAIN, id="notched", features=(Notch(size("2", "1 1/2", "3/4")),))
TAPERED = Part(
    "foot", "Foot", "board", POST, size("3 1/2", "3 1/2", "4"), "z", "y",
    (Taper("left", "bottom", L("1 in"), L("4 in")), Taper("front", "bottom", L("1/2 in"), L("4 in"))),
)  # fmt: skip
MITRED = replace(BOARD, id="brace", features=(Mitre("right", "bottom", L("3 1/2 in")),))
BORED = replace(
    PLAIN, id="bored", features=(Bore("top", (L("4 in"), L("3 in"), NOTHING), L("1 in"), L("1/2 in")),)
)
COUNTERSUNK = replace(
    PLAIN,
    id="countersunk",
    features=(Bore("bottom", (L("9 in"), L("3 in"), NOTHING), L("3/16 in"), None, "", L("3/8 in")),),
)
SLOTTED = replace(
    PLAIN,
    id="slotted",
    features=(Bore("top", (L("9 in"), L("3 in"), NOTHING), L("3/16 in"), travel=L("3/8 in"), along="y"),),
)
GROOVED = replace(
    PLAIN, id="grooved", features=(Groove("top", box("0", "30", "10", "10 1/4", "1/2", "3/4")),)
)
POCKETED = replace(PLAIN, id="pocketed", features=(PocketHoles("top", "right", (L("2 in"), L("9 in"))),))
BANDED = replace(PLAIN, id="banded", features=(Banding("front", L("1/4 in")),))
TINY = Part("tiny", "Tiny", "board", RAIL, size("1/64", "1/64", "1/64"), "x", "y")

ONE_OF_EACH = (
    PLAIN, BOARD, NOTCHED, TAPERED, MITRED, BORED, COUNTERSUNK, SLOTTED, GROOVED, POCKETED, BANDED, TINY,
)  # fmt: skip


def turned(part: Part, turn: Turn, name: str = "turned") -> Part:
    """The same part lying otherwise along the axes; its mirror image where the turn is one."""
    return replace(
        part,
        id=name,
        box=Box(*(end for extent in turn.size(part.box.size) for end in (NOTHING, extent))),
        grain=turn.axis(part.grain),
        through=turn.axis(part.through),
        features=tuple(feature.turned(turn, part.box.size) for feature in part.features),
    )
