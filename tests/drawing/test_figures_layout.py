"""Every figure of a whole plan, in inches and in millimetres, read back by geometry."""

from dataclasses import replace

import pytest
from bench_like import CLEAT, bench, box, inch
from figure_set import INCH, METRIC, every_figure, part_figures, sheet, steps
from reading import off_paper, texts, words_on_lines, words_on_words

from plankit.build import Build, alike
from plankit.drawing.figures_cutting import cutting_drawing
from plankit.drawing.figures_part import part_drawing
from plankit.drawing.figures_step import step
from plankit.drawing.figures_views import orthographic
from plankit.drawing.figures_whole import whole
from plankit.drawing.primitives import SMALLEST_TEXT, Text
from plankit.drawing.svg import svg
from plankit.parts import Bore, Part

UNITS = ("in", "mm")


def named(figures):
    return {f"{number} {figure.title}": figure for number, figure in enumerate(figures)}


@pytest.mark.parametrize("unit", UNITS)
def test_nothing_is_drawn_off_the_paper(unit):
    assert [name for name, figure in named(every_figure(unit)).items() if off_paper(figure)] == []


@pytest.mark.parametrize("unit", UNITS)
def test_no_words_or_numbers_overlap(unit):
    found = {name: words_on_words(figure) for name, figure in named(every_figure(unit)).items()}
    assert {name: pairs for name, pairs in found.items() if pairs} == {}


@pytest.mark.parametrize("unit", UNITS)
def test_no_line_runs_through_a_word_or_a_number(unit):
    found = {name: words_on_lines(figure) for name, figure in named(every_figure(unit)).items()}
    assert {name: pairs for name, pairs in found.items() if pairs} == {}


@pytest.mark.parametrize("unit", UNITS)
def test_every_figure_fits_letter_and_a4_and_its_print_can_be_read(unit):
    for figure in every_figure(unit):
        assert figure.width <= 170  # Letter 216 mm and A4 210 mm less 20 mm margins
        assert figure.height <= 200
        assert min(item.size for item in figure.items if isinstance(item, Text)) >= SMALLEST_TEXT


def test_the_reader_of_these_tests_sees_an_overlap_and_a_struck_out_number():
    """The two checks above can fail: put a word on a word and a line through it."""
    figure = whole(bench(), INCH)
    word = next(item for item in figure.items if isinstance(item, Text))
    line = next(item for item in figure.items if not isinstance(item, Text) and hasattr(item, "kind"))
    assert words_on_words(replace(figure, items=(*figure.items, replace(word, text="45"))))
    struck = replace(
        line, points=((word.at[0] - 1, word.at[1] - 1), (word.at[0] + 9, word.at[1] - 1)), kind="visible"
    )
    assert words_on_lines(replace(figure, items=(*figure.items, struck)))


def test_the_same_build_gives_the_same_bytes():
    every_figure.cache_clear()
    first = [svg(figure) for figure in every_figure()]
    every_figure.cache_clear()
    assert [svg(figure) for figure in every_figure()] == first


def test_the_order_in_which_parts_are_kept_changes_no_drawing():
    build = bench()
    groups = alike(build)
    backwards = Build(build.name, build.parts[::-1], build.joints[::-1])
    ids = tuple(part.id for part in build.parts)
    one = step(build, 1, "All", ("top", "back"), ids[:-2], build.fasteners, INCH, None, groups)
    other = step(
        backwards, 1, "All", ("back", "top"), ids[:-2][::-1], build.fasteners[::-1], INCH, None, groups
    )
    assert one.items == other.items
    assert [orthographic(build, INCH, side).items for side in ("front", "side", "top")] == [
        orthographic(backwards, INCH, side).items for side in ("front", "side", "top")
    ]


def test_every_figure_says_in_words_what_it_shows():
    parts = {"foot", "bottom", "side", "divider", "back", "top", "cleat"}
    for figure in (whole(bench(), INCH), steps()[-1]):
        said = figure.description.lower().replace("feet", "foot")
        assert {name for name in parts if name in said} == parts
    for label, figure in part_figures().items():
        assert f"part {label}" in figure.description
    assert "12 1/4 × 14 3/4" in cutting_drawing(sheet(), INCH).description


def test_a_figure_says_once_which_unit_its_numbers_have():
    for unit, word in (("in", "inches"), ("mm", "millimeters")):
        for figure in every_figure(unit):
            said = [text for text in texts(figure) if word in text]
            numbers = [
                text for text in texts(figure) if text.strip("≈").replace(" ", "").replace("/", "").isdigit()
            ]
            assert len(said) == (1 if numbers else 0) or figure.id.startswith("step")


def test_a_post_worked_on_four_faces_still_fits_the_page():
    """Four faces with six holes each do not fit one below the other: they stand side by side."""
    holes = [
        Bore(face, tuple(inch(at) if axis == "z" else inch("3/4") for axis in "xyz"), inch("1/4"), inch("1"))
        for face in ("left", "right", "front", "back")
        for at in ("2", "5", "8", "11", "14", "17")
    ]
    post = Part(
        "p", "Post", "board", CLEAT, box("0", "1 1/2", "0", "1 1/2", "0", "20"), "z", "y", tuple(holes)
    )
    for notation in (INCH, METRIC):
        figure = part_drawing(post, "P", "1 piece", notation)
        assert figure.width <= 170
        assert figure.height <= 200
        assert words_on_words(figure) == []
        assert words_on_lines(figure) == []
        assert sum(1 for text in texts(figure) if text.endswith("face, top end up")) == 4


def test_a_tall_build_and_a_wide_one_fit_the_page():
    for size in ((10, 10, 90), (120, 4, 4), (1, 60, 60)):
        right, back, top = (str(side) for side in size)
        board = Part("b", "Block", "board", CLEAT, box("0", right, "0", back, "0", top), "z", "y")
        build = Build("Block", (board,))
        for figure in (
            whole(build, INCH),
            *(orthographic(build, INCH, side) for side in ("front", "side", "top")),
        ):
            assert figure.width <= 170
            assert figure.height <= 200


def test_a_whole_view_of_this_bench_stays_small():
    assert len(svg(whole(bench(), INCH)).encode()) < 40_000
