"""Strips glued on a face in a mitred frame, plain or with a profile."""

from math import pi

import numpy as np
import pytest

from plankit import stock
from plankit.checks import fit
from plankit.errors import PlanError
from plankit.parts import EASED, Mitre, block, points_of, solid, volume
from plankit.plan import Plan
from plankit.plan.cut_list import cut_plan
from plankit.plan.document import document
from plankit.plan.work import labels
from plankit.units import L, Notation

PLY = stock.sheet("plywood", "3/4")
STRIP = stock.lumber("1x2", species="loblolly pine")


@pytest.fixture
def door():
    plan = Plan("Cabinet")
    return plan, plan.panel("Door", PLY, left=0, right="16", back=0, bottom=0, top="24", grain="up")


def test_four_strips_meet_at_45_degrees_and_leave_the_opening(door):
    plan, panel = door
    strips = plan.moulding("Molding", STRIP, on=panel, face="front", set_in="2")
    # 16 − 2 × 2 = 12 and 24 − 2 × 2 = 20 outside; 2 × 1 1/2 less inside
    assert [points_of(strip.part) for strip in strips] == [
        (L("12 in"), L("9 in")), (L("12 in"), L("9 in")), (L("20 in"), L("17 in")), (L("20 in"), L("17 in")),
    ]  # fmt: skip
    assert all(strip.back == panel.front for strip in strips)
    cuts = [cut for strip in strips for cut in strip.part.features]
    assert all(isinstance(cut, Mitre) and cut.setback == L("1 1/2 in") for cut in cuts)


def test_the_strips_fit_each_other_and_are_glued_to_the_door(door):
    plan, panel = door
    strips = plan.moulding("Molding", STRIP, on=panel, face="front")
    build = plan.build()
    assert not fit(build, Notation())
    assert [(joint.kind, joint.to) for joint in build.joints] == [("glue", panel.id)] * 4
    # together they are a frame of 3/4 in strips: 16 × 24 less 13 × 21
    whole = sum(solid(strip.part).volume() for strip in strips)
    assert whole == pytest.approx(0.75 * (16 * 24 - 13 * 21) * 25.4**3, rel=1e-9)


def test_alike_strips_are_cut_alike(door):
    from plankit.build import alike

    plan, panel = door
    plan.moulding("Molding", STRIP, on=panel, face="front", set_in="1")
    groups = {group.first.name: group.count for group in alike(plan.build()) if group.first.length == L("14 in")}
    assert groups == {"Molding": 2}  # 16 − 2 × 1, and neither has a hand


def test_strips_too_wide_for_an_opening_are_refused(door):
    plan, panel = door
    with pytest.raises(PlanError, match="no opening between them"):
        plan.moulding("Molding", STRIP, on=panel, face="front", set_in="7")


# Profiles. For one strip: what is taken from its section, and how far the middle of that lies from the inner edge.
# A round of radius r takes (1 − π/4) r², a cove π r²/4 with its middle 4 r/3π away, a chamfer c²/2 at c/3. Mitred
# at 45 degrees at both ends, a fibre so far from the inner edge is 2 × that longer than there.
WIDE, THICK = 1.5, 0.75
ROUND = 1 - pi / 4


def fibres(area: float, from_inner: float, short: float) -> float:
    """What such an area takes from a strip that is so long at its inner edge."""
    return area * (short + 2 * from_inner)


def section(profile: str, size: float, shows: str) -> list[tuple[float, float]]:
    """The areas a profile takes off a section, each with the distance of its middle from the strip's inner edge."""
    middle = {
        # of a square r × r less its quarter disk, from the corner: (r³/2 − (π r²/4)(r − 4r/3π)) ÷ ((1 − π/4) r²)
        "quarter round": (0.5 - pi / 4 * (1 - 4 / (3 * pi))) / ROUND * size,
        "cove": 4 * size / (3 * pi),
        "chamfer": size / 3,
    }
    area = {"quarter round": ROUND * size**2, "cove": pi / 4 * size**2, "chamfer": size**2 / 2}
    if profile == "bead":
        one = section("quarter round", size, "inside")[0]
        return [one, (one[0], WIDE - one[1])]
    away = middle[profile] if shows == "inside" else WIDE - middle[profile]
    return [(area[profile], away)]


@pytest.mark.parametrize("shows", ["inside", "outside"])
@pytest.mark.parametrize(
    ("profile", "size"),
    [("quarter round", 0.75), ("quarter round", 0.375), ("cove", 0.5), ("bead", 0.75), ("chamfer", 0.5)],
)
def test_a_profiled_strip_has_the_volume_of_its_closed_form(door, profile: str, size: float, shows: str) -> None:
    """The closed form by Pappus's rule for a slanting cut: an area times the length of the fibre through its middle.

    The solid's circles have 32 sides: a quarter's polygon, (1/2) 8 sin(π/16) of r², is 0.64 % less than π/4 of it.
    """
    plan, panel = door
    strips = plan.moulding("Molding", STRIP, on=panel, face="front", profile=profile, size=f"{size}", shows=shows)
    for strip in strips:
        long, short = (float(length.inches) for length in points_of(strip.part))
        whole = WIDE * THICK * (long + short) / 2
        taken = sum(fibres(area, away, short) for area, away in section(profile, size, shows))
        facets = 0.0065 * pi / 4 * size**2 * long * len(section(profile, size, shows))
        exact = profile == "chamfer"
        found = solid(strip.part).volume() / 25.4**3
        assert found == pytest.approx(whole - taken, abs=1e-7 if exact else facets)
        if not exact:
            assert abs(found - (whole - taken)) > facets / 3  # a coarser or finer circle is told


@pytest.mark.parametrize("profile", ["quarter round", "cove", "bead", "chamfer"])
def test_a_general_mesh_library_finds_the_same_volume_and_a_closed_solid(door, profile: str) -> None:
    import trimesh

    plan, panel = door
    strip = plan.moulding("Molding", STRIP, on=panel, face="front", profile=profile, size="1/2")[0]
    mesh = solid(strip.part).to_mesh64()
    other = trimesh.Trimesh(np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts), process=True)
    assert other.is_watertight
    assert other.volume == pytest.approx(solid(strip.part).volume(), rel=1e-9)
    low, high = strip.part.box.mm()
    assert other.bounds[0] == pytest.approx(low, abs=1e-6)
    assert other.bounds[1] == pytest.approx(high, abs=1e-6)


def test_an_unmitred_cove_is_counted_exactly() -> None:
    plan = Plan("Strip")
    strip = plan.board("Strip", STRIP, runs="left-right", wide="up", left=0, right="20", front=0, bottom=0).part
    from plankit.parts import Cove

    coved = strip.with_features([Cove(("front", "top"), L("1/2 in"))])
    # 20 × 3/4 × 1 1/2 less 20 × π/4 × 1/4
    assert float(volume(coved)) / 25.4**3 == pytest.approx(22.5 - 20 * pi / 16, rel=1e-12)
    whole = block(strip.box).volume() - solid(coved).volume()
    assert whole / 25.4**3 == pytest.approx(20 * 0.25 * 0.5 * 8 * np.sin(pi / 16), rel=1e-9)  # by its eight facets


def test_profiled_strips_meet_round_the_corners_without_overlap_or_gap(door) -> None:
    plan, panel = door
    strips = plan.moulding("Molding", STRIP, on=panel, face="front", profile="cove", size="1/2")
    assert not fit(plan.build(), Notation())
    # a cove's mouth on the outer face ends 1/2 in from the inner edge on every strip, so that it runs on at the corners
    assert {one.size for strip in strips for one in strip.part.features if isinstance(one, EASED)} == {L("1/2 in")}
    inner = [one.edge for strip in strips for one in strip.part.features if isinstance(one, EASED)]
    assert inner == [("front", "top"), ("front", "bottom"), ("right", "front"), ("left", "front")]


def test_a_profile_is_told_drawn_at_its_end_and_cut_from_the_authors_boards(door) -> None:
    plan, panel = door
    plan.moulding("Molding", STRIP, on=panel, face="front", profile="cove", size="1/2")
    plan.step("Cut", works_on=plan.parts, does=["break down sheets", "crosscut", "miter", "route"])
    plan.step("Molding", brings=plan.parts)
    made = document(plan.draft())
    said = " ".join(line for step in made["steps"] for line in step["does"])
    assert "cove the inner edge, to a radius of 1/2\u00a0in" in said
    assert "run it on the whole stick" in said
    from plankit.drawing.part_faces import faces_shown

    (first, *_), shown = plan.parts[1:], []
    shown = [view.face for view in faces_shown(first.part)]
    assert "right" in shown  # its end, where the profile shows
    cut = cut_plan(plan.draft(), labels(plan.draft())[1])
    long = {piece.length.inches for piece in cut.pieces if piece.name == "Molding"}
    assert long == {16, 24}  # to the long points


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ({"profile": "ogee"}, "no such profile"),
        ({"profile": "cove"}, "a cove has a size"),
        ({"profile": "bead", "size": "1"}, "no room for so large a bead"),
        ({"profile": "quarter round", "size": "7/8"}, "no room for so large a quarter round"),
        ({"profile": "cove", "size": "1/4", "shows": "both"}, "along the inside of the frame or"),
    ],
)
def test_profiles_that_cannot_be_are_refused(door, how: dict[str, str], words: str) -> None:
    plan, panel = door
    with pytest.raises(PlanError, match=words):
        plan.moulding("Molding", STRIP, on=panel, face="front", **how)
