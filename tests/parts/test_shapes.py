"""Which parts are the same piece turned over, and which have a left and a right hand."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from plankit.build import Build, alike
from plankit.parts import (
    Bevel,
    Bore,
    Chamfer,
    CompoundMitre,
    Mitre,
    Notch,
    Part,
    PocketHoles,
    Taper,
    Turn,
    has_hand,
    mirror_shape,
    shape,
)
from plankit.parts.space import ALL_TURNS
from plankit.units import Angle, L
from tests.outside_angles import taper_rows
from tests.parts.one_of_each import (
    BOARD,
    BORED,
    BOTH_ENDS,
    COMPOUND,
    FOUR_TAPERS,
    GROOVED,
    MITRED,
    NOTCHED,
    ONE_OF_EACH,
    PLAIN,
    POCKETED,
    POST,
    TAPERED,
    TO_FIT,
    box,
    size,
    turned,
)
from tests.strategies import feet, panels, rails, turns

PROPER = tuple(turn for turn in ALL_TURNS if not turn.is_mirror)


def foot(left: str, front: str) -> Part:
    """A foot that leans in on its left and its front.

    ```
      ┌──────┐ 3 1/2 at the top
       ╲     │
        ╲____│ less at the floor
    ```
    """
    cuts = (Taper("left", "bottom", L(left), L("4 in")), Taper("front", "bottom", L(front), L("4 in")))
    return Part("foot", "Foot", "board", POST, size("3 1/2", "3 1/2", "4"), "z", "y", cuts)


def test_equal_tapers_on_adjacent_faces_make_a_foot_its_own_mirror_image() -> None:
    assert not has_hand(foot("3/4 in", "3/4 in"))


def test_unequal_tapers_make_a_left_and_a_right_foot() -> None:
    assert has_hand(foot("1 in", "1/2 in"))


def test_four_feet_at_the_corners_are_two_of_each_hand() -> None:
    # mirrored once: the other hand; mirrored across both middles: a half turn, the same hand again
    first = foot("1 in", "1/2 in")
    across = first.mirrored("x", L("22 in"), "foot-2")
    behind = first.mirrored("y", L("7 1/2 in"), "foot-3")
    both = across.mirrored("y", L("7 1/2 in"), "foot-4")
    (group,) = alike(Build("b", (first, across, behind, both)))
    assert [part.id for part in group.parts] == ["foot", "foot-4"]
    assert [part.id for part in group.other] == ["foot-2", "foot-3"]
    assert group.count == 4


def test_a_foot_tapered_alike_in_pairs_counts_as_one_kind() -> None:
    first = foot("3/4 in", "3/4 in")
    (group,) = alike(Build("b", (first, first.mirrored("x", L("22 in"), "foot-2"))))
    assert group.count == 2
    assert not group.other


@pytest.mark.parametrize("row", taper_rows(), ids=lambda row: row["id"])
def test_the_saw_is_set_to_the_taper_s_angle(row: dict[str, str]) -> None:
    # angle = atan((wide − narrow) ÷ run), trigonometry; source beside each row
    wide, narrow, run = row["sizes"]
    cut = Taper("left", "bottom", L(wide, "in") - L(narrow, "in"), L(run, "in"))
    assert float(cut.angle.degrees) == pytest.approx(float(row["answer"]), abs=0.005)


def test_a_taper_of_an_inch_in_four_is_14_degrees() -> None:
    # atan(1/4) = 14.036°, trigonometry
    assert abs(TAPERED.features[0].angle.degrees - Angle.of_slope(L("1 in"), L("4 in")).degrees) == 0
    assert float(TAPERED.features[0].angle.degrees) == pytest.approx(14.0362, abs=1e-4)


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_mirrored_twice_is_the_same(part: Part) -> None:
    for axis in ("x", "y", "z"):
        again = part.mirrored(axis, L("5 in"), "other").mirrored(axis, L("5 in"), part.id)
        assert again == part


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_a_part_and_its_mirror_image_are_each_other_s_mirror_shape(part: Part) -> None:
    image = part.mirrored("x", L("0 in"), "image")
    assert shape(image) == mirror_shape(part)
    assert mirror_shape(image) == shape(part)


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_turning_a_part_changes_no_shape(part: Part) -> None:
    assert {shape(turned(part, turn)) for turn in PROPER} == {shape(part)}


@given(feet() | panels() | rails(), turns())
@settings(max_examples=60, deadline=None)
def test_a_turned_part_has_the_same_shape_and_an_image_the_mirror_shape(part: Part, turn: Turn) -> None:
    other = turned(part, turn)
    assert shape(other) == (mirror_shape(part) if turn.is_mirror else shape(part))
    assert has_hand(other) == has_hand(part)


def test_a_corner_notch_in_a_plain_panel_has_no_hand() -> None:
    assert not has_hand(NOTCHED)  # turn it over


def test_a_part_with_holes_on_one_face_and_a_notch_has_a_hand() -> None:
    part = replace(NOTCHED, features=(*NOTCHED.features, *BORED.features))
    assert has_hand(part)


def test_what_is_not_the_same_is_told_apart() -> None:
    assert len({shape(part) for part in (PLAIN, NOTCHED, BORED, GROOVED, POCKETED)}) == 5
    shorter = replace(PLAIN, box=size("29 15/16", "12", "3/4"))
    assert shape(shorter) != shape(PLAIN)


def test_a_plain_hole_through_is_the_same_from_either_side() -> None:
    above = replace(PLAIN, features=(Bore("top", (L("4 in"), L("3 in"), L("3/4 in")), L("1/4 in")),))
    below = replace(PLAIN, features=(Bore("bottom", (L("4 in"), L("3 in"), L("0 in")), L("1/4 in")),))
    assert shape(above) == shape(below)
    assert not has_hand(above)


def test_two_rails_bored_alike_are_alike_whichever_way_they_lie() -> None:
    # a round hole has no direction: `along` must not tell a rail along x from the same one along y
    hole = Bore("top", (L("4 in"), L("1 in"), L("3/4 in")), L("1/4 in"), L("1/2 in"))
    lying = replace(PLAIN, features=(hole,))
    quarter = next(t for t in PROPER if t.to == ("y", "x", "z"))
    other = turned(lying, quarter)
    assert replace(other.features[0], along="x") != other.features[0]
    assert shape(replace(other, features=(replace(other.features[0], along="x"),))) == shape(lying)


def test_where_grain_does_not_matter_a_panel_may_lie_across() -> None:
    free = replace(PLAIN, grain_matters=False)
    across = replace(free, id="across", box=size("12", "30", "3/4"))
    assert shape(free) == shape(across)
    held = replace(PLAIN, id="held", box=size("12", "30", "3/4"))
    assert shape(PLAIN) != shape(held)


def test_pocket_holes_at_both_ends_of_a_row_mirror_into_themselves() -> None:
    even = replace(PLAIN, features=(PocketHoles("top", "right", (L("2 in"), L("10 in"))),))
    uneven = replace(PLAIN, features=(PocketHoles("top", "right", (L("2 in"), L("9 in"))),))
    assert not has_hand(even)
    assert has_hand(uneven)


def test_sizes_are_read_along_the_grain() -> None:
    part = replace(PLAIN, grain="y")
    assert (part.length, part.width, part.thickness) == (L("12 in"), L("30 in"), L("3/4 in"))


def test_thick_banding_shrinks_the_cut_size_and_veneer_does_not() -> None:
    from plankit.parts import Banding

    thick = replace(PLAIN, features=(Banding("front", L("1/4 in")), Banding("left", L("1/4 in"))))
    assert thick.cut_size() == (L("29 3/4 in"), L("11 3/4 in"))  # 30 − 1/4 along, 12 − 1/4 across
    veneer = replace(PLAIN, features=(Banding("front", L("1/2 mm")),))
    assert veneer.cut_size() == (L("30 in"), L("12 in"))


def test_moving_a_part_changes_no_shape() -> None:
    assert shape(TAPERED.moved("x", L("9 in"), "foot-9")) == shape(TAPERED)
    assert isinstance(NOTCHED.features[0], Notch)
    assert NOTCHED.box == box("0", "30", "0", "12", "0", "3/4")


def test_a_compound_mitre_is_the_same_whichever_slope_is_named_first() -> None:
    one = CompoundMitre("right", "bottom", L("2 in"), "front", L("1/2 in"))
    two = CompoundMitre("right", "front", L("1/2 in"), "bottom", L("2 in"))
    assert shape(replace(BOARD, features=(one,))) == shape(replace(BOARD, features=(two,)))


def test_a_compound_mitre_has_a_hand_and_a_plain_one_has_none() -> None:
    assert has_hand(COMPOUND)  # no half turn brings its long point to where its mirror image has it
    assert not has_hand(MITRED)  # turned over, its long point lies at the other edge


def test_mitres_alike_at_both_ends_make_a_piece_its_own_mirror_image() -> None:
    assert not has_hand(BOTH_ENDS)  # mirrored end for end it is the same


def test_a_panel_whose_grain_does_not_matter_is_the_same_with_an_edge_or_an_end_sawn() -> None:
    free = replace(PLAIN, box=size("12", "12", "3/4"), grain_matters=False)
    end = replace(free, features=(Mitre("left", "top", L("3/4 in")),))
    edge = replace(free, features=(Bevel("back", "bottom", L("3/4 in")),))
    assert shape(end) == shape(edge)


def test_an_eased_edge_is_the_same_whichever_face_is_named_first() -> None:
    one, two = (Chamfer(edge, L("1/8 in")) for edge in (("top", "front"), ("front", "top")))  # type: ignore[arg-type]
    assert shape(replace(PLAIN, features=(one,))) == shape(replace(PLAIN, features=(two,)))


def test_pieces_that_differ_only_in_how_a_notch_is_marked_are_the_same_piece() -> None:
    traced = replace(NOTCHED, features=(replace(NOTCHED.features[0], trace=True, reason="round Rail"),))
    assert shape(traced) == shape(NOTCHED)


def test_a_piece_that_is_measured_first_is_listed_apart_from_one_that_is_not() -> None:
    assert shape(TO_FIT) != shape(replace(TO_FIT, fit_to=""))
    assert shape(TO_FIT) == shape(TO_FIT.moved("x", L("3 in"), "other"))


def test_a_post_with_four_tapers_is_a_pair_of_hands_only_where_they_all_differ() -> None:
    assert has_hand(FOUR_TAPERS)
    even = tuple(replace(cut, amount=L("1/2 in"), run=L("3 in")) for cut in FOUR_TAPERS.features)
    assert not has_hand(replace(FOUR_TAPERS, features=even))
