"""Crossing from exact fractions into whole numbers and back, losing nothing."""

from collections.abc import Iterable
from fractions import Fraction
from math import gcd, lcm


def common_measure(lengths: Iterable[Fraction]) -> Fraction:
    """Return the longest length of which every given length is a whole multiple; 1 where all are 0."""
    down = 1
    up = 0
    lengths = tuple(lengths)
    for length in lengths:
        down = lcm(down, length.denominator)
    for length in lengths:
        up = gcd(up, length.numerator * (down // length.denominator))
    return Fraction(up or down, down)


def whole(length: Fraction, measure: Fraction) -> int:
    """Return how many times the measure goes into the length; raises ValueError where it does not go exactly."""
    times = length / measure
    if times.denominator != 1:
        raise ValueError(f"{length} is no whole multiple of {measure}")
    return times.numerator


def round_up_to(value: Fraction, step: Fraction) -> Fraction:
    """Return the smallest multiple of a step that is not below the value; the value itself for a step of 0."""
    return value if step == 0 else -(-value // step) * step
