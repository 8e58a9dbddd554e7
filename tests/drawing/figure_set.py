"""Every figure of the bench-like build, and parts with one of each thing that can be done to a part."""

from functools import lru_cache

from bench_like import CLEAT, PLY, POST, STEPS, bench, box, driven, inch

from plankit.build import alike
from plankit.drawing.cutting_picture import CutOffcut, CutPiece, CutStroke, CuttingPicture
from plankit.drawing.figures_cutting import cutting_drawing
from plankit.drawing.figures_glue_up import glue_up_drawing
from plankit.drawing.figures_part import part_drawing
from plankit.drawing.figures_step import step
from plankit.drawing.figures_views import orthographic
from plankit.drawing.figures_whole import whole
from plankit.drawing.primitives import Figure
from plankit.parts import (
    Bevel,
    Bore,
    Chamfer,
    CompoundMitre,
    Groove,
    LeftOn,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Roundover,
    Taper,
)
from plankit.units import L, Notation

INCH, METRIC = Notation(), Notation("mm")
IN = 25.4


def steps(notation: Notation = INCH) -> tuple[Figure, ...]:
    made, present = [], ()
    for number, (ids, title, seen_from) in enumerate(STEPS, 1):
        screws = driven(ids, present)
        made.append(step(bench(), number, title, ids, present, screws, notation, seen_from))
        present = (*present, *ids)
    return tuple(made)


def part_figures(notation: Notation = INCH) -> dict[str, Figure]:
    return {
        group.label: part_drawing(
            group.first,
            group.label,
            f"{group.count} pieces",
            notation,
            group.other[0] if group.other else None,
        )
        for group in alike(bench())
    }


def sheet() -> CuttingPicture:
    """A 96 × 48 in sheet: one bottom, four sides, a strip, and an offcut."""
    sides = [
        placed("C", "Side", 0.25 + i * 12.375, 15.375, 12.25, 14.75, "12 1/4 × 14 3/4") for i in range(4)
    ]
    return CuttingPicture(
        "cut-1", "Sheet 1", "3/4 in plywood", "96 × 48 in", 96 * IN, 48 * IN, "96", "48", 2,
        (placed("B", "Bottom", 0.25, 0.25, 44, 15, "44 × 15"), *sides,
         placed("H", "Strip", 0.25, 30.25, 40, 1.5, "40 × 1 1/2")),
        (CutOffcut("Offcut 1", 0.25 * IN, 34 * IN, 95.5 * IN, 13.75 * IN, "95 1/2 × 13 3/4"),),
        (CutStroke(1, (0, 33.9 * IN), (96 * IN, 33.9 * IN)),
         CutStroke(2, (0, 15.3 * IN), (96 * IN, 15.3 * IN)),
         CutStroke(3, (44.3 * IN, 0), (44.3 * IN, 15.3 * IN)),
         CutStroke(4, (12.55 * IN, 15.3 * IN), (12.55 * IN, 30.2 * IN))),
        (6.0, 6.0, 6.0, 6.0),
    )  # fmt: skip


def narrow_board() -> CuttingPicture:
    """A 96 in 1x2: too narrow on paper for words in its pieces."""
    pieces = tuple(placed("F", "Cleat", 0.5 + i * 13.125, 0, 13, 1.5, "13") for i in range(5))
    cuts = tuple(
        CutStroke(i + 1, (x * IN, 0), (x * IN, 1.5 * IN)) for i, x in enumerate((0.44, 13.56, 26.69))
    )
    return CuttingPicture(
        "cut-2", "Board 1", "1x2 pine", "96 in", 96 * IN, 1.5 * IN, "96", "1 1/2", 1, pieces, (), cuts
    )  # fmt: skip


def placed(label, name, x, y, length, width, size) -> CutPiece:  # noqa: PLR0917 - a piece and where it lies
    return CutPiece(label, name, x * IN, y * IN, length * IN, width * IN, size)


def notched() -> Part:
    """A divider notched round a rail at its upper front corner: 3/4 deep from the front, 1 1/2 down."""
    cut = box("0", "3/4", "0", "3/4", "10 1/2", "12")
    return Part(
        "d", "Divider", "panel", PLY, box("0", "3/4", "0", "14", "0", "12"), "z", "x", (Notch(cut, "rail"),)
    )


def mitred() -> Part:
    """A brace of 1x2, 20 in long along its back, both ends at 45 degrees."""
    ends = (Mitre("left", "front", inch("1 1/2")), Mitre("right", "front", inch("1 1/2")))
    return Part("m", "Brace", "board", CLEAT, box("0", "20", "0", "1 1/2", "0", "3/4"), "x", "z", ends)


def grooved() -> Part:
    """A drawer side with a groove for its bottom and two blind holes."""
    groove = Groove("left", box("0", "1/4", "0", "16", "1/2", "3/4"), "bottom")
    holes = tuple(
        Bore("left", (inch("0"), inch(at), inch("2 1/2")), inch("1/4"), inch("3/8"), "pin")
        for at in ("3", "13")
    )
    return Part(
        "g", "Drawer side", "panel", PLY, box("0", "3/4", "0", "16", "0", "5"), "y", "x", (groove, *holes)
    )


def short_taper() -> Part:
    """A leg tapered on one face over its lower 10 in, untouched for the 4 in above."""
    taper = (Taper("right", "bottom", inch("3/4"), inch("10")),)
    return Part("leg", "Leg", "board", CLEAT, box("0", "1 1/2", "0", "3/4", "0", "14"), "z", "y", taper)


def rail() -> Part:
    """A rail with pocket holes at both ends."""
    holes = (PocketHoles("back", "left", (inch("3/4"),)), PocketHoles("back", "right", (inch("3/4"),)))
    return Part("r", "Rail", "board", CLEAT, box("0", "24", "0", "3/4", "0", "1 1/2"), "x", "y", holes)


def compound() -> Part:
    """A brace of 1x2 whose right end falls back 1 in along its front edge and 1/4 in along its bottom face."""
    cut = CompoundMitre("right", "front", inch("1"), "bottom", inch("1/4"))
    return Part("k", "Brace", "board", CLEAT, box("0", "20", "0", "1 1/2", "0", "3/4"), "x", "z", (cut,))


def bevelled() -> Part:
    """A cleat of 1x2 whose back edge is sawn at 45 degrees, 3/4 in narrower below; its front edges are eased."""
    done = (
        Bevel("back", "bottom", inch("3/4")),
        Chamfer(("front", "top"), inch("1/8")),
        Roundover(("front", "bottom"), inch("1/8")),
    )
    return Part("b", "Cleat", "board", CLEAT, box("0", "20", "0", "1 1/2", "0", "3/4"), "x", "z", done)


def pinned() -> Part:
    """A side with two rows of pin holes, a dado that stops and a rabbet; cut 1/2 in over at its top, and to fit."""
    holes = tuple(
        Bore("right", (inch("0"), inch(y), inch("6") + inch("1 1/4") * row), inch("1/4"), inch("3/8"), "pin")
        for y in ("2", "12")
        for row in range(8)
    )
    dado = Groove("right", box("1/2", "3/4", "1/2", "14", "3", "3 3/4"), "bottom")
    rabbet = Groove("right", box("3/8", "3/4", "13 3/4", "14", "0", "24"), "back")
    done = (*holes, dado, rabbet, LeftOn("top", inch("1/2")))
    whole = box("0", "3/4", "0", "14", "0", "24")
    return Part("p", "Side", "panel", PLY, whole, "z", "x", done, fit_to="between the rails")


def four_tapers() -> Part:
    """A leg tapered on all four faces over its lower 20 in, two of them more than the others."""
    cuts = tuple(
        Taper(face, "bottom", inch(off), inch("20"))
        for face, off in (("left", "1"), ("right", "1"), ("front", "1/2"), ("back", "1/2"))
    )
    return Part("q", "Leg", "board", POST, box("0", "3 1/2", "0", "3 1/2", "0", "28"), "z", "y", cuts)


def odd_parts() -> tuple[Part, ...]:
    return (
        notched(), mitred(), grooved(), short_taper(), rail(), compound(), bevelled(), pinned(), four_tapers(),
    )  # fmt: skip


@lru_cache(maxsize=2)
def every_figure(unit: str = "in") -> tuple[Figure, ...]:
    notation = INCH if unit == "in" else METRIC
    build = bench()
    return (
        whole(build, notation),
        *(orthographic(build, notation, side) for side in ("front", "side", "top")),
        *steps(notation),
        *part_figures(notation).values(),
        *(part_drawing(part, "X", "1 piece", notation) for part in odd_parts()),
        glue_up_drawing(build.part("top"), notation, "E"),
        cutting_drawing(sheet(), notation),
        cutting_drawing(narrow_board(), notation),
    )


__all__ = ["INCH", "METRIC", "L", "bench", "every_figure"]
