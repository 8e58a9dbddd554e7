"""Numbers typed in prose that the build computes too: found where they would go stale, and nowhere else."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.plan.prose import lengths_in, typed_numbers
from plankit.units import L, Length, Notation

WIDTH = Length.given("width", L("44 in"))
SET_IN = Length.given("set_in", L("2 in"))
PLY = Length.stock_size("3/4 in plywood thickness", L("3/4 in"))
KNOWN = (
    ("ply.thickness", PLY),
    ("typed", L("14 1/4 in")),
    ("width", WIDTH),
    ("set_in", SET_IN),
    ("walls.clear", (WIDTH - PLY * 4).portion(3)),  # 13 2/3 in, at the mark 13 11/16
    ("side.width", WIDTH - L("38 in")),  # 6 in
    ("floor into foot, screw 1 x", WIDTH - L("20 1/2 in")),  # 23 1/2 in
)
INCHES = Notation()


def remedies(markdown: str, notation: Notation = INCHES) -> list[str]:
    return [finding.remedy for finding in typed_numbers(markdown, KNOWN, "cell 9", notation)]


@pytest.mark.parametrize(
    "text",
    [
        "Each is 13 11/16 in wide.",
        "Each is 13-11/16 in wide.",
        "13 11/16\nin over two lines",
        'Each is 13 11/16" wide.',
        "Each is *13 11/16* in wide.",
        "13⅔ inches",
        "Each is 347 mm wide.",  # 13 2/3 in is 347.13 mm
        "34.7 cm",
        "1 ft 1 11/16 in",
        "| width |\n|---|\n| 13 11/16 in |",
        "# Cubbies of 13 11/16 in",
        "[13 11/16 in](https://example.org)",
    ],
)
def test_a_computed_length_that_is_typed_is_found_however_it_is_written(text: str) -> None:
    assert remedies(text) == ["Write {eval}`walls.clear` in its place."]


@pytest.mark.parametrize(
    "text",
    [
        "Each is {eval}`walls.clear` wide.",
        "Type `13 11/16 in` there.",
        "```\n13 11/16 in\n```",
        "[boards](https://example.org/13 11/16 in)",
        "[boards](<https://example.org/44 in>)",
        "Put all 44 in the rack.",  # a preposition
        "Drive a #8 × 23 1/2 in screw.",
        "A sheet of 3/4 in plywood.",  # a material
        "Leave 3/4 in.",  # up to an inch is everywhere
        "Trim it to 14 1/4 in.",  # typed in the code too: nothing changes it
        "Set a clamp every 6 in.",  # whole inches meet a computed length by chance
        "It is 13 11/16 wide.",  # no unit
        "A 2 in drill.",
        "13 1/2 in",
        "44 in-line skates",
        "Plan 44 inner parts.",
    ],
)
def test_what_cannot_go_stale_is_left_alone(text: str) -> None:
    assert remedies(text) == []


def test_a_parameter_counts_even_where_it_is_whole_and_short() -> None:
    assert remedies("Set the feet 2 in from the edge.") == ["Write {eval}`set_in` in its place."]
    assert remedies("The 44-inch bench") == ["Write {eval}`width` in its place."]


def test_the_finding_names_cell_words_and_value() -> None:
    (found,) = typed_numbers("Each is 13 11/16 in wide.", KNOWN, "cell 9", INCHES)
    assert (found.level, found.check, found.place) == ("look at", "typed number", "cell 9")
    assert "13 11/16 in" in found.what
    assert found.number == "≈13\u00a011/16\u00a0in"


def test_what_is_no_expression_is_named_in_words() -> None:
    assert remedies("23 1/2 in") == ["Let the plan write floor into foot, screw 1 x."]


def test_the_same_words_twice_are_told_once_and_different_ones_each() -> None:
    assert len(remedies("44 in here and 44 in there")) == 1
    assert len(remedies("44 in here and 1118 mm there")) == 2


def test_a_finer_mark_tells_13_11_16_from_13_2_3() -> None:
    assert remedies("13 11/16 in", Notation(mark=INCHES.mark / 4)) == []  # 13 2/3 is nearest 13 43/64
    assert remedies("13 43/64 in", Notation(mark=INCHES.mark / 4))


@pytest.mark.parametrize(
    "text", ["1/0 in", "12 34/5 in", "44 in 3", "a 5/4 in b", "10.5.3 in", "", "in in in"]
)
def test_what_cannot_be_read_raises_nothing(text: str) -> None:
    assert isinstance(list(lengths_in(text)), list)


@given(st.text(max_size=80))
def test_no_prose_breaks_it(text: str) -> None:
    assert isinstance(typed_numbers(text, KNOWN, "cell 1", INCHES), tuple)


@given(st.integers(17, 2000))
def test_what_the_plan_writes_is_found_when_typed(sixteenths: int) -> None:
    length = Length.given("width", L(f"{sixteenths}/16", "in"))
    for words in (INCHES.length(length), INCHES.both(length)):
        assert typed_numbers(f"It is {words} wide.", [("width", length)], "cell 1", INCHES)
