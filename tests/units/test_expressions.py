"""A length knows how it was worked out, can say it, and works itself out again for other sizes."""

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.units import ConditionBook, L, Length, Notation, diagonal, largest, smallest
from tests.strategies import PARAMETERS, Values, Way, signed_lengths, values, ways

F = Fraction


def as_given(sizes: Values, book: ConditionBook | None = None) -> dict[str, Length]:
    return {name: Length.given(name, size, book=book) for name, size in sizes.items()}


@given(ways(), values(), values())
def test_working_a_length_out_again_gives_what_running_the_plan_again_gives(
    way: Way, before: Values, after: Values
) -> None:
    assert way(as_given(before)).evaluate(after) == way(after)


@given(ways(), values())
def test_the_same_sizes_give_the_same_length(way: Way, sizes: Values) -> None:
    length = way(as_given(sizes))
    assert length.evaluate(sizes) == length == length.evaluate({})


@given(ways(), values())
def test_a_length_names_just_the_parameters_it_depends_on(way: Way, sizes: Values) -> None:
    length = way(as_given(sizes))
    assert set(length.names) <= set(PARAMETERS)
    others = {name: L("1 in") for name in PARAMETERS if name not in length.names}
    assert length.evaluate(others) == length


@given(ways(), values())
def test_every_length_can_be_said_and_stored(way: Way, sizes: Values) -> None:
    length = way(as_given(sizes))
    assert Notation().why(length)
    assert json.loads(json.dumps(length.expr.to_data()))


def benches() -> st.SearchStrategy[Values]:
    """Benches from 24 to 72 in wide, in sixteenths."""
    size = st.integers(24 * 16, 72 * 16).map(lambda marks: L(F(marks, 16), "in"))
    return st.fixed_dictionaries(dict.fromkeys(PARAMETERS, size))


def cubbies(sizes: Values) -> dict[str, Length]:
    """A plan that asks questions: a deep case gets a rail, a wide one more cubbies."""
    count = sizes["width"] // L("15 in")
    parts = {"clear": sizes["width"] / (count + 1)}
    if sizes["depth"] > sizes["height"]:
        parts["rail"] = sizes["depth"] - sizes["height"]
    return parts


@given(benches(), benches())
def test_while_every_answer_stays_the_same_working_out_again_is_running_again(
    before: Values, after: Values
) -> None:
    book = ConditionBook()
    parts = cubbies(as_given(before, book))
    assert book.conditions
    numbers = {name: size.mm for name, size in after.items()}
    unchanged = all(condition.still_holds(numbers) for condition in book.conditions)
    assert unchanged == (
        before["width"] // L("15 in") == after["width"] // L("15 in")
        and (before["depth"] > before["height"]) == (after["depth"] > after["height"])
    )
    again = {name: length.evaluate(after) for name, length in parts.items()}
    assert again == cubbies(after) or not unchanged


def test_a_size_that_changes_the_set_of_parts_is_noticed_and_said() -> None:
    book = ConditionBook()
    cubbies(as_given({"width": L("44 in"), "depth": L("15 in"), "height": L("18 in")}, book))
    broken = [c for c in book.conditions if not c.still_holds({"width": L("60 in").mm})]
    # 44 // 15 = 2, but 60 // 15 = 4
    assert [c.words(lambda mm: Notation().exact(Length.of_mm(mm))) for c in broken] == ["width // 15 in is 2"]


def test_a_question_about_plain_lengths_binds_nothing_and_the_same_question_is_noted_once() -> None:
    book = ConditionBook()
    width = Length.given("width", L("44 in"), book=book)
    assert L("3 in") < L("4 in")
    assert book.conditions == []
    for _ in range(3):
        assert width > L("12 in")
    assert len(book.conditions) == 1
    assert book.conditions[0].words(lambda mm: f"{mm / F(254, 10)} in") == "width <= 12 in is false"


@pytest.mark.parametrize(
    ("width", "smaller", "larger", "long_side", "rounded"),
    # with a depth of 12 in: min, max, Pythagoras (5-12-13 and 9-12-15), to the nearest inch
    [("5 in", "5 in", "12 in", "13 in", "5 in"), ("9 in", "9 in", "12 in", "15 in", "9 in"),
     ("16 in", "12 in", "16 in", "20 in", "16 in"), ("35 in", "12 in", "35 in", "37 in", "35 in")],
)  # fmt: skip
def test_smallest_largest_diagonal_and_rounded_are_worked_out_again(
    width: str, smaller: str, larger: str, long_side: str, rounded: str
) -> None:
    given_width, depth = Length.given("width", L("20 1/3 in")), L("12 in")
    new = {"width": L(width)}
    assert smallest(given_width, depth).evaluate(new) == L(smaller)
    assert largest(given_width, depth).evaluate(new) == L(larger)
    assert diagonal(given_width, depth).evaluate(new) == L(long_side)
    assert given_width.rounded(L("1 in")).evaluate(new) == L(rounded)


def test_the_absolute_value_is_worked_out_again_on_the_other_side_of_nothing() -> None:
    overhang = abs(Length.given("width", L("10 in")) - L("12 in"))
    assert overhang == L("2 in")
    assert overhang.evaluate({"width": L("15 in")}) == L("3 in")


@given(signed_lengths(), signed_lengths())
def test_a_diagonal_is_within_half_a_millionth_of_a_micron(one: Length, other: Length) -> None:
    side, slack = diagonal(one, other).mm, F(1, 2 * 10**9)
    square = one.mm**2 + other.mm**2
    assert max(side - slack, F(0)) ** 2 <= square <= (side + slack) ** 2


def test_a_stock_size_is_worked_out_again_for_a_sheet_that_measures_otherwise() -> None:
    ply = Length.stock_size("3/4 in plywood thickness", L("3/4 in"))
    shelf = Length.given("width", L("42 in")) - ply * 2
    assert shelf.evaluate({"3/4 in plywood thickness": L("23/32 in")}) == L("40 9/16 in")  # 42 − 2 × 23/32
    assert shelf.names == ("width",)


def test_a_length_says_in_words_and_numbers_how_it_came_about() -> None:
    width = Length.given("width", L("42 in"))
    ply = Length.stock_size("plywood thickness", L("3/4 in"))
    assert Notation().why(width - ply * 2) == (
        "width − 2 × plywood thickness = 42 in − 2 × 3/4 in = 40 1/2 in"
    )
    clear = (width - ply * 4) / 3
    assert Notation().why(clear) == (
        "(width − 4 × plywood thickness) ÷ 3 = (42 in − 4 × 3/4 in) ÷ 3 = 13 in"  # as a maker would say it
    )
    assert Notation().why(L("3 in")) == "3 in"
    assert Notation().why(width / 9) == "width ÷ 9 = 42 in ÷ 9 = 4 2/3 in ≈4\u00a011/16\u00a0in"
    assert L("3 in").why() == "3 in"


def test_plain_numbers_are_told_as_they_were_typed() -> None:
    """4 in of foot less 1/8 in of flattening: a sum of 3 7/8 in stands nowhere in the plan."""
    height = Length.given("height", L("18 1/2 in"))
    side = height - L("4 in") + L("1/8 in")
    assert side.why() == "height + 1/8 in − 4 in = 18 1/2 in + 1/8 in − 4 in = 14 5/8 in"
    assert (height - L("1/2 in") - L("1/2 in")).why() == "height − 2 × 1/2 in = 18 1/2 in − 2 × 1/2 in = 17 1/2 in"
    assert (height + L("1/8 in") - L("1/8 in")).why() == "height = 18 1/2 in"
    assert (L("4 in") - L("1/8 in")).why() == "3 7/8 in"  # nothing has a name here: the sum says all
    assert (height - Length.given("sill", L("0 in"))).why() == "height − sill = 18 1/2 in − 0 in = 18 1/2 in"


def test_like_terms_are_taken_together_and_a_name_that_begins_with_a_number_stands_in_brackets() -> None:
    width = Length.given("width", L("42 in"))
    ply = Length.stock_size("3/4 in plywood thickness", L("3/4 in"))
    assert (width + L("1 in") - ply - ply - L("3 in")).why() == (
        "width − 2 × (3/4 in plywood thickness) + 1 in − 3 in = 42 in − 2 × 3/4 in + 1 in − 3 in = 38 1/2 in"
    )
    assert smallest(width, L("12 in")).why() == "the smallest of (width, 12 in) = 12 in"
    assert (width - width).why() == "0 in"


def test_sizes_sold_in_millimetres_are_explained_in_millimetres() -> None:
    assert (
        (L("44 in") - Length.stock_size("panel thickness", L("18 mm")))
        .why()
        .startswith("44 in − panel thickness = 44 in − 18 mm =")
    )


@given(st.lists(signed_lengths(), min_size=1, max_size=6))
def test_smallest_and_largest_are_among_those_asked_about(lengths: list[Length]) -> None:
    assert smallest(*lengths) in lengths
    assert smallest(*lengths).mm == min(length.mm for length in lengths)
    assert largest(*lengths).mm == max(length.mm for length in lengths)
