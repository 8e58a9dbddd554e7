"""Which lines of a build are seen: counted and measured on solids whose picture one can work out."""

import math
from itertools import pairwise

import numpy as np
import pytest
from builds import bored, box, notched, one_of_each, tapered
from manifold3d import Manifold

from plankit.drawing.direction import names
from plankit.drawing.view import look
from plankit.errors import PlanError

ISO = math.sqrt(2 / 3)  # how long a millimetre along an axis is in an isometric view


def length(corners):
    return sum(math.dist(a, b) for a, b in pairwise(corners))


def drawn(view, part=None, kind=None):
    return [line for line in view.lines if part in (None, line[0]) and kind in (None, line[2])]


def total(view, part=None, kind=None):
    return sum(length(corners) for _, corners, _ in drawn(view, part, kind))


@pytest.mark.parametrize("view", [name for name in names() if " " in name])
def test_a_box_from_a_corner_shows_nine_edges_six_of_them_its_outline(view):
    seen = look([("box", box(100, 50, 18))], view)
    assert len(seen.lines) == 9
    assert len(drawn(seen, kind="outline")) == 6
    # each of the three lengths is seen three times: 3 × (100 + 50 + 18) × √(2/3)
    assert total(seen) == pytest.approx(3 * 168 * ISO, abs=1e-6)


SQUARELY = [("front", 100, 18), ("right", 50, 18), ("top", 100, 50)]


@pytest.mark.parametrize(("view", "across", "down"), SQUARELY)
def test_a_box_seen_squarely_is_one_rectangle(view, across, down):
    seen = look([("box", box(100, 50, 18))], view)
    assert len(seen.lines) == 4
    assert total(seen) == pytest.approx(2 * (across + down))
    assert seen.visible_area("box") == pytest.approx(across * down)


def test_hidden_lines_of_a_box_are_the_other_three_edges():
    seen = look([("box", box(100, 50, 18))], hidden=True)
    assert sorted(round(length(corners), 3) for _, corners in seen.hidden) == [
        round(edge * ISO, 3) for edge in (18, 50, 100)
    ]
    assert look([("box", box(100, 50, 18))]).hidden == ()


def test_hidden_lines_are_not_drawn_where_a_visible_one_lies():
    assert look([("box", box(100, 50, 18))], "front", hidden=True).hidden == ()


#   seen from the top           a b c d e f: six corners of the notched panel, so six edges;
#   b-------------c             from the front right the notch at the front left adds its
#   |             |             inner upright edge where it is not hidden
#   |             |
#   a----+        |
#        f        |
#        e--------d
def test_a_notch_is_seen_from_the_top_as_two_more_edges():
    panel = notched(120, 80, 18)  # 120 × 0.4 − 1 = 47 along, 80 × 0.4 − 1 = 31 across
    seen = look([("panel", panel)], "top")
    assert len(seen.lines) == 6
    assert total(seen) == pytest.approx(2 * (120 + 80))
    assert seen.visible_area("panel") == pytest.approx(120 * 80 - 47 * 31)


def test_a_taper_leans_in_the_front_view():
    foot = tapered(80, 80, 120, lean=0.25)  # left face leans in by 80 × 0.25 = 20
    seen = look([("foot", foot)], "front")
    assert any(length(corners) == pytest.approx(math.hypot(20, 120)) for _, corners, _ in seen.lines)
    assert seen.visible_area("foot") == pytest.approx((80 + 60) / 2 * 120)


@pytest.mark.parametrize("segments", [16, 24, 48])
def test_a_bore_shows_one_closed_round_line_and_no_facets(segments):
    panel = bored(100, 100, 20, 0.2, segments)
    seen = look([("panel", panel)], "top")
    assert len(seen.lines) == 5  # four edges and the bore
    (bore,) = [corners for _, corners, kind in seen.lines if kind == "visible"]
    assert len(bore) == segments + 1
    assert bore[0] == bore[-1]
    # the perimeter of a regular polygon: 2 n r sin(π/n)
    assert length(bore) == pytest.approx(2 * segments * 20 * math.sin(math.pi / segments))


def test_through_a_wide_bore_the_far_rim_is_seen_in_part():
    panel = bored(100, 100, 10, 0.3, 48)
    seen = look([("panel", panel)])
    far, near = sorted((corners for _, corners, _ in seen.lines if len(corners) > 2), key=length)
    assert near[0] == near[-1]
    assert far[0] != far[-1]


def test_a_slight_taper_bends_with_a_line_though_it_bends_less_than_a_bores_facets():
    # straight for 60, then leaning in 5 mm in 60: a bend of 4.8°
    leg = Manifold.hull_points(
        [(x, y, z) for y in (0, 40) for x, z in ((0, 60), (0, 120), (40, 120), (40, 0), (5, 0))]
    )
    seen = look([("leg", leg)], "left")
    assert total(seen, kind="visible") == pytest.approx(40)


def test_seams_between_flush_pieces_of_one_part_are_not_drawn():
    ell = box(100, 50, 18) + box(50, 100, 18)
    seen = look([("ell", ell)], "top")
    assert len(seen.lines) == 6
    assert total(seen) == pytest.approx(400)


def test_flush_parts_keep_the_line_between_them_and_it_is_drawn_once():
    seen = look([("left", box(60, 40, 18)), ("right", box(60, 40, 18, (60, 0, 0)))], "top")
    assert len(seen.lines) == 7  # two rectangles of 60 × 40 share one edge of 40
    assert total(seen) == pytest.approx(2 * 2 * (60 + 40) - 40)


def test_a_shelf_between_two_sides_ends_at_them():
    sides = [("left", box(18, 300, 400)), ("right", box(18, 300, 400, (318, 0, 0)))]
    shelf = ("shelf", box(300, 280, 18, (18, 20, 200)))
    seen = look([*sides, shelf], "front")
    assert total(seen, "shelf") == pytest.approx(2 * 300)  # its ends are the sides' own edges
    assert seen.visible_area("shelf") == pytest.approx(300 * 18)


def test_a_part_behind_another_adds_nothing():
    near, far = ("near", box(100, 10, 100)), ("far", box(60, 10, 60, (20, 40, 20)))
    seen = look([near, far], "front")
    assert seen.lines == look([near], "front").lines
    assert seen.fills == look([near], "front").fills
    assert seen.visible_area("far") == 0


def test_a_part_inside_a_closed_box_is_hidden_from_everywhere():
    chest = box(100, 100, 100) - box(80, 80, 80, (10, 10, 10))
    for view in names():
        assert look([("chest", chest), ("coin", box(5, 5, 5, (40, 40, 10)))], view).visible_area("coin") == 0


def test_a_part_half_behind_another_is_cut_where_the_other_begins():
    near, far = ("near", box(100, 10, 100)), ("far", box(100, 10, 60, (50, 40, 20)))
    seen = look([near, far], "front")
    assert seen.visible_area("far") == pytest.approx(50 * 60)
    assert total(seen, "far") == pytest.approx(50 + 60 + 50)  # the fourth side is behind the near one


def test_a_dowel_halfway_in_a_bore_stands_out_of_it():
    block = box(60, 60, 40) - Manifold.cylinder(40, 10, 10, 32).translate((30, 30, 10))
    dowel = Manifold.cylinder(60, 10, 10, 32).translate((30, 30, 10))
    seen = look([("block", block), ("dowel", dowel)], "front")
    assert seen.visible_area("dowel") == pytest.approx(20 * 30)  # 10 + 60 − 40 above the block


def test_parts_that_run_into_one_another_have_a_line_where_they_meet():
    seen = look([("a", box(100, 100, 20)), ("b", box(40, 40, 60, (30, 30, -10)))])
    # the slab's nine edges; the post's top (4 × 40), its foot on the slab (2 × 40), its uprights (3 × 30)
    everything = (3 * 220 + 4 * 40 + 2 * 40 + 3 * 30) * ISO
    # A point hides what lies behind it along (−1, 1, −1). The post's top corner at (70, 70, 50) meets the
    # slab's top at (40, 100, 20), its corner at (30, 30, 50) at (0, 60, 20): 40 of each back edge are hidden.
    assert total(seen) == pytest.approx(everything - 2 * 40 * ISO, abs=1e-4)


@pytest.mark.parametrize("name", list(one_of_each()))
@pytest.mark.parametrize("view", ["front", "isometric front right", "from below back left", (0.2, -0.9, 0.4)])
def test_every_kind_of_part_covers_what_its_outline_covers(name, view):
    solid = one_of_each()[name]
    seen = look([("part", solid)], view)
    way = seen.direction
    turned = solid.transform(np.column_stack([[way.right, way.up, way.eye], [0, 0, 0]]))
    assert seen.visible_area("part") == pytest.approx(turned.project().area(), rel=1e-5, abs=1e-3)


def test_order_of_parts_changes_no_drawing():
    some = enumerate(one_of_each().items())
    parts = [(name, solid.translate((90 * number, 40 * number, 0))) for number, (name, solid) in some]
    for view in ("isometric front right", "top"):
        one, other = look(parts, view, hidden=True), look(parts[::-1], view, hidden=True)
        assert (one.lines, one.fills, one.hidden) == (other.lines, other.fills, other.hidden)


def test_moving_the_whole_build_moves_the_drawing():
    parts = list(one_of_each().items())
    moved = [(name, solid.translate((1000, -2000, 500))) for name, solid in parts]
    one, other = look(parts), look(moved)
    across, down = one.project((1000, -2000, 500))
    assert len(one.lines) == len(other.lines)
    assert total(one) == pytest.approx(total(other), rel=1e-6)
    assert other.bounds == pytest.approx(
        [value + shift for value, shift in zip(one.bounds, (across, down, across, down), strict=True)]
    )


def test_no_part_gives_an_empty_view():
    seen = look([("nothing", Manifold())])
    assert (seen.lines, seen.fills, seen.bounds, seen.part_at((0, 0))) == ((), (), (0, 0, 0, 0), None)


def test_two_parts_of_one_id_are_refused():
    with pytest.raises(PlanError, match="one id"):
        look([("shelf", box()), ("shelf", box())])


def test_a_screw_head_is_seen_from_its_own_side_only():
    parts = [("panel", box(100, 100, 18))]
    head = (50.0, 50.0, 18.0)
    assert look(parts).sees(head)
    assert not look(parts, "from below front right").sees(head)
    assert look(parts).part_at(look(parts).project(head)) == "panel"
