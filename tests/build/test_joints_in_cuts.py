"""Joints inside notches, grooves and dadoes: where parts really touch, and where screws then go."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import bite, contacts, face_screws, glue, pocket_screws, screw, touching
from plankit.build.surfaces import entry_plane, exit_plane, largest_left
from plankit.errors import PlanError
from plankit.parts import AXES, HIGH, Groove, Notch, Part, PocketHoles, mirror_along, solid, volume
from plankit.units import L
from tests.parts.one_of_each import PLY, RAIL, box

SIDE = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "12", "0", "30"), "z", "x",
            (Groove("right", box("1/2", "3/4", "0", "12", "10", "10 3/4"), "for the shelf"),))  # fmt: skip
SHELF = Part("shelf", "Shelf", "panel", PLY, box("1/2", "30", "0", "12", "10", "10 3/4"), "x", "z")
LOW_RAIL = Part("rail", "Rail", "board", RAIL, box("0", "36", "0", "1 1/2", "0", "1 1/2"), "x", "y")
DIVIDER = Part("divider", "Divider", "panel", PLY, box("18", "18 3/4", "0", "14", "0", "30"), "z", "x",
               (Notch(box("0", "3/4", "0", "1 1/2", "0", "1 1/2"), "round Rail"),))  # fmt: skip


def test_a_shelf_in_a_dado_meets_its_bottom_and_both_its_walls() -> None:
    """
    ```
      ║ ╔═════
      ║ ║  shelf    the end is larger than the strips of 1/4 in above and below
      ║ ╚═════
    ```
    """
    found = contacts(SHELF, SIDE)
    assert [one.face for one in found] == ["left", "bottom", "top"]
    assert found[0].region == box("1/2", "1/2", "0", "12", "10", "10 3/4")
    assert found[1].region == box("1/2", "3/4", "0", "12", "10", "10")


def test_a_divider_notched_round_a_rail_meets_it_on_two_edges() -> None:
    found = contacts(DIVIDER, LOW_RAIL)
    assert {one.face for one in found} == {"front", "bottom"}
    # 3/4 in of plywood on 1 1/2 in of rail, either way
    assert all(one.area_mm2 == pytest.approx(0.75 * 1.5 * 25.4**2) for one in found)


def test_a_notch_is_left_out_of_where_outer_faces_touch() -> None:
    # the divider stands on a floor with its whole lower edge but the 1 1/2 in that the notch takes
    floor = Part("floor", "Floor", "panel", PLY, box("0", "36", "0", "14", "-3/4", "0"), "x", "z")
    found = touching(DIVIDER, floor)
    assert found is not None
    assert found.region == box("18", "18 3/4", "1 1/2", "14", "0", "0")


def test_what_is_quite_cut_away_does_not_touch() -> None:
    gone = replace(DIVIDER, features=(Notch(box("0", "3/4", "0", "14", "0", "1")),))
    floor = Part("floor", "Floor", "panel", PLY, box("0", "36", "0", "14", "-3/4", "0"), "x", "z")
    assert touching(gone, floor) is None


def test_the_largest_rectangle_is_kept() -> None:
    region = box("0", "10", "0", "4", "0", "0")
    # a hole from 2 to 3 across the whole width leaves 2 and 7 in; the larger piece stays
    assert largest_left(region, "z", [box("2", "3", "-1", "5", "-1", "1")]) == box(
        "3", "10", "0", "4", "0", "0"
    )
    assert largest_left(region, "z", [box("-1", "11", "-1", "5", "-1", "1")]) is None
    assert largest_left(region, "z", []) == region


@given(st.integers(1, 40), st.integers(1, 40), st.integers(0, 8), st.booleans())
@settings(max_examples=40, deadline=None)
def test_touching_places_are_those_of_the_solids(wide: int, high: int, room: int, mirrored: bool) -> None:
    """Independent check: push the rail 0.1 mm against the divider and measure what they share with manifold3d."""
    notch = Notch(box("0", "3/4", "0", f"{wide}/8", "0", f"{high}/8"))
    divider = replace(DIVIDER, features=(notch,))
    rail = replace(LOW_RAIL, box=box("0", "36", f"-{room}/8", f"{wide}/8", f"-{room}/8", f"{high}/8"))
    if mirrored:
        divider, rail = (one.mirrored("x", L("18 3/8 in"), one.id) for one in (divider, rail))
    for contact in contacts(rail, divider):
        push = [0.0, 0.0, 0.0]
        push[AXES.index(contact.axis)] = 0.1 if contact.face == HIGH[contact.axis] else -0.1
        shared = (solid(rail).translate(push) ^ solid(divider)).volume() / 0.1
        assert shared == pytest.approx(contact.area_mm2, rel=1e-3, abs=1e-6)


def test_a_screw_through_a_side_into_a_shelf_in_its_dado() -> None:
    joint, holes = face_screws(SIDE, SHELF, screw("#8 x 2"))
    first = joint.fasteners[0]
    assert first.head.x == L("0 in")  # flush with the outside of the side
    assert bite(first, SHELF) == L("1 1/2 in")  # 2 less the 1/2 in that the dado leaves of 3/4
    assert exit_plane(SIDE, "right", first.head, first.tip) == L("1/2 in")
    assert len(holes) == 2


def test_a_pocket_screw_from_a_shelf_holds_in_the_bottom_of_the_dado() -> None:
    joint, _ = pocket_screws(SHELF, SIDE, "bottom")
    first = joint.fasteners[0]
    assert entry_plane(SIDE, "left", first.head, first.tip) == L("1/2 in")
    # (1 1/4 − 9/16) × cos 15° = 0.6641 in: as deep as into a whole side, which is too deep here
    assert float(bite(first, SIDE).inches) == pytest.approx(0.6641, abs=1e-4)
    assert bite(first, SIDE).mm > L("1/2 in").mm


def test_pocket_screws_on_notched_edges_in_two_directions() -> None:
    for towards, plane in (("bottom", "z"), ("front", "y")):
        joint, (holes,) = pocket_screws(DIVIDER, LOW_RAIL, "right", towards=towards)
        assert joint.contact.face == towards
        assert joint.contact.region.low(plane) == L("1 1/2 in")
        assert isinstance(holes, PocketHoles)
        assert (holes.end, holes.setback) == (towards, L("1 1/2 in"))
        assert len(joint.fasteners) == 1  # 1 1/2 in wide


def test_a_pocket_hole_inside_a_notch_takes_as_much_wood_as_one_at_the_end() -> None:
    _, (inside,) = pocket_screws(DIVIDER, LOW_RAIL, "right", towards="bottom")
    with_hole = DIVIDER.with_features([inside])
    assert float(volume(with_hole)) == pytest.approx(solid(with_hole).volume(), rel=1e-3)
    assert volume(with_hole) < volume(DIVIDER)


def test_a_pocket_hole_s_setback_turns_with_its_part() -> None:
    _, (inside,) = pocket_screws(DIVIDER, LOW_RAIL, "right", towards="front")
    turned = inside.turned(mirror_along("y"), DIVIDER.box.size)
    assert isinstance(turned, PocketHoles)
    assert (turned.end, turned.setback) == ("back", L("1 1/2 in"))


def test_an_edge_where_they_do_not_meet_is_refused_with_those_where_they_do() -> None:
    with pytest.raises(PlanError, match="looks to the top") as error:
        pocket_screws(DIVIDER, LOW_RAIL, "right", towards="top")
    assert "front, bottom" in error.value.remedy or "bottom, front" in error.value.remedy


def test_with_clearance_all_round_nothing_touches_and_the_error_says_so() -> None:
    loose = replace(LOW_RAIL, box=box("0", "36", "0", "1 7/16", "0", "1 7/16"))
    with pytest.raises(PlanError, match="inside a notch of Divider without touching"):
        glue(loose, DIVIDER)


@given(st.integers(0, 16), st.integers(0, 16))
def test_more_clearance_never_touches_more(one: int, other: int) -> None:
    less, more = sorted((one, other))

    def area(sixteenths: int) -> float:
        end = Fraction(24 + sixteenths, 16)
        cut = Notch(replace(box("0", "3/4", "0", "1", "0", "1"), back=L(end, "in"), top=L(end, "in")))
        return sum(found.area_mm2 for found in contacts(LOW_RAIL, replace(DIVIDER, features=(cut,))))

    assert area(more) <= area(less)
