"""Work in its time: what belongs to a later step, what is measured first, what dries, and what is done meanwhile."""

from fractions import Fraction

import pytest

from plankit import stock
from plankit.errors import PlanError
from plankit.parts import Bore, shape
from plankit.plan import Plan
from plankit.plan.cut_list import cut_plan
from plankit.plan.document import document
from plankit.plan.figures import step_picture
from plankit.plan.timeline import meanwhile, timeline
from plankit.plan.waiting import pause
from plankit.plan.work import labels, work_of
from plankit.plan.work_when import as_of, when
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")
SLAB = stock.lumber("2x10", species="loblolly pine")


def case() -> Plan:
    """Two sides with rows of pin holes on a bottom; the holes are bored when the case stands."""
    plan = Plan("Case")
    side = plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="30")
    other = plan.mirror(side, across="24")
    bottom = plan.panel("Bottom", PLY, left=side.right, right=other.left, front=0, back="11", bottom="3")
    for one, inner in ((side, "right"), (other, "left")):
        for up in (8, 16):
            one.bore(inner, "1/4", depth="3/8", front="2", bottom=up, use="shelf pin")
    plan.screw(bottom, through=[side, other], screws="#8 x 2", each=2)
    return plan


def later_case() -> Plan:
    plan = case()
    side, other, bottom = plan.parts
    plan.step("Cut", works_on=plan.parts, does=["measure", "mark", "rip", "crosscut"], minutes=60)
    plan.step("Case", brings=[side, other, bottom], minutes=30)
    plan.step("Pins", works_on=[side, other], does="bore", only="shelf pin", minutes=20)
    return plan


def test_holes_that_a_later_step_names_are_bored_there_and_not_when_the_part_arrives():
    works = work_of(later_case().draft())
    assert [feature.use for _, feature in works[2].features] == [
        "shelf pin"
    ] * 4  # two holes in each of two sides
    assert all(feature.use != "shelf pin" for _, feature in works[1].features)


def test_a_hole_is_never_bored_after_its_screw_is_driven():
    plan = case()
    side, other, bottom = plan.parts
    plan.step("Case", brings=[side, other, bottom])
    plan.step("Bore", works_on=[side, other], does="bore")  # the screws' own holes were needed before
    works = work_of(plan.draft())
    assert len(works[0].features) == 4  # two screws through each side
    assert {feature.use for _, feature in works[1].features} == {"shelf pin"}


def test_the_build_of_an_earlier_step_lacks_what_is_done_later():
    draft = later_case().draft()
    then, now = as_of(draft, 2), as_of(draft, 3)
    assert now is draft.build
    holes = [f for part in then.parts for f in part.features if isinstance(f, Bore) and f.use == "shelf pin"]
    assert holes == []
    assert len(then.part("side").features) == 2  # the two screws' holes stay


def test_the_drawing_of_an_earlier_step_shows_none_of_the_later_holes():
    plan = case()
    side, other, bottom = plan.parts
    plan.step("Cut", works_on=plan.parts, does=["measure", "mark", "rip", "crosscut"])
    plan.step("Case", brings=[side, other, bottom], view="from the front right")
    at_once = step_picture(plan.draft(), work_of(plan.draft())[1])
    plan.step("Pins", works_on=[side, other], does="bore", only="shelf pin")
    later = step_picture(plan.draft(), work_of(plan.draft())[1])
    assert at_once
    assert later
    assert len(at_once.svg) - len(later.svg) > 200  # two of the four holes can be seen from there


def test_the_parts_list_and_the_part_drawing_say_when():
    plan = document(later_case().draft())
    row = next(row for row in plan["parts"] if row["name"] == "Side")
    assert "bored (shelf pin) in step 3" in row["note"]
    assert "bored (shelf pin) in step 3" in plan["figures"][row["figure"]]["svg"].replace("\n", " ")


def test_a_top_may_be_trimmed_when_it_is_in_place():
    plan = Plan("Top")
    side = plan.panel("Side", PLY, left=0, front=0, back="14", bottom=0, top="20")
    top = plan.glue_up("Top", SLAB, boards=2, left=0, right="24", front=0, back="14", bottom=side.top)
    plan.glue(top, side)
    plan.step("Glue the top", works_on=top, does=["glue", "clamp"])
    plan.step("Side and top", brings=[side, top])
    plan.step("Trim", works_on=top, does=["crosscut", "plane"])
    draft = plan.draft()
    assert when(draft).trimmed == {"top": 3}
    before = as_of(draft, 2).part("top").box
    assert before.extent("x") == L("25 in")  # 24 in and 1/2 in at each end
    assert before.extent("y") == L("14 1/4 in")  # 14 in and 1/8 in at each edge
    assert as_of(draft, 3).part("top").box.extent("x") == L("24 in")
    assert "trimmed to size in step 3" in document(draft)["parts"][1]["note"]


# Cut to fit


def shelf_to_fit(*, among_the_first: bool) -> Plan:
    plan = case()
    side, other, bottom = plan.parts
    shelf = plan.panel("Shelf", PLY, left=side.right, right=other.left, front="1/4", back="11", bottom="15")
    plan.measure_first(shelf.id, "between the sides, at the pins")
    first = plan.parts if among_the_first else [side, other, bottom]
    plan.step("Cut", works_on=first, does=["measure", "mark", "break down sheets", "rip", "crosscut"])
    plan.step("Case", brings=[side, other, bottom])
    plan.step("Shelf", brings=shelf)
    return plan


def test_a_part_cut_to_fit_is_measured_in_the_step_that_brings_it():
    plan = document(shelf_to_fit(among_the_first=False).draft())
    step = plan["steps"][2]
    assert step["marks"] == ["measure first"]
    said = step["does"][0].replace("\u00a0", " ")
    # 24 in less two thicknesses of 3/4 in; 11 in less 1/4 in
    assert said == (
        "Shelf: measure first (between the sides, at the pins), and cut it to that; 22 1/2 × 10 3/4 in (572 × 273 mm) "
        "is what the drawings come to."
    )
    assert "crosscut" in {op for op, _ in work_of(shelf_to_fit(among_the_first=False).draft())[2].tools}
    row = next(row for row in plan["parts"] if row["name"] == "Shelf")
    assert "measure first: between the sides, at the pins" in row["note"]


def test_a_part_cut_to_fit_among_the_first_cuts_is_looked_at():
    for among, looked_at in ((True, ["Shelf"]), (False, [])):
        found = document(shelf_to_fit(among_the_first=among).draft())["findings"]
        assert [f["part"] for f in found if f["check"] == "cut to fit"] == looked_at


def test_the_cutting_list_says_which_piece_is_cut_oversize():
    plan = document(shelf_to_fit(among_the_first=False).draft())
    notes = " ".join(sheet["note"] for sheet in plan["cutting"])
    assert "Measure first: shelf, its size here is nominal" in notes
    assert notes.endswith("cut it to what you measure in step 3.")
    assert "nominal with 1/2\u00a0in (13\u00a0mm) to spare each way; cut it" in notes


def fitted_rail(spare: str | None, long: str = "40") -> tuple[str, set[Fraction]]:
    """What stands beside the drawing of a rail that is measured first, and how long it is laid out, in inches."""
    plan = Plan("Rail")
    strip = stock.lumber("1x2", species="Douglas-fir")
    rail = plan.board("Rail", strip, runs="left-right", wide="up", left=0, right=long, front=0, bottom=0)
    rail.cut_to_fit("between the sides", spare=spare)
    plan.step("Cut", works_on=rail, does=["crosscut"])
    made = cut_plan(plan.draft(), labels(plan.draft())[1])
    return made.layouts[0].note, {piece.length.inches for piece in made.pieces}


def test_a_rail_measured_first_is_laid_out_longer_by_what_is_usual_or_what_its_author_says():
    note, longs = fitted_rail(None)
    assert longs == {Fraction(81, 2)}  # 40 + 1/2
    assert "with 1/2\u00a0in (13\u00a0mm) to spare in length" in note
    assert fitted_rail("1 1/4")[1] == {Fraction(165, 4)}
    note, longs = fitted_rail("0")
    assert longs == {40}
    assert "leave it too large where there is room" in note


@pytest.mark.parametrize(
    ("long", "laid_out"),
    [
        ("94 1/2", "95"),  # a board of 8 ft, less 1/2 in at each end, has 95: room for the 1/2 in
        ("94 3/4", "95"),  # … for half of it
        ("95", "95"),  # … for none: no longer board is bought for it
    ],
)
def test_no_longer_board_is_bought_for_a_spare(long: str, laid_out: str):
    assert fitted_rail(None, long)[1] == {Fraction(laid_out)}


def test_a_part_for_which_more_is_left_is_no_match_for_one_with_less():
    plan = case()
    one, other = plan.parts[0], plan.parts[1]
    one.cut_to_fit("its place")
    other.cut_to_fit("its place", spare="1")
    assert shape(one.part) != shape(other.part)


# Dry fit, by trial


def test_a_dry_fit_is_marked_and_comes_before_the_glue():
    plan = case()
    plan.step("Case", brings=plan.parts, fitting="dry")
    step = document(plan.draft())["steps"][0]
    assert step["marks"] == ["dry fit"]
    assert step["does"][0].startswith("Put it together dry first")


def test_a_way_of_fitting_that_says_nothing_is_refused():
    plan = case()
    with pytest.raises(PlanError, match="no way of fitting"):
        plan.step("Case", brings=plan.parts, fitting="wet")


# Waiting


def glued() -> Plan:
    """A top that is glued up, and a case that has nothing to do with it until the last step."""
    plan = case()
    side, other, bottom = plan.parts
    top = plan.glue_up("Top", SLAB, boards=2, left=0, right="24", front=0, back="11", bottom=side.top)
    plan.glue(top, [side, other])
    plan.step("Glue the top", works_on=top, does=["plane", "glue", "clamp"], waits="glue", minutes=30)
    plan.step("Case", brings=[side, other, bottom], minutes=20)
    plan.step("Top", brings=top, minutes=40)
    return plan


def test_meanwhile_is_what_touches_nothing_that_dries():
    assert meanwhile(glued().draft()) == {1: (2,)}  # the last step needs the top itself
    step = document(glued().draft())["steps"][0]
    assert step["meanwhile"] == "Meanwhile you can do step 2 (case)."


def test_what_is_joined_to_what_dries_waits_too():
    plan = case()
    side, other, bottom = plan.parts
    block = plan.panel("Block", PLY, left="10", right="14", front="2", back="6", bottom=bottom.top)
    plan.glue(block, bottom)
    plan.step("Case", brings=[side, other, bottom], waits="Hide glue: leave it for 4 hours.", minutes=10)
    plan.step("Block", brings=block, onto=bottom, minutes=10)
    assert meanwhile(plan.draft()) == {}


def test_time_from_start_to_finish_counts_the_waiting_that_nothing_fills():
    whole = timeline(glued().draft())
    assert whole is not None
    assert whole.work == 90  # 30 + 20 + 40 minutes
    assert [one.idle for one in whole.stretches] == [
        0,
        0,
        40,
    ]  # clamps stay on for 60 min, 20 of them are filled
    assert whole.days == 1


def worked_after(first: int, then: int) -> list[tuple[tuple[int, int], ...]]:
    """The days, each with its minutes, of a step that follows another."""
    plan = case()
    plan.step("Cut", works_on=plan.parts, does=["measure", "mark", "rip", "crosscut"], minutes=first)
    plan.step("Case", brings=plan.parts, minutes=then)
    whole = timeline(plan.draft())
    assert whole is not None
    return [one.worked for one in whole.stretches]


def test_work_beyond_eight_hours_goes_on_the_next_day():
    # 480 − 450 = 30 minutes of the first day are left, and 70 − 30 = 40 for the second
    assert worked_after(450, 70) == [((1, 450),), ((1, 30), (2, 40))]


def test_nobody_leaves_the_last_minutes_of_a_step_for_the_next_day():
    # 455 + 45 = 500 minutes: 20 more than eight hours, and a bin that hangs by half its hinges is not left so
    assert worked_after(455, 45) == [((1, 455),), ((1, 45),)]


def test_coats_dry_over_night():
    plan = case()
    plan.step("Case", brings=plan.parts, minutes=60)
    plan.finish("Oil finish", coats=2, how=["Wipe it on."], oily=True)
    whole = timeline(plan.draft())
    assert whole is not None
    assert (
        whole.days == 2
    )  # the first coat on the day of the work, the second next morning (60 + 2 × 720 min)
    assert {"label": "From start to finish", "value": "2\u00a0days with drying"} in document(plan.draft())[
        "glance"
    ]


def test_a_plan_that_does_not_say_how_long_its_steps_take_has_no_timeline():
    plan = case()
    plan.step("Case", brings=plan.parts)
    assert timeline(plan.draft()) is None
    assert document(plan.draft())["timeline"] == {"rows": [], "summary": ""}


@pytest.mark.parametrize(
    ("waits", "hours", "minutes"),
    [
        ("glue", None, 60),
        ("finish", None, 720),
        ("Epoxy: leave it for 6 hours.", None, 360),
        ("Leave it for 30 minutes.", None, 30),
        ("Let it dry over night.", None, 720),
        ("Wait 2 to 3 days.", None, 3 * 1440),
        ("Let it cure as the tin says.", None, None),
        ("Let it cure as the tin says.", "1/2", 30),
        ("", None, 0),
    ],
)
def test_how_long_something_dries_is_read_from_the_words(waits, hours, minutes):
    assert pause(waits, hours, "step 1") == minutes


def test_screws_hold_what_the_glue_need_not():
    # "leave it clamped for 1 hour, or until the screws hold it"
    plan = case()
    side, other, bottom = plan.parts
    plan.glue([side, other], bottom)
    plan.step("Case", brings=plan.parts, waits="glue", minutes=10)
    whole = timeline(plan.draft())
    assert whole is not None
    assert whole.stretches[0].pause == 0


def test_the_timeline_draws_together_what_follows_without_a_wait():
    table = document(glued().draft())["timeline"]
    rows = [(row["day"], row["step"], row["work"].replace("\u00a0", " "), row["dries"].replace("\u00a0", " "))
            for row in table["rows"]]  # fmt: skip
    # the glue of step 1 dries for an hour; step 2 fills 20 minutes of it, and nothing fills the rest
    assert rows == [("day 1", "1", "30 min", "1 h"), ("day 1", "2", "20 min", ""), ("day 1", "3", "40 min", "")]
    assert "40 min of waiting with nothing else to do" in table["summary"].replace("\u00a0", " ")
