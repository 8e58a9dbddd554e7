"""`plankit built`: the shop file follows what was built, once for every version."""

import json
import os
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from plankit.app.command import plankit
from plankit.shop import read
from tests.publish.cells import code, saved

SHOP = """name = "Shed"
[[board]]
stock = "2x4 loblolly pine"
length = "8 ft"
price = "9.00"
# the rack
[[offcut]]
stock = "2x4 loblolly pine"
length = "24"
label = "R1"
"""
PLAN = """
from plankit import Plan, stock
plan = Plan("Rails"{shop})
plan.about(summary="Two rails.", author="R. T.", version="{version}", published="2026-11-20")
pine = stock.lumber("2x4", species="loblolly pine")
long = plan.board("Long rail", pine, runs="left-right", wide="up", left=0, right="60", front=0, bottom=0)
short = plan.board("Short rail", pine, runs="left-right", wide="up", left=0, right="20", front=long.back, bottom=0)
plan.glue(short, onto=long)
plan.step("Cut them", works_on=[long, short], does="crosscut", minutes=5)
plan.step("Glue them", brings=[long, short], waits="glue", minutes=5)
plan.complete()
"""


def notebook(folder: Path, version: str = "1.0", shop: str = ', shop="shop.toml"') -> Path:
    return saved(folder / "rails.ipynb", code(PLAN.format(version=version, shop=shop)))


def ask(*words: str | Path) -> Result:
    return CliRunner().invoke(plankit, ["built", *(str(word) for word in words)])


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "shop.toml").write_text(SHOP, encoding="utf-8")
    return tmp_path


def test_used_offcuts_leave_the_file_and_new_ones_come_into_it(folder: Path):
    done = ask(notebook(folder))
    assert (done.exit_code, done.stderr) == (0, "")
    # 96 − 1/2 − 60 − 1/8 − 1/2 = 34 7/8 in are left of the board
    assert done.stdout.splitlines()[1:] == [
        "  taken out: R1, 2x4 loblolly pine, 24 in", "  put in: R2, 2x4 loblolly pine, 34 7/8 in",
    ]  # fmt: skip
    now = read(folder / "shop.toml")
    assert [(one.label, float(one.length.inches), one.note) for one in now.offcuts] == [
        ("R2", 34.875, "left of Rails 1.0, cutting drawing 2")
    ]
    assert (folder / "shop.toml").read_text(encoding="utf-8").startswith(SHOP.partition("[[offcut]]")[0])
    assert sorted(path.name for path in folder.iterdir()) == ["rails.ipynb", "shop.toml"]


def test_what_the_author_noted_of_an_offcut_goes_on_with_what_is_left_of_it(folder: Path):
    file = folder / "shop.toml"
    noted = 'length = "60"\nnote = "left of Stool 2.0, offcut R0; one face painted"'
    file.write_text(file.read_text(encoding="utf-8").replace('length = "24"', noted), encoding="utf-8")
    assert noted in file.read_text(encoding="utf-8")
    assert ask(notebook(folder)).exit_code == 0
    assert {one.label: one.note for one in read(file).offcuts} == {
        "R2": "left of Rails 1.0, cutting drawing 1; one face painted",
        "R3": "left of Rails 1.0, cutting drawing 2",
    }


def test_the_same_version_is_not_built_twice_but_the_next_one_is(folder: Path):
    ask(notebook(folder))
    once = (folder / "shop.toml").read_bytes()
    again = ask(notebook(folder))
    assert again.exit_code == 1
    assert "already that this version of the plan was built" in again.stderr
    assert (folder / "shop.toml").read_bytes() == once
    assert ask(notebook(folder, version="1.1")).exit_code == 0
    # 34 7/8 − 1/2 − 20 − 1/8 − 1/2 = 13 3/4 in are left of R2, and the new board's rest comes on top
    told = tomllib.loads((folder / "shop.toml").read_text(encoding="utf-8"))
    assert [(one["version"], one["used"], one["kept"]) for one in told["built"]] == [
        ("1.0", ["R1"], ["R2"]), ("1.1", ["R2"], ["R3", "R4"]),
    ]  # fmt: skip


def test_what_was_changed_is_told_as_json(folder: Path):
    done = ask(notebook(folder), "--json")
    assert json.loads(done.stdout) == {
        "exit": 0, "plan": "rails", "version": "1.0", "file": str(folder / "shop.toml"),
        "used": [{"label": "R1", "stock": "2x4 loblolly pine", "length": "24 in"}],
        "kept": [{"label": "R2", "stock": "2x4 loblolly pine", "length": "34 7/8 in"}],
    }  # fmt: skip
    again = ask(notebook(folder), "--json")
    assert json.loads(again.stdout)["error"]["given"] == "rails 1.0"


def test_nothing_is_said_where_quiet_is_asked_for(folder: Path):
    assert ask(notebook(folder), "--quiet").stdout == ""


def test_a_plan_without_a_shop_file_has_no_list_to_change(folder: Path):
    done = ask(notebook(folder, shop=""))
    assert done.exit_code == 1
    assert 'shop="shop.toml"' in done.stderr
    assert (folder / "shop.toml").read_text(encoding="utf-8") == SHOP


def test_a_plan_that_must_be_mended_first_changes_nothing(folder: Path):
    path = notebook(folder)
    broken = PLAN.replace("brings=[long, short]", "brings=[long]")
    saved(path, code(broken.format(version="1.0", shop=', shop="shop.toml"')))
    done = ask(path)
    assert done.exit_code == 1
    assert "must be fixed" in done.stderr
    assert (folder / "shop.toml").read_text(encoding="utf-8") == SHOP


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_that_may_not_be_written_keeps_the_old_file(folder: Path):
    path = notebook(folder)
    folder.chmod(0o555)
    try:
        assert ask(path).exit_code == 1
    finally:
        folder.chmod(0o755)
    assert (folder / "shop.toml").read_text(encoding="utf-8") == SHOP


def test_a_disk_that_is_full_keeps_the_old_file(folder: Path, monkeypatch: pytest.MonkeyPatch):
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    path = notebook(folder)
    monkeypatch.setattr("os.fsync", full)
    done = ask(path)
    assert done.exit_code == 1
    assert "the disk is full" in done.stderr
    assert (folder / "shop.toml").read_text(encoding="utf-8") == SHOP
    assert sorted(one.name for one in folder.iterdir()) == ["rails.ipynb", "shop.toml"]


def test_the_page_lists_the_marks_and_the_other_sizes(folder: Path):
    shop = SHOP.replace("# the rack", '[[board]]\nstock = "2x4 loblolly pine"\nlength = "12 ft"\nprice = "14.00"\n')
    (folder / "shop.toml").write_text(shop, encoding="utf-8")
    path = notebook(folder)
    done = CliRunner().invoke(plankit, ["make", str(path), "--to", "html", "--to", "json"])
    assert done.exit_code == 0, done.output
    page = (folder / "built" / "rails" / "index.html").read_text(encoding="utf-8")
    assert "If the store has only another size" in page
    assert "mark them and keep them" in page
    assert "R2: 34" in page
    told = json.loads((folder / "built" / "rails" / "plan.json").read_text(encoding="utf-8"))
    assert told["rack"]["file"] == "shop.toml"
    assert told["shopping_otherwise"][0]["only"] == "12 ft"
