"""Nails, staples, dowels, buttons; joints inside cuts; and faces that should be flush."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import (
    Build,
    Fastener,
    Joint,
    buttons,
    dowel,
    dowels,
    face_screws,
    nail,
    nails,
    pinned_along,
    pocket_screws,
    screw,
)
from plankit.build.fasteners import Spec
from plankit.build.joints_pocket import POCKETED
from plankit.build.joints_top import button_screw
from plankit.checks.fastening import DENSE_DIAMETERS, LIGHT_DIAMETERS, SCREW_DIAMETERS, fastening
from plankit.checks.fit import fit
from plankit.checks.flush import flush
from plankit.finding import LEVELS, Finding
from plankit.parts import Notch, Part
from plankit.reference import rows
from plankit.stock import lumber
from plankit.units import L, Length
from tests.build.test_joints_dowels import APRON, BACK, TOP
from tests.build.test_joints_in_cuts import DIVIDER, LOW_RAIL, SHELF, SIDE
from tests.checks.small_builds import INCHES, framed, instead, mirrored
from tests.parts.one_of_each import PLY, box

PINE = lumber("1x4", species="Douglas-fir")
PLAIN_SIDE = replace(SIDE, features=())
PLAIN_SHELF = replace(SHELF, box=box("3/4", "30", "0", "12", "10", "10 3/4"))


def said(build: Build, check: str) -> tuple[Finding, ...]:
    return tuple(finding for finding in fastening(build, INCHES) if finding.check == check)


def rule(item: str) -> dict[str, str]:
    return next(dict(row) for row in rows("fastener_rules") if row["item"] == item)


def test_the_limits_are_those_of_the_published_rules() -> None:
    # fastener_rules: NDS 12.1.5.6, "6 D (including tip)"; Wood Handbook ch. 8, nails
    assert rule("NDS wood screw minimum penetration")["value"].startswith(f"{SCREW_DIAMETERS} D")
    nails_say = rule("nail lateral, proportional limit")["detail"]
    assert nails_say == f"penetration {DENSE_DIAMETERS} D (G>0.61) to {LIGHT_DIAMETERS} D (G<0.42)"
    assert "75 %" in rule("screw withdrawal from end grain")["value"]


# Joints inside cuts


def housed(length: str = "1 3/4") -> Build:
    """A shelf in a dado, screwed through the side."""
    joint, holes = face_screws(SIDE, SHELF, screw(f"#8 x {length}"))
    return Build("Housed", (SIDE.with_features(holes), SHELF), (joint,))


def test_screws_into_a_shelf_in_its_dado_are_right() -> None:
    # through the 1/2 in that the dado leaves, 1 1/4 in into the shelf: more than 6 diameters, 0.984 in
    assert [f for f in fastening(housed(), INCHES) if f.level != "for information"] == []
    assert fit(housed(), INCHES) == ()


def test_a_pocket_screw_into_what_a_dado_leaves_comes_through() -> None:
    # 0.664 in deep (test_joints), and 1/2 in left
    joint, holes = pocket_screws(SHELF, SIDE, "bottom")
    found = said(Build("b", (SIDE, SHELF.with_features(holes)), (joint,)), "fastener comes through")
    assert {(f.level, f.part) for f in found} == {("must fix", "Side")}
    assert found[0].number == "≈3/16\u00a0in"  # 0.664 less 0.5, nearest 1/16


def test_a_dado_that_is_moved_leaves_the_joint_open_and_the_screws_in_air() -> None:
    other = replace(
        SIDE, features=(replace(SIDE.features[0], cut=box("1/2", "3/4", "0", "12", "20", "20 3/4")),)
    )
    build = instead(housed(), "side", features=other.features)
    assert {f.check for f in fit(build, INCHES)} >= {"parts overlap"}


def test_a_divider_notched_round_a_rail_is_screwed_on_both_edges() -> None:
    found = []
    joints = []
    for towards in ("bottom", "front"):
        row = replace(POCKETED, shift=L("-1/4 in"))  # away from the corner between the two edges
        joint, holes = pocket_screws(DIVIDER, LOW_RAIL, "right", row=row, towards=towards)
        joints.append(joint)
        found += holes
    build = Build("b", (DIVIDER.with_features(found), LOW_RAIL), tuple(joints))
    assert [f for f in (*fastening(build, INCHES), *fit(build, INCHES)) if f.level != "for information"] == []


def test_both_screws_in_the_middle_of_a_notch_s_edges_meet_in_the_rail() -> None:
    joints = [pocket_screws(DIVIDER, LOW_RAIL, "right", towards=one)[0] for one in ("bottom", "front")]
    (found,) = said(Build("b", (DIVIDER, LOW_RAIL), tuple(joints)), "fasteners meet")
    assert (found.level, found.part) == ("must fix", "Rail")
    assert "shift=" in found.remedy


@given(st.integers(0, 12), st.integers(0, 12))
@settings(max_examples=25, deadline=None)
def test_adding_clearance_never_makes_parts_overlap(one: int, other: int) -> None:
    less, more = sorted((one, other))

    def alarms(sixteenths: int) -> int:
        end = L(Fraction(20 + sixteenths, 16), "in")
        cut = Notch(replace(box("0", "3/4", "0", "1", "0", "1"), back=end, top=end))
        build = Build("b", (replace(DIVIDER, features=(cut,)), LOW_RAIL))
        return sum(f.check == "parts overlap" for f in fit(build, INCHES))

    assert alarms(more) <= alarms(less)


# Splitting


def test_two_pocket_holes_in_the_end_of_a_1x2_are_caught_however_they_are_asked_for() -> None:
    (found,) = said(framed("1 1/2", count=2), "may split")
    assert (found.level, found.part, found.number) == ("must fix", "Rail", "1\u00a01/2\u00a0in wide")
    single = framed("1 1/2")
    rail, post = single.parts
    rows_ = [replace(POCKETED, count=1, shift=L(shift, "in")) for shift in ("-3/8", "3/8")]
    joints = tuple(pocket_screws(rail, post, "back", row=row)[0] for row in rows_)
    (again,) = said(replace(single, joints=joints), "may split")
    assert (again.level, again.part) == ("must fix", "Rail")
    assert said(single, "may split") == ()


def test_the_edge_guide_is_told_once_for_the_whole_build() -> None:
    joint, holes = face_screws(PLAIN_SIDE, PLAIN_SHELF, screw("#8 x 2"))
    build = Build("b", (PLAIN_SIDE.with_features(holes), PLAIN_SHELF), (joint,))
    (found,) = said(build, "near an edge")
    assert found.level == "for information"
    assert "Shelf" in found.what


@pytest.mark.parametrize(("left", "count"), [("0", 1), ("4", 0)])
def test_a_nail_keeps_the_part_s_thickness_from_its_end(left: str, count: int) -> None:
    # Wood Handbook ch. 8: no nearer to the end than the thickness, 3/4 in; here 3/8 from it, or 4 3/8
    slat = Part("slat", "Slat", "board", PINE, box("0", "30", "-3/4", "0", "3", "6 1/2"), "x", "y")
    post = replace(PLAIN_SIDE, box=PLAIN_SIDE.box.moved("x", L(left, "in")))
    joint = nails(slat, post, nail("8d"))
    found = said(Build("b", (slat, post), (joint,)), "may split")
    assert len(found) == count
    assert all("Wood Handbook" in f.source and f.level == "look at" for f in found)


# Bite


@pytest.mark.parametrize(("wood", "wanted"), [("eastern white pine", 14), ("hard maple", 10)])
def test_nails_reach_deeper_in_light_wood(wood: str, wanted: int) -> None:
    # Wood Handbook ch. 8: 14 diameters below G 0.42, 10 above 0.61; 8d: 0.131 in
    post = Part(
        "post",
        "Post",
        "board",
        lumber("2x4", species=wood),
        box("0", "3 1/2", "0", "1 1/2", "0", "30"),
        "z",
        "y",
    )
    thick = L("2 1/2 in") - L("0.131 in") * wanted
    for extra, count in (("-1/64", 0), ("1/64", 1)):
        out = thick + L(extra, "in")
        slat = Part(
            "slat",
            "Slat",
            "board",
            PINE,
            replace(box("-9", "12", "-1", "0", "8", "11 1/2"), front=-out),
            "x",
            "y",
        )
        joint = nails(slat, post, nail("8d"))
        found = said(Build("b", (slat, post), (joint,)), "too little bite")
        assert len(found) == count


def test_a_dowel_through_either_part_is_caught() -> None:
    made = dowels(PLAIN_SHELF, PLAIN_SIDE)
    assert said(Build("b", (PLAIN_SIDE, PLAIN_SHELF), (made.joint,)), "fastener comes through") == ()
    deep = tuple(_moved(one, "-1/2") for one in made.joint.fasteners)
    (found,) = said(Build("b", (PLAIN_SIDE, PLAIN_SHELF), (replace(made.joint, fasteners=deep),)),
                    "fastener comes through")  # fmt: skip
    assert (found.level, found.part) == ("must fix", "Side")
    short = replace(PLAIN_SHELF, box=box("3/4", "2", "0", "12", "10", "10 3/4"))
    (other,) = said(Build("b", (PLAIN_SIDE, short), (made.joint,)), "fastener comes through")
    # 1 15/32 in of dowel in 1 1/4 in of shelf
    assert (other.part, other.number) == ("Shelf", "≈1/4\u00a0in")


def _moved(one: Fastener, by: str) -> Fastener:
    return replace(one, head=one.head.moved("x", L(by, "in")), tip=one.tip.moved("x", L(by, "in")))


def test_a_dowel_as_deep_as_the_side_allows_is_no_finding() -> None:
    made = dowels(PLAIN_SHELF, PLAIN_SIDE)
    build = Build(
        "b", (PLAIN_SIDE.with_features(made.into_holes), PLAIN_SHELF.with_features(made.holes)), (made.joint,)
    )
    assert fastening(build, INCHES) == ()
    little = dowels(PLAIN_SHELF, PLAIN_SIDE, dowel("3/8 x 1/2"))
    (found,) = said(Build("b", (PLAIN_SIDE, PLAIN_SHELF), (little.joint,)), "too little bite")
    assert found.level == "must fix"  # 1/4 in, less than one diameter


def test_a_button_s_screw_that_is_too_long_comes_through_the_top() -> None:
    for length, count in (("1 1/2", 0), ("2 1/2", 1)):
        spec = replace(button_screw(TOP), length=L(length, "in"))
        joint, groove = buttons(TOP, APRON, spec, "back")
        found = said(Build("b", (TOP, APRON.with_features(groove)), (joint,)), "fastener comes through")
        assert [f.part for f in found] == ["Top"] * count


@given(st.integers(3, 20), st.integers(1, 6), st.sampled_from(("housed", "pocket")))
@settings(max_examples=40, deadline=None)
def test_a_longer_screw_never_raises_the_bite_finding_inside_a_cut_either(
    quarters: int, more: int, kind: str
) -> None:
    def level(count: int) -> int:
        length = L(Fraction(count, 4), "in")
        if kind == "housed":
            joint = face_screws(SIDE, SHELF, replace(screw("#8 x 1"), length=length))[0]
        else:
            joint = _relengthened(pocket_screws(DIVIDER, LOW_RAIL, "right", towards="bottom")[0], length)
        build = Build("b", (SIDE, SHELF, DIVIDER, LOW_RAIL), (joint,))
        found = said(build, "too little bite") + said(build, "fastener too short")
        return min((LEVELS.index(f.level) for f in found), default=len(LEVELS))

    assert level(quarters + more) >= level(quarters)


def _relengthened(joint: Joint, length: Length) -> Joint:
    made = []
    for one in joint.fasteners:
        share = length.mm / one.spec.length.mm
        tip = one.head
        for axis in ("x", "y", "z"):
            tip = tip.moved(axis, (one.tip.along(axis) - one.head.along(axis)) * share)
        made.append(replace(one, tip=tip, spec=replace(one.spec, length=length)))
    return replace(joint, fasteners=tuple(made))


# Pins


def test_pins_along_an_edge_with_nothing_behind_them_are_told_once_for_each_part() -> None:
    brad = Spec("brad", None, L("1 in"))
    joints = pinned_along(BACK, [PLAIN_SIDE, PLAIN_SHELF], "top", brad)
    found = said(Build("b", (BACK, PLAIN_SIDE, PLAIN_SHELF), joints), "nothing behind it")
    assert {f.level for f in found} == {"must fix"}
    assert {f.part for f in found} == {"Back"}
    # seven pins, 1 in from the corners: the side is 3/4 in wide and holds none of them
    assert sum(int(f.number.split()[0]) for f in found) == 7
    held = pinned_along(BACK, [PLAIN_SIDE, PLAIN_SHELF], "left", brad)
    assert said(Build("b", (BACK, PLAIN_SIDE, PLAIN_SHELF), held), "nothing behind it") == ()


# Flush


def let_in(front: str) -> Build:
    post = Part("post", "Post", "board", lumber("2x2", species="Douglas-fir"),
                box("-1 1/2", "0", "0", "1 1/2", "0", "30"), "z", "y")  # fmt: skip
    ends = box("0", "20", "0", "3/4", "0", "30").moved("y", L(front, "in"))
    panel = Part("panel", "Panel", "panel", PLY, ends, "z", "y")
    joint, holes = pocket_screws(panel, post, "back")
    return Build("b", (post, panel.with_features(holes)), (replace(joint, flush="front"),))


@pytest.mark.parametrize(("front", "how"), [("0", None), ("1/16", "shy of"), ("-1/16", "proud of")])
def test_a_panel_proud_or_shy_of_its_frame(front: str, how: str | None) -> None:
    found = flush(let_in(front), INCHES)
    assert [(f.level, f.part, f.number) for f in found] == (
        [("must fix", "Panel", "1/16\u00a0in")] if how else []
    )
    assert all(str(how) in f.what for f in found)


@pytest.mark.parametrize("axis", ["x", "y"])
def test_mirroring_changes_nothing_about_joints_in_cuts(axis: str) -> None:
    build = housed()
    joint, holes = pocket_screws(SHELF, SIDE, "bottom")
    deep = Build("b", (SIDE, SHELF.with_features(holes)), (joint,))
    for one in (build, deep):
        own, image = fastening(one, INCHES), fastening(mirrored(one, axis), INCHES)
        assert [(f.level, f.check, f.part, f.number) for f in own] == [
            (f.level, f.check, f.part, f.number) for f in image
        ]
        assert fit(mirrored(one, axis), INCHES) == fit(one, INCHES)
