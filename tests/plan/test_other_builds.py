"""Plans that are not the demo bench: a bookcase, a wall box, a stool. Every sum stands beside its number."""

from fractions import Fraction

import pytest

from plankit import stock
from plankit.parts import weight
from plankit.plan import Plan
from plankit.plan.computed import computed, work_out_again
from plankit.plan.document import document
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")
THIN = stock.sheet("plywood", "1/4")
SLAB = stock.lumber("2x10", species="loblolly pine")


def bookcase() -> Plan:
    """Two sides with rows of pin holes, a bottom, and a shelf that lies loose on pins."""
    plan = Plan("Bookcase")
    left = plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="40")
    right = plan.mirror(left, across="32")
    bottom = plan.panel("Bottom", PLY, left=left.right, right=right.left, front=0, back="11", bottom="3")
    shelf = plan.panel("Shelf", PLY, left=left.right, right=right.left, front="1/4", back="11", bottom="15")
    for side, inner in ((left, "right"), (right, "left")):
        for front in ("2", "9"):
            for up in (8, 16, 24):
                side.bore(inner, "1/4", depth="3/8", front=front, bottom=up, use="shelf pin")
    plan.pocket_screw(bottom, into=left)
    plan.pocket_screw(bottom, into=right)
    plan.band(left, right, bottom, edges="front")
    plan.band(shelf, edges="front", thickness="1/8")
    plan.load(shelf, "books", psf=50)
    plan.step("Bore the sides", works_on=[left, right], does="bore")
    plan.step("Case", brings=[left, right, bottom])
    plan.step("Shelf", brings=shelf)
    return plan


@pytest.fixture(scope="module")
def books():
    return document(bookcase().draft())


def checks(plan: dict) -> set[tuple[str, str]]:
    return {(finding["check"], finding["part"]) for finding in plan["findings"]}


def test_a_step_that_bores_says_how_many_holes_and_how_deep(books):
    # two rows of three in each side
    assert books["steps"][0]["does"][-1].replace("\u00a0", " ") == (
        "Side: bore 6 holes in each of 2, 1/4 in (6 mm) across and 3/8 in (10 mm) deep (shelf pin)."
    )


def test_a_loose_shelf_under_books_is_reckoned_between_the_sides_it_rests_on(books):
    # 30 1/2 in of 3/4 in plywood under 50 lb/sq ft bends more than 30 1/2 ÷ 144
    assert ("bends too far", "Shelf") in checks(books)


def test_a_load_on_what_rests_on_nothing_is_not_passed_over_in_silence():
    plan = Plan("Plank")
    plank = plan.panel("Plank", PLY, left=0, right="30", front=0, back="10", bottom=0)
    plan.load(plank, "books", psf=50)
    assert ("load not reckoned", "Plank") in checks(document(plan.draft()))


def test_veneer_and_thick_strips_are_bought_apart(books):
    lengths = {row["item"]: row["count"] for row in books["shopping"] if "banding" in row["item"]}
    assert lengths == {
        "3/4 in edge banding": "10.1 ft",  # (2 × 40 + 30 1/2) ÷ 12, a tenth to spare
        "3/4 in edge banding, 1/8 in thick": "2.8 ft",  # 30 1/2 ÷ 12, a tenth to spare
    }


def test_without_prices_the_cost_is_not_nothing_but_unknown(books):
    glance = {row["label"]: row["value"] for row in books["glance"]}
    assert glance["Cost"] == "not known: no prices are listed"
    assert books["shopping_total"] == "not known"


def test_time_that_nobody_gave_is_not_zero_minutes_and_nothing_dries(books):
    assert {row["label"]: row["value"] for row in books["glance"]}["Working time"] == "not given"


def test_a_plan_whose_steps_never_cut_is_told_so(books):
    assert any("no step cuts the parts" in finding["what"] for finding in books["findings"])


def test_accepting_what_no_check_finds_is_said():
    plan = bookcase()
    plan.accept("bends too far", part="Shelf", reason="it carries paperbacks")
    plan.accept("bends to far", part="Shelf", reason="a slip of the pen")
    found = document(plan.draft())["findings"]
    assert [f["what"] for f in found if f["check"] == "accepted in vain"] == [
        "the plan accepts “bends to far”, which no check finds here."
    ]


def test_a_back_let_into_grooves_is_held_without_screws():
    """┃▐  a back 1/4 in thick in a groove 1/4 in deep of the side."""
    plan = Plan("Wall box")
    side = plan.panel("Side", PLY, left=0, front=0, back="10", bottom=0, top="14")
    side.groove("right", width="1/4", depth="1/4", back="1/2", reason="for the back")
    plan.panel("Back", THIN, left=side.right - "1/4", right="20", back="9 1/2", bottom=0, top="14")
    plan.step("Plough", works_on=side, does="groove")
    data = document(plan.draft())
    assert ("nothing holds it", "Back") not in checks(data)
    assert data["parts"][0]["note"] == "grooved"
    assert data["steps"][0]["does"][-1].replace("\u00a0", " ") == (
        "Side: cut a groove for the back in the right face, 1/4 in (6 mm) wide and 1/4 in (6 mm) deep, "
        "1/2 in (13 mm) from its back edge, with the grain."
    )


def test_a_step_that_notches_says_what_is_cut_out():
    plan = Plan("Stool")
    side = plan.panel("Side", PLY, left=0, front=0, back="11", bottom=0, top="16")
    side.notch(front="5", top="8", reason="the lower step")
    plan.step("Notch", works_on=side, does="notch")
    assert document(plan.draft())["steps"][0]["does"][-1].replace("\u00a0", " ") == (
        "Side: cut out a notch for the lower step, 8 in (203 mm) along the grain and 5 in (127 mm) across it, "
        "through."
    )


def test_a_part_with_grain_is_not_cut_as_one_without():
    """Equal in size; but one must have its grain across its longer side, and the other does not mind."""
    plan = Plan("Doors")
    size = {"left": 0, "right": "24", "front": 0, "back": "12"}
    plan.panel("Grained", PLY, **size, bottom=0, grain="front-back")
    plan.panel("Any", PLY, **size, bottom="8", grain="any")
    (layout,) = document(plan.draft())["cutting"]
    sizes = {piece["name"]: piece["size"].partition("\u00a0in")[0] for piece in layout["pieces"]}
    assert sizes == {"Grained": "12 × 24", "Any": "24 × 12"}


def test_narrow_boards_of_a_glue_up_come_two_from_a_width():
    """Four boards 3 13/16 wide: 2 × 3 13/16 + 1/8 = 7 3/4, and a 2x10 is 9 1/4 wide. So two lengths of 26 in do."""
    plan = Plan("Lid")
    plan.glue_up("Lid", SLAB, boards=4, left=0, right="25", front=0, back="15", bottom=0)
    data = document(plan.draft())
    (layout,) = data["cutting"]
    assert [piece["count"] for piece in layout["pieces"]] == [4]
    assert layout["copies"] == 1
    assert any(": Rip " in cut["text"] for cut in layout["cuts"])
    assert {row["label"]: row["value"] for row in data["glance"]}["Pieces to cut"] == "4"


def test_an_upright_glue_up_has_its_grain_along_its_longer_side():
    plan = Plan("Side of solid wood")
    side = plan.glue_up("Side", SLAB, boards=2, left=0, front=0, back="12", bottom=0, top="40")
    assert (side.length, side.width, side.part.grain) == (L("40 in"), L("12 in"), "z")


def test_notches_that_share_wood_take_it_away_once():
    # 24 × 12 × 3/4 less one quarter, however often it is cut out
    plan = Plan("Tray")
    tray = plan.panel("Tray", PLY, left=0, right="24", front=0, back="12", bottom=0)
    whole = weight(tray.part)
    tray.notch(front="6", left="12").notch(front="6", left="12")
    assert weight(tray.part).kg / whole.kg == pytest.approx(Fraction(3, 4), rel=1e-6)


def test_a_metric_screw_is_called_by_its_millimeters():
    plan = Plan("Wall box", unit="mm")
    ply = stock.sheet("plywood", "18 mm")
    floor = plan.panel("Floor", ply, left=0, right=600, front=0, back=250, bottom=0)
    side = plan.panel("Side", ply, left=0, front=0, back=250, bottom=floor.top, top=350)
    plan.screw(side, through=floor, screws="#8 x 40 mm")
    (row,) = document(plan.draft())["hardware"]
    assert row["item"] == "#8 × 40 mm wood screw"


def test_a_screw_driven_the_long_way_is_not_mended_by_a_screw_of_two_feet():
    plan = Plan("Crate")
    side = plan.panel("Side", PLY, left=0, front=0, back="12", bottom=0, top="18")
    lid = plan.panel("Lid", PLY, left=0, right="24", front=0, back="12", bottom="18")
    plan.screw(lid, through=side, screws="#8 x 2")  # up through 18 in of plywood on edge
    (short,) = [f for f in document(plan.draft())["findings"] if f["check"] == "fastener too short"]
    assert "the other way" in short["remedy"]


def test_a_panel_that_would_turn_its_grain_is_not_worked_out_again_as_if_it_did_not():
    def box(width, depth):
        plan = Plan("Box")
        width, depth, gap = plan.given(width=width, depth=depth, gap="3/4")
        floor = plan.panel("Floor", PLY, left=0, right=width, front=0, back=depth, bottom=0)
        side = plan.panel("Side", PLY, left=0, front=0, back=depth, bottom=gap, top="25")
        plan.screw(side, through=floor, screws="#8 x 2", each=2)
        return plan.draft()

    draft = box("30", "20")
    same = work_out_again(draft, {"width": L("36 in")})
    assert same.holds
    assert [one.length for one in same.lengths] == [one.length for one in computed(box("36", "20"))]
    deeper = work_out_again(
        draft, {"depth": L("31 in")}
    )  # now deeper than wide: the grain runs front to back
    assert not deeper.holds
    assert [one.length for one in deeper.lengths] != [one.length for one in computed(box("30", "31"))]
    apart = work_out_again(draft, {"gap": L("1 in")})  # the side no longer stands on the floor
    assert not apart.holds


def test_a_leg_with_two_tapers_alike_is_not_told_of_one():
    plan = Plan("Table")
    post = stock.lumber("4x4", species="loblolly pine")
    leg = plan.board("Leg", post, runs="up", left=0, front=0, bottom=0, length="18")
    leg.taper(left="1", front="1", run="12")
    plan.step("Taper", works_on=leg, does="taper")
    (said,) = [line for line in document(plan.draft())["steps"][0]["does"] if "taper" in line]
    assert said.startswith("Leg: two tapers each take 1\u00a0in")


def test_a_frame_mitered_at_both_ends_is_told_of_both():
    plan = Plan("Frame")
    strip = stock.lumber("1x2", species="loblolly pine")
    trim = plan.board("Trim", strip, runs="left-right", wide="up", left=0, right="20", front=0, bottom=0)
    trim.mitre("left", short="back").mitre("right", short="back")
    plan.step("Miter", works_on=trim, does="miter")
    (said,) = [line for line in document(plan.draft())["steps"][0]["does"] if "miter" in line]
    assert said.replace("\u00a0", " ") == (
        "Trim: miter the left and right ends, the piece on its wide face and the blade tilted 45.0° off square: "
        "3/4 in (19 mm) shorter along its back face at each end, 20 in (508 mm) to the long points, "
        "18 1/2 in (470 mm) to the short points."
    )
