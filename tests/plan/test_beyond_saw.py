"""A piece wider than the miter saw crosscuts: the step says so, and names the other way."""

from typing import Any

from plankit import Plan, stock
from plankit.plan.beyond_saw import beyond_saw
from plankit.plan.step_words import step_words
from plankit.plan.work import work_of
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")


def said(width: str, **step: Any) -> list[str]:
    plan = Plan("Doors")
    doors = [
        plan.panel("Door", PLY, left=left, right=left + L(f"{width} in"), front=0, bottom=0, top="24", grain="up")
        for left in (L("0 in"), L("40 in"))
    ]
    plan.step("Crosscut", works_on=doors, **({"does": "crosscut", "using": {"crosscut": "Miter saw"}} | step))
    draft = plan.draft()
    (work,) = work_of(draft)
    words = beyond_saw(draft, work)
    assert all(one in step_words(draft, work) for one in words)
    return words


def test_doors_as_wide_as_the_saw_cuts_are_not_spoken_of() -> None:
    assert said("12") == []  # the usual shop's miter saw cuts 12 in


def test_wider_ones_are_crosscut_with_another_saw() -> None:
    (one,) = said("12.5")
    assert "The miter saw cuts 12" in one
    assert "the doors take 12" in one.replace("\u00a0", " ")
    assert "guided circular saw" in one


def test_a_saw_without_that_limit_and_sheets_that_are_broken_down_are_not_spoken_of() -> None:
    assert said("20", using={"crosscut": "Guided circular saw"}) == []
    assert said("20", does=["break down sheets", "crosscut"], using=None) == []
