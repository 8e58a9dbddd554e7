"""Boxes of any number of sloping sides: saw settings by turning vectors, against the published ones."""

import re
from fractions import Fraction
from math import cos, pi, radians, sin

import numpy as np
import pytest

from plankit.parts import CompoundMitre, Mitre, saw_setting
from tests.parts.one_of_each import BOARD, size
from tests.published import published

ROWS = [row for row in published("compound_angles") if row["id"].startswith("AN-B")]
LONG = size("2000", "3/4", "3 1/2")


def turned_about_the_upright(angle: float) -> np.ndarray:
    return np.array([[cos(angle), -sin(angle), 0.0], [sin(angle), cos(angle), 0.0], [0.0, 0.0, 1.0]])


def slopes(number: int, tilt: float) -> tuple[float, float]:
    """How the corner's plane runs across a side's width and through it, for each unit along its length.

    A side faces outwards and a little down where it leans out; its neighbour is the same side turned about the
    upright by a full turn over the number of sides. The plane that halves their corner is square to the difference
    of the two faces' normals.
    """
    face = np.array([0.0, cos(tilt), -sin(tilt)])
    neighbour = turned_about_the_upright(2 * pi / number) @ face
    corner = face - neighbour
    along = np.array([1.0, 0.0, 0.0])
    up_the_side = np.array([0.0, sin(tilt), cos(tilt)])
    assert abs(face @ up_the_side) < 1e-12
    a, b = (corner @ way / (corner @ along) for way in (up_the_side, face))
    return abs(float(a)), abs(float(b))


def exactly(value: float) -> Fraction:
    return Fraction(round(value * 10**12), 10**12)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_settings_by_turning_vectors_are_the_published_ones(row: dict[str, str]) -> None:
    # the published pair: mitre from a square crosscut, bevel as the blade's tilt; the row's tilt is from upright
    number, tilt = re.findall(r"=([\d.]+)", row["inputs"])
    mitre, bevel = (float(one) for one in re.findall(r"[\d.]+", row["answer"].replace(";", " ")))
    across, through = slopes(int(number), radians(float(tilt)))
    part = BOARD.__class__(BOARD.id, BOARD.name, BOARD.kind, BOARD.stock, LONG, BOARD.grain, BOARD.through)
    back = part.thickness * exactly(through)
    if across < 1e-9:
        found = saw_setting(part, Mitre("right", "back", back))
    else:
        found = saw_setting(part, CompoundMitre("right", "top", part.width * exactly(across), "back", back))
    assert float(found.miter.degrees) == pytest.approx(mitre, abs=0.01)
    assert float(found.tilt.degrees) == pytest.approx(bevel, abs=0.01)


def test_a_picture_frame_is_a_box_laid_flat() -> None:
    # leaning all the way out, the corner is an ordinary mitre of 180/n
    across, through = slopes(4, radians(90))
    assert across == pytest.approx(1.0)
    assert through == pytest.approx(0.0, abs=1e-12)
