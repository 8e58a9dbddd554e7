"""What steps and lists tell: how deep a lead hole is, when the finish goes on, what is heavy, which bits it takes."""

import pytest

from plankit import stock
from plankit.build import bite
from plankit.plan import Plan
from plankit.plan.document import document
from plankit.plan.timeline import WORKING_DAY, timeline
from plankit.units import L

PLY = stock.sheet("plywood", "3/4", measured="23/32")
STRIP = stock.lumber("1x2", species="loblolly pine")


def braced(screw: str) -> Plan:
    """A brace of 1x2 at 45° in the corner of a front and a tray, with a screw through the front into its end."""
    plan = Plan("Corner", mark="1/32")
    front = plan.panel("Front", PLY, left=0, right="10", bottom=0, top="20", front=0)
    tray = plan.panel("Tray", PLY, left=0, right="10", front=front.back, back="20", bottom="1")
    brace = plan.brace("Brace", STRIP, inside=((front, "back"), (tray, "top")), rise="7", run="7", left="4")
    plan.glue(brace, front)
    plan.screw(brace, through=front, screws=screw, each=1)
    plan.step("Put it together", brings=plan.parts, waits="glue", minutes=30)
    return plan


def said(lines: list[str]) -> list[str]:
    """Lines with plain spaces, where numbers and their units are tied."""
    return [line.replace("\u00a0", " ") for line in lines]


def about_the_brace(screw: str) -> dict[str, dict[str, str]]:
    return {
        one["check"]: one | {"remedy": said([one["remedy"]])[0]}
        for one in document(braced(screw).draft())["findings"]
        if one["part"] == "Brace"
    }


@pytest.mark.parametrize(("screw", "deep"), [("#8 x 1 1/4", "17/32"), ("#8 x 1 1/2", "25/32")])
def test_a_lead_hole_in_a_brace_is_as_deep_as_the_screw_reaches(screw: str, deep: str) -> None:
    # 1 1/4 − 23/32 = 17/32 and 1 1/2 − 23/32 = 25/32: the miter lies on the back of the front
    plan = braced(screw)
    (fastener,) = plan.build().fasteners
    assert float(bite(fastener, plan.build().part("brace")).inches) == pytest.approx(
        float(L(deep, "in").inches), abs=1e-3
    )
    assert any(f"lead holes {deep} in" in line for line in said(document(plan.draft())["steps"][0]["does"]))


def test_a_screw_is_as_long_as_the_brace_is_thick_on_its_line() -> None:
    # the miter is 1 1/2 × √2 high; from its middle, square to it, the far edge is 1 1/2 ÷ √2 = 1.06 in away
    assert about_the_brace("#8 x 1 1/4")["too little bite"]["remedy"] == "Use one 1 1/2 in long."
    assert set(about_the_brace("#8 x 1 1/2")) == {"screw in end grain"}
    # 1 3/4 − 23/32 = 1.03: its tip lies (1.06 − 1.03) ÷ √2 = 0.02 in below that edge, less than half its thickness
    through = about_the_brace("#8 x 1 3/4")["fastener comes through"]
    assert through["level"] == "must fix"
    assert through["remedy"].startswith("Use one no longer than 1 1/2 in")


def test_a_screw_too_short_for_a_brace_is_caught() -> None:
    # 5/8 is less than the front's 23/32
    assert document(braced("#8 x 5/8").draft())["findings"][0]["check"] == "fastener too short"


def test_what_a_sheet_and_a_saw_measure_is_never_rounded_to_the_mark() -> None:
    plan = Plan("Box", mark="1/16")
    plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="30 3/32")
    row = document(plan.draft())["parts"][0]
    assert said([row["thickness"]]) == ["23/32 in (18 mm)"]
    assert row["length"].startswith("≈30\u00a01/8")  # what is no stock goes to the mark, and says so


def case(*, last: int = 60) -> Plan:
    plan = Plan("Case")
    side = plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="30")
    other = plan.mirror(side, across="24")
    bottom = plan.panel("Bottom", PLY, left=side.right, right=other.left, front=0, back="11", bottom="3")
    plan.glue([side, other], bottom)
    plan.step("Cut", works_on=plan.parts, does=["rip", "crosscut"], minutes=450)
    plan.step("Case", brings=plan.parts, waits="glue", minutes=last)
    return plan


def test_no_day_holds_more_than_eight_hours() -> None:
    whole = timeline(case().draft())
    assert whole is not None
    assert [one.worked for one in whole.stretches] == [((1, 450),), ((1, 30), (2, 30))]
    rows = document(case().draft())["timeline"]["rows"]
    assert [row["what"] for row in rows] == ["Cut; Case, begun", "Case, the rest"]
    assert WORKING_DAY == 450 + 30


def test_the_finish_has_its_work_and_stands_where_it_is_told() -> None:
    plan = case()
    plan.finish("Varnish", coats=2, how=["Brush it on."], minutes=90)
    plan.step("Carry it in", works_on=plan.parts, minutes=20)
    made = document(plan.draft())
    rows = [
        (row["step"], row["work"].replace("\u00a0", " "), row["dries"]) for row in made["timeline"]["rows"]
    ]
    assert rows[-3:] == [
        ("finish", "45 min", "12\u00a0h"),
        ("finish", "45 min", "12\u00a0h"),
        ("3", "20 min", ""),
    ]
    assert "Do this before step 3." in made["finish_summary"]
    assert made["minutes"] == 450 + 60 + 90 + 20


def test_a_step_may_be_the_finish() -> None:
    plan = case()
    plan.finish("Oil", coats=2, how=["Wipe it on."], oily=True)
    plan.step("Oil it", works_on=plan.parts, does=["sand", "finish"], minutes=60)
    made = document(plan.draft())
    step = made["steps"][-1]
    assert step["does"] == ["Oil, 2\u00a0coats, on all faces that are not glued.", "Wipe it on."]
    assert {"finish", "oily rags"} <= {caution["about"] for caution in step["cautions"]}
    assert (made["finish"], made["finish_summary"], made["finish_cautions"]) == ([], "", [])
    assert [row["step"] for row in made["timeline"]["rows"]][-2:] == ["3", "3"]  # a row for each coat


def test_only_what_burns_warns_of_vapors_that_burn() -> None:
    for product, topic in (("Water-based clear coat", "water-based finish"), ("Varnish", "finish")):
        plan = case()
        plan.finish(product, coats=1, how=["Brush it on."])
        about = {caution["about"]: caution["text"] for caution in document(plan.draft())["finish_cautions"]}
        assert topic in about
        assert ("burn" in about[topic]) == (topic == "finish")


def test_screws_are_spoken_of_where_there_are_some() -> None:
    assert "screws" not in document(case().draft())["steps"][-1]["waits"]
    step = document(braced("#8 x 1 1/2").draft())["steps"][0]
    assert "until the screws hold it" in step["waits"]
    assert document(braced("#8 x 1 1/2").draft())["timeline"]["rows"][0]["dries"] == "no wait: screws hold it"


def test_turning_what_is_heavy_takes_two() -> None:
    # (2 × 40 + 2 × 38.56) × 20 × 23/32 in = 1.31 ft³ of plywood of about 36 lb/ft³: 47 lb, and 19 lb where it is 8 deep
    def heavy(wide: str) -> list[int]:
        plan = Plan("Case")
        left = plan.panel("Side", PLY, left=0, front=0, back=wide, bottom=0, top="40")
        right = plan.mirror(left, across="40")
        floor = plan.panel("Bottom", PLY, left=left.right, right=right.left, front=0, back=wide, bottom="3")
        top = plan.panel("Top", PLY, left=left.right, right=right.left, front=0, back=wide, top="40")
        plan.glue([left, right], floor)
        plan.glue([left, right], top)
        plan.step("Case", brings=[left, right, floor], note="Glue the sides on.")
        plan.step("Top", brings=top, onto=[left, right], note="Turn the case upside down first.")
        return [
            step["number"]
            for step in document(plan.draft())["steps"]
            if "lifting" in {caution["about"] for caution in step["cautions"]}
        ]

    assert heavy("8") == []
    assert heavy("20") == [2]  # step 1 makes nothing that is moved


def test_bits_are_listed_by_their_sizes_and_a_countersink_only_where_something_is_sunk() -> None:
    tools = {row["name"]: row["for"] for row in document(braced("#8 x 1 1/2").draft())["tools"]}
    # a #8 screw: a shank of 0.164 in goes through 11/64
    assert any("11/64\u00a0in" in use for use in tools.values())
    plain = Plan("Case")
    side = plain.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="30")
    side.bore("right", "1/4", depth="3/8", front="2", bottom="8", use="shelf pin")
    plain.step("Bore", brings=side)
    rows = {row["name"]: row["for"] for row in document(plain.draft())["tools"]}
    assert any("1/4\u00a0in" in use for use in rows.values())
    assert "Countersink bit" not in rows
    assert "Stop for the bits" in rows


def test_pieces_that_a_later_step_parts_off_stay_in_one_piece() -> None:
    plan = Plan("Blocks")
    first = plan.board("Block", STRIP, runs="left-right", left=0, right="6", front=0, bottom=0, wide="up")
    plan.board("Block", STRIP, runs="left-right", left=0, right="6", front="4", bottom=0, wide="up")
    plan.step("Cut", works_on=plan.parts, does=["rip", "crosscut"])
    plan.step("Shape", works_on=plan.parts, does=["taper", "crosscut"])
    plan.step("Place", brings=plan.parts)
    notes = [layout["note"] for layout in document(plan.draft())["cutting"]]
    assert first.name == "Block"
    assert any("Not yet: leave the blocks uncut here; step 2 parts them off." in note for note in notes)


def test_a_miter_is_sawn_off_the_stick() -> None:
    notes = [layout["note"] for layout in document(braced("#8 x 1 1/2").draft())["cutting"]]
    assert any("long points of the miters" in note and "cut nothing square first" in note for note in notes)


def test_equal_work_is_told_once() -> None:
    plan = Plan("Frames")
    one = plan.panel("First panel", PLY, left=0, front=0, back="11", bottom=0, top="30")
    other = plan.panel("Second panel", PLY, left="10", front=0, back="11", bottom=0, top="30")
    between = plan.panel("Shelf", PLY, left=one.right, right=other.left, front=0, back="11", bottom="3")
    for part in (one, other):
        part.bore("left", "1/4", front="2", bottom="20", use="cord")
        plan.glue(part, between)
        plan.screw(between, through=part, screws="#8 x 2", each=2)
    plan.step("Put it together", brings=plan.parts)
    assert said(document(plan.draft())["steps"][0]["does"])[1:] == [  # the first says which hand goes where
        "First panel and second panel: bore 1 hole in each, 1/4 in (6 mm) across and right through (cord).",
        "For the #8 screws bore and countersink 11/64 in holes through the first panel and second panel, and "
        "3/32 in lead holes 1 1/4 in (32 mm) deep into the shelf.",
        "Glue the first panel and the second panel to the shelf.",
        "Drive 4 wood screws, #8 × 2 in: 2 through the first panel into the shelf, and 2 through the second panel "
        "into the shelf.",
    ]
