"""A shop file after a plan was built: the author's lines stay as they are, and the offcuts follow."""

import tomllib
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from plankit.errors import PlanError
from plankit.shop import Built
from plankit.shop.reading import shop_of
from plankit.shop.writing import with_built
from plankit.stock import Offcut
from plankit.units import L

DEMO = Path(__file__).parents[2] / "notebooks" / "shop.toml"
MARK = Fraction(1, 32)
SHED = """# Anna's shed
name = "Shed"   # the old one

[[offcut]]
stock = "2x4 x"
length = "24"
label = "R1"   # short
# beside the door

[[offcut]]  # the wide one
stock = "3/4 in plywood"
width = "18"
length = "30"
note = '''
[[offcut]]
label = "R9"
'''
label = "R2"

# the end of the rack

[[tool]]
name = "Drill"
"""
R3 = Offcut("3/4 in plywood", L("12 5/64 in"), L("6 in"), "R3", 'left of Stool 1.0, "cut 1"')


def built(used: tuple[str, ...] = (), kept: tuple[str, ...] = (), plan: str = "stool", version: str = "1.0") -> Built:
    return Built(plan, version, used, kept)


def written(text: str, used: tuple[str, ...] = (), *kept: Offcut) -> str:
    return with_built(text, "shed.toml", built(used, tuple(one.label for one in kept)), kept, MARK)


def test_a_used_offcut_goes_with_its_lines_and_no_other_line_changes():
    left = SHED.replace('[[offcut]]\nstock = "2x4 x"\nlength = "24"\nlabel = "R1"   # short\n', "")
    note = '\n[[built]]\nplan = "stool"\nversion = "1.0"\nused = ["R1"]\nkept = []\n'
    assert written(SHED, ("R1",)) == left + note


def test_brackets_and_labels_inside_a_text_are_no_offcut():
    now = shop_of(written(SHED, ("R2",)), "shed.toml")
    assert [one.label for one in now.offcuts] == ["R1"]
    with pytest.raises(PlanError, match="no longer the one"):
        written(SHED, ("R9",))


def test_new_offcuts_stand_behind_the_last_one_with_sizes_rounded_down_to_the_mark():
    now = written(SHED, (), R3)
    # 12 5/64 in is 12 2.5/32: rounded down to 12 2/32
    said = """
[[offcut]]
stock = "3/4 in plywood"
length = "12 1/16"
width = "6"
label = "R3"
note = "left of Stool 1.0, \\"cut 1\\""
"""
    assert f'label = "R2"\n{said}\n# the end of the rack\n' in now
    assert now.replace(said, "").startswith(SHED)
    assert shop_of(now, "s").offcuts[-1] == Offcut(R3.stock, L("12 1/16 in"), R3.width, "R3", R3.note)


def test_the_last_offcut_may_go_and_another_take_its_place():
    now = written(SHED, ("R1", "R2"), R3)
    assert [one.label for one in shop_of(now, "s").offcuts] == ["R3"]
    assert "# beside the door" in now
    assert "# the end of the rack" in now


def test_a_file_without_offcuts_or_a_last_newline_gets_them_at_its_end():
    assert written('name = "Shed"', (), R3).startswith('name = "Shed"\n\n[[offcut]]\nstock = "3/4 in plywood"\n')


def test_line_ends_stay_those_of_the_file():
    now = written(SHED.replace("\n", "\r\n"), ("R1",), R3)
    assert now.count("\n") == now.count("\r\n")
    assert [one.label for one in shop_of(now, "s").offcuts] == ["R2", "R3"]


def test_a_metric_file_gets_metric_sizes():
    now = with_built('name = "Shed"\nunit = "mm"\n', "s", built((), ("R3",)), [R3], Fraction(1))
    assert 'length = "306"\nwidth = "152"\n' in now  # 306.78 and 152.4 mm


def test_one_version_is_built_once_and_another_again():
    once = written(SHED, ("R1",), R3)
    with pytest.raises(PlanError, match="already") as refused:
        written(once)
    assert refused.value.given == "stool 1.0"
    again = with_built(once, "s", built(("R3",), (), version="1.1"), (), MARK)
    assert [one.version for one in shop_of(again, "s").built] == ["1.0", "1.1"]


def test_an_offcut_that_is_gone_or_a_mark_that_is_taken_stops_it():
    with pytest.raises(PlanError, match="no longer the one"):
        written(SHED, ("R7",))
    with pytest.raises(PlanError, match="no longer the one"):
        written(SHED, (), Offcut("2x4 x", L("20 in"), None, "R1"))


def test_offcuts_in_one_line_are_left_alone_and_the_author_is_told_how_to_write_them():
    line = 'name = "Shed"\noffcut = [{stock = "2x4 x", length = "24", label = "R1"}]\n'
    for used, kept in ((("R1",), ()), ((), (R3,))):
        with pytest.raises(PlanError, match="line by line") as refused:
            written(line, used, *kept)
        assert "[[offcut]]" in refused.value.remedy


NOTES = some.text(some.characters(codec="utf-8", exclude_categories=("Cs",)), max_size=20).map("x{}x".format)


@given(some.sets(some.integers(1, 6)), some.integers(0, 3), some.sampled_from(["\n", "\r\n"]), NOTES)
def test_whatever_was_used_the_rest_of_the_demo_file_says_the_same(used, many, end, note):
    one = '\n# no. {0}\n[[offcut]]\nstock = "2x4 x"\nlabel = "R{0}"\nlength = "1{0}"\n'
    rack = "".join(one.format(n) for n in (4, 5, 6))
    text = (DEMO.read_text(encoding="utf-8") + rack).replace("\n", end)
    labels = tuple(f"R{n}" for n in sorted(used))
    kept = [Offcut("1x2 loblolly pine", L(f"2{n} in"), None, f"R1{n}", note) for n in range(many)]
    now = written(text, labels, *kept)
    old, new = tomllib.loads(text), tomllib.loads(now)
    assert [one["label"] for one in new.get("offcut", [])] == [
        *(f"R{n}" for n in range(1, 7) if n not in used), *(one.label for one in kept)
    ]  # fmt: skip
    assert {key: old[key] for key in old if key != "offcut"} == {
        key: new[key] for key in new if key not in {"offcut", "built"}
    }
    kept_lines = iter(now.splitlines(keepends=True))
    assert all(line in kept_lines for line in text.splitlines(keepends=True) if line.startswith("#"))
