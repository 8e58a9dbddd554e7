"""Steps that work on loose parts: each kind lies by itself, and what is done to it is marked."""

from dataclasses import replace

import pytest
from reading import area, filled, marks, of_kind, texts, words_on_words

from plankit.drawing.figures_work import Worked, work_on_parts
from plankit.parts import Banding, Part, Taper
from plankit.plan.figures import step_picture
from plankit.plan.loose_parts import loose_parts
from plankit.plan.work import work_of
from plankit.stock import sheet
from plankit.units import L, Notation
from tests.parts.one_of_each import TAPERED, box
from tests.plan.demo import bench

INCHES = Notation()
FLOOR = Part("floor", "Bottom", "panel", sheet("plywood", "3/4"), box("0", "44", "0", "15", "0", "3/4"), "x", "z")
BAND = Banding("front", L("1/64 in"))


def drawn(*worked: Worked):
    return work_on_parts(3, "Work on them", worked, INCHES)


def banded():
    return drawn(Worked(replace(FLOOR, features=(BAND,)), "B", ("Bottom",), (BAND,)))


def tapered(*, held: bool = True):
    done = tuple(feature for feature in TAPERED.features if isinstance(feature, Taper))
    return drawn(Worked(TAPERED, "A", ("Foot", "Foot"), done, held=held))


def test_an_edge_that_is_banded_is_tinted_and_pointed_at():
    figure = banded()
    (edge,) = filled(figure, "arriving")
    (leader,) = of_kind(figure, "leader")
    (arrow,) = marks(figure, "arrow")
    across, down = zip(*edge.rings[0], strict=True)
    assert area(edge.rings[0]) > 0
    assert min(across) <= leader.points[0][0] <= max(across)
    assert min(down) <= leader.points[0][1] <= max(down)
    assert arrow.at == leader.points[0]
    assert {"banding", "banding: front edge", "B\u00a0 Bottom"} <= set(texts(figure))
    assert "Shows" not in figure.description
    assert "banding: front edge" in figure.description


def test_an_edge_at_the_back_is_seen_from_behind():
    band = replace(BAND, edge="back")
    figure = drawn(Worked(replace(FLOOR, features=(band,)), "B", ("Bottom",), (band,)))
    assert "from the back" in figure.description
    assert filled(figure, "arriving")


def test_what_a_taper_takes_off_stands_in_chain_lines():
    figure = tapered()
    assert of_kind(figure, "assembly")
    assert any(text.endswith("off at the bottom end") for text in texts(figure))
    assert any("Chain line: what is sawn off." in text for text in texts(figure))


def test_a_short_piece_that_is_parted_off_last_is_drawn_at_the_end_of_its_stock():
    held, free = tapered(), tapered(held=False)
    assert of_kind(held, "receding")
    assert not of_kind(free, "receding")
    assert "clamped" in texts(held)[-1]
    assert "at the end of longer stock" in held.description
    assert "clamped" not in texts(free)[-1]


def test_the_steps_of_the_bench_before_anything_is_put_together_have_pictures():
    draft = bench().draft()
    works = {work.step.title: work for work in work_of(draft)}
    assert step_picture(draft, works["Cut the parts to size"]) is None  # the cutting drawings show it
    for title in ("Glue up the top", "Taper the feet", "Band the front edges"):
        picture = step_picture(draft, works[title])
        assert picture is not None, title
        assert picture.height_mm < 70
    glue = loose_parts(draft, works["Glue up the top"])
    assert [(one.label, one.glued, one.part.glue_up.boards) for one in glue] == [("C", True, 2)]
    feet = loose_parts(draft, works["Taper the feet"])
    assert [(one.label, len(one.names), one.held) for one in feet] == [("A", 2, True), ("A", 2, True)]  # two hands
    bands = loose_parts(draft, works["Band the front edges"])
    # the same banding on both hands: the sides and dividers are one kind here
    assert [(one.label, len(one.names)) for one in bands] == [("B", 1), ("D", 4)]


def test_boards_that_are_glued_up_lie_apart_with_an_arrow_at_each_outer_one():
    draft = bench().draft()
    work = next(work for work in work_of(draft) if work.step.title == "Glue up the top")
    figure = work_on_parts(2, "Glue up the top", loose_parts(draft, work), INCHES)
    assert len(filled(figure, "paper")) == 2
    assert "two boards, 46 × 8 1/8 in each" in [text.replace("\u00a0", " ") for text in texts(figure)]


@pytest.mark.parametrize("make", [banded, tapered])
def test_words_keep_clear_of_words(make):
    assert words_on_words(make()) == []
