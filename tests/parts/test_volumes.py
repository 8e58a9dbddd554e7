"""What a part holds, by arithmetic, against its solid and against an independent mesh library."""

from fractions import Fraction
from math import pi, sin

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings

from plankit.parts import (
    Bore,
    Box,
    Feature,
    Notch,
    Part,
    PocketHoles,
    Roundover,
    runs_along,
    solid,
    volume,
    weight,
)
from plankit.parts.sawn_solid import ROUND, SMALL_ROUND, sides
from plankit.stock import lumber, sheet
from plankit.units import L, Length
from tests.parts.one_of_each import (
    BANDED,
    BEVELLED,
    BORED,
    CHAMFERED,
    CHAMFERED_ROUND,
    COMPOUND,
    COUNTERSUNK,
    COVED,
    CUP,
    DADO,
    DOWELED_END,
    GROOVED,
    LEFT_ON,
    MITRED,
    NOTCHED,
    ONE_OF_EACH,
    PLAIN,
    POCKETED,
    RABBETED,
    ROUNDED,
    ROUNDED_ROUND,
    SLOTTED,
    TAPERED,
    TINY,
    turned,
)
from tests.strategies import feet, panels, rails, turns

CUBIC_INCH = Fraction(254, 10) ** 3


def polygon(count: int) -> float:
    """The share of a circle that a regular polygon of so many sides in it holds."""
    return count / (2 * pi) * sin(2 * pi / count)


def facets(part: Part) -> float:
    """How much more the solid's flat facets take off round edges than the arcs that they stand for."""
    rounds = [one for one in part.features if isinstance(one, Roundover)]
    more = 0.0
    for one in rounds:
        radius = float(one.size.mm)
        depth = np.sin(np.linspace(0, pi / 2, sides(2 * radius) // 4 + 1)) * radius
        gone = radius - np.sqrt(np.maximum(radius**2 - depth**2, 0))
        more += (np.trapezoid(gone, depth) - (1 - pi / 4) * radius**2) * float(
            part.box.extent(runs_along(one.edge)).mm
        )
        if part is ROUNDED_ROUND:  # each of its four corners is counted twice, by facets as by arcs
            square = np.sum(np.diff(depth) * (gone[1:] ** 2 + gone[1:] * gone[:-1] + gone[:-1] ** 2) / 3)
            more -= square - radius**3 * (5 / 3 - pi / 2)
    return more


def inches(part: Part) -> Fraction:
    return volume(part) / CUBIC_INCH


def mesh(part: Part) -> trimesh.Trimesh:
    made = solid(part).to_mesh64()
    return trimesh.Trimesh(np.asarray(made.vert_properties)[:, :3], np.asarray(made.tri_verts), process=False)


def test_plain_and_notched_and_grooved_parts_by_hand() -> None:
    assert inches(PLAIN) == 30 * 12 * Fraction(3, 4)
    assert inches(NOTCHED) == 270 - 2 * Fraction(3, 2) * Fraction(3, 4)  # a 2 × 1 1/2 in corner
    assert inches(GROOVED) == 270 - 30 * Fraction(1, 4) * Fraction(1, 4)  # 1/4 wide, 1/4 deep
    assert inches(BANDED) == 270  # banding belongs to the finished size
    assert inches(TINY) == Fraction(1, 64) ** 3


def test_a_foot_tapered_on_two_faces_by_hand() -> None:
    # Simpson: top 3 1/2 × 3 1/2, middle 3 × 3 1/4, bottom 2 1/2 × 3; 4 in high
    sections = Fraction(7, 2) ** 2 + 4 * 3 * Fraction(13, 4) + Fraction(5, 2) * 3
    assert inches(TAPERED) == 4 * sections / 6


def test_a_foot_tapered_on_two_faces_as_a_hull_of_its_eight_corners() -> None:
    # corners by hand: the floor end starts 1 in from the left and 1/2 in from the front; hull by trimesh
    top = [(x, y, 4.0) for x in (0, 3.5) for y in (0, 3.5)]
    bottom = [(x, y, 0.0) for x in (1, 3.5) for y in (0.5, 3.5)]
    hull = trimesh.convex.convex_hull(np.array([*top, *bottom], dtype=float))
    assert hull.volume == pytest.approx(float(inches(TAPERED)), rel=1e-9)


def test_a_mitre_takes_half_a_block() -> None:
    # 24 in rail, 3 1/2 wide, 3/4 thick; a 45° mitre takes 3 1/2 × 3 1/2 ÷ 2 × 3/4
    assert inches(MITRED) == Fraction(3, 4) * (24 * Fraction(7, 2) - Fraction(49, 8))


def test_a_compound_mitre_takes_the_end_s_area_times_its_depth_in_the_middle() -> None:
    # 2 in along the bottom and 1/2 in along the front of a 3 1/2 × 3/4 end: (2 + 1/2) ÷ 2 deep in the middle
    assert inches(COMPOUND) == Fraction(3, 4) * Fraction(7, 2) * (24 - Fraction(5, 4))


def test_a_bevel_takes_half_a_strip() -> None:
    # 1/2 in narrower on the front of a 3/4 in board, 24 in long: 1/2 × 3/4 ÷ 2
    assert inches(BEVELLED) == 24 * (Fraction(21, 8) - Fraction(3, 16))


def test_channels_take_what_lies_in_them() -> None:
    assert inches(RABBETED) == 270 - 30 * Fraction(3, 8) * Fraction(1, 4)
    assert inches(DADO) == 270 - Fraction(3, 4) * Fraction(1, 4) * (12 - Fraction(1, 2))  # stops 1/2 in short


def test_a_chamfer_takes_half_a_square_and_a_corner_once() -> None:
    assert inches(CHAMFERED) == 270 - 30 * Fraction(1, 4) ** 2 / 2
    # all round: (30 + 12) × 2 long; at each of four corners two prisms share a pyramid of c × c ÷ 2 × c × 2/3
    corner = Fraction(1, 8) ** 3 / 3
    assert inches(CHAMFERED_ROUND) == 270 - 84 * Fraction(1, 8) ** 2 / 2 + 4 * corner


def test_a_roundover_takes_what_a_quarter_circle_leaves_of_its_square() -> None:
    # (1 − π/4) r² L, geometry of the circle; two edges of 24 in, radii 1/4 and 3/8 in
    taken = (1 - pi / 4) * (0.25**2 + 0.375**2) * 24
    assert float(63 - inches(ROUNDED)) == pytest.approx(taken, rel=1e-12)
    # at a corner two roundovers share ∫ (r − √(r² − u²))² du, integrated here in fine slices
    deep = np.linspace(0, 0.25, 400_001)
    corner = float(np.trapezoid((0.25 - np.sqrt(0.25**2 - deep**2)) ** 2, deep))
    wanted = 84 * (1 - pi / 4) * 0.25**2 - 4 * corner
    assert float(270 - inches(ROUNDED_ROUND)) == pytest.approx(wanted, rel=1e-6)


def test_what_is_left_on_belongs_to_the_piece_and_not_to_the_part() -> None:
    assert inches(LEFT_ON) == 270
    assert LEFT_ON.cut_size() == (L("30 1/2 in"), L("12 1/4 in"))  # 30 + 1/2 at the left, 12 + 1/4 at the back


def test_round_holes_take_what_a_cylinder_holds() -> None:
    bored = float(270 - inches(BORED))
    assert bored == pytest.approx(pi * 0.5**2 * 0.5, rel=1e-12)  # 1 in across, 1/2 deep
    sunk = float(270 - inches(COUNTERSUNK))
    # 3/16 in through 3/4, widened to 3/8 by a 90° cone: frustum of 3/32 less the hole inside it
    cone = pi * (3 / 32) / 3 * ((3 / 16) ** 2 + (3 / 16) * (3 / 32) + (3 / 32) ** 2)
    assert sunk == pytest.approx(pi * (3 / 32) ** 2 * (0.75 - 3 / 32) + cone, rel=1e-12)
    slot = float(270 - inches(SLOTTED))
    assert slot == pytest.approx((pi * (3 / 32) ** 2 + 3 / 16 * 3 / 8) * 0.75, rel=1e-12)


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_the_solid_holds_what_arithmetic_says(part: Part) -> None:
    # manifold3d; a round cut is a polygon there, so it takes that polygon's share of what the circle takes
    whole = float(part.box.size[0].mm * part.box.size[1].mm * part.box.size[2].mm)
    taken, cut = whole - float(volume(part)), whole - solid(part).volume()
    small = polygon(SMALL_ROUND)
    share = {BORED: polygon(ROUND), CUP: polygon(ROUND), COVED: polygon(ROUND)}.get(part, 1.0)
    share = {COUNTERSUNK: small, POCKETED: small}.get(part, share)
    taken += facets(part)
    if part is DOWELED_END:  # 3/8 in across and 1 in deep, square to a cut that is exact
        taken -= pi * float(L("3/16 in").mm) ** 2 * float(L("1 in").mm) * (1 - small)
    if part is SLOTTED:  # its straight middle is exact, its round ends are not
        assert small * taken < cut < taken
    else:
        assert cut == pytest.approx(taken * share, rel=2e-4, abs=whole * 1e-9)


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_trimesh_finds_a_closed_solid_of_the_same_volume(part: Part) -> None:
    found = mesh(part)
    assert found.is_watertight
    assert found.volume == pytest.approx(solid(part).volume(), rel=1e-9)


@pytest.mark.parametrize("thickness", ["1/2", "5/8", "3/4", "1", "1 1/2"])
def test_a_pocket_hole_takes_a_slanting_cylinder(thickness: str) -> None:
    # a cylinder of 3/8 in at 15° between the face and the shoulder, integrated here in thin slices square to
    # its axis direction across the lean: chord × length left of it, none where it has left the wood
    thick = float(L(thickness, "in").inches)
    shoulder = max(9 / 16, 0.75 * thick)
    middle, radius = thick / 2 / sin(pi / 12) - shoulder, 3 / 16
    across = np.linspace(-radius, radius, 200_001)
    length = np.maximum(0.0, middle + across / np.tan(pi / 12))
    wanted = float(np.trapezoid(2 * np.sqrt(radius**2 - across**2) * length, across))
    whole = Box(*(L(end, "in") for end in ("0", "12", "0", "4", "0", thickness)))
    stock = lumber("1x4", species="Douglas-fir")
    part = Part("end", "End", "board", stock, whole, "x", "z", (PocketHoles("top", "right", (L("2 in"),)),))
    assert float(48 * L(thickness, "in").inches - inches(part)) == pytest.approx(wanted, rel=1e-6)


@given(feet())
@settings(max_examples=40, deadline=None)
def test_any_tapered_foot_agrees_with_its_solid(part: Part) -> None:
    assert solid(part).volume() == pytest.approx(float(volume(part)), rel=1e-9)


@given(panels() | rails(), turns())
@settings(max_examples=40, deadline=None)
def test_turning_or_mirroring_a_part_changes_no_volume(part: Part, turn) -> None:
    other = turned(part, turn)
    assert volume(other) == volume(part)
    assert solid(other).volume() == pytest.approx(solid(part).volume(), rel=1e-9)


def test_weight_is_volume_times_density() -> None:
    # PS 1 trade-association rule: softwood plywood 3 lb/sq ft and inch; 1/2 in, 32 sq ft: 48 lb
    ply = sheet("plywood", "1/2")
    whole = Box(*(L(end, "in") for end in ("0", "96", "0", "48", "0", "1/2")))
    assert weight(Part("a", "A", "panel", ply, whole, "x", "z")).lb == 48
    # Wood Handbook eq. 4-14: loblolly pine 0.51 at 12 %: 62.4 × 0.51 × 1.12 = 35.643 lb/ft³; a 4x4 has
    # 12 1/4 sq in of section, so a foot of it weighs 12.25/144 × 35.643 = 3.0321 lb
    post = lumber("4x4", species="loblolly pine")
    foot = Box(*(L(end, "in") for end in ("0", "3 1/2", "0", "3 1/2", "0", "12")))
    assert float(weight(Part("b", "B", "board", post, foot, "z", "y")).lb) == pytest.approx(3.0321, abs=1e-4)


def test_a_mirrored_foot_is_as_heavy() -> None:
    assert weight(TAPERED.mirrored("x", L("22 in"), "foot-2")) == weight(TAPERED)
    assert Length.zero() == TAPERED.box.left


def bored(*, top: str, notched: bool = False) -> Part:
    """A 4x4, 10 in long, with a 2 in hole from front to back, so far from its top."""
    post = Part("post", "Post", "board", lumber("4x4", species="Douglas-fir"),
                Box(*(L(one, "in") for one in ("0", "10", "0", "3 1/2", "0", "3 1/2"))), "x", "z")  # fmt: skip
    at = (L("5 in"), L("0 in"), L("3 1/2 in") - L(top, "in"))
    cuts: list[Feature] = [Bore("front", at, L("2 in"))]
    if notched:
        cuts.append(Notch(Box(*(L(one, "in") for one in ("4", "6", "0", "3 1/2", "2 1/2", "3 1/2")))))
    return post.with_features(cuts)


@pytest.mark.parametrize(("top", "notched"), [("1 3/4", False), ("1/8", False), ("1 3/4", True)])
def test_a_wide_hole_that_breaks_out_or_meets_a_notch_weighs_what_is_gone(top: str, notched: bool) -> None:
    # half of a 2 in hole over the edge takes little more than half; the solid's circle has flat facets
    part = bored(top=top, notched=notched)
    weighed = float(weight(part).kg / part.stock.density.mass_of(Fraction(1)).kg)
    assert weighed == pytest.approx(solid(part).volume(), rel=1e-3)
