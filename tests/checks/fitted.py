"""Cases with hardware for the checks: each is right, and one change makes it wrong."""

from dataclasses import replace

from plankit.build import CUP_HINGE, Build, CupHinge, cup_hinges, glue
from plankit.build.pins import METRIC_PIN, PinRows, pin_holes, row_heights, shelf_pins
from plankit.parts import Part
from plankit.units import L, Length
from tests.build.hung import FLOOR, OTHER, OVER, SIDE
from tests.checks.small_builds import with_part
from tests.parts.one_of_each import PLY, box

TOP = replace(FLOOR, id="top", name="Top", box=FLOOR.box.moved("z", L("35 1/4 in")))
CASE = Build(
    "Case", (SIDE, OTHER, FLOOR, TOP), tuple(glue(one, two) for one in (FLOOR, TOP) for two in (SIDE, OTHER))
)
ROWS = PinRows(row_heights(L("6 in"), L("30 in")), (L("2 in"), L("12 in")), "y", METRIC_PIN, L("3/8 in"))
SHELF = Part("shelf", "Shelf", "panel", PLY, box("13/16", "29 3/16", "1/4", "14", "0", "3/4"), "x", "z")


def hung(hinge: CupHinge = CUP_HINGE, door: Part = OVER, at: tuple[str, ...] = ("4", "32")) -> Build:
    """The case with an overlay door on cup hinges at its left side."""
    made = cup_hinges(door, SIDE, hinge, tuple(L(one, "in") for one in at))
    side = SIDE.with_features(made.in_on)
    parts = (side, *CASE.parts[1:], door.with_features(made.in_door))
    return replace(CASE, parts=parts, items=made.items)


def pinned(row: int = 5, other: PinRows = ROWS, shelf: Part = SHELF, rows: PinRows = ROWS) -> Build:
    """The case with rows of pin holes in both sides and a shelf on pins in one of them.

    ```
    ║·            ·║
    ║·▂▂▂▂▂▂▂▂▂▂▂▂·║   shelf on its pins
    ║·            ·║
    ```
    """
    left = SIDE.with_features(pin_holes(SIDE, "right", rows))
    right = OTHER.with_features(pin_holes(OTHER, "left", other))
    height = rows.heights[row]
    lies = replace(shelf, box=shelf.box.moved("z", height + METRIC_PIN.portion(2)))
    pins = shelf_pins(lies, ((left, "right"), (right, "left")), rows, height)
    build = replace(CASE, parts=(left, right, FLOOR, TOP), items=pins)
    return with_part(build, lies)


def raised(rows: PinRows, by: Length) -> PinRows:
    return replace(rows, heights=tuple(height + by for height in rows.heights))
