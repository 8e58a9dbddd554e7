"""A joint cut through: what is hatched, how long the screw is, how deep it bites, and which face is flush."""

import math
import re
from typing import Any

import pytest
from reading import of_kind, texts, words_on_words

from plankit import Plan, stock
from plankit.drawing.figures_section import section_drawing
from plankit.drawing.primitives import Figure, Line, bounds
from plankit.drawing.section_cut import cut_through
from plankit.errors import PlanError

PLY = stock.sheet("plywood", "3/4")
SLAB = stock.lumber("2x10", species="loblolly pine")
SMALL = stock.lumber("2x2", species="Douglas-fir")
STRIP = stock.lumber("1x2", species="Douglas-fir")
APRON = stock.lumber("1x4", species="Douglas-fir")


def corner() -> tuple[Plan, Any, Any]:
    plan = Plan("Corner")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="20")
    top = plan.panel("Top", PLY, left=side.right, right="20", front=0, back="12", top="20")
    plan.screw(top, through=side, screws="#8 x 2")
    return plan, side, top


def drawn(plan: Plan, one: Any, other: Any) -> Figure:
    return section_drawing(plan.build(), one.part, other.part, plan.notation)


def screw_of(figure: Figure) -> Line:
    return of_kind(figure, "centre")[0]


def test_the_screw_is_drawn_in_its_true_length() -> None:
    plan, side, top = corner()
    figure = drawn(plan, side, top)
    scale = int(re.search(r"Scale 1:(\d+)", " ".join(texts(figure)))[1])  # type: ignore[index]
    assert math.dist(*screw_of(figure).points) * scale == pytest.approx(2 * 25.4)
    assert {"2", "3/4", "1 1/4"} <= set(texts(figure))  # through 3/4, 2 − 3/4 = 1 1/4 in the top


def test_both_parts_are_hatched_the_other_way() -> None:
    plan, side, top = corner()
    ways = set()
    for line in of_kind(drawn(plan, side, top), "hatch"):
        (ax, ay), (bx, by) = line.points
        ways.add(round(math.degrees(math.atan2(by - ay, bx - ax))) % 180)
    assert ways == {45, 135}


def test_what_is_cut_is_as_thick_as_the_part() -> None:
    plan, side, top = corner()
    cut = cut_through(plan.build(), side.part, top.part)
    for part, rings in cut.shown():
        across = [x for ring in rings for x, _ in ring], [y for ring in rings for _, y in ring]
        spans = [max(ends) - min(ends) for ends in across]
        assert min(spans) == pytest.approx(0.75 * 25.4, abs=0.01), part.name


def test_a_panel_let_in_is_flush_on_one_face_and_its_screw_slopes() -> None:
    plan = Plan("Frame")
    frame = plan.frame("Frame", SMALL, STRIP, left=0, right="30", front=0, back="14", bottom=0, top="30")
    panel = plan.let_in("Panel", PLY, frame=frame.side("left"), flush="left")
    rail = next(one for one in frame.rails if any(j.holds == panel.id and j.to == one.id for j in plan.build().joints))
    cut = cut_through(plan.build(), panel.part, rail.part)
    lows = [min(x for ring in rings for x, _ in ring) for part, rings in cut.shown() if part.id in {panel.id, rail.id}]
    assert lows[0] == pytest.approx(lows[1])  # both begin at the left outside
    figure = drawn(plan, panel, rail)
    (ax, ay), (bx, by) = screw_of(figure).points
    assert math.degrees(math.atan2(abs(bx - ax), abs(by - ay))) == pytest.approx(15, abs=0.1)
    assert "1 1/4" in texts(figure)


def test_a_slotted_top_shows_how_far_it_can_slide() -> None:
    plan = Plan("Top")
    top = plan.glue_up("Top", SLAB, boards=2, left=0, right="30", front=0, back="14", bottom="17")
    cleat = plan.board("Cleat", SMALL, runs="front-back", left="4", front="1", back="13", top=top.bottom)
    plan.fasten_top(top, to=[cleat], fixed_along="front", screws="#8 x 2")
    figure = drawn(plan, cleat, top)
    assert {"2", "1/2", "1"} <= set(texts(figure))  # 2 − 1 1/2 in the top, 1 in of its 1 1/2 left
    assert "free to slide" in figure.description
    cut = cut_through(plan.build(), cleat.part, top.part)
    pieces = {part.id: rings for part, rings in cut.shown()}[cleat.id]
    assert len(pieces) >= 2  # the slot parts the cleat's face: it is seen along its length


def test_a_button_hooks_into_its_groove() -> None:
    plan = Plan("Table")
    faces: dict[str, Any] = {"left": "1", "right": "41", "front": "1", "back": "19", "bottom": 0, "top": "28"}
    frame = plan.frame("Table", SMALL, APRON, rails_at=["top"], **faces)
    top = plan.glue_up("Top", SLAB, boards=3, left=0, right="42", front=0, back="20", bottom="28")
    plan.button_top(top, to=frame.rails)
    cut = cut_through(plan.build(), top.part, frame.rails[0].part)
    (rings,) = cut.buttons()
    apron = {part.id: one for part, one in cut.shown()}[frame.rails[0].id]
    inner = max(x for ring in apron for x, _ in ring)
    corners = [point for ring in rings for point in ring]
    assert min(x for x, _ in corners) < inner - 5  # 3/8 in deep less 1/8 in free: the tongue is 6.35 mm in
    assert min(x for x, y in corners if y == min(y for _, y in corners)) == pytest.approx(inner + 25.4 / 8, abs=0.05)


def test_parts_that_do_not_meet_have_no_section() -> None:
    plan, side, _ = corner()
    far = plan.panel("Far", PLY, left="30", front=0, back="12", bottom=0, top="20")
    with pytest.raises(PlanError, match="no joint to cut"):
        drawn(plan, side, far)


def test_no_number_lies_on_another() -> None:
    plan = Plan("Frame")
    frame = plan.frame("Frame", SMALL, STRIP, left=0, right="30", front=0, back="14", bottom=0, top="30")
    assert frame.rails
    build = plan.build()
    for joint in build.joints:  # 11/16 in of a screw in a post 1 1/2 in thick: two short lengths side by side
        figure = section_drawing(build, build.part(joint.holds), build.part(joint.to), plan.notation)
        assert words_on_words(figure) == []


def test_it_lies_on_its_paper_and_is_shown_by_picture() -> None:
    plan, side, top = corner()
    figure = drawn(plan, side, top)
    left, up, right, down = bounds(figure)
    assert left >= 0
    assert up >= 0
    assert right <= figure.width
    assert down <= figure.height
    shown = plan.picture(side, section=top)._repr_mimebundle_()
    assert "<svg" in shown["text/html"]
    assert "cut through" in shown["text/plain"]
    with pytest.raises(PlanError, match="a section or a face"):
        plan.picture(side, section=top, face="left")


@pytest.mark.parametrize("rail", ["1x4", "2x4"])
def test_a_dowel_s_length_is_divided_between_the_two_parts(rail: str) -> None:
    plan = Plan("Post and rail")
    post = plan.board("Post", SMALL, runs="up", left=0, front=0, bottom=0, top="20")
    side = plan.board("Rail", stock.lumber(rail, species="Douglas-fir"), runs="left-right", wide="up",
                      left=post.right, right="20", front=0, top="18")  # fmt: skip
    plan.dowel(side, into=post, pins="3/8 x 2")
    figure = drawn(plan, side, post)  # not the rail's 18 1/2 in, for which the page has no room
    assert figure.width <= 170
    said = texts(figure)
    assert said.count("1") == 2  # 2 in: half of it in each
    assert not any("18" in one for one in said)
