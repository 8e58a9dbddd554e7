"""How long a view takes: lines and regions of an invented 41-part case, as a share of a depth buffer's time.

Run from the project's folder: python tests/bench/drawing.py [rounds]. Prints medians of so many rounds (5).
The yardstick is the depth buffer of the drawing tests at 1 mm a pixel, in the same run on the same case.
"""

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "drawing"))

from builds import cabinet  # type: ignore[import-not-found]
from zbuffer import rasterise  # type: ignore[import-not-found]

from plankit.drawing.direction import direction
from plankit.drawing.view import look

TOWARDS = "isometric front right"


def made(copies: int = 1) -> list[tuple[str, object]]:
    """The case, or several side by side, with every solid already worked out by the kernel."""
    solids = [
        (f"{name} {copy}", solid.translate((1600.0 * copy, 0, 0)))
        for copy in range(copies)
        for name, solid in cabinet()
    ]
    for _, solid in solids:
        solid.num_tri()
    return solids


def median(rounds: int, prepare: Callable[[], object], work: Callable[[object], object]) -> float:
    """The median time in ms of one piece of work, its preparation left out."""
    times = []
    for _ in range(rounds):
        given = prepare()
        began = time.perf_counter()
        work(given)
        times.append((time.perf_counter() - began) * 1000)
    return statistics.median(times)


def main(rounds: int) -> None:
    """Time fresh solids, remembered ones, regions, and four times as many parts."""
    look(made(), TOWARDS)  # loads the libraries
    known, many = made(), made(4)
    yardstick = median(rounds, lambda: known, lambda solids: rasterise(solids, direction(TOWARDS), 1.0))
    rows = {
        "lines, solids seen for the first time": (made, {"fills": False}),
        "lines and regions, for the first time": (made, {}),
        "lines, solids remembered": (lambda: known, {"fills": False}),
        "lines and regions, remembered": (lambda: known, {}),
        "lines and regions, 164 parts, remembered": (lambda: many, {}),
    }
    print(f"{len(known)} parts; depth buffer {yardstick:.0f} ms")
    for name, (prepare, options) in rows.items():
        look(prepare(), TOWARDS)
        taken = median(rounds, prepare, lambda solids, options=options: look(solids, TOWARDS, **options))
        print(f"{taken:7.1f} ms  {taken / yardstick:6.3f} of the depth buffer   {name}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
