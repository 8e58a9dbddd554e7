"""The whole piece and its front, side and top views carry the right numbers, each once."""

from dataclasses import replace

import pytest
from bench_like import CLEAT, PLY, bench, box, inch
from figure_set import INCH, METRIC
from reading import of_kind, texts

from plankit.build import Build, Item
from plankit.drawing.figures_views import counted_along, orthographic
from plankit.drawing.figures_whole import whole
from plankit.drawing.placing import ratio
from plankit.drawing.primitives import Text
from plankit.errors import PlanError
from plankit.parts import Bore, Part, PocketHoles


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
    expected = ["3/4", "≈14 7/16", "≈28 13/16", "40", "42 1/2", "43 1/4"]
    assert [said.count(number) for number in expected] == [1] * 6
    assert said.count("1/2") == 2  # the foot's place, and what the top stands out
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
        numbers = [(item.text, _axis(item, figure), item.anchor) for item in found]  # places and sizes apart
        assert len(numbers) == len(set(numbers))


def _axis(item: Text, figure) -> str:
    """Places along the page stand upright below the view, places up the page lie at its right."""
    outside = item.anchor == "middle"
    return "up" if (item.angle != 0) == outside else "along"


def test_what_the_top_covers_is_dashed_from_above_and_nothing_is_dashed_from_the_front():
    assert of_kind(orthographic(bench(), INCH, "top"), "hidden")
    assert not of_kind(orthographic(bench(), INCH, "front"), "hidden")


def test_dashes_are_explained_only_where_there_are_some():
    lid = next(part for part in bench().parts if part.id == "top")
    assert any("Dashed: under the top." in words for words in texts(orthographic(bench(), INCH, "top")))
    assert not any("Dashed" in words for words in texts(orthographic(Build("Lid", (lid,)), INCH, "top")))


def test_holes_that_the_top_covers_are_not_dashed():
    """Bottom, cleats and sides have screw and pocket holes under the top: without them the same dashes."""
    undrilled = Build(
        "Bench",
        tuple(
            replace(part, features=tuple(f for f in part.features if not isinstance(f, Bore | PocketHoles)))
            for part in bench().parts
        ),
    )
    dashes = of_kind(orthographic(bench(), INCH, "top"), "hidden")
    assert dashes == of_kind(orthographic(undrilled, INCH, "top"), "hidden")
    assert any(isinstance(feature, Bore) for part in bench().parts for feature in part.features)


def test_the_foot_of_a_view_says_where_its_zeros_are():
    said = {side: " ".join(texts(orthographic(bench(), INCH, side))) for side in ("front", "side", "top")}
    assert "0: left end of the bottom; floor." in said["front"]  # the bottom's grain runs left to right
    assert "0: front edge of the bottom; floor." in said["side"]
    assert "0: left end of the bottom; front edge of the bottom." in said["top"]


def test_what_stands_out_beyond_the_zero_is_dimensioned():
    """The top stands out 1/2 in past the case at the left and at the front, and nothing at the floor."""
    for side, number in (("front", 1), ("side", 1), ("top", 2)):
        figure = orthographic(bench(), INCH, side)
        sizes = [i for i in figure.items if isinstance(i, Text) and i.text == "1/2" and i.anchor == "middle"]
        assert len(sizes) == number
        assert "The top stands out 1/2\u00a0in (13\u00a0mm) beyond it" in figure.description
    case = Build("Case", tuple(part for part in bench().parts if part.id in {"floor", "side", "side-2"}))
    assert "stands out" not in orthographic(case, INCH, "front").description


def test_all_three_views_have_one_scale():
    scales = {
        text.split(".")[0]
        for side in ("front", "side", "top")
        for text in texts(orthographic(bench(), INCH, side))
        if text.startswith("Scale")
    }
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


def test_heights_tell_the_upper_face_of_what_lies_flat_and_of_nothing_else():
    """A shelf 3/4 thick at 12 in: things stand 12 3/4 up; a cleat 3/4 × 1 1/2 is as good as square."""
    shelf = Part("s", "Shelf", "panel", PLY, box("0", "20", "0", "10", "12", "12 3/4"), "x", "z")
    cleat = Part("c", "Cleat", "board", CLEAT, box("0", "20", "0", "1 1/2", "6", "6 3/4"), "x", "z")
    side = Part("p", "Side", "panel", PLY, box("20", "20 3/4", "0", "10", "0", "30"), "z", "x")
    build = Build("Case", (shelf, cleat, side))
    heights = counted_along(build.parts, build.box, "z").places
    assert [INCH.bare(at) for at, _ in heights] == ["6", "12", "12 3/4"]
    assert heights[-1][1] == ("upper face of the shelf",)
    figure = orthographic(build, INCH, "front")
    assert texts(figure).count("12 3/4") == 1
    assert "upper face of the shelf at 12 3/4" in figure.description.replace("\u00a0", " ")


def test_what_is_seen_through_a_gap_only_is_not_measured():
    """A stop 4 in wide behind a door, of which 1/2 in shows, has no number; one that is seen whole has."""
    door = Part("d", "Door", "panel", PLY, box("0", "19 1/2", "0", "3/4", "0", "30"), "z", "y")
    side = Part("p", "Side", "panel", PLY, box("20", "20 3/4", "0", "10", "0", "30"), "z", "x")
    for left, told in (("16", 0), ("19 3/4", 1)):  # 1/2 of 4 in, all of it
        stop = Part("s", "Stop", "board", CLEAT, box(left, "20", "4", "5", "13", "15"), "x", "y")
        assert texts(orthographic(Build("Case", (door, side, stop)), INCH, "front")).count("13") == told


@pytest.mark.parametrize("side", ["front", "side", "top"])
def test_sizes_and_places_are_drawn_from_wood_to_wood(side: str) -> None:
    """A pull stands out 1 in in front and a bracket 1 1/2 in above: no dimension takes them in, no zero lies there."""
    shelf = Part("shelf", "Shelf", "panel", PLY, box("0", "24", "0", "14", "20", "20 3/4"), "x", "z")
    floor = replace(shelf, id="floor", name="Bottom", box=box("0", "24", "0", "14", "4", "4 3/4"))
    back = Part("back", "Back", "panel", PLY, box("0", "24", "14", "14 3/4", "0", "30"), "z", "y")
    bare = Build("Case", (shelf, floor, back))
    pull = Item("pull", "other", ("shelf",), box("10", "14", "-1", "0", "20", "20 1/2"))
    bracket = Item("bracket", "other", ("back",), box("4", "5", "13", "14 3/4", "30", "31 1/2"))

    def spans(build: Build) -> list[tuple[float, float]]:
        found = []
        for line in of_kind(orthographic(build, INCH, side), "dimension"):
            xs, ys = zip(*line.points, strict=True)
            found.append((round(max(xs) - min(xs), 3), round(max(ys) - min(ys), 3)))
        return sorted(found)

    assert spans(replace(bare, items=(pull, bracket))) == spans(bare)


def test_an_unknown_view_is_refused():
    with pytest.raises(PlanError, match="front, side or top"):
        orthographic(bench(), INCH, "rear")
