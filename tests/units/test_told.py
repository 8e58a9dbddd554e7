"""What an author is told of a length when something is refused: in her unit, exact where that is short."""

from fractions import Fraction

import pytest
from hypothesis import given

from plankit.units import L, Length, Notation, diagonal, speaking, told, told_size
from tests.strategies import lengths

SLANT = diagonal(L("17 in"), L("3 in"))  # √(17² + 3²) = √298 = 17.2627 in
METRIC = Notation("mm")


@pytest.mark.parametrize(
    ("length", "inch", "metric"),
    [
        (L("3/8 in"), "3/8 in", "≈10 mm"),  # 9.525 mm has three decimals
        (L("3/4 in"), "3/4 in", "19.05 mm"),
        (L("18 mm"), "18 mm", "18 mm"),  # 90/127 in is no fraction of a tape
        (L("-1/2 mm"), "−0.5 mm", "−0.5 mm"),
        (L("41 in") / 3, "13 2/3 in", "≈347 mm"),  # 41 × 25.4 ÷ 3 = 347.13
        (SLANT, "≈17 1/4 in", "≈438 mm"),  # 17.2627 × 25.4 = 438.47
    ],
)
def test_a_length_is_told_in_the_authors_unit(length: Length, inch: str, metric: str) -> None:
    assert told(length) == inch
    assert told(length, METRIC) == metric


def test_a_size_names_its_unit_once_where_all_share_it() -> None:
    assert told_size(L("40 1/2 in"), L("15 in"), L("3/4 in")) == "40 1/2 × 15 × 3/4 in"
    assert told_size(L("40 in"), L("18 mm")) == "40 in × 18 mm"


def test_a_verb_at_work_speaks_as_its_plan_does_and_no_longer() -> None:
    with speaking(METRIC):
        assert told(L("2 in")) == "50.8 mm"
    assert told(L("2 in")) == "2 in"


@given(lengths())
def test_what_is_told_without_a_sign_reads_back_as_the_same(length: Length) -> None:
    for notation in (Notation(), METRIC):
        words = told(length, notation)
        assert words.startswith("≈") or L(words.replace("−", "-")) == length


def test_a_length_from_a_root_is_not_shown_as_a_page_of_figures() -> None:
    assert str(SLANT) == "≈17.2627 in"
    assert repr(SLANT) == "L('≈17.2627 in')"
    assert Notation().exact(SLANT) == "≈17.2627 in"
    assert repr(L("1/2 in")) == "L('1/2 in')"
    assert SLANT.why().endswith("≈17.2627 in")
    assert str(L(Fraction(41, 3), "in")) == "13 2/3 in"
