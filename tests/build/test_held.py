"""What is held to what: groups of parts that joints link, against a general-purpose library's."""

from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from plankit.build.held import held_together

NAMES = "abcdefgh"
links = st.lists(st.tuples(st.sampled_from(NAMES), st.sampled_from(NAMES)), max_size=12)


@given(links)
def test_joints_hold_parts_together_as_a_graph_library_finds(held: list[tuple[str, str]]) -> None:
    """Against the connected components of scipy (general-purpose reference library)."""
    rows, columns = ([NAMES.index(link[end]) for link in held] for end in (0, 1))
    count, label = connected_components(coo_array(([1] * len(held), (rows, columns)), shape=(8, 8)), directed=False)
    wanted = [{name for name, own in zip(NAMES, label, strict=True) if own == number} for number in range(count)]
    assert sorted(map(sorted, held_together(NAMES, held))) == sorted(map(sorted, wanted))


def test_groups_stand_in_the_order_of_their_first_part() -> None:
    assert held_together("abcd", [("d", "b"), ("a", "c")]) == [{"a", "c"}, {"b", "d"}]


def test_what_is_not_there_yet_holds_nothing() -> None:
    assert held_together("ab", [("a", "z"), ("z", "b")]) == [{"a"}, {"b"}]
    assert held_together((), [("a", "b")]) == []
