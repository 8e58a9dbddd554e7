"""Things that hypothesis makes up: lengths, ways of working lengths out, stock."""

from collections.abc import Callable, Mapping
from fractions import Fraction

from hypothesis import strategies as st

from plankit.parts import (
    Bevel,
    Bore,
    Box,
    Chamfer,
    CompoundMitre,
    LeftOn,
    Mitre,
    Notch,
    Part,
    Roundover,
    Taper,
    Turn,
)
from plankit.parts.space import ALL_TURNS
from plankit.stock import Lumber, Sheet, lumber, sheet
from plankit.units import L, Length, diagonal, largest, smallest

type Values = Mapping[str, Length]
type Way = Callable[[Values], Length]
"""A way of working a length out from the parameters of a plan."""

PARAMETERS = ("depth", "height", "width")
MARKS = tuple(Fraction(1, step) for step in (2, 4, 8, 16, 32, 64))


def inches() -> st.SearchStrategy[Fraction]:
    """Sizes of furniture in inches: on a mark of the tape, in thirds and fifths, and off every mark."""
    denominators = st.sampled_from((1, 2, 3, 4, 5, 8, 16, 32, 64, 127, 1000))
    return st.builds(Fraction, st.integers(1, 20_000), denominators)


def lengths() -> st.SearchStrategy[Length]:
    """Lengths of more than nothing."""
    return inches().map(lambda size: L(size, "in"))


def signed_lengths() -> st.SearchStrategy[Length]:
    """Lengths to either side of nothing."""
    return st.builds(lambda length, sign: length * sign, lengths(), st.sampled_from((-1, 0, 1)))


def factors() -> st.SearchStrategy[Fraction]:
    """Plain numbers that lengths are multiplied by."""
    return st.builds(Fraction, st.integers(-12, 12), st.integers(1, 12))


def values() -> st.SearchStrategy[dict[str, Length]]:
    """Values for every parameter."""
    return st.fixed_dictionaries({name: lengths() for name in PARAMETERS})


def ways() -> st.SearchStrategy[Way]:
    """Ways of working a length out, of any shape: sums, factors, smallest, largest, rounding, diagonals."""
    named = st.sampled_from(PARAMETERS).map(lambda name: lambda given: given[name])
    typed = lengths().map(lambda length: lambda given: length)
    return st.recursive(named | typed, _combined, max_leaves=8)


def _combined(inner: st.SearchStrategy[Way]) -> st.SearchStrategy[Way]:
    two = st.tuples(inner, inner)
    return st.one_of(
        two.map(lambda pair: lambda given: pair[0](given) + pair[1](given)),
        two.map(lambda pair: lambda given: pair[0](given) - pair[1](given)),
        two.map(lambda pair: lambda given: smallest(pair[0](given), pair[1](given))),
        two.map(lambda pair: lambda given: largest(pair[0](given), pair[1](given))),
        two.map(lambda pair: lambda given: diagonal(pair[0](given), pair[1](given))),
        inner.map(lambda way: lambda given: abs(way(given))),
        inner.map(lambda way: lambda given: way(given).rounded(L("1/16 in"))),
        st.tuples(inner, factors()).map(lambda pair: lambda given: pair[0](given) * pair[1]),
    )


def sheets() -> st.SearchStrategy[Sheet]:
    """Plywood in a thickness it is sold in, MDF in millimetres, now and then measured."""
    plywood = st.builds(
        lambda nominal, share: sheet("plywood", nominal, measured=share and L(L(nominal, "in").inches * share, "in")),
        st.sampled_from(("1/4", "1/2", "23/32", "3/4", "1")),
        st.none() | st.integers(750, 1250).map(lambda share: Fraction(share, 1000)),  # a quarter off at most
    )
    return plywood | st.integers(3, 40).map(lambda mm: sheet("MDF", f"{mm} mm"))


def boards() -> st.SearchStrategy[Lumber]:
    """Lumber of usual sizes and woods."""
    return st.builds(
        lambda nominal, wood: lumber(nominal, species=wood),
        st.sampled_from(("1x2", "1x6", "2x4", "2x10", "4x4", "5/4x6")),
        st.sampled_from(("loblolly pine", "Douglas-fir", "western redcedar")),
    )


def tapers() -> st.SearchStrategy[tuple[Taper, ...]]:
    """One taper, two, or four, of a 3 1/2 × 3 1/2 × 4 in foot that stands on its narrow end."""
    amounts = st.integers(1, 40).map(lambda marks: L(Fraction(marks, 16), "in"))
    runs = st.integers(8, 64).map(lambda marks: L(Fraction(marks, 16), "in"))
    four = ("left", "right", "front", "back")
    faces = st.sampled_from((("left",), ("front",), ("left", "front"), ("right", "back"), ("left", "right"), four))
    return faces.flatmap(
        lambda chosen: st.tuples(
            *(
                st.builds(Taper, st.just(face), st.just("bottom"), amounts.map(_half), runs)
                for face in chosen
            )
        )
    )


def _half(amount: Length) -> Length:
    return amount.portion(2)


def feet() -> st.SearchStrategy[Part]:
    """Tapered feet."""
    whole = Box(*(L(end, "in") for end in ("0", "3 1/2", "0", "3 1/2", "0", "4")))
    stock = lumber("4x4", species="loblolly pine")
    return tapers().map(lambda cuts: Part("foot", "Foot", "board", stock, whole, "z", "y", cuts))


def panels() -> st.SearchStrategy[Part]:
    """Panels of 3/4 in plywood with a corner notched out, a hole bored, both, or neither."""
    stock = sheet("plywood", "3/4")
    marks = st.integers(64, 640).map(lambda count: Fraction(count, 16))
    return st.tuples(marks, marks, st.booleans(), st.booleans()).map(lambda drawn: _panel(stock, *drawn))


def _panel(stock: Sheet, long: Fraction, wide: Fraction, notched: bool, bored: bool) -> Part:
    zero, thick = Length.zero(), stock.thickness
    made: list[Notch | Bore] = []
    if notched:
        made.append(Notch(Box(zero, L("1 in"), zero, L("1 1/2 in"), zero, thick)))
    if bored:
        made.append(Bore("top", (L("2 1/2 in"), L("2 in"), thick), L("1/4 in"), L("1/2 in")))
    whole = Box(zero, L(long, "in"), zero, L(wide, "in"), zero, thick)
    return Part("panel", "Panel", "panel", stock, whole, "x", "z", tuple(made))


def rails() -> st.SearchStrategy[Part]:
    """Rails of 1x4 with one end cut square, slanting one way or both, and perhaps a bevel or an eased edge."""
    whole = Box(*(L(end, "in") for end in ("0", "24", "0", "3/4", "0", "3 1/2")))
    stock = lumber("1x4", species="Douglas-fir")
    marks = st.integers(1, 48).map(lambda count: L(Fraction(count, 16), "in"))
    ends = st.one_of(
        st.just(()),
        st.builds(lambda one: (Mitre("right", "top", one),), marks),
        st.builds(lambda one, two: (CompoundMitre("left", "bottom", one, "back", two),), marks, marks),
        st.builds(lambda one, two: (CompoundMitre("left", "front", one, "top", two),), marks, marks),
    )
    edges = st.one_of(
        st.just(()),
        st.builds(lambda one: (Bevel("top", "front", one),), marks),
        st.just((Chamfer(("front", "bottom"), L("1/8 in")),)),
        st.just((Roundover(("back", "bottom"), L("1/4 in")), LeftOn("right", L("1 in")))),
    )
    return st.builds(
        lambda end, edge: Part("rail", "Rail", "board", stock, whole, "x", "y", (*end, *edge)), ends, edges
    )


def turns() -> st.SearchStrategy[Turn]:
    """The 48 ways a box can lie along the axes."""
    return st.sampled_from(ALL_TURNS)
