"""Handbook sums of tipping, written out by themselves, for what the estimates say to be held against.

Lengths are level distances from the line a piece would fall over.
"""

from fractions import Fraction
from math import atan2, cos, sin

from plankit.units import Length, Mass


def standing_ratio(weight: Mass, behind: Length, load: Mass, ahead: Length) -> Fraction:
    """Return what holds a piece down as a multiple of what turns it over; it tips below 1.

    load, ahead  put on an open drawer or bin, so far ahead of the line
    source       W x / (P a)
    """
    return weight.kg * behind.mm / (load.kg * ahead.mm)


def standing_ratio_tilted(
    piece: tuple[Mass, Length, Length], load: tuple[Mass, Length, Length], block: Length, depth: Length
) -> Fraction:
    """Return the same for a piece that a block under its back tilts forward, as a deep carpet does.

    piece   weight, how far behind the line, how high its centre
    load    weight, how far ahead of the line, how high
    block   thickness of the block; `depth` is from the line back to it
    source  both places turned about the line by atan(block / depth)
    """
    turn = atan2(float(block.mm), float(depth.mm))
    weight, behind, high = piece
    force, ahead, up = load
    holds = float(weight.kg) * (float(behind.mm) * cos(turn) - float(high.mm) * sin(turn))
    turns = float(force.kg) * (float(ahead.mm) * cos(turn) + float(up.mm) * sin(turn))
    return Fraction(holds / turns).limit_denominator(10**9)
