"""Step drawings: what arrives stands out, screws and ways in are shown, places are measured."""

from dataclasses import replace

import pytest
from bench_like import STEPS, bench, box, driven, inch
from figure_set import INCH, steps
from reading import area, filled, marks, of_kind, texts

from plankit.build import Fastener, Item
from plankit.build import screw as named_screw
from plankit.drawing.arriving import screws_shown, way_in
from plankit.drawing.choosing import best_direction, named
from plankit.drawing.figures_step import HIGH, WIDE, step
from plankit.drawing.placing import Placing
from plankit.drawing.primitives import Line, Mark, Text
from plankit.drawing.seen import view_of
from plankit.drawing.step_places import places
from plankit.errors import PlanError
from plankit.parts import Point


def parts(*ids):
    return [bench().part(name) for name in ids]


def before(number):
    return tuple(name for ids, _, _ in STEPS[: number - 1] for name in ids)


def test_each_arriving_part_has_its_tinted_area_and_nothing_else_has():
    for (ids, _, _), figure in zip(STEPS, steps(), strict=True):
        tinted = filled(figure, "arriving")
        assert len(tinted) >= len(ids)


def test_four_feet_arrive_as_four_tinted_areas():
    assert len(filled(steps()[1], "arriving")) == 4


def test_what_is_there_is_drawn_thin_and_what_arrives_wide():
    for number, figure in enumerate(steps(), 1):
        assert of_kind(figure, "outline")
        assert bool(of_kind(figure, "receding")) == (number > 1)  # at step 1 nothing is there yet


def test_the_tinted_area_is_what_is_seen_of_the_part():
    figure = steps()[4]
    back = bench().part("back")
    view = view_of(parts(*before(5), "back"), named("isometric back right"))
    tinted = sum(area(a.rings[0]) - sum(map(area, a.rings[1:])) for a in filled(figure, "arriving"))
    left, top, right, bottom = view.bounds
    scale = min(WIDE / (right - left), HIGH / (bottom - top))
    assert tinted == pytest.approx(view.visible_area(back.id) * scale**2, rel=1e-6)


def test_a_back_that_is_pinned_from_behind_is_seen_from_behind():
    assert best_direction(parts("back"), parts(*before(5)), driven(("back",), before(5))).name.startswith(
        "isometric back"
    )


def test_a_top_laid_on_is_seen_from_the_front_and_above():
    assert best_direction(parts("top"), parts(*before(7)), ()).name == "isometric front right"


def test_screws_driven_up_through_the_floor_turn_the_view_over():
    """Feet screwed on from below, their heads underneath: only from below are heads and feet seen."""
    from dataclasses import replace

    screws = tuple(replace(s, head=s.tip, tip=s.head, through=s.into, into=s.through)
                   for s in driven(("foot",), ("floor",)))  # fmt: skip
    assert best_direction(parts("foot"), parts("floor"), screws).name.startswith("from below")


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("from below", "from below front right"),
        ("from the front", "front"),
        ("front right", "isometric front right"),
        ("From the Front Left", "isometric front left"),
        ("from behind", "isometric back right"),
        ("from below back left", "from below back left"),
        ("top", "top"),
    ],
)
def test_an_author_names_directions_in_plain_words(said, meant):
    assert named(said).name == meant


def test_every_pocket_screw_whose_head_is_seen_is_marked():
    figure = steps()[3]  # two dividers, 3 pocket screws each, drilled on opposite faces
    assert len(marks(figure, "screw")) == 3
    assert "three with the head on the far side" in figure.description


def in_a_row(count):
    """Screws down through the top into the side, an inch apart."""
    spec = named_screw("#8 x 1 1/4")
    (top,) = parts("top")
    high = top.box.top
    spots = [Point(top.box.left + inch("2"), inch(str(2 + number)), high) for number in range(count)]
    return tuple(Fastener(spec, at, replace(at, z=high - inch("1 1/4")), "bottom", "top", "side") for at in spots)


def test_of_five_screws_in_a_row_one_is_drawn_with_their_number():
    view, placing = view_of(parts("top"), "isometric front right"), Placing(0.1)
    for count, drawn in ((4, 4), (5, 1)):
        shown = screws_shown(in_a_row(count), parts("top"), view, placing)
        kinds = [item.kind for item in shown.items if isinstance(item, Mark)]
        assert shown.seen == count
        assert (kinds.count("screw"), kinds.count("hole")) == (drawn, count - drawn)
        said = [item.text for item in shown.items if isinstance(item, Text)]
        assert said == (["5 ×"] if count == 5 else [])


def test_every_brad_of_the_back_is_marked():
    # 4 uprights × brads in 12 1/4 in: 1 in from each end leaves 10 1/4, 3 gaps of at most 5 in: 4 brads
    assert sum(1 for mark in marks(steps()[4], "dot") if mark.size == 1.4) == 16


def test_dividers_are_placed_from_the_left_edge_of_the_bottom():
    found = places(parts("divider", "divider-2"), parts(*before(4)))
    # 3/4 + 13 2/3 = 14 5/12; the second one more wall and one more cubby on: 28 5/6
    assert [place.distance for place in found] == [inch("14 5/12"), inch("28 5/6")]
    assert {(place.host.id, place.from_face) for place in found} == {("floor", "left")}
    said = texts(steps()[3])
    assert said.count("≈14 7/16") == said.count("≈28 13/16") == 1
    assert "366\u00a0mm" in steps()[3].description  # 14 5/12 × 25.4 = 366.2


def test_feet_are_placed_from_the_edge_they_stand_next_to():
    found = places(parts("foot", "foot-2", "foot-3", "foot-4"), parts("floor"))
    assert {(place.from_face, place.distance) for place in found} == {
        (face, inch("1/2")) for face in ("left", "right", "front", "back")
    }


def test_feet_that_arrive_with_the_bottom_are_placed_on_it():
    """Nothing is there yet: the largest arriving part carries the others."""
    found = places(parts("foot", "foot-4", "floor"), ())
    assert {(place.host.id, place.part.id) for place in found} == {("floor", "foot"), ("floor", "foot-4")}
    assert {place.distance for place in found} == {inch("1/2")}
    figure = step(bench(), 1, "Feet", ("floor", "foot", "foot-4"), (), (), INCH, "from below")
    assert len(filled(figure, "paper")) == 2 + 2  # two broad arrows and the rings of two labels


def test_a_square_view_gives_only_the_places_it_can_show():
    """From the front, 1/2 in from the left and right edges; how far back a foot stands cannot be seen."""
    ids = ("foot", "foot-2", "foot-3", "foot-4")
    figure = step(bench(), 2, "Feet", ids, ("floor",), (), INCH, "from the front")
    assert texts(figure).count("1/2") == 2


def test_what_is_flush_with_an_edge_needs_no_number():
    assert places(parts("side"), parts("floor", "foot")) == places(parts("side"), parts("floor"))
    assert {place.axis for place in places(parts("side"), parts("floor"))} == set()


def test_parts_go_in_towards_what_they_meet():
    assert way_in(bench().part("foot"), parts("floor")) == "top"
    assert way_in(bench().part("divider"), parts("floor")) == "bottom"
    assert way_in(bench().part("back"), parts("side", "divider")) == "front"
    assert way_in(bench().part("foot"), parts("top")) is None


def test_a_part_held_between_two_others_goes_in_along_the_free_axis():
    """A divider between floor and top cannot come from above or below: only the back is left."""
    assert way_in(bench().part("divider"), parts("floor", "top", "back")) == "back"


def test_a_broad_arrow_shows_each_way_in():
    assert len(filled(steps()[1], "paper")) == 4 + 1  # four feet, and the ring of one label


def test_a_view_from_below_says_that_the_picture_is_not_turned_over():
    assert "the picture is not turned over" in steps()[1].description
    assert any(text.startswith("You look up at it from below; it is not turned over") for text in texts(steps()[1]))


def from_below():
    """The top goes on last: the screws up through the cleats, seen from below."""
    screws = driven(("top",), before(7))
    figure = step(bench(), 7, "Top", ("top",), before(7), screws, INCH, "from below")
    return figure, screws


def test_screws_behind_other_parts_are_not_drawn_but_counted():
    figure, screws = from_below()
    view = view_of(parts(*before(7), "top"), named("from below"))
    shown = screws_shown(screws, bench().parts, view, Placing(0.1))
    assert shown.seen + shown.dashed + shown.hidden == len(screws) == 6  # two cleats, three each
    assert shown.hidden > 0
    assert len(marks(figure, "screw")) == shown.seen
    assert any(text.endswith(f"{shown.hidden} more screws are hidden") for text in texts(figure))
    assert "behind other parts, not drawn" in figure.description


@pytest.mark.parametrize(("seen_from", "dashed"), [("from below", 0), ("front right", 6)])
def test_a_dashed_screw_lies_on_a_part_that_it_holds(seen_from, dashed):
    """From below, floor and feet hide four of six screws; from above all six lie in the top that they hold."""
    view = view_of(parts(*before(7), "top"), named(seen_from))
    assert screws_shown(driven(("top",), before(7)), bench().parts, view, Placing(0.1)).dashed == dashed
    placing = Placing(0.1)
    for screw in driven(("top",), before(7)):
        shown = screws_shown((screw,), bench().parts, view, placing)
        dashes = [item for item in shown.items if isinstance(item, Line) and item.kind == "visible"]
        assert bool(dashes) == bool(shown.dashed)
        for dash in dashes:
            middle = [(a + b) / 2 / 0.1 for a, b in zip(*dash.points, strict=True)]
            assert view.part_at((middle[0], middle[1])) in {screw.through, screw.into}


def test_the_step_names_what_arrives_with_its_label():
    assert "Two dividers (C) arrive" in steps()[3].description
    assert "C" in texts(steps()[3])


def test_a_step_with_an_unknown_part_names_the_step_and_the_part():
    with pytest.raises(PlanError, match=r"step 3.*\n.*drawer"):
        step(bench(), 3, "Fit", ("drawer",), (), (), INCH)


def test_a_step_without_parts_is_refused():
    with pytest.raises(PlanError, match="shows no part"):
        step(bench(), 3, "Rest", (), (), (), INCH)


def fitted(kind="caster"):
    under = box("2", "4", "2", "4", "-3", "4")
    return Item("caster, 3 in high", kind, ("floor",), under)


def test_hardware_that_is_fitted_stands_out_and_what_is_there_recedes():
    build = bench()
    plain = step(build, 1, "Fit the casters", ("floor",), (), (), INCH, "from below")
    now = step(build, 1, "Fit the casters", ("floor",), (), (), INCH, "from below", (), ((fitted(),), ()))
    later = step(build, 1, "Go on", ("floor",), (), (), INCH, "from below", (), ((), (fitted(),)))
    assert len(filled(now, "arriving")) > len(filled(plain, "arriving"))
    assert not of_kind(plain, "receding")
    assert of_kind(later, "receding")
    assert "Fitted here: one caster." in now.description
    assert "caster" not in later.description


def test_screws_of_hardware_that_is_drawn_are_not_counted_as_hidden():
    under = Point(inch("3"), inch("3"), inch("4"))
    own = Fastener(named_screw("#8 x 5/8"), under, replace(under, z=inch("4 5/8")), "top", "floor", "floor")
    held = replace(fitted(), fasteners=(own,))
    alone = step(bench(), 1, "Fit them", ("floor",), (), (own,), INCH, "from below", (), ((), (held,)))
    assert any("1 screw is hidden" in text for text in texts(alone))  # one of a joint would be
    figure = step(bench(), 1, "Fit them", ("floor",), (), (own,), INCH, "from below", (), ((held,), ()))
    assert not any("hidden" in text for text in texts(figure))


def test_brads_out_of_sight_are_called_brads():
    ids, there = ("back",), before(5)
    figure = step(bench(), 5, "Pin on the back", ids, there, driven(ids, there), INCH, "from the front right")
    assert "Dashed: brads whose heads are on the far side" in texts(figure)
    assert not any("screw" in text for text in texts(figure))


def test_a_step_that_only_fits_hardware_is_seen_from_where_most_of_it_shows():
    behind = replace(fitted("hinge"), box=box("10", "12", "15", "15 1/4", "4", "4 3/4"))  # on the back edge
    figure = step(bench(), 2, "Hang it", (), ("floor",), (), INCH, None, (), ((behind,), ()))
    assert "from the back" in figure.description
    assert "Fitted here: one caster." in figure.description
    assert filled(figure, "arriving")


def test_a_shelf_pin_is_too_small_to_draw():
    figure = step(bench(), 2, "Push them in", (), ("floor",), (), INCH, None, (), ((fitted("shelf pin"),), ()))
    assert not filled(figure, "arriving")
