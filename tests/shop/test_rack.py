"""The rack of a shop file: defects, the longest board one carries, and what was built from it."""

from pathlib import Path

import pytest

from plankit.errors import PlanError
from plankit.shop import Built, read, usual
from plankit.shop.reading import shop_of
from plankit.units import L

OFFCUT = 'name = "Shed"\n[[offcut]]\nstock = "2x4 x"\nlength = "48"\nlabel = "R5"\n'


def test_defects_are_read_from_the_left_end_in_the_unit_of_the_file():
    (offcut,) = shop_of(OFFCUT + 'defects = ["20 to 24", "1 m to 1010 mm"]\n', "shop.toml").offcuts
    assert offcut.defects == ((L("20 in"), L("24 in")), (L("1000 mm"), L("1010 mm")))


def test_a_file_in_millimetres_has_its_defects_in_millimetres():
    metric = OFFCUT.replace('"48"', '"1200"').replace('name = "Shed"\n', 'name = "Shed"\nunit = "mm"\n')
    (offcut,) = shop_of(metric + 'defects = ["500 to 600"]\n', "shop.toml").offcuts
    assert offcut.defects == ((L("500 mm"), L("600 mm")),)


@pytest.mark.parametrize("given", ["20", "24 to 20", "20 to 20", "40 to 50", "-1 to 4", "knot to 4", "20-24", ""])
def test_what_is_no_place_on_the_offcut_is_refused_with_an_example(given):
    with pytest.raises(PlanError) as refused:
        shop_of(OFFCUT + f'defects = ["{given}"]\n', "shed.toml")
    assert refused.value.where == "shed.toml, [[offcut]] 1, defects"
    assert given in refused.value.given or not given


def test_defects_that_are_no_list_are_refused():
    with pytest.raises(PlanError, match="a list of texts"):
        shop_of(OFFCUT + 'defects = "20 to 24"\n', "shed.toml")


def test_the_longest_board_one_carries_is_any_where_the_file_does_not_say():
    assert shop_of('name = "Shed"\n', "s").longest_carried is None
    assert shop_of('name = "Shed"\nlongest_carried = "8 ft"\n', "s").longest_carried == L("96 in")


def test_what_was_built_is_read():
    text = 'name = "Shed"\n[[built]]\nplan = "stool"\nversion = "1.2"\nused = ["R1"]\nkept = ["R4", "R5"]\n'
    assert shop_of(text, "s").built == (Built("stool", "1.2", ("R1",), ("R4", "R5")),)


def test_a_plan_without_a_version_was_built_too():
    assert shop_of('name = "Shed"\n[[built]]\nplan = "stool"\nversion = ""\n', "s").built == (Built("stool", ""),)


def test_a_shop_knows_its_file_as_it_lies_from_the_folder_of_the_work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    (tmp_path / "shop.toml").write_text('name = "Shed"\n', encoding="utf-8")
    (tmp_path / "plans").mkdir()
    monkeypatch.chdir(tmp_path / "plans")
    assert read("../shop.toml").file == "../shop.toml"
    assert read(tmp_path / "shop.toml").file == "../shop.toml"
    assert usual().file == ""
