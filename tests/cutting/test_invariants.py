from collections import Counter
from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.cutting import Job, Layout, cut, verify
from plankit.cutting.whole_numbers import common_measure, whole
from tests.cutting.jobs import sheet_jobs, wild_jobs

SOME = settings(deadline=None, max_examples=60)


@SOME
@given(sheet_jobs())
def test_every_answer_is_right_and_never_below_its_own_bound(asked: Job) -> None:
    result = cut(asked)
    assert verify(asked, result.layouts, result.missing) == ()
    assert result.complete  # there are always more sheets of the large kind
    assert result.least_count is not None
    assert result.least_count <= result.count
    assert result.proven == (result.least_count == result.count)


@settings(deadline=None, max_examples=40)
@given(wild_jobs())
def test_what_nobody_plans_for_is_cut_right_as_well(asked: Job) -> None:
    """Hundreds of equal parts, parts of a hair and parts as large as the sheet, with saws and without."""
    result = cut(asked)
    assert verify(asked, result.layouts, result.missing) == ()
    assert result.complete
    assert result.least_count is not None
    assert result.least_count <= result.count
    made = {(at, cut_.order) for at, layout in enumerate(result.layouts) for cut_ in layout.cuts}
    assert len(result.sequence) == len(made)
    assert set(result.sequence) == made


@SOME
@given(sheet_jobs())
def test_pieces_offcuts_kerf_and_waste_add_up_to_the_sheet(asked: Job) -> None:
    """The cuts as written take each sheet apart without a gap: what they give and their dust are all of it."""
    for layout in cut(asked).layouts:
        whole_area = layout.kind.length * (layout.kind.width or 1)
        assert ends_and_dust(layout, asked.kerf) == whole_area


def ends_and_dust(layout: Layout, kerf: Fraction) -> Fraction:
    """Add up areas of what no cut divides any further, and of the kerfs."""
    sizes = {
        (layout.cuts[0].of if layout.cuts else ""): (layout.kind.length, layout.kind.width or Fraction(1))
    }
    dust = Fraction(0)
    for one in layout.cuts:
        length, width = sizes.pop(one.of)
        along = one.edge.startswith("end")
        size, other = (length, width) if along else (width, length)
        left = size - one.setting
        dust += min(kerf, left) * other
        sizes[one.gives[0]] = (one.setting, width) if along else (length, one.setting)
        if one.gives[1] is not None:
            sizes[one.gives[1]] = (left - kerf, width) if along else (length, left - kerf)
    assert all(length > 0 and width > 0 for length, width in sizes.values())
    left_over = Counter(sizes.values())
    for placed in layout.pieces:
        size = (placed.length, placed.width or Fraction(1))
        left_over[size] -= 1
        assert left_over[size] >= 0
    return dust + sum((a * b for a, b in sizes.values()), Fraction(0))


@SOME
@given(sheet_jobs(), st.randoms(use_true_random=False))
def test_the_order_the_pieces_are_listed_in_does_not_matter(asked: Job, dice: object) -> None:
    mixed = list(asked.pieces)
    dice.shuffle(mixed)  # type: ignore[attr-defined]
    assert cut(replace(asked, pieces=tuple(mixed))).layouts == cut(asked).layouts


@SOME
@given(sheet_jobs(), st.sampled_from([Fraction(1, 7), Fraction(2), Fraction(9)]))
def test_a_wider_kerf_never_needs_less_stock_than_was_proven_least(asked: Job, more: Fraction) -> None:
    narrow, wide = cut(asked), cut(replace(asked, kerf=asked.kerf + more))
    assert wide.count >= (narrow.count if narrow.proven else narrow.least_count or 0)


@given(st.lists(st.fractions(min_value=0, max_value=1000, max_denominator=400), min_size=1))
def test_every_length_is_a_whole_number_of_the_common_measure(lengths: list[Fraction]) -> None:
    measure = common_measure(lengths)
    assert [whole(length, measure) * measure for length in lengths] == lengths
