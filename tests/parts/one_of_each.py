"""One part of each kind: plain, board, notched, tapered, mitred, bored, slotted, grooved, banded, tiny …"""

from dataclasses import replace

from plankit.parts import (
    Banding,
    Bevel,
    Bore,
    Box,
    Chamfer,
    CompoundMitre,
    Cove,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Roundover,
    Taper,
    Turn,
    edges_round,
)
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

FOUR_TAPERS = replace(
    TAPERED,
    id="four-tapers",
    features=tuple(
        Taper(face, "bottom", L(amount), L(run))
        for face, amount, run in (
            ("left", "1 in", "4 in"), ("right", "1/2 in", "3 in"), ("front", "3/4 in", "4 in"),
            ("back", "1/4 in", "2 in"),
        )
    ),
)  # fmt: skip
TILTED = replace(BOARD, id="tilted", features=(Mitre("left", "back", L("3/4 in")),))
COMPOUND = replace(
    BOARD, id="compound", features=(CompoundMitre("right", "bottom", L("2 in"), "front", L("1/2 in")),)
)
BOTH_ENDS = replace(
    BOARD,
    id="both-ends",
    features=(
        CompoundMitre("right", "top", L("3 in"), "back", L("1/4 in")),
        CompoundMitre("left", "top", L("3 in"), "back", L("1/4 in")),
    ),
)
DOWELED_END = replace(
    MITRED,
    id="doweled-end",
    features=(
        *MITRED.features,
        Bore("right", (NOTHING, L("3/8 in"), L("1 3/4 in")), L("3/8 in"), L("1 in"), "3/8 in dowel", sawn=True),
    ),
)
BEVELLED = replace(BOARD, id="bevelled", features=(Bevel("top", "front", L("1/2 in")),))
TWO_BEVELS = replace(
    PLAIN, id="two-bevels", features=(Bevel("front", "top", L("3/4 in")), Bevel("back", "bottom", L("1/4 in")))
)
RABBETED = replace(PLAIN, id="rabbeted", features=(Groove("top", box("0", "30", "11 5/8", "12", "1/2", "3/4")),))
DADO = replace(PLAIN, id="dado", features=(Groove("top", box("10", "10 3/4", "1/2", "12", "1/2", "3/4")),))
CUP = replace(
    PLAIN,
    id="cup",
    features=(Bore("bottom", (L("4 in"), L("22 mm"), NOTHING), L("35 mm"), L("12 mm"), "hinge cup"),),
)
CHAMFERED = replace(PLAIN, id="chamfered", features=(Chamfer(("front", "top"), L("1/4 in")),))
CHAMFERED_ROUND = replace(
    PLAIN, id="chamfered-round", features=tuple(Chamfer(edge, L("1/8 in")) for edge in edges_round("top"))
)
ROUNDED = replace(
    BOARD, id="rounded", features=(Roundover(("front", "top"), L("1/4 in")), Roundover(("back", "top"), L("3/8 in")))
)
ROUNDED_ROUND = replace(
    PLAIN, id="rounded-round", features=tuple(Roundover(edge, L("1/4 in")) for edge in edges_round("top"))
)
COVED = replace(BOARD, id="coved", features=(Cove(("front", "top"), L("1/2 in")),))
LEFT_ON = replace(PLAIN, id="left-on", features=(LeftOn("left", L("1/2 in")), LeftOn("back", L("1/4 in"))))
TO_FIT = replace(BOARD, id="to-fit", fit_to="between the sides")

ONE_OF_EACH = (
    PLAIN, BOARD, NOTCHED, TAPERED, MITRED, BORED, COUNTERSUNK, SLOTTED, GROOVED, POCKETED, BANDED, TINY,
    FOUR_TAPERS, TILTED, COMPOUND, BOTH_ENDS, BEVELLED, TWO_BEVELS, RABBETED, DADO, CUP, CHAMFERED,
    CHAMFERED_ROUND, ROUNDED, ROUNDED_ROUND, COVED, LEFT_ON, TO_FIT,
    DOWELED_END,
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
