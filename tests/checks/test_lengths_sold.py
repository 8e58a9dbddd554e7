"""Screws that nobody sells are noticed; the lengths next to them are named."""

from dataclasses import replace

import pytest

from plankit.build import Build, brads
from plankit.checks import check, lengths_sold
from plankit.checks.wording import a_or_an
from plankit.finding import Finding
from plankit.parts import Part
from plankit.units import L
from tests.checks.small_builds import INCHES, SIDE, THIN, footed
from tests.parts.one_of_each import box


def odd(spec: str) -> list[Finding]:
    return list(lengths_sold(footed(spec)))


def test_a_screw_between_two_common_lengths_is_looked_at_with_both() -> None:
    (found,) = odd("#8 x 2 7/16")
    assert (found.level, found.check, found.part) == ("look at", "odd length", "Bottom")
    assert "#8 × 2 7/16 in wood screw" in found.what
    assert found.remedy == "Common lengths next to it: 2 1/4 in and 2 1/2 in."
    assert found.source == "common practice"
    assert found in check(footed("#8 x 2 7/16"), None, INCHES)


@pytest.mark.parametrize("spec", ["#8 x 2 1/2", "#8 x 1 1/4", "#8 x 3 1/2", "#8 x 60 mm"])
def test_common_lengths_say_nothing(spec: str) -> None:
    assert odd(spec) == []


def test_screws_bought_by_the_millimeter_are_answered_in_millimeters() -> None:
    (found,) = odd("#8 x 57 mm")
    assert found.remedy == "Common lengths next to it: 55 mm and 60 mm."


@pytest.mark.parametrize(("spec", "longest"), [("#8 x 200", "6 in"), ("#8 x 7", "6 in"), ("#8 x 200 mm", "120 mm")])
def test_a_screw_longer_than_any_that_is_sold_must_be_changed(spec: str, longest: str) -> None:
    (found,) = odd(spec)
    assert found.level == "must fix"
    assert found.what.startswith("No store has a #8 ×")
    assert found.remedy == f"Common lengths next to it: {longest}."


def test_a_brad_longer_than_any_that_is_sold_is_spoken_of_with_its_article() -> None:
    back = Part("back", "Back", "panel", THIN, box("0", "3/4", "11 3/4", "12", "4 3/4", "17"), "z", "y")
    side = replace(SIDE, box=replace(SIDE.box, back=back.box.front))
    (found,) = lengths_sold(Build("Pinned", (side, back), (brads(back, side, L("3 in")),)))
    assert (found.level, found.what) == ("must fix", "No store has an 18-gauge × 3 in brad.")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("18-gauge × 1 in brad", "an 18-gauge × 1 in brad"),
        ("8d × 2 1/2 in common nail", "an 8d × 2 1/2 in common nail"),
        ("#8 × 2 in wood screw", "a #8 × 2 in wood screw"),
        ("1/4 in shelf pin", "a 1/4 in shelf pin"),
        ("angle bracket", "an angle bracket"),
        ("180 mm dowel", "a 180 mm dowel"),
    ],
)
def test_names_have_the_article_they_are_spoken_with(name: str, said: str) -> None:
    assert a_or_an(name) == said
    assert a_or_an(name, begins=True) == said.replace("a", "A", 1)
