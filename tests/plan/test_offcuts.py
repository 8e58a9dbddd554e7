"""Stock as a small shop has it: offcuts with knots, boards for a small car, marks on what is left, other sizes."""

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as some

import plankit
from plankit import stock
from plankit.cutting import Job, Layout, Piece, Placed, Result, StockKind
from plankit.cutting import cut as solve
from plankit.errors import PlanError
from plankit.plan import Plan
from plankit.plan.cut_list import CutPlan, cut_plan
from plankit.plan.cut_picture import cutting_picture
from plankit.plan.document import document
from plankit.plan.facts import Draft
from plankit.plan.from_rack import rack_findings, small_ones_first
from plankit.plan.handed_over import parted
from plankit.plan.lists import shopping_list
from plankit.plan.other_sizes import other_sizes
from plankit.plan.rack import name_of
from plankit.plan.work import labels
from plankit.shop.reading import shop_of
from plankit.units import L

SCHEMA = json.loads((Path(plankit.__file__).parent / "plan" / "schema.json").read_text(encoding="utf-8"))

PINE = stock.lumber("2x4", species="loblolly pine")
PLY = stock.sheet("plywood", "3/4", measured="3/4")
HEAD = 'name = "Shed"\n[kerf]\nsheets = "1/8"\nboards = "1/8"\n[trim]\nboard_ends = "1/2"\nsheet_edges = "1/4"\n'


def board(length: str, price: str, name: str = "2x4 loblolly pine") -> str:
    return f'[[board]]\nstock = "{name}"\nlength = "{length}"\nprice = "{price}"\n'


def sheet(length: str, width: str, price: str) -> str:
    return f'[[sheet]]\nstock = "3/4 in plywood"\nlength = "{length}"\nwidth = "{width}"\nprice = "{price}"\n'


def offcut(length: str, label: str, more: str = "", name: str = "2x4 loblolly pine") -> str:
    return f'[[offcut]]\nstock = "{name}"\nlength = "{length}"\nlabel = "{label}"\n{more}'


def rails(*lengths: str, shop: str, top: str = "") -> Draft:
    """A plan of nothing but rails of these lengths, in inches."""
    plan = Plan("Rails", shop=shop_of(top + HEAD + shop, "shop.toml"))
    for n, length in enumerate(lengths):
        plan.board(f"Rail {n + 1}", PINE, runs="left-right", wide="up", left=0, right=length, front=4 * n, bottom=0)
    return plan.draft()


def panels(*sizes: tuple[str, str], shop: str) -> Draft:
    """A plan of nothing but panels of these lengths and widths, in inches."""
    plan = Plan("Panels", shop=shop_of(HEAD + shop, "shop.toml"))
    for n, (length, width) in enumerate(sizes):
        plan.panel(f"Panel {n + 1}", PLY, left=0, right=length, front=0, back=width, bottom=n)
    return plan.draft()


def cut(draft: Draft) -> CutPlan:
    return cut_plan(draft, labels(draft)[1])


def tied(text: str) -> str:
    return text.replace("\u00a0", " ")


def stocks(draft: Draft) -> list[str]:
    return [tied(layout.stock.partition(", ")[2]) for layout in cut(draft).layouts for _ in range(layout.copies)]


# Offcuts with defects


KNOT = 'defects = ["20 to 24"]\n'


def test_each_clear_length_of_an_offcut_is_stock_of_its_own():
    # 20 in less half an inch at each end holds 19 in; the rest, 24 to 48, holds 23 in
    draft = rails("19", "23", shop=board("8 ft", "9.00") + offcut("48", "R5", KNOT))
    assert sorted(stocks(draft)) == ["offcut R5, from 24 in to its right end", "offcut R5, from its left end to 20 in"]
    assert tied(cut(draft).stock_words) == "1 board offcut"
    assert cut(draft).used == ("R5",)


def test_nothing_is_cut_across_a_knot():
    # 30 in would fit the 48 in, were it not for the knot
    assert stocks(rails("30", shop=board("8 ft", "9.00") + offcut("48", "R5", KNOT))) == ["8 ft"]
    assert stocks(rails("30", shop=board("8 ft", "9.00") + offcut("48", "R5"))) == ["offcut R5"]


def test_the_page_says_where_to_part_the_offcut_first():
    draft = rails("19", shop=board("8 ft", "9.00") + offcut("48", "R5", KNOT))
    (layout,) = cut(draft).layouts
    assert tied(layout.note).startswith("First crosscut R5 at 20 in (508 mm) from its left end, with the kerf in what")
    assert "offcut R5 from its left end to 20 in on hand" in tied(cut(draft).summary)


def test_the_clear_length_that_is_not_used_goes_back_to_the_rack_if_it_is_long_enough():
    draft = rails("19", shop=board("8 ft", "9.00") + offcut("48", "R5", KNOT))
    assert [(one.label, one.length.inches, one.left_of) for one in cut(draft).kept] == [("R6", 24, "offcut R5")]
    short = rails("19", shop=board("8 ft", "9.00") + offcut("35", "R5", KNOT))  # 35 − 24 = 11 in, under a foot
    assert cut(short).kept == ()


def test_a_part_too_long_for_every_clear_length_fits_no_stock():
    draft = rails("90", shop=board("4 ft", "5.00") + offcut("95", "R5", 'defects = ["40 to 44"]\n'))
    with pytest.raises(PlanError, match="fits no stock"):
        cut(draft)


NOTED = 'note = "nails drawn"\n'


def test_what_is_left_of_an_offcut_keeps_its_author_s_note():
    two = board("8 ft", "9.00") + offcut("60", "R5", NOTED + 'defects = ["20 to 24"]\n')
    draft = rails("19", shop=two)
    # 60 − 24 = 36 in are not cut at all
    assert [(one.label, one.length.inches, one.note) for one in cut(draft).kept] == [("R6", 36, "nails drawn")]
    draft = rails("30", shop=two.replace("20 to 24", "58 to 59"))
    # 58 − 1/2 − 30 − 1/8 − 1/2 = 26 7/8 in
    assert [(float(one.length.inches), one.note) for one in cut(draft).kept] == [(26.875, "nails drawn")]
    assert tied(cut(draft).layouts[0].note).startswith("R5: nails drawn. First crosscut R5 at 58 in")
    jsonschema.validate(document(draft)["rack"]["kept"], SCHEMA["properties"]["rack"]["properties"]["kept"])


def test_of_new_boards_nothing_is_noted_and_what_an_offcut_was_left_of_is_not_told_twice():
    noted = NOTED.replace("nails", "left of Rails 1.0, offcut R1; nails")
    draft = rails("30", "90", shop=board("12 ft", "9.00") + offcut("60", "R5", noted))
    assert {one.left_of: one.note for one in cut(draft).kept} == {
        "cutting drawing 1": "nails drawn", "cutting drawing 2": "",
    }  # fmt: skip


@pytest.mark.parametrize("rack", [("60", "14"), ("14", "60"), ("30", "60", "14", "22")])
def test_of_offcuts_that_would_do_the_smallest_is_cut(rack: tuple[str, ...]):
    # 14 in less half an inch at each end still holds 12
    lying = "".join(offcut(length, f"R{length}") for length in rack)
    assert cut(rails("12", shop=board("8 ft", "9.00") + lying)).used == ("R14",)
    assert cut(rails("25", shop=board("8 ft", "9.00") + lying)).used == ("R30",) if "30" in rack else ("R60",)


def test_of_sheet_offcuts_the_smallest_is_cut_too():
    def of(length: str, width: str) -> str:
        return offcut(length, f"R{length}", f'width = "{width}"\n', "3/4 in plywood")

    for lying in (of("40", "30") + of("14", "12"), of("14", "12") + of("40", "30")):
        assert cut(panels(("12", "10"), shop=sheet("8 ft", "4 ft", "60.00") + lying)).used == ("R14",)


# Boards that go into the car

SOLD = board("8 ft", "10.00") + board("12 ft", "12.00")
CAR = 'longest_carried = "8 ft"\n'


def test_the_longer_board_is_cheaper_but_does_not_go_into_the_car():
    # 2 × 60 in: one 12 ft board for $12.00, or two of 8 ft for $20.00
    assert stocks(rails("60", "60", shop=SOLD)) == ["12 ft"]
    draft = rails("60", "60", shop=SOLD, top=CAR)
    assert stocks(draft) == ["8 ft", "8 ft"]
    assert tied(cut(draft).summary).endswith("No cheaper choice of boards up to 8 ft exists (proven).")


def test_one_that_must_be_longer_is_bought_and_cut_at_the_store():
    # 100 in needs the 12 ft board, and there is room for 40 in beside it: 1/2 + 100 + 1/8 + 40 = 140 5/8 of 144
    draft = rails("100", "40", "90", shop=SOLD, top=CAR)
    assert sorted(stocks(draft)) == ["12 ft", "8 ft"]
    (finding,) = [one for one in cut(draft).findings if one.check == "too long to carry"]
    assert finding.level == "look at"
    assert "have the board brought" in finding.remedy  # 100 in is longer than the car itself


def test_where_the_list_has_only_long_boards_the_note_says_where_the_store_cuts_them():
    draft = rails("60", "60", shop=board("12 ft", "12.00"), top=CAR)
    one, two = cut(draft).layouts
    # 60 in and half an inch at both ends: the saw runs at 61; the rest, 144 − 61 − 1/8, is 82 7/8 and goes into the car
    assert "have it cut at the store, 61 in (1549 mm) from its left end. This is piece 1," in tied(one.note)
    assert "This is piece 2," in two.note
    assert [float(Fraction(each.layout.kind.length) / Fraction(254, 10)) for each in (one, two)] == [61, 82.875]
    (finding,) = [each for each in cut(draft).findings if each.check == "too long to carry"]
    assert "where its cutting drawing says" in finding.remedy
    # what is bought is still one board
    assert tied(cut(draft).stock_words) == "1 board"


def test_the_order_of_cuts_begins_with_the_pieces_that_the_store_hands_over():
    draft = rails(*["40"] * 6, shop=board("12 ft", "12.00"), top='longest_carried = "6 ft"\n')
    plan = cut(draft)
    for layout in plan.layouts:
        long = layout.layout.kind.length
        assert long <= L("6 ft").mm
        assert all(made.setting < long for made in layout.layout.cuts)
        # a 2x4 of loblolly pine is about 1.3 lb to the foot: no piece of 6 ft weighs as much as 12 ft do
        whole = PINE.density.mass_of(L("12 ft").mm * PINE.width.mm * PINE.thickness.mm).kg
        assert all(made.mass is not None and made.mass <= whole / 2 for made in layout.layout.cuts)
        # a rail and what is trimmed off its piece's end beside a kerf or two: the last one has the rest
        assert [piece.length.inches for piece in layout.pieces] == [40]
    assert sum(layout.copies for layout in plan.layouts) == 6
    jsonschema.validate(document(draft), SCHEMA)


def test_a_board_twice_too_long_is_cut_twice():
    draft = rails("40", "40", "40", shop=board("12 ft", "12.00"), top='longest_carried = "50"\n')
    pieces = cut(draft).layouts
    # 41 in for each rail with its trim; 144 − 3 × 41 − 2 × 1/8 = 20 3/4 are left over: 9 in on the last, which is then
    # as long as one carries, 9 in on the one before it, and 2 3/4 on the first
    assert "cut at the store, 43 3/4 in (1111 mm) and 93 7/8 in (2384 mm) from its left end" in tied(pieces[0].note)
    assert [float(one.layout.kind.length / Fraction(254, 10)) for one in pieces] == [43.75, 50, 50]


def test_what_is_left_of_a_long_board_comes_home_in_pieces_and_goes_to_the_rack():
    draft = rails("40", shop=board("16 ft", "12.00") + offcut("20", "R3"), top='longest_carried = "72"\n')
    # 72 in with the rail, 72 in more, and 192 − 2 × 72 − 2 × 1/8 = 47 3/4
    of_board = [one for one in cut(draft).kept if tied(one.left_of) == "a board of 2x4 loblolly pine, 16 ft"]
    assert [float(one.length.inches) for one in of_board] == [72, 47.75]


def test_where_there_is_no_room_for_trimming_every_end_less_is_trimmed():
    whole = StockKind("board", Fraction(100), trim_ends=Fraction(1))
    placed = tuple(Placed("A", at, Fraction(0), Fraction(48), None) for at in (Fraction(1), Fraction(50)))
    # 2 × 48 and a kerf of 1 leave 3 for four ends: half of 1 each, and the last piece has one more
    found = parted(Layout(whole, 1, placed, (), (), 1), Fraction(60), Fraction(1))
    assert found is not None
    assert (found.trim, found.lengths) == (Fraction(1, 2), (49, 50))


@given(
    some.lists(some.integers(1, 60), min_size=1, max_size=8), some.integers(24, 120), some.integers(0, 150)
)
def test_what_is_cut_at_the_store_can_be_carried_and_holds_every_part(lengths, longest, rest):
    kerf, begins, placed = Fraction(1, 8), Fraction(1, 2), []
    for length in lengths:
        placed.append(Placed("A", begins, Fraction(0), Fraction(length), None))
        begins += length + kerf
    whole = StockKind("board", begins - kerf + Fraction(1, 2) + rest, trim_ends=Fraction(1, 2))
    found = parted(Layout(whole, 1, tuple(placed), (), (), 1), Fraction(longest), kerf)
    if found is None:
        assert max(lengths) > longest
        return
    assert max(found.lengths) <= longest
    # nothing is lost but kerfs, the last of which may run off the end
    assert 0 <= sum(found.lengths) + kerf * (len(found.lengths) - 1) - whole.length < kerf
    assert [part for parts in found.parts for part in parts] == placed
    for long, parts in zip(found.lengths, found.parts, strict=True):
        taken = sum(one.length for one in parts) + kerf * (len(parts) - 1)
        assert not parts or taken + 2 * found.trim <= long


def test_an_offcut_on_hand_may_be_longer_than_the_car():
    assert stocks(rails("100", shop=SOLD + offcut("11 ft", "R1"), top=CAR)) == ["offcut R1"]


# Marks


@pytest.mark.parametrize(
    ("rack", "first"),
    [
        (("R1", "R3"), "R4"), (("A07", "A08"), "A09"), (("3", "12"), "13"), (("long one",), "R1"),
        (("P2", "R1", "R9"), "R10"),
    ],
)
def test_marks_go_on_from_those_on_the_rack(rack, first):
    shop = board("8 ft", "9.00") + "".join(offcut("5", label) for label in rack)
    draft = rails("60", shop=shop)
    assert [one.label for one in cut(draft).kept] == [first]


def test_a_mark_is_not_given_twice_though_its_offcut_is_gone():
    gone = '[[built]]\nplan = "stool"\nversion = "1"\nused = ["R8"]\nkept = ["R9"]\n'
    draft = rails("60", shop=board("8 ft", "9.00") + offcut("5", "R1") + gone)
    assert [one.label for one in cut(draft).kept] == ["R10"]


def test_the_drawing_the_cuts_and_the_lists_call_an_offcut_by_its_mark():
    draft = rails("60", "60", shop=board("8 ft", "9.00") + offcut("5", "R1"))
    (layout,) = cut(draft).layouts
    assert layout.copies == 2
    # two boards cut alike leave 96 − 1/2 − 60 − 1/8 − 1/2 = 34 7/8 in each
    assert layout.offcut_names == ("R2–R3",)
    assert [one.name for one in cutting_picture(layout, draft.notation).offcuts] == ["R2–R3"]
    assert "offcut R2–R3" in layout.cuts[-1].text
    assert [(one.label, float(one.length.inches)) for one in cut(draft).kept] == [("R2", 34.875), ("R3", 34.875)]


def test_without_a_rack_offcuts_are_numbered_by_drawing():
    draft = rails("60", shop=board("8 ft", "9.00"))
    (layout,) = cut(draft).layouts
    assert layout.offcut_names == ("Offcut 1",)
    assert cut(draft).kept == ()


def test_marks_that_are_numbers_are_called_offcuts():
    assert name_of(["7"]) == "Offcut 7"
    assert name_of(["R4", "R5", "R6"]) == "R4–R6"


def test_a_strip_left_of_a_glue_up_is_used_for_the_next_one():
    # a slab of two boards 3 in wide; a strip 3 1/4 in wide on the rack holds one of them
    strip = offcut("40", "R1", 'width = "3 1/4"\n')
    plan = Plan("Slab", shop=shop_of(HEAD + board("8 ft", "9.00") + strip, "shop.toml"))
    plan.glue_up("Slab", PINE, boards=2, left=0, right="30", front=0, back="5", bottom=0)
    assert any("offcut R1" in layout.stock for layout in cut(plan.draft()).layouts)


# Other sizes

SHEETS = sheet("96", "48", "62.00") + sheet("48", "48", "36.50")


def rows(draft: Draft) -> list[dict[str, Any]]:
    return [{key: tied(value) for key, value in row.items()} for row in other_sizes(draft, cut(draft))]


def test_the_list_says_what_changes_where_the_store_has_only_the_other_sheet():
    draft = panels(("40", "40"), shop=SHEETS)
    (row,) = rows(draft)
    # 96 × 48 × 3/4 in are 2 cu ft of plywood
    weight = tied(draft.notation.mass(PLY.density.mass_of(2 * 12**3 * (254 * 254 * 254) // 1000)))
    assert row["text"] == f"If the store has only 4 × 8 ft: 1 sheet, $62.00, {weight}."
    assert (row["item"], row["only"], row["buy"], row["cost"]) == ("3/4 in plywood", "4 × 8 ft", "1 sheet", "$62.00")


def test_a_size_that_is_too_small_names_the_part():
    draft = panels(("90", "40"), shop=SHEETS)
    assert [row["text"] for row in rows(draft)] == ["If the store has only 4 × 4 ft: too small for Panel 1 (A)."]


def test_what_is_sold_in_one_size_has_no_other():
    assert rows(panels(("40", "40"), shop=sheet("48", "48", "36.50"))) == []


def test_two_sizes_together_are_told_each_alone():
    # 80 in and 40 in: 8 ft and 4 ft, $13.00, rather than two of 8 ft for $20.00; the 80 in fits no 4 ft board
    draft = rails("80", "40", shop=board("8 ft", "10.00") + board("4 ft", "3.00"))
    assert sorted(stocks(draft)) == ["4 ft", "8 ft"]
    texts = [row["text"] for row in rows(draft)]
    assert texts[0].startswith("If the store has only 8 ft: 2 boards, $20.00, ")
    assert texts[1] == "If the store has only 4 ft: too small for Rail 1 (A)."


def test_a_longer_board_that_does_not_go_into_the_car_says_so():
    draft = rails("60", shop=SOLD, top=CAR)
    assert rows(draft)[0]["buy"] == "1 board, longer than can be carried"


def test_without_a_price_list_the_next_sizes_are_told():
    draft = rails("80", shop="")  # 2x4s come in 8, 10, 12, 14, 16 … ft
    assert [(row["only"], row["cost"]) for row in rows(draft)] == [("10 ft", "—")]


def test_what_is_bought_is_weighed():
    listed, _, _ = shopping_list(rails("60", "60", shop=SOLD, top=CAR), cut(rails("60", "60", shop=SOLD, top=CAR)))
    both = PINE.density.mass_of(2 * PINE.width.mm * PINE.thickness.mm * 96 * 254 / 10)
    assert tied(listed[0]["note"]) == f"weighs {tied(rails('60', shop=SOLD).notation.mass(both))}"


# Small parts come from offcuts first


BOARD = StockKind("8 ft", L("96 in").mm, price=Fraction(9))
RACK = StockKind("offcut R1", L("12 in").mm, available=1, price=Fraction(0))


def asked(*pieces: tuple[str, str, int]) -> tuple[Job, Result]:
    """A job with an offcut of 12 in, and its answer from new boards alone."""
    wanted = tuple(Piece(name, L(length).mm, quantity=many) for name, length, many in pieces)
    job = Job((RACK, BOARD), wanted, L("1/8 in").mm)
    return job, solve(replace(job, stock=(BOARD,)))


def used(result: Result) -> list[str]:
    return sorted(name for name, _ in result.totals)


def test_a_small_part_comes_from_the_rack_though_there_is_room_on_new_stock():
    job, new = asked(("rail", "80 in", 1), ("foot", "10 in", 1))
    assert used(new) == ["8 ft"]
    better = small_ones_first(job, new, solve)
    assert used(better) == ["8 ft", "offcut R1"]
    assert better.proven  # $9.00 is what one board costs, and the rail takes one
    assert rack_findings(job, better, {}, {}) == ()


def test_a_longer_part_does_not_take_an_offcut_that_it_does_not_need():
    job, new = asked(("rail", "60 in", 1), ("rung", "12 in", 1), ("rung 2", "12 1/2 in", 1))
    assert small_ones_first(replace(job, stock=(replace(RACK, length=L("13 in").mm), BOARD)), new, solve) is not new
    job, new = asked(("rail", "60 in", 1), ("rung 2", "12 1/2 in", 1))
    assert small_ones_first(replace(job, stock=(replace(RACK, length=L("13 in").mm), BOARD)), new, solve) is new


def test_of_parts_alike_that_do_not_all_fit_the_offcut_a_finding_says_so():
    job, new = asked(("rail", "70 in", 1), ("foot", "10 in", 2))  # 2 × 10 + 1/8 are more than 12
    assert small_ones_first(job, new, solve) is new
    (finding,) = rack_findings(job, new, {"foot": "Foot"}, {"offcut R1": "R1"})
    assert "offcut R1, which no other part needs, would hold one of the 2" in finding.what
    assert (finding.level, finding.part) == ("for information", "Foot")


def test_an_offcut_that_a_part_needs_is_not_reported():
    job, _ = asked(("foot", "10 in", 1))
    assert rack_findings(job, solve(job), {"foot": "Foot"}, {"offcut R1": "R1"}) == ()


def test_a_plan_takes_its_small_parts_from_the_rack():
    draft = rails("80", "10", shop=board("8 ft", "9.00") + offcut("12", "R1"))
    assert sorted(stocks(draft)) == ["8 ft", "offcut R1"]
    assert not [one for one in cut(draft).findings if one.check == "offcut not used"]


# The document


def test_the_document_tells_rack_and_other_sizes():
    plan = Plan("Rails", shop=shop_of(HEAD + SOLD + offcut("48", "R5", KNOT), "shop.toml"))
    plan.about(summary="Rails.", author="R. T.", version="1.0", published="2026-11-20")
    rail = plan.board("Rail", PINE, runs="left-right", wide="up", left=0, right="19", front=0, bottom=0)
    plan.step("Cut it", works_on=[rail], does="crosscut", minutes=5)
    made = document(plan.draft())
    jsonschema.validate(made, SCHEMA)
    (kept,) = made["rack"]["kept"]
    assert (made["rack"]["file"], made["rack"]["used"]) == ("", ["R5"])
    assert tied(kept.pop("size")) == "24 in (610 mm)"
    assert kept == {"label": "R6", "stock": "2x4 loblolly pine", "left_of": "offcut R5", "mm": ["3048/5"]}
    assert made["shopping_otherwise"] == []
