"""Through a doorway: which face of a piece leads, and when tilting helps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build.surroundings import Passage, carried, fits_through
from plankit.units import L, Length


def door(width: str, height: str, clearance: str = "0 in") -> Passage:
    return Passage("the doorway", L(width), L(height), L(clearance))


def size(*inches: str) -> tuple[Length, Length, Length]:
    wide, deep, high = (L(one, "in") for one in inches)
    return wide, deep, high


def test_a_bench_goes_through_an_ordinary_door_with_its_end_first():
    way = carried(size("45", "16", "18 1/2"), door("30 in", "80 in"))
    assert way is not None
    assert way.face == (L("16 in"), L("18 1/2 in"))  # the end; its length follows
    assert not way.tilted


def test_hands_and_hinges_take_their_room():
    piece = size("40", "30", "30")
    assert carried(piece, door("30 in", "80 in")) is not None
    assert carried(piece, door("30 in", "80 in", "1 in")) is None


def test_a_cube_larger_than_the_door_is_wide_stays_outside():
    assert carried(size("32", "32", "32"), door("30 in", "80 in")) is None


def test_a_board_longer_than_the_opening_goes_through_its_diagonal():
    # a hatch of 20 × 20 in has a diagonal of 28.3 in: 26 × 1 in goes through on the slant, 28 × 2 in does not
    hatch = (L("20 in"), L("20 in"))
    assert not fits_through((L("1 in"), L("26 in")), hatch, tilted=False)
    assert fits_through((L("1 in"), L("26 in")), hatch, tilted=True)
    assert not fits_through((L("2 in"), L("28 in")), hatch, tilted=True)


def turned_in_small_steps(face: tuple[float, float], room: tuple[float, float]) -> float:
    """The most by which a rectangle is too large for a room, at the best of 9000 angles: below 0 it fits."""
    (p, q), (a, b) = face, room
    best = math.inf
    for step in range(9001):
        turn = math.radians(step / 100)
        wide = p * math.cos(turn) + q * math.sin(turn)
        high = p * math.sin(turn) + q * math.cos(turn)
        best = min(best, max(wide - a, high - b))
    return best


@given(st.lists(st.integers(10, 1000), min_size=4, max_size=4))
def test_the_formula_agrees_with_turning_it_in_small_steps(numbers: list[int]):
    p, q, a, b = numbers
    over = turned_in_small_steps((p, q), (a, b))
    fits = fits_through((L(f"{p} mm"), L(f"{q} mm")), (L(f"{a} mm"), L(f"{b} mm")), tilted=True)
    if abs(over) > 0.2:  # mm; nearer than that the steps of 0.01 degrees do not tell
        assert fits == (over < 0)


@given(st.lists(st.integers(10, 1000), min_size=5, max_size=5), st.integers(1, 300))
def test_a_wider_doorway_never_shuts_out_what_went_through(numbers: list[int], more: int):
    x, y, z, wide, high = numbers
    piece = (L(f"{x} mm"), L(f"{y} mm"), L(f"{z} mm"))
    if carried(piece, door(f"{wide} mm", f"{high} mm")):
        assert carried(piece, door(f"{wide + more} mm", f"{high} mm"))


@pytest.mark.parametrize("order", [(0, 1, 2), (1, 2, 0), (2, 1, 0)])
def test_it_does_not_matter_which_way_the_piece_stands(order: tuple[int, int, int]):
    piece = size("45", "16", "18 1/2")
    one, two, three = (piece[axis] for axis in order)
    assert carried((one, two, three), door("17 in", "19 in")) == carried(piece, door("17 in", "19 in"))
