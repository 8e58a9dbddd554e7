"""Drawings of what opens, read back by geometry."""

import math
from dataclasses import replace

import pytest
from reading import marks, of_kind, off_paper, texts, words_on_words

from plankit.build import Thing
from plankit.build.swing import sweep
from plankit.drawing.figures_swing import moving_drawing
from plankit.drawing.svg import svg
from plankit.units import Angle, Notation
from tests.build.bins import drawn, tilting
from tests.plan.sorting import case, front_of, stand, with_drawer

INCH, METRIC = Notation(), Notation("mm")


def lower(notation=INCH):
    plan, _, _ = stand()
    build = plan.build()
    return moving_drawing(build, build.moving[0], notation)


def doored(notation=INCH):
    plan, parts = case()
    front = front_of(plan, parts)
    plan.door("Door", front, hinged="left", opens="100 deg")
    build = plan.build()
    return moving_drawing(build, build.moving[0], notation)


def pulled(notation=INCH):
    plan, parts = case()
    front = front_of(plan, parts)
    build = with_drawer(plan, front).build()
    return moving_drawing(build, build.moving[0], notation)


ALL = [make(notation) for make in (lower, doored, pulled) for notation in (INCH, METRIC)]


@pytest.mark.parametrize("figure", ALL, ids=lambda figure: f"{figure.id} {figure.width}")
def test_nothing_is_off_the_paper_and_no_words_lie_on_words(figure):
    assert not off_paper(figure)
    assert words_on_words(figure) == []
    assert figure.width <= 170
    assert figure.height <= 200


def test_a_bin_is_drawn_shut_and_open_with_its_angle_and_its_clear_opening():
    figure = lower()
    assert figure.id == "moving-lower-bin"
    assert "22°" in texts(figure)
    assert "≈4 5/8" in texts(figure)
    assert of_kind(figure, "hidden")
    assert len(marks(figure, "cross")) == 1
    assert any("Stop block, at 22°" in text for text in texts(figure))


def test_the_open_outline_is_the_shut_one_turned_by_the_angle():
    """The longest edge of the front: its outer face, 14 in at 1:8, leans 22° from upright when open."""
    figure = lower()
    number = next(int(t.split("1:")[1].split(".")[0].split()[0]) for t in texts(figure) if "Scale 1:" in t)
    leaning = [
        (one, other)
        for line in of_kind(figure, "hidden")
        for one, other in zip(line.points, line.points[1:], strict=False)
        if math.dist(one, other) == pytest.approx(14 * 25.4 / number, abs=0.05)
    ]
    assert leaning
    (x1, y1), (x2, y2) = leaning[0]
    assert math.degrees(math.atan2(abs(x2 - x1), abs(y2 - y1))) == pytest.approx(22, abs=0.05)


def test_the_cross_marks_where_the_bin_meets_its_stop():
    """It lies as far from the pivot on the page as the place of contact does in the build."""
    plan, _, _ = stand()
    build = plan.build()
    figure = moving_drawing(build, build.moving[0], INCH)
    met = sweep(build, build.moving[0]).opening[0]
    pivot = build.moving[0].pivot
    centre = of_kind(figure, "centre")
    x = sum(p[0] for p in centre[0].points) / 2
    y = sum(p[1] for p in centre[0].points) / 2
    cross = marks(figure, "cross")[0].at
    away = math.dist((met.at[1], met.at[2]), (float(pivot.at.y.mm), float(pivot.at.z.mm)))
    number = next(int(t.split("1:")[1].split(".")[0].split()[0]) for t in texts(figure) if "Scale 1:" in t)
    assert math.dist(cross, (x, y)) * number == pytest.approx(away, abs=0.1)


def test_a_door_is_seen_from_above_and_says_so():
    figure = doored()
    assert "from above" in figure.description
    assert "100°" in texts(figure)


def test_the_front_is_named_and_where_one_looks_from():
    assert "front" in texts(lower())
    assert "front" in texts(doored())
    assert any("Seen from above" in text for text in texts(doored()))
    assert not any("Sizes in" in text for text in texts(doored()))  # it has no size


def test_what_a_bin_carries_is_drawn_in_a_chain_line():
    build = drawn("6")
    carried = replace(build.moving[0], contents="Tub")
    box = build.part(carried.parts[0]).box
    filled = replace(build, things=(Thing("Tub", box),), moving=(carried,))
    plain, figure = (moving_drawing(one, one.moving[0], INCH) for one in (build, filled))
    assert len(of_kind(figure, "centre")) == len(of_kind(plain, "centre")) + 1
    assert any("not made: Tub" in text for text in texts(figure))


def test_a_drawer_is_drawn_pulled_out_with_how_far():
    figure = pulled()
    assert figure.title == "Till, shut and pulled out"
    assert "9" in texts(figure)
    assert "pulled out 9\u00a0in (229\u00a0mm)" in figure.description


def test_a_drawer_that_meets_something_is_drawn_only_so_far():
    build = drawn("6")
    figure = moving_drawing(build, build.moving[0], INCH)
    assert "3" in texts(figure)
    assert "it meets Rail, 3" in figure.description.lower().replace("rail", "Rail")


def test_the_words_say_what_it_meets_first():
    assert "It meets its stop, Stop block, at 22°." in lower().description
    assert "It meets nothing on its way." in doored().description


def test_what_is_met_early_is_told_though_it_should_open_further():
    build = tilting("16", opens=Angle.read("35 deg"))
    figure = moving_drawing(build, build.moving[0], INCH)
    assert "It meets Shelf, at 8.3°." in figure.description


def test_the_same_build_gives_the_same_bytes_whatever_the_order_of_its_parts():
    plan, _, _ = stand()
    build = plan.build()
    one = svg(moving_drawing(build, build.moving[0], INCH))
    assert one == svg(moving_drawing(build, build.moving[0], INCH))
    moved = replace(build, joints=(), items=())
    assert one == svg(moving_drawing(moved, build.moving[0], INCH))
