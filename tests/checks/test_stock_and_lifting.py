"""Parts that no stock holds, what is too heavy for one, sheets that measure wrong, uneven rounding."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit.build import Build
from plankit.checks import CHECKS, check, lifting, measured_stock, rounding, stock_fit, stock_lifting
from plankit.checks.rounding import rows
from plankit.finding import LEVELS
from plankit.parts import GlueUp, Part, weight
from plankit.shop import PriceList, Shop, StockPrice, usual
from plankit.stock import Offcut, lumber, sheet
from plankit.units import L, Length, Mass, Money, Notation
from tests.checks.small_builds import (
    BATTEN,
    INCHES,
    PLY,
    SLAB,
    boots,
    carried,
    footed,
    instead,
    sided,
    with_part,
)
from tests.parts.one_of_each import ONE_OF_EACH, box, size


def shop(
    limit: int = 40, prices: tuple[StockPrice, ...] = (), offcuts: tuple[Offcut, ...] = (), trim: str = "0"
) -> Shop:
    """An invented shop."""
    cut = L(trim, "in")
    none = L("1/8 in")
    return Shop(
        "Tern Lane Tool Library", "in", (), Mass.of_pounds(limit), 0, none, none, cut, cut,  # type: ignore[arg-type]
        PriceList(stocks=prices), offcuts,
    )  # fmt: skip


def panel(long: str, wide: str, *, grain_matters: bool = True) -> Build:
    part = Part("side", "Side", "panel", PLY, size(long, wide, "3/4"), "x", "z", grain_matters=grain_matters)
    return Build("b", (part,))


@pytest.mark.parametrize(
    ("long", "wide", "said"),
    [("96", "48", ()), ("96 1/4", "48", ("long", "1/4")), ("40", "50", ("wide", "2"))],
)
def test_a_panel_comes_out_of_a_4_by_8_sheet(long: str, wide: str, said: tuple[str, ...]) -> None:
    found = stock_fit(panel(long, wide), None, INCHES)
    if not said:
        assert found == ()
        return
    (one,) = found
    assert one.level == "must fix"
    assert f"too {said[0]} for 3/4 in plywood" in one.what
    assert one.number == f"by {said[1]}\u00a0in"


def test_grain_decides_whether_a_panel_may_lie_across() -> None:
    # 40 along the grain, 60 across: fits a 96 × 48 sheet only when turned
    assert len(stock_fit(panel("40", "60"), None, INCHES)) == 1
    assert stock_fit(panel("40", "60", grain_matters=False), None, INCHES) == ()


def test_trim_is_lost_at_both_edges() -> None:
    assert stock_fit(panel("95 1/2", "47 1/2"), shop(trim="1/4"), INCHES) == ()
    found = stock_fit(panel("96", "48"), shop(trim="1/4"), INCHES)
    assert [f.number for f in found] == ["by 1/2\u00a0in"] * 2


def test_the_shop_s_own_sizes_count() -> None:
    small = (StockPrice("3/4 in plywood", L("48 in"), L("24 in"), Money.read("31")),)
    (found,) = stock_fit(panel("60", "20"), shop(prices=small), INCHES)
    assert found.number == "by 12\u00a0in"
    assert "Tern Lane Tool Library" in found.source
    rack = (Offcut("3/4 in plywood", L("61 in"), L("21 in"), "P7"),)
    assert stock_fit(panel("60", "20"), shop(prices=small, offcuts=rack), INCHES) == ()
    knotty = (replace(rack[0], defects=((L("30 in"), L("32 in")),)),)  # 30 and 29 in are clear: no more than the sheet
    (too_long,) = stock_fit(panel("60", "20"), shop(prices=small, offcuts=knotty), INCHES)
    assert too_long.number == found.number


def board(long: str, wide: str = "1 1/2", thick: str = "3/4") -> Build:
    return Build("b", (Part("rail", "Rail", "board", BATTEN, size(long, wide, thick), "x", "z"),))


@pytest.mark.parametrize(
    ("build", "words"),
    [
        (board("144"), None),  # boards are sold up to 12 ft (common practice)
        (board("145"), ("long", "by 1\u00a0in")),
        (board("40", "1 3/4"), ("wide", "by 1/4\u00a0in")),
        (board("40", "1 1/2", "7/8"), ("thick", "by 1/8\u00a0in")),
        (board("40", "1 1/4"), None),  # ripped narrower
        (board("40", "3/4", "1 1/2"), None),  # lies on its edge
    ],
)
def test_a_board_comes_out_of_its_nominal_size(build: Build, words: tuple[str, str] | None) -> None:
    # 1x2: 3/4 × 1 1/2 dry and planed (PS 20)
    found = stock_fit(build, None, INCHES)
    assert len(found) == (words is not None)
    if words:
        assert f"too {words[0]}" in found[0].what
        assert found[0].number == words[1]


def test_a_panel_of_the_wrong_thickness() -> None:
    build = instead(panel("20", "10"), "side", box=size("20", "10", "1/2"))
    (found,) = stock_fit(build, None, INCHES)
    assert "not as thick" in found.what


def glued(rip: str, boards: int = 2) -> Build:
    blank = (L("47 in"), L(rip, "in") * boards, L("1 1/2 in"))
    made = GlueUp(boards, L(rip, "in"), L("47 in"), blank)
    return Build(
        "b", (Part("top", "Top", "glue-up", SLAB, size("45", "15 1/2", "1 1/2"), "x", "z", glue_up=made),)
    )


def test_a_top_is_glued_up_wide_enough_from_boards_wide_enough() -> None:
    # 2x10 is 9 1/4 in wide (PS 20); two of 8 in make 16 for a 15 1/2 in top
    assert stock_fit(glued("8"), None, INCHES) == ()
    (narrow,) = stock_fit(glued("7 1/2"), None, INCHES)
    assert "too narrow to trim" in narrow.what
    assert narrow.number == "by 1/2\u00a0in"
    (wide,) = stock_fit(glued("9 1/2"), None, INCHES)
    assert wide.number == "by 1/4\u00a0in"


def test_a_full_sheet_is_too_heavy_for_one_and_a_thin_one_is_not() -> None:
    # 3 lb per square foot and inch (trade-association rule): 3/4 in, 32 sq ft: 72 lb; 1/4 in: 24 lb
    thick, thin = sheet("plywood", "3/4"), sheet("plywood", "1/4")
    (found,) = stock_lifting(thick.name, "A sheet", thick.weight, shop(40), INCHES)
    assert (found.level, found.part, found.number) == (
        "look at",
        "3/4 in plywood",
        "72\u00a0lb (32.7\u00a0kg)",
    )
    assert "two people" in found.remedy
    assert stock_lifting(thick.name, "A sheet", thick.weight, shop(72), INCHES) == ()
    assert stock_lifting(thin.name, "A sheet", thin.weight, shop(24), INCHES) == ()


def test_the_whole_and_each_assembly_are_weighed() -> None:
    pine = Part("slab", "Slab", "board", SLAB, size("96", "9 1/4", "1 1/2"), "x", "z")
    build = carried(Build("Bench", (pine, replace(pine, id="slab-2"))), "slab", "slab-2")
    one = weight(pine)
    assert lifting(build, replace(shop(), lifting_limit=one + one), INCHES) == ()
    found = lifting(build, replace(shop(), lifting_limit=one), INCHES)
    assert [f.part for f in found] == ["Bench", "Case"]
    half = lifting(build, replace(shop(), lifting_limit=Mass(one.kg / 2)), INCHES)
    assert [f.part for f in half] == ["Bench", "Case", "Slab"]


def test_a_shop_that_lifts_by_the_equation_is_told_what_it_gives() -> None:
    # a 24 × 16 × 12 in box of panels, hands from 15 to 30 in: 51 × 10/16 × 0.8875 × (0.82 + 1.8/15) × 0.95 = 25.3 lb
    # where the lift begins, its depth 16: 8 + 8 = 16 in from the ankles
    slabs = tuple(
        Part(f"slab-{n}", "Slab", "panel", PLY, box("0", "24", "0", "16", at, str(Fraction(at) + 4)), "x", "z")
        for n, at in enumerate(("0", "4", "8"))
    )
    build = carried(Build("Box", slabs), "slab-0", "slab-1", "slab-2")
    heavy = replace(shop(10_000), lift=(L("15 in"), L("30 in")))
    limits = {f.part: (f.what, f.source) for f in lifting(build, heavy, INCHES)}
    assert lifting(build, shop(10_000), INCHES) == ()
    assert "25\u00a0lb" in limits["Box"][0]
    assert limits["Box"][1].startswith("NIOSH lifting equation (94-110)")
    # from the floor it is less; a shop's own limit counts where it is lower
    low = replace(heavy, lift=(L("0 in"), L("30 in")))
    assert "25\u00a0lb" not in next(f.what for f in lifting(build, low, INCHES) if f.part == "Box")
    own = replace(heavy, lifting_limit=Mass.of_pounds(20))
    sources = {f.source.partition(";")[0] for f in lifting(build, own, INCHES)}
    assert sources == {"the lifting limit of Tern Lane Tool Library"}


def test_what_is_too_deep_to_be_held_close_is_lifted_by_nobody_alone() -> None:
    # deeper than 2 × (25 − 8) = 34 in
    part = Part("top", "Top", "panel", PLY, size("40", "36", "3/4"), "x", "z")
    build = Build("Table", (part,))
    (found,) = lifting(build, replace(shop(10_000), lift=(L("15 in"), L("30 in"))), INCHES)
    assert "too deep for one person" in found.what


def test_a_sheet_measured_too_thin_is_looked_at() -> None:
    # PS 1: 3/4 in may measure 23/32 to 25/32
    right = sheet("plywood", "3/4", measured="23/32")
    thin = sheet("plywood", "3/4", measured="11/16")
    part = Part("side", "Side", "panel", right, size("20", "10", "3/4"), "x", "z")
    assert measured_stock(Build("b", (part,)), Notation()) == ()
    (found,) = measured_stock(
        Build("b", (replace(part, stock=thin), replace(part, id="other", stock=thin))), Notation()
    )
    assert (found.level, found.part) == ("look at", "Side")


def row(width: str, spaces: int, thick: str = "3/4") -> Build:
    """Uprights with equal spaces between.

    ```
     ║   ║   ║   ║
    ```
    """
    wide, ply = L(width, "in"), L(thick, "in")
    clear = (wide - ply * (spaces + 1)).portion(spaces)
    standing = []
    for number in range(spaces + 1):
        at = (clear + ply) * number
        standing.append(
            Part(f"wall-{number}", "Divider", "panel", PLY,
                 replace(box("0", "1", "0", "12", "0", "12"), left=at, right=at + ply), "z", "x")
        )  # fmt: skip
    return Build("b", tuple(standing))


def test_three_cubbies_in_44_inches_leave_two_a_hair_wider() -> None:
    # (44 − 4 × 3/4) ÷ 3 = 13 2/3; marks at 14 7/16 (14 5/12 rounded up) and 28 13/16 (28 5/6 rounded down):
    # 14 7/16 − 3/4 = 13 11/16, 28 13/16 − 15 3/16 = 13 5/8, 43 1/4 − 29 9/16 = 13 11/16
    (found,) = rounding(row("44", 3), INCHES)
    assert found.level == "for information"
    assert found.number == "13\u00a011/16\u00a0in, 13\u00a05/8\u00a0in, 13\u00a011/16\u00a0in"
    assert "spaces 1 and 3 come out 1/16\u00a0in wider" in found.what


def test_cubbies_that_fall_on_the_marks_say_nothing() -> None:
    assert rounding(row("45", 3), INCHES) == ()  # (45 − 3) ÷ 3 = 14 in
    assert rounding(row("44", 2), INCHES) == ()  # (44 − 2 1/4) ÷ 2 = 20 7/8 in
    assert rounding(row("44", 1), INCHES) == ()


def test_a_finer_tape_may_make_the_spaces_equal() -> None:
    # (44 − 2 1/4 − 1/16) ÷ 2: half of a 32nd
    assert rounding(row("43 15/16", 2), INCHES)
    assert rounding(row("43 15/16", 2), replace(INCHES, mark=INCHES.mark / 2)) == ()


@given(st.integers(300, 1000), st.integers(2, 7))
def test_marked_spaces_and_walls_always_add_up_to_the_outside(sixteenths: int, spaces: int) -> None:
    build = row(f"{sixteenths}/16", spaces)
    (found,) = rows(build, "x")
    walls = L("3/4 in") * (spaces + 1)
    total = sum(found.marked(INCHES.step), Length.zero()) + walls
    assert total == build.box.extent("x")
    step = INCHES.step.mm
    assert all(
        abs(one.mm - two.mm) <= step for one, two in zip(found.marked(INCHES.step), found.spaces, strict=True)
    )


def test_a_right_build_has_nothing_that_must_be_fixed() -> None:
    for build in (footed(), sided()):
        assert all(f.level != "must fix" for f in check(build, shop(), INCHES))


def test_every_check_is_run_and_the_gravest_comes_first() -> None:
    build = replace(
        with_part(row("44", 3), replace(panel("97", "20").parts[0], box=size("97", "20", "3/4"))),
        things=(boots("0", "5"),),
    )
    found = check(build, shop(10), INCHES)
    assert {"parts overlap", "does not fit", "stock too small", "too heavy for one"} <= {
        f.check for f in found
    }
    order = [LEVELS.index(f.level) for f in found]
    assert order == sorted(order)
    assert len(set(found)) == len(found)
    assert all(f.source and f.remedy for f in found)


def test_without_a_shop_nothing_is_too_heavy() -> None:
    assert "too heavy for one" not in {f.check for f in check(sided(), None, INCHES)}
    assert {one.name for one in CHECKS} >= {"fit", "fastening", "stock", "strength", "lifting"}


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_every_check_takes_every_kind_of_part(part: Part) -> None:
    found = check(Build("One", (part,)), shop(), Notation("mm"))
    assert all(f.level != "must fix" for f in found)


def test_a_hardwood_board_s_width_counts_as_it_is_written() -> None:
    cherry = lumber("4/4x6", species="black cherry")
    part = Part("rail", "Rail", "board", cherry, size("40", "6", "13/16"), "x", "z")
    assert stock_fit(Build("b", (part,)), None, INCHES) == ()
    assert stock_fit(Build("b", (replace(part, box=size("40", "6 1/4", "13/16")),)), None, INCHES)


def test_the_usual_shop_is_named_as_a_sentence_names_it() -> None:
    small = replace(usual(), lifting_limit=Mass.of_pounds(1))
    named = {found.source.partition("; the NIOSH")[0] for found in lifting(sided(), small, INCHES)}
    assert named == {"the lifting limit of a usual home shop"}
