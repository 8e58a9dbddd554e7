"""Drill sizes as they are stamped."""

import pytest

from plankit.drawing.drills import drill_named, drill_words
from plankit.units import L, Notation

INCH, METRIC = Notation(), Notation("mm")


@pytest.mark.parametrize(
    ("size", "loose", "inch", "metric"),
    [
        ("11/64 in", True, "11/64", "4.5"),  # 4.366 mm: the next half up
        ("7/64 in", False, "7/64", "3"),  # 2.778 mm: nearest half
        ("1/4 in", False, "1/4", "6.35"),  # exactly 6.35 mm, as an author of a metric plan asked for it
        ("35 mm", False, "35\u00a0mm", "35"),
        ("5 mm", False, "5\u00a0mm", "5"),
    ],
)
def test_a_drill_is_called_by_the_size_on_its_shank(size, loose, inch, metric):
    assert drill_words(L(size), INCH, loose=loose) == inch
    assert drill_words(L(size), METRIC, loose=loose) == metric


def test_in_a_sentence_the_unit_stands_with_it():
    assert drill_named(L("11/64 in"), INCH) == "11/64\u00a0in"
    assert drill_named(L("11/64 in"), METRIC, loose=True) == "4.5\u00a0mm"
    assert drill_named(L("35 mm"), INCH) == "35\u00a0mm"
