"""What steps and lists tell: how deep a lead hole is, when the finish goes on, what is heavy, which bits it takes."""

from dataclasses import replace

import pytest

from plankit import stock
from plankit.build import bite
from plankit.plan import Plan
from plankit.plan.document import document
from plankit.plan.note_work import asked_in
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


def listed_beside_tools(finish: str = "", **how: bool) -> dict[str, str]:
    """What the tool list says of two boards that are sawn in step 1, glued in step 2, and finished with this."""
    plan = Plan("Boards")
    one = plan.board("Board", STRIP, runs="left-right", left=0, right="20", front=0, bottom=0, wide="up")
    other = plan.board("Other board", STRIP, runs="left-right", left=0, right="20", front=one.back, bottom=0, wide="up")
    plan.glue(one, other)
    plan.step("Cut", works_on=plan.parts, does=["crosscut"])
    plan.step("Glue", brings=[one, other])
    if finish:
        plan.finish(finish, coats=2, how=["Wipe it on."], **how)
    return {row["name"]: row["for"] for row in document(plan.draft())["tools"]}


def test_masks_and_rags_are_listed_for_the_steps_that_need_them() -> None:
    bare = listed_beside_tools()
    assert bare["Dust mask that fits"] == "dust of sawing, routing and sanding (step 1)"
    assert bare["Clean rags"] == "wipe off wet glue (step 2)"
    assert not {"Respirator for vapors", "Metal can with a lid"} & set(bare)


def test_a_respirator_is_listed_for_solvents_and_a_can_for_oily_rags() -> None:
    water = listed_beside_tools("water-based varnish")
    assert "Respirator for vapors" not in water
    assert water["Clean rags"] == "wipe off wet glue, dust, finish (step 2, finish)"
    assert water["Dust mask that fits"].endswith("(step 1, finish)")  # sanding between coats
    oil = listed_beside_tools("linseed oil", oily=True)
    assert oil["Respirator for vapors"] == "finish with solvents, where its label asks for one (finish)"
    assert oil["Metal can with a lid"] == "rags wet with oil, under water (finish)"


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


def test_a_piece_that_an_earlier_step_uses_is_cut_out_before_it() -> None:
    """A post is joined, and a panel bored, long before a step fits a catch there and crosscuts a shelf."""
    plan = Plan("Posts")
    post = plan.board("Post", STRIP, runs="up", left=0, front=0, bottom=0, length="20", wide="front-back")
    panel = plan.panel("Panel", PLY, left=post.right, right="10", front=0, back="10", bottom=0)
    panel.bore("top", "1/4", left="2", front="2", use="cord")
    plan.step("Cut", works_on=plan.parts, does=["rip", "crosscut"])
    plan.step("Bore", works_on=panel, does=["bore"])
    plan.step("Stand", brings=post)
    plan.step("Fit", brings=panel, works_on=[post, panel], does=["crosscut"])
    assert not any("Not yet" in layout["note"] for layout in document(plan.draft())["cutting"])


def test_a_note_that_asks_for_a_tool_brings_its_caution() -> None:
    plan = Plan("Plank")
    plank = plan.board("Plank", STRIP, runs="left-right", left=0, front=0, bottom=0, length="20", wide="front-back")
    plan.step("Miter", works_on=plank, does=["crosscut"], note="Miter the plank, clamp it, and plane its ends.")
    plan.step("Place", brings=plank, note="Oil its underside now: no brush reaches it later.")
    plan.finish("Oil finish", coats=1, oily=True, how=["Wipe it on."])
    first, second = document(plan.draft())["steps"]
    assert {"Miter saw", "Clamps", "Block plane"} <= set(first["tools"])
    assert {"Miter saw", "Clamps", "Block plane"} <= {one["about"] for one in first["cautions"]}
    assert {"finish", "oily rags"} <= {one["about"] for one in second["cautions"]}
    assert "Clean rags" in second["tools"]


@pytest.mark.parametrize(
    "note", ["No glue, no oil, and plane and clamps away.", "The oil dries; a clamp is of no use.", "Take the plane."]
)
def test_a_note_that_only_names_a_thing_asks_for_nothing(note: str) -> None:
    assert asked_in(note) == ()


def test_sheets_are_crosscut_along_a_guide_and_sticks_against_a_stop() -> None:
    plan = Plan("Two kinds")
    plan.panel("Panel", PLY, left=0, right="10", front=0, back="10", bottom=0)
    plan.board("Stick", STRIP, runs="left-right", left=0, front="12", bottom=0, length="20", wide="front-back")
    plan.step("Cut", works_on=plan.parts, does=["break down sheets", "crosscut"])
    plan.step("Place", brings=plan.parts)
    step = document(plan.draft())["steps"][0]
    assert {"Guided circular saw", "Miter saw"} <= set(step["tools"])
    assert "Miter saw" in {one["about"] for one in step["cautions"]}


def test_countersunk_holes_are_bored_in_the_step_that_drives_their_screws() -> None:
    """The bottom comes first; the holes through it lie where the divider stands, and are bored with it."""
    plan = Plan("Box", mark="1/32")
    side = plan.panel("Side", PLY, left=0, front=0, back="10", bottom=0, top="20")
    floor = plan.panel("Bottom", PLY, left=side.right, right="20", front=0, back="10", bottom="2")
    divider = plan.panel("Divider", PLY, left="9", front=0, back="10", bottom=floor.top, top="20")
    plan.pocket_screw(floor, into=side, face="bottom")
    plan.screw(divider, through=floor, screws="#8 x 1 1/2")
    plan.step("Floor", brings=[side, floor])
    plan.step("Divider", brings=divider)
    first, second = document(plan.draft())["steps"]
    assert "Countersink bit" not in first["tools"]
    assert "Countersink bit" in second["tools"]
    assert any(one["text"] == "Part drawing B" for one in second["see"])  # B is the bottom, which came before


def test_clamps_open_as_far_as_the_widest_frame() -> None:
    """A shelf between two sides, 24 in over all, and cauls; and a shop whose clamps open 12 in is told so."""
    plan = Plan("Case", mark="1/32")
    left = plan.panel("Side", PLY, left=0, front=0, back="10", bottom=0, top="20")
    right = plan.panel("Side", PLY, right="24", front=0, back="10", bottom=0, top="20")
    shelf = plan.panel("Shelf", PLY, left=left.right, right=right.left, front=0, back="10", bottom="5")
    plan.pocket_screw(shelf, into=left, face="bottom")
    plan.pocket_screw(shelf, into=right, face="bottom")
    plan.step("Cut", works_on=plan.parts, does=["break down sheets", "crosscut"])
    plan.step("Stand", brings=plan.parts)
    draft = plan.draft()
    (row,) = (row for row in document(draft)["tools"] if row["name"] == "Clamps")
    assert said([row["for"]])[0].endswith("2 that open 25 1/2 in (648 mm), or a strap")  # 24 + 2 × 3/4
    short = replace(
        draft.shop,
        tools=tuple(
            replace(tool, limits=(("widest_opening", L("12 in")),)) if "clamp" in tool.does else tool
            for tool in draft.shop.tools
        ),
    )
    (found,) = (one for one in document(replace(draft, shop=short))["findings"] if "clamped" in one["what"])
    assert said([found["number"]]) == ["25 1/2 in; they open 12 in"]
    assert not [one for one in document(draft)["findings"] if "clamped" in one["what"]]


def test_a_step_names_what_goes_with_its_tools() -> None:
    plan = Plan("Panel")
    panel = plan.panel("Panel", PLY, left=0, right="10", front=0, back="10", bottom=0)
    panel.bore("top", "1/4", left="2", front="2", depth="3/8", use="peg")
    plan.step("Cut", works_on=panel, does=["break down sheets", "crosscut"])
    plan.step("Bore", brings=panel)
    first, second = document(plan.draft())["steps"]
    assert "Two sawhorses" in first["tools"]
    assert "Stop for the bits" in second["tools"]


def test_a_step_lists_what_it_cuts_to_fit() -> None:
    plan = Plan("Door")
    door = plan.panel("Door", PLY, left=0, right="10", front=0, bottom=0, top="20")
    shelf = plan.panel("Shelf", PLY, left=0, right="10", front="2", back="10", bottom="5")
    for part in (door, shelf):
        part.cut_to_fit("the opening")
    plan.step("Cut", does=["break down sheets"])
    plan.step("Fit", brings=door, works_on=shelf, does=["crosscut"])
    plan.step("Place", brings=shelf)
    assert [one["name"] for one in document(plan.draft())["steps"][1]["brings"]] == ["Door", "Shelf"]


def test_a_note_keeps_a_number_and_its_fraction_on_one_line() -> None:
    plan = Plan("Panel", mark="1/32")
    panel = plan.panel("Panel", PLY, left=0, right="16 21/32", front=0, back="10", bottom=0)
    plan.step("Place", brings=panel, note=f"It is {plan.write(panel.length)} long.")
    assert "16\u00a021/32\u00a0in" in document(plan.draft())["steps"][0]["note"]


def test_a_miter_is_sawn_off_the_stick() -> None:
    notes = [layout["note"] for layout in document(braced("#8 x 1 1/2").draft())["cutting"]]
    assert any("long points of the miters" in note and "none of them square first" in note for note in notes)


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
