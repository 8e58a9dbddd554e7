"""The level pull at which a piece begins to tip: moments about the line it would fall over. Exact.

Lengths are level distances from that line; weights hang at the centre they act at. A static estimate, no test.
source  statics: a piece tips where what turns it over outweighs what holds it down
"""

from fractions import Fraction

from plankit.units import Length, Mass


def tipping_pull(weight: Mass, behind: Length, height: Length) -> Mass:
    """Return the level pull, as the weight that makes the same force, at which a piece begins to tip.

    weight, behind  of the piece, and how far behind the line its centre lies
    height          of the pull above the floor
    source          F = W x / h
    """
    return weight * Fraction(behind.mm / height.mm)
