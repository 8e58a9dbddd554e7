"""How a saw is set for a slanting cut: by turning vectors, and against published tables."""

import re
from dataclasses import replace
from math import asin, atan2, cos, degrees, hypot, pi, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.parts import (
    OPPOSITE,
    Bevel,
    CompoundMitre,
    Mitre,
    Part,
    SawSetting,
    compound_at,
    lengths_of,
    mitre_at,
    points_of,
    saw_setting,
    solid,
)
from plankit.units import Angle, L
from tests.parts.one_of_each import BEVELLED, BOARD, BOTH_ENDS, COMPOUND, MITRED, POST, TILTED, size
from tests.published import published


def rows(start: str) -> list[dict[str, str]]:
    return [row for row in published("compound_angles") if row["id"].startswith(start)]


def answers(row: dict[str, str]) -> tuple[float, float]:
    """Both settings: "mitre 31.62; bevel 33.86"."""
    found = re.fullmatch(r"mitre ([\d.]+); bevel ([\d.]+)", row["answer"])
    assert found
    return float(found[1]), float(found[2])


def sawn_normal(part: Part, cut: CompoundMitre | Mitre) -> np.ndarray:
    """The normal of the sawn end, out of the part's solid: length, width and thickness."""
    mesh = solid(replace(part, features=(cut,))).to_mesh64()
    points = np.asarray(mesh.vert_properties)[:, :3]
    corners = points[np.asarray(mesh.tri_verts)]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals = cross / np.linalg.norm(cross, axis=1)[:, None]
    slanting = normals[np.abs(normals).max(axis=1) < 1 - 1e-9]
    assert np.allclose(slanting, slanting[0])
    return np.abs(slanting[0][["xyz".index(axis) for axis in (part.grain, part.across, part.through)]])


def blade_normal(miter: float, tilt: float) -> np.ndarray:
    """The normal of a saw's blade: square to the fence at first, tilted about the fence's square, then turned.

    x lies along the fence, y across the table, z upright; the blade's normal is x while both settings are 0.
    """
    turn = np.array([[cos(miter), -sin(miter), 0], [sin(miter), cos(miter), 0], [0, 0, 1]])
    lean = np.array([[cos(tilt), 0, sin(tilt)], [0, 1, 0], [-sin(tilt), 0, cos(tilt)]])
    return np.abs(turn @ lean @ np.array([1.0, 0.0, 0.0]))


@given(
    st.sampled_from(("top", "bottom")), st.sampled_from(("front", "back")), st.integers(1, 150), st.integers(1, 60)
)
@settings(max_examples=60, deadline=None)
def test_a_saw_set_like_this_cuts_the_end_that_the_solid_has(wide, thick, along, across) -> None:
    cut = CompoundMitre("right", wide, L("1/16 in") * along, thick, L("1/16 in") * across)
    found = saw_setting(BOARD, cut)
    blade = blade_normal(radians(float(found.miter.degrees)), radians(float(found.tilt.degrees)))
    assert blade == pytest.approx(sawn_normal(BOARD, cut), abs=1e-7)


@pytest.mark.parametrize("row", rows("AN-B"), ids=lambda row: row["id"])
def test_the_sides_of_a_box_that_flares_meet_with_the_published_settings(row: dict[str, str]) -> None:
    """The corner between two sides lies in an upright plane at 180/n degrees: brought into the board's axes here.

    A side's long edge lies along x; its face leans out by `tilt`, so that going up its width one goes
    outwards (sin tilt) and up (cos tilt), and going through it inwards (−cos tilt) and up (sin tilt).
    """
    number, tilt = (float(found) for found in re.findall(r"=([\d.]+)", row["inputs"]))
    corner, lean = pi / number, radians(tilt)
    # the mitre's plane holds the upright and runs outwards at `corner`: x = y tan(corner), y inwards to outwards
    a, b = np.tan(corner) * sin(lean), np.tan(corner) * cos(lean)
    miter, bevel = answers(row)
    part = replace(BOARD, box=size("2000", "3/4", "3 1/2"))  # long enough for the flattest cut
    wide, thick = part.width * _tangent(a), part.thickness * _tangent(b)
    if tilt == 0:
        found = saw_setting(part, Mitre("right", "back", thick))
    else:
        found = saw_setting(part, CompoundMitre("right", "top", wide, "back", thick))
    assert float(found.miter.degrees) == pytest.approx(miter, abs=0.005)
    assert float(found.tilt.degrees) == pytest.approx(bevel, abs=0.005)


def _tangent(value: float):
    from fractions import Fraction

    return Fraction(round(value * 10**9), 10**9)


@pytest.mark.parametrize("row", rows("AN-C"), ids=lambda row: row["id"])
def test_a_moulding_that_springs_from_the_wall_is_cut_flat_with_the_published_settings(row) -> None:
    """It stands `spring` out of the wall; the corner's plane is upright and halves the corner."""
    spring, corner = (radians(float(found)) for found in re.findall(r"([\d.]+) deg", row["inputs"]))
    outwards, upright = sin(spring), cos(spring)  # of its width; its thickness has these the other way round
    a, b = outwards / np.tan(corner / 2), upright / np.tan(corner / 2)
    cut = CompoundMitre(
        "right", "top", BOARD.width * _tangent(a), "back", BOARD.thickness * _tangent(b)
    )
    found = saw_setting(BOARD, cut)
    assert (float(found.miter.degrees), float(found.tilt.degrees)) == pytest.approx(answers(row), abs=0.005)


@pytest.mark.parametrize("row", rows("AN-U"), ids=lambda row: row["id"])
def test_two_widths_meet_in_a_square_corner_with_settings_that_sum_to_90(row: dict[str, str]) -> None:
    one, two = re.findall(r"[\d.]+", row["inputs"])
    on_two, on_one = (float(found) for found in re.findall(r"piece ([\d.]+)", row["answer"]))
    for width, back, wanted in ((two, one, on_two), (one, two, on_one)):
        part = replace(BOARD, box=size("24", "3/4", width))
        found = saw_setting(part, Mitre("right", "top", L(back, "in")))
        assert float(found.miter.degrees) == pytest.approx(wanted, abs=0.005)
        assert found.tilt.degrees == 0


@given(st.integers(1, 120), st.integers(1, 120))
@settings(max_examples=60, deadline=None)
def test_what_a_saw_cuts_is_read_back_as_its_settings(miter: int, tilt: int) -> None:
    from fractions import Fraction

    wanted = SawSetting(Angle(Fraction(miter, 2)), Angle(Fraction(tilt, 2)))
    part = replace(BOARD, box=size("200", "3/4", "3 1/2"))
    cut = compound_at(part, "left", ("front", "bottom"), wanted)
    assert (cut.short, cut.also_short) == ("bottom", "front")  # the edge first, then the wide face
    found = saw_setting(part, cut)
    assert float(found.miter.degrees) == pytest.approx(miter / 2, abs=1e-8)
    assert float(found.tilt.degrees) == pytest.approx(tilt / 2, abs=1e-8)


def test_a_35_degree_setting_leaves_55_degrees_to_the_edge() -> None:
    cut = mitre_at(BOARD, "right", "top", Angle.read("35°"))
    x, y, _ = sawn_normal(BOARD, cut)
    # the cut's line lies square to its normal: its angle to the edge, which runs along x
    assert degrees(atan2(x, y)) == pytest.approx(55, abs=1e-8)
    assert float(cut.setback.inches) == pytest.approx(3.5 * 0.70021, abs=1e-4)  # tan 35° = 0.70021


def test_45_degrees_set_back_exactly_as_much_as_the_board_is_wide() -> None:
    assert mitre_at(BOARD, "right", "top", Angle.read(45)).setback == L("3 1/2 in")


def test_a_mitre_through_the_thickness_is_cut_with_the_blade_tilted() -> None:
    found = saw_setting(TILTED, TILTED.features[0])  # 3/4 back over 3/4 of thickness
    assert (found.miter.degrees, found.tilt.degrees) == (0, 45)
    flat = saw_setting(MITRED, MITRED.features[0])  # 3 1/2 back over 3 1/2 of width
    assert (flat.miter.degrees, flat.tilt.degrees) == (45, 0)


def test_a_bevel_is_the_blade_s_tilt() -> None:
    found = saw_setting(BEVELLED, BEVELLED.features[0])
    assert float(found.tilt.degrees) == pytest.approx(degrees(asin(0.5 / hypot(0.5, 0.75))), abs=1e-8)


def test_lengths_from_point_to_point() -> None:
    # 24 in; 2 in shorter along the bottom and 1/2 in along the front, both where they meet
    assert lengths_of(COMPOUND) == {
        ("front", "bottom"): L("21 1/2 in"),
        ("front", "top"): L("23 1/2 in"),
        ("back", "bottom"): L("22 in"),
        ("back", "top"): L("24 in"),
    }
    assert points_of(COMPOUND) == (L("24 in"), L("21 1/2 in"))
    assert points_of(BOTH_ENDS) == (L("24 in"), L("17 1/2 in"))  # 24 − 2 × (3 + 1/4)
    assert points_of(BOARD) == (L("24 in"), L("24 in"))


def test_a_part_is_as_long_as_its_solid_along_every_corner() -> None:
    from plankit.parts import Box, block

    for faces, length in lengths_of(COMPOUND).items():
        ends = {face: COMPOUND.box.face(face) for face in ("left", "right", "front", "back", "bottom", "top")}
        for face in faces:  # a splinter along that corner
            thin = L("1/1000 mm") if OPPOSITE[face] in {"back", "top"} else L("-1/1000 mm")
            ends[OPPOSITE[face]] = ends[face] + thin
        left, _, _, right, _, _ = (solid(COMPOUND) ^ block(Box(**ends))).bounding_box()
        assert right - left == pytest.approx(float(length.mm), abs=0.01)


def test_a_bevel_on_the_thickness_of_a_square_post_is_measured_on_the_face_it_shortens() -> None:
    post = Part("p", "Post", "board", POST, size("3 1/2", "3 1/2", "20"), "z", "y")
    found = saw_setting(post, Bevel("left", "front", L("3 1/2 in")))
    assert found.tilt.degrees == 45
