"""Small pieces with something that opens, in inches: what moves, and what is in its way."""

from plankit.build import Build, Moving, Pivot
from plankit.parts import Box, Part, Point
from plankit.stock import sheet
from plankit.units import L, Length

PLY = sheet("plywood", "3/4")


def box(*ends: str) -> Box:
    """A box by its left, right, front, back, bottom and top."""
    return Box(*(L(end, "in") for end in ends))


def solid_part(name: str, space: Box, *features: object) -> Part:
    """A part of any size: what matters here is the space it fills."""
    part_id = name.lower().replace(" ", "-")
    return Part(part_id, name, "panel", PLY, space, "x", "y", features)  # type: ignore[arg-type]


def turning(
    kind: str, parts: tuple[str, ...], *at: str, axis: str = "x", sense: int = 1, **more: object
) -> Moving:
    x, y, z = (L(one, "in") for one in at)
    pivot = Pivot(axis, Point(x, y, z), sense)  # type: ignore[arg-type]
    return Moving("Bin", kind, parts, pivot, **more)  # type: ignore[arg-type]


def tilting(shelf: str = "16", *others: Part, high: str = "15", **more: object) -> Build:
    """A bin 8 deep and 15 high that tilts out about its lower front edge, under a shelf; the floor is 20 below.

    ```
        ═════════════  shelf, its underside at 16
        ┌──────┐
        │      │ 15
        ●──────┘
           8
    ```
    """
    parts = (
        solid_part("Holder", box("0", "10", "0", "8", "0", high)),
        solid_part(
            "Shelf",
            Box(L("-1 in"), L("11 in"), L("0 in"), L("13 in"), L(shelf, "in"), L(shelf, "in") + "1 in"),
        ),
        solid_part("Foot", box("20", "21", "0", "1", "-20", "0")),
        *others,
    )
    moving = turning("bin", ("holder",), "0", "0", "0", **more)
    return Build("Tilting", parts, moving=(moving,))


def drawn(front_top: str = "4") -> Build:
    """A drawer 12 deep that slides out under a rail, whose underside is at 5."""
    parts = (
        solid_part("Drawer", box("0", "10", "1", "13", "0", front_top)),
        solid_part("Rail", box("0", "10", "-3", "-2", "5", "7")),
    )
    moving = Moving("Drawer", "drawer", ("drawer",), slides=("front", L("9 in")))
    return Build("Drawn", parts, moving=(moving,))


def inches(text: str) -> Length:
    return L(text, "in")
