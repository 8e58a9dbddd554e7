"""What the checks say of one part beside several others is told once."""

from dataclasses import replace

from plankit.checks.alike import told_once
from plankit.finding import Finding

NAMES = ("Pot shelf", "Divider", "Frame post", "Side panel", "Post")


def beside(name: str, place: str = "") -> Finding:
    what = f"A drill has no room in Pot shelf: {name} is too close."
    return Finding("for information", "little room", "Pot shelf", what, place,
                   "less than 5/8 in", "common practice", "Use a long bit.")  # fmt: skip


def test_what_differs_in_one_name_is_told_once_with_all_names_and_places() -> None:
    found = told_once([beside("Divider", "left"), beside("Frame post", "right"), beside("Side panel", "back")], NAMES)
    assert [one.what for one in found] == [
        "A drill has no room in Pot shelf: Divider, Frame post or Side panel is too close."
    ]
    assert found[0].place == "left; right; back"


def test_what_differs_in_more_than_a_name_stays_apart() -> None:
    pair = [beside("Divider"), replace(beside("Frame post"), number="1/4 in")]
    assert told_once(pair, NAMES) == tuple(pair)


def test_each_thing_that_must_be_fixed_is_told_by_itself() -> None:
    pair = [replace(beside(name), level="must fix") for name in ("Divider", "Frame post")]
    assert told_once(pair, NAMES) == tuple(pair)
