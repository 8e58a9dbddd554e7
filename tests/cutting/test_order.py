from collections import Counter

from hypothesis import given, settings

from plankit.cutting import Layout, cut
from tests.cutting.carried_out import carry_out
from tests.cutting.jobs import board, job, sheet, sheet_jobs


def drawn(layout: Layout) -> Counter[tuple[str, object, object]]:
    return Counter((p.part, p.length, p.width or 1) for p in layout.pieces)


@settings(deadline=None, max_examples=60)
@given(sheet_jobs())
def test_the_cuts_as_written_free_every_piece_where_it_is_drawn(asked: object) -> None:
    for layout in cut(asked).layouts:  # type: ignore[arg-type]
        if layout.cuts:
            assert carry_out(asked, layout) == drawn(layout)  # type: ignore[arg-type]


def test_a_board_is_trimmed_and_then_crosscut_longest_first() -> None:
    asked = job([board(100, trim_ends=2)], [("rail", 30, 0, 2), ("leg", 20, 0, 1)], kerf=1)
    (layout,) = cut(asked).layouts
    assert [(c.kind, c.edge, int(c.setting), c.frees) for c in layout.cuts] == [
        ("trim", "end 0", 98, None),  # 100 - 2, from the far side's raw end
        ("trim", "end 1", 96, None),  # 98 - 2
        ("crosscut", "end 0", 30, "rail"),
        ("crosscut", "end 0", 30, "rail"),
        ("crosscut", "end 0", 20, "leg"),  # 96 - 31 - 31 = 34, a leg of 20 and 13 left
    ]
    assert layout.cuts[-1].gives[1] is not None


def test_strips_are_ripped_whole_before_they_are_crosscut() -> None:
    asked = job([sheet(100, 50)], [("wide", 50, 30, 2), ("narrow", 50, 20, 2)])
    (layout,) = cut(asked).layouts
    kinds = [c.kind for c in layout.cuts]
    assert kinds in (["rip", "crosscut", "crosscut"], ["crosscut", "rip", "rip"])


def test_a_cut_that_frees_two_parts_names_both() -> None:
    (layout,) = cut(job([sheet(100, 50)], [("left", 40, 50, 1), ("right", 60, 50, 1)])).layouts
    assert [(c.frees, c.also_frees) for c in layout.cuts] == [("right", "left")]


def test_equal_strips_lie_side_by_side_so_that_one_setting_cuts_them() -> None:
    asked = job([sheet(100, 50)], [("a", 100, 10, 2), ("b", 100, 14, 2)])
    (layout,) = cut(asked).layouts
    assert [int(c.setting) for c in layout.cuts] == [14, 14, 10, 10]


def test_a_part_as_large_as_the_trimmed_stock_is_freed_by_the_last_trim() -> None:
    (layout,) = cut(job([board(96, trim_ends=1)], [("rail", 94, 0, 1)], kerf=1)).layouts  # 96 - 2 × 1 = 94
    assert [(c.kind, c.frees) for c in layout.cuts] == [("trim", None), ("trim", "rail")]
    stock = [sheet(100, 50, trim_ends=2, trim_edges=1)]
    asked = job(stock, [("top", 96, 48, 1)], kerf=1)  # 100 - 2 × 2 = 96, 50 - 2 × 1 = 48
    (layout,) = cut(asked).layouts
    assert [c.frees for c in layout.cuts] == [None, None, None, "top"]
    assert carry_out(asked, layout) == drawn(layout)
