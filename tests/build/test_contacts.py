"""Where parts meet, and what is said where they do not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import Build, gap, glue, touching
from plankit.errors import PlanError
from plankit.parts import Part
from plankit.units import L
from tests.parts.one_of_each import PLY, box
from tests.strategies import lengths


def panel(name: str, *ends: str) -> Part:
    return Part(name, name.capitalize(), "panel", PLY, box(*ends), "x", "z")


FLOOR = panel("floor", "0", "44", "0", "15", "4", "4 3/4")
SIDE = panel("side", "0", "3/4", "0", "14 3/4", "4 3/4", "17")


def test_a_side_stands_on_the_floor() -> None:
    found = touching(SIDE, FLOOR)
    assert found is not None
    assert (found.face, found.axis) == ("bottom", "z")
    assert found.region == box("0", "3/4", "0", "14 3/4", "4 3/4", "4 3/4")
    assert (found.long, found.short) == ("y", "x")
    assert found.area_mm2 == pytest.approx(0.75 * 14.75 * 25.4**2)


def test_the_floor_sees_the_same_place_from_below() -> None:
    found, back = touching(FLOOR, SIDE), touching(SIDE, FLOOR)
    assert found is not None
    assert back is not None
    assert found.face == "top"
    assert found.region == back.region


def test_parts_that_only_share_an_edge_do_not_touch() -> None:
    beside = panel("beside", "44", "45", "0", "15", "4 3/4", "6")
    assert touching(FLOOR, beside) is None


def test_a_gap_and_an_overlap_have_a_width() -> None:
    high = panel("high", "0", "3/4", "0", "14", "4 13/16", "17")
    assert gap(high, FLOOR) == ("z", L("1/16 in"))
    deep = panel("deep", "0", "3/4", "0", "14", "4 1/2", "17")
    assert gap(deep, FLOOR) == ("z", L("-1/4 in"))
    far = panel("far", "50", "51", "0", "14", "20", "21")
    assert gap(far, FLOOR) is None


@pytest.mark.parametrize(
    ("ends", "words"),
    [
        (("0", "3/4", "0", "14", "5", "17"), "there are 1/4 in between them, up and down"),
        (("0", "3/4", "0", "14", "4 1/2", "17"), "they run 1/4 in into each other"),
        (("60", "61", "0", "14", "50", "60"), "they lie nowhere near each other"),
    ],
)
def test_what_does_not_touch_cannot_be_joined(ends: tuple[str, ...], words: str) -> None:
    with pytest.raises(PlanError, match=r"does not touch Floor, so it cannot be glued") as error:
        glue(panel("side", *ends), FLOOR)
    assert words in str(error.value)
    assert str(error.value).startswith("Side:")
    assert "bottom=floor.top" in error.value.remedy


@pytest.mark.parametrize(
    ("ends", "where"),
    [
        # the floor ends at 44 to the right, 15 to the back and 4 3/4 up
        (("44", "44 3/4", "0", "14", "4 3/4", "17"), "only along an edge"),
        (("44", "44 3/4", "15", "16", "4 3/4", "17"), "only at a corner"),
    ],
)
def test_parts_that_share_no_more_than_an_edge_are_told_so(ends: tuple[str, ...], where: str) -> None:
    with pytest.raises(PlanError) as error:
        glue(panel("side", *ends), FLOOR)
    assert f"it meets Floor {where}, so it cannot be glued" in str(error.value)
    assert " 0 in" not in str(error.value)


@given(lengths(), lengths(), st.sampled_from(("x", "y", "z")))
def test_moving_both_parts_moves_only_the_place(by, other, axis) -> None:
    found, moved = touching(SIDE, FLOOR), touching(SIDE.moved(axis, by, "a"), FLOOR.moved(axis, by, "b"))
    assert found is not None
    assert moved is not None
    assert moved.region == found.region.moved(axis, by)
    apart = touching(SIDE.moved("z", other, "a"), FLOOR)
    assert apart is None


def test_a_build_finds_its_parts_by_id_and_says_when_it_cannot() -> None:
    build = Build("b", (FLOOR, SIDE))
    assert build.part("side") is SIDE
    with pytest.raises(KeyError, match="shelf"):
        build.part("shelf")
    assert build.box == box("0", "44", "0", "15", "4", "17")
