"""The address a plan is published under: made from its title, or given by its author."""

import pytest

from plankit import Plan, stock
from plankit.errors import PlanError
from plankit.stock import slug

WHO = {"summary": "A crate.", "author": "R. T.", "version": "1.0", "published": "2026-11-20"}


def address(title: str, given: str = "") -> str:
    plan = Plan(title)
    plan.about(**WHO, address=given)
    plan.panel("Bottom", stock.sheet("plywood", "3/4"), left=0, right="20", front=0, back="12", bottom=0)
    return plan.draft().facts.slug


@pytest.mark.parametrize(
    ("title", "made"),
    [
        ("Ölaf’s Bänk", "olaf-s-bank"),
        ("Crème de la café, no. 2", "creme-de-la-cafe-no-2"),
        ("Smørrebrød-Straße", "smorrebrod-strasse"),
        ("Boot bench, 1/2 size", "boot-bench-1-2-size"),
        (
            "Ｗｉｄｅ bench²",
            "wide-bench2",
        ),  # full-width letters and a raised figure come apart under NFKD too
    ],
)
def test_a_title_gives_an_address_in_plain_letters(title: str, made: str) -> None:
    assert address(title) == slug(title) == made


def test_an_author_may_give_the_address_herself() -> None:
    assert address("靴箱", "boot-bench") == "boot-bench"
    assert address("Boot bench", "bench-2") == "bench-2"


def test_a_title_without_latin_letters_asks_for_an_address() -> None:
    with pytest.raises(PlanError, match="no address can be made from this title") as told:
        address("靴箱")
    assert "address=" in told.value.remedy


@pytest.mark.parametrize(
    ("given", "instead"), [("Boot Bench", "boot-bench"), ("a--b/", "a-b"), ("箱", "boot-bench")]
)
def test_what_is_no_address_is_answered_with_one(given: str, instead: str) -> None:
    with pytest.raises(PlanError, match="small Latin letters") as told:
        address("Boot bench", given)
    assert f'address="{instead}"' in told.value.remedy
