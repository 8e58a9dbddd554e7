"""A figure as SVG: well formed, described, legible, the same every time."""

import re
import xml.etree.ElementTree as ET

import pytest
from builds import cabinet

from plankit.drawing.direction import direction
from plankit.drawing.primitives import Area, Figure, Line, Mark, Text, bounds, moved, scaled
from plankit.drawing.svg import PENS, svg
from plankit.drawing.view import look
from plankit.errors import PlanError

SVG = "{http://www.w3.org/2000/svg}"
SQUARE = ((10.0, 10.0), (30.0, 10.0), (30.0, 30.0), (10.0, 30.0))


def figure(*items, title="Boot bench", description="View from the front."):
    return Figure("front", 120, 80, title, description, items)


def read(drawing):
    return ET.fromstring(svg(drawing))


def everything():
    lines = [Line(((0, n), (50, n)), kind) for n, kind in enumerate(PENS)]
    kinds = ("arrow", "dot", "screw", "hole", "cross", "tick")
    marks = [Mark((60, 10 * n), kind, 3, 30) for n, kind in enumerate(kinds)]
    texts = [Text((5, 60), "13 11/16 in", 8), Text((5, 70), "A", 8, "middle", 90, bold=True)]
    return figure(Area((SQUARE,), "waste"), *lines, *marks, *texts)


def test_title_and_description_name_the_figure():
    root = read(figure(title="Feet & floor", description="Two < four"))
    by_id = {element.get("id"): element.text for element in root}
    assert [by_id[name] for name in root.get("aria-labelledby").split()] == ["Feet & floor", "Two < four"]
    assert root.get("role") == "img"
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("120mm", "80mm", "0 0 120 80")


def test_ids_of_two_figures_on_one_page_differ():
    figures = [Figure(name, 9, 9, "t", "d") for name in ("step-1", "step-2")]
    one, other = (re.findall(r'id="([^"]+)"', svg(drawing)) for drawing in figures)
    assert len(one) == len(other) == 3
    assert not set(one) & set(other)


def test_every_kind_of_primitive_is_drawn_one_element_a_line():
    text = svg(everything())
    root = ET.fromstring(text)
    assert len(root.findall(f".//{SVG}text")) == 2
    # the square, the lines, and an arrow, a screw, a cross and a tick
    assert len(root.findall(f".//{SVG}path")) == 1 + len(PENS) + 4
    assert len(root.findall(f".//{SVG}circle")) == 3  # dot, screw, hole
    drawn = [line for line in text.splitlines() if line.startswith(("<path", "<text", "<circle"))]
    assert len(drawn) == len(everything().items)


def test_text_signs_of_xml_and_control_characters():
    root = read(figure(Text((1, 1), 'a < b & "c" > d\x07', 8)))
    assert root.find(f".//{SVG}text").text == 'a < b & "c" > d'


def test_no_text_below_eight_points_which_print_as_seven():
    sizes = [float(text.get("font-size")) for text in read(everything()).iter(f"{SVG}text")]
    assert min(sizes) >= 8 * 25.4 / 72 - 0.001  # 8 pt are 2.822 mm
    with pytest.raises(PlanError, match="8 pt"):
        Text((0, 0), "too small", 7.9)


def test_numbers_go_to_a_hundredth_and_zero_has_no_sign():
    text = svg(figure(Line(((1 / 3, -0.001), (2.50, 100.0)))))
    assert '<path d="M0.33 0L2.5 100"/>' in text


def test_rings_close_and_holes_stay_open():
    hole = ((15.0, 15.0), (20.0, 15.0), (20.0, 20.0))
    text = svg(figure(Area((SQUARE, hole), "part"), Line((*SQUARE, SQUARE[0]))))
    assert '<path d="M10 10L30 10L30 30L10 30ZM15 15L20 15L20 20Z"/>' in text
    assert 'fill-rule="evenodd"' in text
    assert '<path d="M10 10L30 10L30 30L10 30Z"/>' in text


def test_wide_lines_are_twice_as_wide_as_narrow_ones():
    # ISO 128-2: wide and narrow in the ratio 2 : 1 (from memory)
    assert PENS["outline"].width == 2 * PENS["hidden"].width
    assert PENS["visible"].width == pytest.approx(2 * PENS["hatch"].width, rel=0.05)


def test_kinds_are_told_apart_without_colour():
    looks = {(PENS[kind].width, PENS[kind].dashes) for kind in ("outline", "receding", "hidden", "centre")}
    assert len(looks) == 4


def test_the_same_view_gives_the_same_bytes_and_stays_small():
    def drawing():
        seen = look(cabinet()[::-1])
        left, top, *_ = seen.bounds
        small = [scaled(Line(points, kind), 0.1) for _, points, kind in seen.lines]
        lines = [moved(line, -left / 10, -top / 10) for line in small]
        return svg(Figure("whole", 170, 180, "Case", "Isometric view.", tuple(lines)))

    assert drawing() == drawing()
    assert len(drawing().encode()) < 40_000  # 41 parts


def test_moving_and_scaling_keep_text_and_marks_their_size():
    text = scaled(Text((10, 20), "A", 8), 2, about=(10, 10))
    assert (text.at, text.size) == ((10, 30), 8)
    mark = moved(Mark((1, 2), "dot", 3), 4, 5)
    assert (mark.at, mark.size) == ((5, 7), 3)
    assert moved(Area((SQUARE,), "part"), -10, -10).rings[0][0] == (0, 0)


def test_bounds_take_in_lines_areas_and_measured_text():
    assert bounds(figure(Line(((5, 6), (70, 8))), Area((SQUARE,)))) == (5, 6, 70, 30)
    left, top, right, bottom = bounds([Text((100, 50), "MMMM", 10, "end")])
    assert right == pytest.approx(100)
    assert left < 90
    assert top < 50 < bottom
    assert bounds(figure()) == (0, 0, 120, 80)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Line(((0, 0),)),
        lambda: Line(((0, 0), (1, 1)), "wavy"),
        lambda: Area((((0, 0), (1, 1)),)),
        lambda: Mark((0, 0), "star"),
        lambda: Mark((0, 0), "dot", 0),
        lambda: Figure("a b", 1, 1, "", ""),
        lambda: Figure("a", 0, 1, "", ""),
    ],
)
def test_what_cannot_be_drawn_is_refused(wrong):
    with pytest.raises(PlanError):
        wrong()


def test_directions_known_to_figures_have_words():
    assert direction("isometric back left").words.endswith("back left")
