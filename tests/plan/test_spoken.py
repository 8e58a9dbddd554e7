"""A verb answers by its own name: mistyped words, words left out, verbs that are not there, faces left out."""

import pytest

from plankit import stock
from plankit.errors import PlanError
from plankit.plan import Plan
from plankit.plan.spoken import NoSuchVerb

PLY = stock.sheet("plywood", "3/4")
WHO = {"summary": "A crate.", "author": "R. T.", "version": "1", "published": "2026-11-20"}


@pytest.fixture
def plan() -> Plan:
    return Plan("Crate")


@pytest.fixture
def floor(plan):
    return plan.panel("Floor", PLY, left=0, right="20", front=0, back="12", bottom=0)


def said(call) -> str:
    with pytest.raises(PlanError) as caught:
        call()
    return caught.value.text()


def test_a_mistyped_word_is_answered_with_the_one_that_may_be_meant(plan):
    text = said(lambda: plan.about(**{"sumary": "A crate."} | {k: v for k, v in WHO.items() if k != "summary"}))
    assert text.startswith("plan.about(…): it takes no sumary=.\nDid you mean summary?")
    assert "It needs: summary=." in text


def test_words_left_out_are_all_named_at_once(plan):
    assert said(lambda: plan.about(summary="A crate.", author="R. T.")).startswith(
        "plan.about(…): it needs version=, published= as well.\n"
    )


def test_a_value_without_its_name_is_told_how_to_be_written(plan):
    assert "plan.complete(…): takes 1 positional argument" in said(lambda: plan.complete("now"))


def test_making_a_plan_answers_as_every_verb_does():
    assert said(lambda: Plan("Crate", units="in")).startswith("Plan(…): it takes no units=.\nDid you mean unit?")


def test_a_verb_that_is_not_there_names_the_one_that_is(plan, floor):
    with pytest.raises(NoSuchVerb) as caught:
        plan.pannel("Side", PLY)
    assert caught.value.text() == "there is no plan.pannel.\nDid you mean panel?"
    assert isinstance(caught.value, AttributeError)
    assert not hasattr(plan, "pannel")
    with pytest.raises(AttributeError, match=r"Did you mean taper\?"):
        floor.tapper(left="1")


def test_what_goes_wrong_inside_stays_what_it_is(plan):
    """A `TypeError` of the author's own is not taken for a word that a verb does not take."""

    class Own:
        def __iter__(self):
            raise TypeError("mine")

    with pytest.raises(TypeError, match="mine"):
        plan.step("Start", does=Own())


def test_an_error_that_names_no_part_names_the_verb(plan, floor):
    assert said(lambda: plan.glue("side", floor)).startswith("plan.glue(…): a part, or a list of parts, was expected.")
    assert said(lambda: plan.mirror(floor, of=[floor, floor])).startswith("plan.mirror(…): of=: one part was expected.")
    assert said(floor.taper).startswith("Floor: ")


def test_a_verb_keeps_its_words_for_help(plan):
    assert Plan.panel.__doc__.startswith("Make a part of sheet material")
    assert Plan.panel.__name__ == "panel"


def test_a_part_can_be_glued_and_screwed_to_several_at_once(plan, floor):
    left = plan.panel("End", PLY, right=floor.left, front=0, back="12", bottom=0, top="9")
    ends = [left, plan.mirror(left, of=floor)]
    plan.glue(floor, ends)
    plan.pocket_screw(floor, into=ends, face="bottom")
    joints = plan.build().joints
    assert [(one.holds, one.to) for one in joints] == [("floor", "end"), ("floor", "end-2")] * 2
    holes = [one for one in plan.part("floor").features if one.face == "bottom"]
    assert len(holes) == 2  # a row at each end


@pytest.mark.parametrize(
    ("faces", "told"),
    [
        ({"left": 0, "front": 0, "back": "12", "bottom": 0}, "Add one of: right=…, top=…"),
        ({"left": 0, "front": 0, "bottom": 0}, "Add two of: right=…, back=…, top=…"),
        ({"left": 0}, "Add four of: right=…, front=…, back=…, bottom=…, top=…"),
    ],
)
def test_faces_left_out_are_counted(plan, faces, told):
    text = said(lambda: plan.panel("Shelf", PLY, **faces))
    assert text.startswith("Shelf: the right")
    assert text.endswith(told)


@pytest.mark.parametrize("waits", ["glue", "finish", "Paint: leave it overnight.", ""])
def test_what_a_step_waits_for_is_known_or_a_sentence(plan, floor, waits):
    plan.step("Start", brings=floor, waits=waits)
    assert bool(plan.draft().steps[0].waits) == bool(waits)


def test_one_word_that_says_nothing_of_waiting_is_refused(plan, floor):
    text = said(lambda: plan.step("Paint it", brings=floor, waits="paint"))
    assert 'waits="paint"' in text
    assert 'waits="glue", waits="finish", or a whole sentence' in text
    plan.step("Paint it", brings=floor)  # nothing of the refused step was kept


def test_a_count_is_a_whole_number_and_enough(plan):
    assert plan.count(cubbies=3, least=2) == 3
    assert plan.count(shelves=2, doors=1) == (2, 1)
    three, one = (said(lambda given=given: plan.count(cubbies=given, least=2)) for given in ("three", 1))
    assert three.startswith("plan.count(…): cubbies: a whole number was expected.")
    assert one.startswith("plan.count(…): cubbies: there can be no fewer than 2.")


def test_who_made_it_for_whom_and_under_which_licence_may_be_left_out(plan, floor):
    from plankit.plan.document import document

    plan.about(**WHO)
    whole = document(plan.draft())
    assert (whole["organisation"], whole["licence"]) == ("", {"name": "", "address": ""})


@pytest.mark.parametrize("name", [None, 3, "", "  ", ["Drawer"]])
def test_whatever_needs_a_name_refuses_what_is_none(plan, floor, name):
    small = stock.lumber("2x2", species="Douglas-fir")
    sides = [plan.panel("Side", PLY, left=at, front=0, back="12", bottom=floor.top, top="20") for at in (0, "19")]
    room = {"left": 0, "right": "20", "front": 0, "back": "12", "bottom": 0, "top": "20"}
    for verb, call in {
        "drawer": lambda: plan.drawer(name, PLY, between=sides, bottom=floor, top="10", thin=PLY),
        "seated": lambda: plan.seated(name),
        "frame": lambda: plan.frame(name, small, **room),
        "under_top": lambda: plan.under_top(name, small, small, top=floor, overhang="1"),
        "panel": lambda: plan.panel(name=name, stock=PLY, left=0, right="20", front=0, back="12", bottom=0),
    }.items():
        assert said(call).startswith(f"plan.{verb}(…): it needs a name of its own.\nYou gave: {name!r}")
