"""Parts that lean with their group: turned as a whole, measured where they stand."""

from dataclasses import replace
from fractions import Fraction
from math import atan, cos, degrees, isclose, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from plankit.build import touching
from plankit.parts import (
    Box,
    Lean,
    Part,
    Point,
    box_of,
    solid,
    spot_after,
    spread_out,
    turning,
    turning_back,
    way_after,
)
from plankit.stock import lumber
from plankit.units import Angle, L

angles = st.integers(-60, 60).map(lambda degree: Angle(Fraction(degree)))
places = st.tuples(*[st.integers(-40, 40)] * 3).map(lambda at: Point(*(L(n, "in") for n in at)))
leans = st.lists(st.builds(Lean, st.sampled_from(["x", "y", "z"]), places, angles), max_size=3).map(tuple)
spots = st.tuples(*[st.floats(-1000, 1000)] * 3)


def post(**more: object) -> Part:
    """A 2x2 post of 28 in, upright, its lower end on the floor."""
    box = Box(*(L(n) for n in ("0 in", "1 1/2 in", "0 in", "1 1/2 in", "0 in", "28 in")))
    return Part("post", "Post", "board", lumber("2x2", species="loblolly pine"), box, "z", "x", **more)  # type: ignore[arg-type]


@given(leans, spots)
def test_turning_back_undoes_a_lean(turns: tuple[Lean, ...], spot: tuple[float, float, float]) -> None:
    there = spot_after(turning(turns), spot)
    assert spot_after(turning_back(turns), there) == pytest.approx(spot, abs=1e-8)


@given(leans, spots)
def test_a_lean_turns_as_a_general_library_turns(turns: tuple[Lean, ...], way: tuple[float, float, float]) -> None:
    """Against scipy's rotations (general-purpose reference library)."""
    turned = np.array(way)
    for turn in turns:
        turned = Rotation.from_euler(turn.axis, float(turn.angle.degrees), degrees=True).apply(turned)
    assert way_after(turning(turns), way) == pytest.approx(tuple(turned), abs=1e-8)


@given(angles.filter(lambda a: a.degrees), angles.filter(lambda a: a.degrees))
def test_a_leg_leans_as_seen_from_the_front_and_from_the_side(sideways: Angle, frontways: Angle) -> None:
    turns = spread_out(Point(*(L("0 in"),) * 3), sideways, frontways)
    right, back, up = way_after(turning(turns), (0.0, 0.0, 1.0))
    assert degrees(atan(right / up)) == pytest.approx(float(sideways.degrees), abs=1e-6)
    assert degrees(atan(-back / up)) == pytest.approx(float(frontways.degrees), abs=1e-6)


def test_a_leg_at_ten_and_six_degrees_leans_by_the_handbook_s_sum() -> None:
    """The lean of the leg itself: tan² = tan² of one view + tan² of the other (Pythagoras)."""
    turns = spread_out(Point(*(L("0 in"),) * 3), Angle(Fraction(10)), Angle(Fraction(6)))
    up = way_after(turning(turns), (0.0, 0.0, 1.0))[2]
    assert tan(radians(10)) ** 2 + tan(radians(6)) ** 2 == pytest.approx(1 / up**2 - 1, abs=1e-9)


def test_a_post_that_leans_ten_degrees_to_the_right_is_wider_and_lower() -> None:
    leaning = post(leans=(Lean("y", Point(*(L("0 in"),) * 3), Angle(Fraction(10))),))
    box = box_of(leaning)
    ten = radians(10)
    assert float(box.right.inches) == pytest.approx(28 * sin(ten) + 1.5 * cos(ten), abs=1e-6)
    assert float(box.top.inches) == pytest.approx(28 * cos(ten), abs=1e-6)
    assert float(box.bottom.inches) == pytest.approx(-1.5 * sin(ten), abs=1e-6)
    assert solid(leaning).volume() == pytest.approx(solid(post()).volume())


@given(leans)
def test_mirrored_twice_a_leaning_post_stands_where_it_stood(turns: tuple[Lean, ...]) -> None:
    one = post(leans=turns)
    twice = one.mirrored("x", L("5 in"), "other").mirrored("x", L("5 in"), "post")
    assert box_of(twice) == box_of(one)
    image = box_of(one.mirrored("x", L("5 in"), "image"))
    # its right face lies as far beyond 5 in as the post's left face lies before it
    assert isclose(float(image.right.mm), float((L("10 in") - box_of(one).left).mm), abs_tol=1e-4)


def test_two_posts_that_lean_together_touch_as_they_did_upright() -> None:
    turns = (Lean("y", Point(*(L("0 in"),) * 3), Angle(Fraction(7))),)
    one = post(leans=turns)
    beside = replace(one, id="beside", box=one.box.moved("x", L("1 1/2 in")))
    contact = touching(one, beside)
    assert contact is not None
    assert contact.face == "right"


def test_a_rail_against_a_leaning_post_touches_nothing_until_its_end_is_sawn() -> None:
    r"""
        /|‾‾‾
       / |       a square end leaves a wedge of air
      /  |___
    """
    turns = (Lean("y", Point(*(L("0 in"),) * 3), Angle(Fraction(10))),)
    low, high = L("10 in"), L("13 1/2 in")
    reached = 13.5 * tan(radians(10)) + 1.5 / cos(radians(10))  # where the post's right face is at the rail's top
    start = L(Fraction(round(reached * 1000) + 1, 1000), "in")
    rail = Part(
        "rail", "Rail", "board", lumber("1x4", species="loblolly pine"),
        Box(start, start + L("20 in"), L("3/8 in"), L("1 1/8 in"), low, high), "x", "y",
    )  # fmt: skip
    assert touching(post(leans=turns), rail) is None


def test_the_lean_keeps_the_length_of_a_screw() -> None:
    away, origin = Point(L("3 in"), L("0 in"), L("0 in")), Point(*(L("0 in"),) * 3)
    turns = Lean("x", away, Angle(Fraction(12))), Lean("y", origin, Angle(Fraction(5)))
    one, other = spot_after(turning(turns), (0.0, 0.0, 0.0)), spot_after(turning(turns), (10.0, 20.0, 20.0))
    assert sqrt(sum((a - b) ** 2 for a, b in zip(one, other, strict=True))) == pytest.approx(30.0)  # √(10² + 20² + 20²)
