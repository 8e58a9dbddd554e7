"""The bench as a maker would check it: sums by hand, and every number moving when a size changes."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.errors import PlanError
from plankit.plan import computed, work_out_again
from plankit.units import L
from tests.plan.demo import bench


@pytest.fixture(scope="module")
def plan():
    return bench()


def part(plan, part_id):
    return plan.part(part_id)


def test_the_heights_add_up_to_the_outside_height(plan):
    foot, floor, side, top = (part(plan, name) for name in ("foot", "bottom", "side", "top"))
    # 4 + 23/32 + 12 13/32 + 1 3/8 = 18 1/2
    assert foot.length + floor.thickness + side.length + top.thickness == L("18 1/2 in")
    assert top.thickness == L("1 3/8 in")  # 1 1/2 in of dressed 2x10 less 1/8 for flattening
    assert side.length == L("12 13/32 in")  # 18 1/2 - 1 3/8 - 4 - 23/32


def test_the_widths_add_up_to_the_outside_width(plan):
    sides, walls = ("side", "side-2"), ("divider", "divider-2")
    clear = part(plan, "divider").box.left - part(plan, "side").box.right
    thick = sum((part(plan, name).thickness for name in (*sides, *walls)), L(0, "in"))
    # 1/2 + 4 × 23/32 + 3 × 13 17/24 + 1/2 = 45
    assert clear == L(Fraction(329, 24), "in")
    assert thick + clear * 3 + "1" == L("45 in")


def test_every_piece_is_there(plan):
    names = [handle.name for handle in plan.parts]
    assert {name: names.count(name) for name in names} == {
        "Foot": 4, "Bottom": 1, "Top": 1, "Side": 2, "Divider": 2, "Back": 1, "Cleat": 4,
    }  # fmt: skip


def test_both_boards_of_the_top_come_out_of_a_2x10(plan):
    top = part(plan, "top").glue_up
    assert top.boards == 2
    assert top.rip == L("8 1/8 in")  # (16 + 2 × 1/8) ÷ 2, and a 2x10 is 9 1/4 wide
    assert top.length == L("46 in")  # 45 + 2 × 1/2


def test_screws_are_counted_from_the_joints(plan):
    from plankit.build import hardware

    counts = {spec.name: count for spec, count in hardware(plan.build())}
    assert counts["#8 × 2 1/2 in wood screw"] == 8  # 2 for each of 4 feet
    assert counts["#8 × 1 1/4 in pocket screw"] == 12  # 3 for each of 2 sides and 2 dividers
    assert counts["#8 × 1 3/4 in pan-head screw"] == 12  # 3 for each of 4 cleats, up into the top
    assert counts["#8 × 2 in wood screw"] == 8  # 2 for each of 4 cleats, sideways


def test_two_feet_are_of_each_hand(plan):
    from plankit.build import alike

    feet = alike(plan.build())[0]
    assert (feet.first.name, len(feet.parts), len(feet.other)) == ("Foot", 2, 2)


@settings(max_examples=12, deadline=None)
@given(
    width=st.integers(min_value=16 * 40, max_value=16 * 52),
    depth=st.integers(min_value=16 * 15, max_value=16 * 17),
    height=st.integers(min_value=16 * 18, max_value=16 * 22),
    plywood=st.integers(min_value=44, max_value=48),
)
def test_working_lengths_out_again_is_the_same_as_making_the_plan_again(width, depth, height, plywood):
    changed = {
        "width": L(Fraction(width, 16), "in"),
        "depth": L(Fraction(depth, 16), "in"),
        "height": L(Fraction(height, 16), "in"),
        "plywood_thickness": L(Fraction(plywood, 64), "in"),
    }
    reworked = work_out_again(bench().draft(), changed)
    if not reworked.holds:
        return  # other fasteners would be chosen, and it says so: see the next test
    again = bench(
        **{("plywood" if name == "plywood_thickness" else name): value for name, value in changed.items()}
    )
    rerun = computed(again.draft())
    assert [(c.what, c.length) for c in reworked.lengths] == [(c.what, c.length) for c in rerun]


def test_small_changes_keep_the_same_parts_and_say_so(plan):
    assert work_out_again(plan.draft(), {"width": L("44 in")}).holds
    assert work_out_again(plan.draft(), {"plywood_thickness": L("3/4 in")}).holds


def test_a_change_that_asks_for_other_parts_says_why(plan):
    # cubbies narrower than the 8 in asked of plan.spread
    reworked = work_out_again(plan.draft(), {"width": L("24 in")})
    assert not reworked.holds
    assert any("only with the plan's own values" in line for line in reworked.broken)


@pytest.mark.parametrize(
    ("parameter", "value"), [("width", "51"), ("depth", "15"), ("height", "20"), ("plywood", "3/4")]
)
def test_changing_a_size_moves_every_length_that_depends_on_it(plan, parameter, value):
    name = "plywood_thickness" if parameter == "plywood" else parameter
    before, after = computed(plan.draft()), computed(bench(**{parameter: value}).draft())
    by_name = {one.what: one.length for one in after}
    moved = [one.what for one in before if by_name.get(one.what) != one.length]
    depends = [one.what for one in before if name in one.length.names]
    assert moved
    # whatever moved knows that it depends on the size, and whatever does not depend on it stayed
    assert set(moved) <= set(depends)


def test_a_boot_too_wide_for_a_cubby_is_refused_by_the_room_asked_for():
    with pytest.raises(PlanError, match="spaces between them would be"):
        bench(width="30", cubbies=4)


def test_what_a_length_is_made_of_can_be_read(plan):
    words = plan.notation.why(part(plan, "side").length)
    assert words.startswith("height − ")
    assert "plywood thickness" in words
    assert words.endswith("12 13/32 in")
