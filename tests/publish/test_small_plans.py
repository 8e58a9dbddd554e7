"""Plans as a newcomer writes them: several steps in a cell, words mistyped, things left out."""

from pathlib import Path
from typing import Any

import pytest

from plankit.app.work import counted
from plankit.errors import PlanError
from plankit.publish.document import told_lines
from plankit.publish.making import html_exporter
from plankit.publish.page import page_of
from plankit.publish.run import run
from tests.publish.cells import code, prose, saved

BOX = """from plankit import Plan, stock
plan = Plan("Crate")
plan.about(summary="A crate.", author="R. T.", version="1.0", published="2026-11-20")
ply = stock.sheet("plywood", "3/4")
bottom = plan.panel("Bottom", ply, left=0, right="20", front=0, back="12", bottom=0)
side = plan.panel("Side", ply, left=0, front=0, back="12", bottom=bottom.top, top="9")
other = plan.mirror(side, of=bottom)
plan.glue([side, other], bottom)"""
STEPS = """plan.step("Cut", works_on=plan.parts, does="break down sheets", minutes=10)
plan.step("Lay the bottom down", brings=bottom, minutes=1)
plan.step("Stand the sides", brings=[side, other], onto=bottom, waits="glue", minutes=20)"""
LOOP = """for title, new in (("Lay the bottom down", bottom), ("Left", side), ("Right", other)):
    plan.step(title, brings=new, minutes=10)"""


def order(*cells: Any, tmp_path: Path, kernel: bool = False) -> list[str]:
    """What stands in the building section: the numbers of steps, and the words of prose."""
    page = page_of(run(saved(tmp_path / "crate.ipynb", code(BOX), *cells, code("plan.complete()")), kernel=kernel))
    return [str(one.step["number"]) if one.kind == "step" else one.html.strip() for one in page.blocks]


@pytest.mark.parametrize("kernel", [False, True], ids=["process", "kernel"])
def test_steps_written_in_one_cell_stand_where_the_cell_stands_in_their_order(tmp_path: Path, kernel: bool):
    """A notebook shows the last value of a cell only; the first two steps must not end up behind it."""
    found = order(prose("Before."), code(STEPS), prose("After."), tmp_path=tmp_path, kernel=kernel)
    assert found == ["<p>Before.</p>", "1", "2", "3", "<p>After.</p>"]


def test_steps_made_in_a_loop_stand_where_the_loop_stands(tmp_path: Path):
    found = order(code(LOOP), prose("After."), tmp_path=tmp_path)
    assert found == ["1", "2", "3", "<p>After.</p>"]


def test_a_loop_and_a_step_of_its_own_keep_their_order(tmp_path: Path):
    whole = code('plan.step("Sand it", works_on=plan.parts, minutes=10)')
    assert order(code(LOOP), prose("Then."), whole, tmp_path=tmp_path) == ["1", "2", "3", "<p>Then.</p>", "4"]


def test_a_step_kept_under_a_name_stands_where_it_was_made(tmp_path: Path):
    kept = code(STEPS.replace('plan.step("Stand', 'last = plan.step("Stand') + "\nNone")
    assert order(kept, prose("After."), code("last"), tmp_path=tmp_path) == ["1", "2", "3", "<p>After.</p>"]


def failure(tmp_path: Path, *cells: Any, kernel: bool = False) -> list[str]:
    with pytest.raises(PlanError) as caught:
        run(saved(tmp_path / "crate.ipynb", code(BOX), *cells), kernel=kernel)
    return caught.value.text().splitlines()


@pytest.mark.parametrize("kernel", [False, True], ids=["process", "kernel"])
def test_an_error_of_plankits_names_the_line_and_the_verb(tmp_path: Path, kernel: bool):
    lines = failure(tmp_path, code('x = 1\n\nplan.glue("side", bottom)\nx = 2'), kernel=kernel)
    assert lines[0] == "cell [2]: plan.glue(…): a part, or a list of parts, was expected."
    assert lines[-2:] == ["Line 3 of the cell:", '    plan.glue("side", bottom)']


def test_the_line_is_the_authors_even_inside_a_function_of_hers(tmp_path: Path):
    lines = failure(tmp_path, code("def stand(one):\n    plan.glue(one, one)\n\nstand(side)"))
    assert lines[-2:] == ["Line 2 of the cell:", "    plan.glue(one, one)"]


@pytest.mark.parametrize("kernel", [False, True], ids=["process", "kernel"])
def test_a_mistyped_role_stops_the_plan(tmp_path: Path, kernel: bool):
    lines = failure(tmp_path, prose("Each is {evl}`side.length` high."), kernel=kernel)
    assert lines[0].startswith("Markdown cell after cell [1]: there is no role {evl}")
    assert lines[-1].startswith("Did you mean eval?")


def test_a_role_in_code_is_an_example_and_stays(tmp_path: Path):
    found = order(prose("Write ``{evl}`x` ``.\n\n```\n{abbr}`y`\n```"), tmp_path=tmp_path)
    assert "{evl}`x`" in found[0]
    assert "{abbr}`y`" in found[0]


def test_a_mistyped_role_stops_a_notebook_that_was_run_elsewhere(tmp_path: Path):
    book = run(saved(tmp_path / "crate.ipynb", code(BOX), code("plan.complete()")))
    book.cells.append(prose("{evla}`side`"))
    with pytest.raises(PlanError, match=r"there is no role \{evla\}"):
        page_of(book)


def test_a_plan_for_nobody_and_without_a_licence_says_so_plainly(tmp_path: Path):
    book = run(saved(tmp_path / "crate.ipynb", code(BOX), code(STEPS), code("plan.complete()")))
    page = html_exporter().page(book)
    assert "Crate, version 1.0, by R. T. No licence is given with it: ask its author" in page
    assert "<title>Crate</title>" in page
    assert "for the" not in page.partition("About this plan</h2>")[2]
    assert not {"license", "publisher"} & set(page_of(book).structured)
    assert "CC BY" not in page


def test_a_plan_for_somebody_with_a_licence_says_both(tmp_path: Path):
    more = 'organisation="Tern Lane Tool Library", licence=("CC0", "https://example.org/cc0"), version'
    source = BOX.replace("version", more, 1)
    book = run(saved(tmp_path / "crate.ipynb", code(source), code(STEPS), code("plan.complete()")))
    page = html_exporter().page(book)
    about = page.partition("About this plan</h2>")[2]
    assert 'by R. T. for the Tern Lane Tool Library. Licence: <a href="https://example.org/cc0"' in about


def test_make_counts_findings_as_the_page_does(tmp_path: Path):
    """Two screws of an odd length in two parts: one line on the page, one in the count."""
    alike = {"level": "look at", "check": "odd length", "what": "Few have it.", "place": "", "number": "", "source": "",
             "remedy": "", "accepted": ""}  # fmt: skip
    assert counted([alike | {"part": "Side"}, alike | {"part": "Bottom"}]) == "Findings: 1 look at"
    assert told_lines([alike | {"part": "Side"}, alike | {"part": "Bottom", "number": "1 in"}])[0].splitlines() == [
        "look at · odd length: Side, Bottom: Few have it.", "    Here: 1 in.",
    ]  # fmt: skip
