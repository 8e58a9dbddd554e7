"""The whole piece and its front, side and top views carry the right numbers, each once."""

import pytest
from bench_like import bench, inch
from figure_set import INCH, METRIC
from reading import of_kind, texts

from plankit.drawing.figures_views import counted_along, orthographic
from plankit.drawing.figures_whole import whole
from plankit.drawing.placing import ratio
from plankit.drawing.primitives import Text
from plankit.errors import PlanError


def test_the_whole_view_gives_width_depth_and_height_once_each():
    said = texts(whole(bench(), INCH))
    assert said.count("45") == 1  # 44 and 1/2 over each end
    assert said.count("15 1/2") == 1  # 15 and 1/2 over the front
    assert said.count("18 1/2") == 1  # foot 4, bottom 3/4, side 12 1/4, top 1 1/2
    assert said.count("Sizes in inches") == 1


def test_in_millimetres_the_same_sizes_are_metric():
    said = texts(whole(bench(), METRIC))
    assert "1143" in said  # 45 × 25.4 = 1143
    assert "≈470" in said  # 18.5 × 25.4 = 469.9


def test_every_kind_of_part_that_is_seen_has_one_label():
    said = texts(whole(bench(), INCH))
    assert [said.count(letter) for letter in "ABCDE"] == [1, 1, 1, 1, 1]
    assert "F" not in said  # the cleats are hidden under the top
    assert "Not seen from here: F, two cleats" in whole(bench(), INCH).description


def test_the_front_view_counts_every_place_from_the_left_edge_of_the_case():
    said = texts(orthographic(bench(), INCH, "front"))
    # cubby (44 − 4 × 3/4) / 3 = 13 2/3; first divider 3/4 + 13 2/3 = 14 5/12; second 2 × 14 5/12 = 28 5/6
    expected = ["1/2", "3/4", "≈14 7/16", "≈28 13/16", "40", "42 1/2", "43 1/4"]
    assert [said.count(number) for number in expected] == [1] * 7
    heights = [
        "4",
        "4 3/4",
        "15 1/2",
        "17",
        "18 1/2",
        "45",
    ]  # floor up: foot 4, bottom 3/4, cleat, top's underside
    assert [said.count(number) for number in heights] == [1] * 6


def test_no_number_stands_twice_in_a_view():
    for side in ("front", "side", "top"):
        figure = orthographic(bench(), INCH, side)
        found = [item for item in figure.items if isinstance(item, Text) and item.text[0] in "≈123456789"]
        numbers = [(item.text, _axis(item, figure)) for item in found]
        assert len(numbers) == len(set(numbers))


def _axis(item: Text, figure) -> str:
    """Places along the page stand upright below the view, places up the page lie at its right."""
    outside = item.anchor == "middle"
    return "up" if (item.angle != 0) == outside else "along"


def test_what_the_top_covers_is_dashed_from_above_and_nothing_is_dashed_from_the_front():
    assert of_kind(orthographic(bench(), INCH, "top"), "hidden")
    assert not of_kind(orthographic(bench(), INCH, "front"), "hidden")


def test_all_three_views_have_one_scale():
    scales = {texts(orthographic(bench(), INCH, side))[-1].split(".")[0] for side in ("front", "side", "top")}
    assert scales == {"Scale 1:10"}  # 45 in on 118 mm: 1143 / 118 = 9.7


def test_the_view_is_drawn_to_the_scale_it_states():
    outline = [x for line in of_kind(orthographic(bench(), INCH, "front"), "outline") for x, _ in line.points]
    assert max(outline) - min(outline) == pytest.approx(45 * 25.4 / 10)


def test_scales_come_from_the_standard():
    """ISO 5455 lists 1:2, 1:5, 1:10 … (from memory); inches also have an architect's 1:4, 1:8, 1:12."""
    assert [ratio("mm", size, 1, 100, 100) for size in (100, 150, 450, 950, 1900, 4000)] == [
        1,
        2,
        5,
        10,
        20,
        50,
    ]
    assert [ratio("in", size, 1, 100, 100) for size in (390, 790, 1190)] == [4, 8, 12]


def test_places_are_counted_from_the_edge_that_most_parts_share():
    chain = counted_along(bench().parts, bench().box, "x")
    assert chain.start == inch("1/2")  # the case begins 1/2 in inside the top's end
    assert chain.places[0] == (inch("1/2"), ("Foot",))


def test_an_unknown_view_is_refused():
    with pytest.raises(PlanError, match="front, side or top"):
        orthographic(bench(), INCH, "rear")
