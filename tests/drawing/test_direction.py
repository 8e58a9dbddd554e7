"""From where one looks: third-angle views, isometrics, vectors."""

import math

import pytest

from plankit.drawing.direction import direction, names
from plankit.errors import PlanError

RIGHT, BACK, UP = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


@pytest.mark.parametrize(
    ("view", "to_the_right", "up_the_page", "nearest"),
    [  # the arrangement of views in the third angle, ISO 128-3 (from memory)
        ("front", RIGHT, UP, (0, -1, 0)),
        ("back", (-1, 0, 0), UP, BACK),
        ("right", BACK, UP, RIGHT),
        ("left", (0, -1, 0), UP, (-1, 0, 0)),
        ("top", RIGHT, BACK, UP),
        ("bottom", RIGHT, (0, -1, 0), (0, 0, -1)),
    ],
)
def test_a_square_view_shows_its_own_face_nearest(view, to_the_right, up_the_page, nearest):
    way = direction(view)
    assert way.project(to_the_right) == (1, 0)
    assert way.project(up_the_page) == (0, -1)  # v runs down the page
    assert way.nearness(nearest) == 1


@pytest.mark.parametrize("view", [name for name in names() if " " in name])
def test_an_isometric_view_foreshortens_all_three_axes_alike(view):
    way = direction(view)
    for axis in (RIGHT, BACK, UP):  # √(2/3) = 0.8165, the isometric scale
        assert math.hypot(*way.project(axis)) == pytest.approx(math.sqrt(2 / 3))


def test_from_below_the_underside_is_nearer_and_up_stays_up():
    way = direction("from below front right")
    assert way.nearness(UP) < 0
    assert way.project(UP)[1] < 0


@pytest.mark.parametrize("view", [*names(), (0.3, -2, 0.7), (0, 0, 5), (1, 1, -9)])
def test_right_up_and_the_eye_stand_square_to_one_another(view):
    way = direction(view)
    rows = (way.right, way.up, way.eye)
    for i, one in enumerate(rows):
        for j, other in enumerate(rows):
            product = sum(a * b for a, b in zip(one, other, strict=True))
            assert product == pytest.approx(float(i == j), abs=1e-12)
    (a, b, c), (d, e, f), eye = rows
    # right × up = eye: not a mirror image
    assert (b * f - c * e, c * d - a * f, a * e - b * d) == pytest.approx(eye, abs=1e-12)


def test_a_vector_along_a_named_direction_is_that_direction():
    assert direction((2, -2, 2)).eye == pytest.approx(direction("isometric front right").eye)
    assert direction((0, 0, 3)).right == direction("top").right


def test_an_unknown_view_names_the_nearest_known_one():
    with pytest.raises(PlanError, match=r"Did you mean isometric front left\?"):
        direction("isometric front lft")


def test_a_direction_needs_length():
    with pytest.raises(PlanError, match="no length"):
        direction((0, 0, 0))


def test_words_for_a_description():
    assert direction("from above").words == "Isometric view from the front right"
    assert direction("from below back left").words == "Isometric view from below the back left"
    assert direction("top").words == "View from the top"
